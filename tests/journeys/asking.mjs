// Looking and asking: who takes the light, found against proposed, a number to its source, the band,
// the schemes, a thing thought away.
import { readFileSync } from "node:fs";
import { check, equal, heard, hours_read, kHands, settled, until } from "./hands.mjs";

const small = readFileSync(new URL("small_garden.toml", import.meta.url), "utf8");

export const looking = {};
const shown = (page, says) => page.waitForFunction((of) => document.querySelector(".sheet .key-when")?.textContent === of, says);

for (const by of kHands) {
  looking[`who takes this afternoon, by ${by}`] = async (at) => {
    const hands = await at.hands(by);
    await hands.choose("bank", ["ArrowLeft", "ArrowLeft"]);
    const told = await at.served.get(`/api/gardens/${at.garden}/takers?place=bank`);
    const answer = hands.page.locator(".notes .answer", { hasText: "takes" });
    await answer.waitFor();
    hands.within(2);
    equal(await answer.innerText(), told.answer, "the answer");
    await heard(hands.page, /^bank, bed, .* selected\.$/);
    await heard(hands.page, /^About 7 hours .* takes /);
    const rows = await hands.page.locator(".takers .taker").allInnerTexts();
    check(rows[0].includes(told.takers[0].called), `${rows[0]} is ${told.takers[0].called}`);
    check(rows[0].includes(String(Math.round(told.takers[0].sun_h_per_year))), "its hours");
    check(rows.some((row) => row.includes("by two at once") && row.includes(String(Math.round(told.taken_twice_h)))), "taken twice");
    return `${hands.actions} actions`;
  };

  looking[`found against proposed, by ${by}`] = async (at) => {
    const hands = await at.hands(by);
    const { page } = hands;
    if (by === "keys") await hands.keys("F6", "Shift+F6", "c", "Enter");
    else {
      if (by === "touch") await hands.tap(page.getByRole("button", { name: /choose the scheme/ }));
      await hands.tap(hands.button("Compare"));
    }
    await page.locator(".gains tbody tr").first().waitFor();
    hands.within(2);
    const actions = hands.actions;
    await settled(page);
    for (const row of await page.locator(".gains tbody tr").all()) {
      const name = (await row.locator(".row-thing").innerText()).trim();
      const place = await at.place(name, "scheme=proposed&against=found");
      const cells = await row.locator("td").allInnerTexts();
      const sides = [[place.against_shown_h, place.against_on_guesses], [place.shown_h, place.on_guesses]];
      equal(cells.slice(0, 2), sides.map(([hours, guessed]) => hours_read(hours, guessed)), name);
      const [from, to] = sides.map(([hours]) => Number(hours.toFixed(1)));
      equal(cells[2].includes("≈"), sides[0][1] || sides[1][1], `${name}: the gain rests on guesses as its figures do`);
      const by = Number((to - from).toFixed(1));
      const guessed = sides[0][1] || sides[1][1];
      const size = hours_read(Math.abs(by), guessed).replace("≈ ", "");
      equal(cells[2].trim(), by === 0 ? (guessed ? "≈ 0" : "±0") : `${guessed ? "≈ " : ""}${by < 0 ? "−" : "+"}${size}`, `${name}: what is won is what lies between`);
    }
    // Each drawing under its own name.
    const [left, right] = [page.locator(".plan").first(), page.locator(".plan").nth(1)];
    check((await left.innerText()).includes("As found") && (await right.innerText()).includes("As proposed"), "names");
    equal([await left.locator('g[data-thing="bank"]').count(), await right.locator('g[data-thing="bank"]').count() > 0], [0, true], "the new bed stands right alone");
    return `${actions} actions`;
  };

  looking[`a number to its source, by ${by}`] = async (at) => {
    const hands = await at.hands(by, "/proposed/bank");
    const { page } = hands;
    await page.locator(".months-table td").first().waitFor();
    await page.locator(".takers .taker").first().waitFor(); // the answer has its taker
    await settled(page);
    if (by === "keys") await hands.keys("F6", "F6", "w", "Enter");
    else await hands.tap(page.locator(".headline .why-word").first());
    await page.locator(".why-sources li").first().waitFor();
    hands.within(2);
    const actions = hands.actions;
    const pointer = "/light/places/bank/months/3,4,5,6,7,8/sun_h_per_day";
    const trace = await at.served.get(`/api/gardens/${at.garden}/why?pointer=${pointer}`);
    const figure = await page.locator(".why-figure").first().innerText();
    check(figure.includes(trace.value.replaceAll('"', "")), `${trace.value} in the chain`);
    await hands.key("Escape");
    await page.locator(".months-table").waitFor();
    if (by === "keys") check(await page.locator(".headline .why-word").first().evaluate((word) => word === document.activeElement), "the focus is where it was");
    return `${actions} actions`;
  };

  looking[`a month, a day and a moment in the band, by ${by}`] = async (at) => {
    const hands = await at.hands(by);
    const { page } = hands;
    const counts = [];
    const next = () => counts.push(hands.actions) && (hands.actions = 0);
    const [months, rail, field] = await Promise.all([".months", ".rail-of-days", ".year-field"].map((of) => page.locator(of).boundingBox()));
    const middle = (box, part) => [box.x + box.width * part, box.y + box.height * 0.6];
    if (by === "keys") {
      await hands.key("Shift+F6");
      if (await page.evaluate(() => !document.activeElement.matches(".band-time"))) await hands.key("Shift+F6");
      await hands.type("June");
      await hands.key("Enter");
    } else if (by === "touch") await hands.tap_at(middle(months, 5.5 / 12));
    else await hands.tap(hands.button("June"));
    await shown(page, "June");
    next();
    if (by === "keys") {
      await hands.type("15 Jun");
      await hands.key("Enter");
    } else await hands.tap_at(middle(rail, (31 + 28 + 31 + 30 + 31 + 14.5) / 365));
    await shown(page, "15 June");
    await heard(page, /^15 June/);
    next();
    if (by === "keys") {
      await hands.type("15 Jun 16:20");
      await hands.key("Enter");
    } else await hands.tap_at([middle(field, (31 + 28 + 31 + 30 + 31 + 14.5) / 365)[0], field.y + field.height * 0.4]);
    await page.waitForFunction(() => /^15 June, \d+:\d\d$/.test(document.querySelector(".sheet .key-when")?.textContent ?? ""));
    await settled(page);
    const chips = await page.locator(".chip").allInnerTexts();
    check(chips.every((chip) => ["sun", "in part", "shade"].includes(chip.trim())), `a moment's words: ${chips}`);
    next();
    check(counts.every((count) => count <= (by === "keys" ? 4 : 1)), `${counts} actions`);
    return `${counts.join(", ")} actions`;
  };

  looking[`a scheme chosen, by ${by}`] = async (at) => {
    const hands = await at.hands(by);
    const { page } = hands;
    if (by === "keys") await hands.keys("F6", "Shift+F6", "h", "Enter");
    else {
      if (by === "touch") await hands.tap(page.getByRole("button", { name: /choose the scheme/ }));
      await hands.tap(hands.button("hedge-low"));
    }
    await page.waitForFunction(() => location.hash.endsWith("/hedge-low"));
    hands.within(2);
    const actions = hands.actions;
    await settled(page);
    const places = (await at.served.get(`/api/gardens/${at.garden}/places?scheme=hedge-low`)).places;
    const told = places.filter((place) => place.kind === "bed").map((place) => hours_read(place.sun_h_per_day, place.on_guesses)).sort();
    equal((await page.locator(".chip").allInnerTexts()).map((chip) => chip.trim()).sort(), told, "the figures in the beds");
    return `${actions} actions`;
  };

  looking[`try without: the gain is told and nothing is kept, by ${by}`] = async (at) => {
    const hands = await at.hands(by);
    const { page } = hands;
    const before = await at.document();
    await hands.choose("medlar", ["ArrowLeft", "ArrowLeft", "ArrowUp"]);
    if (by === "keys") await hands.keys("F6", "t", "t", "Enter");
    else await hands.tap(hands.button(/^Try without/));
    const won = page.locator(".won table");
    await won.waitFor();
    const actions = hands.actions;
    check((await won.innerText()).includes("+"), "a bed gains");
    await heard(page, /^Without medlar: \S+ wins \d/);
    equal(await at.document(), before, "the document");
    if (by === "keys") await hands.key("Escape");
    else await hands.tap(hands.button(/^With (it|medlar) again/));
    await page.waitForFunction(() => !/Without medlar/.test(document.querySelector(".won")?.textContent ?? ""));
    return `${actions} actions`;
  };
}

