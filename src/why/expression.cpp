// SPDX-License-Identifier: MIT
// The small grammar of tables/why.toml, read from left to right.
#include "caseload/why.hpp"

#include <fast_float/fast_float.h>
#include <boost/math/special_functions/bessel.hpp>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>
#include <utility>

namespace caseload {
namespace {

bool of_name(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

double one(std::string_view name, double x) {
    if (name == "sqrt") return std::sqrt(x);
    if (name == "exp") return std::exp(x);
    if (name == "ln") return std::log(x);
    if (name == "log10") return std::log10(x);
    if (name == "sin") return std::sin(x);
    if (name == "cos") return std::cos(x);
    if (name == "tan") return std::tan(x);
    if (name == "asin") return std::asin(x);
    if (name == "acos") return std::acos(x);
    if (name == "atan") return std::atan(x);
    if (name == "abs") return std::fabs(x);
    if (name == "floor") return std::floor(x);
    throw std::invalid_argument("no function " + std::string(name));
}

/// lin(x, x1, y1, x2, y2 ...): linear between the points, held beyond the ends.
Between between(const std::vector<double>& x) {
    const double at = x[0];
    if (at <= x[1]) return {at, x[1], x[2], x[1], x[2]};
    for (std::size_t i = 3; i < x.size(); i += 2)
        if (at <= x[i]) return {at, x[i - 2], x[i - 1], x[i], x[i + 1]};
    const std::size_t last = x.size() - 2;
    return {at, x[last], x[last + 1], x[last], x[last + 1]};
}

double taken(const Between& rows) {
    if (!(rows.high_at > rows.low_at)) return rows.low;
    return rows.low +
           (rows.at - rows.low_at) / (rows.high_at - rows.low_at) * (rows.high - rows.low);
}

/// Modified Bessel function of the first kind.
double besseli(double order, double x) {
    using Plain = boost::math::policies::policy<boost::math::policies::promote_double<false>>;
    return boost::math::cyl_bessel_i(order, x, Plain());
}

double call(std::string_view name, const std::vector<double>& x) {
    if (name == "atan2" && x.size() == 2) return std::atan2(x[0], x[1]);
    if (name == "besseli" && x.size() == 2) return besseli(x[0], x[1]);
    if (name == "min" && x.size() == 2) return std::min(x[0], x[1]);
    if (name == "max" && x.size() == 2) return std::max(x[0], x[1]);
    if (x.size() == 1) return one(name, x[0]);
    throw std::invalid_argument("no function " + std::string(name) + " of so many");
}

class Reader {
public:
    Reader(std::string_view text, const std::function<double(std::string_view)>& named,
           std::vector<Between>* rows)
        : text_(text), named_(named), rows_(rows) {}

    double whole() {
        const double x = compared();
        if (peek() != '\0') throw std::invalid_argument("left over: " + std::string(text_));
        return x;
    }

private:
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

    double compared() {
        const double x = sum();
        if (!take('<')) return x;
        return x < sum() ? 1 : 0;
    }
    double sum() {
        double x = product();
        for (;;) {
            if (take('+'))
                x += product();
            else if (take('-'))
                x -= product();
            else
                return x;
        }
    }
    double product() {
        double x = signed_power();
        for (;;) {
            if (take('*'))
                x *= signed_power();
            else if (take('/'))
                x /= signed_power();
            else
                return x;
        }
    }
    double signed_power() {
        if (take('-')) return -signed_power();
        const double x = atom();
        return take('^') ? std::pow(x, signed_power()) : x;
    }
    double atom() {
        if (take('(')) {
            const double x = compared();
            need(')');
            return x;
        }
        const char c = peek();
        if (std::isdigit(static_cast<unsigned char>(c)) != 0) {
            double x = 0;
            const auto read = fast_float::from_chars(text_.data(), text_.data() + text_.size(), x);
            text_.remove_prefix(static_cast<std::size_t>(read.ptr - text_.data()));
            return x;
        }
        if (c == '[') {
            const std::size_t end = text_.find(']');
            if (end == std::string_view::npos) throw std::invalid_argument("wanted ]");
            const std::string_view address = text_.substr(0, end + 1);
            text_.remove_prefix(end + 1);
            return named_(address);
        }
        std::size_t n = 0;
        while (n < text_.size() && of_name(text_[n])) ++n;
        if (n == 0) throw std::invalid_argument("no number or name: " + std::string(text_));
        const std::string_view name = text_.substr(0, n);
        text_.remove_prefix(n);
        if (!take('(')) return value_of(name);
        if (name == "if") return either();
        if (name == "sum" || name == "largest") return over(name == "sum");
        std::vector<double> x{compared()};
        while (take(',')) x.push_back(compared());
        need(')');
        if (name != "lin" || x.size() < 5 || x.size() % 2 == 0) return call(name, x);
        const Between rows = between(x);
        if (rows_ != nullptr) rows_->push_back(rows);
        return taken(rows);
    }
    double value_of(std::string_view name) {
        for (auto counter = counters_.rbegin(); counter != counters_.rend(); ++counter)
            if (counter->first == name) return counter->second;
        return name == "pi" ? std::numbers::pi : named_(name);
    }
    [[nodiscard]] std::size_t rows_so_far() const { return rows_ == nullptr ? 0 : rows_->size(); }
    void drop_rows(std::size_t from, std::size_t to) {
        if (rows_ == nullptr) return;
        rows_->erase(rows_->begin() + static_cast<std::ptrdiff_t>(from),
                     rows_->begin() + static_cast<std::ptrdiff_t>(to));
    }
    /// if(condition, then, else): both are read, the rows of tables of one count.
    double either() {
        const bool holds = compared() != 0;
        need(',');
        const std::size_t before = rows_so_far();
        const double then = compared();
        need(',');
        const std::size_t middle = rows_so_far();
        const double otherwise = compared();
        need(')');
        if (holds)
            drop_rows(middle, rows_so_far());
        else
            drop_rows(before, middle);
        return holds ? then : otherwise;
    }
    /// sum(k, from, to, term), largest(k, from, to, term): k counts by 1.
    double over(bool sums) {
        peek();
        std::size_t n = 0;
        while (n < text_.size() && of_name(text_[n])) ++n;
        const std::string_view counter = text_.substr(0, n);
        text_.remove_prefix(n);
        need(',');
        const double from = compared();
        need(',');
        const double to = compared();
        need(',');
        const std::string_view term = text_;
        double result = sums ? 0 : -std::numeric_limits<double>::infinity();
        double k = from;
        do {
            text_ = term;
            counters_.emplace_back(counter, k);
            const double x = compared();
            counters_.pop_back();
            result = sums ? result + x : std::max(result, x);
            k += 1;
        } while (k <= to);
        need(')');
        return result;
    }

    std::string_view text_;
    const std::function<double(std::string_view)>& named_;
    std::vector<Between>* rows_;
    std::vector<std::pair<std::string_view, double>>
        counters_;  ///< of sum and largest, inner ones last
};

}  // namespace

double evaluate(std::string_view expression, const std::function<double(std::string_view)>& named,
                std::vector<Between>* rows) {
    return Reader(expression, named, rows).whole();
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
    std::vector<std::string> names;
    const std::function<double(std::string_view)> note = [&](std::string_view name) {
        if (std::find(names.begin(), names.end(), name) == names.end()) names.emplace_back(name);
        return 1.0;
    };
    evaluate(expression, note);
    return names;
}

}  // namespace caseload
