/* file.c - opens the files of a library, and nothing that is not one. */
#include "source/file.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "source/encoding.h"
#include "source/suggest.h"
#include "stages.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* The library's root is "." when the user names none: it is not shown. */
static const char *in_library(struct compile *c, const char *path) {
    if (c->library == NULL || c->library[0] == '\0' ||
        strcmp(c->library, ".") == 0)
        return arena_copy(c->arena, path, strlen(path));
    size_t len = strlen(c->library);
    const char *slash = c->library[len - 1] == '/' ? "" : "/";
    return arena_printf(c->arena, "%s%s%s", c->library, slash, path);
}

/* A message about a file points to where it was named; one about a file of the
 * command line says its path only. */
static void report(struct compile *c, enum diag_id id, struct span named_at,
                   const char *path, const char *why) {
    diag_add(c->diags, id, named_at, "%s: %s", path, why);
}

static bool is_missing(int error) {
    return error == ENOENT || error == ENOTDIR;
}

/* The nearest of the files of a folder that have this ending, without it. Their
 * order in the folder is not fixed, so equal ones are decided by name. */
static const char *nearest_stem(struct compile *c, const char *folder,
                                struct text stem, const char *ending) {
    DIR *dir = opendir(folder);
    if (dir == NULL)
        return NULL;
    const char *best = NULL;
    size_t distance = (size_t)-1, tail = strlen(ending);
    for (const struct dirent *e = readdir(dir); e != NULL; e = readdir(dir)) {
        size_t len = strlen(e->d_name);
        if (len <= tail || strcmp(e->d_name + len - tail, ending) != 0)
            continue;
        const char *name = arena_copy(c->arena, e->d_name, len - tail);
        struct nearest n = nearest_to(stem);
        nearest_offer(&n, text_of(name));
        if (n.best == NULL || n.distance > distance ||
            (n.distance == distance && strcmp(name, best) > 0))
            continue;
        best = name;
        distance = n.distance;
    }
    closedir(dir);
    return best;
}

/* A path that leads nowhere, and the file beside it that was meant. */
static void report_missing(struct compile *c, struct span named_at,
                           const char *path) {
    const char *slash = strrchr(path, '/');
    const char *base = slash == NULL ? path : slash + 1;
    const char *dot = strrchr(base, '.');
    const char *ending = dot == NULL || dot == base ? "" : dot;
    struct text stem = {base, strlen(base) - strlen(ending)};
    const char *folder =
        slash == NULL ? "."
                      : arena_copy(c->arena, path, (size_t)(slash - path));
    const char *near =
        base[0] == '.' ? NULL : nearest_stem(c, folder, stem, ending);
    if (near != NULL && strcmp(ending, ".md") != 0)
        near = arena_printf(c->arena, "%s%s", near, ending);
    diag_add(c->diags, DIAG_FILE_MISSING, named_at, "%s%s", path,
             suggest(c->arena, stem, text_of(near)));
}

static void report_errno(struct compile *c, struct span named_at,
                         const char *path, int error) {
    if (error == ENOENT)
        report_missing(c, named_at, path);
    else
        report(c, is_missing(error) ? DIAG_FILE_MISSING : DIAG_CANNOT_READ,
               named_at, path, strerror(error));
}

static const char *what_it_is(mode_t mode) {
    return S_ISDIR(mode)    ? "a directory"
           : S_ISFIFO(mode) ? "a FIFO"
           : S_ISSOCK(mode) ? "a socket"
                            : "a device";
}

/* Links are followed first and the end of the way is looked at, so that a link
 * within the library may stand and one that leaves it is refused. */
static bool stays_inside(struct compile *c, const char *path,
                         struct span named_at) {
    char root[PATH_MAX], end[PATH_MAX];
    const char *library = c->library == NULL ? "." : c->library;
    if (realpath(library, root) == NULL) {
        report_errno(c, named_at, library, errno);
        return false;
    }
    if (realpath(path, end) == NULL) {
        report_errno(c, named_at, path, errno);
        return false;
    }
    size_t len = strlen(root);
    bool inside = strcmp(root, "/") == 0 ||
                  (strncmp(root, end, len) == 0 && end[len] == '/');
    if (!inside)
        report(c, DIAG_FILE_OUTSIDE, named_at, path,
               "a link leads out of the library");
    return inside;
}

