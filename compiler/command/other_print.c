/* other_print.c - which of the less usual prints has a code. */
#include "command/other_print.h"

#include "base/arena.h"
#include "layout/display.h"
#include "library/faces.h"
#include "library/guidework.h"
#include "library/shelf.h"
#include "values/values.h"

#include <string.h>

struct search {
    const struct request *r;
    const char *code;
    const char *const *template; /* [0] is NULL */
    size_t template_count;
    struct faces *faces;
};

/* The usual one, bench, and those of the library; hazards is none, and an
 * owner's sheet needs a job. */
static void list_templates(struct search *s) {
    struct arena *a = s->r->arena;
    const char *const *file;
    size_t count = shelf_templates(a, s->r->root, &file);
    const char **list = arena_alloc(a, count + 2, sizeof(*list));
    list[s->template_count++] = NULL;
    list[s->template_count++] = "bench";
    for (size_t i = 0; i < count; i++) {
        const char *stem = shelf_stem(a, file[i]);
        if (strcmp(stem, "shop") != 0 && strcmp(stem, "bench") != 0 &&
            strcmp(stem, "owner") != 0 && strcmp(stem, "hazards") != 0)
            list[s->template_count++] = stem;
    }
    s->template = list;
}

static struct guidework *lay_out(const struct search *s,
                                 const struct other_base *b,
                                 const struct other_print *p, bool frozen) {
    struct layout_options options = {.template = p->template, .frozen = frozen};
    struct file_texts files = {0};
    if (b->issued != NULL)
        files = (struct file_texts){b->issued->source, b->issued->source_count};
    return guidework_do(
        &(struct guidework_task){.root = s->r->root,
                                 .path = b->path,
                                 .only = p->only,
                                 .last = STAGE_LAYOUT,
                                 .options = &options,
                                 .faces = s->faces,
                                 .issued = b->issued == NULL ? NULL : &files});
}

static bool has_code(const struct search *s, const struct guidework *w) {
    return guidework_status(w) == STATUS_GOOD && w->pages != NULL &&
           strcmp(w->pages->code, s->code) == 0;
}

/* For all of its vehicles, then for each; a template that does not fit the
 * guide prints nothing. */
static bool find_by(const struct search *s, const struct other_base *b,
                    struct other_print *p) {
    struct guidework *whole = lay_out(s, b, p, b->issued != NULL);
    bool found = has_code(s, whole);
    p->issued =
        b->issued != NULL || (whole->pages != NULL && whole->pages->issued);
    const struct variant *list;
    size_t count =
        whole->pages == NULL ? 0 : values_variants(whole->values, &list);
    variant_set applies = count == 0 ? 0 : values_applies(whole->values);
    for (size_t i = 0; i < count && count > 1 && !found; i++) {
        if ((applies >> i & 1) == 0)
            continue;
        p->only = text_cstr(s->r->arena, list[i].name);
        struct guidework *one = lay_out(s, b, p, p->issued);
        found = has_code(s, one);
        guidework_end(one);
    }
    if (!found)
        p->only = NULL;
    guidework_end(whole);
    return found;
}

bool other_print_find(const struct request *r, const struct other_base *base,
                      size_t count, const char *code, struct other_print *out) {
    struct search s = {.r = r, .code = code, .faces = faces_new()};
    bool found = false;
    list_templates(&s);
    for (size_t i = 0; i < count && !found; i++)
        for (size_t k = 0; k < s.template_count && !found; k++) {
            *out = (struct other_print){.base = i, .template = s.template[k]};
            found = find_by(&s, &base[i], out);
        }
    faces_free(s.faces);
    return found;
}
