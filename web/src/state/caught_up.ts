// What goes by how a thing stands must not go by how it stood before what was just done.
import { effect } from "@preact/signals";
import { head, link, state, waiting } from "./garden";

/** Once the garden shown has all that was done here; at once where that must wait. */
export function caught_up(): Promise<void> {
  return new Promise((resolve) => {
    const stop = effect(() => {
      const is_behind = waiting.value > 0 || (state.value?.head.change ?? 0) < (head.value?.change ?? 0);
      if (is_behind && link.value === "here" && state.value !== null) return;
      queueMicrotask(() => stop());
      resolve();
    });
  });
}
