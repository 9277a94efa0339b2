// The live page: a setup as text, boxes that change keys of it (form.js), and the answer beside them.
// Every word, unit and choice comes from the engine. Nothing is fetched from a network.
"use strict";

const $ = (id) => document.getElementById(id);
const made = (tag, members = {}, ...inside) => {
  const node = Object.assign(document.createElement(tag), members);
  node.append(...inside);
  return node;
};

/// The engine's program, unpacked and compiled once for all workers.
async function unpacked() {
  const packed = Uint8Array.from(atob($("wasm").textContent.trim()), (c) => c.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  return WebAssembly.compile(await new Response(stream).arrayBuffer());
}
const program = unpacked();
program.catch((error) => say(`The calculation cannot start in this browser: ${error.message}`));

/// An engine in a worker; questions are answered in turn.
class Engine {
  #waiting = new Map();
  #number = 0;
  constructor() {
    this.#start();
  }
  #start() {
    const url = URL.createObjectURL(new Blob([$("engine").textContent], { type: "text/javascript" }));
    const worker = (this.worker = new Worker(url));
    URL.revokeObjectURL(url);
    worker.onmessage = ({ data: { id, said } }) => {
      this.#waiting.get(id)?.(said);
      this.#waiting.delete(id);
    };
    worker.onerror = (event) => say(`The calculation cannot start in this browser: ${event.message}`);
    program.then((module) => worker.postMessage({ module }));
  }
  ask(question, first, second) {
    const id = ++this.#number;
    return new Promise((resolve) => {
      this.#waiting.set(id, resolve);
      this.worker.postMessage({ id, question, first, second });
    });
  }
  /// Drops the question it works on; those who wait get no answer.
  again() {
    this.worker.terminate();
    this.#waiting.clear();
    this.#start();
  }
}

const setup = { name: "our-case.toml", text: "", beside: {} };
const quick = new Engine(); // likely values, within a moment
const sure = new Engine(); // range and effects
let leaf; // sets, cooler, ... : made when first asked

const say = (words) => ($("said").textContent = words);

// The setup given with the page, and the one kept in this browser. A page with another setup inside
// does not take the kept one.
const given = JSON.parse($("given").textContent);
const store = `caseload ${location.pathname}`;
const stamp = JSON.stringify(given);

function keep() {
  try {
    localStorage.setItem(store, JSON.stringify({ stamp, ...setup }));
  } catch {
    // also in a browser that keeps nothing
  }
}

function kept() {
  try {
    const left = JSON.parse(localStorage.getItem(store));
    return left?.stamp === stamp && typeof left.text === "string" ? left : null;
  } catch {
    return null;
  }
}

// -- the answer ----------------------------------------------------------------------------------

let serial = 0; // of the setup as it is now
let working = false;
const typed = new Map(); // keys with what was last typed; null: to be assumed again

function change(key, value) {
  typed.set(key, value);
  work();
}

/// Enters what was typed, then shows the likely values; the range follows.
async function work() {
  if (working) return;
  working = true;
  let last;
  while (typed.size > 0 || last !== serial) {
    for (const [key, value] of [...typed]) {
      typed.delete(key);
      const said = await quick.ask(value === null || value === "" ? "forget" : "change", key, value ?? "");
      if (said.ok) setup.text = said.text;
      else say(said.report);
      ++serial;
    }
    last = serial;
    const answers = [quick.ask("open", setup.name, setup.text), quick.ask("likely")];
    const form = await answers[0];
    const said = form.ok ? await answers[1] : form;
    if (typed.size > 0 || last !== serial) continue;
    if (!said.ok) {
      refuse({ ...form, ok: false, problems: said.problems, report: said.report }, last);
      keep();
      continue;
    }
    const first = $("head").childElementCount === 0;
    mark(first ? "The range is being calculated." : "Verdict, range and pictures of the previous entry.");
    $("likely").innerHTML = said.html;
    $("now").firstChild.textContent = said.words;
    reached("likely", last);
    showForm(form);
    keep();
    settle();
    const all = await quick.ask("entries");
    if (last === serial && all.ok) showEntries(all.entries);
  }
  working = false;
}

/// Half a word is no mistake: a problem is shown when the typing pauses.
function refuse(form, number) {
  mark("Answer of an earlier entry.");
  const patience_ms = boxes.size > 0 ? 700 : 0;
  setTimeout(() => number === serial && showForm(form), patience_ms);
}

function mark(words) {
  $("mark").textContent = words;
  $("body").classList.toggle("old", words !== "");
}

/// Replaces content by markup from the engine; what was unfolded stays so.
function showMarkup(place, html) {
  const open = new Set([...place.querySelectorAll("details[open] > summary")].map((node) => node.textContent));
  place.innerHTML = html;
  for (const node of place.querySelectorAll("details > summary")) node.parentElement.open = open.has(node.textContent);
}

const settled = {
  band({ head, title }) {
    showMarkup($("head"), head);
    document.title = title;
    mark("Pictures of the previous entry.");
  },
  page({ body }) {
    showMarkup($("body"), body);
    mark("");
  },
  worth(said) {
    worth = said.worth;
    showEntries(entries);
  },
};

