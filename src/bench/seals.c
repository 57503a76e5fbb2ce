/* seals.c - weatherstrip, O-rings, gaskets. */
#include "base/text.h"
#include "bench/list.h"
#include "bench/row.h"
#include "bench/seal_profile.h"
#include "bench/systems.h"

static const double PI = 3.14159265358979323846;

/* ---- seal-compression ---- */

static const char *const kinds[] = {"sponge-bulb", "solid-rubber", "flat-foam",
                                    NULL}; /* as enum seal_kind */
static const struct calc_input seal_inputs[] = {
    IN_CHOICE("kind", kinds, "sponge-bulb", "sponge bulb, solid rubber or flat foam"),
    IN_NEEDED("free", LENGTH, "mm", 5e-4, 0.1, "height uncompressed"),
    IN_NEEDED("gap", LENGTH, "mm", 1e-4, 0.1, "that it fills, door shut"),
    IN_MAYBE("other-gap", LENGTH, "mm", 1e-4, 0.1, "at the other end of the door"),
    IN_END,
};
static const struct calc_output seal_outputs[] = {
    OUT_NUMBER("compression", NUMBER, "%", "%", 3, "at the gap"),
    OUT_NUMBER("other-compression", NUMBER, "%", "%", 3, "at the other gap"),
    OUT_NUMBER("widest-gap", LENGTH, "mm", "in", 3, "that it still fills well"),
    OUT_NUMBER("narrowest-gap", LENGTH, "mm", "in", 3, "that still lets the door shut"),
    OUT_END,
};
static const struct calc_source seal_sources[] = {
    {MARK_PUBLISHED, "Compression = (free - gap) / free, as seal makers define it"},
    {MARK_PRACTICE, "Sponge bulb and flat foam 30 to 50 %, solid rubber 10 to 20 %"},
    SOURCE_END,
};

static bool seal_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    const struct seal_band *w = &seal_bands[in[0].choice];
    const double free_height = in[1].si, here = 1 - in[2].si / free_height;
    const double there = in[3].set ? 1 - in[3].si / free_height : here;
    const double least = fmin(here, there), most = fmax(here, there);
    (void)f;
    out->out[0] = calc_number(here);
    if (in[3].set) out->out[1] = calc_number(there);
    out->out[2] = calc_number(free_height * (1 - w->low));
    out->out[3] = calc_number(free_height * (1 - w->high));
    if (least <= 0)
        calc_verdict(a, out, VERDICT_BAD, "It does not touch: water comes in");
    else if (most > w->most)
        calc_verdict(a, out, VERDICT_BAD,
                     "%.0f %%: crushed; the door will not shut, nor the seal last", 100 * most);
    else if (most > w->high)
        calc_verdict(a, out, VERDICT_CARE,
                     "%.0f %% exceeds %.0f %%: set the door, or a smaller seal", 100 * most,
                     100 * w->high);
    else if (least < w->low)
        calc_verdict(a, out, VERDICT_CARE, "%.0f %% is under %.0f %%: it may leak", 100 * least,
                     100 * w->low);
    else
        calc_verdict(a, out, VERDICT_GOOD, "It seals and the door shuts");
    calc_note(a, out, "Try it with putty or a strip of paper all round before gluing.");
    return true;
}

/* ---- seal-profile ---- */

