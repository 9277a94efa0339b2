// SPDX-License-Identifier: MIT
// The small grammar of tables/why.toml, read from left to right.
#include "caseload/why.hpp"

#include <fast_float/fast_float.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace caseload {
namespace {

bool of_name(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
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
    throw std::invalid_argument("no function " + std::string(name));
}

/// lin(x, x1, y1, x2, y2 ...): linear between the points, held beyond the ends.
double between(const std::vector<double>& x) {
    const double at = x[0];
    if (at <= x[1]) return x[2];
    for (std::size_t i = 3; i < x.size(); i += 2) {
        if (at > x[i]) continue;
        return x[i - 1] + (at - x[i - 2]) / (x[i] - x[i - 2]) * (x[i + 1] - x[i - 1]);
    }
    return x.back();
}

double call(std::string_view name, const std::vector<double>& x) {
    if (name == "if" && x.size() == 3) return x[0] != 0 ? x[1] : x[2];
    if (name == "min" && x.size() == 2) return std::min(x[0], x[1]);
    if (name == "max" && x.size() == 2) return std::max(x[0], x[1]);
    if (name == "lin" && x.size() >= 5 && x.size() % 2 == 1) return between(x);
    if (x.size() == 1) return one(name, x[0]);
    throw std::invalid_argument("no function " + std::string(name) + " of so many");
}

class Reader {
public:
    Reader(std::string_view text, const std::function<double(std::string_view)>& named)
        : text_(text), named_(named) {}

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
            const std::string address(text_.substr(0, end + 1));
            text_.remove_prefix(end + 1);
            return named_(address);
        }
        std::size_t n = 0;
        while (n < text_.size() && of_name(text_[n])) ++n;
        if (n == 0) throw std::invalid_argument("no number or name: " + std::string(text_));
        const std::string name(text_.substr(0, n));
        text_.remove_prefix(n);
        if (!take('(')) return name == "pi" ? std::numbers::pi : named_(name);
        std::vector<double> x{compared()};
        while (take(',')) x.push_back(compared());
        need(')');
        return call(name, x);
    }

    std::string_view text_;
    const std::function<double(std::string_view)>& named_;
};

}  // namespace

double evaluate(std::string_view expression, const std::function<double(std::string_view)>& named) {
    return Reader(expression, named).whole();
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
