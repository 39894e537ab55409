// The facts of a thing as a form made from the schema: each is typed as the grower likes.
import { useEffect, useId, useRef, useState } from "preact/hooks";
import type { SchemaKey, Thing } from "../api";
import { act, link, schema, state } from "../state";
import { called, facts_of, guessed_keys, is_figure, range_says, stepped, told_plainly } from "./facts";
import { capital } from "./format";

interface Told {
  message: string;
  hint: string;
}
interface FactProps {
  thing: Thing;
  known: SchemaKey;
}

const is_locked = () => link.value === "read_only";
const is_imperial = () => state.value?.site.units === "imperial";

/** Sends a value; what is wrong with it is told at the field. */
function use_sending(thing: string, key: string): [Told | null, (value: unknown) => Promise<boolean>] {
  const [told, set_told] = useState<Told | null>(null);
  const send = async (value: unknown): Promise<boolean> => {
    const no = await act.set(thing, { [key]: value });
    set_told(no);
    return no === null;
  };
  return [told, send];
}

function ToldAt({ id, told, known }: { id: string; told: Told | null; known: SchemaKey }) {
  if (told === null) return null;
  return <p id={id} class="told" role="alert"><strong>{told_plainly(told.message, known.name)}.</strong> {capital(told.hint)}</p>;
}

const rest_ms = 450;

function Typed({ thing, known, label }: FactProps & { label: string }) {
  const is = thing.fields[known.name]?.typed ?? "";
  const [typing, set_typing] = useState<string | null>(null);
  const [told, send] = use_sending(thing.id, known.name);
  const resting = useRef<number | undefined>(undefined);
  const id = useId();
  const text = typing ?? is;
  useEffect(() => set_typing(null), [is]);

  async function keep(words: string): Promise<void> {
    clearTimeout(resting.current);
    const trimmed = words.trim();
    if (trimmed === is) set_typing(null);
    else if (await send(trimmed === "" ? null : trimmed)) set_typing((now) => (now?.trim() === trimmed ? null : now));
  }
  function step(by: 1 | -1): void {
    const next = stepped(known, text, by, is_imperial());
    if (next === null) return;
    set_typing(next);
    clearTimeout(resting.current);
    resting.current = window.setTimeout(() => void keep(next), rest_ms);
  }
  const has_steps = is_figure(known) && known.type !== "stem" && !is_locked();
  const can_step = has_steps && stepped(known, text, 1, is_imperial()) !== null;
  return (
    <>
      <input
        type="text"
        id={`${id}-in`}
        class={is_figure(known) ? "number" : ""}
        aria-label={label}
        value={text}
        placeholder={known.default ?? ""}
        readOnly={is_locked()}
        autocomplete="off"
        aria-invalid={told !== null}
        aria-describedby={told !== null ? `${id}-told` : undefined}
        onInput={(event) => set_typing(event.currentTarget.value)}
        onBlur={(event) => void keep(event.currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key === "Enter") void keep(event.currentTarget.value);
          else if (event.key === "ArrowUp" && can_step) step(1);
          else if (event.key === "ArrowDown" && can_step) step(-1);
          else if (event.key === "Escape" && typing !== null) set_typing(null);
          else return;
          event.preventDefault();
          event.stopPropagation();
        }}
      />
      {has_steps && (
        <span class="steps">
          <button type="button" class="step" disabled={!can_step} aria-label={`${label}: less`} onClick={() => step(-1)}>−</button>
          <button type="button" class="step" disabled={!can_step} aria-label={`${label}: more`} onClick={() => step(1)}>+</button>
        </span>
      )}
      <ToldAt id={`${id}-told`} told={told} known={known} />
    </>
  );
}

