// SPDX-License-Identifier: MIT
// Verdicts just inside and just beyond every limit. Long: most of it is that list.
#include "caseload/checks.hpp"

#include "caseload/formulas/element_stiffness.hpp"
#include "caseload/formulas/load_zone.hpp"
#include "caseload/input.hpp"
#include "caseload/units.hpp"
#include "checks/parts.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <set>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace caseload::checks_tests {

namespace {

constexpr double beyond_all = 1e12;

std::string name_of(const Check& check) {
    return std::string(words_for(check.id).key);
}

CheckId id_of(const std::string& name) {
    for (const auto& row : kind_rows<CheckId>)
        if (row.key == name) return row.kind;
    throw std::out_of_range("no check " + name);
}

/// Everything the checks look at, to be changed by hand.
struct Looked {
    Setup setup;
    Prepared prepared;
    EventHeat heat;
    Damage damage;
    Checked found;

    Looked()
        : setup(Document(new_setup_text(), "ten.toml", {})
                    .complete(std::vector<Change>{{"vehicle.prop_shaft.length", "\"1.5 m\""},
                                                  {"vehicle.prop_shaft.outside", "\"76 mm\""},
                                                  {"vehicle.prop_shaft.wall", "\"2 mm\""}})
                    .setup),
          prepared(prepare(setup)) {
        setup.event.run = {0};
        heat.samples = {{0, 0, {60, 60, 60}}, {3600, 0, {60, 60, 60}}};
        heat.peak_oil_degC = heat.peak_housing_degC = 60;
        damage = event_damage(prepared, heat);
        found = check_case(prepared, heat, damage);
        SeatResult seat;
        seat.bearing = "output_rear";
        seat.cold.pressure_MPa = 10;
        found.seats = {seat};
    }
    Looked(const Looked&) = delete;
    Looked& operator=(const Looked&) = delete;

