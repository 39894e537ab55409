// The corners of an outline as figures.
import { useEffect, useRef } from "preact/hooks";
import { length_says, metres_in } from "../geometry";
import { saying, state } from "../state";
import { add_corner, delete_corner, end_shaping, least_corners, set_corner_at, shaping } from "../tools";

const is_imperial = () => state.value?.site.units === "imperial";

function Place({ label, metres, take }: { label: string; metres: number; take: (metres: number, text: string) => void }) {
  const input = useRef<HTMLInputElement>(null);
  const says = length_says(metres, is_imperial());
  useEffect(() => {
    if (input.current !== null && document.activeElement !== input.current) input.current.value = says;
  }, [says]);
  const is_typed = useRef(false);
  function keep(text: string): void {
    if (!is_typed.current) return;
    is_typed.current = false;
    const typed = metres_in(text, is_imperial());
    input.current?.setAttribute("aria-invalid", String(typed === null));
    if (typed === null) saying.value = "A length: 2.4, 2.4 m or 7 ft 6 in.";
    else take(typed, text.trim());
  }
  return (
    <input
      ref={input}
      type="text"
      class="number"
      aria-label={label}
      autocomplete="off"
      onFocus={(event) => event.currentTarget.select()}
      onInput={() => (is_typed.current = true)}
      onBlur={(event) => keep(event.currentTarget.value)}
      onKeyDown={(event) => event.key === "Enter" && keep(event.currentTarget.value)}
    />
  );
}

export function CornersForm() {
  const now = shaping.value;
  if (now === null || now.how !== "corners") return null;
  const set = (i: number, axis: 0 | 1) => (metres: number, text: string) => set_corner_at(i, axis, metres, text);
  return (
    <>
      <p class="small">Drag a corner on the sheet, touch + to add one, or type. From left, from below:</p>
      <ol class="corners">
        {now.corners.map((corner, i) => (
          <li key={i}>
            <span class="corner-number">{i + 1}</span>
            <Place label={`Corner ${i + 1} from left`} metres={corner[0]} take={set(i, 0)} />
            <Place label={`Corner ${i + 1} from below`} metres={corner[1]} take={set(i, 1)} />
            <button type="button" class="word-button figure-word" aria-label={`Add a corner after corner ${i + 1}`} disabled={!now.closed && i === now.corners.length - 1} onClick={() => add_corner(i)}>+</button>
            <button type="button" class="word-button figure-word" aria-label={`Take corner ${i + 1} away`} disabled={now.corners.length <= least_corners(now)} onClick={() => delete_corner(i)}>−</button>
          </li>
        ))}
      </ol>
      <p class="deeds"><button type="button" class="word-button strong" onClick={end_shaping}>Done</button></p>
    </>
  );
}
