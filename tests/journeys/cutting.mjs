// A section: the garden cut along a line, where the sun reaches at the band's moment, its figures.
import { check, equal, heard, kHands, settled } from "./hands.mjs";

export const looking = {};

/** Where a thing's upper or lower side is, on the page. */
async function side_of(hands, thing, by_px) {
  const box = await hands.page.locator(`.sheet g[data-thing="${thing}"]`).first().boundingBox();
  return [box.x + box.width / 2, by_px < 0 ? box.y + by_px : box.y + box.height + by_px];
}

for (const by of kHands) {
  looking[`a section through beds, and the sun in it at a moment, by ${by}`] = async (at) => {
    const hands = await at.hands(by);
    const { page } = hands;
    const panel = page.locator(".section-panel");
    if (by === "keys") {
      await hands.keys("F6", "c", "Shift+ArrowRight", "Shift+ArrowRight", "Enter", "Shift+ArrowUp", "Shift+ArrowUp", "Shift+ArrowUp", "Shift+ArrowUp", "Shift+ArrowUp", "Enter");
    } else {
      const [from, to] = [await side_of(hands, "gate-east", 12), await side_of(hands, "nursery", -12)];
      await hands.tap(page.getByRole("button", { name: "Section", exact: true }));
      if (by === "mouse") await hands.drag(from, to);
      else {
        await hands.tap_at(from);
        await hands.tap_at(to);
      }
    }
    await panel.locator(".section-drawn svg").waitFor();
    const actions = hands.actions;
    // It is drawn anew once its height is known: its words stay as large.
    await page.waitForFunction(() => {
      const texts = [...document.querySelectorAll(".section-drawn text")];
      return texts.length > 0 && texts.every((one) => Number(one.getAttribute("font-size")) * one.getScreenCTM().a > 11.9);
    });
    const clips = await page.evaluate(() =>
      [...document.querySelectorAll(".section-drawn [clip-path]")].map((one) => document.querySelectorAll(one.getAttribute("clip-path").slice(4, -1)).length));
    check(clips.length > 0 && clips.every((n) => n === 1), `what stands behind is cut off at the ground: ${clips}`);
    await heard(page, /^The garden is cut along \d+(\.\d+)? m/);
    check(/Choose a moment/.test(await panel.locator(".section-sun").innerText()), "it asks for a moment");
    const typed = page.getByLabel(/^The time shown/).first();
    await typed.fill("21 Jun 9:30");
    const answer = page.waitForResponse((one) => one.url().includes("/section?") && one.url().includes("clock=9.5"));
    await typed.press("Enter");
    const asked = await answer;
    const of = await asked.json();
    check(of.sun_says !== "" && of.lit.length > 0, of.sun_says);
    await page.waitForFunction((says) => document.querySelector(".section-sun")?.textContent.toLowerCase() === `${says.toLowerCase()}.`, of.sun_says);
    await panel.getByRole("button", { name: "Table" }).click();
    const rows = await panel.locator("tbody tr").allInnerTexts();
    equal(rows.length, of.beds.length + of.cuts.length, "a row for all that is cut");
    for (const bed of of.beds) {
      const row = rows.find((one) => one.startsWith(bed.id));
      check(row?.includes(`${Number(bed.level_m.toFixed(2))} m`), `${row}: ${bed.level_m}`);
    }
    const turned = page.waitForResponse((one) => one.url().includes("/section?"));
    await panel.getByRole("button", { name: "Turn round" }).click();
    equal(Math.round((await (await turned).json()).length_m * 1000), Math.round(of.length_m * 1000), "as long from the other side");
    await panel.focus();
    await page.keyboard.press("Escape");
    await panel.waitFor({ state: "detached" });
    await settled(page);
    return `${actions} actions`;
  };
}
