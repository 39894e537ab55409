// "At 15:10 this shadow should end here. So?": a shadow's end put where it really ends turns north.
import { effect, signal, untracked } from "@preact/signals";
import type { Thing } from "../api";
import { apart, length_says, type Point } from "../geometry";
import { clock_says, measure, saying, state, turn_north, when } from "../state";
import { type Pen, put_pen_down, take_pen } from "./pen";
import { shadow_ends } from "./laid";
import { to_cm } from "./moving";
import { view } from "./sheet_view";

export interface Moment {
  day: string; // MM-DD
  clock: number; // hours
}
/** Whose shadow is looked at, and when. */
export const shadow_looked = signal<(Moment & { thing: string }) | null>(null);
/** What came of it: north turned, or why not. */
export const shadow_told = signal<{ thing: string; says: string; hint: string } | null>(null);

/** The band's moment; without one, now by the garden's clock. */
export function moment_seen(): Moment {
  const now = when.peek();
  if (now.kind === "moment") return { day: now.day, clock: now.clock };
  const timeZone = state.peek()?.site.time_zone ?? "UTC";
  const parts = new Intl.DateTimeFormat("en-GB", { timeZone, month: "2-digit", day: "2-digit", hour: "2-digit", minute: "2-digit", hour12: false }).formatToParts(new Date());
  const of = (type: string) => parts.find((part) => part.type === type)?.value ?? "00";
  return { day: `${of("month")}-${of("day")}`, clock: (Number(of("hour")) % 24) + Number(of("minute")) / 60 };
}

const grab_px = 60;

function nearest_end(at: Point): number {
  const sight = view.peek();
  const far = shadow_ends.peek().map(({ tip, moved }) => apart(moved ?? tip, at) * (sight?.scale ?? 1));
  const least = Math.min(...far);
  return far.indexOf(least);
}

function put_end(i: number, at: Point): void {
  shadow_ends.value = shadow_ends.peek().map((one, j) => (i === j ? { ...one, moved: [to_cm(at[0]), to_cm(at[1])] } : { ...one, moved: null }));
}

async function solve(): Promise<void> {
  const [now, end] = [shadow_looked.peek(), shadow_ends.peek().find(({ moved }) => moved !== null)];
  if (now === null || end === undefined || end.moved === null) return;
  const told = await measure({ what: "north", day: now.day, clock: now.clock, foot_m: [...end.foot], tip_m: [...end.moved] });
  if (told === null) return;
  if (told.is === null) {
    shadow_told.value = { thing: now.thing, says: told.not.message, hint: told.not.hint };
    saying.value = told.not.message;
    return;
  }
  const plan_north_deg = told.is.plan_north_deg ?? 0;
  const was = state.peek()?.site.plan_north_deg ?? 0;
  const by = Math.abs(((plan_north_deg - was + 540) % 360) - 180);
  end_shadow();
  if (!(await turn_north(plan_north_deg, true, "north turned by a shadow"))) return;
  shadow_told.value = { thing: now.thing, says: `North is turned by ${by.toFixed(0)}°.`, hint: `${told.is.says} Undo takes it back.` };
  saying.value = `North is turned by ${by.toFixed(0)} degrees.`;
}

let own: Pen | null = null;

export function end_shadow(): void {
  const mine = own;
  own = null;
  shadow_looked.value = null;
  shadow_ends.value = [];
  if (mine !== null) put_pen_down(mine);
}

function pen_for(thing: string, { clock }: Moment): Pen {
  let held = -1; // which end the hand has
  return {
    says: `At ${clock_says(clock)} the shadow of ${thing} ends here, if north is right. Drag its end to where it really ends`,
    tap: (at) => {
      put_end(nearest_end(at), at);
      void solve();
    },
    drag: (from, to, is_last) => {
      if (held < 0) {
        const i = nearest_end(from);
        const one = shadow_ends.peek()[i];
        if (one === undefined || apart(one.moved ?? one.tip, from) * (view.peek()?.scale ?? 1) > grab_px) return false;
        held = i;
      }
      put_end(held, to);
      if (is_last) {
        held = -1;
        void solve();
      }
      return true;
    },
    key: (event) => {
      const way: Record<string, Point> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
      const by = way[event.key];
      const ends = shadow_ends.peek();
      const i = Math.max(0, ends.findIndex(({ moved }) => moved !== null));
      const one = ends[i];
      if (event.key === "Enter") void solve();
      else if (by === undefined || one === undefined) return false;
      else {
        const step = event.shiftKey ? 1 : event.altKey ? 0.01 : 0.1;
        const at = one.moved ?? one.tip;
        put_end(i, [at[0] + by[0] * step, at[1] + by[1] * step]);
        saying.value = `The shadow ${length_says(apart(one.foot, shadow_ends.peek()[i]?.moved ?? at), state.peek()?.site.units === "imperial")} long`;
      }
      return true;
    },
    leave: () => end_shadow(),
  };
}

/** Shows where a thing's shadow ends at a moment, to be put right. */
export async function begin_shadow(thing: string, moment: Moment = moment_seen()): Promise<void> {
  end_shadow();
  shadow_told.value = null;
  const known = state.peek()?.things.find(({ id }) => id === thing);
  if (known === undefined || !shows_shadow(known)) {
    saying.value = `No shadow of ${thing} can be looked at.`;
    return;
  }
  const told = await measure({ what: "shadow", thing, ...moment });
  if (told === null) return;
  if (told.is === null) {
    shadow_told.value = { thing, says: told.not.message, hint: `${told.not.hint}. Choose a moment on the year’s band, or type its clock.` };
    saying.value = told.not.message;
    return;
  }
  shadow_looked.value = { thing, ...moment };
  shadow_ends.value = (told.is.ends ?? []).map(({ foot_m, tip_m }) => ({ thing, foot: foot_m as unknown as Point, tip: tip_m as unknown as Point, moved: null }));
  own = pen_for(thing, moment);
  take_pen(own);
}

/** What stands there and casts a shadow whose end can be seen. */
export const shows_shadow = ({ table, mark }: Thing): boolean =>
  ["tree", "wall", "building", "support", "object"].includes(table) && mark !== "removed" && mark !== "proposed";

/** The band's moment is another: the shadow is that moment's. */
effect(() => {
  const now = when.value;
  const looked = shadow_looked.peek();
  if (looked === null || now.kind !== "moment" || (now.day === looked.day && Math.abs(now.clock - looked.clock) < 1 / 120)) return;
  untracked(() => void begin_shadow(looked.thing, { day: now.day, clock: now.clock }));
});
