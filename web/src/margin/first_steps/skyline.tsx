// The far skyline in fists held out, by eight true directions; or as it was measured.
import { useEffect, useRef, useState } from "preact/hooks";
import { act, begun, guessed_after, measure, note_begun, saying, single } from "../../state";
import { key_of } from "../../tools";
import { single_thing } from "../keeping";
import { PartFact } from "../part_form";
import { type Refusal, RefusalLine } from "../place_figure";
import { is_locked } from "../typed_fact";

const bearings = [["North", 0], ["North-east", 45], ["East", 90], ["South-east", 135], ["South", 180], ["South-west", 225], ["West", 270], ["North-west", 315]] as const;

/** What the garden has, in fists of ten degrees. */
function fists_now(): Record<number, string> {
  const horizon = single("ground", "horizon");
  if (!Array.isArray(horizon)) return {};
  return Object.fromEntries(horizon.flatMap((point: unknown) => (Array.isArray(point) ? [[Number(point[0]) % 360, String(Number((Number(point[1]) / 10).toFixed(1)))]] : [])));
}

const fists_in = (text: string | undefined): number => Number((text ?? "").trim().replace(",", ".") || "0");
const no_fists: Refusal = { message: "Fists are counted in figures.", hint: "Such as 1 or 0.5." };

interface FistsProps {
  says: string;
  is: string;
  set: (text: string) => void;
  told: Refusal | null;
}

function Fists({ says, is, set, told }: FistsProps) {
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (told !== null) field.current?.focus();
  }, [told]);
  const step = (by: number) => set(String(Math.max(0, Math.min(8, (fists_in(is) || 0) + by))));
  return (
    <li class="fact">
      <span class="fact-name">{says}</span>
      <span class="fact-value">
        <input ref={field} type="text" class="number" inputMode="decimal" autocomplete="off" aria-label={`Fists, ${says}`} aria-invalid={told !== null} placeholder="0" value={is} onFocus={(event) => event.currentTarget.select()} onInput={(event) => set(event.currentTarget.value)} />
        <span class="steps">
          <button type="button" class="step" aria-label={`Fists, ${says}: less`} onClick={() => step(-0.5)}>−</button>
          <button type="button" class="step" aria-label={`Fists, ${says}: more`} onClick={() => step(0.5)}>+</button>
        </span>
      </span>
      {told !== null && <RefusalLine told={told} />}
    </li>
  );
}

/** Bearings and degrees, as a clinometer or a map gives them. */
function InDegrees({ done }: { done: () => void }) {
  const [is_open, set_open] = useState(false);
  const known = key_of("ground", "horizon");
  if (known === undefined) return null;
  return (
    <ul class="facts">
      <li class="fact has-parts">
        <span class="fact-name">Or in degrees, as measured</span>
        <span class="fact-value">
          <PartFact thing={single_thing("ground")} known={known} is_open={is_open} set_open={set_open} with_it={{ guessed: guessed_after("ground", ["horizon"], []) }} done={done} />
        </span>
      </li>
    </ul>
  );
}

export function Skyline({ done }: { done: () => void }) {
  const fists = begun("skyline", fists_now());
  const [told, set_told] = useState<{ bearing: number; is: Refusal } | null>(null);
  function set(bearing: number, text: string): void {
    note_begun("skyline", { ...fists, [bearing]: text });
    if (told?.bearing === bearing) set_told(null);
  }
  async function keep(): Promise<void> {
    if (is_locked()) return;
    const points = bearings.map(([, bearing_deg]) => ({ bearing_deg, fists: fists_in(fists[bearing_deg]) }));
    const no_figure = points.find((point) => Number.isNaN(point.fists));
    if (no_figure !== undefined) return set_told({ bearing: no_figure.bearing_deg, is: no_fists });
    const answer = await measure({ what: "skyline", points });
    if (answer === null) return;
    if (answer.is === null) {
      const at = Number(/^\/(\d+)\//.exec(answer.not.where)?.[1] ?? 0);
      return set_told({ bearing: points[at]?.bearing_deg ?? 0, is: answer.not });
    }
    if ((await act.set_table("ground", { horizon: answer.is.horizon, guessed: guessed_after("ground", [], ["horizon"]) }, "the skyline in fists")) !== null) return;
    saying.value = "The skyline is kept, as a guess.";
    leave();
  }
  function leave(): void {
    note_begun("skyline", null);
    done();
  }
  return (
    <div class="step-part">
      <p class="small">Stand in the plot with your arm out. How many fists from level up to the far skyline, of hills and houses that you do not draw? A fist is about 10°.</p>
      <ul class="facts skyline">
        {bearings.map(([says, bearing]) => <Fists key={says} says={says} is={fists[bearing] ?? ""} set={(text) => set(bearing, text)} told={told?.bearing === bearing ? told.is : null} />)}
      </ul>
      <InDegrees done={leave} />
      <p class="deeds">
        <button type="button" class="word-button strong" disabled={is_locked()} onClick={() => void keep()}>Keep this skyline</button>
        <button type="button" class="word-button" onClick={leave}>Leave it</button>
      </p>
    </div>
  );
}
