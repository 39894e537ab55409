// The facts of what is chosen, typed in its form as the schema names them: a figure or a word in its
// field, a value with parts in its rows.
import { tmpdir } from "node:os";
import { join } from "node:path";
import { as_typed } from "./person.mjs";

export const called = (type) => type.called ?? (type.name ?? "").replace(/_/g, " ");
const facts = (person) => person.page.locator("ul.facts");

/** All that it may have is in sight. */
export async function open_all(person) {
  const more = person.page.locator('.notes button[aria-expanded="false"]', { hasText: "More facts that it may have" });
  if ((await more.count()) > 0) await person.press(more);
}

const kPlain = new Set(["number", "whole", "share", "length", "stem", "angle", "temperature", "text", "id", "word", "free_word", "date", "day", "amount", "time_zone"]);
const kTuples = {
  place: [["along", "length"], ["up", "length"]],
  size: [["across", "length"], ["deep", "length"]],
  spot: [["along", "length"], ["up", "length"], ["level", "length"]],
  horizon_point: [["bearing, °", "angle"], ["up, °", "angle"]],
  tie: [["point", "text"], ["from", "text"], ["length", "length"]],
};
const is_list = (type) => type.type === "list" || type.type === "one_or_many";
const is_record = (type) => type.type === "record" || type.type === "reading";

/** The parts of one value, within its form. */
class Parts {
  constructor(person, form, imperial) {
    Object.assign(this, { person, form, imperial });
  }

  async leaf(type, name, value) {
    const field = this.form.getByLabel(name, { exact: true });
    if (type.type === "choice" || type.type === "reference") await this.person.choose(field, String(value));
    else if (type.type === "yes_no") value && (await this.person.press(field));
    else await this.person.type_in(field, as_typed(value, type.type, this.imperial));
  }
  /** `is_there`: a first row stands open already. */
  async whole(type, name, value, is_there = false) {
    const tuple = kTuples[type.type];
    if (tuple !== undefined && Array.isArray(value)) {
      for (const [i, [part, of]] of tuple.entries()) await this.leaf({ type: of }, `${name}, ${part}`, value[i]);
    } else if (type.type === "place") await this.person.choose(this.form.getByLabel(`${name}, at a named point`, { exact: true }), value);
    else if (is_list(type)) await this.list(type.item ?? { type: "text" }, name, Array.isArray(value) ? value : [value], is_there);
    else if (type.type === "map") await this.map(type, name, value, is_there);
    else if (is_record(type)) await this.record(type, name, value);
    else await this.leaf(type, name, value);
  }
  async list(item, name, values, is_there) {
    if (item.type === "choice") {
      const words = this.form.getByRole("group", { name, exact: true }).last();
      for (const word of values) await this.person.press(words.getByRole("button", { name: word, exact: true }));
      return;
    }
    for (const [i, value] of values.entries()) {
      if (i > 0 || !is_there) await this.person.press(this.form.getByRole("button", { name: /^(Add one|And another)$/ }).last());
      await this.whole(item, `${name} ${i + 1}`, value);
    }
  }
  async map(type, name, value, is_there) {
    const word = (type.low ?? 0) > 0 ? "year" : "name";
    for (const [i, [key, one]] of Object.entries(value).entries()) {
      if (i > 0 || !is_there) await this.person.press(this.form.getByRole("button", { name: new RegExp(`^(Add a|And another) ${word}$`) }));
      await this.person.type_in(this.form.getByLabel(`${name} ${i + 1}, ${word}`, { exact: true }), key);
      await this.whole(type.item, `${name} ${key}`, one, true);
    }
  }
  async record(type, name, value) {
    for (const field of type.fields) {
      const one = value[field.name];
      if (one === undefined) continue;
      const is_in_row = kPlain.has(field.type) || ["choice", "reference", "yes_no"].includes(field.type);
      if (is_in_row) await this.leaf(field, `${name}, ${called(field)}`, one);
      else await this.whole(field, name, one);
    }
  }
}

async function keep(person, field, text) {
  await person.type_in(field, text);
  await person.key("Enter");
}

