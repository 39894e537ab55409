// Loading what a signal shows: anew when what it depends on changes, the newest question alone
// counting, the old answer standing until the new one is there.
import { batch, effect, signal, type Signal } from "@preact/signals";
import { Gone, Refused } from "../api";

/** Nobody answers. */
export const gone = signal(false);
/** The program answers and cannot write: its words for why. What was done waits. */
export const no_room = signal<{ message: string; hint: string } | null>(null);
/** Counted up to ask everything again. */
export const again = signal(0);
/** What went wrong or was refused, told in the header until the next action. */
export const problem = signal<{ message: string; hint: string } | null>(null);

export type Asking<T> = (signal: AbortSignal) => Promise<T>;

export interface Loading {
  busy: Signal<boolean>;
  stop: () => void;
}

function is_abort(error: unknown): boolean {
  return error instanceof DOMException && error.name === "AbortError";
}

export interface LoadOptions<T> {
  /** Runs in the same batch in which the answer is set. */
  then?: (answer: T) => void;
  /** False: it was told elsewhere. */
  refused?: (refused: Refused) => void;
}

/** `question` reads the signals it depends on and gives how to ask; null: there is nothing to show. */
export function load<T>(
  target: Signal<T | null>,
  question: () => Asking<T> | null,
  options: LoadOptions<T> = {},
): Loading {
  const busy = signal(false);
  const stop = effect(() => {
    again.value;
    const asking = question();
    if (asking === null) {
      batch(() => {
        target.value = null;
        busy.value = false;
      });
      return undefined;
    }
    const abort = new AbortController();
    busy.value = true;
    asking(abort.signal)
      .then((answer) => {
        if (abort.signal.aborted) return;
        batch(() => {
          target.value = answer;
          busy.value = false;
          options.then?.(answer);
        });
      })
      .catch((error: unknown) => {
        if (abort.signal.aborted || is_abort(error)) return;
        if (error instanceof Gone) {
          gone.value = true;
          return;
        }
        batch(() => {
          busy.value = false;
          if (!(error instanceof Refused)) throw error;
          if (options.refused !== undefined) options.refused(error);
          else problem.value = { message: error.problem.message, hint: error.problem.hint };
        });
      });
    return () => abort.abort();
  });
  return { busy, stop };
}

/** What becomes of an error of something asked for once. */
export function load_error(error: unknown): void {
  if (is_abort(error)) return;
  if (error instanceof Gone) gone.value = true;
  else if (error instanceof Refused) problem.value = { message: error.problem.message, hint: error.problem.hint };
  else throw error;
}
