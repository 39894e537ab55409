// The facts of a thing as its form shows them: which keys, in what order, how a figure is stepped.
import type { SchemaKey, SchemaTable, Thing } from "../api";
import { length_says, metres_in, tidy_figure } from "../geometry";

/** Told elsewhere in the margin, or no fact of the thing. */
const elsewhere = new Set(["id", "guessed", "scheme", "status", "removed"]);
const drawn = new Set(["line", "outline"]);
const figures = new Set(["number", "whole", "share", "length", "stem", "angle", "temperature"]);
export const is_figure = (key: { type: string }): boolean => figures.has(key.type);

export interface Facts {
  shown: SchemaKey[]; // what is known of it
  more: SchemaKey[]; // what else could be
}
const kept_back = new Set(["note", "mine", "phase"]);

export function facts_of(table: SchemaTable, thing: Thing): Facts {
  const is_elsewhere = (key: SchemaKey) => elsewhere.has(key.name) || drawn.has(key.type) || (key.name === "locked" && table.name !== "task") || (key.name === "phase" && thing.corners.length > 0) || (key.name === "thing" && table.name === "change") || key.name === "*";
  const all = [...table.keys.filter((key) => !is_elsewhere(key)), ...own_names(table, thing)];
  const is_known = (key: SchemaKey) => thing.fields[key.name] !== undefined || (key.needed ?? false);
  // Where it stands is told beneath; here it can stand at a named point.
  const is_named = (key: SchemaKey) => key.name !== "at" || typeof thing.fields["at"]?.value === "string";
  const shown = all.filter((key) => is_known(key) && is_named(key) && !(kept_back.has(key.name) && thing.fields[key.name] === undefined));
  return { shown, more: [...all.filter((key) => !shown.includes(key) && key.name !== "at"), ...all.filter((key) => key.name === "at" && !shown.includes(key))] };
}

/** What a table has under names of the grower's own, such as the prices of materials. */
function own_names(table: SchemaTable, thing: Thing): SchemaKey[] {
  const any = table.keys.find((key) => key.name === "*");
  if (any === undefined) return [];
  const known = new Set(table.keys.map((key) => key.name));
  return Object.keys(thing.fields).filter((name) => !known.has(name)).map((name) => ({ ...any, name, called: name }));
}

/** "crown base" of "crown_base_m". */
export function called(key: SchemaKey): string {
  return key.called ?? key.name.replace(/_/g, " ");
}

const places = new Set(["at", "line", "outline", "row"]);

const is_bare = (typed: string) => /^[-+]?[\d._]+$/.test(typed);
const units_of: Record<string, string> = { length: "\u00a0m", angle: "°" };

