// The light with a figure that is not kept yet. One question at a time: the newest figure goes next.
import { signal } from "@preact/signals";
import { type Field, Gone, Refused, send_for_bytes, unpack_field } from "../api";
import { garden, gone, is_entry, NewestOnly, scheme, time_asked, trying, when, without } from "../state";

export interface FactTried {
  thing: string;
  set: Record<string, unknown>;
  says: string; // "With medlar’s crown base at 2.4"
}

/** What the light shown is tried with. */
const told = signal<{ field: Field; says: string } | null>(null);
type Question = FactTried & { turn: number; settle: (is_refused: boolean) => void };
/** Between two strokes of a quick hand: what is typed halfway is not worth its shadows. */
const rest_ms = 120;
let resting: ReturnType<typeof setTimeout> | undefined;
let turn = 0; // a question of an earlier turn is not shown

export function fact_tried_says(field: Field): string {
  return told.value?.field === field ? told.value.says : "";
}

async function ask_fact(question: Question): Promise<void> {
  const id = garden.peek();
  if (id === null || gone.peek()) return question.settle(false);
  const body = { scheme: scheme.peek(), thing: question.thing, set: question.set, quick: true, ...time_asked(when.peek()) };
  try {
    const field = unpack_field(await send_for_bytes("/api/gardens/{garden}/try", { path: { garden: id } }, body as never));
    if (question.turn === turn && without.peek() === null) {
      told.value = { field, says: question.says };
      trying.value = { thing: question.thing, field };
    }
    question.settle(false);
  } catch (error) {
    if (error instanceof Refused) question.settle(true); // Told at the field, once it is to be kept.
    else if (error instanceof Gone) {
      gone.value = true;
      question.settle(false);
    } else throw error;
  }
}

const questions = new NewestOnly(ask_fact);

/** What waited is not asked any more, and was not refused. */
const forget = () => questions.put(null)?.settle(false);

/** Whether the figure was refused; an older one that never was asked is not. */
export function try_fact(fact: FactTried): Promise<boolean> {
  forget();
  if (is_entry(fact.thing)) return Promise.resolve(false); // it casts no shadow
  return new Promise((settle) => {
    questions.put({ ...fact, turn, settle });
    clearTimeout(resting);
    resting = setTimeout(() => void questions.run(), rest_ms);
  });
}

/** The figure is to be kept: what is shown stands until the garden's own light, what is under way is
not shown any more. */
export function hold_fact_trial(): void {
  turn += 1;
  forget();
}

/** The figure is not tried any more: it was kept as it was, or refused. */
export function end_fact_trial(): void {
  hold_fact_trial();
  if (without.peek() === null && trying.peek()?.field === told.peek()?.field) trying.value = null;
}
