// What the light would be, while a thing is dragged, reshaped or thought away. One question at a time: while
// it is asked the newest position waits, older ones are forgotten.
import { batch, effect } from "@preact/signals";
import { Gone, Refused, send_for_bytes, unpack_field } from "../api";
import { garden, gone, head, problem, scheme } from "./garden";
import { field, time_asked, trying, without } from "./light";
import { when } from "./when";

interface Question {
  thing: string;
  move_m?: [number, number];
  set?: Record<string, unknown>;
  without?: true;
  quick: boolean;
  shown: boolean;
}

/** One question at a time: while one is asked the newest waits, older ones are forgotten. */
export class NewestOnly<Q> {
  private is_asking = false;
  private next: Q | null = null;
  constructor(private readonly ask: (question: Q) => Promise<void>) {}

  get is_idle(): boolean {
    return !this.is_asking && this.next === null;
  }
  /** What is forgotten by it, if anything waited. */
  put(question: Q | null): Q | null {
    const was = this.next;
    this.next = question;
    return was;
  }
  async run(): Promise<void> {
    if (this.is_asking) return;
    this.is_asking = true;
    try {
      for (let question = this.next; question !== null; question = this.next) {
        this.next = null;
        await this.ask(question);
      }
    } finally {
      this.is_asking = false;
    }
  }
}

let turn = 0; // a question of an earlier turn is not shown

async function ask_trial(question: Question): Promise<void> {
  const id = garden.peek();
  if (id === null || gone.peek()) return;
  const asked_in = turn;
  const { thing, quick, shown } = question;
  const body = {
    scheme: scheme.peek(),
    thing,
    quick,
    ...(shown ? {} : { ahead: true }),
    ...(question.without ? { without: true } : question.set !== undefined ? { set: question.set } : { move_m: question.move_m ?? [0, 0] }),
    ...time_asked(when.peek()),
  };
  try {
    const path = { garden: id };
    const bytes = await send_for_bytes("/api/gardens/{garden}/try", { path }, body as never);
    if (shown && asked_in === turn) trying.value = { thing, field: unpack_field(bytes) };
  } catch (error) {
    if (error instanceof Gone) gone.value = true;
    else if (error instanceof Refused) {
      const is_stopped = error.problem.code === "no_answer"; // by an edit: it is asked anew of the garden as it is then
      if (question.without && !is_stopped) problem.value = { message: error.problem.message, hint: error.problem.hint };
    } else throw error;
  }
}

const questions = new NewestOnly(ask_trial);

function ask_next(question: Question): void {
  questions.put(question);
  void questions.run();
}

/** The light with the thing moved; `trying` has it when it is there. */
export function try_move(thing: string, move_m: [number, number]): void {
  ask_next({ thing, move_m, quick: true, shown: true });
}

/** The light with the thing of another shape. */
export function try_shape(thing: string, set: Record<string, unknown>): void {
  ask_next({ thing, set, quick: true, shown: true });
}

/** A first question, so that the ones to come are quick. Nothing is shown of it. */
export function warm_up(thing: string): void {
  if (questions.is_idle) ask_next({ thing, move_m: [0, 0], quick: true, shown: false });
}

/** The last light tried stands until the edit's own is there. */
export function hold_trial(): void {
  turn += 1;
  questions.put(null);
}

/** Nothing is tried any more. */
export function end_trial(): void {
  turn += 1;
  questions.put(null);
  if (without.peek() === null) trying.value = null;
}

effect(() => {
  const thing = without.value;
  if (thing === null) {
    batch(() => {
      turn += 1;
      questions.put(null);
      trying.value = null;
    });
    return;
  }
  // Asked anew when the garden changes; what else is tried ends when the new light is there.
  if (head.value === null) return;
  scheme.value;
  when.value;
  ask_next({ thing, without: true, quick: false, shown: true });
});

/** The light on the sheet: as tried, else as it is. */
export function shown_field() {
  return trying.value?.field ?? field.value;
}
