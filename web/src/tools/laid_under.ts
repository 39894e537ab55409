// Pictures laid under: their paper has corners, as soon as their sides are known.
import { effect, signal } from "@preact/signals";
import type { Thing } from "../api";
import { rectangle } from "../geometry";
import { state } from "../state";

/** A picture to draw by: chosen in the list, never by a touch meant for what is drawn over it. */
export const is_laid_under = (thing: Thing): boolean => thing.table === "picture";

/** How high pictures are for their width, by their file; known once they are seen. */
const shares = signal<ReadonlyMap<string, number>>(new Map());

export function note_picture(file: string, width: number, height: number): void {
  if (width > 0 && shares.peek().get(file) !== height / width) shares.value = new Map(shares.peek()).set(file, height / width);
}

/** A picture with the corners of its paper, by which it is chosen, moved and turned. */
function with_corners(thing: Thing): Thing {
  const value = (key: string) => thing.fields[key]?.value;
  const [at, width, file, turn] = [value("at"), value("width_m"), value("file"), value("turn_deg")];
  const share = shares.value.get(String(file));
  if (thing.table !== "picture" || !Array.isArray(at) || typeof width !== "number" || share === undefined) return thing;
  const corners = rectangle([Number(at[0]), Number(at[1])], [width, width * share], typeof turn === "number" ? turn : 0);
  return { ...thing, corners: corners.map(([x, y]) => [x, y]), closed: true };
}

effect(() => {
  const now = state.value;
  if (now === null || shares.value.size === 0) return;
  const is_bare = (thing: Thing) => thing.table === "picture" && thing.corners.length === 0 && shares.value.has(String(thing.fields["file"]?.value));
  if (now.things.some(is_bare)) state.value = { ...now, things: now.things.map((thing) => (is_bare(thing) ? with_corners(thing) : thing)) };
});
