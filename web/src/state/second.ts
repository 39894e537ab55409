// The second scheme, side by side with the first.
import { computed, signal } from "@preact/signals";
import { ask, ask_bytes, type Field, type State, unpack_field } from "../api";
import { compared, scheme } from "./garden";
import { asked_of, time_asked } from "./light";
import { load } from "./load";
import { when } from "./when";

/** What is found stands left of what is proposed, whichever is being worked on. */
export const sides = computed<[string, string] | null>(() => {
  if (compared.value === null) return null;
  const found_first = (one: string) => (one === "found" ? 0 : one === "proposed" ? 1 : 2);
  const pair: [string, string] = [compared.value, scheme.value];
  return found_first(pair[0]) <= found_first(pair[1]) ? pair : [pair[1], pair[0]];
});

export const second_state = signal<State | null>(null);
export const second_field = signal<Field | null>(null);

/** The right sheet shows what it gains and loses against the left one. */
export const shows_difference = signal(true);
export const difference = signal<Field | null>(null);

load(second_state, () => {
  const asked = asked_of();
  const second = compared.value;
  if (asked === null || second === null) return null;
  return (signal) => ask("/api/gardens/{garden}", { ...asked, query: { scheme: second } }, signal);
});

load(second_field, () => {
  const asked = asked_of();
  const second = compared.value;
  const now = when.value;
  if (asked === null || second === null) return null;
  return async (signal) => {
    const query = { scheme: second, ...time_asked(now) };
    return unpack_field(await ask_bytes("/api/gardens/{garden}/field", { ...asked, query }, signal));
  };
});

load(difference, () => {
  const asked = asked_of();
  const pair = sides.value;
  const now = when.value;
  if (asked === null || pair === null || !shows_difference.value) return null;
  return async (signal) => {
    const query = { scheme: pair[1], against: pair[0], ...time_asked(now) };
    return unpack_field(await ask_bytes("/api/gardens/{garden}/field", { ...asked, query }, signal));
  };
});