    [[nodiscard]] std::vector<Check> checks() const {
        std::vector<Check> all;
        check_teeth(prepared, found, all);
        check_bearings(prepared, damage, all);
        check_seats(found, all);
        check_splines(found, all);
        check_pairs(found, all);
        check_seals(prepared, heat, all);
        check_prop_shaft(prepared, all);
        return all;
    }
    [[nodiscard]] Check check(const std::string& id) const {
        const std::vector<Check> all = checks();
        const auto at = std::find_if(all.begin(), all.end(),
                                     [&](const Check& one) { return name_of(one) == id; });
        REQUIRE(at != all.end());
        return *at;
    }
};

/// A limit, and how the value it is for is given.
struct Row {
    std::string id;
    bool at_least;
    std::vector<std::pair<std::string, double>> classes;  // the mildest first
    std::function<void(Looked&, double)> put;
    double largest_printed = beyond_all;
};

void put_gear(Looked& in, const std::function<void(GearDamage&)>& change) {
    GearDamage gear;
    gear.shaft = "input";
    gear.calculated = true;
    change(gear);
    in.found.gears = {gear};
}

/// The first bearing as one of another kind.
void put_kind(Looked& in, BearingKind kind) {
    using K = BearingKind;
    BearingData& data = in.prepared.loads.bearings.front();
    data.kind = kind;
    data.f_0 = 14;
    data.contact_angle_deg = kind == K::angular_contact_ball ? 25
                             : kind == K::four_point_ball    ? 35
                             : kind == K::tapered_roller     ? 15
                             : kind == K::spherical_roller   ? 10
                                                             : 0;
}

/// Share of the time in which the first bearing carries a little less than this load, a little more
/// in the rest. It stands for hours besides, which is no time without load.
void put_idle(Looked& in, double load_N, double share) {
    auto& bins = in.prepared.loads.legs.front().bins;
    BinLoads bin = bins.front();
    bin.bin.speed_rpm = 1000;
    const auto with = [&](double F_r_N, double of_time, double speed_rpm) {
        BinLoads one = bin;
        one.nominal.front() = {};
        one.nominal.front().F_r_N = F_r_N;
        one.bin.share = of_time;
        one.bin.speed_rpm = speed_rpm;
        return one;
    };
    bins = {with(0.999 * load_N, share, 1000), with(1.001 * load_N, 1 - share, 1000),
            with(0, 5, 0)};
}

/// The first bearing as one with this play and load.
void put_play(Looked& in, BearingKind kind, const load_zone::Played& played) {
    put_kind(in, kind);
    BearingData& data = in.prepared.loads.bearings.front();
    data.play_known = true;
    data.running_play_mm = played.play_mm;
    data.element_stiffness_N = played.stiffness_N;
    data.elements = played.Z;
    for (BinLoads& bin : in.prepared.loads.legs.front().bins)
        bin.nominal.front().F_r_N = played.F_r_N;
}

/// Play at which the zone has eps 2.5, by the definition of both numbers; `of.play_mm` is not read.
double fullest_zone_mm(BearingKind kind, const load_zone::Played& of) {
    const auto contact = element_stiffness::contact_of(kind);
    const double n = is_ball(kind) ? 3.0 / 2 : 10.0 / 9;
    return (1 - 2 * 2.5) / 2.5 /
           std::pow(load_zone::means(contact, 2.5).load * of.Z * of.stiffness_N / of.F_r_N, 1 / n);
}

void put_seals(Looked& in, SealMaterial material, bool ep_additive, const Nodes& at) {
    in.setup.seals.front().material = material;
    in.setup.oil.ep_additive = ep_additive;
    in.prepared.start_degC = -40;
    in.heat.samples = {{0, 0, {-40, -40, -40}}, {60, 0, at}, {120, 0, {-40, -40, -40}}};
}

/// docs/method.md, chapter 6, with the sources named there.
std::vector<Row> rows() {
    std::vector<Row> all{
        // Common practice.
        {"gears.contact_ratio",
         true,
         {{"shown", 1.1}, {"stop", 1.0}},
         [](Looked& in, double x) { in.prepared.loads.train.meshes.front().pair.eps_alpha = x; }},
        // A whole life: ISO 6336-6, its sum of damage 1.
        {"gear.flank",
         false,
         {{"stop", 1.0}},
         [](Looked& in, double x) {
             put_gear(in, [x](GearDamage& gear) { gear.drive.flank_share = x; });
         }},
        {"gear.root",
         false,
         {{"stop", 1.0}},
         [](Looked& in, double x) {
             put_gear(in, [x](GearDamage& gear) { gear.coast.root_share = x; });
         }},
        {"gear.peak_root",
         false,
         {{"stop", 1.0}},
         [](Looked& in, double x) {
             put_gear(in, [x](GearDamage& gear) { gear.peak_root_share = x; });
         }},
        {"gear.peak_flank",
         false,
         {{"look", 1.0}},
         [](Looked& in, double x) {
             put_gear(in, [x](GearDamage& gear) { gear.peak_flank_share = x; });
         }},
        {"spline.peak",
         false,
         {{"stop", 1.0}},
         [](Looked& in, double x) {
             in.found.splines = {{.name = "hub", .shaft = "input", .peak_share = x}};
         }},
        {"spline.wear",
         false,
         {{"look", 0.2}, {"watch", 1.0}},
         [](Looked& in, double x) {
             in.found.splines = {{.name = "hub", .shaft = "input", .wear_share = x}};
         }},
        // Judgement.
        {"pair.gain",
         false,
         {{"look", 0.5}, {"watch", 0.8}, {"stop", 1.0}},
         [](Looked& in, double x) {
             PairState pair;
             pair.shaft = "idler";
             pair.preload_N = 1000;
             pair.loop_gain = x;
             in.found.pairs = {pair};
         }},
        // Common in gear books, from memory.
        {"gears.scuffing",
         true,
         {{"watch", 2.0}, {"stop", 1.5}},
         [](Looked& in, double x) { in.found.flanks.S_B = x; }},
        // Judgement.
        {"gears.film",
         true,
         {{"shown", 0.4}, {"look", 0.2}},
         [](Looked& in, double x) {
             in.setup.gears.ground = true;
             in.found.flanks.film_ratio = x;
         }},
        {"gears.film",
         true,
         {{"shown", 0.7}, {"look", 0.35}},
         [](Looked& in, double x) {
             in.setup.gears.ground = false;
             in.found.flanks.film_ratio = x;
         }},
        // Preloaded, and so that its load zone reaches eps 2.5: judgement.
        {"seat.play",
         true,
         {{"watch", 0.0},
          {"stop", fullest_zone_mm(BearingKind::deep_groove_ball, {0, 378e3, 5000, 13})}},
         [](Looked& in, double x) {
             put_play(in, BearingKind::deep_groove_ball, {x, 378e3, 5000, 13});
         }},
        {"seat.play",
         true,
         {{"watch", 0.0},
          {"stop", fullest_zone_mm(BearingKind::cylindrical_roller, {0, 344700, 1000, 20})}},
         [](Looked& in, double x) {
             put_play(in, BearingKind::cylindrical_roller, {x, 344700, 1000, 20});
         }},
        // The life at which 10 % fail.
        {"bearing.life",
         false,
         {{"watch", 0.3}, {"stop", 1.0}},
         [](Looked& in, double x) { in.damage.bearings.front().life_share = x; }},
        // ISO 281:2007, 5.3 and 6.4.
        {"bearing.rating_share",
         false,
         {{"look", 0.5}},
         [](Looked& in, double x) {
             in.damage.bearings.front().P_largest_N = x * in.prepared.loads.bearings.front().C_N;
         }},
        // 30 K above the 120 degC of rings without a mark: judgement.
        {"bearing.ring",
         false,
         {{"watch", 150.0}},
         [](Looked& in, double x) { in.damage.bearings.front().worst_film_degC = x; },
         160},
        // From memory, EP oil.
        {"bearing.cage",
         false,
         {{"watch", 110.0}},
         [](Looked& in, double x) {
             in.setup.bearings.front().cage = CageMaterial::polyamide;
             in.damage.bearings.front().worst_film_degC = x;
         },
         160},
        // Common practice. The critical speed of a steel tube between joints, its ends 0.9.
        {"prop_shaft.whirl",
         false,
         {{"watch", 0.70}, {"stop", 0.90}},
         [](Looked& in, double x) {
             const double critical_rpm = 0.9 * 30 * pi / (1.5 * 1.5) * std::sqrt(206e9 / 7850) *
                                         std::hypot(0.076, 0.072) / 4;
             for (LegLoads& leg : in.prepared.loads.legs)
                 for (BinLoads& bin : leg.bins) bin.shaft_speed_rpm.back() = 0;
             in.prepared.loads.legs.front().bins.front().shaft_speed_rpm.back() = x * critical_rpm;
         }},
    };
    struct OfKind {
        BearingKind kind;
        double C_0_over_P_0;  ///< ISO 76, shock
        double least_P_over_C;
        double speed_mmrpm;  ///< oil bath, textbook guides from memory
    };
    using K = BearingKind;
    for (const OfKind& of : {OfKind{K::deep_groove_ball, 1.5, 0.01, 650e3},
                             {K::angular_contact_ball, 1.5, 0.01, 600e3},
                             {K::four_point_ball, 1.5, 0.01, 500e3},
                             {K::cylindrical_roller, 3, 0.02, 600e3},
                             {K::tapered_roller, 3, 0.02, 400e3},
                             {K::spherical_roller, 3, 0.02, 350e3}}) {
        all.push_back({"bearing.dent",
                       true,
                       {{"look", of.C_0_over_P_0}, {"stop", 1.0}},
                       [of](Looked& in, double x) {
                           put_kind(in, of.kind);
                           const double now = in.check("bearing.dent").value;
                           in.prepared.loads.bearings.front().C_0_N *= x / now;
                       }});
        for (const bool jet : {false, true})
            all.push_back(
                {"bearing.speed",
                 false,
                 {{"look", (jet ? 1.5 : 1) * of.speed_mmrpm}},
                 [of, jet](Looked& in, double x) {
                     put_kind(in, of.kind);
                     in.setup.bearings.front().oil = jet ? OilSupply::jet : OilSupply::splash;
                     BearingData& data = in.prepared.loads.bearings.front();
                     data.d_m_mm =
                         x /
                         passed_speed(in.prepared, static_cast<std::size_t>(data.shaft), 0.05).rpm;
                 }});
        all.push_back({"bearing.least_load", false, {{"look", 0.6}}, [of](Looked& in, double x) {
                           put_kind(in, of.kind);
                           put_idle(in, of.least_P_over_C * in.prepared.loads.bearings.front().C_N,
                                    x);
                       }});
    }
    struct OfMaterial {
        SealMaterial material;
        bool ep_additive;
        double sump_degC;  ///< watched from 10 K above it on: judgement
        double lip_degC;
    };
    using M = SealMaterial;
    // DIN 3760 and ISO 6194-1 tables, from memory; lips by a general elastomer guide.
    for (const OfMaterial& of : {OfMaterial{M::NBR, true, 90, 140},
                                 {M::NBR, false, 100, 140},
                                 {M::HNBR, true, 120, 170},
                                 {M::HNBR, false, 120, 170},
                                 {M::ACM, true, 120, 175},
                                 {M::ACM, false, 130, 175},
                                 {M::FKM, true, 150, 230},
                                 {M::VMQ, false, 130, 230},
                                 {M::PTFE, true, 180, 260}}) {
        all.push_back({"seal.sump",
                       false,
                       {{"look", of.sump_degC}, {"watch", of.sump_degC + 10}},
                       [of](Looked& in, double x) {
                           put_seals(in, of.material, of.ep_additive, {x, x - 5, -40});
                       },
                       160});
        // As hot as the hotter of oil and case, and 30 K more while it turns.
        all.push_back({"seal.lip",
                       false,
                       {{"watch", of.lip_degC}},
                       [of](Looked& in, double x) {
                           put_seals(in, of.material, of.ep_additive, {x - 35, x - 30, 500});
                       },
                       190});
    }
    return all;
}

/// A little into what is not accepted.
double past(const Row& row, double limit, double by) {
    const double step = by * std::max(1.0, std::fabs(limit));
    return row.at_least ? limit - step : limit + step;
}

void require_at(const Row& row, double x, const std::string& verdict, double limit) {
    Looked in;
    row.put(in, x);
    const Check check = in.check(row.id);
    CAPTURE(row.id);
    CAPTURE(x);
    CHECK(check.verdict == verdict);
    CHECK(
        within(check.value, std::min(x, row.largest_printed), 1e-10 * std::max(1.0, std::fabs(x))));
    CHECK(check.consequence.empty() == (verdict == "fine" || verdict == "shown"));
    CHECK(check.at_least == row.at_least);
    CHECK(within(check.limit, limit, 1e-12 * std::fabs(limit)));
}

}  // namespace

