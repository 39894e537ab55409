// The demo garden at the first start; a weather file that a document wants, given and taken back.
import { kSizes, Served } from "./browser.mjs";
import { check, equal, Hands, kHands, settled, until } from "./hands.mjs";

export const alone = {};
export const editing = {};

/** Ten years of days, each month a little sunnier than at the stations: 1 January 2010 and on. */
function days(sunshine_h) {
  const rows = ["date,tmin_c,tmax_c,rain_mm,sunshine_h"];
  for (let day = new Date(Date.UTC(2010, 0, 1)); day < new Date(Date.UTC(2020, 0, 1)); day.setUTCDate(day.getUTCDate() + 1))
    rows.push(`${day.toISOString().slice(0, 10)},8,17,2.1,${sunshine_h}`);
  return `${rows.join("\n")}\n`;
}

alone["the first start opens the demo garden"] = async (at) => {
  at.served = await Served.start(at.program);
  const page = await at.page();
  await page.goto(`${at.served.url}?example=ker-avel`);
  await settled(page);
  equal(await page.locator("h1").innerText(), "Ker Avel", "its title");
  equal((await at.served.get("/api/gardens")).gardens.map((one) => one.id), ["ker-avel"], "on the shelf");
  await page.reload();
  await settled(page);
  equal((await at.served.get("/api/gardens")).gardens.length, 1, "no second one");
};

for (const by of kHands) {
  editing[`a weather file that is wanted: a broken one refused, the right one taken, undone, by ${by}`] = async (at) => {
    const document = (await at.document()).replace("[garden]", '[climate]\nweather_file = "own-days.csv"\n\n[garden]');
    at.garden = (await at.served.post("/api/gardens", { document })).id;
    const page = await at.open(by === "touch" ? kSizes.phone : kSizes.desk);
    const hands = new Hands(page, by);
    await page.getByText("own-days.csv is wanted").waitFor();
    const light = async () => (await at.served.get(`/api/gardens/${at.garden}/places`)).places[0].dli_mol_m2_d;
    const by_stations = await light();
    const give = async (words, text) => {
      const chooser = page.waitForEvent("filechooser");
      const field = page.getByLabel(words);
      if (by === "keys") {
        await field.focus();
        await hands.key("Enter");
      } else await hands.tap(page.locator(".weather .bring-in"));
      await (await chooser).setFiles({ name: "own-days.csv", mimeType: "text/csv", buffer: Buffer.from(text) });
    };
    await give("Give the garden own-days.csv", "date,tmin_c,tmax_c\n2010-01-01,3,9\n2010-01-02,x,9\n");
    const told = page.locator('.weather [role="alert"]');
    await told.waitFor();
    check(/line 3/.test(await told.innerText()) && /nothing has changed/.test(await told.innerText()), await told.innerText());
    equal(await light(), by_stations, "the light");
    const right = days(9);
    await give("Give the garden own-days.csv", right);
    await page.getByText("From the weather file own-days.csv").waitFor();
    await until(async () => (await light()) > by_stations + 1, "more light");
    const kept = await fetch(new URL(`/api/gardens/${at.garden}/files?name=own-days.csv`, at.served.url));
    equal(await kept.text(), right, "the file again");
    const stations = page.getByRole("button", { name: "Take the stations instead" });
    if (by === "keys") {
      await stations.focus();
      await hands.key("Enter");
    } else await hands.tap(stations);
    await until(async () => (await light()) === by_stations, "the stations’ light");
    await hands.undo();
    await until(async () => (await light()) > by_stations + 1, "the file’s light again");
  };
}
