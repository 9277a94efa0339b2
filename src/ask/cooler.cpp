// SPDX-License-Identifier: MIT
// Long: one question, whose parts share the setup, its tables and the answer they fill.
#include "caseload/ask/cooler.hpp"

#include "ask/fast_case.hpp"
#include "caseload/heat_curves.hpp"
#include "caseload/units.hpp"
#include "heat/at_oil.hpp"
#include "heat/event_walk.hpp"
#include "heat/leg_drives.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <functional>
#include <map>
#include <utility>

namespace caseload {
namespace {

// Duct words and their share of road speed at the face, as tables/presets.toml has them: judgement.
constexpr double sealed_share = 0.20;
constexpr double open_share = 0.15;
// A single electric fan on such a core. Judgement; 3 to 6 m/s.
constexpr double usual_fan_mps = 4;
constexpr double step_mm = 10;
constexpr double smallest_mm = 60;  // of the longer side: below it a core is a fitting
// As good as none: oil of this capacity keeps its temperature.
constexpr double held_oil_JpK = 1e18;
constexpr double stop_step_s = 30;
constexpr double chart_from_degC = 15;
constexpr double chart_step_K = 5;
constexpr int chart_points = 8;

struct Kind {
    std::string construction;
    std::string duct;
    double fan_mps;
};

/// The setup with this core in that place.
Setup with_core_in(Setup setup, const CoreInput& core, const Kind& kind) {
    CoolerInput& cooler = setup.cooler;
    cooler.fit = true;
    cooler.width_mm = core.width_mm;
    cooler.height_mm = core.height_mm;
    cooler.depth_mm = core.depth_mm;
    cooler.rating_estimated = !core.rating;
    const double rated_air_degC = cooler.rating.rated_air_degC;
    const CoreEstimate estimate = estimated_core(core);
    cooler.rating = core.rating.value_or(estimate.at);
    cooler.conductance_WpK = core.rating ? 0 : estimate.conductance_WpK;
    cooler.rating.rated_air_degC = rated_air_degC;
    cooler.face_speed_share = kind.duct == "open" ? open_share : sealed_share;
    cooler.fan_face_speed_mps = kind.fan_mps;
    return setup;
}

class CoolerRun {
public:
    CoolerRun(const Document& document, const CoolerOptions& options)
        : options_(options), read_(document.complete()), setup_(read_.setup) {
        if (!setup_.lubrication.pump)
            throw Error(
                Error::Kind::input,
                {Problem{{},
                         "cooler: this case has no oil pump, and a core needs one",
                         "add lubrication.pump = { drive = \"electric\", flow = \"9 L/min\" "
                         "}"}});
        if (options.limit_degC) setup_.limits.oil_watch_degC = *options.limit_degC;
        setup_.limits.oil_stop_degC =
            std::max(setup_.limits.oil_stop_degC, setup_.limits.oil_watch_degC);
        answer_.limit_degC = setup_.limits.oil_watch_degC;
        if (options.core_mm) refuse_outside_box(*options.core_mm);
        fast_.emplace(setup_, FastUse::drawn_temperatures);
    }

    CoolerAnswer run() {
        std::vector<Piece> pieces;
        if (setup_.cooler.fit) pieces.emplace_back([this] { answer_.fitted = fitted(); });
        pieces.emplace_back([this] { without(); });
        pieces.emplace_back([this] { needs(); });
        own_cores(pieces);
        calculate(pieces);
        pieces.clear();
        const bool needed = answer_.without_holds_share < holding_share;
        if (needed) find(pieces);
        chart(pieces);
        calculate(pieces);
        if (needed) sort_found();
        pick();
        return std::move(answer_);
    }

private:
    /// One part of the work; parts may be shared by threads, each writes its own place.
    using Piece = std::function<void()>;

    void calculate(const std::vector<Piece>& pieces) const {
        options_.band.for_each(pieces.size(), [&](std::size_t i) { pieces[i](); });
    }

