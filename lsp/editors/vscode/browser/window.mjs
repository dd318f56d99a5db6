// VS Code's window in Chromium, used as a person would: by keys and clicks. What
// it shows is read from what it tells a screen reader, and from its text.
import puppeteer from "puppeteer-core";

const patience = 60000; // ms, for a machine that has much to do

// eventually waits for something to become true, and says so.
export async function eventually(what, ready) {
  const value = await until(what, ready);
  console.log(`ok  ${what}`);
  return value;
}

async function until(what, ready) {
  for (const end = Date.now() + patience; Date.now() < end; ) {
    const value = await ready();
    if (value) return value;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`waited in vain for this: ${what}`);
}

// told is what an element tells a screen reader, and its text, in which VS Code
// has spaces of other kinds too. Nothing where it is not seen.
const told = (e) => e.checkVisibility({ visibilityProperty: true }) && `${e.getAttribute("aria-label") ?? ""}\n${e.innerText}`.replace(/[\u00a0\u200a]/g, " ").trim();

export class Window {
  #browser;
  #page;
  #pictures;
  #taken = 0;
  broken = []; // what the window's own script threw

  constructor(browser, page, pictures) {
    this.#browser = browser;
    this.#page = page;
    this.#pictures = pictures;
    page.on("pageerror", (e) => this.broken.push(String(e)));
  }

  // open shows a folder. Nothing but this machine is asked for anything.
  static async open(url, folder, pictures) {
    const browser = await puppeteer.launch({
      executablePath: process.env.CHROMIUM || "/usr/bin/chromium",
      args: ["--no-sandbox", "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"],
    });
    const page = await browser.newPage();
    await page.setViewport({ width: 1400, height: 1100 });
    await page.goto(`${url}/?folder=${encodeURIComponent(folder)}`);
    return new Window(browser, page, pictures);
  }

  close() {
    return this.#browser.close();
  }

  picture(name) {
    const number = String(++this.#taken).padStart(2, "0");
    return this.#page.screenshot({ path: `${this.#pictures}/${number}-${name}.png` });
  }

  // all is what something says of itself, wherever it is seen.
  async all(selector) {
    const told = await this.#told(selector);
    return told.map(([, text]) => text);
  }

  // #told is each element that is seen, with what it says. One that goes away
  // meanwhile is not seen.
  async #told(selector) {
    const list = await this.#page.$$(selector);
    const texts = await Promise.all(list.map((e) => e.evaluate(told).catch(() => false)));
    return list.map((e, i) => [e, texts[i]]).filter(([, text]) => text !== false);
  }

  // seek waits until one of them matches.
  seek(what, selector, pattern) {
    return eventually(what, async () => (await this.all(selector)).find((text) => pattern.test(text)));
  }

  // click waits for one that matches, and clicks on it.
  async click(selector, pattern, options) {
    const [found] = await until(`${selector} with ${pattern}`, async () => (await this.#told(selector)).find(([, text]) => pattern.test(text)));
    await found.click(options);
  }

  // keys presses one chord after the other: "Control+KeyG", "Escape".
  async keys(...chords) {
    for (const chord of chords) {
      const keys = chord.split("+");
      for (const k of keys) await this.#page.keyboard.down(k);
      for (const k of keys.reverse()) await this.#page.keyboard.up(k);
    }
  }

  type(text) {
    return this.#page.keyboard.type(text);
  }

  // ask types into the box that opens at the top.
  async #ask(text) {
    await this.#page.waitForSelector(".quick-input-box input", { visible: true, timeout: patience });
    await this.type(text);
  }

  #answered() {
    return this.#page.waitForSelector(".quick-input-box input", { hidden: true, timeout: patience });
  }

  // command carries out a command of the palette by its full title.
  async command(title) {
    await this.keys("F1");
    await this.#ask(title);
    await this.click(".quick-input-list .monaco-list-row", new RegExp(`^${title.replace(/\W/g, "\\$&")}(,|\n|$)`));
    await this.#answered();
  }

  // go sets the cursor, line and column counted from 1.
  async go({ line, column }) {
    await this.keys("Control+KeyG");
    await this.#ask(`${line}:${column}`);
    await this.keys("Enter");
    await this.#answered();
    await until("the cursor is there", async () => (await this.all('[id="status.editor.selection"]')).some((t) => t.includes(`Ln ${line}, Col ${column}`)));
  }
}
