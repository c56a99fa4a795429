/* unit_table.c - every unit that is read, with its exact factor.
 *
 * Source of all factors: NIST SP 811 (2008), Appendix B, from the definitions
 * 1 in = 25.4 mm, 1 lb = 0.45359237 kg, g0 = 9.80665 m/s2, 1 gal (US) = 231
 * in3, 1 gal (UK) = 4.54609 L, 1 BTU (IT) = 1055.05585262 J. "Conventional"
 * columns of mercury and water carry SP 811's printed figures. hp is 550 ft
 * lbf/s. */
#include "calc/unit_table.h"

/* clang-format off */

/* Powers of m, kg, s, A, K, revolution. */
#define LENGTH        {{1, 0, 0, 0, 0, 0}, false}
#define AREA          {{2, 0, 0, 0, 0, 0}, false}
#define VOLUME        {{3, 0, 0, 0, 0, 0}, false}
#define MASS          {{0, 1, 0, 0, 0, 0}, false}
#define TIME          {{0, 0, 1, 0, 0, 0}, false}
#define CURRENT       {{0, 0, 0, 1, 0, 0}, false}
#define DIFFERENCE    {{0, 0, 0, 0, 1, 0}, false}
#define TEMPERATURE   {{0, 0, 0, 0, 1, 0}, true}
#define ANGLE         {{0, 0, 0, 0, 0, 1}, false}
#define RATIO         {{0, 0, 0, 0, 0, 0}, false}
#define VOLTAGE       {{2, 1, -3, -1, 0, 0}, false}
#define RESISTANCE    {{2, 1, -3, -2, 0, 0}, false}
#define CONDUCTANCE   {{-2, -1, 3, 2, 0, 0}, false}
#define PER_LENGTH    {{1, 1, -3, -2, 0, 0}, false} /* resistance over length */
#define CHARGE        {{0, 0, 1, 1, 0, 0}, false}
#define CAPACITANCE   {{-2, -1, 4, 2, 0, 0}, false}
#define INDUCTANCE    {{2, 1, -2, -2, 0, 0}, false}
#define POWER         {{2, 1, -3, 0, 0, 0}, false}
#define ENERGY        {{2, 1, -2, 0, 0, 0}, false}
#define FORCE         {{1, 1, -2, 0, 0, 0}, false}
#define PRESSURE      {{-1, 1, -2, 0, 0, 0}, false}
#define SPEED         {{1, 0, -1, 0, 0, 0}, false}
#define FLOW          {{3, 0, -1, 0, 0, 0}, false}
#define FREQUENCY     {{0, 0, -1, 0, 0, 0}, false}
#define ROTATION      {{0, 0, -1, 0, 0, 1}, false}

#define INCH 0.0254
#define FOOT 0.3048
#define LBF 4.4482216152605       /* 0.45359237 kg * 9.80665 m/s2 */
#define LBF_FT 1.3558179483314004 /* LBF * 0.3048 m */
#define GALLON 3.785411784e-3     /* 231 in3 */
#define PI 3.14159265358979323846

