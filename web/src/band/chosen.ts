// What the band's hands do: a month, a day, a moment; and the day that a clock alone belongs to.
import { effect, signal } from "@preact/signals";
import type { Print } from "../api";
import { band, clock_says, day_says, field, field_of, growing, hovered, is_growing, month_names, months_say, print, saying, selected, things, when, type When } from "../state";
import { day_of_column } from "./axes";
import { touched } from "./touched";

export const first_day = (): number => band.value?.first_day ?? 1;
/** The middle of the band: near the longest day of the north, near the south's in December. */
const middle_column = 171;
const kept_day = signal<string | null>(null);
const kept_clock = signal(15);

export const day_now = (): string => {
  const now = when.value;
  return now.kind === "months" ? (kept_day.value ?? day_of_column(first_day(), middle_column)) : now.day;
};
export const clock_now = (): number => {
  const now = when.value;
  return now.kind === "moment" ? now.clock : kept_clock.value;
};

effect(() => {
  const now = when.value;
  if (now.kind !== "months") kept_day.value = now.day;
  if (now.kind === "moment") kept_clock.value = now.clock;
});

/** The selected place's own print; null while another's stands. */
export function print_shown(): Print | null {
  const of = print.value;
  return of !== null && of.head.place === selected.value ? of : null;
}

/** What the moment shown is to the selected place. */
/** Of a bed, the share in the sun at the moment that the sheet shows. */
function share_now(place: string): number | null {
  const [now, shown] = [when.value, field_of.value?.when];
  const is_shown = now.kind === "moment" && shown?.kind === "moment" && shown.day === now.day && shown.clock === now.clock;
  return is_shown ? (field.value?.head.beds[place] ?? null) : null;
}

export function moment_says(): string {
  const now = when.value;
  const of = print_shown();
  return now.kind !== "moment" || of === null ? "" : touched(of, now.day, now.clock, share_now(of.head.place)).says;
}

function set(next: When): void {
  when.value = next;
}

export function choose_growing(): void {
  set(growing());
  leave_taker();
  saying.value = `The growing months, ${months_say((growing() as { months: number[] }).months)}.`;
}
export function choose_month(month: number): void {
  set({ kind: "months", months: [month] });
  leave_taker();
  saying.value = `A mean day of ${month_names[month]}.`;
}
export function choose_months(next: When): void {
  set(next);
  leave_taker();
}
export function choose_day(day: string): void {
  set({ kind: "day", day });
  leave_taker();
}
export function choose_moment(day: string, clock: number): void {
  set({ kind: "moment", day, clock });
  const of = print_shown();
  if (of === null) return;
  const { taker } = touched(of, day, clock);
  if (taker !== null && taker !== selected.peek() && things.peek().has(taker)) hovered.value = taker;
  else leave_taker();
}
export function tell_moment(): void {
  const now = when.peek();
  if (now.kind === "months") return;
  const says = moment_says();
  saying.value = says !== "" ? says : now.kind === "day" ? `${day_says(now.day)}.` : `${day_says(now.day)}, ${clock_says(now.clock)}.`;
}
let resting: ReturnType<typeof setTimeout>;
/** After the last of several steps: what the sun does then. The time itself the sliders tell. */
export function tell_at_rest(): void {
  clearTimeout(resting);
  resting = setTimeout(() => {
    const says = moment_says();
    if (says !== "") saying.value = says;
  }, 600);
}
function leave_taker(): void {
  if (hovered.peek() !== null) hovered.value = null;
}

/** Along the days, keeping the hour of a moment. */
export function move_day(day: string): void {
  const now = when.peek();
  if (now.kind === "moment") choose_moment(day, now.clock);
  else choose_day(day);
}
export const is_growing_now = (): boolean => is_growing(when.value);
