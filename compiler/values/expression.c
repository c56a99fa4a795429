/* expression.c - the value of a text such as `feed.drop * 2` for one variant.
 *
 * Parsing and evaluation are one pass: each grammar rule returns a value, and a
 * BAD one makes everything above it BAD without a second message. */
#include "values/expression.h"

#include "base/arena.h"
#include "calc/size.h"
#include "source/mark.h"
#include "values/circuit_block.h"
#include "values/literal.h"
#include "values/misread.h"
#include "values/operate.h"

#include <math.h>
#include <string.h>

enum { PARENTHESES_MAX = 200 };

static const struct value bad = {.type = VALUE_BAD};

static struct value of_quantity(struct quantity *q) {
    return (struct value){.type = VALUE_QUANTITY, .quantity = q, .at = q->at};
}

struct expression expression_over(struct values *v, const struct scope *scope,
                                  size_t variant, struct text text) {
    struct scan scan = {.text = text,
                        .src = scope->src,
                        .diags = v->c->diags,
                        .arena = v->c->arena};
    return (struct expression){.values = v,
                               .scope = scope,
                               .variant = variant,
                               .conductor = WIRE_UNDECLARED,
                               .scan = scan};
}

/* What the file needs and was not given: that was told at its include. */
static bool is_needed(const struct expression *x, struct text word) {
    const struct guide *g = x->values->guide;
    for (size_t i = 0; i < g->block_count; i++) {
        const struct block *b = g->blocks[i];
        if (b->kind->id != KIND_NEEDS || b->scope->index != x->scope->index)
            continue;
        for (size_t k = 0; k < b->entry_count; k++)
            if (text_equal(b->entries[k].key, word))
                return true;
    }
    return false;
}

/* `NAME at 13.8 V`: a circuit's value with its first supply at that voltage.
 * The cursor is left before the word's length from the end: the caller steps
 * over that. */
static struct value circuit_at(struct expression *x, struct slot *slot,
                               struct text word) {
    struct scan *s = &x->scan;
    size_t from = s->at;
    s->at += word.len;
    if (!scan_take_word(s, "at")) {
        s->at = from;
        return *evaluate_slot(x->values, slot, x->variant);
    }
    struct value volt = expression_sum(x);
    if (volt.type == VALUE_BAD || !expression_fits(x, &volt, "V", "a supply"))
        return bad;
    s->at -= word.len;
    return circuit_block_value(x->values, slot, x->variant, volt.quantity);
}

/* name: the value of a slot, copied so that the use has its own place. */
static struct value read_name(struct expression *x, struct text word) {
    struct scan *s = &x->scan;
    struct slot *slot = names_find(x->values, x->scope, word);
    if (slot == NULL && is_needed(x, word)) {
        s->failed = true;
        return bad;
    }
    if (slot == NULL && misread_cure(word) != NULL) {
        misread_word(s, word);
        return bad;
    }
    if (slot == NULL && names_told(x->values, word)) {
        s->failed = true;
        return bad;
    }
    if (slot == NULL) {
        struct nearest near = nearest_to(word);
        names_suggest(x->values, x->scope, &near);
        for (int i = 0; x->braced && i <= MARK_OWNER_ONLY; i++)
            nearest_offer(&near, text_of(mark_word((enum mark_kind)i)));
        scan_fail(s, DIAG_NAME_UNKNOWN, s->at, s->at + word.len, "'%.*s'%s",
                  (int)word.len, word.start,
                  x->named && near.best == NULL ? misread_words(s, word)
                                                : misread_end(s, &near));
        return bad;
    }
    struct value v = slot->output != NULL
                         ? circuit_at(x, slot, word)
                         : *evaluate_slot(x->values, slot, x->variant);
    if (v.type == VALUE_ABSENT && slot->setting != NULL &&
        slot->setting->required) { /* its block was told of it */
        s->failed = true;
        return bad;
    }
    if (v.type == VALUE_ABSENT) {
        scan_fail(s, DIAG_NAME_ABSENT, s->at, s->at + word.len,
                  "'%.*s' is known but has no value here", (int)word.len,
                  word.start);
        return bad;
    }
    if (v.type == VALUE_BAD)
        s->failed = true; /* its own message was given where it stands */
    s->at += word.len;
    v.at = scan_span(s, s->at - word.len, s->at);
    return v;
}

static struct value read_extreme(struct expression *x, enum quantity_op op,
                                 size_t from) {
    struct value result = expression_sum(x);
    while (scan_take(&x->scan, ","))
        result = operate_extreme(x, op, result, expression_sum(x), from);
    return result;
}

