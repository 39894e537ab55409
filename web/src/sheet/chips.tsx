// The figures of the light, written on paper in the beds.
import { field, places_shown, scheme, sides, trying } from "../state";
import { centre, to_screen } from "../geometry";
import { size, view } from "../tools";
import { difference_told, figure_says, type LightKind } from "./light_colours";
import { type Shown, standing } from "./shown";

export interface Figure {
  id: string;
  says: string;
  gain: string; // against the light as it is, while something is tried
}

/** The figures of a sheet, as they are written and as its table has them. */
export function figures_of(shown: Shown): Figure[] {
  const { field: light, kind } = shown.light.value;
  if (light === null) return [];
  const is_tried = shown.is_active.value && trying.value !== null;
  return Object.entries(light.head.beds).map(([id, hours]) => {
    const was = field.value?.head.beds[id];
    const by = is_tried && hours !== null && was !== undefined && was !== null ? hours - was : 0;
    if (kind === "moment") return { id, says: figure_says(hours, kind), gain: "" };
    const of_place = figure_of_place(shown, kind, id);
    if (of_place === undefined) return { id, says: "…", gain: "" };
    const now = of_place === null || kind === "difference" ? of_place : of_place + by;
    return { id, says: figure_says(now, kind), gain: is_tried && now !== null && kind === "hours" ? gain_says(now - by, now) : "" };
  });
}

/** The figure is the place's own, as the notes and tables have it: cells on the edge of a bed, which
the picture shows whole, are not whole in it. Null: one of two schemes has no such bed; undefined: it
is on its way. */
function figure_of_place(shown: Shown, kind: LightKind, id: string): number | null | undefined {
  const known = places_shown.value;
  if (known === null) return undefined;
  const place = known.places.find((one) => one.id === id);
  if (place === undefined) return kind === "hours" ? known.only_there.find((one) => one.id === id)?.shown_h : null;
  const [here, there] = [place.shown_h, place.against_shown_h ?? null];
  if (kind === "hours") return shown.is_active.value ? here : there;
  if (there === null || here === null) return null;
  return scheme.value === sides.value?.[1] ? difference_told(there, here) : difference_told(here, there);
}

function gain_says(was: number, now: number): string {
  const by = difference_told(was, now);
  return by === 0 ? "" : figure_says(by, "difference");
}

export function Chips({ shown }: { shown: Shown }) {
  const now = view.value;
  const { width, height } = size.value;
  if (now === null) return null;
  return (
    <div class="chips" aria-hidden="true">
      {figures_of(shown).map(({ id, says, gain }) => {
        const bed = standing(shown, id);
        if (bed === null) return null;
        const [x, y] = to_screen(now, centre(bed));
        if (x < -20 || y < -20 || x > width + 20 || y > height + 20) return null;
        return (
          <div key={id} class="chip" style={{ transform: `translate(${x}px,${y}px) translate(-50%,-50%)` }}>
            {says}
            {gain !== "" && <span class="chip-gain">{gain}</span>}
          </div>
        );
      })}
    </div>
  );
}

/** The outline of what is selected, as a row of dots on the page. */
function outline_dots(host: Element): DOMRect[] {
  const path = host.querySelector<SVGPathElement>(".mark-selected");
  const from = path?.ownerSVGElement?.getBoundingClientRect();
  if (path === null || from === undefined) return [];
  const [step, half] = [8, 2];
  const dots: DOMRect[] = [];
  for (let along = 0; along < path.getTotalLength(); along += step) {
    const { x, y } = path.getPointAtLength(along);
    dots.push(new DOMRect(from.left + x - half, from.top + y - half, 2 * half, 2 * half));
  }
  return dots;
}

/** Where chips, lettered discs and the marks of what is selected lie on the page: names keep off
them. */
export function taken_rects(host: Element): DOMRect[] {
  const rects = [...host.querySelectorAll(".chip,.disc,.grip-ring")].map((one) => one.getBoundingClientRect());
  return [...rects, ...outline_dots(host)];
}
