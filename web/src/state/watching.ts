// Keeping up with the program and with other windows: what changed elsewhere, whether anybody answers,
// whether there is room again, whether the file may be written.
import { batch, computed, effect } from "@preact/signals";
import { ask } from "../api";
import { garden, head, link, look_again, queue, saying, told_head, waiting } from "./garden";
import { take_left } from "./kept";
import { again, gone, no_room } from "./load";

const known_change = computed(() => head.value?.change ?? null);

/** Another window on the same garden: its changes are seen at once. */
effect(() => {
  const id = garden.value;
  const change = known_change.value;
  again.value;
  if (id === null || change === null || gone.value) return undefined;
  const abort = new AbortController();
  void watch(id, change, abort.signal);
  return () => abort.abort();
});

async function watch(id: string, change: number, signal: AbortSignal): Promise<void> {
  while (!signal.aborted) {
    try {
      const now = await ask("/api/gardens/{garden}/changes", { path: { garden: id }, query: { change } }, signal);
      if (now.change !== change && !signal.aborted) {
        const may_be_ours = waiting.peek() > 0; // done, and its answer not here yet
        told_head(id, now.head);
        if (!may_be_ours) saying.value = "The garden was changed in another window.";
        return;
      }
    } catch {
      if (signal.aborted) return;
      // Whether anybody is there at all, this asks.
      const is_there = await ask("/api/about", {}, signal).then(
        () => true,
        () => false,
      );
      if (signal.aborted) return;
      if (!is_there) {
        gone.value = true;
        return;
      }
      await new Promise((resolve) => setTimeout(resolve, 1000));
    }
  }
}

/** Nobody answers: asks each second, and goes on when somebody does. */
effect(() => {
  if (!gone.value) return undefined;
  const timer = setInterval(() => {
    ask("/api/about", {}, AbortSignal.timeout(900)).then(
      () => {
        batch(() => {
          gone.value = false;
          again.value = again.peek() + 1;
        });
        void queue.go_on();
      },
      () => {},
    );
  }, 1000);
  return () => clearInterval(timer);
});

const no_room_s = 2;
/** What cannot be written is tried again now and then; a file that may only be read is looked at. */
effect(() => {
  const id = garden.value;
  const is_full = no_room.value !== null;
  if (!is_full && (id === null || link.value !== "read_only")) return undefined;
  const timer = setInterval(() => {
    if (is_full) void queue.go_on();
    else if (id !== null) look_again(id);
  }, 1000 * no_room_s);
  return () => clearInterval(timer);
});

/** Edits that an earlier window could not send. */
export async function take_up_waiting(): Promise<void> {
  queue.take_up(await take_left());
}
