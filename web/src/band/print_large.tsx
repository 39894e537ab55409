// The sun print large, as it opens in the margin: the band's picture with its key.
import { useEffect, useMemo, useRef } from "preact/hooks";
import type { Band, Print } from "../api";
import { band, dark, month_names, outdoors, place_of } from "../state";
import { type Axes, column_at, day_of_column, days_of_year, has_room, hour_at, hours_shown, month_spans, y_of_hour, total_says } from "./axes";
import { choose_moment, moment_says, print_shown } from "./chosen";
import { follow } from "./hands";
import { half_line, half_strength, mixed, rgb_of } from "./hatches";
import { ink_of, paint_bar, palette_of } from "./paint_print";
import { hours_between, Plot } from "./plot";
import { nobody } from "./regions";
import { use_size } from "./size";

/** A bar or a swatch in a taker's ink and hatch, or in the stripes of two. */
export function InkBar({ inks, name }: { inks: readonly [number] | readonly [number, number]; name: string }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    if (canvas.current === null) return undefined;
    const of = canvas.current;
    const draw = () => paint_bar(of, inks, Math.min(3, devicePixelRatio));
    draw();
    const watch = new ResizeObserver(draw);
    watch.observe(of);
    return () => watch.disconnect();
  }, [inks.join(), dark.value, outdoors.value]);
  return <canvas ref={canvas} class={name} aria-hidden="true" />;
}

/** Half-hatched yellow, as a swatch. */
function HalfSwatch() {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const context = canvas.current?.getContext("2d");
    if (canvas.current === null || context === null || context === undefined) return;
    const { sun, graphite, is_bold } = palette_of(canvas.current);
    const image = context.createImageData(canvas.current.width, canvas.current.height);
    for (let j = 0, at = 0; j < image.height; ++j)
      for (let i = 0; i < image.width; ++i, ++at)
        image.data.set([...mixed(sun, rgb_of(graphite), half_line(i, j).cover * half_strength(is_bold)), 255], 4 * at);
    context.putImageData(image, 0, 0);
  }, [dark.value, outdoors.value]);
  return <canvas ref={canvas} class="swatch" width="26" height="14" aria-hidden="true" />;
}

/** The two that are most often there at once: their stripes stand for all. */
function most_striped(print: Print): [number, number] | null {
  const pairs = new Map<number, number>();
  for (let at = 0; at < print.cells.length; at += 4) {
    const second = print.cells[at + 3] as number;
    if (second === nobody) continue;
    const pair = (print.cells[at + 2] as number) * 256 + second;
    pairs.set(pair, (pairs.get(pair) ?? 0) + 1);
  }
  const most = [...pairs].reduce<[number, number] | null>((a, b) => (a === null || b[1] > a[1] ? b : a), null);
  return most === null ? null : [ink_of(print, most[0] >> 8), ink_of(print, most[0] & 255)];
}

/** Whether the sun is up and strong somewhere, and behind what it would fall on. */
function has_behind({ cells }: Print): boolean {
  for (let cell = 0; cell < cells.length; cell += 4)
    if (cells[cell] === 0 && ((cells[cell + 1] ?? 0) & 3) === 3 && cells[cell + 2] === nobody) return true;
  return false;
}

function Key({ print }: { print: Print }) {
  const stripes = useMemo(() => most_striped(print), [print]);
  return (
    <ul class="print-key">
      <li><span class="swatch is-sun" />the sun is on it</li>
      <li><HalfSwatch />on a part of it</li>
      <li><span class="swatch is-weak" />{has_behind(print) ? "low sun, or behind it" : "low, weak sun"}</li>
      <li><span class="swatch is-night" />night</li>
      {print.head.takers[0] !== undefined && (
        <li><InkBar inks={[print.head.takers[0].ink]} name="swatch" />ink: what takes it</li>
      )}
      {stripes !== null && <li><InkBar inks={stripes} name="swatch" />two take it at once</li>}
    </ul>
  );
}

const figure_px = 29; // a month's total, with its space

function Picture({ of, print }: { of: Band; print: Print }) {
  const field = useRef<HTMLDivElement>(null);
  const { width, height } = use_size(field);
  const axes = useMemo<Axes>(() => {
    const [low_h, high_h] = hours_shown(of);
    return { width, height, first_day: of.first_day, low_h, high_h };
  }, [of, width, height]);
  const totals = place_of(print.head.place)?.months ?? [];
  const spans = month_spans(of.first_day);
  const middle = (from: number, to: number) => ({ left: `${((from + to) / 2 / days_of_year) * 100}%` });
  return (
    <div class="print-picture">
      <div class="print-months" aria-hidden="true">
        {spans.map(({ month, from, to }) => <span key={month} style={middle(from, to)}>{month_names[month]?.slice(0, 1)}</span>)}
      </div>
      <div class="hours" aria-hidden="true">
        {hours_between(axes).map((hour) => <span key={hour} style={{ top: `${y_of_hour(axes, hour)}px` }}>{hour}</span>)}
      </div>
      <div
        class="print-field"
        ref={field}
        {...follow((x, y) => choose_moment(day_of_column(of.first_day, column_at(axes, x)), hour_at(axes, y)))}
      >
        {width > 0 && <Plot axes={axes} band={of} print={print} says={`The sun print of ${print.head.place}, large; the month table tells the same.`} />}
      </div>
      <div class="print-totals" aria-hidden="true">
        {spans.filter((_, nth) => has_room(axes, nth, figure_px)).map(({ month, from, to }) => (
          <span key={month} style={middle(from, to)}>{total_says(totals.find((row) => row.month === month + 1))}</span>
        ))}
      </div>
    </div>
  );
}

export function PrintLarge() {
  const of = band.value;
  const print = print_shown();
  if (of === null || print === null) return null;
  return (
    <div class="print-large">
      <Picture of={of} print={print} />
      <p class="print-says">{moment_says() || "Days across, hours by the clock up, on clear days; beneath, hours of a mean day. Touch it: the sheet shows that moment."}</p>
      <Key print={print} />
    </div>
  );
}
