// What is being drawn, on the sheet: its lines so far, the cross, its measures; and what waits to come.
import { arriving, scheme, state } from "../state";
import { apart, length_says, lie_of, type Point, to_screen, type View } from "../geometry";
import { box_of, guides, drawing, type Drawing, size, sketch_of, tape_shown, view } from "../tools";
import { type Dimension, DimensionLine, figure_at } from "./dimension";

type Px = readonly [number, number];

const path_of = (points: readonly Px[], closed: boolean) =>
  points.length === 0 ? "" : `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L")}${closed ? "Z" : ""}`;

function Cross({ at: [x, y] }: { at: Px }) {
  return <path class="sketch-cross" d={`M${x - 22} ${y}H${x - 4}M${x + 4} ${y}H${x + 22}M${x} ${y - 22}V${y - 4}M${x} ${y + 4}V${y + 22}`} />;
}

/** The measure of a side, on paper beside it. */
export function Written({ of, says }: { of: Dimension; says: string }) {
  const [x, y] = figure_at(of, 7.2 * says.length);
  return (
    <g transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`}>
      <text class="sketch-says is-case" y="4.5">{says}</text>
      <text class="sketch-says" y="4.5">{says}</text>
    </g>
  );
}

/** The sides that are told: of a box two, of a line or outline the leg in the hand. */
function sides_of(now: Drawing, points: readonly Point[]): [Point, Point][] {
  const [a, b, c] = points;
  if (box_of(now) !== null) return a === undefined || b === undefined || c === undefined ? [] : [[a, b], [b, c]];
  const [from, to] = points.slice(-2);
  return from === undefined || to === undefined ? [] : [[from, to]];
}

function Shape({ now, sight }: { now: Drawing; sight: View }) {
  const { corners, closed } = sketch_of(now);
  const px = corners.map((corner) => to_screen(sight, corner));
  const is_imperial = state.value?.site.units === "imperial";
  const is_closed = closed && px.length > 2;
  const set = now.corners.map((corner) => to_screen(sight, corner));
  return (
    <g class={scheme.value === "found" ? "sketch" : "sketch is-proposed"}>
      <path class="sketch-line is-case" d={path_of(px, is_closed)} />
      <path class={`sketch-line${is_closed ? " is-closed" : ""}`} d={path_of(px, is_closed)} />
      {set.map(([x, y], i) => <circle key={i} class="sketch-corner" cx={x} cy={y} r={i === 0 && closed && set.length > 2 ? 9 : 4} />)}
      {sides_of(now, corners).map(([from, to], i) => {
        const of: Dimension = { from: to_screen(sight, from), to: to_screen(sight, to), off: -12 };
        if (apart(of.from, of.to) < 24) return null;
        return (
          <g key={i}>
            <DimensionLine of={of} />
            <Written of={of} says={length_says(apart(from, to), is_imperial)} />
          </g>
        );
      })}
    </g>
  );
}

/** Things that wait, or have just come: as they will lie. */
export function Arriving() {
  const sight = view.value;
  if (sight === null) return null;
  return (
    <g class={scheme.value === "found" ? "sketch" : "sketch is-proposed"}>
      {arriving.value.map((add, i) => {
        const { corners, closed } = lie_of(add.set ?? {});
        const px = corners.map((corner) => to_screen(sight, corner));
        if (px.length === 1) return <circle key={i} class="sketch-line" cx={px[0]?.[0]} cy={px[0]?.[1]} r="10" />;
        return <path key={i} class="sketch-line" d={path_of(px, closed)} />;
      })}
    </g>
  );
}

interface Word {
  x: number;
  y: number;
  wide: number;
}

/** Where the word of a guide stands: off one of its ends, on no other word; else nowhere. */
function word_at(from: Px, to: Px, says: string, taken: Word[]): Word | null {
  const wide = 7 * says.length;
  const { width, height } = size.peek();
  const is_upright = Math.abs(to[1] - from[1]) > Math.abs(to[0] - from[0]);
  const [low, high] = (is_upright ? from[1] < to[1] : from[0] < to[0]) ? [from, to] : [to, from];
  const places: Px[] = is_upright
    ? [[low[0] + 6, low[1] - 4], [high[0] + 6, high[1] + 16], [low[0] - 6 - wide, low[1] - 4], [high[0] - 6 - wide, high[1] + 16]]
    : [[low[0] - wide - 6, low[1] + 5], [high[0] + 6, high[1] + 5], [low[0], low[1] - 8], [low[0], low[1] + 20]];
  const is_free = ([x, y]: Px) =>
    x > 4 && y > 16 && x + wide < width - 4 && y < height - 6 && !taken.some((other) => Math.abs(other.y - y) < 19 && x < other.x + other.wide && other.x < x + wide);
  const free = places.find(is_free);
  if (free === undefined) return null;
  const word = { x: free[0], y: free[1], wide };
  taken.push(word);
  return word;
}

/** Lines of construction: what the hand is in line with, and the word for it. */
export function Guides() {
  const sight = view.value;
  if (sight === null || guides.value.length === 0) return null;
  const taken: Word[] = [];
  return (
    <g class="guides">
      {guides.value.map(({ a, b, says }, i) => {
        const [from, to] = [to_screen(sight, a), to_screen(sight, b)];
        const word = says === "" ? null : word_at(from, to, says, taken);
        return (
          <g key={i}>
            <path class="guide-case" d={path_of([from, to], false)} />
            <path class="guide" d={path_of([from, to], false)} />
            {word !== null && <text class="guide-says is-case" x={word.x} y={word.y}>{says}</text>}
            {word !== null && <text class="guide-says" x={word.x} y={word.y}>{says}</text>}
          </g>
        );
      })}
    </g>
  );
}

/** Where the tapes lead: one place, or two with their numbers. */
export function Tapes() {
  const sight = view.value;
  const shown = tape_shown.value;
  if (sight === null || shown === null) return null;
  return (
    <g>
      {shown.fits.map((fit, i) => {
        const [x, y] = to_screen(sight, fit);
        const lines = shown.from.map((from) => path_of([to_screen(sight, from), [x, y]], false)).join("");
        return (
          <g key={i}>
            <path class="guide-case" d={lines} />
            <path class="guide" d={lines} />
            <circle class="tape-fit" cx={x} cy={y} r="10" />
            <text class="tape-number" x={x} y={y + 4.5}>{shown.fits.length > 1 ? i + 1 : "×"}</text>
          </g>
        );
      })}
    </g>
  );
}

export function Sketch() {
  const now = drawing.value;
  const sight = view.value;
  if (now === null || sight === null) return null;
  return (
    <>
      <Shape now={now} sight={sight} />
      <Cross at={to_screen(sight, now.at)} />
    </>
  );
}