    void own_cores(std::vector<Piece>& pieces) {
        std::vector<std::pair<std::string, CoreInput>> cores(setup_.cores.begin(),
                                                             setup_.cores.end());
        if (options_.core_mm)
            cores.emplace_back("asked", CoreInput{.width_mm = (*options_.core_mm)[0],
                                                  .height_mm = (*options_.core_mm)[1],
                                                  .depth_mm = (*options_.core_mm)[2],
                                                  .construction = "plate-fin",
                                                  .rating = std::nullopt});
        answer_.own.resize(cores.size());
        for (std::size_t i = 0; i < cores.size(); ++i)
            pieces.emplace_back(
                [this, i, core = cores[i]] { answer_.own[i] = own(core.first, core.second); });
    }

    void refuse_outside_box(std::array<double, 3> core) const {
        std::array<double, 3> box = options_.box_mm;
        if (core[0] <= box[0] && core[1] <= box[1] && core[2] <= box[2]) return;
        refuse_input(fmt::format("--core {:g}x{:g}x{:g} mm does not go into the box of "
                                 "{:g}x{:g}x{:g} mm",
                                 core[0], core[1], core[2], box[0], box[1], box[2]),
                     fmt::format("the largest that would is {:g}x{:g}x{:g} mm; --box gives "
                                 "another box",
                                 std::min(core[0], box[0]), std::min(core[1], box[1]),
                                 std::min(core[2], box[2])));
    }

    [[nodiscard]] Setup with(const CoreInput& core, const Kind& kind) const {
        return with_core_in(setup_, core, kind);
    }

    void without() {
        const OilBand sure = oil_band(*fast_, false);
        answer_.without_degC = sure.peak_degC;
        answer_.without_holds_share = sure.holds_share;
    }

    struct OilBand {
        Percentiles peak_degC;
        double holds_share;
    };
    /// The event's oil peak over the draws of the band.
    [[nodiscard]] OilBand oil_band(const FastCase& fast, bool cooler) const {
        std::vector<double> peaks_degC =
            fast.oil_peaks_degC(cooler, {.draws = options_.band.draws});
        const auto hold = std::count_if(peaks_degC.begin(), peaks_degC.end(), [this](double degC) {
            return degC <= setup_.limits.oil_watch_degC;
        });
        const double share = static_cast<double>(hold) / static_cast<double>(peaks_degC.size());
        return {percentiles(std::move(peaks_degC)), share};
    }

    /// Heat left over with the oil at the limit: made less given off by the case.
    void needs() {
        answer_.needs.clear();
        Setup bare = setup_;
        bare.cooler.fit = false;
        const Prepared prepared = prepare(bare);
        for (std::size_t leg = 0; leg < bare.event.legs.size(); ++leg) {
            const auto& run = bare.event.run;
            if (bare.event.legs[leg].kind != LegKind::drive ||
                std::find(run.begin(), run.end(), static_cast<int>(leg)) == run.end())
                continue;
            CoolingNeed need{bare.event.legs[leg].name, false, 0, 0};
            need.to_carry_W = net_into_oil_W(prepared, leg, answer_.limit_degC);
            add_need(prepared, need);
        }
        stop_needs(prepared);
        std::stable_sort(
            answer_.needs.begin(), answer_.needs.end(),
            [](const CoolingNeed& a, const CoolingNeed& b) { return a.to_carry_W > b.to_carry_W; });
    }

    void add_need(const Prepared& prepared, CoolingNeed need) {
        if (need.to_carry_W > 0 && answer_.limit_degC > prepared.cooler_air_degC)
            need.per_inlet_kelvin = per_inlet_kelvin_WpK({.made_W = need.to_carry_W,
                                                          .case_W = 0,
                                                          .limit_degC = answer_.limit_degC,
                                                          .air_degC = prepared.cooler_air_degC});
        answer_.needs.push_back(std::move(need));
    }

