// Drawing from nothing: a thing begun and set down by dragging, touching, keys or figures.
import { batch, effect, signal } from "@preact/signals";
import {
  about, apart, box_between, centre, length_says, type Point, plus, rectangle, type Size2, to_plan,
} from "../geometry";
import { act, choose_nothing_later, garden, hovered, link, problem, saying, scheme, select_when_there, selected, state, without } from "../state";
import { drawn_thing } from "./choosing";
import { key_of, type Kind, table_called } from "./kinds";
import { leave_it, moving, to_cm } from "./moving";
import { looker_near, seen_near, type Sight, sight_set } from "./sighting";
import { forget_guides, guides_say, snap_corner, snap_shape } from "./snapping";
import { bring_into_sight, hold_view, let_view_go, size as sheet_size, view } from "./sheet_view";

export interface Drawing {
  kind: Kind;
  what: string; // which wall, which crop
  corners: readonly Point[]; // set so far
  at: Point; // the cross: where the next one goes
  is_seen: boolean; // it has been anywhere yet
  from: Point | null; // where a drag began
  size: Size2; // of a box
  is_sized: boolean; // an outline that was typed as one
  turn_deg: number;
  by_keys: boolean;
  is_typed?: boolean; // the cross, by its figures
  of: DrawnOf;
  sight?: Sight; // of a line of sight
  told?: { message: string; hint: string } | null; // why it was refused
}
/** What comes after it, and what goes with it. */
export interface DrawnOf {
  then?: (id: string) => void; // in the place of choosing it
  more?: Readonly<Record<string, unknown>>; // of a boundary: its further keys
}
export const drawing = signal<Drawing | null>(null);
/** The words of what can be drawn are open. */
export const draw_menu = signal(false);

const is_imperial = () => state.peek()?.site.units === "imperial";
const says_m = (metres: number) => length_says(metres, is_imperial());
export const needs_corners = ({ by }: Kind): number => (by === "outline" ? 3 : by === "line" || by === "pair" || by === "sight" ? 2 : 1);

function midst(): Point {
  const now = view.peek();
  const { width, height } = sheet_size.peek();
  if (now === null) return [0, 0];
  const [x, y] = to_plan(now, [width / 2, height / 2]);
  return [Math.round(x * 10) / 10, Math.round(y * 10) / 10];
}

const begin_says: Record<Kind["by"], string> = {
  box: "Drag it, or touch where its middle is to be. Arrows move the cross, Enter sets it down; or type its figures.",
  line: "Touch corner after corner, the last one twice. Arrows move the cross, Enter sets a corner, twice the last one.",
  outline: "Drag a rectangle, or touch corner after corner and the first again. Arrows move the cross, Enter sets a corner.",
  pair: "Touch where it is, then where it goes. Arrows move the cross, Enter sets each.",
  point: "Touch where it is. Arrows move the cross, Enter sets it down.",
  sight: "Touch the seat, point or gate from which one looks, then what is looked at; or choose both by name.",
};

export function begin_drawing(kind: Kind, of: DrawnOf = {}): void {
  if (link.peek() === "read_only" || garden.peek() === null) return;
  if (moving.peek() !== null) leave_it();
  hold_view();
  choose_nothing_later();
  batch(() => {
    without.value = null;
    selected.value = null;
    draw_menu.value = false;
    drawing.value = {
      kind, corners: [], ...(kind.by === "sight" ? { sight: { from: null, seen: null } } : {}), at: midst(), is_seen: false, from: null, size: size_offered(kind), is_sized: false, turn_deg: 0, by_keys: false, of,
      what: kind.what === undefined ? "" : String(kind.offered[kind.what] ?? ""),
    };
    saying.value = `Drawing: ${kind.says.toLowerCase()}. ${begin_says[kind.by]}`;
  });
}

export function change_drawing(by: Partial<Drawing>): void {
  const now = drawing.peek();
  if (now !== null) drawing.value = { ...now, ...by };
}

export const hand_point = ([x, y]: Point): Point => [to_cm(x), to_cm(y)];

