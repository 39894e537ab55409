// Whose weather the light is under: the stations around, or a file of the grower's own.
import { useSignal } from "@preact/signals";
import type { Problem, WeatherFile } from "../api";
import { bring_weather, leave_weather, link, weather_comes, weather_file, weather_notes } from "../state";
import { ChooseFile, ProblemList } from "./choose_file";

const accepted = ".csv,.epw,text/csv";

function Told({ file }: { file: WeatherFile | null }) {
  if (file === null) return <p>From the weather stations around.</p>;
  if (!file.is_there)
    return (
      <p>
        <strong>{file.name} is wanted.</strong> The document takes its weather from this file, and it is not with the garden yet. The weather stations
        around stand in for it.
      </p>
    );
  if (file.problem !== null)
    return (
      <>
        <p><strong>{file.name} cannot be read.</strong> The weather stations around stand in for it.</p>
        <ProblemList problems={[file.problem]} />
      </>
    );
  if (file.has_no_month)
    return (
      <p>
        <strong>{file.name} has no whole month of anything.</strong> The weather stations around stand in for it.
      </p>
    );
  return (
    <p>
      From the weather file {file.name}; from the stations around where it has no whole month.
    </p>
  );
}

/** What the file lacks, once after it came in. */
function Lacks({ file }: { file: WeatherFile | null }) {
  const told = weather_notes.value;
  if (file === null || told === null || told.name !== file.name) return null;
  return <>{told.notes.map((note) => <p key={note} class="small">{note}</p>)}</>;
}

function words_for(file: WeatherFile | null): string {
  if (file === null) return "Take a weather file of your own";
  return file.is_there ? "Take another weather file" : `Give the garden ${file.name}`;
}

export function WeatherNotes() {
  const problems = useSignal<{ name: string; all: Problem[] } | null>(null);
  const file = weather_file.value;
  const comes = weather_comes.value;
  const is_off = link.value !== "here" || comes !== null;
  async function take(chosen: File): Promise<void> {
    problems.value = null;
    const all = await bring_weather(chosen);
    if (all.length > 0) problems.value = { name: chosen.name, all };
  }
  return (
    <div class="part weather" aria-busy={comes !== null}>
      <h3>Weather</h3>
      <Told file={file} />
      <Lacks file={file} />
      <p class="deeds">
        <ChooseFile words={comes === null ? words_for(file) : `Reading ${comes} …`} accept={accepted} disabled={is_off} take={(chosen) => void take(chosen)} />
        {file !== null && (
          <button type="button" class="word-button" disabled={is_off} onClick={() => void leave_weather()}>
            {file.is_there ? "Take the stations instead" : "Do without it"}
          </button>
        )}
      </p>
      {file === null && <p class="small">A table of days (CSV) or an hourly year (EPW).</p>}
      {problems.value !== null && (
        <div role="alert">
          <p>{problems.value.name} was not taken; nothing has changed.</p>
          <ProblemList problems={problems.value.all} />
        </div>
      )}
    </div>
  );
}
