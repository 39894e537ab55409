// A thing selected: its light, what takes it, its months, its facts, what can be done with it.
import { useEffect, useRef } from "preact/hooks";
import type { Place, Thing } from "../api";
import { moment_says, PrintLarge, print_large, print_shown } from "../band";
import { area_says, gain_says, goes_with_others, hours_says } from "../geometry";
import {
  clock_says, day_says, field, field_of, is_growing, month_names, place_of, places, places_loading, places_shown, scheme, selected, sides, state, takers,
  trying, when, when_says,
} from "../state";
import { scheme_says } from "../sheet";
import { Deeds, Goes, TakeAway } from "./deeds";
import { DoPart } from "./do_part";
import { gains_of_places } from "./gains";
import { shows_shadow, table_called } from "../tools";
import { HeightWord, ShadowOf } from "./first_steps";
import { Facts } from "./form";
import { about, capital, light, listed, share_says } from "./format";
import { MonthsTable } from "./months_table";
import { MeasureRows, Move } from "./move";
import { Name } from "./name";
import { TapePart } from "./tape_part";
import { TakersNotes } from "./takers_notes";
import { ToKeep } from "./to_keep";
import { Why } from "./why_words";

const marks: Record<Thing["mark"], string> = { existing: "", changed: "changed", proposed: "new", removed: "to go" };

function kind_says(thing: Thing, place: Place | null): string {
  const kind = thing.fields["kind"]?.typed ?? thing.fields["crop"]?.typed ?? thing.fields["what"]?.typed;
  const words = [kind === undefined || kind === thing.id ? table_called(thing.table) : kind === thing.table ? kind : `${table_called(thing.table)}, ${kind}`];
  if (place !== null && thing.table === "bed") words.push(area_says(place.area_m2, state.value?.site.units === "imperial"));
  return words.join(", ");
}

/** The guessed things that its light rests on. */
function guesses_under(place: string): string[] {
  const of = takers.value;
  if (of === null || of.place !== place) return [];
  const guessed = new Set((state.value?.guessed ?? []).map((one) => one.split(".")[0]));
  const takers_guessed = of.takers.filter((taker) => taker.sun_h_per_year >= 20 && guessed.has(taker.id)).map((taker) => taker.id);
  const [own = ""] = place.split(".");
  return guessed.has(own) ? [own, ...takers_guessed] : takers_guessed;
}

/** Which chain tells the headline: of the growing months, of one month, of a day. */
function pointer_of(place: Place): string {
  const now = when.value;
  const at = `/light/places/${place.id}`;
  if (now.kind === "day") return `/light/day/${now.day}/places/${place.id}/sun_h`;
  if (now.kind !== "months") return `${at}/months/${Number(now.day.slice(0, 2)) - 1}/sun_h_per_day`;
  return `${at}/months/${now.months.join(",")}/sun_h_per_day`;
}

/** The chain of a figure of the months shown, or of a day's month. */
function month_pointer(place: Place, key: string): string {
  const now = when.value;
  const months = now.kind === "months" ? now.months.join(",") : Number(now.day.slice(0, 2)) - 1;
  return `/light/places/${place.id}/months/${months}/${key}`;
}

function Further({ says, figure: words, pointer }: { says: string; figure: string; pointer: string }) {
  return (
    <li>
      <Why pointer={pointer} figure={words} of={`${says} ${words}`} />
      <span class="figure-says">{says}</span>
    </li>
  );
}

interface Told {
  sun: number;
  says: string; // of what
  cloud: number;
  light: number;
  share: number | null;
  of: string; // what the further figures are of, when not of the same
}

/** The figures of the time shown: of its months, of a day, or of a moment's month. */
function told_of(place: Place): Told {
  const now = when.value;
  const mean = { cloud: place.sunshine_h_per_day, light: place.dli_mol_m2_d, share: place.share_of_open };
  if (now.kind === "months") return { ...mean, sun: place.sun_h_per_day, says: `a day, ${when_says.value}`, of: "" };
  const number = Number(now.day.slice(0, 2));
  const month = place.months.find((row) => row.month === number);
  if (month === undefined) return { ...mean, sun: place.sun_h_per_day, says: "a day", of: "" };
  const name = month_names[number - 1] ?? "";
  const of_month = { cloud: month.sunshine_h_per_day, light: month.dli_mol_m2_d, share: month.share_of_open };
  const of_day = now.kind === "day" && places.value?.day === now.day ? place.shown_h : null;
  if (of_day === null) return { ...of_month, sun: month.sun_h_per_day, says: `on a mean day of ${name}`, of: "" };
  return { ...of_month, sun: of_day, says: `on ${day_says(now.day)}`, of: `a mean day of ${name}` };
}

/** Side by side with a second scheme: what it has there. */
function AgainstOther({ place }: { place: Place }) {
  const [pair, shown] = [sides.value, places_shown.value?.places.find((one) => one.id === place.id)];
  if (pair === null || shown === undefined || shown.shown_h === null || shown.against_shown_h === undefined || shown.against_shown_h === null) return null;
  const [gained] = gains_of_places([shown], scheme.value === pair[1]);
  if (gained === undefined) return null;
  const { from, to, by, from_guessed = false, to_guessed = false } = gained;
  const says = (name: string, hours: number, guessed: boolean) => `${scheme_says(name).toLowerCase()} ${hours_says(hours, guessed)}`;
  return <p class="small">{capital(says(pair[0], from, from_guessed))}, {says(pair[1], to, to_guessed)}: {gain_says(by, from_guessed || to_guessed)} h a day.</p>;
}