looking["the hours of the band's sliders are spoken"] = async (at) => {
  const hands = await at.hands("keys");
  const { page } = hands;
  await page.getByRole("slider", { name: "Day" }).focus();
  await hands.keys("ArrowRight", "PageUp", "Home");
  await shown(page, "1 January");
  const hour = page.getByRole("slider", { name: "Hour" });
  await hour.focus();
  await hands.keys("ArrowUp", "PageUp", "Shift+ArrowUp");
  const told = await hour.getAttribute("aria-valuetext");
  check(/^\d+:\d\d$/.test(told), told);
  await shown(page, `1 January, ${told}`);
};

looking["the picture equals the table"] = async (at) => {
  const page = await at.open();
  await page.getByRole("button", { name: "List" }).first().click();
  const places = (await at.served.get(`/api/gardens/${at.garden}/places`)).places;
  const chips = await page.locator(".chip").allInnerTexts();
  const rows = await page.locator(".list-thing").allInnerTexts();
  for (const chip of chips) check(rows.some((row) => row.includes(chip.trim())), `${chip} in the list`);
  check(chips.some((chip) => chip.includes("≈")) && chips.some((chip) => !chip.includes("≈")), `measured and guessed: ${chips}`);
  const beds = places.filter((place) => place.kind === "bed");
  const told = beds.map((place) => hours_read(place.sun_h_per_day, place.on_guesses)).sort();
  equal(chips.map((chip) => chip.trim()).sort(), told, "the figures in the beds");
};

