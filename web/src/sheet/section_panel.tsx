// The garden cut upright along a line: the program's drawing over the foot of the sheet, with its
// figures as a table, and the line on the plan.
import "./section.css";
import { useEffect, useRef, useState } from "preact/hooks";
import type { Section } from "../api";
import { apart, length_says, px_per_mm, type Point, to_screen, type View } from "../geometry";
import { garden, link_to_section, section, section_line, section_loading, section_scale, type SectionLine, state, when } from "../state";
import { begin_section, close_section, covered, section_sketch, turn_section } from "../tools";
import { and_back } from "./strip_figure";

const says = (metres: number) => length_says(metres, state.value?.site.units === "imperial");

/** The paper beside the line's ends, and above for title and names, in millimetres. */
const [sides_mm, head_mm] = [48, 27];
const [least_scale, most_scale] = [1.5, 60];
/** Names above what is drawn, those of beds and the earth below it. */
const words_mm = 37;
/** What does not fit the height is shown at this share of what fits the width, and scrolled. */
const least_share = 0.3;

/** Its words keep their size: the drawing is asked for as large as it fits, and is not squeezed. */
function scale_for(line: SectionLine, of: Section | null, wide_px: number, high_px: number): number {
  const length = apart(line.from, line.to);
  const wide = (wide_px / px_per_mm - sides_mm) / length;
  const is_known = of !== null && Math.abs(of.length_m - length) < 0.001;
  const high = is_known ? (high_px / px_per_mm - words_mm) / Math.max(0.1, of.high_m - of.low_m) : wide;
  const fits = Math.max(Math.min(wide, high), least_share * wide);
  return Number(Math.max(least_scale, Math.min(most_scale, fits)).toFixed(2));
}
const small_px = 900;

/** Without its title, which the panel has in words, and what only one drawing on a page may have. */
function drawing_of(text: string): Element {
  const read = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  const svg = document.importNode(read, true);
  for (const one of svg.querySelectorAll("title,desc")) one.remove();
  // What clips is named by its id, which must be another than on the sheet.
  for (const one of svg.querySelectorAll("[id]")) {
    if (one.tagName === "clipPath") one.id = `section-${one.id}`;
    else one.removeAttribute("id");
  }
  for (const one of svg.querySelectorAll("[clip-path]")) one.setAttribute("clip-path", (one.getAttribute("clip-path") ?? "").replace("#", "#section-"));
  for (const name of ["role", "aria-labelledby", "aria-describedby"]) svg.removeAttribute(name);
  svg.setAttribute("aria-hidden", "true");
  svg.setAttribute("focusable", "false");
  return svg;
}

/** Cut to what is drawn, without the title: at the paper's own size, so that its words can be read. */
function cut_to_fit(svg: SVGSVGElement): void {
  const air_mm = 2;
  const is_title = (text: SVGTextElement) => text.getBBox().y + text.getBBox().height < head_mm;
  for (const text of [...svg.querySelectorAll("text")].filter(is_title)) text.remove();
  const { x, y, width, height } = svg.getBBox();
  const [wide, high] = [width + 2 * air_mm, y + height - head_mm + air_mm];
  svg.setAttribute("viewBox", `${x - air_mm} ${head_mm} ${wide} ${high}`);
  svg.setAttribute("width", String(wide * px_per_mm));
  svg.setAttribute("height", String(high * px_per_mm));
}

function Drawn({ of }: { of: Section }) {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const svg = drawing_of(of.svg) as SVGSVGElement;
    host.current?.replaceChildren(svg);
    cut_to_fit(svg);
  }, [of]);
  return <div class="section-drawn" tabIndex={0} role="img" aria-label={`The section, ${says(of.length_m)} long; its figures are in the table.`} ref={host} />;
}

/** In the order in which the line meets them. */
function rows_of(of: Section) {
  const beds = of.beds.map((bed) => ({ ...bed, top_m: bed.level_m, ground: `${says(bed.ground_from_m).replace(/ m$/, "")} to ${says(bed.ground_to_m)}` }));
  return [...beds, ...of.cuts.map((cut) => ({ ...cut, ground: "" }))].sort((a, b) => a.from_m - b.from_m);
}

