/* issued.c - a revision that was issued. */
#include "library/issued.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/digest.h"
#include "base/list.h"
#include "library/shelf.h"
#include "source/file.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <unistd.h>

#define FOLDER "procedures/issued"
#define HEAD "bayleaf issued revision, form "

static bool is_file_name(struct text id) {
    if (id.len == 0 || id.len > 100 || id.start[0] == '.')
        return false;
    for (size_t i = 0; i < id.len; i++) {
        char c = id.start[i];
        if (!((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
              (c >= '0' && c <= '9') || c == '.' || c == '_' || c == '-'))
            return false;
    }
    return true;
}

const char *issued_path(struct arena *a, struct text id, size_t revision) {
    if (!is_file_name(id))
        return NULL;
    return arena_printf(a, FOLDER "/%.*s-%zu.txt", (int)id.len, id.start,
                        revision);
}

/* The number N of "ID-N.txt"; 0 when the name is no such. */
static size_t revision_of(const char *name, struct text id) {
    if (strncmp(name, id.start, id.len) != 0 || name[id.len] != '-')
        return 0;
    const char *digits = name + id.len + 1;
    char *end;
    unsigned long n = strtoul(digits, &end, 10);
    if (digits[0] < '1' || digits[0] > '9' || strcmp(end, ".txt") != 0)
        return 0;
    return n;
}

size_t issued_before(struct arena *a, const char *root, struct text id,
                     size_t below) {
    DIR *dir = is_file_name(id) ? opendir(shelf_place(a, root, FOLDER)) : NULL;
    size_t best = 0;
    if (dir == NULL)
        return 0;
    for (const struct dirent *e = readdir(dir); e != NULL; e = readdir(dir)) {
        size_t n = revision_of(e->d_name, id);
        if (n > best && n < below)
            best = n;
    }
    closedir(dir);
    return best;
}

static int by_name(const void *a, const void *b) {
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

size_t issued_all(struct arena *a, const char *root, const char *const **list) {
    DIR *dir = opendir(shelf_place(a, root, FOLDER));
    const char **found = NULL;
    size_t count = 0, room = 0;
    *list = NULL;
    if (dir == NULL)
        return 0;
    for (const struct dirent *e = readdir(dir); e != NULL; e = readdir(dir)) {
        size_t len = strlen(e->d_name);
        if (e->d_name[0] == '.' || len < 5 ||
            strcmp(e->d_name + len - 4, ".txt") != 0)
            continue;
        found = list_grown(a, found, count, &room, sizeof(*found));
        found[count++] = arena_printf(a, FOLDER "/%s", e->d_name);
    }
    closedir(dir);
    if (count > 0)
        qsort(found, count, sizeof(*found), by_name);
    *list = found;
    return count;
}

/* Lines. */

static void write_setting(struct buf *b, const char *name, struct text value) {
    if (value.len > 0)
        buf_printf(b, "%s %.*s\n", name, (int)value.len, value.start);
}

static void write_pair(struct buf *b, struct text left, struct text right) {
    buf_printf(b, "| %.*s\t%.*s\n", (int)left.len,
               left.len > 0 ? left.start : "", (int)right.len,
               right.len > 0 ? right.start : "");
}

/* The part up to the next line end, and *rest behind it; false at the end. */
static bool next_line(struct text *rest, struct text *line) {
    if (rest->len == 0)
        return false;
    const char *end = memchr(rest->start, '\n', rest->len);
    line->start = rest->start;
    line->len = end == NULL ? rest->len : (size_t)(end - rest->start);
    size_t past = line->len + (end != NULL);
    rest->start += past;
    rest->len -= past;
    return true;
}

static void write_source(struct buf *b, const struct file_text *s) {
    struct text rest = s->text, line;
    size_t lines = 0;
    while (next_line(&rest, &line))
        lines++;
    bool whole = s->text.len == 0 || s->text.start[s->text.len - 1] == '\n';
    buf_printf(b, "source %.*s %zu%s\n", (int)s->path.len, s->path.start, lines,
               whole ? "" : " without a line end");
    rest = s->text;
    while (next_line(&rest, &line)) {
        buf_puts(b, line.len > 0 ? "| " : "|");
        buf_text(b, line);
        buf_puts(b, "\n");
    }
}

struct text issued_write(struct arena *a, const struct issued *i) {
    struct buf b = buf_in(a);
    char hash[DIGEST_HEX];
    buf_printf(&b, HEAD "%d\n", ISSUED_FORM);
    write_setting(&b, "id", i->id);
    buf_printf(&b, "revision %zu\n", i->revision);
    write_setting(&b, "guide", i->guide);
    write_setting(&b, "title", i->title);
    write_setting(&b, "author", i->author);
    write_setting(&b, "approver", i->approver);
    write_setting(&b, "code", i->code);
    buf_printf(&b, "\nprinted %zu\n", i->printed.count);
    for (size_t k = 0; k < i->printed.count; k++)
        write_pair(&b, i->printed.list[k].place, i->printed.list[k].words);
    buf_printf(&b, "values %zu\n", i->value_count);
    for (size_t k = 0; k < i->value_count; k++)
        write_pair(&b, i->value[k].name, i->value[k].printed);
    for (size_t k = 0; k < i->source_count; k++)
        write_source(&b, &i->source[k]);
    digest_hex(b.bytes, b.len, hash);
    buf_printf(&b, "end %s\n", hash);
    return buf_as_text(&b);
}

/* Reading. What is wrong is told once, in words. */
struct reader {
    struct arena *arena;
    struct text rest;
    const char *wrong; /* NULL: nothing so far */
};

static bool take_line(struct reader *r, struct text *line) {
    if (r->wrong != NULL)
        return false;
    if (next_line(&r->rest, line))
        return true;
    r->wrong = "it is cut short";
    return false;
}

/* "KEY VALUE": the value. */
static bool has_key(struct text line, const char *key, struct text *value) {
    size_t len = strlen(key);
    if (!text_starts(line, key) || line.len <= len || line.start[len] != ' ')
        return false;
    *value = text_part(line, len + 1, line.len);
    return true;
}

static bool read_count(struct text t, size_t *out) {
    *out = 0;
    for (size_t i = 0; i < t.len; i++) {
        if (t.start[i] < '0' || t.start[i] > '9' || *out > 100000000)
            return false;
        *out = *out * 10 + (size_t)(t.start[i] - '0');
    }
    return t.len > 0;
}

/* "| text", or "|". */
static bool take_item(struct reader *r, struct text *out) {
    struct text line;
    if (!take_line(r, &line))
        return false;
    if (text_starts(line, "| "))
        *out = text_part(line, 2, line.len);
    else if (text_is(line, "|"))
        *out = (struct text){line.start + 1, 0};
    else
        r->wrong = "a line of it has no '|' in front";
    return r->wrong == NULL;
}

static bool take_pair(struct reader *r, struct text *left, struct text *right) {
    struct text t;
    if (!take_item(r, &t))
        return false;
    const char *tab = memchr(t.start, '\t', t.len);
    if (tab == NULL) {
        r->wrong = "a line of it has no two parts";
        return false;
    }
    size_t at = (size_t)(tab - t.start);
    *left = text_part(t, 0, at);
    *right = text_part(t, at + 1, t.len);
    return true;
}

static void read_head(struct reader *r, struct issued *out) {
    struct text line, value;
    while (take_line(r, &line) && line.len > 0) {
        if (has_key(line, "id", &value))
            out->id = value;
        else if (has_key(line, "guide", &value))
            out->guide = value;
        else if (has_key(line, "title", &value))
            out->title = value;
        else if (has_key(line, "author", &value))
            out->author = value;
        else if (has_key(line, "approver", &value))
            out->approver = value;
        else if (has_key(line, "code", &value))
            out->code = value;
        else if (!has_key(line, "revision", &value) ||
                 !read_count(value, &out->revision))
            r->wrong = "its head has a line that is not known";
    }
    if (r->wrong == NULL && (out->id.len == 0 || out->revision == 0 ||
                             out->guide.len == 0 || out->code.len == 0))
        r->wrong = "its head says no id, revision, guide or code";
}

static size_t read_section(struct reader *r, const char *key) {
    struct text line, value;
    size_t count = 0;
    if (take_line(r, &line) &&
        (!has_key(line, key, &value) || !read_count(value, &count)))
        r->wrong = arena_printf(r->arena, "its part '%s' is missing", key);
    if (r->wrong != NULL || count > r->rest.len) {
        r->wrong = r->wrong != NULL ? r->wrong : "it is cut short";
        return 0;
    }
    return count;
}

static void read_printed(struct reader *r, struct issued *out) {
    size_t count = read_section(r, "printed");
    struct passage *list = arena_alloc(r->arena, count + 1, sizeof *list);
    for (size_t i = 0; i < count; i++)
        if (!take_pair(r, &list[i].place, &list[i].words))
            return;
    out->printed = (struct passages){
        .list = list,
        .count = count,
        .revision = text_of(arena_printf(r->arena, "%zu", out->revision))};
}

static void read_values(struct reader *r, struct issued *out) {
    size_t count = read_section(r, "values");
    struct issued_value *list = arena_alloc(r->arena, count + 1, sizeof *list);
    for (size_t i = 0; i < count; i++)
        if (!take_pair(r, &list[i].name, &list[i].printed))
            return;
    out->value = list;
    out->value_count = count;
}

/* "source PATH LINES", or " without a line end" behind it. */
static bool read_source(struct reader *r, struct text said,
                        struct file_text *out) {
    static const char tail[] = " without a line end";
    size_t len = sizeof tail - 1, count, at = 0;
    bool whole = said.len <= len ||
                 !text_is(text_part(said, said.len - len, said.len), tail);
    if (!whole)
        said = text_part(said, 0, said.len - len);
    for (size_t i = 0; i < said.len; i++)
        if (said.start[i] == ' ')
            at = i;
    if (at == 0 || !read_count(text_part(said, at + 1, said.len), &count)) {
        r->wrong = "a source of it has no number of lines";
        return false;
    }
    struct buf b = buf_in(r->arena);
    struct text line;
    for (size_t i = 0; i < count && take_item(r, &line); i++) {
        buf_text(&b, line);
        buf_puts(&b, whole || i + 1 < count ? "\n" : "");
    }
    out->path = text_part(said, 0, at);
    out->text = buf_as_text(&b);
    return r->wrong == NULL;
}

static void read_sources(struct reader *r, struct issued *out) {
    struct file_text *list = NULL;
    size_t room = 0;
    struct text line, said;
    while (r->wrong == NULL && take_line(r, &line)) {
        if (text_starts(line, "end "))
            break;
        if (!has_key(line, "source", &said)) {
            r->wrong = "a line of it is not known";
            break;
        }
        list =
            list_grown(r->arena, list, out->source_count, &room, sizeof *list);
        if (read_source(r, said, &list[out->source_count]))
            out->source_count++;
    }
    out->source = list;
    if (r->wrong == NULL && out->source_count == 0)
        r->wrong = "it holds no source";
}

/* The last line says what the bytes before it must come to. */
static void check_end(struct reader *r, const char *bytes, size_t len) {
    static const char key[] = "end ";
    const size_t line = sizeof key - 1 + DIGEST_HEX;
    char hash[DIGEST_HEX];
    if (len < line || bytes[len - 1] != '\n' ||
        memcmp(bytes + len - line, key, sizeof key - 1) != 0) {
        r->wrong = "it is cut short";
        return;
    }
    digest_hex(bytes, len - line, hash);
    if (memcmp(bytes + len - line + sizeof key - 1, hash, DIGEST_HEX - 1) != 0)
        r->wrong = "it was changed after it was written";
}

static bool read_form(struct compile *c, struct reader *r, const char *path) {
    struct text line;
    size_t form = 0;
    if (!take_line(r, &line))
        return true;
    if (!text_starts(line, HEAD) ||
        !read_count(text_part(line, sizeof HEAD - 1, line.len), &form)) {
        r->wrong = "its first line is another";
        return true;
    }
    if (form <= ISSUED_FORM)
        return true;
    diag_add(c->diags, DIAG_ISSUED_NEWER, (struct span){0},
             "%s: form %zu, this program knows %d", path, form, ISSUED_FORM);
    return false;
}

const struct issued *issued_read(struct compile *c, const char *path,
                                 bool *missing) {
    const char *place = shelf_place(c->arena, c->library, path);
    size_t len = 0;
    *missing = access(place, F_OK) != 0;
    if (*missing)
        return NULL;
    const char *bytes = file_read_bytes(c, text_of(path), (struct span){0},
                                        (size_t)4 * FILE_BYTES_MAX, &len);
    if (bytes == NULL)
        return NULL;
    struct reader r = {.arena = c->arena, .rest = {bytes, len}};
    struct issued *out = arena_alloc(c->arena, 1, sizeof *out);
    if (!read_form(c, &r, place))
        return NULL;
    if (r.wrong == NULL)
        check_end(&r, bytes, len);
    if (r.wrong == NULL)
        read_head(&r, out);
    if (r.wrong == NULL)
        read_printed(&r, out);
    if (r.wrong == NULL)
        read_values(&r, out);
    if (r.wrong == NULL)
        read_sources(&r, out);
    if (r.wrong == NULL)
        return out;
    diag_add(c->diags, DIAG_ISSUED_DAMAGED, (struct span){0}, "%s: %s", place,
             r.wrong);
    return NULL;
}

const char *issued_difference(struct arena *a, const struct issued *was,
                              const struct issued *now) {
    if (!text_equal(was->title, now->title))
        return "the title";
    if (!text_equal(was->author, now->author))
        return "the author";
    if (!text_equal(was->approver, now->approver))
        return "the approver";
    size_t count = was->printed.count < now->printed.count ? was->printed.count
                                                           : now->printed.count;
    for (size_t i = 0; i < count; i++)
        if (!text_reads_same(was->printed.list[i].words,
                             now->printed.list[i].words))
            return text_cstr(a, now->printed.list[i].place);
    if (was->printed.count == now->printed.count)
        return NULL;
    return "its length";
}
