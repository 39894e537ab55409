// Where does it lie? The first step of a garden: a town, coordinates, or a touch on the map.
import "./begin.css";
import { computed, signal } from "@preact/signals";
import { useEffect, useId, useRef, useState } from "preact/hooks";
import { Gone, Refused, type Town } from "../api";
import {
  all_zones, begin_garden, beginning, gone, imperial_in, likely_zone, load_error, type PlaceChosen, place_with_town, problem, saying, towns_like,
} from "../state";
import { type MapMark, WorldMap } from "./world_map";

const chosen = signal<PlaceChosen | null>(null);
const offered = signal<readonly Town[]>([]);
const zone = signal("");
const refused = signal<{ message: string; hint: string } | null>(null);

const nearest = computed<Town | null>(() => chosen.value?.town ?? chosen.value?.near ?? null);
const mark_of = (town: Town): MapMark => ({ longitude: town.longitude_deg, latitude: town.latitude_deg, name: town.name });

const degrees = (value: number, ways: readonly [string, string]) => `${Math.abs(value).toFixed(2)}° ${value < 0 ? ways[1] : ways[0]}`;
const lies = ({ latitude_deg, longitude_deg }: PlaceChosen) => `${degrees(latitude_deg, ["north", "south"])}, ${degrees(longitude_deg, ["east", "west"])}`;

function take(place: PlaceChosen): void {
  chosen.value = place;
  zone.value = likely_zone(place.longitude_deg, (place.town ?? place.near)?.country ?? null);
  refused.value = null;
  saying.value = place.town === null ? `It lies at ${lies(place)}.` : `${place.town.name}, ${place.town.country}.`;
}

const take_town = (town: Town) => take({ latitude_deg: town.latitude_deg, longitude_deg: town.longitude_deg, town, near: town });

let asking: AbortController | null = null;
async function take_spot(longitude: number, latitude: number): Promise<void> {
  asking?.abort();
  asking = new AbortController();
  try {
    take(await place_with_town(latitude, longitude, asking.signal));
  } catch (error) {
    load_error(error);
  }
}

/** A town's name with what fits it beneath, or coordinates as they were pasted. */
function PlaceField({ begin }: { begin: () => void }) {
  const id = useId();
  const [text, set_text] = useState("");
  const [at, set_at] = useState(0);
  const [is_open, set_open] = useState(false);
  const [is_none, set_none] = useState(false);
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => input.current?.focus(), []);
  useEffect(() => {
    const typed = text.trim();
    set_none(false);
    if (typed.length < 2 || !is_open) {
      offered.value = [];
      return undefined;
    }
    const abort = new AbortController();
    const rest = setTimeout(() => {
      towns_like(typed, abort.signal)
        .then(({ place, towns }) => {
          set_at(0);
          offered.value = place === null ? towns : [];
          set_none(place === null && towns.length === 0);
          if (place !== null && place !== undefined) take({ ...(place as { latitude_deg: number; longitude_deg: number }), town: null, near: towns[0] ?? null });
        })
        .catch(load_error);
    }, 120);
    return () => {
      clearTimeout(rest);
      abort.abort();
    };
  }, [text, is_open]);

  function choose(town: Town): void {
    take_town(town);
    set_text(town.name);
    set_open(false);
    offered.value = [];
    input.current?.focus();
  }
  const list = offered.value;
  const is_listed = list.length > 0;
  function key(event: KeyboardEvent): void {
    const step = event.key === "ArrowDown" ? 1 : event.key === "ArrowUp" ? -1 : 0;
    if (step !== 0 && is_listed) set_at((at + step + list.length) % list.length);
    else if (event.key === "Enter" && is_listed) choose(list[at] as Town);
    else if (event.key === "Enter" && chosen.peek() !== null) begin();
    else if (event.key === "Escape" && is_listed) set_open(false);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }
  return (
    <div class="begin-place">
      <label for={`${id}-in`}>The nearest town, or its coordinates</label>
      <input
        id={`${id}-in`}
        ref={input}
        type="text"
        role="combobox"
        autocomplete="off"
        spellcheck={false}
        aria-expanded={is_listed}
        aria-controls={`${id}-list`}
        aria-autocomplete="list"
        aria-activedescendant={is_listed ? `${id}-${at}` : undefined}
        placeholder="Brest, or 48.41, -4.36"
        value={text}
        onInput={(event) => {
          set_open(true);
          set_text(event.currentTarget.value);
        }}
        onKeyDown={key}
        enterkeyhint="go"
      />
      <ul id={`${id}-list`} class="begin-towns" role="listbox" aria-label="Towns with weather" hidden={!is_listed}>
        {list.map((town, i) => (
          <li key={`${town.name} ${town.latitude_deg}`} id={`${id}-${i}`} role="option" aria-selected={i === at} onPointerDown={(event) => event.preventDefault()} onClick={() => choose(town)}>
            <span>{town.name}</span>
            <span class="begin-country">{town.country}</span>
          </li>
        ))}
      </ul>
      {is_none && <p class="begin-told" role="status">No town with weather has that name. Try a larger one nearby, coordinates, or touch the map.</p>}
    </div>
  );
}

