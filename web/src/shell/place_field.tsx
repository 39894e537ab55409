// The field for a garden's place: a town's name with what fits it beneath, or coordinates as they are
// pasted; and the place that is chosen, by it or on the map.
import { computed, signal } from "@preact/signals";
import { useEffect, useId, useRef, useState } from "preact/hooks";
import type { Town } from "../api";
import { likely_zone, load_error, type PlaceChosen, place_with_town, saying, towns_like } from "../state";
import type { MapMark } from "./map_drawing";

export const chosen = signal<PlaceChosen | null>(null);
export const offered = signal<readonly Town[]>([]);
export const zone = signal("");
export const refused = signal<{ message: string; hint: string } | null>(null);

export const nearest = computed<Town | null>(() => chosen.value?.town ?? chosen.value?.near ?? null);
export const mark_of = (town: Town): MapMark => ({ longitude: town.longitude_deg, latitude: town.latitude_deg, name: town.name });

const degrees = (value: number, ways: readonly [string, string]) => `${Math.abs(value).toFixed(2)}° ${value < 0 ? ways[1] : ways[0]}`;
export const lies = ({ latitude_deg, longitude_deg }: PlaceChosen) => `${degrees(latitude_deg, ["north", "south"])}, ${degrees(longitude_deg, ["east", "west"])}`;

function take(place: PlaceChosen): void {
  chosen.value = place;
  zone.value = likely_zone(place.longitude_deg, (place.town ?? place.near)?.country ?? null);
  refused.value = null;
  saying.value = place.town === null ? `It lies at ${lies(place)}.` : `${place.town.name}, ${place.town.country}.`;
}

const take_town = (town: Town) => take({ latitude_deg: town.latitude_deg, longitude_deg: town.longitude_deg, town, near: town });

let asking: AbortController | null = null;
export async function take_spot(longitude: number, latitude: number): Promise<void> {
  asking?.abort();
  asking = new AbortController();
  try {
    take(await place_with_town(latitude, longitude, asking.signal));
  } catch (error) {
    load_error(error);
  }
}

const no_town = "No town with weather has that name. Try a larger one nearby, coordinates, or touch the map.";
const no_coordinates = "That is no place on the earth: first how far north, −90 to 90, then how far east, −180 to 180.";

/** A town's name with what fits it beneath, or coordinates as they were pasted. */
export function PlaceField({ begin }: { begin: () => void }) {
  const id = useId();
  const [text, set_text] = useState("");
  const [at, set_at] = useState(0);
  const [is_open, set_open] = useState(false);
  const [none, set_none] = useState<string | null>(null);
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => input.current?.focus(), []);
  useEffect(() => {
    const typed = text.trim();
    set_none(null);
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
          set_none(place === null && towns.length === 0 ? (/^[-+\d.,;°'’″"\sNSEW]*\d[-+\d.,;°'’″"\sNSEW]*$/i.test(typed) ? no_coordinates : no_town) : null);
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
          chosen.value = null; // another place is being told
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
      {none !== null && <p class="begin-told" role="status">{none}</p>}
    </div>
  );
}
