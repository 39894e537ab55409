// The far skyline in fists held out, by eight true directions.
import { useState } from "preact/hooks";
import { act, begun, guessed_after, measure, note_begun, saying, single } from "../../state";
import { is_locked } from "../typed_fact";
import { plain_refusal } from "../place_figure";
import type { Wrong } from "./figure";

const bearings = [["North", 0], ["North-east", 45], ["East", 90], ["South-east", 135], ["South", 180], ["South-west", 225], ["West", 270], ["North-west", 315]] as const;

/** What the garden has, in fists of ten degrees. */
function fists_now(): Record<number, string> {
  const horizon = single("ground", "horizon");
  if (!Array.isArray(horizon)) return {};
  return Object.fromEntries(horizon.flatMap((point: unknown) => (Array.isArray(point) ? [[Number(point[0]) % 360, String(Number((Number(point[1]) / 10).toFixed(1)))]] : [])));
}

export function Skyline({ done }: { done: () => void }) {
  const fists = begun("skyline", fists_now());
  const set_fists = (next: Record<number, string>) => note_begun("skyline", next);
  const [wrong, set_wrong] = useState<Wrong | null>(null);
  const step = (bearing: number, by: number) => {
    const now = Number((fists[bearing] ?? "0").replace(",", ".")) || 0;
    set_fists({ ...fists, [bearing]: String(Math.max(0, Math.min(8, now + by))) });
  };
  async function keep(): Promise<void> {
    if (is_locked()) return;
    const points = bearings.map(([, bearing_deg]) => ({ bearing_deg, fists: Number((fists[bearing_deg] ?? "0").replace(",", ".") || "0") }));
    if (points.some((point) => Number.isNaN(point.fists))) return set_wrong({ message: "Fists are counted in figures.", hint: "Such as 1 or 0.5." });
    const told = await measure({ what: "skyline", points });
    if (told === null) return;
    if (told.is === null) return set_wrong(told.not);
    if ((await act.set_table("ground", { horizon: told.is.horizon, guessed: guessed_after("ground", [], ["horizon"]) }, "the skyline in fists")) !== null) return;
    saying.value = "The skyline is kept, as a guess.";
    note_begun("skyline", null);
    done();
  }
  function leave(): void {
    note_begun("skyline", null);
    done();
  }
  return (
    <div class="step-part">
      <p class="small">Stand in the plot with your arm out. How many fists from level up to the far skyline, of hills and houses that you do not draw? A fist is about 10°.</p>
      <ul class="facts skyline">
        {bearings.map(([says, bearing]) => (
          <li key={says} class="fact">
            <span class="fact-name">{says}</span>
            <span class="fact-value">
              <input type="text" class="number" inputMode="decimal" autocomplete="off" aria-label={`Fists, ${says}`} placeholder="0" value={fists[bearing] ?? ""} onFocus={(event) => event.currentTarget.select()} onInput={(event) => set_fists({ ...fists, [bearing]: event.currentTarget.value })} />
              <span class="steps">
                <button type="button" class="step" aria-label={`Fists, ${says}: less`} onClick={() => step(bearing, -0.5)}>−</button>
                <button type="button" class="step" aria-label={`Fists, ${says}: more`} onClick={() => step(bearing, 0.5)}>+</button>
              </span>
            </span>
          </li>
        ))}
      </ul>
      {wrong !== null && <p class="told" role="alert"><strong>{plain_refusal(wrong).message}</strong> {plain_refusal(wrong).hint}</p>}
      <p class="deeds">
        <button type="button" class="word-button strong" disabled={is_locked()} onClick={() => void keep()}>Keep this skyline</button>
        <button type="button" class="word-button" onClick={leave}>Leave it</button>
      </p>
    </div>
  );
}
