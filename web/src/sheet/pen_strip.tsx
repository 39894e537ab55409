// What the pen does, over the sheet, and how it is put down.
import { drawing, moving, pen, put_pen_down } from "../tools";
import { and_back } from "./strip_figure";

export function PenStrip() {
  const now = pen.value;
  if (now === null || drawing.value !== null || moving.value !== null) return null;
  return (
    <div class="move-strip pen-strip" role="group" aria-label="On the sheet">
      <span class="strip-what" role="status">{now.says}</span>
      <span class="strip-words">
        {now.done !== undefined && <button type="button" class="word-button strong" onClick={() => and_back(now.done?.act ?? (() => {}))}>{now.done.word}</button>}
        <button type="button" class="word-button" onClick={() => and_back(() => put_pen_down())}>Leave it</button>
      </span>
    </div>
  );
}
