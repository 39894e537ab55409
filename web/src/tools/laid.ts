// What lies on the sheet while it is measured: lines that come of typed figures, before they are kept.
import { signal } from "@preact/signals";
import { type Box, both, box_around, type Point, wider } from "../geometry";

/** An outline or a line of figures typed so far. */
export interface Sketch {
  points: readonly Point[];
  closed: boolean;
  is_sure: boolean; // worked out; false: as far as it goes, square by square
  diagonal: readonly [number, number] | null; // between these corners
  names: readonly string[]; // of the corners
  sides: readonly string[]; // written along them
}
/** An arrow in the plan: where water runs. */
export interface Arrow {
  from: Point;
  to: Point;
  says: string;
}
/** A shadow as it would lie if north is as drawn, and its end as the hand has it. */
export interface ShadowEnd {
  thing: string;
  foot: Point;
  tip: Point;
  moved: Point | null;
}

export const sketch = signal<Sketch | null>(null);
export const arrow = signal<Arrow | null>(null);
/** Degrees clockwise from the page's up to where north is thought to lie; null: as the garden has it. */
export const north_tried = signal<number | null>(null);
export const shadow_ends = signal<readonly ShadowEnd[]>([]);
/** A picture that is being laid under, its lower left corner in the plan. */
export interface PictureTried {
  file: string;
  at: Point;
  width_m: number;
  height_m: number;
}
export const picture_tried = signal<PictureTried | null>(null);
const picture_box = (): Box | null => {
  const of = picture_tried.value;
  return of === null ? null : [of.at[0], of.at[1], of.at[0] + of.width_m, of.at[1] + of.height_m];
};

/** Where the keys would set the next point. */
export const cross = signal<Point | null>(null);

const around_m = 1.5;

/** The room on the sheet that a sketch wants. */
export function sketch_box(): Box | null {
  const of = sketch.value;
  const box = of === null || of.points.length < 2 ? null : box_around(of.points);
  const all = both(box, picture_box());
  return all === null ? null : wider(all, around_m);
}

export function forget_sketches(): void {
  sketch.value = null;
  arrow.value = null;
  cross.value = null;
  north_tried.value = null;
  shadow_ends.value = [];
  picture_tried.value = null;
}
