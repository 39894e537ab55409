// The first ten minutes: where it lies, the plot, north, the fall of the ground, what stands around, a
// bed, and the first light.
import { deflateSync } from "node:zlib";
import { kSizes } from "./browser.mjs";
import { check, equal, Hands, kHands, settled, until } from "./hands.mjs";

export const looking = {};
export const editing = {};

/** The page that asks where a garden lies, come to from the shelf. */
async function at_begin(at, by) {
  const page = await at.page(by === "touch" ? kSizes.phone : kSizes.desk);
  await page.goto(at.served.url);
  const begin = page.getByRole("button", { name: "Begin a garden" });
  await begin.waitFor();
  const hands = new Hands(page, by);
  if (by === "keys") await hands.keys("F6", "Enter");
  else await hands.tap(begin);
  await page.getByRole("heading", { name: "Where does it lie?" }).waitFor();
  return hands;
}

/** The garden that the page shows. */
async function begun(at, page) {
  await page.getByRole("region", { name: "Notes", exact: true }).waitFor();
  at.garden = await page.evaluate(() => decodeURIComponent(location.hash.slice(1).split("/")[0]));
  return at.state();
}

/** A town's name typed, the first that fits taken, and begun there. */
async function at_town(hands, typed = "brest-g") {
  const { page, by } = hands;
  await hands.type(typed);
  const first = page.getByRole("option").first();
  await first.waitFor();
  if (by === "touch") {
    await hands.tap(first);
    await hands.tap(page.getByRole("button", { name: "Begin here" }));
  } else await hands.keys("Enter", "Enter");
}

for (const by of kHands) {
  looking[`a garden begins at a town, and its place is a guess, by ${by}`] = async (at) => {
    const hands = await at_begin(at, by);
    await at_town(hands);
    const { site, singles, guessed } = await begun(at, hands.page);
    check(Math.abs(site.latitude_deg - 48.44) < 0.02 && Math.abs(site.longitude_deg + 4.41) < 0.02, JSON.stringify(site));
    equal([site.time_zone, site.units], ["Europe/Paris", "metric"], "clocks and measures of the country");
    equal(singles.garden.guessed.value, ["plan_north_deg", "latitude_deg", "longitude_deg", "elevation_m"], "what is guessed");
    check(guessed.includes("garden.plan_north_deg"), guessed.join());
    hands.within(6, 20);
    return `${hands.actions} actions, ${hands.seconds.toFixed(0)} s`;
  };

  looking[`a garden begins at coordinates as they are pasted, by ${by}`] = async (at) => {
    const hands = await at_begin(at, by);
    const { page } = hands;
    await hands.type("41°17′24″S 174°46′12″E");
    await page.getByText(/nearest weather/).waitFor();
    const go = page.getByRole("button", { name: "Begin here" });
    if (by === "touch") await hands.tap(go);
    else await hands.key("Enter");
    const { site, singles } = await begun(at, page);
    check(Math.abs(site.latitude_deg + 41.29) < 0.001 && Math.abs(site.longitude_deg - 174.77) < 0.001, JSON.stringify(site));
    equal(site.time_zone, "Pacific/Auckland", "its clocks");
    equal(singles.garden.guessed.value, ["plan_north_deg"], "the place is told");
  };

  looking[`a garden begins where the map of the coasts is touched, by ${by}`] = async (at) => {
    const hands = await at_begin(at, by);
    const { page } = hands;
    const map = page.getByRole("application", { name: /^Map of the coasts/ });
    await page.locator(".map-word").waitFor({ state: "detached" });
    await hands.type("valentia"); // near it; the touch tells the place itself
    await page.getByRole("option").first().waitFor();
    if (by === "touch") await hands.tap(page.getByRole("option").first());
    else await hands.key("Enter");
    await page.getByText(/Valentia/i).first().waitFor();
    if (by === "keys") {
      await hands.keys("F6", "m", "m", "ArrowRight", "ArrowRight", "Enter");
    } else {
      const box = await map.boundingBox();
      await hands.tap_at([box.x + box.width / 2 + 48, box.y + box.height / 2]);
    }
    await page.getByText(/The nearest weather/).waitFor();
    const go = page.getByRole("button", { name: "Begin here" });
    if (by === "keys") {
      await go.focus();
      await hands.key("Enter");
    } else await hands.tap(go);
    const { site, singles } = await begun(at, page);
    check(site.longitude_deg > -9.6 && site.longitude_deg < -8 && Math.abs(site.latitude_deg - 51.9) < 0.3, JSON.stringify(site));
    equal(singles.garden.guessed.value, ["plan_north_deg"], "the place is told");
  };
}

