// Names: a bed is called otherwise, and all that refers to it follows. What has no place on the sheet:
// added, altered and taken away.
import { Served } from "./browser.mjs";
import { check, equal, heard, kHands, until } from "./hands.mjs";
import { begin, type_height } from "./keeping.mjs";

export const alone = {};
export const editing = {};
export const editing_ker_avel = {};
export const looking = {};

const over_of = async (at, id) => (await at.thing(id)).fields.over?.value;
const name_word = (page) => page.locator(".name-word");
const name_field = (page) => page.getByLabel(/^The name of /);

/** From the sheet: the notes, and the name, which is their first word. */
async function open_name(hands) {
  const { page } = hands;
  if (hands.by === "keys") {
    await hands.key("F6");
    for (let i = 0; i < 4 && !(await page.evaluate(() => document.activeElement?.dataset.region === "margin")); ++i) await hands.key("F6");
    await hands.key("Tab");
    await hands.key("Enter");
  } else await hands.tap(name_word(page));
  await name_field(page).waitFor();
}
async function type_name(hands, name) {
  await open_name(hands);
  await hands.type(name); // over the old one, which is marked
  await hands.key("Enter");
}

for (const by of kHands) {
  editing_ker_avel[`a bed is called otherwise, and what refers to it follows, by ${by}`] = async (at) => {
    const hands = await at.hands(by, "/proposed/slope-east");
    const { page } = hands;
    const before = await at.document();
    const cover = (await at.state()).things.find((one) => one.table === "cover" && one.fields.over?.value?.includes("slope-east")).id;
    const box = await name_word(page).boundingBox();
    check(box.height >= 44, `the name's height: ${box.height}`);
    await type_name(hands, "Bank by the Gate");
    await page.locator("h2.thing-name", { hasText: "bank-by-the-gate" }).waitFor();
    const actions = hands.actions;
    await heard(page, /^slope-east is now called bank-by-the-gate\.$/);
    equal(await over_of(at, cover), ["bank-by-the-gate"], "what it is under");
    check(page.url().endsWith("/bank-by-the-gate"), `it stays chosen: ${page.url()}`);
    await until(() => page.evaluate(() => document.activeElement?.className === "name-word"), "the focus stays on its name");
    check(!(await at.document()).includes("slope-east"), "the old name is nowhere");

    await type_name(hands, "Hedge");
    const told = page.locator(".naming .told");
    await told.waitFor();
    check(/“hedge” already.*“hedge-2” is free/.test(await told.innerText()), await told.innerText());
    equal([await name_field(page).getAttribute("aria-invalid"), await name_field(page).inputValue()], ["true", "Hedge"], "what was typed stands, marked");
    await name_field(page).focus();
    await hands.key("Escape");
    await told.waitFor({ state: "detached" });
    equal(await name_word(page).innerText(), "bank-by-the-gate", "the name that stands");

    await hands.undo();
    await page.locator("h2.thing-name", { hasText: "slope-east" }).waitFor();
    equal(await at.document(), before, "undone");
    return `${actions} actions`;
  };
}

alone["a name given while the program is gone waits, and what follows goes on the thing"] = async (at) => {
  await begin(at, await Served.start(at.program));
  const hands = await at.hands("mouse", "/found/medlar");
  const { page } = hands;
  await at.served.end("SIGKILL");
  await type_name(hands, "Old Medlar");
  await page.getByText("To be called Old Medlar, once that is written.").waitFor();
  await type_height(hands, "5.4");
  await at.served.again();
  await until(async () => (await at.thing("old-medlar", "found").catch(() => undefined))?.fields.height_m.value === 5.4, "both are written");
};

const entries = async (at, table) => (await at.state()).entries.filter((one) => one.table === table);
const wanted = async (at) => (await entries(at, "want")).map(({ fields }) => `${fields.crop.typed} ${fields.amount.typed}`);

