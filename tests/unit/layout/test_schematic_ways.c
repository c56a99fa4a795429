/* test_schematic_ways.c - diagrams of random circuits read back from the page
 * as a mechanic reads them: each element lies between the bars of its own two
 * points, in its order, whichever way its path was written. */
#include "diagram.h"
#include "unit/dice.h"
#include "unit/how_many.h"

enum { BRANCHES = 24, ELEMENTS = 4, POINTS = 6, PLUS = POINTS, MINUS };

static struct dice dice;

/* Between two points, in the order in which the current meets them. */
struct way {
    size_t from, to;
    char name[ELEMENTS][8];
    size_t count;
    bool as_written; /* a diode: turned it would be another circuit */
};

struct loom {
    struct way way[BRANCHES];
    size_t count, elements;
};

static const char *point_name(size_t point, const char *minus) {
    static const char *const names[POINTS] = {"p0", "p1", "p2",
                                              "p3", "p4", "p5"};
    return point == PLUS ? "battery +" : point == MINUS ? minus : names[point];
}

/* Names of wires, switches, connectors, splices; of diodes and loads. */
static const char letters[] = "WSXPDE";

static void add_way(struct loom *m, size_t from, size_t to, size_t count) {
    struct way *r = &m->way[m->count++];
    *r = (struct way){.from = from, .to = to, .count = count};
    for (size_t i = 0; i < count; i++) {
        bool load = to == MINUS && i == 0;
        char letter = load ? 'E' : letters[roll_one(&dice, 4)];
        snprintf(r->name[i], sizeof r->name[i], "%c%zu", letter, m->elements++);
    }
}

/* Each point is fed from plus or from a point before it and leads on to minus
 * or to a point behind it; then some ways beside those, and diodes back. */
static struct loom random_loom(void) {
    struct loom m = {0};
    size_t points = 1 + roll_one(&dice, POINTS);
    for (size_t i = 0; i < points; i++) {
        size_t before = roll_one(&dice, i + 1);
        size_t behind = i + 1 + roll_one(&dice, points - i);
        add_way(&m, before == i ? PLUS : before, i,
                1 + roll_one(&dice, ELEMENTS - 1));
        add_way(&m, i, behind == points ? MINUS : behind,
                1 + roll_one(&dice, ELEMENTS - 1));
    }
    for (size_t i = roll_one(&dice, 4); i > 0; i--) {
        size_t from = roll_one(&dice, points + 1);
        size_t to = from == points ? points : from + 1;
        to += roll_one(&dice, points + 1 - to);
        add_way(&m, from == points ? PLUS : from, to == points ? MINUS : to,
                1 + roll_one(&dice, ELEMENTS));
    }
    for (size_t i = roll_one(&dice, 3); i > 0; i--) {
        add_way(&m, MINUS, roll_one(&dice, points), 1);
        m.way[m.count - 1].as_written = true;
        m.way[m.count - 1].name[0][0] = 'D';
    }
    return m;
}

static void write_element(struct buf *b, const char *name) {
    static const struct {
        const char *part, *behind;
    } kinds[] = {{"wire", " 12 AWG, 1.5 m, red"},
                 {"switch", ""},
                 {"connector", " bullet"},
                 {"splice", ""},
                 {"diode", ""},
                 {"load", " lamp, 2 A at 13 V"}};
    size_t k = (size_t)(strchr(letters, name[0]) - letters);
    buf_printf(b, "  %s %s%s\n", kinds[k].part, name, kinds[k].behind);
}

/* In any order and either way, one that goes on where another ends now and then
 * in one path with it. */
