// SPDX-License-Identifier: MIT
// The word of the case: classes over the range, and what must hold of every verdict.
#include "ask/judge.hpp"

#include "ask/fast_case.hpp"
#include "ask/flanks_over_range.hpp"
#include "caseload/ask/verdict.hpp"
#include "caseload/show/each_line.hpp"
#include "examples.hpp"
#include "program.hpp"
#include "random_setups.hpp"
#include "support.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <regex>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace caseload::judge_tests {

namespace {

constexpr std::size_t few = 127;

std::set<std::string> names(const std::vector<JudgedCheck>& checks) {
    std::set<std::string> all;
    for (const JudgedCheck& check : checks)
        all.insert(check.about + " " + std::string(words_for(check.id).key));
    return all;
}

int rank(const std::string& word) {
    return static_cast<int>(severity_of(word));
}

struct Judged {
    Assessment likely;
    Band sure;
};
Judged judged(const Setup& setup) {
    Judged out{verdict_answer(setup), {}};
    out.sure = verdict_band(setup, out.likely, {.draws = few});
    return out;
}

/// Draws in which a check of one bearing's life has these shares.
struct Lives {
    Setup setup = examples::setup("light.toml");
    Assessment likely = assess(setup);
    std::vector<DrawResult> draws;

    explicit Lives(const std::vector<double>& shares) {
        const std::vector<DrawResult> all = FastCase(setup).draws(true, {.draws = 63});
        for (const double share : shares) {
            draws.push_back(all.front());
            draws.back().life_share.front() = share;
        }
    }
    [[nodiscard]] Band band() const {
        Band out;
        out.fitted.holds_share = 1;
        judge(setup, likely, {draws}, out);
        return out;
    }
};

/// So many of ten draws at one share, the others at nothing.
Band lives(int of_ten, double share) {
    std::vector<double> shares(10, 0.0);
    std::fill(shares.begin(), shares.begin() + of_ten, share);
    return Lives(shares).band();
}

}  // namespace

TEST_CASE("judge: a class holds from half of the draws, the one below it from a tenth") {
    CHECK(lives(5, 1.01).stop.size() == 1);
    CHECK(lives(5, 1.01).verdict == "stop");
    CHECK(lives(4, 1.01).stop.empty());
    CHECK(lives(4, 1.01).watch.size() == 1);
    CHECK(lives(1, 1.01).watch.size() == 1);
    CHECK(lives(0, 1.01).watch.empty());
    CHECK(lives(10, 1).stop.empty());
    CHECK(lives(10, 1).watch.size() == 1);
    CHECK(lives(5, 0.31).watch.size() == 1);
    CHECK(lives(4, 0.31).watch.empty());
    CHECK(lives(4, 0.31).look.size() == 1);
    CHECK(lives(1, 0.31).look.size() == 1);
    CHECK(lives(10, 0.3).look.empty());
    const JudgedCheck one = lives(4, 1.01).watch.front();
    CHECK(one.limit == 1);
    CHECK(one.share == rel(0.4, 1e-12));
    CHECK(finding_words(one) == "life used this event above 1, 4 chances in 10");
    CHECK(finding_words(lives(10, 1.01).stop.front()) == "life used this event above 1");
    CHECK(!one.consequence.empty());
}

