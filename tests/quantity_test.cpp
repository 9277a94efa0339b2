// SPDX-License-Identifier: MIT
// The quantity table and the results agree.
#include "caseload/quantity.hpp"

#include "caseload/losses.hpp"
#include "caseload/seats.hpp"
#include "caseload/units.hpp"
#include "files.hpp"
#include "support.hpp"

#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace caseload::quantity_tests {

namespace {

/// The list of members below a result.
struct Listed {
    std::string owner;
    std::vector<std::string> members;
};

/// From its text: Result, "owner", member, member, ...
Listed read_list(const std::string& text) {
    std::vector<std::string> parts;
    std::istringstream in(text);
    for (std::string part; std::getline(in, part, ',');) {
        const std::size_t first = part.find_first_not_of(" \n\"");
        parts.push_back(part.substr(first, part.find_last_not_of(" \n\"") + 1 - first));
    }
    return {parts.at(1), {parts.begin() + 2, parts.end()}};
}

/// Of a result that is listed otherwise.
template <class T>
Listed listed() {
    Listed list{std::string(Members<T>::owner), {}};
    Members<T>::all([&](std::string_view name, auto) { list.members.emplace_back(name); });
    return list;
}

/// Those of every public header.
std::vector<Listed> all_lists() {
    std::vector<Listed> all{listed<LossLedger>(), listed<iso_21771::Pair>(),
                            listed<iso_21771::Finding>(), listed<SeatResult>()};
    const std::string mark = "\nCASELOAD_MEMBERS(";
    for (const std::string& path : test_files::below("include/caseload", {".hpp"})) {
        const std::string text = test_files::file_text(test_files::root + path);
        for (std::size_t at = text.find(mark); at != std::string::npos; at = text.find(mark, at)) {
            at += mark.size();
            all.push_back(read_list(text.substr(at, text.find(");", at) - at)));
        }
    }
    return all;
}

}  // namespace

TEST_CASE("quantities: every member of every result has its row, and no row is left over") {
    const std::vector<Listed> lists = all_lists();
    REQUIRE(lists.size() > 50);
    std::set<std::string> seen_rows;
    for (const Listed& list : lists) {
        std::set<std::string> here;
        for (const std::string& name : list.members) {
            CHECK(here.insert(name).second);
            const Quantity& row = quantity(list.owner, name);
            CAPTURE(row.id);
            seen_rows.insert(row.id);
            CHECK(!row.words.empty());
            CHECK(std::set<std::string>{"entered", "calculated", "solved", "integrated", "summed",
                                        "counted", "words"}
                      .count(row.how) == 1);
            const std::string unit = unit_of_name(name);
            if (!unit.empty()) CHECK(row.unit == unit);
            if (!row.unit.empty()) CHECK(unit == row.unit);
        }
    }
    for (const Quantity& row : quantities()) {
        CAPTURE(row.id);
        CHECK(seen_rows.count(row.id) == 1);
    }
}

TEST_CASE("quantities: a member missing in CASELOAD_MEMBERS is noticed") {
    struct Two {
        double one_K;
        double two_K;
    };
    CHECK(counting::fields<Two>() == 2);
    CHECK(counting::fields<LossLedger>() == loss_rows.size());
    CHECK(counting::fields<Note>() == 3);
    CHECK_THROWS_AS(quantity("losses", "no_such_W"), std::out_of_range);
}

TEST_CASE("quantities: one heading read alone has the rows of the whole table") {
    std::size_t rows = 0;
    std::set<std::string> headings;
    for (const Quantity& row : quantities()) headings.insert(row.id.substr(0, row.id.find('.')));
    for (const std::string& heading : headings)
        for (const auto& [member, row] : quantities_of(heading)) {
            const Quantity& same = quantity(heading, member);
            CHECK(row.id == same.id);
            CHECK(row.words == same.words);
            CHECK(row.source == same.source);
            ++rows;
        }
    CHECK(rows == quantities().size());
    CHECK_THROWS_AS(quantities_of("loss"), std::out_of_range);
}

}  // namespace caseload::quantity_tests
