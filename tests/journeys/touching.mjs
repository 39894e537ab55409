// The bare hands on the sheet: what a drag, a tap, two fingers and the wheel do, and what they never do.
import { check, equal, settled, until } from "./hands.mjs";

export const looking = {};

const selected = (page) => page.evaluate(() => location.hash.split("/")[2] ?? null);
const off = ([x0, y0], [x1, y1]) => Math.hypot(x1 - x0, y1 - y0);

/** How the plan lies on the page: two things that stand far from each other. */
async function lie(hands) {
  const [a, b] = [await hands.middle_of("byre"), await hands.middle_of("gate-east")];
  return { a, b, span: off(a, b), middle: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] };
}
async function rested(page) {
  await page.waitForTimeout(400);
  await settled(page);
}

for (const by of ["mouse", "touch"]) {
  looking[`a drag pans, a tap chooses, and a drag moves no thing, by ${by}`] = async (at) => {
    const hands = await at.hands(by);
    const { page } = hands;
    const before = await at.document();
    await hands.choose("bank");
    const was = await lie(hands);
    const from = await hands.middle_of("bank");
    await hands.drag(from, [from[0] + 30, from[1] + 60]); // on the very thing that is chosen
    await rested(page);
    const now = await lie(hands);
    check(off(now.a, [was.a[0] + 30, was.a[1] + 60]) < 16 && Math.abs(now.span - was.span) < 3, `the paper moves: ${JSON.stringify([was, now])}`);
    equal(await selected(page), "bank", "what was chosen stays");
    await hands.drag(await hands.middle_of("medlar"), from);
    await rested(page);
    equal(await selected(page), "bank", "a drag chooses nothing");
    equal(await at.document(), before, "the document");
    await hands.tap(hands.button("Whole"));
    await rested(page);
    check(off((await lie(hands)).a, was.a) < 3, "the whole again");
    await hands.tap_at(await hands.middle_of("gate-west"));
    await until(async () => (await selected(page)) === "gate-west", "a tap chooses");
  };
}

looking["two fingers zoom, and what is between them stays, by touch"] = async (at) => {
  const hands = await at.hands("touch");
  const { page } = hands;
  const before = await at.document();
  await hands.choose("bank");
  const was = await lie(hands);
  const [x, y] = await hands.middle_of("bank");
  await hands.fingers([[[x - 20, y - 20], [x - 60, y - 60]], [[x + 20, y + 20], [x + 60, y + 60]]]);
  await rested(page);
  const near = await lie(hands);
  const factor = near.span / was.span;
  check(factor > 2.2 && factor < 3.4, `three times as far apart: ${factor}`);
  const held = await hands.middle_of("bank");
  check(off(held, [x, y]) < 12, `what is between the fingers stays: ${held} ${x},${y}`);
  await hands.fingers([[[x - 60, y - 60], [x - 20, y - 20]], [[x + 60, y + 60], [x + 20, y + 20]]]);
  await rested(page);
  const far = await lie(hands);
  check(Math.abs(far.span / was.span - 1) < 0.12, `and back: ${far.span} ${was.span}`);
  equal([await selected(page), await at.document()], ["bank", before], "nothing is chosen or moved by it");
  check((await page.evaluate(() => visualViewport.scale)) === 1, "the page itself is not zoomed");
  return `${near.span.toFixed(0)} px for ${was.span.toFixed(0)}`;
};

looking["two fingers while the grip is held: nothing is moved, by touch"] = async (at) => {
  const hands = await at.hands("touch", "/proposed/far-cone");
  const before = await at.document();
  const [x, y] = await hands.middle_of_grip("far-cone");
  const session = await hands.page.context().newCDPSession(hands.page);
  const touch = (type, ...points) => session.send("Input.dispatchTouchEvent", { type, touchPoints: points.map(([px, py], id) => ({ x: px, y: py, id })) });
  await touch("touchStart", [x, y]);
  await touch("touchMove", [x + 20, y + 20]);
  await touch("touchStart", [x + 20, y + 20], [x - 90, y - 60]);
  await touch("touchMove", [x + 40, y + 40], [x - 120, y - 90]);
  await touch("touchEnd");
  await rested(hands.page);
  equal(await at.document(), before, "the document");
  equal(await hands.page.locator(".move-strip").count(), 0, "no move goes on");
};

looking["the wheel zooms where the pointer is, by mouse"] = async (at) => {
  const hands = await at.hands("mouse");
  const was = await lie(hands);
  const [x, y] = await hands.middle_of("bank");
  await hands.page.mouse.move(x, y);
  await hands.page.mouse.wheel(0, -400);
  await rested(hands.page);
  const now = await lie(hands);
  check(now.span > 1.5 * was.span, `nearer: ${now.span / was.span}`);
  check(off(await hands.middle_of("bank"), [x, y]) < 6, "what is under the pointer stays");
};

looking["the slip opens by a pull and by taps, by touch"] = async (at) => {
  const hands = await at.hands("touch");
  const { page } = hands;
  const height = async () => Math.round((await page.locator(".slip").boundingBox()).height);
  equal(await height(), 212, "low");
  await hands.tap(page.getByRole("button", { name: "Open the notes", exact: true }));
  await until(async () => (await height()) === 500, async () => `half: ${await height()}`);
  const box = await page.locator(".slip-handle").boundingBox();
  const from = [box.x + box.width / 2, box.y + box.height / 2];
  await hands.drag(from, [from[0], from[1] - 200]);
  await until(async () => (await height()) === 744, async () => `whole: ${await height()}`);
  await hands.tap(page.getByRole("button", { name: "Close the notes" }));
  await until(async () => (await height()) === 212, async () => `low again: ${await height()}`);
};

looking["the list chooses what the sheet does, by touch"] = async (at) => {
  const hands = await at.hands("touch");
  await hands.tap(hands.button("List"));
  await hands.tap(hands.page.locator(".list-thing", { hasText: "upper-mid" }));
  await until(async () => (await selected(hands.page)) === "upper-mid", "it is chosen");
  return `${hands.actions} actions`;
};
