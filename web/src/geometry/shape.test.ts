import { expect, test } from "vitest";
import type { Thing } from "../api";
import { distance, is_inside, next_thing, thing_at } from "./shape";
import { length_says, metres_in } from "./lengths";

function thing(id: string, table: string, corners: number[][], closed: boolean, reach_m = 0): Thing {
  return { id, table, mark: "existing", fields: {}, corners, closed, reach_m };
}
const bed = thing("bed", "bed", [[0, 0], [3.6, 0], [3.6, 1.2], [0, 1.2]], true);
const lawn = thing("lawn", "area", [[-5, -5], [9, -5], [9, 9], [-5, 9]], true);
const tree = thing("tree", "tree", [[3, 3]], false, 2.3);
const hedge = thing("hedge", "wall", [[-2, -5], [-2, 9]], false, 0.45);
const all = [lawn, bed, tree, hedge];

test("a point within an outline is inside, beside it not", () => {
  expect(is_inside([1, 1], bed.corners as never)).toBe(true);
  expect(is_inside([1, 1.3], bed.corners as never)).toBe(false);
});

test("the distance to a crown is from its edge", () => {
  expect(distance(tree, [3, 6.3])).toBeCloseTo(1, 12);
  expect(distance(tree, [3, 4])).toBe(0);
});

test("a bed on a lawn is meant, not the lawn", () => {
  expect(thing_at(all, [1, 0.2], 0.3)?.id).toBe("bed");
});

test("a bed under a crown is meant where the trunk is far", () => {
  expect(thing_at(all, [3, 1.1], 0.3)?.id).toBe("bed");
});

test("the trunk means the tree", () => {
  expect(thing_at(all, [3.05, 3], 0.3)?.id).toBe("tree");
});

test("near a hedge the hedge is meant", () => {
  expect(thing_at(all, [-2.6, 2], 0.3)?.id).toBe("hedge");
});

test("nothing near: nothing is meant", () => {
  expect(thing_at(all, [30, 30], 0.3)).toBeNull();
});

test("the next thing lies in the direction asked, the nearest first", () => {
  const row = [0, 2, 4].map((x) => thing(`at-${x}`, "point", [[x, 0]], false));
  expect(next_thing(row, [0, 0], "right", "at-0")?.id).toBe("at-2");
  expect(next_thing(row, [2, 0], "left", "at-2")?.id).toBe("at-0");
  expect(next_thing(row, [2, 0], "up", "at-2")).toBeNull();
});

test("lengths are read as typed", () => {
  expect(metres_in("0.4")).toBeCloseTo(0.4, 12);
  expect(metres_in("0,4 m")).toBeCloseTo(0.4, 12);
  expect(metres_in("-40 cm")).toBeCloseTo(-0.4, 12);
  expect(metres_in("1 ft 6 in")).toBeCloseTo(0.4572, 12);
  expect(metres_in("7", true)).toBeCloseTo(2.1336, 12);
  expect(metres_in("a bit")).toBeNull();
  expect(metres_in("")).toBeNull();
});

test("lengths are said in the garden's units", () => {
  expect(length_says(1.2)).toBe("1.2 m");
  expect(length_says(-0.305, true)).toBe("−1 ft");
});
