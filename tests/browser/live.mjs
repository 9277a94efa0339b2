// SPDX-License-Identifier: MIT
// The live page in headless Chromium, from file:// without a network: its numbers against those of
// the native engine, how long they take, and its use by keys, on small screens and on paper.
//
//     node live.mjs PAGE PROGRAM RANDOM SETUP...
//     node live.mjs --shots DIR PAGE SETUP...       pictures of it, nothing checked
//
// RANDOM holds lines of caseload_random_setups.
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const executablePath = process.env.CASELOAD_CHROMIUM ?? "/usr/bin/chromium";
const problems = [];
const note = (...words) => problems.push(words.join(" "));
const check = (holds, ...words) => holds || note(...words);

// -- comparing ---------------------------------------------------------------------------------------

/// Calls seen(path, native, live) for every leaf of two documents, and notes what only one has.
function walk(native, live, path, seen) {
  if (native !== null && typeof native === "object" && live !== null && typeof live === "object") {
    for (const key of new Set([...Object.keys(native), ...Object.keys(live)]))
      if (!(key in native) || !(key in live)) note(`${path}.${key}: only in one of them`);
      else walk(native[key], live[key], `${path}.${key}`, seen);
  } else seen(path, native, live);
}

/// The integration of an event takes steps by its own estimate of their error (1e-7 K and 1e-9 of the
/// temperature a step): a last digit may change a step. Legs at rest are roots and agree to their last
/// digits.
const allowed = { rest: 1e-8, event: 1e-6 };

/// What an assumption is worth is a difference of two events, near nothing for most: K, share of a life.
const allowedWorth = { K: 1e-5, share: 1e-8 };

function compare(name, native, live) {
  const found = { count: 0, rest: 0, event: 0 };
  const byKey = (answer) => ({ ...answer, assumed: answer.assumed && Object.fromEntries(answer.assumed.map((one) => [one.key, one])) });
  walk(byKey(native), byKey(live), name, (path, a, b) => {
    ++found.count;
    if (a === b) return;
    if (typeof a !== "number" || typeof b !== "number") return note(`${path}: ${a} and ${b}`);
    if (/\.peak_at_s$/.test(path)) return; // where a flat top is highest; the top itself is compared
    const worth = path.includes(".assumed.") && path.match(/_(K|share)$/)?.[1];
    if (worth) return Math.abs(a - b) <= allowedWorth[worth] || note(`${path}: ${a} and ${b}`);
    const kind = /\.legs\.\d+\.at_rest\./.test(path) ? "rest" : "event";
    // What is near nothing counts against 1 of its unit, a temperature in an event against 100 K, a
    // share of a life against itself.
    const least = /share|dose/.test(path) ? 0 : kind === "event" && /_degC(\.|$)/.test(path) ? 100 : 1;
    const apart = Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b), least);
    found[kind] = Math.max(found[kind], apart);
    if (!(apart <= allowed[kind])) note(`${path}: ${a} and ${b}, apart by ${apart.toExponential(1)}`);
  });
  return found;
}

const told = ({ count, rest, event }) =>
  `${count} values, largest difference at rest ${rest.toExponential(1)}, over an event ${event.toExponential(1)}`;

/// A question to the page's own engine.
const ask = (page, ...words) => page.evaluate((all) => quick.ask(...all), words);

async function compareExamples(page, program, setups) {
  for (const setup of setups) {
    for (const beside of readdirSync(dirname(setup), { recursive: true }).filter((name) => name.endsWith(".toml")))
      await ask(page, "keep", beside, readFileSync(join(dirname(setup), beside), "utf8"));
    const native = JSON.parse(execFileSync(program, ["assess", "--json", setup], { maxBuffer: 1 << 28 }));
    await ask(page, "open", basename(setup), readFileSync(setup, "utf8"));
    const live = await ask(page, "json");
    if (live.ok) console.log(`${basename(setup)}: ${told(compare(basename(setup), native, live.answer))}`);
    else note(`${setup}: ${live.report}`);
  }
}