    /// What flows into oil at the limit in a stop: most of it from the steel and the housing,
    /// as settled in the leg driven before it with the oil at the limit, and from the exhaust.
    void stop_needs(const Prepared& prepared) {
        const Setup& setup = *prepared.setup;
        CaseCurves curves(prepared);
        Nodes nodes{answer_.limit_degC, prepared.start_degC, prepared.start_degC};
        double exhaust_W = 0;
        double stopped_s = 0;
        std::map<std::size_t, double> most_W;
        for (const int run : setup.event.run) {
            const auto leg = static_cast<std::size_t>(run);
            const LegInput& input = setup.event.legs[leg];
            if (input.kind == LegKind::drive) {
                nodes = held_at_oil(prepared, leg, answer_.limit_degC);
                exhaust_W = exhaust_driving_W(prepared, leg);
                stopped_s = 0;
                continue;
            }
            const LegCurves& made = curves.at(leg, in_leg(setup, input, {}, {true, true}));
            const ExhaustNow exhaust{exhaust_W, exhaust_kept(input), 0};
            const NeighbourNow neighbour{prepared.neighbour_degC, prepared.ambient_degC,
                                         neighbour_keeps_s};
            LegDrives by_curves(prepared, made);
            const Conductances paths = in_stop(prepared);
            const auto drives = [&](double t_s, const Nodes& at) {
                return by_curves.at({at, {exhaust.at_W(t_s), neighbour.at_degC(t_s)}, paths});
            };
            double most = net_heat(nodes, drives(stopped_s, nodes)).oil_W;
            Capacities held = prepared.capacities;
            held.oil_JpK = held_oil_JpK;
            const double end_s = stopped_s + input.duration_s;
            integrate(held, nodes, {stopped_s, end_s, stop_step_s}, drives,
                      [&](double t_s, const Nodes& at) {
                          most = std::max(most, net_heat(at, drives(t_s, at)).oil_W);
                      },
                      {});
            stopped_s = end_s;
            const auto [found, first] = most_W.emplace(leg, most);
            if (!first) found->second = std::max(found->second, most);
        }
        for (const auto& [leg, in_W] : most_W)
            add_need(prepared, {setup.event.legs[leg].name, true, in_W, 0});
    }

    /// The core of the setup as it is fitted: its rating, duct and fan.
    [[nodiscard]] CoreResult fitted() const {
        const CoolerInput& cooler = setup_.cooler;
        CoreResult result;
        result.width_mm = cooler.width_mm;
        result.height_mm = cooler.height_mm;
        result.depth_mm = cooler.depth_mm;
        for (const Entry& entry : read_.entries) {
            if (entry.key == "cooler.construction") result.construction = entry.number;
            if (entry.key == "cooler.duct") result.duct = entry.number;
            // An entered share of road speed replaces that of the word.
            if (entry.key == "cooler.face_speed_share" && entry.origin != Origin::preset)
                result.duct.clear();
        }
        result.fan_face_speed_mps = cooler.fan_face_speed_mps;
        result.estimated = cooler.rating_estimated;
        add_band(oil_band(*fast_, true), result);
        add_flows(setup_, result);
        return result;
    }

    static void add_band(const OilBand& sure, CoreResult& result) {
        result.oil_degC = sure.peak_degC;
        result.holds_share = sure.holds_share;
        result.holds = result.holds_share >= holding_share;
    }

    [[nodiscard]] CoreResult judged(const CoreInput& core, const Kind& kind) const {
        CoreResult result;
        result.width_mm = core.width_mm;
        result.height_mm = core.height_mm;
        result.depth_mm = core.depth_mm;
        result.construction = core.construction;
        result.duct = kind.duct;
        result.fan_face_speed_mps = kind.fan_mps;
        result.estimated = !core.rating;
        add_band(oil_band(fast_->with_core(with(core, kind).cooler), true), result);
        return result;
    }

