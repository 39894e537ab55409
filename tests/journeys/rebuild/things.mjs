// What stands in the garden, as found, as proposed and another way: drawn, named, its facts typed; what is
// there altered, moved and taken away.
import { draw_around, end_steps } from "./begin.mjs";
import { draw, draw_by_eye, kind_of, mend_corners } from "./draw.mjs";
import { attempt, open_all, set_fact, set_guesses } from "./facts.mjs";
import { as_typed } from "./person.mjs";

const is_sight = (table) => ["view", "hide", "watch"].includes(table);

export class Things {
  constructor(person, example, schema) {
    Object.assign(this, { person, example, schema, page: person.page, shown: "found" });
    this.imperial = example.garden.units === "imperial";
    this.made = new Set();
    this.later = []; // [thing, key, value]: what refers to what is not there yet
    const of_things = schema.tables.filter(({ thing }) => thing).map(({ name }) => name);
    this.all = of_things.flatMap((table) => (example[table] ?? []).map((entry) => ({ table, entry })));
    this.by_id = new Map(this.all.map((one) => [one.entry.id, one]));
  }
  keys_of(table) {
    return this.schema.tables.find(({ name }) => name === table).keys;
  }

  async show(scheme) {
    if (this.shown === scheme) return;
    const words = { found: "As found", proposed: "As proposed" };
    await this.person.press(this.page.locator(".schemes > .scheme-word", { hasText: new RegExp(`^${words[scheme] ?? scheme}$`) }));
    this.shown = scheme;
  }

  /** Chosen in the list, sought by its name. */
  async choose(id) {
    const { page, person } = this;
    const name = page.locator(".thing-name");
    if ((await name.count()) > 0 && (await name.innerText()) === id) return;
    const find = page.locator(".list-find input");
    if (!(await find.isVisible())) await person.press(page.getByRole("button", { name: "List" }).first());
    await person.type_in(find, id);
    await person.press(page.locator(".list-thing:not(.is-entry)", { has: page.locator(".list-name", { hasText: new RegExp(`^${id}$`) }) }));
    await page.locator(".thing-name", { hasText: new RegExp(`^${id}$`) }).waitFor();
  }
  async close_list() {
    const close = this.page.locator(".list-head").getByRole("button", { name: "Close" });
    if (await close.isVisible()) await this.person.press(close);
  }

  async name_it(now, id) {
    const { page, person } = this;
    if (now === id) return;
    await person.press(page.locator(".name-word"));
    await person.type_in(page.getByLabel(/^The name of /), id);
    await person.key("Enter");
    await person.timed("to be named", () => page.locator(".thing-name", { hasText: new RegExp(`^${id}$`) }).waitFor());
  }

  refers_to(known, value) {
    if (typeof value === "string" && ["reference", "place"].includes(known.type)) return [value];
    if (known.type === "one_or_many" && known.item?.type === "reference") return [value].flat();
    return [];
  }
  /** Its facts but for what was drawn: now, or once what it refers to is there. */
  async type_facts({ table, entry }, drawn) {
    const keys = this.keys_of(table);
    // In which stage a thing goes is asked when it goes.
    const kept = new Set(["id", "status", "removed", "guessed", "scheme", ...(entry.removed === true ? ["phase"] : []), ...drawn]);
    const wanted = Object.entries(entry).filter(([key]) => !kept.has(key));
    if (wanted.length > 0) await open_all(this.person);
    for (const [key, value] of wanted) {
      const known = keys.find(({ name }) => name === key);
      if (this.refers_to(known, value).some((id) => !this.made.has(id))) this.later.push([entry.id, known, value]);
      else await this.person.timed(`facts: ${known.type}`, () => set_fact(this.person, known, value, this.imperial));
    }
    await set_guesses(this.person, keys, entry.guessed ?? []);
    for (const words of await this.page.locator(".notes .told, .problem-line p").allInnerTexts()) this.person.could_not.push(`${entry.id ?? entry.thing} was told: ${words}`);
  }

  make = (one, how = draw) => attempt(this.person, `${one.table} ${one.entry.id}`, () => this.draw_and_type(one, how));

