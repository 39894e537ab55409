import { expect, test } from "vitest";
import { half_line, hatch_cover, hatch_of, ink_colour, inks, line_cover, mixed, rgb_of, stripe_at } from "./hatches";

test("no two inks share a hatch, so that colour is not needed to tell them", () => {
  const all = [-1, 0, 1, 2, 3, 4, 5].map((ink) => JSON.stringify(hatch_of(ink)));
  expect(new Set(all).size).toBe(all.length);
});

test("further takers are dotted graphite, the skyline its grey", () => {
  expect(hatch_of(5)).toEqual(hatch_of(17));
  expect(hatch_of(17).kind).toBe("dots");
  expect(ink_colour(17, "#5f574c")).toBe("#5f574c");
  expect(ink_colour(-1, "#5f574c")).toBe("#9a948a");
  expect(ink_colour(2, "#5f574c")).toBe(inks[2]);
});

test("a hatch covers some of a field and not all of it", () => {
  for (const ink of [-1, 0, 1, 2, 3, 4, 5]) {
    let sum = 0;
    for (let x = 0; x < 60; ++x) for (let y = 0; y < 60; ++y) sum += hatch_cover(hatch_of(ink), x, y);
    expect(sum / 3600).toBeGreaterThan(0.08);
    expect(sum / 3600).toBeLessThan(0.6);
  }
});

test("lines come again at their spacing, on either side of the edge", () => {
  expect(line_cover(2, 4, 1)).toBe(1);
  expect(line_cover(-2, 4, 1)).toBe(1);
  expect(line_cover(0, 4, 1)).toBe(0);
  expect(half_line(3, 5).cover).toBeCloseTo(half_line(3 + 4.6 * Math.SQRT2, 5).cover, 9);
});

test("stripes alternate", () => {
  const along = Array.from({ length: 140 }, (_, i) => stripe_at(i / 0.866 / 10, 0).second);
  expect(along.filter((second) => second).length).toBeGreaterThan(50);
  expect(along.filter((second) => !second).length).toBeGreaterThan(50);
});

test("colours are read and mixed", () => {
  expect(rgb_of("#fff")).toEqual([255, 255, 255]);
  expect(rgb_of(" #68154d ")).toEqual([104, 21, 77]);
  expect(mixed([0, 0, 0], [200, 100, 50], 0.5)).toEqual([100, 50, 25]);
});
