// A world map: degrees to a square of side 1, x to the right, y down, and back.
import type { Point } from "./view";

const most_latitude = 83;
const [northmost, southmost] = [80, -60]; // as far as the map goes: nobody gardens beyond
const rad = Math.PI / 180;

export function on_map(longitude: number, latitude: number): [number, number] {
  const held = Math.max(-most_latitude, Math.min(most_latitude, latitude));
  return [(longitude + 180) / 360, 0.5 - Math.log(Math.tan(Math.PI / 4 + (held * rad) / 2)) / (2 * Math.PI)];
}

/** Longitude and latitude. */
export function from_map([x, y]: Point): [number, number] {
  const turned = (((x % 1) + 1) % 1) * 360 - 180;
  return [turned, (2 * Math.atan(Math.exp((0.5 - y) * 2 * Math.PI)) - Math.PI / 2) / rad];
}

/** What part of the map is seen: pixels of the whole's side, and its upper left in pixels. */
export interface MapView {
  side: number;
  left: number;
  top: number;
}

export function map_zoomed(view: MapView, at: Point, factor: number, room: { width: number; height: number }): MapView {
  const tall = on_map(0, southmost)[1] - on_map(0, northmost)[1];
  const least = Math.max(room.width, room.height / tall);
  const side = Math.min(400_000, Math.max(least, view.side * factor));
  const by = side / view.side;
  return map_held({ side, left: (view.left + at[0]) * by - at[0], top: (view.top + at[1]) * by - at[1] }, room);
}

/** Held within the world, from pole to pole and from edge to edge. */
export function map_held(view: MapView, { width, height }: { width: number; height: number }): MapView {
  const [low, high] = [on_map(0, northmost)[1] * view.side, on_map(0, southmost)[1] * view.side - height];
  const within = (value: number, from: number, to: number) => (to < from ? (from + to) / 2 : Math.max(from, Math.min(to, value)));
  return { ...view, left: within(view.left, 0, view.side - width), top: within(view.top, low, high) };
}