enum { GAPS = 24 };
static const struct calc_input profile_inputs[] = {
    IN_TEXT("gaps", "measured at several points all round, door shut: 7.5, 8.2, 9.1 mm"),
    IN_MAYBE("flange", LENGTH, "mm", 2e-4, 0.02, "thickness of the edge that it clips onto"),
    IN_MAYBE("groove", LENGTH, "mm", 5e-4, 0.05, "width of the groove that it sits in"),
    IN_MAYBE("bulb", LENGTH, "mm", 1e-3, 0.1, "breadth of the worn seal's bulb"),
    IN_MAYBE("length", LENGTH, "m", 0.05, 30, "of the seal, for the force of all of it"),
    IN_END,
};
static const struct calc_output profile_outputs[] = {
    OUT_TEXT("profile", "that stays the furthest inside its band"),
    OUT_NUMBER("at-widest", NUMBER, "%", "%", 3, "compression at the widest gap"),
    OUT_NUMBER("at-narrowest", NUMBER, "%", "%", 3, "and at the narrowest"),
    OUT_NUMBER("force", FORCE, "N", "lbf", 2, "that closes 100 mm at the mean gap"),
    OUT_NUMBER("to-close", FORCE, "N", "lbf", 2, "all of it"),
    OUT_TEXT("also", "what else fits, the best first"),
    OUT_NUMBER("free-from", LENGTH, "mm", "in", 3, "least height of a sponge bulb to ask for"),
    OUT_NUMBER("free-to", LENGTH, "mm", "in", 3, "and the most"),
    OUT_END,
};
static const struct calc_source profile_sources[] = {
    {MARK_PUBLISHED, "Compression = (free - gap) / free, as seal makers define it"},
    {MARK_PRACTICE, "Sponge bulb and flat foam 30 to 50 %, solid rubber 10 to 20 %; a bulb within "
                    "25 % of the old one's breadth; force grows with compression"},
    {MARK_DEMO,
     "The profiles that it carries and their forces are invented; your own have their own mark"},
    SOURCE_END,
};

static bool profile_place(struct arena *a, const struct calc_value *in, struct seal_place *at,
                          struct fail *f)
{
    static const struct list_kind kind = {"gaps", QUANTITY_LENGTH, "mm", 1e-4, 0.1};
    double gap[GAPS];
    const int n = list_read(a, &kind, in[0].text, gap, GAPS, f);
    if (n == 0) return false;
    *at = (struct seal_place){.widest = gap[0], .narrowest = gap[0]};
    for (int i = 0; i < n; i++) {
        at->widest = fmax(at->widest, gap[i]);
        at->narrowest = fmin(at->narrowest, gap[i]);
        at->mean += gap[i] / n;
    }
    at->flange = in[1].set ? in[1].si : 0;
    at->groove = in[2].set ? in[2].si : 0;
    at->bulb = in[3].set ? in[3].si : 0;
    if (n == 1)
        return fail_set(f, FAIL_INPUT, "gaps: one only; measure at the corners and between too");
    return true;
}

static struct seal_list profiles_of(const struct calc_value *in)
{
    return (struct seal_list){in[CALC_ROWS].rows, in[CALC_ROWS].n_rows};
}

/* Which others stay in their bands. */
static const char *also_fit(struct arena *a, struct seal_list list, const struct seal_place *at,
                            int best)
{
    struct text said = {.arena = a};
    bool *tried = ARENA_ARRAY(a, bool, list.n);
    tried[best] = true;
    for (int i = seal_best(list, at, tried); i >= 0 && seal_margin(&list.items[i], at) >= 0;
         i = seal_best(list, at, tried)) {
        text_print(&said, "%s%s", said.length > 0 ? ", " : "", list.items[i].name);
        tried[i] = true;
    }
    return said.length > 0 ? text_get(&said) : NULL;
}

static void profile_judge(struct arena *a, const struct seal_place *at,
                          const struct seal_profile *p, bool asked_less, struct calc_result *out)
{
    const double least = 1 - at->widest / p->free, most = 1 - at->narrowest / p->free;
    const struct seal_band *band = &seal_bands[p->kind];
    if (seal_margin(p, at) >= 0)
        calc_verdict(a, out, VERDICT_GOOD,
                     "%s fits: it seals at the widest gap and shuts at the "
                     "narrowest",
                     p->name);
    else if (asked_less)
        calc_verdict(a, out, VERDICT_BAD,
                     "The gap varies too much for one seal: set the door "
                     "first, then measure again");
    else
        calc_verdict(a, out, VERDICT_BAD,
                     "None fits; the nearest, %s, would be pressed %.0f to "
                     "%.0f %%, not %.0f to %.0f",
                     p->name, 100 * least, 100 * most, 100 * band->low, 100 * band->high);
}