function Figures({ of }: { of: Section }) {
  return (
    <table class="figures">
      <caption>What the line cuts, from A: levels are above the garden’s datum</caption>
      <thead>
        <tr>
          <th scope="col">thing</th>
          <th scope="col" class="number">from A</th>
          <th scope="col" class="number">to</th>
          <th scope="col" class="number">soil or top</th>
          <th scope="col" class="number">ground there</th>
        </tr>
      </thead>
      <tbody>
        {rows_of(of).map((row) => (
          <tr key={`${row.id} ${row.from_m}`}>
            <th scope="row">{row.id}</th>
            <td class="number">{says(row.from_m)}</td>
            <td class="number">{says(row.to_m)}</td>
            <td class="number">{says(row.top_m)}</td>
            <td class="number">{row.ground}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function sun_told(of: Section): string {
  if (when.value.kind !== "moment") return "Choose a moment on the year’s band, and it shows where the sun reaches.";
  return of.sun_says === "" ? "" : `${of.sun_says.charAt(0).toUpperCase()}${of.sun_says.slice(1)}${of.sun_says.endsWith(".") ? "" : "."}`;
}

function Words({ line, of, has_table, turn_table }: { line: SectionLine; of: Section | null; has_table: boolean; turn_table: () => void }) {
  return (
    <span class="section-words">
      {of !== null && <button type="button" class="word-button" aria-pressed={has_table} onClick={turn_table}>Table</button>}
      <button type="button" class="word-button" onClick={turn_section}>Turn round</button>
      <button type="button" class="word-button" onClick={() => and_back(begin_section)}>Another line</button>
      {garden.value !== null && <a class="word-button" href={link_to_section(garden.value, line)} download>Picture</a>}
      <button type="button" class="word-button" onClick={close_section}>Close</button>
    </span>
  );
}

export function SectionPanel() {
  const line = section_line.value;
  const panel = useRef<HTMLElement>(null);
  const [has_table, show_table] = useState(false);
  const is_open = line !== null;
  useEffect(() => {
    const host = panel.current;
    if (line === null || host === null) return undefined;
    const measure = () => {
      const room = host.querySelector(".section-room")?.clientHeight ?? host.clientHeight;
      section_scale.value = scale_for(line, section.peek(), host.clientWidth, room);
      covered.value = innerWidth < small_px ? 0 : host.clientHeight; // on a phone it has the whole sheet
    };
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(host);
    return () => {
      watch.disconnect();
      covered.value = 0;
    };
  }, [line, section.value?.low_m, section.value?.high_m]);
  useEffect(() => {
    if (is_open) panel.current?.focus({ preventScroll: true });
  }, [is_open]);
  if (line === null) return null;
  const now = section.value;
  function key(event: KeyboardEvent): void {
    if (event.key !== "Escape" || event.defaultPrevented) return;
    event.preventDefault();
    event.stopPropagation();
    close_section();
    document.querySelector<HTMLElement>('[data-region="sheet"]')?.focus({ preventScroll: true });
  }
  return (
    <section class="section-panel" data-region="section" data-letters aria-label="Section from A to B" aria-busy={section_loading.busy.value} hidden={section_sketch.value !== null && innerWidth < small_px} tabIndex={-1} ref={panel} onKeyDown={key}>
      <div class="section-head">
        <h2>Section A–B, {says(apart(line.from, line.to))}</h2>
        <Words line={line} of={now} has_table={has_table} turn_table={() => show_table(!has_table)} />
      </div>
      <p class="section-sun" role="status">{now === null ? "Cutting …" : sun_told(now)}</p>
      <div class="section-room" tabIndex={has_table ? 0 : undefined}>
        {now !== null && (has_table ? <Figures of={now} /> : <Drawn of={now} />)}
      </div>
    </section>
  );
}

const path_of = (a: Point, b: Point) => `M${a[0].toFixed(1)} ${a[1].toFixed(1)}L${b[0].toFixed(1)} ${b[1].toFixed(1)}`;

function End({ at: [x, y], letter }: { at: Point; letter: string }) {
  return (
    <g transform={`translate(${x.toFixed(1)} ${y.toFixed(1)})`}>
      <circle class="section-end" r="10" />
      <text class="section-letter" y="5">{letter}</text>
    </g>
  );
}

/** Where the garden is cut, or is to be. */
export function SectionMark({ now }: { now: View }) {
  const sketch = section_sketch.value;
  const line = sketch !== null ? { from: sketch.from ?? sketch.at, to: sketch.at } : section_line.value;
  if (line === null) return null;
  const [a, b] = [to_screen(now, line.from), to_screen(now, line.to)];
  return (
    <g class="section-mark">
      <path class="section-line is-case" d={path_of(a, b)} />
      <path class="section-line" d={path_of(a, b)} />
      <End at={a} letter="A" />
      {(sketch === null || sketch.from !== null) && <End at={b} letter="B" />}
    </g>
  );
}
