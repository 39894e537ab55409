// The outset outline of a thing, as a path in the screen's pixels.
import type { Thing } from "../api";
import { type Point, to_screen, type View } from "../geometry";

function signed_area(points: readonly Point[]): number {
  return points.reduce((sum, [x, y], i) => {
    const [u, v] = points[(i + 1) % points.length] as Point;
    return sum + x * v - u * y;
  }, 0);
}

/** An outline pushed outwards by `off`, corners mitred. */
export function outset(points: readonly Point[], off: number): Point[] {
  const n = points.length;
  const side = signed_area(points) > 0 ? 1 : -1;
  return points.map((p, i) => {
    const a = points[(i + n - 1) % n] as Point;
    const b = points[(i + 1) % n] as Point;
    const normal = (from: Point, to: Point): Point => {
      const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
      const long = Math.hypot(dx, dy) || 1;
      return [(side * dy) / long, (-side * dx) / long];
    };
    const [n1, n2] = [normal(a, p), normal(p, b)];
    const [mx, my] = [n1[0] + n2[0], n1[1] + n2[1]];
    const length = Math.max(0.35, (mx * mx + my * my) / 2);
    return [p[0] + (mx * off) / length, p[1] + (my * off) / length];
  });
}

const path_of = (points: readonly Point[]) =>
  `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L")}Z`;

function ring([x, y]: Point, r: number): string {
  const d = r.toFixed(1);
  return `M${(x - r).toFixed(1)} ${y.toFixed(1)}a${d} ${d} 0 1 0 ${(2 * r).toFixed(1)} 0a${d} ${d} 0 1 0 ${(-2 * r).toFixed(1)} 0Z`;
}

/** Along a line at both sides. */
function around_line(points: readonly Point[], off: number): string {
  const there = points.map((p, i) => {
    const before = points[Math.max(0, i - 1)] as Point;
    const after = points[Math.min(points.length - 1, i + 1)] as Point;
    const [dx, dy] = [after[0] - before[0], after[1] - before[1]];
    const long = Math.hypot(dx, dy) || 1;
    const [ux, uy] = [dx / long, dy / long];
    const end = i === 0 ? -off : i === points.length - 1 ? off : 0;
    return { p: [p[0] + ux * end, p[1] + uy * end] as Point, across: [-uy * off, ux * off] as Point };
  });
  const left = there.map(({ p, across }): Point => [p[0] + across[0], p[1] + across[1]]);
  const right = there.map(({ p, across }): Point => [p[0] - across[0], p[1] - across[1]]).reverse();
  return path_of([...left, ...right]);
}

export function outline_path(thing: Thing, view: View, off: number): string {
  const points = (thing.corners as unknown as Point[]).map((corner) => to_screen(view, corner));
  const reach = thing.reach_m * view.scale + off;
  if (points.length === 0) return "";
  if (thing.closed && points.length > 2) return path_of(outset(points, off));
  if (points.length === 1 || thing.table === "plant")
    return points.map((p) => ring(p, Math.max(10, reach))).join("");
  return around_line(points, reach);
}
