// The first steps, in the notes: how far each is, one open, any of them taken up again.
import "./first_steps.css";
import { useEffect, useRef } from "preact/hooks";
import { close_steps, leave_step, link, steps_open, take_up_step, take_up_steps } from "../../state";
import { put_pen_down } from "../../tools";
import { AroundStep } from "./around_step";
import { BedStep } from "./bed_step";
import { LevelStep } from "./level_step";
import { NorthStep } from "./north_step";
import { PlaceStep } from "./place_step";
import { PlotStep } from "./plot_step";
import { next_step, open_step, opened, type StepLine, type StepName, step_lines } from "./progress";

export { ShadowOf } from "./shadow_solves";

const forms: Record<StepName, () => preact.JSX.Element> = { place: PlaceStep, plot: PlotStep, north: NorthStep, level: LevelStep, around: AroundStep, bed: BedStep };

function open(name: StepName | null): void {
  put_pen_down();
  opened.value = name;
}

/** A step from elsewhere: what is still guessed leads to the one that measures it. */
export function go_to_step(name: StepName): void {
  take_up_step(name);
  open(name);
}

function Step({ line, number }: { line: StepLine; number: number }) {
  const is_open = open_step.value === line.name;
  const host = useRef<HTMLLIElement>(null);
  const Form = forms[line.name];
  useEffect(() => {
    if (is_open) host.current?.scrollIntoView({ block: "nearest" });
  }, [is_open]);
  return (
    <li ref={host} class={`first-step ${is_open ? "is-open" : ""}`}>
      <button type="button" class="first-step-line" aria-expanded={is_open} onClick={() => open(is_open ? null : line.name)}>
        <span class="first-step-number" aria-hidden="true">{number}</span>
        <span class="first-step-says">{line.says}</span>
        <span class={`first-step-how is-${line.how.replace(" ", "-")}`}>{line.how === "guessed" ? "≈ guessed" : line.how}</span>
      </button>
      {is_open && (
        <div class="first-step-form">
          <Form />
          <p class="first-step-later">
            <button type="button" class="word-button" onClick={() => {
              leave_step(line.name);
              open(null);
              opened.value = undefined;
            }}>Later</button>
          </p>
        </div>
      )}
    </li>
  );
}

export function FirstSteps() {
  const is_over = next_step.value === null;
  return (
    <div class="part first-steps">
      <h3>First steps</h3>
      <ol>{step_lines.value.map((line, i) => <Step key={line.name} line={line} number={i + 1} />)}</ol>
      {is_over && <p class="small">Each can be taken up again, now or later.</p>}
      <p class="deeds">
        <button type="button" class={`word-button ${is_over ? "strong" : ""}`} onClick={() => {
          open(null);
          close_steps();
        }}>That will do</button>
      </p>
    </div>
  );
}

/** One word in the notes by which they are taken up again. */
export function FirstStepsWord() {
  if (steps_open.value || link.value === "read_only") return null;
  return (
    <p class="deeds">
      <button type="button" class="word-button" onClick={() => {
        take_up_steps();
        opened.value = undefined;
      }}>First steps</button>
    </p>
  );
}
