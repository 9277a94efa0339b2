// SPDX-License-Identifier: MIT
#include "input/presets.hpp"

#include "caseload/tables.hpp"

#include <algorithm>
#include <utility>

namespace caseload::input {
namespace {

constexpr std::string_view words_part = ".words.";

Preset::Meaning meaning(const Preset& preset, const Value& list) {
    Preset::Meaning out;
    for (std::size_t i = 0; i < list.items.size(); ++i) {
        const std::vector<Value>& one = list.items[i].items;
        if (i >= preset.fills.size()) {
            out.numbers.push_back(one.at(0).number);
            out.lows.push_back(one.at(one.size() == 3 ? 1 : 0).number);
            out.highs.push_back(one.at(one.size() == 3 ? 2 : 0).number);
        } else if (one.size() == 1)
            out.values[preset.fills[i]] = {one[0], "", ""};
        else if (!one.empty())
            out.values[preset.fills[i]] = {one.at(0), toml_text(one.at(1)), toml_text(one.at(2))};
    }
    return out;
}

std::vector<Preset> read_presets() {
    std::map<std::string, Preset> by_key;
    const Leaves leaves = parse_leaves(embedded_table("presets.toml"), "presets.toml");
    const auto preset_of = [&](const std::string& key) -> Preset& {
        Preset& preset = by_key[key];
        preset.key = key;
        return preset;
    };
    for (const auto& [key, leaf] : leaves) {
        if (key.find(words_part) != std::string::npos) continue;
        const std::size_t dot = key.rfind('.');
        Preset& preset = preset_of(key.substr(0, dot));
        if (key.substr(dot + 1) == "source") {
            preset.source = leaf.value.text;
            preset.line = leaf.value.where.line;
        } else {
            for (const Value& filled : leaf.value.items) preset.fills.push_back(filled.text);
        }
    }
    for (const auto& [key, leaf] : leaves) {
        const std::size_t at = key.find(words_part);
        if (at == std::string::npos) continue;
        Preset& preset = preset_of(key.substr(0, at));
        preset.words[key.substr(at + words_part.size())] = meaning(preset, leaf.value);
    }
    std::vector<Preset> all;
    all.reserve(by_key.size());
    for (auto& [key, preset] : by_key) all.push_back(std::move(preset));
    std::sort(all.begin(), all.end(),
              [](const Preset& a, const Preset& b) { return a.line < b.line; });
    return all;
}

}  // namespace

const std::vector<Preset>& presets() {
    static const std::vector<Preset> all = read_presets();
    return all;
}

const Preset::Meaning& meaning_of(std::string_view key, const std::string& word) {
    const auto found = std::find_if(presets().begin(), presets().end(),
                                    [&](const Preset& preset) { return preset.key == key; });
    return found->words.at(word);
}

}  // namespace caseload::input
