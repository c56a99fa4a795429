/* store.c - finished files: whole or not at all. */
#include "library/store.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "stages.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static bool fail(struct compile *c, const char *path) {
    diag_add(c->diags, DIAG_CANNOT_WRITE, (struct span){0}, "%s: %s", path,
             strerror(errno));
    return false;
}

static const char *folder_of(struct arena *a, const char *path) {
    const char *slash = strrchr(path, '/');
    if (slash == NULL)
        return ".";
    return arena_copy(a, path, (size_t)(slash - path));
}

/* Another run may make it meanwhile. */
static bool is_made(const char *folder) {
    return mkdir(folder, 0777) == 0 || errno == EEXIST;
}

/* And those above it. */
static bool make_folder(struct compile *c, const char *folder) {
    if (is_made(folder))
        return true;
    if (errno == ENOENT && strchr(folder, '/') != NULL &&
        make_folder(c, folder_of(c->arena, folder)) && is_made(folder))
        return true;
    return fail(c, folder);
}

static bool write_all(int file, const unsigned char *bytes, size_t len) {
    while (len > 0) {
        ssize_t written = write(file, bytes, len);
        if (written < 0 && errno == EINTR)
            continue;
        if (written <= 0)
            return false;
        bytes += written;
        len -= (size_t)written;
    }
    return true;
}

/* The rename itself must reach the disk too. Some file systems cannot sync a
 * folder; the file is whole either way. */
static void sync_folder(const char *folder) {
    int file = open(folder, O_RDONLY | O_DIRECTORY);
    if (file < 0)
        return;
    fsync(file);
    close(file);
}

#define TEMPORARY ".bayleaf-"

static bool lock(int file, int how) {
    struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    return fcntl(file, how, &whole) == 0;
}

/* A new file that is locked, so that no other run takes it for one that was
 * left; -1 on failure. One may be swept away before the lock is there: then it
 * has no name any more, and the next is tried. */
static int make_temporary(struct arena *a, const char *folder, char **path) {
    for (;;) {
        *path = arena_printf(a, "%s/" TEMPORARY "XXXXXX", folder);
        int file = mkstemp(*path);
        struct stat status;
        if (file < 0)
            return -1;
        lock(file, F_SETLKW); /* where locks are unknown nothing is swept */
        if (fstat(file, &status) != 0 || status.st_nlink > 0)
            return file;
        close(file);
    }
}

void store_sweep(struct arena *a, const char *path) {
    const char *folder = folder_of(a, path);
    DIR *dir = opendir(folder);
    if (dir == NULL)
        return;
    for (const struct dirent *e = readdir(dir); e != NULL; e = readdir(dir)) {
        if (strncmp(e->d_name, TEMPORARY, strlen(TEMPORARY)) != 0)
            continue;
        const char *left = arena_printf(a, "%s/%s", folder, e->d_name);
        struct stat status;
        if (lstat(left, &status) != 0 || !S_ISREG(status.st_mode))
            continue;
        int file = open(left, O_RDWR | O_NOFOLLOW | O_CLOEXEC);
        if (file < 0)
            continue;
        if (lock(file, F_SETLK))
            unlink(left);
        close(file);
    }
    closedir(dir);
}

/* All of a new file, with these rights unless 0. */
static bool fill(int file, const unsigned char *bytes, size_t len,
                 mode_t rights) {
    return write_all(file, bytes, len) &&
           (rights == 0 || fchmod(file, rights) == 0);
}

/* And on the disk. */
static bool fill_synced(int file, const unsigned char *bytes, size_t len,
                        mode_t rights) {
    return fill(file, bytes, len, rights) && fsync(file) == 0;
}

/* What a file gets that is not secret, as open() would give it. */
static mode_t usual_rights(void) {
    mode_t mask = umask(0);
    umask(mask);
    return 0666 & ~mask;
}

