// Which strip of words stands at the foot of the sheet: what lies there too makes room for it.
import { computed, signal } from "@preact/signals";
import { drawing } from "./drawing";
import { moving } from "./moving";
import { pen } from "./pen";

/** Pixels of the strip in which something is drawn. */
export const strip_high = signal(0);

export const strip = computed<"draw" | "move" | "pen" | null>(() => {
  if (drawing.value !== null) return "draw";
  if (moving.value !== null) return moving.value.how === "grip" ? null : "move";
  return pen.value === null ? null : "pen";
});
