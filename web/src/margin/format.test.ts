import { expect, test } from "vitest";
import { about, capital, figure, light, listed, plain, range, read_value, year_hours } from "./format";

test("figures have their digits, and a true minus", () => {
  expect(figure(6.849)).toBe("6.8");
  expect(figure(-0.26)).toBe("−0.3");
  expect(figure(-0.04)).toBe("0.0");
  expect(figure(12, 0)).toBe("12");
});
test("what is not known is a dash, with no ≈", () => {
  expect(figure(null)).toBe("–");
  expect(figure(Number.NaN)).toBe("–");
  expect(about(figure(undefined), true)).toBe("–");
});
test("what rests on a guess says so", () => {
  expect(about("6.8", true)).toBe("≈ 6.8");
  expect(about("6.8", false)).toBe("6.8");
});
test("ranges", () => {
  expect(range(5.1, 6.2, "h")).toBe("5–6 h");
  expect(range(6.2, 5.1, "h")).toBe("5–6 h");
  expect(range(5.2, 5.4, "h")).toBe("5 h");
  expect(range(0.1, 120, "m", 1)).toBe("0.1–120.0 m");
  expect(range(-2, 3, "")).toBe("−2 to 3");
});
test("light, hours of a year, lengths, lists", () => {
  expect(light(5.23)).toBe("5.2");
  expect(light(21.6)).toBe("22");
  expect(year_hours(1967.4)).toBe("1 967");
  expect(year_hours(0.3)).toBe("–");
  expect([1967.4, 262, 7.4, 0.3].map((hours) => year_hours(hours, true))).toEqual(["≈ 2 000", "≈ 260", "≈ 7", "–"]);
  expect(plain(2.3000000001)).toBe("2.3");
  expect(listed(["a", "b", "c"])).toBe("a, b and c");
  expect(capital("bed")).toBe("Bed");
});

test("values as they are read", () => {
  expect(read_value("-105 m")).toBe("−105 m");
  expect(read_value("[1.66, -3.72]")).toBe("1.66, −3.72");
  expect(read_value("[[0, -1], [2, 3]]")).toBe("[[0, −1], [2, 3]]");
  expect(read_value('"half-dwarfing"')).toBe("half-dwarfing");
  expect(read_value('"7\' 6\\""')).toBe("7' 6\"");
});
