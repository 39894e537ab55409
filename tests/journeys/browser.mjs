// A server over a folder of its own and a browser before it, for the journeys and the pictures.
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";

const web = createRequire(new URL("../../web/package.json", import.meta.url));
const { chromium } = web("playwright-core");

export const kSizes = {
  desk: { width: 1440, height: 900 },
  tablet: { width: 1024, height: 768 },
  phone: { width: 390, height: 844 },
};

const kFlags = [
  "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
  "--disable-background-networking", "--disable-component-update", "--disable-sync",
];

/** The program, serving a folder; `again()` starts it anew on the same port and folder. `before`: words
 * before its command; `as`: what the process is given besides. */
export class Served {
  static async start(program, { folder = mkdtempSync(join(tmpdir(), "spadework-journey-")), app = process.env.APP_FOLDER ?? null, before = [], as = {} } = {}) {
    const served = new Served();
    Object.assign(served, { program, folder, app, before, as, port: 0 });
    await served.#begin();
    return served;
  }

  async #begin() {
    const options = ["serve", "--no-open", "--data", this.folder, "--port", String(this.port)];
    if (this.app !== null) options.push("--app-folder", this.app);
    const [first, ...rest] = [...this.before, this.program, ...options];
    this.process = spawn(first, rest, { stdio: ["ignore", "pipe", "inherit"], ...this.as });
    this.url = await new Promise((found, failed) => {
      let said = "";
      this.process.stdout.on("data", (bytes) => {
        said += bytes;
        const address = /http:\/\/127\.0\.0\.1:(\d+)\//.exec(said);
        if (address !== null) found(address[0]);
      });
      this.process.on("exit", (code) => failed(new Error(`the program ended: ${code}`)));
    });
    this.port = Number(new URL(this.url).port);
  }

  end(signal = "SIGTERM") {
    return new Promise((ended) => {
      this.process.removeAllListeners("exit");
      this.process.on("exit", ended);
      this.process.kill(signal);
    });
  }
  async again() {
    await this.#begin();
  }
  async close() {
    if (this.process.exitCode === null && this.process.signalCode === null) await this.end();
    rmSync(this.folder, { recursive: true, force: true });
  }

  async post(path, body) {
    const answer = await fetch(new URL(path, this.url), {
      method: "POST",
      headers: { "Content-Type": "application/json", "X-Spadework": "1" },
      body: JSON.stringify(body),
    });
    if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
    return answer.json();
  }
  async get(path) {
    const answer = await fetch(new URL(path, this.url));
    if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
    return answer.json();
  }
  /** An example on the shelf. Out: its id. */
  async example(name) {
    return (await this.post("/api/gardens", { example: name })).id;
  }
}

export function launch() {
  return chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: kFlags });
}

/** A page of a size; what goes wrong in it is gathered in `page.wrong`. */
export async function page_of(browser, size, more = {}) {
  const context = await browser.newContext({
    viewport: size,
    hasTouch: size.width < 500,
    isMobile: size.width < 500,
    deviceScaleFactor: 1,
    ...more,
  });
  const page = await context.newPage();
  // The page listens to no touchstart: the driver does, and says so when a swipe still runs out as it taps.
  page.wrong = [];
  page.on("pageerror", (error) => page.wrong.push(String(error)));
  page.on("console", (message) => {
    if (message.type() === "error" && !/Failed to load resource|ERR_CONNECTION|Ignored attempt to cancel a touchstart/.test(message.text())) page.wrong.push(message.text());
  });
  page.on("filechooser", () => {}); // from the beginning, else a quick hand is there before the browser listens
  page.setDefaultTimeout(10_000);
  return page;
}
