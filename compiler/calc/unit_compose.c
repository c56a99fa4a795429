/* unit_compose.c - products and quotients of units that the table lacks. */
#include "calc/unit.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* One text of the result, growing; false once it is full. */
struct joined {
    char *text;
    size_t len;
    bool fits;
};

static void add(struct joined *j, const char *s) {
    size_t n = strlen(s);
    if (!j->fits || j->len + n >= UNIT_TEXT) {
        j->fits = false;
        return;
    }
    memcpy(j->text + j->len, s, n + 1);
    j->len += n;
}

/* Bytes of the sign that joins factors at text: '.', '*', middle dot; 0. */
static size_t joiner(const char *text, size_t len) {
    if (len > 0 && (*text == '.' || *text == '*'))
        return 1;
    if (len > 1 && memcmp(text, "\xc2\xb7", 2) == 0)
        return 2;
    if (len > 2 && memcmp(text, "\xe2\x8b\x85", 3) == 0)
        return 3;
    return 0;
}

/* A unit and a whole power: "mm2", "s2", "m³". The table's own powers win. */
static const struct unit *factor_of(const char *text, size_t len, int *power) {
    *power = 1;
    const struct unit *u = unit_find(text, len);
    if (u)
        return unit_difference(u);
    size_t cut = 0;
    if (len > 1 && text[len - 1] >= '2' && text[len - 1] <= '4') {
        *power = text[len - 1] - '0';
        cut = 1;
    } else if (len > 2 && memcmp(text + len - 2, "\xc2\xb2", 2) == 0) {
        *power = 2;
        cut = 2;
    } else if (len > 2 && memcmp(text + len - 2, "\xc2\xb3", 2) == 0) {
        *power = 3;
        cut = 2;
    }
    u = cut > 0 ? unit_find(text, len - cut) : NULL;
    return u ? unit_difference(u) : NULL;
}

struct compound {
    struct unit unit;
    struct joined name, label;
    int divisors;
    bool below;
};

static void include(struct compound *c, const struct unit *u, int power) {
    static const char *const raised[] = {"", "", "\xc2\xb2", "\xc2\xb3",
                                         "\xe2\x81\xb4"};
    static const char *const digit[] = {"", "", "2", "3", "4"};
    for (int i = 0; i < power; i++) {
        c->unit.dim = c->below ? dim_quotient(c->unit.dim, u->dim)
                               : dim_product(c->unit.dim, u->dim);
        c->unit.factor =
            c->below ? c->unit.factor / u->factor : c->unit.factor * u->factor;
    }
    if (c->unit.system == UNIT_BOTH)
        c->unit.system = u->system;
    add(&c->name, u->name);
    add(&c->name, digit[power]);
    add(&c->label, u->label);
    add(&c->label, raised[power]);
    c->divisors += c->below;
}

bool unit_compose(const char *spelling, size_t len, struct unit *out,
                  char name[UNIT_TEXT], char label[UNIT_TEXT]) {
    struct compound c = {
        .unit = {.factor = 1, .system = UNIT_BOTH},
        .name = {name, 0, true},
        .label = {label, 0, true},
    };
    /* Two divisors or more stand in parentheses on the page. */
    size_t slash = 0;
    while (slash < len && spelling[slash] != '/')
        slash++;
    bool many = false;
    for (size_t i = slash + 1; i < len; i++)
        many = many || joiner(spelling + i, len - i) > 0;

    for (size_t at = 0; at < len;) {
        size_t end = at;
        while (end < len && spelling[end] != '/' &&
               joiner(spelling + end, len - end) == 0)
            end++;
        int power;
        const struct unit *u = factor_of(spelling + at, end - at, &power);
        if (!u)
            return false;
        include(&c, u, power);
        if (end == len)
            break;
        if (spelling[end] == '/') {
            if (c.below)
                return false;
            c.below = true;
            add(&c.name, "/");
            add(&c.label, many ? "/(" : "/");
            at = end + 1;
        } else {
            add(&c.name, ".");
            add(&c.label, "\xc2\xb7");
            at = end + joiner(spelling + end, len - end);
        }
        if (at == len)
            return false;
    }
    if (many)
        add(&c.label, ")");
    if (len == 0 || !c.name.fits || !c.label.fits)
        return false;
    *out = c.unit;
    out->name = name;
    out->label = label;
    return true;
}
