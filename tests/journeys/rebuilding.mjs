// The example gardens rebuilt from nothing in a real browser, by mouse and keys alone, as a newcomer would
// who has them on paper; what the app keeps of it must mean the same as the example.
//   node rebuilding.mjs build/spadework [part of an example's name]
import { execFile } from "node:child_process";
import { copyFileSync, mkdtempSync, readdirSync, rmSync, writeFileSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { kSizes, launch, page_of, Served } from "./browser.mjs";
import { begin } from "./rebuild/begin.mjs";
import { Person } from "./rebuild/person.mjs";
import { Things } from "./rebuild/things.mjs";
import { type_tables } from "./rebuild/tables.mjs";

const [program, only = ""] = process.argv.slice(2);
const run = promisify(execFile);
const here = (path) => new URL(path, import.meta.url).pathname;
const examples = here("../../examples");
const kept_in = process.env.REBUILT_IN ?? null; // what is rebuilt stays there

/** The example by another reader than Spadework's. */
async function read_example(path) {
  const { stdout } = await run("python3", ["-c", "import json, sys, tomllib; print(json.dumps(tomllib.load(open(sys.argv[1], 'rb')), default=str))", path]);
  return JSON.parse(stdout);
}

/** The document as the app hands it out. */
async function taken_out(person) {
  const { page } = person;
  await person.press(page.getByRole("button", { name: "More", exact: true }));
  const [download] = await Promise.all([page.waitForEvent("download"), person.press(page.getByRole("link", { name: /document/i }).first())]);
  return download.path();
}

const by_id = (a, b) => String(a?.id ?? "").localeCompare(String(b?.id ?? ""));
/** Nothing but names of files may differ; sums in another order by a hair. */
function differing(one, other, at = "") {
  if (typeof one === "number" && typeof other === "number") return Math.abs(one - other) <= 1e-6 * Math.max(1, Math.abs(one)) ? [] : [`${at}: ${one} and ${other}`];
  if (Array.isArray(one) && Array.isArray(other) && one.length === other.length) {
    const sorted = (list) => (list[0]?.id === undefined ? list : [...list].sort(by_id));
    const [a, b] = [sorted(one), sorted(other)];
    return a.flatMap((value, i) => differing(value, b[i], `${at}/${value?.id ?? i}`));
  }
  if (typeof one === "object" && typeof other === "object" && one !== null && other !== null && !Array.isArray(one))
    return [...new Set([...Object.keys(one), ...Object.keys(other)])].flatMap((key) => (/^(file|document|path|garden_file)$/.test(key) ? [] : differing(one[key], other[key], `${at}/${key}`)));
  return one === other ? [] : [`${at}: ${JSON.stringify(one)?.slice(0, 60)} and ${JSON.stringify(other)?.slice(0, 60)}`];
}
async function light_differs(wanted, got, schemes) {
  const of = async (path, scheme) => JSON.parse((await run(program, ["light", path, "--json", "--scheme", scheme], { maxBuffer: 1 << 28 })).stdout);
  const told = [];
  for (const scheme of schemes) {
    const [a, b] = await Promise.all([of(wanted, scheme), of(got, scheme)]);
    told.push(...differing(a, b).slice(0, 5).map((line) => `light, ${scheme}${line}`));
  }
  return told;
}

async function rebuild(browser, served, schema, name, folder) {
  const begun = Date.now();
  const path = join(examples, `${name}.toml`);
  const example = await read_example(path);
  const page = await page_of(browser, kSizes.tablet);
  page.setDefaultTimeout(Number(process.env.PATIENCE ?? 20_000));
  const person = new Person(page, name);
  const got = join(folder, `${name}.toml`);
  let told = [];
  try {
    await begin(person, served.url, example);
    const things = new Things(person, example, schema);
    await things.as_found();
    await things.as_proposed();
    await things.sights();
    await things.refer();
    await things.other_ways();
    await type_tables(things);
    copyFileSync(await taken_out(person), got);
    told.push(...person.could_not);
    if (page.wrong.length > 0) told.push(`the console: ${page.wrong.join("; ")}`);
  } catch (error) {
    const picture = join(process.env.FAILED_TO ?? tmpdir(), `failed-rebuilding-${name}.png`);
    await page.screenshot({ path: picture }).catch(() => {});
    told.push(`it ended: ${error.message.split("\n").slice(0, 4).join(" ")}`);
    const id = await page.evaluate(() => decodeURIComponent(location.hash.slice(1).split("/")[0])).catch(() => "");
    const left = await fetch(`${served.url}api/gardens/${id}/document`).then((answer) => answer.text()).catch(() => "");
    writeFileSync(got, left);
  }
  const seconds = Math.round((Date.now() - begun) / 1000);
  await page.context().close();
  const compared = await run("python3", [here("same_meaning.py"), path, got]).catch((error) => error);
  if (compared.code !== undefined) told.push(...compared.stdout.trim().split("\n"));
  if (told.length === 0) told = await light_differs(path, got, ["found", "proposed", ...(example.scheme ?? []).map(({ id }) => id)]);
  console.log(`${told.length === 0 ? "ok     " : "DIFFERS"} ${name}: ${person.actions} actions, ${seconds} s`);
  if (process.env.TIMES !== undefined) console.log(JSON.stringify(person.waited));
  for (const line of told) console.log(`        ${line}`);
  return told.length === 0;
}

const names = readdirSync(examples).filter((file) => file.endsWith(".toml")).map((file) => file.replace(".toml", "")).filter((name) => name.includes(only));
const folder = kept_in ?? mkdtempSync(join(tmpdir(), "spadework-rebuilt-"));
const served = await Served.start(program);
const browser = await launch();
const schema = await served.get("/api/schema");
// The largest first; two at once, as many as there are cores on a small machine.
const waiting = names.sort((a, b) => statSync(join(examples, `${b}.toml`)).size - statSync(join(examples, `${a}.toml`)).size);
const all = [];
async function work() {
  for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) all.push(await rebuild(browser, served, schema, next, folder));
}
const count = names.length;
await Promise.all([work(), work()]);
await browser.close();
await served.close();
if (kept_in === null) rmSync(folder, { recursive: true, force: true });
process.exit(count > 0 && all.every((is_same) => is_same) ? 0 : 1);