/** Types a time into the band and waits until the sheet has it. */
async function at_time(page, text, told) {
  const typed = page.getByLabel(/^The time shown/).first();
  await typed.fill(text);
  await typed.press("Enter");
  await page.waitForFunction((says) => document.querySelector(".key-when")?.textContent === says, told);
  await settled(page);
}

looking["on a day the beds, the notes and the comparison have the figures of that day"] = async (at) => {
  const page = await at.open(undefined, "/proposed/byre-herbs");
  await at_time(page, "21 Dec", "21 December");
  const { places } = await at.served.get(`/api/gardens/${at.garden}/places?day=12-21&against=found`);
  const told = places.filter((place) => place.kind === "bed").map((place) => hours_read(place.shown_h, place.on_guesses)).sort();
  equal((await page.locator(".chip").allInnerTexts()).map((chip) => chip.trim()).sort(), told, "the figures in the beds");
  const herbs = places.find((place) => place.id === "byre-herbs");
  const headline = await page.locator(".headline-figure").innerText();
  check(headline.includes(`${hours_read(herbs.shown_h, herbs.on_guesses)} h`), `${headline} has ${herbs.shown_h}`);
  const trace = await at.served.get(`/api/gardens/${at.garden}/why?pointer=/light/day/12-21/places/byre-herbs/sun_h`);
  equal(trace.number, herbs.shown_h, "why says the same");
  await page.getByRole("button", { name: "To the garden" }).click();
  await page.getByRole("button", { name: "Compare", exact: true }).click();
  await page.locator(".gains tbody tr").first().waitFor();
  check(/21 December/.test(await page.locator(".gains caption").innerText()), "the day in the caption");
  const row = page.locator(".gains tbody tr", { hasText: "byre-herbs" });
  equal(await row.locator("td").allInnerTexts().then((cells) => cells.slice(0, 2)), [hours_read(herbs.against_shown_h, herbs.against_on_guesses), hours_read(herbs.shown_h, herbs.on_guesses)], "as found, as proposed");
};

