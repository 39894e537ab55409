// Painting a sun print on a canvas: yellow where the sun is on it, bites in their takers' inks, grey night.
import type { Print, Taker } from "../api";
import type { Axes } from "./axes";
import { type Brush, type Grain, half_brushes, type Paint, packed, packed_mix, striped_brush, whole_brush } from "./brushes";
import { hatch_of, ink_colour, mixed, type Rgb, rgb_of, skyline } from "./hatches";
import { type Kind, night, nobody, type Regions, the_skyline, weak } from "./regions";

export interface Palette {
  paper: Rgb;
  ink: Rgb;
  graphite: string;
  night: Rgb;
  sun: Rgb;
  is_bold: boolean; // outdoors: no stipple
}

export function palette_of(element: Element): Palette {
  const style = getComputedStyle(element);
  const colour = (name: string, usual: string) => style.getPropertyValue(name).trim() || usual;
  return {
    paper: rgb_of(colour("--paper", "#f6f1e6")),
    ink: rgb_of(colour("--ink", "#221e19")),
    graphite: colour("--graphite", "#5f574c"),
    night: rgb_of(colour("--night", "#d9d4cb")),
    sun: rgb_of(colour("--sun", "#fff6ae")),
    is_bold: document.documentElement.classList.contains("outdoors"),
  };
}

export function taker_of(print: Print, number: number): Taker | null {
  return number === the_skyline || number === nobody ? null : (print.head.takers[number] ?? null);
}
export function ink_of(print: Print, number: number): number {
  return number === the_skyline ? skyline : (taker_of(print, number)?.ink ?? 5);
}

export function paint_of(ink: number, palette: Palette): Paint {
  const colour = rgb_of(ink_colour(ink, palette.graphite));
  const hatch = hatch_of(ink);
  if (palette.is_bold && hatch.kind === "dots") return { hatch: null, ink: colour, tint: mixed(palette.paper, colour, 0.45) };
  return { hatch, ink: colour, tint: mixed(palette.paper, colour, ink === skyline ? 0.25 : ink > 4 ? 0.4 : 0.32) };
}

/** The cells before and after each pixel's middle, and how far it is from the one to the other. */
function between(count: number, cells: number, at: (n: number) => number): { low: Int32Array; high: Int32Array; into: Float32Array } {
  const [low, high, into] = [new Int32Array(count), new Int32Array(count), new Float32Array(count)];
  for (let n = 0; n < count; ++n) {
    const cell = at(n) - 0.5;
    low[n] = Math.max(0, Math.min(cells - 1, Math.floor(cell)));
    high[n] = Math.min(cells - 1, (low[n] as number) + 1);
    into[n] = Math.max(0, Math.min(1, cell - (low[n] as number)));
  }
  return { low, high, into };
}

/** Of the four cells around a point the kind that weighs most: edges run smoothly between days. */
export function kinds_on(regions: Regions, axes: Axes, wide: number, high: number, step_h: number): Int16Array {
  const out = new Int16Array(wide * high);
  const { columns, rows, kind_of } = regions;
  const across = between(wide, columns, (i) => ((i + 0.5) / wide) * columns);
  const up = between(high, rows, (j) => (axes.high_h - ((j + 0.5) / high) * (axes.high_h - axes.low_h)) / step_h);
  for (let j = 0, at = 0; j < high; ++j) {
    const r0 = up.low[j] as number;
    const r1 = up.high[j] as number;
    const fr = up.into[j] as number;
    for (let i = 0; i < wide; ) {
      const column = across.low[i] as number;
      const left = column * rows;
      const right = (across.high[i] as number) * rows;
      const a = kind_of[left + r0] as number;
      const b = kind_of[right + r0] as number;
      const c = kind_of[left + r1] as number;
      const d = kind_of[right + r1] as number;
      if (a === b && a === c && a === d) {
        while (i < wide && across.low[i] === column) {
          out[at++] = a;
          i += 1;
        }
        continue;
      }
      const fc = across.into[i] as number;
      const wa = (1 - fc) * (1 - fr);
      const wb = fc * (1 - fr);
      const wc = (1 - fc) * fr;
      const wd = fc * fr;
      const sum_a = wa + (b === a ? wb : 0) + (c === a ? wc : 0) + (d === a ? wd : 0);
      const sum_b = wb + (a === b ? wa : 0) + (c === b ? wc : 0) + (d === b ? wd : 0);
      const sum_c = wc + (a === c ? wa : 0) + (b === c ? wb : 0) + (d === c ? wd : 0);
      const best = sum_b > sum_a ? b : a;
      const other = wd > sum_c ? d : c;
      out[at++] = Math.max(sum_c, wd) > Math.max(sum_a, sum_b) ? other : best;
      i += 1;
    }
  }
  return out;
}