TEST_CASE("judge: headline is the worse of both words, and looks and what is shown lower nothing") {
    for (const std::string oil : {"fine", "watch", "stop"})
        for (const std::string of_case : {"fine", "look", "watch", "stop"}) {
            Lives some(std::vector<double>(10, 0.0));
            const int past = of_case == "look" ? 1 : of_case == "fine" ? 0 : 10;
            for (int i = 0; i < past; ++i)
                some.draws[static_cast<std::size_t>(i)].life_share.front() =
                    of_case == "stop" ? 1.01 : 0.31;
            Band out;
            out.fitted.holds_share = oil == "fine" ? 1 : 0.5;
            out.fitted.fails_share = oil == "stop" ? 0.5 : 0;
            judge(some.setup, some.likely, {some.draws}, out);
            const std::string word = of_case == "look" ? "fine" : of_case;
            CHECK(out.oil_word == oil);
            CHECK(out.case_word == word);
            CHECK(rank(out.verdict) == std::max(rank(oil), rank(word)));
            CHECK((out.decides == "check") == (rank(word) > rank(oil) || word == "stop"));
            const std::string words = case_words(some.likely, out);
            if (of_case == "fine") CHECK(words == "fine");
            if (of_case == "look" && oil != "stop")
                CHECK(words == "fine; look at 1 thing when opened (NEXT)");
            if (of_case == "look" && oil == "stop") CHECK(words == "1 to look at");
            if (of_case == "watch" && oil == "stop") CHECK(words == "1 to watch");
            if (of_case == "watch" && oil != "stop") CHECK(words.rfind("watch bearing.", 0) == 0);
            if (of_case == "stop") CHECK(words.rfind("stop bearing.", 0) == 0);
        }
}

TEST_CASE("judge: what no draw comes near is in no class, judged or not") {
    std::vector<Setup> setups = random_setups::some(23, 12);
    for (const std::string name : {"light", "heavy", "idler", "dip"})
        setups.push_back(examples::setup(name + ".toml"));
    std::size_t found = 0;
    for (const Setup& setup : setups) {
        const Assessment likely = verdict_answer(setup);
        const std::vector<DrawResult> draws = FastCase(setup).draws(true, {.draws = few});
        Band near;
        Band all;
        judge(setup, likely, {draws, lives_may_count(likely)}, near);
        judge(setup, likely, {draws}, all, true);
        CHECK(names(near.stop) == names(all.stop));
        CHECK(names(near.watch) == names(all.watch));
        CHECK(names(near.look) == names(all.look));
        CHECK(names(near.shown) == names(all.shown));
        found += all.watch.size() + all.look.size();
    }
    CHECK(found > 10);
}

TEST_CASE(
    "judge: the table of flanks is the check itself within 1 %, and falls with heat and load") {
    for (const std::string name : {"light", "heavy", "idler", "dip"}) {
        CAPTURE(name);
        const Setup setup = examples::setup(name + ".toml");
        const Assessment likely = verdict_answer(setup);
        std::vector<DrawResult> draws = FastCase(setup).draws(true, {.draws = few});
        FlanksOverRange flanks(setup, likely.fitted, draws);
        for (std::size_t i = 0; i < draws.size(); i += 9) {
            double S_B = 1e9;
            double film = 1e9;
            for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg) {
                if (draws[i].leg_peak_degC[leg] < -100 ||
                    setup.event.legs[leg].kind == LegKind::stop)
                    continue;
                const LegHottest hot = leg_hottest(setup, likely.fitted.event, leg);
                const double oil_degC = std::min(draws[i].leg_peak_degC[leg], oil_ceiling_degC);
                const FlankChecks at = flanks_of_leg(
                    flanks.prepared(), leg,
                    {oil_degC,
                     std::min(oil_degC + hot.steel_degC - hot.oil_degC, oil_ceiling_degC)},
                    draws[i].load);
                S_B = std::min(S_B, at.S_B);
                if (at.film_ratio > 0) film = std::min(film, at.film_ratio);
            }
            CHECK(flanks.S_B()[i] == rel(S_B, 0.01));
            CHECK(flanks.film_ratio()[i] == rel(film, 0.01));
        }
        // At the middle it is the check of the likely case.
        const LegHottest hot{100, 110};
        const std::size_t leg = static_cast<std::size_t>(setup.event.run.front());
        double before = 1e9;
        for (double load = 0.8; load < 1.3; load += 0.1) {
            const double S_B = flanks_of_leg(flanks.prepared(), leg, hot, load).S_B;
            CHECK(S_B <= before);
            before = S_B;
        }
        for (double warmer_K = 0; warmer_K < 40; warmer_K += 5) {
            const double S_B =
                flanks_of_leg(flanks.prepared(), leg, {100 + warmer_K, 110 + warmer_K}).S_B;
            if (warmer_K > 0) CHECK(S_B <= before);
            before = S_B;
        }
    }
}

