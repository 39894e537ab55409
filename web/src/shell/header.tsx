// The header: which garden, which scheme, what undo takes back, and the rest behind a word.
import { useState } from "preact/hooks";
import { in_plain_words } from "../margin/chain";
import { list_open, scheme_says } from "../sheet";
import {
  act, dark, garden, head, link, link_to_document, link_to_file, link_to_picture, link_to_table, open_garden, outdoors, problem, schema,
  scheme, selected, sides, state, place_of, waiting, weather_file, when,
} from "../state";
import { snaps_on, strip, strip_high } from "../tools";
import { DrawMenu } from "./draw_menu";
import { HandsHelp } from "./hands_help";
import { Menu } from "./menu";
import { Schemes } from "./schemes";
import { Versions } from "./versions";

function Take({ what, href }: { what: string; href: string }) {
  return <a class="menu-row" href={href} download>{what}</a>;
}

/** The sheet's pictures; of two side by side both. */
function Pictures({ id }: { id: string }) {
  const pair = sides.value;
  if (pair === null)
    return (
      <>
        <Take what="The sheet as a picture (SVG)" href={link_to_picture(id, scheme.value, "svg")} />
        <Take what="The sheet as a picture (PNG)" href={link_to_picture(id, scheme.value, "png")} />
      </>
    );
  return (
    <>
      {pair.map((one) => <Take key={`${one} svg`} what={`${scheme_says(one)}, as a picture (SVG)`} href={link_to_picture(id, one, "svg")} />)}
      {pair.map((one) => <Take key={`${one} png`} what={`${scheme_says(one)}, as a picture (PNG)`} href={link_to_picture(id, one, "png")} />)}
      {when.value.kind !== "moment" && (
        <>
          <Take what="What is won and lost, as a picture (SVG)" href={link_to_picture(id, pair[1], "svg", undefined, pair[0])} />
          <Take what="What is won and lost, as a picture (PNG)" href={link_to_picture(id, pair[1], "png", undefined, pair[0])} />
        </>
      )}
    </>
  );
}

function TakeOut() {
  const id = garden.value;
  if (id === null) return null;
  const place = place_of(selected.value);
  const weather = weather_file.value;
  return (
    <>
      <h2>Take out</h2>
      <Pictures id={id} />
      {place !== null && <Take what={`${place.id}’s sun print (SVG)`} href={link_to_picture(id, scheme.value, "svg", place.id)} />}
      {place !== null && <Take what={`${place.id}’s sun print (PNG)`} href={link_to_picture(id, scheme.value, "png", place.id)} />}
      <Take what="The places’ figures as a table (CSV)" href={link_to_table(id, scheme.value)} />
      {(sides.value ?? [scheme.value]).map((one) => (
        <Take key={one} what={`Every spot’s figures${sides.value === null ? "" : `, ${scheme_says(one).toLowerCase()},`} as a table (CSV)`} href={link_to_table(id, one, "field")} />
      ))}
      <Take what="The garden document (TOML)" href={link_to_document(id)} />
      {weather?.is_there === true && <Take what={`The weather file ${weather.name}`} href={link_to_file(id, weather.name)} />}
    </>
  );
}

function Looks() {
  return (
    <>
      <h2>On this screen</h2>
      <label class="menu-row">
        <input type="checkbox" checked={outdoors.value} onChange={(event) => (outdoors.value = event.currentTarget.checked)} />
        Outdoors: bold, for the sun
      </label>
      <label class="menu-row">
        <input type="checkbox" checked={dark.value} onChange={(event) => (dark.value = event.currentTarget.checked)} />
        Dark around the paper
      </label>
      <label class="menu-row">
        <input type="checkbox" checked={snaps_on.value} onChange={(event) => (snaps_on.value = event.currentTarget.checked)} />
        What is drawn or moved goes to lines nearby
      </label>
    </>
  );
}

function More({ close, is_small }: { close: () => void; is_small: boolean }) {
  const [shows, show] = useState<"words" | "versions" | "hands">("words");
  if (shows === "versions") return <Versions close={close} />;
  if (shows === "hands") return <HandsHelp />;
  return (
    <div class="menu-rows">
      {is_small && <button type="button" class="menu-row" onClick={() => open_garden(null)}>To the shelf of gardens</button>}
      <button type="button" class="menu-row" onClick={() => show("versions")}>Versions, named and brought back</button>
      <TakeOut />
      <Looks />
      <h2>Help</h2>
      <button type="button" class="menu-row" onClick={() => show("hands")}>What hands and keys do</button>
    </div>
  );
}