static bool profile_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                        struct fail *f)
{
    struct seal_place at;
    const struct seal_list list = profiles_of(in);
    const bool *tried = ARENA_ARRAY(a, bool, list.n);
    if (!profile_place(a, in, &at, f)) return false;
    const struct seal_band *sponge = &seal_bands[SEAL_SPONGE];
    const double from = at.widest / (1 - sponge->low), to = at.narrowest / (1 - sponge->high);
    const bool uneven = from > to * (1 + 1e-9);
    if (!uneven) {
        out->out[6] = calc_number(from);
        out->out[7] = calc_number(to);
    }
    if (!in[1].set && !in[2].set)
        calc_note(a, out,
                  "Only glued seals were tried: measure the flange or the groove for "
                  "those that clip on or slide in.");
    calc_note(a, out,
              "Buy 100 mm first, press it to the gap on a kitchen scale, and try the door "
              "on it: makers' profiles differ.");
    const int best = seal_best(list, &at, tried);
    if (best < 0) {
        calc_verdict(a, out, VERDICT_BAD, "None of the list holds there: %s",
                     in[3].set ? "no foot of that size with such a bulb" : "no foot of that size");
        return true;
    }
    const struct seal_profile *p = &list.items[best];
    profile_judge(a, &at, p, uneven, out);
    if (seal_margin(p, &at) < 0) return true;
    struct text name = {.arena = a};
    text_print(&name, "%s: %s", p->name, p->text);
    out->out[0] = calc_text(text_get(&name));
    out->out[1] = calc_number(1 - at.widest / p->free);
    out->out[2] = calc_number(1 - at.narrowest / p->free);
    out->out[3] = calc_number(seal_force(p, &at));
    if (in[4].set) out->out[4] = calc_number(seal_force(p, &at) * in[4].si / 0.1);
    const char *also = also_fit(a, list, &at, best);
    if (also) out->out[5] = calc_text(also);
    return true;
}

/* ---- o-ring ---- */

static const char *const duties[] = {"static", "moving", NULL};
static const double squeeze_low[] = {0.10, 0.08}, squeeze_high[] = {0.30, 0.16};
static const struct calc_input ring_inputs[] = {
    IN_NEEDED("section", LENGTH, "mm", 5e-4, 0.02, "thickness of the ring"),
    IN_NEEDED("depth", LENGTH, "mm", 2e-4, 0.02, "of the gland: groove and gap together"),
    IN_USUAL("section-tolerance", LENGTH, "mm", "0 mm", 0, 2e-3, "plus and minus"),
    IN_USUAL("depth-tolerance", LENGTH, "mm", "0 mm", 0, 2e-3, "plus and minus"),
    IN_CHOICE("duty", duties, "static", "static, or moving: a shaft or a piston"),
    IN_MAYBE("groove-width", LENGTH, "mm", 5e-4, 0.05, "along the shaft"),
    IN_MAYBE("ring-inside", LENGTH, "mm", 5e-4, 2, "inside diameter of the ring"),
    IN_MAYBE("groove-diameter", LENGTH, "mm", 5e-4, 2, "that the ring sits on"),
    IN_END,
};
static const struct calc_output ring_outputs[] = {
    OUT_NUMBER("squeeze", NUMBER, "%", "%", 3, "nominal"),
    OUT_NUMBER("least-squeeze", NUMBER, "%", "%", 3, "thin ring, deep groove"),
    OUT_NUMBER("most-squeeze", NUMBER, "%", "%", 3, "thick ring, shallow groove"),
    OUT_NUMBER("least-by", LENGTH, "mm", "in", 2, "the same as a length"),
    OUT_NUMBER("most-by", LENGTH, "mm", "in", 2, "the same as a length"),
    OUT_NUMBER("fill", NUMBER, "%", "%", 3, "of the groove"),
    OUT_NUMBER("stretch", NUMBER, "%", "%", 3, "of the ring on its groove"),
    OUT_END,
};
static const struct calc_source ring_sources[] = {
    {MARK_PUBLISHED, "MIL-G-5514: squeeze by section and gland depth"},
    {MARK_PRACTICE, "Static 10 to 30 %, moving 8 to 16 %; fill to 85 %; stretch to 5 %"},
    SOURCE_END,
};
static const struct calc_caution ring_cautions[] = {
    {"Rubber must suit the fluid: brake fluid, mineral oil and petrol each ruin the other's. A "
     "seal "
     "in the brakes comes in the maker's kit only.",
     "The maker's kit, or a seal supplier told the fluid and the heat"},
    CAUTION_END,
};