static const char *write_loom(struct arena *a, struct loom *m) {
    struct buf b = buf_in(a);
    size_t end = SIZE_MAX;
    buf_puts(&b, "supply: battery charging\n");
    for (size_t i = 0; i < m->count; i++) {
        size_t k = i + roll_one(&dice, m->count - i);
        struct way r = m->way[k];
        m->way[k] = m->way[i];
        m->way[i] = r;
        bool back = !r.as_written && roll_one(&dice, 2) == 0;
        size_t from = back ? r.to : r.from;
        if (from != end || roll_one(&dice, 2) == 0)
            buf_printf(&b, "from %s\n", point_name(from, "battery -"));
        for (size_t e = 0; e < r.count; e++)
            write_element(&b, r.name[back ? r.count - 1 - e : e]);
        end = back ? r.from : r.to;
        buf_printf(&b, "to %s\n", point_name(end, "battery -"));
    }
    return buf_cstr(&b);
}

/* What one sheet of the diagram shows. */
struct sheet {
    const struct page *page;
    size_t tag;
    const char *source;
};

struct bar {
    double y, name_x, left, right; /* of its line */
};

static const struct op *name_on(const struct sheet *s, const char *name) {
    for (size_t i = 0; i < s->page->op_count; i++) {
        const struct op *op = &s->page->ops[i];
        if (op->kind == OP_TEXT && op->face == FACE_BOLD && op->tag == s->tag &&
            text_is(op->text, name))
            return op;
    }
    return NULL;
}

static bool near(double a, double b) {
    return fabs(a - b) < 0.05;
}

/* From its name, which stands right of its first column and above it; one of a
 * single column is a ring without a line. */
static bool bar_on(const struct sheet *s, size_t point, struct bar *bar) {
    const struct op *name =
        name_on(s, point_name(point, "battery \xE2\x88\x92"));
    if (name == NULL)
        return false;
    double x = name->x - 6;
    *bar = (struct bar){name->y + 4, x, x, x};
    for (size_t i = 0; i < s->page->op_count; i++) {
        const struct op *op = &s->page->ops[i];
        if (op->kind == OP_LINE && op->tag == s->tag &&
            near(op->line_width, 1.4) && near(op->y, bar->y) &&
            near(op->y2, bar->y) && op->x < x + 0.05 && op->x2 > x - 0.05) {
            bar->left = op->x;
            bar->right = op->x2;
        }
    }
    return true;
}

static bool dot_at(const struct sheet *s, double x, double y) {
    for (size_t i = 0; i < s->page->op_count; i++) {
        const struct op *op = &s->page->ops[i];
        if (op->kind != OP_PATH || !op->fill || op->colour.red > 0 ||
            op->tag != s->tag)
            continue;
        struct geometry_box b = geometry_of(op);
        if (near(b.right - b.left, 5.2) && near((b.left + b.right) / 2, x) &&
            near((b.top + b.bottom) / 2, y))
            return true;
    }
    return false;
}

/* A line that meets the end of a bar, or has a dot on it, is joined to it; one
 * that runs across it is not. */
static bool joined(const struct sheet *s, const struct bar *b, double x) {
    return near(x, b->left) || near(x, b->right) ||
           (x > b->left && x < b->right && dot_at(s, x, b->y));
}

/* The bars above and below a place that a line down there ends at; false: the
 * sheet does not show both. */
static bool ends_of(const struct sheet *s, double x, double y, size_t end[2],
                    double at[2]) {
    at[0] = -INFINITY;
    at[1] = INFINITY;
    for (size_t i = 0; i <= MINUS; i++) {
        struct bar b;
        if (!bar_on(s, i, &b) || !joined(s, &b, x))
            continue;
        if (b.y < y && b.y > at[0]) {
            at[0] = b.y;
            end[0] = i;
        }
        if (b.y > y && b.y < at[1]) {
            at[1] = b.y;
            end[1] = i;
        }
    }
    return isfinite(at[0]) && isfinite(at[1]);
}

static const double beside = 16; /* the words of an element, from its line */

/* How many elements of all ways hang in a column between two heights. */
static size_t hanging(const struct sheet *s, const struct loom *m, double x,
                      const double at[2]) {
    size_t count = 0;
    for (size_t k = 0; k < m->count; k++)
        for (size_t i = 0; i < m->way[k].count; i++) {
            const struct op *op = name_on(s, m->way[k].name[i]);
            count += op != NULL && near(op->x - beside, x) && op->y > at[0] &&
                     op->y < at[1];
        }
    return count;
}

