// Loading what a signal shows: anew when what it depends on changes, the newest question alone
// counting, the old answer standing until the new one is there.
import { batch, effect, type ReadonlySignal, signal, type Signal } from "@preact/signals";
import { ask, Gone, Refused } from "../api";

/** Nobody answers. */
export const gone = signal(false);
/** The program answers and cannot write: its words for why. What was done waits. */
export const no_room = signal<{ message: string; hint: string } | null>(null);
/** Counted up to ask everything again. */
export const again = signal(0);
/** What went wrong or was refused, told in the header until the next action. */
export const problem = signal<{ message: string; hint: string } | null>(null);

/** `job`: a name for the work, with which it is watched. */
export type Asking<T> = (signal: AbortSignal, job: string) => Promise<T>;

export interface Loading {
  busy: Signal<boolean>;
  share: Signal<number>; // of long work that is done; 0: it only began, or does not tell
  stop: () => void;
}

function is_abort(error: unknown): boolean {
  return error instanceof DOMException && error.name === "AbortError";
}

const look_ms = 700;
const rest_ms = 400;

/** After a rest, unless it is overtaken meanwhile. */
const rested = (signal: AbortSignal): Promise<void> =>
  new Promise((resolve, reject) => {
    const timer = setTimeout(resolve, rest_ms);
    signal.addEventListener("abort", () => {
      clearTimeout(timer);
      reject(new DOMException("It was overtaken.", "AbortError"));
    });
  });

/** How far the work is; looked at when it takes long. */
async function watch_job(job: string, share: Signal<number>, signal: AbortSignal): Promise<void> {
  for (;;) {
    await new Promise((resolve) => setTimeout(resolve, look_ms));
    if (signal.aborted) return;
    const now = await ask("/api/jobs/{job}", { path: { job } }, signal).catch(() => null);
    if (signal.aborted || now === null) return;
    if (now.running) share.value = now.share;
  }
}

export interface LoadOptions<T> {
  /** The work may be long: it is watched. */
  long?: boolean;
  /** A question that overtakes one not answered yet waits a moment, in case it is overtaken too: figure after
   * figure typed is one question at the end, not one for each. */
  rests?: boolean;
  /** While it is true nothing is asked, and what is under way is given up: the old answer stands. */
  held?: ReadonlySignal<boolean>;
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
  const share = signal(0);
  let is_open = false; // a question is not answered yet
  const stop = effect(() => {
    again.value;
    if (options.held?.value === true) {
      busy.value = true;
      return undefined;
    }
    const asking = question();
    if (asking === null) {
      is_open = false;
      batch(() => {
        target.value = null;
        busy.value = false;
      });
      return undefined;
    }
    const abort = new AbortController();
    const over = new AbortController();
    const job = crypto.randomUUID();
    const waits = options.rests === true && is_open;
    is_open = true;
    batch(() => {
      busy.value = true;
      share.value = 0;
    });
    const asked = async (): Promise<T> => {
      if (waits) await rested(abort.signal);
      if (options.long === true) void watch_job(job, share, over.signal);
      return asking(abort.signal, job);
    };
    asked()
      .finally(() => over.abort())
      .then((answer) => {
        if (abort.signal.aborted) return;
        is_open = false;
        batch(() => {
          target.value = answer;
          busy.value = false;
          options.then?.(answer);
        });
      })
      .catch((error: unknown) => {
        if (abort.signal.aborted || is_abort(error)) return;
        is_open = false;
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
    return () => {
      over.abort();
      abort.abort(); // the program leaves what nobody waits for
    };
  });
  return { busy, share, stop };
}

/** What becomes of an error of something asked for once. */
export function load_error(error: unknown): void {
  if (is_abort(error)) return;
  if (error instanceof Gone) gone.value = true;
  else if (error instanceof Refused) problem.value = { message: error.problem.message, hint: error.problem.hint };
  else throw error;
}
