// More of the same in a row, with so much between them.
import { useState } from "preact/hooks";
import type { Thing } from "../api";
import { comma_hint, copied, dot, metres_in, type Point, shifted, times, turned } from "../geometry";
import { act, caught_up, saying, state } from "../state";
import { drawn_thing } from "../tools";
import { ChoiceField, LengthField } from "./length_field";

const ways = [["right", "to the right"], ["left", "to the left"], ["up", "up the page"], ["down", "down the page"], ["along", "along its first side"], ["across", "off its first side"]] as const;
const most = 50;

function unit_of(way: string, thing: Thing): Point {
  const [a, b] = thing.corners as unknown as Point[];
  const side: Point = a === undefined || b === undefined ? [1, 0] : times([b[0] - a[0], b[1] - a[1]], 1 / (Math.hypot(b[0] - a[0], b[1] - a[1]) || 1));
  const of: Record<string, Point> = { right: [1, 0], left: [-1, 0], up: [0, 1], down: [0, -1], along: side, across: turned(side, 90) };
  return of[way] ?? [1, 0];
}

/** How long a thing is that way. */
function extent(thing: Thing, unit: Point): number {
  const along = (thing.corners as unknown as Point[]).map((corner) => dot(corner, unit));
  return Math.max(...along) - Math.min(...along);
}

export function RepeatForm({ thing, done }: { thing: Thing; done: () => void }) {
  const imperial = state.value?.site.units === "imperial";
  const [count, set_count] = useState("1");
  const [gap, set_gap] = useState(thing.corners.length > 1 ? (imperial ? "2 ft" : "0.6 m") : imperial ? "4 ft" : "1.2 m");
  const [way, choose] = useState("right");
  const [told, set_told] = useState("");
  const says = thing.corners.length > 1 ? "clear between them" : "from middle to middle";
  async function send(event: Event): Promise<void> {
    event.preventDefault();
    const n = Number(count.trim());
    const metres = metres_in(gap, imperial);
    if (!Number.isInteger(n) || n < 1 || n > most) return set_told(`How many more: 1 to ${most}.`);
    if (metres === null || metres < 0) return set_told(comma_hint(gap) ?? "How much between them: 0.6, 0.6 m or 2 ft.");
    await caught_up();
    const it = drawn_thing(thing.id);
    if (it === null) return;
    const unit = unit_of(way, it);
    const step = extent(it, unit) + metres;
    if (step < 0.01) return set_told("They would stand in each other.");
    set_told("");
    const called = thing.id.replace(/-\d+$/, "");
    const parts = Array.from({ length: n }, (_, i) => ({ add: thing.table, called, set: copied(it, shifted(times(unit, step * (i + 1)))) }));
    const { told: no, made } = await act.all(parts, `${thing.id} repeated`);
    if (no !== null) return;
    saying.value = `${made.length} more of ${thing.id}.`;
    done();
  }
  return (
    <form class="do-form" onSubmit={(event) => void send(event)}>
      <LengthField label="how many more" value={count} set={set_count} />
      <LengthField label={says} value={gap} set={set_gap} />
      <ChoiceField label="where to" value={way} words={thing.corners.length > 1 ? ways : ways.slice(0, 4)} set={choose} />
      {told !== "" && <p class="told" role="alert">{told}</p>}
      <p class="deeds"><button type="submit" class="word-button strong">Repeat it</button></p>
    </form>
  );
}
