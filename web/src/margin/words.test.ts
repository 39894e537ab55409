import { expect, test } from "vitest";
import { guess_says, moles, signed, sources_of, stepped, unit_of } from "./words";

test("A difference carries its sign, and none when it rounds to nothing", () => {
  expect(signed(1.24)).toBe("+1.2");
  expect(signed(-0.36)).toBe("−0.4");
  expect(signed(-0.04)).toBe("0.0");
});

test("A step moves a plain figure and leaves one with a unit alone", () => {
  expect(stepped("2.4", 0.1)).toBe("2.5");
  expect(stepped("2,4", -0.1)).toBe("2.3");
  expect(stepped("7 ft", 0.1)).toBeNull();
  expect(stepped("0.30000000000000004", 0.1)).toBe("0.4");
});

test("Light is written with two figures", () => {
  expect(moles(4.94)).toBe("4.9");
  expect(moles(26.4)).toBe("26");
});

test("A key tells its unit", () => {
  expect(unit_of("height_m")).toBe("m");
  expect(unit_of("turn_deg")).toBe("°");
  expect(unit_of("kind")).toBe("");
});

test("A guess is said in words", () => {
  expect(guess_says("medlar.crown_width_m", () => "crown width")).toBe("crown width of medlar");
});

test("Every source of a chain is told once", () => {
  const leaf = { name: "b", value: "1", inputs: [], sources: [{ key: "spa", citation: "Reda" }] };
  const trace = { name: "a", value: "2", inputs: [leaf, leaf], sources: [{ key: "wmo8", citation: "WMO" }] };
  expect(sources_of(trace)).toEqual([
    { key: "wmo8", citation: "WMO" },
    { key: "spa", citation: "Reda" },
  ]);
});
