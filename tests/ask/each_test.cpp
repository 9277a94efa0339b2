// SPDX-License-Identifier: MIT
#include "caseload/ask/each.hpp"

#include "caseload/show/each_line.hpp"
#include "examples.hpp"
#include "files.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <string>

namespace caseload::each_tests {

namespace {

using test_files::light_file;

std::filesystem::path scratch(const std::string& name, const std::string& text) {
    static const OwnFolder folder("each");
    folder.write(name, text);
    return folder.path(name);
}

const std::string five_rows =
    "vehicle.mass,event.ambient,gears.fitted\n"
    "1750 kg,34 degC,\"[33, 41]\"\n"
    "2400 kg,44 degC,\"[33, 41]\"\n"
    "2400 kq,44 degC,\"[33, 41]\"\n"
    "1900 kg,20 degC,\"[34, 40]\"\n"
    "2100 kg,30 degC,\"[33, 41]\"\n";

}  // namespace

TEST_CASE("each: cells are read like values of a setup") {
    CHECK(cell_toml("38 degC") == "\"38 degC\"");
    CHECK(cell_toml("5.13") == "5.13");
    CHECK(cell_toml("-1e3") == "-1e3");
    CHECK(cell_toml("[33, 41]") == "[33, 41]");
    CHECK(cell_toml("true") == "true");
    CHECK(cell_toml("open") == "\"open\"");
    CHECK(cell_toml("say \"so\"") == "\"say \\\"so\\\"\"");
    CHECK(cell_toml("") == "\"\"");
}

TEST_CASE("each: byte order mark, CR LF, quotes, blanks and empty lines of a table are read") {
    const EachTable table = read_each_table(
        "\xEF\xBB\xBF"
        "a.b , c\r\n\"1, \"\"2\"\"\",  x y \r\n\r\n3,4",
        "list.csv");
    REQUIRE(table.keys.size() == 2);
    CHECK(table.keys[0] == "a.b");
    REQUIRE(table.rows.size() == 2);
    CHECK(table.rows[0][0].toml == "\"1, \\\"2\\\"\"");
    CHECK(table.rows[0][1].toml == "\"x y\"");
    CHECK(table.rows[1][1].toml == "4");
    CHECK_THROWS_WITH(read_each_table("a,b\n1\n", "list.csv"), "1 cells, the head has 2 keys");
    CHECK_THROWS_WITH(read_each_table("a\n\"1\n", "list.csv"),
                      "a double quote is opened and not closed");
    CHECK_THROWS_WITH(read_each_table("\n \n", "list.csv"), "the list is empty");
}

TEST_CASE("each: a line has the settled oil of the hottest leg, null where it does not settle") {
    Setup setup = Document("caseload = 1\nbase = \"light.toml\"\n", "a.toml", examples::text)
                      .complete()
                      .setup;
    setup.event.run = {0};  // the other leg is not driven, so nothing of it is told
    Assessment likely = assess(setup);
    const Band sure = band(setup, likely, {.draws = 63});
    const auto tells = [&](const std::string& value) {
        return each_line(1, "a", setup, likely, sure).find("\"oil_at_rest_degC\":" + value + ",") !=
               std::string::npos;
    };
    CHECK(tells(fmt::format("{}", steady(prepare(setup), 0, {}).nodes.oil_degC)));
    likely.fitted.legs.front().at_rest.found = false;
    CHECK(tells("null"));
    likely.fitted.legs.clear();
    CHECK(tells("null"));
}

TEST_CASE("each: a line calculated from its parts alone is that of the whole answer, to the byte") {
    for (const std::string name : {"light", "heavy", "idler", "dip"}) {
        CAPTURE(name);
        const Setup setup = examples::setup(name + ".toml");
        const Assessment likely = assess(setup);
        const Assessment fitted = fitted_answer(setup);
        CHECK(each_line(1, name, setup, fitted, line_band(setup, fitted, {.draws = 63})) ==
              each_line(1, name, setup, likely, band(setup, likely, {.draws = 63})));
    }
}

TEST_CASE("each: one line a row, the same bytes for any threads and shards, and after --resume") {
    const auto list = scratch("caseload_each.csv", five_rows);
    const std::string base =
        "assess " + light_file + " --draws 63 --json-lines --each " + list.string();
    const Run all = run_program_as_user(base);
    CHECK(all.code == 0);
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < all.out.size();) {
        const std::size_t end = all.out.find('\n', at) + 1;
        lines.push_back(all.out.substr(at, end - at));
        at = end;
    }
    REQUIRE(lines.size() == 5);
    CHECK(lines[2].find("\"kq\\\" is not a unit") != std::string::npos);
    CHECK(lines[0].find("\"error\":null") != std::string::npos);
    CHECK(run_program_as_user(base + " --threads 3").out == all.out);
    CHECK(run_program_as_user(base + " --shard 1/2").out == lines[0] + lines[2] + lines[4]);
    CHECK(run_program_as_user(base + " --shard 2/2").out == lines[1] + lines[3]);
    // Cut in the middle of the third line, as a power cut leaves it.
    const auto out = scratch("caseload_each.jsonl", lines[0] + lines[1] + lines[2].substr(0, 20));
    CHECK(run_program_as_user(base + " --resume --out " + out.string()).code == 0);
    CHECK(file_text(out.string()) == all.out);
    // Whole already: nothing is added.
    CHECK(run_program_as_user(base + " --resume --out " + out.string()).code == 0);
    CHECK(file_text(out.string()) == all.out);
}

