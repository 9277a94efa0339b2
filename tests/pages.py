#!/usr/bin/env python3
"""The sheets of one setup: markup that nests, nothing fetched, and the numbers of `assess --json`.

    pages.py PROGRAM SETUP
    pages.py --self-test PROGRAM SETUP      numbers made wrong in turn, each of which must be noticed
"""
import copy
import json
import pathlib
import subprocess
import sys
import tempfile
import tomllib
from html.parser import HTMLParser

VOID = {"meta", "link", "br", "rect", "line", "circle", "polyline", "polygon"}
ROOT = pathlib.Path(__file__).resolve().parent.parent


class Markup(HTMLParser):
    def __init__(self):
        super().__init__()
        self.open, self.problems, self.tables, self.text, self.heads = [], [], {}, "", []
        self.rows, self.cell, self.caption = None, None, None
        self.unfolds = False

    def handle_starttag(self, tag, attrs):
        for name, value in attrs:
            if name in ("src", "href") and not value.startswith("data:"):
                self.problems.append(f"<{tag}> points to {value}")
            if name.startswith("on"):
                self.problems.append(f"<{tag}> has {name}")
        if tag in ("script", "iframe", "object", "embed", "form", "img"):
            self.problems.append(f"<{tag}>")
        if tag == "svg" and not {"role", "aria-label"} <= {name for name, _ in attrs}:
            self.problems.append("a picture without words")
        if tag == "table":
            self.rows = []
        if tag == "tr":
            self.rows.append([])
        if tag in ("td", "th", "caption", "h1", "h2", "h3"):
            self.cell = ""
        if tag not in VOID:
            self.open.append(tag)

    handle_startendtag = handle_starttag

    def handle_endtag(self, tag):
        if tag in VOID:
            return
        if not self.open or self.open.pop() != tag:
            self.problems.append(f"</{tag}> at {self.getpos()} closes what is not open")
        if tag == "caption":
            self.caption = self.cell
        elif tag == "summary" and "td" in self.open:
            # What a number unfolds to is not the number.
            self.unfolds = True
        elif tag == "details":
            self.unfolds = False
        elif tag in ("td", "th"):
            self.rows[-1].append(self.cell)
        elif tag in ("h1", "h2", "h3"):
            self.heads.append(int(tag[1]))
        elif tag == "table":
            self.tables[self.caption] = self.rows

    def handle_data(self, data):
        if self.cell is not None and not self.unfolds:
            self.cell += data
        if "style" not in self.open:
            self.text += data


def read(path):
    text = path.read_text(encoding="utf-8")
    markup = Markup()
    markup.feed(text)
    markup.close()
    if markup.open:
        markup.problems.append(f"left open: {markup.open}")
    if not text.startswith("<!DOCTYPE html>"):
        markup.problems.append("no doctype")
    if markup.heads.count(1) != 1 or any(b - a > 1 for a, b in zip(markup.heads, markup.heads[1:])):
        markup.problems.append(f"headings out of order: {markup.heads}")
    for word in ("url(", "@import", "http:", "https:"):
        if word in text.replace("http://www.w3.org/2000/svg", ""):
            markup.problems.append(f"{word} in the file")
    return markup


def percent(share):
    if share <= 0:
        return "nothing that counts"
    return "below 0.0001 %" if share < 1e-6 else f"{100 * share:.2g} %"


def temp(degc):
    return "above 160" if degc is None or degc > 160 else f"{degc:.0f}"


def spaced(name):
    return name.replace("_", " ")


def table(page, begins):
    found = [rows for caption, rows in page.tables.items() if caption.startswith(begins)]
    assert len(found) == 1, f"{len(found)} tables called {begins}"
    return found[0]


