// The band's words: the time shown, which can be typed; the way back to the growing months; what the print says.
import { signal } from "@preact/signals";
import { useEffect, useId, useRef, useState } from "preact/hooks";
import { saying, selected, when_says } from "../state";
import { choose_growing, choose_months, choose_moment, choose_day, day_now, is_growing_now, moment_says, print_shown, tell_moment } from "./chosen";
import { typed_when } from "./typed";

/** The larger view of the sun print stands open in the margin. */
export const print_large = signal(false);

function TimeTyped() {
  const input = useRef<HTMLInputElement>(null);
  const [hint, set_hint] = useState("");
  const note = useRef(""); // of what was just typed
  const hint_id = useId();
  const says = when_says.value;
  useEffect(() => {
    if (input.current !== null) input.current.value = says;
    set_hint(note.current);
    note.current = "";
  }, [says]);

  function take(text: string): void {
    if (text.trim() === says) return;
    const typed = typed_when(text, day_now());
    if ("hint" in typed) {
      set_hint(typed.hint);
      saying.value = typed.hint;
      return;
    }
    set_hint(typed.note ?? "");
    note.current = typed.note ?? "";
    if (typed.when === "growing") choose_growing();
    else if (typed.when.kind === "months") choose_months(typed.when);
    else if (typed.when.kind === "day") choose_day(typed.when.day);
    else choose_moment(typed.when.day, typed.when.clock);
    tell_moment();
    if (typed.note !== undefined) saying.value = typed.note;
    if (input.current !== null) input.current.value = when_says.peek();
  }
  return (
    <form
      class="band-typed"
      onSubmit={(event) => {
        event.preventDefault();
        take(input.current?.value ?? "");
        input.current?.select();
      }}
    >
      <input
        ref={input}
        type="text"
        class="band-time"
        data-entry
        autocomplete="off"
        spellcheck={false}
        enterkeyhint="go"
        aria-label="The time shown: a month, a day or a moment, such as 15 Jun 16:20"
        aria-invalid={hint !== ""}
        aria-describedby={hint === "" ? undefined : hint_id}
        onFocus={(event) => event.currentTarget.select()}
        onBlur={(event) => {
          if (event.currentTarget.value.trim() === "") event.currentTarget.value = says;
        }}
        onKeyDown={(event) => {
          if (event.key !== "Escape" || event.currentTarget.value === says) return;
          event.stopPropagation();
          event.preventDefault();
          event.currentTarget.value = says;
          set_hint("");
        }}
      />
      {hint !== "" && <p class="band-hint" id={hint_id}>{hint}</p>}
    </form>
  );
}

function caption(): string {
  const moment = moment_says();
  if (moment !== "") return moment;
  if (print_shown() !== null)
    return `The sun on ${selected.value}, clear sky. Yellow: the sun is on it. Ink: what takes it; striped, two at once.`;
  return "Touch a month, a day on the rail, or a moment between; or type 15 Jun 16:20.";
}

export function BandWords() {
  return (
    <div class="band-words">
      <TimeTyped />
      <div class="band-links">
        <button type="button" class="word-button" disabled={is_growing_now()} onClick={choose_growing}>
          Growing months
        </button>
        {print_shown() !== null && (
          <button type="button" class="word-button" aria-pressed={print_large.value} onClick={() => (print_large.value = !print_large.value)}>
            {print_large.value ? "Smaller" : "Larger"}
          </button>
        )}
      </div>
      <p class="band-caption">{caption()}</p>
    </div>
  );
}
