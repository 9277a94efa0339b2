// SPDX-License-Identifier: MIT
#include "duty/channels.hpp"

#include "caseload/units.hpp"

#include <algorithm>
#include <utility>

namespace caseload::duty {
namespace {

using C = Channel;

// Headings seen in loggers' exports, and what they are in German, French, Spanish, Italian and
// Portuguese. Common practice, no published source. Names of diagnostic parameters (run time since
// engine start, absolute throttle position, accelerator pedal position D, ambient air temperature)
// are those of SAE J1979, 2002, appendix B, from memory; "tine" as seen in exports.
constexpr ChannelWords table[] = {
    {C::time, "time", "s, ms, min, hh:mm:ss, ISO 8601", "",
     "time|times|timestamp|elapsed|elapsedtime|absolutetime|abstime|sessiontime|logtime|seconds|"
     "secs|sec|timesec|t|ts|zeit|zeitstempel|temps|horodatage|tiempo|tempo|datetime|dateandtime|"
     "devicetime|recordtime|sampletime|messzeit|datumuhrzeit|datumzeit|dateheure|fechahora|"
     "dataora|datahora",
     "enginerun|engineruntime|engineruntine|runtime|runtimesinceenginestart|timesinceenginestart|"
     "motorlaufzeit"},
    {C::date, "date", "YYYYMMDD, YYYY-MM-DD", "date", "date|datum|fecha|data|utcdate|gpsdate", ""},
    {C::clock, "clock", "HHMMSS, hh:mm:ss", "clock",
     "clock|timeofday|utctime|utc|gpstime|localtime|uhrzeit|heure|hora|ora", ""},
    {C::millisecond, "millisecond", "ms", "ms",
     "ms|millisecond|milliseconds|millis|msec|timems|millisekunde|millisekunden", ""},
    {C::engine_speed, "engine_speed", "rpm, 1/min, rad/s", "rpm",
     "rpm|enginerpm|enginespeed|engspeed|engrpm|motorspeed|crankspeed|drehzahl|motordrehzahl|"
     "regime|regimemoteur|regimen|regimenmotor|rpmmotor|giri|girimotore|rotacao|ne",
     ""},
    {C::case_speed, "case_speed", "rpm, 1/min, rad/s", "rpm",
     "casespeed|caseinputspeed|caserpm|transfercaseinputspeed|transferinputspeed|"
     "inputshaftspeed|inputspeed|gearboxoutputspeed|eingangsdrehzahl|verteilerdrehzahl|"
     "regimeentree|velocidadentrada",
     ""},
    {C::engine_torque, "engine_torque", "N m, lb ft", "",
     "torque|enginetorque|engtorque|torqueactual|actualtorque|motortorque|drehmoment|"
     "motordrehmoment|motormoment|moment|couple|couplemoteur|par|parmotor|coppia|coppiamotore|"
     "torquemotor|binario",
     ""},
    {C::case_torque, "case_torque", "N m, lb ft", "",
     "casetorque|caseinputtorque|transfercaseinputtorque|transferinputtorque|inputshafttorque|"
     "inputtorque|shafttorque|gearboxoutputtorque|eingangsmoment|verteilermoment|coupleentree|"
     "parentrada",
     ""},
    {C::throttle, "throttle", "%, 0-1, 0-255", "",
     "throttle|throttlepos|throttleposition|tps|pedal|pedalpos|acceleratorpedal|accelerator|"
     "gaspedal|drosselklappe|fahrpedal|pedalwert|papillon|accelerateur|acelerador|mariposa|"
     "farfalla|acceleratore",
     "absolutethrottleposition|throttlepositionmanifold|acceleratorpedalposition|"
     "acceleratorpedalpositiond|drosselklappenstellung|fahrpedalstellung"},
    {C::road_speed, "road_speed", "km/h, mph, m/s, kn", "",
     "speed|roadspeed|vehiclespeed|vehspeed|vss|gpsspeed|speedgps|groundspeed|wheelspeed|"
     "geschwindigkeit|fahrgeschwindigkeit|fahrgeschw|vitesse|vitessevehicule|velocidad|"
     "velocidade|velocita|velocitaveicolo|v|vehiclespeedsensor|tempo|fahrzeuggeschwindigkeit|"
     "gpsgeschwindigkeit",
     "tachometer|velocity"},
    {C::gear, "gear", "a whole number", "gear",
     "gear|gearposition|gearpos|currentgear|selectedgear|gang|ganganzeige|rapport|"
     "rapportengage|marcha|marchaactual|marcia|mudanca",
     "gearengaged|engagedgear|actualgear|transmissiongear"},
    {C::oil, "oil_temperature", "degC, degF, K", "",
     "transfercaseoiltemperature|transfercaseoiltemp|transferoiltemp|caseoiltemp|"
     "caseoiltemperature|"
     "transfercasetemp|casetemp|gearboxoiltemp|gearboxoiltemperature|gearboxtemp|"
     "gearboxtemperature|"
     "getriebeoeltemperatur|getriebeoltemperatur|getriebeoltemp|verteileroltemperatur|"
     "temperaturehuileboite|thuileboite|temperaturaaceitecaja|tempoliocambio",
     ""},
    {C::ambient, "ambient", "degC, degF, K", "",
     "ambient|ambienttemp|ambienttemperature|outsidetemp|outsidetemperature|airtemp|"
     "outsideairtemp|aussentemperatur|umgebungstemperatur|lufttemperatur|temperatureexterieure|"
     "temperaturaambiente|temperaturaexterior|temperaturaambiental|temperaturaesterna",
     "ambientairtemperature|ambientairtemp"},
    {C::latitude, "latitude", "deg", "deg",
     "lat|latitude|gpslatitude|gpslat|latitudedeg|latdeg|positionlat|breite|breitengrad|latitud|"
     "latitudine",
     ""},
    {C::longitude, "longitude", "deg", "deg",
     "lon|lng|long|longitude|gpslongitude|gpslon|longitudedeg|londeg|positionlong|laenge|"
     "laengengrad|langengrad|longitud|longitudine",
     ""},
    {C::altitude, "altitude", "m, ft", "m",
     "alt|altitude|gpsaltitude|ele|elevation|height|hoehe|hohe|altitud|elevacion|quota|altitudine",
     ""},
    {C::accuracy, "accuracy", "m, ft", "m",
     "accuracy|horizontalaccuracy|haccuracy|hacc|gpsaccuracy|locationaccuracy|genauigkeit|"
     "precision|precisione|exactitude",
     ""},
};

struct UnitRow {
    /// t time, n turning, T torque, p part, v speed, C temperature, d angle, l length
    std::string_view kind;
    std::string_view spelling;
    double factor = 1;
    double offset = 0;
};

// Folded as folded_unit does. Factors: NIST SP 811 (2008), appendix B.8; the knot is 1852 m/h by
// definition (the same, B.8).
constexpr double foot_pound_Nm = N_from_lbf(1) * foot_m;
constexpr UnitRow units[] = {
    {"t", "s", 1},
    {"t", "sec", 1},
    {"t", "secs", 1},
    {"t", "second", 1},
    {"t", "seconds", 1},
    {"t", "sek", 1},
    {"t", "ms", 0.001},
    {"t", "msec", 0.001},
    {"t", "millis", 0.001},
    {"t", "us", 1e-6},
    {"t", "min", 60},
    {"t", "h", 3600},
    {"t", "clock", 1},
    {"t", "hh:mm:ss", 1},
    {"t", "hh:mm:ss.s", 1},
    {"t", "hh:mm:ss.sss", 1},
    {"t", "iso8601", 1},
    {"n", "rpm", 1},
    {"n", "r/min", 1},
    {"n", "1/min", 1},
    {"n", "/min", 1},
    {"n", "min-1", 1},
    {"n", "u/min", 1},
    {"n", "tr/min", 1},
    {"n", "giri/min", 1},
    {"n", "rad/s", 30 / pi},
    {"T", "nm", 1},
    {"T", "n*m", 1},
    {"T", "knm", 1000},
    {"T", "lbft", foot_pound_Nm},
    {"T", "lb-ft", foot_pound_Nm},
    {"T", "lbfft", foot_pound_Nm},
    {"T", "ftlb", foot_pound_Nm},
    {"T", "ft-lb", foot_pound_Nm},
    {"T", "ftlbs", foot_pound_Nm},
    {"p", "%", 0.01},
    {"p", "pct", 0.01},
    {"p", "percent", 0.01},
    {"p", "0-1", 1},
    {"p", "0-100", 0.01},
    {"p", "0-255", 1.0 / 255},
    {"v", "m/s", 1},
    {"v", "km/h", 1 / 3.6},
    {"v", "kph", 1 / 3.6},
    {"v", "kmh", 1 / 3.6},
    {"v", "kmph", 1 / 3.6},
    {"v", "mph", 0.44704},
    {"v", "mi/h", 0.44704},
    {"v", "kn", 1852.0 / 3600},
    {"v", "kt", 1852.0 / 3600},
    {"v", "kts", 1852.0 / 3600},
    {"v", "knots", 1852.0 / 3600},
    {"C", "degc", 1},
    {"C", "c", 1},
    {"C", "celsius", 1},
    {"C", "degf", 1 / 1.8, -32 / 1.8},
    {"C", "f", 1 / 1.8, -32 / 1.8},
    {"C", "k", 1, -273.15},
    {"d", "deg", 1},
    {"d", "degree", 1},
    {"d", "degrees", 1},
    {"l", "m", 1},
    {"l", "meter", 1},
    {"l", "meters", 1},
    {"l", "metres", 1},
    {"l", "ft", foot_m},
    {"l", "feet", foot_m},
};

std::string_view kind_of(Channel channel) {
    switch (channel) {
        case C::time:
        case C::millisecond:
            return "t";
        case C::engine_speed:
        case C::case_speed:
            return "n";
        case C::engine_torque:
        case C::case_torque:
            return "T";
        case C::throttle:
            return "p";
        case C::road_speed:
            return "v";
        case C::oil:
        case C::ambient:
            return "C";
        case C::latitude:
        case C::longitude:
            return "d";
        case C::altitude:
        case C::accuracy:
            return "l";
        case C::date:
        case C::clock:
        case C::gear:
            return "";
    }
    return "";
}

bool letter_or_digit(char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
}

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// Plain letter of a two-byte character U+00C0 to U+00FF; *: not a letter.
char plain(unsigned char second) {
    constexpr std::string_view letters =
        "aaaaaaaceeeeiiiidnooooo*ouuuuytsaaaaaaaceeeeiiiidnooooo*ouuuuyty";
    return second >= 0x80U && second <= 0xBFU ? letters[second - 0x80U] : '*';
}

std::string folded_unit(std::string_view text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const auto next = i + 1 < text.size() ? static_cast<unsigned char>(text[i + 1]) : 0U;
        if (byte == 0xC2U && next == 0xB0U) {  // degree sign
            out += "deg";
            ++i;
        } else if (byte == 0xC2U && next == 0xB7U) {  // middle dot, as in N m
            ++i;
        } else if (byte == 0xC2U && next == 0xB5U) {  // micro sign
            out += 'u';
            ++i;
        } else if (byte != ' ' && byte != '.' && byte != '\t' && byte != '"') {
            out += lower(text[i]);
        }
    }
    const auto end = out.find_last_not_of("])");
    const auto begin = out.find_first_not_of("[(");
    if (begin == std::string::npos || end == std::string::npos) return {};
    return out.substr(begin, end - begin + 1);
}

}  // namespace

