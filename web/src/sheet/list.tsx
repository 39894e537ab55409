// The sheet's twin without a drawing: all things by name, and the figures that the picture shows.
import { signal } from "@preact/signals";
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { Thing } from "../api";
import { garden, hovered, link, link_to_table, scheme, selected, sides, state, when_says } from "../state";
import { draw_menu, entry_words, grouped_entries, select, table_called } from "../tools";
import { figures_of } from "./chips";
import { scheme_says } from "./key";
import { type Shown, shown_on } from "./shown";

export const list_open = signal(false);

const groups: readonly [string, readonly string[]][] = [
  ["Beds", ["bed"]],
  ["Trees and plants", ["tree", "plant", "container"]],
  ["Walls, fences, hedges", ["wall", "gate"]],
  ["Buildings", ["building", "object", "tank"]],
  ["Supports and covers", ["support", "cover"]],
  ["Seats", ["seat"]],
  ["Paths and areas", ["path", "area"]],
  ["Points", ["point"]],
  ["In the ground", ["patch", "service"]],
  ["Kept in sight or hidden", ["view", "hide", "watch"]],
  ["Pictures laid under", ["picture"]],
];

const found_words = ["kind", "crop", "what", "treatment", "surface", "note"];

/** What is sought stands in its name, in what it is, or in its group's name: each word of it somewhere. */
function is_sought(thing: Thing, group: string, sought: string): boolean {
  const text = [thing.id, thing.table, group, mark_words[thing.mark], ...found_words.map((key) => thing.fields[key]?.typed ?? "")].join(" ").toLowerCase();
  return sought.toLowerCase().split(/\s+/).every((word) => text.includes(word));
}

const mark_words: Record<Thing["mark"], string> = {
  existing: "",
  changed: "changed",
  proposed: "new",
  removed: "to go",
};

function ThingRow({ thing, figure }: { thing: Thing; figure: string | undefined }) {
  const kind = thing.fields["kind"]?.typed ?? (thing.table === "bed" ? "" : table_called(thing.table));
  return (
    <li>
      <button
        type="button"
        class="list-thing"
        aria-pressed={selected.value === thing.id}
        onClick={() => {
          select(selected.peek() === thing.id ? null : thing.id);
          if (innerWidth < 900) list_open.value = false; // it covers the sheet
        }}
        onMouseEnter={() => (hovered.value = thing.id)}
        onMouseLeave={() => (hovered.value = null)}
      >
        <span class="list-name">{thing.id}</span>
        {figure === undefined ? (
          <span class="list-kind">{kind === thing.id ? "" : kind}</span>
        ) : (
          <span class="list-figure">{figure}</span>
        )}
        <span class={`list-mark mark-${thing.mark}`}>{mark_words[thing.mark]}</span>
      </button>
    </li>
  );
}

const entry_text = (entry: Thing, group: string) => {
  const { title, more } = entry_words(entry);
  return [title, more, entry.table, group, ...Object.values(entry.fields).map((field) => field.typed)].join(" ").toLowerCase();
};

/** Those of no place on the sheet: each group with what is sought. */
function entries_sought(sought: string): [string, Thing[]][] {
  const words = sought.toLowerCase().split(/\s+/);
  return grouped_entries.value
    .map(([name, of]): [string, Thing[]] => [name, of.filter((entry) => words.every((word) => entry_text(entry, name).includes(word)))])
    .filter(([, of]) => of.length > 0);
}

function EntryRow({ entry }: { entry: Thing }) {
  const { title, more } = entry_words(entry);
  return (
    <li>
      <button
        type="button"
        class="list-thing is-entry"
        aria-pressed={selected.value === entry.id}
        onClick={() => {
          select(selected.peek() === entry.id ? null : entry.id);
          if (innerWidth < 900) list_open.value = false;
        }}
      >
        <span class="list-name">{title}</span>
        <span class="list-kind">{more}</span>
      </button>
    </li>
  );
}

/** What the figures beside the beds are. */
function figures_say(shown: Shown): string {
  const { kind } = shown.light.value;
  const of = kind === "hours" ? "hours of sun a day" : kind === "moment" ? "sun or shade" : "hours won or lost a day";
  return `Beside the beds: ${of}, ${when_says.value}, clear sky.`;
}

