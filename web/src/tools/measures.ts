// The measures of the thing chosen: its sides, its width, how far it stands from the lines about it;
// each can be typed, in any unit.
import { computed } from "@preact/signals";
import type { Thing } from "../api";
import {
  apart, boundary_edges, bounds, comma_hint, edges_of, type Edge, goes_with_others, length_says, metres_in, moved, nearest_gaps, plus, type Point, side_made, sides_of, times,
} from "../geometry";
import { act, caught_up, link, offset_since, saying, selected, state } from "../state";
import { moving } from "./moving";

type Told = { message: string; hint: string };

export interface Measure {
  name: string; // "from lane-wall", "across", "side 2"
  metres: number;
  from: Point;
  to: Point;
  is_gap: boolean; // to something else, and not its own
  is_note: boolean; // a figure that has no line on the plan
  is_further: boolean; // not one of the two that fix where it stands
  beyond_m: number; // that far out its line is clear of the thing
  is_guessed: boolean;
  set: (metres: number, text: string) => Promise<Told | null>;
}

const is_imperial = () => state.peek()?.site.units === "imperial";
const most_sides = 8;

/** Edges of all but one thing; found again only when the garden changes. */
const all_edges = computed<Map<string, Edge[]>>(() => {
  const now = state.value;
  const edges = new Map((now?.things ?? []).filter((thing) => !goes_with_others(thing) && thing.table !== "picture").map((thing) => [thing.id, edges_of(thing)]));
  edges.set("", boundary_edges((now?.boundary ?? []) as unknown as Point[]));
  return edges;
});

const far_m = 20; // nobody tapes farther, but to the boundary

function* edges_near(thing: Thing): Iterable<Edge> {
  const [x0, y0, x1, y1] = bounds(thing, false);
  const is_far = ({ a, b }: Edge) =>
    Math.max(a[0], b[0]) < x0 - far_m || Math.min(a[0], b[0]) > x1 + far_m || Math.max(a[1], b[1]) < y0 - far_m || Math.min(a[1], b[1]) > y1 + far_m;
  for (const [of, edges] of all_edges.value)
    for (const edge of of === thing.id ? [] : edges) if (of === "" || !is_far(edge)) yield edge;
}

/** The thing chosen, where it stands now: with what the hand does, and what waits. */
export const standing_now = computed<Thing | null>(() => {
  const now = state.value;
  const thing = now?.things.find(({ id }) => id === selected.value);
  if (now === null || thing === undefined || thing.corners.length === 0 || thing.mark === "removed" || goes_with_others(thing)) return null;
  const hand: readonly [number, number] = moving.value?.thing === thing.id ? moving.value.by_m : [0, 0];
  return moved(thing, plus(offset_since(thing.id, now.head.change), hand));
});

const near_m = 1e-6;
type Written = readonly unknown[] | string; // a place as the document has it: two figures, or a point's id

/** The figure along an axis as it was typed, if it stays. */
function figure_kept(value: unknown, typed: unknown, axis: 0 | 1, now: number): unknown {
  const is = Array.isArray(value) && Math.abs(Number(value[axis]) - now) < near_m;
  return is && Array.isArray(typed) ? typed[axis] : now;
}

const stands_at = (value: unknown, [x, y]: Point): boolean => Array.isArray(value) && Math.abs(Number(value[0]) - x) < near_m && Math.abs(Number(value[1]) - y) < near_m;

