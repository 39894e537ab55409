// Changing: a crown lifted, a thing moved in every way there is, figures that cannot be, keep and put
// back, undo, two windows.
import { check, equal, heard, hours_read, kHands, settled, until } from "./hands.mjs";

export const editing = {};
export const editing_ker_avel = {};
const to_medlar = ["ArrowLeft", "ArrowLeft", "ArrowUp"];
const crown_of = async (at, scheme) => (await at.thing("medlar", scheme)).fields.crown_base_m.value;

for (const by of kHands) {
  editing_ker_avel[`lift a crown and see the gain, by ${by}`] = async (at) => {
    const hands = await at.hands(by);
    const { page } = hands;
    const before = (await at.served.get(`/api/gardens/${at.garden}/places`)).places;
    await hands.choose("medlar", to_medlar);
    const crown = page.getByLabel(/^crown base$/i).first();
    if (by === "keys") {
      await hands.keys("F6", "c");
      await hands.type("3.4"); // kept after a rest
    } else if (by === "mouse") {
      await hands.type_over(crown, "3.4");
      await hands.key("Enter");
    } else {
      await hands.tap(page.getByRole("button", { name: /^Open the notes/ }));
      await hands.type_over(crown, "3.4"); // kept after a rest
    }
    await page.locator(".won table tr").first().waitFor();
    hands.within(4);
    const actions = hands.actions;
    await until(async () => (await crown_of(at)) === 3.4, async () => `the crown's base: ${await crown_of(at)}`);
    await page.locator(".changed").waitFor();
    check((await crown_of(at, "found")) !== 3.4, "as found it stays");
    await settled(page);
    const row = page.locator(".won tr").first();
    await until(async () => /now .*\d/.test(await row.innerText()), () => row.innerText());
    const bed = await row.locator("th").innerText();
    const was = before.find((place) => place.id === bed).sun_h_per_day;
    const { sun_h_per_day: now, on_guesses } = await at.place(bed);
    check(now > was + 0.3, `${bed} gains: ${was} to ${now}`);
    const gain = Number(now.toFixed(1)) - Number(was.toFixed(1));
    const told = async () => (await row.locator("th,td").allInnerTexts()).map((cell) => cell.trim()).join("; ");
    await until(async () => (await told()) === `${bed}; +${gain.toFixed(1)}; now ${hours_read(now, on_guesses)}`, told);
    await heard(page, new RegExp(`: ${bed} wins ${gain.toFixed(1)} hours a day`));
    await hands.tap(hands.button("Put back"));
    await until(async () => (await crown_of(at)) === (await crown_of(at, "found")), "put back it is as found");
    await heard(page, /^medlar is put back\.$/);
    return `${actions} actions`;
  };

  editing[`a figure that cannot be is refused at its field; a change is kept, by ${by}`] = async (at) => {
    const hands = await at.hands(by, "/proposed/medlar");
    const { page } = hands;
    const before = await at.document();
    const crown = page.getByLabel(/^crown base$/i).first();
    if (by === "keys") {
      await hands.keys("F6", "F6", "c");
      await hands.type("9");
      await hands.key("Enter");
    } else {
      await hands.type_over(crown, "9"); // the tree is 5 m high
      await hands.key("Enter");
    }
    const told = page.locator(".fact .told");
    await told.waitFor();
    const actions = hands.actions;
    const words = await told.innerText();
    const seen = hands.actions;
    await hands.reveal(told);
    equal(hands.actions, seen, "it stands in sight");
    check(/crown.*cannot be as high as.*5/.test(words) && !/_/.test(words), words);
    equal([await crown.getAttribute("aria-invalid"), await crown.inputValue()], ["true", "9"], "what was typed stands, marked");
    equal(await crown.getAttribute("aria-describedby"), await told.getAttribute("id"), "it is the field's");
    equal(await at.document(), before, "the document");
    await crown.focus();
    await hands.key("Escape");
    await told.waitFor({ state: "detached" });
    equal(await crown.inputValue(), "2.3", "the figure that stands");

    await hands.type_over(page.getByLabel(/^height$/i).first(), "5.2");
    await hands.key("Enter");
    await page.locator(".changed").waitFor();
    await settled(page);
    hands.actions = 0;
    const keep = hands.button("Keep");
    if (by === "keys") await hands.keys("Shift+F6", "F6", "k", "k", "Enter");
    else await hands.tap(keep);
    await keep.waitFor({ state: "detached" });
    check((await at.thing("medlar")).mark === "changed", "it stays changed");
    await page.reload();
    await settled(page);
    await page.getByRole("button", { name: "Put back" }).first().waitFor();
    equal(await keep.count(), 0, "and is not asked about again");
    return `${actions} and ${hands.actions} actions`;
  };
}

