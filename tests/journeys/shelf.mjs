// The shelf: an example looked into, what can be taken out, a document brought in, a garden taken off
// and put back.
import { readFileSync } from "node:fs";
import { kSizes, Served } from "./browser.mjs";
import { check, equal, Hands, kHands, settled, until } from "./hands.mjs";

export const looking = {};
export const editing = {};
export const alone = {};

async function on_shelf(at, by) {
  const page = await at.page(by === "touch" ? kSizes.phone : kSizes.desk);
  await page.goto(at.served.url);
  await page.getByRole("heading", { name: "Your gardens" }).waitFor();
  return new Hands(page, by);
}
/** A document brought in by the file's field. */
async function bring_in(hands, name, text) {
  const chooser = hands.page.waitForEvent("filechooser");
  if (hands.by === "keys") await hands.keys("F6", "c", "Enter");
  else await hands.tap(hands.page.locator(".bring-in"));
  await (await chooser).setFiles({ name, mimeType: "text/plain", buffer: Buffer.from(text) });
}
/** A row of the menu "More" that takes something out. */
async function take_out(hands, says, letters) {
  const { page } = hands;
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    (async () => {
      if (hands.by === "keys") {
        if ((await page.locator(".menu-paper").count()) === 0) await hands.keys("F6", "Shift+F6", "m", "Enter");
        await hands.keys(...letters, "Enter");
      } else {
        if ((await page.locator(".menu-paper").count()) === 0) await hands.tap(page.getByRole("button", { name: "More", exact: true }));
        await hands.tap(page.getByRole("link", { name: says }));
      }
    })(),
  ]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

for (const by of kHands) {
  alone[`an example is looked into, and its copy is the grower's own, by ${by}`] = async (at) => {
    at.served = await Served.start(at.program); // others would put gardens between the words
    const hands = await on_shelf(at, by);
    if (by === "keys") {
      await hands.key("F6");
      const example = hands.page.locator(".shelf-examples button", { hasText: "Tussock" });
      const is_there = () => example.evaluate((one) => one === document.activeElement);
      for (let i = 0; i < 30 && !(await is_there()); ++i) await hands.key("t");
      await hands.key("Enter");
    } else await hands.tap(hands.page.locator(".shelf-examples button", { hasText: "Tussock" }));
    await settled(hands.page);
    const title = await hands.page.locator("h1").innerText();
    check(/Tussock/.test(title), title);
    const shelf = await at.served.get("/api/gardens");
    check(shelf.gardens.some((one) => one.title === title), "on the shelf");
    return `${hands.actions} actions`;
  };

  editing[`a garden taken out and brought in again is the same, by ${by}`] = async (at) => {
    const hands = await at.hands(by, "/proposed/long-bed");
    const document = await take_out(hands, "The garden document (TOML)", ["t", "t", "t", "t"]);
    const actions = hands.actions;
    equal(document.bytes.toString(), await at.document(), "the document");
    check(/\.toml$/.test(document.name), document.name);
    if (by === "mouse") {
      const svg = await take_out(hands, "The sheet as a picture (SVG)");
      check(/^<svg|^<\?xml/.test(svg.bytes.toString()) && /\.svg$/.test(svg.name), svg.name);
      const png = await take_out(hands, "The sheet as a picture (PNG)");
      check(png.bytes.subarray(1, 4).toString() === "PNG" && /\.png$/.test(png.name), png.name);
      const csv = await take_out(hands, "The places’ figures as a table (CSV)");
      const bed = await at.place("long-bed");
      const [head, ...rows] = csv.bytes.toString().trim().split(/\r?\n/).map((row) => row.split(","));
      const row = rows.find((one) => one[head.indexOf("place")] === "long-bed" && one[head.indexOf("month")] === "6");
      const june = bed.months.find((one) => one.month === 6).sun_h_per_day;
      check(Math.abs(Number(row[head.indexOf("sun_h_per_day")]) - june) < 0.0006, `${row}: ${june}`);
    }
    const shelf = await on_shelf(at, by);
    await bring_in(shelf, document.name, document.bytes);
    await settled(shelf.page);
    const id = await shelf.page.evaluate(() => location.hash.slice(1).split("/")[0]);
    check(id !== at.garden, "a garden of its own");
    const again = await (await fetch(`${at.served.url}api/gardens/${id}/document`)).text();
    equal(again, document.bytes.toString(), "the document again");
    return `${actions} and ${shelf.actions} actions`;
  };

  looking[`a document that is broken tells its lines, by ${by}`] = async (at) => {
    const hands = await on_shelf(at, by);
    const gardens = (await at.served.get("/api/gardens")).gardens.length;
    await bring_in(hands, "broken.toml", "format = 1\n[garden]\ntitle = 3\nlatitude_deg = 95\n");
    const told = hands.page.getByRole("alert");
    await told.first().waitFor();
    const words = await told.first().innerText();
    check(/line 3/.test(words) && /line 4/.test(words) && /broken\.toml was not brought in/.test(words), words);
    equal((await at.served.get("/api/gardens")).gardens.filter((one) => one.title === "3").length, 0, "nothing half made");
    check(gardens > 0, "gardens");
  };

  looking[`a garden is taken off the shelf and put back, by ${by}`] = async (at) => {
    const title = `To take off by ${by}`;
    const document = (await at.document()).replace(/title = ".*"/, `title = "${title}"`);
    await at.served.post("/api/gardens", { document });
    const hands = await on_shelf(at, by);
    const is_there = async () => (await at.served.get("/api/gardens")).gardens.some((one) => one.title === title);
    const off = hands.page.getByRole("button", { name: `Take ${title} off the shelf` });
    await off.waitFor();
    if (by === "keys") {
      await off.focus();
      await hands.key("Enter");
    } else await hands.tap(off);
    await until(async () => !(await is_there()), "it is off");
    await hands.button("Put it back").waitFor();
    if (by === "keys") await hands.keys("F6", "p", "Enter");
    else await hands.tap(hands.button("Put it back"));
    await until(is_there, "it is back");
  };
}
