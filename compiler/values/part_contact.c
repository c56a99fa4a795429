/* part_contact.c - what makes a contact in a circuit: fuses, switches, contacts
 * of relays, connectors, splices, joints. */
#include "base/arena.h"
#include "calc/contact.h"
#include "calc/fuse.h"
#include "values/part_reader.h"
#include "values/range.h"

#include <math.h>
#include <string.h>

static bool starts_digit(struct text t) {
    return t.len > 0 && t.start[0] >= '0' && t.start[0] <= '9';
}

static bool tells_age(struct text word) {
    return text_is(word, "aged") || text_is(word, "new");
}

/* Contacts of a circuit as found have years behind them, those of another are
 * new and clean; `aged` or `new` among an element's words says otherwise. */
static bool is_aged(const struct part_reader *r) {
    const struct circuit_element *e = r->part->element;
    for (size_t i = 0; i < e->word_count; i++)
        if (tells_age(e->word[i]))
            return text_is(e->word[i], "aged");
    return circuit_part_is_found(r->v, r->b, r->variant);
}

/* The row of the table that a word begins with; NULL: none. */
static const struct contact *contact_of(struct text word) {
    for (size_t i = 0; contact_at(i) != NULL; i++)
        if (text_starts(word, contact_at(i)->name))
            return contact_at(i);
    return NULL;
}

const struct contact *circuit_part_contact(const struct circuit_element *e) {
    for (size_t w = 0; w < e->word_count; w++)
        if (contact_of(e->word[w]) != NULL)
            return contact_of(e->word[w]);
    const char *usual = "ground joint";
    if (e->part == CIRCUIT_SWITCH)
        usual = "switch";
    else if (e->part == CIRCUIT_CONTACT)
        usual = "relay contact";
    else if (e->part == CIRCUIT_CONNECTOR)
        usual = "connector";
    else if (e->part == CIRCUIT_SPLICE)
        usual = "splice";
    return contact_find(usual, strlen(usual));
}

static bool assume_contact(const struct part_reader *r,
                           const struct contact *c) {
    bool aged = is_aged(r);
    return part_reader_assume(
        r, aged ? &c->aged : &c->sound,
        aged ? arena_printf(r->v->c->arena, "%s, aged", c->name) : c->name);
}

/* What the words of one element said so far. */
struct said {
    struct quantity *ohm, *ampere, *breaks, *cranking;
    const struct fuse_style *style;
    bool age;
};

static bool is_twice(const struct part_reader *r, const char *what) {
    part_reader_fail(r, arena_printf(r->v->c->arena, "says %s twice", what));
    return true;
}

/* `20A`, `5mohm`; not `87a`. */
static bool is_joined(struct text word) {
    size_t at = 0;
    while (at < word.len && (starts_digit(text_part(word, at, word.len)) ||
                             word.start[at] == '.'))
        at++;
    const struct unit *u = unit_find(word.start + at, word.len - at);
    return u != NULL && (dim_same(u->dim, unit_find("A", 1)->dim) ||
                         dim_same(u->dim, unit_find("ohm", 3)->dim));
}

bool part_reader_is_figure(struct values *v, const struct scope *scope,
                           struct text word) {
    struct text rest = word, first;
    if (starts_digit(word))
        return memchr(word.start, ' ', word.len) != NULL || is_joined(word);
    return text_next_part(&rest, ' ', &first) &&
           names_find(v, scope, first) != NULL;
}

struct text part_reader_behind(struct text word) {
    struct text rest = word, part;
    if (!text_next_part(&rest, ' ', &part))
        return word;
    bool bare = starts_digit(part) && !is_joined(part);
    return bare && !text_next_part(&rest, ' ', &part) ? rest : text_trim(rest);
}

/* A resistance, or the rating; false after a message. */
static bool keep_figure(const struct part_reader *r, struct quantity *q,
                        bool ohm, struct said *said) {
    struct quantity **own = ohm ? &said->ohm : &said->ampere;
    if (*own != NULL)
        return !is_twice(r, ohm ? "its resistance" : "its rating");
    *own = q;
    return true;
}

