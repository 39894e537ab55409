import { expect, test } from "vitest";
import { box_around, corners_so_far, reach_along, signed_area_2, turn_of, way_of } from "./plot";

test("a sketch goes as far as the sides are known", () => {
  expect(corners_so_far([null, 20, 12, 20])).toEqual([[0, 0]]);
  expect(corners_so_far([12, null, null, null])).toEqual([[0, 0], [12, 0]]);
  expect(corners_so_far([12, 20, 10, null])).toEqual([[0, 0], [12, 0], [12, 20], [2, 20]]);
  expect(corners_so_far([12, 20, 10, 20])).toHaveLength(4);
  expect(corners_so_far([12, 0, 10, 20])).toHaveLength(2);
});

test("ways and turns go clockwise from the page's up", () => {
  expect(turn_of([0, 1])).toBe(0);
  expect(turn_of([1, 0])).toBe(90);
  expect(turn_of([-1, 0])).toBe(270);
  for (const turn of [0, 33, 180, 271]) expect(turn_of(way_of(turn))).toBeCloseTo(turn, 9);
});

test("how far an outline reaches, and its box", () => {
  const plot = [[0, 0], [12, 0], [12, 20], [0, 20]] as const;
  expect(reach_along(plot, [0, -1])).toBeCloseTo(20, 9);
  expect(reach_along(plot, [3, 0])).toBeCloseTo(12, 9);
  expect(box_around(plot)).toEqual([0, 0, 12, 20]);
  expect(box_around([])).toBeNull();
  expect(signed_area_2(plot)).toBe(480);
});
