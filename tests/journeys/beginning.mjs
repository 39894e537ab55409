// The first ten minutes: where it lies, the plot, north, the fall of the ground, what stands around, a
// bed, and the first light.
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
  check(await page.getByRole("button", { name: "Begin here" }).isDisabled(), "nowhere to begin");
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
    const middle = [sheet.x + sheet.width / 2, sheet.y + sheet.height / 2];
    if (by === "keys") await hands.keys("Shift+ArrowLeft", "Shift+ArrowDown", "Enter");
    else await hands.tap_at([middle[0], middle[1] + 60]);
    await until(async () => (await at.state("found")).things.some((thing) => thing.table === "tree" && thing.mark === "existing"), "the tree stands there as found");
    equal(await page.locator(".scheme-word[aria-pressed=true], .schemes-menu .menu-opener").first().innerText(), "As found", "what stands there is drawn as found");
    await press(hands, "That is all", "t");
    await press(hands, "Draw a bed", "d");
    await page.getByRole("form", { name: "Draw: Bed" }).waitFor();
    if (by === "keys") await hands.keys("Enter");
    else await hands.tap_at([middle[0], middle[1] - 30]);
    const head = page.locator(".headline-figure").first();
    await head.waitFor();
    await settled(page);
    check(/\d (h|why)[^]*of sun a day, April to September/.test(await head.innerText()), await head.innerText());
    await page.getByRole("button", { name: "Try without apple" }).waitFor();
    const bed = (await at.served.get(`/api/gardens/${at.garden}/places`)).places.find((place) => place.kind === "bed");
    equal((await at.state()).things.map((thing) => [thing.id, thing.mark]), [["apple", "existing"], ["bed", "proposed"]], "what is there and what is new");
    check(bed.sun_h_per_day > 3 && bed.sun_h_per_day < 16, `${bed.sun_h_per_day}`);
    hands.within(by === "touch" ? 28 : 24, by === "touch" ? 210 : 150);
    return `${hands.actions} actions, ${hands.seconds.toFixed(0)} s`;
  };
}