looking["a town that is not known is said, and going back is to the shelf"] = async (at) => {
  const hands = await at_begin(at, "mouse");
  const { page } = hands;
  await hands.type("qqzzx");
  await page.getByText(/No town with weather/).waitFor();
  const is_nowhere = () => page.getByRole("button", { name: "Begin here" }).isDisabled();
  check(await is_nowhere(), "nowhere to begin");
  const field = page.getByLabel(/nearest town/);
  await field.fill("95, 200");
  await page.getByText(/no place on the earth/).waitFor();
  await field.fill("48.41, -4.36");
  await until(async () => !(await is_nowhere()), "a place");
  await field.fill("48.41, -4.36 or so");
  await until(is_nowhere, "what is typed now is no place");
  await field.fill("münchen");
  await page.getByRole("option", { name: /Muenchen/ }).first().waitFor();
  await page.goBack();
  await page.getByRole("heading", { name: "Your gardens" }).waitFor();
  await page.goForward();
  await page.getByRole("heading", { name: "Where does it lie?" }).waitFor();
  await until(async () => page.getByLabel(/nearest town/).evaluate((field) => field === document.activeElement), "the field is at hand");
};

/** Keys in the notes: come to by F6 from wherever one is. */
async function to_notes(hands) {
  for (let i = 0; i < 6; ++i) {
    if (await hands.page.evaluate(() => document.activeElement?.closest("[data-region]")?.dataset.region === "margin")) return;
    await hands.key("F6");
  }
}
async function press(hands, name, letter) {
  if (hands.by !== "keys") return hands.tap(hands.button(name));
  const in_field = () => hands.page.evaluate(() => document.activeElement?.matches("input[type=text]") ?? false);
  if (await in_field()) await hands.keys("Shift+F6", "F6"); // a letter would be typed
  await to_notes(hands);
  const word = hands.button(name);
  const is_there = () => word.evaluate((one) => one === document.activeElement);
  for (let i = 0; i < 8 && !(await is_there()); ++i) await hands.key(letter);
  check(await is_there(), `the letter ${letter} comes to ${name}`);
  await hands.key("Enter");
}

const kSides = ["9.2", "14", "8.4", "13.1", "16.5"];
async function type_sides(hands, sides = kSides) {
  const { page, by } = hands;
  const first = page.getByLabel("From 1 to 2");
  await first.waitFor();
  if (by === "touch") await hands.tap(first);
  else await until(() => first.evaluate((field) => field === document.activeElement), "the first side is at hand");
  for (const [i, side] of sides.entries()) {
    await hands.type(side);
    if (i < sides.length - 1) await hands.key("Enter"); // to the next one
  }
  await page.getByText(/its corners ± /).first().waitFor();
}

for (const by of kHands) {
  looking[`nothing to the first light, by ${by}`] = async (at) => {
    const hands = await at_begin(at, by);
    const { page } = hands;
    await at_town(hands);
    await begun(at, page);
    // The plot by tape.
    await type_sides(hands);
    equal(await page.locator(".laid .laid-name:not(.is-case)").allTextContents(), ["1", "2", "3", "4"], "the sketch draws itself");
    await hands.key("Enter");
    await page.getByText(/points true north/).waitFor();
    const { boundary, singles } = await at.state();
    equal([boundary.length, singles.boundary.sides_m.value], [4, kSides.slice(0, 4).map(Number)], "the plot");
    check(singles.boundary.guessed === undefined, "it is measured");
    // North, roughly; the ground for later; a wall along the lower edge; a bed.
    await press(hands, "Roughly so", "r");
    await page.getByText("Where does water run?").waitFor();
    await press(hands, "Later", "l");
    await page.getByText(/sunny side/).waitFor();
    await press(hands, "Tree", "t");
    await page.getByRole("form", { name: "Draw: Tree" }).waitFor();
    await page.waitForTimeout(300);
    const sheet = await page.locator(".plan").first().boundingBox();
    const middle = [sheet.x + sheet.width / 2, sheet.y + (by === "touch" ? 170 : sheet.height / 2)]; // above the open notes
    const some_m = by === "touch" ? 22 : 60; // pixels
    if (by === "keys") await hands.keys("Shift+ArrowLeft", "Shift+ArrowDown", "Enter");
    else await hands.tap_at([middle[0], middle[1] + some_m]);
    await until(async () => (await at.state("found")).things.some((thing) => thing.table === "tree" && thing.mark === "existing"), "the tree stands there as found");
    equal(await page.locator(".scheme-word[aria-pressed=true], .schemes-menu .menu-opener").first().innerText(), "As found", "what stands there is drawn as found");
    await press(hands, "That is all", "t");
    await press(hands, "Draw a bed", "d");
    await page.getByRole("form", { name: "Draw: Bed" }).waitFor();
    if (by === "keys") await hands.keys("Enter");
    else await hands.tap_at([middle[0], middle[1] - some_m / 2]);
    const head = page.locator(".headline-figure").first();
    await head.waitFor();
    await settled(page);
    check(/[\d½] (h|why)[^]*of sun a day, April to September/.test(await head.innerText()), await head.innerText());
    await page.getByRole("button", { name: "Try without apple" }).waitFor();
    const bed = (await at.served.get(`/api/gardens/${at.garden}/places`)).places.find((place) => place.kind === "bed");
    equal((await at.state()).things.map((thing) => [thing.id, thing.mark]), [["apple", "existing"], ["bed", "proposed"]], "what is there and what is new");
    check(bed.sun_h_per_day > 3 && bed.sun_h_per_day < 16, `${bed.sun_h_per_day}`);
    hands.within(by === "touch" ? 28 : 24, by === "touch" ? 210 : 150);
    return `${hands.actions} actions, ${hands.seconds.toFixed(0)} s`;
  };
}

