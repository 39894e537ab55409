import { expect, test } from "vitest";
import { on_map } from "../geometry";
import { rings_of } from "./coast";

test("arcs are joined to rings, forwards and backwards", () => {
  const [ring] = rings_of({
    transform: { scale: [1, 2], translate: [-10, 0] },
    arcs: [[[0, 0], [10, 0], [0, 10]], [[0, 0], [0, 10], [10, 0]]],
    objects: { land: { geometries: [{ arcs: [[[0, ~1]]] }] } },
  });
  const expected = [[-10, 0], [0, 0], [0, 20], [0, 20], [-10, 20], [-10, 0]].flatMap(([x = 0, y = 0]) => on_map(x, y));
  expect([...(ring?.points ?? [])].map((v) => Math.round(v * 1e6))).toEqual(expected.map((v) => Math.round(Math.fround(v) * 1e6)));
  expect(ring?.box[0]).toBeCloseTo(on_map(-10, 0)[0], 6);
});

test("land over the edge of the map is whole at both edges", () => {
  const rings = rings_of({
    transform: { scale: [1, 1], translate: [0, 0] },
    arcs: [[[178, 10], [3, 0], [-362, 0], [0, 3], [359, 0]]] as never,
    objects: { land: { geometries: [{ arcs: [[[0]]] }] } },
  });
  const widths = rings.map(({ box }) => box[2] - box[0]);
  expect(rings).toHaveLength(2);
  for (const width of widths) expect(width).toBeLessThan(0.02);
});
