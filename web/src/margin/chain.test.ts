import { expect, test } from "vitest";
import type { Schema, Trace } from "../api";
import { guessed_by_thing, in_plain_words, plain_name, sources_of } from "./chain";

const schema: Schema = {
  catalogues: {},
  tables: [{ name: "tree", thing: true, says: "", keys: [{ name: "crown_base_m", called: "crown base", type: "length" }] }],
};
const source = (key: string) => ({ key, citation: `${key} (2000)` });

test("names in plain words", () => {
  expect(plain_name("medlar.crown_base_m", schema)).toBe("medlar: crown base");
  expect(plain_name("garden.plan_north_deg", schema)).toBe("garden: plan north");
  expect(plain_name("strong sun in the open", schema)).toBe("strong sun in the open");
});

test("messages in plain words", () => {
  expect(in_plain_words("Give the months that you know (climate.month).", schema)).toBe("Give the months that you know.");
  expect(in_plain_words("[[tree]] old-medlar: crown_base_m 9 cannot be as high as height_m 5.2", schema)).toBe(
    "crown base 9 cannot be as high as height 5.2",
  );
  expect(in_plain_words("[[climate.month]]: tmin_c 12 cannot be above tmax_c 5", schema)).toBe("tmin 12 cannot be above tmax 5");
  expect(in_plain_words("[[cover]] net has no over or outline", schema)).toBe("It has no over or outline");
  expect(in_plain_words("Write start = 2026-03-01, without quotes.", schema)).toBe("Such as 2026-03-01.");
  expect(in_plain_words("Height_m is 1000 m; it can be from 0.1 m to 120 m", schema)).toBe("Height is 1000 m; it can be from 0.1 m to 120 m");
  expect(in_plain_words("height_m is 1000 m; it can be from 0.1 m to 120 m", schema, true)).toBe("height is 3280 ft; it can be from 4 in to 393 ft");
  expect(in_plain_words("at is 30479.7 m; it can be from -3000 m to 3000 m", schema, true)).toBe(
    "The place is 99999 ft; it can be from −9842 ft to 9842 ft",
  );
});

test("sources of the whole chain, each once, the nearest first", () => {
  const leaf: Trace = { name: "c", value: "", inputs: [], sources: [source("far"), source("near")] };
  const trace: Trace = { name: "a", value: "", sources: [source("near")], inputs: [{ name: "b", value: "", inputs: [leaf] }] };
  expect(sources_of(trace).map(({ key }) => key)).toEqual(["near", "far"]);
});

test("guesses by their thing", () => {
  expect(guessed_by_thing(["pine.crown_base_m", "pine.height_m", "shed.ridge_m"], schema)).toEqual([
    ["pine", ["crown base", "height"]],
    ["shed", ["ridge"]],
  ]);
});