/// State of the page and its entry; for tests and for measuring.
function reached(what, number) {
  document.documentElement.dataset[what] = number;
  performance.mark(what);
}

let settling = false;

/// Range, pictures and effects of the newest setup; answers for older ones are dropped.
async function settle() {
  if (settling) return;
  settling = true;
  for (let done; done !== serial; ) {
    done = serial;
    const form = await sure.ask("open", setup.name, setup.text);
    if (!form.ok) break;
    for (const question of ["band", "page", "worth", "page"]) {
      const said = await sure.ask(question);
      if (done !== serial) break;
      if (!said.ok) {
        mark(said.report);
        break;
      }
      settled[question](said);
      reached(question, done);
    }
    if (done === serial) reached("settled", done);
  }
  settling = false;
}

// -- leaves ------------------------------------------------------------------------------------------

const asked = {
  sets: () => [$("speed").value],
  cooler: () => [$("room").value],
  compare: () => [$("key").value, $("value").value],
  why: () => [$("address").value],
};

/// The program's own screen: above the answer where it is wide enough, else below the question.
async function askLeaf(question) {
  const what = $(question).querySelector("summary").textContent;
  const wide = matchMedia("(min-width: 1180px)").matches;
  const place = made("section", { className: "screen", id: `${question}-screen` }, made("h2", { textContent: what }));
  const screen = made("pre", { textContent: "calculating ...", tabIndex: 0 });
  for (const other of document.querySelectorAll(".screen pre"))
    if (other.textContent === screen.textContent) other.textContent = "Not finished: another question came.";
  screen.setAttribute("role", "region");
  screen.setAttribute("aria-label", what);
  const close = made("button", { type: "button", textContent: "Close", onclick: () => place.remove() });
  place.append(made("p", { className: "old-screen" }), screen, close);
  $(place.id)?.remove();
  wide ? $("asked").prepend(place) : $(question).append(place);
  place.scrollIntoView({ block: "nearest" });
  leaf ? leaf.again() : (leaf = new Engine());
  for (const [name, text] of Object.entries(setup.beside)) leaf.ask("keep", name, text);
  leaf.ask("open", setup.name, setup.text);
  const said = await leaf.ask(question, ...asked[question]());
  screen.textContent = said.ok ? said.screen : said.report;
  if (said.addresses) $("addresses").replaceChildren(...said.addresses.map((value) => made("option", { value })));
}

/// The value to change, as one of its choices or as it is now.
function offer() {
  const entry = entries.find(({ key }) => key === $("key").value);
  const input = made(entry.choices.length > 0 ? "select" : "input", { id: "value" });
  if (entry.choices.length > 0) fill(input, entry);
  input.value = entry.value;
  $("value").replaceWith(input);
  $("writing").textContent = [entry.words, entry.writing].filter(Boolean).join("; ");
}

// -- the setup as a whole ------------------------------------------------------------------------

const longest = 2 ** 20; // characters; the reader takes no longer text

async function take({ name, text, beside = {} }) {
  if ([text, ...Object.values(beside)].some((one) => one.length > longest)) return say("A setup is at most 1 MiB of text.");
  Object.assign(setup, { name, text, beside });
  for (const engine of [quick, sure])
    for (const [other, content] of Object.entries(beside)) engine.ask("keep", other, content);
  typed.clear();
  ++serial;
  await work();
}

async function copy() {
  try {
    await navigator.clipboard.writeText(setup.text);
  } catch {
    $("text").open = true;
    $("toml").select();
    document.execCommand("copy");
  }
  say("The setup is copied.");
}

function save() {
  const url = URL.createObjectURL(new Blob([setup.text], { type: "text/plain" }));
  made("a", { href: url, download: setup.name }).click();
  setTimeout(() => URL.revokeObjectURL(url), 1000);
  say(`Saved as ${setup.name}.`);
}

/// The first file is the setup, the others are its bases and events.
async function openFiles(files) {
  if (files.length === 0) return;
  const texts = await Promise.all(files.map((file) => file.text()));
  const named = Object.fromEntries(files.map((file, i) => [file.name, texts[i]]));
  // The setup is the file that no other one names.
  const setupFile = files.find(({ name }) => !texts.some((text) => text.includes(`"${name}"`))) ?? files[0];
  await take({ name: setupFile.name, text: named[setupFile.name], beside: named });
  say(`${setupFile.name} is open.`);
}

async function begin() {
  if (given) return take(given);
  await take({ name: "our-case.toml", text: (await quick.ask("new")).text });
}

$("copy").onclick = copy;
$("save").onclick = save;
$("open").onclick = () => $("files").click();
$("files").onchange = () => openFiles([...$("files").files]);
$("again").onclick = begin;
$("find").oninput = find;
$("toml").oninput = () => take({ ...setup, text: $("toml").value });
$("boxes").onsubmit = (event) => event.preventDefault();
for (const button of document.querySelectorAll("[data-ask]")) button.onclick = () => askLeaf(button.dataset.ask);
$("why").ontoggle = () => $("why").open && !$("addresses").firstChild && askLeaf("why");
$("key").onchange = offer;
$("setup").hidden = false;
const left = kept();
left ? take(left) : begin();