TEST_CASE("checks: verdicts just inside and just beyond each limit of docs/method.md") {
    constexpr double hair = 1e-9;
    for (const Row& row : rows()) {
        std::string before = "fine";
        double limit_before = row.classes.front().second;
        for (const auto& [verdict, limit] : row.classes) {
            require_at(row, past(row, limit, -hair), before, limit_before);
            require_at(row, past(row, limit, hair), verdict, limit);
            before = verdict;
            limit_before = limit;
        }
        if (before == "stop") continue;
        // However far, it is in no worse class than its last.
        const double far = row.id == "gears.film"           ? 1e-3
                           : row.id == "bearing.least_load" ? 1
                           : row.id == "bearing.speed"      ? 1.29 * limit_before
                                                            : past(row, limit_before, 50);
        require_at(row, far, before, limit_before);
    }
}

TEST_CASE("checks: play is judged as the lives take it, and without load never at stop") {
    Looked in;
    put_play(in, BearingKind::deep_groove_ball, {-0.09, 378e3, 0.9, 13});
    CHECK(in.check("seat.play").verdict == "watch");
    CHECK(in.check("seat.play").words == "with an assumed shaft fit it runs preloaded, play");
    CHECK(in.check("seat.play").about == "bearing." + in.prepared.loads.bearings.front().name);
    put_play(in, BearingKind::deep_groove_ball, {0.01, 378e3, 0.9, 13});
    CHECK(in.check("seat.play").words == "radial play it runs with, by an assumed shaft fit");
    in.setup.bearings.front().seat.shaft_interference_mm = 0.02;
    CHECK(in.check("seat.play").words == "radial play it runs with");
    put_play(in, BearingKind::deep_groove_ball, {-0.09, 378e3, 0.9, 13});
    CHECK(in.check("seat.play").words == "runs preloaded, play");
    put_play(in, BearingKind::deep_groove_ball, {0.01, 378e3, 0.9, 13});
    // The ends of its class do not matter.
    in.prepared.loads.bearings.front().running_play_least_mm = -0.02;
    CHECK(in.check("seat.play").verdict == "fine");
    // No fit on the shaft is entered, and each bearing of the case has its play.
    const Looked as_read;
    std::size_t judged = 0;
    for (const Check& check : as_read.checks()) {
        if (check.id != CheckId::seat_play) continue;
        const BearingData& data = as_read.prepared.loads.bearings[judged++];
        CHECK(check.about == "bearing." + data.name);
        CHECK(check.value == data.running_play_mm);
    }
    CHECK(judged == as_read.prepared.loads.bearings.size());
}

