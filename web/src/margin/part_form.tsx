// A value with parts: what it is in few words, and its parts to be typed once it is touched. They are
// kept together, as one step.
import { useEffect, useRef, useState } from "preact/hooks";
import type { SchemaKey, Thing } from "../api";
import { saying } from "../state";
import { called_in_words } from "../tools";
import { called } from "./facts";
import { keep_fact } from "./keeping";
import { Part } from "./part_fields";
import { is_imperial, is_locked, type Told, ToldAt } from "./typed_fact";
import { type Draft, draft_of, fresh, is_list, item_of, type Json, pruned, sent_of, summary, told_path, type Type } from "./values";

const value_of = (thing: Thing, known: SchemaKey): Json | undefined => {
  const field = thing.fields[known.name];
  return (field?.parts ?? field?.value) as Json | undefined;
};

/** Nothing is asked for that is there already; one of several stands alone or in a list. */
function is_as_it_was(sent: Json, value: Json | undefined): boolean {
  const text = JSON.stringify(value ?? null);
  return JSON.stringify(sent) === text || JSON.stringify([sent]) === text;
}

/** With an empty row, to be typed into at once. */
function opened(known: SchemaKey, value: Json | undefined): Draft {
  const type = known as Type;
  const draft = draft_of(type, value, is_imperial());
  if (Array.isArray(draft) && draft.length === 0 && is_list(type) && item_of(type).type !== "choice") return [fresh(item_of(type))];
  if ("names" in draft && draft.names.length === 0) return { names: [{ name: "", value: is_list(item_of(type)) ? [fresh(item_of(item_of(type)))] : fresh(item_of(type)) }] };
  return draft;
}

interface FormProps {
  thing: Thing;
  known: SchemaKey;
  with_it?: Record<string, unknown> | undefined; // keys that are set along with it
  done: (is_kept: boolean) => void;
}

function PartForm({ thing, known, with_it = {}, done }: FormProps) {
  const type = known as Type;
  const name = called(known);
  const value = value_of(thing, known);
  const [draft, set_draft] = useState(() => opened(known, value));
  const [told, set_told] = useState<Told | null>(null);
  const is_typed = useRef(false);
  // What came from another window is shown, unless something is typed here.
  const stands = JSON.stringify(value ?? null);
  useEffect(() => {
    if (!is_typed.current) set_draft(opened(known, value));
  }, [stands]);
  const room = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (!matchMedia("(pointer: coarse)").matches) room.current?.querySelector<HTMLElement>("input, select")?.focus({ preventScroll: true });
    room.current?.scrollIntoView({ block: "nearest" });
  }, []);
  const at = told?.part === undefined ? null : told_path(draft, told.part, known.name);
  async function keep(now: Draft): Promise<void> {
    if (is_locked()) return;
    const tidy = pruned(type, now);
    const sent = sent_of(type, tidy);
    if (is_as_it_was(sent, value)) return done(false);
    is_typed.current = true; // what is on its way is no other window's
    const no = await keep_fact(thing, { [known.name]: sent, ...with_it });
    if (no === null) {
      const is = summary(type, sent ?? undefined, is_imperial());
      saying.value = `${called_in_words(thing)}: ${name} ${is === "" ? "left out" : is}.`;
      return done(true);
    }
    set_draft(tidy);
    set_told(no);
  }
  function key(event: KeyboardEvent): void {
    if (event.key === "Enter" && event.target instanceof HTMLInputElement && event.target.type === "text") void keep(draft);
    else if (event.key === "Escape") done(false);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }
  return (
    <div ref={room} class="part-form" role="group" aria-label={name} onKeyDown={key}>
      <Part
        type={type}
        draft={draft}
        path={[]}
        name={name}
        told={at === null || told === null ? null : { at, is: told }}
        set={(next) => {
          is_typed.current = true;
          set_draft(next);
          set_told(null);
        }}
      />
      {told !== null && at === null && <ToldAt id="" told={told} name={known.name} />}
      <p class="deeds">
        <button type="button" class="word-button strong" disabled={is_locked()} onClick={() => void keep(draft)}>Keep</button>
        <button type="button" class="word-button" onClick={() => done(false)}>Leave it</button>
        {value !== undefined && known.needed !== true && <button type="button" class="word-button" disabled={is_locked()} onClick={() => void keep(fresh(type))}>None</button>}
      </p>
    </div>
  );
}

/** Its row among the facts. */
interface PartFactProps extends Omit<FormProps, "done"> {
  is_open: boolean;
  set_open: (is: boolean) => void;
  done?: () => void; // once it is kept
}

export function PartFact({ thing, known, with_it, is_open, set_open, done: told_done }: PartFactProps) {
  const word = useRef<HTMLButtonElement>(null);
  const name = called(known);
  const says = summary(known as Type, value_of(thing, known), is_imperial());
  function done(is_kept: boolean): void {
    set_open(false);
    if (is_kept) told_done?.();
    word.current?.focus({ preventScroll: true });
  }
  return (
    <>
      <button ref={word} type="button" class="part-word" aria-expanded={is_open} aria-label={`${name}: ${says === "" ? "none" : says}`} onClick={() => set_open(!is_open)}>
        <span>{says === "" ? "none" : says}</span>
        <span class="fold-mark" aria-hidden="true">{is_open ? "−" : "+"}</span>
      </button>
      {is_open && <PartForm thing={thing} known={known} with_it={with_it} done={done} />}
    </>
  );
}