/* Looked at before it is opened, since opening a device can disturb it, and
 * again after, since it may have been exchanged between. */
static int open_regular(struct compile *c, const char *path,
                        struct span named_at, struct stat *found) {
    if (stat(path, found) != 0) {
        report_errno(c, named_at, path, errno);
        return -1;
    }
    int fd = -1;
    if (S_ISREG(found->st_mode)) {
        fd = open(path, O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
        if (fd < 0 || fstat(fd, found) != 0) {
            report_errno(c, named_at, path, errno);
            if (fd >= 0)
                close(fd);
            return -1;
        }
    }
    if (!S_ISREG(found->st_mode)) {
        report(c, DIAG_FILE_NOT_REGULAR, named_at, path,
               what_it_is(found->st_mode));
        if (fd >= 0)
            close(fd);
        return -1;
    }
    return fd;
}

static void report_large(struct compile *c, struct span named_at,
                         const char *path, size_t most) {
    diag_add(c->diags, DIAG_FILE_TOO_LARGE, named_at, "%s: more than %zu MiB",
             path, most / (1024 * 1024));
}

static void mark(const struct stat *s, struct file_mark *out) {
    *out = (struct file_mark){.number = (uint64_t)s->st_ino,
                              .size = (uint64_t)s->st_size,
                              .time = (int64_t)s->st_mtim.tv_sec * 1000000000 +
                                      s->st_mtim.tv_nsec};
}

bool file_mark_of(const char *path, struct file_mark *out) {
    struct stat s;
    *out = (struct file_mark){.absent = true};
    if (stat(path, &s) != 0)
        return false;
    mark(&s, out);
    return true;
}

static void note(struct compile *c, const char *path, struct text text,
                 struct file_mark m) {
    struct file_reads *r = c->reads;
    if (r == NULL)
        return;
    for (size_t i = 0; i < r->count; i++)
        if (strcmp(r->list[i].path, path) == 0)
            return;
    r->list =
        list_grown(c->arena, r->list, r->count, &r->room, sizeof *r->list);
    r->list[r->count++] =
        (struct file_read){arena_copy(c->arena, path, strlen(path)), text, m};
}

void file_note_all(struct compile *c, const struct file_reads *reads) {
    for (size_t i = 0; i < reads->count; i++)
        note(c, reads->list[i].path, reads->list[i].text, reads->list[i].mark);
}

bool file_is_there(struct compile *c, const char *path) {
    struct file_mark m;
    bool there = file_mark_of(path, &m);
    if (!there)
        note(c, path, (struct text){NULL, 0}, m);
    return there;
}

void file_note_folder(struct compile *c, const char *path) {
    struct file_mark m;
    file_mark_of(path, &m);
    note(c, path, (struct text){NULL, 0}, m);
}

/* One byte more than announced is asked for, to see a file that grows. */
static const char *read_all(struct compile *c, const char *path,
                            struct span named_at, size_t most, size_t *len) {
    struct stat found;
    int fd = open_regular(c, path, named_at, &found);
    if (fd < 0)
        return NULL;
    if (found.st_size < 0 || (uintmax_t)found.st_size > most) {
        report_large(c, named_at, path, most);
        close(fd);
        return NULL;
    }
    size_t room = (size_t)found.st_size + 1;
    char *bytes = arena_alloc(c->arena, room, 1);
    size_t count = 0;
    while (count < room) {
        ssize_t got = read(fd, bytes + count, room - count);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0) {
            report_errno(c, named_at, path, errno);
            close(fd);
            return NULL;
        }
        if (got == 0)
            break;
        count += (size_t)got;
    }
    close(fd);
    if (count == room) {
        report(c, DIAG_CANNOT_READ, named_at, path,
               "it grew while it was read");
        return NULL;
    }
    *len = count;
    struct file_mark m;
    mark(&found, &m);
    note(c, path, (struct text){bytes, count}, m);
    return bytes;
}