async function begin_adding(hands, word) {
  const { page } = hands;
  if (hands.by === "keys") {
    await page.locator('[data-region="sheet"]').focus();
    await hands.key("d");
    for (let i = 0; i < 9; ++i) {
      await hands.key(word[0].toLowerCase());
      if ((await page.evaluate(() => document.activeElement.textContent.trim())) === word) break;
    }
    await hands.key("Enter");
  } else {
    await hands.tap(hands.button(/^Draw$/));
    await hands.tap(page.locator(".draw-kind", { hasText: new RegExp(`^${word}$`) }));
  }
  await page.getByRole("button", { name: "Add it" }).waitFor();
}
/** Figures in the fields of the form, one after the other. */
async function fill(hands, figures) {
  for (const [i, [label, text]] of figures.entries()) {
    if (hands.by === "keys") {
      if (i > 0) await hands.key("Tab");
      await hands.type(text);
    } else await hands.type_over(hands.page.getByLabel(label, { exact: true }), text);
  }
}
async function choose_in_list(hands, name) {
  const { page } = hands;
  const row = page.locator(".list-thing.is-entry", { hasText: name }).first();
  if (hands.by === "keys") {
    await page.locator('[data-region="sheet"]').focus();
    await hands.keys("Tab", "Enter");
    await page.locator(".list-panel").waitFor();
    for (let i = 0; i < 40 && !(await row.evaluate((one) => one === document.activeElement)); ++i) await hands.key(name[0]);
    await hands.keys("Enter", "Escape");
  } else {
    await hands.tap(hands.button(/^List$/));
    await hands.tap(row);
    if (hands.by === "mouse") await hands.tap(hands.button(/^Close$/));
    else await hands.tap(page.getByRole("button", { name: /^Open the notes/ }));
  }
  await page.locator(".notes h2", { hasText: name }).waitFor();
}

for (const by of kHands) {
  editing[`a crop is wanted, altered and taken away, by ${by}`] = async (at) => {
    const hands = await at.hands(by);
    const { page } = hands;
    const before = await at.document();
    await begin_adding(hands, "Wanted crop");
    await fill(hands, [["crop", "pea"]]);
    await hands.key("Enter");
    const told = page.locator(".fact .told");
    await told.waitFor();
    equal(await told.innerText(), "This is needed.", "what is missing is asked for");
    await page.waitForFunction(() => document.activeElement.getAttribute("aria-label") === "amount"); // where it is typed
    await hands.type("many");
    await hands.key("Enter");
    await page.waitForFunction(() => /many/.test(document.querySelector(".fact .told")?.textContent ?? ""));
    equal(await at.document(), before, "nothing is added that cannot be");
    await page.keyboard.press("Control+A");
    await hands.type("6 kg");
    await hands.key("Enter");
    await page.locator(".notes h2", { hasText: "pea" }).waitFor();
    const actions = hands.actions;
    equal(await wanted(at), ["pea 6 kg"], "wanted");
    equal(await at.document(), `${before.trimEnd()}\n\n[[want]]\namount = "6 kg"\ncrop = "pea"\n`, "the document");

    await begin_adding(hands, "Wanted crop");
    await fill(hands, [["crop", "leek"], ["amount", "30 stems"]]);
    await hands.key("Enter");
    await page.locator(".notes h2", { hasText: "leek" }).waitFor();
    await choose_in_list(hands, "pea");
    const crop = page.getByLabel("crop", { exact: true });
    if (by === "keys") {
      await page.locator('[data-region="margin"]').focus();
      await hands.key("c");
      await page.keyboard.press("Control+A");
      await hands.type("broad bean");
    } else await hands.type_over(crop, "broad bean");
    await hands.key("Enter");
    await until(async () => (await wanted(at)).join() === "broad bean 6 kg,leek 30 stems", async () => (await wanted(at)).join());
    await page.locator(".notes h2", { hasText: "broad bean" }).waitFor();

    const away = hands.button("Take broad bean away");
    if (by === "keys") {
      await page.locator('[data-region="margin"]').focus();
      for (let i = 0; i < 6 && !(await away.evaluate((one) => one === document.activeElement)); ++i) await hands.key("t");
      await hands.key("Enter");
    } else await hands.tap(away);
    await until(async () => (await wanted(at)).join() === "leek 30 stems", async () => (await wanted(at)).join());
    await hands.undo();
    await until(async () => (await wanted(at)).length === 2, "undone it is wanted again");
    return `${actions} actions`;
  };
}

