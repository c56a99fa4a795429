/* working.c - how a value came about, for the annex and `bayleaf why`. */
#include "values/working.h"

#include "base/arena.h"
#include "base/list.h"
#include "calc/rounding.h"
#include "values/electrical.h"
#include "values/range.h"

#include <string.h>

#define NBSP "\xC2\xA0"

static const char *sign_of(enum quantity_op op) {
    switch (op) {
    case QUANTITY_ADD:
        return "+";
    case QUANTITY_SUBTRACT:
        return "\xE2\x88\x92";
    case QUANTITY_MULTIPLY:
        return "\xC3\x97";
    case QUANTITY_DIVIDE:
        return "/";
    case QUANTITY_MIN:
        return "min";
    case QUANTITY_MAX:
        return "max";
    case QUANTITY_ROOT:
    case QUANTITY_POWER:
    case QUANTITY_ABS:
    case QUANTITY_CALL:
        break;
    }
    return "";
}

/* How a value is called in a formula: its name, or its figure. */
static const char *short_name(struct arena *a, const struct quantity *q) {
    return q->name.len > 0 ? text_cstr(a, q->name)
                           : figure_of(a, q, FIGURE_PLAIN);
}

const char *working_formula(struct arena *a, const struct quantity *q) {
    switch (q->op) {
    case QUANTITY_ROOT:
        return "";
    case QUANTITY_CALL:
        return q->calculation->formula;
    case QUANTITY_POWER:
        if (q->numerator == 1 && q->denominator == 2)
            return arena_printf(a, "sqrt(%s)", short_name(a, q->arg[0]));
        return arena_printf(a, "%s ^ %d", short_name(a, q->arg[0]),
                            q->numerator);
    case QUANTITY_ABS:
        return arena_printf(a, "abs(%s)", short_name(a, q->arg[0]));
    case QUANTITY_MIN:
    case QUANTITY_MAX:
        return arena_printf(a, "%s(%s, %s)", sign_of(q->op),
                            short_name(a, q->arg[0]), short_name(a, q->arg[1]));
    case QUANTITY_ADD:
    case QUANTITY_SUBTRACT:
    case QUANTITY_MULTIPLY:
    case QUANTITY_DIVIDE:
        return arena_printf(a, "%s %s %s", short_name(a, q->arg[0]),
                            sign_of(q->op), short_name(a, q->arg[1]));
    }
    return "";
}

/* A figure of a table, in four digits. */
static void write_constant(struct buf *b,
                           const struct calculation_constant *c) {
    struct unit composed;
    char texts[2][UNIT_TEXT];
    const struct unit *u = unit_find(c->unit, strlen(c->unit));
    if (u == NULL &&
        unit_compose(c->unit, strlen(c->unit), &composed, texts[0], texts[1]))
        u = &composed;
    double shown = u == NULL ? c->value : unit_from_si(u, c->value);
    int decimals = round_decimals(shown, 4);
    double rounded = round_value(shown, decimals, ROUND_HALF_EVEN);
    while (decimals > 0 &&
           round_value(shown, decimals - 1, ROUND_HALF_EVEN) == rounded)
        decimals--;
    const struct dim none = {{0}, false};
    buf_printf(b, "%s%s" NBSP "=" NBSP "%s", b->len > 0 ? ", " : "", c->name,
               figure_text(b->arena, c->value, u, u == NULL ? none : u->dim,
                           decimals < 0 ? 0 : decimals, ROUND_HALF_EVEN));
}

static void write_constants(struct buf *b, const struct quantity *q) {
    struct calculation_constant list[CALCULATION_CONSTANTS];
    size_t count = q->calculation->constants == NULL
                       ? 0
                       : q->calculation->constants(q->fixed, list);
    for (size_t i = 0; i < count; i++)
        write_constant(b, &list[i]);
}

