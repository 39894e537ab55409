// Who looks and what is looked at, while a line of sight is drawn.
import type { Thing } from "../api";
import { goes_with_others, type Point } from "../geometry";
import { drawn_things, thing_near } from "./choosing";

export interface Sight {
  from: string | null; // who looks
  seen: string | null; // null: the place where the cross is
}

const can_look = new Set(["seat", "point", "gate"]);
const is_there = (thing: Thing) => thing.mark !== "removed" && !goes_with_others(thing);
const looks = (thing: Thing) => is_there(thing) && can_look.has(thing.table);

export const lookers = (): Thing[] => drawn_things().filter(looks);
export const seen_from = (from: string | null): Thing[] => drawn_things().filter((thing) => is_there(thing) && thing.id !== from);

export const looker_near = (at: Point): Thing | null => thing_near(at, looks);
/** What stands there; on paths and areas the place itself is meant. */
export const seen_near = (at: Point, from: string): Thing | null =>
  thing_near(at, (thing) => is_there(thing) && thing.id !== from && thing.table !== "path" && thing.table !== "area");

/** Its keys; null: nobody looks yet. */
export function sight_set({ from, seen }: Sight, at: Point): Record<string, unknown> | null {
  if (from === null) return null;
  return seen === null ? { from, to: [...at] } : { from, thing: seen };
}
