// The facts of a thing as a form made from the schema: each is typed as the grower likes.
import { useState } from "preact/hooks";
import type { FieldOfThing, SchemaKey, Thing } from "../api";
import { act, link, schema } from "../state";
import { capital, stepped, unit_of } from "./words";

const kStep_m = 0.1;
const kRest_ms = 600;
const figures = ["number", "whole", "share", "length", "stem", "angle", "temperature", "amount"];
const words = ["text", "word", "free_word", "date", "day"];

interface Told {
  message: string;
  hint: string;
}

function range_says(key: SchemaKey): string {
  const unit = unit_of(key.name);
  const by = unit === "" ? "" : ` ${unit}`;
  if (key.low !== undefined && key.high !== undefined) return `${key.low} to ${key.high}${by}`;
  if (key.low !== undefined) return `from ${key.low}${by}`;
  return unit;
}

let resting: ReturnType<typeof setTimeout> | undefined;

function Typed({ thing, known, field, guessed }: { thing: Thing; known: SchemaKey; field: FieldOfThing | undefined; guessed: boolean }) {
  const is = field?.typed ?? "";
  const [typing, set_typing] = useState<string | null>(null);
  const [told, set_told] = useState<Told | null>(null);
  const id = `${thing.id}-${known.name}`;
  const locked = link.value === "read_only";
  const keep = async (text: string): Promise<void> => {
    clearTimeout(resting);
    if (text === is) {
      set_typing(null);
      set_told(null);
      return;
    }
    const no = await act.set(thing.id, { [known.name]: text.trim() === "" ? null : text.trim() });
    set_told(no === null ? null : { message: no.message, hint: no.hint });
    if (no === null) set_typing(null);
  };
  const step = (by: number): void => {
    const next = stepped(typing ?? is, by);
    if (next === null) return;
    set_typing(next);
    clearTimeout(resting);
    resting = setTimeout(() => void keep(next), kRest_ms);
  };
  const steps = known.type === "length" && stepped(typing ?? is, 0) !== null && !locked;
  const name = capital(known.called ?? known.name);
  return (
    <div class="fact">
      <label for={id} class={guessed ? "is-guessed" : undefined}>
        {guessed && "≈ "}
        {name}
      </label>
      <span class="fact-value">
        {steps && (
          <button type="button" class="step" aria-label={`${name} less`} onClick={() => step(-kStep_m)}>
            −
          </button>
        )}
        {known.type === "choice" && known.words !== undefined ? (
          <select id={id} value={is} disabled={locked} onChange={(event) => void keep(event.currentTarget.value)}>
            {is === "" && <option value="">{known.default ?? ""}</option>}
            {known.words.map((word) => (
              <option key={word} value={word}>
                {word}
              </option>
            ))}
          </select>
        ) : (
          <input
            id={id}
            value={typing ?? is}
            placeholder={known.default ?? ""}
            readOnly={locked}
            inputMode={figures.includes(known.type) ? "decimal" : "text"}
            autocomplete="off"
            aria-describedby={told === null ? `${id}-hint` : `${id}-told`}
            aria-invalid={told !== null}
            onInput={(event) => set_typing(event.currentTarget.value)}
            onBlur={(event) => void keep(event.currentTarget.value)}
            onKeyDown={(event) => {
              if (event.key === "Enter") void keep(event.currentTarget.value);
              if (event.key === "Escape" && typing !== null) {
                event.stopPropagation();
                set_typing(null);
                set_told(null);
              }
            }}
          />
        )}
        {steps && (
          <button type="button" class="step" aria-label={`${name} more`} onClick={() => step(kStep_m)}>
            +
          </button>
        )}
        <span id={`${id}-hint`} class="fact-hint">
          {range_says(known)}
        </span>
      </span>
      {told !== null && (
        <p id={`${id}-told`} class="told" role="alert">
          {told.message} {told.hint}
        </p>
      )}
    </div>
  );
}

function YesNo({ thing, known, field }: { thing: Thing; known: SchemaKey; field: FieldOfThing | undefined }) {
  const id = `${thing.id}-${known.name}`;
  return (
    <div class="fact">
      <label for={id}>{capital(known.called ?? known.name)}</label>
      <span class="fact-value">
        <input
          id={id}
          type="checkbox"
          checked={field?.value === true}
          disabled={link.value === "read_only"}
          onChange={(event) => void act.set(thing.id, { [known.name]: event.currentTarget.checked })}
        />
      </span>
    </div>
  );
}

export function Facts({ thing }: { thing: Thing }) {
  const table = schema.value?.tables.find((one) => one.name === thing.table);
  if (table === undefined || thing.mark === "removed") return null;
  const guessed = Array.isArray(thing.fields["guessed"]?.value) ? (thing.fields["guessed"].value as string[]) : [];
  const can = table.keys.filter(
    (key) => ![..."id status removed guessed scheme".split(" ")].includes(key.name) &&
      [...figures, ...words, "choice", "yes_no"].includes(key.type),
  );
  const given = can.filter((key) => thing.fields[key.name] !== undefined || key.needed);
  const more = can.filter((key) => !given.includes(key));
  const row = (key: SchemaKey) => {
    const field = thing.fields[key.name];
    return key.type === "yes_no" ? (
      <YesNo key={`${thing.id} ${key.name}`} thing={thing} known={key} field={field} />
    ) : (
      <Typed key={`${thing.id} ${key.name}`} thing={thing} known={key} field={field} guessed={guessed.includes(key.name)} />
    );
  };
  return (
    <>
      <h3>Its figures</h3>
      <div class="facts">{given.map(row)}</div>
      {more.length > 0 && (
        <details>
          <summary>More figures</summary>
          <div class="facts">{more.map(row)}</div>
        </details>
      )}
    </>
  );
}
