// A line of the plan to cut the garden along: dragged, touched from end to end, or set by keys.
import { batch, signal } from "@preact/signals";
import { apart, length_says, type Point, plus, to_plan } from "../geometry";
import { saying, section_line, state } from "../state";
import { type Pen, put_pen_down, take_pen } from "./pen";
import { size, view } from "./sheet_view";

/** The line in the hand: where it begins, and where its end is now. */
export const section_sketch = signal<{ from: Point | null; at: Point } | null>(null);

const least_m = 0.5;
const to_cm = ([x, y]: Point): Point => [Math.round(x * 100) / 100, Math.round(y * 100) / 100];
const length_told = (metres: number) => length_says(metres, state.peek()?.site.units === "imperial");

function cut(from: Point, to: Point): void {
  if (apart(from, to) < least_m) {
    saying.value = "That line is too short to see anything by: end it farther off.";
    return;
  }
  batch(() => {
    put_pen_down();
    section_line.value = { from: to_cm(from), to: to_cm(to) };
    saying.value = `The garden is cut along ${length_told(apart(from, to))}, seen with A to the left.`;
  });
}

function set_end(at: Point): void {
  const now = section_sketch.peek();
  if (now === null) return;
  if (now.from === null) {
    section_sketch.value = { from: at, at };
    saying.value = "A is set. Now where it ends.";
  } else cut(now.from, at);
}

const arrows: Record<string, Point> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

function key(event: KeyboardEvent): boolean {
  const now = section_sketch.peek();
  const way = arrows[event.key];
  if (now === null) return false;
  if (event.key === "Enter") set_end(now.at);
  else if (way === undefined) return false;
  else {
    const step = event.shiftKey ? 1 : event.altKey ? 0.01 : 0.1;
    const at = to_cm(plus(now.at, [way[0] * step, way[1] * step]));
    section_sketch.value = { ...now, at };
    saying.value = now.from === null ? `${length_told(at[0])} from left, ${length_told(at[1])} from below` : `${length_told(apart(now.from, at))} from A`;
  }
  return true;
}

function midst(): Point {
  const now = view.peek();
  const { width, height } = size.peek();
  return now === null ? [0, 0] : to_cm(to_plan(now, [width / 2, height / 2]));
}

export function begin_section(): void {
  const own: Pen = {
    says: "Drag a line to cut the garden along, or touch where it begins and where it ends",
    tap: set_end,
    drag: (from, to, is_last) => {
      section_sketch.value = { from: section_sketch.peek()?.from ?? from, at: to };
      if (is_last) cut(section_sketch.peek()?.from ?? from, to);
      return true;
    },
    key,
    leave: () => {
      section_sketch.value = null;
    },
  };
  take_pen(own);
  section_sketch.value = { from: null, at: midst() };
}

export function turn_section(): void {
  const line = section_line.peek();
  if (line === null) return;
  section_line.value = { from: line.to, to: line.from };
  saying.value = "Seen from the other side.";
}

export function close_section(): void {
  section_line.value = null;
  saying.value = "The section is closed.";
}
