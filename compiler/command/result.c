/* result.c - results for other programs, as JSON (jansson writes it). */
#include "command/result.h"

#include "base/arena.h"
#include "calc/size.h"
#include "values/figure.h"
#include "values/range.h"

#include <jansson.h>
#include <stdlib.h>
#include <string.h>

struct results {
    json_t *list;
};

struct results *result_begin(void) {
    struct results *r = malloc(sizeof *r);
    if (r == NULL || (r->list = json_array()) == NULL)
        arena_exhausted();
    return r;
}

static void put(json_t *object, const char *key, json_t *value) {
    if (value == NULL || json_object_set_new(object, key, value) != 0)
        arena_exhausted();
}

static json_t *text_or_null(const char *s) {
    return s == NULL ? json_null() : json_string(s);
}

void result_guide(struct results *r, const char *guide, const char *pdf,
                  size_t pages, int status) {
    json_t *o = json_object();
    put(o, "guide", json_string(guide));
    put(o, "status", json_integer(status));
    put(o, "pdf", text_or_null(pdf));
    put(o, "pages", json_integer((json_int_t)pages));
    json_array_append_new(r->list, o);
}

static json_t *printed(struct arena *a, const char *s) {
    return s == NULL ? json_null() : json_string(figure_plain(a, s));
}

static double in_unit(double si, const struct unit *u) {
    return u == NULL ? si : unit_from_si(u, si);
}

static json_t *roots_of(struct arena *a, const struct quantity *q) {
    json_t *list = json_array();
    const struct quantity *const *root;
    size_t count = range_roots(a, q, &root);
    for (size_t i = 0; i < count; i++) {
        if (root[i]->name.len == 0)
            continue;
        json_array_append_new(
            list, json_stringn(root[i]->name.start, root[i]->name.len));
    }
    return list;
}

static void put_quantity(struct arena *a, json_t *o, const struct quantity *q) {
    const struct unit *u = figure_unit(q);
    struct ends e = range_ends(q);
    put(o, "value", json_real(in_unit(q->nominal, u)));
    put(o, "unit", json_string(u == NULL ? "" : u->label));
    put(o, "low", json_real(in_unit(e.low, u)));
    put(o, "high", json_real(in_unit(e.high, u)));
    put(o, "roots", roots_of(a, q));
}

static const char *kind_of(const struct value *value) {
    if (value->decision || value->type == VALUE_SIZE)
        return "decision";
    return value->type == VALUE_QUANTITY || value->type == VALUE_LIMIT
               ? "quantity"
               : "text";
}

void result_value(struct results *r, const struct values *v,
                  const struct named *n, size_t variant) {
    const struct value *value = &n->by_variant[variant];
    const struct variant *list;
    values_variants(v, &list);
    struct arena *a = arena_new();
    json_t *o = json_object();
    put(o, "name", json_stringn(n->name.start, n->name.len));
    struct text name = list[variant].name;
    put(o, "variant",
        name.len == 0 ? json_null() : json_stringn(name.start, name.len));
    put(o, "kind", json_string(kind_of(value)));
    if (value->type == VALUE_QUANTITY) {
        put_quantity(a, o, value->quantity);
    } else { /* the same keys in every record */
        put(o, "value",
            printed(a, values_print(v, a, n, variant, PRINT_PLAIN)));
        put(o, "unit", json_null());
        put(o, "low", json_null());
        put(o, "high", json_null());
        put(o, "roots", json_array());
    }
    put(o, "printed", printed(a, values_print(v, a, n, variant, PRINT_RANGE)));
    json_array_append_new(r->list, o);
    arena_free(a);
}

void result_end(struct results *r, FILE *out) {
    json_dumpf(r->list, out, JSON_INDENT(2) | JSON_REAL_PRECISION(15));
    fputc('\n', out);
    json_decref(r->list);
    free(r);
}
