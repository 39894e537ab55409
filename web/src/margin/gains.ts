// What beds win and lose: by a thing moved, thought away or changed; and from scheme to scheme.
import type { Place } from "../api";
import { difference_told } from "../sheet/light_colours";

export interface Gained {
  id: string;
  from: number;
  to: number;
  by: number;
  from_guessed?: boolean; // it rests on guesses
  to_guessed?: boolean;
}

const least_h = 0.05;

function most_first(a: Gained, b: Gained): number {
  return b.by - a.by || b.to - b.from - (a.to - a.from);
}

type Hours = Readonly<Record<string, number | null>>;

/** Of two fields' means in the beds, those that differ to be told, by how much they differ. */
export function gains_between(from: Hours, to: Hours): Gained[] {
  const gains: Gained[] = [];
  for (const [id, after] of Object.entries(to)) {
    const before = from[id];
    if (before === undefined || before === null || after === null || Math.abs(after - before) < least_h) continue;
    gains.push({ id, from: before, to: after, by: after - before });
  }
  return gains.sort((a, b) => Math.abs(b.by) - Math.abs(a.by));
}

/** The gains that are to be seen in the figures as they are written, and as large as they are there. */
export function as_written(gains: readonly Gained[]): Gained[] {
  return gains.map((one) => ({ ...one, by: difference_told(one.from, one.to) })).filter(({ by }) => by !== 0);
}

/** What is looked at before the others. */
export function chosen_first(gains: readonly Gained[], chosen: string | null): Gained[] {
  return [...gains.filter(({ id }) => id === chosen), ...gains.filter(({ id }) => id !== chosen)];
}

/** The same gains on the places' own figures, as notes and tables have them: a field's cells on the
edge of a bed are shown whole and are not whole in it. `end`: which end the places' figures are. */
export function on_places(gains: readonly Gained[], places: readonly Place[], end: "from" | "to"): Gained[] {
  return gains.map((gained) => {
    const place = places.find((one) => one.id === gained.id);
    const hours = place?.shown_h;
    if (hours === undefined || hours === null) return gained;
    const guessed = place?.on_guesses ?? false;
    const told = { ...gained, from_guessed: guessed, to_guessed: guessed };
    return end === "from" ? { ...told, from: hours, to: hours + gained.by } : { ...told, from: hours - gained.by, to: hours };
  });
}

export const is_in_both = (place: Place): boolean =>
  place.shown_h !== null && place.against_shown_h !== undefined && place.against_shown_h !== null;

/** Of places with their hours in a second scheme; `turned`: the second comes after. */
export function gains_of_places(places: readonly Place[], turned: boolean): Gained[] {
  return places
    .filter(is_in_both)
    .map((place) => {
      const [here, there] = [place.shown_h as number, place.against_shown_h as number];
      const [from, to] = turned ? [here, there] : [there, here];
      const guessed: [boolean, boolean] = [place.on_guesses, place.against_on_guesses ?? false];
      const [from_guessed, to_guessed] = turned ? guessed : [guessed[1], guessed[0]];
      return { id: place.id, from, to, by: difference_told(from, to), from_guessed, to_guessed };
    })
    .sort(most_first);
}
