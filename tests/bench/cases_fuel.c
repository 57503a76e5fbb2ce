#include "cases.h"

#include <stddef.h>

#define CASE(ID, CALC, GIVEN, OUT, IS, WITHIN, MARK, SOURCE)                                       \
    {                                                                                              \
        ID, CALC, GIVEN, OUT, IS, WITHIN, MARK, SOURCE                                             \
    }
#define CONVERT(ID, VALUE, TO, FIGURES, IS, MARK)                                                  \
    {                                                                                              \
        ID, "convert", "value=" VALUE "; to=" TO "; figures=" FIGURES, "is", IS, NULL, MARK,       \
            "NIST SP 811"                                                                          \
    }
#define SEAL(ID, CALC, GIVEN, OUT, IS, WITHIN, MARK)                                               \
    {                                                                                              \
        ID, CALC, GIVEN, OUT, IS, WITHIN, MARK, seals                                              \
    }

static const char doe[] = "US Department of Energy property table", geometry[] = "geometry",
                  colebrook[] = "Colebrook's equation, solved elsewhere",
                  darcy[] = "Darcy and Weisbach", seals[] = "definition, reckoned",
                  v8[] = "workshop manual of a V8 truck", cars[] = "workshop manuals of small cars";

#define WATER                                                                                      \
    "flow=0.02 m3/s; bore=0.1 m; length=200 m; roughness=0.26 mm; density=1; viscosity=1; lift=0"
#define PETROL      "flow=20 L/h; bore=8; length=3; lift=0.6"
#define PETROL_FAST "flow=100 L/h; bore=8; length=4"
#define V8          "least=28 kPa; most=34 kPa; least-flow=940 mL/min; "
#define LYING       "shape=round; length=1000; width=500; "
#define RING                                                                                       \
    "section=0.139 in; section-tolerance=0.004 in; depth=0.112 in; depth-tolerance=0.001 in"

