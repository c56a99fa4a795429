/* setting.c - the value of a setting, by what its row in the kind table wants.
 */
#include "base/arena.h"
#include "base/diag.h"
#include "source/mark.h"
#include "values/electrical.h"
#include "values/expression.h"
#include "values/misread.h"
#include "values/point.h"
#include "values/range.h"
#include "values/setting_torque.h"
#include "values/size_word.h"

#include <math.h>
#include <string.h>

static const struct value bad = {.type = VALUE_BAD};

/* Quotes around a whole text are not part of it. */
static struct text unquoted(struct text t) {
    struct text trimmed = text_trim(t);
    bool quoted = trimmed.len >= 2 && trimmed.start[0] == '"' &&
                  trimmed.start[trimmed.len - 1] == '"';
    return quoted ? text_part(trimmed, 1, trimmed.len - 1) : trimmed;
}

static struct value text_value(struct values *v, const struct slot *s,
                               struct text t) {
    return (struct value){.type = VALUE_TEXT,
                          .text = text_squeezed(v->c->arena, unquoted(t)),
                          .at = place_of(s->evaluated->src, t)};
}

/* A few words with figures in braces among them: "after {500 km}". */
static struct value braced_value(struct values *v, const struct slot *s,
                                 struct text t, size_t variant) {
    struct value whole = text_value(v, s, t);
    if (whole.text.len == 0 ||
        memchr(whole.text.start, '{', whole.text.len) == NULL)
        return whole;
    struct inlines *i = NULL;
    struct buf b = buf_in(v->c->arena);
    if (!mark_prose(v->c, s->evaluated, unquoted(t), &i))
        return bad;
    for (; i != NULL; i = i->next) {
        if (i->kind != INLINE_MARK) {
            buf_text(&b, i->text);
            continue;
        }
        if (i->mark->kind != MARK_VALUE) {
            diag_add(v->c->diags, DIAG_SETTING_VALUE, i->mark->at,
                     "%s takes figures in its braces, no marks",
                     s->setting->name);
            return bad;
        }
        const char *figure = marks_text(v, i->mark, variant);
        if (figure == NULL)
            return bad;
        buf_puts(&b, figure);
    }
    whole.text = text_of(buf_cstr(&b));
    return whole;
}

/* Calls `offer` for each part of "a|b|c" until it says stop. */
static bool among(struct text word, const char *choices, struct nearest *near) {
    for (const char *c = choices; c != NULL && *c != '\0';) {
        size_t len = strcspn(c, "|");
        struct text one = {c, len};
        if (text_equal(one, word))
            return true;
        if (near != NULL)
            nearest_offer(near, one);
        c += len + (c[len] == '|');
    }
    return false;
}

static const char *spoken_list(struct values *v, const char *choices) {
    struct buf b = buf_in(v->c->arena);
    for (const char *c = choices; *c != '\0'; c++) {
        if (*c == '|')
            buf_puts(&b, ", ");
        else
            buf_add(&b, c, 1);
    }
    return buf_cstr(&b);
}

/* Choices, whole numbers, dates and yes or no are checked while reading: a
 * wrong one has its message already and is BAD here. */
static struct value choice_value(struct values *v, const struct slot *s,
                                 struct text t) {
    struct value value = text_value(v, s, t);
    return among(value.text, s->setting->choices, NULL) ? value : bad;
}

/* A name of a shared file that stands for a whole number. */
static struct value named_count(struct values *v, const struct slot *s,
                                struct text t, size_t variant) {
    struct expression x = expression_over(v, s->evaluated, variant, t);
    struct value value = expression_value(&x);
    if (value.type == VALUE_BAD)
        return bad;
    const struct quantity *q = value.quantity;
    if (value.type == VALUE_QUANTITY && dim_none(q->dim) && q->unit == NULL &&
        range_is_single(q) && q->nominal >= 1 && q->nominal < 1e6 &&
        q->nominal == floor(q->nominal))
        return value;
    struct span at = place_of(s->evaluated->src, t);
    diag_add(v->c->diags, DIAG_COUNT_FORM, at,
             "'%.*s' is none here; pass one in", (int)t.len, t.start);
    return bad;
}

