// The plot: four sides and a diagonal by tape, so long by so wide, or over a picture.
import { useEffect, useState } from "preact/hooks";
import type { Measured } from "../../api";
import { apart, corners_so_far, length_says, metres_in, type Point } from "../../geometry";
import { act, begun, guessed_after, guessed_of, measure, note_begun, type NotMeasured, saying, single, single_typed, state } from "../../state";
import { forget_sketches, key_of, show_whole, sketch } from "../../tools";
import { range_says } from "../facts";
import { capital } from "../format";
import { is_imperial, is_locked } from "../typed_fact";
import { enter_goes_on, Figure, type Wrong, wrong_length } from "./figure";
import { PictureWay } from "./picture_way";
import { opened } from "./progress";

const labels = ["From 1 to 2", "From 2 to 3", "From 3 to 4", "From 4 back to 1", "Across, from 1 to 3", "Across, from 2 to 4"] as const;
const says_of = (text: string): string => {
  const metres = metres_in(text, is_imperial());
  return metres === null ? "" : length_says(metres, is_imperial());
};

/** Which of the fields the program speaks of. */
function field_of({ where }: NotMeasured): number {
  const side = /^\/sides(?:_m)?\/(\d)/.exec(where)?.[1];
  return side !== undefined ? Number(side) : /second/.test(where) ? 5 : 4;
}

async function measured(texts: readonly string[], signal: AbortSignal): Promise<{ is: Measured | null; not: NotMeasured | null }> {
  const second = texts[5]?.trim() ?? "";
  const told = await measure({ what: "plot", sides: texts.slice(0, 4), diagonal: texts[4] ?? "", ...(second === "" ? {} : { second_diagonal: second }) }, signal);
  return { is: told?.is ?? null, not: told?.not ?? null };
}

/** Before anything is typed: which corner is which. */
const example: readonly Point[] = [[0, 0], [8, 0], [8.6, 10], [0.4, 9]];

const nothing: readonly string[] = ["", "", "", "", "", ""];

/** The plot as the garden has it, for a step that is taken up again. */
function plot_now(): readonly string[] {
  const sides = single_typed("boundary", "sides_m");
  if (sides.length === 4) return [...sides, single_typed("boundary", "diagonal_m")[0] ?? "", ""];
  const [a, b, c, d, more] = (state.value?.boundary ?? []) as unknown as Point[];
  if (a === undefined || b === undefined || c === undefined || d === undefined || more !== undefined) return nothing;
  return [[a, b], [b, c], [c, d], [d, a], [a, c]].map(([p, q]) => length_says(apart(p as Point, q as Point), is_imperial())).concat("");
}

function sketch_plot(texts: readonly string[], is: Measured | null): void {
  if (texts.every((text) => text.trim() === "")) {
    if ((state.peek()?.boundary.length ?? 0) > 2) return void (sketch.value = null);
    sketch.value = { points: example, closed: true, is_sure: false, diagonal: [0, 2], names: ["1", "2", "3", "4"], sides: [] };
    return;
  }
  const corners = is?.corners?.map(({ at_m }): Point => [at_m[0] ?? 0, at_m[1] ?? 0]) ?? corners_so_far(texts.slice(0, 4).map((text) => metres_in(text, is_imperial())));
  const count = corners.length;
  sketch.value = {
    points: corners,
    closed: count === 4 && (is !== null || (texts[3] ?? "").trim() !== ""),
    is_sure: is !== null,
    diagonal: is !== null ? [0, 2] : null,
    names: count > 1 ? ["1", "2", "3", "4"].slice(0, count) : [],
    sides: texts.slice(0, 4).map(says_of),
  };
}

/** A side, or the tape across. */
const wrong_side = (text: string): Wrong | null => wrong_length(text, key_of("boundary", "diagonal_m"));
const is_whole = (texts: readonly string[]) => texts.slice(0, 5).every((text) => text.trim() !== "" && wrong_side(text) === null);

function kept_then(): void {
  opened.value = undefined;
  forget_sketches();
  show_whole();
}