function Told() {
  const place = chosen.value;
  if (place === null) return <p class="begin-told quiet">A few kilometres off do no harm: sun and weather are nearly the same there.</p>;
  const near = place.near;
  return (
    <p class="begin-told" role="status">
      {place.town === null ? (
        <>{lies(place)}.{near !== null && ` The nearest weather is ${near.name}’s, ${Math.round(near.far_km ?? 0)} km away.`}</>
      ) : (
        <>{place.town.name}, {place.town.country}: {lies(place)}. Taken as the garden’s own until you give that.</>
      )}
    </p>
  );
}

function Clocks() {
  if (chosen.value === null) return null;
  const zones = all_zones();
  return (
    <label class="begin-clock">
      <span>Clocks go as in</span>
      <select value={zone.value} onChange={(event) => (zone.value = event.currentTarget.value)}>
        {[...new Set([zone.value, ...zones])].map((name) => <option key={name} value={name}>{name.replace(/_/g, " ")}</option>)}
      </select>
    </label>
  );
}

export function BeginPage() {
  const [title, set_title] = useState("");
  const [units, set_units] = useState<"metric" | "imperial" | null>(null); // null: as is usual there
  const [is_sent, set_sent] = useState(false);
  useEffect(() => {
    chosen.value = null;
    offered.value = [];
    refused.value = null;
  }, []);
  const place = chosen.value;
  const imperial = units === null ? imperial_in(nearest.value?.country ?? null) : units === "imperial";
  const towns = nearest.value === null ? offered.value : [nearest.value];

  async function begin(): Promise<void> {
    const at = chosen.peek();
    if (at === null || is_sent) return;
    set_sent(true);
    try {
      await begin_garden({ title: title.trim() || "My garden", place: at, time_zone: zone.peek(), units: imperial ? "imperial" : "metric" });
    } catch (error) {
      set_sent(false);
      if (error instanceof Refused) refused.value = error.problem;
      else if (error instanceof Gone) gone.value = true;
      else throw error;
    }
  }
  return (
    <main class="begin" data-region="begin">
      <div class="begin-words">
        <button type="button" class="word-button begin-back" onClick={() => (beginning.value = false)}>To the shelf</button>
        <h1>Where does it lie?</h1>
        {gone.value && <p role="alert">Nobody answers: start Spadework again, and this page goes on by itself.</p>}
        {problem.value !== null && <p role="alert"><strong>{problem.value.message}</strong> {problem.value.hint}</p>}
        <PlaceField begin={() => void begin()} />
        <Told />
        <label class="begin-name">
          <span>What you call it</span>
          <input type="text" value={title} maxLength={80} placeholder="My garden" autocomplete="off" onInput={(event) => set_title(event.currentTarget.value)} onKeyDown={(event) => event.key === "Enter" && void begin()} />
        </label>
        <fieldset class="begin-units">
          <legend>You measure in</legend>
          <label><input type="radio" name="units" checked={!imperial} onChange={() => set_units("metric")} /> metres</label>
          <label><input type="radio" name="units" checked={imperial} onChange={() => set_units("imperial")} /> feet and inches</label>
        </fieldset>
        <Clocks />
        {refused.value !== null && <p class="told" role="alert"><strong>{refused.value.message}</strong> {refused.value.hint}</p>}
        <button type="button" class="word-button strong begin-go" disabled={place === null || is_sent} onClick={() => void begin()}>Begin here</button>
      </div>
      <WorldMap
        chosen={place === null ? null : { longitude: place.longitude_deg, latitude: place.latitude_deg, name: "" }}
        towns={towns.map(mark_of)}
        choose={(longitude, latitude) => void take_spot(longitude, latitude)}
      />
      <p class="unseen" aria-live="polite">{saying.value}</p>
    </main>
  );
}
