import { expect, test } from "vitest";
import { hours_says } from "./figures";

test("hours that rest on guesses have fewer digits", () => {
  expect([6.83, 0, 0.44].map((hours) => hours_says(hours))).toEqual(["6.8", "0.0", "0.4"]);
  expect([6.83, 6.7, 0.97, 0.44, 0].map((hours) => hours_says(hours, true))).toEqual(["≈ 7", "≈ 6½", "≈ 1", "≈ 0.4", "≈ 0.0"]);
});
