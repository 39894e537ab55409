// The first ten minutes: where it lies, the plot, north, the fall of the ground, what stands around, a
// bed, and the first light.
import { kSizes } from "./browser.mjs";
import { check, equal, Hands, kHands, until } from "./hands.mjs";

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
