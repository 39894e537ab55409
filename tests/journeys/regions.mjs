// The keyboard alone: through the regions and back, with the focus in sight; arrows, Enter, Esc; letters.
import { kSizes } from "./browser.mjs";
import { check, equal, heard, Hands, until } from "./hands.mjs";

export const looking = {};

const here = (page) => page.evaluate(() => document.activeElement?.closest("[data-region]")?.dataset.region ?? null);

/** Whether who looks sees where the focus is: an outline at it, or at the room of the notes. */
function focus_is_seen() {
  const at = document.activeElement;
  const marks = (element) => {
    const style = getComputedStyle(element);
    return style.outlineStyle !== "none" && Number.parseFloat(style.outlineWidth) >= 2;
  };
  return at !== null && at !== document.body && (marks(at) || marks(at.parentElement));
}

for (const [size, order] of [["desk", ["sheet", "margin", "band", "header"]], ["phone", ["sheet", "margin", "band", "rail", "header"]]]) {
  looking[`F6 goes through all regions and Shift+F6 back, at the ${size}'s size`] = async (at) => {
    const page = await at.open(kSizes[size]);
    const hands = new Hands(page, "keys");
    const all = await page.evaluate(() => [...document.querySelectorAll("[data-region]")].map((region) => region.dataset.region));
    equal([...all].sort(), [...order].sort(), "regions");
    for (const region of [...order, order[0]]) {
      await hands.key("F6");
      equal(await here(page), region, "F6 comes to");
      check(await page.evaluate(focus_is_seen), `the focus is seen in ${region}`);
    }
    for (const region of [...order].reverse()) {
      await hands.key("Shift+F6");
      equal(await here(page), region, "Shift+F6 comes to");
      check(await page.evaluate(focus_is_seen), `the focus is seen in ${region}`);
    }
    // From within a region, or from what belongs to the sheet, it goes on from there.
    await page.locator(".view-words .word-button").last().focus();
    await hands.key("F6");
    equal(await here(page), "margin", "from the words beside the sheet");
  };
}

looking["arrows go to the nearest thing, Enter chooses, Esc goes back, by keys"] = async (at) => {
  const hands = await at.hands("keys");
  const { page } = hands;
  const chosen = () => page.evaluate(() => location.hash.split("/")[2] ?? null);
  await hands.key("F6");
  await hands.key("ArrowUp");
  await heard(page, /^upper-low, bed, proposed, \d\.\d hours of sun a day$/);
  equal([await chosen(), await page.locator(".mark-hovered").count()], [null, 1], "meant, and not chosen yet");
  await hands.key("ArrowUp");
  await heard(page, /^upper-mid, bed/);
  await hands.key("ArrowDown");
  await hands.key("Enter");
  await until(async () => (await chosen()) === "upper-low", "Enter chooses");
  await heard(page, /^upper-low, .*selected\.$/);
  await hands.key("ArrowUp");
  await hands.key("Escape");
  equal([await chosen(), await page.locator(".mark-hovered").count()], ["upper-low", 0], "Esc: back to what is chosen");
  await hands.key("Escape");
  await until(async () => (await chosen()) === null, "Esc: back to the garden");
  await heard(page, /^Nothing selected\.$/);
  for (let i = 0; i < 12; ++i) await hands.key("ArrowRight");
  await heard(page, /^Nothing further right\.$/);
};

looking["plus, minus and 0 zoom where the thing meant is, by keys"] = async (at) => {
  const hands = await at.hands("keys", "/proposed/bank");
  const { page } = hands;
  const wide = async () => (await page.locator('.sheet g[data-thing="bank"]').first().boundingBox())?.width ?? NaN;
  const was = await wide();
  await hands.key("F6");
  await hands.keys("+", "+", "+");
  await until(async () => (await wide()) > 1.7 * was, "nearer");
  await hands.key("-");
  await until(async () => (await wide()) < 1.7 * was, "further");
  await hands.key("0");
  await until(async () => Math.abs((await wide()) - was) < 2, "the whole");
};

looking["a letter goes to the next word that begins with it, by keys"] = async (at) => {
  const hands = await at.hands("keys", "/proposed/medlar");
  const { page } = hands;
  const at_now = () => page.evaluate(() => document.activeElement?.getAttribute("aria-label") ?? document.activeElement?.textContent ?? "");
  await hands.keys("F6", "F6", "c");
  equal(await at_now(), "crown base", "c");
  equal(await page.evaluate(() => getSelection().toString()), await page.getByLabel("crown base").first().inputValue(), "its figure is ready to be typed over");
  await hands.key("c");
  check(/^crown base: /.test(await at_now()), `c again: ${await at_now()}`);
  equal(await page.getByLabel("crown base").first().inputValue(), "2.3", "no letter is typed into it");
  await hands.keys("F6", "F6", "c");
  equal((await at_now()).trim(), "Compare", "c in the header");
};

looking["menus and the list: opened, gone through and closed, by keys"] = async (at) => {
  const hands = await at.hands("keys");
  const { page } = hands;
  await hands.keys("F6", "Shift+F6", "m", "Enter");
  await page.locator(".menu-paper").waitFor();
  await hands.key("Escape");
  await page.locator(".menu-paper").waitFor({ state: "detached" });
  check(await page.evaluate(() => document.activeElement?.classList.contains("menu-opener") === true), "the focus is on the word that opened it");
  await hands.key("F6");
  await hands.key("Tab");
  await hands.key("Enter");
  await page.locator(".list-panel").waitFor();
  await hands.key("u");
  check(/^upper-low/.test(await page.evaluate(() => document.activeElement?.textContent ?? "")), "u comes to the upper beds");
  await hands.key("Escape");
  await page.locator(".list-panel").waitFor({ state: "detached" });
  check(await page.evaluate(() => document.activeElement?.classList.contains("open-list") === true), "the focus is on the word that opened it");
};