std::span<const ChannelWords> channel_words() {
    return table;
}

const ChannelWords& words_of(Channel channel) {
    return table[index(channel)];
}

std::string_view name_of(Channel channel) {
    return words_of(channel).name;
}

std::optional<Channel> channel_named(std::string_view name) {
    for (const ChannelWords& words : table)
        if (words.name == name) return words.channel;
    return std::nullopt;
}

std::string folded(std::string_view text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = lower(text[i]);
        if (letter_or_digit(c)) {
            out += c;
        } else if (static_cast<unsigned char>(c) == 0xC3U && i + 1 < text.size()) {
            const char letter = plain(static_cast<unsigned char>(text[++i]));
            if (letter != '*') out += letter;
        }
    }
    return out;
}

bool in_list(std::string_view list, std::string_view word) {
    while (!list.empty()) {
        const std::size_t bar = std::min(list.find('|'), list.size());
        if (list.substr(0, bar) == word) return true;
        list.remove_prefix(std::min(bar + 1, list.size()));
    }
    return false;
}

std::optional<UnitFactor> unit_of(Channel channel, std::string_view unit) {
    const std::string spelling = folded_unit(unit);
    if (channel == C::gear || channel == C::date || channel == C::clock) return UnitFactor{};
    for (const UnitRow& row : units)
        if (row.kind == kind_of(channel) && row.spelling == spelling)
            return UnitFactor{row.factor, row.offset};
    return std::nullopt;
}

Heading split_heading(std::string_view heading) {
    const auto trimmed = [](std::string_view name) {
        while (!name.empty() && name.back() == ' ') name.remove_suffix(1);
        return name;
    };
    std::optional<Heading> first;
    for (std::size_t from = 0; from < heading.size();) {
        const std::size_t open = heading.find_first_of("([", from);
        if (open == std::string_view::npos) break;
        const std::size_t close = heading.find(heading[open] == '(' ? ')' : ']', open);
        const std::string_view name = trimmed(heading.substr(0, open));
        if (close == std::string_view::npos || name.empty()) break;
        const std::string_view inside = heading.substr(open + 1, close - open - 1);
        Heading parts{std::string(name), std::string(inside)};
        // "Speed (GPS) [m/s]": the unit is in the second pair.
        const std::string spelling = folded_unit(inside);
        if (std::any_of(std::begin(units), std::end(units),
                        [&](const UnitRow& row) { return row.spelling == spelling; }))
            return parts;
        if (!first) first = std::move(parts);
        from = close + 1;
    }
    return first.value_or(Heading{std::string(heading), {}});
}

}  // namespace caseload::duty
