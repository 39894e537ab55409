// The year band: days across, hours up. It picks the months, the day or the moment that the sheet shows,
// and carries the sun print of the place selected.
import "./band.css";
import { useMemo, useRef } from "preact/hooks";
import type { Band } from "../api";
import { band, band_loading, growing, month_names, place_of, print_loading, selected, when, when_says } from "../state";
import {
  type Axes, column_at, day_of_column, days_of_year, has_room, hour_at, hours_shown, month_at, month_spans, runs_of_months, y_of_hour, total_says } from "./axes";
import { choose_growing, choose_moment, choose_month, is_growing_now, move_day, print_shown } from "./chosen";
import { follow } from "./hands";
import { hours_between, Plot } from "./plot";
import { use_size } from "./size";
import { DaySlider, HourSlider } from "./sliders";
import { YearTwin } from "./twin";
import { BandWords } from "./words";

const finger = 44;
const figure_px = 27; // of the small band's month totals
const bracket_px = 10; // of the small band, as its style has it

/** Where months are narrower than a finger, the hands of all of them have the bracket too. */
function Bracket({ axes }: { axes: Axes }) {
  const is_narrow = axes.width / 12 < finger;
  const months = growing();
  const runs = months.kind === "months" ? runs_of_months(axes.first_day, months.months) : [];
  const x_of = (column: number) => (column / days_of_year) * axes.width;
  return (
    <>
      {runs.map(([from, to]) => (
        <div
          key={from}
          class={`bracket ${is_growing_now() ? "is-shown" : ""} ${is_narrow ? "is-drawn" : ""}`}
          aria-hidden="true"
          title="The growing months"
          onClick={is_narrow ? undefined : choose_growing}
          style={{ left: `${x_of(from)}px`, width: `${x_of(to) - x_of(from)}px` }}
        />
      ))}
    </>
  );
}

function Months({ axes }: { axes: Axes }) {
  const now = when.value;
  const is_narrow = axes.width / 12 < finger;
  const chosen = now.kind === "months" ? now.months : [];
  const width = (from: number, to: number) => `${((to - from) / days_of_year) * 100}%`;
  const names = month_spans(axes.first_day).map(({ month, from, to }) => {
    const name = month_names[month] as string;
    const is_on = chosen.includes(month);
    const shown = is_narrow ? name.slice(0, 1) : axes.width < 780 ? name.slice(0, 3) : name;
    const style = { left: `${(from / days_of_year) * 100}%`, width: width(from, to) };
    const class_name = `month ${is_on ? "is-on" : ""}`;
    if (is_narrow) return <span key={month} class={class_name} style={style}>{shown}</span>;
    return (
      <button key={month} type="button" class={class_name} aria-label={name} aria-pressed={is_on} style={style} onClick={() => choose_month(month)}>
        {shown}
      </button>
    );
  });
  const season = growing();
  const is_bracket = (month: number, y: number) => y < bracket_px && season.kind === "months" && season.months.includes(month);
  const touch = (x: number, y: number) => {
    const month = month_at(axes, x);
    if (is_bracket(month, y)) choose_growing();
    else choose_month(month);
  };
  const hands = is_narrow ? follow(touch) : {};
  return (
    <div class="months" role="group" aria-label="Months" {...hands}>
      {names}
      <Bracket axes={axes} />
    </div>
  );
}

function Hours({ axes }: { axes: Axes }) {
  return (
    <div class="hours" aria-hidden="true">
      {hours_between(axes).map((hour) => {
        const y = y_of_hour(axes, hour);
        if (axes.height < 60 && (y < 3 || y > axes.height - 3)) return null;
        return <span key={hour} style={{ top: `${Math.max(6, Math.min(axes.height - 6, y))}px` }}>{hour}<span class="minutes">:00</span></span>;
      })}
    </div>
  );
}

/** The days as a surveyor's scale; above them, with a print, the hours of each month. */
function Rail({ axes }: { axes: Axes }) {
  const totals = print_shown() === null ? null : (place_of(selected.value)?.months ?? null);
  const ticks = month_spans(axes.first_day).flatMap(({ from, to }) =>
    [0, 5, 10, 15, 20, 25].filter((d) => from + d < to).map((d) => {
      const x = Math.round(((from + d) / days_of_year) * axes.width) + 0.5;
      return `M${x} 0V${d === 0 ? 12 : d % 10 === 0 ? 7 : 4}`;
    }),
  );
  return (
    <div class="rail-of-days" {...follow((x) => move_day(day_of_column(axes.first_day, column_at(axes, x))))}>
      {totals !== null &&
        month_spans(axes.first_day).filter((_, nth) => has_room(axes, nth, figure_px)).map(({ month, from, to }) => (
          <span key={month} class="month-total" style={{ left: `${((from + to) / 2 / days_of_year) * 100}%` }}>
            {total_says(totals.find((row) => row.month === month + 1))}
          </span>
        ))}
      {totals !== null && <span class="totals-unit" aria-hidden="true">h a day</span>}
      <svg class="rail-scale" width={axes.width} height="13" aria-hidden="true"><path d={`M0 0.5H${axes.width}${ticks.join("")}`} /></svg>
      <DaySlider axes={axes} />
    </div>
  );
}

function plot_says(place: string | null): string {
  const base = `The year: days across, hours up, daylight lit; a table follows. Shown: ${when_says.value}.`;
  return place === null ? base : `${base} With the sun print of ${place}.`;
}

function Year({ of }: { of: Band }) {
  const field = useRef<HTMLDivElement>(null);
  const { width, height } = use_size(field);
  const axes = useMemo<Axes>(() => {
    const [low_h, high_h] = hours_shown(of);
    return { width, height, first_day: of.first_day, low_h, high_h };
  }, [of, width, height]);
  const print = print_shown();
  return (
    <div class="year">
      <Months axes={axes} />
      <Hours axes={axes} />
      <div
        class="year-field"
        ref={field}
        {...follow((x, y) => choose_moment(day_of_column(axes.first_day, column_at(axes, x)), hour_at(axes, y)))}
      >
        {width > 0 && <Plot axes={axes} band={of} print={print} says={plot_says(print === null ? null : selected.value)} />}
        {width > 0 && <HourSlider axes={axes} band={of} />}
      </div>
      <Rail axes={axes} />
      <YearTwin of={of} print={print} />
    </div>
  );
}

export function YearBand() {
  const of = band.value;
  return (
    <section class="year-band" data-region="band" aria-label="Year band" aria-busy={band_loading.busy.value || print_loading.busy.value}>
      <BandWords />
      {of === null ? <div class="year" /> : <Year of={of} />}
    </section>
  );
}
