// What a hand means that is nearly there: in line with an edge or a middle, gaps alike, midway, along
// or square to a line. Each find has its construction line and a word.
import { dot, minus, plus, times, turned, apart } from "./sketch";
import type { Point } from "./view";

export interface Reference {
  name: string;
  corners: readonly Point[];
  closed: boolean;
}

/** A construction line with its word. */
export interface Guide {
  a: Point;
  b: Point;
  says: string;
}

export interface Snapped {
  by: Point; // what is to be added
  guides: Guide[];
}

/** What else leads a shape, from where it is: along a way, or any way when that is null; all a zero way
asks is whether it is there already. */
export type Further = (corners: readonly Point[], way: Point | null, tol: number) => { by: Point; guide: Guide } | null;

type Axis = 0 | 1;

/** Extents of a reference in the frame: along both axes low, middle, high. */
interface Extent {
  name: string;
  low: Point;
  high: Point;
}

interface Mark {
  value: number;
  of: Extent;
  is_middle: boolean;
}

const nothing: Snapped = { by: [0, 0], guides: [] };

function extent_in(name: string, corners: readonly Point[], frame_deg: number): Extent {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const corner of corners) {
    const [x, y] = turned(corner, -frame_deg);
    [x0, y0, x1, y1] = [Math.min(x0, x), Math.min(y0, y), Math.max(x1, x), Math.max(y1, y)];
  }
  return { name, low: [x0, y0], high: [x1, y1] };
}

const middle = ({ low, high }: Extent, axis: Axis) => (low[axis] + high[axis]) / 2;
const on = (axis: Axis, value: number, other: number): Point => (axis === 0 ? [value, other] : [other, value]);

/** The first of a sorted list that is not below a value. */
function first_from(marks: readonly Mark[], value: number): number {
  let [from, to] = [0, marks.length];
  while (from < to) {
    const half = (from + to) >> 1;
    if ((marks[half] as Mark).value < value) from = half + 1;
    else to = half;
  }
  return from;
}

interface Find {
  by: number;
  cost: number;
  guides: (moved: Extent) => Guide[];
}

/** The turn of a direction within a quarter, −45 to 45. */
export function quarter(degrees: number): number {
  return degrees - 90 * Math.round(degrees / 90);
}

