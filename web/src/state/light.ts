// The light of the scheme shown, and what is asked about it. Every figure comes from the program.
import { batch, computed, effect, signal } from "@preact/signals";
import {
  ask, ask_bytes, type Band, type Field, type Finding, type Ink, type Place, type Places, type Print, type Takers,
  type Trace, unpack_field, unpack_print,
} from "../api";
import { compared, garden, head, scheme, selected, state } from "./garden";
import { load } from "./load";
import { months_asked, when, type When } from "./when";

export { dark, outdoors } from "./looks";

export const field = signal<Field | null>(null);
export const places = signal<Places | null>(null);
export const takers = signal<Takers | null>(null); // of the selected place
export const inks = signal(new Map<string, Ink>());
export const print = signal<Print | null>(null); // of the selected place
export const band = signal<Band | null>(null);
export const findings = signal<Finding[] | null>(null);
export const trying = signal<{ thing: string; field: Field } | null>(null);
export const without = signal<string | null>(null); // tried without this thing
export const why = signal<{ pointer: string; trace: Trace } | null>(null);

/** With these the drawing of a field was asked: what it shows. */
export const field_of = signal<{ when: When; scheme: string; change: number } | null>(null);

/** The garden's change that is known: lines and light are asked of it together. */
const known_change = computed(() => state.value?.head.change ?? null);

export interface Asked {
  path: { garden: string };
  query: { scheme: string };
}

/** The change of the lines that are on the sheet; null: there is no sheet. */
export const lines_of = signal<number | null>(null);
/** The garden is another, its light not asked for yet. */
export const light_waits = signal(false);

/** Counted up when the garden becomes another than it was known, and the page has its things and lines: what is
quick goes before what is long, and light of a garden that is no more is not worked out any further. */
const changes_seen = signal(0);
let last_known: number | null = null;
effect(() => {
  const of_state = known_change.value;
  const now = of_state === null ? null : Math.max(of_state, head.value?.change ?? 0);
  const is_other = now !== null && last_known !== null && now !== last_known;
  const waits = is_other && lines_of.value !== null && (lines_of.value < now || (of_state ?? 0) < now);
  batch(() => {
    if (is_other && !waits) changes_seen.value = changes_seen.peek() + 1;
    if (!waits) last_known = now;
    light_waits.value = waits;
  });
});

/** Of the garden, before anything is known of it. */
function asked_at_once(): Asked | null {
  changes_seen.value;
  if (garden.value === null) return null;
  return { path: { garden: garden.value }, query: { scheme: scheme.value } };
}

const is_known = computed(() => known_change.value !== null);
/** What every question of light carries; null: not yet. */
export function asked_of(): Asked | null {
  return !is_known.value ? null : asked_at_once();
}

const lit_change = computed(() => field_of.value?.change ?? null);

/** Questions that take longer wait for the sheet's own light. */
function asked_late(): Asked | null {
  return lit_change.value === null ? null : asked_of();
}

effect(() => {
  garden.value;
  field_of.value = null;
});

export function time_asked(now: When): { months?: string | undefined; day?: string; clock?: number } {
  if (now.kind === "months") return { months: months_asked(now) };
  if (now.kind === "day") return { day: now.day };
  return { day: now.day, clock: now.clock };
}

export function place_of(thing: string | null): Place | null {
  return places.value?.places.find((place) => place.id === thing) ?? null;
}

/** The selected thing, when it is a place. */
const place_selected = computed(() => place_of(selected.value)?.id ?? null);

export const field_loading = load(
  field,
  () => {
    const asked = asked_at_once();
    const now = when.value;
    if (asked === null) return null;
    return async (signal, job) => {
      const query = { ...asked.query, ...time_asked(now), job };
      const bytes = (more: { quick?: "true" }) =>
        ask_bytes("/api/gardens/{garden}/field", { ...asked, query: { ...query, ...more } }, signal);
      if (field_of.peek() === null && now.kind === "months") {
        const quick = unpack_field(await bytes({ quick: "true" }));
        if (!signal.aborted) field.value = quick;
      }
      return unpack_field(await bytes({}));
    };
  },
  {
    long: true,
    held: light_waits,
    then: () => {
      field_of.value = { when: when.peek(), scheme: scheme.peek(), change: known_change.peek() ?? 0 };
      if (without.peek() === null) trying.value = null;
    },
  },
);

/** A moment is answered by the sheet alone: the places' figures are of months, or of a day. */
const places_asked = computed(() => {
  const now = when.value;
  return JSON.stringify({
    months: now.kind === "months" ? months_asked(now) : undefined,
    day: now.kind === "day" ? now.day : undefined,
  });
});

