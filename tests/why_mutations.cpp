// SPDX-License-Identifier: MIT
// Every number in the formulas of tables/why.toml, 1 % larger in turn: what `why --check` puts in
// again must notice it on some setup.
//
//     caseload_why_mutations TABLE SETUP... [--part K/N]
//     caseload_why_mutations TABLE SETUP... --again FILE
//
// The second form tries only what a former run, kept in FILE, did not notice, on further setups.
// A setup with a .csv of its name beside it stands for itself and for each variation in there, as
// `assess --each` takes them. Says which numbers no setup notices, and how far each got: no setup
// uses the formula; it is used, but the number lies in a branch not taken or a limit not reached; a
// step moves, but no number of the chain beyond what digits explain. A formula is tried where it is
// used: a number of the chain must disagree when recalculated with the changed formula; where only
// steps of the table use it, all reasons are built anew with the changed table.
#include "caseload/ask/each.hpp"
#include "caseload/show/why.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <cstdio>
#include <deque>
#include <exception>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

using namespace caseload;

namespace {

std::string text_of(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file) throw std::runtime_error(path + " cannot be read");
    return {std::istreambuf_iterator<char>(file), {}};
}

/// One number of one formula.
struct Place {
    std::string name;     ///< "bearing.kappa", "bearing.e.value: angular"
    std::string formula;  ///< as it stands
    std::size_t at;       ///< of the number in it
    std::string number;
    std::size_t formula_at;  ///< in the table
    int line;
};

bool of_word(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '.';
}

/// Length of the unsigned number that begins here; 0: none does.
std::size_t number_at(const std::string& text, std::size_t at) {
    const auto digit = [&](std::size_t i) {
        return i < text.size() && std::isdigit(static_cast<unsigned char>(text[i])) != 0;
    };
    if (!digit(at) || (at > 0 && of_word(text[at - 1]))) return 0;
    std::size_t end = at;
    while (digit(end) || (end < text.size() && text[end] == '.')) ++end;
    if (end < text.size() && text[end] == 'e') {
        const std::size_t sign = text[end + 1] == '-' ? 1 : 0;
        if (digit(end + 1 + sign))
            for (end += 1 + sign; digit(end);) ++end;
    }
    return end - at;
}

/// Whether a place lies in the ends between which sum(k, from, to, ...) counts.
bool counted(const std::string& formula, std::size_t at) {
    for (const std::string name : {"sum(", "largest("})
        for (std::size_t from = formula.find(name); from != std::string::npos;
             from = formula.find(name, from + 1)) {
            std::size_t end = from;
            for (int comma = 0; comma < 3 && end != std::string::npos; ++comma)
                end = formula.find(',', end + 1);
            if (from < at && at < end) return true;
        }
    return false;
}

void add_numbers(const Place& of, std::vector<Place>& into) {
    for (std::size_t at = 0; at < of.formula.size();) {
        const std::size_t length = number_at(of.formula, at);
        Place place = of;
        place.at = at;
        place.number = of.formula.substr(at, length);
        if (length > 0 && std::stod(place.number) != 0 && !counted(of.formula, at))
            into.push_back(std::move(place));
        at += length > 0 ? length : 1;
    }
}

/// Every number of every formula of the table. What a solver may leave is none: a tolerance.
std::vector<Place> places_of(const std::string& table) {
    std::vector<Place> places;
    std::string heading;
    int line = 0;
    for (std::size_t from = 0; from < table.size();) {
        const std::size_t end = table.find('\n', from);
        const std::string text = table.substr(from, end - from);
        ++line;
        const bool variant = heading.size() > 6 && heading.substr(heading.size() - 6) == ".value";
        if (text.rfind('[', 0) == 0) heading = text.substr(1, text.find(']') - 1);
        const std::string member = text.substr(0, text.find(' '));
        if (variant && text.rfind('[', 0) != 0 && text.find(" = \"") != std::string::npos) {
            const std::size_t at = text.find('"') + 1;
            add_numbers({heading + ": " + member, text.substr(at, text.rfind('"') - at), 0, "",
                         from + at, line},
                        places);
        } else if (text.rfind('#', 0) != 0) {
            for (const std::string key :
                 {"value = \"", "equation = \"", "at_least = \"", "at_most = \""}) {
                std::size_t at = text.find(" " + key);
                if (at == std::string::npos) continue;
                at += key.size() + 1;
                add_numbers({heading + "." + member, text.substr(at, text.find('"', at) - at), 0,
                             "", from + at, line},
                            places);
            }
        }
        from = end + 1;
    }
    return places;
}

std::string larger(const std::string& formula, std::size_t at, const std::string& number) {
    char one_percent[32];
    std::snprintf(one_percent, sizeof one_percent, "%.17g", std::stod(number) * 1.01);
    return formula.substr(0, at) + one_percent + formula.substr(at + number.size());
}

std::array<std::string Number::*, 4> expressions() {
    return {&Number::value_of, &Number::equation, &Number::at_least, &Number::at_most};
}

/// How far a larger number got.
enum class Seen { not_used, used, moved, noticed };
constexpr std::array<const char*, 3> short_of{"no setup uses it", "branch or limit not reached",
                                              "moves nothing beyond the digits"};

class Case {
public:
    Case(const Document& document, const std::vector<Change>& changes, const std::string& table)
        : read_(document.complete(changes)),
          answer_(assess(read_.setup)),
          reasons_(read_, answer_, table) {
        for (std::size_t i = 0; i < reasons_.all().size(); ++i)
            if (reasons_.all()[i].origin.empty())
                for (const auto expression : expressions())
                    if (!(reasons_.all()[i].*expression).empty())
                        users_[reasons_.all()[i].*expression].push_back(i);
        const std::string wrong = disagrees(reasons_);
        if (!wrong.empty())
            throw std::runtime_error(read_.setup.name + ": " + why_screen(reasons_.why(wrong)) +
                                     "the table itself does not agree");
    }

