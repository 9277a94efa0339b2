// SPDX-License-Identifier: MIT
#include "why/collector.hpp"

#include "third_party/toml.hpp"

#include <fmt/format.h>

#include <set>
#include <stdexcept>
#include <utility>

namespace caseload::why_detail {
namespace {

std::string origin_words(const Entry& entry) {
    if (entry.where.line > 0 && !entry.where.file.empty() &&
        (entry.origin == Origin::yours || entry.origin == Origin::base_file))
        return fmt::format("{}:{}, {}", entry.where.file, entry.where.line, entry.key);
    return fmt::format("{}, {}", entry.key, entry.source.empty() ? "standard" : entry.source);
}

}  // namespace

const Number* resolve_name(const std::vector<Number>& all, const Index& index, const Number& by,
                           const std::string& name) {
    const auto exactly = [&](const std::string& address) {
        const auto found = index.find(address);
        return found == index.end() ? nullptr : &all[found->second];
    };
    if (name.front() == '[') return exactly(name.substr(1, name.size() - 2));
    const bool dead = by.part.rfind(dead_prefix, 0) == 0;
    const auto find = [&](const std::string& address) {
        const Number* own = dead ? exactly(std::string(dead_prefix) + address) : nullptr;
        return own != nullptr ? own : exactly(address);
    };
    const std::string own = (dead ? by.part.substr(dead_prefix.size()) : by.part) + "." + name;
    for (std::string at = by.at; !at.empty(); at.resize(at.rfind('/'))) {
        if (const Number* n = find(own + "@" + at)) return n;
        if (at.find('/') == std::string::npos) break;
    }
    if (const Number* n = find(own)) return n;
    if (const Number* n = find("rest." + name + "@" + by.at.substr(0, by.at.find('/')))) return n;
    return find("shared." + name);
}

std::string sum_of(const std::vector<std::string>& terms) {
    std::string out;
    for (const std::string& term : terms) out += (out.empty() ? "" : " + ") + term;
    return out;
}

std::string extreme_of(std::string_view which, const std::vector<std::string>& terms) {
    if (terms.empty()) return {};
    std::string out = terms.back();
    for (std::size_t i = terms.size() - 1; i-- > 0;)
        out = fmt::format("{}({}, {})", which, terms[i], out);
    return out;
}

struct Collector::Table {
    toml::table rows;
    std::map<std::string, const Entry*> entries;
    /// The formula of a member, or the one for this variant of its part.
    [[nodiscard]] std::string formula(const Place& place, const std::string& member) const {
        return of_variant(rows[place.kind][member]["value"], place, {});
    }
    static std::string of_variant(toml::node_view<const toml::node> text, const Place& place,
                                  const std::string& otherwise) {
        return text.value_or(text[place.variant].value_or(otherwise));
    }
};

Collector::Collector(const ReadSetup& read, std::string_view formulas) : read_(read) {
    auto table = std::make_shared<Table>(Table{toml::parse(formulas), {}});
    for (const Entry& entry : read_.entries) table->entries[entry.key] = &entry;
    table_ = std::move(table);
}

Collector::Collector(const ReadSetup& read, std::shared_ptr<const Table> table)
    : read_(read), table_(std::move(table)) {}

Collector::~Collector() = default;

std::string Collector::origin_of(const std::string& key) const {
    const auto found = table_->entries.find(key);
    return found == table_->entries.end() ? std::string{} : origin_words(*found->second);
}

Number& Collector::add(const Place& place, const std::string& member, double value,
                       const Quantity& row) {
    Number number;
    number.part = place.part;
    number.member = member;
    number.at = place.at;
    number.address =
        fmt::format("{}.{}{}{}", place.part, member, place.at.empty() ? "" : "@", place.at);
    number.value = value;
    const toml::node_view<const toml::node> entry = table_->rows[place.kind][member];
    const auto text = [&](const char* key, const std::string& otherwise) {
        return Table::of_variant(entry[key], place, otherwise);
    };
    number.row = row.id;
    number.symbol = text("symbol", row.symbol);
    number.unit = text("unit", row.unit);
    number.words = text("words", row.words);
    number.how = row.how.empty() ? text("how", "step") : row.how;
    number.source = text("source", row.source);
    number.value_of = table_->formula(place, member);
    number.equation = text("equation", {});
    number.residual_allowed = text("residual_allowed", {});
    number.solved_how = text("solved_how", {});
    number.over_time = text("over_time", {});
    number.at_least = text("at_least", {});
    number.at_most = text("at_most", {});
    std::string key = text("key", {});
    if (const std::size_t star = key.find('*'); star != std::string::npos)
        key.replace(star, 1, place.part.substr(place.part.find('.') + 1));
    if (!key.empty()) number.origin = origin_of(key);
    if (index.find(number.address) != index.end())
        throw std::logic_error("two numbers at " + number.address);
    index[number.address] = all.size();
    by_place_.emplace(place.part + "@" + place.at, all.size());
    all.push_back(std::move(number));
    return all.back();
}

double Collector::value_of(const Place& place, const std::string& member,
                           const std::string& formula) {
    Number by;
    by.part = place.part;
    by.at = place.at;
    const Expression expression(formula);
    for (const std::string& name : expression.names())
        if (resolve_name(all, index, by, name) == nullptr) step(place, name);
    return expression.value_by([&](std::string_view name) {
        const Number* input = resolve_name(all, index, by, std::string(name));
        if (input == nullptr)
            throw std::logic_error("tables/why.toml: " + place.part + "." + member + "@" +
                                   place.at + " wants " + std::string(name));
        return input->value;
    });
}

void Collector::add_prefixed(const Collector& other, std::string_view prefix,
                             const std::string& reason) {
    const auto here = [&](const Number& number) {
        const auto found = index.find(number.address);
        return found == index.end() ? nullptr : &all[found->second];
    };
    const auto stays_away = [&](const Number& number) {
        const Number* own = here(number);
        return own != nullptr && own->value == number.value && own->value_of == number.value_of &&
               own->equation == number.equation && own->origin == number.origin;
    };
    std::set<std::string> renamed;
    std::vector<Number> taken;
    for (const Number& number : other.all) {
        if (stays_away(number)) continue;
        renamed.insert(number.address);
        taken.push_back(number);
        if (!number.origin.empty() && here(number) != nullptr) taken.back().origin = reason;
    }
    const auto rename = [&](std::string& formula) {
        for (std::size_t at = formula.find('['); at != std::string::npos;
             at = formula.find('[', at + 1)) {
            const std::string address = formula.substr(at + 1, formula.find(']', at) - at - 1);
            if (renamed.count(address) == 1) formula.insert(at + 1, prefix);
        }
    };
    for (Number& number : taken) {
        number.part.insert(0, prefix);
        number.address.insert(0, prefix);
        number.row.clear();
        for (std::string* formula : {&number.value_of, &number.equation, &number.residual_allowed})
            rename(*formula);
        index[number.address] = all.size();
        all.push_back(std::move(number));
    }
}

void Collector::step(const Place& place, const std::string& member) {
    Number by;
    by.part = place.part;
    by.at = place.at;
    const std::string formula = table_->formula(place, member);
    if (formula.empty() || resolve_name(all, index, by, member) != nullptr) return;
    const double value = value_of(place, member, formula);
    add(place, member, value).is_intermediate = true;
}

Number& Collector::step(const Place& place, const std::string& member, const std::string& formula) {
    const double value = value_of(place, member, formula);
    Number& number = add(place, member, value);
    number.value_of = formula;
    number.is_intermediate = true;
    return number;
}

void Collector::steps_of(const Place& place) {
    std::vector<std::string> wanted;
    const auto [from, to] = by_place_.equal_range(place.part + "@" + place.at);
    for (auto one = from; one != to; ++one) {
        const Number& number = all[one->second];
        for (const std::string& formula :
             {number.value_of, number.equation, number.residual_allowed, number.at_least,
              number.at_most})
            if (!formula.empty())
                for (std::string& name : names_in(formula))
                    if (resolve_name(all, index, number, name) == nullptr)
                        wanted.push_back(std::move(name));
    }
    for (const std::string& name : wanted) step(place, name);
}

}  // namespace caseload::why_detail