TEST_CASE(
    "checks: a cage is watched where 1.3 times its figure is passed for a fifth of the time") {
    const auto verdict = [](double of_figure, double share) {
        Looked in;
        put_kind(in, BearingKind::deep_groove_ball);
        BearingData& data = in.prepared.loads.bearings.front();
        in.setup.bearings.front().oil = OilSupply::splash;
        in.prepared.loads.legs.resize(1);
        auto& bins = in.prepared.loads.legs.front().bins;
        bins.resize(2, bins.front());
        const double rpm = 650e3 / data.d_m_mm;
        const auto shaft = static_cast<std::size_t>(data.shaft);
        bins[0].shaft_speed_rpm[shaft] = of_figure * rpm;
        bins[0].bin.share = share;
        bins[1].shaft_speed_rpm[shaft] = 0.5 * rpm;
        bins[1].bin.share = 1 - share;
        return in.check("bearing.speed").verdict;
    };
    CHECK(verdict(0.99, 1) == "fine");
    CHECK(verdict(1.29, 1) == "look");
    CHECK(verdict(1.31, 0.19) == "look");
    CHECK(verdict(1.31, 0.21) == "watch");
}

TEST_CASE("checks: each one that has a class has its limits in that table") {
    std::set<std::string> known;
    for (const Row& row : rows()) known.insert(row.id);
    int classed = 0;
    for (const auto& kind : kind_rows<CheckId>) {
        const CheckRow& row = check_row(kind.kind);
        CAPTURE(kind.key);
        CHECK(!row.source.empty());
        if (!row.stop.is && !row.watch.is && !row.look.is && !row.shown.is) continue;
        ++classed;
        // Silicone has its test with the seals.
        if (kind.kind != CheckId::seal_material) CHECK(known.count(std::string(kind.key)) == 1);
        // A worse class never begins before a milder one.
        const double of_part = row.at_least ? -1 : 1;
        double before = row.at_least ? beyond_all : -beyond_all;
        for (const Severity severity :
             {Severity::shown, Severity::look, Severity::watch, Severity::stop}) {
            const ClassLimit limit = class_limit(row, severity);
            if (!limit.is || (limit.factor != 0 && kind.kind != CheckId::seat_play && row.at_least))
                continue;
            CHECK((row.at_least ? limit.at(of_part) < before : limit.at(of_part) > before));
            before = limit.at(of_part);
        }
    }
    CHECK(classed == 22);
}