class Numbers:
    """The page's numbers against the document's."""

    def __init__(self, page, document):
        self.page, self.band, self.all = page, document["band"], document["assessment"]
        self.problems, self.compared = [], 0
        with open(ROOT / "tables/quantities.toml", "rb") as file:
            self.words = {owner: {row["words"]: (member, row.get("unit", "")) for member, row in rows.items()}
                          for owner, rows in tomllib.load(file).items()}

    def same(self, what, shown, expected):
        self.compared += 1
        if shown.replace("\u00a0", " ") != expected:
            self.problems.append(f"{what}: {shown} on the page, {expected} by --json")

    def near(self, what, shown, expected):
        self.compared += 1
        value = float(shown.split()[0])
        if abs(value - expected) > 6e-4 * abs(expected) + 1e-12:
            self.problems.append(f"{what}: {shown} on the page, {expected} by --json")

    def peaks(self):
        for side in ("fitted", "without"):
            p = self.band[side]["peak_oil_degC"]
            words = f"likely {temp(p['p50'])} degC, 8 chances in 10 between {temp(p['p10'])} and {temp(p['p90'])}"
            self.compared += 1
            if words not in self.page.text:
                self.problems.append(f"not on the page: {words}")

    def ledger(self):
        legs = self.all["fitted"]["legs"]
        rows = {(row[0], row[1]): row[2] for row in table(self.page, "Heat in and out")[1:]}
        words = tomllib.loads((ROOT / "tables/quantities.toml").read_text())["losses"]
        names = {member: row["words"] for member, row in words.items()}
        hottest = next(leg["at_rest"] for leg in legs if f"Heat balance on {leg['name']} once" in self.page.text)
        made = hottest["losses"]["ledger"]
        for member, name in names.items():
            if made[member] > 0.5:
                self.same(name, rows[name, "made"], f"{made[member]:.0f} W")
        neighbour_W = hottest.get("neighbour_W", 0)
        if neighbour_W > 0.5:
            self.same("neighbour", rows["from the neighbour", "made"], f"{neighbour_W:.0f} W")
        made_W = sum(made.values()) + hottest["exhaust_W"] + max(neighbour_W, 0)
        self.same("all made", rows["all made", "made"], f"{made_W:.0f} W")
        out = {"housing to the air": hottest["outside"]["convection_W"],
               "housing radiates": hottest["outside"]["radiation_W"], "cooler": hottest["cooler_W"],
               "to the neighbour": max(-neighbour_W, 0)}
        for name, watts in out.items():
            if watts:
                self.same(name, rows[name, "leaves"], f"{watts:.0f} W")
        self.same("all leaving", rows["all leaving", "leaves"], f"{sum(out.values()):.0f} W")

    def shares(self):
        rows = {row[0]: row for row in table(self.page, "Share of life one event uses")[1:]}
        for b, bearing in enumerate(self.all["fitted"]["damage"]["bearings"]):
            p = self.band["fitted"]["life_share"][b]
            for column, key in ((1, "p50"), (2, "p10"), (3, "p90")):
                self.same(bearing["name"], rows[spaced(bearing["name"])][column], percent(p[key]))
            hour = round(bearing["clock_deg"] / 30) % 12 or 12
            if abs(bearing["clock_deg"] / 30 % 1 - 0.5) > 1e-6:
                self.same("clock", rows[spaced(bearing["name"])][5], f"{hour} o'clock")
        for g, gear in enumerate(self.all["fitted"]["checked"]["gears"]):
            if gear["calculated"]:
                for which in ("flank", "root"):
                    p = self.band["fitted"][f"{which}_share"][g]
                    self.same(gear["shaft"], rows[f"{gear['shaft']} gear, {which}s"][1], percent(p["p50"]))

    def legs(self):
        rows = table(self.page, "Temperatures over the event")[1:]
        for run in self.all["fitted"]["event"]["runs"]:
            minutes = round(run["end_s"] / 60)
            when = f"{minutes} min" if minutes < 60 else f"{minutes // 60} h {minutes % 60:02}"
            self.compared += 1
            if not any(row[0].replace("\u00a0", " ") == when for row in rows):
                self.problems.append(f"no row at the end of a leg, {when}")

    def checks(self):
        checks = self.all["fitted"]["checked"]["checks"]
        # The page gives each check the class it has over the range.
        over_range = {(one["id"], one["about"]): one["verdict"]
                      for word in ("stop", "watch", "look", "shown") for one in self.band[word]}
        for check in checks:
            check["verdict"] = over_range.get((check["id"], check["about"]), "fine")
        rows = table(self.page, "Every check")[1:]
        self.same("number of checks", str(len(rows)), str(len(checks)))
        shown = sorted((row[1], 0 if row[2] == "below 0.001" else float(row[2].split()[0])) for row in rows)
        for check in checks:
            if check["unit"] == "" and 0 < check["value"] < 1e-3:
                check["value"] = 0
        for (verdict, value), check in zip(shown, sorted(checks, key=lambda c: (c["verdict"], c["value"] or 0))):
            self.compared += 1
            if verdict != check["verdict"] or abs(value - check["value"]) > 6e-4 * abs(value) + 1e-9:
                self.problems.append(f"check: {verdict} {value} on the page, {check} by --json")

    def parts(self):
        for b, damage in enumerate(self.all["fitted"]["damage"]["bearings"]):
            data = self.all["loads"]["bearings"][b]
            for row in table(self.page, f"Numbers of {spaced(damage['name'])}")[1:]:
                for owner, values in (("bearing_damage", damage), ("bearing", data)):
                    if row[0] in self.words[owner]:
                        member, unit = self.words[owner][row[0]]
                        expected = values[member]
                        if expected is None or "160" in row[2]:
                            self.same(member, row[2], "above 160 degC")
                        elif unit == "degC":
                            self.same(member, row[2], f"{expected:.0f} degC")
                        else:
                            self.near(f"{damage['name']} {member}", row[2], expected)
                        break
                else:
                    self.problems.append(f"{row[0]}: no such quantity")


