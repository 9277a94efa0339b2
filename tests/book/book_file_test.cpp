// SPDX-License-Identifier: MIT
// The service book's file: names that are none, files that are no book, forged and damaged ones.
// Nothing that is no sound book is written to, and what only reads leaves every byte as it was.
#include "files.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "support.hpp"

#include <sqlite3.h>

#include <fcntl.h>
#include <sys/inotify.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <filesystem>
#include <future>
#include <string>
#include <utility>
#include <vector>

namespace book_file_tests {

namespace {

using test_files::has;

const std::vector<std::string> reads{"due", "show", "show --records --json", "fleet", "replay"};

class Bench : public OwnFolder {
public:
    using OwnFolder::OwnFolder;
    [[nodiscard]] Run book(const std::string& arguments,
                           const std::string& file = "shop.book") const {
        return run_program_as_user("book " + arguments + " --book '" + path(file) + "'");
    }
    /// A book of one case, an event and an oil change.
    void begin() const {
        REQUIRE(book("add case A --date 2026-01-01").code == 0);
        REQUIRE(book("add event A " + test_files::light_file + " --date 2026-01-02").code == 0);
        REQUIRE(book("add oil A --date 2026-01-03").code == 0);
    }
    void change(const std::vector<std::string>& questions) const {
        sqlite3* handle = nullptr;
        REQUIRE(sqlite3_open(path("shop.book").c_str(), &handle) == SQLITE_OK);
        for (const std::string& question : questions) {
            CAPTURE(question);
            CHECK(sqlite3_exec(handle, question.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK);
        }
        sqlite3_close(handle);
    }
    /// Reading, adding and copying end with an error, and no byte is changed, nor a file made.
    void check_refused(const std::string& words) const {
        const std::string before = file_text(path("shop.book"));
        std::vector<std::string> all = reads;
        for (const std::string& more :
             {std::string("add oil A --date 2026-01-04"), std::string("add case B"),
              "backup " + path("copy.book"), "merge " + path("shop.book")})
            all.push_back(more);
        for (const std::string& arguments : all) {
            CAPTURE(arguments);
            const Run run = book(arguments);
            CAPTURE(run.out);
            CHECK(run.code == 5);
            CHECK(has(run.out, words));
            CHECK(file_text(path("shop.book")) == before);
            CHECK(files() == 1);
        }
    }
    [[nodiscard]] long files() const {
        return std::distance(std::filesystem::directory_iterator(path("")), {});
    }
};

}  // namespace

TEST_CASE("book file: a name that SQLite would keep in memory is refused") {
    const Bench bench("book_names");
    for (const std::string name : {"", ":memory:", "file:x?mode=memory", "file:x.book"}) {
        CAPTURE(name);
        for (const std::string& arguments :
             {std::string("add case A"), std::string("due"), "merge '" + name + "'"}) {
            const Run run = run_command("cd '" + bench.path("") + "' && " + CASELOAD_PROGRAM +
                                        " book " + arguments + " --book '" + name + "'");
            CHECK(run.code == 2);
            CHECK(
                has(run.out, name.empty() ? "the name of the book is empty" : "a book is a file"));
        }
    }
    CHECK(bench.files() == 0);
    // Written as a file's name it is one.
    CHECK(bench.book("add case A", ":memory:").code == 0);
    CHECK(has(bench.book("show", "./:memory:").out, "A: 0 events"));
    for (const std::string name : {"/dev/null", "."}) {
        const Run run = run_program_as_user("book add case A --book " + name);
        CHECK(run.code == 5);
        CHECK(has(run.out, name + ": is no ordinary file"));
    }
    // What cannot be looked at is not called anything.
    std::filesystem::create_symlink("loop.book", bench.path("loop.book"));
    const Run loop = bench.book("show", "loop.book");
    CHECK(loop.code == 5);
    CHECK(has(loop.out, "loop.book: cannot be opened: "));
    CHECK_FALSE(has(loop.out, "ordinary"));
}

TEST_CASE(
    "book file: a file that is no book is refused by name, and a reading command names no write") {
    const Bench bench("book_none");
    bench.write("shop.book", file_text(test_files::light_file));
    bench.check_refused("not a service book");
    CHECK_FALSE(has(bench.book("due").out, "cannot be written"));
    bench.write("shop.book", "");
    for (const std::string& arguments : reads)
        CHECK(has(bench.book(arguments).out, "not a service book"));
    CHECK(bench.book("add case A").code == 0);  // an empty file is begun
    CHECK(bench.book("show").code == 0);
}

TEST_CASE("book file: a first record that is refused leaves no file") {
    const Bench bench("book_refused");
    // Nor was one made and taken away: another program may begin that book in between.
    const int watch = inotify_init1(IN_NONBLOCK | IN_CLOEXEC);
    REQUIRE(inotify_add_watch(watch, bench.path("").c_str(), IN_CREATE | IN_DELETE) >= 0);
    CHECK(bench.book("add case A --date 2926-01-01").code == 2);
    CHECK(bench.files() == 0);
    std::array<char, 4096> events{};
    CHECK(read(watch, events.data(), events.size()) == -1);
    CHECK(bench.book("add case A --date 2026-01-01").code == 0);
    CHECK(read(watch, events.data(), events.size()) > 0);  // the watch sees a book begin
    close(watch);
}

TEST_CASE(
    "book file: where the last step of writing fails the message says that it is not known whether "
    "the record is stored") {
    const Bench bench("book_commit");
    // The pages of the book are written by the commit, and do not fit. In blocks of 512 bytes.
    const Run run = run_command("sh -c \"trap '' XFSZ; ulimit -f 8; exec " CASELOAD_PROGRAM
                                " book add case A --date 2026-01-01 --book " +
                                bench.path("shop.book") + "\"");
    CAPTURE(run.out);
    CHECK(run.code == 5);
    CHECK(has(run.out,
              "it is not known whether this was added; before it is entered again: "
              "caseload book show --records --book " +
                  bench.path("shop.book")));
    CHECK_FALSE(has(run.out, "nothing was changed"));
    CHECK(bench.book("add case A --date 2026-01-01").code == 0);
}

TEST_CASE("book file: a forged view, trigger, index or table is refused at once") {
    const std::vector<std::vector<std::string>> forged{
        {"ALTER TABLE record RENAME TO other",
         "CREATE VIEW record AS WITH RECURSIVE n(x) AS (SELECT 1 UNION ALL SELECT x FROM n) SELECT "
         "x number, x id, x body, x sum FROM n"},
        {"CREATE TRIGGER taken BEFORE INSERT ON record BEGIN SELECT RAISE(IGNORE); END"},
        {"CREATE TRIGGER taken AFTER INSERT ON record BEGIN INSERT INTO sqlite_sequence VALUES "
         "('x', 1); END"},
        {"DROP TRIGGER record_kept"},
        {"CREATE INDEX more ON record(length(body))"},
        {"CREATE TABLE more (x)"},
        {"ALTER TABLE record ADD COLUMN more TEXT"}};
    const Bench bench("book_forged");
    for (const std::vector<std::string>& questions : forged) {
        CAPTURE(questions.back());
        std::filesystem::remove(bench.path("shop.book"));
        bench.begin();
        bench.change(questions);
        bench.check_refused("the file's layout is damaged");
    }
}

TEST_CASE("book file: a layout no version wrote, or another kind of journal, is refused") {
    const Bench bench("book_layouts");
    const std::vector<std::pair<std::string, std::string>> changes{
        {"PRAGMA user_version=-1", "the file's layout (-1) is damaged"},
        {"PRAGMA user_version=0", "the file's layout (0) is damaged"},
        {"PRAGMA user_version=1", "the file's layout is damaged"},
        {"PRAGMA user_version=3", "written by a newer caseload"},
        {"PRAGMA application_id=7", "not a service book"},
        {"PRAGMA journal_mode=WAL", "another program has given this book another kind of journal"}};
    for (const auto& [question, words] : changes) {
        CAPTURE(question);
        std::filesystem::remove(bench.path("shop.book"));
        bench.begin();
        bench.change({question});
        bench.check_refused(words);
    }
}

TEST_CASE("book file: changes by another program beside the records are undone or harmless") {
    const Bench bench("book_other_program");
    bench.begin();
    const std::string records = bench.book("show --records").out;
    bench.change({"PRAGMA journal_mode=WAL"});
    const Run refused = bench.book("show --records");
    CHECK_FALSE(has(refused.out, "damaged"));
    CHECK_FALSE(has(refused.out, "backup"));
    CHECK(
        has(refused.out, "sqlite3 " + bench.path("shop.book") + " \"PRAGMA journal_mode=delete\""));
    bench.change({"PRAGMA journal_mode=delete"});
    CHECK(bench.book("show --records").out == records);
    bench.change({"ANALYZE"});
    for (const std::string& arguments : reads) CHECK(bench.book(arguments).code == 0);
    CHECK(bench.book("add oil A --date 2026-01-04").code == 0);
    CHECK(bench.book("backup " + bench.path("copy.book")).code == 0);
    CHECK(bench.book("show --records", "copy.book").out.find(records) == 0);
}

TEST_CASE("book file: a change of any part of the header that all books share is refused") {
    const Bench bench("book_header");
    bench.begin();
    const std::string good = file_text(bench.path("shop.book"));
    // SQLite's own check sees none of these. The places in between count writes and pages.
    for (const std::size_t at : {0U, 18U, 20U, 27U, 44U, 51U, 55U, 59U, 60U, 67U, 71U, 72U, 91U}) {
        CAPTURE(at);
        std::string bytes = good;
        bytes[at] = static_cast<char>(bytes[at] ^ 4);
        bench.write("shop.book", bytes);
        for (const char* arguments : {"due", "add oil A --date 2026-01-04"}) {
            CAPTURE(arguments);
            CHECK(bench.book(arguments).code == 5);
            CHECK(file_text(bench.path("shop.book")) == bytes);
        }
    }
}

TEST_CASE("book file: an older layout is read, and converted by the first record added") {
    const Bench bench("book_old");
    bench.begin();
    const std::string records = bench.book("show --records").out;
    bench.change({"DROP TRIGGER record_stays", "ALTER TABLE record DROP COLUMN sum",
                  "CREATE TRIGGER record_stays BEFORE UPDATE ON record BEGIN SELECT RAISE(ABORT, "
                  "'records are only added'); END",
                  "PRAGMA user_version=1"});
    const std::string old = file_text(bench.path("shop.book"));
    std::filesystem::permissions(bench.path("shop.book"), std::filesystem::perms::owner_read);
    for (const std::string& arguments : reads) CHECK(bench.book(arguments).code == 0);
    CHECK(bench.book("show --records").out == records);
    CHECK(bench.book("backup " + bench.path("copy.book")).code == 0);
    CHECK(bench.book("show --records", "copy.book").out == records);
    std::filesystem::permissions(bench.path("shop.book"), std::filesystem::perms::owner_all);
    CHECK(bench.book("add oil A --date 2025-01-01").code == 2);
    CHECK(file_text(bench.path("shop.book")) == old);
    const Run added = bench.book("add look A --date 2026-01-04");
    CHECK(added.code == 0);
    CHECK(bench.book("show --records").out.find(records) == 0);
    CHECK(file_text(bench.path("shop.book")).substr(60, 4) == std::string("\0\0\0\2", 4));
    CHECK(bench.book("replay").code == 0);
}

TEST_CASE("book file: a record stored but not printed is reported as stored") {
    const Bench bench("book_unsaid");
    bench.begin();
    for (const std::string arguments :
         {"add look A --date 2026-01-04", "add case B --date 2026-01-04"}) {
        const std::string before = bench.book("show --records").out;
        const Run run = run_command("(" + std::string(CASELOAD_PROGRAM) + " book " + arguments +
                                    " --book " + bench.path("shop.book") + " >/dev/full)");
        CHECK(run.code == 5);
        CAPTURE(run.out);
        CHECK(has(run.out, "it is stored all the same; do not enter it again:\nadded "));
        CHECK_FALSE(has(run.out, "nothing was"));
        const std::string after = bench.book("show --records").out;
        CHECK(after.size() > before.size());
        const std::size_t at = run.out.rfind("added ") + 6;
        CHECK(has(after, run.out.substr(at, run.out.find(':', at) - at)));
    }
}

TEST_CASE(
    "book file: a backup does not take an existing file with the ending of a part file for its "
    "own") {
    const Bench bench("book_part");
    bench.begin();
    const std::string before = file_text(bench.path("shop.book"));
    std::filesystem::rename(bench.path("shop.book"), bench.path("a.part"));
    CHECK(bench.book("backup " + bench.path("a"), "a.part").code == 0);
    CHECK(file_text(bench.path("a.part")) == before);
    CHECK(bench.book("show --records", "a").out == bench.book("show --records", "a.part").out);
    CHECK(bench.files() == 2);
}

TEST_CASE("book file: a backup does not replace a file that appeared under its name meanwhile") {
    const Bench bench("book_twice");
    bench.begin();
    const auto is_being_written = [&] {
        for (const auto& entry : std::filesystem::directory_iterator(bench.path("")))
            if (entry.path().extension() == ".part") return true;
        return false;
    };
    for (const std::string command : {"backup ", "export "}) {
        CAPTURE(command);
        bool met = false;
        for (int k = 0; k < 50 && !met; ++k) {
            const std::string to = bench.path("copy");
            std::future<Run> run =
                std::async(std::launch::async, [&] { return bench.book(command + to); });
            const auto ended = [&] {
                return run.wait_for(std::chrono::seconds(0)) == std::future_status::ready;
            };
            while (!is_being_written() && !ended()) {
            }
            const int other = open(to.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
            met = other >= 0;  // else the copy had its name already
            if (met) close(other);
            const Run done = run.get();
            CAPTURE(done.out);
            CHECK(done.code == (met ? 5 : 0));
            CHECK(has(done.out, "such a file is there by now") == met);
            CHECK(file_text(to).empty() == met);
            CHECK(bench.files() == 2);
            std::filesystem::remove(to);
        }
        CHECK(met);
    }
}

}  // namespace book_file_tests
