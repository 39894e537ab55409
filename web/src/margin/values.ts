// Values with parts, as a form has them while they are typed: lists, records, maps, places, sizes.
import type { SchemaKey } from "../api";
import { length_says } from "../geometry";
import { with_unit } from "./format";

export type Json = string | number | boolean | null | Json[] | { [name: string]: Json };

/** A type of the schema; a key is one with a name. */
export type Type = Pick<SchemaKey, "type" | "low" | "high" | "words" | "tables" | "catalogue" | "item" | "fields"> & Partial<Pick<SchemaKey, "called" | "needed" | "says" | "default" | "name">>;

/** One field: what stands in it, and what the garden has if it stands there untouched. */
export interface Leaf {
  text: string;
  is?: Json;
}
export interface Named {
  name: string;
  value: Draft;
}
export type Draft = Leaf | Draft[] | { fields: Record<string, Draft> } | { names: Named[] };

export const is_leaf = (draft: Draft): draft is Leaf => !Array.isArray(draft) && "text" in draft;

const length = (called: string, low?: number, high?: number): Type => ({ type: "length", called, ...(low === undefined ? {} : { low }), ...(high === undefined ? {} : { high }) });

/** The parts of what always has as many: a place, a size, a spot with its level. */
export function tuple_of(type: Type): Type[] | null {
  const { low, high } = type;
  if (type.type === "place") return [length("along", low, high), length("up", low, high)];
  if (type.type === "size") return [length("across", low, high), length("deep", low, high)];
  if (type.type === "spot") return [length("along", low, high), length("up", low, high), length("level", low, high)];
  if (type.type === "horizon_point") return [{ type: "angle", called: "bearing, °" }, { type: "angle", called: "up, °" }];
  if (type.type === "tie") return [{ type: "text", called: "point" }, { type: "text", called: "from" }, length("length", low, high)];
  return null;
}

export const is_list = (type: Type): boolean => ["list", "one_or_many", "line", "outline"].includes(type.type);
const is_record = (type: Type): boolean => type.type === "record" || type.type === "reading";

export function item_of(type: Type): Type {
  if (type.type === "line" || type.type === "outline") return { ...type, type: "place" } as Type;
  return (type.item ?? { type: "text" }) as Type;
}

/** Typed in one field. */
export const is_plain = (type: Type): boolean => !is_list(type) && !is_record(type) && type.type !== "map" && tuple_of(type) === null;

/** What stands in a field of that type that nobody has typed into. */
export function fresh(type: Type): Draft {
  const tuple = tuple_of(type);
  if (tuple !== null) return tuple.map(fresh);
  if (type.type === "map") return { names: [] };
  if (is_list(type)) return [];
  if (is_record(type)) return { fields: Object.fromEntries((type.fields ?? []).map((field) => [field.name, fresh(field)])) };
  return { text: "" };
}

/** In full: a figure is not made less exact by being looked at. */
const plain = (value: number): string => String(Number(value.toFixed(9)));

function leaf_of(type: Type, value: Json, imperial: boolean): Leaf {
  if (typeof value === "number") return { text: with_unit(plain(value), type.type, imperial), is: value };
  return { text: String(value), is: value };
}

/** A value of the garden as the form shows it. */
export function draft_of(type: Type, value: Json | undefined, imperial: boolean): Draft {
  if (value === undefined || value === null) return fresh(type);
  const tuple = tuple_of(type);
  if (tuple !== null && Array.isArray(value)) return tuple.map((part, i) => draft_of(part, value[i], imperial));
  if (is_list(type)) return (Array.isArray(value) ? value : [value]).map((one) => draft_of(item_of(type), one, imperial));
  if (typeof value !== "object" || Array.isArray(value)) return leaf_of(type, value, imperial);
  if (type.type === "map") return { names: Object.entries(value).map(([name, one]) => ({ name, value: draft_of(item_of(type), one, imperial) })) };
  return { fields: Object.fromEntries((type.fields ?? []).map((field) => [field.name, draft_of(field, value[field.name], imperial)])) };
}

export function is_empty(draft: Draft): boolean {
  if (Array.isArray(draft)) return draft.every(is_empty);
  if (is_leaf(draft)) return draft.text.trim() === "";
  if ("names" in draft) return draft.names.every(({ name, value }) => name.trim() === "" && is_empty(value));
  return Object.values(draft.fields).every(is_empty);
}

/** Without rows in which nothing is typed. */
export function pruned(type: Type, draft: Draft): Draft {
  if (is_leaf(draft) || tuple_of(type) !== null) return draft;
  if (Array.isArray(draft)) return draft.filter((one) => !is_empty(one)).map((one) => pruned(item_of(type), one));
  if ("names" in draft)
    return { names: draft.names.filter(({ name, value }) => name.trim() !== "" || !is_empty(value)).map(({ name, value }) => ({ name: name.trim(), value: pruned(item_of(type), value) })) };
  const field = (name: string) => (type.fields ?? []).find((one) => one.name === name) as Type;
  return { fields: Object.fromEntries(Object.entries(draft.fields).map(([name, one]) => [name, pruned(field(name), one)])) };
}

