// Where things lie, which one is under a finger, which one is next.
import type { Thing } from "../api";
import type { Box, Point } from "./view";

export function centre(thing: Thing): Point {
  const [x0, y0, x1, y1] = bounds(thing, false);
  return [(x0 + x1) / 2, (y0 + y1) / 2];
}

/** The least box around a thing; with its reach, or its corners alone. */
export function bounds(thing: Thing, with_reach = true): Box {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x = 0, y = 0] of thing.corners) {
    [x0, y0] = [Math.min(x0, x), Math.min(y0, y)];
    [x1, y1] = [Math.max(x1, x), Math.max(y1, y)];
  }
  const reach = with_reach ? thing.reach_m : 0;
  return [x0 - reach, y0 - reach, x1 + reach, y1 + reach];
}

function to_segment([px, py]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const [dx, dy] = [bx - ax, by - ay];
  const long = dx * dx + dy * dy;
  const t = long === 0 ? 0 : Math.max(0, Math.min(1, ((px - ax) * dx + (py - ay) * dy) / long));
  return Math.hypot(px - ax - t * dx, py - ay - t * dy);
}

export function is_inside([px, py]: Point, outline: readonly Point[]): boolean {
  let inside = false;
  outline.forEach(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length] as Point;
    if (ay > py !== by > py && px < ax + ((py - ay) / (by - ay)) * (bx - ax)) inside = !inside;
  });
  return inside;
}

const points_of = (thing: Thing) => thing.corners as unknown as Point[];

/** Things whose corners are stems of their own, not a line. */
const stands_apart = (thing: Thing) => thing.table === "plant";

/** How far a point is from a thing, metres; 0 within it. */
export function distance(thing: Thing, at: Point): number {
  const corners = points_of(thing);
  const first = corners[0];
  if (first === undefined) return Infinity;
  if (thing.closed && is_inside(at, corners)) return 0;
  let least = Infinity;
  if (corners.length === 1 || stands_apart(thing)) {
    for (const corner of corners) least = Math.min(least, to_segment(at, corner, corner));
  } else {
    const sides = thing.closed ? corners.length : corners.length - 1;
    for (let i = 0; i < sides; ++i)
      least = Math.min(least, to_segment(at, corners[i] as Point, corners[(i + 1) % corners.length] as Point));
  }
  return Math.max(0, least - thing.reach_m);
}

/** What a finger means first: what stands in the garden before what lies beneath it. */
const beneath: Record<string, number> = { area: 1, path: 1, patch: 3, service: 2, point: 1, view: 4, hide: 4, watch: 4 };

/** A line of sight stands where its ends stand. */
export const goes_with_others = (thing: Thing): boolean => thing.table === "view" || thing.table === "hide" || thing.table === "watch";

function extent_of(thing: Thing): number {
  const [x0, y0, x1, y1] = bounds(thing);
  return (x1 - x0) * (y1 - y0);
}

/** A trunk or stem under the finger is meant before the crown's whole width. */
function rank(thing: Thing, at: Point, near: number): number {
  const is_stem = thing.corners.length > 0 && !thing.closed && !stands_apart(thing) && !goes_with_others(thing);
  const to_heart = is_stem ? distance({ ...thing, reach_m: 0 }, at) : Infinity;
  if (to_heart <= near) return -1;
  return beneath[thing.table] ?? 0;
}

/** The thing that a touch at a point means; `near` is a finger's width in metres. */
export function thing_at(things: Iterable<Thing>, at: Point, near: number): Thing | null {
  let best: Thing | null = null;
  let least: [number, number, number] = [Infinity, Infinity, Infinity];
  for (const thing of things) {
    const away = distance(thing, at);
    if (away > near || thing.corners.length === 0) continue;
    const cost: [number, number, number] = [rank(thing, at, near / 2), away, extent_of(thing)];
    const first = cost.findIndex((value, i) => value !== least[i]);
    if (first >= 0 && (cost[first] as number) < (least[first] as number)) [best, least] = [thing, cost];
  }
  return best;
}

export type Way = "left" | "right" | "up" | "down";
const ways: Record<Way, Point> = { left: [-1, 0], right: [1, 0], up: [0, 1], down: [0, -1] };

/** Floors, paths and what lies in the ground: meant less often than what stands on it. */
export const lies_beneath = (thing: Thing): boolean => thing.table in beneath;

/** The nearest thing in a direction: what lies to the side counts twice as far, and so does what
lies beneath the others. */
export function next_thing(things: Iterable<Thing>, from: Point, way: Way, but: string | null): Thing | null {
  const [wx, wy] = ways[way];
  let best: Thing | null = null;
  let least = Infinity;
  for (const thing of things) {
    if (thing.id === but || thing.corners.length === 0) continue;
    const [x, y] = centre(thing);
    const along = (x - from[0]) * wx + (y - from[1]) * wy;
    const across = Math.abs((x - from[0]) * wy - (y - from[1]) * wx);
    if (along <= 0.01 || across > 3 * along) continue;
    const cost = (along + 2 * across) * (lies_beneath(thing) ? 2 : 1);
    if (cost < least) [best, least] = [thing, cost];
  }
  return best;
}

export function moved(thing: Thing, [dx, dy]: Point): Thing {
  if (dx === 0 && dy === 0) return thing;
  return { ...thing, corners: thing.corners.map(([x = 0, y = 0]) => [x + dx, y + dy]) };
}
