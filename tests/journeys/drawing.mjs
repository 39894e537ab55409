// Drawing: every kind of thing from an empty plan, by dragging, touching, keys and figures.
import { kSizes, Served } from "./browser.mjs";
import { check, equal, Hands, heard, kHands, until } from "./hands.mjs";

export const editing = {};
export const alone = {};

async function draw_word(hands, kind) {
  if (hands.by === "keys") {
    await hands.page.locator('[data-region="sheet"]').focus();
    await hands.key("d");
    for (let i = 0; i < 8; ++i) {
      await hands.key(kind[0].toLowerCase());
      if ((await hands.page.evaluate(() => document.activeElement.textContent.trim())) === kind) break;
    }
    await hands.key("Enter");
  } else {
    await hands.tap(hands.button(/^Draw$/));
    await hands.tap(hands.page.locator(".draw-kind", { hasText: new RegExp(`^${kind}$`) }));
  }
  await hands.page.locator(".draw-strip").waitFor();
}

/** The middle of the sheet, and from it. */
async function from_midst(page, dx, dy) {
  const box = await page.locator(".plan").first().boundingBox();
  return [box.x + box.width / 2 + dx, box.y + box.height / 2 + dy];
}
const chosen = (page) => page.locator(".thing-name").innerText();

/** A garden that was just begun, open as found, on a server of its own. */
async function on_bare_ground(at) {
  at.served = await Served.start(at.program);
  const begin = { title: "Plot", latitude_deg: 48.41, longitude_deg: -4.36, time_zone: "Europe/Paris" };
  at.garden = (await at.served.post("/api/gardens", { begin })).id;
  const page = await at.page(kSizes.desk);
  await page.goto(`${at.served.url}#${at.garden}/found`);
  return { hands: new Hands(page, "mouse"), page };
}

for (const by of kHands) {
  editing[`a bed drawn, by ${by}`] = async (at) => {
    const hands = await at.hands(by);
    const { page } = hands;
    await draw_word(hands, "Bed");
    if (by === "keys") await hands.keys("ArrowLeft", "Enter");
    else if (by === "touch") await hands.tap_at(await from_midst(page, 10, 20)); // the size offered
    else await hands.drag(await from_midst(page, -30, -40), await from_midst(page, 50, 60));
    await page.locator(".thing-name").waitFor();
    const id = await chosen(page);
    const bed = await at.thing(id);
    equal(bed.mark, "proposed", "its mark");
    const { size } = bed.fields;
    if (by === "mouse") check(Math.abs(size.value[1] / size.value[0] - 100 / 80) < 0.05, `as it was drawn: ${size.typed}`);
    else equal(size.value, [1.2, 3.6], "the size offered");
    await heard(page, /^bed is drawn, and chosen/);
    await page.getByLabel(/^size, across$/i).waitFor();
    equal((await at.state("found")).things.some((one) => one.id === id), false, "as found it is not there");
    await hands.undo();
    await until(async () => (await at.thing(id)) === undefined, "undone it is gone");
  };

  editing[`a wall of three corners, by ${by}`] = async (at) => {
    const hands = await at.hands(by, "/found");
    const { page } = hands;
    await draw_word(hands, "Wall");
    if (by === "keys") await hands.keys("Enter", "Shift+ArrowRight", "Shift+ArrowRight", "Enter", "Shift+ArrowUp", "Enter", "Enter");
    else
      for (const [dx, dy] of [[-40, 40], [50, 40], [50, -30], [50, -30]]) {
        await hands.tap_at(await from_midst(page, dx, dy));
        await page.waitForTimeout(60);
      }
    await page.locator(".thing-name").waitFor();
    const wall = await at.thing(await chosen(page), "found");
    equal([wall.table, wall.mark, wall.corners.length], ["wall", "existing", 3], "what it is");
    equal(wall.fields.guessed.value, ["height_m"], "its height is a guess");
    const [a, b, c] = wall.corners;
    check(Math.abs(b[0] - a[0]) > 1.2 && Math.abs(b[1] - a[1]) < 0.02 && Math.abs(c[0] - b[0]) < 0.02, JSON.stringify(wall.corners));
  };
}

/** The least distance of a bed's corners from the face of the lane's wall. */
const from_wall = async (at, id) => {
  const wall = await at.thing("lane-wall");
  return Math.min(...(await at.thing(id)).corners.map(([, y]) => y)) - wall.corners[0][1] - wall.reach_m;
};