    /// What flows through the core in the hottest leg, likely values.
    static void add_flows(const Setup& setup, CoreResult& result) {
        const Prepared prepared = prepare(setup);
        const Assessment likely = assess(setup);
        const LegAnswer* const hottest = hottest_leg(setup, likely.fitted);
        if (hottest == nullptr) return;
        const double oil_degC = std::min(hottest->at_rest.nodes.oil_degC, oil_ceiling_degC);
        const double pump_Lpmin = pump_flow_Lpmin(
            setup, likely.loads.legs[static_cast<std::size_t>(hottest->leg)].mean_speed_rpm);
        result.oil_flow_Lpmin = core_flow_Lpmin(prepared, {pump_Lpmin, oil_degC});
        result.oil_pressure_drop_Pa = core_oil_drop_Pa(prepared, {result.oil_flow_Lpmin, oil_degC});
        if (result.oil_flow_Lpmin > 0)
            result.oil_drop_K =
                hottest->at_rest.cooler_W / (oil_density_kgpm3(prepared.oil, oil_degC) *
                                             m3ps_from_Lpmin(result.oil_flow_Lpmin) *
                                             oil_specific_heat_JpkgK(prepared.oil, oil_degC));
        if (pump_Lpmin > 0)
            result.cold_flow_share =
                core_flow_Lpmin(prepared, {pump_Lpmin, prepared.start_degC}) / pump_Lpmin;
    }

    [[nodiscard]] CoreResult own(const std::string& name, const CoreInput& core) const {
        const Kind kind{"", "sealed", setup_.cooler.fan_face_speed_mps};
        CoreResult result = judged(core, kind);
        add_flows(with(core, kind), result);
        result.name = name;
        result.construction = core.construction;
        const auto& box = options_.box_mm;
        if (core.width_mm > box[0] || core.height_mm > box[1] || core.depth_mm > box[2])
            result.remark =
                fmt::format("larger than the box of {:g}x{:g}x{:g} mm", box[0], box[1], box[2]);
        return result;
    }

    /// A core of the box's proportions with this longer side, in whole centimetres.
    [[nodiscard]] CoreInput core_of(double side_mm, const std::string& construction) const {
        const auto& box = options_.box_mm;
        const double longer = std::max(box[0], box[1]);
        const auto part = [&](double mm) {
            return std::min(mm, step_mm * std::ceil(mm * side_mm / longer / step_mm - 1e-9));
        };
        return {.width_mm = part(box[0]),
                .height_mm = part(box[1]),
                .depth_mm = box[2],
                .construction = construction,
                .rating = std::nullopt};
    }

    void find(std::vector<Piece>& pieces) {
        const bool stops =
            std::any_of(setup_.event.legs.begin(), setup_.event.legs.end(),
                        [](const LegInput& leg) { return leg.kind == LegKind::stop; });
        std::vector<Kind> kinds{{"plate-fin", "sealed", 0}, {"plate-fin", "open", 0}};
        if (stops) kinds.push_back({"plate-fin", "sealed", usual_fan_mps});
        kinds.push_back({"tube-fin", "sealed", 0});
        answer_.found.resize(kinds.size());
        for (std::size_t i = 0; i < kinds.size(); ++i)
            pieces.emplace_back([this, i, kind = kinds[i]] { answer_.found[i] = smallest(kind); });
    }

    void sort_found() {
        std::stable_sort(answer_.found.begin(), answer_.found.end(),
                         [](const CoreResult& a, const CoreResult& b) {
                             if (a.holds != b.holds) return a.holds;
                             if (!a.holds) return a.holds_share > b.holds_share;
                             return a.width_mm * a.height_mm < b.width_mm * b.height_mm;
                         });
    }

    /// Bisection over whole centimetres: more face never makes the oil hotter.
    [[nodiscard]] CoreResult smallest(const Kind& kind) const {
        const double longest = std::max(options_.box_mm[0], options_.box_mm[1]);
        const auto core = [&](int steps) {
            return core_of(std::min(longest, step_mm * steps), kind.construction);
        };
        const auto at = [&](int steps) { return judged(core(steps), kind); };
        int high = static_cast<int>(std::ceil(longest / step_mm - 1e-9));
        int low = static_cast<int>(smallest_mm / step_mm);
        CoreResult best = at(high);
        if (!best.holds) {
            best.remark = "does not hold even as large as the box";
            low = high;
        }
        while (high - low > 1) {
            const int middle = (low + high) / 2;
            CoreResult tried = at(middle);
            if (tried.holds) {
                high = middle;
                best = std::move(tried);
            } else {
                low = middle;
            }
        }
        add_flows(with(core(high), kind), best);
        return best;
    }

