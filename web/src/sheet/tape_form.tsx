// By tape: a place from two points, or squared off two lines, as it was measured in the garden.
import { useEffect, useId, useMemo, useRef, useState } from "preact/hooks";
import { apart, by_offsets, by_ties, comma_hint, foot_distance, length_says, metres_in, type Point } from "../geometry";
import { saying, state } from "../state";
import { tape_lines, tape_points, tape_shown } from "../tools";

interface TapeProps {
  near: Point; // where it stands so far
  but: string | null; // the thing itself
  take: (at: Point) => void;
}

type From = "lines" | "points";
interface Leg {
  of: string;
  text: string;
}
const empty: readonly [Leg, Leg] = [{ of: "", text: "" }, { of: "", text: "" }];

const is_imperial = () => state.value?.site.units === "imperial";
const says_m = (metres: number) => length_says(metres, is_imperial());

interface Found {
  fits: Point[];
  from: Point[];
  told: string;
}
const nothing: Found = { fits: [], from: [], told: "" };

function use_found(from: From, legs: readonly [Leg, Leg], near: Point, but: string | null): Found {
  const lines = useMemo(() => new Map(tape_lines(near, but).map((line) => [line.name, line])), [but]);
  const points = useMemo(() => new Map(tape_points(near, but).map((point) => [point.name, point])), [but]);
  const [one, other] = legs;
  const [m, n] = [metres_in(one.text, is_imperial()), metres_in(other.text, is_imperial())];
  const hint = legs.map(({ text }) => (text.trim() === "" || metres_in(text, is_imperial()) !== null ? null : (comma_hint(text) ?? "A length: 2.4, 2.4 m or 7 ft 6 in."))).find((it) => it !== null);
  if (hint != null) return { ...nothing, told: hint };
  if (one.of === "" || other.of === "" || m === null || n === null) return nothing;
  if (one.of === other.of) return { ...nothing, told: `Two different ${from}, please.` };
  if (m < 0 || n < 0) return { ...nothing, told: "A tape is never shorter than nothing." };
  if (from === "points") {
    const [a, b] = [points.get(one.of), points.get(other.of)];
    if (a === undefined || b === undefined) return nothing;
    const { fits, short_m } = by_ties(a.at, m, b.at, n);
    const told = short_m === 0 ? "" : m + n < apart(a.at, b.at) ? `The tapes are ${says_m(short_m)} too short to meet.` : `The tapes do not meet: one is ${says_m(short_m)} too long.`;
    return { fits: fits.sort((p, q) => apart(p, near) - apart(q, near)), from: [a.at, b.at], told };
  }
  const [a, b] = [lines.get(one.of), lines.get(other.of)];
  if (a === undefined || b === undefined) return nothing;
  const fits = by_offsets(a, m, b, n, near).slice(0, 2);
  return { fits, from: [], told: fits.length === 0 ? "These lines run alike: take one that crosses the other." : "" };
}

function LegRow({ i, leg, names, away, set, enter }: { i: number; leg: Leg; names: readonly string[]; away: string; set: (leg: Leg) => void; enter: () => void }) {
  const id = useId();
  const metres = metres_in(leg.text, is_imperial());
  const is_wrong = leg.text.trim() !== "" && (metres === null || metres < 0);
  return (
    <div class="tape-leg">
      <select aria-label={`Tape ${i + 1} from`} value={leg.of} onChange={(event) => set({ ...leg, of: event.currentTarget.value })}>
        <option value="">from …</option>
        {names.map((name) => <option key={name} value={name}>{name}</option>)}
      </select>
      <input
        id={id}
        type="text"
        class="number"
        aria-label={`Tape ${i + 1} reads`}
        placeholder={away}
        autocomplete="off"
        aria-invalid={is_wrong}
        value={leg.text}
        onInput={(event) => set({ ...leg, text: event.currentTarget.value })}
        onKeyDown={(event) => {
          if (event.key !== "Enter") return;
          event.preventDefault();
          enter();
        }}
      />
    </div>
  );
}

export function TapeForm({ near, but, take }: TapeProps) {
  const [from, set_from] = useState<From>("lines");
  const [legs, set_legs] = useState(empty);
  const places = useRef<HTMLParagraphElement>(null);
  const found = use_found(from, legs, near, but);
  const names = useMemo(() => (from === "lines" ? tape_lines(near, but) : tape_points(near, but)).map(({ name }) => name), [from, but]);
  const aways = useMemo(() => new Map(from === "lines" ? tape_lines(near, but).map((line) => [line.name, foot_distance(near, line)]) : tape_points(near, but).map(({ name, at }) => [name, apart(near, at)])), [from, but, near[0], near[1]]);
  const key = JSON.stringify([found.fits, found.from]);
  useEffect(() => {
    tape_shown.value = found.fits.length === 0 ? null : { fits: found.fits, from: found.from };
    if (found.fits.length > 0) places.current?.scrollIntoView({ block: "nearest" });
  }, [key]);
  useEffect(() => () => void (tape_shown.value = null), []);
  function begin(with_: From): void {
    set_from(with_);
    set_legs(empty);
  }
  const set = (i: 0 | 1) => (leg: Leg) => set_legs(i === 0 ? [leg, legs[1]] : [legs[0], leg]);
  const far_says = (of: string) => {
    const away = aways.get(of);
    return away === undefined ? "" : says_m(away);
  };
  function taken(at: Point): void {
    take(at);
    saying.value = `Set by tape, ${says_m(at[0])} from left, ${says_m(at[1])} from below.`;
  }
  const enter = () => found.fits[0] !== undefined && taken(found.fits[0]);
  return (
    <div class="tape" role="group" aria-label="By tape">
      <p class="tape-from">
        <button type="button" class="word-button scheme-word" aria-pressed={from === "lines"} onClick={() => begin("lines")}>Off two lines</button>
        <button type="button" class="word-button scheme-word" aria-pressed={from === "points"} onClick={() => begin("points")}>From two points</button>
      </p>
      <LegRow i={0} leg={legs[0]} names={names} away={far_says(legs[0].of)} set={set(0)} enter={enter} />
      <LegRow i={1} leg={legs[1]} names={names} away={far_says(legs[1].of)} set={set(1)} enter={enter} />
      {found.told !== "" && <p class="told" role="alert">{found.told}</p>}
      <p class="tape-fits" aria-live="polite" ref={places}>
        {found.fits.map((at, i) => (
          <button
            key={i}
            type="button"
            class="word-button strong"
            onClick={() => taken(at)}
          >
            {found.fits.length === 1 ? "There" : `At ${i + 1}${i === 0 ? ", the nearer" : ""}`}
          </button>
        ))}
      </p>
    </div>
  );
}