for (const by of kHands) {
  editing[`a bed 1.2 m from a wall, by ${by}`] = async (at) => {
    const hands = await at.hands(by);
    const { page } = hands;
    await hands.choose("long-bed", ["ArrowUp"]);
    const far = page.locator(".measures").getByLabel("from lane-wall");
    await far.waitFor();
    const box = await far.boundingBox();
    check(box.height >= 44 && box.width >= 44, `its size: ${box.width} × ${box.height}`);
    if (by === "keys") await hands.key("l");
    else await hands.tap_at([box.x + box.width / 2, box.y + box.height / 2]);
    equal(await far.evaluate((field) => field === document.activeElement), true, "the figure has the focus");
    await hands.type("1.2"); // kept after a rest
    await until(async () => Math.abs((await from_wall(at, "long-bed")) - 1.2) < 0.001, async () => `1.2 m from it: ${await from_wall(at, "long-bed")}`);
    hands.within(3);
    await heard(page, /^long-bed: from lane-wall 1.2 m/);
    const actions = hands.actions;
    await hands.undo();
    await until(async () => (await from_wall(at, "long-bed")) > 5, "undone it stands where it stood");
    return `${actions} actions`;
  };
}

for (const by of ["mouse", "touch"]) {
  editing[`what is drawn goes to lines nearby, and freely when that is wanted, by ${by}`] = async (at) => {
    const hands = await at.hands(by, "/found");
    const { page } = hands;
    const bed = (await at.thing("long-bed", "found")).corners; // from 5 to 8.6 along
    const scale = await page.evaluate(() => new DOMMatrix(getComputedStyle(document.querySelector(".plan-lines")).transform).a);
    check(scale > 0, "the scale");
    let px = 0;
    const draw = async () => {
      await draw_word(hands, "Bed"); // the paper makes room for the strip
      await page.waitForTimeout(400);
      const at_bed = await page.locator('.sheet g[data-thing="long-bed"]').first().boundingBox();
      px = at_bed.width / (bed[1][0] - bed[0][0]);
      const left = at_bed.x + px * 0.6 + 5; // half the width of the bed offered, and 5 pixels off
      await hands.tap_at([left, at_bed.y + at_bed.height + px * 2.2]);
      await page.locator(".thing-name").waitFor();
      const id = await chosen(page);
      const off = (await at.thing(id, "found")).fields.at.value[0] - bed[0][0];
      await hands.undo();
      await until(async () => (await at.thing(id, "found")) === undefined, "undone");
      return Math.abs(off);
    };
    equal(await draw(), 0, "in line with long-bed");
    await draw_word(hands, "Bed");
    await hands.tap(page.getByRole("button", { name: "To lines" }));
    await hands.tap(page.getByRole("button", { name: "Leave it" }));
    const off = await draw();
    check(off > 2 / px && off < 9 / px, `freely: ${off} m off`);
  };
}

editing["a bed in the hand has the lines that it is in line with"] = async (at) => {
  const hands = await at.hands("mouse", "/proposed/long-bed");
  const { page } = hands;
  const from = await hands.middle_of_grip("long-bed");
  const bed = await page.locator('.sheet g[data-thing="long-bed"]').first().boundingBox();
  const wide = bed.width; // 3.6 m: its left edge to the middle of the tree, 2 m to the left
  await page.mouse.move(...from);
  await page.mouse.down();
  await page.mouse.move(from[0] - 40, from[1] + 30, { steps: 8 });
  await page.mouse.move(from[0] - (2 / 3.6) * wide + 4, from[1] + 40, { steps: 20 });
  await page.locator(".guide-says", { hasText: "in line with medlar" }).first().waitFor({ state: "attached" });
  await page.mouse.up();
  await page.locator(".guide").first().waitFor({ state: "detached" });
  await until(async () => Math.abs((await at.thing("long-bed")).corners[0][0] - 3) < 0.001, "its edge is in line with the tree");
};

for (const by of ["mouse", "touch"]) {
  editing[`a tree set by tape, from two points and off two lines, by ${by}`] = async (at) => {
    const hands = await at.hands(by, "/found/medlar");
    const { page } = hands;
    if (by === "touch") await hands.tap(page.getByRole("button", { name: /^Open the notes/ }));
    await hands.tap(page.getByRole("button", { name: /^Set it by tape/ }));
    const from = (i) => page.getByLabel(`Tape ${i} from`);
    const reads = async (i, text) => {
      await page.getByLabel(`Tape ${i} reads`).fill(text);
    };
    await hands.tap(page.getByRole("button", { name: "From two points" }));
    await from(1).selectOption("lane-wall, left end");
    await from(2).selectOption("lane-wall, right end");
    await reads(1, "5");
    await reads(2, "3");
    await page.locator(".tape .told").waitFor();
    check(/too short to meet/.test(await page.locator(".tape .told").innerText()), "what is the matter");
    await reads(2, "7");
    await hands.tap(page.getByRole("button", { name: /^At 1/ }));
    const far = ([x, y], [u, v]) => Math.hypot(x - u, y - v);
    const wall = (await at.thing("lane-wall", "found")).corners;
    const now = async () => (await at.thing("medlar", "found")).corners[0];
    await until(async () => Math.abs(far(await now(), wall[0]) - 5) < 0.002 && Math.abs(far(await now(), wall[1]) - 7) < 0.002, "as the tapes say");
    check((await now())[1] > 0.2, "on this side of the wall");

    await hands.tap(page.getByRole("button", { name: "Off two lines" }));
    await from(1).selectOption("lane-wall");
    await from(2).selectOption("the boundary, left side");
    await reads(1, "2.5 m");
    await reads(2, "4 ft");
    await hands.tap(page.getByRole("button", { name: /^At 1/ }));
    const { reach_m } = await at.thing("lane-wall", "found");
    await until(async () => Math.abs((await now())[0] - 1.2192) < 0.002, async () => `off the left: ${await now()}`);
    check(Math.abs((await now())[1] - 0.2 - reach_m - 2.5) < 0.002, `off the wall's face: ${await now()}`);
  };
}

