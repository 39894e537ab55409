import { expect, test } from "vitest";
import type { Thing } from "../api";
import { added_since, moved_since, note_waiting, with_typed } from "./made";
import type { Kept } from "./queue";

const edit = (what: object): Kept => ({ command: "", change: null, garden: "g", edit: { scheme: "found", thing: "medlar", ...what } });
const undo: Kept = { command: "", change: null, garden: "g", step: { step: "undo" } };
const medlar = { id: "medlar", fields: { height_m: { value: 5, typed: "5" } } } as unknown as Thing;

test("what waits is shown: figures and moves, of that garden and scheme", () => {
  note_waiting([edit({ set: { height_m: "5.4" } }), edit({ move_m: [1, 2] }), edit({ all: [{ thing: "medlar", move_m: [1, 0] }] })]);
  expect(with_typed("g", "found", [medlar], 3)[0]?.fields["height_m"]?.typed).toBe("5.4");
  expect(moved_since("g", "found", "medlar", 3)).toEqual([2, 2]);
  expect(moved_since("g", "proposed", "medlar", 3)).toEqual([0, 0]);
  expect(with_typed("other", "found", [medlar], 3)[0]?.fields["height_m"]?.typed).toBe("5");
});

test("an undo that waits takes the edit before it away", () => {
  note_waiting([edit({ set: { height_m: "5.4" } }), edit({ move_m: [1, 2] }), undo]);
  expect(moved_since("g", "found", "medlar", 3)).toEqual([0, 0]);
  expect(with_typed("g", "found", [medlar], 3)[0]?.fields["height_m"]?.typed).toBe("5.4");
});

test("what was added waits to be seen, each of several too", () => {
  const add = { add: "bed", set: { at: [1, 1] } };
  note_waiting([edit({ all: [add, { thing: "medlar", move_m: [1, 0] }] }), edit(add), undo]);
  expect(added_since("g", "found", 3).map((one) => one.add)).toEqual(["bed"]);
  expect(added_since("g", "proposed", 3)).toEqual([]);
});
