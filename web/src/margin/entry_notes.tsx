// Notes on what has no place on the sheet: what it is, its facts, and taking it away.
import { useEffect } from "preact/hooks";
import type { Thing } from "../api";
import { is_entry, parts_of, schema, scheme, selected, state } from "../state";
import { can_be_taken_away, entry_words, select, table_says } from "../tools";
import { TakeAwayWord } from "./deeds";
import { says_plainly } from "./facts";
import { Facts } from "./form";
import { Name } from "./name";

/** Those that go by an id of their own, which others may refer to. */
const has_name = (entry: Thing) => (entry.table === "task" || entry.table === "stand") && parts_of(entry.id).name !== "";

const is_one_of_many = (entry: Thing) => parts_of(entry.id).name !== "" || parts_of(entry.id).nth !== null;

const whole = (id: string | undefined): string => (id === undefined || id === "" ? "every way, and as found" : id);

/** What was typed or touched before them is gone, and with it the focus: it comes to the notes. */
function take_lost_focus(): void {
  const at = document.activeElement;
  if (at === null || at === document.body) document.querySelector<HTMLElement>('[data-region="margin"]')?.focus({ preventScroll: true });
}

export function EntryNotes({ entry }: { entry: Thing }) {
  useEffect(take_lost_focus, []);
  const { title, more } = entry_words(entry);
  const table = schema.value?.tables.find(({ name }) => name === entry.table);
  const own = entry.fields["scheme"]?.typed;
  const altered = entry.table === "change" ? entry.fields["thing"]?.typed : undefined;
  return (
    <section class="notes" aria-label={`Notes on ${title}`}>
      <div class="thing-head">
        {has_name(entry) ? <Name thing={entry} /> : <h2 class="thing-name">{title}</h2>}
        <button type="button" class="word-button" onClick={() => (selected.value = null)}>To the garden</button>
      </div>
      <p class="thing-kind">
        {table_says(entry.table)}
        {more !== "" && `, ${more}`}
        {own !== undefined && `, only in ${whole(own)}`}
        {entry.mark === "proposed" && <>, <span class="is-proposed">new</span></>}
        {entry.mark === "removed" && ", to go"}
        {own === undefined && (state.value?.schemes.length ?? 0) > 2 && scheme.value !== "found" && entry.table !== "scheme" && entry.table !== "change" && <span class="unseen">, the same in {whole(own)}</span>}
      </p>
      {table !== undefined && entry.table !== "change" && !table.says.startsWith(title) && <p class="small">{says_plainly(table.says)}</p>}
      {altered !== undefined && !is_entry(altered) && (
        <p class="deeds"><button type="button" class="word-button" onClick={() => select(altered)}>Show {altered}</button></p>
      )}
      <Facts thing={entry} />
      {can_be_taken_away(entry) && (
        <TakeAwayWord id={entry.id} words={entry.table === "change" ? `Put ${title} back` : is_one_of_many(entry) ? `Take ${title} away` : "Take all this away"} is_gone={() => true} />
      )}
    </section>
  );
}
