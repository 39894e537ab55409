// Words that are whole: keys and names of sheets, long titles, and an empty garden's one sentence.
import { kSizes } from "./browser.mjs";
import { check, equal, Hands, settled } from "./hands.mjs";

export const editing = {};
export const looking = {};

const kNarrow = { width: 320, height: 640 };

async function at_moment(page) {
  const typed = page.getByLabel(/^The time shown/).first();
  await typed.fill("15.6. 16.20");
  await typed.press("Enter");
  await page.waitForFunction(() => document.querySelector(".sheet")?.textContent?.includes("15 June, 16:20"));
  await settled(page);
}
async function compare(page) {
  const small = page.getByRole("button", { name: /choose the scheme/ });
  if (await small.isVisible()) await small.click();
  await page.getByRole("button", { name: "Compare" }).first().click();
  await page.locator(".gains").first().waitFor();
  await settled(page);
}

/** The words of keys and of sheets' names that are cut by their drawing or by the window, or covered. */
const cut_words = (page) =>
  page.evaluate(() => {
    const cut = [];
    const is_over = (of, element) => {
      const a = of.getBoundingClientRect();
      const b = element.getBoundingClientRect();
      return a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1;
    };
    const sheet = document.querySelector(".sheet").getBoundingClientRect();
    for (const words of document.querySelectorAll(".key text, .key p, .side-name > *")) {
      const is = words.getBoundingClientRect();
      if (is.width === 0) continue;
      const svg = words.closest("svg")?.getBoundingClientRect() ?? sheet;
      const is_whole = [svg, sheet].every((room) => is.left >= room.left - 1 && is.right <= room.right + 1 && is.bottom <= room.bottom + 3);
      const half = words.closest(".plan")?.getBoundingClientRect();
      const compass = document.querySelector(".drawn-scale");
      if (!is_whole || is.right > (half?.right ?? Infinity) || is_over(compass, words)) cut.push(words.textContent);
    }
    return cut;
  });

for (const [name, size] of Object.entries({ ...kSizes, narrow: kNarrow })) {
  looking[`the key of a moment is whole, ${name}`] = async (at) => {
    const page = await at.open(size);
    await at_moment(page);
    equal(await cut_words(page), [], "cut");
  };
  looking[`the keys and names of two sheets are whole, ${name}`] = async (at) => {
    const page = await at.open(size);
    await compare(page);
    equal(await cut_words(page), [], "cut, of months");
    await at_moment(page);
    equal(await cut_words(page), [], "cut, of a moment");
  };
}

editing["while something is dragged on a day the key tells that day"] = async (at) => {
  const page = await at.open();
  const typed = page.getByLabel(/^The time shown/).first();
  await typed.fill("31 March");
  await typed.press("Enter");
  await settled(page);
  const hands = new Hands(page, "mouse");
  await hands.tap_at(await hands.middle_of("medlar"));
  const grip = await page.getByRole("button", { name: /^Move medlar/ }).first().boundingBox();
  const [x, y] = [grip.x + grip.width / 2, grip.y + grip.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 40, y + 20, { steps: 6 });
  await page.waitForTimeout(500);
  equal(await page.locator(".key-when").first().textContent(), "31 March", "the key");
  await page.mouse.up();
};

const head = (title) => `format = 1
[garden]
title = "${title}"
latitude_deg = 64.1
longitude_deg = -21.9
time_zone = "Atlantic/Reykjavik"
[boundary]
outline = [[0, 0], [12, 0], [12, 8], [0, 8]]
`;

editing["an empty garden says what can be done, once"] = async (at) => {
  const { id } = await at.served.post("/api/gardens", { document: head("Bare Ground") });
  const page = await at.page();
  await page.goto(`${at.served.url}#${id}`);
  await page.locator(".notes .answer", { hasText: "Draw what is there" }).waitFor();
  const says = await page.locator(".notes").first().innerText();
  check(!/No beds yet|Choose a|Nothing overlaps/.test(says), says);
};

editing["where the sun sets after midnight the band has no night by day"] = async (at) => {
  const { id } = await at.served.post("/api/gardens", { document: head("Northern Ground") });
  const page = await at.page();
  await page.goto(`${at.served.url}#${id}`);
  await page.locator(".plot-lit").first().waitFor();
  const unlit = await page.evaluate(() => {
    const path = document.querySelector(".plot-lit");
    const { width, height } = document.querySelector(".plot-lines").getBoundingClientRect();
    const point = path.ownerSVGElement.createSVGPoint();
    const days = [];
    for (let day = 100; day < 240; ++day) {
      Object.assign(point, { x: ((day + 0.5) / 365) * width, y: height / 2 });
      if (!path.isPointInFill(point)) days.push(day);
    }
    return days;
  });
  equal(unlit, [], "days without a noon");
};

editing["a long title without spaces keeps to the window"] = async (at) => {
  const { id } = await at.served.post("/api/gardens", { document: head("Kitchengarden".repeat(25)) });
  for (const size of [kNarrow, kSizes.phone])
    for (const where of ["", `#${id}`]) {
      const page = await at.page(size);
      await page.goto(`${at.served.url}${where}`);
      await page.getByText(/^KitchengardenKitchen/).first().waitFor();
      check((await page.evaluate(() => document.documentElement.scrollWidth)) <= size.width, `wider than ${size.width}`);
    }
};
