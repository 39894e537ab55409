// Brushes of a sun print: for each kind of region the colour of a pixel, packed as a canvas keeps it.
// Lines of a hatch are looked up along the way they cross, so that no pixel is reckoned twice.
import {
  half_line, half_strength, type Hatch, hatch_cover, line_cover, mixed, type Rgb, stripe_at, type Way,
} from "./hatches";

const most = 63; // shades between tint and ink

export type Brush = (i: number, j: number) => number;
export interface Paint {
  hatch: Hatch | null; // null: plain
  ink: Rgb;
  tint: Rgb;
}
export interface Grain {
  wide: number; // pixels
  high: number;
  ratio: number; // pixels of the screen in one of the page
}

export function packed([red, green, blue]: Rgb): number {
  return ((255 << 24) | (Math.round(blue) << 16) | (Math.round(green) << 8) | Math.round(red)) >>> 0;
}
function shades(from: Rgb, to: Rgb, share = 1): Uint32Array {
  return Uint32Array.from({ length: most + 1 }, (_, n) => packed(mixed(from, to, (n / most) * share)));
}

const root_half = Math.SQRT1_2;
/** How much of the lines lies on each place across them; `from` is the first place's number. */
function line_table(count: number, from: number, unit: number, spacing: number, width: number): Uint8Array {
  return Uint8Array.from({ length: count }, (_, n) => Math.round(most * line_cover((n + from) * unit, spacing, width)));
}
function lines_of(way: Way, { wide, high, ratio }: Grain, spacing: number, width: number): Brush {
  const count = wide + high + 1;
  if (way === "rising") {
    const table = line_table(count, 1, root_half / ratio, spacing, width);
    return (i, j) => table[i + j] as number;
  }
  if (way === "falling") {
    const table = line_table(count, -high, root_half / ratio, spacing, width);
    return (i, j) => table[i - j + high] as number;
  }
  const table = line_table(count, 0.5, 1 / ratio, spacing, width);
  return way === "upright" ? (i) => table[i] as number : (_, j) => table[j] as number;
}

/** Dots keep within their squares, so that a tile of many squares can be laid again and again. */
const squares = 15;
const tiles = new Map<string, Uint8Array>();
function tile_of(hatch: Extract<Hatch, { kind: "dots" }>, ratio: number, across: number): Uint8Array {
  const key = `${hatch.spacing} ${hatch.radius} ${ratio}`;
  const known = tiles.get(key);
  if (known !== undefined) return known;
  const tile = new Uint8Array(across * across);
  for (let j = 0, at = 0; j < across; ++j)
    for (let i = 0; i < across; ++i, ++at)
      tile[at] = Math.round(most * hatch_cover(hatch, (i + 0.5) / ratio, (j + 0.5) / ratio));
  tiles.set(key, tile);
  return tile;
}
function dots_of(hatch: Extract<Hatch, { kind: "dots" }>, { ratio }: Grain): Brush {
  const across = Math.max(1, Math.round(squares * hatch.spacing * ratio));
  const tile = tile_of(hatch, ratio, across);
  return (i, j) => tile[(j % across) * across + (i % across)] as number;
}

function covers(hatch: Hatch, grain: Grain): Brush {
  if (hatch.kind === "dots") return dots_of(hatch, grain);
  const [one, other] = hatch.ways.map((way) => lines_of(way, grain, hatch.spacing, hatch.width));
  if (one === undefined) return () => 0;
  return other === undefined ? one : (i, j) => Math.max(one(i, j), other(i, j));
}

export function plain(colour: Rgb): Brush {
  const of = packed(colour);
  return () => of;
}
/** The ink of one. */
export function whole_brush({ hatch, tint, ink }: Paint, grain: Grain): Brush {
  if (hatch === null) return plain(tint);
  const cover = covers(hatch, grain);
  const table = shades(tint, ink);
  return (i, j) => table[cover(i, j)] as number;
}
/** Stripes of two, parted by the paper. */
export function striped_brush(first: Brush, second: Brush, paper: Rgb, { ratio }: Grain): Brush {
  return (i, j) => {
    const stripe = stripe_at((i + 0.5) / ratio, (j + 0.5) / ratio);
    const colour = (stripe.second ? second : first)(i, j);
    return stripe.rim > 0 ? packed_mix(colour, paper, stripe.rim) : colour;
  };
}
/** Lines over the sun's yellow; of two every other line is the second's. */
export function half_brushes(sun: Rgb, { wide, high, ratio }: Grain, is_bold: boolean): (first: Rgb, second: Rgb) => Brush {
  const count = wide + high + 1;
  const [covers, others] = [new Uint8Array(count), new Uint8Array(count)];
  for (let n = 0; n < count; ++n) {
    const { cover, number } = half_line((n + 1) / ratio, 0);
    covers[n] = Math.round(most * cover);
    others[n] = Math.abs(number % 2);
  }
  return (first, second) => {
    const tables = [first, second].map((ink) => shades(sun, ink, half_strength(is_bold)));
    const [one, other] = tables as [Uint32Array, Uint32Array];
    return (i, j) => (others[i + j] === 1 ? other : one)[covers[i + j] as number] as number;
  };
}

export function packed_mix(colour: number, to: Rgb, share: number): number {
  const red = (colour & 255) * (1 - share) + to[0] * share;
  const green = ((colour >> 8) & 255) * (1 - share) + to[1] * share;
  const blue = ((colour >> 16) & 255) * (1 - share) + to[2] * share;
  return ((255 << 24) | ((blue + 0.5) << 16) | ((green + 0.5) << 8) | (red + 0.5)) >>> 0;
}
