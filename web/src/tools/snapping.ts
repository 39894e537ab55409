// Snapping while something is in the hand: to what is in sight, unless Alt is held or it is switched off.
import { computed, effect, signal } from "@preact/signals";
import { goes_with_others, type Guide, main_turn, type Point, plus, quarter, bearing_of, apart, type Reference, Snaps, to_screen } from "../geometry";
import { state } from "../state";
import { drawn_things } from "./choosing";
import { size, view } from "./sheet_view";

const kept = "spadework.snaps";
export const snaps_on = signal(localStorage.getItem(kept) !== "false");
effect(() => localStorage.setItem(kept, String(snaps_on.value)));

/** The construction lines of what is found. */
export const guides = signal<readonly Guide[]>([]);
const no_guides: readonly Guide[] = [];

export function forget_guides(): void {
  if (guides.peek().length > 0) guides.value = no_guides;
}

const unmeant = new Set(["service", "patch", "view", "hide", "watch", "picture"]);
const near_px = 9;

/** The way in which the garden lies on the page. */
const garden_turn = computed(() => {
  const now = state.value;
  if (now === null) return 0;
  const boundary: Reference = { name: "the boundary", corners: now.boundary as unknown as Point[], closed: true };
  const lines = now.things.filter((thing) => thing.corners.length > 1 && thing.table !== "plant" && thing.table !== "picture" && !goes_with_others(thing));
  return main_turn([boundary, ...lines.map((thing) => ({ name: thing.id, corners: thing.corners as unknown as Point[], closed: thing.closed }))]);
});

function in_sight(but: string | null): Reference[] {
  const now = view.peek();
  const of = state.peek();
  if (now === null || of === null) return [];
  const { width, height } = size.peek();
  const is_seen = (corners: readonly Point[]) =>
    corners.some((corner) => {
      const [x, y] = to_screen(now, corner);
      return x > -40 && y > -40 && x < width + 40 && y < height + 40;
    });
  const things = drawn_things()
    .filter((thing) => thing.id !== but && thing.mark !== "removed" && !unmeant.has(thing.table))
    .map((thing): Reference => ({ name: thing.id, corners: thing.corners as unknown as Point[], closed: thing.closed }));
  const boundary: Reference = { name: "the boundary", corners: of.boundary as unknown as Point[], closed: true };
  return [...things, boundary].filter(({ corners }) => is_seen(corners));
}

let known: { key: string; snaps: Snaps } | null = null;

/** Made once for a gesture: for the same garden, sight and thing. */
function snaps_for(but: string | null, frame_deg: number): Snaps {
  const now = view.peek();
  const key = [but, frame_deg.toFixed(2), state.peek()?.head.change, state.peek()?.scheme, now?.scale, now?.left, now?.top].join();
  if (known?.key !== key) known = { key, snaps: new Snaps(in_sight(but), frame_deg) };
  return known.snaps;
}

/** So far a hand is led; where the plan is small no farther than a hand’s breadth or three. */
const most_m = 0.35;
const reach = (by_keys: boolean) => (by_keys ? 0.003 : Math.min(most_m, near_px / (view.peek()?.scale ?? 40)));

/** A shape keeps to its own sides. */
function turn_of(corners: readonly Point[], closed: boolean): number {
  if (!closed || corners.length < 3) return garden_turn.peek();
  let [longest, turn] = [0, 0];
  corners.forEach((corner, i) => {
    const next = corners[(i + 1) % corners.length] as Point;
    if (apart(corner, next) > longest + 1e-6) [longest, turn] = [apart(corner, next), quarter(bearing_of(corner, next))];
  });
  return turn;
}

const tidy = ([x, y]: Point): Point => [Math.round(x * 1e4) / 1e4, Math.round(y * 1e4) / 1e4];

export interface Hand {
  but: string | null; // the thing in the hand
  free: boolean; // Alt is held
  by_keys?: boolean; // the lines are told, and nothing goes to them
}

/** What is to be added to a shape that the hand has there. */
export function snap_shape(corners: readonly Point[], closed: boolean, { but, free, by_keys = false }: Hand): Point {
  if (free || (!snaps_on.peek() && !by_keys)) {
    forget_guides();
    return [0, 0];
  }
  const found = snaps_for(but, turn_of(corners, closed)).shape(corners, reach(by_keys));
  guides.value = found.guides;
  return by_keys ? [0, 0] : tidy(found.by);
}

/** A corner where the hand means it to be. */
export function snap_corner(at: Point, from: Point | null, before: Point | null, { but, free, by_keys = false }: Hand): Point {
  if (free || (!snaps_on.peek() && !by_keys)) {
    forget_guides();
    return at;
  }
  const found = snaps_for(but, garden_turn.peek()).corner(at, reach(by_keys), from, before);
  guides.value = found.guides;
  return by_keys ? at : tidy(plus(at, found.by));
}

/** ", in line with bank": for who listens. */
export function guides_say(): string {
  const words = [...new Set(guides.peek().map(({ says }) => says).filter((word) => word !== ""))];
  return words.length === 0 ? "" : `, ${words.join(", ")}`;
}