TEST_CASE("checks: words of the classes, and a limit itself is not past it") {
    for (const std::string word : {"fine", "shown", "look", "watch", "stop"})
        CHECK(severity_word(severity_of(word)) == word);
    CHECK(severity_of("?") == Severity::fine);
    CHECK(Severity::stop > Severity::watch);
    const CheckRow& least = check_row(CheckId::gears_scuffing);
    CHECK(!past(least, 2, 2));
    CHECK(past(least, 1.999, 2));
    const CheckRow& most = check_row(CheckId::bearing_life);
    CHECK(!past(most, 1, 1));
    CHECK(past(most, 1.001, 1));
}

TEST_CASE(
    "checks: stop comes before watch, look, fine and shown, and of one verdict the worse end") {
    const auto made = [](const std::string& id, const std::string& verdict) {
        return Check{.id = id_of(id), .verdict = verdict};
    };
    const std::vector<Check> sorted = worst_first(
        {made("seat.creep", "shown"), made("bearing.life", "fine"), made("bearing.life", "watch"),
         made("gears.film", "look"), made("gear.root", "watch"), made("seal.lip", "stop"),
         made("bearing.life", "stop")});
    std::vector<std::pair<std::string, std::string>> order;
    for (const Check& check : sorted) order.emplace_back(name_of(check), check.verdict);
    CHECK(order == std::vector<std::pair<std::string, std::string>>{{"bearing.life", "stop"},
                                                                    {"seal.lip", "stop"},
                                                                    {"gear.root", "watch"},
                                                                    {"bearing.life", "watch"},
                                                                    {"gears.film", "look"},
                                                                    {"bearing.life", "fine"},
                                                                    {"seat.creep", "shown"}});
}

