// The facts of a thing as a form made from the schema: each is typed as the grower likes.
import { useId, useState } from "preact/hooks";
import type { SchemaKey, Thing } from "../api";
import { act, schema } from "../state";
import { entries_of, type Entry } from "./entries";
import { called, facts_of, guessed_keys, range_says, says_plainly } from "./facts";
import { is_imperial, is_locked, type Told, ToldAt, Typed } from "./typed_fact";

interface FactProps {
  thing: Thing;
  known: SchemaKey;
}

/** Sends a value; what is wrong with it is told at the field. */
function use_sending(thing: string, key: string): [Told | null, (value: unknown) => void] {
  const [told, set_told] = useState<Told | null>(null);
  return [told, (value) => void act.set(thing, { [key]: value }).then(set_told)];
}

function Choice({ thing, known }: FactProps) {
  const [told, send] = use_sending(thing.id, known.name);
  const id = useId();
  const is = thing.fields[known.name]?.typed ?? "";
  const usual = (known.default ?? "").replace(/"/g, "");
  return (
    <>
      <select
        aria-label={called(known)}
        aria-describedby={told !== null ? id : undefined}
        value={is}
        disabled={is_locked()}
        onChange={(event) => send(event.currentTarget.value === "" ? null : event.currentTarget.value)}
      >
        {!known.needed && <option value="">{usual === "" ? "as is usual" : `${usual}, as usual`}</option>}
        {(known.words ?? []).filter((word) => word !== usual || is === word).map((word) => <option key={word} value={word}>{word}</option>)}
      </select>
      <ToldAt id={id} told={told} name={known.name} />
    </>
  );
}

function YesNo({ thing, known }: FactProps) {
  const [told, send] = use_sending(thing.id, known.name);
  const is = thing.fields[known.name]?.value ?? known.default === "true";
  return (
    <>
      <label class="yes-no">
        <input type="checkbox" aria-label={called(known)} checked={is === true} disabled={is_locked()} onChange={(event) => send(event.currentTarget.checked)} />
        <span>{is === true ? "yes" : "no"}</span>
      </label>
      <ToldAt id="" told={told} name={known.name} />
    </>
  );
}

/** Its name, which tells what is meant when it is touched. */
function Name({ entry, known, is_guess }: { entry: Entry; known: SchemaKey; is_guess: boolean }) {
  const [is_open, set_open] = useState(false);
  const range = range_says(entry.type, is_imperial());
  const says = says_plainly(known.says ?? "");
  const words = (
    <>
      <span class="fact-words">{is_guess && "≈ "}{entry.name}</span>
      {range !== "" && <span class="fact-range">{range}</span>}
    </>
  );
  if (says === "") return <span class="fact-name">{words}</span>;
  return (
    <>
      <button type="button" class="fact-name" data-aside aria-expanded={is_open} title={says} onClick={() => set_open(!is_open)}>{words}</button>
      {is_open && <p class="fact-says">{says}</p>}
    </>
  );
}

function Guess({ thing, known, guesses }: FactProps & { guesses: readonly string[] }) {
  const rest = guesses.filter((one) => one !== known.name);
  return (
    <span class="fact-guess">
      A guess so far.
      <button type="button" class="word-button" disabled={is_locked()} onClick={() => void act.set(thing.id, { guessed: rest.length === 0 ? null : rest })}>
        It is measured now
      </button>
    </span>
  );
}

function Fact({ thing, known }: FactProps) {
  const guesses = guessed_keys(thing);
  const is_guess = guesses.includes(known.name);
  const entries = entries_of(known, thing, is_imperial());
  return (
    <>
      {entries.map((entry, i) => (
        <li key={entry.name} class={`fact ${is_guess ? "is-guessed" : ""}`}>
          <Name entry={entry} known={known} is_guess={is_guess} />
          <span class="fact-value">
            {known.type === "choice" ? <Choice thing={thing} known={known} /> : known.type === "yes_no" ? <YesNo thing={thing} known={known} /> : <Typed thing={thing} entry={entry} />}
          </span>
          {is_guess && i === entries.length - 1 && <Guess thing={thing} known={known} guesses={guesses} />}
        </li>
      ))}
    </>
  );
}

export function Facts({ thing }: { thing: Thing }) {
  const [all, show_all] = useState(false);
  const table = schema.value?.tables.find((one) => one.name === thing.table);
  if (table === undefined || thing.mark === "removed") return null;
  const { shown, more } = facts_of(table, thing);
  if (shown.length + more.length === 0) return null;
  return (
    <div class="part">
      <h3>Its facts <span class="head-unit">{is_imperial() ? "in feet, or as you like: 2.1 m" : "in metres, or as you like: 7 ft"}</span></h3>
      <ul class="facts">
        {[...shown, ...(all ? more : [])].map((known) => <Fact key={`${thing.id} ${known.name}`} thing={thing} known={known} />)}
      </ul>
      <p class="small">Touch a name to read what is meant.</p>
      {more.length > 0 && (
        <button type="button" class="word-button" aria-expanded={all} onClick={() => show_all(!all)}>
          {all ? "Fewer facts" : "More facts that it may have"}
        </button>
      )}
    </div>
  );
}