/** Where true north lies in the small garden's document: up the page. */
const kWrong_deg = 25;

for (const by of kHands) {
  editing[`a wrong north is mended by where a shadow ends, by ${by}`] = async (at) => {
    const found = await at.state("found");
    const moment = { day: "06-21", clock: 15.2 };
    const shadow = () => at.served.post(`/api/gardens/${at.garden}/measure`, { what: "shadow", thing: "medlar", ...moment });
    const [{ foot_m, tip_m }] = (await shadow()).ends; // where it truly ends, with the right north
    const turned = { scheme: "found", table: "garden", set: { plan_north_deg: kWrong_deg, guessed: ["plan_north_deg"] } };
    await at.served.post(`/api/gardens/${at.garden}/edits`, { ...turned, command: "turn", change: found.head.change });
    const hands = await at.hands(by, "/found");
    const { page } = hands;
    const typed = page.getByLabel(/^The time shown/).first();
    await typed.fill("21 Jun 15:12");
    await typed.press("Enter");
    await settled(page);
    await typed.evaluate((field) => field.blur());
    // From here on the grower: the thing, its shadow, the end to where it lies in truth.
    const ends = page.locator(".shadow-end");
    const px = async ([x, y]) => {
      const [one, other] = [await end_at(page), (await shadow()).ends[0]];
      const scale = Math.hypot(one[0] - (await foot_at(page))[0], one[1] - (await foot_at(page))[1]) / Math.hypot(other.tip_m[0] - other.foot_m[0], other.tip_m[1] - other.foot_m[1]);
      return [one[0] + (x - other.tip_m[0]) * scale, one[1] - (y - other.tip_m[1]) * scale];
    };
    if (by === "keys") {
      await hands.keys("F6", "ArrowLeft", "s");
      await ends.waitFor();
      const was = (await shadow()).ends[0].tip_m;
      // By whole metres and tenths; the direction is what counts.
      const steps = [tip_m[0] - was[0], tip_m[1] - was[1]].map((by_m) => Math.round(by_m));
      for (let i = 0; i < Math.abs(steps[0]); ++i) await hands.key(steps[0] > 0 ? "Shift+ArrowRight" : "Shift+ArrowLeft");
      for (let i = 0; i < Math.abs(steps[1]); ++i) await hands.key(steps[1] > 0 ? "Shift+ArrowUp" : "Shift+ArrowDown");
      await hands.key("Enter");
    } else {
      await hands.tap_at(await hands.middle_of("medlar"));
      await hands.tap(page.getByRole("button", { name: /should end here/ }));
      await ends.waitFor();
      await page.waitForTimeout(300);
      await hands.drag(await end_at(page), await px(tip_m));
    }
    await until(async () => (await at.state("found")).site.plan_north_deg !== kWrong_deg, "north is turned");
    const { site, singles } = await at.state("found");
    const off = ((site.plan_north_deg + 540) % 360) - 180;
    check(Math.abs(off) < (by === "keys" ? 8 : 2), `north is off by ${off}`);
    check(singles.garden.guessed === undefined, "and measured");
    check(foot_m[0] === 3, "it is the medlar's");
    await page.getByText(/North is turned by/).first().waitFor({ state: "attached" });
    hands.within(3, 12);
    await hands.undo();
    await until(async () => (await at.state("found")).site.plan_north_deg === kWrong_deg, "undone");
    return `${hands.actions - 1} actions`;
  };
}

const middle_of = (box) => [box.x + box.width / 2, box.y + box.height / 2];
const end_at = async (page) => middle_of(await page.locator(".shadow-end").first().boundingBox());
/** The other end of the line. */
async function foot_at(page) {
  return page.locator(".shadow-line").last().evaluate((line) => {
    const at = line.getPointAtLength(0);
    const box = line.ownerSVGElement.getBoundingClientRect();
    return [box.left + at.x, box.top + at.y];
  });
}

editing["a shadow that tells nothing says why, and when it would"] = async (at) => {
  const hands = await at.hands("mouse", "/found/medlar");
  const { page } = hands;
  const typed = page.getByLabel(/^The time shown/).first();
  await typed.fill("21 Jun 23:30");
  await typed.press("Enter");
  await hands.tap(page.getByRole("button", { name: /should end here/ }));
  const told = page.locator(".shadow-of [role=status]");
  await told.waitFor();
  check(/sun is down/.test(await told.innerText()), await told.innerText());
  await page.locator(".shadow-of input[type=time]").fill("15:12");
  await page.locator(".shadow-end").waitFor();
  // The band's moment is another: the shadow looked at is that moment's.
  const [was] = [await end_at(page)];
  await typed.fill("21 Jun 18:00");
  await typed.press("Enter");
  await until(async () => (await page.locator(".shadow-end").count()) > 0 && Math.hypot((await end_at(page))[0] - was[0], (await end_at(page))[1] - was[1]) > 10, "it follows");
  await page.locator('[data-region="sheet"]').focus();
  await page.keyboard.press("Escape");
  await page.locator(".shadow-end").waitFor({ state: "detached" });
};

