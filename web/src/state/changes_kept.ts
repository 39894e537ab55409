// Changes that the grower said are to stay: not asked about again on this machine.
import { signal } from "@preact/signals";
import { garden } from "./garden";

const key = "spadework.changes_kept";
const most = 500; // the oldest are asked about again

function stored(): string[] {
  try {
    const known: unknown = JSON.parse(localStorage.getItem(key) ?? "[]");
    return Array.isArray(known) ? known.filter((one): one is string => typeof one === "string") : [];
  } catch {
    return [];
  }
}

const all = signal<readonly string[]>(stored());
const name_of = (scheme: string, thing: string): string => `${garden.value} ${scheme} ${thing}`;

export const is_change_kept = (scheme: string, thing: string): boolean => all.value.includes(name_of(scheme, thing));

function set_all(next: readonly string[]): void {
  all.value = next.slice(-most);
  try {
    localStorage.setItem(key, JSON.stringify(all.value));
  } catch {
    // It holds for this window.
  }
}

export const keep_change = (scheme: string, thing: string): void => set_all([...all.peek(), name_of(scheme, thing)]);
/** Put back, another change of it is asked about again. */
export function forget_kept(scheme: string, thing: string): void {
  const name = name_of(scheme, thing);
  if (all.peek().includes(name)) set_all(all.peek().filter((one) => one !== name));
}
