// What a tape is laid from: lines and points near a place, by their names; and where it leads, on the sheet.
import { signal } from "@preact/signals";
import type { Thing } from "../api";
import { apart, boundary_edges, corner_says, edges_of, foot_distance, type Line, type Point, side_says, sides_of } from "../geometry";
import { state } from "../state";
import { drawn_things } from "./choosing";

export interface TapeLine extends Line {
  name: string;
}
export interface TapePoint {
  name: string;
  at: Point;
}

/** Places that the tapes lead to, and from where. */
export interface TapeShown {
  fits: readonly Point[];
  from: readonly Point[];
}
export const tape_shown = signal<TapeShown | null>(null);

const most = 24;
const solid = new Set(["wall", "building", "bed", "path", "object"]);
const pointed = new Set(["wall", "building", "bed", "object", "gate", "point", "tank", "tree", "service"]);

const nearest = <T>(all: T[], away: (one: T) => number): T[] =>
  all
    .map((one) => ({ one, away: away(one) }))
    .sort((a, b) => a.away - b.away)
    .slice(0, most)
    .map(({ one }) => one);

const corners_of = (thing: Thing) => thing.corners as unknown as Point[];

/** Of a wall the face that is nearer: from there a tape is laid. */
function lines_of(thing: Thing, near: Point): TapeLine[] {
  const edges = edges_of(thing);
  const sides = sides_of(corners_of(thing), thing.closed);
  const faces = edges.length / Math.max(1, sides.length);
  return sides.map((_, i) => {
    const own = edges.slice(i * faces, (i + 1) * faces).sort((a, b) => foot_distance(near, a) - foot_distance(near, b))[0];
    const part = thing.closed ? `, ${side_says(corners_of(thing), i)}` : sides.length > 1 ? `, leg ${i + 1}` : "";
    return { name: `${thing.id}${part}`, a: own?.a ?? [0, 0], b: own?.b ?? [0, 0] };
  });
}

export function tape_lines(near: Point, but: string | null): TapeLine[] {
  const things = drawn_things().filter((thing) => thing.id !== but && thing.mark !== "removed" && solid.has(thing.table));
  const boundary = (state.peek()?.boundary ?? []) as unknown as Point[];
  const edge = boundary_edges(boundary).map(({ a, b }, i) => ({ name: `the boundary, ${side_says(boundary, i)}`, a, b }));
  return nearest([...things.flatMap((thing) => lines_of(thing, near)), ...edge], (line) => foot_distance(near, line));
}

export function tape_points(near: Point, but: string | null): TapePoint[] {
  const of = (name: string, corners: readonly Point[], closed: boolean): TapePoint[] =>
    corners.map((at, i) => ({ name: corners.length === 1 ? name : `${name}, ${corner_says(corners, closed, i)}`, at }));
  const things = drawn_things().filter((thing) => thing.id !== but && thing.mark !== "removed" && pointed.has(thing.table));
  const boundary = of("the boundary", (state.peek()?.boundary ?? []) as unknown as Point[], true);
  return nearest([...things.flatMap((thing) => of(thing.id, corners_of(thing), thing.closed)), ...boundary], ({ at }) => apart(at, near));
}
