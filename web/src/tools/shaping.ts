// An outline edited corner by corner, a thing turned: in the hand, by keys, by figures.
import { batch, effect, signal } from "@preact/signals";
import type { Thing } from "../api";
import {
  apart, bearing_of, carried, centre, length_says, minus, plus, type Point, quarter, sides_of, times, turned_about,
} from "../geometry";
import { act, caught_up, end_trial, head, hold_trial, link, saying, selected, state, try_shape } from "../state";
import { drawn_thing } from "./choosing";
import { place_key, places_written } from "./measures";
import { leave_it, moving } from "./moving";
import { forget_guides, guides_say, snap_corner } from "./snapping";

export interface Shaping {
  thing: string; // "": the boundary
  how: "corners" | "turn";
  key: string; // outline, line, row
  corners: readonly Point[]; // as the hand has them
  closed: boolean;
  turned_deg: number; // by the hand, so far
  is_held: boolean;
}
export const shaping = signal<Shaping | null>(null);

const boundary_name = "the boundary";
export const shaped_name = (now: Shaping): string => (now.thing === "" ? boundary_name : now.thing);
export const is_locked_thing = (thing: Thing | null): boolean => thing?.fields["locked"]?.value === true && thing.table !== "task";

function shape_of(id: string): Pick<Shaping, "key" | "corners" | "closed"> | null {
  if (id === "") {
    const corners = (state.peek()?.boundary ?? []) as unknown as Point[];
    return corners.length < 3 ? null : { key: "outline", corners, closed: true };
  }
  const thing = drawn_thing(id);
  if (thing === null || thing.mark === "removed") return null;
  const key = place_key(thing);
  const row = thing.fields["row"]?.value;
  const corners = key === "row" && Array.isArray(row) && row.every(Array.isArray) ? (row as unknown as Point[]) : (thing.corners as unknown as Point[]);
  return { key: key ?? "outline", corners, closed: thing.closed };
}

/** What has corners to be edited: a bed of a size becomes one of an outline by it. */
export function has_corners(thing: Thing): boolean {
  return thing.corners.length > 1 && (place_key(thing) !== null || (thing.table === "bed" && thing.closed));
}

export function begin_shaping(id: string, how: Shaping["how"]): void {
  const shape = shape_of(id);
  if (shape === null || link.peek() === "read_only" || is_locked_thing(drawn_thing(id))) return;
  if (moving.peek() !== null) leave_it();
  batch(() => {
    shaping.value = { thing: id, how, ...shape, turned_deg: 0, is_held: false };
    saying.value =
      how === "corners"
        ? `Corners of ${id === "" ? boundary_name : id}: Tab goes from one to the next, arrows move it, Delete takes it away, Insert adds one.`
        : `Turning ${id}: arrows five degrees, with Alt one; Enter keeps it, Escape leaves it.`;
  });
}

export function end_shaping(): void {
  if (shaping.peek() === null) return;
  if (shaping.peek()?.how === "corners") let_go(); // what rests is kept
  else end_trial();
  batch(() => {
    shaping.value = null;
    saying.value = "Done.";
  });
  forget_guides();
}

/** The keys of a thing with those corners. */
const places_of = (now: Shaping, thing: Thing, corners: readonly Point[]): unknown[] =>
  places_written(thing.fields[now.key], shape_of(thing.id)?.corners ?? [], corners);

/** The light with the thing as the hand has it. */
function try_corners(now: Shaping, corners: readonly Point[]): void {
  const thing = drawn_thing(now.thing);
  if (thing !== null) try_shape(thing.id, { [now.key]: places_of(now, thing, corners) });
}

type Told = { message: string; hint: string };

const change = (by: Partial<Shaping>) => {
  const now = shaping.peek();
  if (now !== null) shaping.value = { ...now, ...by };
};

let pending = 0; // edits on their way
let resting: ReturnType<typeof setTimeout> | undefined; // arrows are kept once they rest
const rest_ms = 500;

/** A figure of a corner as it was typed. */
interface Typed {
  corner: number;
  axis: 0 | 1;
  text: string;
}
function with_typed(places: readonly unknown[], typed: Typed | undefined): unknown[] {
  if (typed === undefined) return [...places];
  return places.map((place, i) => (i === typed.corner && Array.isArray(place) ? place.map((one: unknown, axis) => (axis === typed.axis ? typed.text : one)) : place));
}

/** What was done is kept; what was refused goes back to what the garden has. Out: what was refused, told here unless
it was typed. */
async function keep(corners: readonly Point[], typed?: Typed): Promise<Told | null> {
  const now = shaping.peek();
  if (now === null) return null;
  clearTimeout(resting);
  change({ corners, is_held: false });
  forget_guides();
  pending += 1;
  hold_trial();
  const thing = drawn_thing(now.thing);
  const is_plot = now.thing === "" || thing === null;
  const places = with_typed(is_plot ? places_written(state.peek()?.singles.boundary["outline"], shape_of("")?.corners ?? [], corners) : places_of(now, thing, corners), typed);
  const told = is_plot ? await act.set_table("boundary", { outline: places, sides_m: null, diagonal_m: null }) : await act.set(now.thing, { [now.key]: places });
  pending -= 1;
  if (told === null) return null;
  end_trial();
  if (typed === undefined) act.tell(told);
  const stands = shape_of(now.thing);
  if (stands !== null && shaping.peek()?.thing === now.thing) change(stands);
  return told;
}

const cm = ([x, y]: Point): Point => [Math.round(x * 100) / 100, Math.round(y * 100) / 100];

