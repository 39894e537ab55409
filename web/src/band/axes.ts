// The axes of the year band and of the sun print: days across, hours by the clock up.
import type { Band } from "../api";
import { hours_says } from "../geometry";

export const days_of_year = 365;
const lengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;
const starts = lengths.map((_, m) => lengths.slice(0, m).reduce((sum, n) => sum + n, 0));

export interface Axes {
  width: number; // pixels
  height: number;
  first_day: number; // day of the year of the left edge, from 1
  low_h: number; // the hour at the foot
  high_h: number;
}

/** Hours from the earliest to the latest that the sun is up, in halves; all of the day where it has no night. */
export function hours_shown(band: Band): [number, number] {
  let [low, high] = [24, 0];
  for (const [from, to] of band.days.flatMap(lit_of)) {
    low = Math.min(low, from);
    high = Math.max(high, to);
  }
  if (low >= high) return [0, 24];
  return [Math.max(0, Math.floor(low * 2) / 2), Math.min(24, Math.ceil(high * 2) / 2)];
}

type Piece = readonly [number, number];

/** When the sun is up on a day, from and to: in two pieces where it sets after midnight. */
export const lit_of = (day: Band["days"][number]): Piece[] => day.lit.map(([from = 0, to = 0]) => [from, to]);

const within = (value: number, low: number, high: number) => Math.max(low, Math.min(high, value));

/** The middle of a column; columns count from 0 at the left edge. */
export function x_of_column(axes: Axes, column: number): number {
  return ((column + 0.5) / days_of_year) * axes.width;
}
export function column_at(axes: Axes, x: number): number {
  return within(Math.floor((x / axes.width) * days_of_year), 0, days_of_year - 1);
}
export function y_of_hour(axes: Axes, hour: number): number {
  return ((axes.high_h - hour) / (axes.high_h - axes.low_h)) * axes.height;
}
/** To five minutes. */
export function hour_at(axes: Axes, y: number): number {
  const hour = axes.high_h - (y / axes.height) * (axes.high_h - axes.low_h);
  return within(Math.round(hour * 12) / 12, axes.low_h, axes.high_h);
}

/** A month's total beneath a print, where there is little room. */
export const total_says = (month: { sun_h_per_day: number; on_guesses: boolean } | undefined): string =>
  month === undefined ? "" : hours_says(month.sun_h_per_day, month.on_guesses).replace("≈ ", "≈");

/** "06-15" of a column. */
export function day_of_column(first_day: number, column: number): string {
  const day = (first_day - 1 + column + days_of_year) % days_of_year;
  let month = 11;
  while ((starts[month] as number) > day) month -= 1;
  const date = day - (starts[month] as number) + 1;
  return `${String(month + 1).padStart(2, "0")}-${String(date).padStart(2, "0")}`;
}
/** The column of "06-15"; a leap day counts as the day before. */
export function column_of_day(first_day: number, day: string): number {
  const [month = 1, date = 1] = day.split("-").map(Number);
  const of_year = (starts[month - 1] ?? 0) + Math.min(date, lengths[month - 1] ?? 31);
  return (of_year - first_day + days_of_year) % days_of_year;
}
export function days_in_month(month: number): number {
  return lengths[month] ?? 31;
}

export interface MonthSpan {
  month: number; // from 0
  from: number; // its first column
  to: number; // past its last
}
/** The months in the order of the axis. */
export function month_spans(first_day: number): MonthSpan[] {
  const first = lengths.findIndex((_, m) => (starts[m] as number) + 1 === first_day);
  const spans: MonthSpan[] = [];
  for (let i = 0, from = 0; i < 12; ++i) {
    const month = (Math.max(0, first) + i) % 12;
    const to = from + days_in_month(month);
    spans.push({ month, from, to });
    from = to;
  }
  return spans;
}
export function month_at(axes: Axes, x: number): number {
  const column = column_at(axes, x);
  return month_spans(axes.first_day).find((span) => column < span.to)?.month ?? 0;
}

/** Runs of neighbouring months on the axis, as columns: what a bracket spans. */
export function runs_of_months(first_day: number, months: readonly number[]): [number, number][] {
  const runs: [number, number][] = [];
  for (const { month, from, to } of month_spans(first_day)) {
    if (!months.includes(month)) continue;
    const last = runs[runs.length - 1];
    if (last !== undefined && last[1] === from) last[1] = to;
    else runs.push([from, to]);
  }
  return runs;
}

const clock_change_h = 0.4; // no sunrise moves that far overnight

/** Pieces of neighbouring days that belong together: the hours from which and to which each is lit. */
interface Run {
  first: number; // its first column
  from: number[];
  to: number[];
}

const shared_h = (a: Piece, b: Piece) => Math.min(a[1], b[1]) - Math.max(a[0], b[0]);

/** Each piece goes on from the one of the day before that it shares most hours with. */
function runs_of_days(band: Band): Run[] {
  const all: Run[] = [];
  let open: Run[] = [];
  band.days.forEach((day, column) => {
    const going_on: Run[] = [];
    for (const piece of lit_of(day).sort((a, b) => b[1] - b[0] - (a[1] - a[0]))) {
      const shared = (run: Run) => shared_h([run.from[run.from.length - 1] ?? 0, run.to[run.to.length - 1] ?? 0], piece);
      const [best] = open.filter((run) => !going_on.includes(run) && shared(run) > 0).sort((a, b) => shared(b) - shared(a));
      const run = best ?? { first: column, from: [], to: [] };
      if (best === undefined) all.push(run);
      run.from.push(piece[0]);
      run.to.push(piece[1]);
      going_on.push(run);
    }
    open = going_on;
  });
  return all;
}

/** Where the lit hours begin or end as a line, upright where the clocks change. */
function edge(axes: Axes, first: number, hours: readonly number[]): string[] {
  const x_of_edge = (column: number) => (((first + column) / days_of_year) * axes.width).toFixed(2);
  const y_of = (hour: number) => y_of_hour(axes, hour).toFixed(2);
  let last = hours[0] ?? 0;
  const points = [`${x_of_edge(0)} ${y_of(last)}`];
  hours.forEach((hour, column) => {
    if (column > 0 && Math.abs(hour - last) > clock_change_h)
      points.push(`${x_of_edge(column)} ${y_of(last)}`, `${x_of_edge(column)} ${y_of(hour)}`);
    points.push(`${x_of_column(axes, first + column).toFixed(2)} ${y_of(hour)}`);
    last = hour;
  });
  points.push(`${x_of_edge(hours.length)} ${y_of(last)}`);
  return points;
}

/** The lit region: one shape, and another at the foot of the days on which the sun sets after midnight. */
export function daylight_path(axes: Axes, band: Band): string {
  return runs_of_days(band)
    .map(({ first, from, to }) => `M${edge(axes, first, from).join("L")}L${edge(axes, first, to).reverse().join("L")}Z`)
    .join("");
}

/** Whether a month's figure has room: where a month is narrower than a figure, every second one has. */
export const has_room = (axes: Axes, nth: number, figure_px: number): boolean =>
  axes.width / 12 >= figure_px || nth % 2 === 0;
