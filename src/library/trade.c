#include "library/trade.h"

#include "library/read.h"

/* A folder that cannot be read is a fault like any other. */
static bool unreadable(struct arena *a, struct trade *out, struct trade_faults *faults,
                       const struct fail *f)
{
    *out = (struct trade){0};
    *faults =
        (struct trade_faults){.line = ARENA_ARRAY(a, const char *, 1), .count = 1, .capacity = 1};
    faults->line[0] = arena_copy(a, f->text);
    return false;
}

static bool read_all(struct arena *a, const struct sources *s, struct trade *out,
                     struct trade_faults *faults, struct fail *f)
{
    return trade_read(a, s, out, faults) || fail_set(f, FAIL_INPUT, "%s", faults->line[0]);
}

bool trade_load(struct arena *a, const char *own_dir, struct trade *out,
                struct trade_faults *faults, struct fail *f)
{
    struct sources s = {0};
    sources_add_carried(a, &s);
    if (own_dir && !sources_add_dir(a, &s, own_dir, true, true, f))
        return unreadable(a, out, faults, f);
    return read_all(a, &s, out, faults, f);
}

static bool dir_sources(struct arena *a, const char *dir, bool own, struct sources *s,
                        struct fail *f)
{
    int before = s->count;
    if (!sources_add_dir(a, s, dir, own, false, f)) return false;
    return s->count > before ||
           fail_set(f, FAIL_INPUT, "%s: no trade data; it holds no .yaml file", dir);
}

bool trade_load_dir(struct arena *a, const char *dir, struct trade *out,
                    struct trade_faults *faults, struct fail *f)
{
    struct sources s = {0};
    if (!dir_sources(a, dir, false, &s, f)) return unreadable(a, out, faults, f);
    return read_all(a, &s, out, faults, f);
}

bool trade_check_dir(struct arena *a, const char *dir, struct trade *out,
                     struct trade_faults *faults, struct fail *f)
{
    const unsigned whole = 1U << SUBJECT_PLACES | 1U << SUBJECT_SYSTEMS | 1U << SUBJECT_DIRECTIONS;
    struct sources alone = {0}, over = {0};
    if (!dir_sources(a, dir, false, &alone, f)) return unreadable(a, out, faults, f);
    if ((trade_subjects(a, &alone) & whole) == whole) return read_all(a, &alone, out, faults, f);
    sources_add_carried(a, &over);
    if (!dir_sources(a, dir, true, &over, f)) return unreadable(a, out, faults, f);
    return read_all(a, &over, out, faults, f);
}

bool trade_digest(struct arena *a, const char *own_dir, char hex[65], struct fail *f)
{
    struct sources s = {0};
    sources_add_carried(a, &s);
    if (own_dir && !sources_add_dir(a, &s, own_dir, true, true, f)) return false;
    sources_digest(&s, hex);
    return true;
}
