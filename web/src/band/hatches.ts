// Each taker's own hatch in its own ink, the same on sheet, print and bars.
export const inks = ["#8e894e", "#68154d", "#6769bf", "#3c8f8c", "#835d63"] as const;
export const skyline_grey = "#9a948a";
export const skyline = -1;

export type Hatch =
  | { kind: "lines"; ways: readonly Way[]; spacing: number; width: number }
  | { kind: "dots"; spacing: number; radius: number };
export type Way = "rising" | "falling" | "upright" | "level";

/** `ink` as the program counts them: from 0 those of their own, then graphite; −1 the skyline. */
export function hatch_of(ink: number): Hatch {
  switch (ink) {
    case skyline:
      return { kind: "lines", ways: ["level"], spacing: 3, width: 0.75 };
    case 0:
      return { kind: "lines", ways: ["rising"], spacing: 3.4, width: 1 };
    case 1:
      return { kind: "lines", ways: ["rising", "falling"], spacing: 4, width: 0.9 };
    case 2:
      return { kind: "lines", ways: ["falling"], spacing: 3.4, width: 1 };
    case 3:
      return { kind: "lines", ways: ["upright"], spacing: 3.4, width: 1 };
    case 4:
      return { kind: "lines", ways: ["level", "upright"], spacing: 4, width: 0.9 };
    default:
      return { kind: "dots", spacing: 3.6, radius: 0.75 };
  }
}

export function ink_colour(ink: number, graphite: string): string {
  return ink === skyline ? skyline_grey : (inks[ink] ?? graphite);
}

const root_half = Math.SQRT1_2;
function across(way: Way, x: number, y: number): number {
  if (way === "rising") return (x + y) * root_half;
  if (way === "falling") return (x - y) * root_half;
  return way === "upright" ? x : y;
}

/** How much of a line of that spacing and width lies on a pixel, 0 to 1; `at` across the lines. */
export function line_cover(at: number, spacing: number, width: number): number {
  const off = Math.abs((((at % spacing) + spacing) % spacing) - spacing / 2);
  return Math.max(0, Math.min(1, width / 2 + 0.5 - off));
}

/** A scatter that is the same each time. */
function scatter(i: number, j: number): number {
  const n = Math.imul(i * 374761393 + j * 668265263, 1274126177);
  return (((n ^ (n >>> 15)) >>> 0) % 1024) / 1024;
}

function dot_cover(x: number, y: number, spacing: number, radius: number): number {
  const [i, j] = [Math.floor(x / spacing), Math.floor(y / spacing)];
  const room = spacing - 2 * radius - 0.4;
  const at_x = i * spacing + radius + 0.2 + room * scatter(i, j);
  const at_y = j * spacing + radius + 0.2 + room * scatter(j + 977, i);
  return Math.max(0, Math.min(1, radius + 0.5 - Math.hypot(x - at_x, y - at_y)));
}

/** How much of the hatch's ink lies on a pixel, 0 to 1. */
export function hatch_cover(hatch: Hatch, x: number, y: number): number {
  if (hatch.kind === "dots") return dot_cover(x, y, hatch.spacing, hatch.radius);
  let cover = 0;
  for (const way of hatch.ways) cover = Math.max(cover, line_cover(across(way, x, y), hatch.spacing, hatch.width));
  return cover;
}

/** A place lit in part: as much line as yellow, and lighter than a whole bite of the same ink. */
export const half_hatch = { spacing: 4.6, width: 2.2 };
export const half_strength = (is_bold: boolean): number => (is_bold ? 0.7 : 0.6);
export function half_line(x: number, y: number): { cover: number; number: number } {
  const at = across("rising", x, y);
  return { cover: line_cover(at, half_hatch.spacing, half_hatch.width), number: Math.floor(at / half_hatch.spacing) };
}

/** Which of two stripes a pixel lies in, and how near their common rim. */
export const stripe_width = 6;
export function stripe_at(x: number, y: number): { second: boolean; rim: number } {
  const at = x * 0.866 + y * 0.5;
  const number = Math.floor(at / stripe_width);
  const into = at - number * stripe_width;
  return { second: number % 2 !== 0, rim: Math.max(0, 1 - Math.min(into, stripe_width - into)) };
}

export type Rgb = readonly [number, number, number];
export function rgb_of(colour: string): Rgb {
  const hex = /^#?([0-9a-f]{3}|[0-9a-f]{6})$/i.exec(colour.trim())?.[1] ?? "000000";
  const long = hex.length === 3 ? [...hex].map((c) => c + c).join("") : hex;
  return [0, 2, 4].map((at) => Number.parseInt(long.slice(at, at + 2), 16)) as unknown as Rgb;
}
export function mixed(from: Rgb, to: Rgb, share: number): Rgb {
  return [0, 1, 2].map((i) => (from[i] as number) + ((to[i] as number) - (from[i] as number)) * share) as unknown as Rgb;
}
