// The typed twin of drawing: what it is, its sides, where it lies, from the last corner how far and where to.
import { useId, useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Thing } from "../api";
import { about, apart, leg_bearing, leg_end, plus, type Point, turned } from "../geometry";
import { clear_of_strip, strip_high, look_at, look_from, lookers, seen_from, box_of, called_plainly, key_of, words_for, change_drawing, drawing, type Drawing, finish, leave_drawing, needs_corners, set_corner, step_back_drawing, take_corner_back } from "../tools";
import { TapeForm } from "./tape_form";
import { and_back, SnapsWord, strip_is_right, StripFigure, StripWrong } from "./strip_figure";

const typed = (by: Partial<Drawing>) => change_drawing({ ...by, from: null, is_seen: true, by_keys: true, is_typed: true });

function What({ now }: { now: Drawing }) {
  const id = useId();
  const key = now.kind.what === undefined ? undefined : key_of(now.kind.table, now.kind.what);
  if (key === undefined) return null;
  const words = words_for(key);
  return (
    <label class="strip-figure strip-word">
      {called_plainly(key)}
      <input
        type="text"
        list={words.length > 0 ? id : undefined}
        value={now.what}
        autocomplete="off"
        onFocus={(event) => event.currentTarget.select()}
        aria-invalid={now.told != null}
        onInput={(event) => change_drawing({ what: event.currentTarget.value, told: null })}
      />
      {words.length > 0 && <datalist id={id}>{words.map((word) => <option key={word} value={word} />)}</datalist>}
    </label>
  );
}

/** How wide and deep: of a box, whose first corner stays where it is, or of an outline that is to be one. The fields
stay the same ones while they are typed in. */
function SizeFigures({ now }: { now: Drawing }) {
  const drawn = box_of(now);
  const [wide, deep] = drawn?.size ?? now.size;
  const lay = (size: readonly [number, number]) =>
    drawn === null && now.kind.by === "outline" ? typed({ size, is_sized: true }) : lay_box(now, first_of(now), size, now.turn_deg);
  return (
    <>
      <StripFigure label="across" is={wide} is_size take={(m) => lay([m, deep])} />
      <StripFigure label="deep" is={deep} is_size take={(m) => lay([wide, m])} />
    </>
  );
}

const first_of = (now: Drawing): Point => box_of(now)?.at ?? about(now.at, now.size, now.turn_deg);
const lay_box = (now: Drawing, at: Point, size: readonly [number, number], turn_deg: number) =>
  typed({ size, turn_deg, at: plus(at, turned([size[0] / 2, size[1] / 2], turn_deg)), ...(now.kind.by === "outline" ? { is_sized: true } : {}) });

function BoxPlace({ now }: { now: Drawing }) {
  const first = first_of(now);
  return (
    <>
      <StripFigure label="turned" is={now.turn_deg} unit="°" take={(deg) => lay_box(now, first, now.size, deg)} />
      <StripFigure label="from left" is={first[0]} take={(m) => lay_box(now, [m, first[1]], now.size, now.turn_deg)} />
      <StripFigure label="from below" is={first[1]} take={(m) => lay_box(now, [first[0], m], now.size, now.turn_deg)} />
    </>
  );
}

function PlaceFigures({ now }: { now: Drawing }) {
  return (
    <>
      <StripFigure label="from left" is={now.at[0]} take={(m) => typed({ at: [m, now.at[1]] })} />
      <StripFigure label="from below" is={now.at[1]} take={(m) => typed({ at: [now.at[0], m] })} />
    </>
  );
}

function LegFigures({ now, last }: { now: Drawing; last: Point }) {
  const long = apart(last, now.at);
  const bearing = long < 0.005 ? 90 : leg_bearing(last, now.at);
  return (
    <>
      <StripFigure label="long" is={long} is_size take={(m) => typed({ at: leg_end(last, m, bearing) })} />
      <StripFigure label="clockwise from up" is={bearing} unit="°" take={(deg) => typed({ at: leg_end(last, Math.max(long, 0.01), deg) })} />
    </>
  );
}

interface ChoiceProps {
  says: string;
  is: string | null;
  of: readonly Thing[];
  first: string;
  take: (id: string | null) => void;
}
function Choice({ says, is, of, first, take }: ChoiceProps) {
  return (
    <label class="strip-figure strip-word">
      {says}
      <select value={is ?? ""} onChange={(event) => take(event.currentTarget.value === "" ? null : event.currentTarget.value)}>
        <option value="">{first}</option>
        {of.map(({ id }) => <option key={id} value={id}>{id}</option>)}
      </select>
    </label>
  );
}

/** Who looks, and at what, by name. */
function SightWords({ now }: { now: Drawing }) {
  if (now.sight === undefined) return null;
  const { from, seen } = now.sight;
  return (
    <>
      <Choice says="who looks" is={from} of={lookers()} first="touch it, or choose" take={look_from} />
      <Choice says="at" is={seen} of={seen_from(from)} first="the place touched" take={look_at} />
    </>
  );
}

