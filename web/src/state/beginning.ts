// A garden that begins: where it may lie, whose clocks it has, and the steps taken up after it.
import { signal } from "@preact/signals";
import { ask, send, type Town, type Towns } from "../api";
import { open_garden } from "./garden";
import { take_up_steps } from "./steps_kept";

/** The page that asks where a garden lies is open, in the place of the shelf. */
export const beginning = signal(false);

export interface PlaceChosen {
  latitude_deg: number;
  longitude_deg: number;
  town: Town | null; // the place is that town's, and so a guess
  near: Town | null; // the nearest one with weather, of a place that was told
}

/** As stations write names: without marks, and ü as u or as ue. */
export function plain_names(typed: string): string[] {
  const bare = (text: string) => text.replace(/ß/g, "ss").replace(/[øØ]/g, "o").replace(/ł/gi, "l").normalize("NFD").replace(/\p{M}/gu, "");
  const spelt: Record<string, string> = { ä: "ae", ö: "oe", ü: "ue", å: "aa", ø: "oe" };
  const other = typed.normalize("NFC").toLowerCase().replace(/[äöüåø]/g, (letter) => spelt[letter] ?? letter);
  const [first = "", second = ""] = [bare(typed), bare(other)].map((name) => name.trim());
  return first.toLowerCase() === second ? [first] : [first, second];
}

export async function towns_like(typed: string, signal: AbortSignal): Promise<Towns> {
  const [first, second] = await Promise.all(plain_names(typed).map((name) => ask("/api/towns", { query: { typed: /\d/.test(typed) ? typed : name } }, signal)));
  if (first === undefined) throw new Error("no name");
  const towns = [...first.towns, ...(second?.towns ?? []).filter(({ name }) => !first.towns.some((town) => town.name === name))];
  return { ...first, towns: towns.slice(0, 12) };
}

/** What the page wants of a place: with the nearest town. */
export async function place_with_town(latitude_deg: number, longitude_deg: number, signal: AbortSignal): Promise<PlaceChosen> {
  const at = (value: number) => Number(value.toFixed(5));
  const { towns } = await towns_like(`${at(latitude_deg)}, ${at(longitude_deg)}`, signal);
  return { latitude_deg: at(latitude_deg), longitude_deg: at(longitude_deg), town: null, near: towns[0] ?? null };
}

/** Countries by their English names, as the stations have them. */
function country_code(name: string): string | null {
  const says = new Intl.DisplayNames(["en"], { type: "region", fallback: "none" });
  const a = "A".charCodeAt(0);
  for (let i = 0; i < 26 * 26; ++i) {
    const code = String.fromCharCode(a + Math.floor(i / 26), a + (i % 26));
    if (says.of(code)?.toLowerCase() === name.toLowerCase()) return code;
  }
  return null;
}

interface WithZones {
  getTimeZones?: () => string[] | undefined;
  timeZones?: string[];
}
function zones_of(country: string): string[] {
  const code = country_code(country);
  if (code === null) return [];
  const locale = new Intl.Locale("und", { region: code }) as unknown as WithZones;
  return locale.getTimeZones?.() ?? locale.timeZones ?? [];
}

/** Hours that a zone's clocks are ahead of Greenwich in January. */
function ahead_h(zone: string): number | null {
  try {
    const parts = new Intl.DateTimeFormat("en", { timeZone: zone, timeZoneName: "longOffset" }).formatToParts(new Date(Date.UTC(2026, 0, 15)));
    const says = parts.find((part) => part.type === "timeZoneName")?.value ?? "";
    const told = /GMT(?:([+-])(\d+):(\d+))?/.exec(says);
    if (told === null) return null;
    return (told[1] === "-" ? -1 : 1) * (Number(told[2] ?? 0) + Number(told[3] ?? 0) / 60);
  } catch {
    return null;
  }
}

export const zone_here = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone;
export const all_zones = (): string[] => Intl.supportedValuesOf("timeZone").filter((zone) => zone.includes("/"));

/** Of zones with the same clocks, the ones that most people live by. */
const usual_zones = [
  "America/New_York", "America/Chicago", "America/Denver", "America/Los_Angeles", "America/Toronto", "America/Winnipeg", "America/Edmonton",
  "America/Vancouver", "America/Halifax", "America/Mexico_City", "America/Sao_Paulo", "America/Santiago", "Europe/Berlin", "Europe/Moscow",
  "Europe/Madrid", "Europe/Lisbon", "Asia/Shanghai", "Asia/Tashkent", "Australia/Sydney", "Australia/Brisbane", "Australia/Perth",
  "Australia/Adelaide", "Pacific/Auckland",
];

/** Whose clocks are likeliest at a place: this machine's where the country or the sun allows it, else
the country's zone nearest to the sun's hours. */
export function likely_zone(longitude_deg: number, country: string | null, here = zone_here()): string {
  const sun_h = longitude_deg / 15;
  const off_by = (zone: string) => Math.abs((ahead_h(zone) ?? 99) - sun_h);
  const zones = country === null ? [] : zones_of(country);
  if (zones.includes(here) || (zones.length === 0 && off_by(here) < 3)) return here;
  const known = zones.length > 0 ? zones : all_zones();
  const from = [...usual_zones.filter((zone) => known.includes(zone)), ...known];
  return from.reduce((best, zone) => (off_by(zone) < off_by(best) - 0.01 ? zone : best), from[0] ?? here);
}

/** Whether one measures in feet in a country; null: where this machine is. */
export function imperial_in(country: string | null): boolean {
  const code = country === null ? (new Intl.Locale(navigator.language).maximize().region ?? "") : country_code(country);
  return code !== null && ["US", "LR", "MM"].includes(code);
}

export interface Begun {
  title: string;
  place: PlaceChosen;
  time_zone: string;
  units: "metric" | "imperial";
}

/** Puts the garden on the shelf and opens it. Throws what the program refuses. */
export async function begin_garden({ title, place, time_zone, units }: Begun): Promise<void> {
  const { latitude_deg, longitude_deg, town } = place;
  const of_town = town === null ? {} : { elevation_m: Math.round(town.elevation_m), guessed: ["latitude_deg", "longitude_deg", "elevation_m"] as never };
  const begin = { title, latitude_deg, longitude_deg, time_zone, units, ...of_town };
  const { id } = await send("/api/gardens", {}, { begin });
  take_up_steps(id);
  beginning.value = false;
  open_garden(id, "found"); // what is there comes first
}
