import { expect, test } from "vitest";
import { Ground, type Triangle } from "./ground";
import { rectangle } from "./sketch";
import type { Point } from "./view";

const square = (z: (x: number, y: number) => number): Triangle[] => {
  const at = (x: number, y: number) => [x, y, z(x, y)] as const;
  return [[at(0, 0), at(10, 0), at(10, 10)], [at(0, 0), at(10, 10), at(0, 10)]];
};
/** Of a plane the mean is the level of the middle. */
const plane = (x: number, y: number) => 1 + 0.05 * x - 0.1 * y;

test("the mean level under an outline on a plane is that of its middle", () => {
  const ground = new Ground(square(plane));
  const is = ground.under(rectangle([2, 3], [1.2, 3.6], 17));
  const turn = (17 * Math.PI) / 180;
  const middle = [2 + 0.6 * Math.cos(turn) - 1.8 * Math.sin(turn), 3 + 0.6 * Math.sin(turn) + 1.8 * Math.cos(turn)] as const;
  expect(is?.level).toBeCloseTo(plane(...middle), 9);
  expect(is?.slope[0]).toBeCloseTo(0.05, 9);
  expect(is?.slope[1]).toBeCloseTo(-0.1, 9);
});

test("over a fold the mean is that of both its sides by their areas", () => {
  // Flat below y = x, rising above: z = 0.2 (y - x) there. Under the unit square about (5, 5) half lies
  // on the rise, whose mean height is a third of that of its far corner.
  const ground = new Ground([[[0, 0, 0], [10, 0, 0], [10, 10, 0]], [[0, 0, 0], [10, 10, 0], [0, 10, 2]]]);
  expect(ground.under(rectangle([4.5, 4.5], [1, 1]))?.level).toBeCloseTo((0.2 * 1) / 3 / 2, 9);
});

test("an outline goes to a level up or down the slope, or along the way that is left", () => {
  const ground = new Ground(square(plane));
  const bed = rectangle([4, 4], [1, 1]);
  const level = plane(4.5, 4.5) + 0.02;
  const by = ground.to_level(bed, level, null, 1) as Point;
  // The shortest way is along the slope: 0.02 over its steepness.
  expect(Math.hypot(...by)).toBeCloseTo(0.02 / Math.hypot(0.05, 0.1), 3);
  expect(ground.under(bed.map(([x, y]): Point => [x + by[0], y + by[1]]))?.level).toBeCloseTo(level, 4);
  const along = ground.to_level(bed, level, [1, 0], 1) as Point;
  expect(along[0]).toBeCloseTo(0.4, 3);
  expect(along[1]).toBe(0);
  expect(ground.to_level(bed, level + 1, null, 0.35)).toBeNull();
  expect(ground.to_level(bed, level, [0.894427191, 0.4472135955], 1)).toBeNull(); // along the contour
});

test("off the ground there is no level, and flat ground has none", () => {
  expect(new Ground(square(plane)).under(rectangle([20, 20], [1, 1]))).toBeNull();
  expect(new Ground([]).is_flat).toBe(true);
});
