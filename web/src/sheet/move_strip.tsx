// The typed twin of the grip: how far to the right, how far up the page.
import { leave_it, move_to, moving, set_down } from "../tools";
import { and_back, SnapsWord, strip_is_right, StripFigure, StripWrong } from "./strip_figure";

function Figure({ axis, label }: { axis: 0 | 1; label: string }) {
  function take(metres: number): void {
    const now = moving.peek();
    if (now !== null) move_to(axis === 0 ? [metres, now.by_m[1]] : [now.by_m[0], metres]);
  }
  return <StripFigure label={label} is={moving.value?.by_m[axis] ?? 0} take={take} />;
}

export function MoveStrip() {
  const hand = moving.value;
  if (hand === null || hand.how === "grip") return null;
  const what = hand.how === "place" ? `Touch where ${hand.thing} is to stand, or type:` : `Moving ${hand.thing}: arrows, or type:`;
  function key(event: KeyboardEvent): void {
    if (event.key !== "Escape") return;
    event.preventDefault();
    event.stopPropagation();
    and_back(leave_it);
  }
  return (
    <form
      class="move-strip"
      aria-label={`Move ${hand.thing}`}
      onKeyDown={key}
      onSubmit={(event) => {
        event.preventDefault();
        if (strip_is_right(event.currentTarget)) and_back(set_down);
      }}
    >
      <span class="strip-what">{what}</span>
      <Figure axis={0} label="right" />
      <Figure axis={1} label="up" />
      <button type="submit" class="word-button strong">Set down</button>
      <SnapsWord />
      <StripWrong />
      <button type="button" class="word-button" onClick={() => and_back(leave_it)}>Leave it</button>
    </form>
  );
}
