// SPDX-License-Identifier: MIT
// Effects of assumptions: the chain once more for each of their ends, sharing what the end does not
// change.
#include "caseload/assess.hpp"

#include "caseload/error.hpp"
#include "damage/life_rates.hpp"
#include "heat/at_oil.hpp"
#include "heat/basis.hpp"
#include "loads/kept.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <utility>

namespace caseload {
namespace {

/// The two results that effects are changes of.
struct Headline {
    double oil_degC;
    double life_share;
};

/// The unchanged case, kept for those with one entry changed. Constant, so threads may share it.
class Unchanged {
public:
    explicit Unchanged(const Setup& setup)
        : loads_(keep_loads(setup)),
          prepared_(prepare_settled(setup, loads_.loads)),
          curves_(prepared_),
          event_(keep_event(curves_, {})),
          rates_(prepared_, event_.heat) {}
    Unchanged(const Unchanged&) = delete;
    Unchanged& operator=(const Unchanged&) = delete;

    [[nodiscard]] Headline likely() const { return {event_.heat.peak_oil_degC, rates_.largest()}; }
    [[nodiscard]] Headline with(const Setup& changed) const {
        const Prepared prepared = prepare_settled(changed, loads_like(changed, loads_));
        CaseCurves curves(prepared, curves_);
        const EventHeat event = event_like(curves, event_);
        return {event.peak_oil_degC, largest_life_share(prepared, event, rates_)};
    }

private:
    KeptLoads loads_;
    Prepared prepared_;
    CaseCurves curves_;
    KeptEvent event_;
    LifeRates rates_;
};

/// An assumption, or the same one of many legs, and what its ends change.
struct Question {
    Entry entry;
    std::vector<Change> low;
    std::vector<Change> high;
    std::vector<Entry> of_legs;  ///< where it is that of many

    void name_together() {
        entry.key = of_legs.front().field;
        entry.number = fmt::format("{} legs together", of_legs.size());
    }
};

struct Answered {
    std::optional<Headline> low;  ///< nothing where the end is refused
    std::optional<Headline> high;

    [[nodiscard]] bool whole() const { return low && high; }
};

Question alone(const Entry& entry) {
    return {entry, {{entry.key, entry.low}}, {{entry.key, entry.high}}, {}};
}

bool of_leg(const Entry& entry) {
    return entry.field.starts_with("leg.*.");
}

/// Whether the entry is of a leg that is not run.
class NotRun {
public:
    explicit NotRun(const EventInput& event) {
        for (const int leg : event.run)
            names_.insert(event.legs[static_cast<std::size_t>(leg)].name);
    }
    [[nodiscard]] bool operator()(const Entry& entry) const {
        if (!of_leg(entry)) return false;
        const std::size_t begin = entry.key.find('.') + 1;
        return !names_.contains(entry.key.substr(begin, entry.key.rfind('.') - begin));
    }

private:
    std::set<std::string> names_;
};

std::vector<Entry> with_ends(const ReadSetup& read) {
    std::vector<Entry> all;
    for (const Entry& entry : read.entries)
        if (!entry.low.empty() && entry.origin != Origin::yours) all.push_back(entry);
    return all;
}

/// The numbers that one word "unknown" gives go to their ends together, under the key of the word;
/// so do the fits of all assumed seats.
struct UnknownWord {
    const std::vector<Entry>& all;
    std::vector<Question>& asked;
    std::map<std::string, std::size_t> place{};

    /// The word's entry; of the assumed seats, which have none, theirs of all bearings.
    [[nodiscard]] Entry named(const Entry& entry) const {
        for (const Entry& word : all)
            if (word.key == entry.by) return word;
        Entry together = entry;
        together.key = entry.field;
        return together;
    }