/* Behind a rating may stand what it is for: `15 A lamp`, `900 A cranking`. */
static bool read_contact_figure(const struct part_reader *r, struct text word,
                                struct said *said) {
    struct text rest;
    struct quantity *q = part_reader_figure(r, word, &rest);
    if (q == NULL)
        return false;
    bool ohm = part_reader_is(q, "ohm");
    bool rating = part_reader_is(q, "A") && range_ends(q).low > 0;
    if (!ohm && !rating && !starts_digit(word) && !part_reader_is(q, "A"))
        return true; /* a word that is the name of something else */
    if (!ohm && !rating)
        return part_reader_fail(r, "has a figure that is neither a resistance "
                                   "nor a rating above 0: 0.003 ohm, 20 A");
    if (rating && text_is(rest, "cranking")) {
        if (said->cranking != NULL)
            return !is_twice(r, "its rating for cranking");
        said->cranking = q;
        return true;
    }
    if (!keep_figure(r, q, ohm, said))
        return false;
    return (rating && contact_load_find(rest.start, rest.len) != NULL) ||
           part_reader_ends(r, rest);
}

static size_t figures_of(const struct said *said) {
    return (size_t)(said->ohm != NULL) + (said->ampere != NULL) +
           (said->cranking != NULL);
}

/* What the part is, in the author's own words, stands before its figures; false
 * after a message. */
static bool may_stand(const struct part_reader *r, struct text word,
                      const struct said *said) {
    if (figures_of(said) == 0 || tells_age(word) || text_is(word, "measured") ||
        contact_of(word) != NULL)
        return true;
    return part_reader_fail(
        r, arena_printf(r->v->c->arena,
                        "says '%.*s' behind its figures; what it is stands "
                        "before them, behind them 'measured', 'aged' or 'new'",
                        (int)word.len, word.start));
}

/* A measured resistance wins over the table. */
bool part_reader_contact(const struct part_reader *r) {
    const struct circuit_element *e = r->part->element;
    struct said said = {.ohm = NULL};
    for (size_t i = 0; i < e->word_count; i++) {
        size_t figures = figures_of(&said);
        if (e->word[i].len > 1 && e->word[i].start[0] == '-')
            return part_reader_fail(r, "has a figure below 0");
        if (part_reader_is_figure(r->v, r->b->scope, e->word[i]) &&
            !read_contact_figure(r, e->word[i], &said))
            return false;
        if (figures_of(&said) == figures && !may_stand(r, e->word[i], &said))
            return false;
    }
    return said.ohm != NULL ? part_reader_resistance(r, said.ohm)
                            : assume_contact(r, circuit_part_contact(e));
}

static bool read_style(const struct part_reader *r,
                       const struct fuse_style *style, struct said *said) {
    if (said->style != NULL)
        return !is_twice(r, "its style");
    said->style = style;
    return true;
}

static bool read_breaking(const struct part_reader *r, struct text word,
                          struct said *said) {
    if (said->breaks != NULL)
        return !is_twice(r, "what it can break");
    said->breaks = part_reader_whole(r, word);
    return said->breaks != NULL &&
           ((part_reader_is(said->breaks, "A") &&
             range_ends(said->breaks).low > 0) ||
            part_reader_fail(r, "says that it breaks "
                                "what is no current "
                                "above 0: breaks 2 kA"));
}

/* Behind a rating may stand the style: `15 A blade`. */
static bool read_fuse_figure(const struct part_reader *r, struct text word,
                             struct said *said) {
    struct text rest;
    struct quantity *q = part_reader_figure(r, word, &rest);
    if (q == NULL)
        return false;
    bool ohm = part_reader_is(q, "ohm");
    if (!ohm && !part_reader_is(q, "A"))
        return part_reader_fail(
            r, "has a figure that is neither a rating nor a resistance: 15 A");
    if (!keep_figure(r, q, ohm, said))
        return false;
    const struct fuse_style *style = fuse_style_find(rest.start, rest.len);
    return ohm || style == NULL ? part_reader_ends(r, rest)
                                : read_style(r, style, said);
}

static bool is_no_style(const struct part_reader *r, struct text word) {
    struct buf styles = buf_in(r->v->c->arena);
    const struct fuse_style *s;
    for (size_t i = 0; (s = fuse_style_at(i)) != NULL; i++)
        buf_printf(&styles, "%s%s", i == 0 ? "" : ", ", s->name);
    return part_reader_fail(
        r, arena_printf(r->v->c->arena,
                        "says '%.*s'; write a rating, 'breaks 2 kA', its "
                        "resistance as measured, '0.3 mohm, measured', or a "
                        "style: %s",
                        (int)word.len, word.start, buf_cstr(&styles)));
}