TEST_CASE("checks: a seat is judged by what its ring does when hot") {
    const auto check = [](SeatClass creep) {
        Looked in;
        in.found.seats.front().creep = creep;
        return in.check("seat.creep");
    };
    CHECK(check(SeatClass::tight).verdict == "fine");
    CHECK(check(SeatClass::held).verdict == "shown");
    CHECK(check(SeatClass::held).consequence.empty());
    CHECK(check(SeatClass::walks).verdict == "look");
    CHECK(check(SeatClass::turns).verdict == "watch");
    CHECK(check(SeatClass::turns).consequence.find("pin, flange") != std::string::npos);
    Looked in;
    SeatResult& seat = in.found.seats.front();
    seat.creep = SeatClass::walks;
    seat.gap_mm = 0.08;
    seat.slip_margin = 1.5;
    seat.travel_m = 5;
    CHECK(in.check("seat.creep").words == "ring walks when hot (slip margin 1.5, gap 0.08 mm)");
    seat.creep = SeatClass::turns;
    seat.slip_margin = 0;
    seat.swing_deg = 180;
    seat.travel_m = 543;
    CHECK(in.check("seat.creep").words ==
          "ring turns in its bore when hot, 543 m an event (its load goes round, gap 0.08 mm)");
}

TEST_CASE("checks: an inner ring that turns on its shaft") {
    const auto check = [](SeatClass on_shaft, double peak_um, double travel_m) {
        Looked in;
        SeatResult& seat = in.found.seats.front();
        seat.shaft_fit_known = true;
        seat.on_shaft = on_shaft;
        seat.effective_fit_um = on_shaft == SeatClass::wrong ? -5 : 8;
        seat.peak_fit_um = peak_um;
        seat.shaft_travel_m = travel_m;
        return in.check("seat.shaft");
    };
    CHECK(check(SeatClass::tight, 2, 0).verdict == "fine");
    CHECK(check(SeatClass::tight, -2, 0).verdict == "look");
    CHECK(check(SeatClass::tight, -2, 0).value == -2);
    CHECK(check(SeatClass::wrong, -7, 1000).verdict == "watch");
    CHECK(check(SeatClass::wrong, -7, 1001).verdict == "stop");
    CHECK(check(SeatClass::wrong, -7, 20).consequence.find("tighter shaft fit") !=
          std::string::npos);
    const Looked none;
    for (const Check& one : none.checks()) CHECK(one.id != CheckId::seat_shaft);
}

TEST_CASE("checks: play is judged only where it is known, teeth only where they are calculated") {
    Looked in;
    for (BearingData& data : in.prepared.loads.bearings) data.play_known = false;
    for (GearDamage& gear : in.found.gears) gear.calculated = false;
    in.found.flanks.calculated = false;
    for (const Check& check : in.checks()) {
        CAPTURE(name_of(check));
        CHECK(check.id != CheckId::seat_play);
        CHECK(name_of(check).rfind("gear.", 0) != 0);
        CHECK(check.id != CheckId::gears_scuffing);
        CHECK(check.id != CheckId::gears_film);
        CHECK(check.id != CheckId::gears_resonance);
    }
    // Too slow for a film: no ratio, no verdict.
    Looked slow;
    slow.found.flanks.film_ratio = 0;
    for (const Check& check : slow.checks()) CHECK(check.id != CheckId::gears_film);
}

