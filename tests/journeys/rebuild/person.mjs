// Who rebuilds a garden: clicks, drags, figures and words typed, keys; each counted.
import { check } from "../hands.mjs";

const is_bare = (value) => typeof value === "number";

export class Person {
  constructor(page, name) {
    Object.assign(this, { page, name, actions: 0, waited: {}, could_not: [] });
  }

  button(name, within = this.page) {
    return within.getByRole("button", { name, exact: typeof name === "string" }).first();
  }
  async press(target) {
    this.actions += 1;
    await (typeof target === "string" || target instanceof RegExp ? this.button(target) : target).click();
  }
  async press_at([x, y]) {
    this.actions += 1;
    await this.page.mouse.click(x, y);
  }
  async drag(from, to, steps = 6) {
    this.actions += 1;
    const { mouse } = this.page;
    await mouse.move(...from);
    await mouse.down();
    await mouse.move(...to, { steps });
    await mouse.up();
  }
  async key(name) {
    this.actions += 1;
    await this.page.keyboard.press(name);
  }
  /** Typed where the cursor is; a long note as it is pasted. */
  async type(text) {
    this.actions += 1;
    if (text.length > 24) await this.page.keyboard.insertText(text);
    else await this.page.keyboard.type(text);
  }
  /** In a field, whatever stands there. */
  async type_in(field, text) {
    this.actions += 1;
    await field.click();
    await this.page.keyboard.press("Control+a");
    await this.type(text);
  }
  async choose(select, option) {
    this.actions += 1;
    await select.selectOption(option);
  }

  /** How long something took, under a name. */
  async timed(what, doing) {
    const begun = Date.now();
    try {
      return await doing();
    } finally {
      this.waited[what] = (this.waited[what] ?? 0) + Date.now() - begun;
    }
  }
  check(is, what) {
    check(is, `${this.name}: ${what}`);
  }
}

/** A figure of the document as one types it: its bare lengths are metres, whatever one measures in. */
export function as_typed(value, type, imperial) {
  if (!is_bare(value) || !imperial) return String(value);
  const of_metres = ["length", "place", "line", "outline", "size", "spot", "tie", "stem"];
  return of_metres.includes(type) ? `${value} m` : type === "temperature" ? `${value} C` : String(value);
}
