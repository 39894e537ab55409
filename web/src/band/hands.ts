// A finger or a mouse that is down on a part of the band.
import { tell_moment } from "./chosen";

/** Acts at once and along the way, once a frame; tells what was chosen when it is lifted. */
export function follow(act: (x: number, y: number) => void) {
  let frame = 0;
  function at(event: PointerEvent): void {
    const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
    const [x, y] = [event.clientX - box.left, event.clientY - box.top];
    cancelAnimationFrame(frame);
    frame = requestAnimationFrame(() => act(x, y));
  }
  return {
    onPointerDown: (event: PointerEvent) => {
      if (event.button !== 0) return;
      (event.currentTarget as HTMLElement).setPointerCapture(event.pointerId);
      at(event);
    },
    onPointerMove: (event: PointerEvent) => {
      if ((event.buttons & 1) !== 0) at(event);
    },
    onPointerUp: () => requestAnimationFrame(tell_moment),
  };
}
