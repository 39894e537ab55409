// What is added and has no place on the sheet: the figures that it needs, asked for in a few fields.
import { useEffect, useId, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { SchemaKey } from "../api";
import { link, month_names } from "../state";
import { add_typed, adding, type Addable, asked_key, is_needed, leave_adding, words_for } from "../tools";
import { called, range_says } from "./facts";
import { ids_for } from "./offered";
import { example, is_imperial, type Told, ToldAt } from "./typed_fact";

/** Called otherwise than the document does. */
const also_called: Readonly<Record<string, string>> = { m3: "cubic metres" };

const is_reference = (key: SchemaKey) => key.type === "reference" || key.item?.type === "reference";

interface FieldProps {
  name: string;
  known: SchemaKey | null; // null: what it is called
  says: string;
  hint: string;
  words: readonly string[];
  is_needed: boolean;
  is: string;
  set: (text: string) => void;
  told: Told | null;
}

function Field({ name, known, says, hint, words, is_needed: needed, is, set, told }: FieldProps) {
  const id = useId();
  const shared = { "aria-label": says, "aria-invalid": told !== null, "aria-describedby": told !== null ? `${id}-told` : undefined, "aria-required": needed };
  const range = known === null || name === "month" || known.type === "number" ? "" : range_says(known, is_imperial());
  const choices: readonly (readonly [string, string])[] | null =
    name === "month" ? month_names.map((month, i) => [String(i + 1), month] as const)
    : known !== null && is_reference(known) ? ids_for((known.item ?? known) as never).map((one) => [one, one] as const)
    : known?.type === "choice" ? (known.words ?? []).map((one) => [one, one] as const)
    : null;
  return (
    <li class="fact">
      <span class="fact-name">
        <span class="fact-words">{says}</span>
        <span class="fact-range">{[range, needed ? "needed" : ""].filter((part) => part !== "").join(", ")}</span>
      </span>
      <span class="fact-value">
        {choices !== null ? (
          <select {...shared} value={is} onChange={(event) => set(event.currentTarget.value)}>
            <option value="">{needed ? "choose" : "none"}</option>
            {choices.map(([value, word]) => <option key={value} value={value}>{word}</option>)}
          </select>
        ) : (
          <input type="text" {...shared} value={is} placeholder={hint} autocomplete="off" list={words.length > 0 ? `${id}-words` : undefined} onInput={(event) => set(event.currentTarget.value)} />
        )}
        {words.length > 0 && choices === null && <datalist id={`${id}-words`}>{words.map((word) => <option key={word} value={word} />)}</datalist>}
        <ToldAt id={`${id}-told`} told={told} name={name} />
      </span>
    </li>
  );
}

/** Whose field what was refused is told at; null: at none of them. */
function told_field(what: Addable, told: Told): string | null {
  const all = [...(what.name === undefined ? [] : [what.name.says]), ...what.asks];
  const parts = (told.part ?? "").split("/");
  return all.find((key) => parts.includes(key)) ?? all.find((key) => told.message.startsWith(`${key}: `) || new RegExp(`\\b${key}\\b`).test(told.message)) ?? null;
}

export function AddNotes() {
  const now = adding.value;
  const [typed, set_typed] = useState<Record<string, string>>({});
  const [name, set_name] = useState("");
  const form = useRef<HTMLFormElement>(null);
  useLayoutEffect(() => { // before the next key
    const first = form.current?.querySelector<HTMLElement>("input,select");
    first?.focus({ preventScroll: true });
    first?.scrollIntoView({ block: "nearest" });
  }, []);
  useEffect(() => {
    if ((now?.told ?? null) !== null) form.current?.querySelector<HTMLElement>("[aria-invalid='true']")?.focus();
  }, [now?.told]);
  if (now === null) return null;
  const { what, told, is_sent } = now;
  const field = told === null ? null : told_field(what, told);
  const at = (key: string) => (field === key ? told : null);
  const changed = () => void (adding.value = { ...now, told: null });
  return (
    <section class="notes" aria-label={`Adding: ${what.says.toLowerCase()}`}>
      <div class="thing-head"><h2 class="thing-name">{what.says}</h2></div>
      <form
        class="part"
        ref={form}
        onSubmit={(event) => {
          event.preventDefault();
          void add_typed(typed, name);
        }}
        onKeyDown={(event) => {
          if (event.key !== "Escape") return;
          event.preventDefault();
          event.stopPropagation();
          leave_adding();
        }}
      >
        <ul class="facts">
          {what.name !== undefined && (
            <Field
              name={what.name.says} known={null} says={what.name.says} hint={what.name.hint} is={name} told={at(what.name.says)} is_needed={what.table !== "task"}
              words={what.name.catalogue === undefined ? [] : words_for({ name: "", type: "word", catalogue: what.name.catalogue })}
              set={(text) => { set_name(text); changed(); }}
            />
          )}
          {what.asks.map((key) => {
            const known = asked_key(what, key);
            if (known === undefined) return null;
            return (
              <Field
                key={key} name={key} known={known} says={also_called[key] ?? called(known)} hint={example[known.type] ?? ""} is={typed[key] ?? ""} told={at(key)} is_needed={is_needed(what, key)} words={words_for(known)}
                set={(text) => { set_typed({ ...typed, [key]: text }); changed(); }}
              />
            );
          })}
        </ul>
        {told !== null && field === null && <ToldAt id="" told={told} name="" />}
        <p class="deeds">
          <button type="submit" class="word-button strong" disabled={is_sent || link.value === "read_only"}>Add it</button>
          <button type="button" class="word-button" onClick={leave_adding}>Leave it</button>
        </p>
        <p class="small">What else is known of it is typed in its notes, once it is there.</p>
      </form>
    </section>
  );
}
