// Hands on the sheet: drag pans, tap selects, the grip moves, two fingers or the wheel zoom. With the middle
// button or Space held a drag is the paper's, whatever is drawn or in the hand.
import { centre, pinched, panned, type Point, to_plan } from "../geometry";
import { hovered, selected } from "../state";
import { drawn_thing, select, thing_under } from "./choosing";
import { snap_shape } from "./snapping";
import { pen } from "./pen";
import { drag_from, draw_to, drawing, drop, set_corner, change_drawing } from "./drawing";
import { begin_move, leave_it, move_to, moving, set_down, to_cm } from "./moving";
import { set_view, view, zoom_by } from "./sheet_view";

const tap_px = 6;

interface Touch {
  from: Point;
  now: Point;
}

/** The thing in the hand goes by so much, or to what is nearly there. */
function move_near([x, y]: Point, free: boolean): void {
  const now = moving.peek();
  const thing = drawn_thing(now?.thing ?? null);
  if (now === null || thing === null) return;
  const by: Point = [to_cm(x), to_cm(y)];
  const corners = thing.corners.map(([cx = 0, cy = 0]): Point => [cx + by[0], cy + by[1]]);
  const more = snap_shape(corners, thing.closed, { but: thing.id, free });
  move_to([by[0] + more[0], by[1] + more[1]]);
}

function placed_at(at: Point, free: boolean): void {
  const now = view.peek();
  const thing = drawn_thing(moving.peek()?.thing ?? null);
  if (now === null || thing === null) return;
  const [x, y] = to_plan(now, at);
  const [cx, cy] = centre(thing);
  move_near([x - cx, y - cy], free);
}

