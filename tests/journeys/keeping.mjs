// Nothing lost: undo across a restart, the program gone and back, a file that may only be read, a disk
// that is full, each as a person meets it.
import { readFileSync } from "node:fs";
import { Served } from "./browser.mjs";
import { check, equal, heard, kHands, until } from "./hands.mjs";
import { may_close, may_fill } from "./rooms.mjs";

export const alone = {};
export const editing = {};
const document = readFileSync(new URL("small_garden.toml", import.meta.url), "utf8");

export async function begin(at, served) {
  at.served = served;
  at.garden = (await served.post("/api/gardens", { document })).id;
}
const height = async (at) => (await at.thing("medlar", "found")).fields.height_m.value;

/** Another height, by a kind of hands; kept by Enter. */
export async function type_height(hands, text) {
  const field = hands.page.getByLabel(/^height$/i).first();
  if (hands.by === "keys") {
    const is_there = () => field.evaluate((one) => one === document.activeElement);
    if (!(await is_there())) await hands.keys("F6", "F6", "h");
    await hands.page.keyboard.press("Control+A");
    await hands.type(text);
  } else await hands.type_over(field, text);
  await hands.key("Enter");
}
const is_height = (at, is) => until(async () => (await height(at)) === is, async () => `a height of ${is}: ${await height(at)}`);

/** The versions, in the menu "More". */
async function versions(hands) {
  const { page } = hands;
  if (hands.by === "keys") {
    await page.evaluate(() => document.activeElement?.blur());
    await hands.keys("F6", "Shift+F6", "m", "Enter");
    await page.locator(".menu-paper").waitFor();
    await hands.keys("v", "Enter");
  } else {
    await hands.tap(page.getByRole("button", { name: "More", exact: true }));
    await hands.tap(page.getByRole("button", { name: /^Versions/ }));
  }
  await page.locator(".versions ol li").first().waitFor();
}

for (const by of kHands) {
  editing[`a version is named, and brought back after changes, by ${by}`] = async (at) => {
    const hands = await at.hands(by, "/found/medlar");
    const { page } = hands;
    await versions(hands);
    const name = page.getByLabel("Name the garden as it is now");
    if (by === "keys") await name.focus();
    else await hands.tap(name);
    await hands.type("before the saw");
    await hands.key("Enter");
    await until(async () => (await at.served.get(`/api/gardens/${at.garden}/revisions`)).revisions.some((row) => row.name === "before the saw"), "it has its name");
    await hands.key("Escape");
    await page.locator(".versions").waitFor({ state: "detached" });
    const was = await height(at);
    for (const text of ["4.1", "3.9"]) {
      await type_height(hands, text);
      await is_height(at, Number(text));
    }
    await versions(hands);
    const back = page.getByRole("button", { name: /^Bring back: before the saw/ });
    if (by === "keys") {
      await back.focus();
      await hands.key("Enter");
    } else await hands.tap(back);
    await is_height(at, was);
    await hands.undo(); // bringing back is a step like any other
    await is_height(at, 3.9);
  };
}