/** The program's words as a sentence. */
const plainly = (text: string) => `${text.charAt(0).toUpperCase()}${text.slice(1)}${/[.?!]$/.test(text) ? "" : "."}`;

/** What is to be done next, in a line. */
function next_says({ kind, corners }: Drawing): string {
  const it = kind.says.toLowerCase();
  if (kind.by === "box") return `Drag the ${it}, or touch where it goes`;
  if (kind.by === "sight") return corners.length === 0 ? "Touch who looks: a seat, a point, a gate" : kind.table === "hide" ? "Touch what is to be hidden" : "Touch what is looked at";
  if (kind.by === "point") return `Touch where the ${it} is`;
  if (kind.by === "pair" && corners.length === 1) return kind.second === undefined ? "Touch its other end" : "Touch where it looks";
  if (corners.length === 0) return kind.by === "outline" ? `Drag the ${it}, or touch its first corner` : kind.second === undefined ? `Touch where the ${it} begins` : `Touch where the ${it} is`;
  if (corners.length < needs_corners(kind)) return "Touch the next corner";
  return kind.by === "outline" ? "The next corner, or the first again" : "The next corner, or the last again";
}

export function DrawStrip() {
  const now = drawing.value;
  const [is_taped, tape] = useState(false);
  const form = useRef<HTMLFormElement>(null);
  const is_drawn = now !== null;
  useLayoutEffect(() => {
    const strip = form.current;
    if (strip === null) return undefined;
    const watch = new ResizeObserver(() => (strip_high.value = strip.offsetHeight));
    watch.observe(strip);
    return () => watch.disconnect();
  }, [is_drawn]);
  const was_taped = useRef(false);
  useLayoutEffect(() => {
    if (was_taped.current !== is_taped && form.current !== null) clear_of_strip(form.current.offsetHeight + 8);
    was_taped.current = is_taped;
  }, [is_taped]);
  if (now === null) return null;
  const { kind, corners } = now;
  /** A box has its first corner there, all else its next. */
  const taped = (at: Point) => {
    const is_box = kind.by === "box" || now.is_sized;
    typed({ at: is_box ? plus(at, turned([now.size[0] / 2, now.size[1] / 2], now.turn_deg)) : at });
    if (!is_box) set_corner();
  };
  const last = corners.at(-1);
  const goes_on = !now.is_sized && (kind.by === "line" || kind.by === "outline" || kind.by === "pair") && !(kind.by === "pair" && last !== undefined);
  function key(event: KeyboardEvent): void {
    if (event.key !== "Escape") return;
    event.preventDefault();
    event.stopPropagation();
    and_back(step_back_drawing);
  }
  return (
    <form
      ref={form}
      class="move-strip draw-strip"
      aria-label={`Draw: ${kind.says}`}
      onKeyDown={key}
      onSubmit={(event) => {
        event.preventDefault();
        if (!strip_is_right(event.currentTarget)) return;
        if (now.sight !== undefined && now.sight.from !== null && now.sight.seen === null && now.is_typed !== true) {
          change_drawing({ told: { message: kind.table === "hide" ? "What is to be hidden?" : "What is looked at?", hint: "Touch it on the sheet, choose it by name, or type its place." } });
          return;
        }
        change_drawing({ is_seen: true, by_keys: true });
        if (goes_on) set_corner();
        else and_back(set_corner);
      }}
    >
      <span class="strip-what" role="status">{next_says(now)}</span>
      <What now={now} />
      <SightWords now={now} />
      {now.told != null && <p class="strip-told" role="alert"><strong>{plainly(now.told.message)}</strong> {plainly(now.told.hint)}</p>}
      <StripWrong />
      {(kind.by === "box" || now.is_sized || (kind.by === "outline" && last === undefined)) && <SizeFigures now={now} />}
      {kind.by === "sight" && now.sight?.seen !== null ? null : kind.by === "box" || now.is_sized ? (
        <BoxPlace now={now} />
      ) : (
        <>
          {last !== undefined && kind.by !== "sight" && <LegFigures key={corners.length} now={now} last={last} />}
          <PlaceFigures now={now} />
        </>
      )}
      {is_taped && <TapeForm key={corners.length} near={now.at} but={null} take={taped} />}
      <span class="strip-words">
        <button type="submit" class="word-button strong">{goes_on ? "Set corner" : "Set down"}</button>
        {goes_on && corners.length >= needs_corners(kind) && <button type="button" class="word-button strong" onClick={(event) => strip_is_right(event.currentTarget.closest("form") ?? event.currentTarget) && and_back(finish)}>Done</button>}
        {corners.length > 0 && <button type="button" class="word-button" onClick={take_corner_back}>Take back</button>}
        {kind.by !== "sight" && <button type="button" class="word-button snaps-word" aria-pressed={is_taped} onClick={() => tape(!is_taped)}>By tape</button>}
        {kind.by !== "sight" && <SnapsWord />}
        <button type="button" class="word-button" onClick={() => and_back(leave_drawing)}>Leave it</button>
      </span>
    </form>
  );
}