/** Where the hand means the cross to be: a box that is touched down goes by its sides. */
function meant(now: Drawing, at: Point, free: boolean, by_keys = false): Point {
  const hand = { but: null, is_bed: now.kind.table === "bed", free, by_keys };
  const near = hand_point(at);
  if (now.sight !== undefined) {
    hovered.value = (now.sight.from === null ? looker_near(near) : seen_near(near, now.sight.from))?.id ?? null;
    return near;
  }
  const is_laid = (now.kind.by === "box" || now.is_sized) && now.from === null;
  if (is_laid) return plus(near, snap_shape(rectangle(about(near, now.size, now.turn_deg), now.size, now.turn_deg), true, hand));
  if (now.from !== null && now.corners.length === 0) return snap_corner(near, null, null, hand);
  return snap_corner(near, now.corners.at(-1) ?? null, now.corners.at(-2) ?? null, hand);
}

/** The cross goes there; a hand is no surer than a centimetre. */
export function draw_to(at: Point, free: boolean): void {
  const now = drawing.peek();
  if (now !== null) change_drawing({ at: meant(now, at, free), is_seen: true, by_keys: false, is_typed: false });
}

export function cross_by(dx: number, dy: number): void {
  const now = drawing.peek();
  if (now === null) return;
  const at = hand_point(plus(now.at, [dx, dy]));
  change_drawing({ at, is_seen: true, by_keys: true, is_typed: false });
  meant(now, at, false, true);
  bring_into_sight(at);
  const last = now.corners.at(-1);
  const says = last === undefined ? `${says_m(at[0])} from left, ${says_m(at[1])} from below` : `${says_m(apart(last, at))} from the last corner`;
  saying.value = `${says}${guides_say()}`;
}

/** Where a drag goes: a rectangle from where it began, or a leg. */
export function drag_from(from: Point, at: Point, free: boolean): void {
  const begun = drawing.peek();
  if (begun === null) return;
  const is_leg = begun.kind.by === "line" || begun.kind.by === "pair";
  if (begun.sight !== undefined) {
    if (begun.from !== null) return change_drawing({ at: meant(begun, at, free) });
    change_drawing({ from, at: hand_point(from) });
    return set_looker();
  }
  if (begun.from === null) {
    const first = begun.kind.by === "point" ? hand_point(from) : snap_corner(hand_point(from), begun.corners.at(-1) ?? null, null, { but: null, free });
    change_drawing({ from: first, ...(is_leg && begun.corners.length === 0 ? { corners: [first] } : {}) });
  }
  const now = drawing.peek() ?? begun;
  change_drawing({ at: meant(now, at, free), is_seen: true, by_keys: false, is_typed: false });
}

const is_box = ({ kind, corners, from, is_sized }: Drawing) => kind.by === "box" || is_sized || (kind.by === "outline" && corners.length === 0 && from !== null);

/** The rectangle that would be set down now; null where none is drawn. */
export function box_of(now: Drawing): { at: Point; size: Size2; turn_deg: number } | null {
  if (!is_box(now)) return null;
  if (now.from !== null) return { ...box_between(now.from, now.at), turn_deg: 0 };
  return { at: about(now.at, now.size, now.turn_deg), size: now.size, turn_deg: now.turn_deg };
}

/** What is to be seen of it: the corners set, and the one that the cross would set. */
export function sketch_of(now: Drawing): { corners: Point[]; closed: boolean } {
  const box = box_of(now);
  if (box !== null) return { corners: rectangle(box.at, box.size, box.turn_deg), closed: true };
  const last = now.corners.at(-1);
  const next = !now.is_seen || (last !== undefined && apart(last, now.at) < 0.005) ? [] : [now.at];
  return { corners: [...now.corners, ...next], closed: now.kind.by === "outline" };
}

/** Lets go of a drag. */
export function drop(): void {
  const now = drawing.peek();
  if (now === null) return;
  const { by } = now.kind;
  if (by === "point" || by === "sight") return set_corner();
  if (by === "line" || by === "pair") {
    change_drawing({ from: null });
    return set_corner();
  }
  const box = box_of(now);
  if (by === "outline" && now.corners.length > 0) {
    change_drawing({ from: null });
    return set_corner();
  }
  if (box === null || box.size[0] < 0.05 || box.size[1] < 0.05) change_drawing({ from: null });
  else finish();
}