/** A garden begun at a told place, its first steps open. */
async function at_steps(at, by, later = []) {
  const begin = { title: "Behind the Forge", latitude_deg: 48.41, longitude_deg: -4.36, time_zone: "Europe/Paris" };
  at.garden = (await at.served.post("/api/gardens", { begin })).id;
  const page = await at.page(by === "touch" ? kSizes.phone : kSizes.desk);
  await page.addInitScript(([id, left]) => {
    if (localStorage.getItem("spadework.first-steps") === null) localStorage.setItem("spadework.first-steps", JSON.stringify({ [id]: { open: true, later: left } }));
  }, [at.garden, later]);
  await page.goto(`${at.served.url}#${at.garden}/found`);
  await page.getByRole("heading", { name: "First steps" }).waitFor();
  return new Hands(page, by);
}
const kRough = { table: "boundary", set: { outline: [[0, 0], [10, 0], [10, 14], [0, 14]], guessed: ["outline"] } };
/** The same with a plot that is there. */
async function at_plot(at, by, later = ["north"]) {
  const hands = await at_steps(at, by, later);
  const { head } = await at.state("found");
  await at.served.post(`/api/gardens/${at.garden}/edits`, { scheme: "found", ...kRough, command: `plot-${at.garden}`, change: head.change });
  await hands.page.getByText(later.includes("level") ? /sunny side/ : "Where does water run?").waitFor();
  return hands;
}

for (const by of kHands) {
  looking[`a plot that is not taped, roughly, by ${by}`] = async (at) => {
    const hands = await at_steps(at, by);
    const { page } = hands;
    await press(hands, "Roughly", "r");
    const first = page.getByLabel("Along the page");
    if (by === "touch") await hands.tap(first);
    else await until(() => first.evaluate((field) => field === document.activeElement), "the first side is at hand");
    await hands.type("10");
    await hands.key("Enter");
    await hands.type("14");
    await hands.key("Enter");
    await until(async () => (await at.state("found")).boundary.length === 4, "it is kept");
    const { boundary, singles, narrows } = await at.state("found");
    equal([boundary, singles.boundary.guessed.value], [[[0, 0], [10, 0], [10, 14], [0, 14]], ["outline"]], "as a guess");
    check(/Tape it: then ± /.test(narrows["boundary.outline"]), JSON.stringify(narrows));
    await until(async () => /≈ edge of the plot/.test(await page.locator(".notes").innerText()), "listed as guessed");
    return `${hands.actions} actions`;
  };

  looking[`a side that cannot be is refused at its field; a second diagonal finds a slip, by ${by}`] = async (at) => {
    const hands = await at_steps(at, by);
    const { page } = hands;
    const told = page.locator(".step-form .told");
    await page.getByLabel("From 1 to 2").fill("ten");
    await told.waitFor();
    check(/no length/.test(await told.innerText()), await told.innerText());
    for (const [label, side] of [["From 1 to 2", "10"], ["From 2 to 3", "12"], ["From 3 to 4", "10"], ["From 4 back to 1", "12"], ["Across, from 1 to 3", "29"]]) await page.getByLabel(label).fill(side);
    await page.locator(".step-form .told").waitFor();
    equal(await page.getByLabel("Across, from 1 to 3").getAttribute("aria-invalid"), "true", "at the diagonal");
    check(await page.getByRole("button", { name: "Keep this plot" }).isEnabled(), "it may be tried");
    await press(hands, "Keep this plot", "k");
    await page.waitForTimeout(300);
    equal((await at.state("found")).boundary, [], "and is not kept");
    await page.getByLabel("Across, from 1 to 3").fill("15.62");
    await page.getByText(/its corners ± /).waitFor();
    await page.getByLabel("Across, from 2 to 4").fill("16.62");
    await page.getByText(/The six do not fit/).waitFor();
    const words = await page.locator(".step-told").innerText();
    check(/across, from 2 to 4, 15\.6\d? m would fit|across, from 2 to 4, 15\.62/.test(words), words);
    await page.getByLabel("Across, from 2 to 4").fill("15.62");
    await until(async () => !/do not fit/.test(await page.locator(".step-told").innerText()), "now they fit");
    await press(hands, "Keep this plot", "k");
    await until(async () => (await at.state("found")).boundary.length === 4, "kept");
    const { boundary } = await at.state("found");
    check(Math.abs(boundary[2][0] - 10) < 0.03 && Math.abs(boundary[2][1] - 12) < 0.03, JSON.stringify(boundary));
  };

  looking[`where water runs, in knees, by ${by}`] = async (at) => {
    const hands = await at_plot(at, by);
    const { page } = hands;
    if (by === "mouse") {
      const sheet = await page.locator(".plan").first().boundingBox();
      const x = sheet.x + sheet.width / 2;
      await hands.drag([x, sheet.y + 200], [x, sheet.y + 420]); // down the page
    } else await press(hands, "down the page", "d");
    await press(hands, "Knee", "k");
    await page.getByText(/^It falls 0\.5 m over 14/).waitFor();
    await press(hands, "Keep this fall", "k");
    await until(async () => (await at.state("found")).singles.ground.falls_m !== undefined, "the fall is kept");
    const { singles } = await at.state("found");
    equal([singles.ground.falls_m.value, singles.ground.toward_deg.value, singles.ground.over.value], [0.5, 180, 14], "the fall");
    equal(singles.ground.guessed.value, ["falls_m", "toward_deg", "over"], "is guessed");
    await page.getByText(/sunny side/).waitFor();
    await hands.undo();
    await page.getByText("Where does water run?").waitFor();
    return `${hands.actions - 1} actions`;
  };
}

