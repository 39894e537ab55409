// The program answers as web/openapi.json says, every question of it, with no key more or less than
// that.  node contract.mjs build/spadework
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { Served } from "./browser.mjs";

const web = createRequire(new URL("../../web/package.json", import.meta.url));
const Ajv = web("ajv/dist/2020").default;
const contract = JSON.parse(readFileSync(new URL("../../web/openapi.json", import.meta.url), "utf8"));
const wrong = [];

/** Schemas that others are made of may be added to; of all others every key is named. */
function close(node, is_part = false) {
  if (node === null || typeof node !== "object") return;
  if (!is_part && (node.properties || node.allOf) && node.additionalProperties === undefined) node.unevaluatedProperties = false;
  for (const [key, value] of Object.entries(node)) {
    if (key === "allOf") for (const part of value) close(part, true);
    else close(value, false);
  }
}
const parts = new Set(Object.values(contract.components.schemas).flatMap((one) => (one.allOf ?? []).map((part) => part.$ref?.split("/").at(-1))));
for (const [name, schema] of Object.entries(contract.components.schemas)) if (!parts.has(name)) close(schema);
for (const operation of Object.values(contract.paths)) for (const one of Object.values(operation)) close(one.responses ?? {});

const ajv = new Ajv({ strict: false, allErrors: true });
ajv.addSchema(contract, "contract");
const pointer = (...steps) => steps.map((step) => encodeURIComponent(step.replaceAll("~", "~0").replaceAll("/", "~1"))).join("/");

const asked = new Set();
async function ask(served, verb, path, { at = {}, query = "", body, raw } = {}) {
  asked.add(`${verb} ${path}`);
  const url = new URL(path.replace(/\{(\w+)\}/g, (_, key) => encodeURIComponent(at[key])) + query, served.url);
  const headers = { "X-Spadework": "1", "Content-Type": raw === undefined ? "application/json" : "application/octet-stream" };
  const answer = await fetch(url, verb === "get" ? {} : { method: "POST", headers, body: raw ?? JSON.stringify(body) });
  const operation = contract.paths[path]?.[verb];
  const what = `${verb} ${url.pathname}${url.search}: ${answer.status}`;
  if (operation === undefined) return wrong.push(`${what}: not in the contract`), null;
  const status = operation.responses[answer.status] !== undefined ? String(answer.status) : "default";
  const type = answer.headers.get("content-type").split(";")[0];
  const content = operation.responses[status].content;
  if (content[type] === undefined && content["*/*"] === undefined) wrong.push(`${what}: ${type}, not ${Object.keys(content)}`);
  if (type !== "application/json") return Buffer.from(await answer.arrayBuffer());
  const json = await answer.json();
  const check = ajv.getSchema(`contract#/${pointer("paths", path, verb, "responses", status, "content", type, "schema")}`);
  if (!check(json)) for (const error of check.errors.slice(0, 4)) wrong.push(`${what}: ${error.instancePath} ${error.message} ${JSON.stringify(error.params)}`);
  return json;
}

/** The head of a packed answer. */
function head_of(bytes, schema, what) {
  const head = JSON.parse(bytes.subarray(4, 4 + bytes.readUInt32LE(0)).toString());
  const check = ajv.getSchema(`contract#/components/schemas/${schema}`);
  if (!check(head)) for (const error of check.errors.slice(0, 4)) wrong.push(`${what}: ${error.instancePath} ${error.message} ${JSON.stringify(error.params)}`);
}

const small_png = Buffer.from("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==", "base64");

