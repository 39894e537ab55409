// Moving a thing: by its grip, by a touch where it is to stand, by arrows, or by figures.
import { batch, effect, signal } from "@preact/signals";
import { goes_with_others, length_says, type Point } from "../geometry";
import { forget_guides, guides_say, snap_shape } from "./snapping";
import { drawn_thing } from "./choosing";
import { act, end_trial, hold_trial, link, saying, selected, state, try_move, warm_up, without } from "../state";

export interface Moving {
  thing: string;
  by_m: [number, number];
  how: "grip" | "place" | "keys"; // dragged; tapped where to; arrows or typed
}
export const moving = signal<Moving | null>(null);

const is_imperial = () => state.peek()?.site.units === "imperial";

/** "0.4 m right, 1.2 m up". */
export function move_says([x, y]: readonly [number, number]): string {
  const parts: string[] = [];
  if (Math.abs(x) >= 0.005) parts.push(`${length_says(Math.abs(x), is_imperial())} ${x < 0 ? "left" : "right"}`);
  if (Math.abs(y) >= 0.005) parts.push(`${length_says(Math.abs(y), is_imperial())} ${y < 0 ? "down" : "up"}`);
  return parts.length === 0 ? "where it stood" : parts.join(", ");
}

export function begin_move(thing: string, how: Moving["how"]): void {
  if (link.peek() === "read_only" || !is_here(thing)) return;
  const is_tied = drawn_thing(thing);
  if (is_tied !== null && goes_with_others(is_tied)) {
    saying.value = `${thing} stands where its ends stand: move those.`;
    return;
  }
  if (is_kept(thing)) {
    saying.value = `${thing} is locked: it stays where it is.`;
    return;
  }
  batch(() => {
    without.value = null;
    selected.value = thing;
    moving.value = { thing, by_m: [0, 0], how };
    if (how !== "grip")
      saying.value =
        how === "keys"
          ? `Moving ${thing}: arrows a tenth of a metre, with Shift a metre, with Alt a hundredth. Enter sets it down, Escape leaves it.`
          : `Touch where ${thing} is to stand.`;
  });
}

/** A hand is no surer than that; what is typed is taken as it is. */
export const to_cm = (metres: number) => Math.round(metres * 100) / 100;

export function move_to(by_m: readonly [number, number]): void {
  const now = moving.peek();
  if (now === null || (now.by_m[0] === by_m[0] && now.by_m[1] === by_m[1])) return; // held in line with something
  moving.value = { ...now, by_m: [by_m[0], by_m[1]] };
  try_move(now.thing, [by_m[0], by_m[1]]);
}

export function move_on(dx: number, dy: number): void {
  const now = moving.peek();
  if (now === null) return;
  const by: Point = [to_cm(now.by_m[0] + dx), to_cm(now.by_m[1] + dy)];
  move_to(by);
  saying.value = `${now.thing}: ${move_says(by)}${lines_say(now.thing, by)}`;
}

/** Where arrows have it in line with something, that is told. */
function lines_say(id: string, by: Point): string {
  const thing = drawn_thing(id);
  if (thing === null) return "";
  const corners = thing.corners.map(([x = 0, y = 0]): Point => [x + by[0], y + by[1]]);
  snap_shape(corners, thing.closed, { but: id, free: false, by_keys: true });
  return guides_say();
}

export function set_down(): void {
  const now = moving.peek();
  if (now === null) return;
  const by_m: [number, number] = [...now.by_m];
  if (by_m[0] === 0 && by_m[1] === 0) return leave_it();
  hold_trial();
  batch(() => {
    moving.value = null;
    saying.value = `${now.thing} moved ${move_says(by_m)}.`;
    void act.move(now.thing, by_m).then((told) => {
      if (told !== null) end_trial();
    });
  });
}

export function leave_it(): void {
  const now = moving.peek();
  if (now === null) return;
  batch(() => {
    moving.value = null;
    if (now.how !== "grip") saying.value = `${now.thing} stays where it stood.`;
  });
  end_trial();
}

function is_kept(thing: string): boolean {
  return state.peek()?.things.find((one) => one.id === thing)?.fields["locked"]?.value === true;
}

/** Not one that only the garden as found has. */
function is_here(thing: string): boolean {
  return state.peek()?.things.some((one) => one.id === thing && one.mark !== "removed") ?? false;
}

effect(() => {
  if (moving.value === null) forget_guides();
});
effect(() => {
  const thing = selected.value;
  const drawn = drawn_thing(thing);
  if (drawn !== null && moving.peek() === null && is_here(drawn.id) && !goes_with_others(drawn)) warm_up(drawn.id);
  if (moving.peek() !== null && moving.peek()?.thing !== thing) leave_it();
});
