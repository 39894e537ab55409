// The shelf: the gardens of this machine, examples to look into, a document to bring in.
import { signal, useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { ask, ask_text, Gone, type OnShelf, type Problem, Refused, send, type Shelf } from "../api";
import { ChooseFile, ProblemList } from "../margin/choose_file";
import { again, beginning, gone, load_error, look_into, open_garden, problem } from "../state";
import { time_says } from "./times";

const shelf = signal<Shelf | null>(null);
const taken_off = signal<{ id: string; title: string } | null>(null);

async function load_shelf(): Promise<void> {
  try {
    shelf.value = await ask("/api/gardens", {});
    gone.value = false;
  } catch (error) {
    load_error(error);
  }
}

async function take_off(one: OnShelf): Promise<void> {
  try {
    const { id } = await send("/api/gardens", {}, { take_off: one.id });
    taken_off.value = { id, title: one.title };
    await load_shelf();
  } catch (error) {
    load_error(error);
  }
}

async function put_back(): Promise<void> {
  const off = taken_off.peek();
  if (off === null) return;
  try {
    await send("/api/gardens", {}, { put_back: off.id });
    taken_off.value = null;
    await load_shelf();
  } catch (error) {
    load_error(error);
  }
}

/** Without its names, and without what only one drawing on a page may have. */
function small_drawing(text: string): Element {
  const read = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  const svg = document.importNode(read, true);
  for (const words of svg.querySelectorAll("text,title")) words.remove();
  for (const one of svg.querySelectorAll("[id]")) one.removeAttribute("id");
  for (const name of ["role", "aria-labelledby", "width", "height"]) svg.removeAttribute(name);
  return svg;
}

/** A garden's sheet in small. */
function Small({ id }: { id: string }) {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const abort = new AbortController();
    const query = { scheme: "proposed", mm_per_m: 2.2 };
    ask_text("/api/gardens/{garden}/sheet", { path: { garden: id }, query }, abort.signal).then(
      (text) => host.current?.replaceChildren(small_drawing(text)),
      () => {}, // the shelf goes without
    );
    return () => abort.abort();
  }, [id]);
  return <div class="shelf-small" aria-hidden="true" ref={host} />;
}

function Garden({ one }: { one: OnShelf }) {
  const error = one.error ?? null;
  return (
    <li class="shelf-garden">
      {error === null && <Small id={one.id} />}
      <div class="shelf-words">
        {error === null ? (
          <button type="button" class="word-button shelf-title" data-entry onClick={() => open_garden(one.id)}>{one.title}</button>
        ) : (
          <span class="shelf-title">{one.title}</span>
        )}
        {error !== null && <p class="shelf-error">{error.message} {error.hint}</p>}
        {one.changed && <p class="shelf-note">last touched {time_says(one.changed)}{one.read_only === true ? "; read only" : ""}</p>}
        <button type="button" class="word-button shelf-off" aria-label={`Take ${one.title} off the shelf`} onClick={() => void take_off(one)}>
          Take off
        </button>
      </div>
    </li>
  );
}

function BringIn() {
  const problems = useSignal<Problem[]>([]);
  const name = useSignal("");
  async function bring_in(file: File): Promise<void> {
    name.value = file.name;
    problems.value = [];
    try {
      const { id } = await send("/api/gardens", {}, { document: await file.text() });
      open_garden(id);
    } catch (error) {
      if (error instanceof Refused) problems.value = error.problems.length > 0 ? error.problems : [error.problem];
      else if (error instanceof Gone) gone.value = true;
      else throw error;
    }
  }
  return (
    <section>
      <h2>Bring in a garden document</h2>
      <ChooseFile
        words="Choose a file, such as my-garden.toml"
        accept=".toml,text/plain,application/toml"
        take={(file) => void bring_in(file)}
      />
      {problems.value.length > 0 && (
        <div role="alert">
          <p>
            {name.value} was not brought in: {problems.value.length === 1 ? "one thing is" : `${problems.value.length} things are`} not right in it yet.
          </p>
          <ProblemList problems={problems.value} />
        </div>
      )}
    </section>
  );
}

export function ShelfPage() {
  useEffect(() => void load_shelf(), [again.value]);
  const now = shelf.value;
  const off = taken_off.value;
  return (
    <main class="shelf" data-region="shelf">
      <h1>Spadework</h1>
      <p class="shelf-lead">Do the spadework on paper, so that the spade work goes right.</p>
      {gone.value && <p role="alert">Nobody answers: start Spadework again, and this page goes on by itself.</p>}
      {problem.value !== null && <p role="alert"><strong>{problem.value.message}</strong> {problem.value.hint}</p>}
      {now !== null && (
        <section class="shelf-own">
          <h2>Your gardens</h2>
          {now.gardens.length === 0 && <p>None yet. Begin one of your own, or look into an example first.</p>}
          <button type="button" class="word-button strong shelf-begin" data-entry onClick={() => (beginning.value = true)}>Begin a garden</button>
          <ul class="shelf-gardens">{now.gardens.map((one) => <Garden key={one.id} one={one} />)}</ul>
          <p class="shelf-undo" role="status">
            {off !== null && (
              <>
                {off.title} is off the shelf.
                <button type="button" class="word-button strong" onClick={() => void put_back()}>Put it back</button>
              </>
            )}
          </p>
        </section>
      )}
      {now !== null && now.examples.length > 0 && (
        <section>
          <h2>Examples to look into</h2>
          <ul class="shelf-examples">
            {now.examples.map((one) => (
              <li key={one.id}>
                <button type="button" class="word-button" data-entry onClick={() => void look_into(one.id)}>{one.title}</button>
              </li>
            ))}
          </ul>
        </section>
      )}
      <BringIn />
      {now !== null && <p class="shelf-note">Gardens are kept in {now.folder}, on this machine alone.</p>}
    </main>
  );
}
