import { expect, test } from "vitest";
import {
  type Axes, column_at, column_of_day, day_of_column, daylight_path, hour_at, hours_shown, month_at, month_spans,
  runs_of_months, x_of_column, y_of_hour,
} from "./axes";

const axes: Axes = { width: 730, height: 160, first_day: 1, low_h: 6, high_h: 22 };
const day = (rise_h: number | null, set_h: number | null, light: "both" | "day" | "night" = "both") => ({
  date: "01-01",
  rise_h,
  set_h,
  light,
});

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
  const days = [day(9.15, 17.55), day(6.27, 22.37)];
  expect(hours_shown({ first_day: 1, days })).toEqual([6, 22.5]);
  expect(hours_shown({ first_day: 1, days: [...days, day(null, null, "day")] })).toEqual([0, 24]);
  expect(hours_shown({ first_day: 1, days: [day(null, null, "night")] })).toEqual([0, 24]);
});

test("the clock change is upright", () => {
  const days = Array.from({ length: 365 }, (_, i) => day(i < 100 ? 7 : 8, i < 100 ? 18 : 19));
  const x = ((100 / 365) * 730).toFixed(2);
  expect(daylight_path(axes, { first_day: 1, days }).split(`${x} `)).toHaveLength(5);
});