static const char *ring_fault(const struct calc_value *in, const struct calc_value *o)
{
    if (o[1].si < squeeze_low[in[4].choice]) return "too little squeeze: it may weep";
    if (o[2].si > squeeze_high[in[4].choice])
        return "too much squeeze: hard to fit, and it wears or takes a set";
    if (o[5].set && o[5].si > 0.85) return "the groove is too full: no room to swell";
    if (o[6].set && o[6].si > 0.05) return "stretched over 5 %: it thins and cracks";
    if (o[6].set && o[6].si < 0) return "loose on its groove: a smaller ring";
    return NULL;
}

static bool ring_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                     struct fail *f)
{
    const double section = in[0].si, depth = in[1].si;
    const double thin = section - in[2].si, thick = section + in[2].si;
    const double deep = depth + in[3].si, shallow = depth - in[3].si;
    if (thin <= 0) return fail_set(f, FAIL_INPUT, "section-tolerance: as large as the section");
    if (shallow <= 0) return fail_set(f, FAIL_INPUT, "depth-tolerance: as large as the depth");
    out->out[0] = calc_number(1 - depth / section);
    out->out[1] = calc_number(1 - deep / thin);
    out->out[2] = calc_number(1 - shallow / thick);
    out->out[3] = calc_number(thin - deep);
    out->out[4] = calc_number(thick - shallow);
    if (in[5].set) out->out[5] = calc_number(PI / 4 * section * section / (in[5].si * depth));
    if (in[6].set && in[7].set) out->out[6] = calc_number(in[7].si / in[6].si - 1);
    const char *fault = ring_fault(in, out->out);
    if (out->out[1].si <= 0)
        calc_verdict(a, out, VERDICT_BAD, "It may not touch at all: it leaks");
    else if (fault)
        calc_verdict(a, out, VERDICT_CARE, "%s", fault);
    else
        calc_verdict(a, out, VERDICT_GOOD, "It seals");
    return true;
}

/* ---- seal-force ---- */

static const struct calc_input force_inputs[] = {
    IN_NEEDED("force", FORCE, "N", 0.1, 500, "that closes 100 mm of the seal"),
    IN_NEEDED("length", LENGTH, "m", 0.05, 30, "of the seal round the door"),
    IN_END,
};
static const struct calc_output force_outputs[] = {
    OUT_NUMBER("to-close", FORCE, "N", "lbf", 3, "all of it"),
    OUT_END,
};
static const struct calc_source force_sources[] = {
    {MARK_PRACTICE, "Force of a piece times the pieces"},
    SOURCE_END,
};

static bool force_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                      struct fail *f)
{
    (void)f;
    out->out[0] = calc_number(in[0].si * in[1].si / 0.1);
    calc_note(a, out,
              "At the latch about half of it is felt, as the hinges take the rest; new seals "
              "settle within weeks.");
    return true;
}

/* ---- glass-channel ---- */

static const struct calc_input channel_inputs[] = {
    IN_NEEDED("glass", LENGTH, "mm", 1e-3, 0.03, "thickness"),
    IN_NEEDED("mouth", LENGTH, "mm", 0, 0.03, "free opening between the lips"),
    IN_END,
};
static const struct calc_output channel_outputs[] = {
    OUT_NUMBER("each-side", LENGTH, "mm", "in", 2, "that each lip is pushed back"),
    OUT_END,
};
static const struct calc_source channel_sources[] = {
    {MARK_PRACTICE, "0.5 to 1.5 mm a side"},
    SOURCE_END,
};

static bool channel_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                        struct fail *f)
{
    const double side = (in[0].si - in[1].si) / 2;
    (void)f;
    out->out[0] = calc_number(side);
    if (side < 0.5e-3 * (1 - 1e-9))
        calc_verdict(a, out, VERDICT_CARE, "It rattles: thicker lips");
    else if (side > 1.5e-3 * (1 + 1e-9))
        calc_verdict(a, out, VERDICT_CARE, "The window goes hard: thinner lips");
    else
        calc_verdict(a, out, VERDICT_GOOD, "It holds and slides");
    return true;
}

/* ---- gasket ---- */

static const char *const gaskets[] = {"soft-rubber", "hard-rubber", "fibre-3mm", "fibre-1.5mm",
                                      NULL};
