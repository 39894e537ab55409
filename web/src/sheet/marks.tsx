// What is drawn over the plan by hand and eye: the selected thing, the one under the pointer, where
// a moved one stood, whose ink is whose, and the grip.
import type { Ink, Thing } from "../api";
import { centre, goes_with_others, type Point, to_screen, type View } from "../geometry";
import { hovered, inks, link, section_line, selected, takers, told_takers } from "../state";
import { grip_at, moving, section_sketch, shaping, size, view } from "../tools";
import { Laid } from "./laid";
import { outline_path } from "./outline";
import { SectionMark } from "./section_panel";
import { type Shown, standing } from "./shown";
import { Arriving, Guides, Sketch, Tapes } from "./sketch";
import { taker_inks } from "./taker_inks";


function Outline({ shown, id, off, name }: { shown: Shown; id: string | null; off: number; name: string }) {
  const thing = standing(shown, id);
  const now = view.value;
  if (thing === null || now === null) return null;
  return <path class={name} d={outline_path(thing, now, off)} />;
}

/** Where the thing in the hand stood, and the way from there. */
function Stood({ shown, now }: { shown: Shown; now: View }) {
  const hand = moving.value;
  if (hand === null || !shown.is_active.value) return null;
  const thing = standing(shown, hand.thing);
  if (thing === null) return null;
  const [dx, dy] = hand.by_m;
  const was = { ...thing, corners: thing.corners.map(([x = 0, y = 0]) => [x - dx, y - dy]) };
  const [from, to] = [to_screen(now, centre(was)), to_screen(now, centre(thing))];
  return (
    <>
      <path class="mark-stood" d={outline_path(was, now, 0)} />
      <path class="mark-way" d={`M${from[0]} ${from[1]}L${to[0]} ${to[1]}`} />
    </>
  );
}

/** Those that have an ink everywhere; and of the selected place those that take most of its sun. */
function has_disc(): (ink: Ink) => boolean {
  const most = new Set(takers.value?.place === selected.value ? told_takers.value : []);
  return ({ id, ink }) => ink < taker_inks.length || (most.has(id) && id !== selected.value);
}

function Discs({ shown, now }: { shown: Shown; now: View }) {
  const with_disc = has_disc();
  return (
    <>
      {[...inks.value.values()].filter(with_disc).map(({ id, letter, ink }) => {
        const thing = standing(shown, id);
        const colour = taker_inks[ink] ?? "var(--graphite)";
        if (thing === null || thing.mark === "removed" || letter === "") return null;
        const [x, y] = to_screen(now, disc_at(thing.corners as unknown as Point[], centre(thing)));
        return (
          <g key={id} transform={`translate(${x.toFixed(1)} ${(y - 13).toFixed(1)})`}>
            <circle r="9" class="disc" fill={colour} />
            <text class="disc-letter" y="4.5">
              {letter}
            </text>
          </g>
        );
      })}
    </>
  );
}

/** On a line off its middle, where its name is; else in the thing's own. */
function disc_at(corners: readonly Point[], middle: Point): Point {
  const [a, b] = corners;
  return corners.length === 2 && a !== undefined && b !== undefined
    ? [a[0] + 0.3 * (b[0] - a[0]), a[1] + 0.3 * (b[1] - a[1])]
    : middle;
}

/** From the grip to its thing: whose it is. */
function Tether({ shown }: { shown: Shown }) {
  const thing = held_by_grip(shown);
  const now = view.value;
  const at = thing === null ? null : grip_at(thing, moving.value?.thing === thing.id);
  if (thing === null || now === null || at === null) return null;
  const ends = (thing.corners as unknown as Point[]).map((corner) => to_screen(now, corner));
  const far = ([x, y]: Point) => Math.hypot(x - at[0], y - at[1]);
  const near = ends.sort((a, b) => far(a) - far(b))[0];
  if (near === undefined) return null;
  const off = ends.length === 1 ? thing.reach_m * now.scale + 7 : 0; // not into a round thing
  const share = Math.max(0, 1 - off / (far(near) || 1));
  const [x, y] = [at[0] + share * (near[0] - at[0]), at[1] + share * (near[1] - at[1])];
  return <path class="mark-tether" d={`M${at[0]} ${at[1]}L${x.toFixed(1)} ${y.toFixed(1)}`} />;
}

/** What the grip on this sheet would move. */
function held_by_grip(shown: Shown): Thing | null {
  const thing = standing(shown, selected.value);
  return thing === null || thing.mark === "removed" || goes_with_others(thing) || thing.fields["locked"]?.value === true || !shown.is_active.value || link.value === "read_only" ? null : thing;
}

export function Marks({ shown }: { shown: Shown }) {
  const now = view.value;
  const { width, height } = size.value;
  if (now === null) return null;
  return (
    <svg class="marks" width={width} height={height} aria-hidden="true" focusable="false">
      {section_line.value === null && section_sketch.value === null && <Discs shown={shown} now={now} />}
      <Stood shown={shown} now={now} />
      {hovered.value !== selected.value && <Outline shown={shown} id={hovered.value} off={4} name="mark-hovered" />}
      <SectionMark now={now} />
      {shaping.value === null && (
        <>
          <Tether shown={shown} />
          <Outline shown={shown} id={selected.value} off={7} name="mark-selected-case" />
          <Outline shown={shown} id={selected.value} off={7} name="mark-selected" />
        </>
      )}
      {shown.is_active.value && <Arriving />}
      {shown.is_active.value && <Tapes />}
      {shown.is_active.value && <Guides />}
      {shown.is_active.value && <Laid />}
      {shown.is_active.value && <Sketch />}
    </svg>
  );
}

/** The one handle that moves a thing: 48 pixels, off its corner. */
export function Grip({ shown }: { shown: Shown }) {
  const thing = held_by_grip(shown);
  const sight = [view.value, size.value]; // it stays by its thing
  if (sight[0] === null || thing === null) return null;
  const at = grip_at(thing, moving.value?.thing === thing.id);
  if (at === null) return null;
  return (
    <button
      type="button"
      class="grip"
      tabIndex={-1}
      aria-label={`Move ${thing.id}: drag it, or touch it and then where it is to stand`}
      style={{ transform: `translate(${at[0] - 24}px,${at[1] - 24}px)` }}
    >
      <svg viewBox="-24 -24 48 48" width="48" height="48" aria-hidden="true">
        <circle r="15" class="grip-ring" />
        <path class="grip-cross" d="M0 -9V9M-9 0H9M-3 -6L0 -9L3 -6M-3 6L0 9L3 6M-6 -3L-9 0L-6 3M6 -3L9 0L6 3" />
      </svg>
    </button>
  );
}
