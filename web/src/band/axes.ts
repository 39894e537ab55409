// The axes of the year band and of the sun print: days across, hours by the clock up.
import type { Band } from "../api";

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

/** Hours from the earliest sunrise to the latest sunset, in halves; all of the day where it has no night. */
export function hours_shown(band: Band): [number, number] {
  let [low, high] = [24, 0];
  for (const day of band.days) {
    if (day.light === "day") return [0, 24];
    if (day.rise_h === null || day.set_h === null) continue;
    if (day.set_h < day.rise_h) return [0, 24]; // past midnight
    low = Math.min(low, day.rise_h);
    high = Math.max(high, day.set_h);
  }
  if (low >= high) return [0, 24];
  return [Math.max(0, Math.floor(low * 2) / 2), Math.min(24, Math.ceil(high * 2) / 2)];
}

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

/** Sunrise or sunset as a line, upright where the clocks change. */
function edge(axes: Axes, hours: readonly number[]): string[] {
  const points = [`0 ${y_of_hour(axes, hours[0] ?? 0).toFixed(2)}`];
  let last = hours[0] ?? 0;
  hours.forEach((hour, column) => {
    const y = y_of_hour(axes, hour).toFixed(2);
    if (column > 0 && Math.abs(hour - last) > clock_change_h) {
      const x = ((column / days_of_year) * axes.width).toFixed(2);
      points.push(`${x} ${y_of_hour(axes, last).toFixed(2)}`, `${x} ${y}`);
    }
    points.push(`${x_of_column(axes, column).toFixed(2)} ${y}`);
    last = hour;
  });
  points.push(`${axes.width} ${y_of_hour(axes, last).toFixed(2)}`);
  return points;
}

/** The lit region. A day without night is lit from edge to edge; without a day it is closed up. */
export function daylight_path(axes: Axes, band: Band): string {
  const rise = band.days.map((day) => (day.light === "day" ? 0 : (day.rise_h ?? 12)));
  const set = band.days.map((day, i) => {
    if (day.light === "day") return 24;
    const down = day.set_h ?? 12;
    return down < (rise[i] as number) ? 24 : down;
  });
  return `M${edge(axes, rise).join("L")}L${edge(axes, set).reverse().join("L")}Z`;
}

/** Whether a month's figure has room: where a month is narrower than a figure, every second one has. */
export const has_room = (axes: Axes, nth: number, figure_px: number): boolean =>
  axes.width / 12 >= figure_px || nth % 2 === 0;
