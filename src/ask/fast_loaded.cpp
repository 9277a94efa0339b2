// SPDX-License-Identifier: MIT
#include "ask/fast_loaded.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace caseload {
namespace {

/// Film temperatures of a bearing while what is around it gets warmer step by step: near where the
/// last three lead.
class FilmsOnTheWay {
public:
    BearingRun at(const Oil& oil, const PreparedLosses::BearingTerm& term, double unheated_degC) {
        const double rise_K = known_ == 0   ? 0
                              : known_ == 1 ? last_K_[0]
                              : known_ == 2 ? 2 * last_K_[0] - last_K_[1]
                                            : 3 * (last_K_[0] - last_K_[1]) + last_K_[2];
        const BearingRun run = run_bearing_near(oil, term, unheated_degC, unheated_degC + rise_K);
        last_K_ = {run.film_degC - unheated_degC, last_K_[0], last_K_[1]};
        ++known_;
        return run;
    }

private:
    std::array<double, 3> last_K_{};
    int known_ = 0;
};

std::size_t films_of(const PreparedLosses& leg) {
    std::size_t films = 0;
    for (const PreparedLosses::BinTerm& bin : leg.bins) films += bin.bearings.size();
    return films;
}

}  // namespace

Basis loaded_basis(const Prepared& prepared) {
    Basis basis = film_basis(prepared);
    Loads& loads = basis.prepared.loads;
    loads.bearings = prepared.loads.bearings;
    for (BearingData& bearing : loads.bearings) bearing.name.clear();
    for (std::size_t leg = 0; leg < prepared.loads.legs.size(); ++leg) {
        LegLoads& of_leg = loads.legs.emplace_back();
        for (const BinLoads& bin : prepared.loads.legs[leg].bins)
            of_leg.bins.push_back({bin.bin, {}, {}, bin.for_life});
        PreparedLosses& terms = basis.prepared.losses.emplace_back();
        for (const PreparedLosses::BinTerm& bin : prepared.losses[leg].bins)
            terms.bins.push_back({bin.share, bin.bearings, {}, {}});
    }
    return basis;
}

bool LoadedTables::Inputs::operator==(const Inputs& other) const {
    return lives == other.lives && loaded == other.loaded && nodes.load == other.nodes.load &&
           nodes.friction == other.nodes.friction && grids.coarse == other.grids.coarse &&
           nominal == other.nominal && at_load == other.at_load && others == other.others;
}

std::vector<double> LoadedTables::Inputs::frictions(std::size_t piece) const {
    if (piece >= FastNodes::loads) return {0};
    std::vector<double> all;
    for (std::size_t f = 0; f < FastNodes::frictions; ++f) all.push_back(nodes.friction[f]);
    return all;
}

LoadedTables::LoadedTables(Inputs inputs)
    : inputs_(std::move(inputs)), legs_ln_W_(inputs_.loaded.size()), films_degC_(inputs_.pieces()) {
    for (std::size_t leg = 0; leg < legs_ln_W_.size(); ++leg) {
        if (!inputs_.loaded[leg]) continue;
        legs_ln_W_[leg].assign(inputs_.at_load.front().prepared.loads.bearings.size(),
                               LoadedTable(inputs_.grids.coarse.y.size()));
    }
}

const double* LoadedTables::films_degC(const Place& place) const {
    const std::size_t films = films_of(inputs_.of_piece(place.piece).prepared.losses[place.leg]);
    return films_degC_[place.piece][place.leg][place.friction].data() + place.damage_point * films;
}

void LoadedTables::make(std::size_t piece) {
    constexpr double least_W = 1e-9;  // in place of 0 under a logarithm
    const Prepared& prepared = inputs_.of_piece(piece).prepared;
    const std::vector<double> frictions = inputs_.frictions(piece);
    const Grid& coarse = inputs_.grids.coarse;
    films_degC_[piece].assign(legs_ln_W_.size(), {});
    for (std::size_t leg = 0; leg < legs_ln_W_.size(); ++leg) {
        if (!inputs_.loaded[leg]) continue;
        const std::size_t films = films_of(prepared.losses[leg]);
        for (std::size_t f = 0; f < frictions.size(); ++f) {
            PreparedLosses losses = prepared.losses[leg];
            for (auto& bin : losses.bins)
                for (auto& term : bin.bearings) term.friction = std::exp(frictions[f]);
            Row& kept_degC = films_degC_[piece][leg][f];
            if (inputs_.lives) kept_degC.reserve(films * coarse.y.size());
            std::vector<FilmsOnTheWay> on_the_way(films);
            const std::size_t node = inputs_.node(piece, f);
            std::vector<double> sum_W(legs_ln_W_[leg].size());
            for (std::size_t i = 0; i < coarse.y.size(); ++i) {
                std::fill(sum_W.begin(), sum_W.end(), 0.0);
                auto film = on_the_way.begin();
                for (const PreparedLosses::BinTerm& bin : losses.bins)
                    for (std::size_t b = 0; b < bin.bearings.size(); ++b) {
                        const BearingRun run =
                            film++->at(prepared.oil, bin.bearings[b], coarse.x(i));
                        sum_W[b] += bin.share * run.loss_W / bin.bearings[b].friction;
                        if (inputs_.lives) kept_degC.push_back(run.film_degC);
                    }
                for (std::size_t b = 0; b < sum_W.size(); ++b)
                    legs_ln_W_[leg][b].at(node, i) = std::log(std::max(sum_W[b], least_W));
            }
        }
    }
}

}  // namespace caseload
