// A figure or word of a thing, or of an entry without a place, kept.
import type { State, Thing } from "../api";
import { act, single_id, state } from "../state";
import type { Told } from "./typed_fact";

/** A table that there is one of, such as the ground, as its form takes it. */
export function single_thing(table: keyof State["singles"] & string): Thing {
  return { id: single_id(table), table, mark: "existing", fields: state.value?.singles[table] ?? {}, corners: [], closed: false, reach_m: 0 };
}

export const keep_fact = (thing: Thing, set: Record<string, unknown>): Promise<Told | null> => act.set(thing.id, set);
