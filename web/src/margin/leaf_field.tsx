// One field of a value with parts: a word chosen or typed, a figure, yes or no, the id of an entry that fits.
import { useEffect, useId, useRef } from "preact/hooks";
import { ids_for, offered_for } from "./offered";
import { example, is_locked, type Told } from "./typed_fact";
import type { Draft, Leaf, Path, Type } from "./values";

export interface Fields {
  type: Type;
  draft: Draft;
  path: Path;
  name: string; // "mix 2, share": as who listens hears it
  set: (draft: Draft) => void;
  told: { at: Path; is: Told } | null;
}

const same = (a: Path, b: Path) => a.length === b.length && a.every((one, i) => one === b[i]);

export const figures = new Set(["number", "whole", "share", "length", "stem", "angle", "temperature"]);

interface LeafProps extends Fields {
  draft: Leaf;
}

export function LeafField({ type, draft, path, name, set, told }: LeafProps) {
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  const is_told = told !== null && same(told.at, path);
  useEffect(() => {
    if (is_told) field.current?.focus({ preventScroll: true });
  }, [told]);
  if (type.type === "yes_no")
    return (
      <label class="yes-no">
        <input type="checkbox" aria-label={name} checked={draft.text === "true"} disabled={is_locked()} onChange={({ currentTarget: { checked } }) => set({ text: String(checked), is: checked })} />
        <span>{draft.text === "true" ? "yes" : "no"}</span>
      </label>
    );
  if (type.type === "choice" || type.type === "reference") {
    const words = type.type === "choice" ? (type.words ?? []) : [...(type.words ?? []), ...ids_for(type)];
    const all = draft.text === "" || words.includes(draft.text) ? words : [draft.text, ...words];
    return (
      <select aria-label={name} aria-invalid={is_told} value={draft.text} disabled={is_locked()} onChange={({ currentTarget: { value } }) => set({ text: value })}>
        <option value="">{type.needed === true || type.type === "reference" ? "choose" : "as is usual"}</option>
        {all.map((word) => <option key={word} value={word}>{word}</option>)}
      </select>
    );
  }
  const offered = offered_for(type);
  return (
    <>
      <input
        ref={field}
        type="text"
        class={figures.has(type.type) ? "number" : ""}
        aria-label={name}
        aria-invalid={is_told}
        aria-describedby={is_told ? `${id}-told` : undefined}
        autocomplete="off"
        list={offered.length > 0 ? `${id}-words` : undefined}
        placeholder={(type.default ?? "").replace(/"/g, "") || (example[type.type] ?? type.catalogue ?? "")}
        value={draft.text}
        readOnly={is_locked()}
        onFocus={(event) => event.currentTarget.select()}
        onInput={(event) => set({ text: event.currentTarget.value })}
      />
      {offered.length > 0 && <datalist id={`${id}-words`}>{offered.map((word) => <option key={word} value={word} />)}</datalist>}
    </>
  );
}
