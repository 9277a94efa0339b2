// SPDX-License-Identifier: MIT
// What a user reads is plain English: no listed word in a message, screen, table, help text or
// document for users. Comments and documents for developers are free.
#include "files.hpp"
#include "program.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cctype>
#include <regex>
#include <string>
#include <utility>
#include <vector>

namespace words_tests {

namespace {

/// A word users do not read, and what to write for it.
struct Word {
    const char* pattern;  ///< the word alone, in small letters
    const char* instead;
};

// A word follows no hyphen, dot or underscore: --draws is an option, told_apart a key.
const std::vector<Word> avoided{
    {"tell|tells|told|telling", "say, show, report, print"},
    {"(stand|stands|stood)(?! still)",
     "is, are, appears; a part or car that does not move stands still"},
    {"held", "kept, limited, taken as"},
    {"at rest", "settled"},
    {"credible|credibly", "plausible"},
    {"put in again", "recalculated"},
    {"draw|draws", "calculations, 9 chances in 10"},
    {"band|bands", "range"},
    {"strip|strips|stripped", "open (the case), temperature label"},
    {"worth", "effect"},
};

/// Where a listed word is the right one.
struct Allowed {
    const char* file;
    const char* words;
    const char* reason;
};

const std::vector<Allowed> allowed{
    {"docs/hardness.md", "heavy.toml 97 band", "an argument of a test program"},
    {"docs/method.md", "`band`, src/ask", "the function"},
    {"docs/method.md", "[tables/band.toml](../tables/band.toml)", "the file"},
    {"src/intervals/parts.cpp", "pitted bands near the pitch line",
     "bands on a flank, as one sees them"},
    {"src/checks/seat_checks.cpp", "held by its load", "a ring that its load holds in place"},
    {"tables/quantities.toml", "tight, held, walks", "the same, as a class of seats"},
    {"docs/method.md", "`held`", "the same"},
    {"docs/changes.md", "held by its load", "the same"},
    {"src/show/page.cpp", "rated stands", "axle stands"},
    {"src/show/teardown.cpp", "rated stands", "axle stands"},
};

/// Words of one place of a file.
struct Text {
    int line;
    std::string words;
};
using Texts = std::vector<Text>;

enum class Kind { cpp, script, table, document };

bool blank(char c) {
    return std::isspace(static_cast<unsigned char>(c)) != 0;
}

/// Reads the string literals of a source. Literals with nothing but blanks between are one.
class Literals {
public:
    Literals(std::string source, Kind kind) : source_(std::move(source)), kind_(kind) {
        while (at_ < source_.size()) step();
        finish();
    }
    Texts found;

private:
    void step() {
        const char c = source_[at_];
        if (comment()) return;
        if (kind_ == Kind::cpp && source_.compare(at_, 2, "R\"") == 0) return raw();
        const bool template_words = kind_ == Kind::script && c == '`';
        if (c == '"' || template_words || (c == '\'' && kind_ == Kind::script)) return quoted(c);
        if (c == '\'' && kind_ == Kind::cpp && character()) return;
        if (!blank(c)) finish();
        pass(1);
    }

    bool comment() {
        const bool hash = kind_ == Kind::table;
        if (source_.compare(at_, hash ? 1 : 2, hash ? "#" : "//") == 0)
            pass(std::min(source_.find('\n', at_), source_.size()) - at_);
        else if (!hash && source_.compare(at_, 2, "/*") == 0)
            pass(std::min(source_.find("*/", at_), source_.size() - 2) + 2 - at_);
        else
            return false;
        return true;
    }

    /// 'x' or '\\x'; the mark between digits is none.
    bool character() {
        const std::size_t end = source_.find('\'', at_ + (source_[at_ + 1] == '\\' ? 3 : 2));
        if (end == std::string::npos || end - at_ > 5) return false;
        finish();
        pass(end + 1 - at_);
        return true;
    }

    void raw() {
        const std::size_t open = source_.find('(', at_);
        const std::string close = ")" + source_.substr(at_ + 2, open - at_ - 2) + "\"";
        const std::size_t end = source_.find(close, open);
        add(source_.substr(open + 1, end - open - 1));
        pass(end + close.size() - at_);
    }

