// What was done to the garden, the newest first; any of it can be named and brought back.
import { useSignal } from "@preact/signals";
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { ask, type Revision } from "../api";
import { act, garden, head, link, load_error } from "../state";
import { time_says } from "./times";

export function Versions({ close }: { close: () => void }) {
  const rows = useSignal<Revision[] | null>(null);
  const [name, set_name] = useState("");
  const change = head.value?.change;
  useEffect(() => {
    const id = garden.peek();
    if (id === null) return undefined;
    const abort = new AbortController();
    ask("/api/gardens/{garden}/revisions", { path: { garden: id } }, abort.signal).then(
      (answer) => (rows.value = answer.revisions),
      load_error,
    );
    return () => abort.abort();
  }, [change]);
  const is_fixed = link.value === "read_only";
  const panel = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => (panel.current?.querySelector("input") ?? panel.current)?.focus({ preventScroll: true }), []);
  return (
    <div class="versions" tabIndex={-1} ref={panel}>
      {!is_fixed && (
        <form
          class="version-name"
          onSubmit={(event) => {
            event.preventDefault();
            if (name.trim() !== "") void act.name(name.trim()).then(() => set_name(""));
          }}
        >
          <label>
            Name the garden as it is now
            <input type="text" value={name} maxLength={80} onInput={(event) => set_name(event.currentTarget.value)} />
          </label>
          <button type="submit" class="word-button strong" disabled={name.trim() === ""}>Keep the name</button>
        </form>
      )}
      <ol>
        {(rows.value ?? []).map((row) => {
          const is_now = row.id === head.value?.revision;
          return (
            <li key={row.id} class={row.name === "" ? "" : "is-named"}>
              <span class="version-says">{row.name === "" ? row.says || "as it began" : row.name}</span>
              <span class="version-made">{time_says(row.made)}</span>
              {is_now ? (
                <span class="version-now">now</span>
              ) : (
                !is_fixed && (
                  <button
                    type="button"
                    class="word-button"
                    aria-label={`Bring back: ${row.name || row.says || "as it began"}, ${time_says(row.made)}`}
                    onClick={() => void act.bring_back(row.id).then(close)}
                  >
                    Bring back
                  </button>
                )
              )}
            </li>
          );
        })}
      </ol>
    </div>
  );
}