for (const by of kHands) {
  alone[`undo, any number of steps, also after a restart, by ${by}`] = async (at) => {
    await begin(at, await Served.start(at.program));
    const hands = await at.hands(by, "/found/medlar");
    for (const text of ["5.1", "5.2", "5.3"]) {
      await type_height(hands, text);
      await is_height(at, Number(text));
    }
    await at.served.end("SIGKILL");
    await at.served.again();
    await hands.page.reload();
    await hands.page.waitForSelector('[aria-label^="Undo: medlar"]', { state: "attached" });
    hands.actions = 0;
    for (const is of [5.2, 5.1, 5]) {
      await hands.undo();
      await is_height(at, is);
    }
    await hands.page.waitForFunction(() => document.querySelector('.undo-word[aria-label="Undo"]')?.disabled === true);
    await heard(hands.page, /^Undone: medlar/);
    return `${hands.actions} actions for 3 steps`;
  };

  alone[`the program gone and back: edits wait here and are sent once, by ${by}`] = async (at) => {
    await begin(at, await Served.start(at.program));
    const hands = await at.hands(by, "/found/medlar");
    await at.served.end("SIGKILL");
    await type_height(hands, "5.4");
    await hands.page.getByText(/^Kept here/).first().waitFor();
    await type_height(hands, "5.6");
    await hands.undo(); // what was never sent is left away
    const field = hands.page.getByLabel(/^height$/i).first();
    await until(async () => (await field.inputValue()) === "5.4", async () => `the field: ${await field.inputValue()}`);
    await at.served.again();
    await hands.page.waitForFunction(() => !/Kept here/.test(document.body.innerText));
    await is_height(at, 5.4);
    const rows = (await at.served.get(`/api/gardens/${at.garden}/revisions`)).revisions;
    equal(rows.filter((row) => /medlar: height/.test(row.says)).length, 1, "revisions of it");
  };

  alone[`a file that may only be read midway: told, nothing lost, and on when it may be written, by ${by}`] = async (at) => {
    const { served, close, open, leave } = await may_close(at.program);
    try {
      await begin(at, served);
      const hands = await at.hands(by, "/found/medlar");
      const { page } = hands;
      const before = await at.document();
      close(at.garden);
      await type_height(hands, "5.5");
      const told = page.locator(".fact .told");
      await told.waitFor();
      check(/may only be read/.test(await told.innerText()) && /Allow writing|copy/.test(await told.innerText()), await told.innerText());
      await page.getByText("Read only", { exact: true }).waitFor();
      const field = page.getByLabel(/^height$/i).first();
      equal([await field.inputValue(), await field.getAttribute("readonly") !== null], ["5.5", true], "what was typed stands");
      equal(await page.locator(".grip").count(), 0, "no grip");
      equal(await at.document(), before, "the document");
      open(at.garden);
      await page.getByText("Read only", { exact: true }).waitFor({ state: "detached" });
      await type_height(hands, "5.7");
      await is_height(at, 5.7);
      await told.waitFor({ state: "detached" });
    } finally {
      await served.end();
      leave();
    }
  };

  alone[`a full disk: told as not written yet, nothing lost, written when there is room, by ${by}`] = async (at) => {
    const { served, fill, empty, leave, is } = await may_fill(at.program);
    try {
      await begin(at, served);
      const hands = await at.hands(by, "/found/medlar");
      const { page } = hands;
      const before = await at.document();
      fill();
      await type_height(hands, "5.5");
      await page.getByText(/^Not written yet/).first().waitFor();
      const told = page.locator(".problem-line");
      check(/The disk is full/.test(await told.innerText()) && /Make some room/.test(await told.innerText()), await told.innerText());
      check(/waits here/.test(await told.innerText()), await told.innerText());
      equal(await at.document(), before, "the file has what it had");
      equal(await page.getByLabel(/^height$/i).first().inputValue(), "5.5", "what was typed stands");
      await type_height(hands, "5.8");
      await type_height(hands, "5.9");
      await hands.undo(); // of what is not written yet
      await page.waitForTimeout(2500); // tried again meanwhile, and refused again
      equal(await at.document(), before, "the file has what it had");
      await page.reload(); // what waits outlives the window
      await page.getByText(/^Not written yet/).first().waitFor();
      equal(await page.getByLabel(/^height$/i).first().inputValue(), "5.8", "what waits stands in its field again");
      empty();
      await page.getByText(/^Not written yet/).first().waitFor({ state: "detached" });
      await is_height(at, 5.8);
      equal(await page.getByLabel(/^height$/i).first().inputValue(), "5.8", "and stays when it is written");
      const says = (await served.get(`/api/gardens/${at.garden}/revisions`)).revisions.filter((row) => /medlar: height/.test(row.says));
      equal(says.length, 2, "revisions of it");
      await page.waitForFunction(() => document.querySelector(".problem-line p") === null);
      return is;
    } finally {
      await served.end();
      leave();
    }
  };
}
