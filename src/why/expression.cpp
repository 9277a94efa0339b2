// SPDX-License-Identifier: MIT
// The small grammar of tables/why.toml, read from left to right.
#include "caseload/why.hpp"

#include <fast_float/fast_float.h>
#include <boost/math/special_functions/bessel.hpp>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <stdexcept>
#include <utility>

namespace caseload {
namespace {

bool of_name(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

using UnaryFunction = double (*)(double);
using BinaryFunction = double (*)(double, double);

/// Modified Bessel function of the first kind.
double besseli(double order, double x) {
    using Plain = boost::math::policies::policy<boost::math::policies::promote_double<false>>;
    return boost::math::cyl_bessel_i(order, x, Plain());
}

UnaryFunction unary_function(std::string_view name) {
    static const std::map<std::string_view, UnaryFunction> known{{"sqrt", [](double x) { return std::sqrt(x); }},
                                                                 {"exp", [](double x) { return std::exp(x); }},
                                                                 {"ln", [](double x) { return std::log(x); }},
                                                                 {"log10", [](double x) { return std::log10(x); }},
                                                                 {"sin", [](double x) { return std::sin(x); }},
                                                                 {"cos", [](double x) { return std::cos(x); }},
                                                                 {"tan", [](double x) { return std::tan(x); }},
                                                                 {"asin", [](double x) { return std::asin(x); }},
                                                                 {"acos", [](double x) { return std::acos(x); }},
                                                                 {"atan", [](double x) { return std::atan(x); }},
                                                                 {"abs", [](double x) { return std::fabs(x); }},
                                                                 {"floor", [](double x) { return std::floor(x); }}};
    const auto found = known.find(name);
    return found == known.end() ? nullptr : found->second;
}

BinaryFunction binary_function(std::string_view name) {
    static const std::map<std::string_view, BinaryFunction> known{
        {"atan2", [](double y, double x) { return std::atan2(y, x); }},
        {"besseli", besseli},
        {"min", [](double a, double b) { return std::min(a, b); }},
        {"max", [](double a, double b) { return std::max(a, b); }}};
    const auto found = known.find(name);
    return found == known.end() ? nullptr : found->second;
}

/// lin(x, x1, y1, x2, y2 ...): linear between the points, constant beyond the ends.
Between between(const std::vector<double>& x) {
    const double at = x[0];
    if (at <= x[1]) return {at, x[1], x[2], x[1], x[2]};
    for (std::size_t i = 3; i < x.size(); i += 2)
        if (at <= x[i]) return {at, x[i - 2], x[i - 1], x[i], x[i + 1]};
    const std::size_t last = x.size() - 2;
    return {at, x[last], x[last + 1], x[last], x[last + 1]};
}

double interpolate(const Between& rows) {
    if (!(rows.high_at > rows.low_at)) return rows.low;
    return rows.low +
           (rows.at - rows.low_at) / (rows.high_at - rows.low_at) * (rows.high - rows.low);
}

}  // namespace

/// One step of a calculation; `of` are the numbers of the steps it takes.
struct Expression::Step {
    enum class Kind {
        number,
        name,
        counter,
        minus,
        add,
        subtract,
        multiply,
        divide,
        power,
        less,
        unary,
        binary,
        between,
        conditional,
        sum,
        largest
    };
    Kind kind = Kind::number;
    double number = 0;
    std::size_t place = 0;  ///< of a name or a counter
    UnaryFunction unary_call = nullptr;
    BinaryFunction binary_call = nullptr;
    std::vector<std::size_t> of{};
};

/// From left to right; `counters` are those of sum and largest around, the inner ones last.
class Expression::Parser {
public:
    Parser(std::string_view text, Expression& into) : text_(text), into_(into) {}

    std::size_t parse_all() {
        const std::size_t x = compared();
        if (peek() != '\0') throw std::invalid_argument("left over: " + std::string(text_));
        return x;
    }

private:
    using Kind = Step::Kind;

    std::size_t keep(Step step) {
        into_.steps_.push_back(std::move(step));
        return into_.steps_.size() - 1;
    }
    std::size_t keep(Kind kind, std::vector<std::size_t> of) {
        Step step;
        step.kind = kind;
        step.of = std::move(of);
        return keep(std::move(step));
    }

