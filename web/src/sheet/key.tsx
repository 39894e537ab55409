// The key of the light, the north arrow and the scale bar, drawn as on a printed sheet.
import { bar_length, length_says } from "../geometry";
import { compared, field_of, guessed_of, inks, outdoors, places_shown, scheme, sides, shows_difference, state, when, when_is_said, without } from "../state";
import { is_small, north_tried, key_beside, size, strip, strip_high, view } from "../tools";
import { type LightKind, steps_of } from "./light_colours";
import { type Shown, standing } from "./shown";
import { taker_inks } from "./taker_inks";

export function scheme_says(name: string): string {
  return name === "found" ? "As found" : name === "proposed" ? "As proposed" : name;
}

const units: Record<LightKind, string> = {
  hours: "hours of sun a day, clear sky",
  moment: "sun and shade, clear sky",
  difference: "hours more or less a day",
};

function Ramp({ kind, is_upright }: { kind: LightKind; is_upright: boolean }) {
  const steps = steps_of[kind];
  const step = is_upright ? 18 : kind === "difference" ? 28 : kind === "moment" ? 48 : 30;
  const long = step * steps.length;
  const wide = kind === "moment" ? 72 : 50; // words have more room than figures
  return (
    <svg
      class="ramp"
      width={is_upright ? wide : long + 16}
      height={is_upright ? long + 16 : 30}
      viewBox={is_upright ? `0 0 ${wide} ${long + 16}` : `0 0 ${long + 16} 30`}
      role="img"
      aria-label={ramp_says(kind)}
    >
      {steps.map(({ colour, says }, i) => {
        const at = is_upright ? long - (i + 1) * step + 8 : i * step + 8;
        const fill = colour === "" ? "none" : colour;
        const is_edge = kind !== "moment";
        const text = is_edge && i === steps.length - 1 && kind === "hours" ? `${says}+` : says;
        return is_upright ? (
          <g key={i}>
            <rect x="0.5" y={at + 0.5} width="15" height={step} fill={fill} class="ramp-field" />
            <text x="21" y={at + (is_edge ? step + 4 : step / 2 + 5)}>{text}</text>
          </g>
        ) : (
          <g key={i}>
            <rect x={at + 0.5} y="0.5" width={step} height="11" fill={fill} class="ramp-field" />
            <text x={is_edge ? at : at + step / 2} y="26" text-anchor="middle">{text}</text>
          </g>
        );
      })}
    </svg>
  );
}

function ramp_says(kind: LightKind): string {
  if (kind === "hours") return "Six tones: from 0 to 2 hours darkest, to 10 hours and more palest yellow";
  if (kind === "moment") return "Yellow in the sun, grey in shade";
  return "Violet for hours lost, amber for hours won";
}

/** `half`: of two sheets side by side, which one it belongs to. */
export function Key({ shown, half }: { shown: Shown; half?: "left" | "right" }) {
  const { kind } = shown.light.value;
  const is_upright = is_small.value;
  const has_high_strip = strip.value === "draw" && strip_high.value > 130; // there is no room for more beside it
  const place = half !== undefined ? `key-beneath key-${half}` : is_upright ? `key-upright${strip.value === "pen" ? " is-under-pen" : ""}` : key_beside.value ? "key-beside" : "key-beneath";
  return (
    <div class={`key ${place}`}>
      <p class="key-title">
        <span class="key-stage">{kind === "difference" ? "Light won and lost" : "Light"}</span>
        {half !== "right" && <span class="key-when">{said_when()}</span>}
      </p>
      <Ramp kind={kind} is_upright={is_upright} />
      <p class="key-unit">{unit_says(kind, is_upright)}</p>
      {(place === "key-beside" || place === "key-beneath") && !has_high_strip && <div class="key-more"><More shown={shown} /></div>}
    </div>
  );
}

/** Outdoors, in large letters, a phone has no room for all of it. */
function unit_says(kind: LightKind, is_upright: boolean): string {
  const says = is_upright && kind === "hours" ? "h a day, clear sky" : units[kind];
  return is_upright && outdoors.value ? says.replace(", clear sky", "") : says;
}