static struct value count_value(struct values *v, const struct slot *s,
                                struct text t, size_t variant) {
    struct value value = text_value(v, s, t);
    double number = 0;
    for (size_t i = 0; i < value.text.len; i++) {
        char c = value.text.start[i];
        if (c < '0' || c > '9')
            return named_count(v, s, text_trim(t), variant);
        number = number * 10 + (c - '0');
    }
    struct quantity *q = quantity_number(&v->maker, number);
    q->decimals = 0;
    q->at = value.at;
    return (struct value){
        .type = VALUE_QUANTITY, .quantity = q, .at = value.at};
}

static struct value yes_no_value(struct values *v, const struct slot *s,
                                 struct text t) {
    struct value value = text_value(v, s, t);
    value.type = VALUE_TRUTH;
    value.truth = text_is(value.text, "yes");
    return value.truth || text_is(value.text, "no") ? value : bad;
}

static struct value size_value(struct values *v, const struct slot *s,
                               struct text t, size_t variant) {
    t = text_trim(t);
    struct span at = place_of(s->evaluated->src, t);
    struct slot *declared = names_setting(v, s->named.block, "conductor");
    enum wire_system system = WIRE_UNDECLARED;
    if (declared != NULL) {
        const struct value *c = evaluate_slot(v, declared, variant);
        if (c->type == VALUE_BAD)
            return bad;
        if (c->type == VALUE_TEXT)
            system = size_system_find(c->text.start, c->text.len);
    }
    const struct wire_size *size = NULL;
    switch (size_read(t.start, t.len, system, &size)) {
    case SIZE_FOUND:
        return (struct value){
            .type = VALUE_SIZE, .size = size, .decision = true, .at = at};
    case SIZE_AMBIGUOUS:
        diag_add(v->c->diags, DIAG_SIZE_AMBIGUOUS, at, "'%.*s'; write %s",
                 (int)t.len, t.start, size_word_whole(v->c->arena, t, system));
        break;
    case SIZE_MISMATCH:
        diag_add(v->c->diags, DIAG_SIZE_UNKNOWN, at,
                 "'%.*s' is not of the conductor %s%s", (int)t.len, t.start,
                 size_system_name(system),
                 size_word_cure(v->c->arena, t, system, "here"));
        break;
    case SIZE_UNKNOWN:
        diag_add(v->c->diags, DIAG_SIZE_UNKNOWN, at,
                 "'%.*s'; the conductor %s has no such size", (int)t.len,
                 t.start, size_system_name(system));
        break;
    case SIZE_UNREADABLE:
        diag_add(v->c->diags, DIAG_SIZE_UNKNOWN, at,
                 "'%.*s'; a size is written 10 AWG, SAE 10 or 6 mm2",
                 (int)t.len, t.start);
        break;
    }
    return bad;
}

static struct value block_value(struct values *v, const struct slot *s,
                                struct text t) {
    struct value value = text_value(v, s, t);
    const char *kinds = s->setting->choices;
    if (values_block(v, s->evaluated, value.text, kinds) != NULL)
        return value;
    if (names_told(v, value.text))
        return bad;
    struct nearest near = nearest_to(value.text);
    const struct guide *g = v->guide;
    for (size_t i = 0; i < g->block_count; i++)
        if (among(text_of(g->blocks[i]->kind->name), kinds, NULL))
            nearest_offer(&near, g->blocks[i]->name);
    if (near.best != NULL)
        diag_add(v->c->diags, DIAG_NAME_OF_BLOCK, value.at,
                 "'%.*s' (did you mean '%.*s'?)", (int)value.text.len,
                 value.text.start, (int)near.best_len, near.best);
    else
        diag_add(v->c->diags, DIAG_NAME_OF_BLOCK, value.at,
                 "'%.*s'; %s names a block of kind %s", (int)value.text.len,
                 value.text.start, s->setting->name, spoken_list(v, kinds));
    return bad;
}

/* A word that is no name either was meant to be a block's. */
static bool is_lost_word(const struct values *v, const struct slot *s,
                         struct text name, struct text state) {
    bool letters = name.len > 0;
    for (size_t i = 0; i < name.len; i++) {
        char c = name.start[i];
        bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        letters = letters && (letter || (i > 0 && c >= '0' && c <= '9'));
    }
    for (size_t i = 0; i < state.len; i++)
        letters = letters && state.start[i] >= 'a' && state.start[i] <= 'z';
    return letters && names_find(v, s->evaluated, name) == NULL;
}

