// What a journey has at hand: a server, a garden of Ker Avel on it, pages that are closed after it.
import { kSizes, page_of } from "./browser.mjs";
import { equal, Hands, settled } from "./hands.mjs";

/** What is announced, one after the other, for who listens. */
function gather_what_is_said() {
  window.all_said = [];
  const gather = () => {
    const says = document.querySelector(".sheet > [aria-live]")?.textContent ?? "";
    if (says !== "" && says !== window.all_said.at(-1)) window.all_said.push(says);
  };
  new MutationObserver(gather).observe(document, { subtree: true, childList: true, characterData: true });
}

export class Journey {
  constructor(browser, served, garden) {
    Object.assign(this, { browser, served, garden, pages: [] });
  }

  async page(size = kSizes.desk, more = {}) {
    const page = await page_of(this.browser, size, more);
    page.setDefaultTimeout(20_000);
    await page.addInitScript(gather_what_is_said);
    this.pages.push(page);
    return page;
  }
  /** The garden open. `at`: a scheme, and a thing chosen in it, as in an address. */
  async open(size = kSizes.desk, at = "") {
    const page = await this.page(size);
    await page.goto(`${this.served.url}#${this.garden}${at}`);
    await settled(page);
    return page;
  }
  /** The same, with hands of a kind: touch is at the phone's size. */
  async hands(by, at = "") {
    return new Hands(await this.open(by === "touch" ? kSizes.phone : kSizes.desk, at), by);
  }

  state(scheme = "proposed") {
    return this.served.get(`/api/gardens/${this.garden}?scheme=${scheme}`);
  }
  async thing(id, scheme = "proposed") {
    return (await this.state(scheme)).things.find((one) => one.id === id);
  }
  async place(id, query = "") {
    return (await this.served.get(`/api/gardens/${this.garden}/places?${query}`)).places.find((one) => one.id === id);
  }
  async document() {
    return (await fetch(`${this.served.url}api/gardens/${this.garden}/document`)).text();
  }

  async pictures(stem) {
    for (const [i, page] of this.pages.entries()) await page.screenshot({ path: `${stem}-${i}.png` }).catch(() => {});
  }
  async close() {
    for (const page of this.pages) await page.context().close().catch(() => {});
  }
  nothing_wrong() {
    for (const page of this.pages) equal(page.wrong, [], "the console");
  }
}
