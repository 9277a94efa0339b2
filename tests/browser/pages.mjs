// SPDX-License-Identifier: MIT
// Pages in headless Chromium: nothing fetched, nothing on the console, no accessibility violation,
// no label over another or outside its picture, nothing wider than a 360 px screen, and on paper
// every picture whole and every table open.
//
//     node pages.mjs PROGRAM SETUP...          writes the sheets of each setup and checks them
//     node pages.mjs --shots DIR PROGRAM SETUP...   the same, and leaves pictures of them in DIR
//     node pages.mjs --self-test               pages made wrong in turn, each of which must be noticed
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const executablePath = process.env.CASELOAD_CHROMIUM ?? "/usr/bin/chromium";

const screens = [
  { name: "1200 light", width: 1200, colorScheme: "light", axe: true },
  { name: "1200 dark", width: 1200, colorScheme: "dark" },
  { name: "600 light", width: 600, colorScheme: "light" },
  { name: "360 dark", width: 360, colorScheme: "dark", axe: true },
];

// Millimetres inside the page's margins of 12 mm; the card's own sheet has 5 mm.
const papers = { A4: [186, 273], Letter: [191.9, 255.4] };
const px = (mm) => (mm * 96) / 25.4;

/// Labels of the pictures on show that meet or leave their picture.
function labelProblems() {
  const problems = [];
  for (const svg of document.querySelectorAll("svg")) {
    const frame = svg.getBoundingClientRect();
    if (frame.width === 0) continue;
    const labels = [...svg.querySelectorAll("text")].map((node) => ({
      words: node.textContent,
      box: node.getBoundingClientRect(),
      size: parseFloat(getComputedStyle(node).fontSize) * (frame.width / svg.viewBox.baseVal.width),
    }));
    for (const [i, a] of labels.entries()) {
      if (a.size < 9.5) problems.push(`"${a.words}" is ${a.size.toFixed(1)} px high`);
      if (a.box.left < frame.left - 1 || a.box.right > frame.right + 1 ||
          a.box.top < frame.top - 1 || a.box.bottom > frame.bottom + 1)
        problems.push(`"${a.words}" leaves its picture`);
      for (const b of labels.slice(i + 1)) {
        const across = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
        const down = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
        if (across > 1 && down > 3) problems.push(`"${a.words}" meets "${b.words}"`);
      }
    }
  }
  return problems;
}

function widthProblems() {
  const wide = document.documentElement.scrollWidth - document.documentElement.clientWidth;
  return wide > 0 ? [`${wide} px wider than the screen`] : [];
}

/// What a sheet of this height would cut, and what is folded away.
function paperProblems(height) {
  const problems = [];
  for (const node of document.querySelectorAll("figure, .verdict, .part > table, .zone"))
    if (node.getBoundingClientRect().height > height) problems.push(`${node.tagName} is cut`);
  for (const node of document.querySelectorAll("figure, .verdict, .block, tr"))
    if (getComputedStyle(node).breakInside !== "avoid")
      problems.push(`${node.tagName} may be cut`);
  for (const table of document.querySelectorAll("table")) {
    const rect = table.getBoundingClientRect();
    if (!table.checkVisibility({ contentVisibilityAuto: true }) || rect.height === 0)
      problems.push(`table "${table.caption.textContent}" is folded away`);
    if (rect.right > document.documentElement.clientWidth + 1)
      problems.push(`table "${table.caption.textContent}" is wider than the sheet`);
  }
  return problems;
}

async function check(browser, file, shots, few = false) {
  const name = basename(file, ".html");
  const found = [];
  const note = (where, problems) => found.push(...problems.map((words) => `${name}, ${where}: ${words}`));
  for (const screen of few ? screens.slice(2) : screens) {
    const page = await browser.newPage({
      viewport: { width: screen.width, height: 800 },
      colorScheme: screen.colorScheme,
      bypassCSP: true, // axe is put in from outside; the page's own policy is looked at below
    });
    const url = pathToFileURL(file).href;
    page.on("console", (message) => note(screen.name, [`console: ${message.text()}`]));
    page.on("pageerror", (error) => note(screen.name, [`error: ${error.message}`]));
    page.on("request", (request) => {
      if (request.url() !== url && !request.url().startsWith("data:")) note(screen.name, [`asks for ${request.url()}`]);
    });
    await page.goto(url);
    note(screen.name, await page.evaluate(labelProblems));
    note(screen.name, await page.evaluate(widthProblems));
    await page.evaluate(() => document.querySelectorAll("details").forEach((d) => (d.open = true)));
    note(`${screen.name}, unfolded`, await page.evaluate(widthProblems));
    if (screen.axe) {
      await page.evaluate(axe);
      const { violations } = await page.evaluate(() => window.axe.run());
      for (const violation of violations)
        note(screen.name, [`axe ${violation.id}: ${violation.nodes[0].html.slice(0, 160)}`]);
    }
    if (shots) {
      await page.evaluate(() => document.querySelectorAll("details").forEach((d) => (d.open = false)));
      await page.screenshot({ path: join(shots, `${name} ${screen.name}.png`.replaceAll(" ", "-")), fullPage: true });
    }
    await page.close();
  }
  const page = await browser.newPage();
  await page.goto(pathToFileURL(file).href);
  if (!(await page.content()).includes("default-src 'none'")) note("policy", ["may fetch"]);
  await page.emulateMedia({ media: "print" });
  const kind = await page.evaluate(() => document.body.className);
  for (const [paper, [width, height]] of Object.entries(papers)) {
    if (kind === "card" && paper === "Letter") continue;
    if (kind !== "card") {
      await page.setViewportSize({ width: Math.floor(px(width)), height: Math.floor(px(height)) });
      note(paper, await page.evaluate(paperProblems, px(height)));
      note(paper, await page.evaluate(labelProblems));
    }
    const pdf = await page.pdf(kind === "card" ? { preferCSSPageSize: true, printBackground: false } : { format: paper });
    const pages = pdf.toString("latin1").match(/\/Type\s*\/Page[^s]/g)?.length ?? 0;
    if (pages === 0) note(paper, ["no page came out"]);
    if (kind === "card" && pages !== 1) note("A6", [`${pages} pages instead of one`]);
    if (shots) writeFileSync(join(shots, `${name}-${paper}.pdf`), pdf);
  }
  await page.close();
  return found;
}

