// A plot drawn while its sides are typed, before all of them are known.
import type { Box, Point } from "./view";

/** Corners as far as the sides go, each turned square from the one before; the program has the true
ones once a diagonal is there. */
export function corners_so_far(sides: readonly (number | null)[]): Point[] {
  const ways: readonly Point[] = [[1, 0], [0, 1], [-1, 0], [0, -1]];
  const points: Point[] = [[0, 0]];
  for (const [i, [dx, dy]] of ways.entries()) {
    const side = sides[i] ?? null;
    const from = points[points.length - 1] as Point;
    if (side === null || side <= 0 || i === 3) break;
    points.push([from[0] + dx * side, from[1] + dy * side]);
  }
  return points;
}

export function box_around(points: readonly Point[]): Box | null {
  if (points.length === 0) return null;
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

export function wider(box: Box, by: number): Box {
  return [box[0] - by, box[1] - by, box[2] + by, box[3] + by];
}

export function both(a: Box | null, b: Box | null): Box | null {
  if (a === null || b === null) return a ?? b;
  return [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[2], b[2]), Math.max(a[3], b[3])];
}

/** How far an outline reaches along a way in the plan. */
export function reach_along(points: readonly Point[], [dx, dy]: Point): number {
  const long = Math.hypot(dx, dy) || 1;
  const along = points.map(([x, y]) => (x * dx + y * dy) / long);
  return points.length === 0 ? 0 : Math.max(...along) - Math.min(...along);
}

/** Degrees clockwise from the page's up to a way in the plan, 0 to 360. */
export function turn_of([dx, dy]: Point): number {
  return ((Math.atan2(dx, dy) * 180) / Math.PI + 360) % 360;
}
/** A way of length 1, so many degrees clockwise from the page's up. */
export function way_of(turn: number): [number, number] {
  const a = (turn * Math.PI) / 180;
  return [Math.sin(a), Math.cos(a)];
}

/** Twice the area, positive anticlockwise. */
export function signed_area_2(points: readonly Point[]): number {
  return points.reduce((sum, [x, y], i) => {
    const [u, v] = points[(i + 1) % points.length] as Point;
    return sum + x * v - u * y;
  }, 0);
}
