// Level: where water runs, and how far it falls on the way, in ankles, knees and waists or in figures.
import { useEffect, useState } from "preact/hooks";
import type { Measure, Measured } from "../../api";
import { length_says, metres_in, type Point, reach_along, turn_of, way_of } from "../../geometry";
import { act, begun, guessed_after, measure, note_begun, type NotMeasured, saying, single, single_typed, state } from "../../state";
import { arrow, key_of, type Pen, put_pen_down, take_pen } from "../../tools";
import { range_says } from "../facts";
import { single_thing } from "../keeping";
import { PartFact } from "../part_form";
import { is_imperial, is_locked } from "../typed_fact";
import { enter_goes_on, Figure, type Wrong, wrong_length } from "./figure";
import { Choices } from "./plot_step";
import { opened } from "./progress";

const marks = { ankle: "ankle", knee: "knee", waist: "waist", head: "head", figure: "in figures", none: "none: it looks level" } as const;
type Mark = keyof typeof marks;

export const ways = [
  [315, "up and left"], [0, "up the page"], [45, "up and right"],
  [270, "to the left"], [null, ""], [90, "to the right"],
  [225, "down and left"], [180, "down the page"], [135, "down and right"],
] as const;

/** Eight ways around a middle, as they lie on the page. */
export function Ways({ is, take, label }: { is: number | null; take: (turn: number) => void; label: string }) {
  return (
    <div class="ways" role="group" aria-label={label}>
      {ways.map(([turn, says]) =>
        turn === null ? (
          <span key="middle" class="ways-middle" aria-hidden="true" />
        ) : (
          <button key={says} type="button" class="ways-one" aria-label={says} aria-pressed={is !== null && Math.abs(((is - turn + 540) % 360) - 180) < 22.5} onClick={() => take(turn)}>
            <svg viewBox="-12 -12 24 24" width="24" height="24" aria-hidden="true"><path d="M0 9V-8M-5 -3L0 -9L5 -3" transform={`rotate(${turn})`} /></svg>
          </button>
        ),
      )}
    </div>
  );
}

const boundary = (): Point[] => (state.value?.boundary ?? []).map(([x = 0, y = 0]): Point => [x, y]);

/** Through the middle of the plot, as far as it reaches. */
function arrow_of(turn: number, says: string): void {
  const points = boundary();
  const [dx, dy] = way_of(turn);
  const long = Math.max(2, reach_along(points, [dx, dy]) * 0.8);
  const count = points.length || 1;
  const middle: Point = [points.reduce((sum, [x]) => sum + x, 0) / count, points.reduce((sum, [, y]) => sum + y, 0) / count];
  arrow.value = { from: [middle[0] - (dx * long) / 2, middle[1] - (dy * long) / 2], to: [middle[0] + (dx * long) / 2, middle[1] + (dy * long) / 2], says };
}

interface Told {
  turn: number | null;
  mark: Mark | null;
  times: number;
  falls: string;
  over: string;
}

/** The fall as the garden has it, for a step that is taken up again. */
function told_now(): Told {
  const [toward, [falls], [over]] = [single("ground", "toward_deg"), single_typed("ground", "falls_m"), single_typed("ground", "over")];
  if (typeof toward !== "number" || falls === undefined || over === undefined) return { turn: null, mark: null, times: 1, falls: "", over: "" };
  const turn = (((toward - (state.value?.site.plan_north_deg ?? 0)) % 360) + 360) % 360;
  return { turn, mark: single("ground", "falls_m") === 0 ? "none" : "figure", times: 1, falls, over };
}

function question({ turn, mark, times, falls, over }: Told): Measure | null {
  if (turn === null || mark === null || mark === "none" || metres_in(over, is_imperial()) === null) return null;
  const far = mark === "figure" ? { falls: falls.trim() } : { mark, times };
  if (mark === "figure" && metres_in(falls, is_imperial()) === null) return null;
  return { what: "fall", toward_m: way_of(turn), over: over.trim(), ...far };
}

/** Levels that were measured, typed as they stand in the book; they take the place of a fall. */
function Spots() {
  const [is_open, set_open] = useState(false);
  const known = key_of("ground", "spots");
  if (known === undefined) return null;
  return (
    <ul class="facts">
      <li class="fact has-parts">
        <span class="fact-name">Or levels that you measured</span>
        <span class="fact-value">
          <PartFact thing={single_thing("ground")} known={known} is_open={is_open} set_open={set_open} with_it={{ falls_m: null, toward_deg: null, over: null, guessed: guessed_after("ground", ["falls_m", "toward_deg", "over", "spots"], []) }} done={() => (opened.value = undefined)} />
        </span>
      </li>
    </ul>
  );
}

