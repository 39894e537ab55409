// One plan: the light on its canvas, the program's lines over it, then marks, chips and hands.
import { computed, effect, type ReadonlySignal, type Signal, signal, useComputed, useSignalEffect } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useEffect, useMemo, useRef } from "preact/hooks";
import type { View } from "../geometry";
import { dark, garden, head, inks, lines_of, load_error, moved_things, outdoors, places_shown, selected, sides, takers, without } from "../state";
import { drawing as drawn, is_bare, moving, paper_turns, pen, rests, settled_scale, size, take_hands, view } from "../tools";
import { Chips, taken_rects } from "./chips";
import { type DrawingAsked, fetch_drawing, type PlanDrawing, thin_names } from "./drawing";
import { lookup } from "./light_colours";
import { Marks } from "./marks";
import { changed_window, paint_field } from "./paint";
import { Pictures } from "./pictures";
import { leaf_day, type Light, offset_of, type Shown } from "./shown";

/** What is on a canvas: only what differs from it is painted. */
interface Painted {
  image: ImageData;
  view: View | null;
  light: Light;
}

function paint_on(canvas: HTMLCanvasElement, shown: Shown, was: Painted | null): Painted | null {
  const now = view.peek();
  const { width, height } = size.peek();
  const light = shown.light.peek();
  const { field, kind } = light;
  const pen = canvas.getContext("2d");
  if (pen === null || now === null || width < 1 || height < 1) return null;
  const [w, h] = [Math.round(width), Math.round(height)];
  const is_same_room = was !== null && canvas.width === w && canvas.height === h;
  if (canvas.width !== w) canvas.width = w;
  if (canvas.height !== h) canvas.height = h;
  if (field === null) {
    pen.clearRect(0, 0, w, h);
    return null;
  }
  const image = is_same_room ? was.image : pen.createImageData(w, h);
  const is_same_sight = is_same_room && was.view === now && was.light.kind === kind && was.light.field !== null;
  const all = { x: { from: 0, to: w }, y: { from: 0, to: h } };
  const { x, y } = (is_same_sight && was.light.field !== null && changed_window(was.light.field, field, now, w, h)) || all;
  if (x.to > x.from && y.to > y.from) {
    paint_field(field, now, w, { x, y }, lookup(kind), new Uint32Array(image.data.buffer));
    pen.putImageData(image, 0, 0, x.from, y.from, x.to - x.from, y.to - y.from);
  }
  return { image, view: now, light };
}

/** Paints in the frame in which something changed, once. */
function keep_painted(canvas: HTMLCanvasElement, shown: Shown): () => void {
  let frame = 0;
  let painted: Painted | null = null;
  const stop = effect(() => {
    view.value;
    size.value;
    shown.light.value;
    if (frame !== 0) return;
    frame = requestAnimationFrame(() => {
      frame = 0;
      painted = paint_on(canvas, shown, painted);
    });
  });
  return () => {
    cancelAnimationFrame(frame);
    stop();
  };
}

const tables_first = ["bed", "building", "tree", "seat", "container", "wall", "support", "plant"];

/** What lies over the sheet on paper of its own: a name under it would be cut. */
const papers_on = (host: Element): DOMRect[] =>
  [...(host.closest(".sheet")?.querySelectorAll(".view-words .word-button,.key-beside,.key-left,.key-right,.drawn-scale,.side-name > *,.measure") ?? [])].map((one) => {
    const { left, right, top, bottom } = one.getBoundingClientRect();
    const air = one.classList.contains("measure") ? 12 : 0; // a figure has paper in its midst alone
    return new DOMRect(left, top + air, right - left, bottom - top - 2 * air);
  });

function thin(drawing: PlanDrawing, shown: Shown): void {
  const of = shown.state.peek();
  const table = new Map(of?.things.map((thing) => [thing.id, thing.table]));
  const weight = (name: string) => {
    if (name === selected.peek()) return -1;
    const rank = tables_first.indexOf(table.get(name) ?? "");
    return rank < 0 ? tables_first.length : rank;
  };
  const host = drawing.svg.closest(".plan");
  if (host !== null) thin_names(drawing, host.getBoundingClientRect(), [...taken_rects(host), ...papers_on(host)], weight);
}