/** What else is on the sheet, where there is room to say it. */
function More({ shown }: { shown: Shown }) {
  const inked = [...inks.value.values()].filter(({ id, ink }) => ink >= 0 && ink < taker_inks.length && (standing(shown, id)?.mark ?? "removed") !== "removed");
  const on_guesses = shown.light.value.kind !== "moment" && (places_shown.value?.places.some((place) => place.on_guesses) ?? false);
  const is_imperial = state.value?.site.units === "imperial";
  const are_levels_guessed = guessed_of("ground").some((key) => ["spots", "falls_m", "toward_deg", "over"].includes(key));
  const has_levels = Object.keys(state.value?.singles.ground ?? {}).some((key) => key === "spots" || key === "falls_m");
  return (
    <>
      {has_red(shown) && <p class="key-unit key-red">red: new or changed; an arrow comes from where a thing stood</p>}
      {on_guesses && <p class="key-unit">≈ rests on a guess</p>}
      {has_levels && <p class="key-unit">{are_levels_guessed ? "dotted, ≈: how high the ground lies, guessed" : "dashed: how high the ground lies"}, {is_imperial ? "feet" : "metres"} from level 0</p>}
      {inked.length > 0 && (
        <>
          <p class="key-unit key-head">who takes most of the sun</p>
          <ul class="key-takers">
            {inked.map(({ id, letter, ink }) => (
              <li key={id}><span class="key-disc" style={{ background: taker_inks[ink] }}>{letter}</span>{id}</li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

const has_red = (shown: Shown): boolean => shown.state.value?.things.some(({ mark }) => mark === "proposed" || mark === "changed") ?? false;

/** Of the light that is on the sheet; another that was asked for may be on its way, or not to be had. */
const shown_when = (): string => when_is_said(field_of.value?.when ?? when.value);
const said_when = (): string => (without.value !== null ? `${when.value.kind === "months" ? "" : `${shown_when()}, `}without ${without.value}` : shown_when());

export function NorthArrow() {
  const tried = north_tried.value;
  const turn = tried === null ? (state.value?.site.plan_north_deg ?? 0) : 360 - tried;
  return (
    <svg class="north" viewBox="-30 -36 60 60" width="60" height="60" role="img" aria-label={north_says(turn)}>
      <g transform={`rotate(${-turn})`} class="north-needle">
        <circle r="17" />
        <path d="M0 17V-20" />
        <path class="north-dark" d="M0 -21L-5 3L0 0Z" />
        <path d="M0 -21L5 3L0 0" />
        <g transform={`translate(0 -28) rotate(${turn})`}>
          <text text-anchor="middle" y="4.5">N</text>
        </g>
      </g>
    </svg>
  );
}

/** `plan_north_deg` is the bearing of the page's up, clockwise from true north. */
function north_says(turn: number): string {
  const off = ((turn + 540) % 360) - 180;
  if (Math.abs(off) < 1) return "North is up the page";
  return `North is ${Math.abs(Math.round(off))} degrees ${off > 0 ? "left" : "right"} of the page's up`;
}

export function ScaleBar() {
  const now = view.value;
  if (now === null) return null;
  const room = is_small.value ? 40 : compared.value === null ? 130 : size.value.width < 480 ? 60 : 84;
  const is_imperial = state.value?.site.units === "imperial";
  const unit = is_imperial ? 0.3048 : 1;
  const count = bar_length(now.scale * unit, room);
  const long = count * unit * now.scale;
  const text = is_imperial ? `${count} ft` : length_says(count);
  const parts = is_small.value ? 2 : 5;
  return (
    <svg class="scale-bar" width={long + 44} height="26" role="img" aria-label={`This long is ${text}`}>
      {Array.from({ length: parts }, (_, i) => (
        <rect
          key={i}
          x={1 + (i * long) / parts}
          y="15"
          width={long / parts}
          height="5"
          class={i % 2 === 0 ? "bar-dark" : "bar-light"}
        />
      ))}
      {!is_small.value && <text x="1" y="10">0</text>}
      <text x={long + 1} y="10" text-anchor="middle">{text}</text>
    </svg>
  );
}

/** Names the two sheets where they stand side by side. */
export function SideName({ shown, side }: { shown: Shown; side: 0 | 1 }) {
  if (sides.value === null) return null;
  const is_active = shown.is_active.value;
  return (
    <div class="side-name">
      <span>{scheme_says(shown.scheme.value)}</span>
      {is_active && <span class="side-active">you work on this one</span>}
      {side === 1 && when.value.kind !== "moment" && (
        <label class="side-switch">
          <input
            type="checkbox"
            checked={shows_difference.value}
            onChange={(event) => (shows_difference.value = event.currentTarget.checked)}
          />
          <span>difference</span>
        </label>
      )}
    </div>
  );
}

export function sheet_says(): string {
  const beside = compared.value === null ? "" : ` beside ${scheme_says(compared.value).toLowerCase()}`;
  return `The plan ${scheme_says(scheme.value).toLowerCase()}${beside}, its light ${shown_when()}`;
}