editing["sides are typed on the sheet, in any unit; what is no length is told"] = async (at) => {
  const hands = await at.hands("mouse", "/found/long-bed");
  const { page } = hands;
  const side = page.locator(".measures").getByLabel("side 1");
  const was = (await at.thing("long-bed", "found")).corners;
  const type_over = async (text) => {
    const box = await side.boundingBox();
    await hands.tap_at([box.x + box.width / 2, box.y + box.height / 2]);
    await hands.type(text); // what stood there is chosen, and gone
    await hands.key("Enter");
  };
  await type_over("13 ft");
  await until(async () => Math.abs((await at.thing("long-bed", "found")).corners[1][0] - was[0][0] - 13 * 0.3048) < 0.001, "as long as typed");
  const now = (await at.thing("long-bed", "found")).corners;
  equal([now[0], now[3]], [was[0], was[3]], "the other end");
  await hands.page.locator('[data-region="sheet"]').focus();
  await type_over("wide");
  await page.locator(".measure-told").waitFor();
  check(/no length/.test(await page.locator(".measure-told").innerText()), "why");
  await hands.key("Escape");
  await page.locator(".measure-told").waitFor({ state: "detached" });
  equal((await at.thing("long-bed", "found")).corners, now, "nothing came of it");
};

editing["a bed drawn by its figures"] = async (at) => {
  const hands = await at.hands("mouse");
  const { page } = hands;
  await draw_word(hands, "Bed");
  const strip = page.locator(".draw-strip");
  for (const [label, text] of [["across", "4 ft"], ["deep", "2.4"], ["turned", "30"], ["from left", "1.5"], ["from below", "2"]]) {
    await hands.type_over(strip.getByLabel(label, { exact: true }), text);
  }
  await hands.key("Enter");
  await page.locator(".thing-name").waitFor();
  const { fields } = await at.thing(await chosen(page));
  equal([fields.at.value, fields.turn_deg.value], [[1.5, 2], 30], "where it lies");
  equal(fields.size.value, [1.2192, 2.4], "its sides");
};

editing["the paper is moved while a bed is drawn, and D opens the words again after Esc"] = async (at) => {
  const hands = await at.hands("mouse");
  const { page } = hands;
  const [document, things] = [await at.document(), (await at.state()).things.length];
  await page.evaluate(() => document.activeElement?.blur());
  await hands.key("d"); // where nothing has the focus it is the sheet's
  await page.locator(".draw-kinds").waitFor();
  await hands.key("ArrowDown");
  equal(await page.evaluate(() => document.activeElement.closest(".draw-kinds") !== null), true, "arrows go from word to word");
  await hands.key("Escape");
  await page.locator('[data-region="sheet"]').focus();
  for (let i = 0; i < 2; ++i) {
    await hands.key("d");
    await page.locator(".draw-kinds").waitFor();
    if (i === 0) await hands.key("Escape");
  }
  await hands.tap(page.locator(".draw-kind", { hasText: /^Bed$/ }));
  await page.locator(".draw-strip").waitFor();
  const grip = () => page.locator(".plan-lines").first().evaluate((lines) => lines.getBoundingClientRect().left);
  const [from, to] = [await from_midst(page, 0, 0), await from_midst(page, 60, 20)];
  for (const button of ["left", "middle", "left"]) {
    const was = await grip();
    if (button === "middle") await page.locator(".draw-strip input.number").first().focus(); // typing, then looking
    if (button === "left") await page.keyboard.down(" ");
    await page.mouse.move(...from);
    await page.mouse.down({ button });
    await page.mouse.move(...to, { steps: 6 });
    await page.mouse.up({ button });
    if (button === "left") await page.keyboard.up(" ");
    await until(async () => Math.abs((await grip()) - was - (to[0] - from[0])) < 2, async () => `${button}: ${(await grip()) - was}`);
    check(await page.locator(".draw-strip").isVisible(), "it is still drawn");
  }
  equal(await at.document(), document, "nothing was drawn");
  await hands.drag(from, to);
  await until(async () => (await at.state()).things.length === things + 1, "and now a bed is");
};

