// The months of a place: the same figures as the picture's. One stop for the keyboard, arrows within.
import { useRef, useState } from "preact/hooks";
import type { Month, Place } from "../api";
import { month_spans } from "../band";
import { hours_says } from "../geometry";
import { band, month_names, when } from "../state";
import { about, light } from "./format";
import { ask_pointer } from "./why_words";

const columns = [
  { key: "sun_h_per_day", head: "sun", unit: "h a day", says: (month: Month) => hours_says(month.sun_h_per_day, month.on_guesses) },
  { key: "sunshine_h_per_day", head: "with cloud", unit: "h a day", says: (month: Month) => hours_says(month.sunshine_h_per_day, month.on_guesses) },
  { key: "dli_mol_m2_d", head: "light", unit: "mol/m²", says: (month: Month) => about(light(month.dli_mol_m2_d, month.on_guesses), month.on_guesses) },
] as const;

const steps: Record<string, [number, number]> = { ArrowUp: [-1, 0], ArrowDown: [1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1] };

export function MonthsTable({ place }: { place: Place }) {
  const [at, set_at] = useState<[number, number]>([0, 0]);
  const body = useRef<HTMLTableSectionElement>(null);
  const now = when.value;
  const chosen = now.kind === "months" ? now.months : [Number(now.day.slice(0, 2)) - 1];
  const months = month_spans(band.value?.first_day ?? 1)
    .map(({ month }) => place.months.find((row) => row.month === month + 1))
    .filter((row): row is Month => row !== undefined);

  function why_of(month: Month, key: string): void {
    ask_pointer(`/light/places/${place.id}/months/${month.month - 1}/${key}`);
  }
  function key_down(event: KeyboardEvent): void {
    const step = steps[event.key];
    const [row, column] = at;
    const month = months[row];
    if (step !== undefined) {
      const to: [number, number] = [
        Math.max(0, Math.min(months.length - 1, row + step[0])),
        Math.max(0, Math.min(columns.length - 1, column + step[1])),
      ];
      set_at(to);
      body.current?.querySelector<HTMLElement>(`[data-at="${to.join()}"]`)?.focus();
    } else if ((event.key === "Enter" || event.key === " ") && month !== undefined) why_of(month, columns[column]?.key ?? "");
    else return;
    event.preventDefault();
    event.stopPropagation();
  }
  return (
    <div class="part">
      <h3 id="months-head">Month by month <span class="head-unit">touch a figure: why</span></h3>
      <table class="months-table" role="grid" aria-labelledby="months-head">
        <thead>
          <tr>
            <th scope="col"><span class="unseen">month</span></th>
            {columns.map(({ key, head, unit }) => (
              <th key={key} scope="col" class="number">{head}<span class="unit">{unit}</span></th>
            ))}
          </tr>
        </thead>
        <tbody ref={body} onKeyDown={key_down}>
          {months.map((month, row) => (
            <tr key={month.month} class={chosen.includes(month.month - 1) ? "is-chosen" : undefined}>
              <th scope="row">{month_names[month.month - 1]}</th>
              {columns.map(({ key, says }, column) => (
                <td
                  key={key}
                  class="number"
                  data-at={`${row},${column}`}
                  tabIndex={at[0] === row && at[1] === column ? 0 : -1}
                  onClick={(event) => {
                    set_at([row, column]);
                    event.currentTarget.focus();
                    why_of(month, key);
                  }}
                >
                  {says(month)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
