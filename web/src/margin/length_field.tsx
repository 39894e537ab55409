// A length in a form: kept as it is typed, read when the form is sent.
import { useId } from "preact/hooks";

interface LengthProps {
  label: string;
  value: string;
  set: (text: string) => void;
  is_wrong?: boolean;
}

export function LengthField({ label, value, set, is_wrong = false }: LengthProps) {
  const id = useId();
  return (
    <p class="tape-corner">
      <label for={id}>{label}</label>
      <input id={id} type="text" class="number form-length" autocomplete="off" value={value} aria-invalid={is_wrong} onFocus={(event) => event.currentTarget.select()} onInput={(event) => set(event.currentTarget.value)} />
    </p>
  );
}

interface ChoiceProps {
  label: string;
  value: string;
  words: readonly (readonly [string, string])[];
  set: (value: string) => void;
}

export function ChoiceField({ label, value, words, set }: ChoiceProps) {
  const id = useId();
  return (
    <p class="tape-corner">
      <label for={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => set(event.currentTarget.value)}>
        {words.map(([of, says]) => <option key={of} value={of}>{says}</option>)}
      </select>
    </p>
  );
}
