// SPDX-License-Identifier: MIT
#pragma once

#include "caseload/input.hpp"
#include "caseload/pace.hpp"
#include "caseload/units.hpp"
#include "input/courses.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>

namespace caseload {

inline Document example(const std::string& name) {
    const std::filesystem::path folder = std::string(CASELOAD_ROOT) + "/docs/examples";
    const auto text = [](const std::filesystem::path& path) {
        std::ifstream in(path, std::ios::binary);
        return std::string(std::istreambuf_iterator<char>(in), {});
    };
    return {text(folder / name), name, [folder, text](const std::string& base) {
                return std::optional<std::string>(text(folder / base));
            }};
}

inline ReadSetup read_example(const std::string& name) {
    return example(name).complete();
}

/// A lap on rough desert of a truck with three gears, the slowest to calculate.
inline pace::Lap example_lap() {
    pace::Car car;
    car.mass_kg = 2900;
    car.tyre_m = 1.016;
    car.wheel_travel_m = 0.70;
    car.engine_power_W = W_from_hp(850);
    car.axle_ratio = 5.43;
    car.case_ratio = 49.0 / 37;
    pace::Gearbox gearbox;
    gearbox.ratios = {2.48, 1.48, 1.00};
    gearbox.converter = true;
    gearbox.limiter_rpm = 6800;
    car.gearbox = gearbox;
    return pace::lap(car, input::course("rough-desert").ground, {});
}

}  // namespace caseload
