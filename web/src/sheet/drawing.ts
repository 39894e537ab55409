// The program's drawing of the plan, made part of the page: its things found by their ids, its
// names thinned out where they would lie on each other.
import { ask, ask_text, type PieceChanges, type SheetChanges } from "../api";
import { px_per_mm } from "../geometry";

export interface PlanDrawing {
  svg: SVGSVGElement;
  asked: DrawingAsked;
  groups: Map<string, SVGGElement[]>; // of each thing
  names: SVGTextElement[];
  named: Map<string, SVGTextElement[]>; // of each thing, those that are not turned
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

function embolden(drawn: Element): void {
  for (const mark of drawn.querySelectorAll("[stroke-width]"))
    mark.setAttribute("stroke-width", String(Number(mark.getAttribute("stroke-width")) * bold));
  for (const dots of drawn.querySelectorAll('path[stroke-linecap="round"]'))
    if (/^M[-\d. ]+h0/.test(dots.getAttribute("d") ?? "")) dots.remove();
}

/** Makes what the program drew part of the page. Ids become `data-thing`: two sheets may stand on one
page. */
function take_over(drawn: Element, is_bold: boolean): void {
  if (is_bold) embolden(drawn);
  for (const one of drawn.querySelectorAll("[id]")) {
    one.setAttribute("data-thing", one.id);
    one.removeAttribute("id");
    one.removeAttribute("role");
  }
  for (const title of drawn.querySelectorAll("title")) title.remove();
}

const layer_of = (svg: SVGSVGElement, name: string): SVGGElement | null =>
  svg.querySelector<SVGGElement>(`:scope > [data-thing="${name}"]`);

function groups_in(svg: SVGSVGElement): Map<string, SVGGElement[]> {
  const groups = new Map<string, SVGGElement[]>();
  for (const layer of ["ground", "levels", "things"] as const) {
    for (const group of layer_of(svg, layer)?.children ?? []) {
      const id = (group as SVGGElement).dataset["thing"];
      if (id === undefined) continue;
      const of = groups.get(id);
      if (of === undefined) groups.set(id, [group as SVGGElement]);
      else of.push(group as SVGGElement);
    }
  }
  return groups;
}

function names_in(svg: SVGSVGElement): Pick<PlanDrawing, "names" | "named"> {
  const names = [...(layer_of(svg, "names")?.querySelectorAll<SVGTextElement>("text") ?? [])];
  const named = new Map<string, SVGTextElement[]>();
  for (const name of names) {
    const is_turned = name.hasAttribute("data-turned") || name.hasAttribute("transform");
    if (is_turned) {
      name.setAttribute("data-turned", "");
      continue;
    }
    const words = name.textContent ?? "";
    const of = named.get(words);
    if (of === undefined) named.set(words, [name]);
    else of.push(name);
  }
  return { names, named };
}

function drawing_of(svg: SVGSVGElement, asked: DrawingAsked): PlanDrawing {
  const { scale, scheme, change, frame_m } = asked;
  return { svg, asked, groups: groups_in(svg), ...names_in(svg), scale, scheme, change, left: frame_m[0] ?? 0, top: frame_m[3] ?? 0 };
}

function query_of({ scheme, scale, day_of_year, frame_m }: DrawingAsked) {
  return { scheme, mm_per_m: Number((scale / px_per_mm).toFixed(4)), day_of_year, frame: frame_m.join() };
}

function parsed(text: string): SVGSVGElement {
  const read = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  return document.importNode(read, true) as unknown as SVGSVGElement;
}

async function fetch_whole(asked: DrawingAsked, signal: AbortSignal): Promise<PlanDrawing> {
  const path = { garden: asked.garden };
  const svg = parsed(await ask_text("/api/gardens/{garden}/sheet", { path, query: query_of(asked) }, signal));
  take_over(svg, asked.is_bold);
  for (const name of ["role", "aria-labelledby", "id"]) svg.removeAttribute(name);
  const [, , wide = 0, high = 0] = (svg.getAttribute("viewBox") ?? "").split(" ").map(Number);
  svg.setAttribute("width", String(wide * px_per_mm));
  svg.setAttribute("height", String(high * px_per_mm));
  svg.setAttribute("aria-hidden", "true");
  svg.setAttribute("focusable", "false");
  return drawing_of(svg, asked);
}

/** The groups written in `texts`, as parts of the page. */
function groups_of(texts: readonly string[], is_bold: boolean): SVGGElement[] {
  const svg = parsed(`<svg xmlns="http://www.w3.org/2000/svg">${texts.join("")}</svg>`);
  take_over(svg, is_bold);
  return [...svg.children] as SVGGElement[];
}

function change_pieces(layer: SVGGElement, { gone, put }: PieceChanges, is_bold: boolean): void {
  const there = new Map<string, Element>();
  for (const one of layer.children) there.set((one as SVGGElement).dataset["thing"] ?? "", one);
  for (const id of gone) there.get(id)?.remove();
  const drawn = groups_of(put.map((piece) => piece.svg), is_bold);
  put.forEach(({ id, before }, i) => {
    const piece = drawn[i];
    if (piece === undefined) return;
    there.get(id)?.remove();
    layer.insertBefore(piece, there.get(before) ?? null);
    there.set(id, piece);
  });
}

/** Makes the lines of `was` those that are told; nothing if it has no such layers. */
function change_drawing(was: PlanDrawing, told: SheetChanges, asked: DrawingAsked): PlanDrawing | null {
  const { svg } = was;
  const [things, names] = [layer_of(svg, "things"), layer_of(svg, "names")];
  if (told.whole || things === null || names === null || told.things === undefined || told.names === undefined) return null;
  for (const { id, svg: text } of told.layers ?? []) {
    const [layer] = groups_of([text], asked.is_bold);
    if (layer !== undefined) layer_of(svg, id)?.replaceWith(layer);
  }
  change_pieces(things, told.things, asked.is_bold);
  change_pieces(names, told.names, asked.is_bold);
  return drawing_of(svg, { ...asked, change: told.change });
}

/** Drawn for the same, but of an earlier change of the garden. */
const is_earlier = (was: DrawingAsked, asked: DrawingAsked): boolean =>
  was.garden === asked.garden && was.scheme === asked.scheme && was.scale === asked.scale && was.day_of_year === asked.day_of_year &&
  was.is_bold === asked.is_bold && was.frame_m.every((side, i) => side === asked.frame_m[i]) && was.change < asked.change;

/** The drawing asked for. What is there already stays: its lines become the new ones where they differ. */
export async function fetch_drawing(asked: DrawingAsked, was: PlanDrawing | null, signal: AbortSignal): Promise<PlanDrawing> {
  if (was === null || !is_earlier(was.asked, asked)) return fetch_whole(asked, signal);
  const query = { ...query_of(asked), since: was.change };
  const told = await ask("/api/gardens/{garden}/sheet_changes", { path: { garden: asked.garden }, query }, signal);
  signal.throwIfAborted();
  const changed = change_drawing(was, told, asked);
  if (changed !== null) return changed;
  return fetch_whole(asked, signal);
}

interface Rect {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

const lie_on = (a: Rect, b: Rect) =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Where a name lies in its drawing, in the drawing's pixels: measured once, for the page is laid out for that. */
const measured = new WeakMap<SVGTextElement, Rect>();

function rects_of(drawing: PlanDrawing): { text: SVGTextElement; rect: Rect }[] {
  const { left, top, width } = drawing.svg.getBoundingClientRect();
  const scale = width / (Number(drawing.svg.getAttribute("width")) || width || 1);
  const is_lettered = document.fonts.status === "loaded";
  return drawing.names.map((text) => {
    const known = measured.get(text);
    if (known !== undefined)
      return { text, rect: { left: left + known.left * scale, right: left + known.right * scale, top: top + known.top * scale, bottom: top + known.bottom * scale } };
    const rect = text.getBoundingClientRect();
    if (is_lettered && scale > 0)
      measured.set(text, { left: (rect.left - left) / scale, right: (rect.right - left) / scale, top: (rect.top - top) / scale, bottom: (rect.bottom - top) / scale });
    return { text, rect };
  });
}

/** Hides names that the sheet's edge would cut, or that would lie on what is taken or on names that
matter more; `weight` small matters most. */
export function thin_names(drawing: PlanDrawing, sheet: Rect, taken: readonly Rect[], weight: (name: string) => number): void {
  const kept: Rect[] = [...taken];
  const rows = rects_of(drawing).map((row) => ({ ...row, weight: weight(row.text.textContent ?? "") }));
  rows.sort((a, b) => a.weight - b.weight);
  for (const { text, rect } of rows) {
    const high = Math.min(rect.right - rect.left, rect.bottom - rect.top);
    // A face's box is higher than its letters.
    const near = {
      left: rect.left - 1,
      right: rect.right + 1,
      top: rect.top + 0.26 * high,
      bottom: rect.bottom - 0.2 * high,
    };
    const is_whole = near.left >= sheet.left && near.right <= sheet.right && near.top >= sheet.top && near.bottom <= sheet.bottom;
    const is_free = is_whole && !kept.some((other) => lie_on(near, other));
    text.classList.toggle("left-out", !is_free);
    if (is_free) kept.push(near);
  }
}
