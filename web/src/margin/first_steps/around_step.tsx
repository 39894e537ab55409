// What stands around and takes light: drawn as found, each with its height, and the far skyline.
import { useEffect, useRef, useState } from "preact/hooks";
import type { Thing } from "../../api";
import { begun, leave_step, saying, scheme, show_scheme, state } from "../../state";
import { begin_drawing, key_of, kind_groups, select } from "../../tools";
import { entries_of } from "../entries";
import { guessed_keys } from "../facts";
import { is_imperial, is_locked, Typed } from "../typed_fact";
import { height_key, HeightByShadow } from "./height_by_shadow";
import { opened, to_sheet } from "./progress";
import { Skyline } from "./skyline";

const words = ["Wall", "Hedge", "Fence", "Tree", "Building"] as const;

/** The step goes on with the next one. */
function draw(word: string): void {
  const kind = kind_groups.flatMap(([, kinds]) => kinds).find(({ says }) => says === word);
  if (kind === undefined) return;
  opened.value = "around"; // it stays open until all of it stands
  begin_drawing(kind, {
    then: (id) => {
      saying.value = `${id} is drawn. Its height is a guess: type it, or take it from its shadow.`;
    },
  });
  to_sheet();
}

const no_fists: Record<number, string> = {};

function Standing({ thing }: { thing: Thing }) {
  const [by_shadow, set_by_shadow] = useState(false);
  const key = height_key(thing);
  const known = key_of(thing.table, key);
  const is_guess = guessed_keys(thing).includes(key);
  const entry = known === undefined ? undefined : entries_of(known, thing, is_imperial())[0];
  return (
    <>
      <li class={`fact ${is_guess ? "is-guessed" : ""}`}>
        <button type="button" class="fact-name" data-aside onClick={() => select(thing.id)}>
          <span class="fact-words">{is_guess && "≈ "}{thing.id}</span>
          <span class="fact-range">{entry?.name}</span>
        </button>
        {entry !== undefined && <span class="fact-value"><Typed thing={thing} entry={{ ...entry, name: `${entry.name} of ${thing.id}` }} /></span>}
        <span class="fact-guess">
          {is_guess ? "A guess so far." : ""}
          <button type="button" class="word-button" aria-expanded={by_shadow} aria-label={`From the shadow of ${thing.id}`} onClick={() => set_by_shadow(!by_shadow)}>From its shadow</button>
        </span>
      </li>
      {by_shadow && <li><HeightByShadow thing={thing} done={() => set_by_shadow(false)} /></li>}
    </>
  );
}

export function AroundStep() {
  const skyline_word = useRef<HTMLButtonElement>(null);
  const [skyline, set_skyline] = useState(begun("skyline", no_fists) !== no_fists);
  // It stands there already: what is drawn and measured is of the garden as found.
  useEffect(() => {
    if (scheme.peek() !== "found") show_scheme("found");
  }, []);
  function done_with_skyline(): void {
    opened.value = "around"; // what stands nearer is still to be told
    set_skyline(false);
    requestAnimationFrame(() => skyline_word.current?.focus({ preventScroll: true }));
  }
  const standing = (state.value?.things ?? []).filter(({ table, mark }) => ["wall", "tree", "building", "object"].includes(table) && mark !== "removed");
  return (
    <div class="step-form">
      <p>What stands to the sunny side, and beside? Draw it, yours or not.</p>
      <p class="step-big" role="group" aria-label="Draw what stands there">
        {words.map((word) => <button key={word} type="button" class="word-button" disabled={is_locked()} onClick={() => draw(word)}>{word}</button>)}
      </p>
      {standing.length > 0 && <ul class="facts">{standing.map((thing) => <Standing key={thing.id} thing={thing} />)}</ul>}
      {skyline ? <Skyline done={done_with_skyline} /> : <p class="deeds"><button ref={skyline_word} type="button" class="word-button" onClick={() => set_skyline(true)}>The far skyline, in fists</button></p>}
      <p class="deeds">
        <button type="button" class="word-button strong" onClick={() => {
          leave_step("around");
          opened.value = undefined;
        }}>{standing.length === 0 ? "Nothing stands there" : "That is all"}</button>
      </p>
    </div>
  );
}
