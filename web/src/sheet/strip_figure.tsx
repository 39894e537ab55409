// A figure in a strip over the sheet: it follows the hand until somebody types in it.
import { signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { comma_hint, length_says, metres_in, tidy_figure } from "../geometry";
import { state } from "../state";
import { snaps_on } from "../tools";

interface FigureProps {
  label: string;
  is: number; // metres, or degrees
  unit?: "m" | "°";
  is_size?: boolean; // over 0
  take: (figure: number) => void;
}

const is_imperial = () => state.value?.site.units === "imperial";

function degrees_in(text: string): number | null {
  const plain = tidy_figure(text)?.replace(/\s*(°|deg)$/, "");
  return plain !== undefined && /^[-+]?\d+(\.\d*)?$/.test(plain) ? Number(plain) : null;
}

interface Wrong {
  message: string;
  hint: string;
}
/** Figures that cannot be, by their labels: nothing is set down by them. */
const wrong = signal<ReadonlyMap<string, Wrong>>(new Map());
function note_wrong(label: string, is: Wrong | null): void {
  const next = new Map(wrong.peek());
  if (is === null) next.delete(label);
  else next.set(label, is);
  wrong.value = next;
}
function wrong_of(text: string, figure: number | null, unit: "m" | "°", is_size: boolean): Wrong | null {
  if (text.trim() === "") return null;
  if (figure === null) return unit === "m" ? { message: "That is no length.", hint: comma_hint(text) ?? (is_imperial() ? "Such as 7 ft 6 in or 7.5." : "Such as 2.4, 2.4 m or 240 cm.") } : { message: "That is no direction.", hint: "Degrees, such as 15 or -15." };
  return is_size && figure <= 0 ? { message: "It cannot be that short.", hint: "A length over 0." } : null;
}

/** Whether all that is typed in the strip can be; what cannot is where the typing goes on. */
export function strip_is_right(strip: HTMLElement): boolean {
  if (wrong.peek().size === 0) return true;
  strip.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
  return false;
}

export function StripWrong() {
  return (
    <>
      {[...wrong.value].map(([label, { message, hint }]) => <p key={label} class="strip-told" role="alert"><strong>{label}: {message}</strong> {hint}</p>)}
    </>
  );
}

export function StripFigure({ label, is, unit = "m", is_size = false, take }: FigureProps) {
  const input = useRef<HTMLInputElement>(null);
  const says = unit === "m" ? length_says(is, is_imperial()) : `${Number(is.toFixed(1))}°`;
  useEffect(() => {
    if (input.current !== null && document.activeElement !== input.current) input.current.value = says;
  }, [says]);

  function typed(text: string): void {
    const figure = unit === "m" ? metres_in(text, is_imperial()) : degrees_in(text);
    const no = wrong_of(text, figure, unit, is_size);
    input.current?.setAttribute("aria-invalid", String(no !== null));
    note_wrong(label, no);
    if (figure !== null && no === null) take(figure);
  }
  useEffect(() => () => note_wrong(label, null), []);
  return (
    <label class="strip-figure">
      {label}
      <input
        ref={input}
        type="text"
        class="number"
        inputMode="text"
        autocomplete="off"
        onInput={(event) => typed(event.currentTarget.value)}
        onFocus={(event) => event.currentTarget.select()}
        onBlur={() => {
          if (input.current !== null && !wrong.peek().has(label)) input.current.value = says;
        }}
      />
    </label>
  );
}

/** To lines about it, or freely: Alt does it for as long as it is held. */
export function SnapsWord() {
  return (
    <button type="button" class="word-button snaps-word" aria-pressed={snaps_on.value} title="Alt held: freely" onClick={() => (snaps_on.value = !snaps_on.value)}>
      To lines
    </button>
  );
}

/** The strip goes when its work is done; the focus in it goes back to the sheet. */
export function and_back(done: () => void): void {
  const was_here = document.activeElement?.closest(".move-strip,.view-words,.section-panel") != null;
  done();
  if (was_here) document.querySelector<HTMLElement>('[data-region="sheet"]')?.focus({ preventScroll: true });
}
