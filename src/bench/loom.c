#include "bench/loom.h"

#include "bench/fuses.h"
#include "bench/wire_table.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* Published in ABYC E-11 and ISO 10133: 3 % where it matters, 10 % elsewhere. The starter's own 0.8
 * V of 12 comes from a gauge maker's manual. */
static double limit_of(enum loom_use use)
{
    return use == LOOM_LAMPS || use == LOOM_IGNITION ? 0.03 : use == LOOM_STARTER ? 0.8 / 12 : 0.10;
}

static void fault(struct arena *a, struct loom_line *line, enum verdict v, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
static void fault(struct arena *a, struct loom_line *line, enum verdict v, const char *format, ...)
{
    char text[300];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    assert(line->n_faults < LOOM_FAULTS);
    line->worth[line->n_faults] = v;
    line->faults[line->n_faults++] = arena_copy(a, text);
    if (v > line->verdict) line->verdict = v;
}

static struct wire_place place_of(const struct loom_circuit *c)
{
    return (struct wire_place){c->insulation, c->engine_space, c->bundle};
}

static double ohms_of(const struct loom_circuit *c, const struct wire *w)
{
    return w->per_metre * c->length * (c->earth_wire ? 2 : 1);
}

/* The thinnest that is sold of the same kind, for drop, heat, and the fuse that the load asks for.
 */
static const char *wire_needed(struct arena *a, const struct loom_circuit *c, double amps,
                               double allowed)
{
    const struct wire_place where = place_of(c);
    const bool gauge = strstr(c->wire, "AWG") || strstr(c->wire, "awg");
    struct wire w;
    for (int i = 0; gauge ? wire_awg(i, a, &w) : wire_metric(i, a, &w); i++)
        if (ohms_of(c, &w) * amps <= allowed &&
            (c->use == LOOM_STARTER || wire_ampacity(w.area, &where) >= fmax(amps, fuse_for(amps))))
            return w.name;
    return NULL;
}

static void check_wire(struct arena *a, const struct loom_circuit *c, double volts,
                       struct loom_line *line)
{
    const bool thin = line->share > line->limit * (1 + 1e-9);
    const bool hot = c->use != LOOM_STARTER && line->bears > 0 && line->amps > line->bears;
    if (thin || hot || (fuse_for(line->amps) > line->bears && line->bears > 0))
        line->needs = wire_needed(a, c, line->amps, line->limit * volts);
    const char *instead = line->needs ? line->needs : "nothing that is sold; shorten it";
    if (hot)
        fault(a, line, VERDICT_BAD, "undersized: %.3g A on a wire that bears %.3g A; takes %s",
              line->amps, line->bears, instead);
    else if (thin)
        fault(a, line, VERDICT_CARE, "undersized: it loses %.1f %%, of %.0f %% allowed; takes %s",
              100 * line->share, 100 * line->limit, instead);
}

static void check_fuse(struct arena *a, const struct loom_circuit *c, struct loom_line *line)
{
    if (c->use == LOOM_STARTER) return; /* cranking cables have none */
    line->fuse_to_fit = fuse_for(line->amps);
    const bool guards = !(line->bears > 0 && line->fuse_to_fit > line->bears);
    if (c->fuse <= 0 && line->fuse_to_fit == 0) {
        fault(a, line, VERDICT_BAD, "unfused: more than one fuse carries; split it");
    } else if (c->fuse <= 0 && guards) {
        fault(a, line, VERDICT_BAD, "unfused: fit %.3g A at its feeding end", line->fuse_to_fit);
    } else if (c->fuse <= 0) {
        fault(a, line, VERDICT_BAD, "unfused: and too thin for the %.3g A that it needs; takes %s",
              line->fuse_to_fit, line->needs ? line->needs : "two circuits");
    } else if (line->bears > 0 && c->fuse > line->bears) {
        fault(a, line, VERDICT_BAD,
              "fuse of %.3g A does not guard a wire that bears %.3g A; fit %.3g A%s%s", c->fuse,
              line->bears, line->fuse_to_fit, guards || !line->needs ? "" : " on ",
              guards || !line->needs ? "" : line->needs);
    } else if (c->fuse < line->amps) {
        fault(a, line, VERDICT_BAD, "fuse of %.3g A blows at %.3g A", c->fuse, line->amps);
    } else if (c->fuse < 1.25 * line->amps * (1 - 1e-9)) {
        fault(a, line, VERDICT_CARE, "fuse of %.3g A is near its %.3g A and tires", c->fuse,
              line->amps);
    }
}

static void check_switch(struct arena *a, const struct loom_circuit *c, struct loom_line *line)
{
    const char *name = c->switch_name ? c->switch_name : "switch";
    if (c->switch_rates > 0 && line->amps > c->switch_rates)
        fault(a, line, VERDICT_BAD, "overloaded: %s for %.3g A switches %.3g A; fit a relay", name,
              c->switch_rates, line->amps);
    else if (c->switch_rates <= 0 && c->switch_name)
        fault(a, line, VERDICT_CARE, "not known what %s may switch", name);
}

/* A switch that feeds several. Whether they burn at once, nobody told. */
static void check_shared(struct arena *a, const struct loom_circuit *all, int count, int which,
                         struct loom_line *lines)
{
    const struct loom_circuit *c = &all[which];
    double sum = 0;
    int feeds = 0;
    for (int i = 0; i < count; i++)
        if (text_is(all[i].switch_name, c->switch_name)) {
            sum += lines[i].amps;
            feeds++;
        }
    if (feeds > 1 && c->switch_rates > 0 && lines[which].amps <= c->switch_rates &&
        sum > c->switch_rates)
        fault(a, &lines[which], VERDICT_CARE,
              "%s for %.3g A switches %.3g A if all its %d circuits burn at once", c->switch_name,
              c->switch_rates, sum, feeds);
}

static void check_one(struct arena *a, const struct loom_circuit *c, double volts,
                      struct loom_line *line)
{
    struct wire w;
    struct fail why = {0};
    line->verdict = VERDICT_GOOD;
    line->limit = limit_of(c->use);
    const bool wired = wire_parse(a, "wire", c->wire, &w, &why);
    if (!wired) fault(a, line, VERDICT_CARE, "%s", why.text);
    line->amps = c->amps > 0 ? c->amps : c->watts / volts;
    if (!(line->amps > 0)) {
        fault(a, line, VERDICT_CARE, "its load is not known: measure it");
        if (c->fuse <= 0 && c->use != LOOM_STARTER) fault(a, line, VERDICT_BAD, "unfused");
        return;
    }
    if (wired) {
        const struct wire_place where = place_of(c);
        line->known = true;
        line->drop = ohms_of(c, &w) * line->amps;
        line->share = line->drop / volts;
        line->bears = wire_ampacity(w.area, &where);
        check_wire(a, c, volts, line);
    }
    check_fuse(a, c, line);
    check_switch(a, c, line);
}

void loom_check(struct arena *a, const struct loom_circuit *circuits, int count, double volts,
                struct loom *out)
{
    assert(volts > 0);
    *out = (struct loom){.lines = ARENA_ARRAY(a, struct loom_line, count)};
    for (int i = 0; i < count; i++) check_one(a, &circuits[i], volts, &out->lines[i]);
    for (int i = 0; i < count; i++) {
        const struct loom_line *line = &out->lines[i];
        if (circuits[i].switch_name) check_shared(a, circuits, count, i, out->lines);
        out->bad += line->verdict == VERDICT_BAD;
        out->care += line->verdict == VERDICT_CARE;
        if (circuits[i].use != LOOM_STARTER) out->amps += line->amps;
    }
}
