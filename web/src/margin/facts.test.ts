import { expect, test } from "vitest";
import type { SchemaKey, SchemaTable, Thing } from "../api";
import { altered_says, facts_of, guessed_keys, range_says, stepped, told_plainly } from "./facts";

const height: SchemaKey = { name: "height_m", called: "height", type: "length", low: 0.1, high: 120, needed: true };
const count: SchemaKey = { name: "count", type: "whole", low: 1, high: 5 };

test("a step keeps the unit in which it was typed", () => {
  expect(stepped(height, "5.2", 1, false)).toBe("5.3");
  expect(stepped(height, "195 mm", -1, false)).toBe("170 mm");
  expect(stepped(height, "7 ft", 1, true)).toBe("7.5 ft");
  expect(stepped(height, "6 ft 6 in", 1, true)).toBe("7 ft");
  expect(stepped(height, "2.3 m", -1, true)).toBe("2.2 m");
  expect(stepped(height, "2,4", 1, false)).toBe("2.5");
  expect(stepped({ name: "thickness", type: "length", low: 0.005, high: 0.5 }, "0.038", 1, false)).toBe("0.043");
});
test("a bare figure of an imperial garden is in feet, and says so once it is stepped", () => {
  expect(stepped(height, "9", 1, true)).toBe("9.5 ft");
  expect(stepped({ name: "base_c", type: "temperature" }, "40", -1, true)).toBe("39 F");
});
test("feet and inches in any signs have a step", () => {
  for (const typed of [`7' 6"`, "7’ 6”", "7′ 6″"]) expect(stepped(height, typed, 1, true)).toBe("8 ft");
});
test("a step stays within what the field takes", () => {
  expect(stepped(height, "0.15", -1, false)).toBe("0.1");
  expect(stepped(count, "5", 1, false)).toBe("5");
});
test("words have no step", () => {
  expect(stepped({ name: "stem_m", type: "stem" }, "girth 0.9 m", 1, false)).toBeNull();
  expect(stepped(height, "tall", 1, false)).toBeNull();
});
test("ranges in the garden's units", () => {
  expect(range_says(height, false)).toBe("0.1 to 120 m");
  expect(range_says({ ...height, high: 3 }, true)).toBe("4 in to 9 ft 10 in");
  expect(range_says(height, true)).toBe("4 in to 393 ft");
  expect(range_says({ name: "level_m", type: "length", low: -1000, high: 6000 }, false)).toBe("");
});

const table: SchemaTable = {
  name: "tree", thing: true, says: "",
  keys: [
    { name: "id", type: "id" }, { name: "at", type: "place", needed: true }, height,
    { name: "crown_base_m", type: "length" }, { name: "note", type: "text" }, { name: "mix", type: "list" },
  ],
};
const thing: Thing = {
  id: "medlar", table: "tree", mark: "existing", corners: [], closed: false, reach_m: 1,
  fields: { at: { typed: "[1, 2]", value: [1, 2] }, guessed: { typed: "[height_m]", value: ["height_m"] } },
};

test("what is needed or known comes first, what lies on the page is moved and not typed here", () => {
  const facts = facts_of(table, thing);
  expect(facts.shown.map((key) => key.name)).toEqual(["height_m"]);
  expect(facts.more.map((key) => key.name)).toEqual(["crown_base_m", "note", "mix", "at"]);
  expect(guessed_keys(thing)).toEqual(["height_m"]);
});
test("words at a field leave the document's name out", () => {
  expect(told_plainly('height_m: "tall" is no length', "height_m")).toBe('"tall" is no length');
});

test("an altered thing is told by what it is as found", () => {
  const table: SchemaTable = { name: "tree", thing: true, says: "", keys: [height, { name: "turn_deg", called: "turn", type: "angle" }] };
  const medlar = (was: Record<string, string | null>): Thing => ({ id: "medlar", table: "tree", mark: "changed", fields: {}, corners: [], closed: false, reach_m: 0, was });
  expect(altered_says(medlar({ height_m: "5.2" }), table)).toBe("height 5.2\u00a0m");
  expect(altered_says(medlar({ at: "[2, 3]", height_m: "7 ft" }), table)).toBe("elsewhere, height 7 ft");
  expect(altered_says(medlar({ height_m: null, turn_deg: "4", note: "old" }), table)).toBe("no height, turn 4°, 1 more");
  expect(altered_says(medlar({}), table)).toBe("");
});
