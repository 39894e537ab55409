// A map of the world's coasts on which a garden's place is touched. Dragged, pinched, turned with the
// wheel; by keys a cross goes where the arrows send it, and Enter takes the place.
import { useEffect, useRef, useState } from "preact/hooks";
import { from_map, map_held, type MapView, map_zoomed, on_map } from "../geometry";
import { coast, type Ring } from "./coast";
import { draw_map, type MapMark, type Pixel } from "./map_drawing";

interface WorldMapProps {
  chosen: MapMark | null;
  towns: readonly MapMark[];
  choose: (longitude: number, latitude: number) => void;
}

const tap_px = 6;
const near_side = 12_000; // of the map, when a place is shown that was told otherwise

/** The whole, or as much as there is room for around this machine's own longitude. */
function begun_at(width: number, height: number): MapView {
  const whole = map_zoomed({ side: 1, left: 0, top: 0 }, [0, 0], 1, { width, height });
  const hours_east = -new Date(2026, 0, 15).getTimezoneOffset() / 60;
  return { ...whole, left: on_map(hours_east * 15, 0)[0] * whole.side - width / 2 };
}

export function WorldMap({ chosen, towns, choose }: WorldMapProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const view = useRef<MapView | null>(null);
  const rings = useRef<readonly Ring[]>([]);
  const cross = useRef<Pixel | null>(null);
  const asked = useRef(0);
  const shown = useRef({ chosen, towns });
  shown.current = { chosen, towns };
  const [state, set_state] = useState<"comes" | "here" | "gone">("comes");

  const room = () => ({ width: canvas.current?.clientWidth ?? 1, height: canvas.current?.clientHeight ?? 1 });
  function paint(): void {
    if (asked.current !== 0) return;
    asked.current = requestAnimationFrame(() => {
      asked.current = 0;
      const { chosen: place, towns: marks } = shown.current;
      if (canvas.current !== null && view.current !== null) draw_map(canvas.current, rings.current, view.current, marks, place, cross.current);
    });
  }
  function set(next: MapView): void {
    view.current = map_held(next, room());
    paint();
  }
  const zoom = (factor: number, at?: Pixel) => {
    const { width, height } = room();
    if (view.current !== null) set(map_zoomed(view.current, at ?? cross.current ?? [width / 2, height / 2], factor, room()));
  };

  useEffect(() => {
    const element = canvas.current;
    if (element === null) return undefined;
    const watch = new ResizeObserver(() => {
      const { width, height } = room();
      if (view.current === null) set(begun_at(width, height));
      else set(map_zoomed(view.current, [0, 0], 1, room()));
    });
    watch.observe(element);
    coast().then(
      (known) => {
        rings.current = known;
        set_state("here");
        paint();
      },
      () => set_state("gone"),
    );
    return () => watch.disconnect();
  }, []);

  // A place that was told otherwise is brought into the midst.
  const key = chosen === null ? "" : `${chosen.longitude} ${chosen.latitude}`;
  const touched = useRef("");
  useEffect(() => {
    if (chosen !== null && touched.current !== key) {
      const { width, height } = room();
      const side = Math.min(near_side, Math.max(view.current?.side ?? 0, near_side));
      const [x, y] = on_map(chosen.longitude, chosen.latitude);
      set({ side, left: x * side - width / 2, top: y * side - height / 2 });
    }
    paint();
  }, [key, towns]);

  function take(at: Pixel): void {
    const now = view.current;
    if (now === null) return;
    const [longitude, latitude] = from_map([(at[0] + now.left) / now.side, (at[1] + now.top) / now.side]);
    touched.current = `${Number(longitude.toFixed(5))} ${Number(latitude.toFixed(5))}`;
    choose(longitude, latitude);
  }

  const touches = useRef(new Map<number, Pixel>());
  const from = useRef<Pixel>([0, 0]);
  const is_drag = useRef(false);
  const place = (event: PointerEvent | WheelEvent): Pixel => {
    const box = canvas.current?.getBoundingClientRect();
    return [event.clientX - (box?.left ?? 0), event.clientY - (box?.top ?? 0)];
  };
  function move(event: PointerEvent): void {
    const was = touches.current.get(event.pointerId);
    const now = view.current;
    if (was === undefined || now === null) return;
    const at = place(event);
    touches.current.set(event.pointerId, at);
    is_drag.current ||= Math.hypot(at[0] - from.current[0], at[1] - from.current[1]) > tap_px;
    if (!is_drag.current) return;
    const other = [...touches.current].find(([id]) => id !== event.pointerId)?.[1];
    set({ ...now, left: now.left - (at[0] - was[0]) / (other === undefined ? 1 : 2), top: now.top - (at[1] - was[1]) / (other === undefined ? 1 : 2) });
    if (other === undefined) return;
    const apart = (p: Pixel) => Math.max(1, Math.hypot(p[0] - other[0], p[1] - other[1]));
    zoom(apart(at) / apart(was), [(at[0] + other[0]) / 2, (at[1] + other[1]) / 2]);
  }
  function by_key(event: KeyboardEvent): void {
    const { width, height } = room();
    const step = event.shiftKey ? 2 : 24;
    const way: Record<string, Pixel> = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step] };
    const by = way[event.key];
    const at = cross.current ?? [width / 2, height / 2];
    if (by !== undefined) {
      cross.current = [Math.max(12, Math.min(width - 12, at[0] + by[0])), Math.max(12, Math.min(height - 12, at[1] + by[1]))];
      const now = view.current;
      const stuck: Pixel = [at[0] + by[0] - cross.current[0], at[1] + by[1] - cross.current[1]];
      if (now !== null && (stuck[0] !== 0 || stuck[1] !== 0)) set({ ...now, left: now.left + stuck[0], top: now.top + stuck[1] });
    } else if (event.key === "+" || event.key === "=") zoom(1.6);
    else if (event.key === "-") zoom(1 / 1.6);
    else if (event.key === "Enter") take(at);
    else return;
    event.preventDefault();
    paint();
  }
  return (
    <div class="world-map">
      <canvas
        ref={canvas}
        tabIndex={0}
        role="application"
        aria-label="Map of the coasts: arrows move the cross, plus and minus bring it nearer, Enter takes the place"
        onPointerDown={(event) => {
          const at = place(event);
          if (touches.current.size === 0) is_drag.current = false;
          else is_drag.current = true;
          from.current = at;
          touches.current.set(event.pointerId, at);
          event.currentTarget.setPointerCapture(event.pointerId);
        }}
        onPointerMove={move}
        onPointerUp={(event) => {
          const was = touches.current.get(event.pointerId);
          touches.current.delete(event.pointerId);
          cross.current = null;
          if (was !== undefined && !is_drag.current) take(place(event));
        }}
        onPointerCancel={(event) => touches.current.delete(event.pointerId)}
        onWheel={(event) => {
          event.preventDefault();
          zoom(Math.exp(-event.deltaY * 0.002), place(event));
        }}
        onFocus={() => {
          if (!canvas.current?.matches(":focus-visible")) return;
          const { width, height } = room();
          cross.current = [width / 2, height / 2];
          paint();
        }}
        onBlur={() => {
          cross.current = null;
          paint();
        }}
        onKeyDown={by_key}
      />
      {state !== "here" && <p class="map-word">{state === "comes" ? "The map is being drawn …" : "The map cannot be had. A town or coordinates will do."}</p>}
      <div class="map-words">
        <button type="button" class="word-button figure" aria-label="Nearer" onClick={() => zoom(2)}>+</button>
        <button type="button" class="word-button figure" aria-label="Further" onClick={() => zoom(0.5)}>−</button>
      </div>
    </div>
  );
}