async function compareRandom(page, file) {
  const whole = { count: 0, rest: 0, event: 0 };
  let answered = 0;
  const lines = readFileSync(file, "utf8").trim().split("\n");
  for (const [number, line] of lines.entries()) {
    const native = JSON.parse(line);
    await ask(page, "open", "random.toml", native.text);
    const live = { chain: await ask(page, "chain"), line: await ask(page, "line", "63") };
    if (native.line.ok) {
      ++answered;
      native.line = JSON.parse(native.line.line);
      if (live.line.ok) live.line = JSON.parse(live.line.line);
    }
    const found = compare(`random ${number}`, { chain: native.chain, line: native.line }, live);
    whole.count += found.count;
    whole.rest = Math.max(whole.rest, found.rest);
    whole.event = Math.max(whole.event, found.event);
  }
  console.log(`${lines.length} random setups, ${answered} with an answer: ${told(whole)}`);
  check(answered > lines.length / 2, "random: hardly a setup has an answer");
}

// -- the page as it is used --------------------------------------------------------------------------

/// Waits until it holds. Not waitForFunction: that evaluates text, which the page's policy forbids.
async function until(page, holds, argument) {
  for (const end = Date.now() + 120000; !(await page.evaluate(holds, argument)); ) {
    if (Date.now() > end) throw new Error(`waited in vain for ${holds}`);
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

const settled = (page, what) =>
  until(page, (name) => document.documentElement.dataset[name] === String(serial) && !working && typed.size === 0, what);
const quiet = (page) => settled(page, "settled");

async function opened(browser, file, options = {}) {
  const context = await browser.newContext({ offline: true, bypassCSP: options.axe === true, ...options });
  const page = await context.newPage();
  page.on("console", (message) => note("console:", message.text()));
  page.on("pageerror", (error) => note("error:", error.message));
  page.on("request", (request) => {
    const url = request.url();
    if (url !== pathToFileURL(file).href && !/^(blob|data):/.test(url)) note("asks for", url);
  });
  await page.goto(pathToFileURL(file).href);
  return page;
}

/// From a change to the likely values, and to the verdict, in ms.
async function times(page, throttle) {
  const session = await page.context().newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: throttle });
  const all = { likely: [], band: [], page: [] };
  for (const mass of [2400, 2450, 2500, 2550, 2600]) {
    await page.evaluate((value) => {
      performance.clearMarks();
      performance.mark("begin");
      change("vehicle.mass", value);
    }, `${mass} kg`);
    await settled(page, "worth");
    for (const name of Object.keys(all))
      all[name].push(await page.evaluate((what) => performance.getEntriesByName(what)[0].startTime - performance.getEntriesByName("begin")[0].startTime, name));
  }
  await session.send("Emulation.setCPUThrottlingRate", { rate: 1 });
  const middle = (list) => list.sort((a, b) => a - b)[2].toFixed(0);
  console.log(`${throttle}x throttle: likely ${middle(all.likely)} ms after a change, verdict ${middle(all.band)} ms, pictures ${middle(all.page)} ms (median of 5)`);
}

/// Everything by keys alone: to the boxes, into a choice, a mistake and its mending, a leaf.
async function keys(page) {
  await page.evaluate(() => document.activeElement.blur());
  const seen = new Set();
  const reach = async (wanted) => {
    for (let i = 0; i < 80; ++i) {
      await page.keyboard.press("Tab");
      const here = await page.evaluate(() => document.activeElement.id || document.activeElement.textContent.slice(0, 60));
      seen.add(here);
      if (here === wanted) return true;
    }
    note(`keys: ${wanted} is not reached; seen: ${[...seen].join(", ")}`);
    return false;
  };
  const before = await page.textContent("#likely");
  await reach("box-vehicle-mass");
  await page.keyboard.press("Control+A");
  await page.keyboard.type("2600");
  await until(page, () => document.getElementById("box-vehicle-mass").getAttribute("aria-invalid") === "true");
  check((await page.textContent("#box-vehicle-mass-wrong")).includes("vehicle.mass"), "keys: the box does not say what is wrong");
  check((await page.textContent("#mark")) !== "", "keys: a wrong entry leaves the answer unmarked");
  await page.keyboard.type(" kg");
  await settled(page, "likely");
  check((await page.getAttribute("#box-vehicle-mass", "aria-invalid")) === "false", "keys: the mended box is still marked");
  check((await page.textContent("#likely")) !== before, "keys: another mass has the same likely values");
  await reach("box-housing-place").then(() => page.keyboard.press("ArrowUp"));
  await settled(page, "likely");
  check((await page.inputValue("#toml")).includes('housing.place = "open"'), "keys: the choice is not in the text");
  await reach("Every entry: assumed or yours");
  await page.keyboard.press("Enter");
  await reach("find");
  await page.keyboard.type("altitude");
  await page.keyboard.press("Tab");
  await page.keyboard.press("Enter");
  await reach("row-event-altitude");
  await page.keyboard.press("Control+A");
  await page.keyboard.type("900 m");
  await settled(page, "worth");
  check((await page.inputValue("#toml")).includes('event.altitude = "900 m"'), "keys: the entry is not in the text");
  await page.getByText("Assume it again").click();
  await settled(page, "likely");
  check(!(await page.inputValue("#toml")).includes("altitude"), "keys: the entry is still in the text");
}