static bool read_fuse_word(const struct part_reader *r, struct text word,
                           struct said *said) {
    static const char breaks[] = "breaks ";
    if (starts_digit(word))
        return read_fuse_figure(r, word, said);
    if (text_starts(word, breaks))
        return read_breaking(
            r, text_trim(text_part(word, sizeof breaks - 1, word.len)), said);
    const struct fuse_style *style = fuse_style_find(word.start, word.len);
    if (style != NULL)
        return read_style(r, style, said);
    if (text_is(word, "measured")) /* its resistance, which stands before it */
        return said->ohm != NULL || is_no_style(r, word);
    if (!tells_age(word))
        return is_no_style(r, word);
    if (said->age)
        return !is_twice(r, "its age");
    return said->age = true;
}

static const struct quantity *rating_of(const struct part_reader *r,
                                        const struct block *fuse) {
    const struct value *value =
        evaluate_slot(r->v, names_field(r->v, fuse, "rating"), r->variant);
    if (value->type == VALUE_ABSENT)
        part_reader_fail(r, "says no rating, and its fuse block gives none");
    return value->type == VALUE_QUANTITY ? value->quantity : NULL;
}

static bool same(const struct quantity *a, const struct quantity *b) {
    struct ends p = range_ends(a), q = range_ends(b);
    return fabs(p.low - q.low) <= 1e-6 * fabs(q.low) &&
           fabs(p.high - q.high) <= 1e-6 * fabs(q.high);
}

/* What the line repeats of the block of its name must be as it is there: the
 * block is what counts. */
static bool agrees(const struct part_reader *r, const struct block *fuse,
                   const struct quantity *rating, const struct said *said) {
    const struct value *breaks =
        block_setting(r->v, fuse, "interrupt", r->variant);
    struct text style = block_text(r->v, fuse, "style", r->variant);
    const char *what = NULL;
    if (said->ampere != NULL && !same(said->ampere, rating))
        what = "rating";
    else if (said->breaks != NULL && (breaks->type != VALUE_QUANTITY ||
                                      !same(said->breaks, breaks->quantity)))
        what = "interrupt";
    else if (said->style != NULL &&
             said->style != fuse_style_find(style.start, style.len))
        what = "style";
    return what == NULL ||
           part_reader_fail(
               r, arena_printf(r->v->c->arena,
                               "and the fuse block of its name differ in %s; "
                               "leave it to the block, or mend one of them",
                               what));
}

/* The fuse block asks the same of its rating. False after a message. */
static bool is_made(const struct part_reader *r, const struct fuse_style *style,
                    const struct quantity *rating) {
    double amp = rating->nominal;
    if (style == NULL || fuse_rating_find(style, amp) != NULL)
        return true;
    const struct fuse_rating *next = fuse_rating_up(style, amp);
    return part_reader_fail(
        r, next == NULL
               ? arena_printf(r->v->c->arena,
                              "says %g A, and no %s fuse is made so large", amp,
                              style->name)
               : arena_printf(r->v->c->arena,
                              "says %g A, and a %s fuse is not made for that; "
                              "the next is %g A",
                              amp, style->name, next->amp));
}

bool part_reader_fuse(const struct part_reader *r) {
    const struct circuit_element *e = r->part->element;
    const struct block *block =
        values_block(r->v, r->b->scope, e->name, "fuse");
    struct said said = {.ohm = NULL};
    for (size_t i = 0; i < e->word_count; i++)
        if (!read_fuse_word(r, e->word[i], &said))
            return false;
    if (said.ampere == NULL && block == NULL)
        return part_reader_fail(
            r, "says no rating, and no fuse block has its name");
    const struct quantity *rating =
        block != NULL ? rating_of(r, block) : said.ampere;
    if (block != NULL && (rating == NULL || !agrees(r, block, rating, &said)))
        return false;
    if (range_ends(rating).low <= 0)
        return part_reader_fail(r, "has a rating that is not above 0");
    if (block == NULL && !is_made(r, said.style, rating))
        return false;
    r->part->rating = rating;
    if (said.ohm != NULL)
        return part_reader_resistance(r, said.ohm);
    const struct fuse_style *style = said.style;
    if (block != NULL) {
        struct text word = block_text(r->v, block, "style", r->variant);
        style = fuse_style_find(word.start, word.len);
    }
    struct contact c = fuse_is_bolted(style, rating->nominal)
                           ? contact_fuse_bolted(rating->nominal)
                           : contact_fuse_held(rating->nominal);
    return assume_contact(r, &c);
}
