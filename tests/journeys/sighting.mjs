// Lines of sight drawn: who looks, at what; and the light while an outline is in the hand.
import { check, equal, heard, kHands, until } from "./hands.mjs";

export const editing = {};

async function draw_word(hands, kind) {
  await hands.tap(hands.button(/^Draw$/));
  await hands.tap(hands.page.locator(".draw-kind", { hasText: new RegExp(`^${kind}$`) }));
  await hands.page.locator(".draw-strip").waitFor();
}
async function middle_of(page, id) {
  const box = await page.locator(`.plan-lines [data-thing="${id}"]`).first().boundingBox();
  return [box.x + box.width / 2, box.y + box.height / 2];
}

for (const by of kHands) {
  editing[`a tree hidden from a seat, and a view to a place, by ${by}`] = async (at) => {
    const hands = await at.hands(by);
    const { page } = hands;
    const [x, y] = await middle_of(page, "medlar");
    const seat = [x + 90, y + 40];
    await draw_word(hands, "Seat");
    await hands.tap_at(seat);
    await hands.tap_at([seat[0] - 40, seat[1]]);
    await page.locator(".thing-name", { hasText: /^seat$/ }).waitFor();
    await page.locator('.plan-lines [data-thing="seat"]').first().waitFor();

    await draw_word(hands, "Something to hide");
    if (by === "keys") {
      await page.getByLabel("who looks").selectOption("seat");
      await page.locator(".draw-strip select").nth(1).selectOption("medlar");
      await hands.tap(hands.button("Set down"));
    } else {
      await hands.tap_at([seat[0] + 60, seat[1] + 60]);
      await page.locator(".strip-told", { hasText: "Nobody looks from there" }).waitFor();
      await hands.tap_at(seat);
      await heard(page, /^From seat/);
      await hands.tap_at([x, y]);
    }
    await page.locator(".thing-name", { hasText: /^hide$/ }).waitFor();
    const { table, mark, fields, corners } = await at.thing("hide");
    equal([table, mark, fields.from.value, fields.thing?.value, fields.to], ["hide", "proposed", ["seat"], "medlar", undefined], "what it is");
    const ends = [(await at.thing("seat")).corners[0], (await at.thing("medlar")).corners[0]];
    equal(corners, ends, "from the seat to the tree");
    await page.locator('.plan-lines [data-thing="hide"]').first().waitFor();
    equal(await page.locator(".grip").count(), 0, "it has no grip: it stands where its ends stand");

    await draw_word(hands, "View to keep open");
    await page.getByLabel("who looks").selectOption("seat");
    const crown = await page.locator('.plan-lines [data-thing="medlar"]').first().boundingBox(); // 4 m wide
    const metre = crown.width / 4;
    await hands.tap_at([x - 2 * metre, y - 3.4 * metre]);
    await page.locator(".thing-name", { hasText: /^view$/ }).waitFor();
    const view = await at.thing("view");
    check(view.fields.thing === undefined && Array.isArray(view.fields.to?.value), `a view to a place: ${JSON.stringify(view.fields)}`);

    // The line goes with its ends.
    const { served, garden } = at;
    const { head } = await at.state();
    await served.post(`/api/gardens/${garden}/edits`, { command: crypto.randomUUID(), change: head.change, scheme: "proposed", thing: "medlar", move_m: [1, 0.5] });
    const gone_on = (await at.thing("hide")).corners[1];
    check(Math.abs(gone_on[0] - ends[1][0] - 1) < 1e-6 && Math.abs(gone_on[1] - ends[1][1] - 0.5) < 1e-6, "it goes with the tree");
  };
}

editing["how far a view goes is told on the sheet and in the notes, and typed in either"] = async (at) => {
  const { head } = await at.state();
  const parts = [
    { add: "seat", called: "bench", set: { at: [5, 2], facing: [5, 6] } },
    { add: "view", called: "gap", set: { from: ["bench"], to: [5, 6] } },
  ];
  await at.served.post(`/api/gardens/${at.garden}/edits`, { scheme: "proposed", all: parts, command: "sights", change: head.change });
  const hands = await at.hands("mouse", "/proposed/gap");
  const { page } = hands;
  const on_sheet = page.locator(".measures").getByLabel("far");
  await on_sheet.waitFor();
  equal(await on_sheet.inputValue(), "4 m", "on the sheet");
  await on_sheet.fill("10 ft");
  await hands.key("Enter");
  const to = async () => (await at.thing("gap")).fields.to.value;
  await until(async () => Math.abs((await to())[1] - 5.048) < 0.001, async () => `typed on the sheet: ${await to()}`);
  const in_notes = page.locator(".measure-row").getByLabel("far");
  await until(async () => (await in_notes.inputValue()) === "3.05 m", () => in_notes.inputValue());
  await in_notes.fill("2");
  await hands.key("Enter");
  await until(async () => Math.abs((await to())[1] - 4) < 0.001, "typed in the notes");
};

editing["the light follows a corner in the hand"] = async (at) => {
  const hands = await at.hands("mouse", "/found/long-bed");
  const { page } = hands;
  await hands.tap(page.locator(".deeds").getByRole("button", { name: "Corners", exact: true }));
  const corner = page.getByRole("button", { name: /^Corner 3 of/ });
  await corner.waitFor();
  await page.waitForTimeout(400);
  const box = await corner.boundingBox();
  const from = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(...from);
  await page.mouse.down();
  for (let i = 1; i <= 10; ++i) await page.mouse.move(from[0] - 12 * i, from[1] - 3 * i);
  await page.locator(".won-says", { hasText: "With long-bed shaped so" }).waitFor();
  await page.mouse.up();
  await until(async () => (await at.thing("long-bed", "found")).corners[2][0] < 8, "kept where it was let go");
  await page.locator(".won-says", { hasText: "With long-bed shaped so" }).waitFor({ state: "detached" });
};
