/* register_changed.c - which issued revisions are out of date. */
#include "base/arena.h"
#include "command/register_work.h"
#include "values/figure.h"

#include <stdio.h>
#include <string.h>

void register_refused(struct register_work *w) {
    if (w->status < STATUS_REFUSED)
        w->status = STATUS_REFUSED;
}

const struct census_guide *register_guide(const struct census *s,
                                          const struct issued *was) {
    for (size_t i = 0; i < s->guide_count; i++)
        if (text_equal(s->guide[i].now.guide, was->guide))
            return &s->guide[i];
    return NULL;
}

static const struct issued_value *value_of(const struct issued *i,
                                           struct text name) {
    for (size_t k = 0; k < i->value_count; k++)
        if (text_equal(i->value[k].name, name))
            return &i->value[k];
    return NULL;
}

static bool has_words(const struct issued *i, struct text words) {
    for (size_t k = 0; k < i->printed.count; k++)
        if (text_reads_same(i->printed.list[k].words, words))
            return true;
    return false;
}

static void write_text(struct arena *a, struct text t) {
    figure_write(stdout, text_cstr(a, t));
}

/* A fact at hand that the guide rests nothing on makes no sheet wrong. */
static bool is_unused(const struct census *s, struct text name,
                      struct text guide) {
    bool figure = false;
    for (size_t i = 0; i < s->count; i++) {
        const struct census_figure *f = &s->figure[i];
        if (!f->shared || !text_is(name, f->name))
            continue;
        figure = true;
        for (size_t k = 0; k < f->use_count; k++)
            if (text_is(guide, f->use[k].guide))
                return false;
    }
    return figure;
}

enum { WORDS_TOLD = 100 }; /* bytes of a passage */

/* "said there: step 4: Run 10 AWG red ..." */
static void print_passage(struct arena *a, const char *what,
                          const struct passage *p) {
    printf("  %s: ", what);
    write_text(a, p->place);
    struct text words = p->words;
    if (words.len > WORDS_TOLD) {
        size_t end = WORDS_TOLD;
        while (end > 0 && words.start[end] != ' ')
            end--;
        words.len = end > 0 ? end : WORDS_TOLD;
    }
    fputs(": ", stdout);
    write_text(a, words);
    puts(words.len < p->words.len ? " \xE2\x80\xA6" : "");
}

/* Figures that differ, then the places that read otherwise; how many. */
size_t register_differences(const struct census *s, const struct issued *was,
                            const struct issued *now) {
    struct arena *a = s->arena;
    size_t count = 0;
    for (size_t i = 0; i < was->value_count; i++) {
        const struct issued_value *old = &was->value[i];
        const struct issued_value *new = value_of(now, old->name);
        /* Settings of the guide block are no figures. */
        if (old->name.start[0] == '.' || is_unused(s, old->name, now->guide) ||
            (new != NULL &&text_reads_same(new->printed, old->printed)))
            continue;
        printf("  %.*s was ", (int)old->name.len, old->name.start);
        write_text(a, old->printed);
        fputs(new == NULL ? ", and is no more" : ", is ", stdout);
        if (new != NULL)
            write_text(a, new->printed);
        putchar('\n');
        count++;
    }
    for (size_t i = 0; i < now->printed.count; i++) {
        const struct passage *p = &now->printed.list[i];
        if (has_words(was, p->words))
            continue;
        print_passage(a, "reads otherwise", p);
        count++;
    }
    for (size_t i = 0; i < was->printed.count; i++)
        if (!has_words(now, was->printed.list[i].words)) {
            print_passage(a, "said there", &was->printed.list[i]);
            count++;
        }
    return count;
}

struct shelf_of_issued register_issued(struct register_work *w) {
    const struct request *r = w->r;
    const char *const *path;
    struct shelf_of_issued out = {.compile = {.arena = r->arena,
                                              .diags = diag_new(r->arena),
                                              .library = r->root}};
    size_t count = issued_all(r->arena, r->root, &path);
    out.list = arena_alloc(r->arena, count + 1, sizeof(*out.list));
    out.changed = arena_alloc(r->arena, count + 1, sizeof(*out.changed));
    for (size_t i = 0; i < count; i++) {
        bool missing;
        const struct issued *one = issued_read(&out.compile, path[i], &missing);
        if (one != NULL)
            out.list[out.count++] = one;
    }
    diag_print(out.compile.diags, stderr, r->colour);
    int status = diag_status(out.compile.diags);
    w->status = status > w->status ? status : w->status;
    return out;
}

size_t register_latest(const struct shelf_of_issued *s, struct text id) {
    size_t best = 0;
    for (size_t i = 0; i < s->count; i++)
        if (text_equal(s->list[i]->id, id) && s->list[i]->revision > best)
            best = s->list[i]->revision;
    return best;
}

/* Of each guide the last sheet that was issued: is it still right? */
void register_changed(struct register_work *w) {
    struct shelf_of_issued issued = register_issued(w);
    for (size_t i = 0; i < issued.count; i++) {
        const struct issued *was = issued.list[i];
        if (was->revision != register_latest(&issued, was->id))
            continue;
        const struct census_guide *g = register_guide(&w->census, was);
        printf("%.*s revision %zu, %.*s\n", (int)was->id.len, was->id.start,
               was->revision, (int)was->guide.len, was->guide.start);
        issued.changed[i] = true;
        if (g == NULL)
            puts("  its guide is no more, or is refused");
        else
            issued.changed[i] =
                register_differences(&w->census, was, &g->now) > 0;
        if (issued.changed[i])
            register_refused(w);
        else
            puts("  as it is now");
    }
    if (issued.count == 0)
        puts("nothing was issued");
    else
        register_jobs(w, &issued);
}