    char peek() {
        while (!text_.empty() && text_.front() == ' ') text_.remove_prefix(1);
        return text_.empty() ? '\0' : text_.front();
    }
    bool take(char c) {
        if (peek() != c) return false;
        text_.remove_prefix(1);
        return true;
    }
    void need(char c) {
        if (!take(c)) throw std::invalid_argument("wanted " + std::string(1, c));
    }
    std::string_view take_name() {
        std::size_t n = 0;
        while (n < text_.size() && of_name(text_[n])) ++n;
        const std::string_view name = text_.substr(0, n);
        text_.remove_prefix(n);
        return name;
    }

    std::size_t compared() {
        const std::size_t x = sum();
        return take('<') ? keep(Kind::less, {x, sum()}) : x;
    }
    std::size_t sum() {
        std::size_t x = product();
        for (;;) {
            if (take('+'))
                x = keep(Kind::add, {x, product()});
            else if (take('-'))
                x = keep(Kind::subtract, {x, product()});
            else
                return x;
        }
    }
    std::size_t product() {
        std::size_t x = signed_power();
        for (;;) {
            if (take('*'))
                x = keep(Kind::multiply, {x, signed_power()});
            else if (take('/'))
                x = keep(Kind::divide, {x, signed_power()});
            else
                return x;
        }
    }
    std::size_t signed_power() {
        if (take('-')) return keep(Kind::minus, {signed_power()});
        const std::size_t x = atom();
        return take('^') ? keep(Kind::power, {x, signed_power()}) : x;
    }
    std::size_t atom() {
        if (take('(')) {
            const std::size_t x = compared();
            need(')');
            return x;
        }
        const char c = peek();
        if (std::isdigit(static_cast<unsigned char>(c)) != 0) {
            double x = 0;
            const auto read = fast_float::from_chars(text_.data(), text_.data() + text_.size(), x);
            text_.remove_prefix(static_cast<std::size_t>(read.ptr - text_.data()));
            return number(x);
        }
        if (c == '[') {
            const std::size_t end = text_.find(']');
            if (end == std::string_view::npos) throw std::invalid_argument("wanted ]");
            const std::string_view address = text_.substr(0, end + 1);
            text_.remove_prefix(end + 1);
            return named(address);
        }
        const std::string_view name = take_name();
        if (name.empty()) throw std::invalid_argument("no number or name: " + std::string(text_));
        if (!take('(')) return value_of(name);
        if (name == "sum" || name == "largest")
            return fold(name == "sum" ? Kind::sum : Kind::largest);
        std::vector<std::size_t> of{compared()};
        while (take(',')) of.push_back(compared());
        need(')');
        return call_function(name, std::move(of));
    }
    std::size_t number(double x) {
        Step step;
        step.number = x;
        return keep(std::move(step));
    }
    std::size_t named(std::string_view name) {
        const auto found = std::find(into_.names_.begin(), into_.names_.end(), name);
        Step step;
        step.kind = Kind::name;
        step.place = static_cast<std::size_t>(found - into_.names_.begin());
        if (found == into_.names_.end()) into_.names_.emplace_back(name);
        return keep(std::move(step));
    }
    std::size_t value_of(std::string_view name) {
        for (std::size_t k = counters_.size(); k-- > 0;) {
            if (counters_[k] != name) continue;
            Step step;
            step.kind = Kind::counter;
            step.place = k;
            return keep(std::move(step));
        }
        return name == "pi" ? number(std::numbers::pi) : named(name);
    }
    std::size_t call_function(std::string_view name, std::vector<std::size_t> of) {
        if (name == "if" && of.size() == 3) return keep(Kind::conditional, std::move(of));
        if (name == "lin" && of.size() >= 5 && of.size() % 2 == 1)
            return keep(Kind::between, std::move(of));
        Step step;
        step.kind = of.size() == 1 ? Kind::unary : Kind::binary;
        step.unary_call = of.size() == 1 ? unary_function(name) : nullptr;
        step.binary_call = of.size() == 2 ? binary_function(name) : nullptr;
        if (step.unary_call == nullptr && step.binary_call == nullptr)
            throw std::invalid_argument("no function " + std::string(name) + " of so many");
        step.of = std::move(of);
        return keep(std::move(step));
    }
    /// sum(k, from, to, term), largest(k, from, to, term): k counts by 1.
    std::size_t fold(Kind kind) {
        peek();
        const std::string_view counter = take_name();
        need(',');
        const std::size_t from = compared();
        need(',');
        const std::size_t to = compared();
        need(',');
        counters_.push_back(counter);
        const std::size_t term = compared();
        counters_.pop_back();
        need(')');
        return keep(kind, {from, to, term});
    }