def sheets_of(program, setup):
    with tempfile.TemporaryDirectory() as folder:
        names = {kind: pathlib.Path(folder) / f"{kind}.html" for kind in ("page", "card", "teardown")}
        command = [program, "assess", setup, "--json"]
        for kind, path in names.items():
            command += [f"--{kind}", str(path)]
        document = json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout)
        return {kind: read(path) for kind, path in names.items()}, document


def compare(sheets, document):
    numbers = Numbers(sheets["page"], copy.deepcopy(document))
    for part in (numbers.peaks, numbers.ledger, numbers.shares, numbers.legs, numbers.checks, numbers.parts):
        part()
    for part in document["assessment"]["parts"]:
        if part["size"] not in sheets["teardown"].text or part["look_at"] not in sheets["teardown"].text:
            numbers.problems.append(f"teardown: {part['name']} is missing")
    return numbers


def wrong_numbers(document):
    """What to make wrong: words, and the place of a number in the document."""
    side = document["assessment"]["fitted"]
    yield "peak", document["band"]["without"]["peak_oil_degC"], "p50"
    yield "life", max(document["band"]["fitted"]["life_share"], key=lambda share: share["p90"]), "p90"
    for leg in side["legs"]:
        if leg["name"] == "loop":
            yield "heat made", leg["at_rest"]["losses"]["ledger"], "bearings_W"
            yield "heat leaving", leg["at_rest"]["outside"], "convection_W"
    yield "end of a leg", side["event"]["runs"][0], "end_s"
    yield "check", next(c for c in side["checked"]["checks"] if c["value"] > 1), "value"
    yield "load", side["damage"]["bearings"][1], "P_largest_N"
    yield "rating", document["assessment"]["loads"]["bearings"][1], "C_N"
    yield "clock", side["damage"]["bearings"][0], "clock_deg"


def self_test(program, setup):
    sheets, document = sheets_of(program, setup)
    missed = [f"a right page: {problem}" for problem in compare(sheets, document).problems]
    tried = 0
    for words, place, key in wrong_numbers(document):
        right = place[key]
        place[key] = right + 40 if key == "clock_deg" else right * 1.02
        tried += 1
        if not compare(sheets, document).problems:
            missed.append(f"not noticed: {words}")
        place[key] = right
    for line in missed:
        print(line)
    print(f"{tried} wrong numbers, {len(missed)} problems")
    return 1 if missed or tried < 9 else 0


def main(*given):
    if given[0] == "--self-test":
        return self_test(*given[1:])
    sheets, document = sheets_of(*given)
    numbers = compare(sheets, document)
    problems = numbers.problems + [f"{kind}: {problem}" for kind, markup in sheets.items() for problem in markup.problems]
    for problem in problems:
        print(problem)
    print(f"{numbers.compared} numbers compared, {len(problems)} problems")
    return 0 if not problems and numbers.compared > 100 else 1


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
