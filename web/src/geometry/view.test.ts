import { expect, test } from "vitest";
import { bar_length, fit, pinched, to_plan, to_screen, zoomed } from "./view";

const view = { scale: 20, left: -3, top: 26 };

test("the screen's point of a plan's point is its plan's point again", () => {
  const [x, y] = to_plan(view, to_screen(view, [4.2, 11.7]));
  expect(x).toBeCloseTo(4.2, 12);
  expect(y).toBeCloseTo(11.7, 12);
});

test("up on the plan is up on the screen", () => {
  expect(to_screen(view, [0, 10])[1]).toBeLessThan(to_screen(view, [0, 9])[1]);
});

test("a fitted frame lies within the room, in its middle", () => {
  const room = { left: 200, right: 40, top: 10, bottom: 30 };
  const fitted = fit([-6, -1, 12, 26], { width: 1072, height: 652 }, room);
  const [x0, y1] = to_screen(fitted, [-6, -1]);
  const [x1, y0] = to_screen(fitted, [12, 26]);
  expect(y0).toBeCloseTo(10, 9);
  expect(y1).toBeCloseTo(622, 9);
  expect((x0 + x1) / 2).toBeCloseTo((200 + 1032) / 2, 9);
});

test("zooming keeps the point under the hand", () => {
  const at = [310, 77] as const;
  const before = to_plan(view, at);
  const after = to_plan(zoomed(view, at, 2.7), at);
  expect(after[0]).toBeCloseTo(before[0], 9);
  expect(after[1]).toBeCloseTo(before[1], 9);
});

test("zooming ends at the least and the most scale", () => {
  expect(zoomed(view, [0, 0], 1e9).scale).toBe(400);
  expect(zoomed(view, [0, 0], 1e-9).scale).toBe(3);
});

test("two fingers keep what is between them", () => {
  const next = pinched(view, [[100, 100], [200, 100]], [[80, 120], [280, 120]]);
  expect(next.scale).toBeCloseTo(40, 9);
  const [x, y] = to_plan(next, [180, 120]);
  const [was_x, was_y] = to_plan(view, [150, 100]);
  expect(x).toBeCloseTo(was_x, 9);
  expect(y).toBeCloseTo(was_y, 9);
});

test("the scale bar is a round length that fits", () => {
  expect(bar_length(22, 130)).toBe(5);
  expect(bar_length(60, 130)).toBe(2);
  expect(bar_length(300, 130)).toBeCloseTo(0.2, 12);
});
