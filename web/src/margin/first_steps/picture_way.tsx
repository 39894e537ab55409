// A plot from a photograph or map picture: two points of it and how far they are apart, then its corners.
import { useEffect, useLayoutEffect, useState } from "preact/hooks";
import type { Problem } from "../../api";
import { apart, metres_in, type Point } from "../../geometry";
import { act, begun, caught_up, garden, guessed_after, keep_picture, link_to_file, note_begun, saying, state } from "../../state";
import { begin_drawing, cross, forget_sketches, kind_groups, type Pen, picture_tried, put_pen_down, show_whole, sketch, take_pen } from "../../tools";
import { ChooseFile, ProblemList } from "../choose_file";
import { is_imperial, is_locked } from "../typed_fact";
import { enter_goes_on, Figure, type Wrong, wrong_length } from "./figure";
import { opened, to_sheet } from "./progress";

const wide_at_first_m = 20;

/** As the browser shows it: a photograph may be stored turned. */
function sides_of(url: string): Promise<[number, number]> {
  const image = new Image();
  image.src = url;
  return image.decode().then(() => [image.naturalWidth, image.naturalHeight]);
}

function draw_boundary(): void {
  const kind = kind_groups.flatMap(([, kinds]) => kinds).find(({ table }) => table === "boundary");
  if (kind === undefined) return;
  opened.value = "plot"; // it stays open until the corners are drawn
  begin_drawing(kind, {
    more: { guessed: guessed_after("boundary", ["sides_m", "diagonal_m"], ["outline"]) },
    then: () => {
      note_begun("way to the plot", null);
      opened.value = undefined;
    },
  });
  to_sheet();
}

/** By its first bytes: a name can say anything. */
async function is_picture(file: File): Promise<boolean> {
  const [a, b, c] = new Uint8Array(await file.slice(0, 3).arrayBuffer());
  return (a === 0x89 && b === 0x50 && c === 0x4e) || (a === 0xff && b === 0xd8 && c === 0xff);
}
const no_picture: Problem = { code: "syntax", where: "", message: "That is no picture that can be laid under.", hint: "Choose a PNG or a JPEG; anything else can be saved anew as one of them." };

/** A picture that is being laid, for when the step is taken up again. */
interface Begun {
  file: string;
  height_m: number;
  points: readonly Point[];
  text: string;
}
const not_begun: Begun = { file: "", height_m: 0, points: [], text: "" };

