// The states of the app that tests and pictures visit: each brings a fresh page to it.
import { page_of, kSizes } from "./browser.mjs";
import { Hands, settled, until } from "./hands.mjs";

const by = (size) => (size.width < 500 ? "touch" : "mouse");

async function chosen(page, size, thing) {
  const hands = new Hands(page, by(size));
  await hands.tap_at(await hands.middle_of(thing));
  await page.locator(".notes h2", { hasText: thing }).waitFor();
  await page.waitForTimeout(700);
}

/** A value with parts of the thing chosen, opened. */
async function opened_part(page, name) {
  const word = page.getByRole("button", { name: new RegExp(`^${name}: `) }).first();
  if ((await word.count()) === 0) await page.getByRole("button", { name: "More facts that it may have" }).click();
  await word.click();
  await page.locator(".part-form").waitFor();
}

async function typed_time(page, text, shown) {
  const typed = page.getByLabel(/^The time shown/).first();
  await typed.fill(text);
  await typed.press("Enter");
  await page.waitForFunction((says) => document.querySelector(".sheet")?.textContent?.includes(says), shown);
}

/** What has no place on the sheet, chosen in the list. */
async function entry_chosen(page, name) {
  await page.getByRole("button", { name: "List", exact: true }).first().click();
  await page.locator(".list-thing.is-entry", { hasText: name }).first().click();
  const close = page.locator(".list-panel").getByRole("button", { name: "Close", exact: true });
  if (await close.isVisible()) await close.click();
  await page.locator(".notes h2", { hasText: name }).waitFor();
}

async function more_of(page, row) {
  await page.getByRole("button", { name: "More", exact: true }).first().click();
  await row(page).click();
}

/** A document in which much is not right. */
const broken = `format = 1
[garden]
title = "The Long Strip"
latitude_deg = 52.1
longitude_deg = 0.4
time_zone = "Europe/Lundon"

[[bed]]
id = "north-bed"
at = [1, 1]
size = [3.6]

[[tree]]
id = "old-pear"
kind = "pear"
at = [4, 4]
heigth_m = 6
`;