static struct value read_function(struct expression *x, struct text word) {
    struct scan *s = &x->scan;
    size_t from = s->at;
    s->at += word.len + 1; /* the name and its parenthesis */
    struct value v;
    if (text_is(word, "min"))
        v = read_extreme(x, QUANTITY_MIN, from);
    else if (text_is(word, "max"))
        v = read_extreme(x, QUANTITY_MAX, from);
    else
        v = expression_sum(x);
    if (v.type == VALUE_BAD)
        return bad;
    if (!scan_take(s, ")")) {
        scan_fail(s, DIAG_EXPRESSION_FORM, from, s->at,
                  "the parenthesis is not closed");
        return bad;
    }
    if (text_is(word, "sqrt"))
        return operate_root(x, v, from);
    return text_is(word, "abs") ? operate_abs(x, v, from) : v;
}

static bool is_function(struct text word) {
    return text_is(word, "min") || text_is(word, "max") ||
           text_is(word, "abs") || text_is(word, "sqrt");
}

static bool starts_letter(struct text word) {
    char c = word.len > 0 ? word.start[0] : '\0';
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static bool has_operator(struct text word) {
    for (size_t i = 0; i < word.len; i++)
        if (strchr("+-*/=<>", word.start[i]) != NULL)
            return true;
    return false;
}

/* `10 AWG`, `2/0 AWG`, `SAE 10`: two words at the cursor, read as a size. */
static bool read_size(struct expression *x, struct value *out) {
    struct scan *s = &x->scan;
    size_t from = s->at;
    struct text first = scan_word(s);
    size_t middle = (size_t)(first.start - s->text.start) + first.len;
    struct scan ahead = *s;
    ahead.at = middle;
    struct text second = scan_word(&ahead);
    bool gauge = text_is(second, "AWG") || text_is(second, "SAE") ||
                 text_is(first, "SAE") || text_is(first, "AWG") ||
                 text_is(first, "AV");
    if (!gauge)
        return false;
    size_t start = (size_t)(first.start - s->text.start);
    size_t end = (size_t)(second.start - s->text.start) + second.len;
    struct text whole = text_part(s->text, start, end);
    const struct wire_size *size = NULL;
    switch (size_read(whole.start, whole.len, x->conductor, &size)) {
    case SIZE_FOUND:
        s->at = end;
        *out = (struct value){
            .type = VALUE_SIZE, .size = size, .at = scan_span(s, start, end)};
        return true;
    case SIZE_AMBIGUOUS: {
        /* Which conductor a bare gauge means matters for its area only; as a
         * size that is read out it is the stranded one. */
        enum wire_system usual = WIRE_AWG_STRANDED;
        if (x->conductor == WIRE_UNDECLARED &&
            size_read(whole.start, whole.len, usual, &size) == SIZE_FOUND) {
            s->at = end;
            *out = (struct value){.type = VALUE_SIZE,
                                  .size = size,
                                  .at = scan_span(s, start, end)};
            return true;
        }
        break;
    }
    case SIZE_MISMATCH:
    case SIZE_UNKNOWN:
    case SIZE_UNREADABLE:
        break;
    }
    scan_fail(s, DIAG_SIZE_UNKNOWN, from, end, "'%.*s'", (int)whole.len,
              whole.start);
    s->at = end;
    *out = bad;
    return true;
}

static struct value primary(struct expression *x) {
    struct scan *s = &x->scan;
    scan_blanks(s);
    struct value size;
    if (read_size(x, &size))
        return size;
    if (scan_at_number(s)) {
        struct quantity *q = literal_read(s, &x->values->maker);
        return q == NULL ? bad : of_quantity(q);
    }
    size_t from = s->at;
    if (scan_take(s, "(")) {
        struct value v = expression_sum(x);
        if (v.type != VALUE_BAD && !scan_take(s, ")")) {
            scan_fail(s, DIAG_EXPRESSION_FORM, from, s->at,
                      "the parenthesis is not closed");
            return bad;
        }
        return v;
    }
    struct text word = scan_word(s);
    bool called = s->at + word.len < s->text.len &&
                  s->text.start[s->at + word.len] == '(';
    if (called && is_function(word))
        return read_function(x, word);
    if (starts_letter(word) && !has_operator(word))
        return read_name(x, word);
    misread_word(s, word);
    return bad;
}

static struct value power(struct expression *x) {
    struct scan *s = &x->scan;
    scan_blanks(s);
    size_t from = s->at;
    struct value base = primary(x);
    if (base.type == VALUE_BAD || !scan_take(s, "^"))
        return base;
    size_t at = s->at;
    struct text word = scan_word(s);
    int exponent = 0;
    bool minus = text_starts(word, "-");
    for (size_t i = minus; i < word.len; i++) {
        char c = word.start[i];
        if (c < '0' || c > '9' || word.len > 2 + (size_t)minus) {
            exponent = 0;
            break;
        }
        exponent = exponent * 10 + (c - '0');
    }
    s->at += word.len;
    if (exponent == 0 || exponent > 12) {
        scan_fail(s, DIAG_EXPRESSION_FORM, at, s->at,
                  "the exponent is a whole number from 1 to 12, or below 0");
        return bad;
    }
    return operate_power(x, base, minus ? -exponent : exponent, from);
}

static struct value product(struct expression *x) {
    struct scan *s = &x->scan;
    scan_blanks(s);
    size_t from = s->at;
    struct value left = power(x);
    while (left.type != VALUE_BAD) {
        if (scan_take_operator(s, "*") || scan_take_operator(s, "\xC3\x97"))
            left = operate_multiply(x, QUANTITY_MULTIPLY, left, power(x), from);
        else if (scan_take_operator(s, "/"))
            left = operate_multiply(x, QUANTITY_DIVIDE, left, power(x), from);
        else
            break;
    }
    return left;
}

static struct value sum(struct expression *x, size_t from) {
    struct scan *s = &x->scan;
    struct value left = product(x);
    while (left.type != VALUE_BAD) {
        if (scan_take_operator(s, "+"))
            left = operate_add(x, QUANTITY_ADD, left, product(x), from);
        else if (scan_take_operator(s, "-") ||
                 scan_take_operator(s, "\xE2\x88\x92"))
            left = operate_add(x, QUANTITY_SUBTRACT, left, product(x), from);
        else
            break;
    }
    return s->failed ? bad : left;
}

struct value expression_sum(struct expression *x) {
    struct scan *s = &x->scan;
    scan_blanks(s);
    size_t from = s->at;
    if (x->depth > PARENTHESES_MAX) { /* the text itself is one */
        scan_fail(s, DIAG_EXPRESSION_DEEP, from, from + 1, "at most %d",
                  PARENTHESES_MAX);
        return bad;
    }
    if (!evaluate_deeper(x->values)) {
        scan_fail(s, DIAG_EXPRESSION_DEEP, from, s->text.len,
                  "at most %d, names that need names counted", DEPTH_MAX);
        return bad;
    }
    x->depth++;
    struct value v = sum(x, from);
    x->depth--;
    evaluate_higher(x->values);
    return v;
}

static struct value read_string(struct expression *x) {
    struct scan *s = &x->scan;
    size_t from = s->at;
    size_t start = s->at + 1, end = start;
    while (end < s->text.len && s->text.start[end] != '"')
        end++;
    if (end == s->text.len) {
        scan_fail(s, DIAG_EXPRESSION_FORM, from, end,
                  "the text's second \" is missing");
        return bad;
    }
    s->at = end + 1;
    return (struct value){
        .type = VALUE_TEXT,
        .text = text_squeezed(s->arena, text_part(s->text, start, end)),
        .at = scan_span(s, from, s->at)};
}

static struct value read_limit(struct expression *x, bool at_least) {
    struct value v = expression_sum(x);
    if (v.type == VALUE_BAD)
        return bad;
    if (!operate_is_quantity(x, &v, 0, "a limit of"))
        return bad;
    struct value limit = {.type = VALUE_LIMIT, .at = v.at};
    if (at_least)
        limit.low = v.quantity;
    else
        limit.high = v.quantity;
    return limit;
}

struct value expression_value(struct expression *x) {
    struct scan *s = &x->scan;
    struct value v;
    if (scan_end(s)) {
        scan_fail(s, DIAG_EXPRESSION_FORM, 0, s->text.len, "it is empty");
        return bad;
    }
    if (scan_peek(s) == '"')
        v = read_string(x);
    else if (scan_take_word(s, "yes") || scan_take_word(s, "no"))
        v = (struct value){.type = VALUE_TRUTH,
                           .truth = s->text.start[s->at - 1] == 's',
                           .at = scan_span(s, 0, s->at)};
    else if (scan_take(s, ">=") || scan_take(s, "\xE2\x89\xA5"))
        v = read_limit(x, true);
    else if (scan_take(s, "<=") || scan_take(s, "\xE2\x89\xA4"))
        v = read_limit(x, false);
    else
        v = expression_sum(x);
    if (v.type != VALUE_BAD && !scan_end(s)) {
        misread_word(s, scan_word(s).len > 0
                            ? scan_word(s)
                            : text_part(s->text, s->at, s->at + 1));
        return bad;
    }
    return s->failed ? bad : v;
}

static bool read_relation(struct scan *s, enum relation *out) {
    static const struct {
        const char *sign;
        enum relation relation;
    } signs[] = {
        {"<=", RELATION_AT_MOST},
        {">=", RELATION_AT_LEAST},
        {"\xE2\x89\xA4", RELATION_AT_MOST},
        {"\xE2\x89\xA5", RELATION_AT_LEAST},
        {"<", RELATION_BELOW},
        {">", RELATION_ABOVE},
        {"=", RELATION_EQUAL},
    };
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++) {
        if (!scan_take_operator(s, signs[i].sign))
            continue;
        *out = signs[i].relation;
        return true;
    }
    return false;
}

