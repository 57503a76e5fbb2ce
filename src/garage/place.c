/* place.c - folders, renames and what must be synced for them to last. Modes are given outright
 * (0700, 0600), so that nobody else may read a garage and the process's umask is left alone. */
#include "garage/place.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/statfs.h>
#include <sys/sysmacros.h>
#include <unistd.h>

/* ---- which disk ---- */

/* Source: statfs(2) and the kernel's linux/magic.h, for those not in user space. */
static const struct {
    long magic;
    const char *name;
} network_magics[] = {
    {0x6969, "NFS"},
    {0x517b, "SMB"},
    {0xff534d42, "CIFS"},
    {0xfe534d42, "SMB2"},
    {0x5346414f, "AFS"},
    {0x6b414653, "AFS"},
    {0x00c36400, "Ceph"},
    {0x73757245, "Coda"},
    {0x564c, "NCP"},
    {0x0bd00bd0, "Lustre"},
    {0x786f4256, "a folder of the host machine"},
};
enum { FUSE_MAGIC = 0x65735546 };

/* In user space there are local disks too (NTFS, layered folders of containers), so only these are
 * refused. */
static const char *const network_fuses[] = {"sshfs",    "rclone",     "gvfsd-fuse", "davfs",
                                            "davfs2",   "curlftpfs",  "s3fs",       "gcsfuse",
                                            "goofys",   "glusterfs",  "ceph",       "smbnetfs",
                                            "fuse-nfs", "mount.cifs", "onedriver",  NULL};

const char *place_network(long magic, const char *type)
{
    for (size_t i = 0; i < sizeof network_magics / sizeof *network_magics; i++)
        if (network_magics[i].magic == (magic & 0xffffffffL)) return network_magics[i].name;
    if (magic != FUSE_MAGIC || !type || !text_starts(type, "fuse.")) return NULL;
    for (int i = 0; network_fuses[i]; i++)
        if (text_is(type + strlen("fuse."), network_fuses[i])) return network_fuses[i];
    return NULL;
}

/* The type of the file system with this device number, from the lines "id parent major:minor ... -
 * type ...". */
static bool mounted_type(dev_t device, char *type, size_t size)
{
    char line[4096], wanted[32];
    snprintf(wanted, sizeof wanted, "%u:%u", major(device), minor(device));
    FILE *mounts = fopen("/proc/self/mountinfo", "re");
    bool found = false;
    while (mounts && !found && fgets(line, sizeof line, mounts)) {
        char pair[32];
        const char *dash = strstr(line, " - ");
        if (!dash || sscanf(line, "%*d %*d %31s", pair) != 1 || !text_is(pair, wanted)) continue;
        size_t n = strcspn(dash + 3, " ");
        if (n >= size) break;
        memcpy(type, dash + 3, n);
        type[n] = '\0';
        found = true;
    }
    if (mounts) fclose(mounts);
    return found;
}

bool place_is_local(const char *dir, struct fail *f)
{
    struct statfs fs;
    struct stat st;
    char type[64];
    if (statfs(dir, &fs) != 0 || stat(dir, &st) != 0)
        return fail_set(f, FAIL_GARAGE, "%s: %s; check the path", dir, strerror(errno));
    bool known = fs.f_type == FUSE_MAGIC && mounted_type(st.st_dev, type, sizeof type);
    const char *network = place_network((long)fs.f_type, known ? type : NULL);
    if (!network) return true;
    return fail_set(
        f, FAIL_GARAGE,
        "%s: lies on a network folder (%s), where writes can be lost; keep the garage on a disk "
        "of this machine",
        dir, network);
}

/* ---- making ---- */

static char *without_slash(struct arena *a, const char *dir)
{
    size_t n = strlen(dir);
    while (n > 1 && dir[n - 1] == '/') n--;
    return arena_copy_n(a, dir, n);
}

static char *parent_of(struct arena *a, const char *path)
{
    const char *slash = strrchr(path, '/');
    if (!slash) return arena_copy(a, ".");
    return slash == path ? arena_copy(a, "/") : arena_copy_n(a, path, (size_t)(slash - path));
}

bool place_sync(const char *dir)
{
    int fd = open(dir, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0) return false;
    bool ok = fsync(fd) == 0;
    return close(fd) == 0 && ok;
}

static const char *const inner_folders[] = {"files", "cache", "trade", NULL};

bool place_begin(struct arena *a, const char *dir, char **temporary, struct fail *f)
{
    struct stat st;
    dir = without_slash(a, dir);
    const char *parent = parent_of(a, dir);
    if (stat(parent, &st) != 0 || !S_ISDIR(st.st_mode))
        return fail_set(f, FAIL_GARAGE, "%s: there is no folder %s to make it in; make that first",
                        dir, parent);
    if (!place_is_local(parent, f)) return false;
    *temporary = arena_print(a, "%s.new-XXXXXX", dir);
    if (!mkdtemp(*temporary)) /* 0700 */
        return fail_set(f, FAIL_GARAGE, "%s: cannot be made: %s; check who owns %s, and its space",
                        dir, strerror(errno), parent);
    for (int i = 0; inner_folders[i]; i++)
        if (mkdir(arena_print(a, "%s/%s", *temporary, inner_folders[i]), 0700) != 0) {
            fail_set(f, FAIL_GARAGE, "%s: cannot be made: %s; free some space and try again", dir,
                     strerror(errno));
            place_abandon(a, *temporary);
            return false;
        }
    return true;
}

bool place_finish(struct arena *a, const char *temporary, const char *dir, struct fail *f)
{
    dir = without_slash(a, dir);
    if (!place_sync(temporary))
        return fail_set(f, FAIL_GARAGE, "%s: cannot be written to the disk: %s; check the disk",
                        dir, strerror(errno));
    if (rename(temporary, dir) != 0) {
        if (errno == ENOTEMPTY || errno == EEXIST || errno == ENOTDIR)
            return fail_set(
                f, FAIL_GARAGE,
                "%s: is there already and not empty; give another folder, or open this one", dir);
        return fail_set(f, FAIL_GARAGE, "%s: cannot be made: %s", dir, strerror(errno));
    }
    /* The garage stands; if this fails it may be gone after a power cut, but never half there. */
    place_sync(parent_of(a, dir));
    return true;
}

void place_abandon(struct arena *a, const char *temporary)
{
    static const char *const databases[] = {"garage.db", "garage.db-wal", "garage.db-shm",
                                            "garage.db-journal", NULL};
    for (int i = 0; databases[i]; i++) unlink(arena_print(a, "%s/%s", temporary, databases[i]));
    for (int i = 0; inner_folders[i]; i++)
        rmdir(arena_print(a, "%s/%s", temporary, inner_folders[i]));
    rmdir(temporary);
}

bool place_write_file(struct arena scratch, const char *path, const char *data, size_t n)
{
    char *temporary = arena_print(&scratch, "%s.XXXXXX", path);
    int fd = mkstemp(temporary); /* 0600 */
    if (fd < 0) return false;
    bool ok = true;
    while (ok && n) {
        ssize_t written = write(fd, data, n);
        if (written > 0) {
            data += written;
            n -= (size_t)written;
        } else {
            ok = written < 0 && errno == EINTR;
        }
    }
    ok = ok && fsync(fd) == 0;
    ok = close(fd) == 0 && ok;
    ok = ok && rename(temporary, path) == 0;
    if (!ok) unlink(temporary);
    return ok && place_sync(parent_of(&scratch, path));
}
