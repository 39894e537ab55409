// One figure or word of a thing, typed or stepped: its light is tried at once, and it is kept after a rest.
import { useEffect, useId, useRef, useState } from "preact/hooks";
import type { Thing } from "../api";
import { link, problem, saying, schema, state } from "../state";
import { called_in_words } from "../tools";
import { in_plain_words } from "./chain";
import type { Entry } from "./entries";
import { is_figure, stepped, told_plainly } from "./facts";
import { keep_fact } from "./keeping";
import { capital, sentence, with_unit } from "./format";
import { offered_for } from "./offered";
import { end_fact_trial, hold_fact_trial, try_fact } from "./trial_of_fact";

export interface Told {
  message: string;
  hint: string;
  part?: string; // which value of its table: "/mix/1/share"
}
export const is_locked = () => link.value === "read_only";
export const is_imperial = () => state.value?.site.units === "imperial";

/** Why a figure was refused, beneath it; it comes into sight, as in a slip that is low. */
export function ToldAt({ id, told, name }: { id: string; told: Told | null; name: string }) {
  const words = useRef<HTMLParagraphElement>(null);
  useEffect(() => words.current?.scrollIntoView({ block: "nearest" }), [told]);
  if (told === null) return null;
  const says = (words: string) => sentence(capital(in_plain_words(words, schema.value, is_imperial())));
  return <p id={id} ref={words} class="told" role="alert"><strong>{says(told_plainly(told.message, name))}</strong> {says(told.hint)}</p>;
}

const rest_ms = 600;
/** How it is written, where nothing is usual. */
export const example: Readonly<Record<string, string>> = { date: "2027-03-20", day: "03-20", amount: "6 kg", time_zone: "Europe/Paris" };

interface Typing {
  text: string;
  is_typed: boolean; // not what the garden has
  told: Told | null;
  type: (text: string) => void;
  keep: (text: string) => Promise<void>;
  leave: () => void;
}

function use_typing(thing: Thing, entry: Entry): Typing {
  const [typing, set_typing] = useState<string | null>(null);
  const [told, set_told] = useState<Told | null>(null);
  const resting = useRef<number | undefined>(undefined);
  const sending = useRef<string | null>(null);
  const kept = useRef<string | null>(null);
  const is_here = useRef(true); // the field, on the screen
  useEffect(() => () => void (is_here.current = false), []);
  const was_told = useRef(false); // the last figure was refused: the next one is answered at once
  const stands = () => sending.current ?? kept.current ?? entry.is;
  // What was kept stands as typed until the garden has it.
  useEffect(() => {
    if (sending.current !== null || kept.current === null) return;
    const was = kept.current;
    kept.current = null;
    set_typing((now) => (now?.trim() === was ? null : now));
  }, [thing]);

  async function keep(text: string): Promise<void> {
    clearTimeout(resting.current);
    const trimmed = text.trim();
    if (trimmed === stands()) return leave();
    sending.current = trimmed;
    hold_fact_trial();
    const no = await keep_fact(thing, entry.set(trimmed));
    if (no !== null && !is_here.current) problem.value = no;
    if (sending.current !== trimmed) return; // a later one is on its way
    sending.current = null;
    kept.current = no === null ? trimmed : null;
    set_told(no);
    was_told.current = no !== null;
    if (no !== null) end_fact_trial();
    else saying.value = `${called_in_words(thing)}: ${entry.name} ${trimmed}.`;
  }
  /** Back to what stands. */
  function leave(): void {
    clearTimeout(resting.current);
    if (stands() === entry.is) end_fact_trial();
    set_typing(stands() === entry.is ? null : stands());
    set_told(null);
    was_told.current = false;
  }
  function type(text: string): void {
    set_typing(text);
    set_told(null); // it was told of another figure
    clearTimeout(resting.current);
    const trimmed = text.trim();
    if (!is_figure(entry.type) || trimmed === "") return;
    let is_refused = false;
    const says = `With ${called_in_words(thing)}’s ${entry.name} at ${trimmed}`;
    if (trimmed !== entry.is) void try_fact({ thing: thing.id, set: entry.set(trimmed), says }).then((no) => (is_refused = no));
    else end_fact_trial();
    // What is typed halfway is no mistake yet: it waits for Enter, or says so if the last one was one.
    resting.current = window.setTimeout(() => void ((is_refused && !was_told.current) || keep(text)), rest_ms);
  }
  return { text: typing ?? entry.is, is_typed: typing !== null, told, type, keep, leave };
}

export function Typed({ thing, entry }: { thing: Thing; entry: Entry }) {
  const { text, is_typed, told, type, keep, leave } = use_typing(thing, entry);
  const { name, type: known } = entry;
  const id = useId();
  const usual = with_unit(known.default ?? "", known.type, is_imperial());
  const from = text.trim() === "" ? usual : text;
  const has_steps = is_figure(known) && known.type !== "stem" && !is_locked();
  const next = (by: 1 | -1) => stepped(known, from, by, is_imperial());
  const can_step = has_steps && next(1) !== null;
  const offered = offered_for(known);
  function step(by: 1 | -1): void {
    const to = next(by);
    if (to === null || to === text) return;
    saying.value = `${name} ${to}`;
    type(to);
  }
  return (
    <>
      <input
        type="text"
        id={`${id}-in`}
        class={is_figure(known) && known.type !== "stem" ? "number" : ""}
        aria-label={name}
        value={text}
        placeholder={usual.replace(/"/g, "") || (example[known.type] ?? "")}
        readOnly={is_locked()}
        autocomplete="off"
        list={offered.length > 0 ? `${id}-words` : undefined}
        aria-invalid={told !== null}
        aria-describedby={told !== null ? `${id}-told` : undefined}
        onInput={(event) => type(event.currentTarget.value)}
        onBlur={(event) => is_typed && void keep(event.currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key === "Enter") void keep(event.currentTarget.value);
          else if (event.key === "ArrowUp" && can_step) step(1);
          else if (event.key === "ArrowDown" && can_step) step(-1);
          else if (event.key === "Escape" && is_typed) leave();
          else return;
          event.preventDefault();
          event.stopPropagation();
        }}
      />
      {offered.length > 0 && <datalist id={`${id}-words`}>{offered.map((word) => <option key={word} value={word} />)}</datalist>}
      {has_steps && (
        <span class="steps">
          <button type="button" class="step" disabled={!can_step} aria-label={`${name}: less`} onClick={() => step(-1)}>−</button>
          <button type="button" class="step" disabled={!can_step} aria-label={`${name}: more`} onClick={() => step(1)}>+</button>
        </span>
      )}
      <ToldAt id={`${id}-told`} told={told} name={known.name} />
    </>
  );
}