export function PictureWay() {
  const [problems, set_problems] = useState<Problem[]>([]);
  const [points, set_points] = useState<readonly Point[]>([]);
  const [text, set_text] = useState("");
  const [is_busy, set_busy] = useState(false);
  const laid = picture_tried.value;
  useEffect(() => {
    const { file, height_m, points: was, text: said } = begun("picture", not_begun);
    if (file !== "" && height_m > 0) {
      picture_tried.value = { file, at: [0, 0], width_m: wide_at_first_m, height_m };
      set_points(was);
      set_text(said);
    }
    show_whole();
    return forget_sketches;
  }, []);
  useLayoutEffect(() => {
    if (laid !== null) note_begun("picture", { file: laid.file, height_m: laid.height_m, points, text } satisfies Begun);
  }, [laid, points, text]);
  const is_laid = laid !== null;
  useEffect(() => {
    if (!is_laid) return undefined;
    const add = (at: Point) => {
      const of = picture_tried.peek();
      const is_on_it = of !== null && at[0] >= of.at[0] && at[0] <= of.at[0] + of.width_m && at[1] >= of.at[1] && at[1] <= of.at[1] + of.height_m;
      if (!is_on_it) return void (saying.value = "That is beside the picture: touch a point of it.");
      set_points((was) => [...was.slice(was.length > 1 ? 2 : 0), at]);
    };
    const mine: Pen = {
      says: "Touch two points of the picture whose distance you know",
      tap: add,
      key: (event) => {
        const way: Record<string, Point> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
        const of = picture_tried.peek();
        if (of === null) return false;
        const now = cross.peek() ?? [of.at[0] + of.width_m / 2, of.at[1] + of.height_m / 2];
        const by = way[event.key];
        if (event.key === "Enter") {
          add(now);
          saying.value = "A point is set.";
        } else if (event.key === "Home" || event.key === "End") cross.value = [of.at[0] + (event.key === "Home" ? 0 : of.width_m), now[1]];
        else if (by === undefined) return false;
        else {
          const step = (of.width_m / 100) * (event.shiftKey ? 10 : event.altKey ? 0.2 : 1); // hundredths of its width
          cross.value = [now[0] + by[0] * step, now[1] + by[1] * step];
        }
        return true;
      },
      leave: () => void (cross.value = null),
    };
    take_pen(mine);
    return () => put_pen_down(mine);
  }, [is_laid]);
  useEffect(() => {
    sketch.value = points.length === 0 ? null : { points, closed: false, is_sure: true, diagonal: null, names: ["a", "b"], sides: [text.trim()] };
  }, [points, text]);

  async function take(file: File): Promise<void> {
    if (!(await is_picture(file))) return set_problems([no_picture]);
    set_busy(true);
    const { name, problems: wrong } = await keep_picture(file);
    const id = garden.peek();
    set_problems(wrong);
    if (name !== null && id !== null) {
      const sides = await sides_of(link_to_file(id, name)).catch(() => null);
      if (sides === null) set_problems([{ code: "syntax", where: "", message: "The picture cannot be shown.", hint: "Save it anew as PNG or JPEG." }]);
      else {
        picture_tried.value = { file: name, at: [0, 0], width_m: wide_at_first_m, height_m: (wide_at_first_m * sides[1]) / sides[0] };
        show_whole();
        to_sheet();
        saying.value = "The picture lies under the sheet. Touch two points of it whose distance you know.";
      }
    }
    set_busy(false);
  }
  const there = (state.value?.things ?? []).find(({ table, mark }) => table === "picture" && mark !== "removed");
  const [a, b] = points;
  const far = metres_in(text, is_imperial());
  const drawn = a === undefined || b === undefined ? 0 : apart(a, b);
  const wrong: Wrong | null = wrong_length(text) ?? (far !== null && far <= 0 ? { message: "They are farther apart than that.", hint: "Such as 7.2 m." } : null);
  const is_ready = laid !== null && drawn > 0 && far !== null && far > 0;
  async function keep(): Promise<void> {
    if (!is_ready || is_locked()) return;
    const width_m = Number(((laid.width_m * far) / drawn).toFixed(3));
    const { told } = await act.all([{ scheme: "found", add: "picture", called: "picture", set: { file: laid.file, at: [0, 0], width_m } }], "A picture laid under");
    if (told !== null) return;
    note_begun("picture", null);
    await caught_up();
    forget_sketches();
    show_whole();
    draw_boundary();
  }
  return (
    <form class="step-form" onKeyDown={(event) => enter_goes_on(event, () => void keep())} onSubmit={(event) => event.preventDefault()}>
      {!is_laid && there !== undefined && (
        <>
          <p>{there.id} lies under the sheet.</p>
          <p class="deeds"><button type="button" class="word-button strong" disabled={is_locked()} onClick={draw_boundary}>Draw the corners over it</button></p>
        </>
      )}
      {!is_laid && <p class="small">From straight above: a map, an aerial picture, an old plan. North up the page, if you can.</p>}
      <ChooseFile words={is_busy ? "Reading it …" : is_laid || there !== undefined ? "Take another picture" : "Choose a picture, PNG or JPEG"} accept="image/png,image/jpeg" disabled={is_locked() || is_busy} take={(file) => void take(file)} />
      {problems.length > 0 && <div role="alert"><ProblemList problems={problems} /></div>}
      {is_laid && (
        <>
          <p>{points.length < 2 ? `Touch ${points.length === 0 ? "two points" : "the second point"} on it: the corners of the house, a gate’s posts.` : "How far are they apart?"}</p>
          {points.length > 1 && (
            <ul class="facts">
              <Figure label="From a to b" first is={text} wrong={wrong} take={set_text} />
            </ul>
          )}
          <p class="deeds">
            <button type="button" class="word-button strong" disabled={!is_ready || is_locked()} onClick={() => void keep()}>Lay it under, and draw the corners</button>
          </p>
        </>
      )}
    </form>
  );
}
