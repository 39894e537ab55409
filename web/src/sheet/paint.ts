// The field of light on its canvas: between cells the figures are blended, then banded, so that
// the edges of the bands are lines at any zoom.
import type { Field } from "../api";
import type { View } from "../geometry";
import type { Lookup } from "./light_colours";

interface Blend {
  at: Int32Array; // the cell to the left or below
  share: Float32Array; // of the next one
  from: number; // the first pixel that lies on the field
  to: number;
}

function blend(pixels: number, cells: number, cell_at: (pixel: number) => number): Blend {
  const at = new Int32Array(pixels);
  const share = new Float32Array(pixels);
  let [from, to] = [pixels, 0];
  for (let p = 0; p < pixels; ++p) {
    const cell = cell_at(p + 0.5);
    if (cell < 0 || cell >= cells) continue;
    from = Math.min(from, p);
    to = p + 1;
    const middle = Math.max(0, Math.min(cells - 1, cell - 0.5));
    const low = Math.min(Math.floor(middle), Math.max(0, cells - 2));
    at[p] = low;
    share[p] = middle - low;
  }
  return { at, share, from, to };
}

/** Fills `pixels`, a row of the screen after the other. */
export function paint_field(
  field: Field,
  view: View,
  width: number,
  height: number,
  lookup: Lookup,
  pixels: Uint32Array,
): void {
  pixels.fill(0);
  const { head, cells } = field;
  const none = head.signed ? -32768 : 65535;
  const [x0 = 0, y0 = 0] = head.corner_m;
  const per_cell = 1 / head.cell_m;
  const { columns } = head;
  const over = blend(width, columns, (p) => (view.left + p / view.scale - x0) * per_cell);
  const up = blend(height, head.rows, (p) => (view.top - p / view.scale - y0) * per_cell);
  const most = lookup.pixels.length - 1;
  const right = columns > 1 ? 1 : 0;
  const above = head.rows > 1 ? columns : 0;
  for (let y = up.from; y < up.to; ++y) {
    const row = (up.at[y] as number) * columns;
    const v = up.share[y] as number;
    const out = y * width;
    for (let x = over.from; x < over.to; ++x) {
      const i = row + (over.at[x] as number);
      const h = over.share[x] as number;
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
