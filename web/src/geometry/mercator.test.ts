import { expect, test } from "vitest";
import { from_map, map_held, map_zoomed, on_map } from "./mercator";

test("a place comes back from the map as it went in", () => {
  for (const [longitude, latitude] of [[-4.36, 48.41], [174.8, -41.3], [0, 0], [-179.9, 71]] as const) {
    const [x, y] = from_map(on_map(longitude, latitude));
    expect(x).toBeCloseTo(longitude, 9);
    expect(y).toBeCloseTo(latitude, 9);
  }
});

test("the equator is in the middle, north above it, and shapes keep their form", () => {
  expect(on_map(0, 0)).toEqual([0.5, 0.5]);
  expect(on_map(0, 50)[1]).toBeLessThan(0.5);
  const at = (lon: number, lat: number) => on_map(lon, lat);
  const east = at(1.001, 60)[0] - at(1, 60)[0];
  const north = at(1, 60)[1] - at(1, 60.001)[1];
  expect(north / east).toBeCloseTo(1 / Math.cos((60 * Math.PI) / 180), 3);
});

test("zooming keeps the place under the finger, and never leaves the world", () => {
  const room = { width: 400, height: 300 };
  const begun = map_held({ side: 1600, left: 500, top: 500 }, room);
  const near = map_zoomed(begun, [120, 80], 2, room);
  expect((near.left + 120) / near.side).toBeCloseTo((begun.left + 120) / begun.side, 9);
  const far = map_zoomed(near, [120, 80], 1e-6, room);
  expect(far.side).toBeGreaterThanOrEqual(400);
  expect(far.left).toBeGreaterThanOrEqual(0);
  expect(far.left + room.width).toBeLessThanOrEqual(far.side + 1e-9);
  const [, top] = from_map([0, far.top / far.side]);
  expect(top).toBeLessThan(80.001);
});
