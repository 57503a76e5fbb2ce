#include "face/show/photo_child.h"

#include "base/day.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

static const char program[] = "fettle-photo";
enum {
    FIRST_FREE = 10, /* descriptors from here on do not get in the way of 0 to 4 */
    GIVEN = 5,
    SAID_MOST = 500,
};

static int64_t now_milliseconds(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (int64_t)t.tv_sec * 1000 + t.tv_nsec / 1000000;
}

/* Beside this program. */
static bool find_beside(char *out, size_t size)
{
    ssize_t n = readlink("/proc/self/exe", out, size - 1);
    if (n <= 0) return false;
    out[n] = '\0';
    char *slash = strrchr(out, '/');
    if (!slash || (size_t)(slash + 1 - out) + sizeof program > size) return false;
    memcpy(slash + 1, program, sizeof program);
    return access(out, X_OK) == 0;
}

/* given: what becomes its descriptors 0 to 4; others that got through it closes first of all. */
static int start(const int given[GIVEN], pid_t *child)
{
    char path[4096];
    char *const arguments[] = {(char *)(uintptr_t)program, NULL}, *const environment[] = {NULL};
    posix_spawn_file_actions_t files;
    posix_spawnattr_t how;
    sigset_t none, pipe;
    sigemptyset(&none);
    sigemptyset(&pipe);
    sigaddset(&pipe, SIGPIPE);
    posix_spawn_file_actions_init(&files);
    posix_spawnattr_init(&how);
    for (int i = 0; i < GIVEN; i++) posix_spawn_file_actions_adddup2(&files, given[i], i);
    posix_spawnattr_setflags(&how, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF);
    posix_spawnattr_setsigmask(&how, &none);
    posix_spawnattr_setsigdefault(&how, &pipe);
    int error = find_beside(path, sizeof path)
                    ? posix_spawn(child, path, &files, &how, arguments, environment)
                    : posix_spawnp(child, program, &files, &how, arguments, environment);
    posix_spawn_file_actions_destroy(&files);
    posix_spawnattr_destroy(&how);
    return error;
}

/* What it says, until it ends; false: the deadline came first. */
static bool listen_to(int from, int seconds, char said[SAID_MOST + 1])
{
    const int64_t end = now_milliseconds() + seconds * 1000;
    for (size_t length = 0;;) {
        struct pollfd wait = {from, POLLIN, 0};
        char piece[512];
        const int64_t left = end - now_milliseconds();
        if (left <= 0) return false;
        if (poll(&wait, 1, (int)left) <= 0) continue;
        ssize_t n = read(from, piece, sizeof piece);
        if (n < 0 && errno == EINTR) continue;
        if (n <= 0) return true;
        for (ssize_t i = 0; i < n && length < SAID_MOST; i++) said[length++] = piece[i];
    }
}

/* "jpeg 4032 3024 2026-11-25\n", to the letter. */
static bool understand(const char *said, struct photo_facts *out)
{
    int end = 0;
    day d;
    struct fail ignored = {0};
    if (sscanf(said, "%4[a-z] %5u %5u %10[0-9-]%n", out->type, &out->width, &out->height,
               out->taken, &end) != 4 ||
        strcmp(said + end, "\n") != 0)
        return false;
    if (strcmp(out->taken, "-") == 0) out->taken[0] = '\0';
    return (strcmp(out->type, "jpeg") == 0 || strcmp(out->type, "png") == 0) && out->width > 0 &&
           out->height > 0 && (!*out->taken || day_parse(out->taken, &d, &ignored));
}

static bool conclude(int status, bool in_time, char *said, struct photo_facts *out, struct fail *f)
{
    const int killed_by = WIFSIGNALED(status) ? WTERMSIG(status) : 0;
    if (!in_time || killed_by == SIGXCPU || killed_by == SIGKILL)
        return fail_set(f, FAIL_INPUT, "it takes too long to read; save it smaller");
    if (killed_by)
        return fail_set(f, FAIL_INPUT,
                        "the program that reads pictures broke on it (signal %d); save it anew",
                        killed_by);
    if (WEXITSTATUS(status) == 0 && understand(said, out)) return true;
    if (WEXITSTATUS(status) != 1)
        return fail_set(f, FAIL_GARAGE,
                        "photographs: %s does not work here (status %d); build it anew with: make",
                        program, WEXITSTATUS(status));
    said[strcspn(said, "\n")] = '\0';
    return fail_set(f, FAIL_INPUT, "%s", *said ? said : "it cannot be read");
}

static bool run(const int given[GIVEN], int from, int seconds, struct photo_facts *out,
                struct fail *f)
{
    char said[SAID_MOST + 1] = "";
    pid_t child;
    int status = 0, error = start(given, &child);
    for (int i = 0; i < GIVEN; i++) close(given[i]); /* so that the pipe ends with the child */
    if (error)
        return fail_set(f, FAIL_GARAGE,
                        "photographs: %s, which reads pictures, is neither beside this program nor "
                        "on PATH (%s); build it with: make",
                        program, strerror(error));
    const bool in_time = listen_to(from, seconds, said);
    if (!in_time) kill(child, SIGKILL);
    while (waitpid(child, &status, 0) < 0 && errno == EINTR) continue;
    return conclude(status, in_time, said, out, f);
}

bool photo_look(int picture, int copy, int thumbnail, int seconds, struct photo_facts *out,
                struct fail *f)
{
    int ends[2];
    if (pipe(ends) != 0)
        return fail_set(f, FAIL_GARAGE, "photographs: %s; close other programs", strerror(errno));
    const int from[GIVEN] = {picture, ends[1], ends[1], copy, thumbnail};
    int given[GIVEN], n = 0;
    while (n < GIVEN && (given[n] = fcntl(from[n], F_DUPFD_CLOEXEC, FIRST_FREE)) >= 0) n++;
    close(ends[1]);
    bool ok = n == GIVEN;
    if (ok) {
        ok = run(given, ends[0], seconds, out, f);
    } else {
        fail_set(f, FAIL_GARAGE, "photographs: %s; close other programs", strerror(errno));
        while (n > 0) close(given[--n]);
    }
    close(ends[0]);
    return ok;
}
