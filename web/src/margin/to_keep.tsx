// At the foot: what can be taken out of this, as pictures and as tables.
import type { Place } from "../api";
import { garden, link_to_file, link_to_picture, link_to_table, scheme, weather_file } from "../state";

/** "days.csv" is a CSV. */
const file_kind = (name: string) => /\.([a-z0-9]{1,4})$/i.exec(name)?.[1]?.toUpperCase() ?? "file";

export function ToKeep({ place = null }: { place?: Place | null }) {
  const id = garden.value;
  if (id === null) return null;
  const weather = weather_file.value;
  const print = (format: "svg" | "png") => link_to_picture(id, scheme.value, format, place?.id);
  return (
    <div class="part to-keep">
      <h3>To keep</h3>
      {place !== null && (
        <p>
          <span>The sun print</span>
          <a href={print("svg")} download aria-label={`The sun print of ${place.id} as SVG`}>SVG</a>
          <a href={print("png")} download aria-label={`The sun print of ${place.id} as PNG`}>PNG</a>
        </p>
      )}
      <p>
        <span>The figures of all places</span>
        <a href={link_to_table(id, scheme.value)} download aria-label="The figures of all places as CSV">CSV</a>
      </p>
      {place === null && (
        <p>
          <span>The figures of every spot</span>
          <a href={link_to_table(id, scheme.value, "field")} download aria-label="The figures of every spot as CSV">CSV</a>
        </p>
      )}
      {place === null && weather?.is_there === true && (
        <p>
          <span>The weather file {weather.name}</span>
          <a href={link_to_file(id, weather.name)} download aria-label={`The weather file ${weather.name}`}>{file_kind(weather.name)}</a>
        </p>
      )}
    </div>
  );
}