function ByTape() {
  const texts = begun("plot by tape", plot_now());
  const set_texts = (next: readonly string[]) => note_begun("plot by tape", next);
  const [told, set_told] = useState<{ is: Measured | null; not: NotMeasured | null }>({ is: null, not: null });
  const range = key_of("boundary", "diagonal_m");
  useEffect(() => {
    sketch_plot(texts, null);
    if (!is_whole(texts)) {
      set_told({ is: null, not: null });
      return undefined;
    }
    const abort = new AbortController();
    const rest = setTimeout(() => {
      void measured(texts, abort.signal).then((now) => {
        if (abort.signal.aborted) return;
        set_told(now);
        sketch_plot(texts, now.is);
      });
    }, 120);
    return () => {
      clearTimeout(rest);
      abort.abort();
    };
  }, [texts.join("|")]);
  useEffect(() => {
    show_whole();
    return forget_sketches;
  }, []);

  function wrong_at(i: number): Wrong | null {
    const no = told.not;
    return wrong_side(texts[i] ?? "") ?? (no !== null && field_of(no) === i ? no : null);
  }
  async function keep(): Promise<void> {
    if (!is_whole(texts) || is_locked()) return;
    const now = told.is !== null ? told : await measured(texts, new AbortController().signal);
    if (now.not !== null) return set_told(now);
    const has_second = (texts[5]?.trim() ?? "") !== "";
    if (now.is === null && has_second) return; // nobody answers, and six lengths want the program
    const corners = now.is?.corners?.map(({ at_m }) => at_m.map((m) => Number(m.toFixed(2)))) ?? [];
    const set = has_second
      ? { outline: corners, sides_m: null, diagonal_m: null, guessed: null }
      : { outline: null, sides_m: texts.slice(0, 4).map((text) => text.trim()), diagonal_m: (texts[4] ?? "").trim(), guessed: null };
    if ((await act.set_table("boundary", set, "the plot by tape")) !== null) return;
    saying.value = `The plot is drawn${now.is === null ? "" : `: ${now.is.says}`}`;
    note_begun("plot by tape", null);
    kept_then();
  }
  const is = told.is;
  return (
    <form class="step-form" onKeyDown={(event) => enter_goes_on(event, () => void keep())} onSubmit={(event) => event.preventDefault()}>
      <p class="small">Number the corners against the clock: 1 at the lower left, 2 at the lower right. The tape across keeps it from leaning.</p>
      <ul class="facts">
        {labels.slice(0, 5).map((label, i) => (
          <Figure key={label} label={label} first={i === 0} is={texts[i] ?? ""} wrong={wrong_at(i)} quiet={i === 0 && range !== undefined ? range_says(range, is_imperial()) : ""} take={(text) => set_texts(texts.map((was, j) => (i === j ? text : was)))} />
        ))}
        <Figure label={labels[5]} optional quiet="if you taped it too: it tells whether all fit" is={texts[5] ?? ""} wrong={wrong_at(5)} take={(text) => set_texts(texts.map((was, j) => (j === 5 ? text : was)))} />
      </ul>
      <div class="step-told" aria-live="polite">
        {is !== null && <p>{is.says}</p>}
        {is?.fits === false && (
          <p>
            The six do not fit. Likeliest: {is.suspects?.slice(0, 3).map(({ at, says }) => `${(labels[field_of({ where: at, message: "", hint: "" })] ?? "").toLowerCase()}, ${says.replace(/\.$/, "")}`).join("; ")}. Tape that again.
          </p>
        )}
        {is !== null && is.fits !== false && is.remedies[0] !== undefined && <p class="small">{is.remedies[0].says}</p>}
      </div>
      <p class="deeds">
        <button type="button" class="word-button strong" disabled={is_locked() || !is_whole(texts)} onClick={() => void keep()}>Keep this plot</button>
      </p>
    </form>
  );
}

