import { expect, test } from "vitest";
import type { Print } from "../api";
import { cell_of, touched } from "./touched";

function print_with(at: [string, number], bytes: number[]): Print {
  const head = {
    place: "bed", is_face: false, first_day: 1, day_step: 1, columns: 365, step_h: 0.5, rows: 48,
    month_sun_h: [], lit_h: 0, lost_h: 0, taken_twice_h: 0,
    takers: [
      { id: "medlar", called: "medlar", letter: "B", ink: 1, sun_h_per_year: 9 },
      { id: "hedge", called: "hedge", letter: "A", ink: 0, sun_h_per_year: 8 },
    ],
  };
  const print = { head, cells: new Uint8Array(4 * 365 * 48).fill(255) };
  for (let i = 1; i < print.cells.length; i += 4) print.cells[i] = 0;
  print.cells.set(bytes, 4 * cell_of(print, at[0], at[1]));
  return print;
}

const at: [string, number] = ["06-15", 16.4];

test("whose bite it is", () => {
  expect(touched(print_with(at, [0, 3, 0, 255]), ...at)).toEqual({ taker: "medlar", says: "15 June, 16:24: shade; medlar takes it." });
});
test("two at once", () => {
  expect(touched(print_with(at, [100, 3, 0, 1]), ...at).says).toBe("15 June, 16:24: the sun is on a part of it; medlar and hedge take the rest at once.");
});
test("the sun, the weak sun, the skyline, the night", () => {
  expect(touched(print_with(at, [255, 3, 255, 255]), ...at)).toEqual({ taker: null, says: "15 June, 16:24: the sun is on it." });
  expect(touched(print_with(at, [0, 1, 255, 255]), ...at).says).toContain("low and weak");
  expect(touched(print_with(at, [0, 3, 254, 255]), ...at)).toEqual({ taker: null, says: "15 June, 16:24: shade; the skyline takes it." });
  expect(touched(print_with(at, [0, 3, 255, 255]), "12-24", 2).says).toContain("the sun is down");
});