/** What is sent to the program; null: nothing is typed. */
export function sent_of(type: Type, draft: Draft): Json {
  if (is_leaf(draft)) return draft.is !== undefined ? draft.is : draft.text.trim() === "" ? null : draft.text.trim();
  if (is_empty(draft)) return null;
  if (tuple_of(type) !== null) return (draft as Draft[]).map((one, i) => sent_of((tuple_of(type) as Type[])[i] as Type, one) ?? "");
  if (Array.isArray(draft)) {
    const rows = draft.map((one) => sent_of(item_of(type), one)).filter((one) => one !== null);
    return type.type === "one_or_many" && rows.length === 1 ? (rows[0] as Json) : rows;
  }
  if ("names" in draft) return Object.fromEntries(draft.names.map(({ name, value }) => [name.trim(), sent_of(item_of(type), value) ?? ""]));
  const fields = (type.fields ?? []).map((field): [string, Json] => [field.name, sent_of(field, draft.fields[field.name] ?? fresh(field))]);
  return Object.fromEntries(fields.filter(([, value]) => value !== null));
}

export type Path = readonly (string | number)[];

/** The draft with another one at a place within it. */
export function with_at(draft: Draft, path: Path, value: Draft): Draft {
  const [first, ...rest] = path;
  if (first === undefined) return value;
  if (Array.isArray(draft)) return draft.map((one, i) => (i === first ? with_at(one, rest, value) : one));
  if (is_leaf(draft)) return value;
  if ("names" in draft) return { names: draft.names.map((one, i) => (i === first ? { ...one, value: with_at(one.value, rest, value) } : one)) };
  const name = String(first);
  return { fields: { ...draft.fields, [name]: with_at(draft.fields[name] ?? { text: "" }, rest, value) } };
}

/** Of which field the program speaks: of the one that it names, else of the first within it; null: of all. */
export function told_path(draft: Draft, part: string, key: string): Path | null {
  const [of, ...names] = part.replace(/^\//, "").split("/");
  if (of !== key || names.length === 0) return null;
  const path: (string | number)[] = [];
  let now: Draft | undefined = draft;
  for (const name of names) {
    if (now === undefined || is_leaf(now)) break;
    const at: string | number = Array.isArray(now) ? Number(name) : "names" in now ? now.names.findIndex((one) => one.name.trim() === name) : name;
    const next: Draft | undefined = Array.isArray(now) ? now[at as number] : "names" in now ? now.names[at as number]?.value : now.fields[name];
    if (next === undefined) break;
    path.push(at);
    now = next;
  }
  for (let within = first_within(now); within !== null; within = first_within(now)) {
    path.push(within[0]);
    now = within[1];
  }
  return path;
}

function first_within(draft: Draft | undefined): [string | number, Draft] | null {
  if (draft === undefined || is_leaf(draft)) return null;
  if (Array.isArray(draft)) return draft[0] === undefined ? null : [0, draft[0]];
  if ("names" in draft) return draft.names[0] === undefined ? null : [0, draft.names[0].value];
  const [first] = Object.entries(draft.fields);
  return first ?? null;
}

const most_said = 4;

/** A value in few words: "dug soil 0.5, garden compost 0.4", "2026 potato; 2025 cucurbit", "12 levels". */
export function summary(type: Type, value: Json | undefined, imperial: boolean): string {
  if (value === undefined || value === null) return "";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "number") return type.type === "length" ? (imperial ? length_says(value, true) : plain(value)) : plain(value);
  if (typeof value === "string") return value;
  const tuple = tuple_of(type);
  if (tuple !== null && Array.isArray(value)) return value.map((one, i) => summary(tuple[i] as Type, one, imperial)).join(type.type === "size" ? " × " : ", ");
  if (Array.isArray(value)) {
    const item = item_of(type);
    const is_long = value.length > most_said || (value.length > 1 && (item.type === "spot" || item.type === "reading"));
    return is_long ? `${value.length} of them` : value.map((one) => summary(item, one, imperial)).join(tuple_of(item) === null && (item.fields ?? []).length < 3 ? ", " : "; ");
  }
  if (type.type === "map") {
    const names = Object.entries(value).reverse();
    return names.length > most_said ? `${names.length} of them` : names.map(([name, one]) => `${name} ${summary(item_of(type), one, imperial)}`).join("; ");
  }
  const fields = (type.fields ?? []).filter((field) => value[field.name] !== undefined);
  return fields.map((field) => (field.type === "yes_no" ? (value[field.name] === true ? (field.called ?? field.name) : "") : summary(field, value[field.name], imperial))).filter((says) => says !== "").join(fields.length < 3 ? " " : ", ");
}
