// Where a figure comes from: its chain, down to the sources, in place of the notes.
import type { Trace } from "../api";
import { ask_why, why } from "../state";
import { capital, sources_of } from "./words";

/** A number that can be asked why. */
export function Asked({ pointer, says, about }: { pointer: string; says: string; about: string }) {
  return (
    <button type="button" class="asked" aria-label={`${about}: ${says}. Why?`} onClick={() => ask_why(pointer)}>
      {says}
    </button>
  );
}

function Link({ trace, deep }: { trace: Trace; deep: number }) {
  const inputs = trace.inputs;
  const line = (
    <>
      <span class="why-name">{capital(trace.name)}</span> <span class="why-value">{trace.value}</span>
    </>
  );
  return (
    <li>
      {inputs.length === 0 ? (
        <p>
          {line}
          {trace.standing !== undefined && <span class="why-standing"> {trace.standing}</span>}
          {trace.where !== undefined && trace.where !== "" && <span class="why-standing"> {trace.where}</span>}
        </p>
      ) : (
        <details open={deep < 1}>
          <summary>{line}</summary>
          {trace.method !== undefined && trace.method !== "" && <p class="why-method">{trace.method}</p>}
          <ul>
            {inputs.map((input, i) => (
              <Link key={`${i} ${input.name}`} trace={input} deep={deep + 1} />
            ))}
          </ul>
        </details>
      )}
    </li>
  );
}

export function Why() {
  const asked = why.value;
  if (asked === null) return null;
  const { trace } = asked;
  return (
    <section class="notes why" aria-label="Why">
      <button type="button" class="word-button why-back" onClick={() => ask_why(null)}>
        Back to the notes
      </button>
      <h2>{capital(trace.name)}</h2>
      <p class="answer">{trace.value}</p>
      {trace.method !== undefined && trace.method !== "" && <p>{trace.method}</p>}
      <h3>From</h3>
      <ul class="why-chain">
        {trace.inputs.map((input, i) => (
          <Link key={`${i} ${input.name}`} trace={input} deep={1} />
        ))}
      </ul>
      <h3>Sources</h3>
      <ul class="why-sources">
        {sources_of(trace).map((source) => (
          <li key={source.key}>{source.citation}</li>
        ))}
      </ul>
    </section>
  );
}