static struct value blocks_value(struct values *v, const struct slot *s,
                                 struct text t) {
    bool ok = true;
    struct text rest = t, name;
    while (text_next_part(&rest, ',', &name))
        ok = block_value(v, s, name).type != VALUE_BAD && ok;
    return ok ? text_value(v, s, t) : bad;
}

static struct value quantity_value(struct values *v, const struct slot *s,
                                   struct text t, size_t variant) {
    struct expression x = expression_over(v, s->evaluated, variant, t);
    struct value value = expression_value(&x);
    if (s->setting->type == SETTING_LIMIT && value.type == VALUE_LIMIT) {
        struct value end = {.type = VALUE_QUANTITY,
                            .quantity =
                                value.low != NULL ? value.low : value.high};
        return expression_fits(&x, &end, s->setting->unit, s->setting->name)
                   ? value
                   : bad;
    }
    return expression_fits(&x, &value, s->setting->unit, s->setting->name)
               ? value
               : bad;
}

/* `house charging`: a voltage that the supply states. */
static bool is_state(struct values *v, const struct block *supply,
                     struct text state, struct span at) {
    static const char *const words[] = {"resting", "charging"};
    struct nearest near = nearest_to(state);
    for (size_t i = 0; i < 2; i++) {
        nearest_offer(&near, text_of(words[i]));
        if (!text_is(state, words[i]))
            continue;
        if (blocks_entry(v, supply, words[i]) != NULL)
            return true;
        diag_add(v->c->diags, DIAG_NAME_ABSENT, at,
                 "supply %.*s states no %s voltage", (int)supply->name.len,
                 supply->name.start, words[i]);
        return false;
    }
    if (near.best != NULL)
        diag_add(v->c->diags, DIAG_CHOICE_UNKNOWN, at,
                 "'%.*s' (did you mean '%.*s'?)", (int)state.len, state.start,
                 (int)near.best_len, near.best);
    else
        diag_add(v->c->diags, DIAG_CHOICE_UNKNOWN, at,
                 "'%.*s'; a supply is resting or charging", (int)state.len,
                 state.start);
    return false;
}

static struct value block_or_quantity(struct values *v, const struct slot *s,
                                      struct text t, size_t variant) {
    const char *kinds = s->setting->choices;
    struct value whole = text_value(v, s, t);
    struct text name, state;
    electrical_split(whole.text, &name, &state);
    const struct block *b = values_block(v, s->evaluated, name, kinds);
    if (b == NULL && is_lost_word(v, s, name, state))
        return block_value(v, s, text_part(text_trim(t), 0, name.len));
    if (b == NULL || (state.len > 0 && b->kind->id != KIND_SUPPLY))
        return quantity_value(v, s, t, variant);
    if (state.len > 0 && !is_state(v, b, state, whole.at))
        return bad;
    return whole;
}

/* `28 A for 60 ms`, `7.6 A at 13.2 V`: the second part may be left out. */
static struct value pair_value(struct values *v, const struct slot *s,
                               struct text t, size_t variant, const char *joint,
                               const char *unit) {
    struct expression x = expression_over(v, s->evaluated, variant, t);
    struct value first = expression_sum(&x);
    if (!expression_fits(&x, &first, s->setting->unit, s->setting->name))
        return bad;
    if (scan_take_word(&x.scan, joint)) {
        struct value second = expression_sum(&x);
        if (!expression_fits(&x, &second, unit, joint))
            return bad;
        first.with = second.quantity;
        first.joint = joint;
    }
    if (!scan_end(&x.scan)) {
        misread_word(&x.scan, text_part(t, x.scan.at, t.len));
        return bad;
    }
    return first;
}

/* `5 in from battery +`: the point is a text. */
static struct value place_value(struct values *v, const struct slot *s,
                                struct text t, size_t variant) {
    struct expression x = expression_over(v, s->evaluated, variant, t);
    struct value value = expression_sum(&x);
    if (!expression_fits(&x, &value, "m", "place"))
        return bad;
    if (!scan_take_word(&x.scan, "from") || scan_end(&x.scan)) {
        scan_fail(&x.scan, DIAG_SETTING_VALUE, 0, t.len,
                  "a place is a length from a point: 5 in from battery +");
        return bad;
    }
    value.joint = "from";
    struct text point = text_trim(text_part(t, x.scan.at, t.len));
    value.text = text_squeezed(v->c->arena, point);
    if (!point_check(v, s->evaluated, value.text,
                     place_of(s->evaluated->src, point)))
        return bad;
    return value;
}

