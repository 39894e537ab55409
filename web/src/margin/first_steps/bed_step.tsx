// A bed: one drag, or a touch for the size that is offered; its light is the first answer.
import { places, scheme, show_scheme } from "../../state";
import { begin_drawing, kind_groups, select, size_offered } from "../../tools";
import { length_says } from "../../geometry";
import { is_imperial, is_locked } from "../typed_fact";
import { to_sheet } from "./progress";

const bed_kind = () => kind_groups.flatMap(([, kinds]) => kinds).find(({ says }) => says === "Bed");

export function draw_bed(): void {
  const kind = bed_kind();
  if (kind === undefined) return;
  if (scheme.peek() === "found") show_scheme("proposed"); // it is not there yet
  begin_drawing(kind);
  to_sheet();
}

export function BedStep() {
  const beds = places.value?.places.filter(({ kind }) => kind === "bed") ?? [];
  const kind = bed_kind();
  const [wide, deep] = (kind === undefined ? [1.2, 3.6] : size_offered(kind)).map((metres) => length_says(metres, is_imperial()));
  return (
    <div class="step-form">
      <p>Drag it on the sheet, or touch where its middle goes: {wide} by {deep} are offered. Its light is the first answer.</p>
      <p class="deeds">
        <button type="button" class="word-button strong" disabled={is_locked()} onClick={draw_bed}>{beds.length === 0 ? "Draw a bed" : "Draw another bed"}</button>
      </p>
      {beds.map(({ id, answer }) => (
        <p key={id}><button type="button" class="word-button" onClick={() => select(id)}>{id}</button> {answer}</p>
      ))}
    </div>
  );
}