/* A size beside an area is as large as its conductor: feed.size >= 2.5 mm2. */
static void size_as_area(struct expression *x, struct value *one,
                         const struct value *other) {
    const struct unit *area = unit_find("mm2", 3);
    if (one->type != VALUE_SIZE || other->type != VALUE_QUANTITY ||
        !dim_equal(other->quantity->dim, area->dim))
        return;
    double si = one->size->area;
    struct quantity *q = quantity_root(&x->values->maker, ROOT_TABLE, si,
                                       (struct ends){si, si}, area->dim, area);
    q->name = text_of(one->size->label);
    q->at = one->at;
    *one = of_quantity(q);
}

bool expression_comparison(struct expression *x, struct value *left,
                           struct value *right, enum relation *relation) {
    struct scan *s = &x->scan;
    *left = expression_sum(x);
    if (left->type == VALUE_BAD)
        return false;
    if (!read_relation(s, relation)) {
        scan_fail(s, DIAG_EXPRESSION_FORM, 0, s->text.len,
                  "a check compares: LEFT <= RIGHT (or >=, <, >, =)");
        return false;
    }
    *right = expression_sum(x);
    if (right->type == VALUE_BAD)
        return false;
    if (!scan_end(s)) {
        misread_word(s, scan_word(s));
        return false;
    }
    if (left->type == VALUE_SIZE && right->type == VALUE_SIZE)
        return true;
    size_as_area(x, left, right);
    size_as_area(x, right, left);
    return operate_comparable(x, left, right, 0);
}