/** Places as the document is to have them: what stays is written as it was typed, ids of points stay ids.
`was`: where the corners were, as the garden has them. */
export function places_written(field: { value: unknown; parts?: unknown } | undefined, was: readonly Point[], now: readonly Point[]): Written[] {
  const bare = (corner: Point): Written => [corner[0], corner[1]];
  if (field === undefined || !Array.isArray(field.value)) return now.map(bare);
  const parts = Array.isArray(field.parts) ? (field.parts as unknown[]) : field.value;
  const fits = (list: readonly unknown[]) => list.length === was.length && list.every((one, i) => typeof one === "string" || stands_at(one, was[i] as Point));
  const turned = !fits(field.value) && fits([...field.value].reverse());
  const [values, typed] = turned ? [[...field.value].reverse(), [...parts].reverse()] : [field.value as unknown[], parts];
  const is_same_count = now.length === was.length && fits(values);
  return now.map((corner, i) => {
    const at = is_same_count ? i : values.findIndex((one) => stands_at(one, corner));
    if (at < 0) return bare(corner);
    const stays = is_same_count && apart(corner, was[i] as Point) < near_m;
    if (typeof values[at] === "string") return stays ? (values[at] as string) : bare(corner);
    return [figure_kept(values[at], typed[at], 0, corner[0]), figure_kept(values[at], typed[at], 1, corner[1])];
  });
}

/** The keys of a thing with other corners. */
export function with_corners(thing: Thing, key: string, corners: readonly Point[]): Record<string, unknown> {
  return { [key]: places_written(thing.fields[key], thing.corners as unknown as Point[], corners) };
}

export const place_key = (thing: Thing): string | null => ["outline", "line", "row"].find((key) => thing.fields[key] !== undefined) ?? null;

function own_measure(thing: Thing, name: string, key: string, from: Point, to: Point, is_note = false): Measure {
  const guessed = thing.fields["guessed"]?.value;
  return {
    name, from, to, metres: apart(from, to), is_gap: false, is_note, is_further: false, beyond_m: 0,
    is_guessed: Array.isArray(guessed) && guessed.includes(key),
    set: (_, text) => act.set(thing.id, { [key]: text }),
  };
}

function size_measures(thing: Thing): Measure[] {
  const [a, b, c] = thing.corners as unknown as Point[];
  const size = thing.fields["size"]?.parts ?? thing.fields["size"]?.value;
  if (a === undefined || b === undefined || c === undefined || !Array.isArray(size)) return [];
  return [["across", a, b] as const, ["deep", b, c] as const].map(([name, from, to], i) => ({
    ...own_measure(thing, name, "size", from, to),
    set: (_: number, text: string) => act.set(thing.id, { size: size.map((one: unknown, j) => (i === j ? text : one)) }),
  }));
}

function side_measures(thing: Thing): Measure[] {
  const key = place_key(thing);
  const corners = thing.corners as unknown as Point[];
  const sides = sides_of(corners, thing.closed);
  if (key === null || sides.length > most_sides || (key === "row" && sides.length !== 1)) return [];
  const word = thing.closed ? "side" : sides.length === 1 ? "long" : "leg";
  return sides.map(([from, to], i) => ({
    ...own_measure(thing, sides.length === 1 ? word : `${word} ${i + 1}`, key, from, to),
    set: (metres: number) => act.set(thing.id, with_corners(thing, key, side_made(corners, thing.closed, i, metres))),
  }));
}

/** Widths of what has one corner: of a crown, a gate, a support. */
function width_measures(thing: Thing): Measure[] {
  const [at] = thing.corners as unknown as Point[];
  const key = ["crown_width_m", "width_m"].find((one) => typeof thing.fields[one]?.value === "number");
  if (at === undefined || thing.corners.length > 1 || key === undefined) return [];
  const half = (thing.fields[key]?.value as number) / 2;
  const across = own_measure(thing, key === "crown_width_m" ? "crown" : "wide", key, [at[0] - half, at[1]], [at[0] + half, at[1]]);
  return [{ ...across, beyond_m: thing.reach_m }];
}

function height_note(thing: Thing): Measure[] {
  const key = ["height_m", "eaves_m"].find((one) => typeof thing.fields[one]?.value === "number");
  const [at] = thing.corners as unknown as Point[];
  if (key === undefined || at === undefined) return [];
  const high = thing.fields[key]?.value as number;
  return [{ ...own_measure(thing, key === "eaves_m" ? "eaves" : "high", key, at, [at[0], at[1] + high], true), metres: high }];
}

