// How the beds fare on a day or at a moment: the answer before the season's.
import { figure_says } from "../sheet/light_colours";
import { figure } from "./format";

export interface Bed {
  id: string;
  hours: number; // of a moment the share of it in the sun
}

export function moment_told(at: string, beds: readonly Bed[]): string {
  const words = beds.map(({ hours }) => figure_says(hours, "moment"));
  const count = (word: string) => words.filter((one) => one === word).length;
  return `${at}: of ${beds.length} ${beds.length === 1 ? "bed" : "beds"} ${count("sun")} in the sun, ${count("in part")} in part, ${count("shade")} in the shade.`;
}

export function day_told(day: string, beds: readonly Bed[]): string {
  const [most, ...rest] = [...beds].sort((a, b) => b.hours - a.hours);
  const least = rest[rest.length - 1];
  if (most === undefined) return "";
  const says = `${day}, a clear day: ${most.id} has ${least === undefined ? "" : "most sun, "}${figure(most.hours)} hours`;
  return least === undefined ? `${says} of sun.` : `${says}, ${least.id} least, ${figure(least.hours)}.`;
}
