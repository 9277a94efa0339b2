// SPDX-License-Identifier: MIT
// Logs of known content in the layouts loggers write, read back as the same event.
#include "caseload/duty/event.hpp"
#include "caseload/error.hpp"
#include "duty/log_text.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <cmath>
#include <functional>
#include <string>

namespace caseload::duty_tests {

using namespace caseload::duty;
using duty_test::read;

namespace {

std::string refusal(const std::string& text, const DutyOptions& options = {}) {
    const auto error = error_of([&] { (void)read(text, options); });
    if (error) CHECK(error->kind() == Error::Kind::input);
    return error ? fmt::format("{}: {}", error->problems().front().where.line, error->what())
                 : std::string("read");
}

struct Known {
    double t_s, speed_rpm, torque_Nm, road_mps;
};

/// 60 s at 10 Hz: 200 N m at 2000 r/min, then 600 at 3000, then coast -100 at 2500.
std::vector<Known> known() {
    std::vector<Known> all;
    for (int i = 0; i < 600; ++i) {
        const double torque = i < 300 ? 200 : i < 500 ? 600 : -100;
        const double speed = i < 300 ? 2000 : i < 500 ? 3000 : 2500;
        all.push_back({i / 10.0, speed, torque, speed / 100});
    }
    return all;
}

using RowOf = std::function<std::string(const Known&)>;
std::string log_of(const std::string& head, const RowOf& row) {
    std::string text = head;
    for (const Known& one : known()) text += row(one);
    return text;
}

void check_known(const DutyAnswer& answer) {
    CHECK(answer.samples == 600);
    CHECK(answer.coverage == rel(1, 1e-9));
    REQUIRE(answer.legs.size() == 1);
    const LegInput& leg = answer.legs.front();
    CHECK(leg.duration_s == rel(60, 1e-6));
    REQUIRE(leg.bins.size() == 3);
    const double expected[][4] = {
        {1.0 / 3, 600, 3000, 30}, {0.5, 200, 2000, 20}, {1.0 / 6, -100, 2500, 25}};
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(leg.bins[i].share == rel(expected[i][0], 1e-6));
        CHECK(leg.bins[i].torque_Nm == rel(expected[i][1], 1e-3));
        CHECK(leg.bins[i].speed_rpm == rel(expected[i][2], 1e-3));
        CHECK(leg.bins[i].road_speed_mps == rel(expected[i][3], 2e-3));
    }
    CHECK(answer.coast_share == rel(1.0 / 6, 1e-6));
    CHECK(answer.largest_Nm == rel(600, 1e-3));
}

std::string plain() {
    return log_of("Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)\n", [](const Known& k) {
        return fmt::format("{:.1f},{:.0f},{:.0f},{:.1f}\n", k.t_s, k.speed_rpm, k.torque_Nm,
                           k.road_mps);
    });
}

std::string decimal_comma(double value, int digits) {
    std::string text = fmt::format("{:.{}f}", value, digits);
    for (char& c : text)
        if (c == '.') c = ',';
    return text;
}

}  // namespace

TEST_CASE("duty: units in the header, and every line end and encoding, are read") {
    check_known(read(plain()));
    std::string text = plain();
    std::string crlf;
    std::string cr;
    std::string wide = "\xFF\xFE";
    for (const char c : text) {
        if (c == '\n') crlf += '\r';
        crlf += c;
        cr += c == '\n' ? '\r' : c;
        wide += c;
        wide += '\0';
    }
    check_known(read(crlf));
    check_known(read(cr));
    check_known(read(wide));
    check_known(read("\xEF\xBB\xBF" + text));
}

TEST_CASE("duty: a row of names, one of units, then data is read") {
    check_known(
        read(log_of("time,inputspeed,inputtorque,speed,note\ns,rpm,Nm,km/h,\n", [](const Known& k) {
            return fmt::format("{:.1f},{:.0f},{:.0f},{:.2f},\n", k.t_s, k.speed_rpm, k.torque_Nm,
                               3.6 * k.road_mps);
        })));
    check_known(read(log_of("Timestamp (ms),Case speed,Case torque,Speed\nUnit,rpm,Nm,m/s\n",
                            [](const Known& k) {
                                return fmt::format("{:.0f},{:.0f},{:.0f},{:.1f}\n", 1000 * k.t_s,
                                                   k.speed_rpm, k.torque_Nm, k.road_mps);
                            })));
}

TEST_CASE("duty: lines about the log, TAB, decimal commas and Latin-1 names are read") {
    check_known(read(log_of(
        "Fahrt 3\nStrecke: H\xFCgel\nZeit\tEingangsdrehzahl\tEingangsmoment\t"
        "Geschwindigkeit\ns\tU/min\tNm\tkm/h\n",
        [](const Known& k) {
            return decimal_comma(k.t_s, 1) + "\t" + decimal_comma(k.speed_rpm, 1) + "\t" +
                   decimal_comma(k.torque_Nm, 2) + "\t" + decimal_comma(3.6 * k.road_mps, 2) + "\n";
        })));
}

TEST_CASE("duty: a header of keys and values, names, units and blank lines is read") {
    check_known(
        read(log_of("\"Recorder\",\"shop logger\"\n\"Place\",\"hills\"\n\"Rate\",\"10 Hz\"\n"
                    "\"Length\",\"60 s\"\n\n\"Time\",\"Case Speed\",\"Case Torque\","
                    "\"Ground Speed\"\n\"s\",\"rpm\",\"Nm\",\"m/s\"\n\n",
                    [](const Known& k) {
                        return fmt::format("\"{:.1f}\",\"{:.0f}\",\"{:.0f}\",\"{:.1f}\"\n", k.t_s,
                                           k.speed_rpm, k.torque_Nm, k.road_mps);
                    })));
}

