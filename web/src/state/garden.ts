// The garden that is open: what it is in the scheme shown, and what can be done to it.
import { batch, computed, signal, untracked } from "@preact/signals";
import { ask, type Edit, type Head, Refused, type Schema, send, type State, type Thing } from "../api";
import { store_kept } from "./kept";
import { again, gone, load, load_error, no_room, problem } from "./load";
import { entries_in, entry_named, entry_of, followed, is_entry, parts_of, single_id } from "./entries";
import { added_since, forget_done, moved_since, moved_things_since, name_since, note_done, note_waiting, touched_since, with_typed } from "./made";
import { note_name, other_name } from "./names";
import { state_now } from "./pieces";
import { type Kept, Queue, type Step, type Told } from "./queue";

export { again, gone, load_error, no_room, problem };

export const garden = signal<string | null>(null); // null: the shelf
export const scheme = signal("proposed");
export const compared = signal<string | null>(null); // a second scheme, side by side
export const state = signal<State | null>(null); // of the scheme shown
export const schema = signal<Schema | null>(null);
export const selected = signal<string | null>(null);
export const hovered = signal<string | null>(null);
export const saying = signal(""); // announced to who listens instead of looking
export const waiting = signal(0); // edits that wait

const head_known = signal<Head | null>(null);
export const head = computed(() => head_known.value);
/** With what was typed and waits. */
export const things = computed(() => {
  const now = state.value;
  const all = now === null ? [] : with_typed(garden.value, now.scheme, now.things, now.head.change);
  return new Map<string, Thing>(all.map((thing) => [thing.id, thing]));
});
/** What has no place on the sheet, by its id ("want~2"), in the shape of things. */
export const entries = computed(() => {
  const now = state.value;
  const all = now === null ? [] : with_typed(garden.value, now.scheme, entries_in(now), now.head.change);
  return new Map<string, Thing>(all.map((entry) => [entry.id, entry]));
});
export { is_entry, parts_of, single_id };
/** A thing, or an entry without a place. */
export const thing_or_entry = (id: string | null): Thing | undefined => (id === null ? undefined : (things.value.get(id) ?? entries.value.get(id)));
const all_in = (now: State): Thing[] => [...now.things, ...entries_in(now)];
/** What it is called: its id, or its name among its kind. */
export const name_of = (id: string): string => (is_entry(id) ? parts_of(id).name || parts_of(id).table : id);

export const link = computed<"here" | "gone" | "no_room" | "read_only">(() =>
  gone.value ? "gone" : head.value?.read_only === true ? "read_only" : no_room.value !== null ? "no_room" : "here",
);

/** How far a thing stands from where the drawing of `change` has it. */
export const offset_since = (thing: string, change: number): [number, number] =>
  moved_since(garden.value, scheme.value, thing, change);

/** Those that do not stand where the drawing of `change` has them. */
export const moved_things = (change: number): string[] => moved_things_since(garden.value, scheme.value, change);

/** The name that a thing is to have, while that waits; null: the one that it has. */
export const name_to_be = (thing: string): string | null => name_since(garden.value, scheme.value, name_of(thing), state.value?.head.change ?? 0);

/** Things added here to the scheme shown, until the garden shown has them. */
export const arriving = computed(() => added_since(garden.value, scheme.value, state.value?.head.change ?? 0));

/** What came by an edit that was sent from this page. */
const made_by = new WeakMap<Edit, string[]>();

const state_asked = signal(0); // counted up to ask for the state anew
let change_asked = -1; // of the state that is asked for or known

function newer(one: Head): void {
  const known = head_known.peek();
  if (known !== null && one.change < known.change) return;
  batch(() => {
    head_known.value = one;
    if (state.peek()?.head.change === one.change || change_asked === one.change) return;
    change_asked = one.change;
    state_asked.value = state_asked.peek() + 1;
  });
}

/** The change of the garden now, when it may be another than the one known here. */
export async function change_now(id: string): Promise<number> {
  const { head } = await ask("/api/gardens/{garden}/changes", { path: { garden: id }, query: { change: -1 } });
  if (id === garden.peek()) newer(head);
  return head.change;
}

/** What a window is told of the garden that is open. */
export function told_head(id: string, now: Head): void {
  if (id === garden.peek()) newer(now);
}

/** The file may only be read from now on, or may be written again: the header says so. */
export function look_again(id: string): void {
  change_now(id).catch(load_error);
}

let told_of_room: Told | null = null;

function room_again(says: string): void {
  if (no_room.peek() === null) return;
  batch(() => {
    no_room.value = null;
    if (problem.peek() === told_of_room) problem.value = null;
    saying.value = says;
  });
}

