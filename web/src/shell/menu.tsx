// A word that opens a sheet of paper with more words on it.
import { signal, type Signal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useEffect, useLayoutEffect, useMemo, useRef } from "preact/hooks";

interface MenuProps {
  word: ComponentChildren;
  label?: string;
  at?: "left" | "right" | "foot";
  open?: Signal<boolean>; // opened from elsewhere too, as by a key
  disabled?: boolean;
  class?: string;
  children: (close: () => void) => ComponentChildren;
}

/** Arrows, Home and End go from word to word of the paper. */
function go_to_word(host: HTMLElement | null, event: KeyboardEvent): boolean {
  if (event.target instanceof Element && event.target.matches("input:not([type=checkbox]),select,textarea")) return false;
  const words = [...(host?.querySelectorAll<HTMLElement>(".menu-paper :is(button, a[href], input, select):not(:disabled)") ?? [])];
  const here = words.indexOf(document.activeElement as HTMLElement);
  const to = event.key === "ArrowDown" ? here + 1 : event.key === "ArrowUp" ? (here < 0 ? words.length : here) - 1 + words.length : event.key === "Home" ? 0 : event.key === "End" ? words.length - 1 : null;
  if (to === null || words.length === 0) return false;
  words[to % words.length]?.focus();
  return true;
}

export function Menu({ word, label, at = "left", class: name = "", open, disabled = false, children }: MenuProps) {
  const shows = useMemo(() => open ?? signal(false), []);
  const is_open = shows.value;
  const set_open = (to: boolean) => {
    shows.value = to;
  };
  const host = useRef<HTMLDivElement>(null);
  const opener = useRef<HTMLButtonElement>(null);

  const came_from = useRef<Element | null>(null); // where the hand was when a key opened it

  function close(): void {
    set_open(false);
    const back = came_from.current;
    (back instanceof HTMLElement && back.isConnected ? back : opener.current)?.focus({ preventScroll: true });
  }
  useLayoutEffect(() => {
    came_from.current = is_open && document.activeElement !== document.body ? document.activeElement : null;
  }, [is_open]);
  useEffect(() => {
    if (!is_open) return undefined;
    const outside = (event: Event) => {
      if (!host.current?.contains(event.target as Node)) set_open(false);
    };
    document.addEventListener("pointerdown", outside);
    document.addEventListener("focusin", outside);
    return () => {
      document.removeEventListener("pointerdown", outside);
      document.removeEventListener("focusin", outside);
    };
  }, [is_open]);

  return (
    <div
      class={`menu ${name}`}
      ref={host}
      onKeyDown={(event) => {
        if (!is_open) return;
        if (event.key === "Escape") close();
        else if (!go_to_word(host.current, event)) return;
        event.preventDefault();
        event.stopPropagation();
      }}
    >
      <button
        type="button"
        ref={opener}
        class="word-button menu-opener"
        aria-expanded={is_open}
        aria-label={label}
        disabled={disabled}
        onClick={() => set_open(!is_open)}
      >
        {word}
        <svg class="menu-mark" viewBox="0 0 10 6" width="10" height="6" aria-hidden="true"><path d="M1 1L5 5L9 1" /></svg>
      </button>
      {is_open && <div class={`menu-paper at-${at}`} data-letters>{children(close)}</div>}
    </div>
  );
}
