// The boxes and the list of every entry, as the engine describes them; what is typed
// goes to change() of live.js.

"use strict";

let entries = []; // of the setup as it is now
let worth = {}; // effects of assumptions by key: oil low, oil high, life low, life high

// -- boxes ---------------------------------------------------------------------------------------

const boxes = new Map(); // key: its control and message

/// A control for an entry: choices as choices, everything else as people write it.
function control(entry, id) {
  const chosen = entry.choices.length > 0;
  const input = made(chosen ? "select" : "input", { id });
  if (chosen) fill(input, entry);
  input.addEventListener(chosen ? "change" : "input", () => change(entry.key, input.value));
  return input;
}

function fill(select, entry) {
  const words = entry.choices.includes(entry.value) ? entry.choices : [entry.value, ...entry.choices];
  if (select.textContent === words.join("")) return;
  select.replaceChildren(...words.map((word) => made("option", { value: word, textContent: word })));
}

function box(entry, where) {
  const id = `${where} ${entry.key}`.replaceAll(/[ .]/g, "-");
  const input = control(entry, id);
  const hint = made("small", { id: `${id}-hint`, textContent: [entry.words, entry.writing].filter(Boolean).join("; ") });
  const wrong = made("p", { id: `${id}-wrong`, className: "wrong" });
  input.setAttribute("aria-describedby", `${hint.id} ${wrong.id}`);
  const node = made("div", { className: "entry" }, made("label", { htmlFor: id, textContent: entry.label }), input, hint, wrong);
  return { node, input, wrong };
}

/// Shows an entry of the setup, but not over what is being typed. Returns the problems shown there.
function show(shown, entry, problems) {
  const { input, wrong } = shown;
  if (input.tagName === "SELECT") fill(input, entry);
  if (document.activeElement !== input || input.tagName === "SELECT") input.value = entry.value;
  const own = problems.filter((one) => (one.line > 0 && one.line === entry.line) || one.text.startsWith(`${entry.key} `));
  wrong.textContent = own.map((one) => [one.text, one.hint].filter(Boolean).join("\n")).join("\n");
  input.setAttribute("aria-invalid", String(own.length > 0));
  return own;
}

function showForm(form) {
  const problems = form.problems ?? [];
  const toldAtBoxes = new Set();
  for (const entry of form.boxes) {
    if (!boxes.has(entry.key)) {
      boxes.set(entry.key, box(entry, "box"));
      $("boxes").append(boxes.get(entry.key).node);
    }
    for (const one of show(boxes.get(entry.key), entry, problems)) toldAtBoxes.add(one);
  }
  for (const { input } of boxes.values()) input.disabled = form.boxes.length === 0;
  const all = problems.length > 0 && problems.every((one) => toldAtBoxes.has(one));
  $("problems").replaceChildren(...(form.report && !all ? [made("pre", { textContent: form.report, tabIndex: 0 })] : []));
  for (const words of document.querySelectorAll(".old-screen")) words.textContent = "Of an earlier entry: ask again.";
  if (document.activeElement !== $("toml")) $("toml").value = setup.text;
}

// -- every entry -----------------------------------------------------------------------------------

const rows = new Map(); // key: its line in the list

function row(entry) {
  const node = made("details");
  const summary = made("summary");
  const inside = made("div");
  node.append(summary, inside);
  const shown = { node, summary, inside, entry };
  node.addEventListener("toggle", () => {
    if (!node.open || shown.box) return;
    shown.box = box(shown.entry, "row");
    shown.from = made("p", { className: "say" });
    const assume = made("button", { type: "button", textContent: "Assume it again" });
    assume.addEventListener("click", () => change(shown.entry.key, null));
    shown.assume = assume;
    inside.append(shown.box.node, shown.from, assume);
    showRow(shown, shown.entry);
  });
  return shown;
}

const signed = (number) => `${number >= 0 ? "+" : "-"}${Math.abs(number).toFixed(1)} K`;

// For many legs that assume the same key, and for the fits of assumed seats, the engine gives one
// effect, that of all together.
const effectOf = (entry) => worth[entry.key] ?? worth[entry.key.replace(/^leg\..*\./, "leg.*.")] ??
  worth[entry.key.replace(/^bearing\..*\.seat\.ring_fit$/, "bearing.*.seat.ring_fit")];

function showRow(shown, entry) {
  shown.entry = entry;
  const its = effectOf(entry);
  const least = 1; // K: an effect below it is printed nowhere, as on the screen
  const told = its && Math.max(Math.abs(its[0]), Math.abs(its[1])) >= least
    ? ` ${signed(Math.min(its[0], its[1]))} .. ${signed(Math.max(its[0], its[1]))}` : "";
  shown.summary.replaceChildren(`${entry.label}: ${entry.value}`, made("span", { className: "worth", textContent: told }));
  shown.summary.className = entry.yours ? "mine" : "";
  if (!shown.box) return;
  show(shown.box, entry, []);
  const range = entry.low ? `; plausible ${entry.low} to ${entry.high}` : "";
  shown.from.textContent = `${entry.yours ? "" : "assumed: "}${entry.from}${range}${told ? `; effect on the hottest oil${told}${worth[entry.key] ? "" : ", of all such entries together"}` : ""}`;
  shown.assume.hidden = !entry.yours;
}

function showEntries(list) {
  entries = list;
  const size = (entry) => Math.max(...(effectOf(entry) ?? [0, 0]).slice(0, 2).map(Math.abs));
  const sorted = [...list].sort((a, b) => size(b) - size(a));
  const keys = new Set(list.map((entry) => entry.key));
  for (const [key, shown] of rows)
    if (!keys.has(key)) {
      shown.node.remove();
      rows.delete(key);
    }
  const typing = $("list").contains(document.activeElement);
  for (const entry of sorted) {
    if (!rows.has(entry.key)) rows.set(entry.key, row(entry));
    const shown = rows.get(entry.key);
    if (!typing || !shown.node.isConnected) $("list").append(shown.node);
    showRow(shown, entry);
  }
  find();
  const names = list.map((entry) => entry.key);
  const chosen = $("key").value;
  $("key").replaceChildren(...names.map((key) => made("option", { value: key, textContent: key })));
  if (names.includes(chosen)) $("key").value = chosen;
  else offer();
}

function find() {
  const words = $("find").value.toLowerCase();
  for (const { node, entry } of rows.values())
    node.hidden = !`${entry.key} ${entry.label} ${entry.words} ${entry.from}`.toLowerCase().includes(words);
}