/* Whether all went well so far and the close too; else errno says why not. */
static bool closed(int file, bool whole) {
    int why = errno;
    bool ok = close(file) == 0;
    if (!whole)
        errno = why;
    return whole && ok;
}

/* Once a file is whole its name must last; one that is not must not stay. */
static bool finish(struct compile *c, bool whole, const char *path,
                   const char *written) {
    if (whole)
        sync_folder(folder_of(c->arena, path));
    else {
        fail(c, path);
        unlink(written);
    }
    return whole;
}

/* Where the PDF that stood under this name goes when its guide is refused. */
static const char *withdrawn_of(struct arena *a, const char *path) {
    const char *slash = strrchr(path, '/');
    return arena_printf(a, "%s/withdrawn/%s", folder_of(a, path),
                        slash == NULL ? path : slash + 1);
}

/* The new file is the last good one. The folder stays, empty or not: another
 * run may be about to put something there. */
static bool drop_withdrawn(struct compile *c, const char *old) {
    return unlink(old) == 0 || errno == ENOENT || errno == ENOTDIR ||
           fail(c, old);
}

/* A temporary file beside `path`, and their folder; -1 after a message. */
static int begin(struct compile *c, const char *path, char **temporary) {
    const char *folder = folder_of(c->arena, path);
    if (!make_folder(c, folder))
        return -1;
    int file = make_temporary(c->arena, folder, temporary);
    if (file < 0)
        fail(c, path);
    return file;
}

bool store_write(struct compile *c, const char *path,
                 const unsigned char *bytes, size_t len) {
    char *temporary;
    int file = begin(c, path, &temporary);
    if (file < 0)
        return false;
    bool whole = fill_synced(file, bytes, len, usual_rights()) &&
                 rename(temporary, path) == 0;
    return finish(c, closed(file, whole), path, temporary) &&
           drop_withdrawn(c, withdrawn_of(c->arena, path));
}

bool store_keep(struct compile *c, const char *path, const unsigned char *bytes,
                size_t len) {
    char *temporary;
    int file = begin(c, path, &temporary);
    if (file < 0)
        return false;
    bool whole =
        fill(file, bytes, len, usual_rights()) && rename(temporary, path) == 0;
    if (closed(file, whole))
        return true;
    return finish(c, false, path, temporary);
}

bool store_has(const char *path, const unsigned char *bytes, size_t len) {
    unsigned char part[16384];
    int file = open(path, O_RDONLY | O_NOCTTY | O_NONBLOCK | O_CLOEXEC);
    struct stat status;
    bool same = file >= 0 && fstat(file, &status) == 0 &&
                S_ISREG(status.st_mode) && (uintmax_t)status.st_size == len;
    while (same && len > 0) {
        ssize_t got = read(file, part, len < sizeof part ? len : sizeof part);
        same = got > 0 && memcmp(part, bytes, (size_t)got) == 0;
        bytes += same ? got : 0;
        len -= same ? (size_t)got : 0;
    }
    if (file >= 0)
        close(file);
    return same;
}

/* A file that waits for its name; open, since closing gives up its lock. */
struct waiting {
    const char *path, *withdrawn;
    char *temporary;
    int file;
    bool named; /* it stands under its name */
};

struct store_batch {
    struct arena *arena;
    const char *folder;
    struct waiting *list;
    size_t count, room;
    /* While it is being closed. */
    struct compile *compile;
    pthread_t thread;
    bool threaded, good;
};

struct store_batch *store_open(struct arena *a) {
    struct store_batch *s = arena_alloc(a, 1, sizeof *s);
    s->arena = a;
    return s;
}