static void report_misfit(struct expression *x, const struct quantity *q,
                          const struct unit *u, const char *what) {
    struct scan *s = &x->scan;
    char a[UNIT_TEXT], b[UNIT_TEXT];
    const char *want = unit_measures(u, a);
    if (s->failed)
        return;
    if (dim_none(q->dim))
        scan_fail(s, DIAG_UNIT_MISSING, 0, s->text.len, "%s wants %s%s%s", what,
                  want, misread_span(s),
                  misread_bare(s->arena, s->text, u->dim));
    else
        scan_fail(s, DIAG_DIMENSION, 0, s->text.len,
                  "%s wants %s, this is %s%s", what, want,
                  unit_measures_of(q->unit, q->dim, b),
                  misread_meant(s->arena, q->unit, u->dim));
    operate_note_origin(x, q);
}

bool expression_fits(struct expression *x, const struct value *value,
                     const char *unit, const char *what) {
    if (value->type == VALUE_BAD)
        return false;
    struct scan *s = &x->scan;
    if (value->type != VALUE_QUANTITY) {
        scan_fail(s, DIAG_VALUE_TYPE, 0, s->text.len,
                  "%s wants a quantity, this is %s", what,
                  operate_type_name(value->type));
        return false;
    }
    const struct unit *u = unit == NULL ? NULL : unit_find(unit, strlen(unit));
    const struct quantity *q = value->quantity;
    if (u == NULL)
        u = unit_find("1", 1);
    if (dim_equal(u->dim, q->dim) && !misread_energy(q->unit, u))
        return true;
    if (dim_same(u->dim, q->dim) && u->dim.point != q->dim.point) {
        scan_fail(s, DIAG_DIMENSION, 0, s->text.len,
                  u->dim.point
                      ? "%s wants a temperature, this is a difference; "
                        "write 20 degC or 68 degF"
                      : "%s wants a difference, this is a temperature; "
                        "write it in K",
                  what);
        return false;
    }
    report_misfit(x, q, u, what);
    return false;
}
