// The margin: notes beside the drawing.
import "./margin.css";
import { ask_why, garden, link_to_table, scheme, selected, things, why } from "../state";
import { GardenNotes } from "./garden_notes";
import { ThingNotes } from "./thing_notes";
import { Why } from "./why";

export function Margin() {
  const id = garden.value;
  if (id === null) return null;
  const thing = selected.value === null ? undefined : things.value.get(selected.value);
  return (
    <aside
      class="margin-notes"
      data-region="margin"
      aria-label="Notes"
      onKeyDown={(event) => {
        if (event.key !== "Escape" || why.peek() === null) return;
        event.stopPropagation();
        ask_why(null);
      }}
    >
      {why.value !== null ? <Why /> : thing === undefined ? <GardenNotes /> : <ThingNotes thing={thing} />}
      <p class="deeds foot">
        <a class="word-button" href={link_to_table(id, scheme.value)} download>
          The figures as CSV
        </a>
      </p>
    </aside>
  );
}