editing["what cannot be drawn is told, and the drawing stays"] = async (at) => {
  const hands = await at.hands("mouse");
  const { page } = hands;
  const before = await at.document();
  await draw_word(hands, "Wall");
  await page.locator(".draw-strip").getByLabel("kind", { exact: true }).fill("gingerbread");
  await hands.tap_at(await from_midst(page, 0, 0));
  await hands.tap_at(await from_midst(page, 60, 0));
  await hands.tap(page.getByRole("button", { name: "Done" }));
  const told = page.locator(".strip-told");
  await told.waitFor();
  check(/gingerbread/.test(await told.innerText()), "why, where it is mended");
  equal(await page.locator(".problem-line p").count(), 0, "and not twice");
  equal(await at.document(), before, "the document");
  await page.locator(".draw-strip").getByLabel("kind", { exact: true }).fill("stone");
  await hands.tap(page.getByRole("button", { name: "Done" }));
  await page.locator(".thing-name").waitFor();
  equal((await at.thing(await chosen(page))).fields.kind.value, "stone", "its kind");
};

/** Every word of what can be drawn, each drawn with what is offered. */
editing["every kind of thing is drawn"] = async (at) => {
  const hands = await at.hands("mouse");
  const { page } = hands;
  await hands.tap(hands.button(/^Draw$/));
  // Lines of sight lie between things (sighting.mjs); what is not on the sheet is typed (naming.mjs).
  const groups = page.locator(".draw-kinds section").filter({ hasNotText: /Lines of sight|Not on the sheet/ });
  const kinds = (await groups.locator(".draw-kind").allInnerTexts()).map((text) => text.trim());
  await hands.key("Escape");
  const before = (await at.state()).things.length;
  let drawn = 0;
  for (const kind of kinds) {
    await draw_word(hands, kind);
    const way = [await from_midst(page, -20 + drawn, 30 - drawn), await from_midst(page, 40, 80)];
    await hands.drag(...way, 4);
    const done = page.getByRole("button", { name: "Done" });
    await page.waitForTimeout(80);
    if (await done.isVisible()) await hands.tap(done);
    await page.locator(".draw-strip").waitFor({ state: "detached" });
    if (kind === "Boundary") continue;
    drawn += 1;
    await until(async () => (await at.state()).things.length === before + drawn, `${kind} is there`);
    await page.locator(".thing-name").waitFor();
  }
  check(drawn >= 20, `${drawn} kinds`);
  const tables = new Set((await at.state()).things.map((one) => one.table));
  const drawable = ["place", "line", "outline"];
  const schema = await at.served.get("/api/schema");
  check(schema.catalogues.barrier.includes("brick"), "the words of a catalogue");
  const known = schema.tables.filter((table) => table.thing && table.name !== "picture" && table.keys.some((key) => ["at", "line", "outline", "row"].includes(key.name) && drawable.includes(key.type)));
  for (const { name } of known) check(tables.has(name), `${name} can be drawn`);
  return `${kinds.length} kinds`;
};

alone["an empty garden is drawn into"] = async (at) => {
  const { hands, page } = await on_bare_ground(at);
  await hands.tap(page.getByRole("button", { name: "Draw something" }));
  await hands.tap(page.locator(".draw-kind", { hasText: /^Boundary$/ }));
  await hands.drag(await from_midst(page, -180, -150), await from_midst(page, 160, 200));
  await until(async () => (await at.state("found")).boundary.length === 4, "the boundary");
  await draw_word(hands, "Bed");
  await hands.tap_at(await from_midst(page, 0, 0));
  await page.locator(".thing-name").waitFor();
  equal((await at.thing("bed", "found")).mark, "existing", "as found");
};

/** Its notes, open; on a phone they are low at first. */
async function notes_of(at, by, thing, scheme = "proposed") {
  const hands = await at.hands(by, `/${scheme}/${thing}`);
  if (by === "touch") await hands.tap(hands.page.getByRole("button", { name: /^Open the notes/ }));
  const deed = (word) => hands.tap(hands.page.locator(".deeds").getByRole("button", { name: word, exact: true }));
  return { hands, page: hands.page, deed };
}
const bed_of = (at, scheme = "found") => at.thing("long-bed", scheme);

