// The section: along which line of the plan the garden is cut, and the program's drawing of it at the
// band's moment.
import { effect, signal } from "@preact/signals";
import { ask, link_to, type Section } from "../api";
import { garden, scheme } from "./garden";
import { asked_of } from "./light";
import { load } from "./load";
import { when } from "./when";

type Point = readonly [number, number];
export interface SectionLine {
  from: Point; // A, which the section has at its left
  to: Point; // B
}

export const section_line = signal<SectionLine | null>(null);
/** The paper millimetres that a metre takes in it. */
export const section_scale = signal(0);
export const section = signal<Section | null>(null);

effect(() => {
  garden.value;
  section_line.value = null;
});

function query_of(line: SectionLine): { scheme: string; from: string; to: string; day?: string; clock?: number } {
  const now = when.value;
  const time = now.kind === "moment" ? { day: now.day, clock: now.clock } : {};
  return { scheme: scheme.value, from: line.from.join(), to: line.to.join(), ...time };
}

export const section_loading = load(section, () => {
  const asked = asked_of();
  const line = section_line.value;
  const mm_per_m = section_scale.value;
  if (asked === null || line === null || mm_per_m === 0) return null;
  const query = { ...query_of(line), mm_per_m };
  return (signal) => ask("/api/gardens/{garden}/section", { ...asked, query }, signal);
});

export function link_to_section(garden: string, line: SectionLine): string {
  return link_to("/api/gardens/{garden}/section", { path: { garden }, query: { ...query_of(line), format: "svg" } });
}
