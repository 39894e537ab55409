// A thing selected: its answer, what takes its light, its months, its figures, what can be done.
import type { Place, Taker, Thing } from "../api";
import { act, field, garden, hovered, link, place_of, places_loading, scheme, selected, takers, trying, without } from "../state";
import { link_to_picture, month_names, when } from "../state";
import { Facts } from "./form";
import { Gained } from "./garden_notes";
import { Asked } from "./why";
import { capital, hours, moles, share, year_hours } from "./words";

const kMostTakers = 8;

function Bar({ taker, most }: { taker: Taker; most: number }) {
  return (
    <tr onPointerEnter={() => (hovered.value = taker.id)} onPointerLeave={() => (hovered.value = null)}>
      <th scope="row">
        {taker.letter !== "" && <span class={`disc-small ink-${taker.ink}`}>{taker.letter}</span>}
        {taker.called}
      </th>
      <td class="bar-cell" aria-hidden="true">
        <svg class={`bar ink-${taker.ink}`} viewBox="0 0 100 10" preserveAspectRatio="none">
          <rect width={((100 * taker.sun_h_per_year) / most).toFixed(1)} height="10" />
        </svg>
      </td>
      <td>{year_hours(taker.sun_h_per_year)}</td>
    </tr>
  );
}

function WhoTakes({ place }: { place: Place }) {
  const of = takers.value;
  if (of === null || of.place !== place.id) return null;
  const most = Math.max(1, ...of.takers.map((taker) => taker.sun_h_per_year));
  const shown = of.takers.filter((taker) => taker.sun_h_per_year >= 0.5).slice(0, kMostTakers);
  if (shown.length === 0) return <p class="quiet">Nothing takes its sun.</p>;
  return (
    <table class="figures takers">
      <caption>Who takes its sun: hours a year that each alone, gone, would give back</caption>
      <tbody>
        {shown.map((taker) => (
          <Bar key={taker.id} taker={taker} most={most} />
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row" colSpan={2}>
            taken twice, by two at once
          </th>
          <td>{year_hours(of.taken_twice_h)}</td>
        </tr>
        <tr>
          <th scope="row" colSpan={2}>
            taken in all
          </th>
          <td>{year_hours(of.lost_h)}</td>
        </tr>
      </tfoot>
    </table>
  );
}

function Months({ place }: { place: Place }) {
  const now = when.value;
  const chosen = now.kind === "months" ? now.months : [Number(now.day.slice(0, 2)) - 1];
  return (
    <table class="figures months">
      <caption>A mean day of each month</caption>
      <thead>
        <tr>
          <th scope="col">Month</th>
          <th scope="col">Sun, h</th>
          <th scope="col">With cloud, h</th>
          <th scope="col">Light, mol/m²</th>
          <th scope="col">Of the open</th>
        </tr>
      </thead>
      <tbody>
        {place.months.map((month, m) => {
          const at = `/light/places/${place.id}/months/${m}`;
          const name = month_names[m] ?? "";
          return (
            <tr key={name} class={chosen.includes(m) ? "is-chosen" : undefined}>
              <th scope="row">{name.slice(0, 3)}</th>
              <td>
                <Asked pointer={`${at}/sun_h_per_day`} says={hours(month.sun_h_per_day)} about={`Sun in ${name}`} />
              </td>
              <td>
                <Asked pointer={`${at}/sunshine_h_per_day`} says={hours(month.sunshine_h_per_day)} about={`With cloud in ${name}`} />
              </td>
              <td>
                <Asked pointer={`${at}/dli_mol_m2_d`} says={moles(month.dli_mol_m2_d)} about={`Light in ${name}`} />
              </td>
              <td>
                <Asked pointer={`${at}/share_of_open`} says={share(month.share_of_open)} about={`Of the open in ${name}`} />
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** Where it stands, typed. */
function Stands({ thing }: { thing: Thing }) {
  const first = thing.corners[0];
  if (first === undefined || link.value === "read_only" || thing.mark === "removed") return null;
  const move = (axis: 0 | 1, text: string): void => {
    const to = Number(text.replace(",", "."));
    const by = to - (first[axis] ?? 0);
    if (!Number.isFinite(to) || Math.abs(by) < 0.005) return;
    void act.move(thing.id, axis === 0 ? [by, 0] : [0, by]);
  };
  return (
    <div class="facts">
      {(["Across the sheet", "Up the sheet"] as const).map((name, axis) => (
        <div class="fact" key={name}>
          <label for={`${thing.id}-stands-${axis}`}>{name}</label>
          <span class="fact-value">
            <input
              id={`${thing.id}-stands-${axis}`}
              key={first[axis]}
              defaultValue={(first[axis] ?? 0).toFixed(2)}
              inputMode="decimal"
              autocomplete="off"
              onBlur={(event) => move(axis as 0 | 1, event.currentTarget.value)}
              onKeyDown={(event) => event.key === "Enter" && move(axis as 0 | 1, event.currentTarget.value)}
            />
            <span class="fact-hint">m, its first corner</span>
          </span>
        </div>
      ))}
    </div>
  );
}

function Changed({ thing }: { thing: Thing }) {
  if (thing.mark !== "changed") return null;
  return (
    <p class="changed">
      Changed in the proposal; as found it stays as it is.{" "}
      <button type="button" class="word-button" onClick={() => (selected.value = null)}>
        Keep
      </button>{" "}
      <button type="button" class="word-button" onClick={() => void act.put_back(thing.id)}>
        Put back
      </button>
    </p>
  );
}

function Deeds({ thing }: { thing: Thing }) {
  const away = without.value === thing.id;
  if (thing.mark === "removed")
    return (
      <p>
        Gone in the proposal.{" "}
        <button type="button" class="word-button" onClick={() => void act.put_back(thing.id)}>
          Put back
        </button>
      </p>
    );
  return (
    <>
      <p class="deeds">
        <button type="button" class="word-button" aria-pressed={away} onClick={() => (without.value = away ? null : thing.id)}>
          {away ? "With it again" : "Try without"}
        </button>
        {link.value !== "read_only" && (
          <button type="button" class="word-button" onClick={() => void act.take_away(thing.id)}>
            Take away
          </button>
        )}
      </p>
      {trying.value !== null && <Gained />}
    </>
  );
}

function ThePrint({ place }: { place: Place }) {
  const id = garden.value;
  if (id === null) return null;
  return (
    <details class="print-large">
      <summary>The sun print, large</summary>
      <img
        src={link_to_picture(id, scheme.value, "svg", place.id)}
        alt={`When in the year and the day the sun reaches ${place.id}, and what takes it. The table of months has its figures.`}
        loading="lazy"
      />
      <p class="deeds">
        <a class="word-button" href={link_to_picture(id, scheme.value, "svg", place.id)} download>
          As SVG
        </a>
        <a class="word-button" href={link_to_picture(id, scheme.value, "png", place.id)} download>
          As PNG
        </a>
      </p>
    </details>
  );
}

export function ThingNotes({ thing }: { thing: Thing }) {
  const place = place_of(thing.id);
  const of = takers.value;
  const tried = trying.value?.field.head.beds[thing.id] ?? null;
  const is = field.value?.head.beds[thing.id] ?? null;
  const says = tried !== null && is !== null && Math.abs(tried - is) >= 0.05
    ? `${hours(tried)} hours of sun a day as tried; it has ${hours(is)}.`
    : of !== null && of.place === thing.id ? of.answer : place?.answer;
  return (
    <section class="notes" aria-label={`About ${thing.id}`} aria-busy={places_loading.busy.value}>
      <h2 class="thing-name">{thing.id}</h2>
      <p class="quiet">{capital(String(thing.fields["kind"]?.typed ?? thing.fields["crop"]?.typed ?? thing.table))}</p>
      {says !== undefined && <p class="answer">{says}</p>}
      <Changed thing={thing} />
      <Deeds thing={thing} />
      {place !== null && <WhoTakes place={place} />}
      <Facts thing={thing} />
      <h3>Where it stands</h3>
      <Stands thing={thing} />
      {place !== null && <Months place={place} />}
      {place !== null && <ThePrint place={place} />}
      <p class="deeds">
        <button type="button" class="word-button" onClick={() => (selected.value = null)}>
          Back to the garden
        </button>
      </p>
    </section>
  );
}
