// The pen: while a first step wants a point, a way or an end from the sheet, touches go to it.
import { signal } from "@preact/signals";
import type { Point } from "../geometry";
import { saying } from "../state";

export interface Pen {
  /** What it does, for the strip over the sheet and for who listens. */
  says: string;
  /** A touch, in plan metres. */
  tap?: (at: Point) => void;
  /** A drag from where it began; `is_last`: let go. False: not for the pen, the paper is panned. */
  drag?: (from: Point, to: Point, is_last: boolean) => boolean;
  /** A key on the sheet; true: taken. */
  key?: (event: KeyboardEvent) => boolean;
  /** What else can be done, said on a word in the strip. */
  done?: { word: string; act: () => void };
  leave?: () => void;
}

export const pen = signal<Pen | null>(null);

export function take_pen(next: Pen): void {
  pen.peek()?.leave?.();
  pen.value = next;
  saying.value = next.says;
}

/** Put down as it was taken up, or by whatever comes instead. */
export function put_pen_down(mine?: Pen): void {
  const now = pen.peek();
  if (now === null || (mine !== undefined && mine !== now)) return;
  pen.value = null;
  now.leave?.();
}
