// SPDX-License-Identifier: MIT
// A log held as text, for the reader that takes bytes.
#pragma once

#include "caseload/duty/event.hpp"
#include "caseload/duty/log.hpp"

#include <algorithm>
#include <cstring>
#include <string>
#include <utility>

namespace duty_test {

class Text : public caseload::duty::Bytes {
public:
    explicit Text(std::string text) : text_(std::move(text)) {}
    std::size_t read(char* to, std::size_t at_most) override {
        const std::size_t count = read_at(at_, to, at_most);
        at_ += count;
        return count;
    }
    std::optional<std::uint64_t> size() const override { return text_.size(); }
    std::size_t read_at(std::uint64_t offset, char* to, std::size_t at_most) override {
        const std::size_t from = std::min(static_cast<std::size_t>(offset), text_.size());
        const std::size_t count = std::min(at_most, text_.size() - from);
        std::memcpy(to, text_.data() + from, count);
        return count;
    }

private:
    std::string text_;
    std::size_t at_ = 0;
};

/// The car of the logs: 20 m/s are 200 rad/s at the case, as r / (axle x drop) = 0.5 / (5 x 1) =
/// 0.1 m.
inline caseload::duty::DutyOptions with_car() {
    caseload::duty::Car car;
    car.vehicle.mass_kg = 2000;
    car.vehicle.rolling_radius_m = 0.5;
    car.vehicle.axle_ratio = 5;
    car.vehicle.engine_power_W = 100e3;
    car.vehicle.drag_area_m2 = 1;
    car.drop_ratio = 1;
    car.air_density_kgpm3 = 1.2;
    caseload::duty::DutyOptions options;
    options.car = car;
    return options;
}

inline caseload::duty::DutyAnswer read(const std::string& text,
                                       const caseload::duty::DutyOptions& options = {}) {
    Text bytes(text);
    return caseload::duty::read_duty(bytes, "log.csv", options);
}

}  // namespace duty_test
