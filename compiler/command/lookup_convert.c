/* lookup_convert.c - `bayleaf size convert`: a quantity in another unit. */
#include "base/arena.h"
#include "calc/size.h"
#include "command/answer.h"
#include "values/figure.h"
#include "values/range.h"

#include <string.h>

int lookup_convert(const struct lookup *l, const struct request *r,
                   const char *const *value) {
    struct answer a;
    int status = answer_begin(&a, l, r, value);
    if (status != STATUS_GOOD)
        return status;
    const struct quantity *q = answer_input(&a, 0);
    const struct value *v = answer_value(&a, 0);
    if (v != NULL && v->type == VALUE_SIZE) {
        const struct unit *area = unit_find("mm2", 3);
        q = quantity_root(&a.maker, ROOT_TABLE, v->size->area,
                          (struct ends){v->size->area, v->size->area},
                          area->dim, area);
    }
    if (q == NULL)
        return command_usage("'%s' is no quantity and no wire size", value[0]);
    struct unit *to = arena_alloc(r->arena, 1, sizeof *to);
    char *texts = arena_alloc(r->arena, 2, UNIT_TEXT);
    const struct unit *known = unit_find(value[1], strlen(value[1]));
    if (known != NULL)
        *to = *known;
    else if (!unit_compose(value[1], strlen(value[1]), to, texts,
                           texts + UNIT_TEXT))
        return command_usage("unknown unit '%s'", value[1]);
    if (!dim_same(q->dim, to->dim)) {
        char from[UNIT_TEXT], into[UNIT_TEXT];
        return command_usage("%s is %s, %s is %s", value[0],
                             dim_name(q->dim, from), value[1],
                             dim_name(to->dim, into));
    }
    if (to->dim.point && !q->dim.point)
        return command_usage("%s is a difference of temperatures; write "
                             "to=%s.diff",
                             value[0], to->name);
    const struct unit *from = figure_unit(q);
    struct quantity *result = quantity_root(&a.maker, ROOT_TABLE, q->nominal,
                                            range_ends(q), q->dim, to);
    if (q->decimals >= 0 && from != NULL)
        result->decimals = figure_like(q, from, to) + 1;
    answer_quantity(&a, "result", result);
    return answer_end(&a);
}
