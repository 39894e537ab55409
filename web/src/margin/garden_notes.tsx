// Nothing selected: the garden's answer, one next step, findings, what is guessed; or, of two
// schemes, what each place gains.
import type { Finding } from "../api";
import { compared, field, findings, places, schema, scheme, selected, state, things, trying, when_says } from "../state";
import { scheme_says } from "../sheet";
import { guess_says, hours, signed } from "./words";

const kMostFindings = 5;
const grades = { must: "To put right", should: "To look at", note: "Good to know" } as const;

export function called(id: string, key: string): string {
  const table = things.value.get(id)?.table ?? id;
  const known = schema.value?.tables.find((one) => one.name === table)?.keys.find((one) => one.name === key);
  return known?.called ?? key;
}

function Found({ finding }: { finding: Finding }) {
  return (
    <li>
      <details>
        <summary>
          <span class={`grade grade-${finding.grade}`}>{grades[finding.grade]}</span> {finding.says}
        </summary>
        {finding.mend.map((mend) => (
          <p key={mend} class="mend">
            {mend}
          </p>
        ))}
        {finding.numbers.map((number) => (
          <p key={number.name} class="found-number">
            {number.name}: {number.value}
          </p>
        ))}
      </details>
    </li>
  );
}

function Findings() {
  const all = findings.value;
  if (all === null) return null;
  return (
    <>
      <h3>Findings</h3>
      {all.length === 0 && <p class="quiet">Nothing to put right.</p>}
      <ul class="findings">
        {all.slice(0, kMostFindings).map((finding) => (
          <Found key={finding.says} finding={finding} />
        ))}
      </ul>
      {all.length > kMostFindings && (
        <details>
          <summary>{all.length - kMostFindings} more</summary>
          <ul class="findings">
            {all.slice(kMostFindings).map((finding) => (
              <Found key={finding.says} finding={finding} />
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

function Guessed() {
  const guessed = state.value?.guessed ?? [];
  if (guessed.length === 0) return null;
  return (
    <>
      <h3>Still guessed</h3>
      <ul class="guessed">
        {guessed.map((guess) => (
          <li key={guess}>≈ {guess_says(guess, called)}</li>
        ))}
      </ul>
    </>
  );
}

/** Hours of the two schemes by place, what gained most first. */
function Gains() {
  const all = places.value;
  const second = compared.value;
  if (all === null || second === null) return null;
  const rows = all.places
    .filter((place) => place.against_sun_h_per_day !== undefined)
    .map((place) => ({ place, gain: place.sun_h_per_day - (place.against_sun_h_per_day ?? 0) }))
    .sort((a, b) => b.gain - a.gain);
  return (
    <table class="figures">
      <caption>
        Hours of sun a day, {when_says.value}: {scheme_says(scheme.value)} against {scheme_says(second)}
      </caption>
      <thead>
        <tr>
          <th scope="col">Place</th>
          <th scope="col">Gain</th>
          <th scope="col">From</th>
          <th scope="col">To</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ place, gain }) => (
          <tr key={place.id}>
            <th scope="row">
              <button type="button" class="place-name" onClick={() => (selected.value = place.id)}>
                {place.id}
              </button>
            </th>
            <td>{signed(gain)}</td>
            <td>{hours(place.against_sun_h_per_day ?? 0)}</td>
            <td>{hours(place.sun_h_per_day)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Of a thing moved or thought away: what the beds gain and lose by it. */
export function Gained() {
  const trial = trying.value;
  const now = field.value;
  if (trial === null || now === null) return null;
  const gains = Object.entries(trial.field.head.beds)
    .map(([bed, h]) => ({ bed, gain: (h ?? 0) - (now.head.beds[bed] ?? 0) }))
    .filter(({ gain }) => Math.abs(gain) >= 0.05)
    .sort((a, b) => Math.abs(b.gain) - Math.abs(a.gain));
  if (gains.length === 0) return <p class="quiet">No bed gains or loses by it.</p>;
  return (
    <p class="gained">
      {gains.slice(0, 6).map(({ bed, gain }, i) => (
        <span key={bed}>
          {i > 0 && ", "}
          <em>{bed}</em> {signed(gain)} h
        </span>
      ))}
    </p>
  );
}

export function GardenNotes() {
  const all = places.value;
  return (
    <section class="notes" aria-label="About the garden">
      <p class="answer">{all?.answer ?? "…"}</p>
      {compared.value !== null && <Gains />}
      {all !== null && (
        <>
          <h3>Next</h3>
          <p>{all.next_step}</p>
        </>
      )}
      <Findings />
      <Guessed />
    </section>
  );
}
