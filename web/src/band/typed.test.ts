import { expect, test } from "vitest";
import { typed_when } from "./typed";

const said = (text: string) => typed_when(text, "03-01");
const moment = (day: string, clock: number) => ({ when: { kind: "moment", day, clock } });

test("a moment, as people write it", () => {
  for (const text of ["15 Jun 16:20", "15 June, 16:20", "june 15 16:20", "15th of June at 4:20 pm", "06-15 16:20", "2026-06-15 16h20", "15 Jun 4.20pm", "15 Jun 16.20", "15.6. 16.20", "15.06. 16:20", "June 15, at 16.20"]) {
    const { when } = said(text) as { when: { kind: string; day: string; clock: number } };
    expect(when, text).toMatchObject({ kind: "moment", day: "06-15" });
    expect(when.clock, text).toBeCloseTo(16 + 1 / 3, 9);
  }
  expect(said("21 dec noon")).toEqual(moment("12-21", 12));
  expect(said("12 am 21 dec")).toHaveProperty("hint");
});

test("a clock alone is of the day shown", () => {
  expect(said("7:30")).toEqual(moment("03-01", 7.5));
  expect(said("4pm")).toEqual(moment("03-01", 16));
});

test("a day", () => {
  for (const text of ["15 June", "15 jun", "June 15", "15. June", "06-15", "15.6.", "15.06", "15. 6. 2026"])
    expect(said(text), text).toEqual({ when: { kind: "day", day: "06-15" } });
  expect(said("29 Feb")).toEqual({ when: { kind: "day", day: "02-28" }, note: expect.stringContaining("leap years") });
  expect(said("28 Feb")).toEqual({ when: { kind: "day", day: "02-28" } });
});

test("months", () => {
  expect(said("June")).toEqual({ when: { kind: "months", months: [5] } });
  expect(said("sept")).toEqual({ when: { kind: "months", months: [8] } });
  expect(said("Nov to Feb")).toEqual({ when: { kind: "months", months: [10, 11, 0, 1] } });
  expect(said("May–Aug")).toEqual({ when: { kind: "months", months: [4, 5, 6, 7] } });
  expect(said("the whole year")).toEqual({ when: { kind: "months", months: [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11] } });
});

test("the growing months", () => {
  for (const text of ["", "growing", "Growing months", " growing "]) expect(said(text)).toEqual({ when: "growing" });
});

test("what is no time is told kindly", () => {
  for (const text of ["soon", "31 June", "15 Jun 25:00", "June 16:20", "13-40", "ju", "15", "15.13.", "15 Jun 25.00", "16.20"])
    expect(said(text), text).toHaveProperty("hint");
});
