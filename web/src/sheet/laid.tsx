// What lies on the sheet while it is measured: the plot of typed sides, where water runs, where north
// is, where a shadow ends.
import { apart, type Point, to_screen, type View } from "../geometry";
import { state } from "../state";
import { arrow, covered, cross, north_tried, rose_at, shadow_ends, size, type Sketch, sketch, view } from "../tools";

type Px = readonly [number, number];
const to_px = (sight: View, points: readonly Point[]): Px[] => points.map((point) => to_screen(sight, point));
const path_of = (points: readonly Px[], closed: boolean) =>
  points.length < 2 ? "" : `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L")}${closed ? "Z" : ""}`;

function Says({ at: [x, y], says, size: name = "" }: { at: Px; says: string; size?: string }) {
  return (
    <g transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`}>
      <text class={`sketch-says is-case ${name}`} y="4.5">{says}</text>
      <text class={`sketch-says ${name}`} y="4.5">{says}</text>
    </g>
  );
}

/** Outside a side, off its middle. */
function beside([ax, ay]: Px, [bx, by]: Px, middle: Px, says: string): Px {
  const long = Math.hypot(bx - ax, by - ay) || 1;
  const [nx, ny] = [-(by - ay) / long, (bx - ax) / long];
  const off = 15 + 3.8 * says.length * Math.abs(nx); // upright ones want half the words' length
  const [mx, my] = [(ax + bx) / 2, (ay + by) / 2];
  const away = (mx - middle[0]) * nx + (my - middle[1]) * ny < 0 ? -off : off;
  return [mx + nx * away, my + ny * away];
}

function Plot({ of, sight }: { of: Sketch; sight: View }) {
  const px = to_px(sight, of.points);
  const count = px.length;
  const middle: Px = [px.reduce((sum, [x]) => sum + x, 0) / count, px.reduce((sum, [, y]) => sum + y, 0) / count];
  const [from, to] = of.diagonal === null ? [] : [px[of.diagonal[0]], px[of.diagonal[1]]];
  return (
    <g class={of.is_sure ? "laid" : "laid is-guess"}>
      <path class="sketch-line is-case" d={path_of(px, of.closed)} />
      <path class="sketch-line" d={path_of(px, of.closed)} />
      {from !== undefined && to !== undefined && <path class="laid-diagonal" d={path_of([from, to], false)} />}
      {px.map(([x, y], i) => <circle key={i} class="sketch-corner" cx={x} cy={y} r="3.5" />)}
      {of.names.map((name, i) => {
        const at = px[i];
        if (at === undefined || name === "") return null;
        const away = Math.hypot(at[0] - middle[0], at[1] - middle[1]) || 1;
        return <Says key={i} at={[at[0] + (15 * (at[0] - middle[0])) / away, at[1] + (15 * (at[1] - middle[1])) / away]} says={name} size="laid-name" />;
      })}
      {of.sides.map((side, i) => {
        const [a, b] = [px[i], px[(i + 1) % count]];
        if (a === undefined || b === undefined || side === "" || (i === count - 1 && !of.closed) || apart(a, b) < 40) return null;
        return <Says key={i} at={beside(a, b, middle, side)} says={side} />;
      })}
    </g>
  );
}

/** Where water runs: a long arrow down the plan. */
function Runs({ sight }: { sight: View }) {
  const now = arrow.value;
  if (now === null) return null;
  const [from, to] = [to_screen(sight, now.from), to_screen(sight, now.to)];
  const long = apart(from, to);
  if (long < 4) return null;
  const turn = (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;
  const middle: Px = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const shaft = `M0 0H${long.toFixed(1)}M${(long - 16).toFixed(1)} -8L${long.toFixed(1)} 0L${(long - 16).toFixed(1)} 8`;
  return (
    <g class="laid">
      <g transform={`translate(${from[0].toFixed(1)} ${from[1].toFixed(1)}) rotate(${turn.toFixed(1)})`}>
        <path class="sketch-line is-case" d={shaft} />
        <path class="sketch-line" d={shaft} />
      </g>
      {now.says !== "" && <Says at={[middle[0], middle[1] - 14]} says={now.says} />}
    </g>
  );
}

/** A rose in the midst of the sheet whose needle is turned to where north lies. */
function Rose() {
  const turn = north_tried.value;
  const { width, height } = size.value;
  const sight = view.value;
  if (turn === null || sight === null) return null;
  const [cx, cy] = to_screen(sight, rose_at());
  const room = height - covered.value - (covered.value > 0 ? 90 : 0); // its strip lies there too
  const r = Math.max(56, Math.min(150, Math.min(width, room) / 2 - (covered.value > 0 ? 12 : 60)));
  const marks = Array.from({ length: 24 }, (_, i) => i * 15);
  return (
    <g class="laid rose" transform={`translate(${cx.toFixed(1)} ${cy.toFixed(1)})`}>
      <circle r={r} class="rose-ring is-case" />
      <circle r={r} class="rose-ring" />
      {marks.map((at) => <path key={at} class="rose-mark" transform={`rotate(${at})`} d={`M0 ${-r}V${-r + (at % 45 === 0 ? 9 : 5)}`} />)}
      <g transform={`rotate(${turn})`}>
        <path class="sketch-line is-case" d={`M0 ${r * 0.55}V${-r + 14}`} />
        <path class="sketch-line" d={`M0 ${r * 0.55}V${-r + 14}`} />
        <path class="rose-head" d={`M0 ${-r + 2}L-9 ${-r + 26}L0 ${-r + 20}L9 ${-r + 26}Z`} />
        <g transform={`translate(0 ${-r - 16}) rotate(${-turn})`}>
          <Says at={[0, 0]} says="N" size="laid-name" />
        </g>
      </g>
    </g>
  );
}

function KeyCross({ sight }: { sight: View }) {
  const at = cross.value;
  if (at === null) return null;
  const [x, y] = to_screen(sight, at);
  return <path class="sketch-cross" d={`M${x - 22} ${y}H${x - 4}M${x + 4} ${y}H${x + 22}M${x} ${y - 22}V${y - 4}M${x} ${y + 4}V${y + 22}`} />;
}

/** Shadows as they would lie, each with a handle at its end. */
function Shadows({ sight }: { sight: View }) {
  return (
    <>
      {shadow_ends.value.map((one) => {
        const [foot, tip, end] = to_px(sight, [one.foot, one.tip, one.moved ?? one.tip]) as [Px, Px, Px];
        return (
          <g key={`${one.foot}`} class="laid">
            {one.moved !== null && <path class="laid-diagonal" d={path_of([foot, tip], false)} />}
            <path class="shadow-line is-case" d={path_of([foot, end], false)} />
            <path class="shadow-line" d={path_of([foot, end], false)} />
            <circle class="shadow-end" cx={end[0]} cy={end[1]} r="13" />
            <path class="sketch-line" d={`M${end[0] - 6} ${end[1]}H${end[0] + 6}M${end[0]} ${end[1] - 6}V${end[1] + 6}`} />
          </g>
        );
      })}
    </>
  );
}

export function Laid() {
  const sight = view.value;
  if (sight === null || state.value === null) return null;
  const of = sketch.value;
  return (
    <>
      {of !== null && of.points.length > 0 && <Plot of={of} sight={sight} />}
      <Runs sight={sight} />
      <Shadows sight={sight} />
      <KeyCross sight={sight} />
      <Rose />
    </>
  );
}
