/* torque_order.c - the order in which the fasteners of a joint are tightened,
 * as its `pattern` and `count` say. */
#include "values/torque_order.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/namesake.h"
#include "stages.h"
#include "values/model.h"
#include "values/spelling.h"

bool torque_order_find(struct text words, enum pattern *out) {
    struct text rest = words, part;
    while (text_next_part(&rest, ',', &part)) {
        struct text more = text_trim(part), word;
        if (pattern_find(more.start, more.len, out))
            return true;
        while (text_next_part(&more, ' ', &word))
            if (pattern_find(word.start, word.len, out))
                return true;
    }
    return false;
}

static const char *pattern_at(size_t index) {
    return index < PATTERNS ? pattern_name((enum pattern)index) : NULL;
}

bool torque_order_check(struct values *v, const struct block *b,
                        size_t variant) {
    struct text words = block_text(v, b, "pattern", variant), part;
    bool good = true;
    while (good && text_next_part(&words, ',', &part))
        good =
            spelling_check(v, block_place(v, b, "pattern"), part, pattern_at);
    return good;
}

void torque_order_set(struct values *v, const struct block *b, size_t variant) {
    const struct value *count = block_setting(v, b, "count", variant);
    struct text words = block_text(v, b, "pattern", variant);
    enum pattern pattern;
    if (count->type == VALUE_ABSENT || !torque_order_find(words, &pattern))
        return;
    struct value order = {.type = VALUE_BAD};
    double n = count->type == VALUE_QUANTITY ? count->quantity->nominal : 0;
    if (n >= PATTERN_LEAST && n <= PATTERN_MOST)
        order =
            (struct value){.type = VALUE_TEXT,
                           .text = text_of(arena_printf(
                               v->c->arena, "1 to %d as drawn for %s", (int)n,
                               namesake_name(v->c->arena, v->guide, b))),
                           .decision = true};
    else if (n > 0) /* a wrong one has its message */
        diag_add(v->c->diags, DIAG_SETTING_VALUE, count->at,
                 "%.0f in the order '%s', which is drawn for %d to %d; leave "
                 "the pattern out, and show the maker's order",
                 n, pattern_name(pattern), PATTERN_LEAST, PATTERN_MOST);
    block_field(v, b, "order", variant, order);
}
