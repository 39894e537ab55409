import { expect, test } from "vitest";
import { imperial_in, likely_zone, plain_names } from "./beginning";

test("clocks are this machine's where the country has them, else the country's own nearest to the sun", () => {
  expect(likely_zone(-4.4, "France", "Europe/Paris")).toBe("Europe/Paris");
  expect(likely_zone(-4.4, "France", "Asia/Tokyo")).toBe("Europe/Paris");
  expect(likely_zone(-122, "United States", "Europe/Paris")).toBe("America/Los_Angeles");
  expect(likely_zone(-71, "United States", "Europe/Paris")).toBe("America/New_York");
  expect(likely_zone(174.8, "New Zealand", "Europe/Paris")).toBe("Pacific/Auckland");
});

test("where no country is known, the machine's clocks do if the sun allows them", () => {
  expect(likely_zone(2, null, "Europe/Paris")).toBe("Europe/Paris");
  expect(likely_zone(150, null, "Europe/Paris")).not.toBe("Europe/Paris");
});

test("feet are usual in few countries", () => {
  expect([imperial_in("United States"), imperial_in("France"), imperial_in("Ireland")]).toEqual([true, false, false]);
});

test("a town is found as its station writes it", () => {
  expect(plain_names("München")).toEqual(["Munchen", "muenchen"]);
  expect(plain_names("Tromsø")).toEqual(["Tromso", "tromsoe"]);
  expect(plain_names("Brest")).toEqual(["Brest"]);
  expect(plain_names("Orléans ")).toEqual(["Orleans"]);
});
