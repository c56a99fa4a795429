/* index.c - what was built from which bytes.
 *
 *     bayleaf index, form 4
 *     program HASH
 *     since NANOSECONDS            files as new as this are hashed again
 *     file 0 NUMBER SIZE TIME HASH procedures/lamp.md
 *     file 1 absent - - - templates/shop.md
 *     guide 4 PDF-NUMBER PDF-SIZE PDF-TIME procedures/lamp.md shop,0, PDF 2 0 1
 * ID
 *     told 3 procedures/relay.md shop,0, ID
 *     end HASH                     of all before it
 *
 * A guide that was told of is built each time: its own file and number stand
 * here, so that another guide of this number is told.
 */
#include "library/index.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/digest.h"
#include "base/list.h"
#include "library/program.h"
#include "library/shelf.h"
#include "library/store.h"
#include "source/file.h"
#include "stages.h"

#include <fcntl.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <time.h>
#include <unistd.h>

enum { HASH = DIGEST_HEX, SLACK_SECONDS = 2 };

enum standing { UNKNOWN, SAME, OTHER };

struct entry_file {
    const char *path; /* from the root */
    struct file_mark mark;
    char hash[HASH];
    enum standing standing; /* in this run */
};

struct entry_guide {
    const char *guide, *how, *pdf; /* paths from the root */
    const char *id;                /* its number */
    size_t pages;
    struct file_mark mark; /* of the PDF */
    size_t *file;
    size_t file_count;
    bool told; /* it has messages, or was refused: no PDF, its own file */
    bool gone;
};

struct index {
    struct arena *arena;
    const char *root;
    char program[HASH];
    int64_t since, begun;
    struct entry_file *file;
    size_t file_count, file_room;
    struct entry_guide *guide;
    size_t guide_count, guide_room;
    bool changed;
};

static const char *in_root(struct index *x, const char *path) {
    return shelf_place(x->arena, x->root, path);
}

static const char *from_root(const struct index *x, const char *path) {
    return shelf_from_root(x->root, path);
}

/* What a line can hold. */
static bool is_plain(const char *path) {
    for (const char *s = path; *s != '\0'; s++)
        if ((unsigned char)*s <= ' ' || *s == 0x7F)
            return false;
    return true;
}

/* One line holds it, as its last word. */
static bool is_line(const char *id) {
    return id != NULL && (unsigned char)id[0] > ' ' &&
           strpbrk(id, "\r\n") == NULL;
}

/* --- files --- */

static size_t find_file(struct index *x, const char *path) {
    for (size_t i = x->file_count; i-- > 0;)
        if (strcmp(x->file[i].path, path) == 0)
            return i;
    return SIZE_MAX;
}

static struct entry_file *add_file(struct index *x) {
    x->file = list_grown(x->arena, x->file, x->file_count, &x->file_room,
                         sizeof *x->file);
    return &x->file[x->file_count++];
}

static bool same_mark(const struct file_mark *a, const struct file_mark *b) {
    return a->absent == b->absent && a->number == b->number &&
           a->size == b->size && a->time == b->time;
}

static enum standing look(struct index *x, struct entry_file *f) {
    struct file_mark now;
    const char *path = in_root(x, f->path);
    if (!file_mark_of(path, &now))
        return f->mark.absent ? SAME : OTHER;
    if (f->mark.absent)
        return OTHER;
    bool as_it_was = same_mark(&now, &f->mark);
    if (as_it_was && now.time < x->since)
        return SAME;
    char hash[HASH];
    if (f->hash[0] == '-') /* a folder: only its mark is known */
        return as_it_was ? SAME : OTHER;
    if (now.size != f->mark.size || !digest_file(path, hash) ||
        strcmp(hash, f->hash) != 0)
        return OTHER;
    f->mark = now;
    x->changed = true;
    return SAME;
}

static bool stands(struct index *x, size_t i) {
    struct entry_file *f = &x->file[i];
    if (f->standing == UNKNOWN)
        f->standing = look(x, f);
    return f->standing == SAME;
}

/* --- guides --- */

static struct entry_guide *find_guide(struct index *x, const char *guide,
                                      const char *how) {
    for (size_t i = 0; i < x->guide_count; i++)
        if (strcmp(x->guide[i].guide, guide) == 0 &&
            strcmp(x->guide[i].how, how) == 0)
            return &x->guide[i];
    return NULL;
}