    std::string_view text_;
    Expression& into_;
    std::vector<std::string_view> counters_;
};

/// Calculates from the last step back.
class Expression::Calculation {
public:
    Calculation(const Expression& of, std::span<const double> named, std::vector<Between>* rows)
        : steps_(of.steps_), named_(named), rows_(rows) {}

    double at(std::size_t place) {
        using Kind = Step::Kind;
        const Step& step = steps_[place];
        const auto& of = step.of;
        switch (step.kind) {
            case Kind::number:
                return step.number;
            case Kind::name:
                return named_[step.place];
            case Kind::counter:
                return counters_[step.place];
            case Kind::minus:
                return -at(of[0]);
            case Kind::unary:
                return step.unary_call(at(of[0]));
            case Kind::between:
                return between_points(step);
            case Kind::conditional:
                return at(of[at(of[0]) != 0 ? 1 : 2]);
            case Kind::sum:
            case Kind::largest:
                return fold(step);
            default:
                break;
        }
        const double x = at(of[0]);
        const double y = at(of[1]);
        switch (step.kind) {
            case Kind::add:
                return x + y;
            case Kind::subtract:
                return x - y;
            case Kind::multiply:
                return x * y;
            case Kind::divide:
                return x / y;
            case Kind::power:
                return std::pow(x, y);
            case Kind::less:
                return x < y ? 1 : 0;
            default:
                return step.binary_call(x, y);
        }
    }

private:
    double between_points(const Step& step) {
        std::vector<double> x;
        x.reserve(step.of.size());
        for (const std::size_t one : step.of) x.push_back(at(one));
        const Between rows = between(x);
        if (rows_ != nullptr) rows_->push_back(rows);
        return interpolate(rows);
    }
    double fold(const Step& step) {
        const bool sums = step.kind == Step::Kind::sum;
        double result = sums ? 0 : -std::numeric_limits<double>::infinity();
        double k = at(step.of[0]);
        const double to = at(step.of[1]);
        do {
            counters_.push_back(k);
            const double x = at(step.of[2]);
            counters_.pop_back();
            result = sums ? result + x : std::max(result, x);
            k += 1;
        } while (k <= to);
        return result;
    }

    const std::vector<Step>& steps_;
    std::span<const double> named_;
    std::vector<Between>* rows_;
    std::vector<double> counters_;
};

Expression::Expression(std::string_view text) {
    last_ = Parser(text, *this).parse_all();
}
Expression::~Expression() = default;
Expression::Expression(Expression&&) noexcept = default;

double Expression::value(std::span<const double> named, std::vector<Between>* rows) const {
    return Calculation(*this, named, rows).at(last_);
}

double Expression::value_by(const std::function<double(std::string_view)>& named,
                            std::vector<Between>* rows) const {
    std::vector<double> values;
    values.reserve(names_.size());
    for (const std::string& name : names_) values.push_back(named(name));
    return value(values, rows);
}

double evaluate(std::string_view expression, const std::function<double(std::string_view)>& named,
                std::vector<Between>* rows) {
    return Expression(expression).value_by(named, rows);
}

std::vector<std::string> terms_of(const std::string& expression) {
    std::vector<std::string> terms(1);
    int depth = 0;
    for (std::size_t i = 0; i < expression.size(); ++i) {
        const char c = expression[i];
        if (c == '(' || c == '[') ++depth;
        if (c == ')' || c == ']') --depth;
        // Between two terms a sign has a space on either side.
        const bool adds =
            depth == 0 && i > 0 &&
            (expression.compare(i - 1, 3, " + ") == 0 || expression.compare(i - 1, 3, " - ") == 0);
        if (adds) {
            terms.back().pop_back();
            terms.emplace_back();
            if (c == '+') ++i;
        }
        if (!adds || c == '-') terms.back() += c;
    }
    return terms;
}

std::vector<std::string> names_in(std::string_view expression) {
    return Expression(expression).names();
}

}  // namespace caseload