/** What an edit alters, as a scheme has it: the same text, the same things. */
function altered_by(edit: Omit<Edit, "scheme">, thing: Thing | undefined): string {
  if (thing === undefined) return "";
  if (edit.rename !== undefined) return name_of(thing.id);
  if (edit.set !== undefined) return JSON.stringify(Object.keys(edit.set).map((key) => thing.fields[key]?.value ?? null));
  if (edit.move_m !== undefined) return JSON.stringify(thing.corners);
  return thing.mark;
}

/** How a thing is now that two windows altered. */
function clash_says(edit: Edit, thing: Thing | undefined): string {
  if (thing === undefined) return "It is not here any more.";
  const [key] = Object.keys(edit.set ?? {});
  const typed = key === undefined ? undefined : thing.fields[key]?.typed;
  const is = typed !== undefined ? `The garden has ${typed} now.` : edit.move_m === undefined ? "It is now as it was left there." : "It stands now where it was left there.";
  return `${is} Do yours again if you would rather have it.`;
}

async function clash(kept: Kept): Promise<Told | null> {
  const { edit, was } = kept;
  const id = edit?.thing ?? (edit === undefined ? null : entry_of(edit));
  if (edit === undefined || id === null || was === undefined) return null;
  const query = { scheme: edit.scheme };
  const now = await ask("/api/gardens/{garden}", { path: { garden: kept.garden }, query });
  if (kept.garden === garden.peek()) newer(now.head);
  const thing = all_in(now).find((one) => one.id === id || (edit.rename !== undefined && name_of(one.id) === id));
  if (altered_by(edit, thing) === was) return null;
  return { message: `${name_of(id)} was altered just so in another window meanwhile.`, hint: clash_says(edit, thing) };
}

const edits_of_gone = new Map<string, number>(); // changes of gardens that are not open

export const queue = new Queue({
  send: async (kept: Kept) => {
    const path = { garden: kept.garden };
    const sent = { command: kept.command, change: kept.change ?? 0 };
    try {
      const answer =
        kept.edit !== undefined
          ? await send("/api/gardens/{garden}/edits", { path }, { ...kept.edit, ...sent })
          : await send("/api/gardens/{garden}/steps", { path }, { ...(kept.step as Step), ...sent });
      room_again("What waited is written now.");
      if (kept.edit !== undefined && "made" in answer) made_by.set(kept.edit, answer.made);
      return answer.head;
    } catch (error) {
      if (error instanceof Refused && error.status === 403 && kept.garden === garden.peek()) look_again(kept.garden);
      throw error;
    }
  },
  change_of: (id) =>
    id === garden.peek() ? (head_known.peek()?.change ?? null) : (edits_of_gone.get(id) ?? null),
  change_now,
  clash,
  renamed: (kept) => (kept.edit?.rename === undefined ? null : (made_by.get(kept.edit)?.[0] ?? null)),
  done: (kept, now) => {
    const name = kept.edit?.rename === undefined ? undefined : made_by.get(kept.edit)?.[0];
    if (name !== undefined) note_name(kept.edit?.thing ?? "", name);
    edits_of_gone.set(kept.garden, now.change);
    if (kept.garden !== garden.peek()) return;
    batch(() => {
      note_done(kept, now.change);
      newer(now);
    });
  },
  told: (_, told) => {
    problem.value = told;
  },
  gone: () => {
    gone.value = true;
  },
  no_room: (told) => {
    const is_first = no_room.peek() === null;
    no_room.value = { ...told, hint: `${told.hint.replace(/, then try again\.$/, ".")} What you do meanwhile waits here and is written then.` };
    if (is_first) problem.value = told_of_room = no_room.peek();
  },
  waits: (kept) => {
    batch(() => {
      waiting.value = kept.length;
      note_waiting(kept);
      if (kept.length === 0) room_again("Nothing waits any more.");
    });
  },
  store: store_kept,
  fresh_id: () => crypto.randomUUID(),
});

export interface Made {
  told: Told | null;
  made: string[]; // ids; none of what was done away again before it was sent
}

/** Figures to a thousandth of a millimetre: what sums leave behind that is nobody's measure. */
function tidied<T>(value: T): T {
  if (typeof value === "number") return Number(value.toFixed(6)) as T;
  if (Array.isArray(value)) return value.map(tidied) as T;
  return typeof value === "object" && value !== null ? (Object.fromEntries(Object.entries(value).map(([key, one]) => [key, tidied(one)])) as T) : value;
}