    void quoted(char mark) {
        std::size_t end = at_ + 1;
        std::string words;
        for (; end < source_.size() && source_[end] != mark; ++end) {
            if (mark == '`' && source_.compare(end, 2, "${") == 0) {
                const std::size_t close = end_of_code(end + 2);
                const Texts inner = Literals(source_.substr(end + 2, close - end - 2), kind_).found;
                for (const Text& text : inner) found.push_back({line_, text.words});
                end = close;
                continue;
            }
            // An escape is no blank.
            words += source_[end] == '\\' ? '|' : source_[end];
            if (source_[end] == '\\') ++end;
        }
        add(words);
        pass(end + 1 - at_);
    }

    /// The brace that closes ${ of a script; what is between is code with literals of its own.
    std::size_t end_of_code(std::size_t at) const {
        for (int depth = 1; at < source_.size(); ++at) {
            if (source_[at] == '{') ++depth;
            if (source_[at] == '}' && --depth == 0) break;
        }
        return at;
    }

    void add(const std::string& words) {
        if (words_.empty()) from_ = line_;
        words_ += words;
    }

    void finish() {
        if (words_.find(' ') != std::string::npos) found.push_back({from_, words_});
        words_.clear();
    }

    void pass(std::size_t count) {
        const auto from = source_.begin() + static_cast<std::ptrdiff_t>(at_);
        line_ +=
            static_cast<int>(std::count(from, from + static_cast<std::ptrdiff_t>(count), '\n'));
        at_ += count;
    }

