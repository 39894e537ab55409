// The keyboard: on the sheet, and between the regions of the page.
import { centre, to_screen, type Way } from "../geometry";
import { act, garden, hovered, selected, without } from "../state";
import { drawn_thing, select, step_to } from "./choosing";
import { pen, put_pen_down } from "./pen";
import { change_drawing, cross_by, draw_menu, drawing, set_corner, step_back_drawing, take_corner_back } from "./drawing";
import { begin_move, leave_it, move_on, moving, set_down } from "./moving";
import { end_shaping, shaping } from "./shaping";
import { begin_section } from "./section";
import { begin_shadow } from "./shadow_end";
import { go_to_letter, goes_on, next_region } from "./regions";
import { show_whole, view, zoom_by } from "./sheet_view";

const arrows: Record<string, [Way, number, number]> = {
  ArrowLeft: ["left", -1, 0],
  ArrowRight: ["right", 1, 0],
  ArrowUp: ["up", 0, 1],
  ArrowDown: ["down", 0, -1],
};

/** Esc: one step back. False: there was none. */
export function go_back(): boolean {
  if (drawing.peek() !== null) step_back_drawing();
  else if (shaping.peek() !== null) end_shaping();
  else if (moving.peek() !== null) leave_it();
  else if (pen.peek() !== null) put_pen_down();
  else if (without.peek() !== null) without.value = null;
  else if (hovered.peek() !== null && hovered.peek() !== selected.peek()) hovered.value = null;
  else if (selected.peek() !== null) select(null);
  else return false;
  return true;
}

/** Zooms on what is meant, so that it stays where it is. */
function zoom_on(meant: string | null, factor: number): void {
  const thing = drawn_thing(meant);
  const now = view.peek();
  zoom_by(factor, thing === null || now === null ? undefined : to_screen(now, centre(thing)));
}

function moving_key(event: KeyboardEvent): boolean {
  const arrow = arrows[event.key];
  if (arrow !== undefined) {
    const step = event.shiftKey ? 1 : event.altKey ? 0.01 : 0.1;
    move_on(arrow[1] * step, arrow[2] * step);
  } else if (event.key === "Enter") set_down();
  else {
    // A figure goes on in the field for it.
    if (/^[-−\d.]$/.test(event.key)) document.querySelector<HTMLElement>(".move-strip input")?.focus();
    return false;
  }
  return true;
}

function drawing_key(event: KeyboardEvent): boolean {
  const arrow = arrows[event.key];
  if (arrow !== undefined) {
    const step = event.shiftKey ? 1 : event.altKey ? 0.01 : 0.1;
    cross_by(arrow[1] * step, arrow[2] * step);
  } else if (event.key === "Enter") {
    change_drawing({ is_seen: true, by_keys: true });
    set_corner();
  } else if (event.key === "Backspace") take_corner_back();
  else if (event.key === "+" || event.key === "=") zoom_by(1.25);
  else {
    if (/^[-−\d.]$/.test(event.key)) document.querySelector<HTMLElement>(".draw-strip input.number")?.focus();
    return false;
  }
  return true;
}

function looking_key(event: KeyboardEvent): boolean {
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  const arrow = arrows[event.key];
  const meant = hovered.peek() ?? selected.peek();
  if (arrow !== undefined) step_to(arrow[0]);
  else if (event.key === "Enter" && meant !== null) select(meant);
  else if (event.key.toLowerCase() === "m" && meant !== null) begin_move(meant, "keys");
  else if (event.key.toLowerCase() === "s" && meant !== null) void begin_shadow(meant);
  else if (event.key.toLowerCase() === "d") draw_menu.value = true;
  else if (event.key.toLowerCase() === "c") begin_section();
  else if (event.key === "+" || event.key === "=") zoom_on(meant, 1.25);
  else if (event.key === "-") zoom_on(meant, 0.8);
  else if (event.key === "0") show_whole();
  else return false;
  return true;
}

export function sheet_key(event: KeyboardEvent): void {
  if (event.target !== event.currentTarget) return;
  const taken =
    event.key === "Escape" ? go_back()
    : drawing.peek() !== null ? drawing_key(event)
    : pen.peek()?.key?.(event) === true ? true
    : moving.peek() !== null ? moving_key(event) : looking_key(event);
  if (!taken) return;
  event.preventDefault();
  event.stopPropagation();
}

const is_typing = (target: EventTarget | null) =>
  target instanceof HTMLElement && target.matches("input:not([type=checkbox],[type=radio]),textarea,select");

const is_letter = (event: KeyboardEvent) =>
  !event.ctrlKey && !event.metaKey && !event.altKey && !event.defaultPrevented && /^\p{L}$/u.test(event.key);

export function page_key(event: KeyboardEvent): void {
  if (event.key === "F6") {
    event.preventDefault();
    next_region(event.shiftKey);
  } else if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === "z" && !is_typing(event.target)) {
    event.preventDefault();
    void (event.shiftKey ? act.redo() : act.undo());
  } else if ((event.ctrlKey || event.metaKey) && event.key === "y" && !is_typing(event.target)) {
    event.preventDefault();
    void act.redo();
  } else if (event.key === "Escape" && !event.defaultPrevented) go_back();
  else if (is_letter(event) && event.target === document.body && /^[dmcs]$/i.test(event.key) && garden.peek() !== null && looking_key(event)) event.preventDefault(); // nothing has the focus: the sheet's
  else if (is_letter(event) && (!is_typing(event.target) || goes_on(event.key)) && go_to_letter(event.key)) event.preventDefault();
}
