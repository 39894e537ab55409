// Painting a sun print on a canvas: yellow where the sun is on it, bites in their takers' inks, grey night.
import type { Print, Taker } from "../api";
import { type Axes, days_of_year } from "./axes";
import { type Hatch, half_line, half_strength, hatch_cover, hatch_of, ink_colour, mixed, type Rgb, rgb_of, skyline, stripe_at } from "./hatches";
import { night, nobody, type Regions, the_skyline, weak } from "./regions";

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

interface Paint {
  hatch: Hatch | null; // null: plain
  ink: Rgb;
  tint: Rgb;
}

export function paint_of(ink: number, palette: Palette): Paint {
  const colour = rgb_of(ink_colour(ink, palette.graphite));
  const hatch = hatch_of(ink);
  if (palette.is_bold && hatch.kind === "dots") return { hatch: null, ink: colour, tint: mixed(palette.paper, colour, 0.45) };
  return { hatch, ink: colour, tint: mixed(palette.paper, colour, ink === skyline ? 0.25 : ink > 4 ? 0.4 : 0.32) };
}
export function inked(paint: Paint, x: number, y: number): Rgb {
  const cover = paint.hatch === null ? 0 : hatch_cover(paint.hatch, x, y);
  return cover === 0 ? paint.tint : mixed(paint.tint, paint.ink, cover);
}

/** Of the four cells around a point the kind that weighs most: edges run smoothly between days. */
function kinds_on(regions: Regions, axes: Axes, wide: number, high: number, step_h: number): Int16Array {
  const out = new Int16Array(wide * high);
  const { columns, rows, kind_of } = regions;
  const per_column = columns / days_of_year;
  for (let i = 0; i < wide; ++i) {
    const c = ((i + 0.5) / wide) * days_of_year * per_column - 0.5;
    const c0 = Math.max(0, Math.min(columns - 1, Math.floor(c)));
    const c1 = Math.min(columns - 1, c0 + 1);
    const fc = Math.max(0, Math.min(1, c - c0));
    for (let j = 0; j < high; ++j) {
      const hour = axes.high_h - ((j + 0.5) / high) * (axes.high_h - axes.low_h);
      const r = hour / step_h - 0.5;
      const r0 = Math.max(0, Math.min(rows - 1, Math.floor(r)));
      const r1 = Math.min(rows - 1, r0 + 1);
      const fr = Math.max(0, Math.min(1, r - r0));
      const a = kind_of[c0 * rows + r0] as number;
      const b = kind_of[c1 * rows + r0] as number;
      const d = kind_of[c0 * rows + r1] as number;
      const e = kind_of[c1 * rows + r1] as number;
      if (a === b && a === d && a === e) {
        out[j * wide + i] = a;
        continue;
      }
      const weights = [(1 - fc) * (1 - fr), fc * (1 - fr), (1 - fc) * fr, fc * fr] as const;
      const four = [a, b, d, e] as const;
      let [best, most] = [a, -1];
      for (const kind of four) {
        let sum = 0;
        for (let k = 0; k < 4; ++k) if (four[k] === kind) sum += weights[k] as number;
        if (sum > most) [most, best] = [sum, kind];
      }
      out[j * wide + i] = best;
    }
  }
  return out;
}

/** How dark the edge between two kinds is drawn: of yellow, also half-hatched, only the outer one; between two
 * bites a light one. */
function edge_of(regions: Regions, one: number, other: number): number {
  if (one === other) return 0;
  const is_bite = (kind: number) => kind >= 0 && regions.kinds[kind]?.what === "whole";
  if (one < 0 || other < 0) return 0.8;
  if (is_bite(one) && is_bite(other)) return 0.4;
  return is_bite(one) || is_bite(other) ? 0.8 : 0;
}

function painter(print: Print, regions: Regions, palette: Palette): (kind: number, x: number, y: number) => Rgb {
  const paints = new Map<number, Paint>();
  const of = (taker: number): Paint => {
    let paint = paints.get(taker);
    if (paint === undefined) paints.set(taker, (paint = paint_of(ink_of(print, taker), palette)));
    return paint;
  };
  return (number, x, y) => {
    if (number === night) return palette.night;
    if (number === weak) return palette.paper;
    const kind = regions.kinds[number];
    if (kind === undefined || kind.what === "lit") return palette.sun;
    if (kind.what === "half") {
      const line = half_line(x, y);
      if (line.cover === 0) return palette.sun;
      const is_other = kind.second !== nobody && line.number % 2 !== 0;
      return mixed(palette.sun, of(is_other ? kind.second : kind.taker).ink, line.cover * half_strength(palette.is_bold));
    }
    if (kind.second === nobody) return inked(of(kind.taker), x, y);
    const stripe = stripe_at(x, y);
    const colour = inked(of(stripe.second ? kind.second : kind.taker), x, y);
    return stripe.rim > 0 ? mixed(colour, palette.paper, stripe.rim) : colour;
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
  const colour_of = painter(print, regions, palette);
  const image = context.createImageData(wide, high);
  for (let j = 0, at = 0; j < high; ++j) {
    for (let i = 0; i < wide; ++i, ++at) {
      const kind = kinds[at] as number;
      let colour = colour_of(kind, (i + 0.5) / ratio, (j + 0.5) / ratio);
      const right = i + 1 < wide ? (kinds[at + 1] as number) : kind;
      const below = j + 1 < high ? (kinds[at + wide] as number) : kind;
      if (right !== kind || below !== kind) {
        const dark = Math.max(edge_of(regions, kind, right), edge_of(regions, kind, below));
        if (dark > 0) colour = mixed(colour, palette.ink, dark);
      }
      image.data[4 * at] = colour[0];
      image.data[4 * at + 1] = colour[1];
      image.data[4 * at + 2] = colour[2];
      image.data[4 * at + 3] = 255;
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
  const paints = inks.map((ink) => paint_of(ink, palette));
  const image = context.createImageData(wide, high);
  for (let j = 0, at = 0; j < high; ++j) {
    for (let i = 0; i < wide; ++i, ++at) {
      const [x, y] = [(i + 0.5) / ratio, (j + 0.5) / ratio];
      const stripe = paints.length > 1 ? stripe_at(x, y) : { second: false, rim: 0 };
      const colour = mixed(inked(paints[stripe.second ? 1 : 0] as Paint, x, y), palette.paper, stripe.rim);
      image.data.set([...colour, 255], 4 * at);
    }
  }
  context.putImageData(image, 0, 0);
}
