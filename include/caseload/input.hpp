// SPDX-License-Identifier: MIT
// Setup text -> Setup. One field table drives the reader, `complete`, `new` and the key reference.
#pragma once

#include "caseload/error.hpp"
#include "caseload/model.hpp"
#include "caseload/note.hpp"

#include <array>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace caseload {

enum class Origin {
    yours,      ///< in the file named on the command line
    base_file,  ///< in a file named by `base`
    pattern,    ///< from a built-in pattern
    preset,     ///< the number of an entered word
    standard,   ///< default of the field table
    estimated,  ///< from other entries by a named rule
    changed,    ///< from the command line
};

/// One completed entry of the setup: value, where it came from, and how far off it may be.
struct Entry {
    std::string key;  ///< dotted, for example "housing.air_speed_share"
    std::string
        field;  ///< its key pattern, "bearing.*.oil": assumptions of one pattern move together
    std::string toml;    ///< the value as TOML text, valid in a setup file
    std::string number;  ///< the same for people: "0.35", "16 mm"
    Origin origin = Origin::standard;
    Where where;        ///< line of the file for yours, base_file
    std::string words;  ///< what the field means
    std::string
        source;        ///< of a default or preset: bibliography key, "judgement", "common practice"
    std::string low;   ///< TOML text of the lower end of the plausible range; "" if none stated
    std::string high;  ///< upper end
    /// Key whose word "unknown" gives this number, or assumed_seats; "" for any other.
    std::string by;
};

/// What the rings that nothing is said of have in common.
inline constexpr std::string_view assumed_seats = "bearing.*.seat";
/// Outside of the boss assumed round a ring of this outside diameter; none where no fit is assumed,
/// as its class is not known.
std::optional<double> assumed_boss_mm(double ring_outside_mm);

struct ReadSetup {
    Setup setup;
    std::vector<Entry> entries;  ///< in the order of the field table
    Notes notes;
    std::vector<std::string> case_sums;  ///< what [measured] remembers of the case it was made of
    int count_yours = 0;                 ///< entries of the file itself
    int count_assumed = 0;               ///< all others that carry a value somebody had to choose
};

/// A change on top of the file: "housing.place" = "\"open\"" (TOML value text).
struct Change {
    std::string key;
    std::string toml;
};

/// Finds the text of `base = "name"`: file beside the setup. Returns nothing if there is none.
using FindBase = std::function<std::optional<std::string>(const std::string& name)>;

/// A setup text parsed and merged with its bases, before defaults. Cheap to complete many times.
class Document {
public:
    Document(std::string_view text, const std::string& name, const FindBase& find_base);
    ~Document();
    Document(Document&&) noexcept;
    Document& operator=(Document&&) noexcept;
    Document(const Document&) = delete;
    Document& operator=(const Document&) = delete;

    /// Validates, fills defaults and presets, builds the Setup. Throws Error{input} with every
    /// problem of meaning found.
    [[nodiscard]] ReadSetup complete(std::span<const Change> changes = {}) const;

private:
    friend class FewChanged;
    struct Data;
    std::unique_ptr<Data> data_;
};

/// A document for setups that differ from it in few entries. Several threads may use it at once.
class FewChanged {
public:
    /// The document must be complete, and outlive this.
    explicit FewChanged(const Document& document);
    ~FewChanged();
    FewChanged(const FewChanged&) = delete;
    FewChanged& operator=(const FewChanged&) = delete;

    /// Document::complete(changes).setup, faster: an entry on which no other one depends
    /// replaces the old one. Throws what complete() throws.
    [[nodiscard]] Setup setup(std::span<const Change> changes) const;
    [[nodiscard]] Setup setup(const Change& change) const { return setup({&change, 1}); }

private:
    struct Data;
    std::unique_ptr<const Data> data_;
};

/// Document(...).complete().
ReadSetup read_setup(std::string_view text, const std::string& name, const FindBase& find_base);

/// What a core of this size and construction (plate-fin | tube-fin) is estimated to have:
/// conductance, and the flows it is valid at. Source: judgement, tables/presets.toml.
struct CoreEstimate {
    double conductance_WpK;
    CoolerRating at;  ///< no heat: that depends on the oil
};
CoreEstimate estimated_core(const CoreInput& core);

/// Both streams of a core at its rating, air at sea level.
struct RatedStreams {
    double oil_kgps = 0;
    double oil_WpK = 0;     ///< capacity flow
    double air_kgpsm2 = 0;  ///< through the face
    double air_WpK = 0;     ///< capacity flow
};
RatedStreams rated_streams(const CoolerInput& cooler, const OilInput& oil);

/// A value with its unit from the command line ("165 km/h"), read as the key pattern's own value.
/// Throws Error{input} that names the option.
double read_option(std::string_view option, std::string_view pattern, std::string_view text);

/// Three lengths, "280x150x45 mm", alike.
std::array<double, 3> read_size_option(std::string_view option, std::string_view text);

/// The completed setup as a valid setup file, each value with its origin as a comment.
std::string completed_text(const ReadSetup& read);

/// The ten-entry setup `caseload new` writes.
std::string new_setup_text();

/// The key reference (docs/input.md), generated from the field table.
std::string key_reference();

}  // namespace caseload
