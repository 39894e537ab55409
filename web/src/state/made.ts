// Edits made here that the program's answers do not have yet: their figures and places are shown all
// the same, also after a restart of the window.
import { batch, computed, signal } from "@preact/signals";
import type { Edit, Thing } from "../api";
import { entry_of } from "./entries";
import type { Kept } from "./queue";

interface Made {
  garden: string;
  edit: Edit; // or a part of it
  of: Edit;
  change: number | null; // with which it was done; null: it waits
}

const waiting = signal<readonly Made[]>([]);
const done = signal<readonly Made[]>([]);

function made_of({ garden, edit }: Kept, change: number | null): Made[] {
  if (edit === undefined) return [];
  const parts = (edit.all as Partial<Edit>[] | undefined) ?? [edit];
  return parts.map((part) => ({ garden, edit: { scheme: edit.scheme, ...part }, of: edit, change }));
}

/** What waits, in its order: an undo that waits takes the edit before it away again. */
export function note_waiting(kept: readonly Kept[]): void {
  const edits: Kept[] = [];
  for (const one of kept) {
    if (one.edit !== undefined) edits.push(one);
    else if (one.step?.step === "undo") {
      const last = edits.map((edit) => edit.garden).lastIndexOf(one.garden);
      if (last >= 0) edits.splice(last, 1);
    }
  }
  waiting.value = edits.flatMap((one) => made_of(one, null));
}

export function note_done(kept: Kept, change: number): void {
  batch(() => {
    done.value = [...done.peek(), ...made_of(kept, change)];
    waiting.value = waiting.peek().filter((one) => one.of !== kept.edit);
  });
}

export function forget_done(): void {
  done.value = [];
}

/** Asked for every thing at once: found once for as long as nothing is made. */
const later = { of: [done.peek(), waiting.peek()], found: new Map<string, readonly Edit[]>() };

/** Which of a garden's scheme, as it was with a change, are not in it. */
function since(garden: string | null, scheme: string, change: number): readonly Edit[] {
  if (later.of[0] !== done.value || later.of[1] !== waiting.value) {
    later.of = [done.value, waiting.value];
    later.found.clear();
  }
  const key = `${garden} ${scheme} ${change}`;
  const known = later.found.get(key);
  if (known !== undefined) return known;
  const is_later = (made: Made) => made.change === null || made.change > change;
  const found = later.of.flatMap((made) => made.filter((one) => one.garden === garden && one.edit.scheme === scheme && is_later(one)).map((one) => one.edit));
  later.found.set(key, found);
  return found;
}

/** What was added since. */
export const added_since = (garden: string | null, scheme: string, change: number): Edit[] =>
  since(garden, scheme, change).filter((edit) => edit.add !== undefined);

let moves_known: readonly Made[] = [];
/** The moves alone: the same list while none comes or is done, so that what stands is not looked at for every figure
that is typed. */
const moves = computed((): readonly Made[] => {
  const now = [...done.value, ...waiting.value].filter(({ edit }) => edit.thing !== undefined && edit.move_m !== undefined);
  const is_same = now.length === moves_known.length && now.every((one, i) => {
    const was = moves_known[i];
    return was !== undefined && was.of === one.of && was.change === one.change && was.garden === one.garden && was.edit.thing === one.edit.thing && was.edit.move_m === one.edit.move_m;
  });
  if (!is_same) moves_known = now;
  return moves_known;
});

function moves_since(garden: string | null, scheme: string, change: number): readonly Made[] {
  return moves.value.filter((made) => made.garden === garden && made.edit.scheme === scheme && (made.change === null || made.change > change));
}

/** How far a thing stands from where it stood with a change. */
export function moved_since(garden: string | null, scheme: string, thing: string, change: number): [number, number] {
  let [x, y] = [0, 0];
  for (const { edit } of moves_since(garden, scheme, change)) {
    if (edit.thing !== thing) continue;
    x += edit.move_m?.[0] ?? 0;
    y += edit.move_m?.[1] ?? 0;
  }
  return [x, y];
}

/** The things that were moved since. */
export const moved_things_since = (garden: string | null, scheme: string, change: number): string[] =>
  moves_since(garden, scheme, change).flatMap(({ edit: { thing } }) => (thing === undefined ? [] : [thing]));

/** The name that a thing is to have, as it was typed; null: the one that it has. */
export const name_since = (garden: string | null, scheme: string, thing: string, change: number): string | null =>
  since(garden, scheme, change).filter((edit) => edit.thing === thing).reduce<string | null>((name, { rename }) => rename ?? name, null);

/** These go with the corners, which come with the program's answer. */
const of_place = new Set(["at", "line", "outline", "row", "turn_deg"]);

function with_set(thing: Thing, set: Record<string, unknown>): Thing {
  const fields = { ...thing.fields };
  for (const [key, value] of Object.entries(set)) {
    if (of_place.has(key)) continue;
    if (value === null) delete fields[key];
    else fields[key] = { ...fields[key], value, parts: value, typed: typeof value === "string" ? value : JSON.stringify(value) };
  }
  return { ...thing, fields };
}

/** Of which thing, or which entry without a place; those are the same in every scheme. */
const whose = (edit: Edit): string | undefined => edit.thing ?? entry_of(edit) ?? undefined;

function set_since(garden: string | null, scheme: string, change: number): Edit[] {
  return since(garden, scheme, change).filter((edit) => edit.set !== undefined && whose(edit) !== undefined);
}

/** The keys of an entry that were typed since. */
export function touched_since(garden: string | null, scheme: string, id: string, change: number): Set<string> {
  return new Set(set_since(garden, scheme, change).flatMap((edit) => (whose(edit) === id ? Object.keys(edit.set ?? {}) : [])));
}

/** The things as they are with what was typed since. */
export function with_typed(garden: string | null, scheme: string, things: readonly Thing[], change: number): Thing[] {
  const edits = set_since(garden, scheme, change);
  if (edits.length === 0) return [...things];
  return things.map((thing) => edits.reduce((now, edit) => (whose(edit) === now.id ? with_set(now, edit.set ?? {}) : now), thing));
}
