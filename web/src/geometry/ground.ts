// The ground as triangles: how high it lies under an outline, and where that is as high as elsewhere.
import { dot, minus, plus, times } from "./sketch";
import type { Point } from "./view";

export type Corner = readonly [number, number, number]; // x, y, level
export type Triangle = readonly [Corner, Corner, Corner];

interface Facet {
  corners: readonly Point[]; // anticlockwise
  at: Point; // a corner, its level, and the slope from there
  level: number;
  slope: Point;
}

function facet_of([a, b, c]: Triangle): Facet | null {
  const [u, v]: [Point, Point] = [[b[0] - a[0], b[1] - a[1]], [c[0] - a[0], c[1] - a[1]]];
  const area = u[0] * v[1] - u[1] * v[0];
  if (Math.abs(area) < 1e-9) return null;
  const [du, dv] = [b[2] - a[2], c[2] - a[2]];
  const slope: Point = [(du * v[1] - dv * u[1]) / area, (dv * u[0] - du * v[0]) / area];
  const corners: Point[] = [[a[0], a[1]], [b[0], b[1]], [c[0], c[1]]];
  return { corners: area > 0 ? corners : corners.reverse(), at: [a[0], a[1]], level: a[2], slope };
}

/** The part of an outline within a convex one that runs anticlockwise. Source: Sutherland and Hodgman, 1974. */
function within(outline: readonly Point[], convex: readonly Point[]): Point[] {
  let part = [...outline];
  convex.forEach((a, i) => {
    const edge = minus(convex[(i + 1) % convex.length] as Point, a);
    const side = (p: Point) => edge[0] * (p[1] - a[1]) - edge[1] * (p[0] - a[0]);
    const was = part;
    part = [];
    was.forEach((p, j) => {
      const q = was[(j + 1) % was.length] as Point;
      const [sp, sq] = [side(p), side(q)];
      if (sp >= 0) part.push(p);
      if (sp >= 0 !== sq >= 0) part.push(plus(p, times(minus(q, p), sp / (sp - sq))));
    });
  });
  return part;
}

/** Area with its sign, and the middle. */
function area_and_middle(outline: readonly Point[]): { area: number; middle: Point } {
  let [area, x, y] = [0, 0, 0];
  const [ox, oy] = outline[0] ?? [0, 0];
  outline.forEach(([px, py], i) => {
    const [qx, qy] = outline[(i + 1) % outline.length] as Point;
    const cross = (px - ox) * (qy - oy) - (qx - ox) * (py - oy);
    area += cross / 2;
    x += (cross * (px + qx - 2 * ox)) / 6;
    y += (cross * (py + qy - 2 * oy)) / 6;
  });
  return { area, middle: Math.abs(area) < 1e-12 ? [ox, oy] : [ox + x / area, oy + y / area] };
}

export class Ground {
  private readonly facets: readonly Facet[];
  constructor(triangles: readonly Triangle[]) {
    this.facets = triangles.map(facet_of).filter((facet): facet is Facet => facet !== null);
  }

  get is_flat(): boolean {
    return this.facets.length === 0;
  }

  /** The mean level under an outline and how it changes when the outline is shifted; null: it lies off
  the ground. Exact: the ground is straight within each triangle. */
  under(outline: readonly Point[]): { level: number; slope: Point } | null {
    let [all, level] = [0, 0];
    let slope: Point = [0, 0];
    for (const facet of this.facets) {
      const { area, middle } = area_and_middle(within(outline, facet.corners));
      if (Math.abs(area) < 1e-9) continue;
      all += area;
      level += area * (facet.level + dot(facet.slope, minus(middle, facet.at)));
      slope = plus(slope, times(facet.slope, area));
    }
    return Math.abs(all) < 1e-9 ? null : { level: level / all, slope: times(slope, 1 / all) };
  }

  /** How far an outline has to go to lie at a level, along `way` or else straight up or down the slope;
  null: farther than `most`. */
  to_level(outline: readonly Point[], level: number, way: Point | null, most: number): Point | null {
    let by: Point = [0, 0];
    for (let i = 0; i < 4; ++i) {
      const is = this.under(outline.map((p) => plus(p, by)));
      if (is === null) return null;
      const off = level - is.level;
      if (Math.abs(off) < 2e-5) return by;
      const steep = way === null ? Math.hypot(...is.slope) : dot(is.slope, way);
      if (Math.abs(steep) < 1e-3) return null;
      by = plus(by, way === null ? times(is.slope, off / (steep * steep)) : times(way, off / steep));
      if (Math.hypot(...by) > most) return null;
    }
    return by;
  }
}
