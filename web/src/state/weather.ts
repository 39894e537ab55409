// Whose weather the garden has: a file of the grower's own, or the stations around.
import { computed, signal } from "@preact/signals";
import { type Problem, Refused, send_file, type WeatherFile } from "../api";
import { act, garden, load_error, saying, state } from "./garden";

/** The weather file that the document names; null: the stations around. */
export const weather_file = computed<WeatherFile | null>(() => state.value?.weather_file ?? null);
/** The file that is on its way in. */
export const weather_comes = signal<string | null>(null);
/** What the file that was brought in last lacks, by its name. */
export const weather_notes = signal<{ name: string; notes: string[] } | null>(null);

const most_bytes = 64 * 2 ** 20;
const longest_name = 100; // bytes

/** A file's name as a document can have it: no folders, no signs of its own. */
export function plain_name(name: string): string {
  const plain = name.replace(/[/\\:"\u0000-\u001f\u007f]/g, "-").replace(/^\.+/, "");
  const end = /\.[^.]{1,8}$/.exec(plain)?.[0] ?? "";
  const letters = [...plain.slice(0, plain.length - end.length)];
  const length = (text: string) => new TextEncoder().encode(text).length;
  while (length(letters.join("") + end) > longest_name) letters.pop();
  return letters.join("") + end || "weather";
}

/** What keeps a file from being sent at all; null: nothing. */
export function too_long(bytes: number): Problem | null {
  if (bytes <= most_bytes) return null;
  return {
    code: "too_large",
    where: "",
    message: "The file is longer than 67 MB.",
    hint: "Is it the right file? A weather file has a few MB.",
  };
}

async function brought_in(id: string, file: File): Promise<void> {
  const query = { name: plain_name(file.name) };
  const kept = await send_file("/api/gardens/{garden}/files", { path: { garden: id }, query }, file);
  if (id !== garden.peek()) return;
  const told = await act.set_table("climate", { weather_file: kept.name });
  if (told !== null) return;
  weather_notes.value = { name: kept.name, notes: kept.notes };
  saying.value = `The weather comes from ${kept.name} now.`;
}

/** Keeps the file with the garden and takes the weather from it. Out: what is wrong with it. */
export async function bring_weather(file: File): Promise<Problem[]> {
  const id = garden.peek();
  const long = too_long(file.size);
  if (id === null || long !== null) return long === null ? [] : [long];
  weather_comes.value = file.name;
  try {
    await brought_in(id, file);
  } catch (error) {
    if (error instanceof Refused) return error.problems.length > 0 ? error.problems : [error.problem];
    load_error(error);
  } finally {
    weather_comes.value = null;
  }
  return [];
}

/** Takes the weather from the stations around; the file stays with the garden, for undo. */
export async function leave_weather(): Promise<void> {
  const told = await act.set_table("climate", { weather_file: null });
  if (told === null) saying.value = "The weather comes from the stations around now.";
}
