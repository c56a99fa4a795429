/* command_dump.c - dump: what a stage left, as text. */
#include "base/arena.h"
#include "base/diag.h"
#include "checks/findings.h"
#include "command/command.h"
#include "command/result.h"
#include "layout/display.h"
#include "library/guidework.h"
#include "library/shelf.h"
#include "source/circuit_tree.h"
#include "source/dump.h"
#include "source/tree.h"
#include "values/circuit_sheet.h"
#include "values/figure.h"

#include <stdio.h>
#include <string.h>

/* name [variant] = printed with its range; equal variants once. */
static void dump_values(const struct request *r, const struct guidework *w) {
    const struct variant *list;
    size_t variants = values_variants(w->values, &list);
    struct results *results = r->json ? result_begin() : NULL;
    values_demand_usual(w->values);
    for (size_t i = 0; i < values_count(w->values); i++) {
        const struct named *n = values_at(w->values, i);
        for (size_t k = 0; k < variants; k++) {
            enum value_type type = n->by_variant[k].type;
            if ((values_applies(w->values) >> k & 1) == 0 ||
                type == VALUE_ABSENT || type == VALUE_BAD)
                continue;
            if (results != NULL) {
                result_value(results, w->values, n, k);
                continue;
            }
            printf("%.*s", (int)n->name.len, n->name.start);
            if (list[k].name.len > 0)
                printf(" [%.*s]", (int)list[k].name.len, list[k].name.start);
            fputs(" = ", stdout);
            figure_write(stdout,
                         values_print(w->values, r->arena, n, k, PRINT_RANGE));
            putchar('\n');
        }
    }
    if (results != NULL)
        result_end(results, stdout);
}

static const char *const signals[] = {"DANGER", "WARNING", "CAUTION", "NOTICE"};

static void dump_variants(const struct request *r, const struct guidework *w,
                          variant_set in) {
    if (in != values_applies(w->values))
        printf(" [%s]", values_variant_names(w->values, r->arena, in));
    putchar('\n');
}

/* Panels with their steps, steps that are left to others, rules set aside. */
static void dump_cautions(const struct request *r, const struct guidework *w) {
    const struct findings *f = w->findings;
    for (size_t i = 0; i < f->caution_count; i++) {
        const struct caution *k = &f->caution[i];
        printf("step %s: %s %s %s", k->before->number, k->row,
               signals[k->signal], k->title);
        dump_variants(r, w, k->variants);
    }
    for (size_t i = 0; i < f->deferral_count; i++) {
        const struct deferral *d = &f->deferral[i];
        printf("step %s: %s left to %s%s\n", d->step->number, d->row,
               d->who != NULL ? d->who : "others",
               d->shop_only ? ", shop only" : "");
    }
    for (size_t i = 0; i < f->waiver_count; i++) {
        const struct waiver *one = &f->waiver[i];
        printf("%s set aside: %s (%s)\n", one->rule, one->reason,
               one->approver);
    }
}

/* What each circuit tells of its faults, to be reworded; those as found are not
 * what a mechanic will meet. */
static void dump_faults(const struct guidework *w) {
    for (size_t i = 0; i < w->guide->block_count; i++) {
        const struct block *b = w->guide->blocks[i];
        const char *text =
            b->circuit == NULL || b->circuit->bad || circuit_as_found(b)
                ? NULL
                : circuit_sheet_faults(w->values, b);
        if (text != NULL)
            printf("%s", text);
    }
}

static const struct {
    const char *name;
    enum stage stage;
} dumps[] = {{"tree", STAGE_SOURCE},     {"values", STAGE_VALUES},
             {"cautions", STAGE_CHECKS}, {"pages", STAGE_LAYOUT},
             {"display", STAGE_LAYOUT},  {"faults", STAGE_VALUES}};

enum { DUMPS = sizeof dumps / sizeof dumps[0] };

int command_dump(const struct request *r) {
    size_t which = 0;
    while (which < DUMPS && strcmp(dumps[which].name, r->word[0]) != 0)
        which++;
    if (which == DUMPS)
        return command_usage(
            "dump what? one of: tree, values, cautions, pages, "
            "display, faults");
    if (r->json && which != 1)
        return command_usage("--json goes with 'dump values' only");
    const char *root = shelf_root_of(r->arena, r->root, r->word[1]);
    const char *path = shelf_guide(r->arena, root, r->word[1]);
    struct guidework *w =
        guidework_do(&(struct guidework_task){.root = root,
                                              .path = path,
                                              .only = r->only,
                                              .last = dumps[which].stage,
                                              .options = &r->layout});
    if (which == 0 && w->guide != NULL)
        tree_dump(w->guide, stdout);
    else if (which == 1 && w->values != NULL)
        dump_values(r, w);
    else if (which == 2 && w->findings != NULL)
        dump_cautions(r, w);
    else if (which == 5 && w->values != NULL)
        dump_faults(w);
    else if (which > 2 && w->pages != NULL)
        display_write(w->pages, which == 4, stdout);
    fflush(stdout);
    diag_print(w->compile.diags, stderr, r->colour);
    int status = guidework_status(w);
    guidework_end(w);
    return status;
}