const served = await Served.start(process.argv[2]);
const G = "/api/gardens/{garden}";
await ask(served, "get", "/api/about");
await ask(served, "get", "/api/schema");
for (const typed of ["brest", "48.41, -4.36", "nowhere at all"]) await ask(served, "get", "/api/towns", { query: `?typed=${encodeURIComponent(typed)}` });
await ask(served, "post", "/api/gardens", { body: { begin: { title: "Plot", latitude_deg: 48.41, longitude_deg: -4.36, time_zone: "Europe/Paris", guessed: ["latitude_deg"] } } });
const shelf = await ask(served, "get", "/api/gardens");
for (const example of shelf.examples) {
  const { id } = await ask(served, "post", "/api/gardens", { body: { example: example.id } });
  const at = { garden: id };
  const state = await ask(served, "get", G, { at });
  for (const scheme of state.schemes ?? ["found", "proposed"]) await ask(served, "get", G, { at, query: `?scheme=${scheme.id ?? scheme}` });
  await ask(served, "get", `${G}/changes`, { at, query: `?change=${state.head.change - 1}` });
  await ask(served, "get", `${G}/document`, { at });
  await ask(served, "get", `${G}/sheet`, { at });
  for (const since of [state.head.change, state.head.change - 1]) {
    await ask(served, "get", G, { at, query: `?since=${since}` });
    await ask(served, "get", `${G}/sheet_changes`, { at, query: `?since=${since}` });
  }
  for (const query of ["", "?day=06-21", "?day=06-21&clock=9.5", "?against=found"]) head_of(await ask(served, "get", `${G}/field`, { at, query }), "FieldHead", `field${query}`);
  const { places } = await ask(served, "get", `${G}/places`, { at, query: "?against=found" });
  const place = places.find((one) => one.kind === "bed") ?? places[0];
  await ask(served, "get", `${G}/takers`, { at, query: `?place=${place.id}` });
  await ask(served, "get", `${G}/inks`, { at });
  head_of(await ask(served, "get", `${G}/print`, { at, query: `?place=${place.id}` }), "PrintHead", "print");
  await ask(served, "get", `${G}/band`, { at });
  await ask(served, "get", `${G}/findings`, { at });
  await ask(served, "get", `${G}/why`, { at, query: `?pointer=/light/places/${place.id}/months/5/dli_mol_m2_d` });
  await ask(served, "get", `${G}/why`, { at, query: "?pointer=/nothing" });
  for (const query of ["?format=svg", "?format=svg&day=06-21&clock=9.5", "?format=png", "?format=bmp"]) await ask(served, "get", `${G}/picture`, { at, query });
  for (const query of ["?from=0,3&to=8,5", "?from=5,0&to=5,6&day=06-21&clock=11&mm_per_m=15", "?from=5,0&to=5,6&day=06-21&clock=0", "?from=1,1&to=1,1"]) await ask(served, "get", `${G}/section`, { at, query });
  await ask(served, "get", `${G}/table`, { at });
  const thing = state.things.find((one) => one.table === "tree") ?? state.things[0];
  const move = { scheme: "proposed", thing: thing.id, move_m: [0.1, 0] };
  const sun = { day: "06-21", clock: 14.2 };
  for (const body of [
    { what: "plot", sides: [10, "10 m", 10, 10], diagonal: 14.1, second_diagonal: 15 },
    { what: "noon", day: "06-21" },
    { what: "north", foot_m: [0, 0], tip_m: [1, 2], ...sun },
    { what: "shadow", thing: thing.id, ...sun },
    { what: "shadow", thing: "nobody", ...sun },
    { what: "height", along: 3, ...sun },
    { what: "skyline", points: [{ bearing_deg: 90, fists: 1 }] },
    { what: "fall", mark: "knee", toward_m: [0, -1], over: "20 m" },
    { what: "plot" },
  ])
    await ask(served, "post", `${G}/measure`, { at, body });
  head_of(await ask(served, "post", `${G}/try`, { at, body: { ...move, quick: true } }), "FieldHead", "try");
  await ask(served, "post", `${G}/edits`, { at, body: { ...move, command: `edit-${id}`, change: state.head.change } });
  await ask(served, "get", G, { at, query: `?since=${state.head.change}` });
  await ask(served, "get", `${G}/sheet_changes`, { at, query: `?since=${state.head.change}` });
  await ask(served, "post", `${G}/edits`, { at, body: { ...move, command: `late-${id}`, change: state.head.change } });
  for (const [n, rename] of ["Another name", "found"].entries())
    await ask(served, "post", `${G}/edits`, { at, body: { scheme: "found", thing: thing.id, rename, command: `name-${n}-${id}`, change: state.head.change + 1 + n } });
  const want = { table: "want", nth: 999, was: { crop: "pea" } };
  for (const [n, body] of [{ add: "crop", called: "no crop", set: {} }, { ...want, take_away: true }, { ...want, set: { priority: 1 } }, { table: "scheme", name: "nowhere", set: { title: "x" } }, { rename_scheme: "nowhere", called: "x" }].entries())
    await ask(served, "post", `${G}/edits`, { at, body: { scheme: "found", ...body, command: `entry-${n}-${id}`, change: state.head.change + 2 } });
  await ask(served, "post", `${G}/steps`, { at, body: { step: "undo", command: `undo-${id}`, change: state.head.change + 2 } });
  await ask(served, "get", `${G}/revisions`, { at });
  await ask(served, "post", `${G}/files`, { at, query: "?name=days.csv", raw: "date,tmin_c,tmax_c\n2010-01-01,x,9\n" });
  const days = ["date,tmin_c,tmax_c", ...Array.from({ length: 59 }, (_, i) => `2010-${i < 31 ? "01" : "02"}-${String(i < 31 ? i + 1 : i - 30).padStart(2, "0")},3,9`)];
  await ask(served, "post", `${G}/files`, { at, query: "?name=days.csv", raw: `${days.join("\n")}\n` });
  await ask(served, "get", `${G}/files`, { at, query: "?name=days.csv" });
  await ask(served, "post", `${G}/files`, { at, query: "?name=plot.png", raw: small_png });
  await ask(served, "get", `${G}/files`, { at, query: "?name=plot.png" });
  await ask(served, "get", "/api/jobs/{job}", { at: { job: `none-${id}` } });
  await ask(served, "post", "/api/jobs/{job}", { at: { job: `none-${id}` }, body: { cancel: true } });
}
await ask(served, "get", "/api/gardens");
await ask(served, "post", "/api/gardens", { body: { document: "format = 1\n" } });
await served.close();
for (const [path, verbs] of Object.entries(contract.paths))
  for (const verb of Object.keys(verbs)) if (["get", "post"].includes(verb) && !asked.has(`${verb} ${path}`)) wrong.push(`${verb} ${path} was not asked`);
console.log(wrong.length === 0 ? `contract: ${asked.size} questions, answered as it says` : [...new Set(wrong)].join("\n"));
process.exit(wrong.length === 0 ? 0 : 1);
