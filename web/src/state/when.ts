// The time that the sheet shows: months, a day, or a moment of one.
import { computed, signal } from "@preact/signals";
import { state } from "./garden";

export type When =
  | { kind: "months"; months: number[] } // 0 to 11, in the order of the season
  | { kind: "day"; day: string } // MM-DD
  | { kind: "moment"; day: string; clock: number }; // hours, by the clock

export const month_names = [
  "January", "February", "March", "April", "May", "June",
  "July", "August", "September", "October", "November", "December",
] as const;

const growing_key = computed(() => (state.value?.site.growing_months ?? [3, 4, 5, 6, 7, 8]).join(","));
const growing_months = computed<When>(() => ({
  kind: "months",
  months: growing_key.value.split(",").map(Number),
}));

/** What the garden's growing months are; before one is open, those of the north. */
export const growing = (): When => growing_months.value;

const chosen = signal<When | null>(null); // null: the growing months, whatever they are
const shown = computed(() => chosen.value ?? growing_months.value);

/** Setting it to the growing months follows the garden. */
export const when = {
  get value(): When {
    return shown.value;
  },
  set value(next: When) {
    chosen.value = is_growing(next) ? null : next;
  },
  peek: (): When => shown.peek(),
};

export function is_growing(one: When): boolean {
  return one.kind === "months" && one.months.join(",") === growing_key.peek();
}

export function clock_says(clock: number): string {
  const minutes = Math.round(clock * 60);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;
}

/** "06-15" as "15 June". */
export function day_says(day: string): string {
  const [month, date] = day.split("-").map(Number);
  return `${date} ${month_names[(month ?? 1) - 1]}`;
}

/** "April to September", "June", "March, May". */
export function months_say(months: readonly number[]): string {
  const first = months[0];
  const last = months[months.length - 1];
  if (first === undefined || last === undefined) return "";
  if (months.length === 1) return month_names[first] ?? "";
  if (months.length === 12) return "the whole year";
  const is_run = months.every((m, i) => m === (first + i) % 12);
  if (is_run) return `${month_names[first]} to ${month_names[last]}`;
  return months.map((m) => month_names[m]).join(", ");
}

export function when_is_said(now: When): string {
  if (now.kind === "months") return months_say(now.months);
  if (now.kind === "day") return day_says(now.day);
  return `${day_says(now.day)}, ${clock_says(now.clock)}`;
}
export const when_says = computed(() => when_is_said(when.value));

/** The months as the contract takes them; nothing for the growing months. */
export function months_asked(now: When): string | undefined {
  if (now.kind === "months") return is_growing(now) ? undefined : now.months.join(",");
  return String(Number(now.day.slice(0, 2)) - 1);
}
