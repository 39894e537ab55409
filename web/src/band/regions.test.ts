import { expect, test } from "vitest";
import type { Print } from "../api";
import { heart_of, night, nobody, pieces_of, regions_of, room_within, weak } from "./regions";

/** A print of 8 columns and 6 rows; each cell a letter: night, weak, lit, half, taker 0, 1, or both. */
function print_of(columns: string[]): Print {
  const bytes: Record<string, number[]> = {
    ".": [0, 0, 255, 255], w: [0, 1, 255, 255], "*": [255, 3, 255, 255], h: [120, 3, 0, 255],
    a: [0, 3, 0, 255], b: [0, 3, 1, 255], x: [0, 3, 0, 1],
  };
  const head = { columns: columns.length, rows: columns[0]?.length ?? 0 } as Print["head"];
  return { head, cells: new Uint8Array(columns.flatMap((column) => [...column].flatMap((cell) => bytes[cell] as number[]))) };
}

test("what is painted alike hangs together", () => {
  const regions = regions_of(print_of([".waa*.", ".waa*.", ".wxx*.", ".whh*."]), 0.5);
  const [a, x, lit] = [regions.kind_of[2], regions.kind_of[14], regions.kind_of[4]];
  expect(regions.kind_of[0]).toBe(night);
  expect(regions.kind_of[1]).toBe(weak);
  expect(regions.kinds[a as number]).toEqual({ what: "whole", taker: 0, second: nobody });
  expect(regions.kinds[x as number]).toEqual({ what: "whole", taker: 0, second: 1 });
  expect(regions.kinds[lit as number]?.what).toBe("lit");
  expect(regions.kinds[regions.kind_of[20] as number]?.what).toBe("half");
  expect(pieces_of(regions).map((piece) => piece.cells.length).sort()).toEqual([2, 2, 4, 4]);
});

test("specks go to what lies around them", () => {
  const regions = regions_of(print_of(["aaaa", "abaa", "aaaa"]), 3);
  expect(new Set(regions.kind_of).size).toBe(1);
});

test("a name finds room within its piece or none", () => {
  const regions = regions_of(print_of(["*aaa*", "*aaa*", "*a***", "*****"]), 1);
  const piece = pieces_of(regions).find(({ kind }) => regions.kinds[kind]?.what === "whole");
  expect(piece).toBeDefined();
  if (piece === undefined) return;
  expect(room_within(regions, piece, 2, 3)).toEqual([1, 2.5]);
  expect(room_within(regions, piece, 3, 2)).toBeNull();
  expect(heart_of(regions, piece)).toEqual([1.5, 2.5]);
});
