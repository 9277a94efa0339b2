// SPDX-License-Identifier: MIT
// Cells as numbers: the quick way, the long way and the rest say the same as the C library.
#include "duty/number.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <string>

namespace caseload::number_tests {

using namespace caseload::duty;

namespace {

struct Read {
    Cell cell = Cell::wrong;
    double value = 0;
    bool quick = false;
};

/// As a line of a log holds it: bytes behind the end are another cell's.
Read read(const std::string& text, const Marks& marks = {}) {
    const std::string line = text + ";-3.75;1234567890123456";
    const NumberReader reader(marks);
    const char* const end = line.data() + text.size();
    Read found;
    const NumberForm* form = reader.whole_form();
    found.quick = reader.read_short(line.data(), end, form, found.value);
    found.cell = found.quick ? Cell::number : reader.read_other(line.data(), end, found.value);
    return found;
}

std::string digits(std::uint64_t& seed, std::size_t count) {
    std::string text;
    for (std::size_t i = 0; i < count; ++i) {
        seed = seed * 6364136223846793005U + 1442695040888963407U;
        text += static_cast<char>('0' + (seed >> 33U) % 10);
    }
    return text;
}

}  // namespace

TEST_CASE("duty: every form of a plain decimal is read to the last bit") {
    std::uint64_t seed = 7;
    for (std::size_t whole = 0; whole <= 18; ++whole)
        for (std::size_t part = 0; part <= 12; ++part)
            for (const char* sign : {"", "-", "+"})
                for (int again = 0; again < 6; ++again) {
                    if (whole + part == 0) continue;
                    std::string text = sign + digits(seed, whole);
                    const std::string point = part > 0 ? "." + digits(seed, part) : "";
                    const double wanted = std::strtod((text + point).c_str(), nullptr);
                    CAPTURE(text + point);
                    const Read of_point = read(text + point);
                    CHECK(of_point.cell == Cell::number);
                    CHECK(of_point.value == wanted);
                    CHECK(std::signbit(of_point.value) == std::signbit(wanted));
                    CHECK(of_point.quick ==
                          (whole + point.size() <= 8 && std::string(sign) != "+"));
                    std::string comma = text + point;
                    for (char& c : comma)
                        if (c == '.') c = ',';
                    CHECK(read(comma, {',', '.'}).value == wanted);
                }
}

TEST_CASE("duty: numbers of one column are read to the last bit whatever form the last one had") {
    const NumberReader reader({});
    const NumberForm* form = reader.whole_form();
    std::uint64_t seed = 11;
    for (int i = 0; i < 5000; ++i) {
        const std::string kind = digits(seed, 3);
        const std::size_t whole = static_cast<std::size_t>(kind[0] - '0') % 8;
        const std::size_t part = static_cast<std::size_t>(kind[1] - '0') % (8 - whole);
        std::string text = kind[2] < '3' ? "-" : "";
        text += digits(seed, whole == 0 && part == 0 ? 1 : whole);
        if (part > 0) text += "." + digits(seed, part);
        // A digit behind the cell must not be taken for its own.
        const std::string line = text + (kind[2] < '6' ? "\n7.77,7" : ",7777777");
        double value = 0;
        CAPTURE(text);
        const char* const end = line.data() + text.size();
        CHECK(reader.read_short(line.data(), end, form, value));
        const double wanted = std::strtod(text.c_str(), nullptr);
        CHECK(value == wanted);
        CHECK(std::signbit(value) == std::signbit(wanted));
        // What is no number is none in the last one's form either.
        for (const char* odd :
             {"", "-", ".", "-.", "5.", "1.2.3", "1:5", "1e5", " 7", "123456789"}) {
            const std::string other = std::string(odd) + ",1234567890";
            const NumberForm* of_odd = form;
            CAPTURE(odd);
            CHECK(!reader.read_short(other.data(), other.data() + std::strlen(odd), of_odd, value));
        }
    }
}

TEST_CASE("duty: the fast number reader leaves all but plain decimals to the general one") {
    struct Case {
        const char* text;
        Cell cell;
        double value;
    };
    for (const Case& one : {Case{"5.", Cell::number, 5},      Case{"-5.", Cell::number, -5},
                            Case{"1e3", Cell::number, 1000},  Case{" 12.5 ", Cell::number, 12.5},
                            Case{"\"7\"", Cell::number, 7},   Case{"", Cell::missing, 0},
                            Case{"-", Cell::missing, 0},      Case{"--", Cell::missing, 0},
                            Case{"NaN", Cell::missing, 0},    Case{".", Cell::wrong, 0},
                            Case{"-.", Cell::wrong, 0},       Case{"1.2.3", Cell::wrong, 0},
                            Case{"1..2", Cell::wrong, 0},     Case{"1,5", Cell::wrong, 0},
                            Case{"12:30", Cell::wrong, 0},    Case{"0x10", Cell::wrong, 0},
                            Case{"1 2", Cell::wrong, 0},      Case{"12a", Cell::wrong, 0},
                            Case{"1-2", Cell::wrong, 0},      Case{"\xB5\x31", Cell::wrong, 0},
                            Case{"1234567:", Cell::wrong, 0}, Case{"/1234567", Cell::wrong, 0},
                            Case{"1\xFF.5", Cell::wrong, 0}}) {
        CAPTURE(one.text);
        const Read found = read(one.text);
        CHECK(found.cell == one.cell);
        if (one.cell == Cell::number) CHECK(found.value == one.value);
    }
}

TEST_CASE("duty: a byte that is no digit is found at every place of a cell") {
    for (std::size_t length = 1; length <= 8; ++length)
        for (std::size_t at = 0; at < length; ++at)
            for (int byte = 1; byte < 256; ++byte) {
                const char c = static_cast<char>(byte);
                std::string text(length, '7');
                text[at] = c;
                const bool digit = c >= '0' && c <= '9';
                const bool mark = c == '.' && at + 1 < length;
                const bool sign = c == '-' && at == 0 && length > 1;
                CAPTURE(text);
                CHECK(read(text).quick == (digit || mark || sign));
            }
}

}  // namespace caseload::number_tests