/** Places the drawing under the view, moved by metres: what it was drawn for is scaled until the
next is there. */
function place(host: HTMLElement, drawing: PlanDrawing, by_m: readonly [number, number] = [0, 0]): void {
  const now = view.value;
  if (now === null) return;
  const x = (drawing.left + by_m[0] - now.left) * now.scale;
  const y = (now.top - drawing.top - by_m[1]) * now.scale;
  host.style.transform = `translate(${x}px,${y}px) scale(${now.scale / drawing.scale})`;
}

/** What is drawn of a thing, its name with it. */
function drawn_of(drawing: PlanDrawing, id: string): SVGGraphicsElement[] {
  return [...(drawing.groups.get(id) ?? []), ...(drawing.named.get(id) ?? [])];
}

/** The thing that is thought away stays in sight, faintly. */
function think_away(drawing: PlanDrawing, id: string | null): (() => void) | undefined {
  const drawn = id === null ? [] : (drawing.groups.get(id) ?? []);
  for (const group of drawn) group.classList.add("thought-away");
  return () => drawn.forEach((group) => group.classList.remove("thought-away"));
}

/** Things that do not stand where the drawing has them, in the hand or on their way, are drawn on sheets of their
own: the rest need not be drawn anew when they move. Gives what puts them back. */
function lift(drawing: PlanDrawing, ids: readonly string[], layer: HTMLElement): () => void {
  const all: SVGGraphicsElement[] = [];
  const sheets = ids.map((id) => {
    const svg = drawing.svg.cloneNode(false) as SVGSVGElement;
    for (const one of drawn_of(drawing, id)) {
      let copy: Element = one.cloneNode(true) as Element;
      for (let over = one.parentElement; over !== null && over !== (drawing.svg as Element); over = over.parentElement) { // layers have pens and letters of their own
        const with_it = over.cloneNode(false) as Element;
        with_it.append(copy);
        copy = with_it;
      }
      svg.append(copy);
      one.classList.add("is-lifted");
      all.push(one);
    }
    const sheet = document.createElement("div");
    sheet.className = "plan-lines";
    sheet.dataset["lifted"] = id;
    sheet.append(svg);
    return sheet;
  });
  layer.replaceChildren(...sheets);
  return () => {
    for (const one of all) one.classList.remove("is-lifted");
    layer.replaceChildren();
  };
}

/** Once what was set now is on the screen; of a page that nobody sees, a moment later. */
function after_paint(then: () => void): void {
  let is_done = false;
  const once = () => {
    if (is_done) return;
    is_done = true;
    then();
  };
  requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, 250);
}

/** Lines are asked for as soon as the garden is known to be another, beside its things. */
function load_drawings(shown: Shown, drawing: Signal<PlanDrawing | null>): () => void {
  const asked_now = computed((): string | null => {
    const of = shown.state.value;
    const id = garden.value;
    const scheme = shown.scheme.value;
    if (of === null || id === null || settled_scale.value === 0 || of.scheme !== scheme) return null;
    const change = Math.max(of.head.change, shown.is_active.value ? (head.value?.change ?? 0) : 0);
    const before = drawing.peek()?.asked; // its frame stays: what grows beyond it is drawn all the same
    const frame_m = before?.garden === id && before.scheme === scheme ? before.frame_m : of.frame_m;
    const asked: DrawingAsked = { garden: id, scheme, change, frame_m, scale: settled_scale.value, day_of_year: leaf_day.value, is_bold: outdoors.value };
    return JSON.stringify(asked);
  });
  return effect(() => {
    const now = asked_now.value;
    if (now === null) return undefined;
    const abort = new AbortController();
    const asked = JSON.parse(now) as DrawingAsked;
    const { change } = asked;
    fetch_drawing(asked, drawing.peek(), abort.signal)
      .then((next) => {
        if (!abort.signal.aborted) drawing.value = next;
      })
      .catch(load_error)
      .finally(() => {
        if (abort.signal.aborted || !shown.is_active.peek()) return;
        after_paint(() => {
          if (garden.peek() === asked.garden) lines_of.value = change; // light is asked for when they can be seen
        });
      });
    return () => abort.abort();
  });
}

/** Plans whose lines are not those of the scheme that they are to show. */
export const late_plans = signal<ReadonlySet<Shown>>(new Set());

function note_late(shown: Shown, is_late: boolean): void {
  const late = new Set(late_plans.peek());
  if (late.has(shown) === is_late) return;
  if (is_late) late.add(shown);
  else late.delete(shown);
  late_plans.value = late;
}