const near_m = (): number => 12 / (view.peek()?.scale ?? 40);

/** Who looks, where the cross is. */
function set_looker(): void {
  const now = drawing.peek();
  if (now === null) return;
  const from = looker_near(now.at);
  if (from !== null) return look_from(from.id);
  change_drawing({ from: null, told: { message: "Nobody looks from there", hint: "Touch a seat, a point or a gate, or choose it by name. What is not there yet is drawn first: “Seat”, or “Door, window, tap, peg”." } });
}

/** Looks from that thing from now on; null: it is asked for again. */
export function look_from(id: string | null): void {
  const now = drawing.peek();
  const thing = id === null ? null : drawn_thing(id);
  if (now?.sight === undefined) return;
  batch(() => {
    change_drawing({ sight: { ...now.sight, from: thing?.id ?? null, seen: now.sight?.seen ?? null }, corners: thing === null ? [] : [centre(thing)], told: null });
    if (thing !== null) saying.value = `From ${thing.id}. Now touch what is looked at.`;
  });
}

/** That thing is looked at; null: the place where the cross is. */
export function look_at(id: string | null): void {
  const now = drawing.peek();
  const thing = id === null ? null : drawn_thing(id);
  if (now?.sight === undefined) return;
  change_drawing({ sight: { ...now.sight, seen: thing?.id ?? null }, is_seen: true, ...(thing === null ? {} : { at: centre(thing) }) });
}

/** A corner where the cross is; the last one again ends a line, the first again closes an outline. */
export function set_corner(): void {
  const now = drawing.peek();
  if (now === null) return;
  const { kind, corners, at, by_keys } = now;
  const near = by_keys ? 0.005 : near_m();
  const is_on = (corner: Point | undefined) => corner !== undefined && apart(corner, at) <= near;
  if (now.sight?.from === null) return set_looker();
  if (now.sight !== undefined) {
    // A place by its figures is meant itself, though something stands near it.
    if (now.is_typed !== true && (now.sight.seen === null || now.from !== null || !by_keys)) look_at(seen_near(at, now.sight.from)?.id ?? null);
    return finish();
  }
  if (kind.by === "box" || kind.by === "point" || now.is_sized) return finish();
  const is_end = is_on(corners.at(-1)) || (kind.by === "outline" && corners.length > 2 && is_on(corners[0]));
  if (is_end) {
    if (corners.length >= needs_corners(kind) || kind.second !== undefined) finish();
    return;
  }
  forget_guides();
  batch(() => {
    change_drawing({ corners: [...corners, at] });
    const count = corners.length + 1;
    saying.value = `Corner ${count} set.${count >= needs_corners(kind) ? " Enter again ends it." : ""}`;
  });
  if (kind.by === "pair" && corners.length === 1) finish();
}

export function take_corner_back(): void {
  const now = drawing.peek();
  if (now === null || now.corners.length === 0) return;
  change_drawing({ corners: now.corners.slice(0, -1), ...(now.sight === undefined ? {} : { sight: { from: null, seen: null } }) });
  saying.value = "The last corner is taken back.";
}

export function leave_drawing(): void {
  const now = drawing.peek();
  if (now === null) return;
  batch(() => {
    drawing.value = null;
    saying.value = "Nothing is drawn.";
  });
  let_view_go();
}

/** Esc: the last corner back; without any, it is left. */
export function step_back_drawing(): void {
  if ((drawing.peek()?.corners.length ?? 0) > 0) take_corner_back();
  else leave_drawing();
}

const bare = (points: readonly Point[]): number[][] => points.map(([x, y]) => [x, y]);