TEST_CASE("each: lines stay in order over many blocks of rows, refused ones among them") {
    std::string rows = "vehicle.mass\n";
    for (int i = 0; i < 300; ++i) rows += i % 100 == 0 ? "\"2300 kg\"\n" : "nonsense\n";
    const auto list = scratch("caseload_each_long.csv", rows);
    const std::string base =
        "assess " + light_file + " --draws 63 --each " + list.string() + " --threads ";
    const Run alone = run_program_as_user(base + "1");
    REQUIRE(alone.code == 0);
    std::size_t at = 0;
    for (int i = 1; i <= 300; ++i) {
        const std::string begins = fmt::format("{{\"number\":{},", i);
        CHECK(alone.out.compare(at, begins.size(), begins) == 0);
        at = alone.out.find('\n', at) + 1;
    }
    CHECK(at == alone.out.size());
    for (const std::string threads : {"2", "5"})
        CHECK(run_program_as_user(base + threads).out == alone.out);
}

TEST_CASE(
    "each: a list of setup files gives a line for each, with an error where one cannot be read") {
    const auto list =
        scratch("caseload_each.txt", "# our cases\n" + light_file + "\n/no/such.toml\n");
    const Run run = run_program_as_user("assess --draws 63 --each " + list.string());
    CHECK(run.code == 0);
    CHECK(run.out.find("\"number\":1") != std::string::npos);
    CHECK(run.out.find("/no/such.toml: cannot be read") != std::string::npos);
}

TEST_CASE("each: nothing is planned for a row whose verdict is STOP") {
    const auto list = scratch(
        "caseload_each_stop.csv",
        "cooler.fit,event.ambient,housing.place\ntrue,34 degC,open\nfalse,58 degC,tunnel\n");
    const Run run =
        run_program_as_user("assess " + light_file + " --draws 63 --each " + list.string());
    REQUIRE(run.code == 0);
    const std::string hot = run.out.substr(run.out.find('\n') + 1);
    REQUIRE(hot.find("\"verdict\":\"stop\"") != std::string::npos);
    for (const std::string action : {"change_oil", "look", "open_case"}) {
        CHECK(hot.find("\"" + action + "_after_events\":null") != std::string::npos);
        CHECK(run.out.substr(0, run.out.find('\n')).find("\"" + action + "_after_events\":null") ==
              std::string::npos);
    }
}

TEST_CASE("each: a key twice in the head, or a column without a key, is refused") {
    for (const std::string head : {"vehicle.mass,vehicle.mass", "cooler.fit,cooler", "a,b,a.c"}) {
        CAPTURE(head);
        const Error error = refused_by([&] { (void)read_each_table(head + "\n", "list.csv"); });
        CHECK(std::string(error.what()).find(" is said twice in the head") != std::string::npos);
        CHECK(error.problems().front().where.line == 1);
    }
    CHECK_THROWS_WITH(read_each_table("a,\n", "list.csv"), "column 2 of the head names no key");
    CHECK(said_twice(std::vector<std::string>{"a.b", "a.c", "a.bc"}).empty());
    const Run twice = run_program_as_user("compare " + light_file +
                                          " --with \"vehicle.mass=2000 kg\" --with "
                                          "\"vehicle.mass=2500 kg\"");
    CHECK(twice.code == 2);
    CHECK(twice.out.find("--with vehicle.mass: said twice") != std::string::npos);
}

