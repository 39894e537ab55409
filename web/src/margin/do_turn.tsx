// A thing turned by so many degrees, or along a line nearby.
import { useState } from "preact/hooks";
import type { Thing } from "../api";
import { bearing_of, centre, type Point, quarter, tidy_figure } from "../geometry";
import { end_shaping, tape_lines, turn_by } from "../tools";
import { ChoiceField } from "./length_field";
import { RefusalLine } from "./place_figure";

export function TurnForm({ thing }: { thing: Thing }) {
  const [text, set_text] = useState("");
  const [is_wrong, set_is_wrong] = useState(false);
  const lines = tape_lines(centre(thing), thing.id);
  function send(event: Event): void {
    event.preventDefault();
    const plain = tidy_figure(text)?.replace(/\s*(°|deg)$/, "") ?? "";
    if (!/^[-+]?\d+(\.\d*)?$/.test(plain)) {
      set_is_wrong(true);
      return;
    }
    set_is_wrong(false);
    void turn_by(thing.id, () => Number(plain));
    set_text("");
  }
  /** As little as is needed for its sides to run along the line or square to it. */
  function along(name: string): void {
    const line = lines.find((one) => one.name === name);
    if (line === undefined) return;
    void turn_by(thing.id, ({ corners }) => {
      const [a, b] = corners as unknown as Point[];
      const side = a === undefined || b === undefined ? 0 : bearing_of(a, b);
      return quarter(bearing_of(line.a, line.b) - side);
    });
  }
  return (
    <form class="do-form" onSubmit={send}>
      <p class="small">Drag the round grip on the sheet, or:</p>
      <p class="tape-corner">
        <label for="turn-deg">degrees, anticlockwise</label>
        <input id="turn-deg" type="text" class="number form-length" autocomplete="off" value={text} aria-invalid={is_wrong} onInput={(event) => { set_text(event.currentTarget.value); set_is_wrong(false); }} />
      </p>
      {is_wrong && <RefusalLine told={{ message: "That is no direction.", hint: "Degrees, such as 15 or -15." }} />}
      <ChoiceField label="its sides along" value="" words={[["", "a line nearby …"], ...lines.map(({ name }) => [name, name] as const)]} set={along} />
      <p class="deeds">
        <button type="submit" class="word-button strong">Turn it</button>
        <button type="button" class="word-button" onClick={() => void turn_by(thing.id, () => 90)}>A quarter</button>
        <button type="button" class="word-button" onClick={end_shaping}>Done</button>
      </p>
    </form>
  );
}
