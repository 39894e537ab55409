// Writing in a sun print what takes the sun: by name where there is room, else by its letter.
import type { Print } from "../api";
import { type Axes, days_of_year } from "./axes";
import { ink_colour } from "./hatches";
import { ink_of, palette_of, taker_of } from "./paint_print";
import { heart_of, type Kind, nobody, type Piece, pieces_of, type Regions, room_within, the_skyline } from "./regions";

interface Hand {
  context: CanvasRenderingContext2D;
  print: Print;
  told: readonly string[];
  regions: Regions;
  axes: Axes;
  named: Set<number>;
  colours: { paper: string; ink: string; graphite: string };
  disc: number; // across
  placed: Box[]; // what is written already
}
/** Middle, and half of each side. */
type Box = readonly [x: number, y: number, wide: number, high: number];

const css = (rgb: readonly number[]) => `rgb(${rgb.join(",")})`;

/** `told`: whose letters stand in the notes too, besides those with an ink of their own. */
export function name_print(canvas: HTMLCanvasElement, print: Print, regions: Regions, axes: Axes, ratio: number, told: readonly string[]): void {
  const context = canvas.getContext("2d");
  if (context === null) return;
  context.setTransform(ratio, 0, 0, ratio, 0, 0);
  context.textAlign = "center";
  context.textBaseline = "middle";
  context.lineJoin = "round";
  const palette = palette_of(canvas);
  const colours = { paper: css(palette.paper), ink: css(palette.ink), graphite: palette.graphite };
  const hand: Hand = { context, print, told, regions, axes, named: new Set(), colours, disc: axes.height < 60 ? 13 : 15, placed: [] };
  const pieces = pieces_of(regions).sort((a, b) => b.cells.length - a.cells.length);
  for (const what of ["whole", "half"] as const)
    for (const piece of pieces) {
      const kind = regions.kinds[piece.kind];
      if (kind === undefined || kind.what !== what || kind.taker === nobody) continue;
      if (what === "whole") name_piece(hand, piece, kind);
      else if (ink_of(print, kind.taker) > 4 || !hand.named.has(kind.taker)) letter_piece(hand, piece, kind, 1.6);
    }
}

function cell_size({ axes, print }: Hand): [number, number] {
  return [(axes.width / days_of_year) * print.head.day_step, (axes.height / (axes.high_h - axes.low_h)) * print.head.step_h];
}
function on_paper({ axes, print }: Hand, [c, r]: [number, number]): [number, number] {
  const x = ((c * print.head.day_step) / days_of_year) * axes.width;
  const y = ((axes.high_h - r * print.head.step_h) / (axes.high_h - axes.low_h)) * axes.height;
  return [x, y];
}
function room_for(hand: Hand, piece: Piece, wide: number, high: number): [number, number] | null {
  const [cell_wide, cell_high] = cell_size(hand);
  return room_within(hand.regions, piece, Math.ceil(wide / cell_wide), Math.ceil(high / cell_high));
}

function is_free({ placed }: Hand, [x, y, wide, high]: Box): boolean {
  return placed.every((box) => Math.abs(box[0] - x) >= box[2] + wide || Math.abs(box[1] - y) >= box[3] + high);
}

const name_sizes = [15, 13] as const; // the smaller one for a single name alone
function name_piece(hand: Hand, piece: Piece, kind: Kind): void {
  const { context, colours } = hand;
  const name = [kind.taker, kind.second].filter((taker) => taker !== nobody).map((taker) => name_of(hand, taker)).join(" + ");
  for (const size of kind.second === nobody ? name_sizes : name_sizes.slice(0, 1)) {
    context.font = `italic ${size}px "Vollkorn", Georgia, serif`;
    const wide = context.measureText(name).width;
    const room = room_for(hand, piece, wide + 8, size - 1);
    if (room === null) continue;
    const [x, y] = on_paper(hand, room);
    if (!is_free(hand, [x, y, wide / 2, size / 2])) continue;
    hand.placed.push([x, y, wide / 2, size / 2]);
    context.strokeStyle = colours.paper;
    context.lineWidth = 4;
    context.strokeText(name, x, y + 1);
    context.fillStyle = colours.ink;
    context.fillText(name, x, y + 1);
    if (kind.second === nobody) hand.named.add(kind.taker);
    return;
  }
  letter_piece(hand, piece, kind, 1);
}

function name_of({ print }: Hand, taker: number): string {
  return taker === the_skyline ? "skyline" : (taker_of(print, taker)?.called ?? "");
}

function letter_piece(hand: Hand, piece: Piece, kind: Kind, room: number): void {
  const { disc } = hand;
  if (!has_disc(hand, kind.taker)) return;
  const is_both = kind.second !== nobody && has_disc(hand, kind.second);
  const half: [number, number] = [(disc / 2) * (is_both ? 1.96 : 1), disc / 2];
  const at = room_for(hand, piece, disc * (is_both ? 1.95 : room), disc * 0.9);
  if (at !== null) {
    const [x, y] = within_plot(hand, on_paper(hand, at), half);
    if (is_free(hand, [x, y, ...half])) {
      const aside = is_both ? disc * 0.48 : 0;
      draw_disc(hand, x - aside, y, kind.taker);
      if (is_both) draw_disc(hand, x + aside, y, kind.second);
      return;
    }
  }
  // Who is told nowhere else is lettered even where the disc laps over.
  const [cell_wide, cell_high] = cell_size(hand);
  const is_seen = piece.cells.length * cell_wide * cell_high > 90;
  if (kind.second !== nobody || !is_seen || hand.named.has(kind.taker)) return;
  const free = heart_of(hand.regions, piece, (cell) =>
    is_free(hand, [...within_plot(hand, on_paper(hand, cell), [disc / 2, disc / 2]), disc / 2, disc / 2]),
  );
  if (free === null) return;
  const [x, y] = within_plot(hand, on_paper(hand, free), [disc / 2, disc / 2]);
  draw_disc(hand, x, y, kind.taker);
}

/** So that nothing is cut off at the rim. */
function within_plot({ axes }: Hand, [x, y]: [number, number], [wide, high]: [number, number]): [number, number] {
  const keep = (at: number, half: number, size: number) => Math.max(half + 0.5, Math.min(size - half - 0.5, at));
  return [keep(x, wide, axes.width), keep(y, high, axes.height)];
}

function has_disc({ print, told }: Hand, taker: number): boolean {
  const of = taker_of(print, taker);
  return of !== null && of.letter !== "" && (of.ink < 5 || told.includes(of.id));
}

function draw_disc({ context, print, colours, named, disc, placed }: Hand, x: number, y: number, taker: number): void {
  named.add(taker);
  placed.push([x, y, disc / 2, disc / 2]);
  const letter = taker_of(print, taker)?.letter ?? "";
  context.beginPath();
  context.arc(x, y, disc / 2, 0, 2 * Math.PI);
  context.fillStyle = ink_colour(ink_of(print, taker), colours.graphite);
  context.fill();
  context.lineWidth = 1.25;
  context.strokeStyle = colours.paper;
  context.stroke();
  context.fillStyle = "#fff";
  context.font = `600 ${letter.length > 1 ? 8 : 10}px "Atkinson Hyperlegible Next", sans-serif`;
  context.fillText(letter, x, y + 0.5);
}