    std::string source_;
    Kind kind_;
    std::size_t at_ = 0;
    int line_ = 1;
    int from_ = 1;
    std::string words_;
};

Texts texts(const std::string& source, Kind kind) {
    if (kind != Kind::document) return Literals(source, kind).found;
    Texts all;
    int line = 0;
    for (const std::string& words : test_files::lines(source)) all.push_back({++line, words});
    return all;
}

std::vector<std::string> problems(const std::string& file, const Texts& all) {
    static const std::vector<std::regex> patterns = [] {
        std::vector<std::regex> made;
        for (const Word& word : avoided)
            made.emplace_back(std::string("(^|[^-.\\w])(") + word.pattern + ")(?![\\w])",
                              std::regex::icase | std::regex::optimize);
        return made;
    }();
    std::vector<std::string> found;
    for (Text text : all) {
        for (const Allowed& place : allowed) {
            const std::size_t at = text.words.find(place.words);
            if (file == place.file && at != std::string::npos)
                text.words.erase(at, std::string(place.words).size());
        }
        for (std::size_t i = 0; i < avoided.size(); ++i) {
            std::smatch word;
            if (std::regex_search(text.words, word, patterns[i]))
                found.push_back(file + ":" + std::to_string(text.line) + ": \"" + word.str(2) +
                                "\" in: " + text.words + "\n  write: " + avoided[i].instead);
        }
    }
    return found;
}

std::size_t check_file(const std::string& file, Kind kind) {
    const Texts all = texts(test_files::file_text(test_files::root + file), kind);
    for (const std::string& problem : problems(file, all)) FAIL_CHECK(problem);
    return all.size();
}

/// Commands a help text lists, with the words before them.
std::vector<std::string> commands_of(const std::string& before, const std::string& help) {
    std::vector<std::string> all;
    bool listed = false;
    for (const std::string& line : test_files::lines(help)) {
        if (listed && line.size() > 2 && line[1] == ' ' && line[2] != ' ')
            all.push_back(before + line.substr(2, line.find(' ', 2) - 2) + " ");
        listed = listed || line == "Subcommands:";
    }
    return all;
}

}  // namespace

TEST_CASE("words: messages and screens avoid the listed words") {
    std::size_t read = 0;
    for (const std::string& file : test_files::below("src/", {".cpp", ".hpp"}))
        if (file.rfind("src/third_party/", 0) != 0) read += check_file(file, Kind::cpp);
    CHECK(read > 3000);
}

TEST_CASE("words: the live page avoids the listed words") {
    std::size_t read = 0;
    for (const std::string& file : test_files::below("src/live/", {".js"}))
        read += check_file(file, Kind::script);
    CHECK(read > 30);
    CHECK(check_file("src/live/page.html", Kind::document) > 20);
}

TEST_CASE("words: tables of results and formulas avoid the listed words") {
    CHECK(check_file("tables/quantities.toml", Kind::table) > 300);
    CHECK(check_file("tables/why.toml", Kind::table) > 500);
    for (const std::string& file : test_files::below("tables/courses", {".toml"}))
        CHECK(check_file(file, Kind::table) > 0);
    for (const char* file : {"tables/band.toml", "tables/presets.toml", "tables/oils.toml"})
        CHECK(check_file(file, Kind::table) > 20);
}

TEST_CASE("words: documents for users avoid the listed words") {
    for (const char* file :
         {"README.md", "docs/tour.md", "docs/first-run.txt", "docs/choosing.md", "docs/page.md",
          "docs/live.md", "docs/book.md", "docs/duty.md", "docs/calibrate.md", "docs/input.md",
          "docs/growing.md", "docs/method.md", "docs/why.md", "docs/changes.md", "docs/hardness.md",
          "src/packaging/windows.txt"})
        CHECK_MESSAGE(check_file(file, Kind::document) > 20, file);
}

TEST_CASE("words: the help of every command avoids the listed words") {
    std::vector<std::string> commands{""};
    for (std::size_t i = 0; i < commands.size(); ++i) {
        const std::string command = commands[i];
        const Run run = run_program_as_user(command + "--help");
        CHECK(run.code == 0);
        for (const std::string& problem :
             problems("caseload " + command + "--help", texts(run.out, Kind::document)))
            FAIL_CHECK(problem);
        const auto more = commands_of(command, run.out);
        commands.insert(commands.end(), more.begin(), more.end());
    }
    CHECK(commands.size() > 20);
}

TEST_CASE("words: the check finds what it is for") {
    const auto count = [](const std::string& source, Kind kind) {
        return problems("a", texts(source, kind)).size();
    };
    for (const char* bad :
         {"the heading stands twice", "Told once", "oil at rest", "a credible range",
          "9 of 10 draws", "the band of it", "it is held there", "strip and look",
          "what it is worth", "put in again: 3", "(told)"}) {
        CAPTURE(bad);
        CHECK(count(bad, Kind::document) == 1);
    }
    for (const char* good : {"usual with --draws 63", "told_apart = 1", "a car that stands still",
                             "outstanding, bandwidth", "drawing", "reading.strip = 1"}) {
        CAPTURE(good);
        CHECK(count(good, Kind::document) == 0);
    }
    CHECK(count("f(\"oil at \"\n  \"rest\");", Kind::cpp) == 1);
    CHECK(count("f(\"oil at \", \"rest on\");", Kind::cpp) == 0);
    CHECK(count("// it is told\n/* told here */ f('\"', \"a b\");", Kind::cpp) == 0);
    CHECK(count("f(1'000, \"it is told\");", Kind::cpp) == 1);
    CHECK(count("f(\"told\", \"\\\"draws\\\":{}\");", Kind::cpp) == 0);
    CHECK(count("f(R\"x(it is \"told\" here)x\");", Kind::cpp) == 1);
    CHECK(count("a(`is ${told} of ${band}`); b('it is told');", Kind::script) == 1);
    CHECK(count("a(`is ${told ? `it is told` : ''} of`);", Kind::script) == 1);
    CHECK(count("# it is told\na = { words = \"it is told\" }\n[band]\n", Kind::table) == 1);
    CHECK(texts("\n\nf(\"a b\"\n\"c\");", Kind::cpp).front().line == 3);
    CHECK(problems("src/show/page.cpp", {{1, "on rated stands, no clothing"}}).empty());
    CHECK(problems("src/show/text.cpp", {{1, "on rated stands, no clothing"}}).size() == 1);
}

}  // namespace words_tests