/** While something is tried: what it would be. */
function tried_says(place: Place, sun: number): string {
  const [trial, now] = [trying.value?.field.head.beds[place.id], field.value?.head.beds[place.id]];
  if (trial === undefined || trial === null || now === undefined || now === null || field_of.value?.when.kind === "moment") return "";
  return Math.abs(trial - now) < 0.05 ? "" : `; tried: ${hours_says(sun + trial - now, place.on_guesses)}`;
}

function Headline({ place }: { place: Place }) {
  const guessed = place.on_guesses;
  const guesses = guesses_under(place.id);
  const told = told_of(place);
  const sun = hours_says(told.sun, guessed);
  return (
    <div class="headline" aria-busy={places_loading.busy.value}>
      <p class="headline-figure">
        <Why pointer={pointer_of(place)} figure={`${sun} h`} of={`${sun} hours of sun`} with_word />
        <span class="headline-says">of sun {told.says}, clear sky{tried_says(place, told.sun)}</span>
      </p>
      <ul class="figures" aria-label={told.of === "" ? undefined : told.of}>
        <Further says="with cloud" figure={`${hours_says(told.cloud, guessed)} h`} pointer={month_pointer(place, "sunshine_h_per_day")} />
        <Further says="light, mol/m²" figure={about(light(told.light, guessed), guessed)} pointer={month_pointer(place, "dli_mol_m2_d")} />
        {told.share !== null && <Further says="of the open" figure={about(share_says(told.share), guessed)} pointer={month_pointer(place, "share_of_open")} />}
        {told.of === "" && when.value.kind === "months" && is_growing(when.value) && <Further says="in a word" figure={place.light_class} pointer={`/light/places/${place.id}/class`} />}
      </ul>
      {told.of !== "" && <p class="small">These three are of {told.of}.</p>}
      <AgainstOther place={place} />
      {guessed && <p class="small">It rests on guessed figures{guesses.length > 0 && ` of ${listed(guesses)}`}: measure them, and it firms up.</p>}
    </div>
  );
}

function Answer({ place }: { place: Place }) {
  const of = takers.value;
  const now = when.value;
  const moment = moment_says();
  if (moment !== "") return <p class="answer">{moment}</p>;
  if (now.kind === "day" && places.value?.day === now.day && place.shown_h !== null)
    return (
      <>
        <p class="answer">{capital(hours_says(place.shown_h, place.on_guesses).replace("≈", "about"))} hours of sun on {day_says(now.day)}, a clear day.</p>
        <p class="small">{place.answer}</p>
      </>
    );
  const is_usual = now.kind !== "months" || is_growing(now);
  return <p class="answer">{is_usual && of !== null && of.place === place.id ? of.answer : place.answer}</p>;
}

function PrintPart({ place }: { place: Place }) {
  const part = useRef<HTMLDivElement>(null);
  const is_open = print_large.value;
  useEffect(() => {
    if (is_open) part.current?.scrollIntoView({ block: "nearest" });
  }, [is_open]);
  return (
    <div class="part" ref={part}>
      <button type="button" class="fold" aria-expanded={is_open} onClick={() => (print_large.value = !is_open)}>
        <h3>The sun print of {place.id}</h3>
        <span class="fold-mark" aria-hidden="true">{is_open ? "−" : "+"}</span>
      </button>
      {is_open && (print_shown() === null ? <p class="quiet">Drawing …</p> : <PrintLarge />)}
    </div>
  );
}

const lit_tables = new Set(["bed", "seat", "plant", "container", "support"]);

export function ThingNotes({ thing }: { thing: Thing }) {
  const place = place_of(thing.id);
  const mark = marks[thing.mark];
  const now = when.value;
  const is_moment = now.kind === "moment";
  const casts = shows_shadow(thing);
  // Its form stands in one place, whether its light is there yet or not: what is being typed stays.
  const takes_light = place !== null || lit_tables.has(thing.table);
  const can_move = !goes_with_others(thing);
  return (
    <section class={`notes${places_loading.busy.value ? " are-late" : ""}`} aria-label={`Notes on ${thing.id}`}>
      <div class="thing-head">
        <Name thing={thing} />
        <button type="button" class="word-button" onClick={() => (selected.value = null)}>To the garden</button>
      </div>
      <p class="thing-kind">
        {kind_says(thing, place)}
        {mark !== "" && <>, <span class="is-proposed">{mark}</span></>}
        <span class="unseen">, {scheme_says(scheme.value)}</span>
      </p>
      {is_moment && casts && <ShadowOf thing={thing.id} word={`At ${clock_says(now.clock)} its shadow should end here. So?`} />}
      {place !== null ? <Answer place={place} /> : places.value === null && takes_light && thing.mark !== "removed" && <p class="answer quiet">Casting the year’s shadows …</p>}
      <Goes thing={thing} />
      {!takes_light && <Facts thing={thing} />}
      <Deeds thing={thing} />
      {place !== null && (
        <>
          <Headline place={place} />
          <TakersNotes place={place} />
          <PrintPart place={place} />
          <MonthsTable place={place} />
        </>
      )}
      {takes_light && <Facts thing={thing} />}
      {!can_move && (
        <div class="part">
          <h3>How far it looks</h3>
          <MeasureRows />
        </div>
      )}
      {can_move && (
        <>
          <Move thing={thing} />
          <DoPart />
          <TapePart />
        </>
      )}
      {casts && (
        <div class="part">
          <HeightWord thing={thing} />
          {!is_moment && <ShadowOf thing={thing.id} word="Its shadow ends elsewhere?" />}
        </div>
      )}
      <TakeAway thing={thing} />
      {place !== null && <ToKeep place={place} />}
      {trying.value !== null && <span class="unseen">The light shown is tried.</span>}
    </section>
  );
}