/** A corner in the hand. */
export function corner_to(i: number, at: Point, free: boolean): void {
  const now = shaping.peek();
  if (now === null) return;
  const n = now.corners.length;
  const before = now.closed || i > 0 ? (now.corners[(i + n - 1) % n] ?? null) : null;
  const further = now.closed || i > 1 ? (now.corners[(i + n - 2) % n] ?? null) : null;
  const to = snap_corner(cm(at), before, further, { but: now.thing, free });
  held(now, i, to);
}

function held(now: Shaping, i: number, to: Point): void {
  const corners = now.corners.map((corner, j) => (i === j ? to : corner));
  change({ corners, is_held: true });
  try_corners(now, corners);
}

export function let_go(): void {
  const now = shaping.peek();
  if (now === null || !now.is_held) return;
  if (now.how === "turn") return void keep_turn();
  void keep(now.corners);
}

export function corner_by(i: number, by: Point): void {
  const now = shaping.peek();
  const at = now?.corners[i];
  if (now === null || at === undefined) return;
  const to = cm(plus(at, by));
  held(now, i, to);
  clearTimeout(resting);
  resting = setTimeout(let_go, rest_ms);
  snap_corner(to, null, null, { but: now.thing, free: false, by_keys: true });
  const is_imperial = state.peek()?.site.units === "imperial";
  const [x, y] = to;
  saying.value = `Corner ${i + 1}: ${length_says(x, is_imperial)} from left, ${length_says(y, is_imperial)} from below${guides_say()}`;
}

/** A corner's figure, and how it was typed. */
export async function set_corner_at(i: number, axis: 0 | 1, metres: number, text: string): Promise<Told | null> {
  const now = shaping.peek();
  const put = ([x, y]: Point): Point => (axis === 0 ? [metres, y] : [x, metres]);
  return now === null ? null : keep(now.corners.map((corner, j) => (i === j ? put(corner) : corner)), { corner: i, axis, text });
}

/** A new corner in the midst of a side. */
export function add_corner(side: number): void {
  const now = shaping.peek();
  const ends = now === null ? undefined : sides_of(now.corners, now.closed)[side];
  if (now === null || ends === undefined) return;
  void keep([...now.corners.slice(0, side + 1), cm(times(plus(ends[0], ends[1]), 0.5)), ...now.corners.slice(side + 1)]);
  saying.value = `A corner is added after corner ${side + 1}.`;
}

export const least_corners = (now: Shaping): number => (now.closed ? 3 : 2);

export function delete_corner(i: number): void {
  const now = shaping.peek();
  if (now === null) return;
  if (now.corners.length <= least_corners(now)) {
    saying.value = `It wants ${least_corners(now)} corners at least.`;
    return;
  }
  void keep(now.corners.filter((_, j) => j !== i));
  saying.value = `Corner ${i + 1} is taken away.`;
}

/** Turned by the hand so far; near a quarter, or alike to the page, it stays there. */
export function turn_to(degrees: number, free: boolean): void {
  const now = shaping.peek();
  const thing = now === null ? null : drawn_thing(now.thing);
  if (now === null || thing === null) return;
  const [a, b] = thing.corners as unknown as Point[];
  const side = a === undefined || b === undefined ? 0 : bearing_of(a, b);
  const off = quarter(side + degrees);
  const to = !free && Math.abs(off) < 3 ? degrees - off : Math.round(degrees);
  const turn = turned_about(centre(thing), to);
  change({ turned_deg: to, corners: (thing.corners as unknown as Point[]).map(turn.to), is_held: true });
  try_shape(thing.id, carried(thing, turn));
}

export async function keep_turn(): Promise<void> {
  const now = shaping.peek();
  const thing = now === null ? null : drawn_thing(now.thing);
  if (now === null || thing === null) return;
  const by = now.turned_deg;
  change({ is_held: false, turned_deg: 0 });
  if (Math.abs(by) > 0.004) await turn_by(thing.id, () => by);
  else end_trial();
}

/** About its middle, by as much as follows from how it stands. */
export async function turn_by(id: string, degrees_of: (thing: Thing) => number): Promise<void> {
  hold_trial();
  await caught_up();
  const thing = drawn_thing(id);
  if (thing === null) return end_trial();
  const degrees = degrees_of(thing);
  const told = await act.set(thing.id, carried(thing, turned_about(centre(thing), degrees)));
  if (told !== null) {
    end_trial();
    act.tell(told);
  } else saying.value = `${thing.id} is turned ${Math.abs(Number(degrees.toFixed(1)))}° ${degrees < 0 ? "clockwise" : "anticlockwise"}.`;
}

/** The corner of the grip that turns: above the thing, out of its way. */
export function turn_grip(thing: Thing, turned_deg: number, beyond_m: number): { from: Point; at: Point } {
  const middle = centre(thing);
  const reach = Math.max(0.3, ...(thing.corners as unknown as Point[]).map((corner) => apart(corner, middle)));
  const { to } = turned_about(middle, turned_deg);
  return { from: middle, at: to(plus(middle, [0, reach + beyond_m])) };
}

export function turn_toward(thing: Thing, at: Point, free: boolean): void {
  const [dx, dy] = minus(at, centre(thing));
  turn_to((-Math.atan2(dx, dy) * 180) / Math.PI, free);
}

effect(() => {
  const now = shaping.peek();
  const of = state.value;
  const chosen = selected.value;
  if (now === null || of === null) return;
  if ((now.thing === "" ? chosen !== null : chosen !== now.thing) || moving.value !== null) {
    if (now.is_held && now.how === "corners") void keep(now.corners);
    else if (now.is_held) end_trial();
    shaping.value = null;
  } else if (!now.is_held && pending === 0 && of.head.change === head.value?.change) {
    const shape = shape_of(now.thing);
    shaping.value = shape === null ? null : { ...now, ...shape };
  }
});