editing["a task has a name, which others come after; a price, a month, whose hands and when"] = async (at) => {
  const hands = await at.hands("mouse");
  const { page } = hands;
  await begin_adding(hands, "Task");
  await fill(hands, [["name", "Order boards"], ["what", "Order the boards."], ["hours", "1,5"]]);
  await hands.key("Enter");
  await page.locator("h2.thing-name", { hasText: "order-boards" }).waitFor();
  await type_name(hands, "Boards");
  await page.locator("h2.thing-name", { hasText: /^boards$/ }).waitFor();
  equal((await entries(at, "task")).map(({ name, fields }) => [name, fields.hours.value]), [["boards", 1.5]], "the task");
  check(page.url().endsWith(`/${encodeURIComponent("task:boards")}`), `it stays chosen: ${page.url()}`);
  await begin_adding(hands, "Price of a material");
  await fill(hands, [["material", "gravel"], ["pack", "bulk bag"], ["price", "52"], ["tonnes", "0.8"]]);
  await hands.key("Enter");
  await page.locator(".notes h2", { hasText: "What suppliers ask" }).waitFor();
  await begin_adding(hands, "A month’s weather");
  await page.getByLabel("month", { exact: true }).selectOption("April");
  await fill(hands, [["rain", "40"]].map(([, text]) => [/rain/, text]));
  await hands.key("Enter");
  await page.locator(".notes h2", { hasText: "April" }).waitFor();
  await begin_adding(hands, "Whose hands, and when");
  await fill(hands, [["start", "2027-01-09"]]);
  await hands.key("Enter");
  await page.locator(".notes h2", { hasText: "Whose hands, and when" }).waitFor();
  await until(async () => "start" in (await at.state()).singles.labour, "when is there");
  const { singles } = await at.state();
  equal(singles.prices.gravel.value, { pack: "bulk bag", price: 52, tonnes: 0.8 }, "the price");
  equal(singles.labour.start.value, "2027-01-09", "when");
  equal((await entries(at, "climate.month"))[0].fields.rain_mm.value, 40, "the rain");
  equal((await at.state()).head.undo, "whose hands, and when added", "what undo tells");
};

editing["two windows: what one took out of a list, the other does not write into another"] = async (at) => {
  const [one, other] = [await at.hands("mouse"), await at.hands("mouse")];
  for (const crop of ["pea", "leek"]) {
    await begin_adding(one, "Wanted crop");
    await fill(one, [["crop", crop], ["amount", "some"]]);
    await one.key("Enter");
    await one.page.locator(".notes h2", { hasText: crop }).waitFor();
  }
  await choose_in_list(other, "leek");
  await choose_in_list(one, "pea");
  await one.tap(one.button("Take pea away"));
  await until(async () => (await wanted(at)).join() === "leek some", "the first is gone");
  await other.page.waitForFunction(() => location.hash.endsWith(encodeURIComponent("want~0")));
  await other.page.locator(".notes h2", { hasText: "leek" }).waitFor(); // it is followed
  await other.type_over(other.page.getByLabel("crop", { exact: true }), "kale");
  await other.key("Enter");
  await until(async () => (await wanted(at)).join() === "kale some", async () => (await wanted(at)).join());
};

looking["whatever an example says without a place stands in its notes, to be typed"] = async (at) => {
  const page = await at.page();
  const { tables } = await at.served.get("/api/schema");
  const called = (table, key) => tables.find(({ name }) => name === table).keys.find(({ name }) => name === key)?.called ?? key;
  const elsewhere = ["scheme", "status", "outline", "thing", "guessed"]; // of boundaries and changes, told otherwise
  let seen = 0;
  for (const name of ["ker-avel", "back-forty-feet", "tussock-bend"]) {
    const garden = await at.served.example(name);
    const { entries: many, singles } = await at.served.get(`/api/gardens/${garden}?scheme=proposed`);
    const all = [
      ...Object.entries(singles).map(([table, fields]) => ({ id: `${table}:`, table, fields })),
      ...many.map((one) => ({ id: one.name === undefined ? `${one.table}~${one.nth}` : `${one.table}:${one.name}`, ...one })),
    ];
    await page.goto(`${at.served.url}#${garden}/proposed`);
    await page.locator(".answer").first().waitFor();
    for (const { id, table, fields } of all) {
      const own = table === "change" ? ["phase", "note"] : Object.keys(fields); // the rest stands in the notes of what is altered
      const keys = own.filter((key) => key in fields && !elsewhere.includes(key) && key !== "id");
      await page.goto(`${at.served.url}#${garden}/proposed/${encodeURIComponent(id)}`);
      await page.waitForFunction((of) => decodeURIComponent(location.hash).endsWith(of), id);
      if (keys.length === 0) continue;
      const words = async () => (await page.locator(".fact-words").allInnerTexts()).map((text) => text.replace(/^≈ /, ""));
      const missing = async () => keys.map((key) => called(table, key)).filter((name_) => !shown.some((text) => text.startsWith(name_)));
      let shown = [];
      await until(async () => ((shown = await words()), (await missing()).length === 0), async () => `${name}, ${id}: ${await missing()} of ${shown}`);
      seen += keys.length;
    }
  }
  check(seen > 250, `${seen} figures`);
  return `${seen} figures and words`;
};
