// The typed twin of the grip: how far to the right, how far up the page.
import { useEffect, useRef } from "preact/hooks";
import { length_says, metres_in } from "../geometry";
import { state } from "../state";
import { leave_it, move_to, moving, set_down } from "../tools";

function Figure({ axis, label }: { axis: 0 | 1; label: string }) {
  const input = useRef<HTMLInputElement>(null);
  const is_imperial = state.value?.site.units === "imperial";
  const by = moving.value?.by_m[axis] ?? 0;
  useEffect(() => {
    if (input.current !== null && document.activeElement !== input.current)
      input.current.value = length_says(by, is_imperial);
  }, [by, is_imperial]);

  function typed(text: string): void {
    const now = moving.peek();
    const metres = metres_in(text, is_imperial);
    input.current?.setAttribute("aria-invalid", String(metres === null && text.trim() !== ""));
    if (now === null || metres === null) return;
    move_to(axis === 0 ? [metres, now.by_m[1]] : [now.by_m[0], metres]);
  }
  return (
    <label class="strip-figure">
      {label}
      <input
        ref={input}
        type="text"
        inputMode="text"
        autocomplete="off"
        onInput={(event) => typed(event.currentTarget.value)}
        onFocus={(event) => event.currentTarget.select()}
      />
    </label>
  );
}

/** The strip goes when a thing is set down; the focus in it goes back to the sheet. */
function and_back(done: () => void): void {
  const was_here = document.activeElement?.closest(".move-strip") !== null;
  done();
  if (was_here) document.querySelector<HTMLElement>('[data-region="sheet"]')?.focus({ preventScroll: true });
}

export function MoveStrip() {
  const hand = moving.value;
  if (hand === null || hand.how === "grip") return null;
  const what = hand.how === "place" ? `Touch where ${hand.thing} is to stand, or type:` : `Moving ${hand.thing}: arrows, or type:`;
  function key(event: KeyboardEvent): void {
    if (event.key !== "Escape") return;
    event.preventDefault();
    event.stopPropagation();
    and_back(leave_it);
  }
  return (
    <form
      class="move-strip"
      aria-label={`Move ${hand.thing}`}
      onKeyDown={key}
      onSubmit={(event) => {
        event.preventDefault();
        and_back(set_down);
      }}
    >
      <span class="strip-what">{what}</span>
      <Figure axis={0} label="right" />
      <Figure axis={1} label="up" />
      <button type="submit" class="word-button strong">Set down</button>
      <button type="button" class="word-button" onClick={() => and_back(leave_it)}>Leave it</button>
    </form>
  );
}
