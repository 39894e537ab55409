// The picture that band and sun print share: daylight between the curves of sunrise and sunset, over it
// the print, the lines of hours and months, and the moment shown.
import { useEffect, useId, useMemo, useRef } from "preact/hooks";
import type { Band, Print } from "../api";
import { dark, outdoors, told_takers, when, when_says } from "../state";
import { type Axes, column_of_day, daylight_path, days_of_year, month_spans, runs_of_months, x_of_column, y_of_hour } from "./axes";
import { name_print } from "./name_print";
import { paint_print } from "./paint_print";
import { regions_of } from "./regions";

/** A speck of less than so many square pixels is not drawn. */
const speck_px = 40;

function PrintCanvas({ axes, print }: { axes: Axes; print: Print }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const speck = useMemo(() => {
    const cell = ((axes.width / days_of_year) * print.head.day_step * axes.height * print.head.step_h) / (axes.high_h - axes.low_h);
    return Math.max(12, Math.round(speck_px / Math.max(0.01, cell)));
  }, [axes.width, axes.height, axes.low_h, axes.high_h, print]);
  const regions = useMemo(() => regions_of(print, speck), [print, speck]);
  useEffect(() => {
    let is_over = false;
    let frame = 0;
    const draw = () => {
      if (is_over || canvas.current === null || axes.width < 2) return;
      const ratio = Math.min(3, devicePixelRatio);
      paint_print(canvas.current, print, regions, axes, ratio);
      cancelAnimationFrame(frame);
      frame = requestAnimationFrame(() => {
        if (!is_over && canvas.current !== null) name_print(canvas.current, print, regions, axes, ratio, told_takers.value);
      });
    };
    draw();
    if (document.fonts.status !== "loaded") void document.fonts.ready.then(draw);
    return () => {
      is_over = true;
    };
  }, [axes, print, regions, dark.value, outdoors.value, told_takers.value]);
  return <canvas class="plot-print" ref={canvas} aria-hidden="true" />;
}

export function hours_between(axes: Axes): number[] {
  const hour_px = axes.height / Math.max(1, axes.high_h - axes.low_h);
  const step = [2, 4, 6].find((hours) => hours * hour_px > 16) ?? 12;
  const hours = [];
  for (let hour = Math.ceil(axes.low_h / step) * step; hour <= axes.high_h; hour += step) hours.push(hour);
  return hours;
}

function Grid({ axes }: { axes: Axes }) {
  const hours = hours_between(axes).map((hour) => `M0 ${Math.round(y_of_hour(axes, hour)) + 0.5}H${axes.width}`);
  const months = month_spans(axes.first_day)
    .slice(1)
    .map(({ from }) => `M${Math.round((from / days_of_year) * axes.width) + 0.5} 0V${axes.height}`);
  return <path class="plot-grid" d={[...hours, ...months].join("")} />;
}

/** What is shown, written beside its line, on the side that has room. */
function Reading({ axes, x, y }: { axes: Axes; x: number; y: number }) {
  const says = when_says.value;
  const is_left = x > axes.width - 8 * says.length - 16;
  const is_below = y < 22;
  return (
    <text class="plot-reading" x={is_left ? x - 9 : x + 9} y={is_below ? y + 18 : y - 8} text-anchor={is_left ? "end" : "start"}>
      {says}
    </text>
  );
}

/** Months between two lines, a day as a line, a moment as a crossing. */
function Shown({ axes }: { axes: Axes }) {
  const now = when.value;
  if (now.kind === "months") {
    return (
      <>
        {month_edges(axes, now.months).map(([left, right]) => (
          <path key={left} class="plot-months" d={`M${left} 0V${axes.height}M${right} 0V${axes.height}`} />
        ))}
      </>
    );
  }
  const x = x_of_column(axes, column_of_day(axes.first_day, now.day));
  if (now.kind === "day") {
    return (
      <>
        <path class="plot-case" d={`M${x} 0V${axes.height}`} />
        <path class="plot-day" d={`M${x} 0V${axes.height}`} />
        <Reading axes={axes} x={x} y={0} />
      </>
    );
  }
  const y = y_of_hour(axes, now.clock);
  return (
    <>
      <path class="plot-case" d={`M${x} 0V${axes.height}M0 ${y}H${axes.width}`} />
      <path class="plot-cross" d={`M${x} 0V${axes.height}M0 ${y}H${axes.width}`} />
      <circle class="plot-moment" cx={x} cy={y} r="5" />
      <Reading axes={axes} x={x} y={y} />
    </>
  );
}

function month_edges(axes: Axes, months: readonly number[]): [number, number][] {
  const x_of = (column: number) => (column / days_of_year) * axes.width;
  return runs_of_months(axes.first_day, months).map(([from, to]) => [x_of(from), x_of(to)]);
}

/** The daylight; of the months shown it is the fuller yellow. */
function Daylight({ axes, band }: { axes: Axes; band: Band }) {
  const lit = useMemo(() => daylight_path(axes, band), [axes, band]);
  const id = useId();
  const now = when.value;
  const edges = now.kind === "months" ? month_edges(axes, now.months) : [];
  return (
    <>
      <clipPath id={id}>
        {edges.map(([left, right]) => <rect key={left} x={left} y="0" width={right - left} height={axes.height} />)}
      </clipPath>
      <path class="plot-lit" d={lit} />
      <path class="plot-tint" d={lit} clip-path={`url(#${id})`} />
    </>
  );
}

export function Plot({ axes, band, print, says }: { axes: Axes; band: Band; print: Print | null; says: string }) {
  return (
    <div class="plot" role="img" aria-label={says}>
      {print !== null && <PrintCanvas axes={axes} print={print} />}
      <svg class="plot-lines" width={axes.width} height={axes.height} aria-hidden="true" focusable="false">
        {print === null && <Daylight axes={axes} band={band} />}
        <Grid axes={axes} />
        <rect class="plot-frame" x="0.5" y="0.5" width={Math.max(0, axes.width - 1)} height={Math.max(0, axes.height - 1)} />
        <Shown axes={axes} />
      </svg>
    </div>
  );
}
