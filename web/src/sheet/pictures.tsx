// Photographs and map pictures under the lines: those of the garden, and one that is being laid.
import { plus, to_screen } from "../geometry";
import { garden, link_to_file, offset_since, state } from "../state";
import { moving, note_picture, picture_tried, shaping, view } from "../tools";

interface Laid {
  file: string;
  at: readonly [number, number];
  width_m: number;
  turn_deg: number;
  shown: number;
  is_tried: boolean; // it is being laid
}

function pictures(): Laid[] {
  const of_garden = (state.value?.things ?? []).flatMap((thing): Laid[] => {
    if (thing.table !== "picture" || thing.mark === "removed") return [];
    const value = (key: string) => thing.fields[key]?.value;
    const [at, width_m, file] = [value("at"), value("width_m"), value("file")];
    if (!Array.isArray(at) || typeof width_m !== "number" || typeof file !== "string") return [];
    const number = (key: string, usual: number) => (typeof value(key) === "number" ? (value(key) as number) : usual);
    const hand = moving.value?.thing === thing.id ? moving.value.by_m : [0, 0];
    const turned = shaping.value?.thing === thing.id ? shaping.value : null;
    const [dx, dy] = plus(offset_since(thing.id, state.value?.head.change ?? 0), [hand[0] ?? 0, hand[1] ?? 0]);
    const stands = turned?.corners[0] ?? [Number(at[0]) + dx, Number(at[1]) + dy];
    return [{ file, at: stands, width_m, turn_deg: number("turn_deg", 0) + (turned?.turned_deg ?? 0), shown: number("shown", 0.4), is_tried: false }];
  });
  const tried = picture_tried.value;
  return tried === null ? of_garden : [...of_garden, { ...tried, turn_deg: 0, shown: 0.75, is_tried: true }];
}

export function Pictures() {
  const sight = view.value;
  const id = garden.value;
  if (sight === null || id === null) return null;
  return (
    <>
      {pictures().map(({ file, at, width_m, turn_deg, shown, is_tried }) => {
        const [x, y] = to_screen(sight, at);
        const transform = `translate(${x.toFixed(1)}px,${y.toFixed(1)}px) rotate(${-turn_deg}deg) translate(0,-100%)`;
        return <img key={file} class={is_tried ? "laid-picture" : "laid-picture is-kept"} alt="" onLoad={(event) => note_picture(file, event.currentTarget.naturalWidth, event.currentTarget.naturalHeight)} src={link_to_file(id, file)} style={{ width: `${(width_m * sight.scale).toFixed(1)}px`, transform, opacity: shown }} />;
      })}
    </>
  );
}
