// The coasts, the towns and the chosen place, painted on a canvas.
import { type MapView, on_map } from "../geometry";
import type { Ring } from "./coast";

export interface MapMark {
  longitude: number;
  latitude: number;
  name: string;
}
export type Pixel = [number, number];

function colours(): { sea: string; land: string; ink: string; chosen: string } {
  const of = getComputedStyle(document.documentElement);
  const read = (name: string) => of.getPropertyValue(name).trim();
  return { sea: read("--night"), land: read("--paper"), ink: read("--graphite"), chosen: read("--ink") };
}

/** All land in sight, as one path; what is finer than a pixel is left out. */
function land_path(pen: CanvasRenderingContext2D, rings: readonly Ring[], view: MapView, wide: number, high: number): void {
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
}

interface Room {
  wide: number;
  high: number;
  ink: string;
  land: string;
}

/** Dots with names, as many as have room. */
function draw_towns(pen: CanvasRenderingContext2D, marks: readonly MapMark[], at: (mark: MapMark) => Pixel, chosen: MapMark | null, { wide, high, ink, land }: Room): void {
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
}

export function draw_map(canvas: HTMLCanvasElement, rings: readonly Ring[], view: MapView, marks: readonly MapMark[], chosen: MapMark | null, cross: Pixel | null): void {
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
  land_path(pen, rings, view, wide, high);
  pen.fillStyle = land;
  pen.fill("evenodd");
  pen.strokeStyle = ink;
  pen.lineWidth = 0.75;
  pen.stroke();
  const at = (mark: MapMark): Pixel => {
    const [x, y] = on_map(mark.longitude, mark.latitude);
    return [x * view.side - view.left, y * view.side - view.top];
  };
  draw_towns(pen, marks, at, chosen, { wide, high, ink, land });
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