TEST_CASE("checks: a dent is by the largest load within a turn, of bins and of torque peaks") {
    Looked in;
    put_kind(in, BearingKind::cylindrical_roller);
    LegLoads& leg = in.prepared.loads.legs.front();
    in.prepared.loads.legs.resize(1);
    const std::size_t bearings = in.prepared.loads.bearings.size();
    LoadState state{1, std::vector<BearingLoad>(bearings)};
    leg.bins.resize(1);
    leg.bins.front().bin.speed_rpm = 0;
    leg.bins.front().for_life = {state};
    leg.peaks.clear();
    // Nothing carried: no margin, and a case that stands has no time without load.
    for (const Check& check : in.checks()) {
        CHECK(check.id != CheckId::bearing_dent);
        if (check.id == CheckId::bearing_least_load) CHECK(check.value == 0);
    }
    const double C_0_N = in.prepared.loads.bearings.front().C_0_N;
    state.bearings.front().F_r_N = 1000;
    state.bearings.front().F_r_max_N = 5000;
    leg.bins.front().for_life = {state};
    CHECK(in.check("bearing.dent").value == rel(C_0_N / 5000, 1e-12));
    state.bearings.front().F_r_max_N = 8000;
    leg.peaks = {{900, 1, {state}}};
    CHECK(in.check("bearing.dent").value == rel(C_0_N / 8000, 1e-12));
}

TEST_CASE("checks: life used of teeth says that a load is above the static limit, from 1 on") {
    const auto words = [](double of_static, const std::string& id) {
        Looked in;
        put_gear(in, [&](GearDamage& gear) {
            (id == "gear.flank" ? gear.bin_flank_share : gear.bin_root_share) = of_static;
        });
        return in.check(id).words;
    };
    for (const std::string id : {"gear.flank", "gear.root"}) {
        CHECK(words(1, id).find("static limit") == std::string::npos);
        CHECK(words(1 + 1e-9, id).find("static limit") != std::string::npos);
    }
}

TEST_CASE("checks: a lip is 30 K hotter than its sump only while it turns") {
    Looked in;
    put_seals(in, SealMaterial::FKM, true, {100, 90, 120});
    CHECK(in.check("seal.lip").value == rel(130, 1e-12));
    in.setup.event.legs.front().kind = LegKind::stop;
    CHECK(in.check("seal.lip").value == rel(100, 1e-12));
    // Nothing that follows makes it cooler than it began.
    in.prepared.start_degC = 110;
    CHECK(in.check("seal.lip").value == rel(110, 1e-12));
    CHECK(in.check("seal.sump").value == rel(110, 1e-12));
}

TEST_CASE(
    "checks: a bearing that a facing pair locates, or that carries no radial load, may idle") {
    Looked in;
    put_idle(in, in.prepared.loads.bearings.front().C_N, 0.9);
    REQUIRE(in.check("bearing.least_load").about ==
            "bearing." + in.prepared.loads.bearings.front().name);
    const auto counted = [](const Looked& of) {
        const std::vector<Check> all = of.checks();
        return std::count_if(all.begin(), all.end(), [](const Check& one) {
            return one.id == CheckId::bearing_least_load;
        });
    };
    const auto before = counted(in);
    const auto shaft = static_cast<std::size_t>(in.prepared.loads.bearings.front().shaft);
    // The first bearing of the file locates it as any other does.
    in.prepared.loads.train.shafts[shaft].thrust_bearing = 0;
    CHECK(counted(in) == before);
    in.prepared.loads.bearings.front().radial = false;
    CHECK(counted(in) == before - 1);
    in.prepared.loads.bearings.front().radial = true;
    in.prepared.loads.train.shafts[shaft].thrust_bearing = -1;
    CHECK(counted(in) == before - 2);
}

}  // namespace caseload::checks_tests