    [[nodiscard]] Seen sees(const Place& place, const std::string& table) const {
        const auto users = users_.find(place.formula);
        if (users == users_.end()) return Seen::not_used;
        const std::string formula = larger(place.formula, place.at, place.number);
        bool moves = false;
        bool a_step_moves = false;
        for (const std::size_t user : users->second) {
            const Number& number = reasons_.all()[user];
            Why why = reasons_.why(number.address);
            for (const auto expression : expressions())
                if (why.number.*expression == place.formula) why.number.*expression = formula;
            try {
                if (value(why, formula) == value(why, place.formula)) continue;
                moves = true;
                if (number.is_intermediate)
                    a_step_moves = true;
                else if (!recalculate(why_screen(why)).value().agrees)
                    return Seen::noticed;
            } catch (const std::exception&) {
                return Seen::noticed;  // outside what a function takes
            }
        }
        if (!a_step_moves) return moves ? Seen::moved : Seen::used;
        const std::size_t at = place.formula_at + place.at;
        try {
            return disagrees(Reasons(read_, answer_, larger(table, at, place.number))).empty()
                       ? Seen::moved
                       : Seen::noticed;
        } catch (const std::exception&) {
            return Seen::noticed;
        }
    }

private:
    static double value(const Why& why, const std::string& expression) {
        return evaluate(expression, [&](std::string_view name) {
            for (std::size_t i = 0; i < why.names.size(); ++i)
                if (why.names[i] == name) return why.inputs[i].value;
            throw std::invalid_argument("not among the inputs");
        });
    }

    /// A number of the chain that does not agree when recalculated; "": none. Looked at closely
    /// where its digits in full differ at all.
    static std::string disagrees(const Reasons& reasons) {
        constexpr double close = 1e-12;
        for (const Number& number : reasons.all()) {
            if (number.is_intermediate || !is_calculated(number.how) || !number.origin.empty())
                continue;
            const Why why = reasons.why(number.address);
            if (why.names.empty()) continue;
            double size = std::fabs(number.value);
            if (!number.equation.empty()) size = 0;
            const bool bounded = why.at_least || why.at_most;
            if (!bounded && std::fabs(why.residual) <= close * size) continue;
            if (!recalculate(why_screen(why)).value().agrees) return number.address;
        }
        return {};
    }

    ReadSetup read_;
    Assessment answer_;
    Reasons reasons_;
    std::map<std::string, std::vector<std::size_t>> users_;  ///< of a formula as it stands
};

/// A setup, and its variations where it has some.
void add_cases(const std::string& path, const std::string& table, std::deque<Case>& into) {
    const std::string folder = path.substr(0, path.rfind('/') + 1);
    const Document document(text_of(path), path, [&](const std::string& name) {
        return std::optional<std::string>(text_of(name.rfind('/', 0) == 0 ? name : folder + name));
    });
    into.emplace_back(document, std::vector<Change>{}, table);
    const std::string list = path.substr(0, path.rfind('.')) + ".csv";
    if (!std::ifstream(list)) return;
    for (const std::vector<Change>& row : read_each_table(text_of(list), list).rows)
        into.emplace_back(document, row, table);
}

/// How a number is told, its line left out, which moves.
std::string told(const Place& place) {
    return place.name + ": " + place.number + " in " +
           place.formula.substr(place.at > 20 ? place.at - 20 : 0, 60);
}

int run(std::vector<std::string> arguments) {
    std::size_t part = 1;
    std::size_t parts = 1;
    if (arguments.size() > 2 && arguments[arguments.size() - 2] == "--part") {
        const std::string& text = arguments.back();
        part = std::stoul(text);
        parts = std::stoul(text.substr(text.find('/') + 1));
        arguments.resize(arguments.size() - 2);
    }
    std::string again;
    if (arguments.size() > 2 && arguments[arguments.size() - 2] == "--again") {
        again = text_of(arguments.back());
        arguments.resize(arguments.size() - 2);
    }
    const std::string table = text_of(arguments.at(0));
    std::deque<Case> cases;
    std::vector<const Case*> order;
    for (std::size_t i = 1; i < arguments.size(); ++i) add_cases(arguments[i], table, cases);
    for (const Case& one : cases) order.push_back(&one);
    const std::vector<Place> places = places_of(table);
    std::size_t tried = 0;
    std::size_t survivors = 0;
    for (std::size_t i = part - 1; i < places.size(); i += parts) {
        const Place& place = places[i];
        if (!again.empty() && again.find(", " + told(place) + ": ") == std::string::npos) continue;
        ++tried;
        Seen most = Seen::not_used;
        // A number that moves steps on so many setups and is never noticed counts as not noticed.
        int left = 4;
        for (std::size_t k = 0; k < order.size() && most != Seen::noticed && left > 0; ++k) {
            const Seen seen = order[k]->sees(place, table);
            most = std::max(most, seen);
            if (seen == Seen::moved) --left;
            // What notices one number is likely to notice its neighbours.
            if (seen == Seen::noticed) std::swap(order[k], order.front());
        }
        if (most == Seen::noticed) continue;
        ++survivors;
        std::printf("not noticed: line %d, %s: %s\n", place.line, told(place).c_str(),
                    short_of[static_cast<std::size_t>(most)]);
        std::fflush(stdout);
    }
    std::printf("%zu of %zu numbers noticed when 1 %% larger, %zu not\n", tried - survivors, tried,
                survivors);
    return 0;
}

}  // namespace

int main(int count, char** arguments) {
    try {
        return run({arguments + 1, arguments + count});
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
}
