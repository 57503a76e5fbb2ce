#include "face/cli/context.h"

#include "face/cli/wrap.h"
#include "face/show/intake.h"
#include "garage/kinds.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool context_garage_dir(const struct context *c, const char **dir, struct fail *f)
{
    const char *base;
    if ((*dir = context_option(c, "garage"))) return true;
    if ((*dir = getenv("FETTLE_GARAGE")) && **dir) return true;
    if ((base = getenv("XDG_DATA_HOME")) && *base == '/') {
        *dir = arena_print(c->arena, "%s/fettle", base);
        return true;
    }
    if ((base = getenv("HOME")) && *base == '/') {
        *dir = arena_print(c->arena, "%s/.local/share/fettle", base);
        return true;
    }
    return fail_set(f, FAIL_GARAGE,
                    "no garage named and no home folder; say which with --garage DIR");
}

bool context_garage(struct context *c, enum garage_mode mode, struct garage **out, struct fail *f)
{
    if (c->garage && c->garage_mode == GARAGE_READ && mode == GARAGE_WRITE) {
        garage_close(c->garage);
        c->garage = NULL;
    }
    if (!c->garage) {
        const char *dir;
        if (!context_garage_dir(c, &dir, f)) return false;
        if (!garage_open(c->arena, dir, mode, NULL, &c->garage, f)) return false;
        c->garage_mode = mode;
    }
    *out = c->garage;
    return true;
}

bool context_trade(struct context *c, const struct trade **out, struct fail *f)
{
    if (!c->trade) {
        const char *dir, *own = NULL;
        struct fail ignored = {0};
        if (context_garage_dir(c, &dir, &ignored)) own = arena_print(c->arena, "%s/trade", dir);
        struct trade_faults faults = {0};
        struct trade *t = ARENA_NEW(c->arena, struct trade);
        if (!trade_load(c->arena, own, t, &faults, f)) return false;
        c->trade = t;
    }
    *out = c->trade;
    return true;
}

bool context_vehicle(struct context *c, const struct record **out, struct fail *f)
{
    if (!c->vehicle) {
        struct garage *g;
        const struct record_kind *k = record_kind_find("vehicle");
        assert(k);
        if (!context_garage(c, GARAGE_READ, &g, f)) return false;
        const char *word = context_option(c, "vehicle");
        if (word) {
            struct record *found;
            if (!garage_find(g, c->arena, k, word, &found, f)) return false;
            c->vehicle = found;
        } else {
            struct record *all;
            int count;
            if (!garage_list(g, c->arena, k, NULL, &all, &count, f)) return false;
            if (count == 0)
                return fail_set(f, FAIL_INPUT,
                                "no vehicle in the garage yet; 'fettle intake' takes one in");
            /* The only one that is the builder's, whatever else he has been to see. */
            int owned = 0, last = 0;
            for (int i = 0; i < count; i++)
                if (vehicle_owned(&all[i]) == OWNED_YES) owned++, last = i;
            if (count > 1 && owned != 1) {
                struct text names = {.arena = c->arena};
                for (int i = 0; i < count; i++)
                    text_print(&names, "%s%s", i ? ", " : "", record_text(&all[i], "name", "?"));
                return fail_set(f, FAIL_INPUT,
                                "more than one vehicle: say which with --vehicle, one of: %s",
                                text_get(&names));
            }
            c->vehicle = &all[owned == 1 ? last : 0];
        }
    }
    *out = c->vehicle;
    return true;
}

const char *context_currency(struct context *c)
{
    return currency_usual(c->arena, c->garage);
}

void context_close(struct context *c)
{
    if (c->garage) garage_close(c->garage);
    c->garage = NULL;
}

void context_print_sheet(const struct context *c, const struct sheet *s)
{
    struct text out = {.arena = c->arena};
    render_text(&out, s, c->style);
    fputs(text_get(&out), stdout);
}

bool context_print_json(struct context *c, json_t *object, struct fail *f)
{
    struct text day_text = {.arena = c->arena};
    day_print(&day_text, c->today);
    json_t *whole =
        json_pack("{s: s, s: s}", "version", FETTLE_VERSION, "as_of", text_get(&day_text));
    if (c->garage) {
        char basis[65];
        if (!garage_basis(c->garage, basis, f)) return false;
        json_object_set_new(whole, "basis", json_string(basis));
    }
    json_object_update(whole, object);
    json_decref(object);
    /* 15 digits: every decimal that was typed comes back as it was. */
    char *text = json_dumps(whole, JSON_INDENT(2) | JSON_REAL_PRECISION(15));
    json_decref(whole);
    assert(text);
    puts(text);
    free(text);
    return true;
}

void context_say(const struct context *c, const char *format, ...)
{
    va_list arguments, again;
    va_start(arguments, format);
    va_copy(again, arguments);
    int n = vsnprintf(NULL, 0, format, again);
    va_end(again);
    assert(n >= 0);
    char *line = ARENA_ARRAY(c->arena, char, n + 1);
    vsnprintf(line, (size_t)n + 1, format, arguments);
    va_end(arguments);
    puts(wrap_clean(c->arena, line, true));
}
