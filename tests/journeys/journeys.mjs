// What a grower does in the app, in a real browser, within LOOK's numbers of actions: by mouse, by
// touch, by keyboard.  node journeys.mjs build/spadework [only]
import { launch, kSizes, page_of, Served } from "./browser.mjs";
import { check, equal, Hands, settled } from "./hands.mjs";

const [program, only = ""] = process.argv.slice(2);

/** Figures of the program for a place, to compare the screen with. */
async function place_of(served, garden, place, query = "") {
  const answer = await served.get(`/api/gardens/${garden}/places?${query}`);
  return answer.places.find((one) => one.id === place);
}

async function open(served, browser, garden, size = kSizes.desk, more = {}) {
  const page = await page_of(browser, size, more);
  await page.goto(`${served.url}#${garden}`);
  await settled(page);
  return page;
}

const journeys = {
  async "a shelf: an example is looked into, and its copy is the grower's own"(served, browser) {
    const page = await page_of(browser, kSizes.desk);
    await page.goto(served.url);
    const hands = new Hands(page);
    await hands.tap(page.getByRole("button", { name: /The Back Forty Feet/ }).first());
    await settled(page);
    check(hands.actions <= 2, `${hands.actions} actions`);
    check((await page.locator("h1").innerText()).includes("The Back Forty Feet"), "its title");
    const shelf = await served.get("/api/gardens");
    check(shelf.gardens.some((one) => one.title === "The Back Forty Feet"), "on the shelf");
    return page;
  },

  async "who takes this afternoon: 2 actions"(served, browser, garden) {
    const page = await open(served, browser, garden);
    const hands = new Hands(page);
    await hands.tap_at(await hands.middle_of("upper-mid"));
    await page.locator(".takers .taker").first().waitFor();
    check(hands.actions <= 2, `${hands.actions} actions`);
    const told = await served.get(`/api/gardens/${garden}/takers?place=upper-mid`);
    const rows = await page.locator(".takers .taker").allInnerTexts();
    check(rows[0].includes(told.takers[0].called), `${rows[0]} is ${told.takers[0].called}`);
    check(rows[0].includes(String(Math.round(told.takers[0].sun_h_per_year))), "its hours");
    const foot = (await page.locator(".takers ~ *, .taker-sum").allInnerTexts()).join(" ");
    check(foot.includes(String(Math.round(told.taken_twice_h))), "taken twice");
    return page;
  },

  async "found against proposed: 2 actions"(served, browser, garden) {
    const page = await open(served, browser, garden);
    const hands = new Hands(page);
    await hands.tap(hands.button("Compare"));
    const row = page.locator(".gains tbody tr").first();
    await row.waitFor();
    check(hands.actions <= 2, `${hands.actions} actions`);
    equal(await page.locator(".sheet").count() >= 1, true, "sheets");
    const name = await row.locator("th").innerText();
    const place = await place_of(served, garden, name.trim(), "scheme=proposed&against=found");
    const [from, to] = await row.locator("td").allInnerTexts();
    equal([from, to], [place.against_sun_h_per_day.toFixed(1), place.sun_h_per_day.toFixed(1)], name);
    return page;
  },

  async "a number to its source: 2 actions"(served, browser, garden) {
    const page = await open(served, browser, garden);
    const hands = new Hands(page);
    await hands.tap_at(await hands.middle_of("upper-mid"));
    await page.locator(".months-table td").first().waitFor();
    hands.actions = 0; // from the number on
    await hands.tap(page.locator('.months-table [data-at="5,0"]'));
    await page.locator(".why-sources li").first().waitFor();
    check(hands.actions <= 2, `${hands.actions} actions`);
    const pointer = "/light/places/upper-mid/months/5/sun_h_per_day";
    const trace = await served.get(`/api/gardens/${garden}/why?pointer=${pointer}`);
    const said = await page.locator(".why-figure").first().innerText();
    check(said.includes(trace.value.replaceAll('"', "")), `${trace.value} in the chain`);
    await hands.key("Escape");
    await page.locator(".months-table").waitFor();
    return page;
  },

  async "lift a crown and see the gain: 4 actions"(served, browser, garden) {
    const page = await open(served, browser, garden);
    const hands = new Hands(page);
    const before = await place_of(served, garden, "bank");
    await hands.tap_at(await hands.middle_of("medlar"));
    const crown = page.getByLabel(/^crown base$/i).first();
    await crown.waitFor();
    await hands.tap(crown);
    await page.keyboard.press("Control+A");
    await hands.type("3.4");
    await hands.key("Enter");
    await page.locator(".changed").waitFor();
    check(hands.actions <= 4, `${hands.actions} actions`);
    await settled(page);
    const after = await place_of(served, garden, "bank");
    check(after.sun_h_per_day > before.sun_h_per_day, "the bank gains");
    const state = await served.get(`/api/gardens/${garden}`);
    equal(state.things.find((one) => one.id === "medlar").fields.crown_base_m.value, 3.4, "the crown's base");
    const found = await served.get(`/api/gardens/${garden}?scheme=found`);
    check(found.things.find((one) => one.id === "medlar").fields.crown_base_m.value !== 3.4, "as found it stays");
    await hands.tap(hands.button("Put back"));
    await page.locator(".changed").waitFor({ state: "detached" }).catch(() => {});
    return page;
  },

  async "a thing moved by its grip; undo, also after a restart"(served, browser, garden) {
    const page = await open(served, browser, garden);
    const hands = new Hands(page);
    const at = async () => (await served.get(`/api/gardens/${garden}`)).things.find((one) => one.id === "far-cone").corners;
    const was = await at();
    await hands.tap_at(await hands.middle_of("far-cone"));
    const grip = page.getByRole("button", { name: /^Move far-cone/ }).first();
    await grip.waitFor();
    const box = await grip.boundingBox();
    check(box.width >= 44 && box.height >= 44, "the grip's size");
    const from = [box.x + box.width / 2, box.y + box.height / 2];
    await hands.drag(from, [from[0] - 40, from[1] + 30]);
    await page.waitForFunction(() => /far-cone moved/.test(document.body.innerText) || document.querySelector('[aria-label^="Undo: far-cone"]') !== null);
    const moved = await at();
    check(JSON.stringify(moved) !== JSON.stringify(was), "it has moved");
    await served.end("SIGKILL");
    await served.again();
    await page.reload();
    await settled(page);
    await hands.tap(page.getByRole("button", { name: /^Undo/ }).first());
    for (let i = 0; i < 50 && JSON.stringify(await at()) !== JSON.stringify(was); ++i) await page.waitForTimeout(100);
    equal(await at(), was, "undone after a restart");
    return page;
  },

  async "try without: the gain is told and nothing is kept"(served, browser, garden) {
    const page = await open(served, browser, garden);
    const hands = new Hands(page);
    const before = await (await fetch(`${served.url}api/gardens/${garden}/document`)).text();
    await hands.tap_at(await hands.middle_of("medlar"));
    await hands.tap(hands.button(/^Try without/));
    await page.locator(".won").waitFor();
    check((await page.locator(".won").innerText()).includes("+"), "a bed gains");
    equal(await (await fetch(`${served.url}api/gardens/${garden}/document`)).text(), before, "the document");
    return page;
  },

  async "two windows: the second sees the first's change at once"(served, browser, garden) {
    const one = await open(served, browser, garden);
    const two = await open(served, browser, garden);
    const hands = new Hands(one);
    await hands.tap_at(await hands.middle_of("near-cone"));
    const figure = one.getByLabel(/^height$/i).first();
    await figure.fill("2.2");
    await figure.press("Enter");
    await two.waitForSelector('[aria-label^="Undo: near-cone"]', { timeout: 5000 });
    await two.getByRole("button", { name: /^Undo: near-cone/ }).first().click();
    await one.waitForFunction(() => document.querySelector('[aria-label^="Undo: near-cone"]') === null);
    equal(two.wrong, [], "the second window's console");
    await two.context().close();
    return one;
  },

  async "the program gone and back: edits wait and are sent once"(served, browser, garden) {
    const page = await open(served, browser, garden);
    const hands = new Hands(page);
    await hands.tap_at(await hands.middle_of("near-cone"));
    const figure = page.getByLabel(/^height$/i).first();
    await figure.waitFor();
    await settled(page);
    await served.end("SIGKILL");
    await figure.fill("2.3");
    await figure.press("Enter");
    await page.getByText(/Kept here/).first().waitFor();
    await served.again();
    await page.waitForFunction(() => !/Kept here/.test(document.body.innerText));
    const height = async () => (await served.get(`/api/gardens/${garden}`)).things.find((one) => one.id === "near-cone").fields.height_m.value;
    for (let i = 0; i < 50 && (await height()) !== 2.3; ++i) await page.waitForTimeout(100);
    equal(await height(), 2.3, "the height");
    const rows = (await served.get(`/api/gardens/${garden}/revisions`)).revisions;
    equal(rows.filter((row) => row.id > 0 && /near-cone: height/.test(row.says)).length >= 1, true, "the revision");
    await hands.tap(page.getByRole("button", { name: /^Undo/ }).first());
    return page;
  },

  async "by keyboard alone: choose, move, undo"(served, browser, garden) {
    const page = await open(served, browser, garden);
    const hands = new Hands(page);
    const at = async () => (await served.get(`/api/gardens/${garden}`)).things.find((one) => one.id === "far-cone").corners[0];
    for (let i = 0; i < 6; ++i) {
      if (await page.evaluate(() => document.activeElement?.closest('[data-region="sheet"]') !== null)) break;
      await hands.key("F6");
    }
    check(await page.evaluate(() => document.activeElement?.closest('[data-region="sheet"]') !== null), "F6 comes to the sheet");
    await page.evaluate(() => history.replaceState(null, "", location.hash));
    await page.goto(`${served.url}#${garden}/proposed/far-cone`);
    await settled(page);
    await page.locator('[data-region="sheet"]').first().focus();
    const was = await at();
    await hands.key("m");
    await hands.key("Shift+ArrowRight");
    await hands.key("ArrowUp");
    await hands.key("Enter");
    for (let i = 0; i < 30 && JSON.stringify(await at()) === JSON.stringify(was); ++i) await page.waitForTimeout(100);
    const now = await at();
    check(Math.abs(now[0] - was[0] - 1) < 0.006 && Math.abs(now[1] - was[1] - 0.1) < 0.006, `moved by ${now[0] - was[0]}, ${now[1] - was[1]}`);
    await page.keyboard.press("Control+z");
    for (let i = 0; i < 30 && JSON.stringify(await at()) !== JSON.stringify(was); ++i) await page.waitForTimeout(100);
    equal(await at(), was, "undone");
    return page;
  },

  async "by touch on a phone: who takes this afternoon"(served, browser, garden) {
    const page = await open(served, browser, garden, kSizes.phone);
    const hands = new Hands(page, "touch");
    await hands.tap_at(await hands.middle_of("bank"));
    await page.locator(".notes .answer", { hasText: "takes" }).waitFor();
    check(hands.actions <= 2, `${hands.actions} actions`);
    return page;
  },

  async "a moment by typing, and by the band's slider"(served, browser, garden) {
    const page = await open(served, browser, garden);
    const typed = page.getByLabel(/^The time shown/).first();
    await typed.fill("15 Jun 16:20");
    await typed.press("Enter");
    await page.waitForFunction(() => /15 June, 16:20/.test(document.querySelector(".sheet")?.textContent ?? ""));
    const hour = page.getByRole("slider", { name: "Hour" });
    await hour.focus();
    await page.keyboard.press("PageUp");
    await page.waitForFunction(() => /15 June, 1[57]:20/.test(document.querySelector(".sheet")?.textContent ?? ""));
    return page;
  },

  async "the picture equals the table"(served, browser, garden) {
    const page = await open(served, browser, garden);
    await page.getByRole("button", { name: "List" }).first().click();
    const places = (await served.get(`/api/gardens/${garden}/places`)).places;
    const chips = await page.locator(".chip").allInnerTexts();
    const rows = await page.locator(".list-thing").allInnerTexts();
    for (const chip of chips) check(rows.some((row) => row.includes(chip.trim())), `${chip} in the list`);
    const beds = places.filter((place) => place.kind === "bed");
    const told = beds.map((place) => place.sun_h_per_day.toFixed(1)).sort();
    equal(chips.map((chip) => chip.trim()).sort(), told, "the figures in the beds");
    return page;
  },

  async "an import that is broken tells its lines"(served, browser) {
    const page = await page_of(browser, kSizes.desk);
    await page.goto(served.url);
    const broken = "format = 1\n[garden]\ntitle = 3\nlatitude_deg = 95\n";
    await page.locator('input[type="file"]').setInputFiles({ name: "broken.toml", mimeType: "text/plain", buffer: Buffer.from(broken) });
    const told = page.getByRole("alert");
    await told.first().waitFor();
    check(/3:|4:|line/.test(await told.first().innerText()), await told.first().innerText());
    return page;
  },
};

const served = await Served.start(program);
const browser = await launch();
let failed = 0;
for (const [name, journey] of Object.entries(journeys)) {
  if (!name.includes(only)) continue;
  const begun = Date.now();
  try {
    const garden = await served.example("ker-avel");
    const page = await journey(served, browser, garden);
    equal(page.wrong, [], "the console");
    await page.context().close();
    console.log(`ok      ${name} (${Date.now() - begun} ms)`);
  } catch (error) {
    failed += 1;
    for (const [i, context] of browser.contexts().entries())
      await context.pages()[0]?.screenshot({ path: `${process.env.FAILED_TO ?? "/tmp"}/failed-${failed}-${i}.png` }).catch(() => {});
    console.log(`FAILED  ${name}: ${error.message.split("\n").slice(0, 4).join(" ")}`);
    for (const context of browser.contexts()) await context.close().catch(() => {});
    if (served.process.exitCode !== null || served.process.signalCode !== null) await served.again();
  }
}
await browser.close();
await served.close();
process.exit(failed === 0 ? 0 : 1);
