// A thing mirrored about an axis: it goes there, or one like it comes there.
import { useState } from "preact/hooks";
import type { Thing } from "../api";
import { bounds, carried, centre, copied, mirrored_in, type Point } from "../geometry";
import { act, caught_up, saying, select_when_there, state } from "../state";
import { drawn_thing, tape_lines } from "../tools";
import { ChoiceField } from "./length_field";

type Axis = { name: string; a: Point; b: Point };

/** The middle of the plot, else of what is drawn. */
function middle_of_plot(): Point {
  const boundary = (state.peek()?.boundary ?? []) as unknown as Point[];
  const all = boundary.length > 0 ? boundary : (state.peek()?.things ?? []).flatMap((thing) => thing.corners as unknown as Point[]);
  const xs = all.map(([x]) => x);
  const ys = all.map(([, y]) => y);
  return [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
}

function axes_for(thing: Thing): Axis[] {
  const [x, y] = centre(thing);
  const [mx, my] = middle_of_plot();
  const [x0, y0, x1, y1] = bounds(thing, false);
  const upright = (name: string, at: number): Axis => ({ name, a: [at, 0], b: [at, 1] });
  const level = (name: string, at: number): Axis => ({ name, a: [0, at], b: [1, at] });
  return [
    upright("the plot’s mid-line, up the page", mx),
    level("the plot’s mid-line, across", my),
    ...tape_lines([x, y], thing.id),
    upright("its own right side", x1), upright("its own left side", x0), level("its own upper side", y1), level("its own lower side", y0),
    upright("its own mid-line, up the page", x), level("its own mid-line, across", y),
  ];
}

export function MirrorForm({ thing, done }: { thing: Thing; done: () => void }) {
  const axes = axes_for(thing);
  const [name, choose] = useState(axes[0]?.name ?? "");
  const [keeps, set_keeps] = useState(true);
  async function send(event: Event): Promise<void> {
    event.preventDefault();
    const axis = axes.find((one) => one.name === name);
    await caught_up();
    const it = drawn_thing(thing.id);
    if (axis === undefined || it === null) return;
    const carry = mirrored_in(axis.a, axis.b);
    if (!keeps) {
      const told = await act.set(thing.id, carried(it, carry));
      if (told !== null) act.tell(told);
      else saying.value = `${thing.id} is mirrored.`;
      return done();
    }
    const { told, made } = await act.all([{ add: thing.table, called: thing.id.replace(/-\d+$/, ""), set: copied(it, carry) }], `${thing.id} mirrored`);
    if (told !== null) return;
    done();
    if (made[0] !== undefined) select_when_there(made[0]);
    saying.value = `${made[0] ?? "One like it"} is there, mirrored from ${thing.id}.`;
  }
  return (
    <form class="do-form" onSubmit={(event) => void send(event)}>
      <ChoiceField label="about" value={name} words={axes.map((axis) => [axis.name, axis.name] as const)} set={choose} />
      <label class="yes-no form-check"><input type="checkbox" checked={keeps} onChange={(event) => set_keeps(event.currentTarget.checked)} /><span>and this one stays</span></label>
      <p class="deeds"><button type="submit" class="word-button strong">Mirror it</button></p>
    </form>
  );
}
