// SPDX-License-Identifier: MIT
#include "input/courses.hpp"

#include "caseload/tables.hpp"

#include <cstddef>
#include <map>

namespace caseload::input {
namespace {

constexpr std::string_view course_folder = "courses/";
constexpr std::string_view course_ending = ".toml";

CourseLine read_line(const Value& row) {
    std::map<std::string, double> members;
    for (const auto& [name, value] : row.members) members[name] = value.number;
    return {members.at("share"), members.at("pace"), members.at("resistance"), members.at("grade"),
            members.at("acceleration")};
}

pace::Ground read_ground(const Leaves& leaves) {
    const auto number = [&](const std::string& name) {
        return leaves.at("ground." + name).value.number;
    };
    const std::vector<Value>& resistance = leaves.at("ground.resistance").value.items;
    pace::Ground ground;
    ground.roughness_m3 = number("roughness") / 1e6;
    ground.roughness_spread = number("roughness_spread");
    ground.resistance_low = resistance.at(0).number;
    ground.resistance_high = resistance.at(1).number;
    ground.grade = number("grade");
    ground.slow_spots_pkm = number("slow_spots");
    ground.slow_speed_mps = number("slow_speed");
    ground.slow_spread = number("slow_spread");
    ground.grip = number("grip");
    ground.slip = number("slip");
    ground.cap_mps = number("cap");
    if (leaves.count("ground.throttle") == 1) ground.throttle = number("throttle");
    ground.unevenness = number("unevenness");
    ground.step = number("step");
    return ground;
}

CourseShocks read_shocks(const Leaves& leaves) {
    const auto end = [&](std::size_t k) {
        const auto number = [&](const char* key) {
            return leaves.at(key).value.items.at(k).number;
        };
        return pace::ShockSpectrum{number("shocks.per_h"), number("shocks.decay"),
                                   number("shocks.max")};
    };
    return {end(0), end(1), end(2), leaves.at("shocks.wheel_load").value.number};
}

Course read_course(const EmbeddedTable& table) {
    const Leaves leaves = parse_leaves(table.text, std::string(table.path));
    const std::vector<Value>& pace = leaves.at("pace").value.items;
    Course course;
    course.pace = {pace.at(0), toml_text(pace.at(1)), toml_text(pace.at(2))};
    course.overload = leaves.at("overload").value.number;
    course.peaks_per_h = leaves.at("peaks_per_h").value.number;
    for (const Value& row : leaves.at("lines").value.items) course.lines.push_back(read_line(row));
    course.description = leaves.at("ground.description").value.text;
    course.ground = read_ground(leaves);
    course.shocks = read_shocks(leaves);
    return course;
}

}  // namespace

const Course& course(const std::string& name) {
    static const std::map<std::string, Course> all = [] {
        std::map<std::string, Course> courses;
        for (const EmbeddedTable& table : embedded_tables()) {
            if (table.path.substr(0, course_folder.size()) != course_folder) continue;
            const std::string_view file = table.path.substr(course_folder.size());
            courses[std::string(file.substr(0, file.size() - course_ending.size()))] =
                read_course(table);
        }
        return courses;
    }();
    return all.at(name);
}

}  // namespace caseload::input
