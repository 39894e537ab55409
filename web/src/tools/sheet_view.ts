// What part of the plan the sheet shows. Two sheets side by side show the same part.
import { computed, effect, signal } from "@preact/signals";
import { type Box, both, box_around, fit, type Point, to_plan, type Room, type Size, type View, zoomed, panned, to_screen } from "../geometry";
import { compared, garden, state } from "../state";
import { forget_sketches, sketch_box } from "./laid";
import { is_laid_under } from "./laid_under";
import { pen } from "./pen";

export const size = signal<Size>({ width: 0, height: 0 }); // of one sheet
export const view = signal<View | null>(null);
/** Where the key of the light stands: in the free room beside the plan, or beneath it. */
export const key_beside = signal(true);
/** Followed by the drawing a moment after the hand rests. */
export const settled_scale = signal(0);
/** Counted up when it does. */
export const rests = signal(0);

/** Pixels of the sheet's foot over which the open notes lie while something is measured. */
export const covered = signal(0);

const is_fitted = signal(true);
let is_held = false; // it was, when what is drawn began
let fitted_for = ""; // what the paper was laid for
/** A garden without an edge and without things has a frame that means nothing: a sketch alone counts. */
export const is_bare = () => (state.value?.boundary.length ?? 0) === 0 && (state.value?.things.every(is_laid_under) ?? false);
/** What pictures laid under take up. */
const pictures_box = (): Box | null => box_around((state.value?.things ?? []).filter(is_laid_under).flatMap(({ corners }) => corners as unknown as Point[]));
const bare_m: Box = [-2, -2, 14, 14];
const frame = computed<Box | null>(() => {
  const of = (state.value?.frame_m as unknown as Box | undefined) ?? null;
  const drawn = sketch_box();
  if (of === null) return null;
  return is_bare() ? (both(drawn, pictures_box()) ?? bare_m) : both(of, drawn);
});
const frame_key = computed(() => frame.value?.join() ?? "");

const pen_strip_px = 44; // what a pen does, in a line at the sheet's foot
const phone_width = 600;
export const is_small = computed(() => size.value.width < phone_width && compared.value === null);

/** The free room about a fitted plan; whether its key stands beside it. */
function room_for(box: Box, of: Size): { room: Room; is_beside: boolean } {
  if (of.width < phone_width && compared.peek() === null)
    return { room: { left: 58, right: 58, top: covered.value > 0 ? 62 : 34, bottom: 12 + covered.value }, is_beside: true };
  if (of.width < 300) return { room: { left: 4, right: 4, top: 44, bottom: 62 + covered.value }, is_beside: false };
  const foot = 20 + Math.max(covered.value, pen.value === null ? 0 : pen_strip_px);
  const beside: Room = { left: 236, right: 72, top: 20, bottom: foot };
  const beneath: Room = { left: 20, right: 72, top: 44, bottom: 84 + covered.value };
  const is_beside = compared.peek() === null && fit(box, of, beside).scale >= 0.92 * fit(box, of, beneath).scale;
  return { room: is_beside ? beside : beneath, is_beside };
}

/** Whether the paper may stay as it lies: a crown a little wider is no reason to draw all of it anew. */
function still_fits(now: View, box: Box, of: Size, room: Room, next: View): boolean {
  const air_px = 14;
  const [low, high] = [to_screen(now, [box[0], box[1]]), to_screen(now, [box[2], box[3]])];
  const is_inside = low[0] >= room.left - air_px && high[0] <= of.width - room.right + air_px && high[1] >= room.top - air_px && low[1] <= of.height - room.bottom + air_px;
  return is_inside && next.scale < 1.2 * now.scale;
}

/** The midst of the plot, about which north is turned; without one, of what the sheet shows. */
export function rose_at(): [number, number] {
  const corners = state.peek()?.boundary ?? [];
  const now = view.peek();
  if (corners.length > 2) {
    const of = box_around(corners as unknown as Point[]) as Box;
    return [(of[0] + of[2]) / 2, (of[1] + of[3]) / 2];
  }
  const { width, height } = size.peek();
  return now === null ? [0, 0] : to_plan(now, [width / 2, height / 2]);
}

export function show_whole(): void {
  is_held = false;
  fitted_for = "";
  is_fitted.value = false;
  is_fitted.value = true;
}

/** The strip of figures at the foot of all but a phone's sheet: on a narrow one it has a line more. */
const strip_px = () => (size.peek().width < 800 ? 144 : 100);

/** What is drawn next may widen the plan: the paper stays where it is, clear of the strip of figures. */
export function hold_view(): void {
  const was = covered.peek();
  if (size.peek().width >= phone_width) covered.value = Math.max(was, strip_px());
  is_held = is_fitted.peek() || is_held;
  is_fitted.value = false;
  covered.value = was;
}

/** The strip is higher now: the whole, if it was shown, is shown clear of it. */
export function clear_of_strip(px: number): void {
  if (!is_held || size.peek().width < phone_width) return;
  const was = covered.peek();
  covered.value = Math.max(was, px);
  is_fitted.value = true;
  is_fitted.value = false;
  covered.value = was;
}

/** Nothing was drawn after all: the whole is shown again if it was. */
export function let_view_go(): void {
  if (is_held) show_whole();
}

effect(() => {
  const of = size.value;
  const box = frame.value;
  if (!is_fitted.value || box === null || of.width < 10) return;
  const key = [garden.value, covered.value, pen.value === null, of.width, of.height, compared.value === null].join();
  const whole_key = `${key} ${frame_key.value}`;
  if (whole_key === fitted_for) return;
  const { room, is_beside } = room_for(box, of);
  const next = fit(box, of, room);
  const now = view.peek();
  const is_only_frame = fitted_for.startsWith(`${key} `) && now !== null;
  fitted_for = whole_key;
  if (is_only_frame && still_fits(now, box, of, room, next)) return;
  key_beside.value = is_beside;
  view.value = next;
  settled_scale.value = next.scale;
});
let room_was = { width: 0, height: 0 };
effect(() => {
  const of = size.value; // as when the list comes beside the sheet: the whole is fitted into what is left
  const is_other = room_was.width > 0 && (of.width !== room_was.width || of.height !== room_was.height);
  room_was = of;
  if (is_other) let_view_go();
});
effect(() => {
  compared.value; // two sheets, or one again: each shows the whole
  is_fitted.value = true;
});
effect(() => {
  garden.value;
  is_fitted.value = true;
  forget_sketches();
});

let resting: ReturnType<typeof setTimeout> | undefined;
function by_hand(next: View): void {
  is_held = false;
  is_fitted.value = false;
  fitted_for = "";
  view.value = next;
  clearTimeout(resting);
  resting = setTimeout(() => {
    settled_scale.value = view.peek()?.scale ?? settled_scale.peek();
    rests.value += 1;
  }, 160);
}

export function set_view(next: View): void {
  by_hand(next);
}

export function zoom_by(factor: number, at?: readonly [number, number]): void {
  const now = view.peek();
  const { width, height } = size.peek();
  if (now !== null) by_hand(zoomed(now, at ?? [width / 2, height / 2], factor));
}

/** Brings a plan's point into sight, as little as needed. */
export function bring_into_sight(point: readonly [number, number]): void {
  const now = view.peek();
  if (now === null) return;
  const { width, height } = size.peek();
  const [x, y] = to_screen(now, point);
  const edge = 48;
  const dx = x < edge ? edge - x : x > width - edge ? width - edge - x : 0;
  const dy = y < edge ? edge - y : y > height - edge ? height - edge - y : 0;
  if (dx !== 0 || dy !== 0) by_hand(panned(now, dx, dy));
}
