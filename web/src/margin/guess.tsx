// Figures that nobody has measured: marked as guesses, and measured one day.
import type { Thing } from "../api";
import { act } from "../state";
import { guessed_keys } from "./facts";
import { keep_fact } from "./keeping";
import { is_locked } from "./typed_fact";

export function set_guessed(thing: Thing, key: string, is: boolean): void {
  const rest = guessed_keys(thing).filter((one) => one !== key);
  const keys = is ? [...rest, key] : rest;
  void keep_fact(thing, { guessed: keys.length === 0 ? null : keys }).then((told) => told !== null && act.tell(told));
}

export function Guess({ thing, of }: { thing: Thing; of: string }) {
  return (
    <span class="fact-guess">
      A guess so far.
      <button type="button" class="word-button" disabled={is_locked()} onClick={() => set_guessed(thing, of, false)}>It is measured now</button>
    </span>
  );
}

/** Where a thing lies can be a guess too. */
export function PlaceGuess({ thing }: { thing: Thing }) {
  const key = ["at", "line", "outline", "row"].find((one) => thing.fields[one] !== undefined);
  if (key === undefined || is_locked()) return null;
  if (guessed_keys(thing).includes(key)) return <p class="place-guess">≈ <Guess thing={thing} of={key} /></p>;
  return <p class="deeds"><button type="button" class="word-button" onClick={() => set_guessed(thing, key, true)}>Where it lies is a guess</button></p>;
}
