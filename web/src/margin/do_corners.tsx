// The corners of an outline as figures.
import { length_says } from "../geometry";
import { add_corner, delete_corner, end_shaping, least_corners, set_corner_at, shaping } from "../tools";
import { PlaceFigure } from "./place_figure";
import { is_imperial } from "./typed_fact";

export function CornersForm() {
  const now = shaping.value;
  if (now === null || now.how !== "corners") return null;
  const set = (i: number, axis: 0 | 1) => (metres: number, text: string) => set_corner_at(i, axis, metres, text);
  return (
    <>
      <p class="small">Drag a corner on the sheet, touch + to add one, or type. From left, from below:</p>
      <ol class="corners">
        {now.corners.map((corner, i) => (
          <li key={`${now.corners.length} ${i}`}>
            <span class="corner-number">{i + 1}</span>
            <PlaceFigure is_unseen label={`Corner ${i + 1} from left`} says={length_says(corner[0], is_imperial())} take={set(i, 0)} />
            <PlaceFigure is_unseen label={`Corner ${i + 1} from below`} says={length_says(corner[1], is_imperial())} take={set(i, 1)} />
            <button type="button" class="word-button figure-word" aria-label={`Add a corner after corner ${i + 1}`} disabled={!now.closed && i === now.corners.length - 1} onClick={() => add_corner(i)}>+</button>
            <button type="button" class="word-button figure-word" aria-label={`Take corner ${i + 1} away`} disabled={now.corners.length <= least_corners(now)} onClick={() => delete_corner(i)}>−</button>
          </li>
        ))}
      </ol>
      <p class="deeds"><button type="button" class="word-button strong" onClick={end_shaping}>Done</button></p>
    </>
  );
}
