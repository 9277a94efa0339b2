// SPDX-License-Identifier: MIT
// What a run reads is not written over, whatever name it is called by; what is written is a plain
// file, whole or not there.
#include "cli/part_file.hpp"
#include "cli/run_files.hpp"
#include "files.hpp"
#include "own_folder.hpp"
#include "program.hpp"

#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <string>
#include <vector>

namespace caseload::outputs_tests {

namespace {

namespace fs = std::filesystem;
using test_files::has;
using test_files::light_file;

const std::string is_read = "this file is read by this run; it is not written over";

/// A setup with a base, a library and an event of its own, a list, a log and a book.
class Shop {
public:
    explicit Shop(const std::string& name) : folder(name) {
        folder.write("light.toml", file_text(light_file));
        folder.write("shop.toml",
                     "caseload = 1\n[core.tall]\nsize = \"300x200x50 mm\"\nconstruction = "
                     "\"plate-fin\"\n");
        folder.write("event.toml",
                     "caseload = 1\n[event]\nambient = \"30 degC\"\nrun = [\"a\"]\n[leg.a]\n"
                     "course = \"graded\"\nduration = \"1 h\"\n");
        folder.write("our.toml",
                     "caseload = 1\nbase = \"light.toml\"\nlibrary = \"shop.toml\"\n"
                     "event.from = \"event.toml\"\n");
        folder.write("list.csv", "vehicle.mass\n1700 kg\n1900 kg\n2100 kg\n");
        folder.write("names.txt", at("our.toml") + "\n");
        std::string log = "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s),Oil (C)\n";
        for (int i = 0; i < 90; ++i) log += std::to_string(i) + ",2000,300,20,60\n";
        folder.write("log.csv", log);
        for (const auto& entry : fs::directory_iterator(fs::path(at("x")).parent_path()))
            names.push_back(entry.path().filename().string());
        for (const std::string& one : names) before.push_back(file_text(at(one)));
    }
    [[nodiscard]] std::string at(const std::string& name) const { return folder.path(name); }
    /// Nothing is lost, and no file is there that was not.
    void check_untouched() const {
        std::size_t count = 0;
        for (const auto& entry : fs::directory_iterator(fs::path(at("x")).parent_path()))
            count += entry.is_regular_file() && !entry.is_symlink() ? 1 : 0;
        CHECK(count == names.size());
        for (std::size_t i = 0; i < names.size(); ++i) CHECK(file_text(at(names[i])) == before[i]);
    }
    void refuses(const std::string& arguments, const std::string& words) const {
        CAPTURE(arguments);
        const Run run = run_program_as_user(arguments);
        CHECK(run.code == 2);
        CAPTURE(run.out);
        CHECK(has(run.out, words));
        CHECK(has(run.out, "nothing was calculated"));
    }

