// Whether the first steps of a garden are open, and which were left for later: kept on this machine.
import { computed, signal } from "@preact/signals";
import { garden } from "./garden";

interface Kept {
  open: boolean;
  later: string[]; // steps that were left
}
const key = "spadework.first-steps";

function read(): Record<string, Kept> {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(key) ?? "{}");
    return typeof kept === "object" && kept !== null ? (kept as Record<string, Kept>) : {};
  } catch {
    return {};
  }
}
const all = signal(read());
function write(id: string, kept: Kept): void {
  all.value = { ...all.peek(), [id]: kept };
  try {
    localStorage.setItem(key, JSON.stringify(all.peek()));
  } catch {
    // It holds for this window.
  }
}

const of_garden = computed<Kept | null>(() => (garden.value === null ? null : (all.value[garden.value] ?? null)));
/** The first steps stand in the notes of the garden that is open. */
export const steps_open = computed(() => of_garden.value?.open ?? false);
export const left_for_later = computed<readonly string[]>(() => of_garden.value?.later ?? []);

export function take_up_steps(id = garden.peek()): void {
  if (id !== null) write(id, { open: true, later: [] });
}
export function close_steps(): void {
  const id = garden.peek();
  if (id !== null) write(id, { open: false, later: [] });
}
export function leave_step(step: string): void {
  const id = garden.peek();
  const kept = of_garden.peek();
  if (id !== null && kept !== null && !kept.later.includes(step)) write(id, { ...kept, later: [...kept.later, step] });
}
export function take_up_step(step: string): void {
  const id = garden.peek();
  const kept = of_garden.peek();
  if (id !== null) write(id, { open: true, later: (kept?.later ?? []).filter((one) => one !== step) });
}
