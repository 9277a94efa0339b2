// SPDX-License-Identifier: MIT
// The words of kinds, once: in a setup and JSON, on screens, in tables/why.toml. The field table
// accepts the words listed here.
#pragma once

#include "caseload/model.hpp"

#include <array>
#include <cstddef>
#include <string_view>

namespace caseload {

template <class Enum>
struct KindWords {
    Enum kind;
    std::string_view key;                ///< in a setup and in JSON
    std::string_view shown = {};         ///< on a screen, where that differs
    std::string_view formula_kind = {};  ///< in tables/why.toml; empty: no formula differs by it
};

template <class Enum, std::size_t N>
using KindRows = std::array<KindWords<Enum>, N>;

/// Rows of an enum, in the order in which their words are accepted: specialised below for each.
template <class Enum>
inline constexpr std::nullptr_t kind_rows = nullptr;

template <>
inline constexpr KindRows<OilSupply, 4> kind_rows<OilSupply>{{{OilSupply::jet, "jet"},
                                                              {OilSupply::splash, "splash"},
                                                              {OilSupply::damp, "damp"},
                                                              {OilSupply::mist, "mist"}}};

template <>
inline constexpr KindRows<BearingKind, 6> kind_rows<BearingKind>{
    {{BearingKind::deep_groove_ball, "deep-groove-ball", "deep groove ball", "deep_groove"},
     {BearingKind::angular_contact_ball, "angular-contact-ball", "angular contact ball", "angular"},
     {BearingKind::four_point_ball, "four-point-ball", "four-point ball", "four_point"},
     {BearingKind::cylindrical_roller, "cylindrical-roller", "cylindrical roller", "cylindrical"},
     {BearingKind::tapered_roller, "tapered-roller", "tapered roller", "tapered"},
     {BearingKind::spherical_roller, "spherical-roller", "spherical roller", "spherical"}}};

template <>
inline constexpr KindRows<SealMaterial, 6> kind_rows<SealMaterial>{{{SealMaterial::FKM, "FKM"},
                                                                    {SealMaterial::NBR, "NBR"},
                                                                    {SealMaterial::HNBR, "HNBR"},
                                                                    {SealMaterial::ACM, "ACM"},
                                                                    {SealMaterial::VMQ, "VMQ"},
                                                                    {SealMaterial::PTFE, "PTFE"}}};

template <>
inline constexpr KindRows<SplineFit, 3> kind_rows<SplineFit>{{{SplineFit::piloted, "piloted"},
                                                              {SplineFit::loose, "loose"},
                                                              {SplineFit::sliding, "sliding"}}};

template <>
inline constexpr KindRows<SplineHardness, 3> kind_rows<SplineHardness>{
    {{SplineHardness::soft, "soft"},
     {SplineHardness::surface, "surface", "surface-hardened"},
     {SplineHardness::case_hard, "case", "case-hardened"}}};

template <>
inline constexpr KindRows<ClearanceClass, 5> kind_rows<ClearanceClass>{
    {{ClearanceClass::C2, "C2"},
     {ClearanceClass::CN, "CN"},
     {ClearanceClass::C3, "C3"},
     {ClearanceClass::C4, "C4"},
     {ClearanceClass::C5, "C5"}}};

template <>
inline constexpr KindRows<Facing, 2> kind_rows<Facing>{
    {{Facing::front, "front"}, {Facing::rear, "rear"}}};

template <>
inline constexpr KindRows<Carrier, 2> kind_rows<Carrier>{
    {{Carrier::aluminium, "aluminium"}, {Carrier::steel_retainer, "steel-retainer"}}};

template <>
inline constexpr KindRows<Held, 4> kind_rows<Held>{
    {{Held::none, "none"}, {Held::flange, "flange"}, {Held::pin, "pin"}, {Held::glued, "glued"}}};

template <>
inline constexpr KindRows<HeatCode, 3> kind_rows<HeatCode>{
    {{HeatCode::SN, "SN"}, {HeatCode::S0, "S0"}, {HeatCode::S1, "S1"}}};

template <>
inline constexpr KindRows<CageMaterial, 4> kind_rows<CageMaterial>{
    {{CageMaterial::unknown, "unknown"},
     {CageMaterial::steel, "steel"},
     {CageMaterial::brass, "brass"},
     {CageMaterial::polyamide, "polyamide"}}};

template <>
inline constexpr KindRows<HousingMaterial, 2> kind_rows<HousingMaterial>{
    {{HousingMaterial::aluminium, "aluminium"}, {HousingMaterial::cast_iron, "cast-iron"}}};

template <>
inline constexpr KindRows<End, 2> kind_rows<End>{{{End::front, "front"}, {End::rear, "rear"}}};

template <>
inline constexpr KindRows<Filter, 3> kind_rows<Filter>{
    {{Filter::in_line, "in-line"}, {Filter::off_line, "off-line"}, {Filter::none, "none"}}};

template <>
inline constexpr KindRows<Method, 2> kind_rows<Method>{
    {{Method::scavenged, "scavenged"}, {Method::dip, "dip"}}};

template <>
inline constexpr KindRows<PumpDrive, 2> kind_rows<PumpDrive>{
    {{PumpDrive::electric, "electric"}, {PumpDrive::input, "input"}}};

template <>
inline constexpr KindRows<LegKind, 2> kind_rows<LegKind>{
    {{LegKind::drive, "drive"}, {LegKind::stop, "stop"}}};

template <>
inline constexpr KindRows<LoadSource, 4> kind_rows<LoadSource>{{{LoadSource::course, "course"},
                                                                {LoadSource::entered, "entered"},
                                                                {LoadSource::logged, "logged"},
                                                                {LoadSource::track, "track"}}};

template <>
inline constexpr KindRows<CourseModel, 2> kind_rows<CourseModel>{
    {{CourseModel::fixed, "fixed"}, {CourseModel::segments, "segments"}}};

template <>
inline constexpr KindRows<DrivingStyle, 3> kind_rows<DrivingStyle>{
    {{DrivingStyle::finish, "finish"},
     {DrivingStyle::quick, "quick"},
     {DrivingStyle::flat_out, "flat-out"}}};

template <>
inline constexpr KindRows<Driven, 2> kind_rows<Driven>{
    {{Driven::all, "all"}, {Driven::rear, "rear"}}};

template <>
inline constexpr KindRows<GearboxKind, 3> kind_rows<GearboxKind>{
    {{GearboxKind::manual, "manual"},
     {GearboxKind::sequential, "sequential"},
     {GearboxKind::automatic, "automatic"}}};

template <>
inline constexpr KindRows<Fuel, 5> kind_rows<Fuel>{{{Fuel::petrol, "petrol"},
                                                    {Fuel::race_petrol, "race-petrol"},
                                                    {Fuel::e85, "e85"},
                                                    {Fuel::methanol, "methanol"},
                                                    {Fuel::diesel, "diesel"}}};

template <>
inline constexpr KindRows<Engine, 2> kind_rows<Engine>{
    {{Engine::off, "off"}, {Engine::idle, "idle"}}};

template <>
inline constexpr KindRows<Support, 3> kind_rows<Support>{
    {{Support::straddled, "straddled"}, {Support::hub, "hub"}, {Support::overhung, "overhung"}}};

template <>
inline constexpr KindRows<ReadingPlace, 4> kind_rows<ReadingPlace>{
    {{ReadingPlace::scavenge_line, "scavenge-line"},
     {ReadingPlace::oil_bath, "oil-bath"},
     {ReadingPlace::housing_below_oil, "housing-below-oil"},
     {ReadingPlace::housing_above_oil, "housing-above-oil"}}};

template <>
inline constexpr KindRows<Hand, 2> kind_rows<Hand>{{{Hand::right, "right"}, {Hand::left, "left"}}};

/// The row of a kind; each has one.
template <class Enum>
constexpr const KindWords<Enum>& words_for(Enum kind) {
    std::size_t row = 0;
    while (kind_rows<Enum>.at(row).kind != kind) ++row;
    return kind_rows<Enum>.at(row);
}

namespace kinds_detail {

inline constexpr std::string_view between = " | ";

template <class Enum>
constexpr std::size_t joined_size() {
    std::size_t size = between.size() * (kind_rows<Enum>.size() - 1);
    for (const KindWords<Enum>& row : kind_rows<Enum>) size += row.key.size();
    return size;
}

template <class Enum>
constexpr std::array<char, joined_size<Enum>()> joined() {
    std::array<char, joined_size<Enum>()> text{};
    std::size_t at = 0;
    for (const KindWords<Enum>& row : kind_rows<Enum>) {
        if (at > 0)
            for (const char c : between) text[at++] = c;
        for (const char c : row.key) text[at++] = c;
    }
    return text;
}

template <class Enum>
inline constexpr auto joined_text = joined<Enum>();

}  // namespace kinds_detail

/// The words of an enum as the field table lists them: "jet | splash | damp | mist".
template <class Enum>
inline constexpr std::string_view accepted_words{kinds_detail::joined_text<Enum>.data(),
                                                 kinds_detail::joined_text<Enum>.size()};

}  // namespace caseload
