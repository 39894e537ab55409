// A grower's hands, counted: a tap, a drag, a key, a figure typed is one action each.
export class Hands {
  constructor(page, by = "mouse") {
    this.page = page;
    this.by = by;
    this.actions = 0;
  }

  async tap(target) {
    this.actions += 1;
    if (this.by === "touch") await target.tap();
    else await target.click();
  }
  async tap_at([x, y]) {
    this.actions += 1;
    if (this.by === "touch") await this.page.touchscreen.tap(x, y);
    else await this.page.mouse.click(x, y);
  }
  async drag([x0, y0], [x1, y1], steps = 12) {
    this.actions += 1;
    const { mouse } = this.page;
    await mouse.move(x0, y0);
    await mouse.down();
    for (let i = 1; i <= steps; ++i) {
      await mouse.move(x0 + ((x1 - x0) * i) / steps, y0 + ((y1 - y0) * i) / steps);
      await this.page.waitForTimeout(25);
    }
    await mouse.up();
  }
  async key(name) {
    this.actions += 1;
    await this.page.keyboard.press(name);
  }
  async type(text) {
    this.actions += 1;
    await this.page.keyboard.type(text);
  }

  button(name) {
    return this.page.getByRole("button", { name }).first();
  }
  /** The middle of a thing on the sheet. */
  async middle_of(thing) {
    const box = await this.page.locator(`.sheet g[data-thing="${thing}"]`).first().boundingBox();
    if (box === null) throw new Error(`${thing} is not on the sheet`);
    return [box.x + box.width / 2, box.y + box.height / 2];
  }
}

/** Waits until the sheet's light is there and stands still. */
export async function settled(page) {
  await page.waitForSelector(".chip");
  await page.waitForFunction(() => document.querySelector('[aria-busy="true"]') === null);
  await page.waitForTimeout(150);
}

export function check(is, what) {
  if (!is) throw new Error(`not so: ${what}`);
}
export function equal(a, b, what) {
  check(JSON.stringify(a) === JSON.stringify(b), `${what}: ${JSON.stringify(a)} is not ${JSON.stringify(b)}`);
}
