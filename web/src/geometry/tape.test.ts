import { expect, test } from "vitest";
import { apart, rectangle } from "./sketch";
import { by_offsets, by_ties, corner_says, side_says } from "./tape";

test("two ties have two places, each as far as the tapes say", () => {
  const { fits, short_m } = by_ties([0, 0], 5, [6, 0], 4);
  expect([fits.length, short_m]).toEqual([2, 0]);
  for (const p of fits) {
    expect(apart(p, [0, 0])).toBeCloseTo(5, 3);
    expect(apart(p, [6, 0])).toBeCloseTo(4, 3);
  }
  expect(fits[0]?.[1]).toBeGreaterThan(0);
  expect(fits[1]?.[1]).toBeLessThan(0);
});

test("tapes that just meet have one place; those that do not are told by how much", () => {
  expect(by_ties([0, 0], 2, [5, 0], 3).fits).toEqual([[2, 0]]);
  expect(by_ties([0, 0], 2, [5, 0], 2.5)).toEqual({ fits: [], short_m: 0.5 });
  expect(by_ties([0, 0], 9, [5, 0], 2).short_m).toBeCloseTo(2, 9);
  expect(by_ties([1, 1], 2, [1, 1], 2).fits).toEqual([]);
});

test("offsets from two lines: the place on this side first, and as far from each as was taped", () => {
  const wall = { a: [0, 0], b: [10, 0] } as const;
  const fence = { a: [0, 0], b: [1, 8] } as const;
  const [first, ...rest] = by_offsets(wall, 1.2, fence, 2, [3, 3]);
  expect(first?.[1]).toBeCloseTo(1.2, 3);
  const off = Math.abs((first?.[0] ?? 0) * 8 - (first?.[1] ?? 0) * 1) / Math.hypot(1, 8);
  expect(off).toBeCloseTo(2, 3);
  expect(first?.[0]).toBeGreaterThan(0);
  expect(rest.length).toBe(3);
  expect(by_offsets(wall, 1, { a: [0, 3], b: [9, 3] }, 1, [0, 0])).toEqual([]);
});

test("corners and sides are called as they lie on the page", () => {
  const box = rectangle([0, 0], [4, 2]);
  expect([0, 1, 2, 3].map((i) => corner_says(box, true, i))).toEqual(["lower left corner", "lower right corner", "upper right corner", "upper left corner"]);
  expect([0, 1, 2, 3].map((i) => side_says(box, i))).toEqual(["lower side", "right side", "upper side", "left side"]);
  expect(corner_says([[0, 0], [1, 5]], false, 1)).toBe("upper end");
  expect(corner_says([[0, 0], [1, 5], [9, 5]], false, 1)).toBe("corner 2");
});
