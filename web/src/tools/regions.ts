// The regions of the page for the keyboard: F6 goes from one to the next, a letter to the next word
// of a region that begins with it.
const can_be_used =
  "a[href],button:not(:disabled),input:not(:disabled),select:not(:disabled),summary,[tabindex='0']";

const is_seen = (element: HTMLElement) => element.getClientRects().length > 0 && element.closest("[hidden]") === null;

function regions(): HTMLElement[] {
  return [...document.querySelectorAll<HTMLElement>("[data-region]")].filter(is_seen);
}

/** The region that has the focus, or the last one before it on the page; none: -1. */
function region_now(all: readonly HTMLElement[]): number {
  const at = document.activeElement;
  if (at === null || at === document.body) return -1;
  const begun = (region: HTMLElement) => region === at || (region.compareDocumentPosition(at) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0;
  return all.filter(begun).length - 1;
}

/** F6: the next region of the page, with Shift the one before. From nowhere it comes to the sheet. */
export function next_region(back: boolean): void {
  const all = regions();
  const here = region_now(all);
  const sheet = all.findIndex((region) => region.dataset["region"] === "sheet");
  const start = here >= 0 ? here + (back ? -1 : 1) : back ? all.length - 1 : Math.max(0, sheet);
  const next = all[(start + all.length) % all.length];
  if (next === undefined) return;
  const entry = next.matches("[tabindex]") ? next : (next.querySelector<HTMLElement>("[data-entry]") ?? next);
  if (!entry.matches("[tabindex],a[href],button,input")) entry.tabIndex = -1;
  entry.focus();
}

/** What it is called, and what it is about: "from lane-wall" is come to by f and by l. */
function begins_with(element: HTMLElement, letter: string): boolean {
  const name = element.getAttribute("aria-label") ?? element.closest("label")?.textContent ?? element.textContent ?? "";
  const is_so = (text: string) => text.replace(/^[^\p{L}]+/u, "").toLowerCase().startsWith(letter.toLowerCase());
  return is_so(name) || is_so(element.dataset["about"] ?? "");
}

/** A name that tells what is meant stands beside its field: the field is gone to. */
const is_aside = (element: HTMLElement) => element.dataset["aside"] !== undefined;

/** Come to by a letter: the same letter, soon after, goes on, also from a field. */
let came: { to: Element; letter: string; at: number } | null = null;
const soon_ms = 1500;
export const goes_on = (letter: string): boolean =>
  came !== null && came.to === document.activeElement && came.letter === letter && performance.now() - came.at < soon_ms;

/** A letter: the next word, figure or choice of the region that begins with it. False: there is none. */
export function go_to_letter(letter: string): boolean {
  const at = document.activeElement as HTMLElement | null;
  const region = at?.closest("[data-letters],[data-region]") ?? null;
  if (region === null || at === null) return false;
  const words = [...region.querySelectorAll<HTMLElement>(can_be_used)].filter(
    (word) => word === at || (is_seen(word) && !is_aside(word) && begins_with(word, letter)),
  );
  // Where the region itself has the focus, the first; else the next, and round again.
  const next = words[(words.indexOf(at) + 1) % Math.max(1, words.length)];
  if (next === undefined || next === at) return false;
  next.focus();
  came = { to: next, letter, at: performance.now() };
  if (next instanceof HTMLInputElement) next.select();
  return true;
}