const struct bench_case cases_fuel[] = {
    CASE("3.01", "carburettor-air", "displacement=440 cu in; engine-speed=6000; filling=90", "air",
         "687.5 cfm", "0.1 cfm", MARK_PUBLISHED, "a tuner's worked example"),
    CASE("3.02", "carburettor-air", "displacement=350 cu in; engine-speed=5500", "air", "473.5 cfm",
         "0.2 cfm", MARK_NONE, "the same formula, reckoned"),
    CASE("3.03", "fuel-need", "power=250", "flow", "20.5 US gal/h", "0.1 US gal/h", MARK_NONE,
         "reckoned"),
    CASE("3.04", "fuel-blend", "ethanol=0", "energy", "115000", "0.1 %", MARK_PUBLISHED, doe),
    CASE("3.04", "fuel-blend", "ethanol=0", "density", "0.749", "4 %", MARK_PUBLISHED, doe),
    CASE("3.05", "fuel-blend", "ethanol=100 %", "energy", "76000", "0.1 %", MARK_PUBLISHED, doe),
    CASE("3.05", "fuel-blend", "ethanol=100 %", "density", "0.792", "0.1 %", MARK_PUBLISHED, doe),
    CASE("3.05", "fuel-blend", "ethanol=100 %", "air-fuel", "9.0", "0.01", MARK_PUBLISHED, doe),
    CASE("3.06", "fuel-blend", "ethanol=10", "energy", "111100", "0.1 %", MARK_NONE, doe),
    CASE("3.06", "fuel-blend", "ethanol=10", "less-energy", "3.4 %", "0.0005", MARK_NONE, doe),
    CASE("3.07", "fuel-blend", "ethanol=10", "air-fuel", "14.1", "0.05", MARK_NONE, doe),
    CASE("3.08", "fuel-blend", "", "burns-between", "1.4 to 7.6 %", NULL, MARK_PUBLISHED, doe),
    CASE("3.08", "fuel-blend", "", "flash-point", "-45 F", "0.1 F", MARK_PUBLISHED, doe),
    CASE("3.08", "fuel-blend", "", "self-ignition", "495 F", "0.1 F", MARK_PUBLISHED, doe),
    CASE("3.09", "pipe-friction", "reynolds=1e5; roughness=1e-4", "friction", "0.01851", "0.5 %",
         MARK_NONE, colebrook),
    CASE("3.09", "pipe-friction", "reynolds=1e5; roughness=1e-3", "friction", "0.02217", "0.5 %",
         MARK_NONE, colebrook),
    CASE("3.10", "pipe-friction", "reynolds=1e4", "friction", "0.03088", "0.5 %", MARK_NONE,
         colebrook),
    CASE("3.10", "pipe-friction", "reynolds=5e3", "friction", "0.03739", "0.5 %", MARK_NONE,
         colebrook),
    CASE("3.11", "fuel-line", WATER, "reynolds", "254600", "1 %", MARK_NONE, darcy),
    CASE("3.11", "fuel-line", WATER, "friction", "0.02574", "1 %", MARK_NONE, darcy),
    CASE("3.11", "fuel-line", WATER, "head", "17.0 m", "1 %", MARK_NONE, darcy),
    CASE("3.11", "fuel-line", WATER, "loss", "166.8 kPa", "1 %", MARK_NONE, darcy),
    CASE("3.12", "fuel-line", PETROL, "reynolds", "1317", "2 %", MARK_NONE, darcy),
    CASE("3.12", "fuel-line", PETROL, "loss", "83 Pa", "2 %", MARK_NONE, darcy),
    CASE("3.12", "fuel-line", PETROL, "kind", "laminar", NULL, MARK_NONE, darcy),
    CASE("3.13", "fuel-line", PETROL_FAST, "reynolds", "6587", "3 %", MARK_NONE, darcy),
    CASE("3.13", "fuel-line", PETROL_FAST, "friction", "0.0346", "3 %", MARK_NONE, darcy),
    CASE("3.13", "fuel-line", PETROL_FAST, "loss", "1.97 kPa", "3 %", MARK_NONE, darcy),
    CASE("3.14", "fuel-line", PETROL, "lift-loss", "4.38 kPa", "1 %", MARK_NONE, "hydrostatics"),
    CASE("3.14", "fuel-line", PETROL, "lift-loss", "0.64 psi", "1 %", MARK_NONE, "hydrostatics"),
    CASE("3.15", "tank-volume", LYING "depth=125", "volume", "38.4 L", "0.1 L", MARK_NONE,
         geometry),
    CASE("3.15", "tank-volume", LYING "depth=125", "share", "19.55 %", "0.1 %", MARK_NONE,
         geometry),
    CASE("3.16", "tank-volume", LYING "depth=250", "volume", "98.2 L", "0.1 L", MARK_NONE,
         geometry),
    CASE("3.16", "tank-volume", LYING "depth=250", "share", "50 %", "0.1 %", MARK_NONE, geometry),
    CASE("3.17", "tank-volume", "shape=oval; length=800; width=600; height=400; depth=100",
         "volume", "29.5 L", "0.1 L", MARK_NONE, geometry),
    CASE("3.17", "tank-volume", "shape=oval; length=800; width=600; height=400", "full", "150.8 L",
         "0.1 L", MARK_NONE, geometry),
    CASE("", "tank-volume", "length=800; width=400; height=200; depth=50", "volume", "16 L",
         "0.01 L", MARK_NONE, geometry),
    CASE("", "tank-volume", "shape=upright; width=560; height=860", "full", "211.8 L", "0.1 L",
         MARK_NONE, geometry),
    CASE("", "tank-volume", LYING "depth=600", "refused", "depth: the tank is only", NULL,
         MARK_NONE, geometry),
    CASE("3.18", "pump-test", V8 "pressure=31 kPa; delivered=470 mL", "verdict", "good", NULL,
         MARK_PUBLISHED, v8),
    CASE("3.18", "pump-test", V8 "pressure=27 kPa", "verdict", "bad", NULL, MARK_PUBLISHED, v8),
    CASE("3.18", "pump-test", V8 "pressure=35 kPa", "verdict", "bad", NULL, MARK_PUBLISHED, v8),
    CASE("3.18", "pump-test", V8 "delivered=460 mL", "verdict", "bad", NULL, MARK_PUBLISHED, v8),
    CASE("3.19", "pump-test", "least=2.8; most=3.6; pressure=3.2", "verdict", "good", NULL,
         MARK_PUBLISHED, cars),
    CASE("3.19", "pump-test", "least=2.84; most=3.84; pressure=2.8", "verdict", "bad", NULL,
         MARK_PUBLISHED, cars),
    CASE("3.19", "pump-test", "delivered=1.1 US qt; time=1 min; least-flow=1.1 US qt/min",
         "verdict", "good", NULL, MARK_PUBLISHED, cars),
    CASE("3.20", "pump-test", "vacuum=15 inHg", "verdict", "good", NULL, MARK_PUBLISHED,
         "workshop manual"),
    CASE("3.20", "pump-test", "vacuum=14.9 inHg", "verdict", "bad", NULL, MARK_PUBLISHED,
         "workshop manual"),
    CASE("", "fuel-pump", "flow=30 L/h; pump=6 psi; carburettor=sidedraught", "regulator", "needed",
         NULL, MARK_PRACTICE, "over 4 psi"),
    CASE("", "fuel-pump", "flow=30 L/h; pump=5 psi", "verdict", "good", NULL, MARK_PRACTICE,
         "4 to 7 psi"),
    CASE("12.06", "range", "tank=50; miles-per-us-gallon=25", "per-100km", "9.4086", "0.01 %",
         MARK_NONE, "NIST SP 811"),
    CASE("12.06", "range", "tank=50; miles-per-us-gallon=25", "km-per-litre", "10.6286", "0.01 %",
         MARK_NONE, "NIST SP 811"),
    CASE("", "range", "tank=50; litres-per-100km=10; reserve=0", "range", "500 km", "0.1 %",
         MARK_NONE, "reckoned"),
    CASE("", "range", "tank=50", "refused", "litres-per-100km: ", NULL, MARK_NONE, "nothing given"),
    {NULL, NULL, NULL, NULL, NULL, NULL, MARK_NONE, NULL},
};

