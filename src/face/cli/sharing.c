#include "face/cli/sharing.h"

#include "face/show/qr.h"
#include "face/show/words.h"

#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <sys/select.h>
#include <time.h>
#include <unistd.h>

static const char *day_of(struct arena *a, int64_t seconds)
{
    return words_day(a, (day)(seconds / (24 * 3600)));
}

static const char *stamp_of(struct arena *a, int64_t seconds)
{
    struct text t = {.arena = a};
    day_print(&t, (day)(seconds / (24 * 3600)));
    return text_get(&t);
}

bool sharing_list(struct context *c, const char *garage, struct fail *f)
{
    struct devices list;
    if (!devices_read(c->arena, garage, time(NULL), &list, f)) return false;
    if (c->json) {
        json_t *devices = json_array();
        for (int i = 0; i < list.count; i++) {
            const struct device *d = &list.items[i];
            json_array_append_new(devices,
                                  json_pack("{s:s, s:s, s:s, s:s}", "id", d->id, "name", d->name,
                                            "paired", stamp_of(c->arena, d->paired), "seen",
                                            stamp_of(c->arena, d->seen)));
        }
        return context_print_json(c, json_pack("{s:o}", "devices", devices), f);
    }
    struct sheet *s = sheet_new(c->arena, "Paired devices");
    if (list.count == 0)
        sheet_text(s, "None. 'fettle serve --share' shows a code to pair one by.");
    else {
        struct sheet_table *t = sheet_table(s, "");
        sheet_column(s, t, "id", ALIGN_LEFT, 1);
        sheet_column(s, t, "name", ALIGN_LEFT, 1);
        sheet_column(s, t, "paired", ALIGN_LEFT, 3);
        sheet_column(s, t, "last here", ALIGN_LEFT, 2);
        for (int i = 0; i < list.count; i++) {
            const struct device *d = &list.items[i];
            sheet_cell(s, t, TONE_PLAIN, "%s", d->id);
            sheet_cell(s, t, TONE_PLAIN, "%s", d->name);
            sheet_cell(s, t, TONE_PLAIN, "%s", day_of(c->arena, d->paired));
            sheet_cell(s, t, TONE_PLAIN, "%s", day_of(c->arena, d->seen));
        }
        sheet_text(s, "'fettle serve --forget ID' ends the access of one, at once.");
    }
    context_print_sheet(c, s);
    return true;
}

bool sharing_forget(struct context *c, const char *garage, const char *id, struct fail *f)
{
    if (!devices_forget(c->arena, garage, id, time(NULL), f)) return false;
    if (c->json) return context_print_json(c, json_pack("{s:s}", "forgotten", id), f);
    context_say(c, "%s has no access any more", id);
    return true;
}

static void tell_code(struct context *c, const struct share *s, struct pairing *p)
{
    struct text picture = {.arena = c->arena};
    struct qr qr;
    char code[PAIR_CODE_LETTERS + 1];
    int64_t left;
    pairing_renew(p, time(NULL));
    if (pairing_state(p, time(NULL), code, &left) != CODE_OPEN) return;
    qr_make(c->arena, share_url(c->arena, s, arena_print(c->arena, "/pair/%s", code)), &qr);
    qr_text(&picture, &qr, c->style.colour);
    fputs(text_get(&picture), stdout);
    context_say(c, "To pair a phone let its camera read this, or open %s on it and type %.4s-%s.",
                share_url(c->arena, s, "/pair"), code, code + 4);
    context_say(c, "The code is good for one phone, for %d minutes.", PAIR_CODE_SECONDS / 60);
}

void sharing_tell(struct context *c, const struct share *s, struct pairing *p)
{
    context_say(c, "%s - for paired phones on your network", share_url(c->arena, s, "/"));
    for (int i = 1; i < s->n_addresses; i++)
        context_say(c, "https://%s:%d/ - the same", s->addresses[i].text, s->port);
    if (s->name) context_say(c, "https://%s.local:%d/ - the same", s->name, s->port);
    if (s->anew) context_say(c, "The certificate is new: %s.", s->anew);
    putchar('\n');
    tell_code(c, s, p);
    context_say(c,
                "\nThe phone will warn that it does not know the certificate. Go on only if what "
                "it shows of it has this SHA-256 fingerprint:\n%s\n",
                s->fingerprint);
}

static volatile sig_atomic_t told_to_end;

static void on_signal(int which)
{
    (void)which;
    told_to_end = 1;
}

/* Is there a line to read? Takes it. Nobody is at the other end of a pipe. */
static bool wait_for_line(const sigset_t *mask, bool ticks)
{
    const struct timespec second = {1, 0};
    fd_set in;
    char line[256];
    bool person = isatty(STDIN_FILENO);
    FD_ZERO(&in);
    if (person) FD_SET(STDIN_FILENO, &in);
    return pselect(STDIN_FILENO + 1, &in, NULL, NULL, ticks ? &second : NULL, mask) > 0 &&
           read(STDIN_FILENO, line, sizeof line) > 0;
}

void sharing_wait(struct context *c, const struct share *s, struct pairing *p)
{
    static const char *const news[] = {
        [CODE_USED] = "A phone was paired; 'fettle serve --devices' lists them.",
        [CODE_TRIED_OUT] = "Five wrong codes were tried, so the code has ended. If it was none of "
                           "you, somebody on your network is trying.",
        [CODE_ENDED] = "The code has ended unused.",
    };
    const struct sigaction end = {.sa_handler = on_signal};
    enum code_state before = CODE_NONE;
    sigset_t mask;
    sigaction(SIGINT, &end, NULL);
    sigaction(SIGTERM, &end, NULL);
    pthread_sigmask(SIG_BLOCK, NULL, &mask); /* they are blocked but for the waiting */
    sigdelset(&mask, SIGINT);
    sigdelset(&mask, SIGTERM);
    while (!told_to_end) {
        bool line = wait_for_line(&mask, p != NULL);
        char code[PAIR_CODE_LETTERS + 1];
        int64_t left;
        if (!p) continue;
        if (line) tell_code(c, s, p);
        enum code_state state = pairing_state(p, time(NULL), code, &left);
        if (state != before && state != CODE_OPEN && state != CODE_NONE)
            context_say(c, "%s%s", news[state], isatty(STDIN_FILENO) ? " Enter: a new code." : "");
        before = state;
        fflush(stdout);
    }
}
