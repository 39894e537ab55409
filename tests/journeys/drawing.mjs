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

editing["what cannot be drawn is told, and the drawing stays"] = async (at) => {
  const hands = await at.hands("mouse");
  const { page } = hands;
  const before = await at.document();
  await draw_word(hands, "Wall");
  await page.locator(".draw-strip").getByLabel("kind", { exact: true }).fill("gingerbread");
  await hands.tap_at(await from_midst(page, 0, 0));
  await hands.tap_at(await from_midst(page, 60, 0));
  await hands.tap(page.getByRole("button", { name: "Done" }));
  await page.locator(".problem-line p").waitFor();
  check(/gingerbread/.test(await page.locator(".problem-line").innerText()), "why");
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
  const kinds = (await page.locator(".draw-kind").allInnerTexts()).map((text) => text.trim());
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
  at.served = await Served.start(at.program);
  const begin = { title: "Plot", latitude_deg: 48.41, longitude_deg: -4.36, time_zone: "Europe/Paris" };
  at.garden = (await at.served.post("/api/gardens", { begin })).id;
  const page = await at.page(kSizes.desk);
  await page.goto(`${at.served.url}#${at.garden}/found`);
  const hands = new Hands(page, "mouse");
  await hands.tap(page.getByRole("button", { name: "Draw something" }));
  await hands.tap(page.locator(".draw-kind", { hasText: /^Boundary$/ }));
  await hands.drag(await from_midst(page, -180, -150), await from_midst(page, 160, 200));
  await until(async () => (await at.state("found")).boundary.length === 4, "the boundary");
  await draw_word(hands, "Bed");
  await hands.tap_at(await from_midst(page, 0, 0));
  await page.locator(".thing-name").waitFor();
  equal((await at.thing("bed", "found")).mark, "existing", "as found");
};