/** What an altered thing is as found: "elsewhere, crown base 1.7 m". */
export function altered_says(thing: Thing, table: SchemaTable | undefined): string {
  const was = Object.entries(thing.was ?? {});
  const told = was.filter(([name]) => !places.has(name)).map(([name, typed]) => {
    const key = table?.keys.find((one) => one.name === name);
    const says = key === undefined ? name : called(key);
    if (typed !== null && /^\s*\[/.test(typed)) return `another ${says}`; // a place, or parts
    return typed === null ? `no ${says}` : `${says} ${typed}${is_bare(typed) ? (units_of[key?.type ?? ""] ?? "") : ""}`;
  });
  const most = 2;
  const shown = told.length > most ? [...told.slice(0, most), `${told.length - most} more`] : told;
  return [...(told.length < was.length ? ["elsewhere"] : []), ...shown].join(", ");
}

export function guessed_keys(thing: Thing): string[] {
  const keys = thing.fields["guessed"]?.value;
  return Array.isArray(keys) ? keys.filter((key): key is string => typeof key === "string") : [];
}

/** A far limit needs no inches. */
const high_says = (metres: number) => (metres < 4 ? length_says(metres, true) : `${Math.floor(metres / 0.3048)} ft`);

/** What a length may be, in words for one that cannot be: "It can be 0.1 m to 2000 m." */
export function bounds_say(key: SchemaKey, imperial: boolean): string {
  const { low = -Infinity, high = Infinity } = key;
  const says = (metres: number) => (imperial ? (metres < 4 ? length_says(metres, true) : high_says(metres)) : `${metres} m`);
  return `It can be ${says(low)} to ${says(high)}.`;
}

/** "0.1 to 120 m", "1 to 20", the words that it takes. */
export function range_says(key: SchemaKey, imperial: boolean): string {
  const { low, high } = key;
  if (low === undefined || high === undefined) return "";
  if (key.type === "length") {
    if (Math.abs(low) >= 1000 || high >= 1000) return "";
    if (imperial && length_says(low, true) === "0 in") return `up to ${high_says(high)}`;
    return imperial ? `${length_says(low, true)} to ${high_says(high)}` : `${Number(low)} to ${Number(high)} m`;
  }
  const between = `${low} to ${high}`.replace(/-/g, "−");
  if (key.type === "angle") return `${between}°`;
  return key.type === "number" || key.type === "whole" || key.type === "share" ? between : "";
}

const steps_m: Record<string, number> = { m: 0.1, cm: 5, mm: 25, ft: 0.5, in: 1, "": 0.1 };
const plain_steps: Record<string, number> = { whole: 1, share: 0.05, angle: 5, number: 1, temperature: 1 };

/** A figure one step up or down, in the unit in which it was typed; null: it has no step. */
export function stepped(key: SchemaKey, typed: string, by: 1 | -1, imperial: boolean): string | null {
  const text = tidy_figure(typed);
  if (text === null) return null;
  const one = /^(-?[\d.]+)\s*([a-z]*)$/i.exec(text);
  if (key.type === "length") {
    const unit = one?.[2] || (imperial ? "ft" : "");
    const step = steps_m[unit];
    if (one !== null && step !== undefined) {
      const is = Number(one[1]);
      // Boards and wires are thin: a tenth of a metre is no step for them.
      const is_thin = (unit === "m" || unit === "") && Math.abs(is) < 0.0999 && (key.high ?? 100) <= 5;
      return in_bounds(key, is + by * (is_thin ? 0.005 : step), unit);
    }
    const metres = metres_in(text, false);
    return metres === null ? null : length_says(Math.max(key.low ?? -1e9, metres + by * (Math.abs(metres) < 0.3 ? 0.0254 : 0.1524)), true);
  }
  const step = plain_steps[key.type];
  if (step === undefined || one === null) return null;
  if (key.type === "temperature") {
    const unit = (one[2] || (imperial ? "F" : "")).toUpperCase();
    return /^[CF]?$/.test(unit) ? `${Number((Number(one[1]) + by * step).toFixed(4))}${unit === "" ? "" : ` ${unit}`}` : null;
  }
  if (one[2] !== "") return null;
  return in_bounds(key, Number(one[1]) + by * step, "");
}

const unit_m: Record<string, number> = { m: 1, cm: 0.01, mm: 0.001, ft: 0.3048, in: 0.0254, "": 1 };

function in_bounds(key: SchemaKey, value: number, unit: string): string {
  const factor = key.type === "length" ? (unit_m[unit] ?? 1) : 1;
  const within = Math.max((key.low ?? -Infinity) / factor, Math.min((key.high ?? Infinity) / factor, value));
  return `${Number(within.toFixed(4))}${unit === "" ? "" : ` ${unit}`}`;
}

/** What a fact means, without the document's own signs. */
export function says_plainly(says: string): string {
  return says.replace(/`"?([^`]*?)"?`/g, "$1");
}

/** The program's words at a field, without the document's name for it. */
export function told_plainly(message: string, key: string): string {
  const words = message.startsWith(`${key}: `) ? message.slice(key.length + 2) : message;
  return words.charAt(0).toUpperCase() + words.slice(1);
}
