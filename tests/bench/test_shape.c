/* What physics knows of the shape of a sum: where one input alone grows, an output only rises, or
 * only falls. Each is walked over the whole range of the input. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "bench/solve.h"

#include <string.h>

enum way { RISES = 1, FALLS = -1 };
static const struct shape {
    const char *calc, *given, *input, *output; /* given: as in cases.h, the input left out */
    int way;                                   /* enum way */
} shapes[] = {
    {"metric-thread", "diameter=12 mm", "pitch", "stress-area", FALLS},
    {"tap-drill", "thread=M8", "share", "hole", FALLS},
    {"bolt-torque", "thread=M8", "share", "torque", RISES},
    {"bolt-torque", "thread=M8", "k", "torque", RISES},
    {"bolt-preload", "thread=M8", "torque", "tension", RISES},
    {"bolt-preload", "thread=M8; torque=20 Nm", "k", "tension", FALLS},
    {"torque-by-friction", "thread=M8; preload=10 kN", "thread-friction", "torque", RISES},
    {"torque-by-friction", "thread=M8; preload=10 kN", "face-friction", "stretch-share", FALLS},
    {"coil-insert", "thread=M8", "diameters", "drilled-depth", RISES},
    {"wire", "wire=2.5 mm2", "temperature", "resistance", RISES},
    {"voltage-drop", "wire=2.5 mm2; current=8", "length", "drop", RISES},
    {"voltage-drop", "wire=2.5 mm2; length=3 m", "current", "lamp-light", FALLS},
    {"wire-size", "length=3 m", "current", "least-area", RISES},
    {"wire-size", "current=10 A; length=3 m", "drop", "least-area", FALLS},
    {"fuse", "", "power", "fuse", RISES},
    {"lamps", "power=55 W", "fed", "light", RISES},
    {"charge-budget", "generator=22 A", "headlamps", "night-spare", FALLS},
    {"charge-budget", "", "generator", "idle-spare", RISES},
    {"cranking", "", "current", "at-starter", FALLS},
    {"cranking", "current=150 A", "temperature", "least", RISES},
    {"battery-state", "", "volts", "charge", RISES},
    {"battery-state", "", "gravity", "charge", RISES},
    {"gassing", "", "current", "air", RISES},
    {"gassing", "current=10 A", "limit", "air", FALLS},
    {"coil", "resistance=3 ohm", "ballast", "current", FALLS},
    {"dwell", "cylinders=4", "dwell", "closed-time", RISES},
    {"fuel-line", "flow=20 L/h", "length", "loss", RISES},
    {"fuel-line", "flow=20 L/h", "lift", "together", RISES},
    {"pipe-friction", "reynolds=1e5", "roughness", "friction", RISES},
    {"tank-volume", "shape=round; length=1 m; width=0.5 m", "depth", "volume", RISES},
    {"tank-volume", "shape=oval; length=1 m; width=0.5 m; height=1.2 m", "depth", "share", RISES},
    {"fuel-blend", "", "ethanol", "energy", FALLS},
    {"fuel-blend", "", "ethanol", "air-fuel", FALLS},
    {"range", "tank=50 L", "litres-per-100km", "range", FALLS},
    {"o-ring", "section=3.53 mm", "depth", "squeeze", FALLS},
    {"seal-compression", "free=12 mm", "gap", "compression", FALLS},
    {"coil-spring", "mean=110; coils=8", "wire", "rate", RISES},
    {"coil-spring", "wire=12.5; mean=110", "coils", "rate", FALLS},
    {"coil-spring", "wire=12.5; coils=8; load=400", "mean", "squash", RISES},
    {"leaf-spring", "leaves=7; width=60; thickness=7", "span", "rate", FALLS},
    {"leaf-pack", "leaves=7; width=60; load=600; span=1100", "thickness", "stress", FALLS},
    {"torsion-bar", "length=1000; arm=300", "diameter", "rate", RISES},
    {"torsion-bar", "diameter=25; length=1000", "arm", "rate", FALLS},
    {"wheel-rate", "spring=40", "lean", "wheel-rate", FALLS},
    {"wheel-rate", "spring=40", "tyre", "ride-rate", RISES},
    {"ride-frequency", "rate=25", "mass", "frequency", FALLS},
    {"ride-height", "load=300; old-rate=25", "new-rate", "rises", RISES},
    {"ride-height", "load=300; old-rate=25", "more-load", "rises", FALLS},
    {"ride-height", "load=300; old-rate=25", "longer", "rises", RISES},
    {"centre-of-gravity", "whole=1200; rear=500; wheelbase=2400; gain=50", "tilt", "height", FALLS},
    {"jack-and-stands", "", "mass", "each-stand", RISES},
    {"toe", "diameter=600", "angle", "toe-in", RISES},
    {"camber", "rim=350", "offset", "camber", RISES},
    {"castor", "in=-1", "out", "castor", RISES},
    {"displacement", "stroke=88; cylinders=4", "bore", "displacement", RISES},
    {"compression-ratio", "bore=80; stroke=88; chamber=40", "gasket", "ratio", FALLS},
    {"compression-ratio", "bore=80; stroke=88; chamber=60", "dish", "ratio", FALLS},
    {"piston-speed", "stroke=88", "engine-speed", "piston-speed", RISES},
    {"power", "torque=200 Nm", "engine-speed", "power", RISES},
    {"power-correction", "temperature=20 C", "barometer", "factor", FALLS},
    {"power-correction", "rule=iso-1585; barometer=980 hPa", "temperature", "factor", RISES},
    {"power-correction", "rule=std; barometer=980 hPa; temperature=20 C", "vapour", "factor",
     RISES},
    {"expansion", "length=460", "hot", "difference", RISES},
    {"leak-down", "held=80 psi", "fed", "worst", RISES},
    {"oil-pressure", "pressure=30 psi", "engine-speed", "least", RISES},
    {"ring-gap", "", "bore", "least-gap", RISES},
    {"timing", "rim=150", "advance", "along-rim", RISES},
    {"coolant-flow", "heat=40", "antifreeze", "flow", RISES},
    {"coolant-flow", "heat=40", "drop", "flow", FALLS},
    {"coolant-boiling", "", "cap", "boils", RISES},
    {"coolant-boiling", "cap=7", "altitude", "boils", FALLS},
    {"coolant-boiling", "cap=7", "antifreeze", "boils", RISES},
    {"antifreeze", "share=30", "coldest", "needed", FALLS},
    {"coolant-mix", "system=10 L; now=20 %", "strength", "drain", FALLS},
    {"cooling-test", "rating=15; pumped=15", "left", "fall", FALLS},
    {"valve-lash", "shim=3 mm", "lash", "new-shim", RISES},
    {"axle-loads", "front=700; rear=500; wheelbase=2500; load=200", "behind-front", "on-front",
     FALLS},
    {"axle-loads", "front=700; rear=500; wheelbase=2500; nose=75", "overhang", "on-rear", RISES},
    {"trailer-nose", "trailer=6000", "nose", "share", RISES},
    {"car-on-trailer", "car=900; car-rear=400; wheelbase=2250; trailer=400; drawbar=4000", "share",
     "ahead", RISES},
    {"payload", "gross=30000; unladen=1000", "luggage", "left", FALLS},
    {"tie-down", "load=1500; rating=1500", "angle", "pull", RISES},
    {"brake-pedal", "force=300", "master", "pressure", FALLS},
    {"brake-pedal", "force=300; master=20", "booster", "pressure", RISES},
    {"disc-brake", "pressure=50; piston=54; radius=110", "friction", "torque", RISES},
    {"drum-brake", "radius=150; pivot=125; width=40; arm=216; shoe-force=2 kN", "friction",
     "leading-torque", RISES},
    {"drum-brake", "radius=150; pivot=125; width=40; arm=216; shoe-force=2 kN", "friction",
     "factor", RISES},
    {"master-cylinder", "bore=25; stroke=30; front-cylinder=25; rear-cylinder=20", "wear", "spare",
     FALLS},
    {"master-cylinder", "stroke=30; front-cylinder=25", "bore", "pedal-travel", FALLS},
    {"brake-balance", "mass=1400; front-load=48 %; wheelbase=2500; height=550", "deceleration",
     "ideal-front", RISES},
    {"brake-balance", "mass=1400; front-load=48 %; wheelbase=2500; height=550; front-brakes=68 %",
     "deceleration", "rear-grip", RISES},
    {"brake-balance", "mass=1400; front-load=48 %; wheelbase=2500; height=550; front-brakes=68 %",
     "grip", "first-lock", RISES},
    {"stopping-distance", "", "speed", "distance", RISES},
    {"stopping-distance", "speed=80", "deceleration", "distance", FALLS},
    {"brake-rule", "place=un; year=2000", "speed", "limit", RISES},
    {"brake-road-test", "speed=100; to-eight-tenths=28", "to-one-tenth", "deceleration", FALLS},
    {"roller-test", "mass=1100", "total", "efficiency", RISES},
    {"park-brake", "mass=1500", "grade", "hold", RISES},
    {"park-brake", "mass=1500", "force", "steepest", RISES},
    {"road-speed", "tyre=185/60R14; axle=3.9", "engine-speed", "speed", RISES},
    {"road-speed", "tyre=6.00-16", "axle", "speed", FALLS},
    {"road-speed", "axle=3.9", "diameter", "turns-a-mile", FALLS},
    {"speedometer", "shows=60; old-diameter=600", "new-diameter", "true-speed", RISES},
    {"shaft-speed", "outside=75; wall=2", "length", "critical", FALLS},
    {"shaft-speed", "wall=1; length=1400", "outside", "critical", RISES},
    {"shaft-speed", "outside=75; length=1400", "wall", "critical", FALLS},
    {"joint", "", "angle", "fluctuation", RISES},
    {"joint", "angle=3", "speed", "allowed", FALLS},
    {"joint-angles", "front-side=2", "front-top", "front", RISES},
    {"clutch", "outside=230; inside=150", "clamp", "bedded", RISES},
    {"clutch", "clamp=5000; outside=230", "inside", "bedded", RISES},
    {"cone-clutch", "torque=200; large=330; small=306", "width", "spring", FALLS},
    {"dropping-resistor", "power=20 W", "supply", "resistor", RISES},
};

