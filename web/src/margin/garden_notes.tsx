// Nothing selected: the garden's answer, one next step, findings, what is still guessed.
import { useRef, useState } from "preact/hooks";
import type { Finding } from "../api";
import {
  clock_says, compared, day_says, field, field_of, findings, findings_loading, garden, link, places, places_loading, places_shown, schema, state, steps_open,
  things, weather_file,
} from "../state";
import { begin_shaping, draw_menu, end_shaping, select, shaping } from "../tools";
import { guessed_by_thing, in_plain_words, plain_name } from "./chain";
import { Compared } from "./compared_notes";
import { CornersForm } from "./do_corners";
import { FirstSteps, FirstStepsWord, go_to_step } from "./first_steps";
import type { StepName } from "./first_steps/progress";
import { listed, read_value } from "./format";
import { type Bed, day_told, moment_told } from "./time_answer";
import { ToKeep } from "./to_keep";
import { WeatherNotes } from "./weather_notes";
import { Why } from "./why_words";

const most_shown = 5;
const grades = { must: "Must be mended", should: "Better mended", note: "To know" } as const;

/** Words that lead to the thing they speak of. */
function Show({ things: ids }: { things: readonly string[] }) {
  const known = ids.filter((id) => things.value.has(id));
  return (
    <>
      {known.map((id) => (
        <button key={id} type="button" class="word-button" onClick={() => select(id)}>Show {id}</button>
      ))}
    </>
  );
}

function OneFinding({ finding }: { finding: Finding }) {
  const [is_open, set_open] = useState(false);
  return (
    <li class={`finding is-${finding.grade}`}>
      <button type="button" class="finding-says" aria-expanded={is_open} onClick={() => set_open(!is_open)}>
        <span class="grade">{grades[finding.grade]}</span>
        <span class="finding-words">{finding.says}</span>
        <span class="fold-mark" aria-hidden="true">{is_open ? "−" : "+"}</span>
      </button>
      {is_open && (
        <div class="finding-more">
          {finding.mend.map((mend) => <p key={mend}>{in_plain_words(mend, schema.value)}</p>)}
          <ul>
            {finding.numbers.map((number, i) => (
              <li key={i} class="finding-number">
                <span>{plain_name(number.name, schema.value)}</span>
                <Why trace={number} figure={read_value(number.value)} of={`${number.name}, ${number.value}`} />
              </li>
            ))}
          </ul>
          <Show things={finding.about} />
        </div>
      )}
    </li>
  );
}

function Findings() {
  const [all, show_all] = useState(false);
  const known = findings.value;
  const shown = all ? (known ?? []) : (known ?? []).slice(0, most_shown);
  return (
    <div class="part" aria-busy={findings_loading.busy.value}>
      <h3>Findings</h3>
      {known === null && <p class="quiet">Looking …</p>}
      {known?.length === 0 && <p>Nothing overlaps, and everything stands where it can.</p>}
      <ul>{shown.map((finding, i) => <OneFinding key={`${i} ${finding.says}`} finding={finding} />)}</ul>
      {(known?.length ?? 0) > most_shown && (
        <button type="button" class="word-button" aria-expanded={all} onClick={() => show_all(!all)}>
          {all ? "Only the first five" : `${(known?.length ?? 0) - most_shown} more`}
        </button>
      )}
    </div>
  );
}

/** Which of the first steps measures a figure of a table that there is one of. */
function step_for(figure: string): StepName | null {
  if (figure === "garden.plan_north_deg") return "north";
  if (figure.startsWith("garden.")) return "place";
  if (figure.startsWith("boundary.")) return "plot";
  return figure === "ground.horizon" ? "around" : figure.startsWith("ground.") ? "level" : null;
}
const whose: Record<string, string> = { garden: "the garden", boundary: "the plot", ground: "the ground" };
const called_together: Record<string, string> = {
  "garden.latitude_deg": "place", "garden.longitude_deg": "place", "garden.plan_north_deg": "north", "garden.elevation_m": "height above the sea",
  "ground.falls_m": "fall", "ground.toward_deg": "fall", "ground.over": "fall", "ground.horizon": "skyline", "boundary.outline": "edge",
};

/** A place is two figures and a fall is three; each is one guess. */
const said_together = (figures: readonly string[], keys: readonly string[]): string[] => [...new Set(figures.map((one, i) => called_together[one] ?? keys[i] ?? ""))];

function StillGuessed() {
  const all = state.value?.guessed ?? [];
  const narrows = state.value?.narrows ?? {};
  const guessed = guessed_by_thing(all, schema.value);
  if (guessed.length === 0) return null;
  return (
    <div class="part">
      <h3>Still guessed</h3>
      <ul>
        {guessed.map(([id, keys]) => {
          const figures = all.filter((one) => one.startsWith(`${id}.`));
          const says = [...new Set(figures.flatMap((one) => narrows[one] ?? []))];
          const step = figures.map(step_for).find((one) => one !== null) ?? null;
          const words = (
            <>
              <span class="guess-keys">≈ {listed(said_together(figures, keys))}</span> of <span class="guess-thing">{whose[id] ?? id}</span>
              {says.map((one) => <span key={one} class="narrows">{one}</span>)}
            </>
          );
          const go = things.value.has(id) ? () => select(id) : step !== null ? () => go_to_step(step) : null;
          return <li key={id}>{go !== null ? <button type="button" class="guess" onClick={go}>{words}</button> : <span class="guess">{words}</span>}</li>;
        })}
      </ul>
    </div>
  );
}

