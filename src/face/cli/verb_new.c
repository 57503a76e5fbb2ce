/* new: an empty garage. */
#include "face/cli/context.h"
#include "face/cli/verbs.h"

#include <errno.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* The IANA name: TZ if it is one, else what the machine's local time points at, else UTC. */
static const char *machine_time_zone(struct arena *a)
{
    const char *tz = getenv("TZ");
    if (tz && *tz && *tz != ':' && strchr(tz, '/') && *tz != '/') return tz;
    char path[PATH_MAX];
    ssize_t n = readlink("/etc/localtime", path, sizeof path - 1);
    if (n > 0) {
        path[n] = '\0';
        const char *zone = strstr(path, "zoneinfo/");
        if (zone) return arena_copy(a, zone + strlen("zoneinfo/"));
    }
    return "UTC";
}

/* The folders above the default place may be missing on a fresh machine; those above a place that
 * was typed are the person's own. */
static bool make_parents(struct arena *a, const char *dir, struct fail *f)
{
    for (const char *slash = strchr(dir + 1, '/'); slash; slash = strchr(slash + 1, '/')) {
        const char *parent = arena_copy_n(a, dir, (size_t)(slash - dir));
        if (mkdir(parent, 0700) != 0 && errno != EEXIST)
            return fail_set(f, FAIL_GARAGE,
                            "%s: cannot be made: %s; say where with 'fettle new DIR'", parent,
                            strerror(errno));
    }
    return true;
}

static bool run(struct context *c, struct fail *f)
{
    if (c->n_words > 1)
        return fail_set(f, FAIL_INPUT,
                        "new: one folder, not %d; put quotes round a name with blanks", c->n_words);
    const char *dir = c->n_words == 1 ? c->words[0] : NULL;
    bool elsewhere = dir != NULL;
    if (!dir &&
        (!context_garage_dir(c, &dir, f) || (*dir == '/' && !make_parents(c->arena, dir, f))))
        return false;
    if (!garage_create(dir, machine_time_zone(c->arena), NULL, f)) return false;
    if (c->json) return context_print_json(c, json_pack("{s: s}", "garage", dir), f);
    context_say(c, "A garage is ready in %s", dir);
    if (elsewhere)
        context_say(c, "Next: fettle intake --garage %s", dir);
    else
        context_say(c, "Next: fettle intake");
    return true;
}

static const struct example examples[] = {
    {"fettle new ~/garage", "in a folder of your choice"},
    {"fettle new", "in FETTLE_GARAGE or the XDG data folder, where no verb needs --garage"},
    {NULL, NULL},
};
const struct command command_new = {
    .name = "new",
    .help = "make an empty garage",
    .usage = "[DIR]",
    .text = "The folder must not exist, or be empty. It holds everything: facts, files, and what "
            "was reckoned "
            "from them. A network folder is refused.",
    .examples = examples,
    .run = run,
};