static struct source *read_source(struct compile *c, const char *path,
                                  struct span named_at) {
    size_t len = 0;
    const char *bytes = read_all(c, path, named_at, FILE_BYTES_MAX, &len);
    if (bytes == NULL)
        return NULL;
    struct source *src =
        place_source(c->arena, path, (struct text){bytes, len});
    src->included_at = named_at;
    return encoding_check(c->diags, src) ? src : NULL;
}

/* A guide of the library may be named by its path, or found in its folder: then
 * it has to lie there, as what it names has to. */
static bool is_of_library(struct compile *c, const char *path) {
    const char *folder = in_library(c, "procedures/");
    return strncmp(path, folder, strlen(folder)) == 0;
}

/* NULL: it is read from the disk. */
static struct source *as_issued(struct compile *c, const char *path,
                                struct span named_at) {
    size_t count = c->issued == NULL ? 0 : c->issued->count;
    for (size_t i = 0; i < count; i++) {
        const struct file_text *f = &c->issued->file[i];
        const char *own = in_library(c, text_cstr(c->arena, f->path));
        if (strcmp(own, path) != 0)
            continue;
        struct source *src = place_source(c->arena, own, f->text);
        src->included_at = named_at;
        return src;
    }
    return NULL;
}

struct source *file_read_given(struct compile *c, const char *path) {
    struct span nowhere = {NULL, 0, 0};
    struct source *issued = as_issued(c, path, nowhere);
    if (issued != NULL)
        return issued;
    if (is_of_library(c, path) && !stays_inside(c, path, nowhere))
        return NULL;
    return read_source(c, arena_copy(c->arena, path, strlen(path)), nowhere);
}

/* One part of a path, not hidden: it cannot leave its folder. */
static bool is_plain(struct text stem) {
    if (stem.len == 0 || stem.len > 200 || stem.start[0] == '.')
        return false;
    for (size_t i = 0; i < stem.len; i++)
        if (stem.start[i] == '/' || stem.start[i] == '\\')
            return false;
    return true;
}

const char *file_path(struct compile *c, const char *folder, struct text stem) {
    if (!is_plain(stem))
        return NULL;
    const char *path = arena_printf(c->arena, "procedures/%s/%.*s.md", folder,
                                    (int)stem.len, stem.start);
    return in_library(c, path);
}

struct source *file_read_stem(struct compile *c, const char *folder,
                              struct text stem, struct span named_at) {
    const char *path = file_path(c, folder, stem);
    if (path == NULL) {
        diag_add(c->diags, DIAG_FILE_OUTSIDE, named_at,
                 "'%.*s'; name a file of procedures/%s/ without folder and "
                 "ending",
                 (int)stem.len, stem.start, folder);
        return NULL;
    }
    struct source *issued = as_issued(c, path, named_at);
    if (issued != NULL)
        return issued;
    struct stat found;
    if (lstat(path, &found) != 0 && is_missing(errno)) {
        report_missing(c, named_at, path);
        return NULL;
    }
    if (!stays_inside(c, path, named_at))
        return NULL;
    return read_source(c, path, named_at);
}

bool file_is_within(struct text path) {
    if (path.len == 0 || path.start[0] == '/')
        return false;
    for (size_t i = 0; i < path.len;) {
        size_t end = i;
        while (end < path.len && path.start[end] != '/')
            end++;
        if (text_is(text_part(path, i, end), ".."))
            return false;
        i = end + 1;
    }
    for (size_t i = 0; i < path.len; i++)
        if ((unsigned char)path.start[i] < ' ' || path.start[i] == ':' ||
            path.start[i] == '\\')
            return false;
    return true;
}

const char *file_read_bytes(struct compile *c, struct text path,
                            struct span named_at, size_t most, size_t *len) {
    if (!file_is_within(path)) {
        diag_add(c->diags, DIAG_FILE_OUTSIDE, named_at,
                 "'%.*s'; name it by its path from the library's root",
                 (int)path.len, path.start);
        return NULL;
    }
    const char *full = in_library(c, text_cstr(c->arena, path));
    if (!stays_inside(c, full, named_at))
        return NULL;
    return read_all(c, full, named_at, most, len);
}