for (const by of ["mouse", "touch"]) {
  looking[`north by the arrow, and by turning the paper, by ${by}`] = async (at) => {
    const hands = await at_north(at, by);
    const { page } = hands;
    const middle = async () => middle_of(await page.locator(".rose-ring").last().boundingBox());
    const figure = page.getByLabel("North lies");
    await page.locator(".rose").waitFor();
    const [x, y] = await middle();
    await hands.tap_at([x + 50, y]); // to the right
    await until(async () => Math.abs(Number(await figure.inputValue()) - 90) < 2, () => figure.inputValue());
    const before = (await at.state("found")).head.change;
    for (const text of ["400", "abc", ""]) { // what cannot be is not kept, by Enter neither
      await figure.fill("40");
      await figure.fill(text);
      await page.locator(".step-figure .told").waitFor();
      await page.keyboard.press("Enter");
      await page.waitForTimeout(150);
    }
    equal((await at.state("found")).head.change, before, "nothing was kept");
    await figure.fill("90");
    await press(hands, "The paper", "t");
    await hands.drag([x, y - 50], [x + 50, y]); // a quarter turn with the clock
    await until(async () => Math.min(Number(await figure.inputValue()), 360 - Number(await figure.inputValue())) < 3, () => figure.inputValue());
    await press(hands, "So says the shadow", "s");
    await until(async () => (await at.state("found")).singles.garden.guessed === undefined, "it is measured");
    const { site } = await at.state("found");
    check(Math.min(site.plan_north_deg, 360 - site.plan_north_deg) < 3, `${site.plan_north_deg}`);
    return `${hands.actions} actions`;
  };
}
/** A plot that is there, and north to be measured. */
async function at_north(at, by) {
  const hands = await at_steps(at, by, []);
  const { head } = await at.state("found");
  await at.served.post(`/api/gardens/${at.garden}/edits`, { scheme: "found", ...kRough, command: `plot-${at.garden}`, change: head.change });
  await hands.page.getByText(/points true north/).waitFor();
  return hands;
}

looking["a height from a shadow and the clock, and the skyline in fists"] = async (at) => {
  const hands = await at_plot(at, "mouse", ["north", "level"]);
  const { page } = hands;
  await hands.tap(page.getByRole("button", { name: "Tree", exact: true }));
  await page.getByRole("form", { name: "Draw: Tree" }).waitFor();
  const sheet = await page.locator(".plan").first().boundingBox();
  await hands.tap_at([sheet.x + sheet.width / 2, sheet.y + sheet.height / 2]);
  await hands.tap(page.getByRole("button", { name: "From the shadow of apple" }));
  const day = page.locator(".step-part input[type=date]");
  await day.fill("2026-06-21");
  await page.locator(".step-part input[type=time]").fill("02:00");
  await page.getByLabel("Its shadow is").fill("3");
  await page.getByText(/the sun is down/i).waitFor();
  const noon = await at.served.post(`/api/gardens/${at.garden}/measure`, { what: "noon", day: "2026-06-21" });
  await page.locator(".step-part input[type=time]").fill(noon.clock);
  await page.getByText(/m high, ± /).waitFor();
  await hands.tap(page.getByRole("button", { name: "Take this height" }));
  await until(async () => (await at.thing("apple", "found")).fields.height_m.value !== 4, "the height is taken");
  const apple = await at.thing("apple", "found");
  // Closed form: the sun stands 90° − 48.41° + 23.44° high; three metres of shadow.
  const high = 3 * Math.tan(((90 - 48.41 + 23.44) * Math.PI) / 180);
  check(Math.abs(apple.fields.height_m.value - high) < 0.15, `${apple.fields.height_m.value} and ${high}`);
  equal(apple.fields.guessed.value, ["crown_width_m"], "it is measured, the crown is not");
  equal(apple.mark, "existing", "no change, but as it is");

  await hands.tap(page.getByRole("button", { name: "The far skyline, in fists" }));
  const south = page.getByLabel("Fists, South", { exact: true });
  for (const [text, why] of [["two", /counted in figures/], ["12", /cannot be: overhead is 9 fists/]]) {
    await south.fill(text);
    await hands.tap(page.getByRole("button", { name: "Keep this skyline" }));
    await page.locator(".skyline li", { hasText: "South" }).getByRole("alert").filter({ hasText: why }).waitFor();
    equal(await south.getAttribute("aria-invalid"), "true", "refused where it is typed");
  }
  await south.fill("1.5");
  await hands.tap(page.getByRole("button", { name: "Fists, West: more" }));
  await hands.tap(page.getByRole("button", { name: "Keep this skyline" }));
  await until(async () => (await at.state("found")).singles.ground.horizon !== undefined, "the skyline is kept");
  const { horizon, guessed } = (await at.state("found")).singles.ground;
  equal(horizon.value.filter(([, up]) => up > 0), [[180, 15], [270, 5]], "ten degrees a fist");
  check(guessed.value.includes("horizon"), "guessed");
};

