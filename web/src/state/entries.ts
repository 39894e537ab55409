// What has no place on the sheet, in the shape of a thing, so that the same forms serve it: a want,
// a task, prices, the garden itself. Its id: "task:order-boards", "crop:pea", "labour:", "want~2".
import type { Edit, Entry, State, Thing } from "../api";

const shape = { corners: [], closed: false, reach_m: 0 };

const id_of = (entry: Entry, nth = entry.nth): string => (entry.name === undefined ? `${entry.table}~${nth ?? 0}` : `${entry.table}:${entry.name}`);
export const single_id = (table: string): string => `${table}:`;
export const is_entry = (id: string): boolean => /[~:]/.test(id);

/** "task" and "order-boards" of "task:order-boards"; the name is empty where there is one of it. */
export function parts_of(id: string): { table: string; name: string; nth: number | null } {
  const at = id.search(/[~:]/);
  const [table, rest] = at < 0 ? ["", id] : [id.slice(0, at), id.slice(at + 1)];
  return id[at] === "~" ? { table, name: "", nth: Number(rest) } : { table, name: rest, nth: null };
}

export function entries_in(state: State): Thing[] {
  const singles = Object.entries(state.singles).map(([table, fields]): Thing => ({ ...shape, id: single_id(table), table, mark: "existing", fields }));
  return [...singles, ...state.entries.map((entry): Thing => ({ ...shape, id: id_of(entry), table: entry.table, mark: entry.mark, fields: entry.fields }))];
}

/** Which entry an edit is of; null: it is of a thing, or makes something. */
export function entry_of(edit: Partial<Edit>): string | null {
  const { table, name, nth } = edit;
  if (table === undefined) return null;
  return nth !== undefined ? `${table}~${nth}` : name !== undefined ? `${table}:${name}` : single_id(table);
}

/** How an edit names an entry. One that goes by its number is told as it was seen, but for what `touched`
since: so another window cannot put another in its place. */
export function entry_named(entry: Thing, touched: ReadonlySet<string>): Partial<Edit> {
  const { table, name, nth } = parts_of(entry.id);
  if (nth === null) return name === "" ? { table } : { table, name };
  const seen = Object.entries(entry.fields).filter(([key]) => !touched.has(key));
  return { table, nth, was: Object.fromEntries(seen.map(([key, { typed }]) => [key, typed])) };
}

const says = (entry: Thing) => JSON.stringify(entry.fields);

/** The same entry in the garden as it is now, where those before it may have gone; null: none is surely it. */
export function followed(id: string, before: readonly Thing[], now: readonly Thing[]): string | null {
  const { table, nth } = parts_of(id);
  const there = now.find((one) => one.id === id);
  const was = before.find((one) => one.id === id);
  if (nth === null || was === undefined) return there === undefined ? null : id;
  if (there !== undefined && says(there) === says(was)) return id;
  const of = (all: readonly Thing[]) => all.filter((one) => one.table === table);
  if (there !== undefined && of(now).length === of(before).length) return id;
  const alike = of(now).filter((one) => says(one) === says(was));
  return alike.length === 1 ? (alike[0]?.id ?? null) : null;
}
