// Lists of which only what is other was told.
import type { State } from "../api";

interface Piece {
  id: string;
}

/** `gone` are taken away, then `put` in their order: each stands before the one of `before`, or last,
 * and in the place of the one of its id. What stayed as it was is the same object. */
export function with_changes<T extends Piece>(known: readonly T[], gone: readonly string[], put: readonly T[], before: readonly string[]): T[] {
  const other = new Set([...gone, ...put.map((piece) => piece.id)]);
  const moved = new Map<string, T[]>(); // those that stand before an id, the nearest first
  put.forEach((piece, i) => {
    const next = before[i] ?? "";
    moved.set(next, [...(moved.get(next) ?? []), piece]);
  });
  const all: T[] = []; // from the last to the first
  const follow = (id: string): void => {
    for (const piece of moved.get(id) ?? []) {
      all.push(piece);
      follow(piece.id);
    }
  };
  follow("");
  for (const piece of [...known].reverse()) {
    if (other.has(piece.id)) continue;
    all.push(piece);
    follow(piece.id);
  }
  return all.reverse();
}

/** The state as it is now, told in whole or since `known`. */
export function state_now(known: State | null, told: State): State {
  if (told.since === undefined || known === null) return told;
  const { since: _, before = [], gone = [], ...now } = told;
  return { ...now, things: with_changes(known.things, gone, told.things, before) };
}
