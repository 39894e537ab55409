import { expect, test } from "vitest";
import { comma_hint, metres_as_feet, metres_in } from "./lengths";

test("lengths in the signs of print", () => {
  for (const text of [`7' 6"`, "7’ 6”", "7′ 6″", "7' 6''"]) expect(metres_in(text)).toBeCloseTo(2.286, 9);
});
test("a comma before decimals, with a unit or without", () => {
  expect(metres_in("2,5")).toBe(2.5);
  expect(metres_in("2,5 m")).toBe(2.5);
  expect(metres_in("0,125")).toBe(0.125);
  expect(metres_in("9", true)).toBeCloseTo(2.7432, 9);
});
test("each unit that people tape in", () => {
  expect(metres_in("9200 mm")).toBeCloseTo(9.2, 12);
  expect(metres_in("195mm", true)).toBeCloseTo(0.195, 12);
  expect(metres_in("920 cm")).toBeCloseTo(9.2, 12);
  expect(metres_in("2 yd 1 ft")).toBeCloseTo(2.1336, 12);
  expect(metres_in("1 m 95 mm")).toBeCloseTo(1.095, 12);
});
test("a comma that may part thousands is asked about", () => {
  for (const text of ["1,200", "1,200 mm", "1.234,5", "1,234.5", "1,234,567"]) expect(metres_in(text)).toBeNull();
  expect(comma_hint("1,200")).toBe("1200 or 1.2?");
  expect(comma_hint("1.234,5 m")).toBe("Write nothing between thousands: 1234.5.");
  expect(comma_hint("1,234,567")).toBe("Write nothing between thousands: 1234567.");
  expect(comma_hint("2,5 m")).toBeNull();
  expect(comma_hint("tall")).toBeNull();
});
test("metres of a message in feet, areas left alone", () => {
  expect(metres_as_feet("from 0.1 m to 120 m, 12 m² of 3 mm")).toBe("from 4 in to 393 ft, 12 m² of 3 mm");
  expect(metres_as_feet('height is "1000 ft" (304.8 m); it can be from 0.1 m up')).toBe('height is "1000 ft"; it can be from 4 in up');
  expect(metres_as_feet("corners 2 and 3 may be the wrong way round: [3.2, -0.15] and [12, 4.12]")).toBe("corners 2 and 3 may be the wrong way round: [10 ft 6 in, −6 in] and [39 ft 4 in, 13 ft 6 in]");
});

test("inches in halves, quarters and so on", () => {
  expect(metres_in("9 1/4 in")).toBeCloseTo(9.25 * 0.0254, 12);
  expect(metres_in("18 ft 1/2 in", true)).toBeCloseTo(18 * 0.3048 + 0.0127, 12);
  expect(metres_in("27 ft 9 15/16 in")).toBeCloseTo(27 * 0.3048 + 9.9375 * 0.0254, 12);
  expect(metres_in("12/4 in")).toBeCloseTo(3 * 0.0254, 12);
  expect(metres_in("6½ in")).toBeCloseTo(6.5 * 0.0254, 12);
  for (const text of ["1/0 in", "9 1/ in", "/4 in", "in"]) expect(metres_in(text), text).toBeNull();
});
