// What can be typed of a fact: itself, or each of its parts, the sides of a size, the height of boards.
import type { SchemaKey, Thing } from "../api";
import { length_says } from "../geometry";
import { called } from "./facts";
import { plain } from "./format";

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

/** A figure of the document as it is shown: its bare lengths are metres, in whatever unit people type them. */
export function with_unit(typed: string, type: string, imperial: boolean): string {
  if (!imperial || !/^[-+]?[\d._]+(?:e[-+]?\d+)?$/i.test(typed)) return typed;
  if (type === "length" || type === "stem") return `${typed} m`;
  return type === "temperature" ? `${typed} C` : typed;
}

/** As it was typed: the program reads a bare figure in the garden's units. */
export function sent(text: string): string | null {
  return text.trim() === "" ? null : text.trim();
}

export function entries_of(known: SchemaKey, thing: Thing, imperial: boolean): Entry[] {
  const now = thing.fields[known.name];
  const value = now?.value;
  const name = called(known);
  if (known.type === "size" && Array.isArray(value))
    return ["across", "deep"].map((part, i) => ({
      name: `${name}, ${part}`,
      type: { ...known, type: "length" },
      is: written(value[i], "length", imperial),
      set: (text) => ({ [known.name]: value.map((one: unknown, j) => (i === j ? sent(text) : one)) }),
    }));
  if (known.type === "record" && (value === undefined || (typeof value === "object" && value !== null))) {
    const of = (value ?? {}) as Record<string, unknown>;
    return (known.fields ?? []).map((field) => ({
      name: `${name}, ${called(field).replace(/_m$/, "").replace(/ m$/, "")}`,
      type: field,
      is: written(of[field.name], field.type, imperial),
      set: (text) => ({ [known.name]: without_empty({ ...of, [field.name]: sent(text) }) }),
    }));
  }
  return [{ name, type: known, is: with_unit(now?.typed ?? "", known.type, imperial), set: (text) => ({ [known.name]: sent(text) }) }];
}

function without_empty(record: Record<string, unknown>): Record<string, unknown> | null {
  const left = Object.entries(record).filter(([, value]) => value !== null);
  return left.length === 0 ? null : Object.fromEntries(left);
}
