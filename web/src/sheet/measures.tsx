// The measures of the thing chosen, written beside it: touched, each is typed in its place.
import { computed } from "@preact/signals";
import { useEffect, useRef, useState } from "preact/hooks";
import { bounds, centre, goes_with_others, to_screen, type View } from "../geometry";
import { link, selected, without } from "../state";
import { drawing, drawn_things, grip_at, type Measure, measure_says, measured_now, measures, moving, shaping, size, tape_shown, type_measure, view } from "../tools";
import { type Dimension, DimensionLine, figure_at } from "./dimension";
import type { Shown } from "./shown";

interface Placed {
  measure: Measure;
  of: Dimension | null; // null: a note
  x: number;
  y: number;
}

const high = 34; // rows of figures may come so near
const wide_of = (says: string) => Math.max(46, 7.6 * says.length + 10);

interface Ends {
  from: readonly [number, number];
  to: readonly [number, number];
}
interface Rect {
  x: number;
  y: number;
  w: number;
}
const lie_on = (a: Rect, b: Rect) => Math.abs(a.x - b.x) < (a.w + b.w) / 2 && Math.abs(a.y - b.y) < high;

/** Off a thing's sides outwards; a distance is written on its own way, or beside it. */
function offs_of(measure: Measure, middle: readonly [number, number], { from, to }: Ends, scale: number): number[] {
  if (measure.is_gap) return [0, 22, -22, 44, -44];
  const side = (to[0] - from[0]) * (middle[1] - from[1]) - (to[1] - from[1]) * (middle[0] - from[0]) > 0 ? 1 : -1;
  const near = measure.beyond_m * scale + 14;
  return [near * side, -near * side, (near + 20) * side, -(near + 20) * side];
}

/** The figures of the light in the other beds: a measure beside them is better than one over them. */
function chips_of(sight: View, but: string): Rect[] {
  return drawn_things().flatMap((thing) => {
    if (thing.table !== "bed" || thing.id === but) return [];
    const [x, y] = to_screen(sight, centre(thing));
    return [{ x, y, w: 34 }];
  });
}

/** Where each figure stands: not on another, nor on the grip; what finds no room is in the notes alone. */
function placed(all: readonly Measure[], sight: View): Placed[] {
  const thing = measured_now.value;
  const { width, height } = size.value;
  if (thing === null) return [];
  const middle = to_screen(sight, centre(thing));
  const grip = goes_with_others(thing) ? null : grip_at(thing, moving.value !== null);
  const taken: Rect[] = [{ x: middle[0], y: middle[1], w: thing.closed ? 40 : 8 }, ...(grip === null ? [] : [{ x: grip[0], y: grip[1], w: 48 }])];
  const chips = chips_of(sight, thing.id);
  const out: Placed[] = [];
  const try_at = (measure: Measure, of: Dimension | null, [x, y]: readonly [number, number], over: boolean): boolean => {
    const rect = { x, y, w: (measure.is_note ? 40 : 0) + wide_of(measure_says(measure.metres)) };
    const is_within = x > rect.w / 2 + 4 && x < width - rect.w / 2 - 4 && y > 20 && y < height - 20;
    const is_on = (other: Rect) => lie_on(rect, other);
    if (!is_within || taken.some(is_on) || (!over && chips.some(is_on))) return false;
    taken.push(rect);
    out.push({ measure, of, x, y });
    return true;
  };
  const find = (measure: Measure, over: boolean): boolean => {
    if (measure.is_note) {
      const [x0, , x1, y1] = bounds(thing);
      const at = to_screen(sight, [(x0 + x1) / 2, y1]);
      return [26, 60].some((up) => try_at(measure, null, [at[0], at[1] - up], over));
    }
    const ends: Ends = { from: to_screen(sight, measure.from), to: to_screen(sight, measure.to) };
    return offs_of(measure, middle, ends, sight.scale).some((off) => {
      const of = { ...ends, off };
      return try_at(measure, of, figure_at(of, wide_of(measure_says(measure.metres)) - 8), over);
    });
  };
  const has_room = ({ is_further, metres }: Measure) => !is_further || metres * sight.scale > 90;
  // In the hand only what changes is told.
  const is_told = (measure: Measure) => has_room(measure) && (moving.value === null || (measure.is_gap && !measure.is_further));
  for (const measure of all.filter(is_told)) if (!find(measure, false) && !measure.is_further) find(measure, true);
  return out;
}

