// The states of the app that tests and pictures visit: each brings a fresh page to it.
import { page_of, kSizes } from "./browser.mjs";
import { Hands, settled } from "./hands.mjs";

const by = (size) => (size.width < 500 ? "touch" : "mouse");

async function chosen(page, size, thing) {
  const hands = new Hands(page, by(size));
  await hands.tap_at(await hands.middle_of(thing));
  await page.locator(".notes h2", { hasText: thing }).waitFor();
  await page.waitForTimeout(700);
}

export const states = {
  shelf: { shelf: true },
  garden: {},
  found: { to: "found" },
  bed: { act: (page, size) => chosen(page, size, "bank") },
  medlar: { act: (page, size) => chosen(page, size, "medlar") },
  without: {
    async act(page, size) {
      await chosen(page, size, "medlar");
      await page.getByRole("button", { name: /^Try without/ }).first().click();
      await page.locator(".won").waitFor();
    },
  },
  moment: {
    async act(page) {
      const typed = page.getByLabel(/^The time shown/).first();
      await typed.fill("15 Jun 18:20");
      await typed.press("Enter");
      await page.waitForFunction(() => /15 June, 18:20/.test(document.querySelector(".sheet")?.textContent ?? ""));
    },
  },
  compared: {
    async act(page, size) {
      if (size.width < 900) await page.getByRole("button", { name: /choose the scheme/ }).click();
      await page.getByRole("button", { name: "Compare" }).first().click();
      await page.locator(".gains").first().waitFor();
    },
  },
  why: {
    async act(page, size) {
      await chosen(page, size, "bank");
      await page.locator('.months-table [data-at="5,0"]').click();
      await page.locator(".why-sources li").first().waitFor();
    },
  },
  list: { act: list },
  dark: { dark: true, act: list },
  dark_medlar: { dark: true, act: (page, size) => chosen(page, size, "medlar") },
  keys: {
    async act(page) {
      await page.keyboard.press("F6");
      await page.keyboard.press("ArrowUp");
      await page.locator(".mark-hovered").first().waitFor({ state: "attached" });
    },
  },
  refused: {
    async act(page, size) {
      await chosen(page, size, "medlar");
      const crown = page.getByLabel(/^crown base$/i).first();
      await crown.fill("9");
      await crown.press("Enter");
      await page.locator(".fact .told").waitFor();
      await page.locator(".fact .told").scrollIntoViewIfNeeded();
    },
  },
};

async function list(page) {
  await page.getByRole("button", { name: "List" }).first().click();
  await page.locator(".list-panel").waitFor();
}

/** A page in a state. `zoom`: as if the text were so much larger. */
export async function visit(served, browser, garden, name, size = kSizes.desk, more = {}) {
  const state = states[name];
  const page = await page_of(browser, size, more);
  if (state.dark) await page.addInitScript(() => localStorage.setItem("spadework.dark", "true"));
  if (state.shelf) {
    await page.goto(served.url);
    await page.getByRole("heading").first().waitFor();
    await page.waitForTimeout(400);
    return page;
  }
  await page.goto(`${served.url}#${garden}${state.to ? `/${state.to}` : ""}`);
  await settled(page);
  await state.act?.(page, size);
  await settled(page);
  return page;
}