/// Setups in and out: as text, saved, opened with a base beside it, left in the browser.
async function setups(page, folder) {
  const text = await page.inputValue("#toml");
  const [download] = await Promise.all([page.waitForEvent("download"), page.click("#save")]);
  check(readFileSync(await download.path(), "utf8") === text, "the saved setup is another one");
  writeFileSync(join(folder, "heavier.toml"), 'caseload = 1\nbase = "base.toml"\nvehicle.mass = "3000 kg"\n');
  writeFileSync(join(folder, "base.toml"), text);
  await page.setInputFiles("#files", [join(folder, "base.toml"), join(folder, "heavier.toml")]);
  await until(page, () => setup.name === "heavier.toml");
  await settled(page, "likely");
  check((await page.textContent("#problems")) === "", "a base opened beside its setup is not found");
  check((await page.inputValue("#box-vehicle-mass")) === "3000 kg", "the opened setup is not shown");
  await page.reload();
  await until(page, () => document.documentElement.dataset.likely !== undefined);
  check((await page.evaluate(() => setup.text)).includes("3000 kg"), "the last setup is not kept");
  await page.click("#again");
  await settled(page, "worth");
  check(!(await page.evaluate(() => setup.text)).includes("3000 kg"), "one cannot begin again");
}

async function leaves(page) {
  const asked = async (id, before) => {
    await page.evaluate((name) => (document.getElementById(name).open = true), id);
    await before?.();
    await page.click(`#${id} [data-ask]`);
    await until(page, (name) => !/^calculating/.test(document.querySelector(`#${name}-screen pre`)?.textContent ?? "calculating"), id);
    return page.textContent(`#${id}-screen pre`);
  };
  check((await asked("sets")).includes("SETS"), "sets: no answer");
  check((await asked("compare", async () => {
    await page.selectOption("#key", "vehicle.mass");
    await page.fill("#value", "3200 kg");
  })).includes("moved"), "compare: nothing moved");
  check((await asked("why")).includes("="), "why: no formula");
  check((await asked("cooler")).includes("cooler"), "cooler: no answer");
}

function tooWide() {
  const wide = document.documentElement.scrollWidth - document.documentElement.clientWidth;
  return wide > 0 ? [...document.querySelectorAll("body *")].filter((n) => n.getBoundingClientRect().right > innerWidth + 1 && !n.closest("pre, .slides, svg")).slice(0, 3).map((n) => `${n.tagName} ${n.id || n.className}`).concat(`${wide} px wider than the screen`) : [];
}