static struct entry_guide *add_guide(struct index *x) {
    x->guide = list_grown(x->arena, x->guide, x->guide_count, &x->guide_room,
                          sizeof *x->guide);
    return &x->guide[x->guide_count++];
}

bool index_holds(struct index *x, const char *guide, const char *how,
                 const char *pdf, size_t *pages, const char **id) {
    if (x == NULL)
        return false;
    const struct entry_guide *g = find_guide(x, from_root(x, guide), how);
    struct file_mark now;
    if (g == NULL || g->gone || g->told ||
        strcmp(g->pdf, from_root(x, pdf)) != 0 || !file_mark_of(pdf, &now) ||
        !same_mark(&now, &g->mark))
        return false;
    for (size_t i = 0; i < g->file_count; i++)
        if (!stands(x, g->file[i]))
            return false;
    *pages = g->pages;
    *id = g->id;
    return true;
}

const char *index_twin(struct index *x, const char *guide, const char *id) {
    for (size_t i = 0; x != NULL && i < x->guide_count; i++) {
        const struct entry_guide *g = &x->guide[i];
        bool standing = !g->gone && strcmp(g->id, id) == 0 &&
                        strcmp(g->guide, from_root(x, guide)) != 0;
        for (size_t k = 0; standing && k < g->file_count; k++)
            standing = stands(x, g->file[k]);
        if (standing)
            return in_root(x, g->guide);
    }
    return NULL;
}

/* The row of what was read; SIZE_MAX where no line can hold it. */
static size_t row_of(struct index *x, const struct file_read *r) {
    const char *path = from_root(x, r->path);
    if (!is_plain(path))
        return SIZE_MAX;
    size_t i = find_file(x, path);
    struct entry_file *f = i == SIZE_MAX ? NULL : &x->file[i];
    if (f != NULL && f->standing == SAME && same_mark(&f->mark, &r->mark))
        return i;
    char hash[HASH] = "-";
    if (r->text.start != NULL)
        digest_hex(r->text.start, r->text.len, hash);
    /* Other guides may have been built from what stood there before. */
    if (f == NULL || f->mark.absent != r->mark.absent ||
        strcmp(f->hash, hash) != 0 || hash[0] == '-')
        f = add_file(x);
    *f = (struct entry_file){.path = arena_copy(x->arena, path, strlen(path)),
                             .mark = r->mark,
                             .standing = SAME};
    strcpy(f->hash, hash);
    return (size_t)(f - x->file);
}

void index_record(struct index *x, const char *guide, const char *how,
                  const char *pdf, size_t pages, const char *id,
                  const struct file_reads *of) {
    struct file_mark mark;
    if (x == NULL || !is_plain(guide) || !is_plain(pdf) || !is_plain(how) ||
        !is_line(id) || !file_mark_of(pdf, &mark))
        return;
    size_t *file = arena_alloc(x->arena, of->count + 1, sizeof *file);
    for (size_t i = 0; i < of->count; i++) {
        file[i] = row_of(x, &of->list[i]);
        if (file[i] == SIZE_MAX)
            return;
    }
    struct entry_guide *g = find_guide(x, from_root(x, guide), how);
    if (g == NULL)
        g = add_guide(x);
    *g = (struct entry_guide){
        .guide = arena_printf(x->arena, "%s", from_root(x, guide)),
        .how = arena_printf(x->arena, "%s", how),
        .pdf = arena_printf(x->arena, "%s", from_root(x, pdf)),
        .id = arena_printf(x->arena, "%s", id),
        .pages = pages,
        .mark = mark,
        .file = file,
        .file_count = of->count};
    x->changed = true;
}

/* The row of a guide's own file; SIZE_MAX where it was not read. */
static size_t own_row(struct index *x, const char *guide,
                      const struct file_reads *of) {
    for (size_t i = 0; i < of->count; i++)
        if (strcmp(of->list[i].path, guide) == 0 &&
            of->list[i].text.start != NULL)
            return row_of(x, &of->list[i]);
    return SIZE_MAX;
}

