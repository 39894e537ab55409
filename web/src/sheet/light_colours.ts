// What colour a figure of light has: absolute, never stretched to the garden.
import { hours_says } from "../geometry";

export type LightKind = "hours" | "moment" | "difference";

export interface Step {
  from: number; // hours
  colour: string;
  says: string;
}

export const hour_steps: readonly Step[] = [
  { from: 0, colour: "#63698f", says: "0" },
  { from: 2, colour: "#85839c", says: "2" },
  { from: 4, colour: "#a79da7", says: "4" },
  { from: 6, colour: "#beb0a4", says: "6" },
  { from: 8, colour: "#dccca3", says: "8" },
  { from: 10, colour: "#fff6ae", says: "10" },
];

export const moment_steps: readonly Step[] = [
  { from: 0, colour: "#a79da7", says: "shade" },
  { from: 0.25, colour: "#d3caaa", says: "in part" },
  { from: 0.75, colour: "#fff6ae", says: "sun" },
];

/** Losses in the shade's ink, gains in the sun's; between them the paper. */
export const difference_steps: readonly Step[] = [
  { from: -99, colour: "#63698f", says: "" },
  { from: -2, colour: "#8f92b4", says: "−2" },
  { from: -1, colour: "#c3c3d2", says: "−1" },
  { from: -0.25, colour: "", says: "−¼" },
  { from: 0.25, colour: "#fff1a1", says: "+¼" },
  { from: 1, colour: "#f2d256", says: "+1" },
  { from: 2, colour: "#d9a521", says: "+2" },
];

export const steps_of: Record<LightKind, readonly Step[]> = {
  hours: hour_steps,
  moment: moment_steps,
  difference: difference_steps,
};

/** From hundredths of an hour, counted from `lowest`, to a pixel's four bytes. */
export interface Lookup {
  lowest: number;
  pixels: Uint32Array;
}

function pixel_of(colour: string): number {
  if (colour === "") return 0;
  const rgb = parseInt(colour.slice(1), 16);
  const bytes = new Uint8Array([rgb >> 16, (rgb >> 8) & 255, rgb & 255, 255]);
  return new Uint32Array(bytes.buffer)[0] as number;
}

function lookup_of(steps: readonly Step[], lowest: number, highest: number): Lookup {
  const pixels = new Uint32Array(highest - lowest + 1);
  for (const step of steps)
    pixels.fill(pixel_of(step.colour), Math.max(0, Math.round(step.from * 100) - lowest));
  return { lowest, pixels };
}

const lookups: Record<LightKind, Lookup> = {
  hours: lookup_of(hour_steps, 0, 2400),
  moment: lookup_of(moment_steps, 0, 100),
  difference: lookup_of(difference_steps, -2400, 2400),
};

export const lookup = (kind: LightKind): Lookup => lookups[kind];

const tenths = (hours: number) => Math.round(10 * Number(hours.toFixed(1)));

/** What lies between two figures as they are written, so that a reader finds what the tables say. */
export const difference_told = (from: number, to: number): number => (tenths(to) - tenths(from)) / 10;

/** A figure as it is written on its chip and in the table. */
export function figure_says(hours: number | null, kind: LightKind, on_guesses = false): string {
  if (hours === null) return "new"; // a bed that the other scheme does not have
  if (kind === "hours") return hours_says(hours, on_guesses);
  if (kind === "moment") return hours >= 0.75 ? "sun" : hours >= 0.25 ? "in part" : "shade";
  const size = Math.abs(hours).toFixed(1);
  return size === "0.0" ? "±0" : `${on_guesses ? "≈ " : ""}${hours < 0 ? "−" : "+"}${size}`;
}
