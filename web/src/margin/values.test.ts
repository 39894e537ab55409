import { expect, test } from "vitest";
import { type Draft, draft_of, fresh, pruned, sent_of, summary, told_path, type Type, with_at } from "./values";

const key = (name: string, type: string, more: Partial<Type> = {}) => ({ name, called: name, type, ...more });
const mix: Type = { type: "list", item: { type: "record", fields: [key("material", "free_word", { needed: true }), key("share", "share", { needed: true })] } };
const history: Type = { type: "map", low: 1900, high: 2100, item: { type: "one_or_many", item: { type: "word", catalogue: "family" } } };
const sheet: Type = { type: "record", fields: [key("size", "size"), key("overlap_m", "length")] };
const spots: Type = { type: "list", item: { type: "spot" } };
const over: Type = { type: "one_or_many", item: { type: "reference", tables: ["bed"] } };

test("what nobody touches is sent as it came", () => {
  const values: [Type, unknown][] = [
    [mix, [{ material: "dug soil", share: 0.123456789 }, { material: "sharp sand", share: 0.1 }]],
    [history, { 2025: ["legume", "onion"], 2026: "brassica" }],
    [sheet, { size: ["4 ft", 1.2], overlap_m: "8 in" }],
    [spots, [[0, 0, "0.30"], [11, "2 ft", -0.06]]],
    [{ type: "place" }, "peg"],
    [{ type: "place" }, ["27 ft 6 in", 3]],
  ];
  for (const [type, value] of values)
    for (const imperial of [false, true]) expect(sent_of(type, draft_of(type, value as never, imperial))).toEqual(value);
});
test("what is typed goes as it was typed, beside what stays", () => {
  const draft = draft_of(mix, [{ material: "dug soil", share: 0.5 }, { material: "manure", share: 0.5 }], false);
  const typed = with_at(with_at(draft, [1, "share"], { text: " 0,4 " }), [0, "material"], { text: "topsoil" });
  expect(sent_of(mix, typed)).toEqual([{ material: "topsoil", share: 0.5 }, { material: "manure", share: "0,4" }]);
});
test("a bare figure says its unit where people type feet, and stays as it was", () => {
  const draft = draft_of(spots, [[1, 2.25, 0]], true) as { text: string }[][];
  expect(draft[0]?.map(({ text }) => text)).toEqual(["1 m", "2.25 m", "0 m"]);
  expect(sent_of(spots, draft as unknown as Draft)).toEqual([[1, 2.25, 0]]);
});
test("rows in which nothing is typed are no rows", () => {
  const draft: Draft = [...(draft_of(mix, [{ material: "topsoil", share: 1 }], false) as Draft[]), fresh((mix.item ?? {}) as Type)];
  expect(sent_of(mix, pruned(mix, draft))).toEqual([{ material: "topsoil", share: 1 }]);
  expect(sent_of(mix, pruned(mix, fresh(mix)))).toBeNull();
  expect(sent_of(history, pruned(history, { names: [{ name: "", value: [{ text: "" }] }] }))).toBeNull();
});
test("one of several goes alone, yes and no as such", () => {
  expect(sent_of(over, draft_of(over, ["low-bed"], false))).toBe("low-bed");
  expect(sent_of(over, draft_of(over, ["low-bed", "kea"], false))).toEqual(["low-bed", "kea"]);
  const space: Type = { type: "record", fields: [key("where", "text"), key("warm", "yes_no")] };
  expect(sent_of(space, { fields: { where: { text: "sill" }, warm: { text: "true", is: true } } })).toEqual({ where: "sill", warm: true });
});
test("half a size is sent as it is, so that it is refused and not lost", () => {
  expect(sent_of({ type: "size" }, [{ text: "1.2" }, { text: "" }])).toEqual(["1.2", ""]);
});

test("a refusal finds its row", () => {
  const of_mix = draft_of(mix, [{ material: "dug soil", share: 0.5 }, { material: "manure", share: 1.4 }], false);
  expect(told_path(of_mix, "/mix/1/share", "mix")).toEqual([1, "share"]);
  expect(told_path(of_mix, "/mix/1", "mix")).toEqual([1, "material"]);
  expect(told_path(of_mix, "/mix", "mix")).toBeNull();
  expect(told_path(of_mix, "/cap/depth_m", "mix")).toBeNull();
  const of_history = draft_of(history, { 2025: ["legume"], 2026: ["brassicas"] }, false);
  expect(told_path(of_history, "/history/2026/0", "history")).toEqual([1, 0]);
  expect(told_path(draft_of(sheet, { size: [1, 2] }, false), "/sheet/size/1", "sheet")).toEqual(["size", 1]);
});

test("a value in few words", () => {
  expect(summary(mix, [{ material: "dug soil", share: 0.5 }, { material: "manure", share: 0.5 }], false)).toBe("dug soil 0.5, manure 0.5");
  expect(summary(history, { 2025: ["cucurbit"], 2026: ["potato"] }, false)).toBe("2026 potato; 2025 cucurbit");
  expect(summary(spots, Array.from({ length: 12 }, () => [0, 0, 0]), false)).toBe("12 of them");
  expect(summary({ type: "place" }, ["31 ft", 9.144], true)).toBe("31 ft, 30 ft");
  expect(summary({ type: "place" }, "alley-gate-inside", true)).toBe("alley-gate-inside");
  expect(summary(sheet, undefined, false)).toBe("");
  const people: Type = { type: "list", item: { type: "record", fields: [key("name", "text"), key("effort", "choice"), key("mass_kg", "number")] } };
  expect(summary(people, [{ name: "she", effort: "moderate", mass_kg: 64 }, { name: "he", mass_kg: 88 }], false)).toBe("she, moderate, 64; he 88");
});
