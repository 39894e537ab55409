// What was typed into a step and not kept yet, of each garden: it can be left and taken up again, also
// after the page was closed.
import { signal } from "@preact/signals";
import { garden } from "./garden";

const key = "spadework.begun-steps";
type All = Record<string, Record<string, unknown>>;

function read(): All {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(key) ?? "{}");
    return typeof kept === "object" && kept !== null ? (kept as All) : {};
  } catch {
    return {};
  }
}
const all = signal(read());

/** What is begun in a step of the garden that is open; `nothing` where there is none. */
export function begun<T>(step: string, nothing: T): T {
  const of = all.value[garden.value ?? ""]?.[step];
  return of === undefined || typeof of !== typeof nothing || Array.isArray(of) !== Array.isArray(nothing) ? nothing : (of as T);
}

/** null: it is kept, or left for good. */
export function note_begun(step: string, what: unknown): void {
  const id = garden.peek() ?? "";
  const { [step]: _, ...others } = all.peek()[id] ?? {};
  all.value = { ...all.peek(), [id]: what === null ? others : { ...others, [step]: what } };
  try {
    localStorage.setItem(key, JSON.stringify(all.peek()));
  } catch {
    // It holds for this window.
  }
}