async function edited(thing: string, what: Omit<Edit, "scheme" | "thing">): Promise<Told | null> {
  const id = garden.peek();
  if (id === null) return null;
  problem.value = null;
  const now = state.peek();
  const seen = now === null ? undefined : all_in(now).find((one) => one.id === thing);
  const meant = !is_entry(thing) ? { thing } : seen === undefined ? null : entry_named(seen, touched_since(id, scheme.peek(), thing, now?.head.change ?? 0));
  if (meant === null) return { message: "It is not here any more.", hint: "It may have been taken away in another window." };
  const edit: Edit = { scheme: scheme.peek(), ...meant, ...tidied(what) };
  // One that goes by its number is looked for by what it was, when it comes to it.
  // Of what the garden shown does not have yet, such as under its new name, nothing is known to be altered by others.
  return queue.add(id, edit.nth === undefined && seen !== undefined ? { edit, was: altered_by(what, seen) } : { edit });
}

/** Several changes as one step to undo. Out: what was refused, and the ids of what came. */
async function done_at_once(edit: Omit<Edit, "scheme">): Promise<Made> {
  const id = garden.peek();
  if (id === null) return { told: null, made: [] };
  problem.value = null;
  const whole: Edit = { scheme: scheme.peek(), ...tidied(edit) };
  const told = await queue.add(id, { edit: whole });
  if (told !== null) problem.value = told;
  return { told, made: id === garden.peek() ? (made_by.get(whole) ?? []) : [] };
}

/** A table that there is one of, such as the climate's: the same in every scheme. */
async function table_set(table: string, set: Record<string, unknown>, says?: string): Promise<Told | null> {
  const id = garden.peek();
  if (id === null) return null;
  problem.value = null;
  const told = await queue.add(id, { edit: { scheme: scheme.peek(), table, set: tidied(set), ...(says === undefined ? {} : { says }) } });
  if (told !== null) problem.value = told;
  return told;
}

async function stepped(step: Step): Promise<Told | null> {
  const id = garden.peek();
  if (id === null) return null;
  problem.value = null;
  const { undo = "", redo = "" } = head_known.peek() ?? {};
  const told = await queue.add(id, { step });
  if (told !== null) problem.value = told;
  else if (step.step === "undo") saying.value = `Undone: ${undo}.`;
  else if (step.step === "redo") saying.value = `Done again: ${redo}.`;
  else saying.value = step.step === "name" ? `Named ${step.name}.` : "Brought back.";
  return told;
}

/** Says what was done; what was refused is told where everybody sees it. */
const tell = (done: string) => (told: Told | null): Told | null => {
  if (told === null) saying.value = done;
  else problem.value = told;
  return told;
};

export const act = {
  /** What was refused, told where everybody sees it. */
  tell(told: Told): void {
    problem.value = told;
  },
  move_typed: (thing: string, [x, y]: readonly [number, number]): Promise<Told | null> => edited(thing, { move_m: [x, y] }),
  async move(thing: string, by_m: readonly [number, number]): Promise<Told | null> {
    const told = await act.move_typed(thing, by_m);
    if (told !== null) problem.value = told;
    return told;
  },
  set: (thing: string, set: Record<string, unknown>) => edited(thing, { set }),
  set_table: table_set,
  /** A thing of the scheme shown. `called`: what its id is made of. */
  add: (table: string, set: Record<string, unknown>, called?: string, says?: string): Promise<Made> =>
    done_at_once({ add: table, set, ...(called === undefined ? {} : { called }), ...(says === undefined ? {} : { says }) }),
  /** Several parts, one step to undo; `says` is what undo tells. */
  all: (parts: readonly Partial<Edit>[], says?: string): Promise<Made> =>
    done_at_once({ all: parts as Record<string, unknown>[], ...(says === undefined ? {} : { says }) }),
  make_scheme: (name: string): Promise<Made> => done_at_once({ make_scheme: name }),
  rename_scheme: (name: string, called: string): Promise<Made> => done_at_once({ rename_scheme: name, called }),
  merge_scheme: (name: string): Promise<Made> => done_at_once({ merge_scheme: name }),
  drop_scheme: (name: string): Promise<Made> => done_at_once({ drop_scheme: name }),
  /** Another name. Out: what was refused, and the name as the garden has it. */
  async rename(thing: string, rename: string): Promise<Made> {
    const id = garden.peek();
    if (id === null) return { told: null, made: [] };
    problem.value = null;
    const edit: Edit = { scheme: scheme.peek(), thing: name_of(thing), rename };
    being_named.add(thing);
    const told = await queue.add(id, { edit, was: name_of(thing) });
    being_named.delete(thing);
    const made = id === garden.peek() ? (made_by.get(edit) ?? []) : [];
    if (told === null && made[0] !== undefined) {
      if (selected.peek() === null && lost === thing) select_when_there(made[0]);
      saying.value = `${name_of(thing)} is now called ${made[0]}.`;
    }
    return { told, made };
  },
  put_back: (thing: string) => edited(thing, { put_back: true }).then(tell(`${thing} is put back.`)),
  /** What was refused is told by who asked. */
  async take_away(thing: string): Promise<Told | null> {
    const told = await edited(thing, { take_away: true });
    if (told === null) saying.value = `${name_of(thing)} is taken away.`;
    return told;
  },
  async undo(): Promise<Told | null> {
    const id = garden.peek();
    if (id !== null && (gone.peek() || no_room.peek() !== null) && queue.drop_last(id, "undo")) return null;
    return stepped({ step: "undo" });
  },
  async redo(): Promise<Told | null> {
    const id = garden.peek();
    if (id !== null && (gone.peek() || no_room.peek() !== null) && (queue.drop_last(id, "redo") || queue.bring_back(id))) return null;
    return stepped({ step: "redo" });
  },
  name: (name: string) => stepped({ step: "name", name }),
  bring_back: (revision: number) => stepped({ step: "bring_back", revision }),
};