looking["in feet where one measures so"] = async (at) => {
  const hands = await at_begin(at, "mouse");
  const { page } = hands;
  await at_town(hands, "boston/");
  const { site } = await begun(at, page);
  equal([site.units, site.time_zone], ["imperial", "America/New_York"], "measures and clocks");
  await type_sides(hands, ["30", "40 ft 6 in", "30", "40' 6\"", "50.4"]);
  check(/sq ft|ft²/.test(await page.locator(".step-told").innerText()), await page.locator(".step-told").innerText());
  check(/± \d+ in/.test(await page.locator(".step-told").innerText()), await page.locator(".step-told").innerText());
  await hands.key("Enter");
  await until(async () => (await at.state("found")).boundary.length === 4, "kept");
  const { boundary } = await at.state("found");
  check(Math.abs(boundary[1][0] - 30 * 0.3048) < 1e-6, JSON.stringify(boundary));
  check(/30 ft/.test(await at.document()), "as it was typed");
};

looking["the plot's own coordinates take the place of a town's"] = async (at) => {
  const hands = await at_begin(at, "mouse");
  const { page } = hands;
  await at_town(hands);
  await begun(at, page);
  await hands.tap(page.getByRole("button", { name: /^\d? ?Place/ }));
  await page.getByLabel(/Its own coordinates/).fill("48.4012, -4.3971");
  await hands.tap(page.getByRole("button", { name: "Keep this place" }));
  await until(async () => Math.abs((await at.state("found")).site.latitude_deg - 48.4012) < 1e-6, "it is told");
  equal((await at.state("found")).singles.garden.guessed.value, ["plan_north_deg", "elevation_m"], "and no guess any more");
};

editing["a height from its shadow is the thing's own as found, also from the proposal"] = async (at) => {
  const hands = await at.hands("mouse", "/proposed/medlar");
  const { page } = hands;
  await hands.tap(page.getByRole("button", { name: "Its height from its shadow" }));
  await page.locator(".step-part input[type=date]").fill("2026-06-21");
  await page.locator(".step-part input[type=time]").fill("17:00");
  await page.getByLabel("Its shadow is").fill("5.5");
  await page.getByText(/m high, ± /).waitFor();
  const told = Number(/([\d.]+) m high/.exec(await page.locator(".step-part").innerText())[1]);
  await hands.tap(page.getByRole("button", { name: "Take this height" }));
  await until(async () => Math.abs((await at.thing("medlar", "found")).fields.height_m.value - told) < 0.08, "as found");
  equal((await at.thing("medlar")).mark, "existing", "nothing is changed in the proposal");
  await hands.undo();
  await until(async () => (await at.thing("medlar", "found")).fields.height_m.value === 5, "one step to undo");
};

looking["a plot is kept while nobody answers, and drawn when somebody does"] = async (at) => {
  const hands = await at_steps(at, "mouse");
  const { page } = hands;
  await page.context().setOffline(true);
  for (const [label, side] of [["From 1 to 2", "10"], ["From 2 to 3", "12"], ["From 3 to 4", "10"], ["From 4 back to 1", "12"], ["Across, from 1 to 3", "15.6"]]) await page.getByLabel(label).fill(side);
  await page.getByText(/^Kept here/).first().waitFor();
  await hands.tap(page.getByRole("button", { name: "Keep this plot" }));
  equal((await at.state("found")).boundary, [], "it waits");
  await page.context().setOffline(false);
  await until(async () => (await at.state("found")).boundary.length === 4, "it is kept");
};

