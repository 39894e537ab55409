// Where waiting edits are kept on this machine. Each window keeps its own; a window that opens
// takes up what closed windows have left.
import type { Kept } from "./queue";

const prefix = "spadework.waiting.";
const window_id = Math.random().toString(36).slice(2);

function parsed(text: string | null): Kept[] {
  try {
    const kept: unknown = JSON.parse(text ?? "[]");
    return Array.isArray(kept) ? (kept as Kept[]) : [];
  } catch {
    return [];
  }
}

export function store_kept(kept: readonly Kept[]): void {
  try {
    if (kept.length === 0) localStorage.removeItem(prefix + window_id);
    else localStorage.setItem(prefix + window_id, JSON.stringify(kept));
  } catch {
    // No room: they are still in the window.
  }
}

function left_behind(): string[] {
  return Object.keys(localStorage).filter((key) => key.startsWith(prefix) && key !== prefix + window_id);
}

/** What closed windows have left, once. */
export async function take_left(): Promise<Kept[]> {
  void navigator.locks.request(prefix + window_id, () => new Promise<never>(() => {}));
  const all: Kept[] = [];
  for (const key of left_behind()) {
    await navigator.locks.request(key, { ifAvailable: true }, (lock) => {
      if (lock === null) return;
      all.push(...parsed(localStorage.getItem(key)));
      localStorage.removeItem(key);
    });
  }
  return all;
}
