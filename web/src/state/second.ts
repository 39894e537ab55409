// The second scheme, side by side with the first.
import { computed, signal } from "@preact/signals";
import { ask, ask_bytes, type Field, type State, unpack_field } from "../api";
import { compared, scheme } from "./garden";
import { type Asked, asked_of, time_asked } from "./light";
import { load } from "./load";
import { type When, when } from "./when";

/** What is found stands left of what is proposed, whichever is being worked on. */
export const sides = computed<[string, string] | null>(() => {
  if (compared.value === null) return null;
  const found_first = (one: string) => (one === "found" ? 0 : one === "proposed" ? 1 : 2);
  const pair: [string, string] = [compared.value, scheme.value];
  return found_first(pair[0]) <= found_first(pair[1]) ? pair : [pair[1], pair[0]];
});

/** Answers with the scheme they are of: what is of another is not shown under this one's name. */
interface Of<T> {
  scheme: string;
  is: T;
}
const of_second = <T>(answer: Of<T> | null): T | null => (answer?.scheme === compared.value ? answer.is : null);

const state_answer = signal<Of<State> | null>(null);
const field_answer = signal<Of<Field> | null>(null);
const difference_answer = signal<Of<Field> | null>(null);
export const second_state = computed(() => of_second(state_answer.value));
export const second_field = computed(() => of_second(field_answer.value));

/** The right sheet shows what it gains and loses against the left one. */
export const shows_difference = signal(true);
const pair_says = (pair: readonly [string, string] | null) => pair?.join(" ") ?? "";
export const difference = computed(() => {
  const answer = difference_answer.value;
  return answer?.scheme === pair_says(sides.value) ? answer.is : null;
});

load(state_answer, () => {
  const asked = asked_of();
  const second = compared.value;
  if (asked === null || second === null) return null;
  return async (signal) => ({
    scheme: second,
    is: await ask("/api/gardens/{garden}", { ...asked, query: { scheme: second } }, signal),
  });
});

/** A field of the second scheme, or of a scheme against the other. */
const ask_field = async (garden: Asked, query: { scheme: string; against?: string }, now: When, signal: AbortSignal, job: string) =>
  unpack_field(await ask_bytes("/api/gardens/{garden}/field", { ...garden, query: { ...query, ...time_asked(now), job } }, signal));

const field_loading = load(
  field_answer,
  () => {
    const asked = asked_of();
    const second = compared.value;
    const now = when.value;
    if (asked === null || second === null) return null;
    return async (signal, job) => ({ scheme: second, is: await ask_field(asked, { scheme: second }, now, signal, job) });
  },
  { long: true },
);

const difference_loading = load(
  difference_answer,
  () => {
    const asked = asked_of();
    const pair = sides.value;
    const now = when.value;
    if (asked === null || pair === null || !shows_difference.value) return null;
    return async (signal, job) => ({
      scheme: pair_says(pair),
      is: await ask_field(asked, { scheme: pair[1], against: pair[0] }, now, signal, job),
    });
  },
  { long: true },
);

export const second_busy = computed(() => field_loading.busy.value || difference_loading.busy.value);
