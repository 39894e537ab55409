// First measures, asked of the program as they are typed: nothing is kept until it is said.
import { Gone, type Measure, type Measured, Refused, send } from "../api";
import { act, garden, state } from "./garden";
import { gone } from "./load";

export interface NotMeasured {
  where: string; // which figure
  message: string;
  hint: string;
}
export type Told = { is: Measured; not: null } | { is: null; not: NotMeasured } | null; // null: nobody answers, or it is overtaken

const town_km = 10; // about as far from a town's station as a garden said to lie there

/** Of a town named for the place: the program's figures are less sure. */
function of_town(): { place_sure_km?: number } {
  return guessed_of("garden").includes("latitude_deg") ? { place_sure_km: town_km } : {};
}

export async function measure(asked: Measure, signal?: AbortSignal): Promise<Told> {
  const id = garden.peek();
  if (id === null) return null;
  try {
    const is = await send("/api/gardens/{garden}/measure", { path: { garden: id } }, { ...of_town(), ...asked }, signal ?? null);
    return { is, not: null };
  } catch (error) {
    if (error instanceof Refused) return { is: null, not: error.problem };
    if (error instanceof Gone) gone.value = true;
    else if (!(error instanceof DOMException)) throw error;
    return null;
  }
}

type Single = "garden" | "boundary" | "ground";

/** A figure of a table that there is one of; undefined: the document has none. */
export function single(table: Single, key: string): unknown {
  return state.value?.singles[table][key]?.value;
}
/** The same as it was typed, its parts apart; a bare figure with its unit. */
export function single_typed(table: Single, key: string): string[] {
  const field = state.value?.singles[table][key];
  if (field === undefined) return [];
  const parts: unknown[] = Array.isArray(field.parts) ? field.parts : [field.parts ?? field.value];
  return parts.map((part) => (typeof part === "number" ? `${part} m` : String(part)));
}
export function guessed_of(table: Single): string[] {
  const keys = single(table, "guessed");
  return Array.isArray(keys) ? keys.filter((key): key is string => typeof key === "string") : [];
}
/** What `guessed` of a table is to be, with some keys measured now and some only guessed. */
export function guessed_after(table: Single, measured: readonly string[], only_guessed: readonly string[]): string[] | null {
  const rest = guessed_of(table).filter((key) => !measured.includes(key) && !only_guessed.includes(key));
  const keys = [...rest, ...only_guessed];
  return keys.length === 0 ? null : keys;
}

/** North turned, as one step. A fall whose way was seen on the page stays as it lies there: its bearing was only
as good as north. */
export async function turn_north(plan_north_deg: number, is_measured: boolean, says: string): Promise<boolean> {
  const turned = plan_north_deg - (state.peek()?.site.plan_north_deg ?? 0);
  const guessed = is_measured ? guessed_after("garden", ["plan_north_deg"], []) : guessed_after("garden", [], ["plan_north_deg"]);
  const toward = single("ground", "toward_deg");
  const follows = typeof toward === "number" && guessed_of("ground").includes("toward_deg") && turned !== 0;
  const toward_deg = follows ? Number(((((toward + turned) % 360) + 360) % 360).toFixed(1)) : 0;
  const parts = [{ table: "garden", set: { plan_north_deg, guessed } }, ...(follows ? [{ table: "ground", set: { toward_deg } }] : [])];
  return (await act.all(parts, says)).told === null;
}