TEST_CASE("judge: rings over the range are those of the film with that load and friction") {
    // The load's share of the torque grows by a power of it: against loads calculated anew.
    Setup setup = examples::setup("idler.toml");
    const Prepared nominal = prepare(setup);
    for (const double load : {0.8, 1.25}) {
        setup.factors.load = load;
        const Prepared anew = prepare(setup);
        for (std::size_t b = 0; b < nominal.loads.bearings.size(); ++b) {
            const double power = is_ball(nominal.loads.bearings[b].kind) ? 1.59 : 1.04;
            for (std::size_t bin = 0; bin < nominal.losses.front().bins.size(); ++bin) {
                PreparedLosses::BearingTerm term = nominal.losses.front().bins[bin].bearings[b];
                if (term.n_rpm <= 0) continue;
                term.load_torque_Nmm *= std::pow(load, power);
                const double scaled = run_bearing(nominal.oil, term, 120).film_degC;
                const PreparedLosses::BearingTerm& exact =
                    anew.losses.front().bins[bin].bearings[b];
                CHECK(within(scaled, run_bearing(anew.oil, exact, 120).film_degC, 1.0));
            }
        }
    }
}

TEST_CASE("judge: a word never betters as the air warms or a load rises") {
    std::vector<Setup> setups = random_setups::some(71, 20);
    for (const std::string name : {"idler", "dip", "shelf"})
        setups.push_back(examples::setup(name + ".toml"));
    int worse = 0;
    for (const Setup& setup : setups) {
        const Judged now = judged(setup);
        Setup warmer = setup;
        warmer.event.ambient_degC += 1;
        if (!warmer.event.oil_at_start_entered) warmer.event.oil_at_start_degC += 1;
        const Judged hot = judged(warmer);
        CHECK(rank(hot.sure.oil_word) >= rank(now.sure.oil_word));
        CHECK(rank(hot.sure.case_word) >= rank(now.sure.case_word));
        int before = rank(now.sure.verdict);
        for (const double more : {1.3, 3.0}) {
            Setup loaded = setup;
            loaded.vehicle.mass_kg *= more;
            for (LegInput& leg : loaded.event.legs)
                for (Bin& bin : leg.bins) bin.torque_Nm *= more;
            const int after = rank(judged(loaded).sure.verdict);
            CHECK(after >= before);
            worse += after > before ? 1 : 0;
            before = after;
        }
    }
    CHECK(worse > 0);
}

TEST_CASE("judge: screen, JSON and each say one verdict and one likely oil") {
    for (const std::string name : {"light", "idler", "heavy"}) {
        CAPTURE(name);
        const std::string file = std::string(CASELOAD_ROOT) + "/docs/examples/" + name + ".toml";
        const Run json = run_program_as_user("assess " + file + " --json --draws 63");
        const Run screen = run_program_as_user("assess " + file + " --draws 63");
        const Setup setup = examples::setup(name + ".toml");
        const Assessment likely = assess(setup);
        const Band line = line_band(setup, likely, {.draws = 63});
        const std::string each = each_line(1, name, setup, likely, line);
        for (const auto& [key, word] :
             {std::pair<std::string, std::string>{"verdict", line.verdict},
              {"oil_word", line.oil_word},
              {"case_word", line.case_word},
              {"decides", line.decides}}) {
            const std::regex said("\"" + key + "\": *\"" + word + "\"");
            CHECK(std::regex_search(json.out, said));
            CHECK(std::regex_search(each, said));
        }
        std::string upper = line.verdict;
        for (char& c : upper) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
        CHECK(screen.out.find("\n  " + upper + " ") != std::string::npos);
        const Band whole = band(setup, likely, {.draws = 63});
        CHECK(names(line.look) == names(whole.look));
        CHECK(names(line.watch) == names(whole.watch));
        CHECK(line.fitted.peak_oil_degC.p50 == whole.fitted.peak_oil_degC.p50);
    }
}

}  // namespace caseload::judge_tests