/** Moves medlar by hand; the way each did it, and how far it should have gone. */
const moves = {
  "its grip dragged": {
    by: "mouse",
    async act(hands) {
      const from = await hands.middle_of_grip("medlar");
      await hands.drag(from, [from[0] - 40, from[1] + 30]);
    },
  },
  "its grip tapped and then its place": { by: "mouse", act: (hands) => tap_tap(hands, [-60, 40]) },
  "the grip dragged by a finger": {
    by: "touch",
    async act(hands) {
      const from = await hands.middle_of_grip("medlar");
      await hands.drag(from, [from[0] - 40, from[1] + 30]);
    },
  },
  "the grip touched, then the place": { by: "touch", act: (hands) => tap_tap(hands, [-60, 40]) },
  "arrows, with Shift, with Alt": {
    by: "keys",
    by_m: [1.2, -0.09],
    most: 8,
    async act(hands) {
      await hands.page.locator('[data-region="sheet"]').focus();
      await hands.keys("m", "Shift+ArrowRight", "ArrowRight", "ArrowRight", "ArrowDown", "Alt+ArrowUp", "Enter");
    },
  },
  "typed": {
    by: "keys",
    by_m: [-0.4, 1.25],
    most: 6,
    async act(hands) {
      await hands.page.locator('[data-region="sheet"]').focus();
      await hands.key("m");
      await hands.type("-0.4");
      await hands.key("Tab");
      await hands.type("1.25");
      await hands.key("Enter");
      const is_back = () => hands.page.evaluate(() => document.activeElement?.matches('[data-region="sheet"]') === true);
      await until(is_back, "the focus is back on the sheet");
    },
  },
  "typed beside the drawing": {
    by: "mouse",
    by_m: [0.5, 0],
    most: 4,
    async act(hands) {
      await hands.tap(hands.page.locator("form.place-row input").first());
      await hands.type("0.5");
      await hands.key("Enter");
    },
  },
};

async function tap_tap(hands, by_px) {
  const middle = await hands.middle_of("medlar");
  await hands.tap_at(await hands.middle_of_grip("medlar"));
  await hands.page.locator(".move-strip").waitFor();
  await hands.tap_at([middle[0] + by_px[0], middle[1] + by_px[1]]);
}

async function moved(at, hands, move) {
  const { page } = hands;
  const place = async () => (await at.thing("medlar")).corners[0];
  const [x, y] = await place();
  hands.actions = 0;
  await move.act(hands);
  check(hands.actions <= (move.most ?? 2), `${hands.actions} actions`);
  const actions = hands.actions;
  await page.waitForSelector('[aria-label^="Undo: medlar"]', { state: "attached" });
  const now = await place();
  const by_m = [now[0] - x, now[1] - y];
  if (move.by_m) check(Math.hypot(by_m[0] - move.by_m[0], by_m[1] - move.by_m[1]) < 0.006, `moved by ${by_m}`);
  else check(by_m[0] < -0.3 && by_m[1] < -0.2, `moved by ${by_m}`);
  await heard(page, /^medlar moved /);
  if (move.by === "keys") await hands.key("Control+z");
  else await hands.tap(hands.button(/^Undo/));
  await until(async () => JSON.stringify(await place()) === JSON.stringify([x, y]), "undone");
  await heard(page, /^Undone: medlar moved\.$/);
  await page.waitForSelector('[aria-label^="Undo: medlar"]', { state: "detached" });
  await settled(page);
  return actions;
}

async function left(at, hands) {
  const before = await at.document();
  await hands.page.locator('[data-region="sheet"]').focus();
  await hands.keys("m", "Shift+ArrowRight", "Escape");
  await heard(hands.page, /^medlar: 1(\.0+)? m right/);
  await heard(hands.page, /^medlar stays where it stood\.$/);
  equal(await at.document(), before, "the document");
}

for (const by of kHands) {
  editing[`a thing moved in every way, and undone, by ${by}`] = async (at) => {
    const hands = await at.hands(by, "/proposed/medlar");
    const told = [];
    for (const [name, move] of Object.entries(moves).filter(([, move]) => move.by === by)) {
      try {
        told.push(`${name} ${await moved(at, hands, move)}`);
      } catch (error) {
        throw new Error(`${name}: ${error.message}`);
      }
    }
    if (by === "keys") await left(at, hands);
    return `${told.join(", ")} actions`;
  };
}

