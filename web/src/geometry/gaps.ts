// How far a thing stands from the lines around it, square to them, as a tape is laid.
import type { Thing } from "../api";
import { cross, dot, minus, plus, times, apart } from "./sketch";
import type { Point } from "./view";

export interface Edge {
  of: string; // an id, or "" for the boundary
  a: Point;
  b: Point;
  is_soft: boolean; // a path's: nobody measures from it while there is a wall near
}

/** From an edge to a thing: the way from `foot` to `from` is square to one of them. */
export interface Gap {
  edge: Edge;
  foot: Point; // on the edge
  from: Point; // on the thing
  away: Point; // a metre from the edge toward the thing
  metres: number;
}

const lined = new Set(["wall", "building", "bed", "path", "object"]);

const points_of = (thing: Thing) => thing.corners as unknown as Point[];

function unit(p: Point): Point {
  const long = Math.hypot(p[0], p[1]);
  return long < 1e-9 ? [0, 0] : [p[0] / long, p[1] / long];
}
const left_of = ([x, y]: Point): Point => [-y, x];

/** A thing's sides, one after the other; of a line its legs. */
export function sides_of(corners: readonly Point[], closed: boolean): [Point, Point][] {
  const count = closed && corners.length > 2 ? corners.length : corners.length - 1;
  return Array.from({ length: Math.max(0, count) }, (_, i) => [corners[i] as Point, corners[(i + 1) % corners.length] as Point]);
}

/** The lines that a tape is laid from: sides, and the two faces of what has a thickness. */
export function edges_of(thing: Thing): Edge[] {
  if (!lined.has(thing.table) || thing.mark === "removed") return [];
  const sides = sides_of(points_of(thing), thing.closed);
  const faces = thing.closed || thing.reach_m < 0.005 ? [0] : [thing.reach_m, -thing.reach_m];
  return sides.flatMap(([a, b]) =>
    faces.map((off) => {
      const by = times(left_of(unit(minus(b, a))), off);
      return { of: thing.id, a: plus(a, by), b: plus(b, by), is_soft: thing.table === "path" };
    }),
  );
}

export const boundary_edges = (boundary: readonly Point[]): Edge[] => sides_of(boundary, true).map(([a, b]) => ({ of: "", a, b, is_soft: false }));

/** The foot of a point on a segment, where it falls within it. */
function foot_on(p: Point, a: Point, b: Point): Point | null {
  const way = minus(b, a);
  const long = dot(way, way);
  if (long < 1e-12) return null;
  const t = dot(minus(p, a), way) / long;
  return t < -1e-9 || t > 1 + 1e-9 ? null : plus(a, times(way, t));
}

export function do_cross([a, b]: readonly [Point, Point], [c, d]: readonly [Point, Point]): boolean {
  const side = (p: Point, q: Point, r: Point) => cross(minus(q, p), minus(r, p));
  const apart_by = (x: number, y: number) => (x > 1e-9 && y < -1e-9) || (x < -1e-9 && y > 1e-9);
  return apart_by(side(a, b, c), side(a, b, d)) && apart_by(side(c, d, a), side(c, d, b));
}

/** The gap between a thing and an edge; null where they cross, or no tape can be laid square. */
export function gap_to(corners: readonly Point[], closed: boolean, edge: Edge): Gap | null {
  const sides = sides_of(corners, closed);
  if (sides.some((side) => do_cross(side, [edge.a, edge.b]))) return null;
  let best: { foot: Point; from: Point; metres: number } | null = null;
  const look = (foot: Point | null, from: Point | null) => {
    if (foot === null || from === null) return;
    const metres = apart(foot, from);
    if (best === null || metres < best.metres - 1e-9) best = { foot, from, metres };
  };
  for (const corner of corners) look(foot_on(corner, edge.a, edge.b), corner);
  for (const [a, b] of sides) for (const end of [edge.a, edge.b]) look(end, foot_on(end, a, b));
  const found = best as { foot: Point; from: Point; metres: number } | null;
  if (found === null) return null;
  const middle = times(corners.reduce(plus, [0, 0]), 1 / corners.length);
  const normal = left_of(unit(minus(edge.b, edge.a)));
  const away = found.metres > 1e-6 ? unit(minus(found.from, found.foot)) : times(normal, Math.sign(dot(normal, minus(middle, found.foot))) || 1);
  return { edge, away, ...found };
}

/** The nearest lines: first the two that fix where a thing stands, in two directions; then those on
its other sides. */
export function nearest_gaps(corners: readonly Point[], closed: boolean, edges: Iterable<Edge>, most = 4): Gap[] {
  const all: Gap[] = [];
  for (const edge of edges) {
    const gap = corners.length === 0 ? null : gap_to(corners, closed, edge);
    if (gap !== null) all.push(gap);
  }
  const cost = ({ metres, edge }: Gap) => (edge.is_soft ? 3 * metres + 1.5 : metres);
  all.sort((a, b) => cost(a) - cost(b));
  const fixing: Gap[] = [];
  for (const gap of all) if (fixing.length < 2 && fixing.every((other) => Math.abs(dot(other.away, gap.away)) < 0.8)) fixing.push(gap);
  const chosen = [...fixing];
  for (const gap of all) if (chosen.length < most && chosen.every((other) => dot(other.away, gap.away) < 0.8)) chosen.push(gap);
  return chosen;
}

const is_square = (a: Point, b: Point) => Math.abs(dot(unit(a), unit(b))) < 0.0005;

/** A side made so long: of a line what follows it goes along, of a rectangle the opposite side, else
the corner alone. */
export function side_made(corners: readonly Point[], closed: boolean, side: number, metres: number): Point[] {
  const n = corners.length;
  const [a, b] = [corners[side] as Point, corners[(side + 1) % n] as Point];
  const way = unit(minus(b, a));
  const by = times(way, metres - apart(a, b));
  const next = corners[(side + 2) % n] as Point;
  const is_box = closed && n === 4 && is_square(minus(b, a), minus(next, b)) && is_square(minus(next, b), minus(corners[(side + 3) % n] as Point, next));
  const goes = (i: number) => (closed ? i === (side + 1) % n || (is_box && i === (side + 2) % n) : i > side);
  const tidy = ([x, y]: Point): Point => [Math.round(x * 1e4) / 1e4, Math.round(y * 1e4) / 1e4];
  return corners.map((corner, i) => (goes(i) ? tidy(plus(corner, by)) : corner));
}