const layers_stay_ms = 700;
/** Whether what lies still is on layers of its own, so that it is not painted anew with each movement: as long as
something is in the hand, and until what was done with it is on the sheet. */
function keep_layered(in_hand: ReadonlySignal<string | null>, is_layered: Signal<boolean>): () => void {
  return effect(() => {
    if (in_hand.value !== null) {
      is_layered.value = true;
      return undefined;
    }
    const timer = setTimeout(() => (is_layered.value = false), layers_stay_ms);
    return () => clearTimeout(timer);
  });
}

export function Plan({ shown, children }: { shown: Shown; children?: ComponentChildren }) {
  const host = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const lines = useRef<HTMLDivElement>(null);
  const lifted = useRef<HTMLDivElement>(null);
  const in_hand = useComputed(() => (shown.is_active.value ? (moving.value?.thing ?? null) : null));
  const drawing = useMemo(() => signal<PlanDrawing | null>(null), []);
  const elsewhere = useComputed(() => {
    const now = drawing.value;
    if (now === null || !shown.is_active.value) return "";
    const ids = new Set([...moved_things(now.change), ...(in_hand.value === null ? [] : [in_hand.value])]);
    return ids.size === 0 ? "" : JSON.stringify([...ids]);
  });
  const is_layered = useMemo(() => signal(false), []);

  useEffect(() => (canvas.current === null ? undefined : keep_painted(canvas.current, shown)), []);
  useEffect(() => load_drawings(shown, drawing), []);
  useEffect(() => keep_layered(in_hand, is_layered), []);
  useEffect(() => (host.current === null ? undefined : take_hands(host.current)), []);
  useEffect(() => {
    const element = host.current;
    if (element === null) return undefined;
    const watch = new ResizeObserver(() => {
      size.value = { width: element.clientWidth, height: element.clientHeight };
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  useEffect(
    () => () => {
      note_late(shown, false);
      if (late_plans.peek().size === 0) lines_of.value = null;
    },
    [],
  );
  useEffect(
    () =>
      effect(() => {
        const now = drawing.value;
        note_late(shown, now?.scheme !== shown.scheme.value);
        if (now === null || lines.current === null) return;
        // Side by side, lines of another scheme do not stand under this one's name.
        lines.current.classList.toggle("is-other", sides.value !== null && now.scheme !== shown.scheme.value);
        place(lines.current, now);
        if (lines.current.firstChild !== now.svg) lines.current.replaceChildren(now.svg);
        lines.current.dataset["change"] = String(now.change); // which garden's lines these are
      }),
    [],
  );
  useSignalEffect(() => {
    const now = drawing.value;
    if (now !== null) requestAnimationFrame(() => thin(now, shown));
  });
  useSignalEffect(() => {
    shown.light.value;
    inks.value;
    takers.value;
    places_shown.value;
    rests.value;
    selected.value;
    const now = drawing.peek();
    if (now !== null && moving.peek() === null) requestAnimationFrame(() => thin(now, shown));
  });
  useSignalEffect(() => {
    const now = drawing.value;
    return now === null ? undefined : think_away(now, shown.is_active.value ? without.value : null);
  });
  // At once, like the lines: nothing stands on the sheet twice.
  useEffect(
    () =>
      effect(() => {
        const [now, ids] = [drawing.value, elsewhere.value];
        if (now === null || ids === "" || lifted.current === null) return undefined;
        return lift(now, JSON.parse(ids) as string[], lifted.current);
      }),
    [],
  );
  useEffect(
    () =>
      effect(() => {
        const now = drawing.value;
        if (now === null || elsewhere.value === "") return;
        for (const sheet of (lifted.current?.children ?? []) as Iterable<HTMLElement>)
          place(sheet, now, offset_of(sheet.dataset["lifted"] ?? "", now.change, true));
      }),
    [],
  );
  return (
    <div ref={host} class={`plan${is_bare() ? " is-bare" : ""}${paper_turns.value ? " is-paper-turned" : ""}${in_hand.value !== null ? " is-moving" : ""}${is_layered.value ? " is-layered" : ""}${drawn.value !== null || pen.value !== null ? " is-drawing" : ""}${dark.value ? " in-dark" : ""}`}>
      <canvas ref={canvas} class="plan-light" aria-hidden="true" />
      <Pictures />
      <div ref={lines} class="plan-lines" aria-hidden="true" />
      <div ref={lifted} aria-hidden="true" />
      <Marks shown={shown} />
      <Chips shown={shown} />
      {children}
    </div>
  );
}
