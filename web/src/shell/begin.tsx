// Where does it lie? The first step of a garden: a town, coordinates, or a touch on the map.
import "./begin.css";
import { useEffect, useState } from "preact/hooks";
import { Gone, Refused } from "../api";
import { all_zones, begin_garden, beginning, gone, imperial_in, problem, saying } from "../state";
import { chosen, lies, mark_of, nearest, offered, PlaceField, refused, take_spot, zone } from "./place_field";
import { WorldMap } from "./world_map";

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
