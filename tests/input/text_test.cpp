// SPDX-License-Identifier: MIT
// A setup as text: what editors make of it, and how much of it is read.
#include "input/setup_files.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <string>

namespace caseload::text_tests {

using namespace caseload::input_test;

TEST_CASE("text: every line end, a byte order mark and tabs are read") {
    std::string windows;
    for (const char c : shortest()) windows += c == '\n' ? std::string("\r\n") : std::string(1, c);
    CHECK(read(windows).setup == read(shortest()).setup);
    CHECK(read("\xEF\xBB\xBF" + shortest()).setup == read(shortest()).setup);
    CHECK(read(shortest() + "\tvehicle.grip\t=\t0.7\t# tab\n").setup.vehicle.grip == 0.7);
    // Columns count characters, not bytes.
    const Error error = refused_by([&] {
        static_cast<void>(
            read("\xEF\xBB\xBF"
                 "caseload = 1 \n" +
                 shortest().substr(13) + "set = { Ä = 1 }\n"));
    });
    CHECK(error.problems()[0].where.column == 9);
    const Error second =
        refused_by([&] { static_cast<void>(read(shortest() + "title = 'Ä', \n")); });
    CHECK(second.problems()[0].where.line == 13);
    CHECK(second.problems()[0].where.column == 12);
}

TEST_CASE("closed tables: a key given twice and a table that is not closed are refused as such") {
    const auto refused = [](const std::string& lines) {
        const auto error = error_of([&] { static_cast<void>(read(shortest() + lines)); });
        return error ? error->problems()[0].text : std::string("accepted");
    };
    CHECK(refused("cooler = { fit = false }\ncooler = { fit = true }\n") ==
          "cooler is given twice; first in line 13");
    CHECK(refused("cooler = { fit = false }\n[cooler]\n[oil]\n") ==
          "[cooler] adds to cooler, which ends with its } in line 13");
    CHECK(refused("[bearing]\ninput_rear = { kind = \"x\" }\n[bearing.input_rear.seat]  # = [x]\n"
                  "[oil]\n") ==
          "[bearing.input_rear.seat] adds to bearing.input_rear, which ends with its } in line 14");
    CHECK(refused("cooler.core = \"1x1x1 mm\"\ncooler.rating = { heat = \"6 kW\" x }\n")
              .find("adds") == std::string::npos);
}

TEST_CASE("limits: size, line length, depth, number of problems") {
    const auto refused = [](const std::string& text) {
        const auto error = error_of([&] { static_cast<void>(read(text)); });
        return error ? error->problems()[0].text : std::string("accepted");
    };
    const std::string comment = "# " + std::string(4094, 'x') + "\n";
    CHECK(refused(shortest() + comment) == "accepted");
    CHECK(refused(shortest() + "#" + comment) == "the line is longer than 4096 characters");
    std::string large = shortest();
    while (large.size() + comment.size() <= (1U << 20U)) large += comment;
    CHECK(refused(large) == "accepted");
    CHECK(refused(large + comment) == "the file is larger than 1 MiB");
    CHECK(refused("a = " + std::string(33, '[') + std::string(33, ']')) ==
          "brackets are nested more than 32 deep");
    CHECK(refused("a = " + std::string(32, '[') + std::string(32, ']')) == "unknown key a");
    std::string deep = "a";
    for (int i = 0; i < 2000; ++i) deep += ".a";
    CHECK(refused(deep + " = 1") == "the line has more dots than any key or list can use");
    std::string multi = "a = ";
    for (int i = 0; i < 3000; ++i) multi += "[\n";
    CHECK(refused(multi) == "brackets are nested more than 32 deep");
    std::string list = "vehicle.gearbox = [1";
    for (int i = 0; i < 1001; ++i) list += ",\n1";
    CHECK(refused(list + "]") == "the list has more than 1000 members");
    std::string many = shortest();
    for (int i = 0; i < 60; ++i) many += "oil.k" + std::to_string(i) + " = 1\n";
    const Error error = refused_by([&] { static_cast<void>(read(many)); });
    CHECK(error.problems().size() == 51);
    CHECK(error.problems().back().text == "there are more problems than these");
    // Many brackets that close again are not deep.
    std::string bins;
    for (int i = 0; i < 50; ++i)
        bins += "[\"" + std::to_string(1000 + 100 * i) + " rpm\", \"700 N m\"],";
    CHECK(refused(shortest() + "vehicle.engine_torque = [" + bins + "]\n") == "accepted");
}

}  // namespace caseload::text_tests