function HoursTable({ shown, says }: { shown: Shown; says: string }) {
  const { kind } = shown.light.value;
  const figures = figures_of(shown);
  if (figures.length === 0) return null;
  const unit = kind === "hours" ? "hours a day" : kind === "moment" ? "sun or shade" : "hours won or lost";
  const is_tried = figures.some((figure) => figure.gain !== "");
  return (
    <table class="figures">
      <caption>{says}</caption>
      <thead>
        <tr>
          <th scope="col">bed</th>
          <th scope="col" class="number">{unit}</th>
          {is_tried && <th scope="col" class="number">by the try</th>}
        </tr>
      </thead>
      <tbody>
        {figures.map(({ id, says: figure, gain }) => (
          <tr key={id}>
            <th scope="row">{id}</th>
            <td class="number">{figure}</td>
            {is_tried && <td class="number">{gain}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

export function ThingList() {
  const panel = useRef<HTMLDivElement>(null);
  const [left, right] = useMemo(() => [shown_on(0), shown_on(1)], []);
  const [sought, seek] = useState("");
  useEffect(() => {
    if (list_open.value) panel.current?.querySelector<HTMLElement>("button")?.focus();
  }, [list_open.value]);
  if (!list_open.value) return null;
  const figures = new Map(figures_of(left).map(({ id, says }) => [id, says]));
  const all = state.value?.things ?? [];
  const shown = groups
    .map(([name, tables]): [string, Thing[]] => [name, all.filter((thing) => tables.includes(thing.table) && is_sought(thing, name, sought))])
    .filter(([, of]) => of.length > 0);
  const further = entries_sought(sought);
  const total = grouped_entries.value.reduce((sum, [, of]) => sum + of.length, 0) + all.filter((thing) => groups.some(([, tables]) => tables.includes(thing.table))).length;
  const count = [...shown, ...further].reduce((sum, [, of]) => sum + of.length, 0);
  function key(event: KeyboardEvent): void {
    if (event.key !== "Escape") return;
    event.stopPropagation();
    event.preventDefault();
    list_open.value = false;
    document.querySelector<HTMLElement>(".open-list")?.focus();
  }
  const light_says = (name: string) => `Light in the beds, ${scheme_says(name).toLowerCase()}, ${when_says.value}`;
  return (
    <div class="list-panel" data-letters ref={panel} role="region" aria-label="All things" onKeyDown={key}>
      <div class="list-head">
        <h2>All things</h2>
        <button type="button" class="word-button" onClick={() => (list_open.value = false)}>Close</button>
      </div>
      <p class="list-says">{figures_say(left)}</p>
      <label class="list-find">
        Find
        <input
          type="text"
          autocomplete="off"
          placeholder="a name, apple, wall, new …"
          value={sought}
          onInput={(event) => seek(event.currentTarget.value)}
        />
      </label>
      <p class="list-count" role="status">{sought.trim() === "" ? `${count} ${count === 1 ? "thing" : "things"}` : count === 0 ? "Nothing like it." : `${count} of ${total}`}</p>
      {shown.map(([name, of]) => (
        <section key={name}>
          <h3>{name}</h3>
          <ul>{of.map((thing) => <ThingRow key={thing.id} thing={thing} figure={figures.get(thing.id)} />)}</ul>
        </section>
      ))}
      {further.length > 0 && <h2 class="list-further">Not on the sheet</h2>}
      {further.map(([name, of]) => (
        <section key={name}>
          <h3>{name}</h3>
          <ul>{of.map((entry) => <EntryRow key={entry.id} entry={entry} />)}</ul>
        </section>
      ))}
      {link.value !== "read_only" && (
        <p>
          <button
            type="button"
            class="word-button"
            onClick={() => {
              if (innerWidth < 900) list_open.value = false;
              draw_menu.value = true;
            }}
          >
            Add something, by hand or by figures
          </button>
        </p>
      )}
      <HoursTable shown={left} says={light_says(left.scheme.value)} />
      {sides.value !== null && <HoursTable shown={right} says={light_says(right.scheme.value)} />}
      {garden.value !== null && (
        <p>
          <a class="word-button" href={link_to_table(garden.value, scheme.value)} download>These figures as a table (CSV)</a>
        </p>
      )}
    </div>
  );
}