export const states = {
  shelf: { shelf: true },
  garden: {},
  found: { to: "found" },
  bed: { act: (page, size) => chosen(page, size, "bank") },
  medlar: { act: (page, size) => chosen(page, size, "medlar") },
  named_as_another: {
    async act(page, size) {
      await chosen(page, size, "bank");
      await page.locator(".name-word").click();
      await page.getByLabel(/^The name of bank/).fill("Hedge");
      await page.keyboard.press("Enter");
      await page.locator(".naming .told").waitFor();
    },
  },
  list_apart: {
    async act(page) {
      await page.getByRole("button", { name: "List", exact: true }).first().click();
      await page.locator(".list-further").scrollIntoViewIfNeeded();
    },
  },
  want: { act: (page) => entry_chosen(page, "pea") },
  works: { act: (page) => entry_chosen(page, "Whose hands, and when") },
  task: { act: (page) => entry_chosen(page, "ask-the-electrician") },
  adding_a_want: {
    async act(page) {
      await page.getByRole("button", { name: "Draw", exact: true }).first().click();
      await page.getByRole("button", { name: "Wanted crop", exact: true }).click();
      await page.getByRole("button", { name: "Add it" }).click();
      await page.locator(".fact .told").first().waitFor();
    },
  },
  without: {
    async act(page, size) {
      await chosen(page, size, "medlar");
      await page.getByRole("button", { name: /^Try without/ }).first().click();
      await page.locator(".won li, .won tr").first().waitFor();
    },
  },
  moment: { act: (page) => typed_time(page, "15 Jun 18:20", "15 June, 18:20") },
  section: {
    async act(page, size) {
      await typed_time(page, "21 Jun 9:30", "21 June, 9:30");
      const ends = [];
      for (const [thing, below] of [["gate-east", true], ["nursery", false]]) {
        let box = null; // the lines are drawn anew, with the leaves of that day
        await until(async () => (box = await page.locator(`.sheet g[data-thing="${thing}"]`).first().boundingBox()) !== null, thing);
        ends.push([box.x + box.width / 2, below ? box.y + box.height + 10 : box.y - 10]);
      }
      await page.getByRole("button", { name: "Section", exact: true }).click();
      for (const [x, y] of ends) await (size.width < 500 ? page.touchscreen.tap(x, y) : page.mouse.click(x, y));
      await page.locator(".section-drawn svg").waitFor();
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
  draw_menu: { act: (page) => page.getByRole("button", { name: "Draw", exact: true }).first().click() },
  drawing: {
    async act(page) {
      await page.getByRole("button", { name: "Draw", exact: true }).first().click();
      await page.locator(".draw-kind", { hasText: /^Wall$/ }).click();
      const box = await page.locator(".plan").first().boundingBox();
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      await page.mouse.click(x - 40, y + 30);
      await page.mouse.move(x + 50, y + 32, { steps: 4 });
    },
  },
  taping: {
    async act(page) {
      await page.getByRole("button", { name: "Draw", exact: true }).first().click();
      await page.locator(".draw-kind", { hasText: /^Wall$/ }).click();
      await page.getByRole("button", { name: "By tape" }).click();
      await page.locator(".tape").waitFor();
    },
  },
  dark: { dark: true, act: list },
  dark_medlar: { dark: true, act: (page, size) => chosen(page, size, "medlar") },
  keys: {
    async act(page) {
      await page.keyboard.press("F6");
      await page.keyboard.press("ArrowUp");
      await page.locator(".mark-hovered").first().waitFor({ state: "attached" });
    },
  },
  parts: {
    async act(page, size) {
      await chosen(page, size, "bank");
      await opened_part(page, "mix");
      await page.getByRole("button", { name: "And another" }).click();
    },
  },
  parts_refused: {
    async act(page, size) {
      await chosen(page, size, "bank");
      await opened_part(page, "mix");
      const share = page.getByLabel("mix 1, share");
      await share.fill("1.4");
      await share.press("Enter");
      await page.locator(".part-form .told").waitFor();
    },
  },
  parts_named: {
    async act(page, size) {
      await chosen(page, size, "bank");
      await opened_part(page, "history");
    },
  },
  refused: {
    async act(page, size) {
      await chosen(page, size, "medlar");
      const crown = page.getByLabel(/^crown base$/i).first();
      await crown.fill("9");
      await crown.press("Enter");
      await page.locator(".fact .told").waitFor();
    },
  },
};

Object.assign(states, {
  begin: {
    shelf: true,
    async act(page) {
      await page.getByRole("button", { name: "Begin a garden" }).click();
      await page.locator(".map-word").waitFor({ state: "detached" });
      await page.keyboard.type("bres");
      await page.getByRole("option").first().waitFor();
    },
  },
  begin_chosen: {
    shelf: true,
    async act(page) {
      await states.begin.act(page);
      await page.keyboard.press("Enter");
      await page.locator(".begin-clock").waitFor();
      await page.waitForTimeout(300);
    },
  },
  steps_plot: {
    begun: {},
    async act(page) {
      const sides = { "From 1 to 2": "9.2", "From 2 to 3": "14", "From 3 to 4": "8.4", "From 4 back to 1": "13.1", "Across, from 1 to 3": "16.5" };
      for (const [label, side] of Object.entries(sides)) await page.getByLabel(label).fill(side);
      await page.getByText(/its corners ± /).waitFor();
    },
  },
  steps_north: {
    begun: { plot: true },
    async act(page) {
      await page.getByText(/points true north/).waitFor();
      await page.getByLabel("North lies").fill("24");
    },
  },
  steps_level: {
    begun: { plot: true, later: ["north"] },
    async act(page) {
      await page.getByRole("button", { name: "down the page" }).click();
      await page.getByRole("button", { name: "Knee" }).click();
      await page.getByText(/^It falls /).waitFor();
    },
  },
  steps_around: {
    begun: { plot: true, tree: true, later: ["north", "level"] },
    async act(page) {
      await page.getByRole("button", { name: /What stands around/ }).click();
      await page.getByRole("button", { name: /^From the shadow of/ }).click();
      await page.getByRole("button", { name: "The far skyline, in fists" }).click();
      await page.getByLabel("Its shadow is").fill("3");
      await page.locator(".step-part .step-told p").first().waitFor();
    },
  },
  shadow: {
    to: "found",
    async act(page, size) {
      await typed_time(page, "15 Jun 17:20", "15 June, 17:20");
      await settled(page);
      await chosen(page, size, "medlar");
      await page.getByRole("button", { name: /should end here/ }).click();
      await page.locator(".shadow-end").waitFor();
    },
  },
});

/** More of them, for the pictures. */
export const further_states = {
  month: { act: (page) => typed_time(page, "December", "December") },
  day: { act: (page) => typed_time(page, "21 March", "21 March") },
  moving: {
    async act(page, size) {
      await chosen(page, size, "medlar");
      const grip = await page.getByRole("button", { name: /^Move medlar/ }).first().boundingBox();
      const [x, y] = [grip.x + grip.width / 2, grip.y + grip.height / 2];
      const hands = new Hands(page, by(size));
      if (size.width < 500) return hands.tap_at([x, y]);
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x - 60, y + 40, { steps: 8 });
      await page.waitForTimeout(600);
    },
  },
  changed: {
    async act(page, size) {
      await chosen(page, size, "hedge");
      const height = page.getByLabel(/^height$/i).first();
      await height.fill("1.2");
      await height.press("Enter");
      await page.locator(".changed").first().waitFor();
      await page.locator(".won").waitFor();
      await page.waitForTimeout(800);
    },
  },
  versions: {
    async act(page) {
      await more_of(page, (of) => of.getByRole("button", { name: /^Versions/ }));
      await page.locator(".versions ol li").first().waitFor();
    },
  },
  menu: { act: (page) => page.getByRole("button", { name: "More", exact: true }).first().click() },
  help: {
    async act(page) {
      await more_of(page, (of) => of.getByRole("button", { name: "What hands and keys do" }));
      await page.locator(".hands-help").waitFor();
    },
  },
  outdoors: { outdoors: true, act: (page, size) => chosen(page, size, "bank") },
  gone: {
    async act(page, size) {
      await chosen(page, size, "medlar");
      await page.context().setOffline(true);
      const base = page.getByLabel(/^crown base$/i).first();
      await base.fill("3");
      await base.press("Enter");
      await page.getByText("Kept here").first().waitFor();
      await base.evaluate((field) => field.scrollIntoView({ block: "center" }));
    },
  },
  broken: {
    shelf: true,
    async act(page) {
      const file = { name: "long-strip.toml", mimeType: "application/toml", buffer: Buffer.from(broken) };
      await page.locator('input[type="file"]').first().setInputFiles(file);
      await page.locator(".problems li").first().waitFor();
    },
  },
};

async function list(page) {
  await page.getByRole("button", { name: "List" }).first().click();
  await page.locator(".list-panel").waitFor();
}

/** A garden that has just begun, its first steps open. Out: its id. */
async function begun_garden(served, page, { plot = false, tree = false, later = [] }) {
  const begin = { title: "Behind the Forge", latitude_deg: 48.41, longitude_deg: -4.36, time_zone: "Europe/Paris", guessed: ["latitude_deg", "longitude_deg"] };
  const { id } = await served.post("/api/gardens", { begin });
  const { head } = await served.get(`/api/gardens/${id}?scheme=found`);
  const parts = [];
  if (plot) parts.push({ table: "boundary", set: { sides_m: [9.2, 14, 8.4, 13.1], diagonal_m: 16.5 } });
  if (tree) parts.push({ add: "tree", set: { kind: "apple", at: [4, 6], height_m: 4, crown_width_m: 3, guessed: ["height_m", "crown_width_m"] } });
  if (parts.length > 0) await served.post(`/api/gardens/${id}/edits`, { scheme: "found", all: parts, command: `begun-${id}`, change: head.change });
  await page.addInitScript((kept) => localStorage.setItem("spadework.first-steps", kept), JSON.stringify({ [id]: { open: true, later } }));
  return id;
}

async function bring_to(page, state, url, size) {
  for (const look of ["dark", "outdoors"])
    if (state[look]) await page.addInitScript((name) => localStorage.setItem(`spadework.${name}`, "true"), look);
  await page.goto(url);
  if (state.shelf) {
    await page.getByRole("heading").first().waitFor();
    await page.waitForTimeout(400);
    await state.act?.(page, size);
    return;
  }
  if (state.begun) await page.getByRole("heading", { name: "First steps" }).waitFor();
  else await settled(page);
  await state.act?.(page, size);
  if (!state.begun) return settled(page);
  await page.waitForFunction(() => document.querySelector('[aria-busy="true"]') === null);
  await page.waitForTimeout(400);
}

/** A page in a state; it belongs to who asks. */
export async function visit(served, browser, garden, name, size = kSizes.desk, more = {}) {
  const state = states[name] ?? further_states[name];
  const page = await page_of(browser, size, more);
  try {
    const of = state.begun ? await begun_garden(served, page, state.begun) : garden;
    const to = state.begun ? "/found" : state.to ? `/${state.to}` : "";
    await bring_to(page, state, state.shelf ? served.url : `${served.url}#${of}${to}`, size);
    return page;
  } catch (error) {
    await page.context().close();
    throw error;
  }
}
