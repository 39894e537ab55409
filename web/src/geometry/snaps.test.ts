import { expect, test } from "vitest";
import { rectangle, turned } from "./sketch";
import { main_turn, type Reference, Snaps } from "./snaps";
import type { Point } from "./view";

const box = (name: string, x: number, y: number, w: number, d: number): Reference => ({ name, corners: rectangle([x, y], [w, d]), closed: true });
const close = (a: Point, b: Point) => {
  expect(a[0]).toBeCloseTo(b[0], 6);
  expect(a[1]).toBeCloseTo(b[1], 6);
};
const says = (snapped: { guides: { says: string }[] }) => snapped.guides.map((guide) => guide.says).filter((word) => word !== "");

test("an edge comes in line with an edge, a middle with a middle", () => {
  const snaps = new Snaps([box("a", 0, 0, 2, 1)], 0);
  const edge = snaps.shape(rectangle([0.06, 5], [1.2, 3]), 0.1);
  close(edge.by, [-0.06, 0]);
  expect(says(edge)).toEqual(["in line with a"]);
  const mid = snaps.shape(rectangle([0.45, 5], [1.2, 3]), 0.1);
  close(mid.by, [-0.05, 0]);
  expect(says(mid)).toEqual(["mid-line of a"]);
});

test("too far is left alone", () => {
  const snaps = new Snaps([box("a", 0, 0, 2, 1)], 0);
  expect(snaps.shape(rectangle([0.2, 5], [1, 3]), 0.1)).toMatchObject({ by: [0, 0], guides: [] });
});

test("gaps are made alike: midway between two, or as the one before", () => {
  const two = new Snaps([box("a", 0, 0.3, 1, 3), box("b", 4, 0.7, 1, 3)], 0);
  const between = two.shape(rectangle([2.04, 0.45], [1, 3]), 0.1);
  expect(between.by[0]).toBeCloseTo(-0.04, 6);
  expect(says(between)).toContain("midway between a and b");
  const row = new Snaps([box("a", 0, 0.3, 1, 3), box("b", 1.6, 0.7, 1, 3)], 0);
  const third = row.shape(rectangle([3.25, 0.45], [1, 3]), 0.1);
  expect(third.by[0]).toBeCloseTo(-0.05, 6);
  expect(says(third)).toContain("gaps alike");
});

test("the frame may be turned: in line with turned beds", () => {
  const turn = 17;
  const of = (x: number, y: number): Point[] => rectangle([x, y], [1, 2]).map((corner) => turned(corner, turn));
  const snaps = new Snaps([{ name: "a", corners: of(0, 0), closed: true }], turn);
  const snapped = snaps.shape(of(0.05, 4), 0.1);
  close(snapped.by, turned([-0.05, 0], turn));
  expect(main_turn([{ name: "a", corners: of(0, 0), closed: true }])).toBe(17);
});

test("a leg makes a right angle with the one before, and ends in line with something", () => {
  const snaps = new Snaps([box("a", 3, 5, 1, 1)], 0);
  const right = snaps.corner([2.05, 3], 0.15, [2, 0], [0, 0]);
  close(right.by, [-0.05, 0]);
  expect(says(right)).toEqual(["right angle"]);
  const in_line = snaps.corner([2.05, 4.93], 0.15, [2, 0], [0, 0]);
  close(in_line.by, [-0.05, 0.07]);
  expect(says(in_line)).toEqual(["right angle", "in line with a"]);
});

test("a leg goes parallel to a line nearby, or square to it", () => {
  const line: Reference = { name: "wall", corners: [[0, 0], [10, 2]], closed: false };
  const snaps = new Snaps([line], 0);
  const along = snaps.corner([5, 4.05], 0.2, [0, 3]);
  expect(says(along)).toContain("parallel to wall");
  const [x, y] = [5 + along.by[0], 1.05 + along.by[1]];
  expect(y / x).toBeCloseTo(0.2, 6);
  const square = snaps.corner([4.03, 8], 0.2, [5, 3]);
  expect(says(square)).toContain("square to wall");
});

test("what is already there has its lines, and stays", () => {
  const snaps = new Snaps([box("a", 0, 0, 2, 1)], 0);
  const exact = snaps.shape(rectangle([0, 5], [1.2, 3]), 0.004);
  close(exact.by, [0, 0]);
  expect(says(exact)).toEqual(["in line with a"]);
});

test("five hundred things are looked through in less than a fifth of a frame", () => {
  const many = Array.from({ length: 500 }, (_, i) => box(`bed-${i}`, (i % 25) * 2.1, Math.floor(i / 25) * 4.3, 1.2, 3.6));
  const snaps = new Snaps(many, 0);
  const begun = performance.now();
  for (let i = 0; i < 100; ++i) snaps.shape(rectangle([i * 0.37, i * 0.21], [1.2, 3.6]), 0.2);
  expect((performance.now() - begun) / 100).toBeLessThan(3.3);
});

test("what leads further goes along what no line holds, or in the place of a line held less nearly", () => {
  const snaps = new Snaps([box("a", 0, 0, 2, 1)], 0);
  const asked: (Point | null)[] = [];
  const up = (by: number) => (_: readonly Point[], way: Point | null) => {
    asked.push(way);
    return way !== null && way[1] === 1 ? { by: [0, by] as Point, guide: { a: [0, 0] as Point, b: [1, 1] as Point, says: "level with a" } } : null;
  };
  // In line with a across the page, free up the page.
  const free = snaps.shape(rectangle([0.06, 5], [1.2, 3]), 0.1, up(0.03));
  close(free.by, [-0.06, 0.03]);
  expect(says(free)).toEqual(["in line with a", "level with a"]);
  expect(asked.at(-1)).toEqual([0, 1]);
  // Both held: up the page less nearly than it is level.
  const both = snaps.shape(rectangle([0.01, 0.09], [1.2, 3]), 0.1, up(0.03));
  close(both.by, [-0.01, 0.03]);
  // And more nearly: the lines have it, and it is asked only whether it is level there.
  const held = snaps.shape(rectangle([0.01, 0.05], [1.2, 3]), 0.1, up(0.09));
  close(held.by, [-0.01, -0.05]);
  expect(asked.at(-1)).toEqual([0, 0]);
});
