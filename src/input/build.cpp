// SPDX-License-Identifier: MIT
#include "input/build.hpp"

#include "input/fields.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload::input {

bool in_train(const Setup& setup, const std::string& shaft) {
    const auto& train = setup.gears.train;
    return std::find(train.begin(), train.end(), shaft) != train.end();
}

void check_shaft_name(Completed& from, const Setup& setup, const std::string& key) {
    if (!from.has(key) || from.broken("gears.train") || in_train(setup, from.text(key))) return;
    from.problem(
        key, fmt::format("{} = \"{}\": there is no such shaft", key, from.text(key)),
        fmt::format("the shafts of gears.train are {}", fmt::join(setup.gears.train, ", ")));
}

Setup build_setup(Completed& from) {
    Setup setup;
    for (const Field& field : fields()) {
        if (field.put == nullptr) continue;
        for (const std::string& key : instances(from, field)) {
            const Item* item = from.find(key);
            if (item != nullptr && from.holds(field.when, key)) field.put(setup, *item);
        }
    }
    check_train(from, setup);
    const std::size_t others = from.problems.size();
    check_bearings(from, setup);
    check_pair_settings(from, setup, from.problems.size() == others);
    check_parts(from, setup);
    check_oil(from, setup);
    check_cooler(from, setup);
    build_event(from, setup);
    check_readings(from, setup);
    use_measured(from, setup);
    if (from.problems.empty()) check_plausible(from, setup);
    return setup;
}

}  // namespace caseload::input
