// Snapping while something is in the hand: to what is in sight, unless Alt is held or it is switched off.
import { computed, effect, signal } from "@preact/signals";
import { centre, type Further, goes_with_others, Ground, type Guide, main_turn, type Point, plus, quarter, bearing_of, apart, type Reference, Snaps, times, to_screen, type Triangle } from "../geometry";
import type { Thing } from "../api";
import { state } from "../state";
import { drawn_thing, drawn_things } from "./choosing";
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
  is_bed?: boolean; // it lies level, so it may lie level with another
  free: boolean; // Alt is held
  by_keys?: boolean; // the lines are told, and nothing goes to them
}

/** A bed whose level is the ground’s under it. */
function lies_as_ground(id: string | null): boolean {
  const thing = drawn_thing(id);
  return thing?.table === "bed" && thing.fields["level_m"] === undefined && thing.fields["level_with"] === undefined;
}

/** What is to be added to a shape that the hand has there. */
export function snap_shape(corners: readonly Point[], closed: boolean, { but, is_bed = lies_as_ground(but), free, by_keys = false }: Hand): Point {
  if (free || (!snaps_on.peek() && !by_keys)) {
    forget_guides();
    return [0, 0];
  }
  const level = is_bed && !ground.value.is_flat ? level_with(but) : null;
  const found = snaps_for(but, turn_of(corners, closed)).shape(corners, reach(by_keys), level);
  guides.value = found.guides;
  return by_keys ? [0, 0] : tidy(found.by);
}

const ground = computed(() => new Ground((state.value?.ground ?? []) as unknown as Triangle[]));
const level_m = 0.002; // what a line holds already is told as level when it is as near as that

/** To where an outline lies level with the soil of another bed. */
const level_with = (but: string | null): Further => (corners, way, tol) => {
  const here = ground.value.under(corners);
  if (here === null) return null;
  const stays = way !== null && way[0] === 0 && way[1] === 0;
  const most = Math.max(level_m, stays ? 0 : tol * Math.hypot(...here.slope));
  let best: { by: Point; bed: Thing } | null = null;
  for (const bed of drawn_things()) {
    const level = bed.table === "bed" && bed.id !== but && bed.mark !== "removed" ? state.peek()?.beds[bed.id]?.level_m : undefined;
    if (level === undefined || Math.abs(level - here.level) > most) continue;
    const by: Point | null = stays ? [0, 0] : ground.value.to_level(corners, level, way, tol);
    if (by !== null && (best === null || Math.hypot(...by) < Math.hypot(...best.by))) best = { by, bed };
  }
  if (best === null) return null;
  const { by, bed } = best;
  const middle = times(corners.reduce((sum, corner) => plus(sum, corner), [0, 0] as Point), 1 / corners.length);
  return { by, guide: { a: centre(bed), b: plus(middle, by), says: `level with ${bed.id}` } };
};

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