function LinkWord({ is_short }: { is_short: boolean }) {
  const is_gone = link.value === "gone";
  if (is_gone || link.value === "no_room")
    return (
      <span class="link-word" role="status">
        {is_gone ? "Kept here" : "Not written yet"}
        {!is_short && (is_gone ? " until Spadework answers again" : ": the disk is full")}
        {waiting.value > 0 && `${is_short ? ": " : ", "}${waiting.value}`}
        {waiting.value > 0 && <span class={is_short ? "unseen" : ""}> {waiting.value === 1 ? "edit waits" : "edits wait"}</span>}
      </span>
    );
  if (link.value === "read_only") return <span class="link-word" role="status">Read only</span>;
  return null;
}

export function UndoWords({ is_short }: { is_short: boolean }) {
  const is_fixed = link.value === "read_only";
  const is_away = link.value === "gone" || link.value === "no_room";
  const waits = waiting.value > 0 && is_away;
  // What is undone next is known here of what is written alone.
  const undo = waits ? "" : (head.value?.undo ?? "");
  const redo = waits ? "" : (head.value?.redo ?? "");
  return (
    <>
      <button
        type="button"
        class="word-button undo-word"
        disabled={is_fixed || (undo === "" && !waits)}
        aria-label={undo === "" ? "Undo" : `Undo: ${undo}`}
        onClick={() => void act.undo()}
      >
        Undo{!is_short && undo !== "" && <span class="undo-what">{undo}</span>}
      </button>
      <button
        type="button"
        class="word-button undo-word"
        disabled={is_fixed || (redo === "" && !waits)}
        aria-label={redo === "" ? "Redo" : `Redo: ${redo}`}
        onClick={() => void act.redo()}
      >
        Redo{!is_short && redo !== "" && <span class="undo-what">{redo}</span>}
      </button>
    </>
  );
}

export function Header({ width }: { width: "small" | "middle" | "wide" }) {
  const title = state.value?.title ?? "";
  const is_small = width === "small";
  return (
    <header class="header" data-region="header">
      {!is_small && (
        <button type="button" class="word-button wordmark" data-entry onClick={() => open_garden(null)} aria-label="Spadework: to the shelf of gardens">
          Spadework
        </button>
      )}
      <h1 class="garden-title">{title}</h1>
      {is_small && <LinkWord is_short />}
      <Schemes is_small={is_small} is_middle={width === "middle"} />
      {!is_small && <DrawMenu at={width === "middle" ? "right" : "left"} />}
      {!is_small && <span class="header-gap"><LinkWord is_short={width !== "wide"} /></span>}
      {!is_small && <div class="undo-words"><UndoWords is_short={width === "middle"} /></div>}
      <Menu word="More" at="right">
        {(close) => <More close={close} is_small={is_small} />}
      </Menu>
    </header>
  );
}

/** What went wrong, in words, until the next action. */
export function ProblemLine() {
  const told = problem.value;
  const says = (words: string) => in_plain_words(words, schema.value, state.value?.site.units === "imperial");
  return (
    <div class={`problem-line${strip.value === null ? "" : strip.value === "draw" ? " is-over-draw" : " is-over-strip"}`} style={strip.value === "draw" ? { "--strip": `${strip_high.value}px` } : undefined} role="alert">
      {told !== null && (
        <p>
          <strong>{says(told.message)}</strong> {says(told.hint)}
          <button type="button" class="word-button" onClick={() => (problem.value = null)}>Close</button>
        </p>
      )}
    </div>
  );
}

/** The phone's rail: what the thumb reaches. */
export function Rail({ show_light }: { show_light: () => void }) {
  return (
    <nav class="rail" data-region="rail" aria-label="Below the sheet">
      <button type="button" class="word-button" data-entry aria-current="true" onClick={show_light}>Light</button>
      <DrawMenu at="foot" />
      <UndoWords is_short />
      <button type="button" class="word-button" aria-expanded={list_open.value} onClick={() => (list_open.value = !list_open.value)}>List</button>
    </nav>
  );
}
