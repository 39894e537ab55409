// From the plan's metres (x to the right, y up the page) to the screen's pixels, and back.
export type Point = readonly [number, number];
export type Box = readonly [number, number, number, number]; // low x, low y, high x, high y

/** What part of the plan the sheet shows: pixels a metre, and the plan's point at its upper left. */
export interface View {
  scale: number;
  left: number;
  top: number;
}

export interface Size {
  width: number;
  height: number;
}

export const least_scale = 3;
export const most_scale = 400;
/** CSS pixels in a millimetre of paper. */
export const px_per_mm = 96 / 25.4;

export function to_screen(view: View, [x, y]: Point): [number, number] {
  return [(x - view.left) * view.scale, (view.top - y) * view.scale];
}

export function to_plan(view: View, [x, y]: Point): [number, number] {
  return [view.left + x / view.scale, view.top - y / view.scale];
}

/** Free room that a fitted plan leaves on each side, in pixels. */
export interface Room {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

export function fit(box: Box, size: Size, room: Room): View {
  const width = Math.max(40, size.width - room.left - room.right);
  const height = Math.max(40, size.height - room.top - room.bottom);
  const [x0, y0, x1, y1] = box;
  const wanted = Math.min(width / Math.max(0.1, x1 - x0), height / Math.max(0.1, y1 - y0));
  const scale = Math.min(most_scale, Math.max(least_scale, wanted));
  return {
    scale,
    left: (x0 + x1) / 2 - (room.left + width / 2) / scale,
    top: (y0 + y1) / 2 + (room.top + height / 2) / scale,
  };
}

export function panned(view: View, dx: number, dy: number): View {
  return { ...view, left: view.left - dx / view.scale, top: view.top + dy / view.scale };
}

/** Zoomed so that the plan's point under `at` stays there. */
export function zoomed(view: View, at: Point, factor: number): View {
  const scale = Math.min(most_scale, Math.max(least_scale, view.scale * factor));
  const [x, y] = to_plan(view, at);
  return { scale, left: x - at[0] / scale, top: y + at[1] / scale };
}

/** Two fingers: the plan's points under them stay under them. */
export function pinched(view: View, from: [Point, Point], to: [Point, Point]): View {
  const apart = ([a, b]: [Point, Point]) => Math.max(1, Math.hypot(a[0] - b[0], a[1] - b[1]));
  const middle = ([a, b]: [Point, Point]): Point => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const [was, is] = [middle(from), middle(to)];
  const moved = panned(view, is[0] - was[0], is[1] - was[1]);
  return zoomed(moved, is, apart(to) / apart(from));
}

/** A length for the scale bar: 1, 2 or 5 of its unit, about `room` pixels long. */
export function bar_length(scale: number, room: number): number {
  const most = room / scale;
  const power = 10 ** Math.floor(Math.log10(most));
  return (most >= 5 * power ? 5 : most >= 2 * power ? 2 : 1) * power;
}
