// The program's drawing of the plan, made part of the page: its things found by their ids, its
// names thinned out where they would lie on each other.
import { ask_text } from "../api";
import { px_per_mm } from "../geometry";

export interface PlanDrawing {
  svg: SVGSVGElement;
  groups: Map<string, SVGGElement[]>; // of each thing
  names: SVGTextElement[];
  scale: number; // pixels a metre at which it was drawn
  scheme: string;
  change: number; // of the garden
  left: number; // the plan's point at its upper left corner
  top: number;
}

export interface DrawingAsked {
  garden: string;
  scheme: string;
  change: number;
  frame_m: readonly number[];
  scale: number;
  day_of_year: number;
  is_bold: boolean; // for the sun: heavier lines, no stipple
}

const bold = 1.5;

function embolden(svg: SVGSVGElement): void {
  for (const mark of svg.querySelectorAll("[stroke-width]"))
    mark.setAttribute("stroke-width", String(Number(mark.getAttribute("stroke-width")) * bold));
  for (const dots of svg.querySelectorAll('path[stroke-linecap="round"]'))
    if (/^M[-\d. ]+h0/.test(dots.getAttribute("d") ?? "")) dots.remove();
}

/** Ids become `data-thing`: two sheets may stand on one page. */
function groups_in(svg: SVGSVGElement): Map<string, SVGGElement[]> {
  const groups = new Map<string, SVGGElement[]>();
  for (const layer of ["ground", "levels", "things"]) {
    for (const group of svg.querySelectorAll<SVGGElement>(`#${layer} > g[id]`)) {
      const of = groups.get(group.id) ?? [];
      of.push(group);
      groups.set(group.id, of);
    }
  }
  for (const one of svg.querySelectorAll("[id]")) {
    one.setAttribute("data-thing", one.id);
    one.removeAttribute("id");
    one.removeAttribute("role");
  }
  for (const title of svg.querySelectorAll("title")) title.remove();
  svg.removeAttribute("role");
  svg.removeAttribute("aria-labelledby");
  svg.removeAttribute("id");
  return groups;
}

export async function fetch_drawing(asked: DrawingAsked, signal: AbortSignal): Promise<PlanDrawing> {
  const { garden, scheme, scale, day_of_year } = asked;
  const query = { scheme, mm_per_m: Number((scale / px_per_mm).toFixed(4)), day_of_year };
  const text = await ask_text("/api/gardens/{garden}/sheet", { path: { garden }, query }, signal);
  const read = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  const svg = document.importNode(read, true) as unknown as SVGSVGElement;
  if (asked.is_bold) embolden(svg);
  const groups = groups_in(svg);
  const [, , wide = 0, high = 0] = (svg.getAttribute("viewBox") ?? "").split(" ").map(Number);
  svg.setAttribute("width", String(wide * px_per_mm));
  svg.setAttribute("height", String(high * px_per_mm));
  svg.setAttribute("aria-hidden", "true");
  svg.setAttribute("focusable", "false");
  const names = [...svg.querySelectorAll<SVGTextElement>('[data-thing="names"] text')];
  for (const name of names) if (name.hasAttribute("transform")) name.setAttribute("data-turned", "");
  return {
    svg,
    groups,
    names,
    scale,
    scheme,
    change: asked.change,
    left: asked.frame_m[0] ?? 0,
    top: asked.frame_m[3] ?? 0,
  };
}

interface Rect {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

const lie_on = (a: Rect, b: Rect) =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Hides names that the sheet's edge would cut, or that would lie on what is taken or on names that
matter more; `weight` small matters most. */
export function thin_names(drawing: PlanDrawing, sheet: Rect, taken: readonly Rect[], weight: (name: string) => number): void {
  const kept: Rect[] = [...taken];
  const rows = drawing.names.map((text) => ({ text, rect: text.getBoundingClientRect() }));
  rows.sort((a, b) => weight(a.text.textContent ?? "") - weight(b.text.textContent ?? ""));
  for (const { text, rect } of rows) {
    // A face's box is higher than its letters.
    const near = {
      left: rect.left - 1,
      right: rect.right + 1,
      top: rect.top + 0.26 * Math.min(rect.width, rect.height),
      bottom: rect.bottom - 0.2 * Math.min(rect.width, rect.height),
    };
    const is_whole = near.left >= sheet.left && near.right <= sheet.right && near.top >= sheet.top && near.bottom <= sheet.bottom;
    const is_free = is_whole && !kept.some((other) => lie_on(near, other));
    text.classList.toggle("left-out", !is_free);
    if (is_free) kept.push(near);
  }
}
