// North: by a stick's shadow at noon and the arrow turned to it, or roughly.
import { useEffect, useRef, useState } from "preact/hooks";
import type { Measured } from "../../api";
import { type Point, turn_of } from "../../geometry";
import { leave_step, measure, type NotMeasured, saying, single, state, turn_north } from "../../state";
import { key_of, north_tried, paper_turns, type Pen, put_pen_down, rose_at, take_pen } from "../../tools";
import { is_locked } from "../typed_fact";
import { plain_refusal } from "../place_figure";
import { degrees_in, enter_goes_on, Figure, type Wrong, wrong_angle } from "./figure";
import { Choices } from "./plot_step";
import { opened } from "./progress";
import { ShadowSolves } from "./shadow_solves";

export const today = (): string => {
  const now = new Date();
  return `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, "0")}-${String(now.getDate()).padStart(2, "0")}`;
};

function Noon() {
  const [day, set_day] = useState(today);
  const [told, set_told] = useState<{ is: Measured | null; not: NotMeasured | null } | null>(null);
  useEffect(() => {
    const abort = new AbortController();
    void measure({ what: "noon", day }, abort.signal).then((now) => !abort.signal.aborted && set_told(now));
    return () => abort.abort();
  }, [day]);
  return (
    <div class="step-noon" aria-live="polite">
      {told?.is != null && <p class="answer">{day === today() ? told.is.says.replace(/^At (\S+) /, "At $1 today ") : told.is.says}</p>}
      {told?.not != null && <p><strong>{plain_refusal(told.not).message}</strong> {plain_refusal(told.not).hint}</p>}
      {told?.is?.remedies[0] !== undefined && <p class="small">{told.is.remedies[0].says}</p>}
      <label class="step-day"><span>Another day</span><input type="date" value={day} onInput={(event) => event.currentTarget.value !== "" && set_day(event.currentTarget.value)} /></label>
    </div>
  );
}

/** The true bearing of the page's up, where north lies so many degrees clockwise from it. */
const bearing_up = (turn: number): number => (360 - turn) % 360;
const turn_here = () => (360 - (state.peek()?.site.plan_north_deg ?? 0)) % 360;
/** From the midst of the plot to where the sheet was touched. */
function pointed(to: Point): number {
  const middle = rose_at();
  return Math.round(turn_of([to[0] - middle[0], to[1] - middle[1]]));
}

export function NorthStep() {
  const turn = north_tried.value ?? turn_here();
  const [typed, set_typed] = useState<string | null>(null);
  const refused = useRef(false); // what stands in the field
  const set = (deg: number) => {
    north_tried.value = ((deg % 360) + 360) % 360;
    refused.current = false;
    set_typed(null);
  };
  const begun = useRef<number | null>(null); // how the paper lay when a drag of it began
  useEffect(() => {
    north_tried.value ??= turn_here(); // unless it is typed already
    const mine: Pen = {
      says: () => (paper_turns.value ? "Drag the paper round, or touch the side of it that looks north" : "Touch or drag to where north lies from the plot’s midst"),
      // Of the paper the side that is touched comes up; dragged, it goes with the hand.
      tap: (at) => set(pointed(at) + (paper_turns.peek() ? (north_tried.peek() ?? 0) : 0)),
      drag: (from, to, is_last) => {
        begun.current ??= north_tried.peek() ?? 0;
        set(paper_turns.peek() ? begun.current - pointed(to) + pointed(from) : pointed(to));
        if (is_last) begun.current = null;
        return true;
      },
      key: (event) => {
        const by = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
        if (event.key === "Enter") void keep(true);
        else if (by === 0) return false;
        else set((north_tried.peek() ?? 0) + by * (event.shiftKey ? 15 : event.altKey ? 0.5 : 5));
        saying.value = `North ${north_tried.peek()}° clockwise from the top of the page`;
        return true;
      },
    };
    take_pen(mine);
    return () => {
      put_pen_down(mine);
      north_tried.value = null;
      paper_turns.value = false;
    };
  }, []);

  async function keep(is_measured: boolean): Promise<void> {
    const at = north_tried.peek();
    if (at === null || refused.current || is_locked()) return;
    const plan_north_deg = Number(bearing_up(at).toFixed(1));
    if (!(await turn_north(plan_north_deg, is_measured, "north turned"))) return;
    if (!is_measured) leave_step("north");
    saying.value = is_measured ? "North is measured." : "North is kept, as a guess.";
    opened.value = undefined;
  }
  const known = key_of("garden", "plan_north_deg");
  const wrong_with = (text: string): Wrong | null => (text.trim() === "" ? { message: "Where does north lie?", hint: "Degrees, such as 15, or turn the arrow." } : wrong_angle(text, known));
  const wrong = typed === null ? null : wrong_with(typed);
  return (
    <form class="step-form" onKeyDown={(event) => enter_goes_on(event, () => void keep(true))} onSubmit={(event) => event.preventDefault()}>
      <Noon />
      <p class="small">Peg that shadow’s ends, and turn the arrow on the sheet as the line lies on your plan; or turn the paper until it lies as the plot does.</p>
      <Choices label="What is turned" of={{ arrow: "the arrow", paper: "the paper" }} is={paper_turns.value ? "paper" : "arrow"} take={(one) => (paper_turns.value = one === "paper")} />
      <ul class="facts">
        <Figure
          label="North lies"
          quiet="degrees clockwise from the top of the page"
          unit="°"
          is={typed ?? String(Number(turn.toFixed(1)))}
          wrong={wrong}
          take={(text) => {
            set_typed(text);
            const deg = degrees_in(text);
            refused.current = wrong_with(text) !== null;
            if (deg !== null && !refused.current) north_tried.value = ((deg % 360) + 360) % 360;
          }}
        />
      </ul>
      {known !== undefined && <p class="small">So the garden has {Number(bearing_up(turn).toFixed(1))}°. {known.says}</p>}
      <p class="deeds">
        <button type="button" class="word-button strong" disabled={is_locked() || wrong !== null} onClick={() => void keep(true)}>So says the shadow</button>
        <button type="button" class="word-button" disabled={is_locked() || wrong !== null} onClick={() => void keep(false)}>Roughly so</button>
      </p>
      <ShadowSolves />
      {single("garden", "plan_north_deg") === undefined && <p class="small">Until then the top of the page is taken for north.</p>}
    </form>
  );
}