    OwnFolder folder;
    std::vector<std::string> names;
    std::vector<std::string> before;
};

}  // namespace

TEST_CASE("outputs: no command writes over what it reads, by any name of the file") {
    const Shop shop("outputs_read");
    fs::create_symlink(shop.at("light.toml"), shop.at("soft"));
    const std::string our = shop.at("our.toml");
    for (const std::string read : {"our.toml", "light.toml", "shop.toml", "event.toml", "soft"}) {
        for (const std::string sheet : {"--page ", "--card ", "--teardown "})
            shop.refuses("assess " + our + " --draws 63 " + sheet + shop.at(read), is_read);
        shop.refuses("assess " + our + " --each " + shop.at("list.csv") + " --out " + shop.at(read),
                     is_read);
        shop.refuses("calibrate " + our + " --force -o " + shop.at(read), is_read);
        if (read != "event.toml")  // it is made of the log anew
            shop.refuses("duty " + shop.at("log.csv") + " --setup " + our + " -o " + shop.at(read),
                         is_read);
        shop.refuses("duty " + shop.at("log.csv") + " --setup " + our + " -o " +
                         shop.at("new.toml") + " --readings " + shop.at(read),
                     is_read);
        if (read != "soft")
            shop.refuses("assess --each " + shop.at("names.txt") + " --out " + shop.at(read),
                         is_read);
    }
    shop.refuses(
        "assess " + our + " --each " + shop.at("list.csv") + " --out " + shop.at("list.csv"),
        is_read);
    shop.refuses("assess --each " + shop.at("names.txt") + " --out " + shop.at("names.txt"),
                 is_read);
    shop.refuses("duty " + shop.at("log.csv") + " -o " + shop.at("../") +
                     fs::path(shop.at("x")).parent_path().filename().string() + "/log.csv",
                 is_read);
    shop.check_untouched();
}

TEST_CASE("outputs: a hard link counts as the file it links to") {
    const Shop shop("outputs_hard");
    const OwnFolder beside("outputs_hard_beside");
    fs::create_hard_link(shop.at("light.toml"), beside.path("page.html"));
    shop.refuses("assess " + shop.at("our.toml") + " --page " + beside.path("page.html"), is_read);
    shop.check_untouched();
}

TEST_CASE("outputs: duty writes over the event it made before, and over nothing else") {
    const Shop shop("outputs_event");
    const Run again = run_program_as_user("duty " + shop.at("log.csv") + " --setup " +
                                          shop.at("our.toml") + " -o " + shop.at("event.toml"));
    CHECK(again.code == 0);
    CHECK(has(file_text(shop.at("event.toml")), "# From log.csv by caseload duty"));
}

TEST_CASE("outputs: an empty name is refused, not taken for none, in every option that writes") {
    const Shop shop("outputs_empty");
    const std::string our = shop.at("our.toml");
    const std::string log = shop.at("log.csv") + " --setup " + our;
    for (const std::string& words :
         {"assess " + our + " --page ''", "assess " + our + " --card ''",
          "assess " + our + " --teardown ''",
          "assess " + our + " --each " + shop.at("list.csv") + " --out ''",
          "calibrate " + our + " -o ''", "duty " + log + " -o ''",
          "duty " + log + " -o " + shop.at("new.toml") + " --readings ''", std::string("new ''"),
          std::string("book export ''"), std::string("book backup ''")})
        shop.refuses(words, "the name of the file to write is empty");
    shop.check_untouched();
}

TEST_CASE("outputs: two outputs into one file are refused, whether it exists or not") {
    const Shop shop("outputs_two");
    const std::string folder = fs::path(shop.at("x")).parent_path().string();
    const std::string again = folder + "/../" + fs::path(folder).filename().string() + "/./a.html";
    shop.refuses(
        "assess " + shop.at("our.toml") + " --page " + shop.at("a.html") + " --card " + again,
        "--page " + shop.at("a.html") + " is written there");
    shop.refuses("duty " + shop.at("log.csv") + " --setup " + shop.at("light.toml") + " -o " +
                     shop.at("a.html") + " --readings " + again,
                 "is written there");
    shop.check_untouched();
    const OwnFolder linked("outputs_two_linked");
    fs::create_directory_symlink(folder, linked.path("to"));
    shop.refuses("assess " + shop.at("our.toml") + " --card " + shop.at("a.html") + " --teardown " +
                     linked.path("to/a.html"),
                 "--card " + shop.at("a.html") + " is written there");
    shop.check_untouched();
}

TEST_CASE("outputs: a link, pipe, socket, device or folder is neither followed nor replaced") {
    const Shop shop("outputs_kind");
    fs::create_symlink(shop.at("nowhere"), shop.at("dangling"));
    shop.folder.write("other.txt", "of somebody else");
    fs::create_symlink(shop.at("other.txt"), shop.at("link"));
    REQUIRE(mkfifo(shop.at("fifo").c_str(), 0600) == 0);
    const int socket_of = socket(AF_UNIX, SOCK_STREAM, 0);
    sockaddr_un address{};
    address.sun_family = AF_UNIX;
    REQUIRE(shop.at("socket").size() < sizeof address.sun_path);
    std::strncpy(address.sun_path, shop.at("socket").c_str(), sizeof address.sun_path - 1);
    REQUIRE(bind(socket_of, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0);
    const std::string pipe = "this is a pipe, socket or device, which a file cannot replace";
    const std::string link = "this is a link; it is neither followed nor replaced";
    const std::vector<std::pair<std::string, std::string>> places{
        {shop.at("dangling"), link},
        {shop.at("link"), link},
        {shop.at("fifo"), pipe},
        {shop.at("socket"), pipe},
        {"/dev/null", pipe},
        {"/dev/full", pipe},
        {"/dev/stdout", pipe},
        {fs::path(shop.at("x")).parent_path().string(), "this is a folder"},
        {"-", "a file to write needs a name"}};
    const std::string setup = shop.at("light.toml");
    for (const auto& [place, words] : places) {
        shop.refuses("assess " + setup + " --page " + place, words);
        shop.refuses("assess " + setup + " --each " + shop.at("list.csv") + " --out " + place,
                     words);
        shop.refuses("calibrate " + setup + " --force -o " + place, words);
        shop.refuses("new " + place, words);
        if (words != "this is a folder")  // the event goes into it
            shop.refuses("duty " + shop.at("log.csv") + " -o " + place, words);
    }
    CHECK(file_text(shop.at("other.txt")) == "of somebody else");
    close(socket_of);
    // A setup that is converted is not taken from behind its link.
    shop.folder.write("old.toml",
                      "caseload = 1\nbase = \"light.toml\"\ncooler.core = "
                      "\"300x200x50 mm\"\n");
    fs::create_symlink(shop.at("old.toml"), shop.at("old-link.toml"));
    const Run upgrade = run_program_as_user("upgrade " + shop.at("old-link.toml"));
    CHECK(upgrade.code == 2);
    CHECK(has(upgrade.out, link));
}

TEST_CASE(
    "outputs: a replaced file keeps its mode, a new one gets the usual mode, other files stay") {
    const OwnFolder folder("outputs_mode");
    const auto mode = [&](const char* name) {
        struct stat found = {};
        REQUIRE(stat(folder.path(name).c_str(), &found) == 0);
        return found.st_mode & 07777U;
    };
    folder.write("page.html", "before");
    REQUIRE(chmod(folder.path("page.html").c_str(), 0600) == 0);
    folder.write("page.html.part", "of the user");
    const mode_t mask = umask(027);
    const std::string run = "assess " + light_file + " --draws 63";
    CHECK(run_program_as_user(run + " --page " + folder.path("page.html") + " --card " +
                              folder.path("card.html"))
              .code == 0);
    umask(mask);
    CHECK(mode("page.html") == 0600U);
    CHECK(mode("card.html") == 0640U);
    CHECK(has(file_text(folder.path("page.html")), "<html"));
    CHECK(file_text(folder.path("page.html.part")) == "of the user");
    std::size_t files = 0;
    for (const auto& entry : fs::directory_iterator(folder.path("."))) files += entry.exists();
    CHECK(files == 3);
}

TEST_CASE("outputs: a part file has a name no other file has, and is removed unless kept") {
    const OwnFolder folder("outputs_part");
    folder.write("a.txt", "old");
    {
        PartFile first(folder.path("a.txt"));
        PartFile second(folder.path("a.txt"));
        CHECK(first.path() != second.path());
        CHECK(first.path().parent_path() == fs::path(folder.path("a.txt")).parent_path());
        first.write("first");
        second.write("second");
        CHECK(file_text(folder.path("a.txt")) == "old");
        second.keep();
        CHECK(file_text(folder.path("a.txt")) == "second");
    }
    {
        // Both begun while the name was free.
        PartFile first(folder.path("b.txt"));
        PartFile second(folder.path("b.txt"));
        first.write("first");
        second.write("second");
        second.keep(PartFile::Over::nothing);
        CHECK_THROWS_AS(first.keep(PartFile::Over::nothing), NotWritten);
        CHECK(file_text(folder.path("b.txt")) == "second");
    }
    std::size_t files = 0;
    for (const auto& entry : fs::directory_iterator(folder.path("."))) files += entry.exists();
    CHECK(files == 2);
    CHECK_THROWS_AS(PartFile(folder.path("none/a.txt")), NotWritten);
    // A name as long as a file system takes.
    const std::string longest(255, 'x');
    write_file(folder.path(longest), "whole");
    CHECK(file_text(folder.path(longest)) == "whole");
}

TEST_CASE("outputs: a run does not write over its first output with its second") {
    const OwnFolder folder("outputs_again");
    forget_files();
    write_file(folder.path("a.txt"), "one");
    fs::create_hard_link(folder.path("a.txt"), folder.path("A.TXT"));
    CHECK_THROWS_WITH(
        write_file(folder.path("A.TXT"), "two"),
        (folder.path("A.TXT") + ": this file was written by this run already").c_str());
    CHECK(file_text(folder.path("a.txt")) == "one");
    forget_files();
    write_file(folder.path("a.txt"), "two");
    CHECK(file_text(folder.path("a.txt")) == "two");
    note_read(folder.path("a.txt"));
    CHECK_THROWS(write_file(folder.path("a.txt"), "three"));
    change_file(folder.path("a.txt"), "three");
    CHECK(file_text(folder.path("a.txt")) == "three");
    forget_files();
}

TEST_CASE("outputs: a full disk is named, and the message says what of the answer is not written") {
    CHECK(why_not_written(ENOSPC) == "the disk is full");
    CHECK(why_not_written(EDQUOT) == "the disk is full: your share of it is used up");
    CHECK(why_not_written(EACCES) == "is there such a folder, and may you write there?");
    for (const std::string& command :
         {"assess " + light_file + " --draws 63", "complete " + light_file, std::string("keys"),
          std::string("manual")}) {
        CAPTURE(command);
        const Run full = run_command("(" CASELOAD_PROGRAM " " + command + " >/dev/full)");
        CHECK(full.code == 5);
        CHECK(full.out ==
              "error: standard output cannot be written; the disk is full\n"
              "1 error; what was calculated is not written\n");
    }
}

TEST_CASE("outputs: a book is neither exported nor copied onto itself, and only to a plain file") {
    const OwnFolder folder("outputs_book");
    const std::string book = " --book " + folder.path("shop.book");
    REQUIRE(run_program_as_user("book add case A --date 2026-01-01" + book).code == 0);
    fs::create_symlink(folder.path("none"), folder.path("dangling"));
    for (const std::string& command :
         {"book export --force " + folder.path("shop.book") + book,
          "book backup " + folder.path("shop.book") + book,
          "book export " + folder.path("dangling") + book,
          "book backup " + folder.path("dangling") + book, "book export --force /dev/null" + book,
          "book backup /dev/null" + book}) {
        CAPTURE(command);
        const Run run = run_program_as_user(command);
        CHECK(run.code == 2);
        CHECK(has(run.out, "name another file to write"));
    }
    CHECK(!fs::exists(folder.path("none")));
    CHECK(run_program_as_user("book show" + book).code == 0);
}

}  // namespace caseload::outputs_tests
