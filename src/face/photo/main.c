/* fettle-photo - looks at one picture and makes its smaller copies, on behalf of fettle.
 *
 * Standard input is the picture, as a file; descriptor 3 takes the copy and 4 the thumbnail, each
 * open already. It says on standard output "TYPE WIDTH HEIGHT DAY", DAY being - where it is not
 * known, and ends with 0; or one line on standard error why it cannot be taken, and 1. It may not
 * open a file, nor take more memory and time than its limits. */
#include "face/photo/picture.h"

#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

enum { COPY = 3, THUMBNAIL = 4, CPU_SECONDS = 20, COPY_QUALITY = 82, THUMBNAIL_QUALITY = 75 };

/* The sanitizers of a test build need address space and files of their own. */
#if defined __SANITIZE_ADDRESS__
#define SANITIZED 1
#elif defined __has_feature
#if __has_feature(address_sanitizer)
#define SANITIZED 1
#endif
#endif

static bool limit(void)
{
    static const struct {
        int what;
        rlim_t most;
    } limits[] = {
        {RLIMIT_CORE, 0},
        {RLIMIT_CPU, CPU_SECONDS},
        {RLIMIT_FSIZE, (rlim_t)32 << 20},
#ifndef SANITIZED
        {RLIMIT_AS, (rlim_t)1 << 30},
        {RLIMIT_NOFILE, 0}, /* what is open stays open */
#endif
    };
    for (size_t i = 0; i < sizeof limits / sizeof *limits; i++) {
        const struct rlimit both = {limits[i].most, limits[i].most};
        if (setrlimit((__rlimit_resource_t)limits[i].what, &both) != 0) return false;
    }
    return prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0;
}

static bool copy_to(int fd, const struct picture *p, int quality, struct fail *f)
{
    FILE *to = fdopen(fd, "w");
    return to ? picture_write(p, quality, to, f)
              : fail_set(f, FAIL_GARAGE, "descriptor %d is not open", fd);
}

static bool look(struct picture_facts *facts, struct fail *f)
{
    struct stat st;
    struct picture copy, thumbnail = {0};
    if (fstat(STDIN_FILENO, &st) != 0 || !S_ISREG(st.st_mode))
        return fail_set(f, FAIL_INPUT, "standard input is not a file; fettle runs this program");
    const size_t n = (size_t)st.st_size;
    if (n == 0) return fail_set(f, FAIL_INPUT, "it is empty");
    const unsigned char *bytes = mmap(NULL, n, PROT_READ, MAP_PRIVATE, STDIN_FILENO, 0);
    if (bytes == MAP_FAILED) return fail_set(f, FAIL_INPUT, "it takes more memory than there is");
    bool ok = picture_read(bytes, n, PICTURE_COPY_SIDE, facts, &copy, f) &&
              picture_shrink(&copy, PICTURE_THUMBNAIL_SIDE, &thumbnail, f) &&
              copy_to(COPY, &copy, COPY_QUALITY, f) &&
              copy_to(THUMBNAIL, &thumbnail, THUMBNAIL_QUALITY, f);
    free(copy.rgb);
    free(thumbnail.rgb);
    return ok;
}

int main(void)
{
    struct picture_facts facts;
    struct fail f = {0};
    closefrom(THUMBNAIL + 1);
    if (!limit()) fail_set(&f, FAIL_GARAGE, "its limits cannot be set");
    if (f.kind == FAIL_NONE && look(&facts, &f)) {
        printf("%s %u %u %s\n", facts.type, facts.width, facts.height,
               *facts.taken ? facts.taken : "-");
        return fflush(stdout) == 0 ? 0 : 1;
    }
    fprintf(stderr, "%s\n", f.text);
    fflush(stderr);
    _exit(1); /* at once: nothing is worth an orderly end */
}