/* False: it goes on on another sheet. */
static bool check_way(const struct sheet *s, const struct loom *m,
                      const struct way *r) {
    const struct op *first = name_on(s, r->name[0]);
    size_t end[2] = {0, 0};
    double at[2];
    if (first == NULL || !ends_of(s, first->x - beside, first->y, end, at))
        return false;
    bool down = end[0] == r->from && end[1] == r->to;
    if (!down && !(end[0] == r->to && end[1] == r->from))
        fail_msg("%s is drawn between %s and %s:\n%s", r->name[0],
                 point_name(end[0], "battery -"),
                 point_name(end[1], "battery -"), s->source);
    double y = down ? at[0] : at[1];
    for (size_t i = 0; i < r->count; i++) {
        const struct op *op = name_on(s, r->name[i]);
        if (op == NULL || !near(op->x, first->x) ||
            !(down ? op->y > y && op->y < at[1] : op->y < y && op->y > at[0]))
            fail_msg("%s is not where it belongs:\n%s", r->name[i], s->source);
        y = op->y;
    }
    if (hanging(s, m, first->x - beside, at) != r->count)
        fail_msg("others hang beside %s in its line:\n%s", r->name[0],
                 s->source);
    return true;
}

/* Every point lies between the posts, as the current runs. */
static void check_posts(const struct sheet *s) {
    struct bar plus, minus, b;
    assert_true(bar_on(s, PLUS, &plus) && bar_on(s, MINUS, &minus));
    for (size_t i = 0; i < POINTS; i++)
        if (bar_on(s, i, &b) && !(b.y > plus.y && b.y < minus.y))
            fail_msg("p%zu does not lie between the posts:\n%s", i, s->source);
}

/* NULL: it was laid out and set otherwise in the end. */
static const struct page *sheet_page(const struct pages *p, size_t tag) {
    for (size_t i = 0; i < p->count; i++)
        for (size_t k = 0; k < p->page[i].op_count; k++)
            if (p->page[i].ops[k].tag == tag)
                return &p->page[i];
    return NULL;
}

static size_t check_loom(struct workshop *w, const struct pages *p,
                         const struct loom *m, const char *source) {
    bool whole = strstr(workshop_all(w, p), ", part 1 of ") == NULL;
    size_t seen = 0;
    for (size_t t = 1; t <= p->tag_count; t++) {
        if (!text_starts(p->tag[t - 1].words, "Diagram of the circuit"))
            continue;
        struct sheet s = {sheet_page(p, t), t, source};
        if (s.page != NULL && whole)
            check_posts(&s);
        for (size_t k = 0; s.page != NULL && k < m->count; k++)
            seen += check_way(&s, m, &m->way[k]);
    }
    if (whole && seen != m->count)
        fail_msg("%zu of %zu ways are drawn:\n%s", seen, m->count, source);
    return seen;
}

static void test_between_its_points(void **state) {
    (void)state;
    size_t diagrams = how_many("BAYLEAF_DIAGRAMS", 500, 60);
    size_t seen = 0, all = 0;
    for (size_t n = 0; n < diagrams; n++) {
        void *own = NULL;
        assert_int_equal(workshop_open(&own), 0);
        struct workshop *w = own;
        dice.state = 13 * n + 7;
        struct loom m = random_loom();
        const char *source = write_loom(w->compile.arena, &m);
        const struct pages *p = diagram_pages(w, "", source);
        seen += check_loom(w, p, &m, source);
        for (size_t i = 0; i < p->count; i++)
            diagram_check_words(p, &p->page[i], source);
        all += m.count;
        workshop_close(&own);
    }
    assert_true(seen > all / 2); /* the others go on on another sheet */
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_between_its_points),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
