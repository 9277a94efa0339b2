// SPDX-License-Identifier: MIT
// Every key does something.
#include "input/fields.hpp"
#include "input/item.hpp"
#include "input/setup_files.hpp"
#include "support.hpp"

#include <set>
#include <string>
#include <vector>

namespace caseload::every_key_tests {

using namespace caseload::input_test;

TEST_CASE("setup: every row of the field table moves it") {
    // Change each entry of setups that together have every key, and see the setup change.
    std::set<std::string> moved;
    std::set<std::string> had;
    const std::string optional_keys =
        "housing.neighbour = \"frame\"\nhousing.neighbour_conductance = \"12 W/K\"\n"
        "housing.neighbour_temperature = \"80 degC\"\nbearing.input_front.f1 = 0.0004\n";
    // Each pair is set one way: end play is assumed where nothing is entered.
    std::string pairs_set = file_text(golden_folder() + "idler.toml");
    const std::string gear_at = "input.gear_at = \"3 in\"\n";
    pairs_set.insert(pairs_set.find(gear_at),
                     "input.preload = \"300 N\"\nidler.turning_torque = \"1.2 N m\"\n");
    for (const std::string& text :
         {file_text(golden_folder() + "full.toml"), file_text(golden_folder() + "idler.toml"),
          pairs_set, shortest() + optional_keys,
          file_text(test_files::root + "tests/segments/every_key.toml"),
          file_text(test_files::root + "tests/segments/legs.toml")}) {
        const Document document(text, "all.toml", {});
        const ReadSetup base = document.complete();
        for (const Entry& one : base.entries) {
            const input::Field& field = *input::find_field(one.key);
            had.insert(one.field);
            std::vector<std::string> tries;
            if (field.kind == input::FieldKind::word)
                for (const std::string& word : input::split_words(field.accepted))
                    tries.push_back('"' + word + '"');
            else if (field.kind == input::FieldKind::flag)
                tries = {"true", "false"};
            else if (field.kind == input::FieldKind::number ||
                     field.kind == input::FieldKind::integer)
                tries = {"1", "2", "0.9", "0.09", "0.95", "5", "6", "11", "13", "0.005"};
            else if (field.kind == input::FieldKind::quantity)
                for (const double factor : {1.02, 0.98}) {
                    const double now = input::read_quantity(field.measure, one.number).value;
                    const double then = now == 0 ? 1 : now * factor;
                    tries.push_back("\"" + std::to_string(then) + " " +
                                    std::string(input::words_of(field.measure).unit) + "\"");
                }
            else if (field.kind == input::FieldKind::size)
                tries = {"\"88x141x23 mm\"", "\"190x280x460 mm\""};
            for (const std::string& toml : tries) {
                const Change change{one.key, toml};
                try {
                    if (!(document.complete({&change, 1}).setup == base.setup))
                        moved.insert(one.field);
                } catch (const Error&) {
                    continue;  // out of range or at odds with another key; another try will do
                }
            }
        }
    }
    // A row that none of them has: its example changes the shortest.
    const Document plain(shortest(), "shortest.toml", {});
    for (const input::Field& field : input::fields()) {
        const std::string key(field.key);
        if (had.count(key) || key.find_first_of("*[") != std::string::npos) continue;
        const std::string example(input::example_of(field));
        const Change change{
            key, field.kind == input::FieldKind::quantity ? '"' + example + '"' : example};
        try {
            if (!(plain.complete({&change, 1}).setup == plain.complete().setup)) moved.insert(key);
        } catch (const Error&) {
            continue;  // not alone
        }
    }
    // Lists, names and file keys, which setup_test.cpp reads one by one.
    const std::set<std::string> elsewhere{"caseload",
                                          "title",
                                          "base",
                                          "library",
                                          "bearing.*.from",
                                          "joint.*.from",
                                          "case.centre_distance",
                                          "gears.train",
                                          "gears.fitted",
                                          "gears.profile_shift",
                                          "gears.tip_diameter",
                                          "set.*.teeth",
                                          "bearing.*.shaft",
                                          "joint.*.shaft",
                                          "spline.*.shaft",
                                          "seal.*.shaft",
                                          "oil.grade",
                                          "oil.cleanliness",
                                          "vehicle.gearbox",
                                          "vehicle.engine_torque",
                                          "event.from",
                                          "event.run",
                                          "leg.*.bins",
                                          "leg.*.peaks",
                                          "leg.*.set",
                                          "costs.planned",
                                          "costs.failure",
                                          "reading.*.leg",
                                          "reading.*.series",
                                          "measured.date",
                                          "measured.setup",
                                          "measured.*.with"};
    // Words and flags that cannot change alone; read in setup_test.cpp and in the bad files.
    const std::set<std::string> not_alone{"bearing.*.locating", "bearing.*.radial",
                                          "bearing.*.big_end",  "lubrication.method",
                                          "leg.*.kind",         "event.pace"};
    // Words whose number is entered as well in the full file; tested in "words and their numbers".
    const std::set<std::string> overridden{"oil.state", "lubrication.drain", "housing.place"};
    for (const input::Field& field : input::fields()) {
        const std::string key(field.key);
        if (key.find('[') != std::string::npos || elsewhere.count(key) || overridden.count(key) ||
            not_alone.count(key))
            continue;
        CAPTURE(key);
        CHECK(moved.count(key) == 1);
    }
}

}  // namespace caseload::every_key_tests
