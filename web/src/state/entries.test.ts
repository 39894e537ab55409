import { expect, test } from "vitest";
import type { Thing } from "../api";
import { entry_named, entry_of, followed, parts_of } from "./entries";

const want = (nth: number, crop: string, amount = "some"): Thing => ({
  id: `want~${nth}`, table: "want", mark: "existing", corners: [], closed: false, reach_m: 0,
  fields: { crop: { typed: crop, value: crop }, amount: { typed: amount, value: amount } },
});

test("an entry is named by its id, the crop, its table or its number", () => {
  for (const [id, table, name, nth] of [["task:7", "task", "7", null], ["crop:broad bean", "crop", "broad bean", null], ["labour:", "labour", "", null], ["climate.month~3", "climate.month", "", 3]] as const) {
    expect(parts_of(id)).toEqual({ table, name, nth });
    expect(entry_of(entry_named({ ...want(0, "pea"), id }, new Set()))).toBe(id);
  }
  expect(entry_named(want(2, "pea"), new Set(["amount"]))).toEqual({ table: "want", nth: 2, was: { crop: "pea" } });
});

test("an entry that goes by its number is followed where the list was altered", () => {
  const before = [want(0, "pea"), want(1, "kale"), want(2, "leek")];
  const without_first = [want(0, "kale"), want(1, "leek")];
  expect(followed("want~1", before, without_first)).toBe("want~0");
  expect(followed("want~0", before, without_first)).toBeNull();
  expect(followed("want~1", before, [want(0, "pea"), want(1, "kale", "2 kg"), want(2, "leek")])).toBe("want~1");
  expect(followed("want~2", before, [...before, want(3, "pea")])).toBe("want~2");
  expect(followed("want~1", before, [want(0, "kale"), want(1, "kale")])).toBe("want~1");
  expect(followed("task:x", [], [])).toBeNull();
});
