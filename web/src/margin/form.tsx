// The facts of a thing as a form made from the schema: each is typed as the grower likes.
import { effect, signal } from "@preact/signals";
import { useEffect, useId, useRef, useState } from "preact/hooks";
import type { SchemaKey, Thing } from "../api";
import { act, schema, selected } from "../state";
import { entries_of, type Entry, is_compound } from "./entries";
import { called, facts_of, guessed_keys, range_says, says_plainly } from "./facts";
import { Guess, set_guessed } from "./guess";
import { keep_fact } from "./keeping";
import { ids_for } from "./offered";
import { PartFact } from "./part_form";
import { is_imperial, is_locked, type Told, ToldAt, Typed } from "./typed_fact";

interface FactProps {
  thing: Thing;
  known: SchemaKey;
}

/** Sends a value; what is wrong with it is told at the field. */
function use_sending(thing: Thing, key: string): [Told | null, (value: unknown) => void] {
  const [told, set_told] = useState<Told | null>(null);
  const is_here = useRef(true); // the field, on the screen: one without a value stands further down
  useEffect(() => () => void (is_here.current = false), []);
  const tell = (no: Told | null) => (no === null || is_here.current ? set_told(no) : act.tell(no));
  return [told, (value) => void keep_fact(thing, { [key]: value }).then(tell)];
}

function Choice({ thing, known }: FactProps) {
  const [told, send] = use_sending(thing, known.name);
  const id = useId();
  const is = thing.fields[known.name]?.typed ?? "";
  const usual = (known.default ?? "").replace(/"/g, "");
  const fits = known.type === "reference" ? [...(known.words ?? []), ...ids_for(known)].filter((one) => one !== thing.id) : (known.words ?? []);
  const words = is === "" || fits.includes(is) ? fits : [is, ...fits];
  const unsaid = known.type === "reference" ? "none" : "as is usual";
  return (
    <>
      <select
        aria-label={called(known)}
        aria-describedby={told !== null ? id : undefined}
        value={is}
        disabled={is_locked()}
        onChange={(event) => send(event.currentTarget.value === "" ? null : event.currentTarget.value)}
      >
        {!known.needed && <option value="">{usual === "" ? unsaid : `${usual}, as usual`}</option>}
        {words.filter((word) => word !== usual || is === word).map((word) => <option key={word} value={word}>{word}</option>)}
      </select>
      <ToldAt id={id} told={told} name={known.name} />
    </>
  );
}

function YesNo({ thing, known }: FactProps) {
  const [told, send] = use_sending(thing, known.name);
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

const no_measure = new Set(["note", "phase", "title", "id", "locked", "done", "priority"]);
const can_be_guessed = (thing: Thing, known: SchemaKey) =>
  !no_measure.has(known.name) && thing.fields[known.name] !== undefined && schema.value?.tables.find(({ name }) => name === thing.table)?.keys.some(({ name }) => name === "guessed") === true;

/** Its name, which tells what is meant when it is touched; there it can be marked as a guess. */
function Name({ thing, entry, known, guesses }: FactProps & { entry: Entry; guesses: readonly string[] }) {
  const [is_open, set_open] = useState(false);
  const is_guess = guesses.includes(known.name);
  const range = range_says(entry.type, is_imperial());
  const says = says_plainly(known.says ?? "");
  const instead = known.type === "record" ? (known.words ?? []) : [];
  return (
    <>
      <button type="button" class="fact-name" data-aside aria-expanded={is_open} title={says === "" ? undefined : says} onClick={() => set_open(!is_open)}>
        <span class="fact-words">{is_guess && "≈ "}{entry.name}</span>
        {range !== "" && <span class="fact-range">{range}</span>}
      </button>
      {is_open && (
        <p class="fact-says">
          {says}
          {instead.map((word) => <button key={word} type="button" class="word-button" disabled={is_locked()} onClick={() => void keep_fact(thing, { [known.name]: word })}>It has {word}</button>)}
          {!is_guess && can_be_guessed(thing, known) && <button type="button" class="word-button" disabled={is_locked()} onClick={() => set_guessed(thing, known.name, true)}>Mark it as a guess</button>}
        </p>
      )}
    </>
  );
}

function Value({ thing, known, entry }: FactProps & { entry: Entry }) {
  if (known.type === "choice" || known.type === "reference") return <Choice thing={thing} known={known} />;
  return known.type === "yes_no" ? <YesNo thing={thing} known={known} /> : <Typed thing={thing} entry={entry} />;
}

/** Values with parts whose form is open: a fact that is said now stands elsewhere in the list than one that may be,
and stays open on its way there. */
const open_parts = signal<ReadonlySet<string>>(new Set());
effect(() => {
  selected.value;
  open_parts.value = new Set();
});

function Fact({ thing, known }: FactProps) {
  const guesses = guessed_keys(thing);
  const is_guess = guesses.includes(known.name);
  const part = `${thing.id} ${known.name}`;
  const is_open = open_parts.value.has(part); // while it is typed it stays one form, whatever is on its way
  const set_open = (is: boolean) => {
    const next = new Set(open_parts.peek());
    if (is) next.add(part);
    else next.delete(part);
    open_parts.value = next;
  };
  const is_folded = is_open || is_compound(known, thing);
  const entries = is_folded ? [{ name: called(known), type: known, is: "", set: () => ({}) }] : entries_of(known, thing, is_imperial());
  return (
    <>
      {entries.map((entry, i) => (
        <li key={entry.name} class={`fact ${is_guess ? "is-guessed" : ""} ${is_folded ? "has-parts" : ""}`}>
          <Name thing={thing} entry={entry} known={known} guesses={guesses} />
          <span class="fact-value">{is_folded ? <PartFact thing={thing} known={known} is_open={is_open} set_open={set_open} /> : <Value thing={thing} known={known} entry={entry} />}</span>
          {is_guess && i === entries.length - 1 && <Guess thing={thing} of={known.name} />}
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
  const has_lengths = [...shown, ...(all ? more : [])].some(({ type }) => ["length", "stem", "size", "record", "place"].includes(type));
  return (
    <div class="part">
      <h3>Its facts {has_lengths && <span class="head-unit">{is_imperial() ? "in feet, or as you like: 2.1 m" : "in metres, or as you like: 7 ft"}</span>}</h3>
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