static struct arena arena;

static void read_given(const struct calc *c, const char *given, struct calc_value *in)
{
    const char *typed[CALC_VALUES] = {NULL};
    struct fail f = {0};
    for (; *given; given += strspn(given, "; ")) {
        const size_t n = strcspn(given, ";"), name = strcspn(given, "=");
        const int i = calc_input_index(c, arena_copy_n(&arena, given, name));
        if (i < 0) fail_msg("%s: no input in '%s'", c->name, given);
        typed[i] = arena_copy_n(&arena, given + name + 1, n - name - 1);
        given += n;
    }
    for (int i = 0; c->inputs[i].name; i++) /* one that is missing is the one walked over */
        calc_read(&arena, &c->inputs[i], typed[i], &in[i], &f);
}

static void shapes_hold(void **state)
{
    (void)state;
    enum { POINTS = 200 };
    for (size_t s = 0; s < sizeof shapes / sizeof *shapes; s++) {
        const struct shape *p = &shapes[s];
        const struct calc *c = calc_find(p->calc);
        if (!c) fail_msg("no sum '%s'", p->calc);
        struct calc_value in[CALC_VALUES] = {{0}};
        double x[POINTS], y[POINTS];
        read_given(c, p->given, in);
        const int input = calc_input_index(c, p->input), output = calc_output_index(c, p->output);
        if (input < 0 || output < 0) fail_msg("%s: %s, %s", p->calc, p->input, p->output);
        const int n = calc_curve(&arena, c, in, input, output, POINTS, x, y);
        if (n < 10) fail_msg("%s: answers %d times over %s", p->calc, n, p->input);
        for (int i = 1; i < n; i++)
            if ((y[i] - y[i - 1]) * p->way < 0)
                fail_msg("%s: %s turns at %s = %g", p->calc, p->output, p->input, x[i]);
        if (!((y[n - 1] - y[0]) * p->way > 0)) fail_msg("%s: %s is flat", p->calc, p->output);
    }
}

static int set_up(void **state)
{
    (void)state;
    arena = arena_open((size_t)1 << 28);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    arena_close(&arena);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(shapes_hold, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
