// The margin: notes beside the drawing. The answer first; then what is selected; why under every figure.
import "./margin.css";
import "./why.css";
import "./light.css";
import "./form.css";
import { useEffect, useRef } from "preact/hooks";
import { entries, garden, selected, things } from "../state";
import { adding } from "../tools";
import { AddNotes } from "./add_notes";
import { EntryNotes } from "./entry_notes";
import { GardenNotes } from "./garden_notes";
import { ThingNotes } from "./thing_notes";
import { forget_why, is_asked, why_back, WhyNotes } from "./why_words";
import { WonStrip } from "./won";

function NotesOn({ id }: { id: string | null }) {
  const [thing, entry] = id === null ? [] : [things.value.get(id), entries.value.get(id)];
  if (thing !== undefined) return <ThingNotes key={thing.id} thing={thing} />;
  if (entry !== undefined) return <EntryNotes key={entry.id} entry={entry} />;
  return adding.value !== null ? <AddNotes key={adding.value.what.says} /> : <GardenNotes />;
}

export function Margin() {
  const id = selected.value;
  const notes = useRef<HTMLDivElement>(null);
  const touched = useRef(-Infinity);
  useEffect(() => {
    forget_why();
    notes.current?.parentElement?.scrollTo(0, 0);
    // A word that led elsewhere is gone, and with it the focus: it stays in the notes.
    const led_here = performance.now() - touched.current < 500;
    if (led_here && (document.activeElement === null || document.activeElement === document.body)) notes.current?.focus({ preventScroll: true });
  }, [id, garden.value]);
  function key(event: KeyboardEvent): void {
    if (event.key !== "Escape" || event.defaultPrevented || !why_back()) return;
    event.preventDefault();
    event.stopPropagation();
  }
  return (
    <div class="margin-notes" data-region="margin" role="region" aria-label="Notes" aria-describedby="notes-hands" tabIndex={-1} ref={notes} onClickCapture={() => (touched.current = performance.now())} onKeyDown={key}>
      {is_asked() && <WhyNotes />}
      <div hidden={is_asked()}><NotesOn id={id} /></div>
      {!is_asked() && <WonStrip />}
      <p id="notes-hands" class="unseen">A letter goes to the next word or figure that begins with it; F6 goes on.</p>
    </div>
  );
}
