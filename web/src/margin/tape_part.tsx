// A thing, or one of its corners, set where the tape says.
import { useState } from "preact/hooks";
import { corner_says, minus, type Point } from "../geometry";
import { act, caught_up, link } from "../state";
import { TapeForm } from "../sheet";
import { drawn_thing, place_key, standing_now, with_corners } from "../tools";

const tidy = (metres: number) => Math.round(metres * 1e4) / 1e4;

/** What has its place by one corner goes as a whole; of a line or an outline the corner alone. */
async function set_corner(id: string, i: number, to: Point): Promise<void> {
  await caught_up();
  const thing = drawn_thing(id);
  if (thing === null) return;
  const corners = thing.corners as unknown as Point[];
  const key = place_key(thing);
  if (key === null) {
    const [x, y] = minus(to, corners[i] as Point);
    void act.move(thing.id, [tidy(x), tidy(y)]);
  } else void act.set(thing.id, with_corners(thing, key, corners.map((corner, j) => (i === j ? to : corner))));
}

export function TapePart() {
  const [is_open, set_open] = useState(false);
  const [corner, choose] = useState(0);
  const thing = standing_now.value;
  if (thing === null || link.value === "read_only") return null;
  const corners = thing.corners as unknown as Point[];
  const i = Math.min(corner, corners.length - 1);
  const near = corners[i];
  if (near === undefined) return null;
  return (
    <div class="part">
      <button type="button" class="fold" aria-expanded={is_open} onClick={() => set_open(!is_open)}>
        <h3>Set it by tape</h3>
        <span class="fold-mark" aria-hidden="true">{is_open ? "−" : "+"}</span>
      </button>
      {is_open && corners.length > 1 && (
        <label class="tape-corner">
          <span>{place_key(thing) === null ? "the whole, by its" : "its"}</span>
          <select value={String(i)} onChange={(event) => choose(Number(event.currentTarget.value))}>
            {corners.map((_, j) => <option key={j} value={String(j)}>{corner_says(corners, thing.closed, j)}</option>)}
          </select>
        </label>
      )}
      {is_open && <TapeForm key={`${thing.id} ${i}`} near={near} but={thing.id} take={(to) => void set_corner(thing.id, i, to)} />}
    </div>
  );
}