const char *working_numbers(struct arena *a, const struct quantity *q) {
    struct buf b = buf_in(a);
    for (size_t i = 0; i < q->arg_count; i++) {
        const struct quantity *arg = q->arg[i];
        const char *symbol = q->op == QUANTITY_CALL
                                 ? q->calculation->input[i].name
                             : arg->name.len > 0 ? text_cstr(a, arg->name)
                                                 : NULL;
        if (symbol == NULL)
            continue; /* a bare figure stands in the formula already */
        if (i > 0 && q->arg[i] == q->arg[0] && q->op != QUANTITY_CALL)
            continue;
        buf_printf(&b, "%s%s" NBSP "=" NBSP "%s", b.len > 0 ? ", " : "", symbol,
                   figure_of(a, arg, FIGURE_PLAIN));
    }
    if (q->op == QUANTITY_CALL)
        write_constants(&b, q);
    return buf_cstr(&b);
}

const char *working_source(struct arena *a, const struct quantity *q) {
    if (q->op == QUANTITY_CALL)
        return q->calculation->source;
    if (q->note.len > 0)
        return text_cstr(a, q->note);
    return "";
}

size_t values_working(const struct values *v, struct arena *a,
                      const struct block *b, size_t variant,
                      const struct working **list) {
    const struct block_slots *own = &v->of_block[b->index];
    struct working *rows = arena_alloc(a, own->working_count + 1, sizeof *rows);
    size_t count = 0;
    for (size_t i = 0; i < own->working_count; i++) {
        const struct working_row *row = &own->working[i];
        if (row->variant != variant)
            continue;
        const struct quantity *q = row->quantity;
        rows[count++] = (struct working){
            row->what, working_formula(a, q), working_numbers(a, q),
            figure_of(a, q, FIGURE_RANGE), working_source(a, q)};
    }
    *list = rows;
    return count;
}

/* A table's or standard's figure, a decision, an assumption: said as such. */
static const char *root_kind(const struct quantity *q) {
    switch (q->root) {
    case ROOT_LITERAL:
        return "";
    case ROOT_ASSUMPTION:
        return "assumed";
    case ROOT_DECISION:
        return "chosen";
    case ROOT_TABLE:
        return "table";
    }
    return "";
}

static void write_line(FILE *out, int depth, const char *label,
                       const char *text) {
    if (text[0] == '\0')
        return;
    fprintf(out, "%*s%s", depth * 2 + 2, "", label);
    figure_write(out, text);
    fputc('\n', out);
}

static void write_root(struct arena *a, const struct quantity *q, int depth,
                       FILE *out) {
    write_line(out, depth, "", root_kind(q));
    if (q->note.len > 0)
        write_line(out, depth, "source: ", text_cstr(a, q->note));
    else if (q->root == ROOT_LITERAL && q->at.src != NULL)
        write_line(out, depth, "source: ", "none stated");
    if (q->at.src != NULL) {
        struct position p = place_position(q->at.src, q->at.start);
        fprintf(out, "%*sat %s:%zu:%zu\n", depth * 2 + 2, "", q->at.src->path,
                p.line, p.column);
    }
}

enum { WHY_DEPTH = 40 };

/* Each value once: what was told above is only named. */
struct told {
    const struct quantity **list;
    size_t count, room;
};

static bool was_told(struct arena *a, struct told *t,
                     const struct quantity *q) {
    for (size_t i = 0; i < t->count; i++)
        if (t->list[i] == q)
            return true;
    t->list = list_grown(a, t->list, t->count, &t->room, sizeof(*t->list));
    t->list[t->count++] = q;
    return false;
}

static void write_quantity(struct arena *a, const struct quantity *q,
                           const char *role, int depth, struct told *told,
                           FILE *out);

/* What stands below a value: formula, figures, source, and what went in. */
static void write_below(struct arena *a, const struct quantity *q, int depth,
                        struct told *told, FILE *out) {
    if (q->op == QUANTITY_ROOT) {
        write_root(a, q, depth, out);
        return;
    }
    if (q->op == QUANTITY_CALL)
        write_line(out, depth, "", q->calculation->name);
    write_line(out, depth, "formula: ", working_formula(a, q));
    write_line(out, depth, "with: ", working_numbers(a, q));
    write_line(out, depth, "source: ", working_source(a, q));
    for (size_t i = 0; i < q->arg_count; i++) {
        const char *symbol = NULL;
        if (q->op == QUANTITY_CALL)
            symbol = arena_printf(a, "%s, %s", q->calculation->input[i].name,
                                  q->calculation->input[i].meaning);
        write_quantity(a, q->arg[i], symbol, depth + 1, told, out);
    }
}