/** How dark the edge between two kinds is drawn: of yellow, also half-hatched, only the outer one; between two
 * bites a light one. By what they are: 0 night or weak sun, 1 a bite, 2 yellow. */
const edge_dark = [0.4, 0.8, 0.8, 0.8, 0.4, 0.8, 0.8, 0.8, 0] as const;
function side_of(regions: Regions, kind: number): number {
  if (kind < 0) return 0;
  return regions.kinds[kind]?.what === "whole" ? 1 : 2;
}

/** Of a kind when it is first met: most kinds of a print are specks that are never drawn. */
function brushes_of(print: Print, regions: Regions, palette: Palette, grain: Grain): (kind: number) => Brush | number {
  const paint = (taker: number) => paint_of(ink_of(print, taker), palette);
  const half = half_brushes(palette.sun, grain, palette.is_bold);
  const wholes = new Map<number, Brush>();
  const whole = (taker: number): Brush => {
    const brush = wholes.get(taker) ?? whole_brush(paint(taker), grain);
    wholes.set(taker, brush);
    return brush;
  };
  return (number) => {
    const { what, taker, second } = regions.kinds[number] as Kind;
    const is_two = second !== nobody;
    if (what === "lit") return packed(palette.sun);
    if (what === "half") return half(paint(taker).ink, paint(is_two ? second : taker).ink);
    return is_two ? striped_brush(whole(taker), whole(second), palette.paper, grain) : whole(taker);
  };
}

/** Fills the canvas; its size in pixels of the screen is that of the axes times `ratio`. */
export function paint_print(canvas: HTMLCanvasElement, print: Print, regions: Regions, axes: Axes, ratio: number): void {
  const wide = Math.max(1, Math.round(axes.width * ratio));
  const high = Math.max(1, Math.round(axes.height * ratio));
  if (canvas.width !== wide) canvas.width = wide;
  if (canvas.height !== high) canvas.height = high;
  const context = canvas.getContext("2d");
  if (context === null) return;
  const palette = palette_of(canvas);
  const kinds = kinds_on(regions, axes, wide, high, print.head.step_h);
  const brush_of = brushes_of(print, regions, palette, { wide, high, ratio });
  const brushes: (Brush | number)[] = []; // a number: that colour alone
  const sides = regions.kinds.map((_, kind) => side_of(regions, kind));
  const [of_night, of_weak] = [packed(palette.night), packed(palette.paper)];
  const image = context.createImageData(wide, high);
  const pixels = new Uint32Array(image.data.buffer);
  const edge = (kind: number, other: number): number =>
    other === kind ? 0 : (edge_dark[3 * (sides[kind] ?? 0) + (sides[other] ?? 0)] as number);
  for (let j = 0; j < high; ++j) {
    const row = j * wide;
    for (let from = 0, to = 0; from < wide; from = to) {
      const kind = kinds[row + from] as number;
      to = from + 1;
      while (to < wide && kinds[row + to] === kind) to += 1;
      const brush = kind === night ? of_night : kind === weak ? of_weak : (brushes[kind] ??= brush_of(kind));
      if (typeof brush === "number") pixels.fill(brush, row + from, row + to);
      else for (let i = from; i < to; ++i) pixels[row + i] = brush(i, j);
    }
  }
  for (let j = 0, at = 0; j < high; ++j) {
    for (let i = 0; i < wide; ++i, ++at) {
      const kind = kinds[at] as number;
      const right = i + 1 < wide ? (kinds[at + 1] as number) : kind;
      const below = j + 1 < high ? (kinds[at + wide] as number) : kind;
      if (right === kind && below === kind) continue;
      const dark = Math.max(edge(kind, right), edge(kind, below));
      if (dark > 0) pixels[at] = packed_mix(pixels[at] as number, palette.ink, dark);
    }
  }
  context.putImageData(image, 0, 0);
}

/** A bar in a taker's ink, or in the stripes of two. */
export function paint_bar(canvas: HTMLCanvasElement, inks: readonly [number] | readonly [number, number], ratio: number): void {
  const [wide, high] = [Math.round(canvas.clientWidth * ratio), Math.round(canvas.clientHeight * ratio)];
  if (wide < 1 || high < 1) return;
  canvas.width = wide;
  canvas.height = high;
  const context = canvas.getContext("2d");
  if (context === null) return;
  const palette = palette_of(canvas);
  const grain = { wide, high, ratio };
  const [first, second] = inks.map((ink) => whole_brush(paint_of(ink, palette), grain)) as [Brush, Brush | undefined];
  const brush = second === undefined ? first : striped_brush(first, second, palette.paper, grain);
  const image = context.createImageData(wide, high);
  const pixels = new Uint32Array(image.data.buffer);
  for (let j = 0, at = 0; j < high; ++j) for (let i = 0; i < wide; ++i, ++at) pixels[at] = brush(i, j);
  context.putImageData(image, 0, 0);
}