const foot_m = 0.3048;
/** Of a garden of feet: what comes out in whole inches is written so. */
function in_whole_inches(metres: number): number | string {
  const inches = metres / (foot_m / 12);
  return is_imperial() && Math.abs(inches - Math.round(inches)) < 0.01 ? length_says(metres, true) : metres;
}
/** What is offered, in the garden's own units: 1.8 m as 6 ft. */
function offered_here(offered: Readonly<Record<string, unknown>>): Record<string, unknown> {
  const here = (key: string, value: unknown) => (is_imperial() && key.endsWith("_m") && typeof value === "number" ? length_says((Math.round((value / foot_m) * 2) / 2) * foot_m, true) : value);
  return Object.fromEntries(Object.entries(offered).map(([key, value]) => [key, here(key, value)]));
}
/** A box as it is offered: in a garden of feet, by whole feet. */
export function size_offered(kind: Kind): readonly [number, number] {
  const [wide, deep] = kind.size ?? [3, 2];
  const whole = (metres: number) => (is_imperial() ? Math.max(0.5, Math.round((metres / foot_m) * 2) / 2) * foot_m : metres);
  return [whole(wide), whole(deep)];
}

/** The keys of the place of what is drawn; null: there are too few corners yet. */
function place_set(now: Drawing): Record<string, unknown> | null {
  const { kind, corners, at } = now;
  if (now.sight !== undefined) return sight_set(now.sight, at);
  const box = box_of(now);
  if (kind.by === "box" && box !== null) {
    return { at: [...box.at], size: box.size.map(in_whole_inches), ...(box.turn_deg === 0 ? {} : { turn_deg: box.turn_deg }) };
  }
  if (box !== null) return { [kind.lies_in]: bare(rectangle(box.at, box.size, box.turn_deg)) };
  if (kind.by === "point") return { at: [...at] };
  const [first, second] = corners;
  if (first === undefined) return null;
  if (kind.second !== undefined) return { [kind.lies_in]: [...first], [kind.second]: [...(second ?? plus(first, [0, 3]))] };
  return corners.length < needs_corners(kind) ? null : { [kind.lies_in]: bare(corners) };
}

function known_guesses({ kind }: Drawing): string[] {
  return (kind.guessed ?? []).filter((key) => key_of(kind.table, key) !== undefined);
}

/** Sets it down: it is made with its figures offered, chosen, and its form is open. */
export function finish(): void {
  const now = drawing.peek();
  const place = now === null ? null : place_set(now);
  if (now === null) return;
  if (place === null) {
    saying.value = `It wants ${needs_corners(now.kind)} corners at least.`;
    return;
  }
  const { kind } = now;
  if (kind.table === "boundary") {
    drawing.value = null;
    saying.value = "The boundary is drawn.";
    void act.set_table("boundary", { ...place, sides_m: null, diagonal_m: null, ...now.of.more }, "the boundary drawn").then((told) => told === null && now.of.then?.(""));
    return;
  }
  const guessed = known_guesses(now);
  const what = kind.what === undefined || now.what.trim() === "" ? {} : { [kind.what]: now.what.trim() };
  const set = { ...offered_here(kind.offered), ...what, ...place, ...(guessed.length === 0 ? {} : { guessed }) };
  const is_nameless = now.what.trim() === "" || kind.table === "area";
  const called = kind.called ?? (is_nameless ? kind.table : now.what.trim() === "unknown" ? table_called(kind.table) : now.what.trim());
  const is_of = garden.peek();
  drawing.value = null;
  const { then } = now.of;
  void act.add(kind.table, set, called).then(({ told, made: [id] }) => {
    if (garden.peek() !== is_of) return;
    if (told !== null)
      batch(() => {
        problem.value = null; // it is told where it is mended
        drawing.value = { ...now, from: null, told };
      });
    else if (id !== undefined && then !== undefined) then(id);
    else if (id !== undefined && drawing.peek() === null) {
      batch(() => {
        select_when_there(id);
        saying.value = `${id} is drawn, and chosen: its figures are in the notes.`;
      });
    } else if (id === undefined) saying.value = `${called} waits to be written.`;
  });
}

effect(() => {
  if (drawing.value === null) forget_guides();
});
effect(() => {
  garden.value;
  scheme.value;
  drawing.value = null;
});
effect(() => {
  if ((selected.value !== null || moving.value !== null) && drawing.peek() !== null) drawing.value = null;
});