const rest_ms = 900;

function Figure({ placed: { measure, x, y } }: { placed: Placed }) {
  const input = useRef<HTMLInputElement>(null);
  const resting = useRef<number | undefined>(undefined);
  const is_typed = useRef(false);
  const [told, set_told] = useState<{ message: string; hint: string } | null>(null);
  const says = measure_says(measure.metres);
  const now = useRef(measure);
  now.current = measure;
  useEffect(() => {
    if (input.current !== null && document.activeElement !== input.current) input.current.value = says;
  }, [says]);
  useEffect(() => () => clearTimeout(resting.current), []);

  async function keep(text: string): Promise<void> {
    clearTimeout(resting.current);
    if (!is_typed.current) return;
    is_typed.current = false;
    set_told(await type_measure(now.current, text));
  }
  function typed(text: string): void {
    is_typed.current = true;
    set_told(null);
    clearTimeout(resting.current);
    if (text.trim() !== "") resting.current = window.setTimeout(() => void keep(text), rest_ms);
  }
  function key(event: KeyboardEvent & { currentTarget: HTMLInputElement }): void {
    if (event.key === "Enter") void keep(event.currentTarget.value);
    else if (event.key === "Escape") {
      clearTimeout(resting.current);
      is_typed.current = false;
      event.currentTarget.value = says;
      set_told(null);
      document.querySelector<HTMLElement>('[data-region="sheet"]')?.focus({ preventScroll: true });
    } else return;
    event.preventDefault();
    event.stopPropagation();
  }
  const wide = wide_of(says);
  return (
    <div class="measure" style={{ transform: `translate(${(x - wide / 2).toFixed(1)}px,${y.toFixed(1)}px)`, width: `${wide.toFixed(0)}px` }}>
      {measure.is_note && <span class="measure-word" aria-hidden="true">{measure.name}</span>}
      {measure.is_guessed && <span class="measure-guess" aria-hidden="true">≈</span>}
      <input
        ref={input}
        type="text"
        aria-label={measure.name}
        data-about={measure.name.replace(/^from (the )?/, "")}
        aria-invalid={told !== null}
        autocomplete="off"
        readOnly={link.value === "read_only" || (measured_now.value?.fields["locked"]?.value === true && !measure.is_note)}
        onFocus={(event) => event.currentTarget.select()}
        onInput={(event) => typed(event.currentTarget.value)}
        onBlur={(event) => {
          if (is_typed.current) void keep(event.currentTarget.value);
          else event.currentTarget.value = says;
        }}
        onKeyDown={key}
      />
      {told !== null && <p class="measure-told" role="alert"><strong>{told.message}</strong> {told.hint}</p>}
    </div>
  );
}

/** Those that stand on the sheet now: the figures of the light keep off them. */
export const measures_placed = computed<readonly Placed[]>(() => {
  const sight = view.value;
  const is_other = without.value !== null || drawing.value !== null || shaping.value !== null || tape_shown.value !== null;
  return sight === null || selected.value === null || is_other ? [] : placed(measures.value, sight);
});

export function Measures({ shown }: { shown: Shown }) {
  const { width, height } = size.value;
  const all = measures_placed.value;
  if (all.length === 0 || !shown.is_active.value) return null;
  return (
    <>
      <svg class="marks" width={width} height={height} aria-hidden="true" focusable="false">
        {all.map(({ measure, of }) => of !== null && <DimensionLine key={measure.name} of={of} />)}
      </svg>
      <div class="measures" role="group" aria-label={`Measures of ${selected.value}`}>
        {all.map((one) => <Figure key={`${selected.value} ${one.measure.name}`} placed={one} />)}
      </div>
    </>
  );
}