static const double seating[] = {0, 200, 1600, 3700}; /* psi */
static const struct calc_input gasket_inputs[] = {
    IN_NEEDED("width", LENGTH, "mm", 1e-4, 0.05, "that seats: half of a flat gasket's own width"),
    IN_NEEDED("diameter", LENGTH, "mm", 5e-3, 2, "of the middle of the ring"),
    IN_CHOICE("material", gaskets, "fibre-1.5mm", "rubber, or pressed fibre by thickness"),
    IN_MAYBE("seating", PRESSURE, "psi", 0, 5e8, "that the material asks for, in its place"),
    IN_USUAL("bolts", NUMBER, NULL, "4", 1, 64, "that share it"),
    IN_END,
};
static const struct calc_output gasket_outputs[] = {
    OUT_NUMBER("seating-load", FORCE, "N", "lbf", 4, "that seats it"),
    OUT_NUMBER("each-bolt", FORCE, "N", "lbf", 3, "share of one"),
    OUT_NUMBER("stress", PRESSURE, "MPa", "psi", 3, "on the gasket"),
    OUT_END,
};
static const struct calc_source gasket_sources[] = {
    {MARK_MEMORY, "ASME VIII Division 1, Appendix 2: W = pi b G y, and y of the materials"},
    SOURCE_END,
};
static const struct calc_caution gasket_cautions[] = {
    {"Old fibre gaskets may hold asbestos: never scrape them dry, sand or blow them; wet them, "
     "wear a "
     "mask that is made for it.",
     "A laboratory or an asbestos remover, if in doubt"},
    CAUTION_END,
};

static bool gasket_run(struct arena *a, const struct calc_value *in, struct calc_result *out,
                       struct fail *f)
{
    if (in[0].si >= in[1].si)
        return fail_set(f, FAIL_INPUT, "width: as wide as the ring; give the width that seats");
    const double y = in[3].set ? in[3].si : seating[in[2].choice] * 6894.757293168;
    const double load = PI * in[0].si * in[1].si * y;
    out->out[0] = calc_number(load);
    out->out[1] = calc_number(load / in[4].si);
    out->out[2] = calc_number(y);
    calc_note(a, out,
              "What the pressure inside asks for comes on top; the maker's torque goes first.");
    return true;
}

const struct calc calc_seals[] = {
    {.name = "seal-compression",
     .question = "Does this weatherstrip fit the gap?",
     .inputs = seal_inputs,
     .outputs = seal_outputs,
     .formula = "compression = (free - gap) / free",
     .limits = "Profiles without lips.",
     .sources = seal_sources,
     .run = seal_run},
    {.name = "seal-profile",
     .question = "Which seal replaces the worn one?",
     .inputs = profile_inputs,
     .outputs = profile_outputs,
     .chooses = "seals",
     .formula = "compression = (free - gap) / free, at the widest and the narrowest gap; force = "
                "that of 100 mm at the middle of the band x compression / the middle",
     .limits = "Straight runs of profiles without lips; corners are tried by hand.",
     .sources = profile_sources,
     .run = profile_run},
    {.name = "o-ring",
     .question = "Does this O-ring fit its groove?",
     .inputs = ring_inputs,
     .outputs = ring_outputs,
     .formula = "squeeze = (section - depth) / section; fill = pi/4 section^2 / (width x depth); "
                "stretch = groove / ring - 1",
     .sources = ring_sources,
     .cautions = ring_cautions,
     .run = ring_run},
    {.name = "seal-force",
     .question = "How hard does the door shut on its new seal?",
     .inputs = force_inputs,
     .outputs = force_outputs,
     .formula = "force on 100 mm x length / 100 mm",
     .sources = force_sources,
     .run = force_run},
    {.name = "glass-channel",
     .question = "Does the window run in this channel?",
     .inputs = channel_inputs,
     .outputs = channel_outputs,
     .formula = "each side = (glass - mouth) / 2",
     .sources = channel_sources,
     .run = channel_run},
    {.name = "gasket",
     .question = "What load seats this gasket?",
     .inputs = gasket_inputs,
     .outputs = gasket_outputs,
     .formula = "load = pi x width x diameter x seating stress",
     .limits = "Flat rings, before any pressure inside.",
     .sources = gasket_sources,
     .cautions = gasket_cautions,
     .run = gasket_run},
    {.name = NULL},
};
