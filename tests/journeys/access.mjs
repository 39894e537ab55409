// Everyone can use it: axe finds nothing in any state, at 200 % too; targets of 44 px; nothing
// shifts when a thing is chosen; no sideways scrolling at 320 px.
// node access.mjs build/spadework [only]
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { kSizes, launch, Served } from "./browser.mjs";
import { Hands, settled } from "./hands.mjs";
import { states, visit } from "./states.mjs";

const web = createRequire(new URL("../../web/package.json", import.meta.url));
const axe = readFileSync(web.resolve("axe-core/axe.min.js"), "utf8");
const [program, only = ""] = process.argv.slice(2);
const served = await Served.start(program);
const browser = await launch();
const garden = await served.example("ker-avel");
const wrong = [];

/** 200 % of a window is a window half as wide and high. */
const sizes = { ...kSizes, twice: { width: 720, height: 450 }, narrow: { width: 320, height: 640 } };

async function axe_of(page) {
  // By the protocol, which the page's own policy does not forbid.
  const session = await page.context().newCDPSession(page);
  await session.send("Runtime.evaluate", { expression: axe });
  const ran = await session.send("Runtime.evaluate", {
    expression: `axe.run(document, { resultTypes: ["violations"] }).then((r) => JSON.stringify(r.violations.map((v) => [v.id, v.nodes.slice(0, 3).map((n) => n.target.join(" "))])))`,
    awaitPromise: true,
    returnByValue: true,
  });
  return JSON.parse(ran.result.value);
}

function small_targets() {
  const least = 44;
  const small = [];
  for (const one of document.querySelectorAll("button, a[href], input, select, summary, [role=slider]")) {
    const of = one.matches("input[type=checkbox], input[type=radio], input[type=file]") ? (one.closest("label, .fact") ?? one) : one;
    const box = of.getBoundingClientRect();
    if (box.width === 0 || box.height === 0 || getComputedStyle(of).visibility === "hidden") continue;
    if (one.closest(".visually-hidden, .for-ears") !== null) continue;
    const inline = one.matches("a") && getComputedStyle(one).display === "inline";
    if (!inline && (box.height < least - 0.5 || box.width < least - 0.5))
      small.push(`${one.tagName} ${one.className} "${(one.textContent ?? "").slice(0, 20)}" ${box.width.toFixed(0)}×${box.height.toFixed(0)}`);
  }
  return small;
}

async function look_at(name, size_name) {
  const what = `${name} at ${size_name}`;
  let page = null;
  try {
    page = await visit(served, browser, garden, name, sizes[size_name], size_name === "twice" ? { hasTouch: false, isMobile: false } : {});
    for (const [rule, nodes] of await axe_of(page)) wrong.push(`${what}: axe ${rule}: ${nodes.join(" | ")}`);
    for (const small of await page.evaluate(small_targets)) wrong.push(`${what}: small: ${small}`);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    if (over > 0) wrong.push(`${what}: ${over} px too wide`);
    for (const said of page.wrong) wrong.push(`${what}: console: ${said}`);
  } catch (error) {
    wrong.push(`${what}: ${error.message.split("\n")[0]}`);
  }
  await page?.context().close();
}

const at_once = 3;
const waiting = Object.keys(sizes).flatMap((size_name) => Object.keys(states).filter((name) => name.includes(only)).map((name) => [name, size_name]));
async function work() {
  for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) await look_at(...next);
}
await Promise.all(Array.from({ length: at_once }, work));

// Nothing shifts when a thing is chosen.
for (const [size_name, size] of Object.entries(kSizes)) {
  const page = await visit(served, browser, garden, "garden", size);
  await page.evaluate(() => {
    window.shifted = 0;
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) window.shifted += entry.value;
    }).observe({ type: "layout-shift", buffered: false });
  });
  const frame = () => page.evaluate(() => JSON.stringify([".sheet", ".year-band", ".margin-notes"].map((of) => {
    const box = document.querySelector(of)?.getBoundingClientRect();
    return box && [box.left, box.top, box.width].map(Math.round);
  })));
  const before = await frame();
  const hands = new Hands(page, size.width < 500 ? "touch" : "mouse");
  await hands.tap_at(await hands.middle_of("bank"));
  await page.waitForTimeout(1500);
  await settled(page);
  if ((await frame()) !== before) wrong.push(`choosing at ${size_name} moves the frame: ${before} to ${await frame()}`);
  await page.context().close();
}

await browser.close();
await served.close();
console.log(wrong.length === 0 ? "access: nothing to mend" : wrong.join("\n"));
process.exit(wrong.length === 0 ? 0 : 1);