export const places_loading = load(
  places,
  () => {
    const asked = asked_late();
    const against = compared.value ?? undefined;
    const time = JSON.parse(places_asked.value) as { months?: string; day?: string };
    if (asked === null) return null;
    return (signal, job) =>
      ask("/api/gardens/{garden}/places", { ...asked, query: { ...asked.query, ...time, against, job } }, signal);
  },
  { long: true, rests: true, held: light_waits },
);

/** The places' figures, when they are of what the sheet shows: else they are on their way. */
export const places_shown = computed<Places | null>(() => {
  const [known, shown] = [places.value, field_of.value];
  if (known === null || shown === null || known.scheme !== scheme.value || known.against !== (compared.value ?? "")) return null;
  if (shown.when.kind === "day") return known.day === shown.when.day ? known : null;
  if (shown.when.kind === "moment") return known.day === "" ? known : null;
  return known.day === "" && known.months.join() === shown.when.months.join() ? known : null;
});

/** The field's figures in the beds of the same change as the places': what the field has come to
since, they have come to as well until their own are here. */
export const field_of_places = signal<Field["head"]["beds"]>({});
effect(() => {
  const [known, shown, now] = [places_shown.value, field_of.value, field.value];
  if (known === null || shown === null || known.change > shown.change) field_of_places.value = {};
  else if (known.change === shown.change) field_of_places.value = now?.head.beds ?? {};
});

/** Of all places: what the takers of one wait for, so it is asked before them. */
const inks_answer = signal<Map<string, Ink> | null>(null);
load(
  inks_answer,
  () => {
    const asked = asked_late();
    if (asked === null) return null;
    return async (signal, job) => {
      const answer = await ask("/api/gardens/{garden}/inks", { ...asked, query: { ...asked.query, job } }, signal);
      return new Map(answer.takers.map((ink) => [ink.id, ink]));
    };
  },
  { long: true, rests: true, held: light_waits },
);
effect(() => {
  inks.value = inks_answer.value ?? new Map<string, Ink>();
});

/** A place just taken away is asked for once more before that is known: nothing to be told. */
const of_place = { refused: () => {}, held: light_waits };

export const takers_loading = load(takers, () => {
  const asked = asked_late();
  const place = place_selected.value;
  if (asked === null || place === null) return null;
  return (signal) =>
    ask("/api/gardens/{garden}/takers", { ...asked, query: { ...asked.query, place } }, signal);
}, of_place);

const most_told = 8;
/** Those that take most from the selected place: told in the notes, with their discs on the sheet and
in the print. */
export const told_takers = computed<readonly string[]>(() =>
  (takers.value?.takers ?? []).filter((taker) => taker.sun_h_per_year >= 0.5).slice(0, most_told).map(({ id }) => id),
);

export const print_loading = load(print, () => {
  const asked = asked_late();
  const place = place_selected.value;
  if (asked === null || place === null) return null;
  return async (signal) => {
    const query = { ...asked.query, place };
    return unpack_print(await ask_bytes("/api/gardens/{garden}/print", { ...asked, query }, signal));
  };
}, of_place);

export const band_loading = load(band, () => {
  const asked = asked_of();
  if (asked === null) return null;
  return (signal) => ask("/api/gardens/{garden}/band", asked, signal);
}, { rests: true, held: light_waits });

export const findings_loading = load(findings, () => {
  const asked = asked_late();
  if (asked === null) return null;
  return async (signal) => (await ask("/api/gardens/{garden}/findings", asked, signal)).findings;
}, { rests: true, held: light_waits });

const why_asked = signal<string | null>(null);
load(why, () => {
  const asked = asked_late();
  const pointer = why_asked.value;
  if (asked === null || pointer === null) return null;
  return async (signal) => {
    const query = { ...asked.query, pointer };
    return { pointer, trace: await ask("/api/gardens/{garden}/why", { ...asked, query }, signal) };
  };
});

/** Asks where a figure comes from, such as `/light/places/ID/sun_h_per_day`; null: enough. */
export function ask_why(pointer: string | null): void {
  batch(() => {
    why_asked.value = pointer;
    if (pointer === null || why.peek()?.pointer !== pointer) why.value = null;
  });
}

effect(() => {
  // What was asked of one garden or thing is not asked of the next.
  garden.value;
  selected.value;
  batch(() => {
    ask_why(null);
    without.value = null;
  });
});
