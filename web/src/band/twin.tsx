// The band for who reads instead of looking: a table with the picture's figures.
import { useMemo } from "preact/hooks";
import type { Band, Print } from "../api";
import { clock_says, month_names, place_of } from "../state";
import { year_rows } from "./year_table";

const clock = (hour: number | null): string => (hour === null ? "none" : clock_says(hour));

export function YearTwin({ of, print }: { of: Band; print: Print | null }) {
  const place = print?.head.place ?? null;
  const months = place_of(place)?.months ?? null;
  const rows = useMemo(() => year_rows(of, print, months), [of, print, months]);
  return (
    <div class="unseen">
      <table class="year-table">
        <caption>{place === null ? "The year's daylight, by the clock" : `The sun on ${place} through the year, clear sky, by the clock`}</caption>
        <thead>
          <tr>
            <th scope="col">month</th>
            {place !== null && <th scope="col">sun, hours a day</th>}
            <th scope="col">{place === null ? "sunrise on the 15th" : "first sun on the 15th"}</th>
            <th scope="col">{place === null ? "sunset on the 15th" : "last sun on the 15th"}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.month}>
              <th scope="row">{month_names[row.month]}</th>
              {place !== null && <td>{row.sun_h_per_day?.toFixed(1) ?? "not known yet"}</td>}
              <td>{clock(row.first_h)}</td>
              <td>{clock(row.last_h)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
