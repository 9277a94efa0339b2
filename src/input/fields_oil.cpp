// SPDX-License-Identifier: MIT
// Fields of [oil] and [lubrication].
#include "input/field_rows.hpp"

namespace caseload::input {
namespace {

PumpInput& pump(Setup& s) {
    return there(s.lubrication.pump);
}

constexpr Field oil_rows[] = {
    row("oil.grade", K::grade,
        "a gear-oil grade or an oil of the library; or base_oil, viscosity_40C, "
        "viscosity_100C and density_15C",
        fills<&Setup::oil, &OilInput::grade>),
    row("oil.base_oil", {K::word, "synthetic | mineral"}, "of an oil given by viscosity",
        [](Setup& s, const Item& i) { s.oil.synthetic = i.choice == 0; }),
    row("oil.viscosity_40C", {K::quantity, M::viscosity_mm2ps, {2, 20000}},
        "kinematic viscosity at 40 degC", fills<&Setup::oil, &OilInput::viscosity_40C_mm2ps>),
    row("oil.viscosity_100C", {K::quantity, M::viscosity_mm2ps, {1, 2000}},
        "kinematic viscosity at 100 degC", Example{"16 cSt"},
        fills<&Setup::oil, &OilInput::viscosity_100C_mm2ps>),
    row("oil.density_15C", {K::quantity, M::density_kgpm3, {750, 1200}}, "at 15 degC",
        fills<&Setup::oil, &OilInput::density_15C_kgpm3>),
    row("oil.state", {K::word, "fresh-filtered | fresh | one-event | dirty"},
        "how clean the oil is", Standard{"\"one-event\"", judgement}),
    row("oil.cleanliness", K::text, "ISO 4406 code, in place of the word: \"-/19/16\""),
    row("oil.filter", {K::word, accepted_words<Filter>},
        "in-line: all oil passes it before the bearings", Standard{"\"off-line\"", judgement},
        fills<&Setup::oil, &OilInput::filter>),
    row("oil.fill", {K::quantity, M::volume_L, {0.1, 50}}, "oil in the case and its circuit",
        needed, fills<&Setup::oil, &OilInput::fill_L>),
    row("oil.shear_loss", {K::number, M::share, {0, 0.6}},
        "permanent share of viscosity lost in use", fills<&Setup::oil, &OilInput::shear_loss>),
    row("oil.ep_additive", K::flag, "extreme-pressure additive of proven effect",
        Standard{"true", judgement}, fills<&Setup::oil, &OilInput::ep_additive>),
    row("oil.scuffing_stage", {K::number, {5, 14}},
        "load stage passed in the gear-oil scuffing test, ISO 14635-1", Standard{"12", judgement},
        Credible{"11", "13"}, fills<&Setup::oil, &OilInput::scuffing_stage>),

    row("lubrication.method", {K::word, accepted_words<Method>}, "scavenged: no gear dips",
        Standard{"\"scavenged\"", judgement},
        fills<&Setup::lubrication, &LubricationInput::method>),
    row("lubrication.drain", {K::word, "unknown | good | fair | poor"},
        "how well thrown oil leaves the gears: windage tray and low pickup good, plain box fair, "
        "gears near the oil poor",
        Standard{"\"unknown\"", judgement}),
    row("lubrication.mist_oil_fraction", {K::number, M::share, {0, 0.1}},
        "oil in the air round the gears, by volume",
        fills<&Setup::lubrication, &LubricationInput::mist_oil_fraction>),
    row("lubrication.oil_rehit", {K::number, {0, 10}}, "times the thrown oil meets the teeth again",
        fills<&Setup::lubrication, &LubricationInput::oil_rehit>),
    row("lubrication.jet_speed", {K::quantity, M::speed_mps, {0, 60}}, "of the oil jet at the mesh",
        Standard{"\"20 m/s\"", judgement}, Credible{"\"10 m/s\"", "\"30 m/s\""}, Example{"20 m/s"},
        fills<&Setup::lubrication, &LubricationInput::jet_speed_mps>),
    row("lubrication.side_gap", {K::quantity, M::length_mm, {1, 200}},
        "gear side to wall; left out: 0.1 x pitch radius", Example{"9 mm"},
        fills<&Setup::lubrication, &LubricationInput::side_gap_mm>),
    row("lubrication.depth", {K::quantity, M::length_mm, {1, 300}},
        "immersion of the lowest tip circle, the gears standing still", needed,
        When{"lubrication.method=dip"}, Example{"30 mm"},
        fills<&Setup::lubrication, &LubricationInput::depth_mm>),
    row("lubrication.pump.drive", {K::word, accepted_words<PumpDrive>}, "what turns the pump",
        When{"lubrication.pump"}, Standard{"\"electric\"", judgement},
        fills<pump, &PumpInput::drive>),
    row("lubrication.pump.flow", {K::quantity, M::flow_Lpmin, {0.1, 100}},
        "delivered to the teeth and through the cooler", needed, When{"lubrication.pump"},
        Credible{"\"6 L/min\"", "\"13 L/min\""}, fills<pump, &PumpInput::flow_Lpmin>),
    row("lubrication.pump.rated_speed", {K::quantity, M::turning_rpm, {100, 20000}},
        "input speed of that flow", needed, When{"lubrication.pump.drive=input"},
        fills<pump, &PumpInput::rated_speed_rpm>),
    row("lubrication.pump.pressure", {K::quantity, M::pressure_Pa, {1e4, 3e6}}, "at the pump",
        When{"lubrication.pump"}, Standard{"\"2 bar\"", judgement},
        Credible{"\"1 bar\"", "\"4 bar\""}, fills<pump, &PumpInput::pressure_Pa>),
    row("lubrication.pump.efficiency", {K::number, M::share, {0.1, 0.95}}, "of the pump, overall",
        When{"lubrication.pump"}, Standard{"0.5", judgement}, Credible{"0.35", "0.7"},
        fills<pump, &PumpInput::efficiency>),
    row("lubrication.pump.on_above", {K::quantity, M::temp_degC, {0, 160}},
        "switched on above this oil temperature, off 5 K below", When{"lubrication.pump"},
        Example{"60 degC"}, fills<pump, &PumpInput::on_above_degC>),
};

}  // namespace

std::span<const Field> oil_fields() {
    return oil_rows;
}

}  // namespace caseload::input
