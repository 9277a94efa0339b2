// SPDX-License-Identifier: MIT
#include "live/session.hpp"

#include "caseload/ask/on_ground.hpp"
#include "caseload/show/choices.hpp"
#include "caseload/show/compare.hpp"
#include "caseload/show/each_line.hpp"
#include "caseload/show/json.hpp"
#include "caseload/show/page.hpp"
#include "caseload/show/why.hpp"
#include "caseload/why.hpp"
#include "live/edit.hpp"
#include "live/form.hpp"
#include "show/json_writer.hpp"

#include <fmt/format.h>

#include <charconv>
#include <exception>
#include <system_error>
#include <utility>

namespace caseload::live {
namespace {

using json_value::number;
using json_value::text;

std::string member(std::string_view name, const std::string& value) {
    return fmt::format(R"({{"ok":true,"{}":{}}})", name, text(value));
}

const input::Field& field_for(const std::string& key) {
    const input::Field* field = input::find_field(key);
    if (field == nullptr) refuse_input(fmt::format("{}: there is no such key", key));
    return *field;
}

/// As --draws of the program; without a number as before.
std::size_t count_of(const std::string& draws, std::size_t before) {
    if (draws.empty()) return before;
    std::size_t count = 0;
    const char* const end = draws.data() + draws.size();
    const auto [stop, failed] = std::from_chars(draws.data(), end, count);
    if (stop != end || failed != std::errc() || count < least_draws || count > most_draws)
        refuse_input(fmt::format("calculations \"{}\": must be from {} to {}", draws, least_draws,
                                 most_draws));
    return count;
}

}  // namespace

std::string Session::answer(std::string_view question, const std::string& first,
                            const std::string& second) {
    try {
        if (question == "new") return member("text", new_setup_text());
        if (question == "keep") {
            files_[first] = second;
            return R"({"ok":true})";
        }
        if (question == "open") return open(first, second);
        if (question == "change")
            return member("text", with_value(text_, first, typed_toml(field_for(first), second)));
        if (question == "forget") return member("text", without_value(text_, first));
        if (question == "likely") return likely();
        if (question == "entries")
            return fmt::format(R"({{"ok":true,"entries":{}}})", entries_json(read()));
        if (question == "band") return band(first);
        if (question == "page") return page();
        if (question == "worth") return worth();
        if (question == "why") return why(first);
        if (question == "compare") return compare(first, second);
        if (question == "sets") {
            SetsOptions options;
            options.band.draws = draws_;
            if (!first.empty())
                options.top_road_speed_mps = read_option("top speed", "leg.*.pace", first);
            static_cast<void>(read());
            return member("screen", sets_screen(read_->setup, choose_set(*document_, options)));
        }
        if (question == "cooler") {
            CoolerOptions options;
            if (!first.empty()) options.box_mm = read_size_option("room", first);
            static_cast<void>(read());
            return member("screen", cooler_screen(read_->setup, size_cooler(*document_, options)));
        }
        if (question == "chain")
            return fmt::format(R"({{"ok":true,"answer":{}}})", json_writer::object(assessment()));
        if (question == "json" || question == "line") {
            draws_ = count_of(first, draws_);
            if (question == "line")
                return member("line",
                              each_line(1, read().setup.name, read().setup, assessment(), sure()));
            const std::vector<Worth> all = assumptions_by_worth(*document_, read());
            return fmt::format(R"({{"ok":true,"answer":{}}})",
                               assessment_json({*read_, assessment(), sure(), all, remedy()}));
        }
        throw std::logic_error("no question " + std::string(question));
    } catch (const Error& error) {
        return fmt::format(R"({{"ok":false,{}}})", problems_json(error));
    } catch (const std::exception& bug) {
        return fmt::format(R"({{"ok":false,"problems":[],"report":{}}})",
                           text(fmt::format("our bug: {}", bug.what())));
    }
}

void Session::forget_range() {
    band_.reset();
    remedy_.reset();
    moments_.clear();
    seats_.clear();
    worth_.clear();
}

std::string Session::open(const std::string& name, const std::string& setup) {
    document_.reset();
    read_.reset();
    likely_.reset();
    forget_range();
    text_ = setup;
    try {
        document_.emplace(setup, name, [this](const std::string& beside) {
            auto found = files_.find(beside);
            // A browser hands over files without their folders.
            if (found == files_.end()) found = files_.find(beside.substr(beside.rfind('/') + 1));
            return found == files_.end() ? std::optional<std::string>() : found->second;
        });
        read_ = document_->complete();
    } catch (const Error& error) {
        return fmt::format(R"({{"ok":false,"boxes":{},{}}})", boxes_json(setup, nullptr),
                           problems_json(error));
    }
    return fmt::format(R"({{"ok":true,"yours":{},"assumed":{},"boxes":{}}})", read_->count_yours,
                       read_->count_assumed, boxes_json(setup, &*read_));
}

const ReadSetup& Session::read() const {
    if (!read_) refuse_input("no setup that can be calculated is open");
    return *read_;
}

const Assessment& Session::assessment() {
    if (!likely_) likely_ = assess(read().setup);
    return *likely_;
}

const Band& Session::sure() {
    if (!band_) {
        OilTraces traces = oil_traces(assessment());
        band_ = caseload::band(read().setup, assessment(), {.draws = draws_}, &traces);
        moments_ = over_time(*likely_, traces);
    }
    return *band_;
}

const Remedy& Session::remedy() {
    if (!remedy_)
        remedy_ =
            caseload::remedy(*document_, read().setup, assessment(), sure(), {.draws = draws_});
    return *remedy_;
}

std::string Session::likely() {
    const Assessment first = likely_ ? *likely_ : first_answer(read().setup);
    return fmt::format(R"({{"ok":true,"html":{},"words":{}}})", text(likely_html(*read_, first)),
                       text(likely_words(*read_, first)));
}

std::string Session::band(const std::string& draws) {
    draws_ = count_of(draws, draws_);
    forget_range();
    const Answer answer{read(), assessment(), sure(), worth_};
    return fmt::format(R"({{"ok":true,"title":{},"verdict":{},"head":{}}})",
                       text(page_title(*read_)), text(band_->verdict), text(page_head(answer)));
}

std::string Session::page() {
    static_cast<void>(sure());
    if (seats_.empty()) seats_ = seat_sweep(prepare(read_->setup), seat_sweep_temps_degC());
    const Answer answer{*read_, *likely_, *band_, worth_, remedy()};
    const Reasons reasons(*read_, *likely_);
    return member("body", page_sections({answer, moments_, seats_, &reasons}) + page_foot());
}

std::string Session::worth() {
    worth_ = assumptions_by_worth(*document_, read());
    const std::string all = joined(worth_, ",", [](const Worth& one) {
        return fmt::format("{}:[{},{},{},{}]", text(one.entry.key), number(one.oil_low_K),
                           number(one.oil_high_K), number(one.life_low_share),
                           number(one.life_high_share));
    });
    return fmt::format(R"({{"ok":true,"worth":{{{}}}}})", all);
}

std::string Session::why(const std::string& address) {
    const Reasons reasons(read(), assessment());
    const Deciding& deciding = reasons.deciding();
    const std::string asked = address.empty() ? deciding.address : address;

    return fmt::format(
        R"({{"ok":true,"screen":{},"addresses":{}}})",
        text(asked.empty() ? deciding.words : why_screen(reasons.why(asked))),
        json_value::list(reasons.all(), [](const Number& one) { return text(one.address); }));
}

std::string Session::compare(const std::string& key, const std::string& typed) {
    const std::string value = new_value(read(), "value", key, typed);
    const Change change{key, typed_toml(field_for(key), value)};
    ReadSetup changed = document_->complete(OnGround(read()).with({change}));
    const BandOptions options{.draws = draws_};
    const Calculated before{read(), assessment(), sure()};
    const Calculated after = calculated(std::move(changed), options);
    const Comparison between = caseload::compare(before, after);
    return member("screen",
                  compare_screen({before, after, between, {changed_key(before.read, key, value)}}));
}

}  // namespace caseload::live
