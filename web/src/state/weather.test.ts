import { expect, test } from "vitest";
import { plain_name, too_long } from "./weather";

test("a file's name becomes one that a document can have", () => {
  expect(plain_name("own-days.csv")).toBe("own-days.csv");
  expect(plain_name("Où il pleut.csv")).toBe("Où il pleut.csv");
  expect(plain_name('C:\\days "2020".epw')).toBe("C--days -2020-.epw");
  expect(plain_name("..hidden")).toBe("hidden");
  expect(plain_name("...")).toBe("weather");
});

test("a long name is cut before its ending, and by whole letters", () => {
  const cut = plain_name(`${"ü".repeat(200)}.csv`);
  expect(new TextEncoder().encode(cut).length).toBeLessThanOrEqual(100);
  expect(cut).toBe(`${"ü".repeat(48)}.csv`);
});

test("a file over the limit is not sent", () => {
  expect(too_long(64 * 2 ** 20)).toBeNull();
  expect(too_long(64 * 2 ** 20 + 1)?.message).toContain("67 MB");
});