const struct unit unit_table[] = {
    {"A", "A", CURRENT, 1, 0, UNIT_BOTH},
    {"mA", "mA", CURRENT, 1e-3, 0, UNIT_BOTH},
    {"uA", "µA", CURRENT, 1e-6, 0, UNIT_BOTH},
    {"kA", "kA", CURRENT, 1e3, 0, UNIT_BOTH},
    {"V", "V", VOLTAGE, 1, 0, UNIT_BOTH},
    {"mV", "mV", VOLTAGE, 1e-3, 0, UNIT_BOTH},
    {"uV", "µV", VOLTAGE, 1e-6, 0, UNIT_BOTH},
    {"kV", "kV", VOLTAGE, 1e3, 0, UNIT_BOTH},
    {"ohm", "Ω", RESISTANCE, 1, 0, UNIT_BOTH},
    {"mohm", "mΩ", RESISTANCE, 1e-3, 0, UNIT_BOTH},
    {"uohm", "µΩ", RESISTANCE, 1e-6, 0, UNIT_BOTH},
    {"kohm", "kΩ", RESISTANCE, 1e3, 0, UNIT_BOTH},
    {"Mohm", "MΩ", RESISTANCE, 1e6, 0, UNIT_BOTH},
    {"S", "S", CONDUCTANCE, 1, 0, UNIT_BOTH},
    {"ohm/m", "Ω/m", PER_LENGTH, 1, 0, UNIT_SI},
    {"mohm/m", "mΩ/m", PER_LENGTH, 1e-3, 0, UNIT_SI},
    {"ohm/km", "Ω/km", PER_LENGTH, 1e-3, 0, UNIT_SI},
    {"ohm/ft", "Ω/ft", PER_LENGTH, 1 / FOOT, 0, UNIT_CUSTOMARY},
    {"mohm/ft", "mΩ/ft", PER_LENGTH, 1e-3 / FOOT, 0, UNIT_CUSTOMARY},
    {"ohm/kft", "Ω/kft", PER_LENGTH, 1e-3 / FOOT, 0, UNIT_CUSTOMARY},
    {"W/m", "W/m", {{1, 1, -3, 0, 0, 0}, false}, 1, 0, UNIT_SI},
    {"W/ft", "W/ft", {{1, 1, -3, 0, 0, 0}, false}, 1 / FOOT, 0, UNIT_CUSTOMARY},
    {"W", "W", POWER, 1, 0, UNIT_BOTH},
    {"mW", "mW", POWER, 1e-3, 0, UNIT_BOTH},
    {"kW", "kW", POWER, 1e3, 0, UNIT_BOTH},
    {"hp", "hp", POWER, 745.69987158227022, 0, UNIT_CUSTOMARY},
    {"PS", "metric hp", POWER, 735.49875, 0, UNIT_SI},
    {"BTU/h", "BTU/h", POWER, 1055.05585262 / 3600, 0, UNIT_CUSTOMARY},
    {"J", "J", ENERGY, 1, 0, UNIT_BOTH},
    {"kJ", "kJ", ENERGY, 1e3, 0, UNIT_BOTH},
    {"MJ", "MJ", ENERGY, 1e6, 0, UNIT_BOTH},
    {"Wh", "W·h", ENERGY, 3600, 0, UNIT_BOTH},
    {"kWh", "kW·h", ENERGY, 3.6e6, 0, UNIT_BOTH},
    {"BTU", "BTU", ENERGY, 1055.05585262, 0, UNIT_CUSTOMARY},
    {"Ah", "A·h", CHARGE, 3600, 0, UNIT_BOTH},
    {"mAh", "mA·h", CHARGE, 3.6, 0, UNIT_BOTH},
    {"C", "C", CHARGE, 1, 0, UNIT_BOTH},
    {"F", "F", CAPACITANCE, 1, 0, UNIT_BOTH},
    {"mF", "mF", CAPACITANCE, 1e-3, 0, UNIT_BOTH},
    {"uF", "µF", CAPACITANCE, 1e-6, 0, UNIT_BOTH},
    {"nF", "nF", CAPACITANCE, 1e-9, 0, UNIT_BOTH},
    {"pF", "pF", CAPACITANCE, 1e-12, 0, UNIT_BOTH},
    {"H", "H", INDUCTANCE, 1, 0, UNIT_BOTH},
    {"mH", "mH", INDUCTANCE, 1e-3, 0, UNIT_BOTH},
    {"uH", "µH", INDUCTANCE, 1e-6, 0, UNIT_BOTH},

    {"m", "m", LENGTH, 1, 0, UNIT_SI},
    {"cm", "cm", LENGTH, 1e-2, 0, UNIT_SI},
    {"mm", "mm", LENGTH, 1e-3, 0, UNIT_SI},
    {"um", "µm", LENGTH, 1e-6, 0, UNIT_SI},
    {"km", "km", LENGTH, 1e3, 0, UNIT_SI},
    {"in", "in", LENGTH, INCH, 0, UNIT_CUSTOMARY},
    {"ft", "ft", LENGTH, FOOT, 0, UNIT_CUSTOMARY},
    {"yd", "yd", LENGTH, 0.9144, 0, UNIT_CUSTOMARY},
    {"mi", "mi", LENGTH, 1609.344, 0, UNIT_CUSTOMARY},
    {"mil", "mil", LENGTH, 2.54e-5, 0, UNIT_CUSTOMARY},
    {"mm2", "mm²", AREA, 1e-6, 0, UNIT_SI},
    {"cm2", "cm²", AREA, 1e-4, 0, UNIT_SI},
    {"m2", "m²", AREA, 1, 0, UNIT_SI},
    {"in2", "in²", AREA, 6.4516e-4, 0, UNIT_CUSTOMARY},
    {"ft2", "ft²", AREA, 0.09290304, 0, UNIT_CUSTOMARY},
    {"cmil", "cmil", AREA, PI / 4 * 6.4516e-10, 0, UNIT_CUSTOMARY},
    {"kcmil", "kcmil", AREA, PI / 4 * 6.4516e-7, 0, UNIT_CUSTOMARY},
    {"L", "L", VOLUME, 1e-3, 0, UNIT_SI},
    {"mL", "mL", VOLUME, 1e-6, 0, UNIT_SI},
    {"m3", "m³", VOLUME, 1, 0, UNIT_SI},
    {"cm3", "cm³", VOLUME, 1e-6, 0, UNIT_SI},
    {"in3", "in³", VOLUME, 1.6387064e-5, 0, UNIT_CUSTOMARY},
    {"ft3", "ft³", VOLUME, 0.028316846592, 0, UNIT_CUSTOMARY},
    {"gal", "gal", VOLUME, GALLON, 0, UNIT_CUSTOMARY},
    {"qt", "qt", VOLUME, 9.46352946e-4, 0, UNIT_CUSTOMARY},
    {"pt", "pt", VOLUME, 4.73176473e-4, 0, UNIT_CUSTOMARY},
    {"fl.oz", "fl oz", VOLUME, 2.95735295625e-5, 0, UNIT_CUSTOMARY},
    {"UKgal", "UK gal", VOLUME, 4.54609e-3, 0, UNIT_CUSTOMARY},
    {"UKpt", "UK pt", VOLUME, 5.6826125e-4, 0, UNIT_CUSTOMARY},

    {"kg", "kg", MASS, 1, 0, UNIT_SI},
    {"g", "g", MASS, 1e-3, 0, UNIT_SI},
    {"mg", "mg", MASS, 1e-6, 0, UNIT_SI},
    {"t", "t", MASS, 1e3, 0, UNIT_SI},
    {"lb", "lb", MASS, 0.45359237, 0, UNIT_CUSTOMARY},
    {"oz", "oz", MASS, 0.028349523125, 0, UNIT_CUSTOMARY},
    {"ton", "ton", MASS, 907.18474, 0, UNIT_CUSTOMARY},
    {"long.ton", "long ton", MASS, 1016.0469088, 0, UNIT_CUSTOMARY},
    {"slug", "slug", MASS, LBF / FOOT, 0, UNIT_CUSTOMARY},

    {"N", "N", FORCE, 1, 0, UNIT_SI},
    {"kN", "kN", FORCE, 1e3, 0, UNIT_SI},
    {"lbf", "lbf", FORCE, LBF, 0, UNIT_CUSTOMARY},
    {"ozf", "ozf", FORCE, 0.27801385095378125, 0, UNIT_CUSTOMARY},
    {"kip", "kip", FORCE, 4448.2216152605, 0, UNIT_CUSTOMARY},
    {"kgf", "kgf", FORCE, 9.80665, 0, UNIT_SI},
    {"N.m", "N·m", ENERGY, 1, 0, UNIT_SI},
    {"N.cm", "N·cm", ENERGY, 1e-2, 0, UNIT_SI},
    {"N.mm", "N·mm", ENERGY, 1e-3, 0, UNIT_SI},
    {"kN.m", "kN·m", ENERGY, 1e3, 0, UNIT_SI},
    {"lbf.ft", "lbf·ft", ENERGY, LBF_FT, 0, UNIT_CUSTOMARY},
    {"lbf.in", "lbf·in", ENERGY, 0.1129848290276167, 0, UNIT_CUSTOMARY},
    {"ozf.in", "ozf·in", ENERGY, 7.06155181422604375e-3, 0, UNIT_CUSTOMARY},
    {"kgf.m", "kgf·m", ENERGY, 9.80665, 0, UNIT_SI},
    {"kgf.cm", "kgf·cm", ENERGY, 0.0980665, 0, UNIT_SI},

    {"Pa", "Pa", PRESSURE, 1, 0, UNIT_SI},
    {"hPa", "hPa", PRESSURE, 1e2, 0, UNIT_SI},
    {"kPa", "kPa", PRESSURE, 1e3, 0, UNIT_SI},
    {"MPa", "MPa", PRESSURE, 1e6, 0, UNIT_SI},
    {"GPa", "GPa", PRESSURE, 1e9, 0, UNIT_SI},
    {"bar", "bar", PRESSURE, 1e5, 0, UNIT_SI},
    {"mbar", "mbar", PRESSURE, 1e2, 0, UNIT_SI},
    {"psi", "psi", PRESSURE, LBF / 6.4516e-4, 0, UNIT_CUSTOMARY},
    {"ksi", "ksi", PRESSURE, LBF / 6.4516e-7, 0, UNIT_CUSTOMARY},
    {"kgf/cm2", "kgf/cm²", PRESSURE, 98066.5, 0, UNIT_SI},
    {"atm", "atm", PRESSURE, 101325, 0, UNIT_BOTH},
    {"inHg", "inHg", PRESSURE, 3386.389, 0, UNIT_CUSTOMARY},
    {"mmHg", "mmHg", PRESSURE, 133.3224, 0, UNIT_BOTH},
    {"inH2O", "inH₂O", PRESSURE, 249.0889, 0, UNIT_CUSTOMARY},

    {"degC", "°C", TEMPERATURE, 1, 273.15, UNIT_SI},
    {"degF", "°F", TEMPERATURE, 1 / 1.8, 459.67 / 1.8, UNIT_CUSTOMARY},
    {"K", "K", DIFFERENCE, 1, 0, UNIT_SI},
    {"degF.diff", "°F", DIFFERENCE, 1 / 1.8, 0, UNIT_CUSTOMARY},

    {"s", "s", TIME, 1, 0, UNIT_BOTH},
    {"ms", "ms", TIME, 1e-3, 0, UNIT_BOTH},
    {"us", "µs", TIME, 1e-6, 0, UNIT_BOTH},
    {"min", "min", TIME, 60, 0, UNIT_BOTH},
    {"h", "h", TIME, 3600, 0, UNIT_BOTH},
    {"d", "d", TIME, 86400, 0, UNIT_BOTH},

    {"m/s", "m/s", SPEED, 1, 0, UNIT_SI},
    {"km/h", "km/h", SPEED, 1 / 3.6, 0, UNIT_SI},
    {"mph", "mi/h", SPEED, 0.44704, 0, UNIT_CUSTOMARY},
    {"ft/s", "ft/s", SPEED, FOOT, 0, UNIT_CUSTOMARY},
    {"ft/min", "ft/min", SPEED, FOOT / 60, 0, UNIT_CUSTOMARY},
    {"knot", "kn", SPEED, 1852.0 / 3600, 0, UNIT_BOTH},
    {"L/min", "L/min", FLOW, 1e-3 / 60, 0, UNIT_SI},
    {"L/h", "L/h", FLOW, 1e-3 / 3600, 0, UNIT_SI},
    {"mL/min", "mL/min", FLOW, 1e-6 / 60, 0, UNIT_SI},
    {"m3/h", "m³/h", FLOW, 1 / 3600.0, 0, UNIT_SI},
    {"gal/min", "gal/min", FLOW, GALLON / 60, 0, UNIT_CUSTOMARY},
    {"gal/h", "gal/h", FLOW, GALLON / 3600, 0, UNIT_CUSTOMARY},
    {"ft3/min", "ft³/min", FLOW, 0.028316846592 / 60, 0, UNIT_CUSTOMARY},
    {"Hz", "Hz", FREQUENCY, 1, 0, UNIT_BOTH},
    {"kHz", "kHz", FREQUENCY, 1e3, 0, UNIT_BOTH},
    {"MHz", "MHz", FREQUENCY, 1e6, 0, UNIT_BOTH},
    {"rpm", "r/min", ROTATION, 1 / 60.0, 0, UNIT_BOTH},
    {"rad/s", "rad/s", ROTATION, 1 / (2 * PI), 0, UNIT_SI},
    {"deg", "°", ANGLE, 1 / 360.0, 0, UNIT_BOTH},
    {"rad", "rad", ANGLE, 1 / (2 * PI), 0, UNIT_SI},
    {"turn", "turn", ANGLE, 1, 0, UNIT_BOTH},
    {"%", "%", RATIO, 1e-2, 0, UNIT_BOTH},
    {"1", "", RATIO, 1, 0, UNIT_BOTH},
    {0},
};

