// What has no place on the sheet, in growers' words: how it is grouped, what each of it is called.
import { computed } from "@preact/signals";
import type { Thing } from "../api";
import { entries, month_names, name_of } from "../state";

export interface EntryWords {
  title: string; // "pea"
  more: string; // "6 kg"
}
interface TableWords {
  says: string; // at the head of its notes: "wanted"
  words: (entry: Thing) => EntryWords;
  stays?: true; // it can be left empty, not taken away
}

const typed = (entry: Thing, key: string): string => entry.fields[key]?.typed ?? "";
const count_says = (count: number, one: string, many: string): string => (count === 0 ? "" : `${count} ${count === 1 ? one : many}`);

function items(entry: Thing, key: string): number {
  const value = entry.fields[key]?.value;
  return Array.isArray(value) ? value.length : 0;
}

/** One that there is one of: its name, and whether anything is said of it. */
const single = (title: string, more: (entry: Thing) => string = () => "") => (entry: Thing): EntryWords => ({
  title,
  more: more(entry) || (Object.keys(entry.fields).length === 0 ? "nothing said yet" : ""),
});

const words: Readonly<Record<string, TableWords>> = {
  want: { says: "wanted", words: (entry) => ({ title: typed(entry, "crop"), more: typed(entry, "amount") }) },
  stock: { says: "to hand", words: (entry) => ({ title: typed(entry, "material"), more: typed(entry, "amount") }) },
  labour: { says: "the works", words: single("Whose hands, and when", (entry) => typed(entry, "start")) },
  task: { says: "a task", words: (entry) => ({ title: name_of(entry.id), more: typed(entry, "what") }) },
  raising: { says: "raising", words: single("Where seedlings stand", (entry) => count_says(items(entry, "spaces"), "place", "places")) },
  prices: { says: "prices", words: single("What suppliers ask", (entry) => count_says(Object.keys(entry.fields).length, "material", "materials")) },
  crop: { says: "own figures, over the catalogue’s", words: (entry) => ({ title: name_of(entry.id), more: count_says(Object.keys(entry.fields).filter((key) => key !== "note").length, "figure", "figures") }) },
  stand: { says: "locked in the cropping plan", words: (entry) => ({ title: `${typed(entry, "crop")} in ${typed(entry, "bed")}`, more: typed(entry, "start") }) },
  garden: { says: "the garden itself", words: single("Place, clock and household"), stays: true },
  climate: { says: "the garden itself", words: single("Whose weather"), stays: true },
  "climate.month": { says: "a month’s weather, your own figures", words: (entry) => ({ title: month_names[Number(entry.fields["month"]?.value) - 1] ?? "a month", more: "weather" }) },
  boundary: { says: "the garden itself", words: single("Edge of the plot"), stays: true },
  ground: { says: "the garden itself", words: single("Soil, fall and skyline"), stays: true },
  survey: { says: "the garden itself", words: single("Survey by tape and level"), stays: true },
  scheme: { says: "another way", words: (entry) => ({ title: typed(entry, "title") || name_of(entry.id), more: "" }), stays: true },
  change: { says: "what is altered", words: (entry) => ({ title: typed(entry, "thing"), more: typed(entry, "scheme") === "" ? "" : `in ${typed(entry, "scheme")}` }) },
};

export const entry_groups: readonly (readonly [string, readonly string[]])[] = [
  ["What is wanted", ["want"]],
  ["To hand", ["stock"]],
  ["The works", ["labour", "task"]],
  ["Locked in the cropping plan", ["stand"]],
  ["Raising", ["raising"]],
  ["Prices", ["prices"]],
  ["Own figures of crops", ["crop"]],
  ["The garden itself", ["garden", "boundary", "ground", "survey", "climate", "climate.month"]],
  ["Other ways", ["scheme"]],
  ["What is altered", ["change"]],
];

/** Of a table that has no words here: a thing without a name, such as a view. */
export function entry_words(entry: Thing): EntryWords {
  return words[entry.table]?.words(entry) ?? { title: `a ${entry.table} without a name`, more: "" };
}
export const table_says = (table: string): string => words[table]?.says ?? table;
export const can_be_taken_away = (entry: Thing): boolean => words[entry.table]?.stays !== true && Object.keys(entry.fields).length > 0;

export function entry_says(entry: Thing): string {
  const { title, more } = entry_words(entry);
  return [title, more, table_says(entry.table)].filter((part) => part !== "").join(", ");
}
/** What a thing or an entry is called in a sentence. */
export const called_in_words = (thing: Thing): string => (words[thing.table] === undefined || !/[~:]/.test(thing.id) ? thing.id : entry_words(thing).title);

/** The groups with what there is of each; last what has neither a place nor a group. */
export const grouped_entries = computed((): [string, Thing[]][] => {
  const all = [...entries.value.values()];
  const known = new Set(entry_groups.flatMap(([, tables]) => tables));
  const of = (tables: readonly string[]) => tables.flatMap((table) => all.filter((entry) => entry.table === table));
  const groups = entry_groups.map(([name, tables]): [string, Thing[]] => [name, of(tables)]);
  return [...groups, ["Without a name", all.filter((entry) => !known.has(entry.table))] as [string, Thing[]]].filter(([, rows]) => rows.length > 0);
});
