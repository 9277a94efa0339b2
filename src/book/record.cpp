// SPDX-License-Identifier: MIT
#include "caseload/book/record.hpp"

#include "caseload/date.hpp"
#include "caseload/error.hpp"
#include "input/measured_of.hpp"
#include "input/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <map>
#include <set>

namespace caseload::book {
namespace {

// Modes of ISO 15243:2017, clause 5, names from memory; what each makes due is a judgement.
// Symptoms are common practice: they stop a case, whatever is calculated.
constexpr std::array words{
    Word{"good", "looked at and found good", Weight::good, false, false},
    Word{"subsurface-fatigue", "subsurface initiated fatigue", Weight::open_now, true, false},
    Word{"surface-fatigue", "surface initiated fatigue", Weight::open_now, true, false},
    Word{"abrasive-wear", "abrasive wear", Weight::watch, false, false},
    Word{"adhesive-wear", "adhesive wear, smearing", Weight::open_now, false, false},
    Word{"moisture-corrosion", "moisture corrosion", Weight::open_now, false, false},
    Word{"fretting-corrosion", "fretting corrosion", Weight::watch, false, false},
    Word{"false-brinelling", "false brinelling", Weight::open_now, false, false},
    Word{"excessive-current", "electrical erosion, excessive current", Weight::open_now, false,
         false},
    Word{"current-leakage", "electrical erosion, current leakage", Weight::open_now, false, false},
    Word{"overload-deformation", "overload deformation", Weight::open_now, false, false},
    Word{"particle-indentations", "indentations from particles", Weight::watch, false, false},
    Word{"forced-fracture", "forced fracture", Weight::open_now, false, false},
    Word{"fatigue-fracture", "fatigue fracture", Weight::open_now, true, false},
    Word{"thermal-cracking", "thermal cracking", Weight::open_now, false, false},
    Word{"tooth-pitting", "pitting of a tooth flank", Weight::open_now, true, false},
    Word{"tooth-crack", "crack at a tooth root", Weight::open_now, true, false},
    Word{"scuffing", "scuffing of tooth flanks", Weight::open_now, false, false},
    Word{"ring-turned", "ring turned in its seat", Weight::open_now, false, false},
    Word{"seal-leak", "seal leaks", Weight::open_now, false, false},
    Word{"chips", "chips on the magnet", Weight::open_now, false, true},
    Word{"noise", "rising noise", Weight::open_now, false, true},
    Word{"heat", "sudden temperature rise", Weight::open_now, false, true},
    Word{"oil-loss", "oil lost", Weight::open_now, false, true},
    Word{"water", "water in the oil", Weight::open_now, false, true},
    Word{"play", "play grown", Weight::open_now, false, true},
    Word{"vibration", "new vibration", Weight::open_now, false, true},
    Word{"glitter", "fine glitter on the magnet", Weight::watch, false, true},
};

std::vector<std::string> known(std::span<const Record> records) {
    std::set<std::string> all;  // two books may both have begun a case
    for (const Record& record : records)
        if (record.kind == "case") all.insert(record.serial);
    return {all.begin(), all.end()};
}

std::string listed(const std::vector<std::string>& names) {
    return fmt::format("{}", fmt::join(names, ", "));
}

/// The fields each kind of record must have.
const std::map<std::string, std::vector<std::string>, std::less<>>& needed_fields() {
    static const std::map<std::string, std::vector<std::string>, std::less<>> needed{
        {"case", {}},
        {"setup", {"hash", "text"}},
        {"event", {"times"}},
        {"oil", {}},
        {"opening", {}},
        {"finding", {"position", "mode"}},
        {"look", {}},
        {"part", {"position", "id"}},
        {"reading", {"what", "reads"}},
        {"correct", {"record"}}};
    return needed;
}

/// The beginning of a value, for a message.
std::string shortened(const std::string& text) {
    constexpr std::size_t shown = 40;
    return text.size() <= shown ? text : text.substr(0, shown) + "...";
}

void require_sizes(const Record& record) {
    const auto refuse = [&](const std::string& what) {
        refuse_input(fmt::format("record {}: {}", shortened(record.id), what));
    };
    using Word = std::pair<std::string_view, const std::string*>;
    for (const auto& [name, word] :
         {Word{"id", &record.id}, Word{"case", &record.serial}, Word{"setup", &record.setup},
          Word{"program", &record.version}})
        if (word->size() > most::word_bytes)
            refuse(fmt::format("its {} is longer than {} bytes", name, most::word_bytes));
    if (record.fields.size() > most::fields)
        refuse(fmt::format("more than {} values", most::fields));
    std::set<std::string_view> seen;
    for (const auto& [key, text] : record.fields) {
        if (key.empty()) refuse(fmt::format("\"{}\" has no key", shortened(text)));
        if (key == "id:" || key == "program:" || key == "setup:")
            refuse(fmt::format("key \"{}\" is a word of the text form", key));
        if (key.size() > most::word_bytes)
            refuse(fmt::format("key \"{}\" is longer than {} bytes", shortened(key),
                               most::word_bytes));
        if (text.size() > most::value_bytes) refuse(fmt::format("{} is longer than 1 MiB", key));
        if (!seen.insert(key).second) refuse(fmt::format("{} is there twice", key));
    }
}

bool is_damage(std::string_view key) {
    const std::string_view measure = key.substr(key.rfind('.') + 1);
    return measure == "share" || measure == "flank" || measure == "root" ||
           measure == "over_heat_code_h" || key == "oil.dose" || key == "driving_h" ||
           key == "seat_loose_hot" || key == "ring_on_shaft" || key == "seal_over_limit";
}

void require_event_numbers(const Record& record) {
    const double times = number(record, "times");
    if (times < 1 || times > most::times || times != std::floor(times))
        refuse_input(fmt::format("record {}: times = \"{}\": must be a whole number from 1 to {}",
                                 record.id, value(record, "times"), most::times));
    for (const auto& [key, text] : record.fields) {
        if (key == "oil.peak_degC") (void)number(record, key);
        if (!is_damage(key)) continue;
        const double damage = number(record, key);
        if (damage < 0 || damage > most::damage)
            refuse_input(fmt::format("record {}: {} = \"{}\": must be from 0 to {}", record.id, key,
                                     shortened(text), most::damage));
    }
}

[[noreturn]] void missing(const Record& one, std::string_view what, const std::string& name) {
    refuse_input(fmt::format("record {}: there is no {} \"{}\"", one.id, what, name),
                 "neither in this book nor in what comes in; nothing was added");
}

/// What records may name.
struct Named {
    std::set<std::string> ids;
    std::set<std::string> cases;
    std::set<std::string> setups;
    explicit Named(std::span<const Record> records) {
        for (const Record& one : records) {
            ids.insert(one.id);
            if (one.kind == "case") cases.insert(one.serial);
            if (one.kind == "setup") setups.insert(value(one, "hash"));
        }
    }
    void require(const Record& one) const {
        if (one.kind != "setup" && !cases.contains(one.serial)) missing(one, "case", one.serial);
        if (one.kind == "event" && !setups.contains(one.setup)) missing(one, "setup", one.setup);
    }
};

/// True when it strikes the record.
bool apply(const Record& correction, Record& to) {
    bool struck = false;
    for (const auto& [key, text] : correction.fields) {
        if (key == "strike")
            struck = struck || text == "yes";
        else if (key == "date")
            to.date = text;
        else if (key == "case")
            to.serial = text;
        else if (key == "setup")
            to.setup = text;
        else if (key != "record" && key != "why")
            set(to, key, text);
    }
    return struck;
}

}  // namespace

std::string value(const Record& record, std::string_view key) {
    for (const auto& [name, text] : record.fields)
        if (name == key) return text;
    return {};
}

void set(Record& record, std::string_view key, std::string text) {
    for (auto& [name, old] : record.fields)
        if (name == key) {
            old = std::move(text);
            return;
        }
    record.fields.emplace_back(key, std::move(text));
}

double number(const Record& record, std::string_view key) {
    const std::string text = value(record, key);
    if (text.empty()) return 0;
    // strtod alone takes more: blanks in front, hexadecimal, nan and inf.
    const bool decimal = text.find_first_not_of("0123456789.eE+-") == std::string::npos;
    char* end = nullptr;
    const double x = std::strtod(text.c_str(), &end);
    if (!decimal || end != text.c_str() + text.size() || !std::isfinite(x))
        refuse_input(fmt::format("record {}: {} = \"{}\": must be a decimal number", record.id, key,
                                 shortened(text)));
    return x;
}

void require_date(const std::string& date) {
    const auto day = day_of(date);
    if (day && day->year() >= std::chrono::year{1900}) return;
    refuse_input(fmt::format("date \"{}\": no such day", date), "write year-month-day: 2026-11-20");
}

void require_complete(const Record& record) {
    require_sizes(record);
    require_date(record.date);
    const auto& needed = needed_fields();
    const auto kind = needed.find(record.kind);
    if (kind == needed.end())
        refuse_input(
            fmt::format("record {}: unknown kind \"{}\"", record.id, record.kind),
            "known: case, correct, event, finding, look, oil, opening, part, reading, setup");
    for (const std::string& key : kind->second)
        if (value(record, key).empty())
            refuse_input(fmt::format("record {}: a {} needs \"{}\"", record.id, record.kind, key));
    if (record.id.empty()) refuse_input("a record without id");
    if (record.serial.empty() && record.kind != "setup" && record.kind != "correct")
        refuse_input(fmt::format("record {}: the case is missing", record.id));
    if (record.kind == "finding") (void)finding_word(value(record, "mode"));
    if (record.kind == "setup" && hash(value(record, "text")) != value(record, "hash"))
        refuse_input(
            fmt::format("record {}: the setup text does not belong to its hash", record.id));
    if (record.kind == "event") require_event_numbers(record);
}

void require_references(std::span<const Record> records) {
    const Named named(records);
    for (const Record& one : records) {
        if (one.kind != "correct")
            named.require(one);
        else if (!named.ids.contains(value(one, "record")))
            missing(one, "record", value(one, "record"));
    }
}

void require_corrections(std::span<const Record> records) {
    const Named named(records);
    std::map<std::string, std::string> by;  // id of a record to that of its correction
    for (const Record& one : records)
        if (one.kind == "correct") by[value(one, "record")] = one.id;
    for (const Record& one : records) {
        const auto from = by.find(one.id);
        if (from != by.end() && (one.kind == "correct" || one.kind == "setup"))
            refuse_input(fmt::format("record {}: corrects {}, which is a {}", from->second, one.id,
                                     one.kind),
                         "correct the record it is about");
    }
    for (const Record& one : corrected(records)) {
        const auto from = by.find(one.id);
        if (from == by.end()) continue;
        try {
            require_complete(one);
            named.require(one);
        } catch (const Error& error) {
            refuse_input(fmt::format("record {}: as corrected by {}: {}", one.id, from->second,
                                     error.problems().front().text),
                         error.problems().front().hint);
        }
    }
}

void require_correctable(const Record& record, const std::string& key) {
    std::vector<std::string> keys{"date", "case", "words"};
    const auto needed = needed_fields().find(record.kind);
    if (needed != needed_fields().end())
        keys.insert(keys.end(), needed->second.begin(), needed->second.end());
    if (record.kind == "part") keys.emplace_back("set");
    std::vector<std::string> held;
    for (const auto& [name, text] : record.fields) held.push_back(name);
    if (std::find(keys.begin(), keys.end(), key) != keys.end() ||
        std::find(held.begin(), held.end(), key) != held.end())
        return;
    const std::string near = input::nearest_word(keys, key);
    refuse_input(fmt::format("--with {}: a {} has no such key", key, record.kind),
                 near.empty() ? fmt::format("keys are {}", listed(keys))
                              : fmt::format("did you mean {}?", near));
}

std::string hash(std::string_view text) {
    return input::text_hash(text);
}

Records by_date(std::span<const Record> records) {
    Records all(records.begin(), records.end());
    std::stable_sort(all.begin(), all.end(),
                     [](const Record& a, const Record& b) { return a.date < b.date; });
    return all;
}

Corrected corrected_view(std::span<const Record> written) {
    Corrected all;
    std::vector<const Record*>& records = all.records;
    for (const Record& one : written) records.push_back(&one);
    const auto sort_by_date = [&] {
        std::stable_sort(records.begin(), records.end(),
                         [](const Record* a, const Record* b) { return a->date < b->date; });
    };
    sort_by_date();
    std::map<std::string, std::vector<const Record*>, std::less<>> corrections;  // by target
    for (const Record* one : records)
        if (one->kind == "correct") corrections[value(*one, "record")].push_back(one);
    std::erase_if(records, [](const Record* one) { return one->kind == "correct"; });
    if (corrections.empty()) return all;
    std::set<std::string_view> met;  // of two records of one id the first is corrected
    std::set<std::string_view> struck;
    for (const Record*& one : records) {
        const auto found = corrections.find(one->id);
        if (found == corrections.end() || !met.insert(one->id).second) continue;
        Record& now = all.changed.emplace_back(*one);
        for (const Record* correction : found->second)
            if (apply(*correction, now)) struck.insert(one->id);
        one = &now;
    }
    std::erase_if(records, [&](const Record* one) { return struck.contains(one->id); });
    sort_by_date();
    return all;
}

Records corrected(std::span<const Record> written) {
    Records all;
    for (const Record* one : corrected_view(written).records) all.push_back(*one);
    return all;
}

void require_known_case(std::span<const Record> records, const std::string& serial) {
    const std::vector<std::string> names = known(records);
    if (std::find(names.begin(), names.end(), serial) != names.end()) return;
    const std::string near = input::nearest_word(names, serial);
    if (!near.empty())
        refuse_input(fmt::format("no case \"{}\" in this book", serial),
                     fmt::format("did you mean {}?", near));
    refuse_input(fmt::format("no case \"{}\" in this book", serial),
                 names.empty() ? fmt::format("first: caseload book add case {}", serial)
                               : fmt::format("known: {}; a new one: caseload book add case {}",
                                             listed(names), serial));
}

std::span<const Word> finding_words() {
    return words;
}

const Word& finding_word(const std::string& name) {
    std::vector<std::string> names;
    for (const Word& word : words) {
        if (word.name == name) return word;
        names.emplace_back(word.name);
    }
    const std::string near = input::nearest_word(names, name);
    refuse_input(fmt::format("finding \"{}\" is not known", name),
                 near.empty() ? "caseload book add finding --help lists the words"
                              : fmt::format("did you mean {}?", near));
}

}  // namespace caseload::book
