// Two schemes side by side: what each place gains from the left one to the right one.
import { gain_says, hours_says } from "../geometry";
import { day_says, field, field_of, months_say, places_loading, places_shown, scheme, second_field, second_state, sides, things, when_says } from "../state";
import { scheme_says } from "../sheet";
import { select } from "../tools";
import { listed, share_says } from "./format";
import { type Gained, gains_between, gains_of_places, is_in_both } from "./gains";

/** "berry-wires.west" as "berry-wires, west". */
const place_says = (id: string): string => id.replace(".", ", ");

const size_says = ({ by, from_guessed = false, to_guessed = false }: Gained) =>
  hours_says(Math.abs(by), from_guessed || to_guessed).replace("≈", "about");

function sentence(gains: readonly Gained[], to: string, time: string): string {
  const more = gains.filter(({ by }) => by >= 0.05);
  const less = gains.filter(({ by }) => by <= -0.05);
  if (gains.length === 0) return "The two share no place.";
  if (more.length + less.length === 0) return "No place that both have wins or loses by it.";
  const count = (n: number, verb: string) => `${n} ${n === 1 ? `${verb}s` : verb}`;
  const told = [more.length > 0 ? count(more.length, "win") : "", less.length > 0 ? count(less.length, "lose") : ""].filter((words) => words !== "");
  const [first, last] = [gains[0], gains[gains.length - 1]];
  const most = first !== undefined && first.by >= 0.05 ? ` ${first.id} wins most, ${size_says(first)} h a day` : "";
  const least = last !== undefined && last.by <= -0.05 ? `${most === "" ? " " : "; "}${last.id} loses most, ${size_says(last)} h` : "";
  const places = gains.length === 1 ? "the one place" : `${gains.length} places`;
  return `${scheme_says(to)}, ${time}: of ${places} that both have, ${listed(told)}.${most}${least}${most + least === "" ? "" : "."}`;
}

/** Whether a thing stands elsewhere in the second scheme. */
function is_moved(id: string): boolean {
  const other = second_state.value?.things.find((thing) => thing.id === id);
  const here = things.value.get(id);
  return other !== undefined && here !== undefined && JSON.stringify(other.corners) !== JSON.stringify(here.corners);
}

/** Of a moment: how much of each bed that both have is in the sun. */
function ComparedMoment({ pair }: { pair: readonly [string, string] }) {
  const [here, there] = [field.value?.head.beds, second_field.value?.head.beds];
  if (here === undefined || there === undefined) return <p class="answer quiet">Comparing …</p>;
  const [from, to] = scheme.value === pair[1] ? [there, here] : [here, there];
  const rows = gains_between(from, to);
  const both = Object.keys(to).filter((id) => from[id] !== undefined && from[id] !== null && to[id] !== null);
  const count = both.length === 1 ? "the one bed" : `${both.length} beds`;
  return (
    <>
      <p class="answer">
        {both.length === 0
          ? "The two share no bed."
          : rows.length === 0
            ? `${when_says.value}: of ${count} that both have, none has more or less of it in the sun.`
            : `${when_says.value}: of ${count} that both have, ${listed(rows.slice(0, 3).map((row) => `${row.id} has ${share_says(row.to)} in the sun, not ${share_says(row.from)}`))}.`}
      </p>
      {both.length > 0 && (
        <table class="gains">
          <caption>How much of each bed is in the sun, {when_says.value}, clear sky</caption>
          <thead>
            <tr>
              <th scope="col">bed</th>
              <th scope="col" class="number">{scheme_says(pair[0]).toLowerCase()}</th>
              <th scope="col" class="number">{scheme_says(pair[1]).toLowerCase()}</th>
            </tr>
          </thead>
          <tbody>
            {both.map((id) => (
              <tr key={id}>
                <th scope="row">
                  <button type="button" class="row-thing" onClick={() => select(id)}>{id}</button>
                  {is_moved(id) && <span class="row-moved">moved</span>}
                </th>
                <td class="number">{share_says(from[id] ?? 0)}</td>
                <td class="number">{share_says(to[id] ?? 0)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </>
  );
}

export function Compared() {
  const pair = sides.value;
  if (pair !== null && field_of.value?.when.kind === "moment") return <ComparedMoment pair={pair} />;
  return <ComparedHours pair={pair} />;
}

function ComparedHours({ pair }: { pair: readonly [string, string] | null }) {
  const known = places_shown.value;
  if (pair === null || known === null) return <p class="answer quiet">Comparing …</p>;
  const is_turned = scheme.value !== pair[1]; // the one worked on stands left
  const gains = gains_of_places(known.places, is_turned);
  const alone = known.places.filter((place) => !is_in_both(place));
  const time = known.day === "" ? months_say(known.months) : day_says(known.day);
  return (
    <div aria-busy={places_loading.busy.value}>
      <p class="answer">{sentence(gains, pair[1], time)}</p>
      <table class="gains">
        <caption>Hours of sun a day, rounded, clear sky, {time}</caption>
        <thead>
          <tr>
            <th scope="col">place</th>
            <th scope="col" class="number">{scheme_says(pair[0]).toLowerCase()}</th>
            <th scope="col" class="number">{scheme_says(pair[1]).toLowerCase()}</th>
            <th scope="col" class="number">won</th>
          </tr>
        </thead>
        <tbody>
          {gains.map(({ id, from, to, by, from_guessed = false, to_guessed = false }) => (
            <tr key={id}>
              <th scope="row">
                <button type="button" class="row-thing" onClick={() => select(id.split(".")[0] ?? id)}>{place_says(id)}</button>
                {is_moved(id) && <span class="row-moved">moved</span>}
              </th>
              <td class="number">{hours_says(from, from_guessed)}</td>
              <td class="number">{hours_says(to, to_guessed)}</td>
              <td class="number won-by">{gain_says(by, from_guessed || to_guessed)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {known.only_there.length > 0 && (
        <p class="small">Only {scheme_says(is_turned ? pair[1] : pair[0]).toLowerCase()}: {listed(known.only_there.map(({ id }) => place_says(id)))}.</p>
      )}
      {alone.length > 0 && (
        <p class="small">
          Only {scheme_says(is_turned ? pair[0] : pair[1]).toLowerCase()}: {listed(alone.map(({ id }) => place_says(id)))}, so there is nothing to compare.
        </p>
      )}
    </div>
  );
}
