// Values with parts, typed: a mix, a history, what a cover lies over, a seat that looks at a point; a
// figure that cannot be is told at its own row; a bed level with another; what goes has its stage.
import { check, equal, heard, kHands, settled, until } from "./hands.mjs";

export const editing = {};

const things = [
  { add: "bed", called: "low-bed", set: { at: [1, 1], size: [3, 1.2], boards: { height: "225 mm" }, level: "auto" } },
  { add: "cover", called: "net", set: { kind: "net", over: ["long-bed"], height_m: 0.6 } },
  { add: "point", called: "peg", set: { at: [7, 3] } },
  { add: "seat", called: "bench", set: { at: [2, 7], facing: [4, 4] } },
];

/** A garden with more in it; the thing chosen as found. */
async function begun(at, by, thing) {
  const { head } = await at.state("found");
  await at.served.post(`/api/gardens/${at.garden}/edits`, { scheme: "found", all: things, command: `formed-${at.garden}`, change: head.change });
  const hands = await at.hands(by, `/found/${thing}`);
  await settled(hands.page); // what comes with the light makes room for itself
  if (by === "touch") await hands.tap(hands.page.getByRole("button", { name: /^Open the notes/ }));
  if (by === "keys") await hands.keys("F6", "F6");
  return hands;
}

const has_focus = (target) => target.evaluate((element) => element === document.activeElement);

/** By keys a word is come to by its letter, a field by Tab. */
async function press(hands, target, letter) {
  if (hands.by !== "keys") return hands.tap(target);
  for (let i = 0; i < 12 && !(await has_focus(target)); ++i) await hands.key(letter ?? "Tab");
  check(await has_focus(target), `come to by ${letter ?? "Tab"}`);
  await hands.key("Enter");
}
async function fill(hands, label, text) {
  const target = hands.page.getByLabel(label, { exact: true });
  if (hands.by !== "keys") return hands.type_over(target, text);
  for (let i = 0; i < 8 && !(await has_focus(target)); ++i) await hands.key("Tab");
  check(await has_focus(target), `${label} is come to by Tab`);
  await hands.page.keyboard.press("Control+A");
  await hands.type(text);
}
async function choose(hands, label, word) {
  const target = hands.page.getByLabel(label, typeof label === "string" ? { exact: true } : {}).first();
  if (hands.by === "keys") {
    for (let i = 0; i < 12 && !(await has_focus(target)); ++i) await hands.key("Tab");
    await hands.type(word);
    return;
  }
  await hands.reveal(target);
  hands.actions += 2; // it opens, and the word is touched
  await target.selectOption(word);
}
const part = (hands, name) => hands.page.getByRole("button", { name: new RegExp(`^${name}: `) }).first();
const more = (hands) => press(hands, hands.button("More facts that it may have"), "m");
const keep = (hands) => (hands.by === "keys" ? hands.key("Enter") : hands.tap(hands.page.getByRole("button", { name: "Keep", exact: true })));
const line_of = async (at, key) => (await at.document()).split("\n").find((line) => line.startsWith(`${key} = `)) ?? "";

