// SPDX-License-Identifier: MIT
// A book as text and as CSV: what goes out comes back, and what would not is refused in words.
#include "caseload/book/record.hpp"
#include "caseload/error.hpp"
#include "files.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <string>
#include <utility>
#include <vector>

namespace caseload::book_text_tests {

using book::Record;
using book::Records;

namespace {

using test_files::has;

const std::string head = "caseload book, text form 1\n";
const std::string csv_head = "id,date,kind,case,setup,version,key,value\n";

Record note(const std::string& id, const std::string& date, const std::string& kind,
            std::vector<std::pair<std::string, std::string>> fields) {
    return {id, date, kind, "A", "", "0", std::move(fields)};
}

using Read = book::Incoming (*)(std::string_view, const std::string&);

void refused_by(Read read, const std::string& text, int line, const std::string& words) {
    CAPTURE(text.substr(0, 300));
    const Error error = ::refused_by([&] { (void)read(text, "t"); });
    CHECK(error.kind() == Error::Kind::input);
    CHECK(error.problems()[0].where.line == line);
    CHECK(has(error.problems()[0].text, words));
    CHECK(has(error.problems()[0].hint, "nothing was taken in"));
}

void refused_text(const std::string& text, int line, const std::string& words) {
    refused_by(&book::from_text, head + text, line, words);
}

void refused_csv(const std::string& text, int line, const std::string& words) {
    refused_by(&book::from_csv, csv_head + text, line, words);
}

std::string refusal(const Record& record) {
    const auto error = error_of([&] { book::require_complete(record); });
    return error ? error->problems()[0].text : std::string("taken");
}

std::string with_crlf(const std::string& text) {
    std::string out;
    for (const char c : text) out += c == '\n' ? std::string("\r\n") : std::string(1, c);
    return out;
}

}  // namespace

TEST_CASE("book text: text and CSV give every byte back") {
    Records records{
        note("1", "2026-01-02", "case", {}),
        note("2", "2026-01-03", "oil",
             {{"words", "a, \"b\"\n\r\n  c = d \\ \\n  "}, {"other", " x"}, {"empty", ""}}),
        note("3", "2026-01-04", "reading",
             {{"what", "end play"}, {"reads", "0.1 mm"}, {"\xC3\xA9", "\xE2\x82\xAC\t"}}),
        // Keys with what the text form itself is written with.
        note("4", "2026-01-05", "look",
             {{"a = b", "c = d"},
              {" both ends ", " = "},
              {"id: x", "y"},
              {"id:x", "y"},
              {"setup: ", ""},
              {"=", "="},
              {"a =", " ="},
              {"\\s", "\\s"},
              {"line\nend\r", "\r"}}),
        note(" 5 ", "2026-01-06", "look", {{"words", std::string("nul \0 and \x1B", 11)}}),
        note("six, \"6\"\r\n", "2026-01-07", "look",
             {{"quote", "\""}, {"comma", ","}, {"cr", "\r"}})};
    records[1].serial = "A, \"1\" \\";
    records[2].serial = "  two blanks before, one behind ";
    records[3].serial = "\r";
    records[4].setup = " id: 1";
    records[5].version = "0.1.0 = \n";
    for (const Record& one : records) CHECK_NOTHROW(book::require_complete(one));
    CHECK(book::from_text(book::to_text(records), "t").records == records);
    CHECK(book::from_csv(book::to_csv(records), "t").records == records);
    CHECK(has(book::to_text(records), "2026-01-02 case A\n"));
    // As an editor or a spreadsheet of Windows leaves it. A line end inside a quoted cell is the
    // cell's own.
    CHECK(book::from_text("\xEF\xBB\xBF" + with_crlf(book::to_text(records)), "t").records ==
          records);
    Records plain{records[0], records[2]};
    CHECK(book::from_csv("\xEF\xBB\xBF" + with_crlf(book::to_csv(plain)), "t").records == plain);
    CHECK(book::from_text(head, "t").records.empty());
    CHECK(book::from_csv(csv_head, "t").records.empty());
    CHECK(book::from_csv("\"id\"" + csv_head.substr(2), "t").records.empty());
}

TEST_CASE("book text: blanks that an editor removed at ends of lines change no record") {
    const Record oil = note("1", "2026-01-02", "oil", {{"words", ""}});
    Record setup = note("2", "2026-01-02", "setup", {{"hash", book::hash("x")}, {"text", "x"}});
    setup.serial = "";
    const Records records{oil, setup};
    std::string text = book::to_text(records);
    for (std::size_t at = 0; (at = text.find(" \n")) != std::string::npos;) text.erase(at, 1);
    CHECK(text != book::to_text(records));
    CHECK(book::from_text(text + "   \n", "t").records == records);
}

TEST_CASE("book text: a bad line is refused with its number") {
    refused_by(&book::from_text, "", 1, "empty");
    refused_by(&book::from_text, "\xEF\xBB\xBF", 1, "empty");
    refused_by(&book::from_text, "x\n", 1, "must begin");
    refused_by(&book::from_text, "\xFF\xFEx", 0, "UTF-16");
    refused_text("  a = b\n", 2, "before the first");
    refused_text("2026-01-01\n", 2, "date kind case");
    refused_text("2026-01-01 case\n", 2, "date kind case");
    refused_text("2026-02-30 case A\n  id: 1\n", 2, "no such day");
    refused_text("2026-01-01 bolt A\n  id: 1\n", 2, "unknown kind");
    refused_text("2026-01-01 case A\n", 2, "without id");
    refused_text("2026-01-01 case \n  id: 1\n", 2, "the case is missing");
    refused_text("2026-01-01 event A\n  id: 1\n", 2, "needs \"times\"");
    refused_text("2026-01-01 case A\n  id: 1\n  a\n", 4, "key = value");
    refused_text("2026-01-01 case A\n  id: 1\n  a = b\\x\n", 4, "known are \\n, \\r, \\s and \\\\");
    refused_text("2026-01-01 case A\n  id: 1\n  a = b\\\n", 4, "a lone \\");
    refused_text("2026-01-01 case A\n  id: 1\n   = b\n", 2, "\"b\" has no key");
    refused_text("2026-01-01 case A\n  id: 1\n  a = b\n  a = c\n", 2, "a is there twice");
    refused_text("2026-01-01 case A\n  id: 1\n\n2026-01-01 oil A\n  id: 1\n", 5,
                 "record 1 is there twice");
}

TEST_CASE("book text: a bad row of CSV is refused with its number") {
    refused_by(&book::from_csv, "", 1, "must begin");
    refused_by(&book::from_csv, "id\n", 1, "must begin");
    const std::string row = "1,2026-01-01,look,A,,0,";
    refused_csv("1,2\n", 2, "2 columns; 8 are needed");
    refused_csv("\"1\n", 2, "a quote is not closed");
    refused_csv(row + "a\"b,c\n", 2, "a cell that does not begin with a quote");
    refused_csv(row + "a\rb,c\n", 2, "a cell that does not begin with a quote");
    refused_csv(row + "a,\r\r\n", 2, "a cell that does not begin with a quote");
    refused_csv(row + "\"a\"b,c\n", 2, "after the quote that ends a cell");
    refused_csv(row + "\"a\"\r,c\n", 2, "after the quote that ends a cell");
    refused_csv(row + ",c\n", 2, "\"c\" has no key");
    refused_csv(row + "a,b\n" + row + "a,b\n", 2, "a is there twice");
    // Rows of one record say the same of it and stand together.
    refused_csv(row + "a,b\n1,2026-01-02,look,A,,0,c,d\n", 3, "another date, kind, case");
    refused_csv(row + "a,b\n2,2026-01-01,oil,A,,0,,\n" + row + "c,d\n", 4,
                "record 1 is there twice");
    CHECK(book::from_csv(csv_head + row + ",\n\n" + row + "a,\"b\"\r\n", "t").records ==
          Records{note("1", "2026-01-01", "look", {{"a", "b"}})});
}

TEST_CASE("book text: values and counts above the limits of a book are refused at their line") {
    const std::string word(book::most::word_bytes, 'w');
    const std::string text(book::most::value_bytes, '\n');
    Record full = note(word, "2026-01-01", "look", {{word, text}});
    full.serial = full.setup = full.version = word;
    for (std::size_t k = 1; k < book::most::fields; ++k)
        full.fields.emplace_back(std::to_string(k), "");
    REQUIRE(refusal(full) == "taken");
    CHECK(book::from_text(book::to_text({&full, 1}), "t").records == Records{full});
    CHECK(book::from_csv(book::to_csv({&full, 1}), "t").records == Records{full});
    for (std::string Record::* part :
         {&Record::id, &Record::serial, &Record::setup, &Record::version}) {
        Record longer = full;
        longer.*part += 'w';
        CHECK(has(refusal(longer), "is longer than 1000 bytes"));
    }
    Record many = full;
    many.fields.emplace_back("one more", "");
    CHECK(has(refusal(many), "more than 1000 values"));
    Record key = note("1", "2026-01-01", "look", {{word + "w", ""}});
    CHECK(has(refusal(key), "is longer than 1000 bytes"));
    Record large = note("1", "2026-01-01", "look", {{"words", text + "x"}});
    CHECK(has(refusal(large), "record 1: words is longer than 1 MiB"));
    CHECK(has(refusal(note("1", "2026-01-01", "look", {{"id:", "x"}})), "word of the text form"));

    const std::string line(book::most::line_bytes + 1, 'x');
    refused_text("2026-01-01 look A\n  id: 1\n  words = " + line + "\n", 4,
                 "this line is longer than 3 MiB");
    const std::string row = "1,2026-01-01,look,A,,0,words,";
    refused_csv(row + line + "\n", 2, "this row is longer than 3 MiB");
    refused_csv(row + "\"" + line + "\"\n", 2, "this row is longer than 3 MiB");
    const std::string file(book::most::file_bytes, '\n');
    refused_text(file, 0, "the file is larger than 256 MiB");
    refused_csv(file, 0, "the file is larger than 256 MiB");

    Records book;
    for (std::size_t k = 0; k < book::most::records; ++k)
        book.push_back(note(std::to_string(k), "2026-01-01", "look", {}));
    std::string written = book::to_text(book);
    CHECK(book::from_text(written, "t").records.size() == book::most::records);
    refused_by(&book::from_text, written + "2026-01-01 look A\n  id: last\n", 500'002,
               "more than 100000 records");
    book.push_back(note("last", "2026-01-01", "look", {}));
    CHECK_THROWS_WITH_AS((void)book::to_text(book), "100001 records: the text form takes 100000",
                         Error);
    CHECK_THROWS_WITH_AS((void)book::to_csv(book), "100001 records: the text form takes 100000",
                         Error);
}

TEST_CASE("book text: times and damage outside their limits are refused") {
    const auto said = [](const std::string& key, const std::string& text) {
        Record event = note("1", "2026-01-01", "event", {{"times", "1"}});
        book::set(event, key, text);
        return refusal(event);
    };
    for (const char* times : {"0", "-1", "1.5", "1001", "nan", "inf", "1e400", "1 ", "x", "0x10",
                              " 1", "\t1", "1p3", "infinity"})
        CHECK(has(said("times", times), "times = "));
    CHECK(has(said("times", std::string("2\0", 2)), "must be a decimal number"));
    CHECK(said("times", "1000") == "taken");
    for (const char* key : {"bearing.a.share", "gear.a.flank", "gear.a.root", "oil.dose",
                            "driving_h", "seat_loose_hot", "ring_on_shaft", "seal_over_limit"}) {
        CHECK(has(said(key, "-1"), "must be from 0 to"));
        CHECK(has(said(key, "1e101"), "must be from 0 to"));
        for (const char* text : {"inf", "nan", "0x1p-3", "0X2", " 1", "1 "})
            CHECK(has(said(key, text), "must be a decimal number"));
        CHECK(said(key, "1e100") == "taken");
    }
    CHECK(has(said("oil.peak_degC", "hot"), "must be a decimal number"));
    CHECK(has(said("oil.peak_degC", "0x50"), "must be a decimal number"));
    for (const char* text : {"-20", "+20", "1.25e+02", "-1.5E-3"})
        CHECK(said("oil.peak_degC", text) == "taken");
    CHECK(said("words", "hot") == "taken");
}

TEST_CASE("book text: corrections that leave a record incomplete are refused") {
    const std::string setup_text = "x";
    Records records{
        note("1", "2026-01-01", "case", {}),
        note("s", "2026-01-01", "setup", {{"hash", book::hash(setup_text)}, {"text", setup_text}}),
        note("2", "2026-01-02", "event", {{"times", "3"}}),
        note("3", "2026-01-03", "finding", {{"position", "case"}, {"mode", "noise"}})};
    records[2].setup = book::hash(setup_text);
    const auto said = [&](const std::string& id, const std::string& key, const std::string& text) {
        Records all = records;
        all.push_back(note("4", "2026-01-04", "correct", {{"record", id}, {key, text}}));
        book::require_references(all);
        const auto error = error_of([&] { book::require_corrections(all); });
        return error ? std::string(error->what()) : std::string("taken");
    };
    CHECK(said("2", "times", "5") == "taken");
    CHECK(has(said("2", "times", "five"), "record 2: as corrected by 4: "));
    CHECK(has(said("2", "date", "2026-02-30"), "no such day"));
    CHECK(has(said("2", "setup", "other"), "there is no setup \"other\""));
    CHECK(has(said("2", "case", "B"), "there is no case \"B\""));
    CHECK(has(said("3", "mode", "nose"), "finding \"nose\" is not known"));
    CHECK(has(said("s", "text", "y"), "record 4: corrects s, which is a setup"));
    CHECK(said("1", "strike", "yes") == "taken");
    records.push_back(note("5", "2026-01-04", "correct", {{"record", "2"}, {"strike", "yes"}}));
    CHECK(has(said("5", "strike", "no"), "which is a correct"));
}

TEST_CASE(
    "book text: every sample book is read and written back the same, the damaged one is refused") {
    int read = 0;
    for (const std::string& file : test_files::below("tests/golden/books", {".txt", ".csv"})) {
        CAPTURE(file);
        const std::string text = test_files::file_text(test_files::root + file);
        const bool csv = file.substr(file.size() - 4) == ".csv";
        if (has(file, "damaged")) {
            CHECK_THROWS_AS((void)book::from_text(text, file), Error);
            continue;
        }
        const Records records =
            (csv ? book::from_csv(text, file) : book::from_text(text, file)).records;
        CHECK(book::from_text(book::to_text(records), file).records == records);
        CHECK(book::from_csv(book::to_csv(records), file).records == records);
        ++read;
    }
    CHECK(read >= 6);
}

}  // namespace caseload::book_text_tests
