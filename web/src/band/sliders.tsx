// The band for the keyboard: a slider of days and one of hours, each telling what it stands at.
import type { Band } from "../api";
import { clock_says, day_says, when, when_says } from "../state";
import { type Axes, column_of_day, day_of_column, days_in_month, days_of_year, lit_of, x_of_column, y_of_hour } from "./axes";
import { choose_moment, clock_now, day_now, move_day, tell_at_rest } from "./chosen";

const steps: Record<string, number> = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 };

function month_on(day: string, by: 1 | -1): string {
  const [month = 1, date = 1] = day.split("-").map(Number);
  const next = (month - 1 + by + 12) % 12;
  return `${String(next + 1).padStart(2, "0")}-${String(Math.min(date, days_in_month(next))).padStart(2, "0")}`;
}

function taken(event: KeyboardEvent): void {
  tell_at_rest();
  event.preventDefault();
  event.stopPropagation();
}

export function DaySlider({ axes }: { axes: Axes }) {
  const now = when.value;
  const day = day_now();
  const column = column_of_day(axes.first_day, day);
  function key(event: KeyboardEvent): void {
    const step = steps[event.key];
    const to = (next: number) => move_day(day_of_column(axes.first_day, Math.max(0, Math.min(days_of_year - 1, next))));
    if (step !== undefined) to(now.kind === "months" ? column : column + step * (event.shiftKey ? 7 : 1));
    else if (event.key === "PageUp" || event.key === "PageDown") move_day(month_on(day, event.key === "PageUp" ? 1 : -1));
    else if (event.key === "Home") to(0);
    else if (event.key === "End") to(days_of_year - 1);
    else return;
    taken(event);
  }
  const says = now.kind === "months" ? `${when_says.value}; arrows choose a day` : day_says(day);
  return (
    <div
      class={`slider day-slider ${now.kind === "months" ? "is-open" : ""}`}
      role="slider"
      tabIndex={0}
      aria-label="Day"
      aria-valuemin={1}
      aria-valuemax={days_of_year}
      aria-valuenow={column + 1}
      aria-valuetext={says}
      onKeyDown={key}
      style={{ left: `${x_of_column(axes, column)}px` }}
    >
      <svg viewBox="-8 -9 16 18" width="16" height="18" aria-hidden="true"><path d="M0 -8L6.5 2V8H-6.5V2Z" /></svg>
    </div>
  );
}

/** Sunrise and sunset of a day; where there is neither, the ends of the axis. */
function ends_of(axes: Axes, band: Band, day: string): [number, number] {
  const of = band.days[column_of_day(axes.first_day, day)];
  const longest = of === undefined ? undefined : lit_of(of).sort((a, b) => b[1] - b[0] - (a[1] - a[0]))[0];
  const [low, high] = longest ?? [axes.low_h, axes.high_h];
  return [Math.ceil(low * 12) / 12, Math.floor(high * 12) / 12];
}

export function HourSlider({ axes, band }: { axes: Axes; band: Band }) {
  const now = when.value;
  const clock = clock_now();
  const day = day_now();
  function key(event: KeyboardEvent): void {
    const to = (hour: number) => choose_moment(day, Math.max(axes.low_h, Math.min(axes.high_h, Math.round(hour * 12) / 12)));
    const step = steps[event.key];
    if (step !== undefined) to(now.kind === "moment" ? clock + (step * (event.shiftKey ? 30 : 5)) / 60 : clock);
    else if (event.key === "PageUp") to(clock + 1);
    else if (event.key === "PageDown") to(clock - 1);
    else if (event.key === "Home") to(ends_of(axes, band, day)[0]);
    else if (event.key === "End") to(ends_of(axes, band, day)[1]);
    else return;
    taken(event);
  }
  const says = now.kind === "moment" ? clock_says(clock) : `${when_says.value}; arrows choose an hour`;
  return (
    <div
      class={`slider hour-slider ${now.kind === "moment" ? "" : "is-open"}`}
      role="slider"
      tabIndex={0}
      aria-label="Hour"
      aria-orientation="vertical"
      aria-valuemin={axes.low_h}
      aria-valuemax={axes.high_h}
      aria-valuenow={Number(clock.toFixed(2))}
      aria-valuetext={says}
      onKeyDown={key}
      style={{ top: `${y_of_hour(axes, clock)}px` }}
    >
      <svg viewBox="-9 -8 18 16" width="18" height="16" aria-hidden="true"><path d="M8 0L-2 6.5H-8V-6.5H-2Z" /></svg>
    </div>
  );
}