for (const by of kHands) {
  editing[`a mix is typed, refused at its row, mended, by ${by}`] = async (at) => {
    const hands = await begun(at, by, "long-bed");
    const { page } = hands;
    await more(hands);
    await press(hands, part(hands, "mix"), "m");
    equal(await page.evaluate(() => [document.scrollingElement.scrollTop, document.scrollingElement.scrollHeight - innerHeight]), [0, 0], "the page itself stays where it is");
    await fill(hands, "mix 1, material", "topsoil");
    await fill(hands, "mix 1, share", "0.6");
    await press(hands, hands.button("And another"));
    await fill(hands, "mix 2, material", "garden compost");
    await fill(hands, "mix 2, share", "1.4");
    const before = await at.document();
    await keep(hands);
    const told = page.locator(".part-rows > li").nth(1).locator(".told");
    await told.waitFor();
    check(/share.*1\.4.*0 to 1/.test(await told.innerText()), await told.innerText());
    const share = page.getByLabel("mix 2, share");
    equal([await share.getAttribute("aria-invalid"), await share.inputValue()], ["true", "1.4"], "it stands, marked");
    equal(await page.getByLabel("mix 1, share").getAttribute("aria-invalid"), "false", "the other is right");
    equal(await at.document(), before, "nothing is kept");
    await fill(hands, "mix 2, share", "0,4");
    await keep(hands);
    await heard(page, /^long-bed: mix topsoil 0\.6, garden compost 0,4\.$/);
    const actions = hands.actions;
    equal(await line_of(at, "mix"), 'mix = [{ material = "topsoil", share = 0.6 }, { material = "garden compost", share = 0.4 }]', "the document");
    await press(hands, part(hands, "mix"), "m");
    await fill(hands, "mix 1, material", "dug soil");
    await keep(hands);
    await until(async () => (await line_of(at, "mix")) === 'mix = [{ material = "dug soil", share = 0.6 }, { material = "garden compost", share = 0.4 }]', () => line_of(at, "mix"));
    await page.getByRole("button", { name: "mix: dug soil 0.6, garden compost 0.4" }).waitFor();
    return `${actions} actions`;
  };

  editing[`what stood in a bed is typed by its years, by ${by}`] = async (at) => {
    const hands = await begun(at, by, "long-bed");
    await more(hands);
    await press(hands, part(hands, "history"), "h");
    await fill(hands, "history 1, year", "2026");
    await fill(hands, "history 2026 1", "brassica");
    await press(hands, hands.page.getByRole("button", { name: "And another", exact: true }));
    await fill(hands, "history 2026 2", "legumex");
    await keep(hands);
    const told = hands.page.locator(".part-form .told");
    await told.waitFor();
    check(/did you mean legume/i.test(await told.innerText()), await told.innerText());
    await fill(hands, "history 2026 2", "legume");
    await keep(hands);
    await until(async () => (await line_of(at, "history")) === 'history = { 2026 = ["brassica", "legume"] }', () => line_of(at, "history"));
    return `${hands.actions} actions`;
  };

  editing[`a cover lies over another bed too, by ${by}`] = async (at) => {
    const hands = await begun(at, by, "net");
    await press(hands, part(hands, "over"), "o");
    await press(hands, hands.button("And another"));
    await choose(hands, "over 2", "low-bed");
    await press(hands, hands.page.getByRole("button", { name: "Keep", exact: true }));
    await until(async () => (await line_of(at, "over")) === 'over = ["long-bed", "low-bed"]', () => line_of(at, "over"));
    await heard(hands.page, /^net: over long-bed, low-bed\.$/);
  };

  editing[`a seat looks at a named point, and at a place again, by ${by}`] = async (at) => {
    const hands = await begun(at, by, "bench");
    await press(hands, part(hands, "facing"), "f");
    await choose(hands, "facing, at a named point", "peg");
    await press(hands, hands.page.getByRole("button", { name: "Keep", exact: true }));
    await until(async () => (await line_of(at, "facing")) === 'facing = "peg"', () => line_of(at, "facing"));
    await press(hands, hands.page.getByRole("button", { name: "facing: peg" }), "f");
    await choose(hands, "facing, at a named point", "a place on the page");
    await fill(hands, "facing, along", "6");
    await fill(hands, "facing, up", "12 ft");
    await keep(hands);
    await until(async () => (await line_of(at, "facing")) === 'facing = [6, "12 ft"]', () => line_of(at, "facing"));
  };
}

editing["a bed is level with another, and its size is typed where it has none"] = async (at) => {
  const hands = await begun(at, "mouse", "long-bed");
  await more(hands);
  await choose(hands, "level with", "low-bed");
  await until(async () => (await line_of(at, "level_with")) === 'level_with = "low-bed"', () => line_of(at, "level_with"));
  const bench = await begun_again(at, "bench");
  await more(bench);
  await press(bench, part(bench, "size"));
  await fill(bench, "size, across", "1.6");
  await keep(bench);
  const told = bench.page.locator(".part-form .told");
  await told.waitFor();
  await fill(bench, "size, deep", "0.7");
  await keep(bench);
  await until(async () => /^size = \[1\.6, 0\.7\]$/m.test(await at.document()), () => at.document());
};

