// A figure of a first step, with what it may be beneath it, and what is wrong with it.
import { useEffect, useId, useRef } from "preact/hooks";
import { comma_hint, metres_in } from "../../geometry";
import type { SchemaKey } from "../../api";
import { bounds_say, range_says } from "../facts";
import { plain_refusal, type Refusal } from "../place_figure";
import { is_imperial, is_locked } from "../typed_fact";

export type Wrong = Refusal;

interface FigureProps {
  label: string;
  is: string;
  take: (text: string) => void;
  wrong?: Wrong | null;
  quiet?: string; // beneath the label
  first?: boolean; // has the focus when it comes
  unit?: string;
  optional?: boolean; // Enter passes it by
}

const is_touched = () => matchMedia("(pointer: coarse)").matches;

/** What is wrong with a length that was typed; null: nothing, or nothing is there yet. `known`: the key
of the document that it is for, whose bounds it keeps. */
export function wrong_length(text: string, known?: SchemaKey): Wrong | null {
  if (text.trim() === "") return null;
  const metres = metres_in(text, is_imperial());
  if (metres === null) return { message: "That is no length.", hint: comma_hint(text) ?? "Such as 7.2, 7.2 m or 23 ft 6 in." };
  if (known === undefined || (metres >= (known.low ?? -Infinity) && metres <= (known.high ?? Infinity))) return null;
  return { message: metres < (known.low ?? -Infinity) ? "It cannot be that short." : "It cannot be that long.", hint: bounds_say(known, is_imperial()) };
}

/** The same of degrees. */
export function wrong_angle(text: string, known?: SchemaKey): Wrong | null {
  if (text.trim() === "") return null;
  const degrees = degrees_in(text);
  if (degrees === null) return { message: "That is no angle.", hint: "Degrees, such as 15 or 15°." };
  if (known === undefined || (degrees >= (known.low ?? -Infinity) && degrees <= (known.high ?? Infinity))) return null;
  return { message: "It cannot be that.", hint: `It can be ${range_says(known, false)}.` };
}

export function degrees_in(text: string): number | null {
  const plain = text.trim().replace(",", ".").replace(/\s*°$/, "").replace("−", "-");
  return /^-?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}

export function Figure({ label, is, take, wrong = null, quiet = "", first = false, unit, optional = false }: FigureProps) {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (first && !is_touched()) input.current?.focus({ preventScroll: true });
  }, []);
  const refusal = useRef<HTMLParagraphElement>(null);
  useEffect(() => refusal.current?.scrollIntoView({ block: "nearest" }), [wrong?.message]);
  return (
    <li class="fact step-figure" data-optional={optional ? "" : undefined}>
      <label class="fact-name" for={`${id}-in`}>
        <span class="fact-words">{label}</span>
        {quiet !== "" && <span class="fact-range">{quiet}</span>}
      </label>
      <span class="fact-value">
        <input
          id={`${id}-in`}
          ref={input}
          type="text"
          class="number"
          inputMode={is_imperial() ? "text" : "decimal"}
          autocomplete="off"
          enterkeyhint="next"
          value={is}
          placeholder={unit ?? (is_imperial() ? "ft" : "m")}
          readOnly={is_locked()}
          aria-invalid={wrong !== null}
          aria-describedby={wrong !== null ? `${id}-told` : undefined}
          onFocus={(event) => event.currentTarget.select()}
          onInput={(event) => take(event.currentTarget.value)}
        />
      </span>
      {wrong !== null && <p ref={refusal} id={`${id}-told`} class="told" role="alert"><strong>{plain_refusal(wrong).message}</strong> {plain_refusal(wrong).hint}</p>}
    </li>
  );
}

/** Enter goes to the next empty field, and from the last one keeps what is typed. */
export function enter_goes_on(event: KeyboardEvent, keep: () => void): void {
  if (event.key !== "Enter" || !(event.target instanceof HTMLInputElement)) return;
  event.preventDefault();
  event.stopPropagation();
  const fields = [...(event.currentTarget as HTMLElement).querySelectorAll<HTMLInputElement>("input[type=text]:not([data-optional] *)")];
  const here = fields.indexOf(event.target);
  const next = fields.find((field, i) => i > here && field.value.trim() === "");
  if (next !== undefined) next.focus();
  else keep();
}