export function LevelStep() {
  const told = begun("level", told_now());
  const set_told = (next: Told) => note_begun("level", next);
  const [answer, set_answer] = useState<{ is: Measured | null; not: NotMeasured | null } | null>(null);
  const has_spots = single("ground", "spots") !== undefined;
  const usual = (turn: number) => length_says(Number(Math.max(1, reach_along(boundary(), way_of(turn)) || 10).toFixed(1)), is_imperial());
  const over = told.over !== "" ? told.over : told.turn === null ? "" : usual(told.turn);
  const asked = question({ ...told, over });
  const key = JSON.stringify(asked);
  useEffect(() => {
    if (told.turn !== null) arrow_of(told.turn, answer?.is?.says.replace(/^It falls /, "").replace(/: .*$/, "") ?? "");
  }, [told.turn, answer]);
  useEffect(() => {
    set_answer(null);
    if (asked === null) return undefined;
    const abort = new AbortController();
    const rest = setTimeout(() => void measure(asked, abort.signal).then((now) => !abort.signal.aborted && set_answer(now)), 100);
    return () => {
      clearTimeout(rest);
      abort.abort();
    };
  }, [key]);
  useEffect(() => {
    const mine: Pen = {
      says: "Drag the way that water runs, or choose it in the notes",
      drag: (from, to, is_last) => {
        const way: Point = [to[0] - from[0], to[1] - from[1]];
        if (Math.hypot(...way) < 0.2) return true;
        arrow.value = { from, to, says: "" };
        if (is_last) set_told({ ...begun("level", told_now()), turn: Math.round(turn_of(way)) });
        return true;
      },
    };
    take_pen(mine);
    return () => {
      put_pen_down(mine);
      arrow.value = null;
    };
  }, []);

  async function keep(): Promise<void> {
    if (is_locked()) return;
    const is = answer?.is ?? null;
    const figures =
      told.mark === "none"
        ? { falls_m: 0, toward_deg: 180, over: Math.max(1, Math.round(reach_along(boundary(), [0, 1])) || 10) }
        : is === null ? null
        : { toward_deg: is.toward_deg, over: told.over.trim() === "" ? is.over_m : told.over.trim(), falls_m: told.mark === "figure" ? told.falls.trim() : is.falls_m }; // as typed
    if (figures === null) return;
    const guessed = guessed_after("ground", ["falls_m", "toward_deg", "over"], told.mark === "none" ? ["falls_m"] : (is?.guessed ?? []));
    if ((await act.set_table("ground", { spots: null, ...figures, guessed }, "the fall of the ground")) !== null) return;
    saying.value = told.mark === "none" ? "The ground is taken as level." : `${is?.says ?? ""} It is marked as guessed.`;
    note_begun("level", null);
    opened.value = undefined;
  }
  const range = key_of("ground", "falls_m");
  const wrong_of = (where: string): Wrong | null => (answer?.not?.where === where ? answer.not : null);
  return (
    <form class="step-form" onKeyDown={(event) => enter_goes_on(event, () => void keep())} onSubmit={(event) => event.preventDefault()}>
      <p>Where does water run?</p>
      {has_spots && <p class="small">Levels are measured already; a fall kept here takes their place. Undo brings them back.</p>}
      <Ways label="Where water runs, on the page" is={told.turn} take={(turn) => set_told({ ...told, turn, mark: told.mark === "none" ? null : told.mark })} />
      <p>And how far does it fall on the way?</p>
      <Choices label="How far it falls" of={marks} is={told.mark} take={(mark) => set_told({ ...told, mark })} />
      {told.mark !== null && told.mark !== "none" && (
        <ul class="facts">
          {told.mark === "figure" ? (
            <Figure label="It falls" first is={told.falls} quiet={range === undefined ? "" : range_says(range, is_imperial())} wrong={wrong_length(told.falls, range) ?? wrong_of("/falls")} take={(falls) => set_told({ ...told, falls })} />
          ) : (
            <li class="fact step-times">
              <span class="fact-name">How many times {told.mark}-high</span>
              <span class="steps">
                <button type="button" class="step" aria-label="Times: less" disabled={told.times <= 1} onClick={() => set_told({ ...told, times: told.times - 1 })}>−</button>
                <output class="step-count">{told.times}</output>
                <button type="button" class="step" aria-label="Times: more" disabled={told.times >= 20} onClick={() => set_told({ ...told, times: told.times + 1 })}>+</button>
              </span>
            </li>
          )}
          <Figure label="Over a way of" quiet="the plot’s length, if you leave it" is={over} wrong={wrong_length(over, key_of("ground", "over")) ?? wrong_of("/over")} take={(text) => set_told({ ...told, over: text })} />
        </ul>
      )}
      <div class="step-told" aria-live="polite">
        {answer?.is != null && <p>{answer.is.says}</p>}
        {answer?.is?.remedies[0] !== undefined && <p class="small">{answer.is.remedies[0].says}</p>}
      </div>
      {told.mark === null && <Spots />}
      <p class="deeds">
        <button type="button" class="word-button strong" disabled={is_locked() || (told.mark !== "none" && answer?.is == null)} onClick={() => void keep()}>
          {told.mark === "none" ? "Keep it level" : "Keep this fall"}
        </button>
      </p>
    </form>
  );
}
