// What a grower does in the app, in a real browser, within LOOK's numbers of actions: by mouse, by
// touch, by keyboard.  node journeys.mjs build/spadework [only]
// `looking` journeys share Ker Avel; `editing` ones have a small garden of their own, some a Ker Avel;
// `alone` ones have a server.
import { readFileSync } from "node:fs";
import { launch, Served } from "./browser.mjs";
import { Journey } from "./journey.mjs";
import * as asking from "./asking.mjs";
import * as beginning from "./beginning.mjs";
import * as changing from "./changing.mjs";
import * as cutting from "./cutting.mjs";
import * as drawing from "./drawing.mjs";
import * as fitting from "./fitting.mjs";
import * as forming from "./forming.mjs";
import * as keeping from "./keeping.mjs";
import * as naming from "./naming.mjs";
import * as regions from "./regions.mjs";
import * as sighting from "./sighting.mjs";
import * as shelf from "./shelf.mjs";
import * as touching from "./touching.mjs";
import * as weather from "./weather.mjs";

const [program, only = ""] = process.argv.slice(2);
const at_once = 2;
const served = await Served.start(program);
const browser = await launch();
const shared = await served.example("ker-avel");
const large = await (await fetch(`${served.url}api/gardens/${shared}/document`)).text();
const small = readFileSync(new URL("small_garden.toml", import.meta.url), "utf8");

async function begin(kind) {
  if (kind === "looking") return new Journey(browser, served, shared);
  const of_its_own = async (document) => new Journey(browser, served, (await served.post("/api/gardens", { document })).id);
  if (kind === "editing") return of_its_own(small);
  if (kind === "editing_ker_avel") return of_its_own(large);
  return new Journey(browser, null, null); // it begins its own server
}

let failed = 0;
async function run({ kind, name, journey }) {
  const begun = Date.now();
  const at = await begin(kind);
  at.program = program;
  try {
    const note = await journey(at);
    at.nothing_wrong();
    console.log(`ok      ${name}${note === undefined ? "" : `: ${note}`} (${Date.now() - begun} ms)`);
  } catch (error) {
    const number = (failed += 1);
    await at.pictures(`${process.env.FAILED_TO ?? "/tmp"}/failed-${number}`);
    console.log(`FAILED  ${name}: ${error.message.split("\n").slice(0, 6).join(" ")} [failed-${number}]`);
  }
  await at.close();
  if (at.served !== served) await at.served?.close();
}

const waiting = [];
for (const topic of [beginning, keeping, changing, forming, drawing, sighting, asking, cutting, touching, fitting, naming, regions, shelf, weather])
  for (const kind of ["alone", "editing_ker_avel", "editing", "looking"])
    for (const [name, journey] of Object.entries(topic[kind] ?? {}))
      if (name.includes(only)) waiting.push({ kind, name, journey });

const begun = Date.now();
const count = waiting.length;
async function work() {
  for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) await run(next);
}
await Promise.all(Array.from({ length: at_once }, work));
await browser.close();
await served.close();
console.log(`${count} journeys, ${failed} failed, ${Math.round((Date.now() - begun) / 1000)} s`);
process.exit(failed === 0 && count > 0 ? 0 : 1);
