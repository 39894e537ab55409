// The world's coastline (Natural Earth, 1:50 million), fetched when a map is wanted: rings on the
// square of the map, each with the box around it.
import topology from "world-atlas/land-50m.json?url";
import { on_map } from "../geometry";

export interface Ring {
  points: Float32Array; // x, y, x, y
  box: readonly [number, number, number, number];
}

interface Topology {
  transform: { scale: [number, number]; translate: [number, number] };
  arcs: [number, number][][];
  objects: { land: { geometries: { arcs: number[][][] }[] } };
}

/** Arcs are steps from point to point in whole units; a ring names them, ~n for the n-th backwards. */
export function rings_of({ transform, arcs, objects }: Topology): Ring[] {
  const [sx, sy] = transform.scale;
  const [tx, ty] = transform.translate;
  const lines = arcs.map((arc) => {
    let [x, y] = [0, 0];
    return arc.map(([dx, dy]) => {
      [x, y] = [x + dx, y + dy];
      return on_map(x * sx + tx, y * sy + ty);
    });
  });
  const line_of = (arc: number) => (arc >= 0 ? (lines[arc] ?? []) : [...(lines[~arc] ?? [])].reverse());
  return objects.land.geometries.flatMap(({ arcs: polygons }) => polygons.flatMap((polygon) => polygon.flatMap((ring) => twice_at_the_edge(unrolled(ring.flatMap(line_of))))));
}

type Spot = readonly [number, number];

/** Without the jump from one edge of the map to the other; what goes all around is closed below. */
function unrolled(points: readonly Spot[]): Spot[] {
  let by = 0;
  const out = points.map(([x, y], i): Spot => {
    const step = x - (points[i - 1]?.[0] ?? x);
    if (Math.abs(step) > 0.5) by -= Math.sign(step);
    return [x + by, y];
  });
  const [first, last] = [out[0], out[out.length - 1]];
  const goes_around = first !== undefined && last !== undefined && Math.abs(last[0] - first[0]) > 0.5;
  return goes_around ? [...out, [last[0], 1], [first[0], 1]] : out;
}

/** A ring over an edge of the map is seen at the other edge too. */
function twice_at_the_edge(points: readonly Spot[]): Ring[] {
  const ring = ring_of(points);
  const by = ring.box[0] < -1e-9 ? 1 : ring.box[2] > 1 + 1e-9 ? -1 : 0;
  return by === 0 ? [ring] : [ring, ring_of(points.map(([x, y]): Spot => [x + by, y]))];
}

function ring_of(points: readonly Spot[]): Ring {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return { points: Float32Array.from(points.flat()), box: [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)] };
}

let known: Promise<Ring[]> | null = null;
export function coast(): Promise<Ring[]> {
  known ??= fetch(topology)
    .then((answer) => answer.json() as Promise<Topology>)
    .then(rings_of)
    .catch((error: unknown) => {
      known = null; // asked again the next time
      throw error;
    });
  return known;
}