/** What cannot be done is told in the end, and the rest goes on. */
export async function attempt(person, what, doing) {
  try {
    await doing();
  } catch (error) {
    const of = await person.page.locator(".thing-name").innerText({ timeout: 100 }).catch(() => "");
    const number = person.could_not.push(`${of} ${what} could not be done: ${error.message.split("\n").slice(0, 4).join(" ").slice(0, 300)}`);
    await person.page.screenshot({ path: join(process.env.FAILED_TO ?? tmpdir(), `failed-rebuilding-${person.name}-${number}.png`) });
    await person.page.keyboard.press("Escape");
  }
}

/** A fact of a key of the schema. */
export const set_fact = (person, known, value, imperial) => attempt(person, known.name, () => type_fact(person, known, value, imperial));

async function type_fact(person, known, value, imperial) {
  const of = facts(person);
  const stage = person.page.getByLabel("stage of the works");
  if (known.name === "phase") {
    await stage.or(of.locator('input[aria-label="phase"]')).first().waitFor(); // what is just changed has it at once, or nearly
    if ((await stage.count()) > 0) return person.choose(stage, String(value));
  }
  const name = called(known);
  const field = (label) => of.getByLabel(label, { exact: true }).first();
  const folded = of.locator(`button.part-word[aria-label^="${name}: "]`);
  if (await folded.count()) return set_parts(person, known, value, imperial, folded.last());
  if (known.type === "choice" || (await of.locator(`select[aria-label="${name}"]`).count())) return person.choose(of.locator(`select[aria-label="${name}"]`), value);
  if (known.type === "yes_no") return (await field(name).isChecked()) === value ? undefined : person.press(field(name));
  if (known.type === "size")
    for (const [i, part] of ["across", "deep"].entries()) await keep(person, field(`${name}, ${part}`), as_typed(value[i], "length", imperial));
  else if (known.type === "record")
    for (const part of known.fields) {
      if (value[part.name] !== undefined) await keep(person, field(`${name}, ${called(part).replace(/[_ ]m$/, "")}`), as_typed(value[part.name], part.type, imperial));
    }
  else if ((await of.locator(`input[aria-label="${name}"]`).count()) === 0) throw new Error("it has no field");
  else await keep(person, of.locator(`input[aria-label="${name}"]`).first(), as_typed(value, known.type, imperial));
}

async function set_parts(person, known, value, imperial, word) {
  const name = called(known);
  await person.press(word);
  const form = person.page.getByRole("group", { name, exact: true }).first();
  await form.waitFor();
  await new Parts(person, form, imperial).whole(known, name, value, true);
  await person.press(form.getByRole("button", { name: "Keep", exact: true }));
  await form.waitFor({ state: "detached" });
}

const row_of = (person, name) => facts(person).locator("li.fact", { has: person.page.locator(".fact-words").filter({ hasText: new RegExp(`^(≈ )?${name}(, .*)?$`) }) });

/** Which figures are guesses, and which are measured. */
export async function set_guesses(person, keys, wanted) {
  const marked = facts(person).locator("li.fact.is-guessed .fact-words");
  for (const words of await marked.allInnerTexts()) {
    const name = words.replace(/^≈ /, "").replace(/, .*$/, "");
    if (wanted.some((key) => called(keys.find((one) => one.name === key)) === name)) continue;
    await attempt(person, `${name}, measured,`, () => person.press(row_of(person, name).getByRole("button", { name: "It is measured now" }).last()));
  }
  for (const key of wanted) {
    const row = row_of(person, called(keys.find((one) => one.name === key))).last();
    await attempt(person, `${key}, guessed,`, async () => {
      if (["at", "line", "outline", "row"].includes(key)) return person.press("Where it lies is a guess");
      if ((await row.count()) === 0) throw new Error("it has no row");
      if (/is-guessed/.test(await row.getAttribute("class"))) return;
      await person.press(row.locator("button.fact-name"));
      await person.press(row.getByRole("button", { name: "Mark it as a guess" }));
    });
  }
}
