// A figure that can be asked why, and the chain that answers, in the margin's place.
import { signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { Trace } from "../api";
import { ask_why, schema, things, why } from "../state";
import { select } from "../tools";
import { owner_of, plain_name, sources_of } from "./chain";
import { capital, read_value } from "./format";

/** What is asked: a pointer whose chain comes, or a chain that is known already. */
const asked = signal<{ pointer: string } | { trace: Trace } | null>(null);
/** How deep down the chain one stands: the inputs taken, one after the other. */
const path = signal<readonly number[]>([]);
let asked_from: HTMLElement | null = null;

export const is_asked = (): boolean => asked.value !== null;

function ask(what: { pointer: string } | { trace: Trace }): void {
  asked_from = document.activeElement as HTMLElement | null;
  path.value = [];
  asked.value = what;
  ask_why("pointer" in what ? what.pointer : null);
}
export function close_why(): void {
  asked.value = null;
  path.value = [];
  ask_why(null);
  const back = asked_from;
  requestAnimationFrame(() => back?.focus());
}
/** One step back up the chain; false: there was none. */
export function why_back(): boolean {
  if (asked.peek() === null) return false;
  if (path.peek().length > 0) path.value = path.peek().slice(0, -1);
  else close_why();
  return true;
}
export function forget_why(): void {
  asked.value = null;
  path.value = [];
}
export function ask_pointer(pointer: string): void {
  ask({ pointer });
}

interface WhyProps {
  pointer?: string | undefined;
  trace?: Trace;
  of: string;
  figure: string;
  with_word?: boolean; // the word stands under it, for whoever does not know the dots yet
}

/** A figure over dots: touched, it tells why. */
export function Why({ pointer, trace, of, figure, with_word = false }: WhyProps) {
  if (pointer === undefined && trace === undefined) return <span class="why-word"><span class="number">{figure}</span></span>;
  return (
    <button
      type="button"
      class="why-word"
      aria-label={`Why: ${of}`}
      onClick={() => ask(pointer !== undefined ? { pointer } : { trace: trace as Trace })}
    >
      <span class={with_word ? "number" : "number why"}>{figure}</span>
      {with_word && <span class="why">why</span>}
    </button>
  );
}

/** `whole`: all sources of the chain; else its own. */
function Sources({ trace, whole }: { trace: Trace; whole: boolean }) {
  const sources = whole ? sources_of(trace) : (trace.sources ?? []);
  if (sources.length === 0) return null;
  return (
    <>
      <h3>{sources.length === 1 ? "Source" : whole ? "Sources of all of it" : "Sources"}</h3>
      <ul class="why-sources">
        {sources.map(({ key, citation }) => <li key={key}>{citation}</li>)}
      </ul>
    </>
  );
}

function Input({ input, at }: { input: Trace; at: number }) {
  const has_more = input.inputs.length > 0 || (input.method ?? "") !== "" || (input.sources ?? []).length > 0;
  const name = plain_name(input.name, schema.value);
  const words = (
    <>
      <span class="why-name">{name}</span>
      <span class="why-value">{read_value(input.value)}</span>
      {(input.standing ?? "") !== "" && input.standing !== "computed" && <span class="why-standing">{input.standing}</span>}
    </>
  );
  return (
    <li>
      {has_more ? (
        <button type="button" class="why-input" onClick={() => (path.value = [...path.peek(), at])}>{words}</button>
      ) : (
        <div class="why-input">{words}</div>
      )}
    </li>
  );
}

function Link({ trace }: { trace: Trace }) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    heading.current?.focus();
    heading.current?.closest(".margin-notes")?.parentElement?.scrollTo(0, 0);
  }, [trace]);
  const whose = owner_of(trace.name);
  const is_root = path.value.length === 0;
  return (
    <>
      <h2 class="why-title" tabIndex={-1} ref={heading}>{capital(plain_name(trace.name, schema.value))}</h2>
      <p class="why-figure">{read_value(trace.value)}</p>
      {(trace.standing ?? "") !== "" && <p class="quiet">{capital(trace.standing ?? "")}</p>}
      {(trace.method ?? "") !== "" && <p class="why-method">{trace.method}</p>}
      {trace.inputs.length > 0 && (
        <>
          <h3>From</h3>
          <ul class="why-inputs">{trace.inputs.map((input, i) => <Input key={`${i} ${input.name}`} input={input} at={i} />)}</ul>
        </>
      )}
      {things.value.has(whose) && (
        <button type="button" class="word-button" onClick={() => select(whose)}>Show {whose}</button>
      )}
      <Sources trace={trace} whole={is_root} />
    </>
  );
}

function at_path(root: Trace, steps: readonly number[]): Trace {
  let trace = root;
  for (const step of steps) trace = trace.inputs[step] ?? trace;
  return trace;
}

export function WhyNotes() {
  const what = asked.value;
  const back = useRef<HTMLButtonElement>(null);
  useEffect(() => back.current?.focus(), []);
  if (what === null) return null;
  const root = "trace" in what ? what.trace : why.value?.pointer === what.pointer ? why.value.trace : null;
  const steps = path.value;
  const before = root === null || steps.length === 0 ? null : at_path(root, steps.slice(0, -1));
  return (
    <section class="notes" aria-label="Why">
      <div class="why-way">
        <button type="button" class="word-button" ref={back} onClick={close_why}>Back to the notes</button>
        {before !== null && (
          <button type="button" class="word-button" onClick={() => (path.value = steps.slice(0, -1))}>
            Up: {plain_name(before.name, schema.value)}
          </button>
        )}
      </div>
      {root === null ? <p class="quiet">Looking it up …</p> : <Link trace={at_path(root, steps)} />}
    </section>
  );
}
