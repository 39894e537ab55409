// On a phone the margin is a slip of paper: low, opened to half, or to nearly the whole.
import type { ComponentChildren } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { print_large } from "../band";
import { selected, steps_open } from "../state";
import { adding, covered, drawing, pen } from "../tools";

type Open = 0 | 1 | 2;
const words = ["Open the notes", "Open the notes further", "Close the notes"] as const;

export function Slip({ children }: { children: ComponentChildren }) {
  const [open, set_open] = useState<Open>(steps_open.peek() ? 1 : 0);
  const from = useRef<number | null>(null);
  const pulled = useRef(false);
  const host = useRef<HTMLElement>(null);
  useEffect(() => {
    if (print_large.value) set_open(open === 0 ? 1 : open);
  }, [print_large.value]);
  // What is asked for is asked in the notes.
  const is_asking = adding.value !== null;
  useEffect(() => {
    if (is_asking) set_open(open === 0 ? 1 : open);
  }, [is_asking]);
  const is_measuring = steps_open.value && selected.value === null && open === 1;
  useEffect(() => {
    const foot = document.querySelector(".sheet")?.getBoundingClientRect().bottom ?? 0;
    const height = Math.min(500, innerHeight - 100);
    covered.value = is_measuring ? Math.max(0, foot - (innerHeight - 56 - height)) : 0;
    return () => void (covered.value = 0);
  }, [is_measuring]);
  // What is drawn wants the sheet; what it was drawn for goes on after it.
  const wants_sheet = drawing.value !== null || (pen.value !== null && selected.value !== null);
  const was_open = useRef<Open | null>(null);
  useEffect(() => {
    if (wants_sheet) {
      was_open.current = open;
      set_open(0);
    } else if (was_open.current !== null) {
      if (steps_open.peek() && selected.peek() === null) set_open(was_open.current);
      was_open.current = null;
    }
  }, [wants_sheet]);
  useEffect(() => {
    if (host.current !== null) host.current.querySelector(".slip-notes")?.scrollTo(0, 0);
  }, [selected.value]);

  function up(y: number): void {
    if (from.current === null) return;
    const by = from.current - y;
    from.current = null;
    pulled.current = Math.abs(by) > 24;
    if (by > 24) set_open(open === 0 && by < 320 ? 1 : 2);
    if (by < -24) set_open(open === 2 && by > -320 ? 1 : 0);
  }
  return (
    <aside class={`slip open-${open}`} ref={host}>
      <button
        type="button"
        class="slip-handle"
        aria-expanded={open > 0}
        aria-label={words[open]}
        onPointerDown={(event) => {
          from.current = event.clientY;
          event.currentTarget.setPointerCapture(event.pointerId);
        }}
        onPointerUp={(event) => up(event.clientY)}
        onClick={() => {
          if (!pulled.current) set_open(((open + 1) % 3) as Open);
          pulled.current = false;
        }}
      >
        <svg viewBox="0 0 44 8" width="44" height="8" aria-hidden="true"><path d="M0 1H44M0 6H44" /></svg>
      </button>
      <div class="slip-notes">{children}</div>
    </aside>
  );
}
