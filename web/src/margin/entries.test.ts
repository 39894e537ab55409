import { expect, test } from "vitest";
import type { SchemaKey, Thing } from "../api";
import { entries_of, sent } from "./entries";
import { with_unit } from "./format";

const bed: Thing = {
  id: "bank", table: "bed", mark: "existing", corners: [], closed: true, reach_m: 1,
  fields: {
    size: { typed: "[3.6, 1.2]", value: [3.6, 1.2] },
    boards: { typed: "", value: { height: 0.225, courses: 1 } },
    turn_deg: { typed: "3", value: 3 },
  },
};
const size: SchemaKey = { name: "size", type: "size", low: 0.01, high: 200 };
const boards: SchemaKey = { name: "boards", type: "record", fields: [{ name: "height", type: "length" }, { name: "courses", type: "whole" }] };

test("the sides of a size are typed one by one", () => {
  const [across, deep] = entries_of(size, bed, false);
  expect([across?.name, across?.is, deep?.name, deep?.is]).toEqual(["size, across", "3.6", "size, deep", "1.2"]);
  expect(deep?.set("1,4")).toEqual({ size: [3.6, "1,4"] });
  expect(across?.set("12 ft")).toEqual({ size: ["12 ft", 1.2] });
  expect(entries_of(size, bed, true)[1]?.is).toBe("3 ft 11 in");
});
test("the parts of a record; what is left empty is left out", () => {
  const [height, courses] = entries_of(boards, bed, false);
  expect(height?.name).toBe("boards, height");
  expect(courses?.set("2")).toEqual({ boards: { height: 0.225, courses: "2" } });
  expect(height?.set("")).toEqual({ boards: { courses: 1 } });
  const none = { ...bed, fields: {} };
  expect(entries_of(boards, none, false)[0]?.set("")).toEqual({ boards: null });
});
test("anything else goes as it was typed", () => {
  const [turn] = entries_of({ name: "turn_deg", called: "turn", type: "angle" }, bed, false);
  expect([turn?.name, turn?.is]).toEqual(["turn", "3"]);
  expect(turn?.set(" 7 ft ")).toEqual({ turn_deg: "7 ft" });
  expect(sent(" -0,5 ")).toBe("-0,5");
});
test("a bare figure of the document says its unit where people type feet", () => {
  const height: SchemaKey = { name: "height_m", type: "length" };
  const tree: Thing = { ...bed, fields: { height_m: { typed: "2.3", value: 2.3 } } };
  expect(entries_of(height, tree, true)[0]?.is).toBe("2.3 m");
  expect(entries_of(height, tree, false)[0]?.is).toBe("2.3");
  expect(with_unit("7 ft", "length", true)).toBe("7 ft");
  expect(with_unit("-2", "temperature", true)).toBe("-2 C");
  expect(with_unit("3", "whole", true)).toBe("3");
});
