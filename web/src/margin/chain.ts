// The chain behind a figure: its names in plain words, its sources.
import type { Schema, Trace } from "../api";
import { metres_as_feet } from "../geometry";
import { capital } from "./format";

export interface Source {
  key: string;
  citation: string;
}

/** The sources of a whole chain, each once, nearest first. */
export function sources_of(trace: Trace): Source[] {
  const met = new Map<string, Source>();
  let level = [trace];
  while (level.length > 0) {
    for (const one of level) for (const source of one.sources ?? []) if (!met.has(source.key)) met.set(source.key, source);
    level = level.flatMap((one) => one.inputs);
  }
  return [...met.values()];
}

/** "medlar.crown_base_m" as "medlar: crown base". */
export function plain_name(name: string, schema: Schema | null): string {
  const found = /^([a-z0-9-]+)\.([a-z0-9_]+)$/.exec(name);
  if (found === null) return name;
  const [, whose = "", key = ""] = found;
  return `${whose}: ${called_by(schema, key)}`;
}

/** What a document's key is called, whatever it is a key of. */
export function called_by(schema: Schema | null, key: string): string {
  for (const table of schema?.tables ?? []) {
    const known = table.keys.find((one) => one.name === key)?.called;
    if (known !== undefined) return known;
  }
  return key.replace(/_(m|deg|c|l)$/, "").replace(/_/g, " ");
}

/** A message with the document's keys called by their names, and without those that stand in
brackets for who writes the document; metres in feet for who counts in feet. */
export function in_plain_words(text: string, schema: Schema | null, imperial = false): string {
  const words = text
    .replace(/ \([a-z]+\.[a-z_]+\)/g, "")
    .replace(/^\[\[?[\w.]+\]\]?(?: [\w-]+)?(: | (?=has ))/, (_, after: string) => (after === ": " ? "" : "It "))
    .replace(/^Add [\w.]+ = ([^,]+?)(?:, or with its unit: .*)?\.?$/i, "Such as $1.")
    .replace(/^Write [\w.]+ = (.+?)(?:, (?:without|in) quotes)?\.?$/, "Such as $1.")
    .replace(" wants a whole number, not a figure", " wants a whole number")
    .replace(/(may be the wrong way round): \[[^\]]*\] and \[[^\]]*\]/, "$1") // the sheet shows where they lie
    .replace(/^at(?=(\[\d+\])? (is|wants)\b|: )/i, "The place")
    .replace(/(?:^[A-Z]|\b[a-z])[a-z]*(?:_[a-z0-9]+)+\b/g, (key) => {
      const name = called_by(schema, key.toLowerCase());
      return key.charAt(0) === key.charAt(0).toLowerCase() ? name : capital(name);
    });
  return imperial ? metres_as_feet(words).replace("from 0 in to", "anything above 0, up to") : words;
}

/** Of "next-door-pine.height_m" whose it is. */
export function owner_of(name: string): string {
  return name.split(".")[0] ?? "";
}

/** Guessed figures by their thing: "next-door-pine" with "height" and "crown width". */
export function guessed_by_thing(guessed: readonly string[], schema: Schema | null): [string, string[]][] {
  const by = new Map<string, string[]>();
  for (const one of guessed) {
    const dot = one.indexOf(".");
    const whose = one.slice(0, dot);
    by.set(whose, [...(by.get(whose) ?? []), called_by(schema, one.slice(dot + 1))]);
  }
  return [...by];
}