async function begun_again(at, thing) {
  return at.hands("mouse", `/found/${thing}`);
}

editing["a guess is marked and measured, of a figure and of a place; what goes has its stage"] = async (at) => {
  const hands = await begun(at, "mouse", "medlar");
  const { page } = hands;
  await hands.tap(page.locator(".fact-name", { hasText: /^crown width/ }));
  await hands.tap(hands.button("Mark it as a guess"));
  await until(async () => /^guessed = \["crown_width_m"\]$/m.test(await at.document()), () => at.document());
  await hands.tap(hands.button("Where it lies is a guess"));
  await until(async () => /^guessed = \["crown_width_m", ?"at"\]$/m.test(await at.document()), () => at.document());
  await hands.tap(hands.button("It is measured now"));
  await until(async () => /^guessed = \["at"\]$/m.test(await at.document()), () => at.document());
  const proposed = await at.hands("mouse", "/proposed/medlar");
  await proposed.tap(proposed.button("Take medlar away"));
  await proposed.page.getByText("It goes, in this proposal.").waitFor();
  await choose(proposed, /^stage of the works/, "2");
  await until(async () => /^removed = true\nphase = 2$/m.test(await at.document()), () => at.document());
};

export const looking = {};
looking["what is opened and kept unaltered is not written"] = async (at) => {
  const page = await at.page();
  let kept = 0;
  for (const name of ["back-forty-feet"]) {
    const garden = await at.served.example(name);
    const before = await at.served.get(`/api/gardens/${garden}?scheme=proposed`);
    const has_parts = ({ mark, fields }) => mark !== "removed" && Object.entries(fields).some(([key, { parts }]) => key === "history" || (Array.isArray(parts) && !["at", "outline", "line", "row", "size", "guessed"].includes(key)));
    const several = new Map(before.things.filter(has_parts).map((thing) => [`${thing.table} ${Object.keys(thing.fields)}`, thing])); // one of each make
    for (const thing of several.values()) {
      await page.goto(`${at.served.url}#${garden}/proposed/${thing.id}`);
      await page.locator(".notes h2", { hasText: thing.id }).waitFor();
      const words = page.locator(".part-word");
      await words.first().waitFor();
      for (let i = 0, n = await words.count(); i < n; ++i) {
        await words.nth(i).click();
        await page.getByRole("button", { name: "Keep", exact: true }).click();
        await page.locator(".part-form").waitFor({ state: "detached" });
        kept += 1;
      }
    }
    const after = await at.served.get(`/api/gardens/${garden}?scheme=proposed`);
    equal(after.head, before.head, `${name}: nothing was written`);
  }
  check(kept >= 12, `${kept} values`);
  return `${kept} values`;
};

editing["places are typed to the exact figure, in feet too"] = async (at) => {
  const hands = await begun(at, "mouse", "bench");
  await hands.type_over(hands.page.getByLabel("along", { exact: true }), "21 ft 2 in");
  await hands.key("Enter");
  await until(async () => (await at.document()).includes('at = ["21 ft 2 in", 7]'), () => at.document());
  const bed = await begun_again(at, "long-bed");
  await bed.tap(bed.button("Corners"));
  await bed.type_over(bed.page.getByLabel("Corner 2 from left"), "8.6123");
  await bed.key("Enter");
  await until(async () => (await at.document()).includes("outline = [[5, 5.5], [8.6123, 5.5], [8.6, 6.7], [5, 6.7]]"), () => at.document());
  await bed.type_over(bed.page.getByLabel("Corner 1 from below"), "18 ft 1/2 in");
  await bed.key("Enter");
  await until(async () => (await at.document()).includes('outline = [[5, "18 ft 1/2 in"], [8.6123, 5.5], [8.6, 6.7], [5, 6.7]]'), () => at.document());
};
