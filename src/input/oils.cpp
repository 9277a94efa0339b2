// SPDX-License-Identifier: MIT
#include "input/oils.hpp"

#include "caseload/tables.hpp"

#include <algorithm>
#include <utility>

namespace caseload::input {
namespace {

struct Oil {
    int line = 0;
    std::string name;
    std::map<std::string, RangedValue> values;
};

RangedValue ranged(const Value& value) {
    if (value.kind != Value::Kind::list) return {value, "", ""};
    return {value.items.at(0), toml_text(value.items.at(1)), toml_text(value.items.at(2))};
}

std::vector<Oil> read_oils() {
    std::map<std::string, Oil> by_id;
    for (const auto& [key, leaf] : parse_leaves(embedded_table("oils.toml"), "oils.toml")) {
        const std::size_t dot = key.find('.');
        Oil& oil = by_id[key.substr(0, dot)];
        const std::string member = key.substr(dot + 1);
        if (member == "name") {
            oil.name = leaf.value.text;
            oil.line = leaf.value.where.line;
        } else {
            oil.values["oil." + member] = ranged(leaf.value);
        }
    }
    std::vector<Oil> oils;
    oils.reserve(by_id.size());
    for (auto& [id, oil] : by_id) oils.push_back(std::move(oil));
    std::sort(oils.begin(), oils.end(), [](const Oil& a, const Oil& b) { return a.line < b.line; });
    return oils;
}

const std::vector<Oil>& oils() {
    static const std::vector<Oil> all = read_oils();
    return all;
}

}  // namespace

const std::vector<std::string>& oil_grades() {
    static const std::vector<std::string> names = [] {
        std::vector<std::string> list;
        for (const Oil& oil : oils()) list.push_back(oil.name);
        return list;
    }();
    return names;
}

const std::map<std::string, RangedValue>& oil_of_grade(const std::string& grade) {
    const auto found = std::find_if(oils().begin(), oils().end(),
                                    [&](const Oil& oil) { return oil.name == grade; });
    return found->values;
}

}  // namespace caseload::input