const wrong = [
  ["fetches", `<img src="https://caseload.invalid/x.png" alt="">`, "asks for"],
  ["runs a failing script", `<script>throw new Error("x")</script>`, "error:"],
  ["logs", `<script>console.log("x")</script>`, "console:"],
  ["has no words for a picture", `<svg role="img" viewBox="0 0 9 9" width="90"></svg>`, "axe svg-img-alt"],
  ["labels meet", `<svg role="img" aria-label="x" viewBox="0 0 90 90" width="90"><text x="5" y="50">one label</text><text x="9" y="52">two label</text></svg>`, "meets"],
  ["label leaves", `<svg role="img" aria-label="x" viewBox="0 0 90 90" width="90"><text x="80" y="50">a label</text></svg>`, "leaves"],
  ["label small", `<svg role="img" aria-label="x" viewBox="0 0 900 90" width="300"><text x="80" y="50">a label</text></svg>`, "px high"],
  ["too wide", `<div style="width:2000px">x</div>`, "wider than the screen"],
  ["faint words", `<p style="color:#aaa;background:#fff">faint words</p>`, "axe color-contrast"],
  ["cut", `<figure style="height:4000px;break-inside:avoid"></figure>`, "is cut"],
  ["may be cut", `<figure style="break-inside:auto"></figure>`, "may be cut"],
  ["folded on paper", `<details><summary>x</summary><table><caption>y</caption><tbody><tr style="break-inside:avoid"><td>z</td></tr></tbody></table></details>`, "folded away"],
  ["no policy", "", "may fetch", ""],
];

async function selfTest(browser, folder) {
  const failures = [];
  const policy = `<meta http-equiv="X-None" content="default-src 'none'">`;
  const whole = (body, head = policy) =>
    `<!DOCTYPE html><html lang="en"><head><title>t</title>${head}<style>svg{display:block}text{font:12px sans-serif}</style></head><body class="page"><main><h1>t</h1>${body}</main></body></html>`;
  const right = join(folder, "right.html");
  writeFileSync(right, whole("<p>fine</p>"));
  for (const problem of await check(browser, right)) failures.push(`a right page: ${problem}`);
  for (const [what, body, expected, head] of wrong) {
    const file = join(folder, "wrong.html");
    writeFileSync(file, whole(body, head));
    const found = await check(browser, file);
    if (!found.some((problem) => problem.includes(expected)))
      failures.push(`not noticed: ${what}; found: ${found.join("; ") || "nothing"}`);
  }
  return failures;
}

const given = process.argv.slice(2);
const folder = mkdtempSync(join(tmpdir(), "caseload-pages-"));
const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
let found = [];
let checked = 0;
try {
  if (given[0] === "--self-test") {
    found = await selfTest(browser, folder);
    checked = wrong.length + 1;
  } else {
    let shots;
    if (given[0] === "--shots") {
      shots = given[1];
      mkdirSync(shots, { recursive: true });
      given.splice(0, 2);
    }
    const [program, ...setups] = given;
    for (const setup of setups)
      for (const units of ["metric", "imperial"]) {
        const stem = join(folder, `${basename(setup, ".toml")}${units === "metric" ? "" : "-imperial"}`);
        const files = { page: `${stem}.html`, card: `${stem}-card.html`, teardown: `${stem}-teardown.html` };
        execFileSync(program, ["assess", setup, "--units", units, ...Object.entries(files).flatMap(([kind, file]) => [`--${kind}`, file])]);
        for (const file of Object.values(files)) {
          found.push(...(await check(browser, file, units === "metric" ? shots : undefined, units !== "metric")));
          ++checked;
        }
      }
  }
} finally {
  await browser.close();
  rmSync(folder, { recursive: true });
}
for (const problem of found) console.error(problem);
console.log(`${checked} pages in a browser, ${found.length} problems`);
process.exitCode = found.length === 0 && checked > 0 ? 0 : 1;
