// What one sheet shows: which scheme, which field of light, and what that field means.
import { computed, type ReadonlySignal } from "@preact/signals";
import type { Field, State, Thing } from "../api";
import { moved } from "../geometry";
import {
  compared, difference, field, field_of, offset_since, second_field, second_state, scheme, shows_difference, sides, state, trying,
  when, type When,
} from "../state";
import { moving } from "../tools";
import type { LightKind } from "./light_colours";

export interface Light {
  field: Field | null;
  kind: LightKind;
}

export interface Shown {
  scheme: ReadonlySignal<string>;
  state: ReadonlySignal<State | null>;
  things: ReadonlySignal<ReadonlyMap<string, Thing>>; // by their ids
  light: ReadonlySignal<Light>;
  is_active: ReadonlySignal<boolean>; // the one that is worked on
}

/** Side 0 stands left, or alone. */
export function shown_on(side: 0 | 1): Shown {
  const name = computed(() => sides.value?.[side] ?? scheme.value);
  const is_active = computed(() => compared.value === null || name.value === scheme.value);
  const light = computed<Light>(() => {
    const hours_kind: LightKind = field_of.value?.when.kind === "moment" ? "moment" : "hours";
    if (is_active.value && trying.value !== null) return { field: trying.value.field, kind: hours_kind };
    if (field_of.value !== null && field_of.value.scheme !== scheme.value) return { field: null, kind: hours_kind };
    if (side === 1 && shows_difference.value && difference.value !== null && hours_kind === "hours")
      return { field: difference.value, kind: "difference" };
    const of = is_active.value ? field.value : second_field.value;
    return { field: of, kind: hours_kind };
  });
  const of = computed(() => (is_active.value ? state.value : second_state.value));
  const things = computed(() => new Map((of.value?.things ?? []).map((thing) => [thing.id, thing])));
  return { scheme: name, state: of, things, light, is_active };
}

/** How far a thing stands from where the drawing of `change` has it: by moves that wait, and in the hand. */
export function offset_of(thing: string, change: number, is_active: boolean): [number, number] {
  const [x, y] = is_active ? offset_since(thing, change) : [0, 0];
  const hand = is_active && moving.value?.thing === thing ? moving.value.by_m : [0, 0];
  return [x + (hand[0] ?? 0), y + (hand[1] ?? 0)];
}

/** A thing where it stands on that sheet now. */
export function standing(shown: Shown, id: string | null): Thing | null {
  const of = shown.state.value;
  const thing = id === null ? undefined : shown.things.value.get(id);
  if (of === null || thing === undefined || thing.corners.length === 0) return null;
  return moved(thing, offset_of(thing.id, of.head.change, shown.is_active.value));
}

/** Which trees are in leaf on the sheet: a day of what is shown. */
export function day_of_year(now: When): number {
  if (now.kind === "months") {
    const month = now.months[Math.floor(now.months.length / 2)] ?? 6;
    return Math.round(month * 30.4 + 15);
  }
  const [month = 1, day = 1] = now.day.split("-").map(Number);
  return Math.min(365, Math.round((month - 1) * 30.4 + day));
}

export const leaf_day = computed(() => day_of_year(when.value));
