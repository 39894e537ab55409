// The sheet: one plan, or two side by side, with what belongs to a drawing around them.
import { useMemo } from "preact/hooks";
import { compared, field_loading, light_waits, link, saying, second_busy, section_line, sides, waiting } from "../state";
import { begin_section, covered, drawing, moving, shaping, sheet_key, show_whole, strip, strip_high, zoom_by } from "../tools";
import { DrawStrip } from "./draw_strip";
import "./laid.css";
import { Key, NorthArrow, ScaleBar, sheet_says, SideName } from "./key";
import { list_open } from "./list";
import { Grip } from "./marks";
import { Measures } from "./measures";
import { MoveStrip } from "./move_strip";
import { PenStrip } from "./pen_strip";
import { SectionPanel } from "./section_panel";
import { and_back } from "./strip_figure";
import { ShapeGrips } from "./shape_grips";
import { late_plans, Plan } from "./plan";
import { shown_on } from "./shown";

function ViewWords() {
  return (
    <div class="view-words">
      <button type="button" class="word-button open-list" aria-expanded={list_open.value} onClick={() => (list_open.value = !list_open.value)}>
        List
      </button>
      <button type="button" class="word-button" onClick={() => and_back(begin_section)}>Section</button>
      <button type="button" class="word-button" onClick={show_whole}>Whole</button>
      <button type="button" class="word-button figure" aria-label="Nearer" onClick={() => zoom_by(1.4)}>+</button>
      <button type="button" class="word-button figure" aria-label="Further" onClick={() => zoom_by(1 / 1.4)}>−</button>
    </div>
  );
}

const hands_say =
  "Arrows go to the nearest thing, Enter selects it, M moves it, S shows where its shadow ends, D draws something new, C cuts a section, plus and minus zoom, 0 shows the whole, Escape goes back. F6 goes to the next part of the page; a letter goes to a word there. The list has all things.";

function light_says(): string {
  if (link.value === "gone") return "shown when Spadework answers again";
  const share = Math.floor(100 * field_loading.share.value);
  return `the light is being worked out${share > 0 ? `, ${share} %` : ""}`;
}

export function Sheet() {
  const [left, right] = useMemo(() => [shown_on(0), shown_on(1)], []);
  const is_pair = sides.value !== null;
  const is_undrawn = late_plans.value.size > 0;
  const is_busy = field_loading.busy.value || light_waits.value || second_busy.value || is_undrawn;
  const is_behind = (link.value === "gone" || link.value === "no_room") && waiting.value > 0;
  return (
    <section class={covered.value > 0 ? "sheet is-covered" : "sheet"} aria-label="Sheet" aria-busy={is_busy}>
      <div
        class={`plans${is_pair ? " are-two" : ""}`}
        data-region="sheet"
        role="application"
        tabIndex={0}
        aria-label={sheet_says()}
        aria-describedby="sheet-hands"
        onKeyDown={sheet_key}
      >
        <Plan shown={left}>
          {is_pair && <SideName shown={left} side={0} />}
          <Measures shown={left} />
          {shaping.value === null && <Grip shown={left} />}
          <ShapeGrips shown={left} />
        </Plan>
        {is_pair && (
          <Plan shown={right} key={compared.value}>
            <SideName shown={right} side={1} />
            <Measures shown={right} />
            {shaping.value === null && <Grip shown={right} />}
            <ShapeGrips shown={right} />
          </Plan>
        )}
      </div>
      <Key shown={left} {...(is_pair ? { half: "left" } : {})} />
      <div class={strip.value === "draw" ? "drawn-scale is-over-draw" : "drawn-scale"} style={strip.value === "draw" ? { "--strip": `${strip_high.value}px` } : undefined}>
        <NorthArrow />
        <ScaleBar />
      </div>
      <p id="sheet-hands" class="hands-say">{hands_say}</p>
      {is_pair && <Key shown={right} half="right" />}
      <p class={`busy-word${is_busy || is_behind ? " is-busy" : ""}`}>
        {is_behind ? "the light is from before the edits that wait" : is_undrawn ? "the sheet is being drawn" : light_says()}
      </p>
      {moving.value === null && drawing.value === null && section_line.value === null && <ViewWords />}
      <MoveStrip />
      <DrawStrip />
      <PenStrip />
      <SectionPanel />
      <p class="unseen" aria-live="polite">{saying.value}</p>
    </section>
  );
}
