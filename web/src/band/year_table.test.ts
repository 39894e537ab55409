import { expect, test } from "vitest";
import type { Band, Print } from "../api";
import { cell_of } from "./touched";
import { sun_on, year_rows } from "./year_table";

const step_h = 0.5;
const rows = 24 / step_h;
function print_lit(day: string, lit: [number, number, number][]): Print {
  const head = {
    place: "bed", is_face: false, first_day: 182, day_step: 1, columns: 365, step_h, rows,
    month_sun_h: [], lit_h: 0, lost_h: 0, taken_twice_h: 0, takers: [],
  };
  const print = { head, cells: new Uint8Array(4 * 365 * rows) };
  for (const [clock, share, light] of lit) print.cells.set([share, light, 255, 255], 4 * cell_of(print, day, clock));
  return print;
}
const band: Band = {
  first_day: 182,
  days: Array.from({ length: 365 }, (_, i) => ({ date: "", rise_h: 6 + i / 1000, set_h: 18, lit: [[6 + i / 1000, 18]], light: "both" as const })),
};

test("the first and the last sun of a day, of a quarter of the place and more", () => {
  const print = print_lit("01-15", [[6.5, 255, 1], [8, 60, 3], [9, 70, 3], [13, 255, 3], [16, 128, 3], [17, 20, 3]]);
  expect(sun_on(print, "01-15")).toEqual([9, 16.5]);
  expect(sun_on(print, "06-15")).toBeNull();
});

test("a row for each month, from July in the south", () => {
  const open = year_rows(band, null, null);
  expect(open.map((row) => row.month)).toEqual([6, 7, 8, 9, 10, 11, 0, 1, 2, 3, 4, 5]);
  expect(open[0]).toEqual({ month: 6, sun_h_per_day: null, first_h: 6.014, last_h: 18 });
  const of_bed = year_rows(band, print_lit("01-15", [[9, 255, 3]]), [
    { month: 1, sun_h_per_day: 5.5, sunshine_h_per_day: 3, dli_mol_m2_d: 20 } as never,
  ]);
  expect(of_bed[6]).toEqual({ month: 0, sun_h_per_day: 5.5, first_h: 9, last_h: 9.5 });
  expect(of_bed[0]).toEqual({ month: 6, sun_h_per_day: null, first_h: null, last_h: null });
});
