// Grips on the corners of an outline or a line, one on each side to add a corner, one to turn the whole.
import { type Point, sides_of, to_plan, to_screen, type View } from "../geometry";
import { type Shaping, add_corner, corner_by, corner_to, delete_corner, drawn_thing, end_shaping, keep_turn, let_go, shaped_name, shaping, size, turn_grip, turn_to, turn_toward, view } from "../tools";
import type { Shown } from "./shown";

type Px = readonly [number, number];

const path_of = (points: readonly Px[], closed: boolean) => `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L")}${closed ? "Z" : ""}`;

/** A drag of a grip: the plan's point under the pointer, until it is let go. */
function dragged(to: (at: Point, free: boolean) => void) {
  return {
    onPointerDown(event: PointerEvent & { currentTarget: HTMLElement }): void {
      if (event.button !== 0) return;
      event.stopPropagation();
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove(event: PointerEvent & { currentTarget: HTMLElement }): void {
      const now = view.peek();
      const box = event.currentTarget.closest(".plan")?.getBoundingClientRect();
      if (!event.currentTarget.hasPointerCapture(event.pointerId) || now === null || box === undefined) return;
      event.stopPropagation();
      to(to_plan(now, [event.clientX - box.left, event.clientY - box.top]), event.altKey);
    },
    onPointerUp(event: PointerEvent): void {
      event.stopPropagation();
      let_go();
    },
  };
}

const arrows: Record<string, Point> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

function corner_key(i: number) {
  return (event: KeyboardEvent): void => {
    const arrow = arrows[event.key];
    const step = event.shiftKey ? 1 : event.altKey ? 0.01 : 0.1;
    if (arrow !== undefined) corner_by(i, [arrow[0] * step, arrow[1] * step]);
    else if (event.key === "Delete" || event.key === "Backspace") delete_corner(i);
    else if (event.key === "Insert") add_corner(i);
    else if (event.key === "Escape") end_shaping();
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
}

const style_at = ([x, y]: Px) => ({ transform: `translate(${x.toFixed(1)}px,${y.toFixed(1)}px)` });

function CornerGrips({ now, sight }: { now: Shaping; sight: View }) {
  const at = (p: Point) => to_screen(sight, p);
  return (
    <>
      {sides_of(now.corners, now.closed).map(([a, b], i) => {
        const [p, q] = [at(a), at(b)];
        if (Math.hypot(q[0] - p[0], q[1] - p[1]) < 92) return null; // no room between the corners' own grips
        return (
          <button key={`side ${i}`} type="button" class="corner-grip" tabIndex={-1} aria-label={`Add a corner after corner ${i + 1}`} style={style_at([(p[0] + q[0]) / 2, (p[1] + q[1]) / 2])} onClick={() => add_corner(i)}>
            <svg viewBox="-22 -22 44 44" width="44" height="44" aria-hidden="true"><circle r="8" class="grip-ring" /><path class="grip-cross" d="M-4 0H4M0 -4V4" /></svg>
          </button>
        );
      })}
      {now.corners.map((corner, i) => (
        <button
          key={`corner ${i}`}
          type="button"
          class="corner-grip is-corner"
          aria-label={`Corner ${i + 1} of ${now.corners.length}: drag it, or arrows move it`}
          style={style_at(at(corner))}
          onKeyDown={corner_key(i)}
          {...dragged((to, free) => corner_to(i, to, free))}
        >
          <svg viewBox="-22 -22 44 44" width="44" height="44" aria-hidden="true"><rect x="-7" y="-7" width="14" height="14" class="grip-ring" /></svg>
        </button>
      ))}
    </>
  );
}

function TurnGrip({ now, sight }: { now: Shaping; sight: View }) {
  const thing = drawn_thing(now.thing);
  if (thing === null) return null;
  const { at } = turn_grip(thing, now.turned_deg, 34 / sight.scale);
  function key(event: KeyboardEvent): void {
    const by = event.key === "ArrowLeft" || event.key === "ArrowUp" ? 1 : event.key === "ArrowRight" || event.key === "ArrowDown" ? -1 : 0;
    if (by !== 0) turn_to(now.turned_deg + by * (event.altKey ? 1 : 5), true);
    else if (event.key === "Enter") void keep_turn();
    else if (event.key === "Escape") end_shaping();
    else return;
    event.preventDefault();
    event.stopPropagation();
  }
  return (
    <button type="button" class="corner-grip" aria-label={`Turn ${now.thing}: drag it round, or arrows turn it and Enter keeps it`} style={style_at(to_screen(sight, at))} onKeyDown={key} {...dragged((to, free) => turn_toward(thing, to, free))}>
      <svg viewBox="-22 -22 44 44" width="44" height="44" aria-hidden="true"><circle r="13" class="grip-ring" /><path class="grip-cross" d="M-6 4A7 7 0 1 1 6 4M6 4L2.5 2.5M6 4L7.5 0.5" /></svg>
    </button>
  );
}

export function ShapeGrips({ shown }: { shown: Shown }) {
  const now = shaping.value;
  const sight = view.value;
  const { width, height } = size.value;
  if (now === null || sight === null || !shown.is_active.value) return null;
  const px = now.corners.map((corner) => to_screen(sight, corner));
  const thing = now.how === "turn" ? drawn_thing(now.thing) : null;
  const stem = thing === null ? null : turn_grip(thing, now.turned_deg, 34 / sight.scale);
  return (
    <>
      <svg class="marks" width={width} height={height} aria-hidden="true" focusable="false">
        {px.length > 1 && <path class="shape-case" d={path_of(px, now.closed)} />}
        {px.length > 1 && <path class="shape-line" d={path_of(px, now.closed)} />}
        {stem !== null && <path class="mark-tether" d={path_of([to_screen(sight, stem.from), to_screen(sight, stem.at)], false)} />}
      </svg>
      <div role="group" aria-label={`${now.how === "turn" ? "Turning" : "Corners of"} ${shaped_name(now)}`}>
        {now.how === "corners" ? <CornerGrips now={now} sight={sight} /> : <TurnGrip now={now} sight={sight} />}
      </div>
    </>
  );
}
