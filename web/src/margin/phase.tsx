// In which stage of the works a thing comes, is changed or goes.
import type { Thing } from "../api";
import { act, link } from "../state";

const phases = [1, 2, 3, 4, 5, 6];

/** What goes has its stage in its own entry, as it has that it goes; else it is of the scheme shown. */
async function set_phase(thing: Thing, phase: number | null): Promise<void> {
  if (thing.mark === "removed") return void (await act.all([{ scheme: "found", thing: thing.id, set: { phase } }], `${thing.id}: stage of the works`));
  const told = await act.set(thing.id, { phase });
  if (told !== null) act.tell(told);
}

export function Phase({ thing }: { thing: Thing }) {
  const now = thing.fields["phase"]?.value;
  const most = typeof now === "number" ? Math.max(6, now) : 6;
  const others = most > 6 ? [...phases, most] : phases;
  return (
    <label class="tape-corner">
      <span>stage of the works</span>
      <select value={typeof now === "number" ? String(now) : ""} disabled={link.value === "read_only"} onChange={({ currentTarget: { value } }) => void set_phase(thing, value === "" ? null : Number(value))}>
        <option value="">none</option>
        {others.map((one) => <option key={one} value={String(one)}>{one}</option>)}
      </select>
    </label>
  );
}
