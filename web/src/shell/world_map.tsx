// A map of the world's coasts on which a garden's place is touched. Dragged, pinched, turned with the
// wheel; by keys a cross goes where the arrows send it, and Enter takes the place.
import { useEffect, useRef, useState } from "preact/hooks";
import { from_map, map_held, type MapView, map_zoomed, on_map } from "../geometry";
import { coast, type Ring } from "./coast";

export interface MapMark {
  longitude: number;
  latitude: number;
  name: string;
}
interface WorldMapProps {
  chosen: MapMark | null;
  towns: readonly MapMark[];
  choose: (longitude: number, latitude: number) => void;
}

type Pixel = [number, number];
const tap_px = 6;
const near_side = 12_000; // of the map, when a place is shown that was told otherwise

function colours(): { sea: string; land: string; ink: string; chosen: string } {
  const of = getComputedStyle(document.documentElement);
  const read = (name: string) => of.getPropertyValue(name).trim();
  return { sea: read("--night"), land: read("--paper"), ink: read("--graphite"), chosen: read("--ink") };
}

function draw(canvas: HTMLCanvasElement, rings: readonly Ring[], view: MapView, marks: readonly MapMark[], chosen: MapMark | null, cross: Pixel | null): void {
  const pen = canvas.getContext("2d");
  if (pen === null) return;
  const fine = devicePixelRatio;
  const [wide, high] = [canvas.clientWidth, canvas.clientHeight];
  canvas.width = Math.round(wide * fine);
  canvas.height = Math.round(high * fine);
  pen.setTransform(fine, 0, 0, fine, 0, 0);
  const { sea, land, ink, chosen: mark_ink } = colours();
  pen.fillStyle = sea;
  pen.fillRect(0, 0, wide, high);
  pen.beginPath();
  for (const { points, box } of rings) {
    const [x0, y0, x1, y1] = box.map((v, i) => v * view.side - (i % 2 === 0 ? view.left : view.top)) as [number, number, number, number];
    if (x1 < 0 || y1 < 0 || x0 > wide || y0 > high || (x1 - x0 < 0.6 && y1 - y0 < 0.6)) continue;
    let [lx, ly] = [NaN, NaN];
    for (let i = 0; i < points.length; i += 2) {
      const x = (points[i] as number) * view.side - view.left;
      const y = (points[i + 1] as number) * view.side - view.top;
      if (Math.abs(x - lx) < 0.7 && Math.abs(y - ly) < 0.7) continue; // finer than is seen
      if (Number.isNaN(lx)) pen.moveTo(x, y);
      else pen.lineTo(x, y);
      [lx, ly] = [x, y];
    }
    pen.closePath();
  }
  pen.fillStyle = land;
  pen.fill("evenodd");
  pen.strokeStyle = ink;
  pen.lineWidth = 0.75;
  pen.stroke();
  const at = (mark: MapMark): Pixel => {
    const [x, y] = on_map(mark.longitude, mark.latitude);
    return [x * view.side - view.left, y * view.side - view.top];
  };
  pen.font = '13px "Atkinson Hyperlegible Next", sans-serif';
  const taken: Pixel[] = [];
  for (const mark of marks) {
    const [x, y] = at(mark);
    if (x < 0 || y < 0 || x > wide || y > high) continue;
    pen.fillStyle = ink;
    pen.beginPath();
    pen.arc(x, y, 2.5, 0, 7);
    pen.fill();
    const aside = chosen !== null && Math.hypot(at(chosen)[0] - x, at(chosen)[1] - y) < 16 ? 18 : 6;
    const is_free = taken.every(([tx, ty]) => Math.abs(tx - x) > 110 || Math.abs(ty - y) > 17);
    if (!is_free) continue;
    taken.push([x, y]);
    const at_left = x > wide - 110;
    pen.textAlign = at_left ? "right" : "left";
    pen.lineWidth = 3;
    pen.strokeStyle = land;
    pen.strokeText(mark.name, x + (at_left ? -aside : aside), y + 4);
    pen.fillText(mark.name, x + (at_left ? -aside : aside), y + 4);
  }
  const place: Pixel | null = chosen === null ? null : at(chosen);
  pen.strokeStyle = mark_ink;
  if (place !== null) {
    pen.lineWidth = 2;
    pen.beginPath();
    pen.arc(place[0], place[1], 9, 0, 7);
    pen.moveTo(place[0] - 15, place[1]);
    pen.lineTo(place[0] + 15, place[1]);
    pen.moveTo(place[0], place[1] - 15);
    pen.lineTo(place[0], place[1] + 15);
    pen.stroke();
  }
  if (cross !== null) {
    pen.lineWidth = 1.25;
    pen.setLineDash([4, 3]);
    pen.strokeRect(cross[0] - 11, cross[1] - 11, 22, 22);
    pen.setLineDash([]);
  }
}

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
      if (canvas.current !== null && view.current !== null) draw(canvas.current, rings.current, view.current, marks, place, cross.current);
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
