// One plan: the light on its canvas, the program's lines over it, then marks, chips and hands.
import { effect, signal, useSignalEffect } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useEffect, useMemo, useRef } from "preact/hooks";
import { dark, drawn_change, garden, load_error, outdoors, sides, trying, without } from "../state";
import { moving, settled_scale, size, take_hands, view } from "../tools";
import { Chips, chip_rects } from "./chips";
import { fetch_drawing, type PlanDrawing, thin_names } from "./drawing";
import { lookup } from "./light_colours";
import { Marks } from "./marks";
import { paint_field } from "./paint";
import { leaf_day, offset_of, type Shown } from "./shown";

function paint_on(canvas: HTMLCanvasElement, shown: Shown): void {
  const now = view.peek();
  const { width, height } = size.peek();
  const { field, kind } = shown.light.peek();
  const pen = canvas.getContext("2d");
  if (pen === null || now === null || width < 1 || height < 1) return;
  const [w, h] = [Math.round(width), Math.round(height)];
  if (canvas.width !== w) canvas.width = w;
  if (canvas.height !== h) canvas.height = h;
  if (field === null) return pen.clearRect(0, 0, w, h);
  const image = pen.createImageData(w, h);
  paint_field(field, now, w, h, lookup(kind), new Uint32Array(image.data.buffer));
  pen.putImageData(image, 0, 0);
}

/** Paints in the frame in which something changed, once. */
function keep_painted(canvas: HTMLCanvasElement, shown: Shown): () => void {
  let frame = 0;
  const stop = effect(() => {
    view.value;
    size.value;
    shown.light.value;
    if (frame !== 0) return;
    frame = requestAnimationFrame(() => {
      frame = 0;
      paint_on(canvas, shown);
      if (trying.peek() !== null) performance.mark("light-painted");
    });
  });
  return () => {
    cancelAnimationFrame(frame);
    stop();
  };
}

const tables_first = ["bed", "building", "tree", "seat", "container", "wall", "support", "plant"];

function thin(drawing: PlanDrawing, shown: Shown): void {
  const of = shown.state.peek();
  const table = new Map(of?.things.map((thing) => [thing.id, thing.table]));
  const weight = (name: string) => {
    const rank = tables_first.indexOf(table.get(name) ?? "");
    return rank < 0 ? tables_first.length : rank;
  };
  const host = drawing.svg.closest(".plan");
  if (host !== null) thin_names(drawing, chip_rects(host), weight);
}

/** Places the drawing under the view: what it was drawn for is scaled until the next is there. */
function place(host: HTMLElement, drawing: PlanDrawing): void {
  const now = view.value;
  if (now === null) return;
  const x = (drawing.left - now.left) * now.scale;
  const y = (now.top - drawing.top) * now.scale;
  host.style.transform = `translate(${x}px,${y}px) scale(${now.scale / drawing.scale})`;
}

function offset_groups(drawing: PlanDrawing, is_active: boolean): void {
  const user_per_m = drawing.scale / (96 / 25.4);
  for (const [id, groups] of drawing.groups) {
    const [x, y] = offset_of(id, drawing.change, is_active);
    const names = drawing.names.filter((name) => name.textContent === id && !name.hasAttribute("data-turned"));
    for (const group of groups) group.classList.toggle("thought-away", is_active && without.value === id);
    for (const group of [...groups, ...names]) {
      if (x === 0 && y === 0) group.removeAttribute("transform");
      else group.setAttribute("transform", `translate(${(x * user_per_m).toFixed(3)} ${(-y * user_per_m).toFixed(3)})`);
    }
  }
}

function load_drawings(shown: Shown, drawing: { value: PlanDrawing | null }): () => void {
  return effect(() => {
    const of = shown.state.value;
    const id = garden.value;
    const scale = settled_scale.value;
    const scheme = shown.scheme.value;
    const leaf = leaf_day.value;
    const is_bold = outdoors.value;
    if (of === null || id === null || scale === 0 || of.scheme !== scheme) return undefined;
    const abort = new AbortController();
    const { change } = of.head;
    const asked = { garden: id, scheme, change, frame_m: of.frame_m, scale, day_of_year: leaf, is_bold };
    fetch_drawing(asked, abort.signal)
      .then((next) => {
        if (!abort.signal.aborted) drawing.value = next;
      })
      .catch(load_error)
      .finally(() => {
        // The light follows the lines of what is worked on, not those beside it.
        if (!abort.signal.aborted && shown.is_active.peek()) drawn_change.value = change;
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

export function Plan({ shown, children }: { shown: Shown; children?: ComponentChildren }) {
  const host = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const lines = useRef<HTMLDivElement>(null);
  const drawing = useMemo(() => signal<PlanDrawing | null>(null), []);

  useEffect(() => (canvas.current === null ? undefined : keep_painted(canvas.current, shown)), []);
  useEffect(() => load_drawings(shown, drawing), []);
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
  useEffect(() => () => note_late(shown, false), []);
  useSignalEffect(() => {
    const now = drawing.value;
    note_late(shown, now?.scheme !== shown.scheme.value);
    if (now === null || lines.current === null) return;
    // Side by side, lines of another scheme do not stand under this one's name.
    lines.current.classList.toggle("is-other", sides.value !== null && now.scheme !== shown.scheme.value);
    place(lines.current, now);
    if (lines.current.firstChild !== now.svg) {
      lines.current.replaceChildren(now.svg);
      requestAnimationFrame(() => thin(now, shown));
    }
  });
  useSignalEffect(() => {
    shown.light.value;
    const now = drawing.peek();
    if (now !== null && moving.peek() === null) requestAnimationFrame(() => thin(now, shown));
  });
  useSignalEffect(() => {
    const now = drawing.value;
    if (now !== null) offset_groups(now, shown.is_active.value);
  });
  return (
    <div ref={host} class={`plan${moving.value !== null ? " is-moving" : ""}${dark.value ? " in-dark" : ""}`}>
      <canvas ref={canvas} class="plan-light" aria-hidden="true" />
      <div ref={lines} class="plan-lines" aria-hidden="true" />
      <Marks shown={shown} />
      <Chips shown={shown} />
      {children}
    </div>
  );
}
