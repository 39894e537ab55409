// A dimension as drawn by hand: witness lines, the line off the thing, an oblique tick at each end.
import { apart } from "../geometry";

type Px = readonly [number, number];

export interface Dimension {
  from: Px;
  to: Px;
  off: number; // to the left of the way from one to the other, pixels
}

const gap = 4; // between a thing and its witness line
const past = 4; // witness lines go past the dimension
const tick = 5;

/** Its line's ends. */
export function ends_of({ from, to, off }: Dimension): readonly [Px, Px] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const long = Math.hypot(dx, dy) || 1;
  const [nx, ny] = [(dy / long) * off, (-dx / long) * off];
  return [[from[0] + nx, from[1] + ny], [to[0] + nx, to[1] + ny]];
}

export function middle_of(dimension: Dimension): Px {
  const [a, b] = ends_of(dimension);
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
}

/** Where its figure stands: outside its line, clear of it, the figure being so wide. */
export function figure_at(dimension: Dimension, wide: number): Px {
  const { from, to, off } = dimension;
  const [x, y] = middle_of(dimension);
  const long = apart(from, to) || 1;
  const side = Math.sign(off);
  const [nx, ny] = [((to[1] - from[1]) / long) * side, (-(to[0] - from[0]) / long) * side];
  return [x + nx * (wide / 2 + 5), y + ny * 13];
}

const at = (x: number, y: number) => `${x.toFixed(1)} ${y.toFixed(1)}`;

export function DimensionLine({ of, name = "dimension" }: { of: Dimension; name?: string }) {
  const [a, b] = ends_of(of);
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const long = Math.hypot(dx, dy);
  if (long < 2) return null;
  const [ux, uy] = [dx / long, dy / long];
  const side = Math.sign(of.off);
  const [nx, ny] = [uy * side, -ux * side];
  const oblique: Px = [((ux + uy) / Math.SQRT2) * tick, ((uy - ux) / Math.SQRT2) * tick];
  const witness = (from: Px, to: Px) =>
    Math.abs(of.off) < gap + past ? "" : `M${at(from[0] + nx * gap, from[1] + ny * gap)}L${at(to[0] + nx * past, to[1] + ny * past)}`;
  const mark = ([x, y]: Px) => `M${at(x - oblique[0], y - oblique[1])}L${at(x + oblique[0], y + oblique[1])}`;
  return (
    <>
      <path class={`${name}-fine`} d={`${witness(of.from, a)}${witness(of.to, b)}M${at(...a)}L${at(...b)}`} />
      <path class={`${name}-tick`} d={`${mark(a)}${mark(b)}`} />
    </>
  );
}
