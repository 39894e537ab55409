import { expect, test } from "vitest";
import type { Thing } from "../api";
import { do_cross, edges_of, gap_to, nearest_gaps, side_made } from "./gaps";
import { apart, rectangle } from "./sketch";

const wall: Thing = { id: "wall", table: "wall", mark: "existing", fields: {}, corners: [[0, 0], [10, 0]], closed: false, reach_m: 0.1 };
const ground = { of: "", a: [0, 0], b: [10, 0], is_soft: false } as const;
const bed = rectangle([2, 1.5], [1.2, 3.6]);

test("a tape is laid from the face of a wall, square to it", () => {
  const [gap] = nearest_gaps(bed, true, edges_of(wall));
  expect(gap?.metres).toBeCloseTo(1.4, 9);
  expect(gap?.away).toEqual([0, 1]);
  expect(gap?.foot[1]).toBeCloseTo(0.1, 9);
});

test("the first two measures are in different directions, the next on another side", () => {
  const side: Thing = { ...wall, id: "side", corners: [[0, 0], [0, 10]] };
  const far: Thing = { ...wall, id: "far", corners: [[0, 6], [10, 6]] };
  const gaps = nearest_gaps(bed, true, [wall, side, far].flatMap(edges_of));
  expect(gaps.map(({ edge }) => edge.of)).toEqual(["far", "side", "wall"]);
  expect(gaps[1]?.metres).toBeCloseTo(1.9, 9);
});

test("what lies across a line has no distance from it, and a turned bed has its nearest corner's", () => {
  expect(gap_to(rectangle([2, 0], [1, 1]), true, ground)?.away[1]).toBe(1);
  expect(gap_to(rectangle([2, -1], [1, 2]), true, ground)).toBe(null);
  const turned = rectangle([2, 1], [2, 1], 30);
  expect(gap_to(turned, true, ground)?.from).toEqual([2, 1]);
  expect(gap_to([[20, 5]], false, ground)).toBe(null);
});

test("what touches a line is 0 from it, and knows to which side it lies", () => {
  expect(gap_to(rectangle([2, 0], [1, 1]), true, ground)).toMatchObject({ metres: 0, foot: [2, 0] });
  expect(gap_to(rectangle([2, 0], [1, 1]), true, ground)?.away[1]).toBe(1);
  expect(gap_to(rectangle([2, -1], [1, 1]), true, ground)?.away[1]).toBe(-1);
});

test("moved by what is missing, a thing stands as far as was typed", () => {
  for (const turn of [0, 17, 90, 133]) {
    const corners = rectangle([3, 4], [1.2, 3.6], turn);
    const edge = { ...ground, a: [0, 0.3], b: [12, 1.1] } as const;
    const gap = gap_to(corners, true, edge);
    if (gap === null) throw new Error("none");
    const by = 1.2 - gap.metres;
    const moved = corners.map(([x, y]) => [x + by * gap.away[0], y + by * gap.away[1]] as const);
    expect(gap_to(moved, true, edge)?.metres).toBeCloseTo(1.2, 9);
  }
});

test("segments cross, or only touch", () => {
  expect(do_cross([[0, 0], [2, 2]], [[0, 2], [2, 0]])).toBe(true);
  expect(do_cross([[0, 0], [2, 0]], [[1, 0], [1, 2]])).toBe(false);
});

test("a side is made longer: a rectangle stays one, a line takes its rest along", () => {
  expect(side_made(rectangle([0, 0], [2, 1]), true, 0, 3)).toEqual([[0, 0], [3, 0], [3, 1], [0, 1]]);
  expect(side_made(rectangle([0, 0], [2, 1]), true, 1, 3)).toEqual([[0, 0], [2, 0], [2, 3], [0, 3]]);
  expect(side_made([[0, 0], [2, 0], [2, 2]], false, 0, 5)).toEqual([[0, 0], [5, 0], [5, 2]]);
  const odd = side_made([[0, 0], [2, 0], [3, 2], [0, 3]], true, 1, 4);
  expect(apart(odd[1] as [number, number], odd[2] as [number, number])).toBeCloseTo(4, 3);
  expect([odd[0], odd[1], odd[3]]).toEqual([[0, 0], [2, 0], [0, 3]]);
});
