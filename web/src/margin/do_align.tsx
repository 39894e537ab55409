// A thing brought in line with another.
import { useState } from "preact/hooks";
import type { Thing } from "../api";
import { apart, bounds, centre, type Point } from "../geometry";
import { act, caught_up, saying } from "../state";
import { drawn_thing, drawn_things } from "../tools";
import { ChoiceField } from "./length_field";

const hows = [["left", "left sides"], ["centre", "middles, up the page"], ["right", "right sides"], ["lower", "lower sides"], ["middle", "middles, across"], ["upper", "upper sides"]] as const;

function move_for(how: string, thing: Thing, other: Thing): Point {
  const [x0, y0, x1, y1] = bounds(thing, false);
  const [u0, v0, u1, v1] = bounds(other, false);
  const by: Record<string, Point> = {
    left: [u0 - x0, 0], right: [u1 - x1, 0], centre: [(u0 + u1 - x0 - x1) / 2, 0],
    lower: [0, v0 - y0], upper: [0, v1 - y1], middle: [0, (v0 + v1 - y0 - y1) / 2],
  };
  return by[how] ?? [0, 0];
}

export function AlignForm({ thing, done }: { thing: Thing; done: () => void }) {
  const at = centre(thing);
  const others = drawn_things()
    .filter((one) => one.id !== thing.id && one.mark !== "removed")
    .sort((a, b) => apart(centre(a), at) - apart(centre(b), at));
  const [of, choose_of] = useState(others[0]?.id ?? "");
  const [how, choose_how] = useState("left");
  async function send(event: Event): Promise<void> {
    event.preventDefault();
    await caught_up();
    const [it, other] = [drawn_thing(thing.id), drawn_thing(of)];
    if (it === null || other === null) return;
    const [x, y] = move_for(how, it, other).map((one) => Math.round(one * 1e4) / 1e4);
    if (x === 0 && y === 0) saying.value = `${thing.id} is in line with ${of} already.`;
    else if ((await act.move(thing.id, [x ?? 0, y ?? 0])) === null) saying.value = `${thing.id} is in line with ${of}.`;
    done();
  }
  if (others.length === 0) return <p class="small">There is nothing else yet.</p>;
  return (
    <form class="do-form" onSubmit={(event) => void send(event)}>
      <ChoiceField label="with" value={of} words={others.map(({ id }) => [id, id] as const)} set={choose_of} />
      <ChoiceField label="by their" value={how} words={hows} set={choose_how} />
      <p class="deeds"><button type="submit" class="word-button strong">Align it</button></p>
    </form>
  );
}