void index_tell(struct index *x, const char *guide, const char *how,
                const char *id, const struct file_reads *of) {
    struct entry_guide *g =
        x == NULL ? NULL : find_guide(x, from_root(x, guide), how);
    if (g != NULL && !g->gone && g->told && id != NULL &&
        strcmp(g->id, id) == 0 && stands(x, g->file[0]))
        return;
    if (g != NULL) {
        g->gone = true;
        x->changed = true;
    }
    bool plain = x != NULL && is_line(id) && is_plain(guide) && is_plain(how);
    size_t row = plain ? own_row(x, guide, of) : SIZE_MAX;
    if (row == SIZE_MAX)
        return;
    if (g == NULL)
        g = add_guide(x);
    *g = (struct entry_guide){
        .guide = arena_printf(x->arena, "%s", from_root(x, guide)),
        .how = arena_printf(x->arena, "%s", how),
        .pdf = "",
        .id = arena_printf(x->arena, "%s", id),
        .file = arena_alloc(x->arena, 1, sizeof *g->file),
        .file_count = 1,
        .told = true};
    g->file[0] = row;
    x->changed = true;
}

static bool is_there(struct index *x, const struct entry_guide *g) {
    struct file_mark mark;
    return file_mark_of(in_root(x, g->guide), &mark);
}

/* Whether another guide prints to files of this one's names. */
static bool has_heir(struct index *x, const struct entry_guide *g) {
    const char *stem = shelf_stem(x->arena, g->guide);
    for (size_t i = 0; i < x->guide_count; i++)
        if (!x->guide[i].gone &&
            strcmp(shelf_stem(x->arena, x->guide[i].guide), stem) == 0 &&
            is_there(x, &x->guide[i]))
            return true;
    return false;
}

size_t index_gone(struct index *x, const char *const **guide) {
    size_t count = 0, known = x == NULL ? 0 : x->guide_count;
    const char **list =
        known == 0 ? NULL : arena_alloc(x->arena, known, sizeof(*list));
    for (size_t i = 0; i < known; i++) {
        struct entry_guide *g = &x->guide[i];
        if (g->gone || is_there(x, g))
            continue;
        g->gone = x->changed = true;
        const char *path = in_root(x, g->guide);
        bool listed = has_heir(x, g);
        for (size_t k = 0; k < count && !listed; k++)
            listed = strcmp(list[k], path) == 0;
        if (!listed)
            list[count++] = path;
    }
    *guide = list;
    return count;
}

/* --- the file --- */

static const char *file_name(struct index *x) {
    return in_root(x, "build/index.txt");
}

/* The next word of a line; "" at its end. */
static const char *word(char **rest) {
    while (**rest == ' ')
        ++*rest;
    char *start = *rest;
    *rest += strcspn(start, " ");
    if (**rest == ' ')
        *(*rest)++ = '\0';
    return start;
}

static uint64_t number(char **rest) {
    return strtoull(word(rest), NULL, 10);
}

static void read_mark(char **rest, struct file_mark *m) {
    const char *first = word(rest);
    m->absent = strcmp(first, "absent") == 0;
    m->number = m->absent ? 0 : strtoull(first, NULL, 10);
    m->size = number(rest);
    m->time = (int64_t)number(rest);
}

/* False: a line that this program did not write. */
static bool read_line(struct index *x, char *line) {
    const char *first = word(&line);
    if (strcmp(first, "file") == 0) {
        struct entry_file *f = add_file(x);
        *f = (struct entry_file){.path = NULL};
        if (number(&line) + 1 != x->file_count)
            return false;
        read_mark(&line, &f->mark);
        snprintf(f->hash, sizeof f->hash, "%s", word(&line));
        f->path = arena_copy(x->arena, line, strlen(line));
        return f->path[0] != '\0' && f->hash[0] != '\0';
    }
    bool told = strcmp(first, "told") == 0;
    if (!told && strcmp(first, "guide") != 0)
        return false;
    struct entry_guide *g = add_guide(x);
    *g = (struct entry_guide){.told = told, .pdf = "", .file_count = 1};
    if (!told) {
        g->pages = number(&line);
        read_mark(&line, &g->mark);
    }
    g->guide = arena_printf(x->arena, "%s", word(&line));
    g->how = arena_printf(x->arena, "%s", word(&line));
    if (!told) {
        g->pdf = arena_printf(x->arena, "%s", word(&line));
        g->file_count = number(&line);
    }
    if (g->file_count > x->file_count)
        return false;
    g->file = arena_alloc(x->arena, g->file_count + 1, sizeof *g->file);
    for (size_t i = 0; i < g->file_count; i++) {
        g->file[i] = number(&line);
        if (g->file[i] >= x->file_count)
            return false;
    }
    g->id = arena_copy(x->arena, line, strlen(line));
    return is_line(g->id);
}