for (const by of ["mouse", "touch", "keys"]) {
  editing[`an outline edited corner by corner, by ${by}`] = async (at) => {
    const { hands, page, deed } = await notes_of(at, by === "keys" ? "mouse" : by, "long-bed", "found");
    await deed("Corners");
    const was = (await bed_of(at)).corners;
    const corner = (i) => page.getByRole("button", { name: new RegExp(`^Corner ${i} of`) });
    await corner(3).waitFor();
    if (by === "keys") {
      await corner(3).focus();
      await hands.keys("ArrowUp", "ArrowUp", "Shift+ArrowLeft");
      await until(async () => Math.abs((await bed_of(at)).corners[2][0] - was[2][0] + 1) < 0.001, "a metre to the left");
      check(Math.abs((await bed_of(at)).corners[2][1] - was[2][1] - 0.2) < 0.001, "and up");
      await heard(page, /^Corner 3: /);
      await hands.key("Insert");
      await until(async () => (await bed_of(at)).corners.length === 5, "one more");
      await corner(4).focus();
      await hands.key("Delete");
      await until(async () => (await bed_of(at)).corners.length === 4, "and less");
      return;
    }
    await page.waitForTimeout(400);
    const box = await corner(3).boundingBox();
    const at_corner = [box.x + box.width / 2, box.y + box.height / 2];
    await hands.drag(at_corner, [at_corner[0] - 40, at_corner[1] - 34]);
    await until(async () => (await bed_of(at)).corners[2][1] > was[2][1] + 0.2, "the corner is elsewhere");
    const now = (await bed_of(at)).corners;
    equal([now[0], now[1], now[3]], [was[0], was[1], was[3]], "the others stay");
    await hands.undo();
    await until(async () => (await bed_of(at)).corners[2][1] === was[2][1], "undone");
    if (by === "mouse") {
      await hands.type_over(page.getByLabel("Corner 1 from left"), "15 ft");
      await hands.key("Enter");
      await until(async () => Math.abs((await bed_of(at)).corners[0][0] - 4.572) < 0.001, "typed");
      await hands.tap(page.getByRole("button", { name: "Take corner 2 away" }));
      await until(async () => (await bed_of(at)).corners.length === 3, "taken away");
      await until(() => page.getByRole("button", { name: "Take corner 1 away" }).isDisabled(), "three are the least");
    }
  };
}

