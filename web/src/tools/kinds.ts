// What can be drawn, in growers' words: of which table, by which gesture, with which figures offered.
import { computed } from "@preact/signals";
import type { SchemaKey } from "../api";
import { schema } from "../state";

/** box: a drag, or a tap of the size offered. line, outline: corner after corner. pair: two touches.
sight: a touch on who looks, and one on what is looked at. */
export type Gesture = "box" | "line" | "outline" | "pair" | "point" | "sight";

export interface Kind {
  says: string; // in the menu
  table: string;
  by: Gesture;
  lies_in: string; // the key of its place: "at", "line", "outline", "row"
  second?: string; // a pair's second place has a key of its own
  what?: string; // the key that says what it is
  offered: Readonly<Record<string, unknown>>;
  guessed?: readonly string[]; // figures offered that are nobody's measure
  size?: readonly [number, number]; // of a box
  called?: string; // its name before it has one
}

export const kind_groups: readonly (readonly [string, readonly Kind[]])[] = [
  ["Ground and edges", [
    { says: "Boundary", table: "boundary", by: "outline", lies_in: "outline", offered: {}, size: [10, 12] },
    { says: "Lawn, paving, other ground", table: "area", by: "outline", lies_in: "outline", what: "treatment", offered: { treatment: "lawn" } },
    { says: "Poor or tainted patch", table: "patch", by: "outline", lies_in: "outline", what: "what", offered: { what: "bindweed" } },
    { says: "Cable, pipe or drain", table: "service", by: "line", lies_in: "line", what: "kind", offered: { kind: "unknown" } },
  ]],
  ["Beds and paths", [
    { says: "Bed", table: "bed", by: "box", lies_in: "at", offered: {}, size: [1.2, 3.6] },
    { says: "Bed of another shape", table: "bed", by: "outline", lies_in: "outline", offered: {} },
    { says: "Path", table: "path", by: "line", lies_in: "line", what: "surface", offered: { width_m: 0.6, surface: "wood chips" } },
  ]],
  ["Plants", [
    { says: "Plant", table: "plant", by: "point", lies_in: "at", what: "crop", offered: { crop: "gooseberry" } },
    { says: "Row of plants", table: "plant", by: "pair", lies_in: "row", what: "crop", offered: { crop: "raspberry", count: 5 } },
    { says: "Drift of plants", table: "plant", by: "outline", lies_in: "outline", what: "crop", offered: { crop: "strawberry" } },
    { says: "Pot or tub", table: "container", by: "point", lies_in: "at", offered: { volume_l: 40 }, guessed: ["volume_l"], called: "pot" },
    { says: "Cover, frame, glasshouse", table: "cover", by: "outline", lies_in: "outline", what: "kind", offered: { kind: "frame", height_m: 0.5 }, guessed: ["height_m"], size: [1.2, 1.8] },
  ]],
  ["What stands", [
    { says: "Wall", table: "wall", by: "line", lies_in: "line", what: "kind", offered: { kind: "brick", height_m: 1.8 }, guessed: ["height_m"], called: "wall" },
    { says: "Fence", table: "wall", by: "line", lies_in: "line", what: "kind", offered: { kind: "close board", height_m: 1.8 }, guessed: ["height_m"], called: "fence" },
    { says: "Hedge", table: "wall", by: "line", lies_in: "line", what: "kind", offered: { kind: "hedge", height_m: 1.8 }, guessed: ["height_m"], called: "hedge" },
    { says: "Building", table: "building", by: "outline", lies_in: "outline", offered: { eaves_m: 2.4 }, guessed: ["eaves_m"], size: [3, 2] },
    { says: "Tree", table: "tree", by: "point", lies_in: "at", what: "kind", offered: { kind: "apple", height_m: 4, crown_width_m: 3 }, guessed: ["height_m", "crown_width_m"] },
    { says: "Support for climbers", table: "support", by: "point", lies_in: "at", what: "kind", offered: { kind: "obelisk", height_m: 1.9, width_m: 0.5 } },
    { says: "Wires or trellis along a line", table: "support", by: "line", lies_in: "line", what: "kind", offered: { kind: "wires", height_m: 1.8 } },
    { says: "Seat", table: "seat", by: "pair", lies_in: "at", second: "facing", offered: {} },
    { says: "Water tank", table: "tank", by: "point", lies_in: "at", offered: { litres: 200 }, guessed: ["litres"] },
    { says: "Bin, swing, other body", table: "object", by: "outline", lies_in: "outline", what: "what", offered: { height_m: 1.2 }, guessed: ["height_m"], size: [0.6, 0.6] },
  ]],
  ["Points", [
    { says: "Gate", table: "gate", by: "point", lies_in: "at", offered: { width_m: 0.9 }, guessed: ["width_m"] },
    { says: "Door, window, tap, peg", table: "point", by: "point", lies_in: "at", what: "kind", offered: { kind: "peg" } },
  ]],
  ["Lines of sight", [
    { says: "View to keep open", table: "view", by: "sight", lies_in: "from", second: "to", offered: {} },
    { says: "Something to hide", table: "hide", by: "sight", lies_in: "from", second: "to", offered: {} },
    { says: "Something to keep in sight", table: "watch", by: "sight", lies_in: "from", second: "to", offered: {} },
  ]],
];

const plain_tables: Readonly<Record<string, string>> = {
  area: "ground", service: "cable or pipe", container: "pot", object: "standing thing", point: "mark", view: "view kept open", hide: "to be hidden", watch: "kept in sight", picture: "picture laid under",
};
/** A table in growers' words. */
export const table_called = (table: string): string => plain_tables[table] ?? table;

const tables = computed(() => new Map((schema.value?.tables ?? []).map((table) => [table.name, table])));

export function key_of(table: string, key: string): SchemaKey | undefined {
  return tables.value.get(table)?.keys.find(({ name }) => name === key);
}

/** Those that the program knows. */
export const known_groups = computed(() =>
  kind_groups
    .map(([name, kinds]): [string, Kind[]] => [name, kinds.filter((kind) => key_of(kind.table, kind.lies_in) !== undefined)])
    .filter(([, kinds]) => kinds.length > 0),
);

/** The words that a key takes: its own, or those of its catalogue. */
export function words_for(key: SchemaKey | undefined): readonly string[] {
  if (key === undefined) return [];
  const named = key.catalogue === undefined ? [] : (schema.value?.catalogues[key.catalogue] ?? []);
  return [...(key.words ?? []), ...named];
}

export const called_plainly = (key: SchemaKey): string => key.called ?? key.name.replace(/_/g, " ");
