// A moment touched in the sun print: what the sun does then, in words.
import type { Print } from "../api";
import { clock_says, day_says } from "../state/when";
import { column_of_day } from "./axes";
import { nobody, the_skyline } from "./regions";

export interface Touched {
  taker: string | null; // the thing that takes it, when it is one
  says: string;
}

export function cell_of(print: Print, day: string, clock: number): number {
  const column = Math.min(print.head.columns - 1, Math.floor(column_of_day(print.head.first_day, day) / print.head.day_step));
  const row = Math.max(0, Math.min(print.head.rows - 1, Math.floor(clock / print.head.step_h)));
  return column * print.head.rows + row;
}

/** `share`: of the place in the sun at just that moment, where the sheet has it; else the cell's. */
export function touched(print: Print, day: string, clock: number, share: number | null = null): Touched {
  const cell = cell_of(print, day, clock);
  const [of_cell = 0, light = 0, taker = nobody, second = nobody] = print.cells.subarray(4 * cell, 4 * cell + 4);
  const lit = share === null || (light & 2) === 0 ? of_cell : share * 255;
  const at = `${day_says(day)}, ${clock_says(clock)}`;
  const place = print.head.place;
  if ((light & 1) === 0) return { taker: null, says: `${at}: the sun is down.` };
  if ((light & 2) === 0) return { taker: null, says: `${at}: the sun is low and weak.` };
  if (taker === nobody && of_cell === 0) return { taker: null, says: `${at}: the sun is behind ${place}.` };
  const whole = lit >= 0.75 * 255 ? "The sun is on it" : lit >= 0.25 * 255 ? "The sun is on a part of it" : "Shade";
  if (taker === nobody || lit >= 0.75 * 255) return { taker: null, says: `${at}: ${whole.toLowerCase()}.` };
  const of = (number: number) => (number === the_skyline ? "the skyline" : (print.head.takers[number]?.called ?? "something"));
  const by = second === nobody ? `${of(taker)} takes ${lit >= 0.25 * 255 ? "the rest" : "it"}` : `${of(taker)} and ${of(second)} take ${lit >= 0.25 * 255 ? "the rest" : "it"} at once`;
  const who = taker === the_skyline ? null : (print.head.takers[taker]?.id ?? null);
  return { taker: who, says: `${at}: ${whole.toLowerCase()}; ${by}.` };
}
