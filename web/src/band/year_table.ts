// The band and the sun print as rows, one for each month: the same figures as the picture's.
import type { Band, Month, Print } from "../api";
import { column_of_day, month_spans } from "./axes";
import { cell_of } from "./touched";

export interface YearRow {
  month: number; // from 0
  sun_h_per_day: number | null; // of a place
  first_h: number | null; // of the 15th, by the clock
  last_h: number | null;
}

export const middle_of = (month: number): string => `${String(month + 1).padStart(2, "0")}-15`;

/** From when to when the sun is on at least a quarter of the place, strong enough to count. */
export function sun_on(print: Print, day: string): [number, number] | null {
  const { rows, step_h } = print.head;
  const from = cell_of(print, day, 0);
  let [first, last] = [-1, -1];
  for (let row = 0; row < rows; ++row) {
    const lit = print.cells[4 * (from + row)] as number;
    const light = print.cells[4 * (from + row) + 1] as number;
    if ((light & 2) === 0 || lit <= 0.25 * 255) continue;
    if (first < 0) first = row;
    last = row;
  }
  return first < 0 ? null : [first * step_h, (last + 1) * step_h];
}

/** In the order of the axis. Without a print: sunrise and sunset. */
export function year_rows(band: Band, print: Print | null, months: readonly Month[] | null): YearRow[] {
  return month_spans(band.first_day).map(({ month }) => {
    const day = band.days[column_of_day(band.first_day, middle_of(month))];
    const open: [number | null, number | null] = [day?.rise_h ?? null, day?.set_h ?? null];
    const [first_h, last_h] = print === null ? open : (sun_on(print, middle_of(month)) ?? [null, null]);
    const sun = months?.find((row) => row.month === month + 1)?.sun_h_per_day ?? null;
    return { month, sun_h_per_day: print === null ? null : sun, first_h, last_h };
  });
}