looking["a fall that was seen on the page stays there when north is mended, and the steps show what is kept"] = async (at) => {
  const hands = await at_plot(at, "mouse");
  const { page } = hands;
  await press(hands, "down and left", "d");
  await press(hands, "Waist", "w");
  await press(hands, "Keep this fall", "k");
  const ground = async () => (await at.state("found")).singles.ground;
  await until(async () => (await ground()).toward_deg?.value === 225, "down and left of a page that looks north");
  await hands.tap(page.getByRole("button", { name: /^\d? ?Level/ }));
  await until(async () => (await page.getByRole("textbox", { name: "It falls" }).inputValue()) === "1 m", "the fall that is kept");
  check(await page.getByRole("button", { name: "down and left" }).getAttribute("aria-pressed") === "true", "and its way");
  await hands.tap(page.getByRole("button", { name: /^\d? ?North/ }));
  await page.getByLabel("North lies").fill("90");
  await hands.tap(page.getByRole("button", { name: "So says the shadow" }));
  await until(async () => (await at.state("found")).site.plan_north_deg === 270, "north is to the right");
  equal((await ground()).toward_deg.value, 135, "and the water runs as it did on the page");
  await hands.undo();
  await until(async () => (await ground()).toward_deg.value === 225, "one step");
};

looking["steps are left for later, taken up again, and folded to a word"] = async (at) => {
  const hands = await at_steps(at, "mouse");
  const { page } = hands;
  const lines = () => page.locator(".first-step.is-open .first-step-says").allInnerTexts();
  equal(await lines(), ["Plot"], "the first that waits");
  await hands.tap(page.getByRole("button", { name: "Later" }));
  equal(await lines(), ["North"], "then the next");
  await page.reload();
  await page.getByRole("heading", { name: "First steps" }).waitFor();
  await until(async () => (await lines())[0] === "North", "also after a reload");
  await hands.tap(page.getByRole("button", { name: /^\d? ?Plot/ }));
  equal(await lines(), ["Plot"], "taken up again");
  await page.getByLabel("From 2 to 3").fill("14");
  await hands.tap(page.getByRole("button", { name: /^\d? ?North/ }));
  await hands.tap(page.getByRole("button", { name: /^\d? ?Plot/ }));
  const typed = () => page.getByLabel("From 2 to 3").inputValue();
  await until(async () => (await typed()) === "14", async () => `what was typed is still there: ${await typed()}`);
  await page.reload();
  await page.getByRole("button", { name: /^\d? ?Plot/ }).click();
  await until(async () => (await typed()) === "14", "also after a reload");
  await hands.tap(page.getByRole("button", { name: "That will do" }));
  await page.getByRole("button", { name: "First steps" }).waitFor();
  equal(await page.locator(".laid path").count(), 0, "nothing is left on the sheet");
  await hands.tap(page.getByRole("button", { name: "First steps" }));
  await page.getByRole("heading", { name: "First steps" }).waitFor();
  // What is guessed leads to the step that measures it.
  await hands.tap(page.locator("button.guess", { hasText: "north" }));
  equal(await lines(), ["North"], "north");
};

const on_sheet = (page) => page.evaluate(() => document.activeElement?.dataset.region === "sheet");

/** A grey picture of that many pixels. */
function png(width, height) {
  const crc = (bytes) => {
    let c = ~0;
    for (const byte of bytes) {
      c ^= byte;
      for (let i = 0; i < 8; ++i) c = c & 1 ? (c >>> 1) ^ 0xedb88320 : c >>> 1;
    }
    return ~c >>> 0;
  };
  const chunk = (name, data) => {
    const body = Buffer.concat([Buffer.from(name), data]);
    const out = Buffer.alloc(body.length + 8);
    out.writeUInt32BE(data.length, 0);
    body.copy(out, 4);
    out.writeUInt32BE(crc(body), body.length + 4);
    return out;
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 0, 0, 0, 0], 8);
  const rows = Buffer.alloc((width + 1) * height, 150);
  for (let y = 0; y < height; ++y) rows[y * (width + 1)] = 0;
  return Buffer.concat([Buffer.from("89504e470d0a1a0a", "hex"), chunk("IHDR", head), chunk("IDAT", deflateSync(rows)), chunk("IEND", Buffer.alloc(0))]);
}