bool store_add(struct store_batch *s, struct compile *c, const char *path,
               const unsigned char *bytes, size_t len) {
    const char *folder = folder_of(s->arena, path);
    if (!make_folder(c, folder))
        return false;
    s->list =
        list_grown(s->arena, s->list, s->count, &s->room, sizeof *s->list);
    struct waiting *w = &s->list[s->count];
    *w = (struct waiting){0};
    s->folder = folder;
    w->path = arena_copy(s->arena, path, strlen(path));
    w->withdrawn = withdrawn_of(s->arena, path);
    w->file = make_temporary(s->arena, folder, &w->temporary);
    if (w->file < 0)
        return fail(c, path);
    if (write_all(w->file, bytes, len) &&
        fchmod(w->file, usual_rights()) == 0) {
        s->count++;
        return true;
    }
    closed(w->file, false);
    return finish(c, false, path, w->temporary);
}

/* All are written before the first is synced: a disk does that in one go. No
 * memory is asked for: a thread that does so takes one of the C library's
 * arenas from those that compute, who then spread over more of them. */
static void *name_all(void *batch) {
    struct store_batch *s = batch;
    bool any = false;
    s->good = true;
    for (size_t i = 0; i < s->count; i++) {
        struct waiting *w = &s->list[i];
        bool whole = fsync(w->file) == 0 && rename(w->temporary, w->path) == 0;
        if (closed(w->file, whole)) {
            w->named = any = true;
            s->good &= drop_withdrawn(s->compile, w->withdrawn);
            continue;
        }
        s->good = finish(s->compile, false, w->path, w->temporary);
    }
    if (any)
        sync_folder(s->folder);
    return NULL;
}

void store_close(struct store_batch *s, struct compile *c) {
    s->compile = c;
    s->threaded = pthread_create(&s->thread, NULL, name_all, s) == 0;
    if (!s->threaded)
        name_all(s);
}

bool store_wait(struct store_batch *s) {
    if (s->threaded)
        pthread_join(s->thread, NULL);
    s->threaded = false;
    return s->good;
}

bool store_named(const struct store_batch *s, const char *path) {
    for (size_t i = 0; i < s->count; i++)
        if (s->list[i].named && strcmp(s->list[i].path, path) == 0)
            return true;
    return false;
}

/* Straight to its name, on file systems without hard links: those of memory
 * sticks. A kill may leave a part of it there. */
static bool create_in_place(struct compile *c, const char *path,
                            const unsigned char *bytes, size_t len,
                            bool *exists) {
    int file = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file < 0) {
        *exists = errno == EEXIST;
        return *exists ? false : fail(c, path);
    }
    return finish(c, closed(file, fill_synced(file, bytes, len, 0)), path,
                  path);
}

/* A temporary file renamed would overwrite; a second name for it does not. */
bool store_create(struct compile *c, const char *path,
                  const unsigned char *bytes, size_t len, bool *exists) {
    char *temporary;
    *exists = false;
    int file = begin(c, path, &temporary);
    if (file < 0)
        return false;
    bool whole = fill_synced(file, bytes, len, usual_rights());
    bool named = whole && link(temporary, path) == 0;
    int why = errno;
    close(file); /* its lock kept it from being swept away */
    unlink(temporary);
    *exists = whole && !named && why == EEXIST;
    if (named)
        sync_folder(folder_of(c->arena, path));
    else if (whole && !*exists)
        return create_in_place(c, path, bytes, len, exists);
    errno = why;
    return named || (!*exists && fail(c, path));
}

/* A refused guide's PDF that nothing could take away. */
static bool stands(struct compile *c, const char *path) {
    diag_note(c->diags, (struct span){0},
              "%s still stands; its guide was refused", path);
    return false;
}

bool store_withdraw(struct compile *c, const char *path, const char **moved) {
    struct stat status;
    *moved = NULL;
    if (lstat(path, &status) != 0 || S_ISDIR(status.st_mode))
        return true;
    const char *to = withdrawn_of(c->arena, path);
    const char *folder = folder_of(c->arena, to);
    if (!make_folder(c, folder))
        return stands(c, path);
    if (rename(path, to) != 0) {
        fail(c, to);
        return stands(c, path);
    }
    sync_folder(folder);
    *moved = to;
    return true;
}
