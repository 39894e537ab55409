import { expect, test } from "vitest";
import type { Thing } from "../api";
import { apart, lie_of, rectangle, turned } from "./sketch";
import { carried, copied, mirrored_in, shifted, turned_about } from "./transform";
import type { Point } from "./view";

const field = (value: unknown, typed = JSON.stringify(value)) => ({ value, typed });
function bed(at: Point, size: Point, turn = 0): Thing {
  return {
    id: "bed", table: "bed", mark: "existing", closed: true, reach_m: 0,
    corners: rectangle(at, size, turn) as unknown as [number, number][],
    fields: { at: field(at), size: field(size), ...(turn === 0 ? {} : { turn_deg: field(turn) }) },
  };
}
/** As far as the corners go: the same places, in whatever order. */
function same_places(a: readonly Point[], b: readonly Point[]): void {
  expect(a.length).toBe(b.length);
  for (const p of a) expect(Math.min(...b.map((q) => apart(p, q)))).toBeLessThan(0.001);
}

test("a bed carried lies where its corners go: turned, mirrored, shifted", () => {
  for (const turn of [0, 12, -80]) {
    const thing = bed([3, 4], [1.2, 3.6], turn);
    for (const carry of [turned_about([5, 5], 30), turned_about([3.6, 5.8], 90), mirrored_in([0, 0], [0, 1]), mirrored_in([1, 0], [4, 7]), shifted([2, -1])]) {
      const set = { ...Object.fromEntries(Object.entries(thing.fields).map(([key, { value }]) => [key, value])), ...carried(thing, carry) };
      same_places(lie_of(set).corners, (thing.corners as unknown as Point[]).map(carry.to));
    }
  }
});

test("mirrored twice it is where it was, and a point on the axis stays", () => {
  const { to } = mirrored_in([1, 2], [4, 3]);
  const p: Point = [5, -2];
  expect(apart(to(to(p)), p)).toBeCloseTo(0, 9);
  expect(apart(to([4, 3]), [4, 3])).toBeCloseTo(0, 9);
});

test("a seat looks where it looked, carried along", () => {
  const seat: Thing = { id: "seat", table: "seat", mark: "existing", closed: false, reach_m: 0.6, corners: [[3, 3]], fields: { at: field([3, 3]), facing: field([3, 8]) } };
  expect(carried(seat, turned_about([3, 3], 90))).toEqual({ at: [3, 3], facing: [-2, 3] });
  const at_a_point: Thing = { ...seat, fields: { at: field("nail"), facing: field("door") } };
  expect(carried(at_a_point, shifted([1, 0]))).toEqual({ at: [4, 3] });
});

test("lines and rows go by their own places", () => {
  const row: Thing = { id: "row", table: "plant", mark: "existing", closed: false, reach_m: 0.3, corners: [[0, 0], [1, 0], [2, 0]], fields: { row: field([[0, 0], [2, 0]]) } };
  expect(carried(row, shifted([0, 1]))).toEqual({ row: [[0, 1], [2, 1]] });
});

test("a copy has all but its name, and figures in the units in which they were typed", () => {
  const thing: Thing = { ...bed([1, 1], [1, 2]), fields: { ...bed([1, 1], [1, 2]).fields, depth_m: field(0.225, "225 mm"), status: field("proposed"), locked: field(true), history: field({ 2025: ["brassica"] }) } };
  expect(copied(thing, shifted([1, 0]))).toEqual({ at: [2, 1], size: [1, 2], depth_m: "225 mm", history: { 2025: ["brassica"] } });
});

test("a quarter about the middle keeps the middle", () => {
  const thing = bed([3, 4], [1.2, 3.6]);
  const set = carried(thing, turned_about([3.6, 5.8], 90));
  const corners = rectangle(set["at"] as Point, [1.2, 3.6], set["turn_deg"] as number);
  expect(corners.reduce((sum, [x]) => sum + x / 4, 0)).toBeCloseTo(3.6, 3);
  expect(turned([1, 0], 90)[1]).toBeCloseTo(1, 9);
});
