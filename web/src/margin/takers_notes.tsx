// Who takes the light of a place: bars in their inks, what each would give back if it alone were gone.
import { useEffect, useState } from "preact/hooks";
import type { Place, Taker, Takers } from "../api";
import { InkBar, ink_colour } from "../band";
import { hovered, place_of, saying, state, takers, takers_loading, things, told_takers } from "../state";
import { select } from "../tools";
import { year_hours } from "./format";
import { Why } from "./why_words";

export function Disc({ letter, ink }: { letter: string; ink: number }) {
  if (letter === "") return <span class="disc-room" />;
  const colour = ink_colour(ink, "var(--graphite)");
  return <span class={`disc ${letter.length > 1 ? "is-long" : ""}`} style={{ background: colour }} aria-hidden="true">{letter}</span>;
}

const is_guessed = (id: string) => (state.value?.guessed ?? []).some((one) => one.split(".")[0] === id);

function Row({ taker, most, place }: { taker: Taker; most: number; place: string }) {
  const hours = year_hours(taker.sun_h_per_year, is_guessed(taker.id));
  const is_thing = things.value.has(taker.id) && taker.id !== place;
  const name = (
    <>
      <Disc letter={taker.letter} ink={taker.ink} />
      <span class="taker-name">{taker.called}</span>
    </>
  );
  return (
    <li
      class="taker"
      onMouseEnter={() => is_thing && (hovered.value = taker.id)}
      onMouseLeave={() => (hovered.value = null)}
    >
      {is_thing ? (
        <button type="button" class="taker-thing" onClick={() => select(taker.id)}>{name}</button>
      ) : (
        <span class="taker-thing">{name}</span>
      )}
      <span class="taker-bar">
        <span class="taker-long" style={{ width: `${Math.max(2, (100 * taker.sun_h_per_year) / most)}%` }}>
          <InkBar inks={[taker.ink]} name="bar" />
        </span>
      </span>
      <Why
        pointer={`/light/places/${place}/takers/${taker.id}/sun_h_per_year`}
        figure={hours}
        of={`${taker.called} would give back ${hours} hours a year`}
      />
    </li>
  );
}

function Sum({ says, hours, on_guesses, pointer, inks }: { says: string; hours: number; on_guesses: boolean; pointer: string; inks: readonly [number, number] | null }) {
  const told = year_hours(hours, on_guesses);
  return (
    <li class="taker taker-sum">
      <span class="taker-thing">{inks !== null && <InkBar inks={inks} name="disc-stripes" />}{says}</span>
      <Why pointer={pointer} figure={told} of={`${says}, ${told} hours a year`} />
    </li>
  );
}

const more_says = (count: number) => `${count} more that ${count === 1 ? "takes" : "take"} less`;

function List({ of }: { of: Takers }) {
  const [all, show_all] = useState(false);
  const counted = of.takers.filter((taker) => taker.sun_h_per_year >= 0.5);
  const most_shown = told_takers.value.length;
  const shown = all ? counted : counted.slice(0, most_shown);
  const most = Math.max(1, ...counted.map((taker) => taker.sun_h_per_year));
  const at = `/light/places/${of.place}`;
  const on_guesses = place_of(of.place)?.year_on_guesses ?? false;
  if (of.lost_h < 0.5) return <p class="quiet">Nothing takes its sun.</p>;
  return (
    <>
      <ul class="takers">
        {shown.map((taker) => <Row key={taker.id} taker={taker} most={most} place={of.place} />)}
        {counted.length > most_shown && (
          <li>
            <button type="button" class="word-button" aria-expanded={all} onClick={() => show_all(!all)}>
              {all ? `Only the first ${most_shown}` : more_says(counted.length - most_shown)}
            </button>
          </li>
        )}
        {of.taken_twice_h >= 0.5 && (
          <Sum says="by two at once" hours={of.taken_twice_h} on_guesses={on_guesses} pointer={`${at}/taken_twice_h`} inks={[counted[0]?.ink ?? 5, counted[1]?.ink ?? 5]} />
        )}
        <Sum says="taken in all" hours={of.lost_h} on_guesses={on_guesses} pointer={`${at}/lost_h`} inks={null} />
      </ul>
      {of.taken_twice_h >= 0.5 && <p class="small">What two take at once, neither alone would give back: so the bars do not add up to all.</p>}
    </>
  );
}

export function TakersNotes({ place }: { place: Place }) {
  const of = takers.value;
  const answer = of?.place === place.id ? of.answer : "";
  useEffect(() => {
    if (answer !== "") saying.value = answer;
  }, [answer]);
  return (
    <div class="part" aria-busy={takers_loading.busy.value}>
      <h3>What takes its sun <span class="head-unit">gives back, h a year</span></h3>
      {of === null || of.place !== place.id ? <p class="quiet">Counting …</p> : <List of={of} />}
    </div>
  );
}
