// The field of light on its canvas: between cells the figures are blended, then banded, so that
// the edges of the bands are lines at any zoom.
import type { Field } from "../api";
import type { View } from "../geometry";
import type { Lookup } from "./light_colours";

interface Blend {
  at: Int32Array; // of each pixel of the window, the cell to the left or below
  share: Float32Array; // of the next one
  from: number; // the first pixel that lies on the field
  to: number;
}

function blend(pixels: Window["x"], cells: number, cell_at: (pixel: number) => number): Blend {
  const n = Math.max(0, pixels.to - pixels.from);
  const at = new Int32Array(n);
  const share = new Float32Array(n);
  let [from, to] = [pixels.to, pixels.from];
  for (let p = pixels.from; p < pixels.to; ++p) {
    const cell = cell_at(p + 0.5);
    if (cell < 0 || cell >= cells) continue;
    from = Math.min(from, p);
    to = p + 1;
    const middle = Math.max(0, Math.min(cells - 1, cell - 0.5));
    const low = Math.min(Math.floor(middle), Math.max(0, cells - 2));
    at[p - pixels.from] = low;
    share[p - pixels.from] = middle - low;
  }
  return { at, share, from, to };
}

/** Pixels from `from` up to, not with, `to`. */
export interface Window {
  x: { from: number; to: number };
  y: { from: number; to: number };
}

/** Fills `pixels`, a row of the screen after the other, within the window. */
export function paint_field(
  field: Field,
  view: View,
  width: number,
  window: Window,
  lookup: Lookup,
  pixels: Uint32Array,
): void {
  const { head, cells } = field;
  const none = head.signed ? -32768 : 65535;
  const [x0 = 0, y0 = 0] = head.corner_m;
  const per_cell = 1 / head.cell_m;
  const { columns } = head;
  const over = blend(window.x, columns, (p) => (view.left + p / view.scale - x0) * per_cell);
  const up = blend(window.y, head.rows, (p) => (view.top - p / view.scale - y0) * per_cell);
  const most = lookup.pixels.length - 1;
  const right = columns > 1 ? 1 : 0;
  const above = head.rows > 1 ? columns : 0;
  for (let y = window.y.from; y < window.y.to; ++y) {
    const out = y * width;
    pixels.fill(0, out + window.x.from, out + window.x.to);
    if (y < up.from || y >= up.to) continue;
    const row = (up.at[y - window.y.from] as number) * columns;
    const v = up.share[y - window.y.from] as number;
    for (let x = over.from; x < over.to; ++x) {
      const i = row + (over.at[x - window.x.from] as number);
      const h = over.share[x - window.x.from] as number;
      const nearest = cells[i + (h > 0.5 ? right : 0) + (v > 0.5 ? above : 0)] as number;
      if (nearest === none) continue;
      const a = cells[i] as number;
      const b = cells[i + right] as number;
      const c = cells[i + above] as number;
      const d = cells[i + above + right] as number;
      let value = nearest;
      if (a !== none && b !== none && c !== none && d !== none)
        value = (a + (b - a) * h) * (1 - v) + (c + (d - c) * h) * v;
      const index = (value - lookup.lowest + 0.5) | 0;
      pixels[out + x] = lookup.pixels[index < 0 ? 0 : index > most ? most : index] as number;
    }
  }
}

const lies_alike = (a: Field["head"], b: Field["head"]) =>
  a.columns === b.columns && a.rows === b.rows && a.cell_m === b.cell_m && String(a.corner_m) === String(b.corner_m);

/** Where two fields of one kind differ, as pixels of a sheet; null: they do not lie alike. */
export function changed_window(was: Field, now: Field, view: View, width: number, height: number): Window | null {
  if (!lies_alike(was.head, now.head)) return null;
  const { columns, rows, cell_m } = now.head;
  let [left, right, low, high] = [columns, -1, rows, -1];
  for (let r = 0; r < rows; ++r) {
    const row = r * columns;
    let first = 0;
    while (first < columns && was.cells[row + first] === now.cells[row + first]) ++first;
    if (first === columns) continue;
    let last = columns - 1;
    while (was.cells[row + last] === now.cells[row + last]) --last;
    [left, right] = [Math.min(left, first), Math.max(right, last)];
    [low, high] = [Math.min(low, r), r];
  }
  const [x0 = 0, y0 = 0] = now.head.corner_m;
  // A cell's figure reaches to the middles of those beside it.
  const x_at = (column: number) => (x0 + column * cell_m - view.left) * view.scale;
  const y_at = (row: number) => (view.top - y0 - row * cell_m) * view.scale;
  const within = (pixel: number, most: number) => Math.max(0, Math.min(most, pixel));
  if (right < 0) return { x: { from: 0, to: 0 }, y: { from: 0, to: 0 } };
  return {
    x: { from: within(Math.floor(x_at(left - 1)), width), to: within(Math.ceil(x_at(right + 2)), width) },
    y: { from: within(Math.floor(y_at(high + 2)), height), to: within(Math.ceil(y_at(low - 1)), height) },
  };
}
