// Which thing is meant: by a finger, by the arrows, in words.
import { batch } from "@preact/signals";
import type { Thing } from "../api";
import { bounds, centre, lies_beneath, moved, next_thing, type Point, thing_at, to_plan, to_screen, type View, type Way } from "../geometry";
import { hovered, is_entry, offset_since, saying, selected, state, thing_or_entry, trying, field, when } from "../state";
import { table_called } from "./kinds";
import { is_laid_under } from "./laid_under";
import { entry_says } from "./tables";
import { bring_into_sight, size, view } from "./sheet_view";

/** What has a place on the sheet, where it stands now. */
export function drawn_things(): Thing[] {
  const now = state.peek();
  if (now === null) return [];
  return now.things
    .filter((thing) => thing.corners.length > 0)
    .map((thing) => moved(thing, offset_since(thing.id, now.head.change)));
}

export function drawn_thing(id: string | null): Thing | null {
  return drawn_things().find((thing) => thing.id === id) ?? null;
}

const finger = 12; // pixels around a touch

export function thing_under(x: number, y: number): Thing | null {
  const now = view.peek();
  return now === null ? null : thing_near(to_plan(now, [x, y]));
}

/** The thing meant at a point of the plan, of those that `are` such. */
export function thing_near(at: Point, are: (thing: Thing) => boolean = () => true): Thing | null {
  const now = view.peek();
  return now === null ? null : thing_at(drawn_things().filter((thing) => !is_laid_under(thing) && are(thing)), at, finger / now.scale);
}

export function select(id: string | null): void {
  batch(() => {
    selected.value = id;
    hovered.value = null;
    const thing = drawn_thing(id) ?? thing_or_entry(id) ?? null;
    saying.value = thing === null ? "Nothing selected." : `${thing_says(thing)} selected.`;
  });
}

/** "medlar, tree", and what light a bed gets. */
export function thing_says(thing: Thing): string {
  if (is_entry(thing.id)) return entry_says(thing);
  const hours = (trying.peek()?.field ?? field.peek())?.head.beds[thing.id];
  const light =
    hours === undefined || hours === null || when.peek().kind === "moment" ? "" : `, ${hours.toFixed(1)} hours of sun a day`;
  const mark = thing.mark === "existing" ? "" : `, ${thing.mark}`;
  return `${thing.id}, ${table_called(thing.table)}${mark}${light}`;
}

/** Where the arrows begin when nothing is meant yet: in the midst of what stands in sight. */
function midst_of(all: readonly Thing[]): Point | null {
  const now = view.peek();
  const { width, height } = size.peek();
  if (now === null) return null;
  const places = all.filter((thing) => !lies_beneath(thing)).map(centre);
  const is_in_sight = ([x, y]: Point) => x >= 0 && y >= 0 && x <= width && y <= height;
  const seen = places.filter((place) => is_in_sight(to_screen(now, place)));
  if (seen.length === 0) return to_plan(now, [width / 2, height / 2]);
  const middle = (axis: 0 | 1) => seen.map((place) => place[axis]).sort((a, b) => a - b)[seen.length >> 1] as number;
  return [middle(0), middle(1)];
}

export function step_to(way: Way): void {
  const all = drawn_things().filter((thing) => !is_laid_under(thing));
  const from = all.find((thing) => thing.id === (hovered.peek() ?? selected.peek()));
  const at = from !== undefined ? centre(from) : midst_of(all);
  if (at === null) return;
  const next = next_thing(all, at, way, from?.id ?? null);
  if (next === null) {
    saying.value = `Nothing further ${way}.`;
    return;
  }
  hovered.value = next.id;
  saying.value = thing_says(next);
  bring_into_sight(centre(next));
}

const grip_corners: readonly Point[] = [[1, 1], [1, -1], [-1, 1], [-1, -1]]; // right or left, low or high
/** Of a thing larger than the sheet: the middle of what is to be seen of it. */
const in_midst: Point = [0, 0];
let gripped = { thing: "", corner: grip_corners[0] as Point };

/** Whether the grip there would cover the figure of another bed. */
function covers_figure(at: Point, thing: Thing, now: View): boolean {
  const [half_wide, half_high] = [44, 34]; // grip and figure together
  return drawn_things().some((bed) => {
    if (bed.table !== "bed" || bed.id === thing.id) return false;
    const [x, y] = to_screen(now, centre(bed));
    return Math.abs(x - at[0]) < half_wide && Math.abs(y - at[1]) < half_high;
  });
}

/** Where the grip of a thing stands: off a corner, within the sheet, beside the figures; while the
thing is in the hand at the corner where it was taken. */
export function grip_at(thing: Thing, is_in_hand: boolean): Point | null {
  const now = view.peek();
  if (now === null) return null;
  const { width, height } = size.peek();
  const [x0, y0, x1, y1] = bounds(thing);
  const off_corner = ([across, down]: Point): Point => [
    across > 0 ? (x1 - now.left) * now.scale + 34 : (x0 - now.left) * now.scale - 34,
    down > 0 ? (now.top - y0) * now.scale + 8 : (now.top - y1) * now.scale - 8,
  ];
  const seen_middle = (low: number, high: number, room: number) => (Math.max(0, low) + Math.min(room, high)) / 2;
  const at_corner = (corner: Point): Point =>
    corner !== in_midst ? off_corner(corner) : [seen_middle((x0 - now.left) * now.scale, (x1 - now.left) * now.scale, width), seen_middle((now.top - y1) * now.scale, (now.top - y0) * now.scale, height)];
  const is_within = ([x, y]: Point) => x > 26 && x < width - 26 && y > 26 && y < height - 26;
  if (!is_in_hand || gripped.thing !== thing.id) {
    const within = grip_corners.filter((corner) => is_within(off_corner(corner)));
    const free = within.find((corner) => !covers_figure(off_corner(corner), thing, now));
    gripped = { thing: thing.id, corner: free ?? within[0] ?? in_midst };
  }
  const [x, y] = at_corner(gripped.corner);
  return [Math.max(30, Math.min(width - 30, x)), Math.max(30, Math.min(height - 30, y))];
}
