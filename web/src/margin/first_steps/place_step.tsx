// The place, once begun at a town's: the plot's own coordinates, as they are pasted.
import { useEffect, useState } from "preact/hooks";
import type { Towns } from "../../api";
import { act, guessed_after, guessed_of, saying, single, state, towns_like } from "../../state";
import { is_locked } from "../typed_fact";
import { enter_goes_on } from "./figure";
import { opened } from "./progress";

const degrees = (value: number, ways: readonly [string, string]) => `${Math.abs(value).toFixed(4)}° ${value < 0 ? ways[1] : ways[0]}`;

export function PlaceStep() {
  const [text, set_text] = useState("");
  const [told, set_told] = useState<Towns | null>(null);
  useEffect(() => {
    set_told(null);
    if (text.trim().length < 3) return undefined;
    const abort = new AbortController();
    const rest = setTimeout(() => {
      towns_like(text.trim(), abort.signal).then(set_told, () => {});
    }, 150);
    return () => {
      clearTimeout(rest);
      abort.abort();
    };
  }, [text]);
  const site = state.value?.site;
  const place = (told?.place ?? null) as { latitude_deg: number; longitude_deg: number } | null;
  async function keep(): Promise<void> {
    if (place === null || is_locked()) return;
    const { latitude_deg, longitude_deg } = place;
    const at = (value: number) => Number(value.toFixed(6));
    const set = { latitude_deg: at(latitude_deg), longitude_deg: at(longitude_deg), guessed: guessed_after("garden", ["latitude_deg", "longitude_deg"], []) };
    if ((await act.set_table("garden", set, "the place told")) !== null) return;
    saying.value = "The place is told.";
    opened.value = undefined;
  }
  return (
    <form class="step-form" onKeyDown={(event) => enter_goes_on(event, () => void keep())} onSubmit={(event) => event.preventDefault()}>
      {site !== undefined && (
        <p class="small lining">
          {degrees(site.latitude_deg, ["north", "south"])}, {degrees(site.longitude_deg, ["east", "west"])}
          {guessed_of("garden").includes("latitude_deg") ? ", a town’s. A few kilometres do little to the light; a shadow tells north the surer with its own." : "."}
          {typeof single("garden", "elevation_m") === "number" && ` ${single("garden", "elevation_m")} m above the sea.`}
        </p>
      )}
      <label class="step-line">
        <span>Its own coordinates, from a map or a telephone</span>
        <input type="text" value={text} placeholder="48.4100, -4.3600" autocomplete="off" readOnly={is_locked()} onInput={(event) => set_text(event.currentTarget.value)} />
      </label>
      {place !== null && <p class="small lining" role="status">{degrees(place.latitude_deg, ["north", "south"])}, {degrees(place.longitude_deg, ["east", "west"])}</p>}
      {told !== null && place === null && <p class="small" role="status">Those are no coordinates yet: 48.41, -4.36, or 48°24′36″N 4°21′36″W.</p>}
      <p class="deeds">
        <button type="button" class="word-button strong" disabled={place === null || is_locked()} onClick={() => void keep()}>Keep this place</button>
      </p>
    </form>
  );
}
