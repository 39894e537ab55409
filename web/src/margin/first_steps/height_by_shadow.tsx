// A height from a shadow and the clock: its length in the plan, when, and how sure that is.
import { useEffect, useState } from "preact/hooks";
import type { Measured, Thing } from "../../api";
import { length_says } from "../../geometry";
import { act, clock_says, measure, type NotMeasured, saying } from "../../state";
import { moment_seen } from "../../tools";
import { guessed_keys } from "../facts";
import { is_imperial, is_locked } from "../typed_fact";
import { plain_refusal } from "../place_figure";
import { Figure, wrong_length } from "./figure";
import { today } from "./north_step";

export const height_key = (thing: Thing): string => (thing.table === "building" ? "eaves_m" : "height_m");

/** As fine as it is sure: to the 5 cm, or to the inch. */
function rounded(metres: number): number | string {
  return is_imperial() ? length_says(metres, true) : Number((Math.round(metres * 20) / 20).toFixed(2));
}

export function HeightByShadow({ thing, done }: { thing: Thing; done: () => void }) {
  const seen = moment_seen();
  const [along, set_along] = useState("");
  const [day, set_day] = useState(today);
  const [clock, set_clock] = useState(clock_says(seen.clock).padStart(5, "0"));
  const [told, set_told] = useState<{ is: Measured | null; not: NotMeasured | null } | null>(null);
  const is_ready = along.trim() !== "" && wrong_length(along) === null;
  useEffect(() => {
    set_told(null);
    if (!is_ready) return undefined;
    const abort = new AbortController();
    const [h = 12, m = 0] = clock.split(":").map(Number);
    const rest = setTimeout(() => void measure({ what: "height", along: along.trim(), day, clock: h + m / 60 }, abort.signal).then((now) => !abort.signal.aborted && set_told(now)), 150);
    return () => {
      clearTimeout(rest);
      abort.abort();
    };
  }, [along, day, clock]);
  async function keep(): Promise<void> {
    const height = told?.is?.height_m;
    if (height === undefined || is_locked()) return;
    const key = height_key(thing);
    const rest = guessed_keys(thing).filter((one) => one !== key);
    // What stands there is measured as found: that is no change of the proposal.
    const part = { scheme: "found", thing: thing.id, set: { [key]: rounded(height), guessed: rest.length === 0 ? null : rest } };
    const { told: no } = await act.all([part], `${thing.id}: height from its shadow`);
    if (no !== null) return set_told({ is: null, not: { where: "", ...no } });
    saying.value = `${thing.id}: ${told?.is?.says ?? ""}`;
    done();
  }
  return (
    <div class="step-part">
      <p class="small">Upright things on level ground: tape from below its top to the shadow’s end.</p>
      <ul class="facts">
        <Figure label="Its shadow is" first is={along} wrong={wrong_length(along) ?? (told?.not?.where.startsWith("/along") ? told.not : null)} take={set_along} />
      </ul>
      <label class="step-day"><span>On</span><input type="date" value={day} onInput={(event) => event.currentTarget.value !== "" && set_day(event.currentTarget.value)} /></label>
      <label class="step-day"><span>By the clock</span><input type="time" value={clock} onInput={(event) => event.currentTarget.value !== "" && set_clock(event.currentTarget.value)} /></label>
      <div class="step-told" aria-live="polite">
        {told?.is != null && <p>{told.is.says}</p>}
        {told?.is?.remedies[0] !== undefined && <p class="small">{told.is.remedies[0].says}</p>}
        {told?.not != null && !told.not.where.startsWith("/along") && <p><strong>{plain_refusal(told.not).message}</strong> {plain_refusal(told.not).hint}</p>}
      </div>
      <p class="deeds">
        <button type="button" class="word-button strong" disabled={told?.is == null || is_locked()} onClick={() => void keep()}>Take this height</button>
        <button type="button" class="word-button" onClick={done}>Leave it</button>
      </p>
    </div>
  );
}

/** A word in a thing's own notes. */
export function HeightWord({ thing }: { thing: Thing }) {
  const [is_open, set_open] = useState(false);
  if (thing.fields[height_key(thing)] === undefined) return null;
  return (
    <>
      <p class="deeds">
        <button type="button" class="word-button" aria-expanded={is_open} disabled={is_locked()} onClick={() => set_open(!is_open)}>Its height from its shadow</button>
      </p>
      {is_open && <HeightByShadow thing={thing} done={() => set_open(false)} />}
    </>
  );
}