const struct bench_case cases_seals[] = {
    SEAL("9.01", "seal-compression", "kind=solid-rubber; free=2.0; gap=1.5", "compression", "25 %",
         "0.001", MARK_PUBLISHED),
    SEAL("9.02", "o-ring", RING, "squeeze", "19.4 %", "0.002", MARK_NONE),
    SEAL("9.02", "o-ring", RING, "least-squeeze", "16.3 %", "0.002", MARK_NONE),
    SEAL("9.02", "o-ring", RING, "most-squeeze", "22.4 %", "0.002", MARK_NONE),
    SEAL("9.02", "o-ring", RING, "least-by", "0.022 in", "0.0001 in", MARK_MEMORY),
    SEAL("9.02", "o-ring", RING, "most-by", "0.032 in", "0.0001 in", MARK_MEMORY),
    SEAL("9.03", "o-ring", "section=3.53; depth=2.90", "squeeze", "17.8 %", "0.001", MARK_NONE),
    SEAL("9.04", "o-ring", "section=3.53; depth=2.90; ring-inside=21.5; groove-diameter=22",
         "stretch", "2.33 %", "0.0005", MARK_NONE),
    SEAL("9.05", "o-ring", "section=0.139 in; depth=0.112 in; groove-width=0.187 in", "fill",
         "72.5 %", "0.002", MARK_NONE),
    SEAL("", "o-ring", "section=3.53; depth=3.5; depth-tolerance=0.1", "verdict", "bad", NULL,
         MARK_NONE),
    SEAL("9.06", "seal-compression", "free=12; gap=9; other-gap=5", "compression", "25 %", "0.005",
         MARK_NONE),
    SEAL("9.06", "seal-compression", "free=12; gap=9; other-gap=5", "other-compression", "58 %",
         "0.005", MARK_NONE),
    SEAL("9.06", "seal-compression", "free=12; gap=9; other-gap=5", "verdict", "care", NULL,
         MARK_NONE),
    SEAL("9.07", "seal-force", "force=8; length=3.2", "to-close", "256 N", "1 N", MARK_NONE),
    SEAL("9.08", "gasket", "width=0.125 in; diameter=4.2 in; material=hard-rubber", "seating-load",
         "330 lbf", "0.5 %", MARK_MEMORY),
    SEAL("9.08", "gasket", "width=0.125 in; diameter=4.2 in", "seating-load", "6103 lbf", "0.5 %",
         MARK_MEMORY),
    SEAL("", "glass-channel", "glass=5; mouth=3", "verdict", "good", NULL, MARK_PRACTICE),
    CONVERT("12.01", "75 lbf ft", "Nm", "6", "101.686 Nm", MARK_NONE),
    CONVERT("12.02", "120 Nm", "lbf ft", "6", "88.5075 lbf ft", MARK_NONE),
    CONVERT("12.03", "32 psi", "kPa", "6", "220.632 kPa", MARK_NONE),
    CONVERT("12.04", "1 kgf/cm2", "psi", "6", "14.2233 psi", MARK_NONE),
    CONVERT("12.05", "180 F", "C", "5", "82.222", MARK_NONE),
    CONVERT("12.07", "1 hp", "kW", "9", "0.745699872 kW", MARK_PUBLISHED),
    CONVERT("12.08", "1 US gal", "L", "10", "3.785411784 L", MARK_PUBLISHED),
    CONVERT("12.09", "1 psi", "kPa", "10", "6.894757293 kPa", MARK_PUBLISHED),
    {"", "convert", "value=5 psi; to=mm", "refused", "value: ", NULL, MARK_NONE,
     "another quantity"},
    {"", "convert", "value=5 psi; to=furlong", "refused", "to: no unit", NULL, MARK_NONE,
     "unknown"},
    {NULL, NULL, NULL, NULL, NULL, NULL, MARK_NONE, NULL},
};
