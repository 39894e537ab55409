// Entries without a place on the sheet: what is wanted and to hand, the works, prices, the garden itself.
import { attempt, called, open_all, set_fact, set_guesses } from "./facts.mjs";
import { as_typed } from "./person.mjs";

/** Their words in the menu, and what is asked for before they are there. */
const addable = {
  want: { word: "Wanted crop", asks: ["crop", "amount"] },
  stock: { word: "Material to hand", asks: ["material", "amount"] },
  task: { word: "Task", name: "name", asks: ["what", "hours"] },
  labour: { word: "Whose hands, and when", asks: ["start", "finish_by", "hours_per_day"] },
  stand: { word: "Locked place in the plan", asks: ["bed", "crop", "from", "to", "start", "end"] },
  prices: { word: "Price of a material", name: "material", asks: ["pack", "price", "tonnes", "m3"] },
  crop: { word: "Own figures of a crop", name: "crop", asks: ["days_to_pick"] },
  "climate.month": { word: "A month’s weather", asks: ["month", "tmax_c", "tmin_c", "rain_mm"] },
};
const also_called = { m3: "cubic metres" };

/** What there is one of: its line in the list. */
const line_of = { garden: "Place, clock and household", ground: "Soil, fall and skyline", survey: "Survey by tape and level" };

async function open_draw(person, word) {
  await person.press(/^Draw$/);
  await person.press(person.page.locator(".draw-kind", { hasText: new RegExp(`^${word}$`) }));
}

/** What is asked for first, typed; then it is there, and chosen. */
async function add(things, table, entry, name) {
  const { person, page, imperial } = things;
  const { word, name: called_by, asks } = addable[table];
  await open_draw(person, word);
  const form = page.locator(".notes form.part");
  await form.waitFor();
  if (called_by !== undefined) await person.type_in(form.getByLabel(called_by, { exact: true }), name);
  const any = things.keys_of(table).find((key) => key.name === "*");
  for (const key of asks) {
    if (entry[key] === undefined) continue;
    const known = (any?.fields ?? things.keys_of(table)).find((one) => one.name === key);
    const field = form.getByLabel(also_called[key] ?? called(known), { exact: true });
    if (await field.evaluate((one) => one.tagName === "SELECT")) await person.choose(field, String(entry[key]));
    else await person.type_in(field, as_typed(entry[key], known.type, imperial));
  }
  await person.press("Add it");
  await form.waitFor({ state: "detached" });
  await page.locator(".notes ul.facts").first().waitFor({ state: "attached" });
}

async function rest_of(things, table, entry, known_already) {
  const { person, imperial } = things;
  const keys = things.keys_of(table);
  const left = Object.entries(entry).filter(([key]) => !known_already.includes(key));
  if (left.length === 0) return;
  await open_all(person);
  for (const [key, value] of left) await set_fact(person, keys.find(({ name }) => name === key), value, imperial);
}

async function choose_line(things, says) {
  const { person, page } = things;
  const find = page.locator(".list-find input");
  if (!(await find.isVisible())) await person.press(page.getByRole("button", { name: "List" }).first());
  await person.type_in(find, says);
  await person.press(page.locator(".list-thing.is-entry", { hasText: says }).first());
  await page.locator(".thing-name", { hasText: says }).waitFor();
}

async function type_single(things, table, typed_already) {
  const { example, person } = things;
  await choose_line(things, line_of[table]);
  await rest_of(things, table, example[table], ["guessed", ...typed_already]);
  await set_guesses(person, things.keys_of(table), example[table].guessed ?? []);
}

export async function type_tables(things) {
  const { example, person } = things;
  const single = (table, typed_already) => attempt(person, table, () => type_single(things, table, typed_already));
  await things.close_list();
  for (const entry of example.want ?? []) await one(things, "want", entry);
  for (const entry of example.stock ?? []) await one(things, "stock", entry);
  for (const entry of example.task ?? []) await one(things, "task", entry, entry.id);
  for (const entry of example.stand ?? []) {
    await one(things, "stand", entry);
    await attempt(person, `name of ${entry.id}`, async () => things.name_it(await things.page.locator(".thing-name").innerText(), entry.id));
  }
  for (const entry of example.climate?.month ?? []) await one(things, "climate.month", entry);
  for (const [name, entry] of Object.entries(example.prices ?? {})) await one(things, "prices", entry, name);
  for (const [name, entry] of Object.entries(example.crop ?? {})) await one(things, "crop", entry, name);
  await one(things, "labour", example.labour);
  await attempt(person, "raising", async () => {
    await open_draw(person, "Where seedlings stand");
    await rest_of(things, "raising", example.raising, []);
  });
  for (const { id, title, note } of example.scheme ?? [])
    await attempt(person, `scheme ${id}`, async () => {
      await choose_line(things, id);
      await rest_of(things, "scheme", { title, ...(note === undefined ? {} : { note }) }, []);
    });
  const begun = ["title", "latitude_deg", "longitude_deg", "time_zone", "plan_north_deg", "units"];
  await single("garden", begun);
  await single("ground", example.ground.falls_m === undefined ? [] : ["falls_m", "toward_deg", "over"]);
  if (example.survey !== undefined) await single("survey", []);
}

const one = (things, table, entry, name) =>
  attempt(things.person, `${table} ${name ?? entry.crop ?? entry.material ?? ""}`, async () => {
    await add(things, table, entry, name);
    await rest_of(things, table, entry, table === "prices" ? Object.keys(entry) : ["id", ...addable[table].asks]);
  });