function gap_measures(thing: Thing): Measure[] {
  return nearest_gaps(thing.corners as unknown as Point[], thing.closed, edges_near(thing)).map((gap, i) => ({
    name: gap.edge.of === "" ? "from the boundary" : `from ${gap.edge.of}`,
    metres: gap.metres, from: gap.foot, to: gap.from, is_gap: true, is_note: false, is_further: i > 1, beyond_m: 0, is_guessed: false,
    set: (metres: number) => act.move(thing.id, times(gap.away, metres - gap.metres).map((one) => Math.round(one * 1e4) / 1e4) as [number, number]),
  }));
}

/** A line of sight that is chosen. */
const sight_now = computed<Thing | null>(() => {
  const thing = state.value?.things.find(({ id }) => id === selected.value);
  return thing !== undefined && goes_with_others(thing) && thing.corners.length === 2 && thing.mark !== "removed" ? thing : null;
});
/** What measures are told of. */
export const measured_now = computed<Thing | null>(() => standing_now.value ?? sight_now.value);

/** How far one looks; to a place on the page it can be made another. */
function sight_measures(thing: Thing): Measure[] {
  const [from, to] = thing.corners as unknown as [Point, Point];
  const far = apart(from, to);
  if (far < near_m) return [];
  const to_place = (metres: number) => act.set(thing.id, { to: plus(from, times([to[0] - from[0], to[1] - from[1]], metres / far)).map((one) => Math.round(one * 1e4) / 1e4) });
  const is_place = Array.isArray(thing.fields["to"]?.value);
  const stays = { message: "It reaches to where that stands.", hint: "Move what is looked at, or choose a place on the page for it." };
  return [{ ...own_measure(thing, "far", "to", from, to), set: (metres) => (is_place ? to_place(metres) : Promise.resolve(stays)) }];
}

/** On which side of the thing the line lies, on the page. */
function side_says({ from, to }: Measure): string {
  const [x, y] = [from[0] - to[0], from[1] - to[1]];
  if (Math.abs(x) > Math.abs(y)) return x < 0 ? "left" : "right";
  return y < 0 ? "below" : "above";
}

/** Of a picture only how wide it is: all else follows from that. */
function picture_measures(thing: Thing): Measure[] {
  const [a, b] = thing.corners as unknown as Point[];
  return a === undefined || b === undefined ? [] : [own_measure(thing, "wide", "width_m", a, b)];
}

/** Distances first: they are what is typed most. */
export const measures = computed<Measure[]>(() => {
  if (sight_now.value !== null) return sight_measures(sight_now.value);
  const thing = standing_now.value;
  if (thing === null) return [];
  if (thing.table === "picture") return picture_measures(thing);
  const own = thing.fields["size"] !== undefined && thing.closed ? size_measures(thing) : [...side_measures(thing), ...width_measures(thing)];
  const gaps = gap_measures(thing);
  const twice = (name: string) => gaps.filter((gap) => gap.name === name).length > 1;
  const named = gaps.map((gap, i) => (gap.is_gap && twice(gap.name) && i > gaps.findIndex(({ name }) => name === gap.name) ? { ...gap, name: `${gap.name}, ${side_says(gap)}` } : gap));
  return [...named.filter((gap) => !gap.is_further), ...own, ...height_note(thing), ...named.filter((gap) => gap.is_further)];
});

export const measure_says = (metres: number): string => length_says(metres, is_imperial());

/** Takes what was typed; what cannot be is told. */
export async function type_measure(measure: Measure, typed: string): Promise<Told | null> {
  const text = typed.trim();
  if (text === measure_says(measure.metres) || link.peek() === "read_only") return null;
  const metres = metres_in(text, is_imperial());
  if (metres === null) return { message: "That is no length.", hint: comma_hint(text) ?? "Such as 2.4, 2.4 m or 7 ft 6 in." };
  if (!measure.is_gap && metres <= 0) return { message: "It cannot be that short.", hint: "A length over 0." };
  const of = selected.peek();
  await caught_up();
  const now = selected.peek() === of ? measures.peek().find(({ name }) => name === measure.name) : undefined;
  const told = await (now ?? measure).set(metres, text);
  if (told === null) saying.value = `${selected.peek() ?? ""}: ${measure.name} ${measure_says(metres)}.`;
  return told;
}

