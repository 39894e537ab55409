// A grower's hands, counted: a tap, a drag, a pinch, a swipe to what is out of sight, a key, a figure
// typed is one action each.
export const kHands = ["mouse", "touch", "keys"];

/** Hours as a grower reads them: what rests on guesses to the half hour. */
export function hours_read(hours, on_guesses) {
  if (!on_guesses) return hours.toFixed(1);
  if (hours < 0.95) return `≈ ${hours.toFixed(1)}`;
  const [whole, half] = (Math.round(hours * 2) / 2).toFixed(1).split(".");
  return `≈ ${whole}${half === "5" ? "½" : ""}`;
}

/** LOOK's number; by keyboard at most twice as many. */
export const most_of = (by, most) => (by === "keys" ? 2 * most : most);

/** Seconds of the keystroke-level model (Card, Moran, Newell 1980): a key by who types now and then,
 * pointing, pressing, a hand from the keys to the mouse or back, and making up one's mind. */
const kSeconds = { key: 0.28, point: 1.1, press: 0.2, home: 0.4, mind: 1.35 };

export class Hands {
  constructor(page, by = "mouse") {
    this.page = page;
    this.by = by;
    this.actions = 0;
    this.seconds = 0;
    this.on_keys = by === "keys";
  }

  /** One action more; a key after a key goes on with the same thought. */
  #did(keys, points = 0) {
    this.actions += 1;
    const uses_keys = keys > 0;
    if (this.by === "mouse" && uses_keys !== this.on_keys) this.seconds += kSeconds.home;
    const goes_on = uses_keys && this.on_keys && keys === 1;
    this.on_keys = uses_keys;
    this.seconds += (goes_on ? 0 : kSeconds.mind) + keys * kSeconds.key + points * (kSeconds.point + kSeconds.press);
  }

  async #protocol() {
    this.session ??= await this.page.context().newCDPSession(this.page);
    return this.session;
  }

  /** What is out of sight is brought there by the wheel or a swipe. */
  async reveal(target) {
    await target.waitFor();
    for (let was = ""; ; ) {
      const now = JSON.stringify(await target.boundingBox());
      if (now === was) break; // what opens or closes has come to rest
      was = now;
      await this.page.waitForTimeout(120);
    }
    for (let i = 0; i < 3; ++i) {
      const way = await target.evaluate((element) => {
        const box = element.getBoundingClientRect();
        const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
        const hit = document.elementFromPoint(x, y);
        if (hit !== null && (element.contains(hit) || hit.contains(element))) return null;
        let room = element.parentElement;
        while (room !== null && (room.scrollHeight <= room.clientHeight + 1 || !/auto|scroll/.test(getComputedStyle(room).overflowY))) room = room.parentElement;
        if (room === null) return null;
        const of = room.getBoundingClientRect();
        return { x: of.left + of.width / 2, y: of.top + of.height / 2, by: y - (of.top + Math.min(of.height / 2, 90)) };
      });
      if (way === null) return;
      const slop = 15 * Math.sign(way.by); // that far a finger goes before anything moves
      if (this.by === "touch") await this.fingers([[[way.x, way.y], [way.x, way.y - way.by - slop]]]);
      else {
        this.#did(0, 1);
        await this.page.mouse.move(way.x, way.y);
        await this.page.mouse.wheel(0, way.by);
      }
      await this.page.waitForTimeout(250);
    }
  }
  async tap(target) {
    await this.reveal(target);
    this.#did(0, 1);
    if (this.by === "touch") await target.tap();
    else await target.click();
  }
  async tap_at([x, y]) {
    this.#did(0, 1);
    if (this.by === "touch") await this.page.touchscreen.tap(x, y);
    else await this.page.mouse.click(x, y);
  }

  /** Fingers along their ways, all at once. */
  async fingers(ways, steps = 12) {
    this.#did(0, 2);
    const session = await this.#protocol();
    const points = (part) => ways.map(([[x0, y0], [x1, y1]], id) => ({ x: x0 + (x1 - x0) * part, y: y0 + (y1 - y0) * part, id }));
    await session.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints: points(0) });
    for (let i = 1; i <= steps; ++i) {
      await session.send("Input.dispatchTouchEvent", { type: "touchMove", touchPoints: points(i / steps) });
      await this.page.waitForTimeout(16);
    }
    await session.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
  }
  async drag(from, to, steps = 12) {
    if (this.by === "touch") return this.fingers([[from, to]], steps);
    this.#did(0, 2);
    const { mouse } = this.page;
    await mouse.move(...from);
    await mouse.down();
    for (let i = 1; i <= steps; ++i) {
      await mouse.move(from[0] + ((to[0] - from[0]) * i) / steps, from[1] + ((to[1] - from[1]) * i) / steps);
      await this.page.waitForTimeout(16);
    }
    await mouse.up();
  }

  async key(name) {
    this.#did(1);
    await this.page.keyboard.press(name);
  }
  async keys(...names) {
    for (const name of names) await this.key(name);
  }
  async type(text) {
    this.#did(text.length);
    await this.page.keyboard.type(text);
  }
  /** A figure typed into a field, whatever stands there. */
  async type_over(target, text) {
    await this.tap(target);
    await this.page.keyboard.press("Control+A");
    await this.type(text);
  }

  /** A thing chosen: touched where it is, or come to by arrows from the midst of the sheet. */
  async choose(thing, arrows = []) {
    if (this.by === "keys") await this.keys("F6", ...arrows, "Enter");
    else await this.tap_at(await this.middle_of(thing));
    await this.page.locator(".notes h2", { hasText: thing }).waitFor();
  }
  within(most, seconds = Infinity) {
    check(this.seconds <= seconds, `${Math.round(this.seconds)} s by ${this.by}, at most ${seconds}`);
    check(this.actions <= most_of(this.by, most), `${this.actions} actions by ${this.by}, at most ${most_of(this.by, most)}`);
  }

  async undo() {
    if (this.by !== "keys") return this.tap(this.button(/^Undo/));
    await this.page.evaluate(() => document.activeElement?.blur());
    await this.key("Control+z");
  }

  button(name) {
    return this.page.getByRole("button", { name }).first();
  }
  /** The middle of a thing on the sheet. */
  async middle_of(thing) {
    let box = null; // a new drawing may just be taking the place of the old one
    const of = this.page.locator(`.sheet g[data-thing="${thing}"]`).first();
    await until(async () => (box = await of.boundingBox()) !== null, `${thing} is on the sheet`);
    return [box.x + box.width / 2, box.y + box.height / 2];
  }
  async middle_of_grip(thing) {
    const grip = this.button(`Move ${thing}`);
    await grip.waitFor();
    const box = await grip.boundingBox();
    check(box.width >= 44 && box.height >= 44, "the grip's size");
    return [box.x + box.width / 2, box.y + box.height / 2];
  }
}

/** Waits until the sheet's light is there and stands still. */
export async function settled(page) {
  await page.waitForSelector(".chip");
  await page.waitForFunction(() => document.querySelector('[aria-busy="true"]') === null);
  await page.waitForTimeout(150);
}

/** Until words like these have been announced. */
export async function heard(page, words) {
  const all = () => page.evaluate(() => window.all_said);
  await until(async () => (await all()).some((says) => words.test(says)), async () => `${words} was said: ${(await all()).join(" | ")}`);
}

/** Until it is so, or ten seconds are over. */
export async function until(is_so, what) {
  for (const begun = Date.now(); Date.now() - begun < 10_000; ) {
    if (await is_so()) return;
    await new Promise((resolve) => setTimeout(resolve, 60));
  }
  check(false, typeof what === "function" ? await what() : what);
}

export function check(is, what) {
  if (!is) throw new Error(`not so: ${what}`);
}
export function equal(a, b, what) {
  const [one, other] = [JSON.stringify(a), JSON.stringify(b)];
  const short = (text) => (text.length > 400 ? `${text.slice(0, 400)} …` : text);
  check(one === other, `${what}: ${short(one)} is not ${short(other)}`);
}