for (const by of kHands) {
  editing[`two windows: the second sees the first's change at once, by ${by}`] = async (at) => {
    const [one, two] = [await at.hands(by, "/proposed/medlar"), await at.hands(by === "touch" ? "mouse" : by)];
    const figure = one.page.getByLabel(/^height$/i).first();
    if (by === "keys") {
      await one.keys("F6", "F6", "h");
      await one.type("5.6");
    } else await one.type_over(figure, "5.6");
    await one.key("Enter");
    const begun = Date.now();
    await two.page.waitForSelector('[aria-label^="Undo: medlar"]', { timeout: 5000 });
    const took = Date.now() - begun;
    await heard(two.page, /^The garden was changed in another window\.$/);
    if (by === "keys") await two.key("Control+z");
    else await two.tap(two.button(/^Undo: medlar/));
    await one.page.waitForFunction(() => document.querySelector('[aria-label^="Undo: medlar"]') === null);
    return `${one.actions} actions, seen after ${took} ms`;
  };
}

/** A figure of the thing chosen, by a kind of hands; kept by Enter. */
async function type_figure(hands, name, text) {
  const figure = hands.page.getByLabel(name).first();
  if (hands.by === "keys") {
    await figure.focus();
    await hands.key("Control+a");
    await hands.type(text);
  } else await hands.type_over(figure, text);
  await hands.key("Enter");
}

for (const by of kHands) {
  editing[`two windows alter the same figure while one is cut off: told, nothing overwritten, and done again if wanted, by ${by}`] = async (at) => {
    const [one, two] = [await at.hands(by, "/found/medlar"), await at.hands(by === "touch" ? "mouse" : by, "/found/medlar")];
    const fields = async () => {
      const { height_m, crown_base_m } = (await at.thing("medlar", "found")).fields;
      return [height_m.value, crown_base_m?.value];
    };
    const [, base_was] = await fields();
    await one.page.context().setOffline(true);
    await type_figure(one, /^height$/i, "5.4");
    await one.page.getByText(/^Kept here/).first().waitFor();
    await type_figure(two, /^height$/i, "4.2");
    await until(async () => (await fields())[0] === 4.2, "the second window's is there");
    await one.page.context().setOffline(false);
    const told = one.page.getByText(/medlar was altered just so in another window meanwhile/i).first();
    await told.waitFor();
    check(/The garden has 4.2 now/.test(await one.page.locator(".fact .told").innerText()), await one.page.locator(".fact .told").innerText());
    equal(await fields(), [4.2, base_was], "nothing is overwritten");
    await one.page.waitForFunction(() => !/Kept here/.test(document.body.innerText));
    await type_figure(one, /^height$/i, "5.4");
    await until(async () => (await fields())[0] === 5.4, "done again, it is taken");
    await told.waitFor({ state: "detached" });
    await one.undo();
    await until(async () => (await fields())[0] === 4.2, "and undone, it is the other window's");

    // Another figure of the same thing is nobody's clash.
    await one.page.context().setOffline(true);
    await type_figure(one, /^crown base$/i, "2.5");
    await one.page.getByText(/^Kept here/).first().waitFor();
    await type_figure(two, /^height$/i, "4.4");
    await until(async () => (await fields())[0] === 4.4, "the second window's is there");
    await one.page.context().setOffline(false);
    await until(async () => (await fields())[1] === 2.5, async () => `both are done: ${await fields()}`);
    equal(await fields(), [4.4, 2.5], "both are done");
  };
}

editing["a figure that clashes is told also when its field is gone, and after the window was closed"] = async (at) => {
  const two = await at.hands("mouse", "/found/medlar");
  const height = async () => (await at.thing("medlar", "found")).fields.height_m.value;
  let [mine, theirs] = [5.9, 4.1];
  for (const leave of ["to the garden", "closed"]) {
    const one = await at.hands("mouse", "/found/medlar");
    const { page } = one;
    await page.context().setOffline(true);
    await type_figure(one, /^height$/i, String(mine));
    await page.getByText(/^Kept here/).first().waitFor();
    await type_figure(two, /^height$/i, String(theirs));
    await until(async () => (await height()) === theirs, "the second window's is there");
    if (leave === "to the garden") await one.tap(page.getByRole("button", { name: "To the garden" }));
    await page.context().setOffline(false);
    if (leave === "closed") {
      await page.goto("about:blank"); // before it could be sent
      await page.goto(`${at.served.url}#${at.garden}`);
    }
    const told = page.locator(".problem-line");
    await page.waitForFunction(() => /altered just so/.test(document.querySelector(".problem-line")?.textContent ?? ""));
    check(new RegExp(`The garden has ${theirs} now`).test(await told.innerText()), await told.innerText());
    equal(await height(), theirs, "nothing is overwritten");
    [mine, theirs] = [6.3, 4.4];
  }
};