/** What was chosen and is not there any more: the garden with a new name may come before word of it does. */
let lost: string | null = null;
const being_named = new Set<string>();
const chosen_next = signal<string | null>(null);
/** Chosen as soon as the garden shown has it. */
export function select_when_there(id: string): void {
  if (things.peek().has(id) || entries.peek().has(id)) selected.value = id;
  else chosen_next.value = id;
}

/** Something else is begun: what comes later is not chosen in its place. */
export function choose_nothing_later(): void {
  chosen_next.value = null;
}

/** Opens a garden, or with null the shelf. */
export function open_garden(id: string | null, shown = "proposed"): void {
  batch(() => {
    garden.value = id;
    scheme.value = shown;
    compared.value = null;
    selected.value = null;
    hovered.value = null;
    problem.value = null;
    state.value = null;
    head_known.value = null;
    change_asked = -1;
    forget_done();
  });
}

/** The grower's own copy of an example; `afresh`: another, as it was before anything was done to it. */
export async function look_into(example: string, afresh = false): Promise<void> {
  try {
    const { id } = await send("/api/gardens", {}, { example, afresh });
    open_garden(id);
  } catch (error) {
    load_error(error);
  }
}

/** Shows another scheme, alone or beside a second. */
export function show_scheme(name: string, beside: string | null = null): void {
  if (gone.peek()) {
    problem.value = { message: "That cannot be shown until Spadework answers again.", hint: "What is on the sheet stays as it is meanwhile." };
    return;
  }
  batch(() => {
    scheme.value = name;
    compared.value = beside === name ? null : beside;
  });
}

let shown_before: readonly Thing[] = [];

export const state_loading = load(
  state,
  () => {
    const id = garden.value;
    const shown = scheme.value;
    state_asked.value;
    if (id === null) return null;
    return async (signal) => {
      const all = state.peek();
      const known = all !== null && all.scheme === shown ? all : null;
      if (known !== null) await null; // its lines, which are quicker, are asked for first
      const query = { scheme: shown, since: known?.head.change };
      return state_now(known, await ask("/api/gardens/{garden}", { path: { garden: id }, query }, signal));
    };
  },
  {
    then: (now) => {
      head_known.value = now.head;
      const all = all_in(now);
      const is_there = (id: string) => all.some((one) => one.id === id);
      const shown = selected.peek();
      if (shown !== null) {
        // The garden may come before word of the new name: an older one of the same name is not meant.
        selected.value = followed(shown, shown_before, all) ?? (being_named.has(shown) ? null : other_name(shown, is_there));
        if (selected.peek() === null) lost = shown;
      }
      shown_before = all;
      const next = chosen_next.peek();
      if (next !== null && is_there(next)) {
        selected.value = next;
        chosen_next.value = null;
      }
    },
    refused: (no) => {
      // A scheme that is gone, or a garden that is gone.
      if (untracked(() => scheme.value) !== "found") show_scheme("found");
      else {
        open_garden(null);
        problem.value = { message: no.problem.message, hint: no.problem.hint };
      }
    },
  },
);

load(schema, () => (garden.value === null ? null : (signal) => ask("/api/schema", {}, signal)));
