// A sun print cut into the regions that are painted alike, as the printed one is, and the rooms in
// them for a name.
import type { Print } from "../api";

export const nobody = 255;
export const the_skyline = 254;
export const night = -2;
export const weak = -1; // the sun is low, or behind a face

export interface Kind {
  what: "lit" | "half" | "whole";
  taker: number;
  second: number; // `nobody`: not striped
}
export interface Regions {
  kinds: Kind[];
  kind_of: Int16Array; // of each cell, column by column; `night`, `weak`, or a number of kinds
  columns: number;
  rows: number;
}
export interface Piece {
  kind: number;
  cells: Int32Array;
}

/** Of what faces the sun over three quarters lit is plain, from a quarter on half-hatched. */
function what_of(lit: number): Kind["what"] {
  return lit > 0.75 * 255 ? "lit" : lit > 0.25 * 255 ? "half" : "whole";
}

export function regions_of(print: Print, speck: number): Regions {
  const { columns, rows } = print.head;
  const kinds: Kind[] = [];
  const known = new Map<number, number>();
  let [last_key, last_number] = [-1, -1]; // most cells are as the one below
  const kind_of = new Int16Array(columns * rows);
  for (let cell = 0; cell < kind_of.length; ++cell) {
    const lit = print.cells[4 * cell] as number;
    const light = print.cells[4 * cell + 1] as number;
    const taker = print.cells[4 * cell + 2] as number;
    const second = print.cells[4 * cell + 3] as number;
    const is_strong = (light & 2) !== 0 && (lit > 0 || taker !== nobody);
    if (!is_strong) {
      kind_of[cell] = (light & 1) !== 0 ? weak : night;
      continue;
    }
    const what = what_of(lit);
    const key = what === "lit" ? 0 : (what === "half" ? 65536 : 131072) + taker * 256 + second;
    if (key !== last_key) {
      const number = known.get(key) ?? kinds.push(what === "lit" ? { what, taker: nobody, second: nobody } : { what, taker, second }) - 1;
      known.set(key, number);
      [last_key, last_number] = [key, number];
    }
    kind_of[cell] = last_number;
  }
  const regions = { kinds, kind_of, columns, rows };
  absorb_specks(regions, speck);
  return regions;
}

function each_beside(regions: Regions, cell: number, act: (other: number) => void): void {
  const { rows, kind_of } = regions;
  const row = cell % rows;
  if (row > 0) act(cell - 1);
  if (row + 1 < rows) act(cell + 1);
  if (cell >= rows) act(cell - rows);
  if (cell + rows < kind_of.length) act(cell + rows);
}

/** Cells of one kind that hang together by their sides. */
export function pieces_of(regions: Regions): Piece[] {
  const { kind_of } = regions;
  const { rows } = regions;
  const count = kind_of.length;
  const seen = new Uint8Array(count);
  const found = new Int32Array(count); // piece after piece
  const pieces: Piece[] = [];
  let end = 0;
  for (let start = 0; start < count; ++start) {
    const kind = kind_of[start] as number;
    if (kind < 0 || seen[start] === 1) continue;
    const from = end;
    found[end++] = start;
    seen[start] = 1;
    for (let next = from; next < end; ++next) {
      const cell = found[next] as number;
      const row = cell % rows;
      for (let side = 0; side < 4; ++side) {
        if ((side === 0 && row === 0) || (side === 1 && row + 1 === rows)) continue;
        const other = side === 0 ? cell - 1 : side === 1 ? cell + 1 : side === 2 ? cell - rows : cell + rows;
        if (other < 0 || other >= count || seen[other] === 1 || kind_of[other] !== kind) continue;
        seen[other] = 1;
        found[end++] = other;
      }
    }
    pieces.push({ kind, cells: found.subarray(from, end) });
  }
  return pieces;
}

/** Specks go to the neighbour with the longest common side: in the drawing, not in the data. */
function absorb_specks(regions: Regions, speck: number): void {
  for (const { kind, cells } of pieces_of(regions)) {
    const is_striped = regions.kinds[kind]?.second !== nobody;
    if (cells.length >= (is_striped ? 2.5 * speck : speck)) continue;
    const sides = new Map<number, number>();
    for (const cell of cells)
      each_beside(regions, cell, (other) => {
        const beside = regions.kind_of[other] as number;
        if (beside !== kind && beside >= 0) sides.set(beside, (sides.get(beside) ?? 0) + 1);
      });
    const most = [...sides].reduce<[number, number] | null>((a, b) => (a === null || b[1] > a[1] ? b : a), null);
    if (most !== null) for (const cell of cells) regions.kind_of[cell] = most[0];
  }
}

/** The middle of the box of so many columns and rows that lies wholly within the piece, nearest to its own
 * middle; null when none fits. */
export function room_within(regions: Regions, piece: Piece, wide: number, high: number): [number, number] | null {
  const { rows } = regions;
  if (piece.cells.length < wide * high) return null;
  let [left, right, low, up] = [Infinity, 0, Infinity, 0];
  let [sum_c, sum_r] = [0, 0];
  for (const cell of piece.cells) {
    const c = Math.floor(cell / rows);
    const r = cell % rows;
    [left, right, low, up] = [Math.min(left, c), Math.max(right, c), Math.min(low, r), Math.max(up, r)];
    sum_c += c + 0.5;
    sum_r += r + 0.5;
  }
  const [across, along] = [right - left + 1, up - low + 1];
  const stride = along + 1;
  const sums = new Int32Array((across + 1) * stride);
  for (const cell of piece.cells) sums[(Math.floor(cell / rows) - left + 1) * stride + (cell % rows) - low + 1] = 1;
  const at = (c: number, r: number) => sums[c * stride + r] as number;
  for (let c = 1; c <= across; ++c)
    for (let r = 1; r <= along; ++r) sums[c * stride + r] = at(c, r) + at(c - 1, r) + at(c, r - 1) - at(c - 1, r - 1);
  const heart = [sum_c / piece.cells.length, sum_r / piece.cells.length] as const;
  let best: [number, number] | null = null;
  let least = Infinity;
  for (let c = 0; c + wide <= across; ++c)
    for (let r = 0; r + high <= along; ++r) {
      if (at(c + wide, r + high) - at(c, r + high) - at(c + wide, r) + at(c, r) < wide * high) continue;
      const middle: [number, number] = [left + c + wide / 2, low + r + high / 2];
      const off = ((middle[0] - heart[0]) / wide) ** 2 + ((middle[1] - heart[1]) / high) ** 2;
      if (off < least) [least, best] = [off, middle];
    }
  return best;
}

/** The middle of the piece's cell nearest to the mean of all, of those that are free; null when none is. */
export function heart_of(
  { rows }: Regions,
  { cells }: Piece,
  is_free: (at: [number, number]) => boolean = () => true,
): [number, number] | null {
  let [mean_c, mean_r] = [0, 0];
  for (const cell of cells) {
    mean_c += (Math.floor(cell / rows) + 0.5) / cells.length;
    mean_r += ((cell % rows) + 0.5) / cells.length;
  }
  let best: [number, number] | null = null;
  let least = Infinity;
  for (const cell of cells) {
    const at: [number, number] = [Math.floor(cell / rows) + 0.5, (cell % rows) + 0.5];
    const off = Math.hypot(at[0] - mean_c, at[1] - mean_r);
    if (off < least && is_free(at)) [least, best] = [off, at];
  }
  return best;
}
