// A thing turned, mirrored or carried elsewhere: the keys of its place, as the document has them.
import type { Thing } from "../api";
import { bearing_of } from "./snaps";
import { cross, dot, minus, plus, times, turned } from "./sketch";
import type { Point } from "./view";

export interface Carry {
  to: (p: Point) => Point;
  is_mirrored: boolean;
}

const tidy = ([x, y]: Point): [number, number] => [Math.round(x * 1e4) / 1e4, Math.round(y * 1e4) / 1e4];
/** Degrees to a hundredth, −180 to 180. */
const tidy_turn = (degrees: number): number => {
  const within = ((((degrees + 180) % 360) + 360) % 360) - 180;
  return Math.round(within * 100) / 100;
};

export const shifted = (by: Point): Carry => ({ to: (p) => plus(p, by), is_mirrored: false });

export function turned_about(middle: Point, degrees: number): Carry {
  return { to: (p) => plus(middle, turned(minus(p, middle), degrees)), is_mirrored: false };
}

export function mirrored_in(a: Point, b: Point): Carry {
  const way = minus(b, a);
  const long = dot(way, way) || 1;
  const to = (p: Point): Point => {
    const along = dot(minus(p, a), way) / long;
    const off = cross(way, minus(p, a)) / long;
    const left: Point = [-way[1], way[0]];
    return plus(plus(a, times(way, along)), times(left, -off));
  };
  return { to, is_mirrored: true };
}

const is_place = (value: unknown): value is [number, number] =>
  Array.isArray(value) && value.length === 2 && value.every((one) => typeof one === "number");
const are_places = (value: unknown): value is [number, number][] => Array.isArray(value) && value.every(is_place);

/** The keys of its place, carried; empty for what has no place of its own. A place that is a point's id
becomes one of figures. */
export function carried(thing: Thing, { to, is_mirrored }: Carry): Record<string, unknown> {
  const corners = thing.corners as unknown as Point[];
  const set: Record<string, unknown> = {};
  for (const key of ["outline", "line", "row"]) {
    const was = thing.fields[key]?.value;
    if (was === undefined) continue;
    const places: readonly Point[] = are_places(was) ? was : key === "row" ? corners.slice(0, 1).concat(corners.slice(-1)) : corners;
    set[key] = places.map((p) => tidy(to(p)));
  }
  const first = corners[0];
  if (thing.fields["at"] !== undefined && first !== undefined) {
    const at = thing.fields["at"].value;
    const is_box = thing.closed && corners.length === 4 && (thing.fields["size"] !== undefined || thing.table === "picture");
    if (is_box) {
      const m = corners.map(to);
      const [from, along] = is_mirrored ? [m[1] as Point, m[0] as Point] : [m[0] as Point, m[1] as Point];
      set["at"] = tidy(from);
      const turn = tidy_turn(bearing_of(from, along));
      if (turn !== 0 || thing.fields["turn_deg"] !== undefined) set["turn_deg"] = turn;
    } else {
      const stands: Point = is_place(at) ? at : first;
      set["at"] = tidy(to(stands));
      if (thing.table === "support") {
        const was = thing.fields["turn_deg"]?.value;
        const front = plus(stands, turned([1, 0], typeof was === "number" ? was : 0));
        const turn = tidy_turn(bearing_of(to(stands), to(front)));
        if (turn !== 0 || was !== undefined) set["turn_deg"] = turn;
      }
    }
  }
  const facing = thing.fields["facing"]?.value;
  if (is_place(facing)) set["facing"] = tidy(to(facing));
  return set;
}

const own = new Set(["id", "status", "scheme", "removed", "locked"]);

/** All that a second one like it has, elsewhere; a figure that was typed with its unit keeps it. */
export function copied(thing: Thing, carry: Carry): Record<string, unknown> {
  const set: Record<string, unknown> = {};
  for (const [key, { typed, value, parts }] of Object.entries(thing.fields)) {
    if (own.has(key)) continue;
    const has_unit = typeof value === "number" && /[a-z'"]/i.test(typed);
    set[key] = has_unit ? typed : (parts ?? value);
  }
  return { ...set, ...carried(thing, carry) };
}