editing["a figure that cannot be is refused in the strip where it is typed, and nothing is set down"] = async (at) => {
  const hands = await at.hands("mouse", "/found");
  const { page } = hands;
  const beds = async () => (await at.state("found")).things.filter(({ table }) => table === "bed").length;
  const before = await beds();
  await draw_word(hands, "Bed");
  const strip = page.locator(".draw-strip");
  const across = strip.getByLabel("across");
  for (const [text, says] of [["abc", /no length/], ["-2", /that short/], ["0", /that short/]]) {
    await across.fill(text);
    await hands.key("Enter");
    await strip.getByText(says).waitFor();
    equal(await across.inputValue(), text, "it stays to be mended");
  }
  await strip.getByLabel("turned").fill("ten");
  await strip.getByText(/no direction/).waitFor();
  await strip.getByLabel("turned").fill("10 deg");
  await across.fill("1500 mm");
  await hands.tap(strip.getByRole("button", { name: "Set down" }));
  await until(async () => (await beds()) === before + 1, "one bed");
  const bed = (await at.state("found")).things.filter(({ table }) => table === "bed").at(-1);
  const [a, b] = bed.corners;
  check(Math.abs(Math.hypot(b[0] - a[0], b[1] - a[1]) - 1.5) < 0.001, `as typed: ${JSON.stringify(bed.corners)}`);
  check(Math.abs((Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI - 10) < 0.01, "and turned");
};

editing["a figure typed key by key into a building's side keeps its field; Esc takes one corner back"] = async (at) => {
  const hands = await at.hands("mouse", "/found");
  const { page } = hands;
  await draw_word(hands, "Building");
  const strip = page.locator(".draw-strip");
  await hands.tap(strip.getByLabel("across"));
  await page.keyboard.press("Control+a");
  await page.keyboard.type("10.5");
  equal(await strip.getByLabel("across").inputValue(), "10.5", "all of it is typed");
  await hands.key("Enter");
  await until(async () => (await at.state("found")).things.some(({ table }) => table === "building"), "a building");
  const { corners } = (await at.state("found")).things.find(({ table }) => table === "building");
  check(Math.abs(Math.hypot(corners[1][0] - corners[0][0], corners[1][1] - corners[0][1]) - 10.5) < 0.001, JSON.stringify(corners));
  await draw_word(hands, "Wall");
  await hands.tap_at(await from_midst(page, -60, 0));
  await hands.tap_at(await from_midst(page, 60, 0));
  await hands.key("Escape");
  equal(await page.locator(".sketch-corner").count(), 1, "one corner is left");
  await hands.keys("Escape", "Escape");
  await strip.waitFor({ state: "detached" });
};

editing["a corner that cannot be is refused at its field"] = async (at) => {
  const { hands, page, deed } = await notes_of(at, "mouse", "long-bed", "found");
  await deed("Corners");
  const field = page.getByLabel("Corner 1 from left");
  await field.fill("60");
  await hands.key("Enter");
  await page.locator(".corners .told", { hasText: /crosses or touches itself/ }).waitFor();
  equal([await field.inputValue(), await field.getAttribute("aria-invalid")], ["60", "true"], "there to be mended");
  equal(await page.locator(".problem-line p").count(), 0, "and nowhere else");
  await field.fill("0.9");
  await hands.key("Enter");
  await page.locator(".corners .told").waitFor({ state: "detached" });
};

editing["the list stands beside the sheet where there is room"] = async (at) => {
  const { page } = await at.hands("mouse", "/proposed");
  await page.getByRole("button", { name: "List", exact: true }).first().click();
  const [list, sheet] = [await page.locator(".list-panel").boundingBox(), await page.locator(".sheet").boundingBox()];
  check(list.x + list.width <= sheet.x + 1, `beside: ${JSON.stringify([list, sheet])}`);
};

const middle = (corners) => [0, 1].map((axis) => corners.reduce((sum, corner) => sum + corner[axis] / corners.length, 0));
const same = (a, b, far = 0.002) => Math.hypot(a[0] - b[0], a[1] - b[1]) < far;

editing["a bed is turned: typed, by a quarter, along a line, by its grip"] = async (at) => {
  const { hands, page, deed } = await notes_of(at, "mouse", "long-bed", "found");
  const was = middle((await bed_of(at)).corners);
  const turn = async () => {
    const [a, b] = (await bed_of(at)).corners;
    return (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
  };
  await deed("Turn");
  await page.getByLabel("degrees, anticlockwise").fill("15");
  await hands.key("Enter");
  await until(async () => Math.abs((await turn()) - 15) < 0.05, async () => `15°: ${await turn()}`);
  await hands.tap(page.getByRole("button", { name: "A quarter" }));
  await until(async () => Math.abs((await turn()) - 105) < 0.05, async () => `105°: ${await turn()}`);
  await page.getByLabel("its sides along").selectOption("lane-wall");
  await until(async () => Math.abs((await turn()) - 90) < 0.05, async () => `90°: ${await turn()}`);
  check(same(middle((await bed_of(at)).corners), was), "about its middle");
  for (let i = 0; i < 3; ++i) await hands.tap(page.getByRole("button", { name: "A quarter" })); // each goes by the one before
  await until(async () => Math.abs((await turn()) - 0) < 0.05, async () => `three quarters more: ${await turn()}`);
  await page.getByLabel("its sides along").selectOption("lane-wall");
  await hands.tap(page.getByRole("button", { name: "A quarter" }));
  await until(async () => Math.abs((await turn()) - 90) < 0.05, async () => `90° again: ${await turn()}`);
  const grip = page.getByRole("button", { name: /^Turn long-bed: drag/ });
  const box = await grip.boundingBox();
  await hands.drag([box.x + 22, box.y + 22], [box.x + 112, box.y + 60]);
  await until(async () => Math.abs((await turn()) - 90) > 10, "turned by hand");
  check(same(middle((await bed_of(at)).corners), was), "about its middle still");
  await hands.key("Escape");
};

editing["mirrored, repeated, in line, copied as proposed"] = async (at) => {
  const { hands, page, deed } = await notes_of(at, "mouse", "long-bed", "found");
  const bed = (await bed_of(at)).corners;
  await deed("Mirror");
  await page.getByLabel("about").selectOption("the plot’s mid-line, up the page");
  await hands.tap(page.getByRole("button", { name: "Mirror it" }));
  await until(async () => (await at.thing("long-bed-2", "found")) !== undefined, "one mirrored");
  check(same(middle((await at.thing("long-bed-2", "found")).corners), [9 - middle(bed)[0], middle(bed)[1]]), "in the middle of the plot");
  await page.locator(".thing-name", { hasText: "long-bed-2" }).waitFor();
  await hands.undo();
  await until(async () => (await at.thing("long-bed-2", "found")) === undefined, "undone");

  await page.goto(`${at.served.url}#${at.garden}/found/long-bed`);
  await page.locator(".thing-name", { hasText: "long-bed" }).waitFor();
  await deed("Repeat");
  await page.getByLabel("how many more").fill("2");
  await page.getByLabel("clear between them").fill("0.5 m");
  await page.getByLabel("where to").selectOption("down the page");
  await hands.tap(page.getByRole("button", { name: "Repeat it" }));
  await until(async () => (await at.thing("long-bed-3", "found")) !== undefined, "two more");
  const third = (await at.thing("long-bed-3", "found")).corners;
  check(same(middle(third), [middle(bed)[0], middle(bed)[1] - 2 * 1.7]), "with half a metre between");
  await hands.undo();
  await until(async () => !(await at.state("found")).things.some((thing) => /long-bed-/.test(thing.id)), "both undone in one step");

  await page.goto(`${at.served.url}#${at.garden}/found/long-bed`);
  await page.locator(".thing-name", { hasText: "long-bed" }).waitFor();
  await deed("Align");
  await page.getByLabel("with", { exact: true }).selectOption("medlar");
  await page.getByLabel("by their").selectOption("middles, up the page");
  await hands.tap(page.getByRole("button", { name: "Align it" }));
  await until(async () => Math.abs(middle((await bed_of(at)).corners)[0] - 3) < 0.001, "its middle is the tree's");

  await deed("Copy as proposed");
  await page.locator(".thing-name", { hasText: "long-bed-2" }).waitFor();
  equal((await at.thing("long-bed-2")).mark, "proposed", "the copy");
  const box = ({ corners }) => [0, 1].map((axis) => [Math.min(...corners.map((one) => one[axis])), Math.max(...corners.map((one) => one[axis]))]);
  const copy = box(await at.thing("long-bed-2"));
  const lies_on = (thing) => box(thing).every(([low, high], axis) => low < copy[axis][1] && copy[axis][0] < high);
  equal((await at.state()).things.filter((thing) => thing.table === "bed" && thing.id !== "long-bed-2" && lies_on(thing)).map(({ id }) => id), [], "clear of the other beds");
  equal((await at.thing("long-bed-2", "found")) === undefined, true, "as found it is not there");
  await page.getByLabel("stage of the works").selectOption("2");
  await until(async () => (await at.thing("long-bed-2")).fields.phase?.value === 2, "its stage");
};

for (const by of ["mouse", "touch"]) {
  editing[`a thing locked stays where it is until it is let go, by ${by}`] = async (at) => {
    const { hands, page, deed } = await notes_of(at, by, "medlar");
    await deed("Lock");
    await until(async () => (await at.thing("medlar")).fields.locked?.value === true, "it is locked");
    equal((await at.thing("medlar")).mark, "existing", "and no change of the proposal");
    await page.getByRole("button", { name: /^Move medlar/ }).waitFor({ state: "detached" });
    equal(await page.getByRole("button", { name: "Take medlar away" }).count(), 0, "nor is it taken away");
    await page.locator('[data-region="sheet"]').focus();
    await page.keyboard.press("m");
    await heard(page, /locked/);
    await deed("Let it go");
    await page.getByRole("button", { name: /^Move medlar/ }).waitFor();
    equal((await at.thing("medlar")).fields.locked === undefined, true, "let go");
  };
}

for (const by of ["mouse", "touch"]) {
  editing[`things are sought in the list, by ${by}`] = async (at) => {
    const hands = await at.hands(by);
    const { page } = hands;
    await hands.tap(hands.button(/^List$/));
    const rows = page.locator(".list-thing");
    await rows.first().waitFor();
    equal(await page.locator(".list-thing:not(.is-entry)").count(), 3, "all three");
    await page.getByLabel("Find").fill("stone wall");
    equal(await rows.locator(".list-name").allInnerTexts(), ["lane-wall"], "by what it is");
    await page.getByLabel("Find").fill("med");
    equal(await rows.locator(".list-name").allInnerTexts(), ["medlar"], "by its name");
    await page.getByLabel("Find").fill("greenhouse");
    equal(await page.locator(".list-count").innerText(), "Nothing like it.", "none");
    await page.getByLabel("Find").fill("medlar");
    await hands.tap(rows.first());
    await page.locator(".thing-name", { hasText: "medlar" }).waitFor();
  };
}

editing["what cannot be taken away stays chosen, and why is told beside the word"] = async (at) => {
  await at.served.post(`/api/gardens/${at.garden}/edits`, { command: "way", change: (await at.state()).head.change, scheme: "proposed", make_scheme: "wall-low" });
  const hands = await at.hands("mouse", "/wall-low/long-bed");
  const { page } = hands;
  await hands.tap(page.getByRole("button", { name: "Take long-bed away" }));
  await page.locator(".margin-notes").getByRole("alert").filter({ hasText: /stands in other schemes too/ }).waitFor();
  equal(await chosen(page), "long-bed", "it is still chosen");
  equal(await page.locator(".problem-line p").count(), 0, "and not told twice");
};

for (const by of ["mouse", "touch", "keys"]) {
  editing[`another way is begun, altered, compared, made the proposal, named anew, dropped, by ${by}`] = async (at) => {
    const hands = await at.hands(by);
    const { page } = hands;
    const open = () => hands.tap(page.locator(by === "touch" ? ".schemes-menu > button" : ".ways-menu > button"));
    const begin = async (name) => {
      await open();
      if (by === "keys") {
        await page.getByLabel("Another way, called").focus();
        await hands.type(name);
        await hands.key("Enter");
      } else {
        await page.getByLabel("Another way, called").fill(name);
        await hands.tap(page.getByRole("button", { name: "Begin it" }));
      }
      await until(async () => (await at.state()).schemes.length > 2, "it is there");
    };
    const shown = () => page.evaluate(() => location.hash.split("/")[1] ?? null);
    await begin("Wall low");
    await until(async () => (await shown()) === "wall-low", "it is shown");
    await page.waitForTimeout(300);
    await at.served.post(`/api/gardens/${at.garden}/edits`, { command: "low", change: (await at.state()).head.change, scheme: "wall-low", thing: "lane-wall", set: { height_m: 1 } });
    await open();
    await hands.tap(page.locator(".menu-row", { hasText: /^As found/ }));
    await page.locator(".side-name").first().waitFor();
    await open();
    await hands.tap(page.getByRole("button", { name: "Make wall-low the proposal" }));
    await until(async () => (await at.state()).schemes.length === 2, "merged");
    equal((await at.thing("lane-wall")).fields.height_m.value, 1, "the proposal");
    equal((await at.thing("lane-wall", "found")).fields.height_m.value, 1.6, "as found");
    await hands.undo();
    await until(async () => (await at.state()).schemes.includes("wall-low"), "undone it is there again");
    equal((await at.thing("lane-wall")).fields.height_m.value, 1.6, "and the proposal as it was");
    await page.goto(`${at.served.url}#${at.garden}/wall-low`);
    await until(async () => (await shown()) === "wall-low", "shown again");
    await page.waitForTimeout(300);
    await open();
    const anew = page.getByLabel("Another name for wall-low");
    const name_it = async (name) => {
      await anew.fill(name);
      if (by === "keys") await anew.press("Enter");
      else await hands.tap(page.getByRole("button", { name: "Name it so" }));
    };
    await name_it("Medlar");
    await page.getByRole("alert").filter({ hasText: "medlar" }).first().waitFor();
    await name_it("Früher Süden");
    await until(async () => (await shown()) === "fruher-suden", "it is shown under its new name");
    await heard(page, /^wall-low is now called fruher-suden/);
    const state = await at.state("fruher-suden");
    equal(state.schemes.slice(2), ["fruher-suden"], "and not under the old one");
    equal((await at.thing("lane-wall", "fruher-suden")).fields.height_m.value, 1, "all that was altered in it");
    await open();
    await hands.tap(page.getByRole("button", { name: "Drop fruher-suden" }));
    await until(async () => (await at.state()).schemes.length === 2, "dropped");
    await heard(page, /^fruher-suden is dropped/);
  };
}

alone["what is drawn while the program is away waits, is seen, and comes"] = async (at) => {
  const { hands, page } = await on_bare_ground(at);
  await page.getByRole("button", { name: "Draw something" }).waitFor();
  await page.waitForTimeout(400);
  await at.served.end();
  await draw_word(hands, "Bed");
  await hands.tap_at(await from_midst(page, 0, 0));
  await page.getByText("Kept here").first().waitFor();
  await page.locator(".marks .sketch .sketch-line").first().waitFor({ state: "attached" });
  await at.served.again();
  await page.locator(".thing-name", { hasText: "bed" }).waitFor();
  equal((await at.thing("bed", "found")).fields.size.value, [1.2, 3.6], "it has come");
  equal((await at.state("found")).things.length, 1, "once");
};

const sloping = `format = 1
[garden]
title = "On the Slope"
latitude_deg = 48.41
longitude_deg = -4.36
time_zone = "Europe/Paris"
[boundary]
outline = [[0, 0], [9, 0], [9, 8], [0, 8]]
[ground]
falls_m = 0.5
toward_deg = 45
over = 10
[[bed]]
id = "low"
at = [2, 2]
size = [1, 1]
[[bed]]
id = "high"
at = [6, 5]
size = [1, 1]
`;

alone["a bed is led to where it lies level with another"] = async (at) => {
  at.served = await Served.start(at.program);
  at.garden = (await at.served.post("/api/gardens", { document: sloping })).id;
  const page = await at.page(kSizes.desk);
  await page.goto(`${at.served.url}#${at.garden}/found/high`);
  const hands = new Hands(page, "mouse");
  const grip = page.locator(".grip");
  await grip.waitFor();
  const box = await page.locator('.plan-lines [data-thing="low"]').first().boundingBox();
  const metre = await page.evaluate(() => {
    const middle = (id) => {
      const { x, width } = document.querySelector(`.plan-lines [data-thing="${id}"]`).getBoundingClientRect();
      return x + width / 2;
    };
    return (middle("high") - middle("low")) / 4;
  });
  check(box !== null && metre > 20, `${metre} pixels a metre`);
  // From (6.5, 5.5) to about (4.15, 0.94): falling north-east, the ground there is level with (2.5, 2.5)
  // where x and y come to 5.
  const at_grip = await grip.boundingBox();
  const from = [at_grip.x + 24, at_grip.y + 24];
  const to = [from[0] - 2.35 * metre, from[1] + 4.56 * metre];
  await page.mouse.move(...from);
  await page.mouse.down();
  for (let i = 1; i <= 12; ++i) await page.mouse.move(from[0] + ((to[0] - from[0]) * i) / 12, from[1] + ((to[1] - from[1]) * i) / 12);
  await page.locator(".guide-says", { hasText: "level with low" }).first().waitFor();
  await page.mouse.up();
  await until(async () => (await at.thing("high", "found")).corners[0][1] < 1, "it is set down");
  const [[x, y]] = (await at.thing("high", "found")).corners;
  check(Math.abs(x + 0.5 + y + 0.5 - 5) < 0.002, `on the contour: ${x}, ${y}`);
  const { beds } = await at.state("found");
  check(Math.abs(beds.high.level_m - beds.low.level_m) < 1e-4, `${beds.high.level_m} beside ${beds.low.level_m}`);
};
