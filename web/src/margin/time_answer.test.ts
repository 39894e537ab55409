import { expect, test } from "vitest";
import { day_told, moment_told } from "./time_answer";

const beds = [
  { id: "bank", hours: 0.5 },
  { id: "brow", hours: 1 },
  { id: "gate", hours: 0.1 },
  { id: "nursery", hours: 0.9 },
];

test("a moment is told by how many beds are in the sun", () => {
  expect(moment_told("15 June, 18:20", beds)).toBe("15 June, 18:20: of 4 beds 2 in the sun, 1 in part, 1 in the shade.");
  expect(moment_told("15 June, 18:20", beds.slice(0, 1))).toBe("15 June, 18:20: of 1 bed 0 in the sun, 1 in part, 0 in the shade.");
});

test("a day is told by its sunniest and darkest bed", () => {
  expect(day_told("21 March", beds.map(({ id, hours }) => ({ id, hours: 8 * hours })))).toBe(
    "21 March, a clear day: brow has most sun, 8.0 hours, gate least, 0.8.",
  );
  expect(day_told("21 March", [{ id: "bank", hours: 4 }])).toBe("21 March, a clear day: bank has 4.0 hours of sun.");
  expect(day_told("21 March", [])).toBe("");
});
