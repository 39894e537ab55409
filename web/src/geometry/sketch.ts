// What is drawn by hand: rectangles between corners or about a middle, legs of a length toward a side.
import type { Point } from "./view";

export type Size2 = readonly [number, number];

/** To a tenth of a millimetre, as the document keeps it. */
const tidy = (metres: number) => Math.round(metres * 1e4) / 1e4;

const radians = (degrees: number) => (degrees * Math.PI) / 180;

export function turned([x, y]: Point, degrees: number): Point {
  const [c, s] = [Math.cos(radians(degrees)), Math.sin(radians(degrees))];
  return [x * c - y * s, x * s + y * c];
}

export const plus = ([x, y]: Point, [u, v]: Point): Point => [x + u, y + v];
export const minus = ([x, y]: Point, [u, v]: Point): Point => [x - u, y - v];
export const times = ([x, y]: Point, by: number): Point => [x * by, y * by];
export const dot = ([x, y]: Point, [u, v]: Point): number => x * u + y * v;
export const cross = ([x, y]: Point, [u, v]: Point): number => x * v - y * u;
export const apart = ([x, y]: Point, [u, v]: Point): number => Math.hypot(u - x, v - y);

/** A rectangle by its first corner: the lower left one before it is turned about it. */
export function rectangle(at: Point, [wide, deep]: Size2, turn_deg = 0): Point[] {
  const corners: Point[] = [[0, 0], [wide, 0], [wide, deep], [0, deep]];
  return corners.map((corner) => plus(at, turned(corner, turn_deg)));
}

export interface Box2 {
  at: Point;
  size: Size2;
}

/** The upright rectangle between two opposite corners. */
export function box_between(a: Point, b: Point): Box2 {
  return {
    at: [tidy(Math.min(a[0], b[0])), tidy(Math.min(a[1], b[1]))],
    size: [tidy(Math.abs(b[0] - a[0])), tidy(Math.abs(b[1] - a[1]))],
  };
}

/** The first corner of a rectangle that has its middle there. */
export function about(middle: Point, [wide, deep]: Size2, turn_deg = 0): Point {
  const half = turned([wide / 2, deep / 2], turn_deg);
  return [tidy(middle[0] - half[0]), tidy(middle[1] - half[1])];
}

/** Where a leg ends: `bearing_deg` clockwise from the page's up. */
export function leg_end(from: Point, long_m: number, bearing_deg: number): Point {
  const t = radians(bearing_deg);
  return [tidy(from[0] + long_m * Math.sin(t)), tidy(from[1] + long_m * Math.cos(t))];
}

/** Clockwise from the page's up, 0 to 360. */
export function leg_bearing(from: Point, to: Point): number {
  const degrees = (Math.atan2(to[0] - from[0], to[1] - from[1]) * 180) / Math.PI;
  return (Math.round(degrees * 10) / 10 + 360) % 360;
}

export function length_of(line: readonly Point[]): number {
  return line.reduce((sum, p, i) => (i === 0 ? 0 : sum + apart(line[i - 1] as Point, p)), 0);
}

export function area_of(outline: readonly Point[]): number {
  const twice = outline.reduce((sum, p, i) => sum + cross(p, outline[(i + 1) % outline.length] as Point), 0);
  return Math.abs(twice) / 2;
}

const is_place = (value: unknown): value is Point =>
  Array.isArray(value) && value.length === 2 && value.every((one) => typeof one === "number");
const places_in = (value: unknown): Point[] => (Array.isArray(value) ? value.filter(is_place) : []);

export interface Lie {
  corners: Point[];
  closed: boolean;
}

/** Where a thing with these keys lies. Its sides and places are metres here, not text. */
export function lie_of(set: Readonly<Record<string, unknown>>): Lie {
  const { at, size, outline, line, row, turn_deg } = set;
  if (Array.isArray(outline)) return { corners: places_in(outline), closed: true };
  if (Array.isArray(line)) return { corners: places_in(line), closed: false };
  if (Array.isArray(row)) return { corners: places_in(row), closed: false };
  if (!is_place(at)) return { corners: [], closed: false };
  if (!is_place(size) || set["facing"] !== undefined) return { corners: [at], closed: false };
  return { corners: rectangle(at, size, typeof turn_deg === "number" ? turn_deg : 0), closed: true };
}
