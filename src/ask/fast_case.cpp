// SPDX-License-Identifier: MIT
#include "ask/fast_case.hpp"

#include "ask/fast_sides.hpp"
#include "caseload/ask/measured.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <memory>
#include <mutex>
#include <optional>

namespace caseload {
namespace {

void run_four(const FastTables& tables, std::array<SideRun, at_once>& sides) {
    FourSides(tables, sides).run();
}

#if CASELOAD_WIDE_VECTORS
/// The same with all it calls, for vectors of four numbers. No fused multiply-add: the same bits.
[[gnu::target("avx2"), gnu::flatten]] void run_four_wide(const FastTables& tables,
                                                         std::array<SideRun, at_once>& sides) {
    FourSides(tables, sides).run();
}
#endif

/// Those of one call that no group holds. One a thread (thread_local) would do, but a Windows
/// program frees it after the memory it lies in.
class FourStores {
public:
    std::unique_ptr<FourStore> take() {
        const std::lock_guard<std::mutex> lock(mutex_);
        if (free_.empty()) return std::make_unique<FourStore>();
        std::unique_ptr<FourStore> store = std::move(free_.back());
        free_.pop_back();
        return store;
    }
    void give_back(std::unique_ptr<FourStore> store) {
        const std::lock_guard<std::mutex> lock(mutex_);
        free_.push_back(std::move(store));
    }

private:
    std::mutex mutex_;
    std::vector<std::unique_ptr<FourStore>> free_;
};

}  // namespace

bool has_wide_vectors() {
#if CASELOAD_WIDE_VECTORS
    return __builtin_cpu_supports("avx2") != 0;
#else
    return false;
#endif
}

void FastCase::run_group(const Group& group, FourStore& store, DrawResult* results,
                         Vectors vectors) const {
    store.give_back_all();
    std::array<std::optional<DrawLegs>, at_once> draws;
    std::array<SideRun, at_once> sides;
    for (std::size_t k = 0; k < at_once; ++k) {
        // Where there are fewer, the first one's numbers fill up the four.
        const bool wanted = k < group.count;
        const AskedSide& side = group.sides[wanted ? k : 0];
        if (!wanted)
            sides[k].draw = sides[0].draw;
        else if (k > 0 && side.factors == group.sides[k - 1].factors)
            sides[k].draw = sides[k - 1].draw;
        else
            sides[k].draw = &draws[k].emplace(tables_, *side.factors, store);
        sides[k].cooler = side.cooler && tables_.setup.cooler.fit;
        if (!wanted) continue;
        sides[k].with_lives = side.lives && tables_.use == FastUse::everything;
        sides[k].trace = side.trace;
        sides[k].result = &results[k];
    }
#if CASELOAD_WIDE_VECTORS
    static const bool wide = has_wide_vectors();
    if (wide && vectors == Vectors::widest) {
        run_four_wide(tables_, sides);
        return;
    }
#else
    static_cast<void>(vectors);
#endif
    run_four(tables_, sides);
}

std::vector<DrawResult> FastCase::run(const std::vector<AskedSide>& asked, const ForEach& for_each,
                                      Vectors vectors) const {
    std::vector<DrawResult> results(asked.size());
    FourStores stores;
    for_each((asked.size() + at_once - 1) / at_once, [&](std::size_t group) {
        const std::size_t first = at_once * group;
        std::unique_ptr<FourStore> store = stores.take();
        run_group({&asked[first], std::min(at_once, asked.size() - first)}, *store, &results[first],
                  vectors);
        stores.give_back(std::move(store));
    });
    return results;
}

DrawResult FastCase::run(const Factors& factors, bool cooler, OilTrace* trace) const {
    return std::move(run({AskedSide{&factors, cooler, trace}}).front());
}

std::vector<DrawResult> FastCase::draws(bool cooler, const BandOptions& draws) const {
    const FactorDraws drawn(tables_.setup);
    const auto points = sobol_points(draws.draws);
    std::vector<Factors> factors;
    factors.reserve(points.size());
    for (const auto& point : points) factors.push_back(drawn(point));
    std::vector<AskedSide> asked;
    asked.reserve(factors.size());
    for (const Factors& one : factors) asked.push_back({&one, cooler});
    return run(asked, draws.for_each);
}

std::vector<double> FastCase::oil_peaks_degC(bool cooler, const BandOptions& draws) const {
    std::vector<double> peaks_degC;
    peaks_degC.reserve(draws.draws);
    for (const DrawResult& result : this->draws(cooler, draws))
        peaks_degC.push_back(result.peak_oil_degC);
    return peaks_degC;
}

}  // namespace caseload
