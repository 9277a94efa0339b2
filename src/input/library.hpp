// SPDX-License-Identifier: MIT
// The user's parts, which setups take by name: oils, cores, bearings, joints of the file named by
// `library`, and the cores of [core].
#pragma once

#include "caseload/input.hpp"
#include "input/value.hpp"

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace caseload::input {

/// A value of a setup file or of what it names.
struct Sourced {
    Leaf leaf;
    Origin origin = Origin::yours;
    std::string by;  ///< key that took it from a library; it goes when that key takes another
    /// Of how gears were cut: teeth of the gears it was entered for.
    std::vector<int> cut_teeth{};
};

/// A kind of part in a library, and the key of a setup that takes one by its name.
struct PartKind {
    std::string_view heading;  ///< in the library: [bearing.NAME]
    std::string_view key;      ///< in the setup: bearing.*.from
    std::string_view under;    ///< where its members go: bearing.*.
};
[[nodiscard]] std::span<const PartKind> part_kinds();

/// A member of a part, and the field of the setup it is read as.
struct PartMember {
    std::string_view heading;
    std::string_view name;
    std::string_view field;
    bool need = false;
};
[[nodiscard]] std::span<const PartMember> part_members();

/// Keys of a setup that a part taken by this key replaces, whether it has them or not.
[[nodiscard]] std::vector<std::string> members_taken_by(const std::string& key);

class Library {
public:
    /// Reads a library's text; a part that is there already is replaced as a whole. Throws
    /// Error{input} with every problem of the file.
    void read(std::string_view text, const std::string& name);

    /// Takes the keys that name a known part out of the layer and returns what they stand for, each
    /// value with its place in the library. A core may also be one of the layer or of `under`.
    [[nodiscard]] std::map<std::string, Sourced> taken(
        Leaves& layer, Origin origin, const std::map<std::string, Sourced>& under) const;

    /// Cores and bearings as the setup's [core] and [candidate], unless it has that name itself.
    void offer(std::map<std::string, Sourced>& to) const;

    /// Names of the parts of a kind.
    [[nodiscard]] std::vector<std::string> names(std::string_view heading) const;
    [[nodiscard]] bool holds_file(const std::string& name) const;

private:
    using Part = std::map<std::string, Leaf>;  ///< by member
    std::map<std::string, std::map<std::string, Part>> parts_;
    std::vector<std::string> files_;
};

}  // namespace caseload::input