export function bearing_of(a: Point, b: Point): number {
  return (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
}

/** The way in which most of the lines lie, by their lengths: within a quarter. */
export function main_turn(all: Iterable<Reference>): number {
  const bins = new Map<number, number>();
  let best = { bin: 0, weight: 0 };
  for (const { corners, closed } of all) {
    for (let i = 0; i + (closed ? 0 : 1) < corners.length; ++i) {
      const [a, b] = [corners[i] as Point, corners[(i + 1) % corners.length] as Point];
      const bin = Math.round(quarter(bearing_of(a, b)) * 2) / 2;
      const weight = (bins.get(bin) ?? 0) + apart(a, b);
      bins.set(bin, weight);
      if (weight > best.weight) best = { bin, weight };
    }
  }
  return best.bin;
}

export class Snaps {
  private readonly extents: Extent[];
  private readonly marks: readonly [Mark[], Mark[]];
  private readonly ways: { deg: number; name: string; a: Point; b: Point }[] = [];

  /** `frame_deg`: how its axes are turned against the page's. */
  constructor(references: readonly Reference[], private readonly frame_deg: number) {
    this.extents = references.filter(({ corners }) => corners.length > 0).map(({ name, corners }) => extent_in(name, corners, frame_deg));
    const marks_of = (axis: Axis) =>
      this.extents
        .flatMap((of): Mark[] => [
          ...(of.high[axis] - of.low[axis] < 1e-6 ? [] : [{ value: of.low[axis], of, is_middle: false }, { value: of.high[axis], of, is_middle: false }]),
          { value: middle(of, axis), of, is_middle: true },
        ])
        .sort((a, b) => a.value - b.value);
    this.marks = [marks_of(0), marks_of(1)];
    for (const { name, corners, closed } of references)
      for (let i = 0; i + (closed ? 0 : 1) < corners.length; ++i) {
        const [a, b] = [corners[i] as Point, corners[(i + 1) % corners.length] as Point];
        if (apart(a, b) > 0.3) this.ways.push({ deg: bearing_of(a, b), name, a, b });
      }
  }

  private out = (p: Point): Point => turned(p, this.frame_deg);

  /** In line with an edge or a middle of something. */
  private in_line(mine: Extent, axis: Axis, tol: number): Find | null {
    const other: Axis = axis === 0 ? 1 : 0;
    const is_thin = mine.high[axis] - mine.low[axis] < 1e-6;
    const own = is_thin ? [{ value: mine.low[axis], is_middle: true }] : [
      { value: mine.low[axis], is_middle: false },
      { value: mine.high[axis], is_middle: false },
      { value: middle(mine, axis), is_middle: true },
    ];
    let best: Find | null = null;
    for (const one of own) {
      const marks = this.marks[axis];
      for (let i = first_from(marks, one.value - tol); i < marks.length; ++i) {
        const mark = marks[i] as Mark;
        if (mark.value > one.value + tol) break;
        if (!is_thin && mark.of.high[axis] - mark.of.low[axis] > 1e-6 && mark.is_middle !== one.is_middle) continue;
        const by = mark.value - one.value;
        const away = Math.max(0, mark.of.low[other] - mine.high[other], mine.low[other] - mark.of.high[other]);
        const cost = Math.abs(by) / tol + away / 12;
        if (best === null || cost < best.cost) best = { by, cost, guides: (moved) => [this.line_of(mark, moved, axis)] };
      }
    }
    return best;
  }

  private line_of(mark: Mark, moved: Extent, axis: Axis): Guide {
    const other: Axis = axis === 0 ? 1 : 0;
    const past = 0.3;
    const [from, to] = [Math.min(mark.of.low[other], moved.low[other]) - past, Math.max(mark.of.high[other], moved.high[other]) + past];
    const is_thin = mark.of.high[axis] - mark.of.low[axis] < 1e-6;
    const says = mark.is_middle && !is_thin ? `mid-line of ${mark.of.name}` : `in line with ${mark.of.name}`;
    return { a: this.out(on(axis, mark.value, from)), b: this.out(on(axis, mark.value, to)), says };
  }

  /** Between two, with the same gap on both sides; or beside one, with the gap that is before it. */
  private gaps_alike(mine: Extent, axis: Axis, tol: number): Find | null {
    const other: Axis = axis === 0 ? 1 : 0;
    const beside = (of: Extent, with_: Extent) => of.low[other] < with_.high[other] - 0.01 && of.high[other] > with_.low[other] + 0.01;
    const before = (of: Extent): Extent | null => this.nearest(of, axis, -1, (one) => beside(one, of));
    const after = (of: Extent): Extent | null => this.nearest(of, axis, 1, (one) => beside(one, of));
    if (mine.high[axis] - mine.low[axis] < 0.05) return null;
    const [low, high] = [before(mine), after(mine)];
    const finds: Find[] = [];
    const add = (by: number, guides: (moved: Extent) => Guide[]) => {
      if (Math.abs(by) <= tol) finds.push({ by, cost: Math.abs(by) / tol - 0.15, guides });
    };
    const across = (a: Extent, b: Extent, says: string): Guide => {
      const v = (Math.max(a.low[other], b.low[other]) + Math.min(a.high[other], b.high[other])) / 2;
      return { a: this.out(on(axis, a.high[axis], v)), b: this.out(on(axis, b.low[axis], v)), says };
    };
    if (low !== null && high !== null) {
      const by = (high.low[axis] + low.high[axis] - mine.low[axis] - mine.high[axis]) / 2;
      add(by, (moved) => [across(low, moved, `midway between ${low.name} and ${high.name}`), across(moved, high, "")]);
    }
    const low_2 = low === null ? null : before(low);
    if (low !== null && low_2 !== null) {
      const gap = low.low[axis] - low_2.high[axis];
      add(low.high[axis] + gap - mine.low[axis], (moved) => [across(low_2, low, ""), across(low, moved, "gaps alike")]);
    }
    const high_2 = high === null ? null : after(high);
    if (high !== null && high_2 !== null) {
      const gap = high_2.low[axis] - high.high[axis];
      add(high.low[axis] - gap - mine.high[axis], (moved) => [across(moved, high, "gaps alike"), across(high, high_2, "")]);
    }
    return finds.sort((a, b) => a.cost - b.cost)[0] ?? null;
  }

  private nearest(of: Extent, axis: Axis, way: 1 | -1, fits: (one: Extent) => boolean): Extent | null {
    let best: Extent | null = null;
    let least = 8; // what is farther is no neighbour
    for (const one of this.extents) {
      if (one === of) continue;
      const gap = way === 1 ? one.low[axis] - of.high[axis] : of.low[axis] - one.high[axis];
      if (gap > 0.02 && gap < least && fits(one)) [best, least] = [one, gap];
    }
    return best;
  }

  /** A shape where the hand has it. `further` leads it along what no line holds, or where a line holds it
  less nearly. */
  shape(corners: readonly Point[], tol: number, further: Further | null = null): Snapped {
    if (corners.length === 0) return nothing;
    const mine = extent_in("", corners, this.frame_deg);
    const better = (a: Find | null, b: Find | null) => (a === null ? b : b === null || a.cost <= b.cost ? a : b);
    const finds = ([0, 1] as const).map((axis) => better(this.in_line(mine, axis, tol), this.gaps_alike(mine, axis, tol)));
    const more = further === null ? null : this.lead(corners, finds, tol, further);
    if (more !== null && more.instead !== null) finds[more.instead] = null;
    const by: Point = plus([finds[0]?.by ?? 0, finds[1]?.by ?? 0], more === null ? [0, 0] : turned(more.by, -this.frame_deg));
    const moved: Extent = { name: "", low: plus(mine.low, by), high: plus(mine.high, by) };
    return { by: this.out(by), guides: [...finds.flatMap((find) => find?.guides(moved) ?? []), ...(more === null ? [] : [more.guide])] };
  }

  private lead(corners: readonly Point[], finds: readonly (Find | null)[], tol: number, further: Further): { by: Point; guide: Guide; instead: Axis | null } | null {
    const [x, y] = finds;
    const way = (axis: Axis) => this.out(on(axis, 1, 0));
    const from = (but: Axis | null) => {
      const held = this.out([but === 0 ? 0 : (x?.by ?? 0), but === 1 ? 0 : (y?.by ?? 0)]);
      return corners.map((corner) => plus(corner, held));
    };
    const found = (but: Axis | null, along: Point | null, instead: Axis | null) => {
      const more = further(from(but), along, tol);
      return more === null ? null : { ...more, instead };
    };
    if (x == null && y == null) return found(null, null, null);
    if (x == null || y == null) return found(null, way(x == null ? 0 : 1), null);
    const weak: Axis = x.cost > y.cost ? 0 : 1;
    const nearer = found(weak, way(weak), weak);
    if (nearer !== null && Math.hypot(...nearer.by) / tol < (finds[weak]?.cost ?? 0)) return nearer;
    return found(null, [0, 0], null);
  }

  /** A corner where the hand has it; from the corner before it, and the one before that. */
  corner(at: Point, tol: number, from: Point | null = null, before: Point | null = null): Snapped {
    const way = from === null || apart(from, at) < 2 * tol ? null : this.way(at, tol, from, before);
    if (way === null || from === null) return this.shape([at], tol);
    const along = times(way.toward, dot(minus(at, from), way.toward));
    const straight = plus(from, along);
    // On its way it may come in line with something.
    const [u, v] = [turned(straight, -this.frame_deg), turned(way.toward, -this.frame_deg)];
    let best: { by: number; guide: Guide } | null = null;
    for (const axis of [0, 1] as const) {
      if (Math.abs(v[axis]) < 0.3) continue;
      const mine: Extent = { name: "", low: u, high: u };
      const find = this.in_line(mine, axis, tol * Math.abs(v[axis]));
      if (find === null) continue;
      const by = find.by / v[axis];
      const moved = plus(u, times(v, by));
      if (best === null || Math.abs(by) < Math.abs(best.by)) best = { by, guide: find.guides({ name: "", low: moved, high: moved })[0] as Guide };
    }
    const to = plus(straight, times(way.toward, best?.by ?? 0));
    const guides = [{ a: from, b: plus(to, times(way.toward, 0.4)), says: way.says }, ...(best === null ? [] : [best.guide])];
    return { by: minus(to, at), guides };
  }

  /** Along the page, at right angles to the leg before, along or square to a line nearby. */
  private way(at: Point, tol: number, from: Point, before: Point | null): { toward: Point; says: string } | null {
    const long = apart(from, at);
    const now = bearing_of(from, at);
    const least_deg = (Math.asin(Math.min(1, tol / long)) * 180) / Math.PI;
    let best: { deg: number; cost: number; says: string } | null = null;
    const look = (deg: number, says: (is_square: boolean) => string, handicap: number) => {
      for (const quarters of [0, 1, 2, 3]) {
        const to = deg + 90 * quarters;
        const off = Math.abs(((now - to + 540) % 360) - 180);
        if (off > least_deg) continue;
        const cost = off / least_deg + handicap;
        if (best === null || cost < best.cost) best = { deg: to, cost, says: says(quarters % 2 === 1) };
      }
    };
    if (before !== null) look(bearing_of(before, from), (is_square) => (is_square ? "right angle" : "straight on"), 0);
    look(0, (is_square) => (is_square ? "straight up the page" : "straight across the page"), 0.2);
    for (const { deg, name, a, b } of this.ways) {
      const away = Math.min(apart(a, at), apart(b, at), apart(times(plus(a, b), 0.5), at));
      if (away < 12) look(deg, (is_square) => (is_square ? `square to ${name}` : `parallel to ${name}`), 0.25 + away / 40);
    }
    const found = best as { deg: number; says: string } | null;
    if (found === null) return null;
    const rad = (found.deg * Math.PI) / 180;
    return { toward: [Math.cos(rad), Math.sin(rad)], says: found.says };
  }
}