function Choice({ thing, known, label }: FactProps & { label: string }) {
  const [told, send] = use_sending(thing.id, known.name);
  const is = thing.fields[known.name]?.typed ?? "";
  const usual = (known.default ?? "").replace(/"/g, "");
  return (
    <>
      <select aria-label={label} value={is} disabled={is_locked()} onChange={(event) => void send(event.currentTarget.value === "" ? null : event.currentTarget.value)}>
        {!known.needed && <option value="">{usual === "" ? "as is usual" : `${usual}, as usual`}</option>}
        {(known.words ?? []).filter((word) => word !== usual || is === word).map((word) => <option key={word} value={word}>{word}</option>)}
      </select>
      <ToldAt id="" told={told} known={known} />
    </>
  );
}

function YesNo({ thing, known, label }: FactProps & { label: string }) {
  const [told, send] = use_sending(thing.id, known.name);
  const is = thing.fields[known.name]?.value ?? known.default === "true";
  return (
    <>
      <label class="yes-no">
        <input type="checkbox" aria-label={label} checked={is === true} disabled={is_locked()} onChange={(event) => void send(event.currentTarget.checked)} />
        <span>{is === true ? "yes" : "no"}</span>
      </label>
      <ToldAt id="" told={told} known={known} />
    </>
  );
}

/** Parts of one fact: the two sides of a size, the height and courses of boards. */
function Parts({ thing, known, label }: FactProps & { label: string }) {
  const [told, send] = use_sending(thing.id, known.name);
  const value = thing.fields[known.name]?.value;
  const is_size = known.type === "size";
  const names: [string | number, string][] = is_size ? [[0, "across"], [1, "deep"]] : (known.fields ?? []).map((field) => [field.name, called(field)]);
  const of = (value ?? (is_size ? [] : {})) as Record<string | number, unknown>;
  function keep(name: string | number, text: string): void {
    const now = of[name];
    if (text.trim() === says(now)) return;
    const plain = /^-?\d+(?:[.,]\d+)?$/.test(text.trim()) ? Number(text.replace(",", ".")) : text.trim() === "" ? null : text.trim();
    void send(is_size ? [0, 1].map((i) => (i === name ? plain : of[i])) : { ...of, [name]: plain });
  }
  return (
    <span class="parts">
      {names.map(([name, part]) => (
        <label key={name}>
          <span>{part.replace(/_m$/, "")}</span>
          <input
            type="text"
            class="number"
            aria-label={`${label}, ${part}`}
            key={says(of[name])}
            defaultValue={says(of[name])}
            readOnly={is_locked()}
            autocomplete="off"
            onBlur={(event) => keep(name, event.currentTarget.value)}
            onKeyDown={(event) => event.key === "Enter" && keep(name, event.currentTarget.value)}
          />
        </label>
      ))}
      <ToldAt id="" told={told} known={known} />
    </span>
  );
}

function says(value: unknown): string {
  if (typeof value === "number") return String(Number(value.toFixed(3)));
  return typeof value === "string" ? value : "";
}

function Fact({ thing, known }: FactProps) {
  const guesses = guessed_keys(thing);
  const is_guess = guesses.includes(known.name);
  const name = called(known);
  const value = thing.fields[known.name]?.value;
  const range = range_says(known, is_imperial());
  const is_parts = (known.type === "size" && Array.isArray(value)) || (known.type === "record" && (value === undefined || typeof value === "object"));
  const Kind = known.type === "choice" ? Choice : known.type === "yes_no" ? YesNo : is_parts ? Parts : Typed;
  return (
    <li class={`fact ${is_guess ? "is-guessed" : ""} ${is_parts ? "is-parts" : ""}`} title={known.says}>
      <span class="fact-name">
        <span class="fact-words">{is_guess && "≈ "}{name}</span>
        {range !== "" && <span class="fact-range">{range}</span>}
      </span>
      <span class="fact-value"><Kind thing={thing} known={known} label={name} /></span>
      {is_guess && (
        <span class="fact-guess">
          A guess, not measured yet.
          <button type="button" class="word-button" disabled={is_locked()} onClick={() => void act.set(thing.id, { guessed: rest_of(guesses, known.name) })}>
            It is measured now
          </button>
        </span>
      )}
    </li>
  );
}

function rest_of(guesses: readonly string[], key: string): string[] | null {
  const rest = guesses.filter((one) => one !== key);
  return rest.length === 0 ? null : rest;
}

export function Facts({ thing }: { thing: Thing }) {
  const [all, show_all] = useState(false);
  const table = schema.value?.tables.find((one) => one.name === thing.table);
  if (table === undefined || thing.mark === "removed") return null;
  const { shown, more } = facts_of(table, thing);
  if (shown.length + more.length === 0) return null;
  return (
    <div class="part">
      <h3>Its facts <span class="head-unit">{is_imperial() ? "typed as you like: 7 ft, 2.1 m" : "in metres, or as you like: 7 ft"}</span></h3>
      <ul class="facts">
        {[...shown, ...(all ? more : [])].map((known) => <Fact key={`${thing.id} ${known.name}`} thing={thing} known={known} />)}
      </ul>
      {more.length > 0 && (
        <button type="button" class="word-button" aria-expanded={all} onClick={() => show_all(!all)}>
          {all ? "Fewer facts" : "More facts that it may have"}
        </button>
      )}
    </div>
  );
}