static char *all_text(struct index *x) {
    FILE *in = fopen(file_name(x), "r");
    char *text = NULL;
    size_t room = 0;
    ssize_t len = in == NULL ? -1 : getdelim(&text, &room, '\0', in);
    char *kept = len < 0 ? NULL : arena_copy(x->arena, text, (size_t)len);
    free(text);
    if (in != NULL)
        fclose(in);
    return kept;
}

/* The text up to its last line, which holds its hash; NULL: it is not whole. */
static char *whole_text(struct index *x) {
    char hash[HASH], *text = all_text(x);
    char *end = text == NULL ? NULL : strstr(text, "\nend ");
    if (end == NULL)
        return NULL;
    digest_hex(text, (size_t)(end + 1 - text), hash);
    *end = '\0';
    return strncmp(end + 5, hash, HASH - 1) == 0 ? text : NULL;
}

/* One that is damaged, older or of another program counts for nothing. */
static bool read_all(struct index *x) {
    char *text = whole_text(x);
    bool good = text != NULL;
    for (size_t n = 0; good && *text != '\0'; n++) {
        char *line = text;
        text += strcspn(text, "\n");
        if (*text == '\n')
            *text++ = '\0';
        if (n == 0)
            good = strcmp(line, "bayleaf index, form 4") == 0;
        else if (n == 1)
            good = strcmp(word(&line), "program") == 0 &&
                   strcmp(line, x->program) == 0;
        else if (n == 2)
            good = strcmp(word(&line), "since") == 0 &&
                   (x->since = (int64_t)number(&line)) > 0;
        else
            good = read_line(x, line);
    }
    return good;
}

struct index *index_open(struct arena *a, const char *root) {
    struct index *x = arena_alloc(a, 1, sizeof *x);
    struct timespec now;
    x->arena = a;
    x->root = root;
    if (!program_running(a, x->program) ||
        clock_gettime(CLOCK_REALTIME, &now) != 0)
        return NULL;
    x->begun = ((int64_t)now.tv_sec - SLACK_SECONDS) * 1000000000;
    if (!read_all(x)) {
        x->file_count = x->guide_count = 0;
        x->since = 0;
    }
    return x;
}

static void write_mark(struct buf *b, const struct file_mark *m) {
    if (m->absent)
        buf_puts(b, "absent 0 0");
    else
        buf_printf(b, "%" PRIu64 " %" PRIu64 " %" PRId64, m->number, m->size,
                   m->time);
}

static void write_guide(struct buf *b, const struct entry_guide *g,
                        const size_t *as) {
    if (g->told) {
        buf_printf(b, "told %s %s", g->guide, g->how);
    } else {
        buf_printf(b, "guide %zu ", g->pages);
        write_mark(b, &g->mark);
        buf_printf(b, " %s %s %s %zu", g->guide, g->how, g->pdf, g->file_count);
    }
    for (size_t k = 0; k < g->file_count; k++)
        buf_printf(b, " %zu", as[g->file[k]]);
    buf_printf(b, " %s\n", g->id);
}

void index_close(struct index *x, struct compile *c) {
    if (x == NULL || !x->changed)
        return;
    size_t *as = arena_alloc(x->arena, x->file_count + 1, sizeof *as);
    size_t used = 0;
    for (size_t i = 0; i < x->guide_count; i++)
        for (size_t k = 0; !x->guide[i].gone && k < x->guide[i].file_count; k++)
            as[x->guide[i].file[k]] = 1;
    struct buf b = buf_in(x->arena);
    buf_printf(&b, "bayleaf index, form 4\nprogram %s\nsince %" PRId64 "\n",
               x->program, x->begun);
    for (size_t i = 0; i < x->file_count; i++) {
        const struct entry_file *f = &x->file[i];
        if (as[i] == 0)
            continue;
        as[i] = used++;
        buf_printf(&b, "file %zu ", as[i]);
        write_mark(&b, &f->mark);
        buf_printf(&b, " %s %s\n", f->hash, f->path);
    }
    for (size_t i = 0; i < x->guide_count; i++) {
        const struct entry_guide *g = &x->guide[i];
        if (g->gone)
            continue;
        write_guide(&b, g, as);
    }
    char hash[HASH];
    digest_hex(b.bytes, b.len, hash);
    buf_printf(&b, "end %s\n", hash);
    store_keep(c, file_name(x), (const unsigned char *)b.bytes, b.len);
}