    void pick() {
        for (std::size_t i = 0; i < answer_.found.size() && answer_.pick < 0; ++i)
            if (answer_.found[i].holds) answer_.pick = static_cast<int>(i);
        double least_mm2 = 0;
        for (std::size_t i = 0; i < answer_.own.size(); ++i) {
            const CoreResult& core = answer_.own[i];
            const double face_mm2 = core.width_mm * core.height_mm;
            if (!core.holds || !core.remark.empty()) continue;
            if (answer_.own_pick >= 0 && face_mm2 >= least_mm2) continue;
            answer_.own_pick = static_cast<int>(i);
            least_mm2 = face_mm2;
        }
    }

    void chart(std::vector<Piece>& pieces) {
        answer_.chart.resize(chart_points);
        for (int i = 0; i < chart_points; ++i)
            pieces.emplace_back([this, i] {
                answer_.chart[static_cast<std::size_t>(i)] =
                    area_at(chart_from_degC + chart_step_K * i);
            });
    }

    /// Likely values only: face at which the hottest leg settles at the limit, by bracketed solve.
    [[nodiscard]] AreaAtAmbient area_at(double ambient_degC) const {
        AreaAtAmbient point{ambient_degC, 0, true};
        Setup bare = setup_;
        bare.cooler.fit = false;
        bare.event.ambient_degC = ambient_degC;
        if (hottest_rest_degC(bare) <= answer_.limit_degC) return point;
        const double longest = std::max(options_.box_mm[0], options_.box_mm[1]);
        const auto over_K = [&](double side_mm) {
            CoreInput core = core_of(side_mm, "plate-fin");
            const double scale = side_mm / longest;
            core.width_mm = options_.box_mm[0] * scale;
            core.height_mm = options_.box_mm[1] * scale;
            Setup setup = with(core, {"plate-fin", "sealed", 0});
            setup.event.ambient_degC = ambient_degC;
            return hottest_rest_degC(setup) - answer_.limit_degC;
        };
        if (over_K(longest) > 0) {
            point.found = false;
            return point;
        }
        const double least = 1;  // mm: a core that carries next to nothing
        std::uintmax_t iterations = 60;
        const auto close = [](double a, double b) { return b - a < 0.1; };
        const auto [low, high] =
            boost::math::tools::toms748_solve(over_K, least, longest, close, iterations);
        const double scale = high / longest;
        point.face_area_m2 =
            m_from_mm(options_.box_mm[0]) * m_from_mm(options_.box_mm[1]) * scale * scale;
        return point;
    }

    static double hottest_rest_degC(const Setup& setup) {
        const Prepared prepared = prepare(setup);
        CaseCurves curves(prepared);
        double hottest_degC = -oil_ceiling_degC;
        for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg) {
            if (setup.event.legs[leg].kind != LegKind::drive) continue;
            const Steady rest = steady(curves, leg, {});
            // Without a balance the shortfall keeps the solve's function falling with more face.
            hottest_degC =
                std::max(hottest_degC,
                         rest.found ? rest.nodes.oil_degC : oil_ceiling_degC + rest.short_by_WpK);
        }
        return hottest_degC;
    }

    const CoolerOptions& options_;
    ReadSetup read_;
    Setup setup_;
    std::optional<FastCase> fast_;  ///< what the draws have in common for all cores
    CoolerAnswer answer_;
};

}  // namespace

double per_inlet_kelvin_WpK(const AtLimit& at) {
    require_positive(at.limit_degC - at.air_degC, "limit_over_air_K");
    return (at.made_W - at.case_W) / (at.limit_degC - at.air_degC);
}

Setup with_found_core(const Setup& setup, const CoreResult& found) {
    return with_core_in(setup,
                        {.width_mm = found.width_mm,
                         .height_mm = found.height_mm,
                         .depth_mm = found.depth_mm,
                         .construction = found.construction,
                         .rating = std::nullopt},
                        {found.construction, found.duct, found.fan_face_speed_mps});
}

CoolerAnswer size_cooler(const Document& document, const CoolerOptions& options) {
    return CoolerRun(document, options).run();
}

}  // namespace caseload
