import { expect, test } from "vitest";
import {
  type Axes, column_at, column_of_day, day_of_column, daylight_path, hour_at, hours_shown, lit_of, month_at, month_spans,
  runs_of_months, x_of_column, y_of_hour,
} from "./axes";

const axes: Axes = { width: 730, height: 160, first_day: 1, low_h: 6, high_h: 22 };
const day = (...lit: [number, number][]) => ({ date: "01-01", rise_h: null, set_h: null, lit, light: "both" as const });

test("a column's middle is in that column again", () => {
  for (let column = 0; column < 365; ++column) expect(column_at(axes, x_of_column(axes, column))).toBe(column);
});

test("beyond the edges lies the first or the last day", () => {
  expect(column_at(axes, -5)).toBe(0);
  expect(column_at(axes, 9999)).toBe(364);
});

test("hours go up the page and come back to five minutes", () => {
  expect(y_of_hour(axes, 22)).toBe(0);
  expect(y_of_hour(axes, 6)).toBe(160);
  expect(hour_at(axes, y_of_hour(axes, 16 + 1 / 3))).toBeCloseTo(16 + 1 / 3, 9);
  expect(hour_at(axes, -20)).toBe(22);
});

test("days and columns go both ways, in the south from July", () => {
  for (const first of [1, 182])
    for (let column = 0; column < 365; ++column)
      expect(column_of_day(first, day_of_column(first, column))).toBe(column);
  expect(day_of_column(1, 0)).toBe("01-01");
  expect(day_of_column(182, 0)).toBe("07-01");
  expect(day_of_column(182, 364)).toBe("06-30");
  expect(column_of_day(1, "02-29")).toBe(column_of_day(1, "02-28"));
});

test("months follow one another across the year", () => {
  expect(month_spans(182).map((span) => span.month)).toEqual([6, 7, 8, 9, 10, 11, 0, 1, 2, 3, 4, 5]);
  expect(month_spans(1)[11]?.to).toBe(365);
  expect(month_at(axes, x_of_column(axes, column_of_day(1, "06-15")))).toBe(5);
});

test("growing months are one bracket in the north and in the south", () => {
  expect(runs_of_months(1, [3, 4, 5, 6, 7, 8])).toEqual([[90, 273]]);
  expect(runs_of_months(182, [9, 10, 11, 0, 1, 2])).toEqual([[92, 274]]);
  expect(runs_of_months(1, [10, 11, 0])).toHaveLength(2);
});

test("night is cropped to where no day of the year has sun", () => {
  const days = [day([9.15, 17.55]), day([6.27, 22.37])];
  expect(hours_shown({ first_day: 1, days })).toEqual([6, 22.5]);
  expect(hours_shown({ first_day: 1, days: [...days, day([0, 24])] })).toEqual([0, 24]);
  expect(hours_shown({ first_day: 1, days: [...days, day([0, 0.05], [2.9, 24])] })).toEqual([0, 24]);
  expect(hours_shown({ first_day: 1, days: [day()] })).toEqual([0, 24]);
});

test("the clock change is upright", () => {
  const days = Array.from({ length: 365 }, (_, i) => day(i < 100 ? [7, 18] : [8, 19]));
  const x = ((100 / 365) * 730).toFixed(2);
  expect(daylight_path(axes, { first_day: 1, days }).split(`${x} `)).toHaveLength(5);
});

const whole: Axes = { ...axes, low_h: 0, high_h: 24 };

type Point = [number, number];
const shapes_of = (path: string): Point[][] =>
  path.split("M").slice(1).map((shape) => shape.replace("Z", "").split("L").map((point) => point.split(" ").map(Number) as Point));

/** Whether the middle of a day's hour lies within the shapes. */
function is_lit(shapes: Point[][], column: number, hour: number): boolean {
  const [x, y] = [x_of_column(whole, column), y_of_hour(whole, hour)];
  let crossed = 0;
  for (const points of shapes)
    for (let i = 0; i < points.length; ++i) {
      const [[x1, y1], [x2, y2]] = [points[i] as Point, points[(i + 1) % points.length] as Point];
      if (x1 > x !== x2 > x && y < y1 + ((x - x1) / (x2 - x1)) * (y2 - y1)) ++crossed;
    }
  return crossed % 2 === 1;
}

/** As the sun goes about 64 north: it sets later and later, after midnight for two weeks, and earlier again. */
function far_north(column: number) {
  const off = Math.abs(column - 171);
  const rise = 2.9 + off * 0.03;
  const set = 24.05 - off * 0.007;
  if (set > 24) return off === 7 ? day([rise, 24]) : day([0, set - 24], [rise, 24]);
  return day([rise, set]);
}

test("where the sun sets after midnight both pieces of the day are lit, and the night between is not", () => {
  const days = Array.from({ length: 365 }, (_, column) => far_north(column));
  const shapes = shapes_of(daylight_path(whole, { first_day: 1, days }));
  const wrong: string[] = [];
  days.forEach((one, column) => {
    for (const hour of [0.02, 0.5, 2, 4, 12, 18, 22, 23.4, 23.98]) {
      if (lit_of(one).flat().some((edge) => Math.abs(edge - hour) < 0.03)) continue;
      const is_up = lit_of(one).some(([from, to]) => from < hour && hour < to);
      if (is_lit(shapes, column, hour) !== is_up) wrong.push(`${column}, ${hour} h`);
    }
  });
  expect(wrong).toEqual([]);
  expect(shapes).toHaveLength(2);
});

test("a day without night is lit throughout, and a day without sun is not", () => {
  const days = Array.from({ length: 365 }, (_, column) =>
    column < 20 ? day() : column < 137 ? day([6, 18]) : column < 138 ? day([0, 0.6], [1.1, 24]) : column < 200 ? day([0, 24]) : day([1.3, 23.9]),
  );
  const shapes = shapes_of(daylight_path(whole, { first_day: 1, days }));
  expect([10, 100, 137, 150, 250].map((column) => is_lit(shapes, column, 12))).toEqual([false, true, true, true, true]);
  expect([100, 137, 150, 250].map((column) => is_lit(shapes, column, 0.3))).toEqual([false, true, true, false]);
  expect(is_lit(shapes, 137, 0.85)).toBe(false);
});