looking["at a moment what is won and what is compared is of that moment"] = async (at) => {
  const page = await at.open(undefined, "/proposed/medlar");
  await at_time(page, "21 Jun 18:00", "21 June, 18:00");
  const beds_of = async (query) => {
    const bytes = await (await fetch(new URL(`/api/gardens/${at.garden}/field?day=06-21&clock=18&${query}`, at.served.url))).arrayBuffer();
    return JSON.parse(new TextDecoder().decode(bytes.slice(4, 4 + new DataView(bytes).getUint32(0, true)))).beds;
  };
  const share = (part) => `${Math.round(100 * part)} %`;
  await page.getByRole("button", { name: /^Try without/ }).first().click();
  const row = page.locator(".won tr").first();
  await row.waitFor();
  const [bed, now, was] = (await row.locator("th,td").allInnerTexts()).map((cell) => cell.trim());
  equal(was, `was ${share((await beds_of("scheme=proposed"))[bed])}`, "as it is with the medlar");
  check(parseFloat(now) > parseFloat(was.slice(4)), `${bed}: ${now}, ${was}`);
  await heard(page, /^Without medlar, in the sun then: /);
  await page.getByRole("button", { name: "To the garden" }).click();
  await page.getByRole("button", { name: "Compare", exact: true }).click();
  await page.locator(".gains caption", { hasText: "21 June, 18:00" }).waitFor();
  await settled(page);
  const [found, proposed] = [await beds_of("scheme=found"), await beds_of("scheme=proposed")];
  const rows = await page.locator(".gains tbody tr").all();
  check(rows.length > 0, "rows");
  for (const one of rows) {
    const id = (await one.locator(".row-thing").innerText()).trim();
    equal(await one.locator("td").allInnerTexts(), [share(found[id]), share(proposed[id])], id);
  }
};

looking["on a day a figure tried tells that day"] = async (at) => {
  const page = await at.open(undefined, "/proposed/medlar");
  await at_time(page, "21 Jun", "21 June");
  const asked = page.waitForRequest((request) => request.url().includes("/try") && request.postDataJSON().set !== undefined);
  await page.getByLabel(/^crown base$/i).first().fill("9");
  equal((await asked).postDataJSON().day, "06-21", "the day of the question");
};

looking["the first five takers of a place have their discs on the sheet"] = async (at) => {
  const page = await at.open(undefined, "/proposed/bank");
  await page.locator(".takers .taker").first().waitFor();
  const letters = (await page.locator(".takers .taker .disc").allInnerTexts()).map((letter) => letter.trim());
  const on_sheet = await page.locator(".sheet .disc-letter").allTextContents();
  const own = (await page.locator(".takers .taker-thing").allInnerTexts()).filter((words) => /its own/.test(words)).length;
  const seen = letters.filter((letter) => on_sheet.some((one) => one.trim() === letter));
  check(letters.length >= 4 && seen.length >= letters.length - own, `${letters} on the sheet: ${on_sheet}`);
};

looking["what cannot be asked for is not shown under its name"] = async (at) => {
  const page = await at.open();
  await page.context().setOffline(true);
  const typed = page.getByLabel(/^The time shown/).first();
  await typed.fill("December");
  await typed.press("Enter");
  await page.getByText("Kept here").first().waitFor();
  equal(await page.locator(".key-when").first().innerText(), "April to September", "the light that is there keeps its name");
  await page.context().setOffline(false);
  await page.waitForFunction(() => document.querySelector(".key-when")?.textContent === "December");
};

/** So many trees and beds that their light takes seconds. */
function large_garden() {
  let text = small.slice(0, small.indexOf("[boundary]"));
  text += "[boundary]\noutline = [[0,0],[90,0],[90,60],[0,60]]\n";
  for (let i = 0; i < 500; ++i) {
    const at = [2 + (i % 25) * 3.5, 2 + Math.floor(i / 25) * 2.9];
    if (i % 3 === 0) text += `[[tree]]\nid = "tree-${i}"\nkind = "plum"\nat = [${at}]\nheight_m = 4\ncrown_width_m = 3\n`;
    else text += `[[bed]]\nid = "bed-${i}"\nat = [${at}]\nsize = [2, 1.2]\n`;
  }
  return text;
}

looking["long work tells how far it is, and ends when nobody waits for it"] = async (at) => {
  const { id } = await at.served.post("/api/gardens", { document: large_garden() });
  const page = await at.page();
  const jobs = new Map(); // of the page's questions
  page.on("request", (request) => {
    const url = new URL(request.url());
    const job = url.searchParams.get("job");
    if (job !== null) jobs.set(url.pathname.split("/").at(-1), job);
  });
  await page.goto(`${at.served.url}#${id}`);
  await page.getByText(/the light is being worked out, \d+ %/).first().waitFor();
  const is_running = async (what) => (await at.served.get(`/api/jobs/${jobs.get(what)}`)).running;
  check(await is_running("field"), "the light is worked out");
  await page.getByRole("button", { name: /to the shelf of gardens/ }).click();
  const begun = Date.now();
  await until(async () => !(await is_running("field")), "nobody waits for it any more");
  const took = Date.now() - begun;
  check(took < 500, `over at once, not after ${took} ms`);
  return `over ${took} ms after leaving`;
};
