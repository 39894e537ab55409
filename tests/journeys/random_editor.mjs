// A grower who does anything at all: so many random actions in two windows on one garden. The document
// always reads back, undone to the start it is the first bytes again, and nothing is said in the console.
//   node random_editor.mjs build/spadework [actions] [seed]
import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { kSizes, launch, page_of, Served } from "./browser.mjs";
import { settled, until } from "./hands.mjs";

const [program, actions = "300", seed = "1"] = process.argv.slice(2);
const small = readFileSync(new URL("small_garden.toml", import.meta.url), "utf8");

/** mulberry32: the same seed gives the same actions. */
function random_of(state) {
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
const random = random_of(Number(seed));
const below = (n) => Math.floor(random() * n);
const one_of = (list) => list[below(list.length)];

const served = await Served.start(program);
const browser = await launch();
const garden = (await served.post("/api/gardens", { document: small })).id;
const document_now = async () => (await fetch(`${served.url}api/gardens/${garden}/document`)).text();
const first = await document_now();

const pages = [];
for (let i = 0; i < 2; ++i) {
  const page = await page_of(browser, kSizes.desk);
  await page.goto(`${served.url}#${garden}`);
  await settled(page);
  pages.push(page);
}

const anywhere = async (page) => {
  const box = await page.locator(".plan").first().boundingBox();
  return [box.x + box.width * (0.25 + 0.5 * random()), box.y + box.height * (0.1 + 0.8 * random())];
};
const drag = async (page, from, to) => {
  await page.mouse.move(...from);
  await page.mouse.down();
  await page.mouse.move((from[0] + to[0]) / 2, (from[1] + to[1]) / 2);
  await page.mouse.move(...to);
  await page.mouse.up();
};
/** A word, where it is there and can be used. */
const touch = async (page, of) => {
  const all = await page.locator(of).all();
  if (all.length === 0) return;
  const word = one_of(all);
  if ((await word.isVisible()) && (await word.isEnabled())) await word.click({ timeout: 400, force: true }).catch(() => {});
};
const figures = ["0.4", "1.2", "2.35", "7 ft", "3 ft 6 in", "45 cm", "-1", "nought", "1,5", "900", "", "1e9", "true", "\"", "6.5 m"];

const what_can_be_done = {
  async draw(page) {
    await page.getByRole("button", { name: "Draw", exact: true }).click({ timeout: 400 }).catch(() => {});
    await touch(page, ".draw-kind");
    if (random() < 0.5) await drag(page, await anywhere(page), await anywhere(page));
    else for (let i = 0; i < 4; ++i) await page.mouse.click(...(await anywhere(page)));
    if (random() < 0.3) await page.keyboard.press("Enter");
    await page.keyboard.press("Escape");
  },
  select: async (page) => page.mouse.click(...(await anywhere(page))),
  async drag(page) {
    const grip = await page.locator(".grip").first().boundingBox({ timeout: 100 }).catch(() => null);
    if (grip === null) return;
    await drag(page, [grip.x + 24, grip.y + 24], [grip.x + 24 + 160 * (random() - 0.5), grip.y + 24 + 160 * (random() - 0.5)]);
  },
  async type(page) {
    const fields = await page.locator(".fact input[type=text]").all();
    if (fields.length === 0) return;
    const field = one_of(fields);
    await field.fill(one_of(figures), { timeout: 400 }).catch(() => {});
    await page.keyboard.press("Enter");
  },
  keys: async (page) => {
    await page.locator('[data-region="sheet"]').focus({ timeout: 400 }).catch(() => {});
    for (let i = 0; i < 3; ++i) await page.keyboard.press(one_of(["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "Enter", "m", "Escape", "Shift+ArrowUp", "+", "-", "0", "F6"]));
  },
  undo: (page) => page.keyboard.press("Control+z"),
  redo: (page) => page.keyboard.press("Control+y"),
  scheme: (page) => touch(page, ".scheme-word"),
  deed: (page) => touch(page, ".notes .word-button"),
  zoom: async (page) => {
    await page.mouse.move(...(await anywhere(page)));
    await page.mouse.wheel(0, 400 * (random() - 0.5));
  },
  time: (page) => touch(page, ".month"),
  away: (page) => page.keyboard.press("Escape"),
};
const weights = { draw: 3, select: 4, drag: 3, type: 3, keys: 2, undo: 1.5, redo: 0.7, scheme: 1, deed: 1, zoom: 1, time: 0.5, away: 1 };
const names = Object.keys(weights);
const sum = names.reduce((all, name) => all + weights[name], 0);

function next_name() {
  let at = random() * sum;
  for (const name of names) {
    at -= weights[name];
    if (at < 0) return name;
  }
  return "select";
}

const did = {};
const wrong = [];
let most = 0; // things at once
let checked = 0;

/** What the garden is now reads back without an error. */
async function reads_back(after) {
  const text = await document_now();
  const file = join(served.folder, "now.toml");
  writeFileSync(file, text);
  const check = spawnSync(program, ["check", file], { encoding: "utf8" });
  if (check.status !== 0) wrong.push(`after ${after}: it does not read back: ${check.stdout}${check.stderr}`);
  most = Math.max(most, (await served.get(`/api/gardens/${garden}?scheme=proposed`)).things.length);
  checked += 1;
}

const begun = Date.now();
const count = Number(actions);
for (let i = 1; i <= count && wrong.length === 0; ++i) {
  const page = one_of(pages);
  const name = next_name();
  did[name] = (did[name] ?? 0) + 1;
  await what_can_be_done[name](page).catch((error) => wrong.push(`${name}: ${error.message.split("\n")[0]}`));
  if (wrong.length > 0) {
    console.log(`${i} actions: ${wrong.join("; ")}; at ${page.url()}`);
    if (process.env.FAILED_TO !== undefined) await page.screenshot({ path: join(process.env.FAILED_TO, "random-editor.png") }).catch((error) => console.log(String(error)));
    break;
  }
  if (!page.url().includes(garden)) {
    await page.goto(`${served.url}#${garden}`);
    await settled(page);
  }
  if (i % 50 === 0) await reads_back(`${i} actions`);
  if (i % 1000 === 0) console.log(`${i} actions, ${Math.round((Date.now() - begun) / 1000)} s`);
}

if (wrong.length > 0) process.exit(1);
for (const page of pages) {
  await until(async () => !/edits? waits?|Kept here|Not written/.test(await page.locator(".header").innerText()), "nothing waits");
  for (const said of page.wrong) wrong.push(`console: ${said}`);
}
await reads_back("all");
let undone = 0;
for (let head = (await served.get(`/api/gardens/${garden}?scheme=found`)).head; head.undo !== ""; ++undone)
  head = (await served.post(`/api/gardens/${garden}/steps`, { command: `undo-${undone}`, change: head.change, step: "undo" })).head;
if ((await document_now()) !== first) wrong.push("undone to the start it is not the first bytes");
if (undone === 0) wrong.push("nothing was ever done");

await browser.close();
await served.close();
console.log(
  `seed ${seed}: ${Object.entries(did).map(([name, n]) => `${n} ${name}`).join(", ")}; ${undone} steps undone, ${checked} times read back, ` +
    `${most} things at most, ${Math.round((Date.now() - begun) / 1000)} s`,
);
console.log(wrong.length === 0 ? "random editor: nothing to mend" : wrong.slice(0, 20).join("\n"));
process.exit(wrong.length === 0 ? 0 : 1);
