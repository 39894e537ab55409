// Hands on the sheet: drag pans, tap selects, the grip moves, two fingers or the wheel zoom.
import { centre, pinched, panned, type Point, to_plan } from "../geometry";
import { hovered, selected } from "../state";
import { drawn_thing, select, thing_under } from "./choosing";
import { pen } from "./pen";
import { drag_from, draw_to, drawing, drop, set_corner, change_drawing } from "./drawing";
import { begin_move, leave_it, move_to, moving, set_down, to_cm } from "./moving";
import { set_view, view, zoom_by } from "./sheet_view";

const tap_px = 6;

interface Touch {
  from: Point;
  now: Point;
}

function placed_at(at: Point): void {
  const now = view.peek();
  const thing = drawn_thing(moving.peek()?.thing ?? null);
  if (now === null || thing === null) return;
  const [x, y] = to_plan(now, at);
  const [cx, cy] = centre(thing);
  move_to([to_cm(x - cx), to_cm(y - cy)]);
}

/** Hands of one sheet; gives what takes them away again. */
export function take_hands(sheet: HTMLElement): () => void {
  const touches = new Map<number, Touch>();
  let on_grip = false;
  let is_drag = false; // more than a tap
  let is_drawn = false; // by one finger alone

  const place = (event: PointerEvent | WheelEvent): Point => {
    const box = sheet.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };

  function down(event: PointerEvent): void {
    if (event.button !== 0 || (event.target as Element).closest("a,button:not(.grip),input,form,label") !== null) return;
    const at = place(event);
    touches.set(event.pointerId, { from: at, now: at });
    sheet.setPointerCapture(event.pointerId);
    if (touches.size === 1) {
      is_drag = is_drawn = false;
      on_grip = (event.target as Element).closest(".grip") !== null;
    } else {
      if (moving.peek()?.how === "grip") leave_it();
      if (drawing.peek()?.from != null) change_drawing({ from: null });
      on_grip = is_drawn = false;
      is_drag = true;
    }
  }

  function move(event: PointerEvent): void {
    const at = place(event);
    const touch = touches.get(event.pointerId);
    if (touch === undefined) {
      if (drawing.peek() !== null) draw_at(at);
      else if (moving.peek()?.how === "place") placed_at(at);
      else if (event.pointerType === "mouse" && pen.peek() === null) hovered.value = thing_under(at[0], at[1])?.id ?? null;
      return;
    }
    const before = touch.now;
    const others = [...touches.values()].filter((one) => one !== touch);
    touch.now = at;
    is_drag ||= Math.hypot(at[0] - touch.from[0], at[1] - touch.from[1]) > tap_px;
    const now = view.peek();
    if (now === null || !is_drag) return;
    const other = others[0];
    if (other !== undefined) set_view(pinched(now, [before, other.now], [at, other.now]));
    else if (drawing.peek() !== null) {
      is_drawn = true;
      drag_from(to_plan(now, touch.from), to_plan(now, at));
    } else if (on_grip) drag_grip(touch, now.scale);
    else if (drawn_by_pen(touch, false)) return;
    else set_view(panned(now, at[0] - before[0], at[1] - before[1]));
  }

  /** Whether the drag is the pen's. */
  function drawn_by_pen({ from, now: to }: Touch, is_last: boolean): boolean {
    const now = view.peek();
    return now !== null && (pen.peek()?.drag?.(to_plan(now, from), to_plan(now, to), is_last) ?? false);
  }

  function drag_grip(touch: Touch, scale: number): void {
    const thing = selected.peek();
    if (thing === null) return;
    if (moving.peek()?.how !== "grip") begin_move(thing, "grip");
    move_to([to_cm((touch.now[0] - touch.from[0]) / scale), to_cm((touch.from[1] - touch.now[1]) / scale)]);
  }

  function up(event: PointerEvent): void {
    const touch = touches.get(event.pointerId);
    if (touch === undefined) return;
    touches.delete(event.pointerId);
    if (is_drag) {
      if (is_drawn && drawing.peek() !== null) drop();
      else if (moving.peek()?.how === "grip") set_down();
      else if (!on_grip && touches.size === 0) drawn_by_pen(touch, true);
      is_drawn = false;
    } else if (touches.size === 0) tap(touch.now);
  }

  function draw_at(at: Point): void {
    const now = view.peek();
    if (now !== null) draw_to(to_plan(now, at));
  }

  function tap(at: Point): void {
    if (drawing.peek() !== null) {
      draw_at(at);
      return set_corner();
    }
    const now = moving.peek();
    const sight = view.peek();
    const tapped = pen.peek()?.tap;
    if (!on_grip && tapped !== undefined && sight !== null) return tapped(to_plan(sight, at));
    if (on_grip) return now === null ? grip_tapped() : leave_it();
    if (now !== null) {
      placed_at(at);
      return set_down();
    }
    select(thing_under(at[0], at[1])?.id ?? null);
  }

  function cancel(event: PointerEvent): void {
    touches.delete(event.pointerId);
    if (moving.peek()?.how === "grip") leave_it();
    if (drawing.peek() !== null) change_drawing({ from: null });
  }

  function wheel(event: WheelEvent): void {
    event.preventDefault();
    const pixels = event.deltaMode === 1 ? event.deltaY * 16 : event.deltaY;
    zoom_by(Math.exp(-pixels * (event.ctrlKey ? 0.01 : 0.0015)), place(event));
  }

  const leave = () => {
    if (touches.size === 0 && document.activeElement !== sheet) hovered.value = null;
  };

  sheet.addEventListener("pointerdown", down);
  sheet.addEventListener("pointermove", move);
  sheet.addEventListener("pointerup", up);
  sheet.addEventListener("pointercancel", cancel);
  sheet.addEventListener("pointerleave", leave);
  sheet.addEventListener("wheel", wheel, { passive: false });
  return () => {
    sheet.removeEventListener("pointerdown", down);
    sheet.removeEventListener("pointermove", move);
    sheet.removeEventListener("pointerup", up);
    sheet.removeEventListener("pointercancel", cancel);
    sheet.removeEventListener("pointerleave", leave);
    sheet.removeEventListener("wheel", wheel);
  };
}

/** The grip without a drag: then a touch says where to. */
export function grip_tapped(): void {
  const thing = selected.peek();
  if (thing !== null) begin_move(thing, "place");
}
