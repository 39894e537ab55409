// Where a shadow really ends tells where north is: for the steps, and for a thing's own notes.
import { useState } from "preact/hooks";
import type { Thing } from "../../api";
import { clock_says, state } from "../../state";
import { begin_shadow, shows_shadow, end_shadow, moment_seen, shadow_looked, shadow_told } from "../../tools";
import { is_locked } from "../typed_fact";
import { plain_refusal } from "../place_figure";
import { to_sheet } from "./progress";

const clock_in = (text: string): number | null => {
  const told = /^(\d{1,2}):(\d{2})$/.exec(text);
  return told === null ? null : Number(told[1]) + Number(told[2]) / 60;
};
const two = (clock: number) => clock_says(clock).padStart(5, "0");

export function ShadowOf({ thing, word }: { thing: string; word: string }) {
  const looked = shadow_looked.value;
  const is_on = looked?.thing === thing;
  const told = shadow_told.value;
  return (
    <div class="shadow-of">
      <p class="deeds">
        <button type="button" class="word-button" aria-pressed={is_on} disabled={is_locked()} onClick={() => (is_on ? end_shadow() : void begin_shadow(thing).then(to_sheet))}>
          {is_on ? "Leave its shadow" : word}
        </button>
      </p>
      {is_on && looked !== null && (
        <label class="step-day">
          <span>By the clock</span>
          <input type="time" value={two(looked.clock)} onChange={(event) => {
            const clock = clock_in(event.currentTarget.value);
            if (clock !== null) void begin_shadow(thing, { day: looked.day, clock });
          }} />
        </label>
      )}
      {told !== null && told.thing === thing && !is_on && (
        <>
          <p class="small" role="status">{plain_refusal({ message: told.says, hint: told.hint }).message} {plain_refusal({ message: told.says, hint: told.hint }).hint}</p>
          {/Choose a moment/.test(told.hint) && (
            <label class="step-day"><span>By the clock</span><input type="time" onChange={(event) => {
              const clock = clock_in(event.currentTarget.value);
              if (clock !== null) void begin_shadow(thing, { day: moment_seen().day, clock }).then(to_sheet);
            }} /></label>
          )}
        </>
      )}
    </div>
  );
}

const upright = (): Thing[] => (state.value?.things ?? []).filter(shows_shadow);

/** In the step for north, once anything stands. */
export function ShadowSolves() {
  const [of, set_of] = useState<string | null>(null);
  const all = upright();
  if (all.length === 0) return null;
  const thing = all.find(({ id }) => id === of) ?? all.find(({ table }) => table === "tree") ?? all[0];
  if (thing === undefined) return null;
  return (
    <div class="step-part">
      <p class="small">Or look where a shadow ends now:</p>
      {all.length > 1 && (
        <label class="step-day"><span>The shadow of</span>
          <select value={thing.id} onChange={(event) => set_of(event.currentTarget.value)}>{all.map(({ id }) => <option key={id} value={id}>{id}</option>)}</select>
        </label>
      )}
      <ShadowOf key={thing.id} thing={thing.id} word={`The shadow of ${thing.id}`} />
    </div>
  );
}