TEST_CASE("duty: date, time of day and milliseconds in separate columns are read") {
    check_known(read(log_of(
        "Date,UTC Time,ms,Case speed (rpm),Case torque (Nm),Speed (m/s)\n", [](const Known& k) {
            const int tenths = static_cast<int>(std::lround(k.t_s * 10));
            return fmt::format("20240501,1059{:02d},{},{:.0f},{:.0f},{:.1f}\n", tenths / 10,
                               tenths % 10 * 100, k.speed_rpm, k.torque_Nm, k.road_mps);
        })));
}

TEST_CASE("duty: a clock without a date goes on over midnight") {
    const auto clocked = [](const std::string& name, const std::string& date, double from_s) {
        return log_of(name + ",Case speed (rpm),Case torque (Nm),Speed (m/s)\n",
                      [&](const Known& k) {
                          const double t_s = std::fmod(from_s + k.t_s, 86400);
                          const int minutes = static_cast<int>(t_s / 60);
                          return fmt::format("{}{:02}:{:02}:{:06.3f},{},{},{}\n", date,
                                             minutes / 60, minutes % 60, t_s - 60 * minutes,
                                             k.speed_rpm, k.torque_Nm, k.road_mps);
                      });
    };
    const DutyAnswer over = read(clocked("Time of day", "", 86400 - 20));
    check_known(over);
    CHECK(over.restarts == 0);
    CHECK(read(clocked("Time of day", "", 3600)).restarts == 0);
    // The same day written again is no midnight.
    CHECK(read(clocked("Time", "2026-05-01 ", 86400 - 20)).restarts == 1);
}

TEST_CASE("duty: of two times the one that never runs back is taken") {
    const DutyAnswer answer = read(
        log_of("Time (s),Absolute time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)\n",
               [](const Known& k) {
                   return fmt::format("{:.1f},{:.1f},{:.0f},{:.0f},{:.1f}\n", std::fmod(k.t_s, 20),
                                      k.t_s, k.speed_rpm, k.torque_Nm, k.road_mps);
               }));
    check_known(answer);
    CHECK(answer.remarks.front().find("Absolute time") != std::string::npos);
}

TEST_CASE("duty: a log of one record a line is read, each channel by its name") {
    const DutyAnswer answer =
        read(log_of("\"signal\";\"seconds\";\"value\";\"unit\"\n", [](const Known& k) {
            return fmt::format(
                "\"Case speed\";\"{0:.1f}\";\"{1:.0f}\";\"rpm\"\n\"Case torque\";\"{0:.1f}\";"
                "\"{2:.0f}\";\"Nm\"\n\"Speed\";\"{0:.1f}\";\"{3:.1f}\";\"m/s\"\n",
                k.t_s, k.speed_rpm, k.torque_Nm, k.road_mps);
        }));
    check_known(answer);
}

TEST_CASE("duty: a missing channel is reported with its line and the nearest name") {
    std::string text = plain();
    CHECK(refusal("") == "0: the log is empty");
    CHECK(refusal(std::string("a,b\0c\n", 6)) == "0: this is not text: it has bytes of zero");
    std::string typo = text;
    typo.replace(typo.find("Case torque"), 11, "Case torqu ");
    CHECK(refusal(typo) == "1: the log has no torque, and it cannot be had from the rest");
    const std::size_t at = text.find("30.0,");
    std::string more = text;
    more.insert(at, "29.95,2000,200,20.0,free text\n");
    CHECK(refusal(more) == "302: this line has 5 fields, the log has 4");
    std::string wrong = text;
    wrong.insert(at, "29.95,2k,200,20.0\n");
    CHECK(refusal(wrong) ==
          "302: Case speed (rpm): \"2k\" is no number as this log writes them (decimal point)");
    std::string twice = text;
    twice.replace(0, twice.find('\n'),
                  "Time (s),Case speed (rpm),Case torque (Nm),Case speed (rpm)");
    CHECK(refusal(twice).find("2 columns could be case_speed") != std::string::npos);
    DutyOptions options;
    options.read.columns["case_sped"] = "x";
    CHECK(refusal(text, options) == "0: --map case_sped: there is no such channel");
}

TEST_CASE("duty: gaps are missing, short holes are filled, time that runs back is a new segment") {
    std::string gap;
    std::string hole;
    std::string back;
    std::size_t line = 0;
    const std::string text = plain();
    for (std::size_t at = 0; at < text.size(); ++line) {
        const std::size_t end = text.find('\n', at) + 1;
        const std::string row = text.substr(at, end - at);
        if (line < 100 || line > 150) gap += row;
        hole += line > 50 && line < 54 ? row.substr(0, row.find(',')) + ",,NaN,20\n" : row;
        at = end;
    }
    back = text + text.substr(text.find('\n') + 1);
    const DutyAnswer gapped = read(gap);
    CHECK(gapped.gaps == 1);
    CHECK(gapped.gap_s == rel(5.1, 1e-6));
    CHECK(gapped.coverage == rel(54.9 / 60, 1e-3));
    const DutyAnswer filled = read(hole);
    CHECK(filled.filled == 6);
    check_known(filled);
    const DutyAnswer twice = read(back);
    CHECK(twice.restarts == 1);
    CHECK(twice.samples == 1200);
    CHECK(twice.logged_s == rel(120, 1e-6));
    std::string cut = text;
    cut.pop_back();
    CHECK(read(cut).samples == 599);
    CHECK(read(cut).remarks.front() == "line 601, the last, has no line end and was left out");
}

}  // namespace caseload::duty_tests
