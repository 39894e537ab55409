// How far the first steps are, read from the document itself: whoever wrote it, and however.
import { computed, effect, signal } from "@preact/signals";
import { garden, guessed_of, left_for_later, single, state } from "../../state";

export const step_names = ["place", "plot", "north", "level", "around", "bed"] as const;
export type StepName = (typeof step_names)[number];
export type How = "done" | "guessed" | "not yet";

export interface StepLine {
  name: StepName;
  says: string;
  how: How;
}

const says: Record<StepName, string> = {
  place: "Place",
  plot: "Plot",
  north: "North",
  level: "Level",
  around: "What stands around",
  bed: "A bed",
};

const standing = new Set(["wall", "building", "tree", "object"]);

function how_of(name: StepName): How {
  const things = state.value?.things ?? [];
  if (name === "place") return guessed_of("garden").includes("latitude_deg") ? "guessed" : "done";
  if (name === "plot") return (state.value?.boundary.length ?? 0) < 3 ? "not yet" : guessed_of("boundary").length > 0 ? "guessed" : "done";
  if (name === "north") return guessed_of("garden").includes("plan_north_deg") ? "guessed" : "done";
  if (name === "level") {
    const is_told = single("ground", "falls_m") !== undefined || single("ground", "spots") !== undefined;
    return !is_told ? "not yet" : guessed_of("ground").some((key) => ["falls_m", "toward_deg", "over", "spots"].includes(key)) ? "guessed" : "done";
  }
  if (name === "around") {
    const around = things.filter((thing) => standing.has(thing.table));
    const has_skyline = single("ground", "horizon") !== undefined;
    if (around.length === 0 && !has_skyline) return "not yet";
    return around.some((thing) => thing.fields["guessed"] !== undefined) || guessed_of("ground").includes("horizon") ? "guessed" : "done";
  }
  return things.some((thing) => thing.table === "bed" && thing.mark !== "removed") ? "done" : "not yet";
}

export const step_lines = computed<readonly StepLine[]>(() => step_names.map((name) => ({ name, says: says[name], how: how_of(name) })));

/** Guessed from the start: the page's up for north, a town's place. The first waits for a look, the second does not. */
const waits = (line: StepLine) => line.how === "not yet" || (line.name === "north" && line.how === "guessed");

/** A step opened by hand; null: none; undefined: the first that waits. */
export const opened = signal<StepName | null | undefined>(undefined);
effect(() => {
  garden.value;
  opened.value = undefined;
});
export const next_step = computed<StepName | null>(() => step_lines.value.find((line) => waits(line) && !left_for_later.value.includes(line.name))?.name ?? null);
export const open_step = computed<StepName | null>(() => (opened.value === undefined ? next_step.value : opened.value));

/** The sheet takes the keys from here. */
export const to_sheet = () => document.querySelector<HTMLElement>('[data-region="sheet"]')?.focus({ preventScroll: true });
