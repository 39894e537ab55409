// How the page looks on this machine: in the sun, in the dark.
import { effect, signal } from "@preact/signals";

function kept(name: string, usual: boolean) {
  const key = `spadework.${name}`;
  let start = usual;
  try {
    start = (localStorage.getItem(key) ?? String(usual)) === "true";
  } catch {
    // Nothing is kept here: as usual.
  }
  const looks = signal(start);
  effect(() => {
    document.documentElement.classList.toggle(name, looks.value);
    try {
      localStorage.setItem(key, String(looks.value));
    } catch {
      // It holds for this window.
    }
  });
  return looks;
}

export const outdoors = kept("outdoors", false);
export const dark = kept("dark", false);
