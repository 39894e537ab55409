// What can be done with a thing: thought away, kept, put back, taken away.
import { useState } from "preact/hooks";
import type { Taker, Thing } from "../api";
import { act, forget_kept, is_change_kept, keep_change, link, schema, scheme, selected, takers, things, trying, without } from "../state";
import { altered_says } from "./facts";
import { Phase } from "./phase";
import { type Refusal, RefusalLine } from "./place_figure";

const lightless = new Set(["path", "area", "patch", "service", "point", "gate", "view", "hide", "watch", "picture"]);

function WithoutWord({ thing, words }: { thing: string; words: string }) {
  const is_away = without.value === thing;
  return (
    <button type="button" class="word-button" aria-pressed={is_away} onClick={() => (without.value = is_away ? null : thing)}>
      {is_away ? `With ${thing} again` : words}
      {is_away && trying.value === null && " …"}
    </button>
  );
}

/** Nobody thinks his house away, nor what is another's to keep. */
const stays = (thing: Thing | undefined) => thing === undefined || thing.table === "building" || thing.fields["mine"]?.value === false;

/** The one that takes most in the growing months, of those that can be thought away. */
function first_taker(place: string): string | null {
  const of = takers.value;
  if (of === null || of.place !== place) return null;
  const hours = (taker: Taker) => taker.growing_h ?? 0;
  const [first] = of.takers.filter((taker) => taker.id !== place && !stays(things.value.get(taker.id))).sort((a, b) => hours(b) - hours(a));
  return first !== undefined && hours(first) >= 10 ? first.id : null;
}

function PutBack({ thing }: { thing: Thing }) {
  return (
    <button
      type="button"
      class="word-button"
      disabled={link.value === "read_only"}
      onClick={() => {
        forget_kept(scheme.peek(), thing.id);
        void act.put_back(thing.id);
      }}
    >
      Put back
    </button>
  );
}

const is_changed = (thing: Thing) => thing.mark === "changed" && scheme.value !== "found";
/** Changed, and not yet said whether it stays. */
export const asks_to_keep = (thing: Thing): boolean => is_changed(thing) && !is_change_kept(scheme.value, thing.id);

/** Stands in the strip at the foot, so that nothing moves while a figure is stepped. */
export function KeepOrPutBack({ thing }: { thing: Thing }) {
  const table = schema.value?.tables.find(({ name }) => name === thing.table);
  const altered = altered_says(thing, table);
  return (
    <p class="changed">
      <span>{altered === "" ? "Changed from as found." : `As found: ${altered}.`}</span>
      <button type="button" class="word-button" onClick={() => keep_change(scheme.peek(), thing.id)}>Keep</button>
      <PutBack thing={thing} />
    </p>
  );
}

export function Goes({ thing }: { thing: Thing }) {
  if (thing.mark !== "removed") return null;
  return (
    <>
      <p class="changed"><span>It goes, in this proposal.</span><PutBack thing={thing} /></p>
      <Phase thing={thing} />
    </>
  );
}

export function Deeds({ thing }: { thing: Thing }) {
  if (thing.mark === "removed") return null;
  const taker = first_taker(thing.id);
  return (
    <p class="deeds">
      {taker !== null && <WithoutWord thing={taker} words={`Try without ${taker}`} />}
      {taker === null && !lightless.has(thing.table) && <WithoutWord thing={thing.id} words="Try without it" />}
      {is_changed(thing) && !asks_to_keep(thing) && <PutBack thing={thing} />}
    </p>
  );
}

/** `is_gone`: nothing is left of it to be chosen. */
export function TakeAwayWord({ id, words, is_gone }: { id: string; words: string; is_gone: () => boolean }) {
  const [told, set_told] = useState<Refusal | null>(null);
  async function take(): Promise<void> {
    set_told(null);
    const was = is_gone();
    if (was && link.peek() !== "here") selected.value = null; // it waits, and is told when somebody answers
    const no = await act.take_away(id);
    if (no !== null && selected.peek() === id) set_told(no);
    else if (no !== null) act.tell(no);
    else if (was && selected.peek() === id) selected.value = null;
  }
  return (
    <div class="part">
      <button type="button" class="word-button" disabled={link.value === "read_only"} onClick={() => void take()}>{words}</button>
      {told !== null && <RefusalLine told={told} />}
    </div>
  );
}

/** Stands last, apart from what only tries. */
export function TakeAway({ thing }: { thing: Thing }) {
  if (thing.mark === "removed") return null;
  if (thing.fields["mine"]?.value === false) return <p class="part small">It is not yours to change, so it stays.</p>;
  if (thing.fields["locked"]?.value === true) return null;
  return <TakeAwayWord id={thing.id} words={`Take ${thing.id} away`} is_gone={() => thing.mark === "proposed" || scheme.peek() === "found"} />;
}
