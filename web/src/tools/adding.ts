// What is added that has no place on the sheet: which figures are asked for first, and what is made of
// them.
import { batch, effect, signal } from "@preact/signals";
import type { SchemaKey } from "../api";
import { act, choose_nothing_later, entries, garden, link, problem, saying, select_when_there, selected, single_id } from "../state";
import { key_of } from "./kinds";
import { draw_menu, drawing } from "./drawing";

export interface Addable {
  says: string; // in the menu
  table: string;
  /** Asked for first; the rest is typed in its notes. */
  asks: readonly string[];
  name?: { says: string; hint: string; catalogue?: string }; // asked for besides: what it is called
  within?: true; // a key of the only one, under that name
  offered?: Readonly<Record<string, string>>;
}

export const addables: readonly Addable[] = [
  { says: "Wanted crop", table: "want", asks: ["crop", "amount"] },
  { says: "Material to hand", table: "stock", asks: ["material", "amount"] },
  { says: "Task", table: "task", asks: ["what", "hours"], name: { says: "name", hint: "order the boards" } },
  { says: "Whose hands, and when", table: "labour", asks: ["start", "finish_by", "hours_per_day"] },
  { says: "Locked place in the plan", table: "stand", asks: ["bed", "crop", "from", "to", "start", "end"] },
  { says: "Where seedlings stand", table: "raising", asks: [] },
  { says: "Price of a material", table: "prices", asks: ["pack", "price", "tonnes", "m3"], name: { says: "material", hint: "garden compost", catalogue: "material" }, within: true },
  { says: "Own figures of a crop", table: "crop", asks: ["days_to_pick"], name: { says: "crop", hint: "tomato", catalogue: "crop" } },
  { says: "A month’s weather", table: "climate.month", asks: ["month", "tmax_c", "tmin_c", "rain_mm"] },
];

export interface Adding {
  what: Addable;
  is_sent: boolean;
  told: { message: string; hint: string; part?: string } | null;
}
/** What is being added. */
export const adding = signal<Adding | null>(null);

/** A key that is asked for: of the table, or of what stands in it under a name. */
export function asked_key(what: Addable, name: string): SchemaKey | undefined {
  return what.within === true ? key_of(what.table, "*")?.fields?.find((field) => field.name === name) as SchemaKey | undefined : key_of(what.table, name);
}
export const is_needed = (what: Addable, name: string): boolean => asked_key(what, name)?.needed === true;

/** Of what there is one and it is there, or can be empty, the notes; else what is needed is asked. */
export function begin_adding(what: Addable): void {
  if (link.peek() === "read_only" || garden.peek() === null) return;
  choose_nothing_later();
  const only = entries.peek().get(single_id(what.table));
  const is_open = only !== undefined && what.within !== true && (what.asks.length === 0 || Object.keys(only.fields).length > 0);
  batch(() => {
    drawing.value = null;
    draw_menu.value = false;
    selected.value = is_open ? only.id : null;
    adding.value = is_open ? null : { what, is_sent: false, told: null };
    saying.value = is_open ? `${what.says}: its notes.` : `${what.says}: what is needed is asked in the notes.`;
  });
}

export function leave_adding(): void {
  adding.value = null;
}

const without_empty = (typed: Readonly<Record<string, string>>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(typed).map(([key, text]) => [key, text.trim()]).filter(([, text]) => text !== ""));

/** Adds it with what was typed; it is chosen when it is there. */
export async function add_typed(typed: Readonly<Record<string, string>>, called: string): Promise<void> {
  const now = adding.peek();
  if (now === null || now.is_sent) return;
  const { what } = now;
  const name = called.trim();
  const set = what.within === true ? { [name]: without_empty(typed) } : without_empty(typed);
  const missing = [...(what.name !== undefined && what.table !== "task" && name === "" ? [what.name.says] : []), ...what.asks.filter((key) => is_needed(what, key) && (typed[key] ?? "").trim() === "")];
  if (missing.length > 0) {
    adding.value = { ...now, told: { message: "This is needed.", hint: "", part: `/${missing[0] ?? ""}` } };
    return;
  }
  const only = entries.peek().get(single_id(what.table));
  if (name !== "" && (what.within === true ? only?.fields[name] !== undefined : entries.peek().has(`${what.table}:${name}`))) {
    adding.value = { ...now, told: { message: "It is there already.", hint: "It is altered in its notes, by the list.", part: `/${what.name?.says ?? ""}` } };
    return;
  }
  const sent: Adding = { ...now, is_sent: true, told: null };
  adding.value = sent;
  const is_named = what.within !== true && name !== "";
  const asked = act.add(what.table, set, is_named ? name : undefined, `${what.says.toLowerCase()}${name === "" ? "" : ` ${name}`} added`);
  if (link.peek() !== "here") adding.value = null; // it waits, and is told then
  const { told, made } = await asked;
  const is_open = adding.peek() === sent;
  if (told !== null && is_open) {
    batch(() => {
      problem.value = null; // it is told at its field
      adding.value = { what, is_sent: false, told };
    });
  } else if (told === null) {
    if (is_open) adding.value = null;
    saying.value = `${what.says}${name === "" ? "" : ` ${name}`}: added.`;
    const [id] = made;
    if (id !== undefined && adding.peek() === null && drawing.peek() === null) select_when_there(id);
  }
}

effect(() => {
  if (selected.value !== null || drawing.value !== null) adding.value = null;
});
