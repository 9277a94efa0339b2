// SPDX-License-Identifier: MIT
// Makes docs/picture.png, the top of the page of docs/examples/light.toml: node picture.mjs PROGRAM
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const folder = mkdtempSync(join(tmpdir(), "caseload-picture-"));
const file = join(folder, "light.html");
execFileSync(process.argv[2], ["assess", join(root, "docs/examples/light.toml"), "--page", file]);
const browser = await chromium.launch({
  executablePath: process.env.CASELOAD_CHROMIUM ?? "/usr/bin/chromium",
  args: ["--no-sandbox"],
});
const page = await browser.newPage({ viewport: { width: 900, height: 1000 }, colorScheme: "light" });
await page.goto(pathToFileURL(file).href);
await page.screenshot({ path: join(root, "docs/picture.png") });
await browser.close();
rmSync(folder, { recursive: true });
