// How figures are written in the margin.
import type { Trace } from "../api";

/** Hours to a tenth: "6.2". */
export const hours = (h: number): string => h.toFixed(1);
/** Hours a year: "1067". */
export const year_hours = (h: number): string => (h >= 0.5 ? String(Math.round(h)) : "–");
/** "+1.2", "−0.4", "0.0". */
export function signed(h: number): string {
  const text = Math.abs(h).toFixed(1);
  if (text === "0.0") return text;
  return `${h > 0 ? "+" : "−"}${text}`;
}
/** Light for growth as the tables have it: two figures. */
export const moles = (mol: number): string => (mol < 9.95 ? mol.toFixed(1) : mol.toFixed(0));
export const share = (of: number | null): string => (of === null ? "–" : `${Math.round(of * 100)} %`);

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** What a key's figure is in: of "height_m" metres. */
export function unit_of(key: string): string {
  if (key.endsWith("_m")) return "m";
  if (key.endsWith("_deg")) return "°";
  if (key.endsWith("_c")) return "°C";
  if (key.endsWith("_l") || key === "litres") return "litres";
  return "";
}

/** A typed plain figure, moved by a step; nothing where it is written with a unit of its own. */
export function stepped(typed: string, step: number): string | null {
  if (!/^-?\d+([.,]\d+)?$/.test(typed.trim())) return null;
  const next = Number(typed.trim().replace(",", ".")) + step;
  return String(Math.round(next * 100) / 100);
}

/** "medlar.crown_width_m" as "crown width of medlar". */
export function guess_says(guess: string, called: (id: string, key: string) => string): string {
  const dot = guess.indexOf(".");
  const [id, key] = [guess.slice(0, dot), guess.slice(dot + 1)];
  return `${called(id, key)} of ${id}`;
}

/** The sources of a chain, each once, in the order met. */
export function sources_of(trace: Trace): { key: string; citation: string }[] {
  const met = new Map<string, string>();
  const walk = (one: Trace): void => {
    for (const source of one.sources ?? []) if (!met.has(source.key)) met.set(source.key, source.citation);
    for (const input of one.inputs) walk(input);
  };
  walk(trace);
  return [...met].map(([key, citation]) => ({ key, citation }));
}
