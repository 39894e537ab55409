import { describe, expect, it } from "vitest";
import { with_changes } from "./pieces";

interface One {
  id: string;
  is: number;
}

/** As the program tells it (piece_changes.h): nothing if those that stay stand in another order. */
function told(before: One[], now: One[]) {
  const was = new Map(before.map((one) => [one.id, one]));
  const is = new Set(now.map((one) => one.id));
  const put = now.map((one, i) => ({ one, next: now[i + 1]?.id ?? "" })).filter(({ one }) => was.get(one.id)?.is !== one.is).reverse();
  return { gone: before.filter((one) => !is.has(one.id)).map((one) => one.id), put: put.map(({ one }) => one), before: put.map(({ next }) => next) };
}

describe("a list told by its changes", () => {
  it("is the whole list, whatever came, went or is other", () => {
    let seed = 7;
    const random = (below: number) => (seed = (seed * 48271) % 2147483647) % below;
    for (let round = 0; round < 500; ++round) {
      const before = Array.from({ length: random(9) }, (_, i) => ({ id: `t${i}`, is: 0 }));
      const now = before.filter(() => random(4) > 0).map((one) => (random(3) === 0 ? { ...one, is: 1 } : one));
      for (let i = random(4); i > 0; --i) now.splice(random(now.length + 1), 0, { id: `new${i}`, is: 2 });
      const changes = told(before, now);
      const made = with_changes(before, changes.gone, changes.put, changes.before);
      expect(made).toEqual(now);
      for (const one of made) if (one.is === 0) expect(before).toContain(one);
    }
  });
});
