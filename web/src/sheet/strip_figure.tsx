// A figure in a strip over the sheet: it follows the hand until somebody types in it.
import { useEffect, useRef } from "preact/hooks";
import { length_says, metres_in, tidy_figure } from "../geometry";
import { state } from "../state";
import { snaps_on } from "../tools";

interface FigureProps {
  label: string;
  is: number; // metres, or degrees
  unit?: "m" | "°";
  take: (figure: number) => void;
}

const is_imperial = () => state.value?.site.units === "imperial";

function degrees_in(text: string): number | null {
  const plain = tidy_figure(text)?.replace(/\s*°$/, "");
  return plain !== undefined && /^[-+]?\d+(\.\d*)?$/.test(plain) ? Number(plain) : null;
}

export function StripFigure({ label, is, unit = "m", take }: FigureProps) {
  const input = useRef<HTMLInputElement>(null);
  const says = unit === "m" ? length_says(is, is_imperial()) : `${Number(is.toFixed(1))}°`;
  useEffect(() => {
    if (input.current !== null && document.activeElement !== input.current) input.current.value = says;
  }, [says]);

  function typed(text: string): void {
    const figure = unit === "m" ? metres_in(text, is_imperial()) : degrees_in(text);
    input.current?.setAttribute("aria-invalid", String(figure === null && text.trim() !== ""));
    if (figure !== null) take(figure);
  }
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
          if (input.current !== null) input.current.value = says;
          input.current?.removeAttribute("aria-invalid");
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