  async draw_and_type(one, how) {
    const kind = kind_of(one.table, one.entry);
    const now = await this.person.timed("drawing", () => how(this.person, one.table, one.entry, this.imperial));
    await this.name_it(now, one.entry.id);
    if (how === draw_by_eye) return this.mend(one, kind);
    const is_listed = kind.by === "sight" && Array.isArray(one.entry.from) && one.entry.from.length > 1;
    const drawn = [is_listed ? "" : kind.at, ...(kind.by === "sight" ? ["thing", "to"] : []), kind.what, ...(one.table === "seat" && Array.isArray(one.entry.facing) ? ["facing"] : []), ...(kind.by === "box" ? ["size", "turn_deg"] : [])];
    await this.type_facts(one, drawn);
    this.made.add(one.entry.id);
  }

  /** What was drawn by eye, brought to its figures. */
  async mend(one, kind) {
    await this.type_facts(one, [kind.at, kind.what]);
    if (kind.by === "box") await this.move_to(one.entry.at);
    else await mend_corners(this.person, one.entry[kind.at], this.imperial);
    this.made.add(one.entry.id);
  }

  /** Where it is to stand, typed. */
  async move_to(place) {
    const row = this.page.locator(".place-row").first();
    for (const [i, label] of ["along", "up"].entries()) {
      await this.person.type_in(row.getByLabel(label, { exact: true }), as_typed(place[i], "length", this.imperial));
      await this.person.key("Enter");
    }
  }
  /** What is otherwise in the scheme shown. */
  alter = (change) => attempt(this.person, `change of ${change.thing}`, () => this.type_change(change));

  async type_change(change) {
    const { table } = this.by_id.get(change.thing);
    await this.choose(change.thing);
    if (change.at !== undefined) await this.move_to(change.at);
    await this.type_facts({ table, entry: change }, ["thing", "at"]);
  }
  async take_away({ id, phase }) {
    await this.choose(id);
    await this.person.press(`Take ${id} away`);
    await this.page.getByText("It goes, in this proposal.").waitFor();
    if (phase !== undefined) await this.person.choose(this.page.getByLabel("stage of the works"), String(phase));
  }

  /** The first bed and the first of a kind of line: those are drawn by eye. */
  first_of(things, bed, line, but) {
    const is_box = ({ table, entry }) => table === bed && entry.outline === undefined;
    return [things.find(is_box), things.find((one) => one.table === line && one !== but && one.entry.line.length <= 3)].filter((one) => one !== undefined);
  }

  async as_found() {
    const found = this.all.filter(({ table, entry }) => entry.status !== "proposed" && kind_of(table, entry) !== null && !is_sight(table));
    const first = found.find(({ table }) => table === "wall");
    await this.make(first, (person, _, entry) => draw_around(person, entry, this.imperial));
    await end_steps(this.person);
    const by_eye = this.first_of(found, "bed", "wall", first);
    for (const one of found) if (one !== first) await this.make(one, by_eye.includes(one) ? draw_by_eye : draw);
  }
  async as_proposed() {
    await this.show("proposed");
    const proposed = this.all.filter(({ table, entry }) => entry.status === "proposed" && kind_of(table, entry) !== null && !is_sight(table));
    const by_eye = this.first_of(proposed, "bed", "path");
    for (const one of proposed) await this.make(one, by_eye.includes(one) ? draw_by_eye : draw);
    for (const change of this.example.change ?? []) if (change.scheme === undefined) await this.alter(change);
    for (const { entry } of this.all) if (entry.removed === true) await this.take_away(entry);
  }
  /** Who is to see what, once both are there. */
  async sights() {
    for (const one of this.all) {
      if (!is_sight(one.table)) continue;
      await this.close_list();
      await this.show(one.entry.status === "proposed" ? "proposed" : "found");
      await this.make(one);
    }
  }
  /** What could not be referred to before it was there. */
  async refer() {
    for (const [id, known, value] of this.later.splice(0)) {
      await attempt(this.person, `${known.name} of ${id}`, async () => {
        await this.show(this.by_id.get(id).entry.status === "proposed" ? "proposed" : "found");
        await this.choose(id);
        await open_all(this.person);
        await set_fact(this.person, known, value, this.imperial);
      });
    }
  }
  async other_ways() {
    const { page, person } = this;
    for (const { id } of this.example.scheme ?? []) {
      await this.close_list();
      const ways = page.locator(".ways-menu .menu-opener");
      await person.press(ways);
      await person.type_in(page.getByLabel(/^Another way, called/), id);
      await person.press("Begin it");
      await page.locator(`.ways-menu .menu-opener, .scheme-word[aria-pressed="true"]`).filter({ hasText: id }).first().waitFor();
      this.shown = id;
      for (const change of this.example.change) if (change.scheme === id) await this.alter(change);
    }
  }
}