/* `0.4 V`, `3 %` of the supply, or `3 % of 13.8 V`. */
static struct value drop_value(struct values *v, const struct slot *s,
                               struct text t, size_t variant) {
    struct expression x = expression_over(v, s->evaluated, variant, t);
    struct value value = expression_sum(&x);
    bool share = value.type == VALUE_QUANTITY && value.quantity->unit != NULL &&
                 dim_none(value.quantity->dim);
    if (value.type == VALUE_QUANTITY && !share &&
        dim_none(value.quantity->dim)) {
        scan_fail(&x.scan, DIAG_UNIT_MISSING, 0, t.len,
                  "a drop limit is written 0.4 V, 3 %%, or 3 %% of 13.8 V");
        return bad;
    }
    if (!expression_fits(&x, &value, share ? "%" : "V", "drop limit"))
        return bad;
    if (share && scan_take_word(&x.scan, "of")) {
        struct value of = expression_sum(&x);
        if (!expression_fits(&x, &of, "V", "drop limit"))
            return bad;
        value.with = of.quantity;
        value.joint = "of";
    }
    if (!scan_end(&x.scan)) {
        scan_fail(&x.scan, DIAG_SETTING_VALUE, 0, t.len,
                  "a drop limit is written 0.4 V, 3 %%, or 3 %% of 13.8 V");
        return bad;
    }
    return value;
}

static struct value read_setting(struct values *v, const struct slot *s,
                                 struct text t, size_t variant) {
    switch (s->setting->type) {
    case SETTING_TEXT:
        return braced_value(v, s, t, variant);
    case SETTING_PROSE:
    case SETTING_LIST:
    case SETTING_VARIANTS:
    case SETTING_FILES:
    case SETTING_DATE:
        return text_value(v, s, t);
    case SETTING_QUANTITY:
    case SETTING_LIMIT:
        return quantity_value(v, s, t, variant);
    case SETTING_SIZE:
        return size_value(v, s, t, variant);
    case SETTING_CHOICE:
        return choice_value(v, s, t);
    case SETTING_YES_NO:
        return yes_no_value(v, s, t);
    case SETTING_COUNT:
        return count_value(v, s, t, variant);
    case SETTING_BLOCK:
        return block_value(v, s, t);
    case SETTING_BLOCKS:
        return blocks_value(v, s, t);
    case SETTING_BLOCK_OR_QUANTITY:
        return block_or_quantity(v, s, t, variant);
    case SETTING_STARTING:
        return pair_value(v, s, t, variant, "for", "s");
    case SETTING_AT:
        return pair_value(v, s, t, variant, "at", "V");
    case SETTING_PLACE:
        return place_value(v, s, t, variant);
    case SETTING_DROP:
        return drop_value(v, s, t, variant);
    case SETTING_WRENCH:
        return setting_wrench(v, s, t, variant);
    case SETTING_STAGES:
        return setting_stages(v, s, t, variant);
    }
    return bad;
}

/* Quantities are amounts, above 0; these may be 0 as well, and an angle below
 * it. */
static bool is_amount(struct values *v, const struct setting *s,
                      const struct value *value, struct span at) {
    static const char zero[] = "load|current|highest|starting|terminals|"
                               "contact|place|interrupt|prevailing|extension";
    if (s->unit != NULL && strcmp(s->unit, "deg") == 0)
        return true;
    bool may_be_zero = among(text_of(s->name), zero, NULL);
    double low = range_ends(value->quantity).low;
    if (may_be_zero ? low < 0 : low <= 0) {
        diag_add(v->c->diags, DIAG_SETTING_VALUE, at, "%s must%s be %s %s",
                 s->name, may_be_zero ? " not" : "",
                 may_be_zero ? "below" : "above",
                 value->quantity->dim.point ? "absolute zero" : "0");
        return false;
    }
    if (value->with == NULL || range_ends(value->with).low > 0)
        return true;
    diag_add(v->c->diags, DIAG_SETTING_VALUE, at,
             "what stands behind '%s' must be above 0", value->joint);
    return false;
}

struct value setting_value(struct values *v, const struct slot *s,
                           const struct choice *choice, size_t variant) {
    struct value value = read_setting(v, s, choice->text, variant);
    if (value.type != VALUE_QUANTITY)
        return value;
    struct span at = place_of(s->evaluated->src, text_trim(choice->text));
    return is_amount(v, s->setting, &value, at) ? value : bad;
}