/** Hands of one sheet; gives what takes them away again. */
export function take_hands(sheet: HTMLElement): () => void {
  const touches = new Map<number, Touch>();
  let on_grip = false;
  let on_field: HTMLElement | null = null;
  let is_drag = false; // more than a tap
  let is_drawn = false; // by one finger alone
  let is_papers = false;
  let space_held = false;
  let space_panned = false;

  const place = (event: PointerEvent | WheelEvent): Point => {
    const box = sheet.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };

  function down(event: PointerEvent): void {
    const target = event.target as Element;
    // A measure is typed by a tap alone: a drag or a second finger on it is meant for the paper.
    const field = target.closest(".measure")?.querySelector<HTMLElement>("input") ?? null;
    const middle = event.button === 1 && event.pointerType === "mouse";
    if (middle) event.preventDefault(); // no scrolling by itself
    if ((event.button !== 0 && !middle) || (field !== null && field === document.activeElement) || (field === null && target.closest("a,button:not(.grip),input,form,label") !== null)) return;
    const at = place(event);
    touches.set(event.pointerId, { from: at, now: at });
    sheet.setPointerCapture(event.pointerId);
    if (touches.size === 1) {
      is_drag = is_drawn = false;
      is_papers = middle || space_held;
      on_field = is_papers ? null : field;
      on_grip = !is_papers && (event.target as Element).closest(".grip") !== null;
    } else {
      if (moving.peek()?.how === "grip") leave_it();
      if (drawing.peek()?.from != null) change_drawing({ from: null });
      on_grip = is_drawn = false;
      on_field = null;
      is_drag = true;
    }
  }

  function move(event: PointerEvent): void {
    const at = place(event);
    const touch = touches.get(event.pointerId);
    if (touch === undefined) {
      if (drawing.peek() !== null) draw_at(at, event.altKey);
      else if (moving.peek()?.how === "place") placed_at(at, event.altKey);
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
    else if (is_papers) {
      space_panned = space_held;
      set_view(panned(now, at[0] - before[0], at[1] - before[1]));
    }
    else if (drawing.peek() !== null) {
      is_drawn = true;
      drag_from(to_plan(now, touch.from), to_plan(now, at), event.altKey);
    } else if (on_grip) drag_grip(touch, now.scale, event.altKey);
    else if (drawn_by_pen(touch, false)) return;
    else set_view(panned(now, at[0] - before[0], at[1] - before[1]));
  }

  /** Whether the drag is the pen's. */
  function drawn_by_pen({ from, now: to }: Touch, is_last: boolean): boolean {
    const now = view.peek();
    return now !== null && (pen.peek()?.drag?.(to_plan(now, from), to_plan(now, to), is_last) ?? false);
  }

  function drag_grip(touch: Touch, scale: number, free: boolean): void {
    const thing = selected.peek();
    if (thing === null) return;
    if (moving.peek()?.how !== "grip") begin_move(thing, "grip");
    move_near([(touch.now[0] - touch.from[0]) / scale, (touch.from[1] - touch.now[1]) / scale], free);
  }

  function up(event: PointerEvent): void {
    const touch = touches.get(event.pointerId);
    if (touch === undefined) return;
    touches.delete(event.pointerId);
    if (is_papers) return;
    if (is_drag) {
      if (is_drawn && drawing.peek() !== null) drop();
      else if (moving.peek()?.how === "grip") set_down();
      else if (!on_grip && touches.size === 0) drawn_by_pen(touch, true);
      is_drawn = false;
    } else if (touches.size === 0 && on_field !== null) on_field.focus({ preventScroll: true });
    else if (touches.size === 0) tap(touch.now, event.altKey);
  }

  function draw_at(at: Point, free: boolean): void {
    const now = view.peek();
    if (now !== null) draw_to(to_plan(now, at), free);
  }

  function tap(at: Point, free: boolean): void {
    if (drawing.peek() !== null) {
      draw_at(at, free);
      return set_corner();
    }
    const now = moving.peek();
    const sight = view.peek();
    const tapped = pen.peek()?.tap;
    if (!on_grip && tapped !== undefined && sight !== null) return tapped(to_plan(sight, at));
    if (on_grip) return now === null ? grip_tapped() : leave_it();
    if (now !== null) {
      placed_at(at, free);
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

  const is_typing = (target: EventTarget | null) => target instanceof Element && target.closest("textarea,input:not(.move-strip *)") !== null;
  const space = (event: KeyboardEvent) => {
    if (event.key !== " ") return;
    if (event.type === "keyup") {
      if (space_panned) event.preventDefault(); // the word that has the focus is not pressed by it
      space_held = space_panned = false;
    } else if (!is_typing(event.target)) {
      space_held = true;
      if (event.target instanceof Element && event.target.matches('[data-region="sheet"]')) event.preventDefault(); // elsewhere it scrolls, or presses a word
    }
  };

  const let_go = () => void (space_held = space_panned = false); // the key comes up in another window

  const leave = () => {
    if (touches.size === 0 && document.activeElement !== sheet) hovered.value = null;
  };

  sheet.addEventListener("pointerdown", down);
  sheet.addEventListener("pointermove", move);
  sheet.addEventListener("pointerup", up);
  sheet.addEventListener("pointercancel", cancel);
  sheet.addEventListener("pointerleave", leave);
  sheet.addEventListener("wheel", wheel, { passive: false });
  addEventListener("keydown", space);
  addEventListener("keyup", space);
  addEventListener("blur", let_go);
  return () => {
    sheet.removeEventListener("pointerdown", down);
    sheet.removeEventListener("pointermove", move);
    sheet.removeEventListener("pointerup", up);
    sheet.removeEventListener("pointercancel", cancel);
    sheet.removeEventListener("pointerleave", leave);
    sheet.removeEventListener("wheel", wheel);
    removeEventListener("keydown", space);
    removeEventListener("keyup", space);
    removeEventListener("blur", let_go);
  };
}

/** The grip without a drag: then a touch says where to. */
export function grip_tapped(): void {
  const thing = selected.peek();
  if (thing !== null) begin_move(thing, "place");
}
