import { expect, test } from "vitest";
import { about, area_of, box_between, leg_bearing, leg_end, length_of, lie_of, rectangle } from "./sketch";

test("a box lies between two corners, however it was drawn", () => {
  for (const [a, b] of [[[1, 2], [3, 5]], [[3, 5], [1, 2]], [[1, 5], [3, 2]]] as const)
    expect(box_between(a, b)).toEqual({ at: [1, 2], size: [2, 3] });
});

test("a rectangle about a middle has its middle there, turned or not", () => {
  for (const turn of [0, 30, 90, -45]) {
    const corners = rectangle(about([4, 7], [1.2, 3.6], turn), [1.2, 3.6], turn);
    expect(corners.reduce((sum, [x]) => sum + x, 0) / 4).toBeCloseTo(4, 3);
    expect(corners.reduce((sum, [, y]) => sum + y, 0) / 4).toBeCloseTo(7, 3);
    expect(area_of(corners)).toBeCloseTo(1.2 * 3.6, 9);
  }
});

test("a leg ends where its length and bearing say, and says so again", () => {
  expect(leg_end([0, 0], 2, 90)).toEqual([2, 0]);
  expect(leg_end([1, 1], 2, 180)).toEqual([1, -1]);
  for (const bearing of [0, 37.5, 90, 200, 359])
    expect(leg_bearing([3, -2], leg_end([3, -2], 5, bearing))).toBeCloseTo(bearing, 1);
  expect(length_of([[0, 0], [3, 4], [3, 5]])).toBe(6);
});

test("where a thing lies is read from its keys", () => {
  expect(lie_of({ at: [1, 1], size: [2, 1] })).toEqual({ corners: [[1, 1], [3, 1], [3, 2], [1, 2]], closed: true });
  expect(lie_of({ at: [1, 1], size: [2, 1], facing: [1, 5] })).toEqual({ corners: [[1, 1]], closed: false });
  expect(lie_of({ line: [[0, 0], [1, 0]] })).toEqual({ corners: [[0, 0], [1, 0]], closed: false });
  expect(lie_of({ outline: [[0, 0], [1, 0], [1, 1]] }).closed).toBe(true);
  expect(lie_of({ at: "nail" })).toEqual({ corners: [], closed: false });
});