for (const by of kHands) {
  looking[`a plot over a picture scaled by two points, by ${by}`] = async (at) => {
    const hands = await at_steps(at, by);
    const { page } = hands;
    await press(hands, "From a picture", "f");
    const field = page.locator('.step-form input[type="file"]');
    await field.setInputFiles({ name: "garden.gif", mimeType: "image/gif", buffer: Buffer.from("GIF89a, and more") });
    await page.locator(".step-form .problems").waitFor();
    await field.setInputFiles({ name: "garden.png", mimeType: "image/png", buffer: png(400, 300) });
    const picture = page.locator(".laid-picture");
    await picture.waitFor();
    await page.waitForTimeout(500);
    // Its width from edge to edge at a third of its height: 24 m.
    const box = await picture.boundingBox();
    const y = box.y + box.height / 3;
    if (by === "keys") {
      await until(() => on_sheet(page), "the keys are the sheet's");
      await hands.keys("Home", "Enter", "End", "Enter");
    } else {
      await hands.tap_at([box.x + 1, y]);
      await hands.tap_at([box.x + box.width - 1, y]);
    }
    const far = page.getByLabel("From a to b");
    if (by === "mouse") { // the step is taken up again where it was left
      await far.fill("7");
      await page.reload();
      await picture.waitFor();
      await until(async () => (await far.inputValue()) === "7", "its points and figure are there");
      await far.fill("");
      await far.focus();
    }
    if (by === "touch") await hands.tap(far);
    else await until(() => far.evaluate((one) => one === document.activeElement), "the distance is at hand");
    await hands.type("24");
    if (by === "keys") await hands.key("Enter");
    else await hands.tap(page.getByRole("button", { name: /Lay it under/ }));
    await page.getByRole("form", { name: "Draw: Boundary" }).waitFor();
    if (by === "mouse") equal(await page.locator(".first-step.is-open .first-step-says").allInnerTexts(), ["Plot"], "the step goes on");
    const { things } = await at.state("found");
    const laid = things.find((thing) => thing.table === "picture");
    check(Math.abs(laid.fields.width_m.value - 24) < 0.4, JSON.stringify(laid.fields));
    equal(laid.fields.file.value, "garden.png", "its file");
    await page.waitForTimeout(400);
    const now = await picture.boundingBox();
    const sheet = await page.locator(".plan").first().boundingBox();
    check(now.x >= sheet.x && now.y >= sheet.y && now.x + now.width <= sheet.x + sheet.width && now.y + now.height <= sheet.y + sheet.height, "all of it can be seen");
    if (by === "keys") {
      // Sides typed: half the picture's.
      await page.locator(".draw-strip").getByLabel("across").fill("12");
      await page.locator(".draw-strip").getByLabel("deep").fill("9");
      await hands.key("Enter");
    } else await hands.drag([now.x + now.width * 0.25, now.y + now.height * 0.8], [now.x + now.width * 0.75, now.y + now.height * 0.2]);
    await until(async () => (await at.state("found")).boundary.length === 4, "the plot is drawn over it");
    const { boundary, singles } = await at.state("found");
    const wide = Math.max(...boundary.map(([x]) => x)) - Math.min(...boundary.map(([x]) => x));
    check(Math.abs(wide - 12) < 0.8, `half the picture's width: ${wide}`);
    equal(singles.boundary.guessed.value, ["outline"], "guessed");
    await page.reload();
    await picture.waitFor();
    hands.within(7);
    // It is a thing like others: in the list, turned by its figure, taken away.
    if (by === "keys") return `${hands.actions} actions`;
    await hands.tap(page.getByRole("button", { name: "List" }).first());
    await hands.tap(page.locator(".list-thing", { hasText: "picture" }));
    await page.locator(".thing-name", { hasText: "picture" }).waitFor();
    if (by === "mouse") {
      await page.getByRole("button", { name: "More facts that it may have" }).click();
      await page.getByLabel("turn", { exact: true }).fill("12");
      await until(async () => (await at.thing("picture", "found")).fields.turn_deg?.value === 12, "it is turned");
      await until(async () => /rotate\(-12deg\)/.test(await picture.getAttribute("style")), () => picture.getAttribute("style"));
      // By hand: moved by its grip, turned by the round one.
      const key_of = async (key) => (await at.thing("picture", "found")).fields[key].value;
      const was = await key_of("at");
      await hands.tap(page.locator(".list-head").getByRole("button", { name: "Close" }));
      await page.waitForTimeout(500); // the sheet has its whole room again
      const grip = await page.locator(".grip").boundingBox();
      const from = [grip.x + 24, grip.y + 24];
      await hands.drag(from, [from[0] + (from[0] > 500 ? -60 : 60), from[1]]);
      await until(async () => Math.abs((await key_of("at"))[0] - was[0]) > 0.5, "it is moved");
      await hands.tap(page.locator(".deeds").getByRole("button", { name: "Turn", exact: true }));
      await page.getByRole("button", { name: /^Turn picture/ }).focus();
      await hands.keys("ArrowLeft", "ArrowLeft", "Enter");
      await until(async () => (await key_of("turn_deg")) === 22, "it is turned by hand");
      await until(async () => /rotate\(-22deg\)/.test(await picture.getAttribute("style")), "and is seen so");
      const middle = async () => {
        const { fields } = await at.thing("picture", "found");
        const [x, y] = fields.at.value, turn = (fields.turn_deg.value * Math.PI) / 180, [w, h] = [fields.width_m.value / 2, (fields.width_m.value * 3) / 8];
        return [x + w * Math.cos(turn) - h * Math.sin(turn), y + w * Math.sin(turn) + h * Math.cos(turn)];
      };
      const stood = await middle();
      await hands.keys("ArrowRight", "Enter");
      await until(async () => (await key_of("turn_deg")) === 17, "and back");
      const stands = await middle();
      check(Math.hypot(stands[0] - stood[0], stands[1] - stood[1]) < 0.001, `about its middle: ${stood} ${stands}`);
    }
    return `${hands.actions} actions`;
  };
}
