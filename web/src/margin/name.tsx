// A thing's name at the head of its notes: touched, it is typed anew.
import { useEffect, useId, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Thing } from "../api";
import { act, link, name_of, name_to_be, problem } from "../state";
import { type Told, ToldAt } from "./typed_fact";

/** The notes begin anew with the new name; the focus stays on it. */
let was_named = false;

export function Name({ thing }: { thing: Thing }) {
  const [is_open, set_open] = useState(false);
  const [told, set_told] = useState<Told | null>(null);
  const field = useRef<HTMLInputElement>(null);
  const word = useRef<HTMLButtonElement>(null);
  const is_here = useRef(true);
  const is_settled = useRef(false); // sent, or left: the field that goes loses its focus, and means nothing by it
  const id = useId();
  const called = name_of(thing.id);
  const to_be = name_to_be(thing.id);
  useEffect(() => {
    if (was_named) word.current?.focus({ preventScroll: true });
    was_named = false;
    return () => void (is_here.current = false);
  }, []);
  useLayoutEffect(() => {
    if (is_open) field.current?.select();
  }, [is_open]);

  function open(): void {
    is_settled.current = false;
    set_open(true);
  }
  function leave(): void {
    is_settled.current = true;
    set_open(false);
    set_told(null);
    requestAnimationFrame(() => word.current?.focus({ preventScroll: true }));
  }
  async function keep(text: string): Promise<void> {
    const name = text.trim();
    if (is_settled.current) return;
    if (name === called || name === "") return leave();
    was_named = is_settled.current = true;
    set_told(null);
    const waits = act.rename(thing.id, name);
    if (link.peek() !== "here") leave(); // it waits; the name to be is told beneath
    const { told: no } = await waits;
    if (no === null) return;
    was_named = false;
    if (!is_here.current) problem.value = no;
    open();
    set_told(no);
  }
  if (link.value === "read_only") return <h2 class="thing-name">{called}</h2>;
  return (
    <div class="naming">
      {is_open && <h2 class="unseen">{called}</h2>}
      <h2 class="thing-name" hidden={is_open}>
        <button ref={word} type="button" class="name-word" aria-describedby={`${id}-hint`} onClick={open}>{called}</button>
      </h2>
      <span id={`${id}-hint`} hidden>Touch it to give it another name.</span>
      {is_open && (
        <input
          ref={field}
          type="text"
          class="name-typed"
          aria-label={`The name of ${called}`}
          defaultValue={to_be ?? called}
          maxLength={80}
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          aria-invalid={told !== null}
          aria-describedby={told !== null ? `${id}-told` : undefined}
          onInput={() => set_told(null)}
          onBlur={(event) => told === null && void keep(event.currentTarget.value)}
          onKeyDown={(event) => {
            if (event.key === "Enter") void keep(event.currentTarget.value);
            else if (event.key === "Escape") leave();
            else return;
            event.preventDefault();
            event.stopPropagation();
          }}
        />
      )}
      <ToldAt id={`${id}-told`} told={told} name="rename" />
      {to_be !== null && !is_open && <p class="small">To be called {to_be}, once that is written.</p>}
    </div>
  );
}
