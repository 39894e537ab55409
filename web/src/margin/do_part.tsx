// What can be done with a thing's place and shape: corners, a turn, a mirror, more of the same, in line
// with another, a copy, a lock, its stage of the works.
import { useState } from "preact/hooks";
import type { ComponentChildren } from "preact";
import type { Thing } from "../api";
import { bounds, copied, type Point, shifted } from "../geometry";
import { act, caught_up, link, saying, scheme, select_when_there, show_scheme, state } from "../state";
import { begin_shaping, drawn_thing, drawn_things, end_shaping, has_corners, is_locked_thing, shaping, standing_now } from "../tools";
import { AlignForm } from "./do_align";
import { CornersForm } from "./do_corners";
import { MirrorForm } from "./do_mirror";
import { Phase } from "./phase";
import { RepeatForm } from "./do_repeat";
import { TurnForm } from "./do_turn";

type Deed = "mirror" | "repeat" | "align";

const turns = (thing: Thing) => (thing.corners.length > 1 && thing.table !== "plant") || ["support", "seat"].includes(thing.table);

function Word({ says, is_on, press }: { says: string; is_on?: boolean; press: () => void }) {
  return (
    <button type="button" class="word-button" aria-expanded={is_on} onClick={press}>{says}</button>
  );
}

const in_the_way = new Set(["bed", "building", "object", "tank", "container", "seat", "tree", "wall"]);

/** Where a second one stands clear of what is there: to the right, else to the left, up or down the page. */
function free_beside(thing: Thing, least: number, gap: number): Point {
  const [x0, y0, x1, y1] = bounds(thing, false);
  const [wide, high] = [Math.max(least, x1 - x0) + gap, Math.max(least, y1 - y0) + gap];
  const others = drawn_things().filter((other) => other.id !== thing.id && other.mark !== "removed" && in_the_way.has(other.table)).map((other) => bounds(other, false));
  const is_free = ([dx, dy]: Point) => others.every(([u0, v0, u1, v1]) => x1 + dx <= u0 || u1 <= x0 + dx || y1 + dy <= v0 || v1 <= y0 + dy);
  const ways: Point[] = [[wide, 0], [-wide, 0], [0, high], [0, -high]];
  return ways.find(is_free) ?? [wide, 0];
}

/** One of the same beside it, in the proposal: what is found is not added to by it. */
async function copy(id: string): Promise<void> {
  await caught_up();
  const thing = drawn_thing(id);
  if (thing === null) return;
  const to = scheme.peek() === "found" ? "proposed" : scheme.peek();
  const [least, gap] = state.peek()?.site.units === "imperial" ? [2 * 0.3048, 1.5 * 0.3048] : [0.6, 0.4];
  const beside = free_beside(thing, least, gap);
  const called = thing.id.replace(/-\d+$/, "");
  const { told, made } = await act.all([{ scheme: to, add: thing.table, called, set: copied(thing, shifted(beside)) }], `${thing.id} copied`);
  if (told !== null || made[0] === undefined) return;
  if (scheme.peek() !== to) show_scheme(to);
  select_when_there(made[0]);
  saying.value = `${made[0]} is proposed, beside ${thing.id}.`;
}

/** The thing's own entry has the lock, whatever the scheme. */
async function lock(thing: Thing, is: boolean): Promise<void> {
  const { told } = await act.all([{ scheme: "found", thing: thing.id, set: { locked: is ? true : null } }], `${thing.id} ${is ? "locked" : "let go"}`);
  if (told === null) saying.value = is ? `${thing.id} is locked: it stays where it is.` : `${thing.id} can be moved again.`;
}

function Locked({ thing }: { thing: Thing }) {
  return (
    <div class="part">
      <h3>Do</h3>
      <p class="small">It is locked, and stays where it is.</p>
      <p class="deeds"><Word says="Let it go" press={() => void lock(thing, false)} /></p>
    </div>
  );
}

function Words({ thing }: { thing: Thing }) {
  const [deed, choose] = useState<Deed | null>(null);
  const how = shaping.value?.thing === thing.id ? shaping.value.how : null;
  const shape = (as: "corners" | "turn") => {
    choose(null);
    if (how === as) end_shaping();
    else begin_shaping(thing.id, as);
  };
  const open = (one: Deed) => {
    if (how !== null) end_shaping();
    choose(deed === one ? null : one);
  };
  const done = () => choose(null);
  let form: ComponentChildren = null;
  if (how === "corners") form = <CornersForm />;
  else if (how === "turn") form = <TurnForm thing={thing} />;
  else if (deed === "mirror") form = <MirrorForm thing={thing} done={done} />;
  else if (deed === "repeat") form = <RepeatForm thing={thing} done={done} />;
  else if (deed === "align") form = <AlignForm thing={thing} done={done} />;
  return (
    <div class="part">
      <h3>Do</h3>
      <p class="deeds do-words">
        {has_corners(thing) && <Word says="Corners" is_on={how === "corners"} press={() => shape("corners")} />}
        {turns(thing) && <Word says="Turn" is_on={how === "turn"} press={() => shape("turn")} />}
        {thing.table !== "picture" && (
          <>
            <Word says="Mirror" is_on={deed === "mirror"} press={() => open("mirror")} />
            <Word says="Repeat" is_on={deed === "repeat"} press={() => open("repeat")} />
            <Word says="Align" is_on={deed === "align"} press={() => open("align")} />
            <Word says={scheme.value === "found" ? "Copy as proposed" : "Copy"} press={() => void copy(thing.id)} />
          </>
        )}
        <Word says="Lock" press={() => void lock(thing, true)} />
      </p>
      {form}
      {(thing.mark === "proposed" || (thing.mark === "changed" && scheme.value !== "found")) && <Phase thing={thing} />}
    </div>
  );
}

export function DoPart() {
  const thing = standing_now.value;
  if (thing === null || link.value === "read_only") return null;
  return is_locked_thing(thing) ? <Locked thing={thing} /> : <Words key={thing.id} thing={thing} />;
}
