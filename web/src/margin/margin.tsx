// The margin: notes beside the drawing. The answer first; then what is selected; why under every figure.
import "./margin.css";
import "./why.css";
import "./light.css";
import "./form.css";
import { useEffect, useRef } from "preact/hooks";
import { garden, selected, things } from "../state";
import { GardenNotes } from "./garden_notes";
import { ThingNotes } from "./thing_notes";
import { forget_why, is_asked, why_back, WhyNotes } from "./why_words";
import { WonStrip } from "./won";

export function Margin() {
  const id = selected.value;
  const thing = id === null ? undefined : things.value.get(id);
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
      <div hidden={is_asked()}>{thing === undefined ? <GardenNotes /> : <ThingNotes key={thing.id} thing={thing} />}</div>
      {!is_asked() && <WonStrip />}
      <p id="notes-hands" class="unseen">A letter goes to the next word or figure that begins with it; F6 goes on.</p>
    </div>
  );
}
