/* answer.c - what a look-up of `bayleaf size` finds, and its inputs. */
#include "command/answer.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "command/result.h"
#include "source/read.h"
#include "values/figure.h"
#include "values/range.h"
#include "values/requirement.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

void answer_add(struct answer *a, const char *name, struct value value) {
    a->list =
        list_grown(a->arena, a->list, a->count, &a->room, sizeof *a->list);
    struct named *n = &a->list[a->count++];
    n->name = text_of(name);
    n->by_variant = arena_alloc(a->arena, 1, sizeof *n->by_variant);
    n->by_variant[0] = value;
    n->computed = true;
}

void answer_text(struct answer *a, const char *name, const char *text) {
    answer_add(a, name,
               (struct value){.type = VALUE_TEXT, .text = text_of(text)});
}

void answer_quantity(struct answer *a, const char *name, struct quantity *q) {
    answer_add(a, name, (struct value){.type = VALUE_QUANTITY, .quantity = q});
}

void answer_number(struct answer *a, const char *name, double si,
                   const char *unit) {
    const struct unit *u = unit_find(unit, strlen(unit));
    if (!isnan(si))
        answer_quantity(a, name,
                        quantity_root(&a->maker, ROOT_TABLE, si,
                                      (struct ends){si, si}, u->dim, u));
}

void answer_length(struct answer *a, const char *name, double si, bool inch) {
    const struct unit *u = inch ? unit_find("in", 2) : unit_find("mm", 2);
    struct quantity *q = quantity_root(&a->maker, ROOT_TABLE, si,
                                       (struct ends){si, si}, u->dim, u);
    q->decimals = inch ? 4 : 3;
    answer_quantity(a, name, q);
}

int answer_end(struct answer *a) {
    struct results *results = a->r->json ? result_begin() : NULL;
    for (size_t i = 0; i < a->count; i++) {
        const struct named *n = &a->list[i];
        if (results != NULL) {
            result_value(results, a->values, n, 0);
            continue;
        }
        printf("%-16.*s ", (int)n->name.len, n->name.start);
        figure_write(stdout,
                     values_print(a->values, a->arena, n, 0, PRINT_RANGE));
        putchar('\n');
    }
    if (results != NULL)
        result_end(results, stdout);
    else if (a->source != NULL)
        printf("source: %s\n", a->source);
    return STATUS_GOOD;
}

/* The inputs that are quantities, through the source language. */
static struct source *write_values(const struct lookup *l,
                                   const struct request *r,
                                   const char *const *value) {
    enum { HEAD = 9 };
    const char **name =
        arena_alloc(r->arena, HEAD + sizeof l->inputs / sizeof l->inputs[0] + 2,
                    sizeof(*name));
    size_t line = HEAD;
    struct buf b = buf_in(r->arena);
    buf_puts(&b, "# One look-up\n\n```guide\nid: size\nrevision: 1\nstatus: "
                 "draft\n```\n\n```values\n");
    for (size_t i = 0; l->inputs[i] != NULL; i++)
        if (value[i] != NULL && l->units[i] != NULL) {
            buf_printf(&b, "input.%zu = %s\n", i + 1, value[i]);
            name[line++] = l->inputs[i];
        }
    buf_puts(&b, "```\n");
    struct source *src = place_source(r->arena, "size", buf_as_text(&b));
    src->line_name = name;
    return src;
}

const struct value *answer_value(const struct answer *a, size_t index) {
    const char *name = arena_printf(a->arena, "input.%zu", index + 1);
    for (size_t i = 0; i < values_count(a->values); i++) {
        const struct named *n = values_at(a->values, i);
        if (text_is(n->name, name))
            return &n->by_variant[0];
    }
    return NULL;
}

const struct quantity *answer_input(const struct answer *a, size_t index) {
    const struct value *v = answer_value(a, index);
    return v != NULL && v->type == VALUE_QUANTITY ? v->quantity : NULL;
}

int answer_begin(struct answer *a, const struct lookup *l,
                 const struct request *r, const char *const *value) {
    *a = (struct answer){.r = r, .arena = r->arena};
    a->c = (struct compile){.arena = r->arena,
                            .diags = diag_new(r->arena),
                            .single = true,
                            .library = r->root == NULL ? "." : r->root};
    const struct guide *g = source_read_made(&a->c, write_values(l, r, value));
    a->values = values_evaluate(&a->c, g);
    a->maker = requirement_maker(a->values);
    diag_print(a->c.diags, stderr, r->colour);
    int status = diag_status(a->c.diags);
    for (size_t i = 0; status == STATUS_GOOD && l->inputs[i] != NULL; i++) {
        const char *unit = l->units[i];
        if (value[i] == NULL || unit == NULL || unit[0] == '\0')
            continue;
        const struct quantity *q = answer_input(a, i);
        const struct unit *u = unit_find(unit, strlen(unit));
        if (q == NULL || !dim_same(q->dim, u->dim)) {
            char name[UNIT_TEXT];
            status = command_usage("%s wants %s", l->inputs[i],
                                   unit_measures(u, name));
        }
    }
    return status;
}
