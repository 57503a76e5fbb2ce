/* pair.h - which devices beyond this machine are let in: a code to pair one by, and the list of
 * those that were paired.
 *
 * The code lives in the memory of the program that serves: one at a time, for ten minutes, for one
 * device, for five wrong tries that are a moment apart. The list is GARAGE/share/devices.json,
 * readable by its owner alone; it holds of each device's token only a digest, and is no fact: the
 * journal never sees it. It is read anew each time, so that an access ended by another process has
 * ended at once. Times are seconds since 1970, given by the caller. */
#ifndef WEB_PAIR_H
#define WEB_PAIR_H

#include "base/fail.h"
#include "base/text.h"

#include <pthread.h>

enum {
    PAIR_CODE_LETTERS = 8,   /* of 32: 40 bits */
    PAIR_CODE_SECONDS = 600, /* until it ends unused */
    PAIR_TRIES = 5,          /* wrong ones that end it */
    PAIR_WAIT_SECONDS = 2,   /* after a wrong one nothing is compared */
    DEVICES_MOST = 16,
    DEVICE_SECONDS = 90 * 24 * 3600, /* unseen so long, it must be paired again */
    DEVICE_NAME_MOST = 40,           /* bytes */
    DEVICE_ID_DIGITS = 8,
    DEVICE_TOKEN_DIGITS = 64,
};

enum code_state { CODE_NONE, CODE_OPEN, CODE_USED, CODE_TRIED_OUT, CODE_ENDED };

struct pairing {
    pthread_mutex_t lock;
    enum code_state state;
    char code[PAIR_CODE_LETTERS + 1];
    int64_t since, wrong_at; /* when it was made; when a wrong one was tried last, 0: never */
    int wrong;
};

void pairing_begin(struct pairing *p);
void pairing_end(struct pairing *p);
/* A new code; the one before it ends. */
void pairing_renew(struct pairing *p, int64_t now);
/* How the code stands, and the code itself where it is open: at least PAIR_CODE_LETTERS + 1. */
enum code_state pairing_state(struct pairing *p, int64_t now, char *code, int64_t *seconds_left);
/* True once for each code at most. Case and what stands between letters do not count; O is taken
 * for 0, I and L for 1. status: what a page answers when not. */
bool pairing_try(struct pairing *p, const char *typed, int64_t now, int *status, struct fail *f);

struct device {
    const char *id, *name;
    const char *digest; /* SHA-256 of its token, in hexadecimal */
    int64_t paired, seen;
};

struct devices {
    struct device items[DEVICES_MOST];
    int count;
};

/* Those whose access has not ended. No file yet: none. */
bool devices_read(struct arena *a, const char *garage, int64_t now, struct devices *out,
                  struct fail *f);
/* The token is for the device alone. name "": "phone". */
bool devices_add(struct arena *a, const char *garage, const char *name, int64_t now,
                 const char **token, struct fail *f);
bool devices_forget(struct arena *a, const char *garage, const char *id, int64_t now,
                    struct fail *f);
/* The device with this token, NULL if there is none; token NULL: none. renewed: it was not seen on
 * this day before; that is kept, and its cookie should be given anew. */
bool devices_admit(struct arena *a, const char *garage, const char *token, int64_t now,
                   const struct device **out, bool *renewed, struct fail *f);

#endif
