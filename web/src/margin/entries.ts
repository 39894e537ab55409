// What can be typed of a fact: itself, or each of its parts, the sides of a size, the height of boards.
import type { SchemaKey, Thing } from "../api";
import { length_says } from "../geometry";
import { called } from "./facts";
import { plain, with_unit } from "./format";

export interface Entry {
  name: string; // "size, across"
  type: SchemaKey; // of what is typed: its range, its steps
  is: string;
  set: (text: string) => Record<string, unknown>;
}

function written(value: unknown, type: string, imperial: boolean): string {
  if (typeof value === "number") return imperial && type === "length" ? length_says(value, true) : plain(value);
  return typeof value === "string" ? value : "";
}

/** As it was typed: the program reads a bare figure in the garden's units. */
export function sent(text: string): string | null {
  return text.trim() === "" ? null : text.trim();
}

export function entries_of(known: SchemaKey, thing: Thing, imperial: boolean): Entry[] {
  const now = thing.fields[known.name];
  const value: unknown = now?.parts ?? now?.value;
  const name = called(known);
  if (known.type === "size" && Array.isArray(value))
    return sides_of(name, known, value, imperial, (size) => ({ [known.name]: size }));
  if (known.type === "record" && !is_compound(known, thing)) {
    const of = (typeof value === "object" && value !== null ? value : {}) as Record<string, unknown>;
    const put = (field: SchemaKey, one: unknown) => ({ [known.name]: without_empty({ ...of, [field.name]: one }) });
    return (known.fields ?? []).flatMap((field) => {
      const part = `${name}, ${called(field)}`;
      const is = of[field.name];
      if (field.type === "size") return sides_of(part, field, is as unknown[], imperial, (size) => put(field, size));
      return [{ name: part, type: field, is: written(is, field.type, imperial), set: (text: string) => put(field, sent(text)) }];
    });
  }
  return [{ name, type: known, is: with_unit(now?.typed ?? "", known.type, imperial), set: (text) => ({ [known.name]: sent(text) }) }];
}

function sides_of(name: string, known: SchemaKey, value: readonly unknown[], imperial: boolean, put: (size: unknown[]) => Record<string, unknown>): Entry[] {
  return ["across", "deep"].map((part, i) => ({
    name: `${name}, ${part}`,
    type: { ...known, type: "length" },
    is: written(value[i], "length", imperial),
    set: (text) => put(value.map((one, j) => (i === j ? sent(text) : one))),
  }));
}

const in_one_field = (key: SchemaKey) => !["list", "one_or_many", "map", "record", "reading", "place", "spot", "horizon_point", "tie", "size"].includes(key.type);

/** Whether its parts are typed in a form of their own and kept together: what none of them can be
without another, or what there can be several of. */
export function is_compound(known: SchemaKey, thing: Thing): boolean {
  const value = thing.fields[known.name]?.value;
  if (known.type === "size") return !Array.isArray(value);
  if (known.type !== "record") return !in_one_field(known);
  const fields = known.fields ?? [];
  if (!fields.every((field) => in_one_field(field) || field.type === "size")) return true;
  if (value !== undefined && typeof value === "object") return false;
  return fields.filter((field) => field.needed === true).length > 1 || fields.some((field) => field.type === "size");
}

function without_empty(record: Record<string, unknown>): Record<string, unknown> | null {
  const left = Object.entries(record).filter(([, value]) => value !== null);
  return left.length === 0 ? null : Object.fromEntries(left);
}