    void add(const Entry& entry) {
        const auto [found, first] = place.try_emplace(entry.by, asked.size());
        if (first) asked.push_back({named(entry), {}, {}, {}});
        Question& together = asked[found->second];
        together.low.push_back({entry.key, entry.low});
        together.high.push_back({entry.key, entry.high});
        // A seat of which one thing is entered has nothing assumed: the rest of it goes along.
        if (entry.by != assumed_seats) return;
        const std::string heading = entry.key.substr(0, entry.key.rfind('.') + 1);
        for (const Entry& other : all)
            if (other.by == entry.by && other.key != entry.key && other.key.starts_with(heading))
                for (std::vector<Change>* end : {&together.low, &together.high})
                    end->push_back({other.key, other.toml});
    }
};

/// In the order of the entries; many legs at the first of them.
std::vector<Question> questions(const ReadSetup& read, const NotRun& not_run) {
    const std::vector<Entry> entries = with_ends(read);
    std::map<std::string, std::size_t> legs;
    for (const Entry& entry : entries)
        if (of_leg(entry) && !not_run(entry)) ++legs[entry.field];
    std::vector<Question> all;
    std::map<std::string, std::size_t> many;
    UnknownWord unknown{read.entries, all};
    for (const Entry& entry : entries) {
        if (!entry.by.empty()) {
            unknown.add(entry);
            continue;
        }
        if (!of_leg(entry) || not_run(entry) || legs[entry.field] <= most_legs_alone) {
            all.push_back(alone(entry));
            continue;
        }
        const auto [found, first] = many.try_emplace(entry.field, all.size());
        if (first) all.push_back({entry, {}, {}, {}});
        Question& together = all[found->second];
        together.low.push_back({entry.key, entry.low});
        together.high.push_back({entry.key, entry.high});
        together.of_legs.push_back(entry);
    }
    for (const auto& [field, place] : many) all[place].name_together();
    return all;
}

/// Of many legs those whose own ends are no contradiction: of a car too weak for one leg's highest
/// pace the others still have an effect. Each end is entered alone and only read, not calculated.
std::optional<Question> without_refused(const Question& many, const FewChanged& document) {
    Question rest{many.entry, {}, {}, {}};
    for (std::size_t leg = 0; leg < many.of_legs.size(); ++leg) {
        try {
            static_cast<void>(document.setup(many.low[leg]));
            static_cast<void>(document.setup(many.high[leg]));
        } catch (const Error&) {
            continue;
        }
        rest.low.push_back(many.low[leg]);
        rest.high.push_back(many.high[leg]);
        rest.of_legs.push_back(many.of_legs[leg]);
    }
    if (rest.of_legs.empty() || rest.of_legs.size() == many.of_legs.size()) return std::nullopt;
    rest.name_together();
    return rest;
}

std::vector<Answered> answers(const std::vector<Question>& all, const FewChanged& document,
                              const Unchanged& base, const NotRun& not_run,
                              const ForEach& for_each) {
    std::vector<Answered> answered(all.size());
    for_each(2 * all.size(), [&](std::size_t i) {
        const Question& question = all[i / 2];
        const bool at_low = i % 2 == 0;
        std::optional<Headline>& to = at_low ? answered[i / 2].low : answered[i / 2].high;
        if (question.of_legs.empty() && not_run(question.entry)) {
            to = base.likely();
            return;
        }
        try {
            to = base.with(document.setup(at_low ? question.low : question.high));
        } catch (const Error&) {
            to.reset();
        }
    });
    return answered;
}

}  // namespace

std::vector<Worth> assumptions_by_worth(const Document& document, const ReadSetup& read,
                                        const ForEach& for_each) {
    const Unchanged base(read.setup);
    const Headline likely = base.likely();
    const FewChanged changed(document);
    const NotRun not_run(read.setup.event);
    std::vector<Question> asked = questions(read, not_run);
    std::vector<Answered> answered = answers(asked, changed, base, not_run, for_each);
    // One leg's refused end would hide the effect of all.
    for (std::size_t i = 0; i < asked.size(); ++i) {
        if (answered[i].whole() || asked[i].of_legs.empty()) continue;
        std::optional<Question> rest = without_refused(asked[i], changed);
        if (!rest) continue;
        answered[i] = answers({*rest}, changed, base, not_run, for_each).front();
        asked[i] = std::move(*rest);
    }
    std::vector<Worth> all;
    for (std::size_t i = 0; i < asked.size(); ++i) {
        const Answered& ends = answered[i];
        if (!ends.whole()) continue;
        all.push_back({asked[i].entry, ends.low->oil_degC - likely.oil_degC,
                       ends.high->oil_degC - likely.oil_degC,
                       ends.low->life_share - likely.life_share,
                       ends.high->life_share - likely.life_share});
    }
    // Rounded: two bearings in mirror places are worth the same, whatever the last digit says.
    constexpr double round_to_K = 1e-6;
    const auto size = [&](const Worth& worth) {
        return std::round(std::max(std::fabs(worth.oil_low_K), std::fabs(worth.oil_high_K)) /
                          round_to_K);
    };
    std::stable_sort(all.begin(), all.end(),
                     [&](const Worth& a, const Worth& b) { return size(a) > size(b); });
    return all;
}

}  // namespace caseload
