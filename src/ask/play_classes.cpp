// SPDX-License-Identifier: MIT
#include "ask/play_classes.hpp"

#include "caseload/figures.hpp"
#include "caseload/kinds.hpp"
#include "loads/running_play.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

// A life this many times as long is worth another order. Judgement.
constexpr double clearly = 1.3;

std::string mm_words(double play_mm) {
    return fmt::format("{:g} mm", std::round(1000 * play_mm) / 1000 + 0.0);
}

/// "with 0.064 mm (0.046 mm to 0.081 mm)", "preloaded by 0.012 mm (-0.029 mm to 0.006 mm)".
std::string play_hot(const PlayClass& one) {
    return fmt::format("{} {} ({} to {})", one.hot_mm < 0 ? "preloaded by" : "with",
                       mm_words(std::fabs(one.hot_mm)), mm_words(one.hot_least_mm),
                       mm_words(one.hot_largest_mm));
}

}  // namespace

std::optional<PlayClass> play_class(const Prepared& prepared, const Damage& damage,
                                    std::size_t bearing) {
    const BearingInput& input = prepared.setup->bearings[bearing];
    const BearingData& data = prepared.loads.bearings[bearing];
    if (!data.play_known) return std::nullopt;
    const auto cold = cold_play(*prepared.setup, input, data, prepared.ambient_degC);
    PlayClass one;
    one.clearance = input.clearance;
    one.hot_least_mm = data.running_play_least_mm;
    one.hot_mm = data.running_play_mm;
    one.hot_largest_mm = data.running_play_largest_mm;
    one.cold_mm = cold->at_mm(prepared.setup->factors.play);
    one.keeps_play = one.hot_least_mm >= 0 && one.cold_mm >= 0;
    one.life_share = damage.bearings[bearing].life_share;
    return one;
}

int compare_play(std::vector<PlayClass>& classes) {
    const auto now =
        std::find_if(classes.begin(), classes.end(), [](const PlayClass& one) { return one.now; });
    int best = -1;
    for (std::size_t i = 0; i < classes.size(); ++i) {
        PlayClass& one = classes[i];
        if (now != classes.end() && one.life_share > 0)
            one.times_life = now->life_share / one.life_share;
        if (!one.keeps_play) continue;
        const auto longest_share =
            best < 0 ? one.life_share : classes[static_cast<std::size_t>(best)].life_share;
        if (best < 0 || one.life_share < longest_share ||
            (one.now && one.life_share == longest_share))
            best = static_cast<int>(i);
    }
    return best;
}

std::string play_words(const BearingPosition& position, const BearingDamage& used) {
    const std::vector<PlayClass>& classes = position.play_classes;
    const auto now =
        std::find_if(classes.begin(), classes.end(), [](const PlayClass& one) { return one.now; });
    if (now == classes.end()) return {};
    const std::string runs =
        fmt::format("play: {} runs {}", words_for(now->clearance).key, play_hot(*now));
    if (position.best_play < 0)
        return now->hot_mm >= 0 ? std::string()
                                : runs +
                                      "; no class keeps play hot and cold with these fits on the "
                                      "shaft and in the seat";
    const PlayClass& best = classes[static_cast<std::size_t>(position.best_play)];
    // Preloaded it can seize in a hotter case than this one: named however long it lives.
    if (best.times_life < clearly)
        return now->hot_mm >= 0 ? std::string()
                                : fmt::format("{}; {} runs {} and keeps play hot and cold", runs,
                                              words_for(best.clearance).key, play_hot(best));
    return fmt::format(
        "{}, its {} carry over {:.0f} deg; {} would live {} times as long {} and keeps play hot "
        "and cold",
        runs, is_ball(position.choices.front().kind) ? "balls" : "rollers", used.zone_deg,
        words_for(best.clearance).key, figures(best.times_life, 2), play_hot(best));
}

}  // namespace caseload
