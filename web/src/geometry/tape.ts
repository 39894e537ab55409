// Where a point is by tape: so far from two points, or squared off two lines.
import { apart, cross, dot, minus, plus, times } from "./sketch";
import type { Point } from "./view";

export interface Taped {
  fits: Point[]; // where it can be: none, one or two
  short_m: number; // by so much the tapes do not meet; 0: they do
}

const tidy = ([x, y]: Point): Point => [Math.round(x * 1e4) / 1e4, Math.round(y * 1e4) / 1e4];
/** Tapes that miss each other by less meet: nobody reads finer. */
const slack_m = 0.005;

/** So far from `a` and so far from `b`: two places, one on each side, left of the way from a to b first. */
export function by_ties(a: Point, from_a: number, b: Point, from_b: number): Taped {
  const d = apart(a, b);
  if (d < 1e-6) return { fits: [], short_m: 0 };
  const miss = Math.max(d - from_a - from_b, Math.abs(from_a - from_b) - d);
  if (miss > slack_m) return { fits: [], short_m: miss };
  const along = (from_a * from_a - from_b * from_b + d * d) / (2 * d);
  const off = Math.sqrt(Math.max(0, from_a * from_a - along * along));
  const way = times(minus(b, a), 1 / d);
  const foot = plus(a, times(way, along));
  const left: Point = [-way[1] * off, way[0] * off];
  if (off < slack_m) return { fits: [tidy(foot)], short_m: 0 };
  return { fits: [tidy(plus(foot, left)), tidy(minus(foot, left))], short_m: 0 };
}

export interface Line {
  a: Point;
  b: Point;
}

/** From a point to a line's nearest place between its ends. */
export function foot_distance(p: Point, { a, b }: Line): number {
  const way = minus(b, a);
  const t = Math.max(0, Math.min(1, dot(minus(p, a), way) / (dot(way, way) || 1)));
  return apart(p, plus(a, times(way, t)));
}

/** Squared off two lines, on any side of each: four places, the nearest to `near` first; none for
lines that do not meet. */
export function by_offsets(one: Line, off_one: number, other: Line, off_other: number, near: Point): Point[] {
  const [u, v] = [minus(one.b, one.a), minus(other.b, other.a)];
  const turn = cross(u, v);
  const [long_u, long_v] = [Math.hypot(...u), Math.hypot(...v)];
  if (Math.abs(turn) < 0.02 * long_u * long_v) return [];
  const found: Point[] = [];
  for (const s of off_one === 0 ? [1] : [1, -1])
    for (const t of off_other === 0 ? [1] : [1, -1]) {
      // n·p = c on each of the lines set off.
      const [n, m]: [Point, Point] = [[-u[1] / long_u, u[0] / long_u], [-v[1] / long_v, v[0] / long_v]];
      const [c, e] = [dot(n, one.a) + s * off_one, dot(m, other.a) + t * off_other];
      const det = cross(n, m);
      found.push(tidy([(c * m[1] - e * n[1]) / det, (n[0] * e - m[0] * c) / det]));
    }
  return found.sort((p, q) => apart(p, near) - apart(q, near));
}

const across = (x: number) => (x < 0 ? "left" : "right");
const upward = (y: number) => (y < 0 ? "lower" : "upper");

/** "left end", "upper right corner", "corner 5": a corner as one sees it on the page. */
export function corner_says(corners: readonly Point[], closed: boolean, i: number): string {
  const n = corners.length;
  const at = corners[i] as Point;
  if (!closed) {
    if (i !== 0 && i !== n - 1) return `corner ${i + 1}`;
    const [dx, dy] = minus(at, corners[i === 0 ? n - 1 : 0] as Point);
    return Math.abs(dx) >= Math.abs(dy) ? `${across(dx)} end` : `${upward(dy)} end`;
  }
  const middle = times(corners.reduce(plus, [0, 0] as Point), 1 / n);
  const quarter = ([x, y]: Point) => `${upward(y - middle[1])} ${across(x - middle[0])}`;
  const says = quarter(at);
  return corners.filter((corner) => quarter(corner) === says).length === 1 ? `${says} corner` : `corner ${i + 1}`;
}

/** "left side", "side 3": of a closed outline. */
export function side_says(corners: readonly Point[], i: number): string {
  const n = corners.length;
  const middle = times(corners.reduce(plus, [0, 0] as Point), 1 / n);
  const way = (k: number) => {
    const [dx, dy] = minus(times(plus(corners[k] as Point, corners[(k + 1) % n] as Point), 0.5), middle);
    return Math.abs(dx) > Math.abs(dy) ? across(dx) : upward(dy);
  };
  const says = way(i);
  return corners.filter((_, k) => way(k) === says).length === 1 ? `${says} side` : `side ${i + 1}`;
}
