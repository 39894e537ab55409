import { expect, test } from "vitest";
import type { Place } from "../api";
import { as_written, gains_between, gains_of_places, on_places } from "./gains";

test("beds that change, the most changed first", () => {
  const gains = gains_between({ a: 5, b: 6, c: 7, gone: 3, dark: null }, { a: 5.04, b: 5.5, c: 7.2, fresh: 1, dark: 2 });
  expect(gains.map(({ id }) => id)).toEqual(["b", "c"]);
  expect(gains[0]?.by).toBeCloseTo(-0.5, 9);
});

test("of two schemes what gains most comes first, whichever is worked on", () => {
  const place = (id: string, sun: number, against?: number) => ({ id, shown_h: sun, against_shown_h: against }) as Place;
  const places = [place("a", 6, 5), place("b", 4, 6), place("only-here", 5)];
  expect(gains_of_places(places, false).map(({ id, by }) => [id, by])).toEqual([["a", 1], ["b", -2]]);
  expect(gains_of_places(places, true).map(({ id, by }) => [id, by])).toEqual([["b", 2], ["a", -1]]);
});

test("the same gains on the places' own figures", () => {
  const gains = [{ id: "bank", from: 7.6, to: 8.1, by: 0.5 }];
  const of = [{ id: "bank", shown_h: 7, on_guesses: true } as Place];
  expect(on_places(gains, of, "from")).toEqual([{ id: "bank", from: 7, to: 7.5, by: 0.5, from_guessed: true, to_guessed: true }]);
  expect(on_places(gains, of, "to")).toEqual([{ id: "bank", from: 6.5, to: 7, by: 0.5, from_guessed: true, to_guessed: true }]);
  expect(on_places(gains, [], "to")).toEqual(gains);
});

test("a gain is what lies between the two figures as they are written", () => {
  const place = (id: string, sun: number, against: number) => ({ id, shown_h: sun, against_shown_h: against }) as Place;
  const [one, other] = gains_of_places([place("a", 7.96, 8.04), place("b", 7.94, 7.96)], false);
  expect([one?.id, one?.by, other?.id, other?.by]).toEqual(["a", 0, "b", -0.1]);
  expect(as_written([{ id: "c", from: 7.96, to: 8.04, by: 0.08 }, { id: "d", from: 7, to: 7.26, by: 0.26 }])).toEqual([
    { id: "d", from: 7, to: 7.26, by: 0.3 },
  ]);
});
