#!/usr/bin/python3
"""Books damaged at random: book_damaged.py PROGRAM COUNT SETUP [SEED]
From a sound book of several kinds of records, COUNT files are made by flips of bits, bytes and runs
of bytes, pages put over others, files cut and grown. Each is read, added to and copied. What reads
changes no byte. Where a record is added, everything was readable before and is after it, with the
record; where it is refused, no byte is changed and nothing was acknowledged. What is still read is
what was in the sound book. A forged one on which SQLite would go on for years is given up."""
import os
import random
import struct
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor

program, count, setup = sys.argv[1], int(sys.argv[2]), sys.argv[3]
seed = int(sys.argv[4]) if len(sys.argv) > 4 else 1
PAGE = 4096


def run(*arguments):
    done = subprocess.run([program, "book", *arguments], capture_output=True, timeout=60, check=False)
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def damaged(sound, dice):
    """Some damage, never none."""
    data = bytearray(sound)
    kind = dice.randrange(8)
    if kind < 3:  # one to three bits, the header as often as all else
        for _ in range(dice.randint(1, 3)):
            at = dice.randrange(100) if dice.random() < 0.5 else dice.randrange(len(data))
            data[at] ^= 1 << dice.randrange(8)
    elif kind == 3:
        at = dice.randrange(len(data))
        for k in range(at, min(len(data), at + dice.randint(1, 64))):
            data[k] = dice.randrange(256)
    elif kind == 4:  # a sector that was never written
        at = 512 * dice.randrange(len(data) // 512)
        data[at:at + 512] = bytes(512)
    elif kind == 5:
        pages = len(data) // PAGE
        to, of = PAGE * dice.randrange(pages), PAGE * dice.randrange(pages)
        data[to:to + PAGE] = data[of:of + PAGE]
    elif kind == 6:
        del data[dice.randrange(len(data)):]
    else:
        data += bytes(dice.randrange(256) for _ in range(dice.randint(1, 2 * PAGE)))
    return bytes(data)


def varint(x):
    """As SQLite writes numbers: seven bits a byte, the last without its top bit."""
    out = [x & 0x7F]
    while x := x >> 7:
        out.insert(0, x & 0x7F | 0x80)
    return bytes(out)


def b_tree_page(kind, cells, last=b""):
    page = bytearray(PAGE)
    page[0], page[3:5] = kind, struct.pack(">H", len(cells))
    page[8:8 + len(last)] = last
    end = PAGE
    for k, cell in enumerate(cells):
        end -= len(cell)
        page[end:end + len(cell)] = cell
        place = 8 + len(last) + 2 * k
        page[place:place + 2] = struct.pack(">H", end)
    page[5:7] = struct.pack(">H", end)
    return page


def endless(sound):
    """The list of tables as a tree that goes over the same page again and again, 400^8 times."""
    names = [b"index", b"sqlite_autoindex_record_1", b"record"]
    types = b"".join(varint(13 + 2 * len(name)) for name in names) + b"\x01\x00"
    row = varint(len(types) + 1) + types + b"".join(names) + b"\x03"
    first = bytearray(sound[:PAGE])  # a sound list, moved: page 1 begins with the file's header
    count = 2 * struct.unpack(">H", first[103:105])[0]
    first[:100 + 8 + count] = first[100:108 + count] + bytes(100)
    pages = [first, b_tree_page(0x0D, [varint(len(row)) + varint(99) + row])]
    before = len(sound) // PAGE
    for level in range(8):
        child = struct.pack(">I", before + 2 + level)
        pages.append(b_tree_page(0x05, [child + varint(k + 1) for k in range(400)], child))
    top = b_tree_page(0x05, [], struct.pack(">I", before + len(pages)))
    top = sound[:100] + top[:12] + struct.pack(">H", PAGE - 5) + bytes(PAGE - 114 - 5) + \
        struct.pack(">I", before + 1) + varint(1)
    top = top[:103] + struct.pack(">HH", 1, PAGE - 5) + top[107:]
    data = bytearray(top + sound[PAGE:] + b"".join(pages))
    data[28:32] = struct.pack(">I", len(data) // PAGE)
    return bytes(data)


with tempfile.TemporaryDirectory() as folder:
    good = os.path.join(folder, "good.book")
    for arguments in (["case", "A"], ["event", "A", setup], ["oil", "A", "--words", "w" * 9000],
                      ["finding", "A", "bearing.output_rear", "abrasive-wear"],
                      ["part", "A", "bearing.output_rear", "B-1"], ["case", "B"], ["look", "B"]):
        code, _, error = run("add", *arguments, "--date", "2026-01-02", "--book", good)
        assert code == 0, error
    for k in range(40):
        assert run("add", "look", "AB"[k % 2], "--date", "2026-01-03", "--words", f"{k}", "--book", good)[0] == 0
    with open(good, "rb") as file:
        sound = file.read()
    records = run("show", "--records", "--book", good)[1].splitlines()
    assert run("export", os.path.join(folder, "good.txt"), "--book", good)[0] == 0
    with open(os.path.join(folder, "good.txt"), "rb") as file:
        exported = file.read()

    def one(number):
        """"same", "read" (but not as sound as to be added to), "added" or "refused"."""
        dice = random.Random(seed * 1_000_003 + number)
        data = damaged(sound, dice)
        if data == sound:
            return "same"
        with tempfile.TemporaryDirectory(dir=folder) as own:
            book = os.path.join(own, "x.book")

            def unchanged():
                with open(book, "rb") as file:
                    return file.read() == data and os.listdir(own) == ["x.book"]

            with open(book, "wb") as file:
                file.write(data)
            code, shown, _ = run("show", "--records", "--book", book)
            assert code in (0, 5), (number, code)
            assert unchanged(), (number, "reading changed it")
            due = run("due", "--book", book)
            assert due[0] == code and unchanged(), (number, due)
            again = os.path.join(folder, f"{number}.txt")
            out = run("export", again, "--book", book)
            assert out[0] == code and unchanged(), (number, out)
            if code == 0:
                with open(again, "rb") as file:
                    assert file.read() == exported, (number, "reads otherwise than it was written")
                os.remove(again)
            assert not os.path.exists(again), number
            added, said, error = run("add", "opening", "A", "--date", "2026-01-04", "--book", book)
            assert added in (0, 5), (number, added, error)
            if added == 5:
                assert unchanged() and not said, (number, said)
                assert code == 5, (number, "is read but not added to", error)
                return "refused"
            assert code == 0, (number, "added to a book that is not read", said)
            code, now, error = run("show", "--records", "--book", book)
            assert code == 0, (number, error)
            assert now.splitlines()[:-1] == records and now.splitlines()[-1].split()[0] == \
                said.split()[1].rstrip(":"), number
            return "added"

    forged = os.path.join(folder, "forged.book")
    with open(forged, "wb") as file:
        file.write(endless(sound))
    for arguments in (["due"], ["add", "oil", "A", "--date", "2026-01-04"]):
        code, _, error = run(*arguments, "--book", forged)  # SQLite itself goes on for years
        assert code == 5 and "round in circles" in error, (code, error)
    with open(forged, "rb") as file:
        assert file.read() == endless(sound)

    with ThreadPoolExecutor(2) as pool:
        results = list(pool.map(one, range(count)))
    counts = {what: results.count(what) for what in ("refused", "added", "same")}
    # Damage that no record and nothing of SQLite's own hangs on is not seen, and does no harm.
    assert counts["refused"] > counts["added"] or count < 20, counts
    print(f"seed {seed}: {count} damaged books: {counts['refused']} refused and left as they were, "
          f"{counts['added']} read and added to as the sound one, {counts['same']} not changed by their damage")
