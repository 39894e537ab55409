// What a field offers: ids of entries that fit, words of a catalogue, time zones.
import { entries, parts_of, state, things } from "../state";
import { words_for } from "../tools";
import type { Type } from "./values";

/** What an entry is called that is meant by its id. */
export function ids_for(type: Type): string[] {
  const tables = type.tables ?? [];
  if (tables.includes("scheme")) return (state.value?.schemes ?? []).filter((name) => name !== "found" && name !== "proposed");
  const fits = (table: string) => (tables.length === 0 ? type.type === "reference" : tables.includes(table));
  const standing = [...things.value.values()].filter(({ table, mark }) => fits(table) && mark !== "removed").map(({ id }) => id);
  const named = [...entries.value.values()].filter(({ table }) => tables.includes(table)).map(({ id }) => parts_of(id).name);
  return [...standing, ...named.filter((name) => name !== "")];
}

/** Words to choose among, or to type another. */
export function offered_for(type: Type): string[] {
  if (type.type === "time_zone") {
    const known = (Intl as { supportedValuesOf?: (of: string) => string[] }).supportedValuesOf;
    return known === undefined ? [] : known("timeZone");
  }
  return [...new Set([...words_for(type as never), ...((type.tables?.length ?? 0) > 0 ? ids_for(type) : [])])];
}
