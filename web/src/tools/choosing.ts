// Which thing is meant: by a finger, by the arrows, in words.
import { batch } from "@preact/signals";
import type { Thing } from "../api";
import { bounds, centre, lies_beneath, moved, next_thing, type Point, thing_at, to_plan, to_screen, type Way } from "../geometry";
import { hovered, offset_since, saying, selected, state, trying, field, when } from "../state";
import { bring_into_sight, size, view } from "./sheet_view";

const undrawn = new Set(["view", "hide", "watch", "stand", "task", "tie"]);

/** What has a place on the sheet, where it stands now. */
export function drawn_things(): Thing[] {
  const now = state.peek();
  if (now === null) return [];
  return now.things
    .filter((thing) => thing.corners.length > 0 && !undrawn.has(thing.table))
    .map((thing) => moved(thing, offset_since(thing.id, now.head.change)));
}

export function drawn_thing(id: string | null): Thing | null {
  return drawn_things().find((thing) => thing.id === id) ?? null;
}

const finger = 12; // pixels around a touch

export function thing_under(x: number, y: number): Thing | null {
  const now = view.peek();
  if (now === null) return null;
  return thing_at(drawn_things(), to_plan(now, [x, y]), finger / now.scale);
}

export function select(id: string | null): void {
  batch(() => {
    selected.value = id;
    hovered.value = null;
    const thing = drawn_thing(id);
    saying.value = thing === null ? "Nothing selected." : `${thing_says(thing)} selected.`;
  });
}

/** "medlar, tree", and what light a bed gets. */
export function thing_says(thing: Thing): string {
  const hours = (trying.peek()?.field ?? field.peek())?.head.beds[thing.id];
  const light =
    hours === undefined || hours === null || when.peek().kind === "moment" ? "" : `, ${hours.toFixed(1)} hours of sun a day`;
  const mark = thing.mark === "existing" ? "" : `, ${thing.mark}`;
  return `${thing.id}, ${thing.table}${mark}${light}`;
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
  const all = drawn_things();
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

/** Where the grip of a thing stands: off its lower right corner, within the sheet. */
export function grip_at(thing: Thing): [number, number] | null {
  const now = view.peek();
  if (now === null) return null;
  const { width, height } = size.peek();
  const [x0, y0, x1, y1] = bounds(thing);
  const right = (x1 - now.left) * now.scale;
  const left = (x0 - now.left) * now.scale;
  const low = (now.top - y0) * now.scale;
  const high = (now.top - y1) * now.scale;
  const off = 34;
  const x = right + off < width - 26 ? right + off : left - off > 26 ? left - off : Math.min(width - 30, right - off);
  const y = low + 8 < height - 26 ? low + 8 : Math.max(30, Math.min(height - 30, high - 8));
  return [Math.max(30, Math.min(width - 30, x)), Math.max(30, y)];
}
