/* file.h - opens the files of a library, and nothing that is not one.
 *
 * Where the compilation has texts of an issued revision, those are taken for
 * the files of their names.
 *
 * A file that a source names lies in the library: its path may not leave it,
 * not through a link either. Only regular files are opened, so that a device or
 * a FIFO can neither block nor be disturbed. */
#ifndef FILE_H
#define FILE_H

#include "base/place.h"
#include "base/text.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct compile;

/* Files as they were: of a revision that was issued. */
struct file_text {
    struct text path; /* from the library's root */
    struct text text;
};
struct file_texts {
    const struct file_text *file;
    size_t count;
};

/* What tells a file from the one that stood there before. */
struct file_mark {
    bool absent;
    uint64_t number, size; /* inode, bytes */
    int64_t time;          /* of its last change, ns */
};
/* What was read for a guide, or looked for in vain, before it was read. */
struct file_read {
    const char *path;
    struct text text; /* absent: a folder, or nothing */
    struct file_mark mark;
};
struct file_reads {
    struct file_read *list;
    size_t count, room;
};

/* false: it is not there. */
bool file_mark_of(const char *path, struct file_mark *mark);
/* Whether a file is there; that it was asked for goes into c->reads. */
bool file_is_there(struct compile *c, const char *path);
/* That the names in a folder matter goes into c->reads. */
void file_note_folder(struct compile *c, const char *path);

/* Also what was read for something else that it hangs on. */
void file_note_all(struct compile *c, const struct file_reads *reads);

enum { FILE_BYTES_MAX = 16 * 1024 * 1024 };

/* A source that the user named, wherever it lies; one in procedures/ may not be
 * a link that leads out of the library. NULL after a message. */
struct source *file_read_given(struct compile *c, const char *path);
/* procedures/FOLDER/STEM.md of the library, named at a place in a source. NULL
 * after a message. */
struct source *file_read_stem(struct compile *c, const char *folder,
                              struct text stem, struct span named_at);
/* "LIBRARY/procedures/FOLDER/STEM.md" as messages show it; NULL when the stem
 * is not a plain file name. */
const char *file_path(struct compile *c, const char *folder, struct text stem);
/* Whether a path from the library's root stays in it by its look: not absolute,
 * no `..`, no scheme. Links are looked at when it is opened. */
bool file_is_within(struct text path);
/* The bytes of any file of the library by its path from the library's root, at
 * most `most` of them: images. NULL after a message. */
const char *file_read_bytes(struct compile *c, struct text path,
                            struct span named_at, size_t most, size_t *len);

#endif