const struct unit_spelling unit_spelling_table[] = {
    {"amp", "A"}, {"amps", "A"}, {"ampere", "A"}, {"amperes", "A"},
    {"volt", "V"}, {"volts", "V"}, {"watt", "W"}, {"watts", "W"},
    {"ohms", "ohm"}, {"milliohm", "mohm"}, {"milliohms", "mohm"},
    {"kilohm", "kohm"}, {"megohm", "Mohm"},
    {"ohm/1000ft", "ohm/kft"}, {"HP", "hp"}, {"horsepower", "hp"},
    {"BHP", "hp"}, {"bhp", "hp"}, {"hp.metric", "PS"}, {"metric.hp", "PS"},
    {"Btu", "BTU"}, {"btu", "BTU"}, {"Btu/h", "BTU/h"}, {"BTU/hr", "BTU/h"},
    {"W.h", "Wh"}, {"kW.h", "kWh"}, {"A.h", "Ah"}, {"mA.h", "mAh"},
    {"AH", "Ah"}, {"MFD", "uF"}, {"mfd", "uF"},
    {"metre", "m"}, {"metres", "m"}, {"meter", "m"}, {"meters", "m"},
    {"\"", "in"}, {"inch", "in"}, {"inches", "in"}, {"'", "ft"},
    {"foot", "ft"}, {"feet", "ft"}, {"yard", "yd"}, {"yards", "yd"},
    {"mile", "mi"}, {"miles", "mi"}, {"mils", "mil"}, {"thou", "mil"},
    {"micron", "um"}, {"microns", "um"},
    {"sq.mm", "mm2"}, {"sqmm", "mm2"}, {"sq.cm", "cm2"}, {"sq.m", "m2"},
    {"sq.in", "in2"}, {"sqin", "in2"}, {"sq.ft", "ft2"}, {"sqft", "ft2"},
    {"circular.mil", "cmil"}, {"circular.mils", "cmil"}, {"CM", "cmil"},
    {"MCM", "kcmil"},
    {"l", "L"}, {"liter", "L"}, {"liters", "L"}, {"litre", "L"},
    {"litres", "L"}, {"ml", "mL"}, {"cc", "cm3"}, {"ccm", "cm3"},
    {"cu.in", "in3"}, {"cu.ft", "ft3"}, {"cu.cm", "cm3"},
    {"gallon", "gal"}, {"gallons", "gal"}, {"US.gal", "gal"},
    {"USgal", "gal"}, {"gal.US", "gal"}, {"quart", "qt"}, {"quarts", "qt"},
    {"pint", "pt"}, {"pints", "pt"}, {"floz", "fl.oz"},
    {"UK.gal", "UKgal"}, {"gal.UK", "UKgal"}, {"imp.gal", "UKgal"},
    {"impgal", "UKgal"}, {"imperial.gallon", "UKgal"},
    {"imperial.gallons", "UKgal"}, {"UK.pt", "UKpt"}, {"imp.pt", "UKpt"},
    {"kilo", "kg"}, {"kilos", "kg"}, {"kilogram", "kg"}, {"kilograms", "kg"},
    {"gram", "g"}, {"grams", "g"}, {"lbs", "lb"}, {"lbm", "lb"},
    {"pound", "lb"}, {"pounds", "lb"}, {"ounce", "oz"}, {"ounces", "oz"},
    {"tons", "ton"}, {"short.ton", "ton"}, {"short.tons", "ton"},
    {"US.ton", "ton"}, {"long.tons", "long.ton"}, {"UK.ton", "long.ton"},
    {"tonne", "t"}, {"tonnes", "t"}, {"metric.ton", "t"}, {"metric.tons", "t"},
    {"newton", "N"}, {"newtons", "N"}, {"pounds.force", "lbf"},
    {"pound.force", "lbf"}, {"kips", "kip"},
    {"Nm", "N.m"}, {"m.N", "N.m"}, {"Ncm", "N.cm"}, {"Nmm", "N.mm"},
    {"kNm", "kN.m"}, {"newton.metre", "N.m"}, {"newton.metres", "N.m"},
    {"newton.meter", "N.m"}, {"newton.meters", "N.m"},
    {"ft.lbf", "lbf.ft"}, {"lb.ft", "lbf.ft"}, {"ft.lb", "lbf.ft"},
    {"lbs.ft", "lbf.ft"}, {"ft.lbs", "lbf.ft"}, {"lbft", "lbf.ft"},
    {"ftlb", "lbf.ft"}, {"ftlbs", "lbf.ft"}, {"lbfft", "lbf.ft"},
    {"ftlbf", "lbf.ft"}, {"foot.pound", "lbf.ft"}, {"foot.pounds", "lbf.ft"},
    {"pound.foot", "lbf.ft"}, {"pound.feet", "lbf.ft"},
    {"in.lbf", "lbf.in"}, {"lb.in", "lbf.in"}, {"in.lb", "lbf.in"},
    {"lbs.in", "lbf.in"}, {"in.lbs", "lbf.in"}, {"lbin", "lbf.in"},
    {"inlb", "lbf.in"}, {"inlbs", "lbf.in"}, {"lbfin", "lbf.in"},
    {"inlbf", "lbf.in"}, {"inch.pound", "lbf.in"}, {"inch.pounds", "lbf.in"},
    {"pound.inch", "lbf.in"}, {"pound.inches", "lbf.in"},
    {"in.ozf", "ozf.in"}, {"oz.in", "ozf.in"}, {"in.oz", "ozf.in"},
    {"m.kgf", "kgf.m"}, {"kg.m", "kgf.m"}, {"kgm", "kgf.m"},
    {"m.kg", "kgf.m"}, {"cm.kgf", "kgf.cm"}, {"kg.cm", "kgf.cm"},
    {"kgcm", "kgf.cm"},
    {"N/mm2", "MPa"}, {"N/m2", "Pa"}, {"lbf/in2", "psi"}, {"PSI", "psi"},
    {"lb/in2", "psi"}, {"psig", "psi"}, {"kg/cm2", "kgf/cm2"},
    {"in.Hg", "inHg"}, {"mm.Hg", "mmHg"}, {"in.H2O", "inH2O"},
    {"inWC", "inH2O"}, {"in.WC", "inH2O"},
    {"deg.C", "degC"}, {"deg.F", "degF"}, {"celsius", "degC"},
    {"Celsius", "degC"}, {"fahrenheit", "degF"}, {"Fahrenheit", "degF"},
    {"degrees.C", "degC"}, {"degrees.F", "degF"}, {"kelvin", "K"},
    {"sec", "s"}, {"secs", "s"}, {"second", "s"}, {"seconds", "s"},
    {"msec", "ms"}, {"mins", "min"}, {"minute", "min"}, {"minutes", "min"},
    {"hr", "h"}, {"hrs", "h"}, {"hour", "h"}, {"hours", "h"}, {"day", "d"},
    {"days", "d"},
    {"kph", "km/h"}, {"kmh", "km/h"}, {"km/hr", "km/h"}, {"mi/h", "mph"},
    {"MPH", "mph"}, {"knots", "knot"}, {"kn", "knot"},
    {"lpm", "L/min"}, {"l/min", "L/min"}, {"l/h", "L/h"},
    {"ml/min", "mL/min"}, {"gpm", "gal/min"}, {"gph", "gal/h"},
    {"gal/hr", "gal/h"}, {"cfm", "ft3/min"}, {"CFM", "ft3/min"},
    {"r/min", "rpm"}, {"rev/min", "rpm"}, {"RPM", "rpm"}, {"turn/min", "rpm"},
    {"degree", "deg"}, {"degrees", "deg"}, {"rev", "turn"}, {"revs", "turn"},
    {"turns", "turn"}, {"percent", "%"}, {"per.cent", "%"},
    {0},
};
