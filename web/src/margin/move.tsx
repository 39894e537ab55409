// Where a thing stands, typed: along the page and up it, and from where it stands.
import { useEffect, useRef, useState } from "preact/hooks";
import type { Thing } from "../api";
import { comma_hint, length_says, metres_in } from "../geometry";
import { act, link, offset_since, saying, state } from "../state";
import { PlaceGuess } from "./guess";
import { PlaceFigure, type Refusal, RefusalLine } from "./place_figure";
import { type Measure, measure_says, measures, type_measure } from "../tools";

type Pair = [number, number];

/** Its `at`, else its first corner, where it stands now. */
function stands_at(thing: Thing): Pair | null {
  const at = thing.fields["at"]?.value;
  const first = Array.isArray(at) && at.every((one) => typeof one === "number") ? at : thing.corners[0];
  if (first === undefined) return null;
  const [dx, dy] = offset_since(thing.id, state.value?.head.change ?? 0);
  return [(first[0] as number) + dx, (first[1] as number) + dy];
}

/** A figure of its place as it was typed, in feet as it is taped. */
function at_says(thing: Thing, axis: 0 | 1, metres: number, imperial: boolean): string {
  const [typed, value] = [thing.fields["at"]?.parts, thing.fields["at"]?.value];
  const stands = Array.isArray(value) && Math.abs(Number(value[axis]) - metres) < 1e-6;
  const text: unknown = stands && Array.isArray(typed) ? typed[axis] : null;
  if (typeof text === "string") return text;
  return imperial ? length_says(metres, true) : `${Number(metres.toFixed(4))} m`;
}

function MoveBy({ thing }: { thing: Thing }) {
  const form = useRef<HTMLFormElement>(null);
  const [told, set_told] = useState<Refusal | null>(null);
  function send(event: Event): void {
    event.preventDefault();
    const imperial = state.value?.site.units === "imperial";
    const texts = [...(form.current?.querySelectorAll("input") ?? [])].map((input) => input.value.trim());
    const [right, up] = texts.map((text) => (text === "" ? 0 : metres_in(text, imperial)));
    if (right === null || right === undefined || up === null || up === undefined) {
      set_told({ message: "Those are no lengths.", hint: texts.map(comma_hint).find((hint) => hint !== null) ?? "Such as 0.4, -0.4 or 1 ft 6 in." });
      return;
    }
    set_told(null);
    if (right === 0 && up === 0) return;
    void act.move_typed(thing.id, [right, up]).then((no) => {
      set_told(no);
      if (no !== null) return;
      saying.value = `${thing.id} moved ${length_says(right, imperial)} right, ${length_says(up, imperial)} up.`;
      form.current?.reset();
    });
  }
  return (
    <form class="place-row" ref={form} onSubmit={send}>
      <span class="place-says">from where it stands</span>
      <label class="place-figure"><span>right</span><input type="text" class="number" autocomplete="off" placeholder="0" /></label>
      <label class="place-figure"><span>up</span><input type="text" class="number" autocomplete="off" placeholder="0" /></label>
      <button type="submit" class="word-button">Move</button>
      {told !== null && <RefusalLine told={told} />}
    </form>
  );
}

/** How far it stands from the lines about it, and of what has sides, how long they are. */
function MeasureRow({ measure }: { measure: Measure }) {
  const [told, set_told] = useState<{ message: string; hint: string } | null>(null);
  const says = measure_says(measure.metres);
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (input.current !== null && document.activeElement !== input.current) input.current.value = says;
  }, [says]);
  const is_typed = useRef(false);
  function keep(text: string): void {
    if (is_typed.current) void type_measure(measure, text).then(set_told);
    else if (input.current !== null) input.current.value = says;
    is_typed.current = false;
  }
  return (
    <li class="fact">
      <label class="measure-row">
        <span class="fact-words">{measure.name}</span>
        <input
          ref={input}
          type="text"
          class="number"
          data-about={measure.name.replace(/^from (the )?/, "")}
          autocomplete="off"
          aria-invalid={told !== null}
          readOnly={link.value === "read_only"}
          onFocus={(event) => event.currentTarget.select()}
          onInput={() => (is_typed.current = true)}
          onBlur={(event) => keep(event.currentTarget.value)}
          onKeyDown={(event) => {
            if (event.key === "Enter") keep(event.currentTarget.value);
            if (event.key !== "Escape") return;
            is_typed.current = false;
            event.currentTarget.value = says;
          }}
        />
      </label>
      {told !== null && <p class="told" role="alert"><strong>{told.message}</strong> {told.hint}</p>}
    </li>
  );
}

/** Sides have no other field; widths and heights are among the facts. */
export function MeasureRows() {
  const rows = measures.value.filter(({ is_gap, name }) => is_gap || /^(side|leg|long|far)/.test(name));
  return rows.length === 0 ? null : <ul class="facts">{rows.map((measure) => <MeasureRow key={measure.name} measure={measure} />)}</ul>;
}

export function Move({ thing }: { thing: Thing }) {
  const at = stands_at(thing);
  // The one figure may be kept while the other is typed: it is not taken back by that.
  const on_their_way = useRef<(string | undefined)[]>([]);
  useEffect(() => {
    const now = thing.fields["at"]?.parts;
    if (Array.isArray(now)) on_their_way.current = on_their_way.current.map((text, i) => (text === String(now[i]) ? undefined : text));
  }, [thing]);
  if (at === null || thing.mark === "removed") return null;
  const imperial = state.value?.site.units === "imperial";
  const typed = thing.fields["at"]?.parts;
  const to = (axis: 0 | 1) => (metres: number, text: string) => {
    const by = Number((metres - (at[axis] ?? 0)).toFixed(4));
    // While nobody answers it goes as a move, which the sheet can show by itself.
    if (!Array.isArray(typed) || link.value === "gone") return Math.abs(by) < 0.0005 ? undefined : moved(act.move_typed(thing.id, axis === 0 ? [by, 0] : [0, by]));
    on_their_way.current[axis] = text;
    const place = typed.map((one: unknown, i) => on_their_way.current[i] ?? one);
    return moved(act.set(thing.id, { at: place }));
  };
  async function moved(edit: Promise<Refusal | null>): Promise<Refusal | null> {
    const told = await edit;
    if (told === null) saying.value = `${thing.id} moved.`;
    else on_their_way.current = [];
    return told;
  }
  return (
    <div class="part">
      <h3>Where it stands {thing.corners.length > 1 && thing.fields["at"] === undefined && <span class="head-unit">its first corner</span>}</h3>
      <MeasureRows />
      <div class="place-row">
        <span class="place-says">on the page</span>
        <PlaceFigure label="along" says={at_says(thing, 0, at[0], imperial)} take={to(0)} />
        <PlaceFigure label="up" says={at_says(thing, 1, at[1], imperial)} take={to(1)} />
      </div>
      {link.value !== "read_only" && <MoveBy thing={thing} />}
      <PlaceGuess thing={thing} />
    </div>
  );
}