/** So wide and so deep, as the garden has it. */
function rough_now(): readonly string[] {
  const [, b, c] = (state.value?.boundary ?? []) as unknown as Point[];
  const is_rough = guessed_of("boundary").includes("outline") && b !== undefined && c !== undefined && c[0] === b[0] && b[1] === 0;
  return is_rough ? [length_says(b[0], is_imperial()), length_says(c[1], is_imperial())] : ["", ""];
}

function Roughly() {
  const texts = begun("plot roughly", rough_now());
  const set_texts = (next: readonly string[]) => note_begun("plot roughly", next);
  const [wide, deep] = texts.map((text) => metres_in(text, is_imperial()));
  const is_ready = wide != null && deep != null && wide >= 0.5 && deep >= 0.5;
  useEffect(() => {
    const points = corners_so_far([wide ?? null, deep ?? null, wide ?? null, deep ?? null]);
    sketch.value = { points, closed: points.length === 4, is_sure: false, diagonal: null, names: [], sides: texts.map(says_of) };
  }, [texts]);
  useEffect(() => {
    show_whole();
    return forget_sketches;
  }, []);
  async function keep(): Promise<void> {
    if (!is_ready || is_locked()) return;
    const outline = [[0, 0], [wide, 0], [wide, deep], [0, deep]].map((corner) => corner.map((m) => Number(m.toFixed(2))));
    if ((await act.set_table("boundary", { outline, sides_m: null, diagonal_m: null, guessed: guessed_after("boundary", ["sides_m", "diagonal_m"], ["outline"]) }, "the plot, roughly")) !== null) return;
    saying.value = "The plot is drawn, as a guess.";
    note_begun("plot roughly", null);
    kept_then();
  }
  const wrong = (i: number, metres: number | null | undefined): Wrong | null =>
    wrong_side(texts[i] ?? "") ?? (metres != null && metres < 0.5 ? { message: "A plot is longer than that.", hint: "Half a metre at the least." } : null);
  return (
    <form class="step-form" onKeyDown={(event) => enter_goes_on(event, () => void keep())} onSubmit={(event) => event.preventDefault()}>
      <p class="small">In paces or by eye: it is marked as guessed, and can be taped later.</p>
      <ul class="facts">
        <Figure label="Along the page" first is={texts[0] ?? ""} wrong={wrong(0, wide)} take={(text) => set_texts([text, texts[1] ?? ""])} />
        <Figure label="Up the page" is={texts[1] ?? ""} wrong={wrong(1, deep)} take={(text) => set_texts([texts[0] ?? "", text])} />
      </ul>
      <p class="deeds">
        <button type="button" class="word-button strong" disabled={!is_ready || is_locked()} onClick={() => void keep()}>Keep it, roughly</button>
      </p>
    </form>
  );
}

const ways = { tape: "By tape", roughly: "Roughly", picture: "From a picture" } as const;
type Way = keyof typeof ways;

/** Words of which one is chosen. */
export function Choices<K extends string>({ of, is, take, label }: { of: Readonly<Record<K, string>>; is: K | null; take: (one: K) => void; label: string }) {
  return (
    <p class="step-choices" role="group" aria-label={label}>
      {(Object.keys(of) as K[]).map((one) => (
        <button key={one} type="button" class="word-button" aria-pressed={is === one} onClick={() => take(one)}>{capital(of[one])}</button>
      ))}
    </p>
  );
}

export function PlotStep() {
  const has_picture = (state.value?.things ?? []).some(({ table, mark }) => table === "picture" && mark !== "removed");
  const way = begun<Way>("way to the plot", has_picture ? "picture" : "tape");
  const set_way = (next: Way) => note_begun("way to the plot", next);
  const is_there = single("boundary", "outline") !== undefined || single("boundary", "sides_m") !== undefined;
  return (
    <>
      {is_there && <p class="small">A plot is drawn already; what you keep here takes its place. Undo brings it back.</p>}
      <Choices label="How the plot is measured" of={ways} is={way} take={set_way} />
      {way === "tape" ? <ByTape /> : way === "roughly" ? <Roughly /> : <PictureWay />}
    </>
  );
}
