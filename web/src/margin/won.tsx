// A strip at the foot of the margin: what the beds win and lose by what is done or tried.
import { effect, signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Field } from "../api";
import { gain_says, hours_says } from "../geometry";
import { field, field_of, places_loading, places_shown, saying, selected, things, trying, without } from "../state";
import { shaping } from "../tools";
import { asks_to_keep, KeepOrPutBack } from "./deeds";
import { share_says } from "./format";
import { as_written, chosen_first, type Gained, gains_between, on_places } from "./gains";
import { fact_tried_says } from "./trial_of_fact";

interface Since {
  field: Field;
  change: number;
  of: string; // what was selected and shown: another selection begins anew
}
const since = signal<Since | null>(null);

/** The light as it was when the thing was selected: what has come of it since is told. */
effect(() => {
  const [now, shown, chosen] = [field.value, field_of.value, selected.value];
  if (now === null || shown === null || chosen === null) {
    since.value = null;
    return;
  }
  const of = `${chosen} ${shown.scheme} ${JSON.stringify(shown.when)}`;
  if (since.peek()?.of !== of) since.value = { field: now, change: shown.change, of };
});

interface Won {
  says: string;
  gains: Gained[];
  of: "hours" | "shares"; // of a moment: how much of a bed is in the sun
}

/** The figures are the places' own, as the chips and tables have them. */
function as_told(gains: Gained[], end: "from" | "to"): Gained[] {
  return as_written(on_places(gains, places_shown.value?.places ?? [], end));
}

function trial_says(trial: { thing: string; field: Field }): string {
  if (without.value === trial.thing) return `Without ${trial.thing}`;
  const shaped = shaping.value?.thing === trial.thing ? (shaping.value.how === "turn" ? "turned" : "shaped so") : "moved";
  return fact_tried_says(trial.field) || `With ${trial.thing} ${shaped}`;
}

function won_now(): Won | null {
  const trial = trying.value;
  const now = field.value;
  if (now === null) return null;
  const of = field_of.value?.when.kind === "moment" ? "shares" : "hours";
  const told = (gains: Gained[], end: "from" | "to") => (of === "hours" ? as_told(gains, end) : gains);
  if (trial !== null) {
    return { says: trial_says(trial), gains: told(gains_between(now.head.beds, trial.field.head.beds), "from"), of };
  }
  const before = since.value;
  if (before === null || before.change === field_of.value?.change || before.field === now) return null;
  const gains = told(gains_between(before.field.head.beds, now.head.beds), "to");
  return gains.length === 0 ? null : { says: `Since you chose ${selected.value}`, gains, of };
}

const nothing_won = { hours: "no bed wins or loses a tenth of an hour.", shares: "no bed has more or less of it in the sun." };

const told_size = (by: number, on_guesses = false) => hours_says(Math.abs(by), on_guesses).replace("≈", "about");

function told({ says, gains, of }: Won): string {
  const most = gains[0];
  if (most === undefined) return `${says}: ${nothing_won[of]}`;
  if (of === "shares")
    return `${says}, in the sun then: ${gains.slice(0, 3).map(({ id, from, to }) => `${share_says(to)} of ${id}, not ${share_says(from)}`).join("; ")}.`;
  return `${says}: ${gains.slice(0, 3).map(({ id, by, to_guessed }) => `${id} ${by > 0 ? "wins" : "loses"} ${told_size(by, to_guessed)} hours a day`).join(", ")}.`;
}

const most_shown = 4;

function Gains({ won }: { won: Won }) {
  const { says, gains, of } = won;
  const is_old = places_loading.busy.value && trying.value === null; // the places' figures are those before
  return (
    <>
      <div class="won-head">
        <p class="won-says">{gains.length === 0 ? `${says}: ${nothing_won[of]}` : `${says}, ${of === "hours" ? "hours a day" : "how much is in the sun then"}`}</p>
        {without.value !== null && (
          <button type="button" class="word-button" onClick={() => (without.value = null)}>With {without.value} again</button>
        )}
      </div>
      <table>
        <tbody>
          {chosen_first(gains, selected.value).slice(0, most_shown).map(({ id, from, to, by, to_guessed }) => (
            <tr key={id} class={id === selected.value ? "is-chosen" : undefined}>
              <th scope="row">{id}</th>
              <td class="number won-by">{of === "hours" ? gain_says(by, to_guessed) : share_says(to)}</td>
              <td class="number">
                {of === "shares" ? `was ${share_says(from)}` : is_old ? "…" : `${trying.value === null ? "now" : "to"} ${hours_says(to, to_guessed)}`}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {gains.length > most_shown && <p class="won-more">and {gains.length - most_shown} more by less</p>}
    </>
  );
}

export function WonStrip() {
  const won = won_now();
  const words = won === null ? "" : told(won);
  const is_final = without.value !== null || trying.value === null; // else it is still in the hand
  const chosen = selected.value === null ? undefined : things.value.get(selected.value);
  const asks = chosen !== undefined && without.value === null && asks_to_keep(chosen);
  useEffect(() => {
    if (words !== "" && is_final) saying.value = words;
  }, [words]);
  if (won === null && !asks) return null;
  return (
    <div class="won">
      {won !== null && <Gains won={won} />}
      {asks && <KeepOrPutBack thing={chosen} />}
    </div>
  );
}