static void write_quantity(struct arena *a, const struct quantity *q,
                           const char *role, int depth, struct told *told,
                           FILE *out) {
    fprintf(out, "%*s", depth * 2, "");
    if (role != NULL)
        fprintf(out, "%s: ", role);
    if (q->name.len > 0)
        fprintf(out, "%.*s = ", (int)q->name.len, q->name.start);
    figure_write(out, figure_of(a, q, FIGURE_RANGE));
    bool known = was_told(a, told, q);
    fputs(known && q->op != QUANTITY_ROOT ? "  (above)\n" : "\n", out);
    if (!known && depth <= WHY_DEPTH)
        write_below(a, q, depth, told, out);
}

/* Both sides where they are nearest to each other. */
static void write_sides(const struct values *v, struct arena *a,
                        const struct requirement *r, FILE *out) {
    struct quantity_maker m = requirement_maker(v);
    struct requirement_worst w =
        requirement_worst(a, requirement_room(&m, r), r);
    const char *left = figure_of(a, r->left, FIGURE_HIGH);
    const char *right = figure_of(a, r->right, FIGURE_AT_MOST);
    if (w.together) {
        const struct unit *u = figure_unit(r->left);
        int decimals = figure_decimals(r->left, u);
        left =
            figure_text(a, w.value, u, r->left->dim, decimals, ROUND_HALF_EVEN);
        right = figure_text(a, w.limit, u, r->right->dim, decimals,
                            ROUND_HALF_EVEN);
    }
    figure_write(out, left);
    fputs(" \xE2\x89\xA4 ", out);
    figure_write(out, right);
}

/* Of a circuit, what is asked of the part that the value is of. */
static bool is_asked_of(const struct requirement *r, struct text name) {
    struct text part;
    if (r->part == NULL)
        return true;
    while (text_next_part(&name, '.', &part))
        if (text_is(part, r->part))
            return true;
    return false;
}

static void write_requirements(const struct values *v, struct arena *a,
                               const struct named *n, size_t variant,
                               FILE *out) {
    for (size_t i = 0; i < v->requirement_count; i++) {
        const struct requirement *r = &v->requirement[i];
        if (r->block != n->block || r->variant != variant || r->left == NULL ||
            !is_asked_of(r, n->name) || r->relation != RELATION_AT_MOST ||
            r->sizes != NULL)
            continue;
        fprintf(out, "  check: %s ", r->what);
        write_sides(v, a, r, out);
        fputc('\n', out);
    }
}

const char *working_rejected(const struct values *v, const struct block *b,
                             size_t variant) {
    const struct wire_outcome *o =
        b == NULL ? NULL : v->of_block[b->index].outcome[variant];
    return o == NULL ? "" : o->rejected;
}

void working_explain(const struct values *v, struct arena *a,
                     const struct named *n, size_t variant, FILE *out) {
    const struct value *value = &n->by_variant[variant];
    const char *printed = values_print(v, a, n, variant, PRINT_RANGE);
    figure_write(out, printed == NULL ? "no value" : printed);
    fputc('\n', out);
    if (value->type == VALUE_QUANTITY) {
        struct told told = {0};
        was_told(a, &told, value->quantity);
        write_below(a, value->quantity, 0, &told, out);
    } else if (value->decision) {
        fputs("  chosen for the worst end of every range, then kept\n", out);
        const char *rejected = working_rejected(v, n->block, variant);
        for (const char *s = rejected; *s != '\0';) {
            size_t len = strcspn(s, "\n");
            fputs("  ", out);
            figure_write(out, arena_copy(a, s, len));
            fputc('\n', out);
            s += len + (s[len] == '\n');
        }
    }
    if (n->computed && n->block != NULL)
        write_requirements(v, a, n, variant, out);
}
