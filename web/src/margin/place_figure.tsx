// A figure of a place: typed in any unit, and refused where it is typed.
import { useEffect, useRef, useState } from "preact/hooks";
import { comma_hint, metres_in } from "../geometry";
import { link, schema } from "../state";
import { in_plain_words } from "./chain";
import { capital, sentence } from "./format";
import { is_imperial } from "./typed_fact";

export interface Refusal {
  message: string;
  hint: string;
}
const no_length = (text: string): Refusal => ({ message: "That is no length.", hint: comma_hint(text) ?? "Such as 2.4, 2.4 m or 7 ft 6 in." });

/** In growers' words, as sentences. */
export function plain_refusal({ message, hint }: Refusal): Refusal {
  const plain = (words: string) => sentence(capital(in_plain_words(words, schema.value, is_imperial())));
  return { message: plain(message), hint: plain(hint) };
}

export function RefusalLine({ told }: { told: Refusal }) {
  const { message, hint } = plain_refusal(told);
  return <p class="told" role="alert"><strong>{message}</strong> {hint}</p>;
}

interface PlaceFigureProps {
  label: string;
  is_unseen?: boolean; // the label is heard, and not seen
  says: string;
  take: (metres: number, text: string) => Promise<Refusal | null> | undefined;
}

export function PlaceFigure({ label, is_unseen = false, says, take }: PlaceFigureProps) {
  const input = useRef<HTMLInputElement>(null);
  const is_typed = useRef(false);
  const sent = useRef<{ text: string; before: string; is_open: boolean } | null>(null); // and refused, when it is not open
  const [answers, count] = useState(0);
  const [told, set_told] = useState<Refusal | null>(null);
  function show(): void {
    is_typed.current = false;
    sent.current = null;
    if (input.current !== null) input.current.value = says;
    set_told(null);
  }
  useEffect(() => {
    const last = sent.current;
    const is_answered = last === null || (!last.is_open && says !== last.before); // a refusal stays until the figure is another
    if (!is_typed.current && is_answered) show();
  }, [says, answers]);
  function keep(text: string): void {
    if (!is_typed.current) return;
    is_typed.current = false;
    if (text.trim() === says) return set_told(null);
    const metres = metres_in(text, is_imperial());
    if (metres === null) return set_told(no_length(text));
    set_told(null);
    const last = { text, before: says, is_open: true };
    sent.current = last;
    const done = take(metres, text.trim());
    if (done === undefined) return void (sent.current = null);
    void done.then((no) => {
      last.is_open = false;
      if (sent.current !== last) return;
      count((n) => n + 1);
      if (no === null) sent.current = null;
      else if (input.current !== null) input.current.value = text; // to be mended
      set_told(no);
    });
  }
  const field = (
    <input
      ref={input}
      type="text"
      class="number"
      autocomplete="off"
      aria-label={is_unseen ? label : undefined}
      aria-invalid={told !== null}
      readOnly={link.value === "read_only"}
      onFocus={(event) => event.currentTarget.select()}
      onInput={() => (is_typed.current = true)}
      onBlur={(event) => keep(event.currentTarget.value)}
      onKeyDown={(event) => {
        if (event.key === "Enter") keep(event.currentTarget.value);
        if (event.key === "Escape") show();
      }}
    />
  );
  return (
    <>
      {is_unseen ? field : <label class="place-figure"><span>{label}</span>{field}</label>}
      {told !== null && <RefusalLine told={told} />}
    </>
  );
}
