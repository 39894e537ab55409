// Things drawn: the word of the menu that makes each, and its place by figures in the strip, or by hand.
import { as_typed } from "./person.mjs";

/** The word in the menu for an entry of the document, the key that says what it is, and where it lies. */
export function kind_of(table, entry) {
  const has = (key) => entry[key] !== undefined;
  if (table === "area") return { word: "Lawn, paving, other ground", what: "treatment", by: "corners", at: "outline" };
  if (table === "patch") return { word: "Poor or tainted patch", what: "what", by: "corners", at: "outline" };
  if (table === "service") return { word: "Cable, pipe or drain", what: "kind", by: "corners", at: "line" };
  if (table === "bed") return has("outline") ? { word: "Bed of another shape", by: "corners", at: "outline" } : { word: "Bed", by: "box", at: "at" };
  if (table === "path") return { word: "Path", what: "surface", by: "corners", at: "line" };
  if (table === "plant") {
    if (has("row")) return { word: "Row of plants", what: "crop", by: "pair", at: "row" };
    return has("outline") ? { word: "Drift of plants", what: "crop", by: "corners", at: "outline" } : { word: "Plant", what: "crop", by: "point", at: "at" };
  }
  if (table === "container") return { word: "Pot or tub", by: "point", at: "at" };
  if (table === "cover") return { word: "Cover, frame, glasshouse", what: "kind", by: has("outline") ? "corners" : "drag", at: "outline" };
  if (table === "wall") return { word: /hedge/.test(entry.kind) ? "Hedge" : /brick|stone/.test(entry.kind) ? "Wall" : "Fence", what: "kind", by: "corners", at: "line" };
  if (table === "building") return { word: "Building", by: "corners", at: "outline" };
  if (table === "tree") return { word: "Tree", what: "kind", by: "point", at: "at" };
  if (table === "support")
    return has("line") ? { word: "Wires or trellis along a line", what: "kind", by: "corners", at: "line" } : { word: "Support for climbers", what: "kind", by: "point", at: "at" };
  if (table === "seat") return { word: "Seat", by: "pair", at: "at" };
  if (table === "tank") return { word: "Water tank", by: "point", at: "at" };
  if (table === "object") return { word: "Bin, swing, other body", what: "what", by: "corners", at: "outline" };
  if (table === "gate") return { word: "Gate", by: "point", at: "at" };
  if (table === "point") return { word: "Door, window, tap, peg", what: "kind", by: "point", at: "at" };
  const sights = { view: "View to keep open", hide: "Something to hide", watch: "Something to keep in sight" };
  return sights[table] === undefined ? null : { word: sights[table], by: "sight", at: "from" };
}

export async function open_strip(person, word) {
  const { page } = person;
  await person.press(/^Draw$/);
  await person.press(page.locator(".draw-kind", { hasText: new RegExp(`^${word}$`) }));
  const strip = page.locator(".draw-strip");
  await strip.waitFor();
  return strip;
}

/** Corner after corner by its figures, Enter after each. */
export async function corners(person, strip, places, imperial, is_whole) {
  const left = strip.getByLabel("from left", { exact: true });
  for (const [i, [x, y]] of places.entries()) {
    if (i === 0) await person.type_in(left, as_typed(x, "place", imperial));
    else {
      await person.key("Shift+Tab"); // back from the figure below
      await person.type(as_typed(x, "place", imperial));
    }
    await person.key("Tab");
    await person.type(as_typed(y, "place", imperial));
    await person.key("Enter");
  }
  if (!is_whole) await person.press(strip.getByRole("button", { name: "Done" }));
}

/** A thing drawn and chosen. Out: the name that it has so far. */
export async function draw(person, table, entry, imperial) {
  const { page } = person;
  const kind = kind_of(table, entry);
  const strip = await open_strip(person, kind.word);
  if (kind.what !== undefined && typeof entry[kind.what] === "string") await person.type_in(strip.getByLabel(kind.what, { exact: true }), entry[kind.what]);
  const place = entry[kind.at];
  const figure = (label, value, type = "place") => person.type_in(strip.getByLabel(label, { exact: true }), as_typed(value, type, imperial));
  if (kind.by === "corners") await corners(person, strip, place, imperial, false);
  else if (kind.by === "drag") await by_hand(person);
  else if (kind.by === "sight") {
    await person.choose(strip.getByLabel("who looks"), [entry.from].flat()[0]);
    if (entry.thing !== undefined) await person.choose(strip.locator("select").nth(1), entry.thing);
    else {
      await figure("from left", entry.to[0]);
      await figure("from below", entry.to[1]);
    }
    await person.press(strip.getByRole("button", { name: "Set down" }));
  } else if (kind.by === "pair") {
    const looks_at = Array.isArray(entry.facing) ? entry.facing : [0, 0];
    await corners(person, strip, table === "seat" ? [place, looks_at] : place, imperial, true);
  } else {
    if (kind.by === "box") {
      await figure("across", entry.size[0]);
      await figure("deep", entry.size[1]);
      if (entry.turn_deg !== undefined) await figure("turned", entry.turn_deg, "angle");
    }
    await figure("from left", place[0]);
    await figure("from below", place[1]);
    await person.key("Enter");
  }
  return chosen(person);
}

async function midst(person) {
  const sheet = await person.page.locator(".plan").first().boundingBox();
  return [sheet.x + sheet.width / 2, sheet.y + sheet.height / 2];
}
/** A rectangle on the sheet by eye: its figures, or what it lies over, come after. */
async function by_hand(person) {
  const [x, y] = await midst(person);
  await person.drag([x - 30, y + 30], [x + 30, y - 20]);
}

/** A bed dragged, or a line touched end after end, roughly there: its figures are mended after. */
export async function draw_by_eye(person, table, entry) {
  const kind = kind_of(table, entry);
  const strip = await open_strip(person, kind.word);
  if (kind.by === "box") await by_hand(person);
  else {
    await person.type_in(strip.getByLabel(kind.what, { exact: true }), entry[kind.what]);
    const [x, y] = await midst(person);
    for (let i = 0; i < entry[kind.at].length; ++i) await person.press_at([x - 60 + 70 * i, y + 90 - 25 * i]);
    await person.press(strip.getByRole("button", { name: "Done" }));
  }
  return chosen(person);
}
/** The corners of what was drawn by eye, one after the other by their figures. */
export async function mend_corners(person, places, imperial) {
  const { page } = person;
  await person.press(page.locator(".do-words").getByRole("button", { name: "Corners", exact: true }));
  for (const [i, place] of places.entries())
    for (const [axis, from] of ["left", "below"].entries()) {
      await person.type_in(page.getByLabel(`Corner ${i + 1} from ${from}`, { exact: true }), as_typed(place[axis], "place", imperial));
      await person.key("Enter");
    }
  await person.press(page.locator(".corners + .deeds").getByRole("button", { name: "Done" }));
}

export async function chosen(person) {
  const name = person.page.locator(".thing-name");
  await person.timed("to be chosen", () => name.waitFor());
  return name.innerText();
}