TEST_CASE("each: a change that would name a file is refused, in braces too") {
    for (const std::string change : {"event={from=\"x.toml\"}", "event.from=x.toml", "base=x.toml",
                                     "library=x.toml", "event={from={a=1}}", "caseload=2"}) {
        CAPTURE(change);
        const Run run = run_program_as_user("compare " + light_file + " --with '" + change + "'");
        CHECK(run.code == 2);
        CHECK(run.out.find("cannot be changed here") != std::string::npos);
    }
    const auto list = scratch("caseload_each_from.csv", "event\n\"{from=\"\"x\"\"}\"\n");
    const Run row = run_program_as_user("assess " + light_file + " --each " + list.string());
    CHECK(row.out.find("\"error\":\"event.from names a file and cannot be changed here\"") !=
          std::string::npos);
}

TEST_CASE(
    "each: --resume continues a file only with the list, setup, draws and shard it was begun "
    "with") {
    const auto list = scratch("caseload_each_a.csv", five_rows);
    const std::string base = "assess " + light_file + " --draws 63 --each " + list.string();
    const std::string all = run_program_as_user(base).out;
    const std::string first = all.substr(0, all.find('\n') + 1);
    const std::size_t second_end = all.find('\n', first.size()) + 1;
    // Each line says of which list it is, the first of the file too.
    const std::size_t sum = first.find(",\"list\":\"");
    REQUIRE(sum != std::string::npos);
    CHECK(first.size() == sum + 9 + 16 + 3);
    const std::string ending = first.substr(sum);
    for (const std::string& line : test_files::lines(all))
        CHECK((line + "\n").substr(line.size() + 1 - ending.size()) == ending);

    const auto refuses = [&](const std::string& text, const std::string& command,
                             const std::string& words) {
        const auto out = scratch("caseload_each_kept.jsonl", text);
        const Run run = run_program_as_user(command + " --resume --out " + out.string());
        CAPTURE(command);
        CAPTURE(run.out);
        CHECK(run.code == 2);
        CHECK(run.out.find(words) != std::string::npos);
        CHECK(file_text(out.string()) == text);
    };
    std::string other_rows = five_rows;
    other_rows.back() = ' ';
    other_rows += "\n";
    const auto other = scratch("caseload_each_b.csv", other_rows);
    const std::string another =
        "answers another list, setup, number of calculations (--draws) or version";
    refuses(first, "assess " + light_file + " --draws 63 --each " + other.string(), another);
    refuses(first, "assess " + light_file + " --draws 127 --each " + list.string(), another);
    refuses(first,
            "assess " CASELOAD_ROOT "/docs/examples/heavy.toml --draws 63 --each " + list.string(),
            another);
    refuses(all.substr(0, second_end), base + " --shard 1/2", "line 2 is not of row 3");
    refuses(first, base + " --shard 2/2", "line 1 is not of row 2");
    refuses(all + first, base, "line 6 is not of a row that is left");
    // Never cut: other files, with and without an end of line, and answers of before.
    refuses("caseload = 1\nbase = \"light.toml\"\nno end of line", base, "is no answer of --each");
    refuses("one line", base, "is no answer of --each cut short");
    refuses(first.substr(0, sum) + "}\n", base, "line 1 is no answer of --each");
    refuses(all + "more", base, "line 6 is no answer of --each cut short");
    refuses(first + "{\"number\":3", base, "line 2 is no answer of --each cut short");

    for (const std::string& begun :
         {std::string(), first.substr(0, 4), first.substr(0, 300), first, all.substr(0, second_end),
          all.substr(0, second_end - 1), all}) {
        const auto out = scratch("caseload_each_kept.jsonl", begun);
        CHECK(run_program_as_user(base + " --resume --out " + out.string()).code == 0);
        CHECK(file_text(out.string()) == all);
    }
}

TEST_CASE("each: a wrong shard, a missing list and a folder that is not there are refused") {
    const auto list = scratch("caseload_each_cannot.csv", five_rows);
    const std::string base = "assess " + light_file + " --each " + list.string();
    CHECK(run_program_as_user(base + " --shard 3/2").code == 2);
    CHECK(run_program_as_user(base + " --shard two").code == 2);
    for (const std::string shard :
         {"2/18446744073709551615", "18446744073709551615/18446744073709551615", "0/1", "1/0",
          "1/1000001", "2/99999999999999999999", "-1/2", "1/2/3", "1/", "/2"}) {
        CAPTURE(shard);
        const Run run = run_program_as_user(base + " --shard " + shard);
        CHECK(run.code == 2);
        CHECK(run.out.find("write k/n with k from 1 to n and n up to 1000000") !=
              std::string::npos);
    }
    CHECK(run_program_as_user(base + " --resume").code == 2);
    CHECK(run_program_as_user("assess " + light_file + " --each /no/such.csv").code == 5);
    CHECK(run_program_as_user(base + " --out /no/such/folder/x").code == 5);
    CHECK(run_program_as_user("assess").code == 2);
}

}  // namespace caseload::each_tests