/// Sizes, both colours, axe, paper. Pictures into a folder when one is named.
async function looks(browser, file, shots) {
  const screens = [["360-light", 360, 740, "light"], ["360-dark", 360, 740, "dark"], ["landscape", 740, 360, "light"], ["1280-light", 1280, 900, "light"], ["1280-dark", 1280, 900, "dark"]];
  for (const [name, width, height, colorScheme] of screens) {
    const page = await opened(browser, file, { viewport: { width, height }, colorScheme, axe: true });
    await quiet(page);
    if (shots) {
      await page.screenshot({ path: join(shots, `${name}.png`) });
      await page.screenshot({ path: join(shots, `${name}-whole.png`), fullPage: true });
    }
    for (const unfolded of [false, true]) {
      if (unfolded) await page.evaluate(() => document.querySelectorAll("details").forEach((d) => (d.open = true)));
      for (const words of await page.evaluate(tooWide)) note(`${name}${unfolded ? ", unfolded" : ""}: ${words}`);
    }
    await page.evaluate(axe);
    const { violations } = await page.evaluate(() => window.axe.run());
    for (const violation of violations) note(`${name}: axe ${violation.id}: ${violation.nodes[0].html.slice(0, 160)}`);
    if (name === "1280-light") {
      await page.emulateMedia({ media: "print" });
      check(!(await page.isVisible("#setup")), "print: the boxes are printed");
      check(await page.isVisible("#head .verdict"), "print: the verdict is not");
      check(await page.isVisible("#body figure"), "print: the pictures are not");
      const pdf = await page.pdf({ format: "A4" });
      check((pdf.toString("latin1").match(/\/Type\s*\/Page[^s]/g)?.length ?? 0) > 1, "print: no pages");
      if (shots) writeFileSync(join(shots, "print.pdf"), pdf);
    }
    await page.context().close();
  }
}

// -- a page with a setup inside --------------------------------------------------------------------

/// What the body says, but for the assumptions: those worth next to nothing stand in the order of last
/// digits; and the twelve digits behind a number that unfolds. Their numbers are compared above.
const said = (page) =>
  page.evaluate(() => [...document.querySelectorAll("#body > *")].map((node) => {
    const copy = node.cloneNode(true);
    for (const derivation of copy.querySelectorAll("details.why pre")) derivation.remove();
    return copy.textContent;
  }).filter((words) => !words.includes("What was assumed, and what to measure")).join("\n"));

async function embedded(browser, program, setup, folder) {
  const file = join(folder, "embedded.html");
  execFileSync(program, ["assess", setup, "--page", file, "--live"]);
  const still = await opened(browser, file, { javaScriptEnabled: false });
  check(await still.isVisible("#head .verdict"), "without script: no verdict");
  check(await still.isVisible("#body figure svg"), "without script: no picture");
  check(!(await still.isVisible("#setup")), "without script: boxes that do nothing");
  const before = await said(still);
  await still.context().close();
  const page = await opened(browser, file);
  await quiet(page);
  check(before.length > 5000 && (await said(page)) === before, "the page says something else than the program");
  await page.fill("#box-vehicle-mass", "5000 kg");
  await settled(page, "worth");
  check((await page.textContent("#head")).includes(basename(setup)), "the page forgets its setup");
  await page.context().close();
}

const given = process.argv.slice(2);
const shots = given[0] === "--shots" ? given.splice(0, 2)[1] : undefined;
const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
const folder = mkdtempSync(join(tmpdir(), "caseload-live-"));
try {
  if (shots) {
    mkdirSync(shots, { recursive: true });
    await looks(browser, given[0], shots);
  } else {
    const [file, program, random, ...examples] = given;
    const begun = Date.now();
    const page = await opened(browser, file);
    await until(page, () => document.documentElement.dataset.likely !== undefined);
    console.log(`${statSync(file).size} bytes; likely values ${Date.now() - begun} ms after opening`);
    await settled(page, "worth");
    for (const throttle of [1, 6]) await times(page, throttle);
    await compareExamples(page, program, examples);
    await page.evaluate(() => localStorage.clear()); // the shortest setup again, whose oil another mass moves
    await page.reload();
    await settled(page, "worth");
    await keys(page);
    await setups(page, folder);
    await leaves(page);
    await compareRandom(page, random);
    await page.context().close();
    await looks(browser, file);
    await embedded(browser, program, examples[0], folder);
  }
} finally {
  await browser.close();
  rmSync(folder, { recursive: true });
}
for (const problem of problems.slice(0, 60)) console.error(problem);
console.log(`the live page: ${problems.length} problems`);
process.exitCode = problems.length === 0 ? 0 : 1;
