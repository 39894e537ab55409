// The figures of the light, written on paper in the beds.
import { field, field_of_places, hovered, places_shown, scheme, selected, sides, trying } from "../state";
import { centre, gain_says, to_screen } from "../geometry";
import { measure_says, size, view } from "../tools";
import { difference_told, figure_says, type LightKind } from "./light_colours";
import { measures_placed } from "./measures";
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
    if (kind === "moment") return { id, says: figure_says(hours, kind), gain: "" };
    const was = figure_of_place(shown, kind, id);
    if (was === undefined) return { id, says: "…", gain: "" };
    const by = is_tried ? between(field.value?.head.beds[id], hours) : 0;
    const now = was === null || kind === "difference" ? was : was + by;
    const guessed = rests_on_guesses(shown, kind, id);
    const gain = is_tried && now !== null && kind === "hours" ? gain_told(now - by, now, guessed) : "";
    return { id, says: figure_says(now, kind, guessed), gain };
  });
}

const between = (from: number | null | undefined, to: number | null | undefined): number =>
  from === undefined || from === null || to === undefined || to === null ? 0 : to - from;

/** The figure is the place's own, as the notes and tables have it: cells on the edge of a bed, which
the picture shows whole, are not whole in it. Null: one of two schemes has no such bed; undefined: it
is on its way. */
function figure_of_place(shown: Shown, kind: LightKind, id: string): number | null | undefined {
  const known = places_shown.value;
  if (known === null) return undefined;
  const place = known.places.find((one) => one.id === id);
  if (place === undefined) return kind === "hours" ? known.only_there.find((one) => one.id === id)?.shown_h : null;
  const since = between(field_of_places.value[id], field.value?.head.beds[id]); // until its own figure is here
  const [here, there] = [place.shown_h === null ? null : place.shown_h + since, place.against_shown_h ?? null];
  if (kind === "hours") return shown.is_active.value ? here : there;
  if (there === null || here === null) return null;
  return scheme.value === sides.value?.[1] ? difference_told(there, here) : difference_told(here, there);
}

function rests_on_guesses(shown: Shown, kind: LightKind, id: string): boolean {
  const known = places_shown.value;
  const place = known?.places.find((one) => one.id === id);
  if (place === undefined) return known?.only_there.find((one) => one.id === id)?.on_guesses ?? false;
  const there = place.against_on_guesses ?? false;
  if (kind === "difference") return place.on_guesses || there;
  return shown.is_active.value ? place.on_guesses : there;
}

function gain_told(was: number, now: number, on_guesses: boolean): string {
  const by = difference_told(was, now);
  return by === 0 ? "" : gain_says(by, on_guesses);
}

interface Placed extends Figure {
  x: number;
  y: number;
}

/** Where many beds are small, figures would lie on each other: the chosen one's is kept, then one
after the other what has room; the list has them all. */
function with_room(placed: readonly Placed[], is_active: boolean): Placed[] {
  const [letter, high, overlap] = [7.8, 17, 3];
  const wide = ({ says, gain }: Figure) => letter * (says.length + (gain === "" ? 0 : gain.length + 0.5)) + 8;
  const is_first = ({ id }: Figure) => id === selected.value || id === hovered.value;
  const kept: Placed[] = [];
  const measured = is_active ? measures_placed.value.map(({ x, y, measure }) => ({ id: "", x, y, says: measure_says(measure.metres), gain: "" })) : [];
  for (const one of [...placed.filter(is_first), ...placed.filter((of) => !is_first(of))]) {
    const is_free = [...kept, ...measured].every(
      (other) => Math.abs(one.x - other.x) > (wide(one) + wide(other)) / 2 - overlap || Math.abs(one.y - other.y) > high - overlap,
    );
    if (is_free) kept.push(one);
  }
  return kept;
}

export function Chips({ shown }: { shown: Shown }) {
  const now = view.value;
  const { width, height } = size.value;
  if (now === null) return null;
  const placed = figures_of(shown).flatMap((figure): Placed[] => {
    const bed = standing(shown, figure.id);
    if (bed === null) return [];
    const [x, y] = to_screen(now, centre(bed));
    return x < -20 || y < -20 || x > width + 20 || y > height + 20 ? [] : [{ ...figure, x, y }];
  });
  return (
    <div class="chips" aria-hidden="true">
      {with_room(placed, shown.is_active.value).map(({ id, says, gain, x, y }) => (
        <div key={id} class="chip" style={{ transform: `translate(${x}px,${y}px) translate(-50%,-50%)` }}>
          {says}
          {gain !== "" && <span class="chip-gain">{gain}</span>}
        </div>
      ))}
    </div>
  );
}

/** Of the outline walked last. */
let walked: { d: string; points: readonly DOMPoint[] } = { d: "", points: [] };

function points_along(path: SVGPathElement): readonly DOMPoint[] {
  const d = path.getAttribute("d") ?? "";
  if (d === walked.d) return walked.points;
  const [step, long] = [8, path.getTotalLength()];
  const points = Array.from({ length: Math.ceil(long / step) }, (_, i) => path.getPointAtLength(i * step));
  walked = { d, points };
  return points;
}

/** The outline of what is selected, as a row of dots on the page. */
function outline_dots(host: Element): DOMRect[] {
  const path = host.querySelector<SVGPathElement>(".mark-selected");
  const from = path?.ownerSVGElement?.getBoundingClientRect();
  if (path === null || from === undefined) return [];
  const half = 2;
  return points_along(path).map(({ x, y }) => new DOMRect(from.left + x - half, from.top + y - half, 2 * half, 2 * half));
}

const disc_gap = 3; // its ring of paper and a little air

/** Where chips, lettered discs and the marks of what is selected lie on the page: names keep off
them. */
export function taken_rects(host: Element): DOMRect[] {
  const rects = [...host.querySelectorAll(".chip,.grip-ring")].map((one) => one.getBoundingClientRect());
  const discs = [...host.querySelectorAll(".disc")].map((one) => {
    const { x, y, width, height } = one.getBoundingClientRect();
    return new DOMRect(x - disc_gap, y - disc_gap, width + 2 * disc_gap, height + 2 * disc_gap);
  });
  return [...rects, ...discs, ...outline_dots(host)];
}