/** The ids of things that a sentence names. */
function named_in(text: string): string[] {
  const words = new Set(text.toLowerCase().split(/[^a-z0-9-]+/));
  return [...things.value.keys()].filter((id) => words.has(id)).slice(0, 1);
}

/** Only a boundary, or not even that. */
const is_empty = (): boolean => state.value !== null && [...things.value.values()].every((thing) => thing.table === "boundary");

function Empty() {
  const has_boundary = (state.value?.boundary.length ?? 0) >= 3;
  return (
    <section class="notes" aria-label="Notes on the garden">
      <h2 class="unseen">The garden</h2>
      <p class="answer">Nothing stands here yet. Draw what is there: {has_boundary ? "" : "the boundary first, then "}what throws shade, then a bed.</p>
      <p class="deeds">
        <button type="button" class="word-button strong" disabled={link.value === "read_only"} onClick={() => (draw_menu.value = true)}>Draw something</button>
      </p>
      <StillGuessed />
      <BoundaryCorners />
      <FirstStepsWord />
    </section>
  );
}

/** The boundary is no thing to be chosen: its corners are edited from here. */
function BoundaryCorners() {
  const is_on = shaping.value?.thing === "";
  if ((state.value?.boundary.length ?? 0) < 3 || link.value === "read_only" || compared.value !== null) return null;
  return (
    <div class="part">
      <h3>The boundary</h3>
      <p class="deeds">
        <button type="button" class="word-button" aria-expanded={is_on} onClick={() => (is_on ? end_shaping() : begin_shaping("", "corners"))}>Its corners</button>
      </p>
      {is_on && <CornersForm />}
    </div>
  );
}

export function GardenNotes() {
  const is_alone = compared.value === null;
  return is_empty() && is_alone && !steps_open.value ? <Empty /> : <Notes />;
}

/** Nothing for months: the garden's own answer is of them. */
function time_answer(): string {
  const now = field_of.value?.when;
  if (now === undefined || now.kind === "months") return "";
  const is_bed = (id: string) => things.value.get(id)?.table === "bed";
  const known: [string, number | null][] =
    now.kind === "moment" ? Object.entries(field.value?.head.beds ?? {}) : (places_shown.value?.places ?? []).map(({ id, shown_h }) => [id, shown_h]);
  const beds = known.flatMap(([id, hours]): Bed[] => (is_bed(id) && hours !== null ? [{ id, hours }] : []));
  if (beds.length === 0) return "";
  return now.kind === "moment" ? moment_told(`${day_says(now.day)}, ${clock_says(now.clock)}`, beds) : day_told(day_says(now.day), beds);
}

function Notes() {
  const known = places.value;
  const of_time = time_answer();
  const done = Math.floor(100 * places_loading.share.value);
  // A file that is wanted comes before all that it would change, and stays there when it has come.
  const asked_in = useRef<string | null>(null);
  if ((weather_file.value?.problem ?? null) !== null) asked_in.current = garden.value;
  const is_first = asked_in.current === garden.value;
  if (is_empty() && compared.value === null)
    return (
      <section class="notes" aria-label="Notes on the garden">
        <h2 class="unseen">The garden</h2>
        <FirstSteps />
        <StillGuessed />
      </section>
    );
  return (
    <section class={`notes${places_loading.busy.value ? " are-late" : ""}`} aria-label="Notes on the garden" aria-busy={places_loading.busy.value}>
      <h2 class="unseen">The garden</h2>
      {compared.value === null && steps_open.value && <FirstSteps />}
      {compared.value !== null ? (
        <Compared />
      ) : known === null ? (
        <p class="answer quiet">Casting the year’s shadows …{done > 0 && ` ${done} %`}</p>
      ) : (
        <>
          {of_time !== "" && <p class="answer">{of_time}</p>}
          <p class={of_time === "" ? "answer" : "small"}>{known.answer}</p>
        </>
      )}
      {known !== null && known.next_step !== "" && !steps_open.value && (
        <div class="part next-step">
          <h3>Next</h3>
          <p>{known.next_step}</p>
          <Show things={named_in(known.next_step)} />
        </div>
      )}
      {compared.value === null && is_first && <WeatherNotes />}
      {compared.value === null && <Findings />}
      <StillGuessed />
      <BoundaryCorners />
      {compared.value === null && !is_first && <WeatherNotes />}
      <ToKeep />
      <FirstStepsWord />
    </section>
  );
}
