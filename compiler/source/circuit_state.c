/* circuit_state.c - supplies and states of a circuit, and what its names must
 * keep to. */
#include "source/circuit_state.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/list.h"
#include "source/circuit_word.h"
#include "source/suggest.h"
#include "stages.h"

#include <stdlib.h>
#include <string.h>

static struct text behind(struct text line, const char *key) {
    return text_trim(text_part(line, strlen(key), line.len));
}

static struct text next_word(struct text *rest) {
    size_t end = 0;
    while (end < rest->len && rest->start[end] != ' ' &&
           rest->start[end] != '\t')
        end++;
    struct text word = text_part(*rest, 0, end);
    *rest = text_trim(text_part(*rest, end, rest->len));
    return word;
}

void circuit_state_supplies(struct compile *c, const struct scope *scope,
                            struct block *b, const struct text *line,
                            size_t count) {
    struct circuit *k = b->circuit;
    size_t room = 0;
    for (size_t i = 0; i < count; i++) {
        if (!text_starts(line[i], "supply:"))
            continue;
        struct text rest = behind(line[i], "supply:"), part;
        while (text_next_part(&rest, ',', &part)) {
            struct span at = place_of(scope->src, part);
            struct text name = next_word(&part);
            k->supply = list_grown(c->arena, k->supply, k->supply_count, &room,
                                   sizeof *k->supply);
            k->supply[k->supply_count++] =
                (struct circuit_supply){name, part, at};
            if (!text_is(part, "off"))
                continue;
            diag_add(c->diags, DIAG_CIRCUIT_SUPPLY, at,
                     "'%.*s' is off in a state: write resting or charging "
                     "here, and below it state: NAME, %.*s off",
                     (int)name.len, name.start, (int)name.len, name.start);
            k->bad = true;
        }
    }
    if (k->supply_count > 0)
        return;
    diag_add(c->diags, DIAG_CIRCUIT_SUPPLY, b->at,
             "the circuit names none; write: supply: battery charging");
    k->bad = true;
}

/* Whether two elements can stand in one variant, as far as the tags tell;
 * `others` is settled where the variants are known. */
static bool overlap(const struct tags *a, const struct tags *b) {
    if (a->count == 0 || b->count == 0)
        return true;
    for (size_t i = 0; i < a->count; i++)
        for (size_t j = 0; j < b->count; j++)
            if (text_equal(a->tag[i], b->tag[j]))
                return true;
    return false;
}

static const struct circuit_element *by_id(const void *l) {
    return *(const struct circuit_element *const *)l;
}

static int compare_ids(const void *left, const void *right) {
    const struct circuit_element *a = by_id(left), *b = by_id(right);
    int order = text_compare(a->id, b->id);
    return order != 0 ? order : (a > b) - (a < b);
}

/* A breaker or a switch may have poles in several paths, which open together.
 */
static bool has_poles(const struct circuit_element *e) {
    return e->part == CIRCUIT_BREAKER || e->part == CIRCUIT_SWITCH;
}

static bool is_pole_of(const struct circuit_element *e,
                       const struct circuit_element *first) {
    return has_poles(e) && e->part == first->part && e->terminal[0].len > 0 &&
           first->terminal[0].len > 0 && text_equal(e->name, first->name);
}

/* Of one name the first that is written; of another element itself. */
static const struct circuit_element *first_pole(const struct circuit *k,
                                                size_t i) {
    size_t first = 0;
    while (first < i && !is_pole_of(&k->element[i], &k->element[first]))
        first++;
    return &k->element[first];
}

/* The coil of K1 is K1.coil; the first contact K1, more of them K1.87a; the
 * first pole of CB1 is CB1, another one by its first terminal CB1.3. */
static void give_ids(struct compile *c, struct circuit *k) {
    for (size_t i = 0; i < k->element_count; i++) {
        struct circuit_element *e = &k->element[i];
        e->id = e->name;
        if (e->part == CIRCUIT_COIL)
            e->id = text_of(arena_printf(c->arena, "%.*s.coil",
                                         (int)e->name.len, e->name.start));
        if (has_poles(e) &&
            !text_equal(e->terminal[0], first_pole(k, i)->terminal[0]))
            e->id = text_of(arena_printf(
                c->arena, "%.*s.%.*s", (int)e->name.len, e->name.start,
                (int)e->terminal[0].len, e->terminal[0].start));
        if (e->part != CIRCUIT_CONTACT)
            continue;
        struct text last = e->terminal[text_is(e->terminal[1], "30") ? 0 : 1];
        if (last.len > 0 && !text_is(last, "87"))
            e->id =
                text_of(arena_printf(c->arena, "%.*s.%.*s", (int)e->name.len,
                                     e->name.start, (int)last.len, last.start));
    }
}

static bool have_terminal_of(const struct circuit_element *a,
                             const struct circuit_element *b) {
    for (size_t i = 0; i < 2; i++)
        if (text_equal(a->terminal[i], b->terminal[0]) ||
            text_equal(a->terminal[i], b->terminal[1]))
            return true;
    return false;
}

static bool say_the_same(const struct circuit_element *a,
                         const struct circuit_element *b) {
    bool same = a->word_count == b->word_count;
    for (size_t i = 0; same && i < a->word_count; i++)
        same = text_equal(a->word[i], b->word[i]);
    return same;
}

/* Two poles of one breaker or switch. */
static bool same_device(const struct circuit_element *a,
                        const struct circuit_element *b) {
    return is_pole_of(a, b) && !have_terminal_of(a, b) && say_the_same(a, b);
}

static const char *why_twice(const struct circuit_element *a,
                             const struct circuit_element *b) {
    if (!has_poles(a) || a->part != b->part)
        return "";
    return is_pole_of(a, b) && !have_terminal_of(a, b)
               ? ": its poles say the same behind their terminals; give "
                 "another one another name"
               : "; a pole of one is told by terminals of its own, 1-2 and "
                 "3-4";
}

static void element_twice(struct compile *c, struct circuit *k,
                          const struct circuit_element *first,
                          const struct circuit_element *second) {
    diag_add(c->diags, DIAG_CIRCUIT_ELEMENT_TWICE, second->at, "'%.*s'%s",
             (int)second->name.len, second->name.start,
             why_twice(first, second));
    diag_note(c->diags, first->at, "the other one is here");
    k->bad = true;
}

/* One name for two things: all elements sorted by id, then neighbours. A relay
 * shares its name with its own parts only. */
static bool same_relay(const struct circuit_element *a,
                       const struct circuit_element *b) {
    bool ra = a->part == CIRCUIT_COIL || a->part == CIRCUIT_CONTACT;
    bool rb = b->part == CIRCUIT_COIL || b->part == CIRCUIT_CONTACT;
    return ra && rb && !text_equal(a->id, b->id);
}

static int compare_names(const void *left, const void *right) {
    const struct circuit_element *a = by_id(left), *b = by_id(right);
    int order = text_compare(a->name, b->name);
    return order != 0 ? order : compare_ids(left, right);
}

void circuit_state_names(struct compile *c, const struct scope *scope,
                         struct block *b) {
    struct circuit *k = b->circuit;
    give_ids(c, k);
    const struct circuit_element **sorted =
        arena_alloc(c->arena, k->element_count + 1, sizeof(*sorted));
    for (size_t i = 0; i < k->element_count; i++)
        sorted[i] = &k->element[i];
    qsort(sorted, k->element_count, sizeof(*sorted), compare_names);
    for (size_t i = 0; i < k->element_count; i++)
        for (size_t j = i; j > 0; j--) {
            const struct circuit_element *one = sorted[j - 1], *two = sorted[i];
            if (two->name.len == 0 || !text_equal(one->name, two->name))
                break;
            bool one_line = one->choice != NULL && one->choice == two->choice;
            if (!one_line && !same_relay(one, two) && !same_device(one, two) &&
                overlap(&one->tags, &two->tags)) {
                element_twice(c, k, one < two ? one : two,
                              one < two ? two : one);
                break;
            }
        }
    for (size_t p = 0; p < k->point_count; p++)
        for (size_t i = 0; i < k->element_count; i++) {
            if (!text_equal(k->point[p].id, k->element[i].name))
                continue;
            diag_add(c->diags, DIAG_CIRCUIT_POINT_TWICE,
                     place_of(scope->src, k->point[p].name),
                     "'%.*s' is the name of an element, too",
                     (int)k->point[p].name.len, k->point[p].name.start);
            diag_note(c->diags, k->element[i].at, "the element is here");
            k->bad = true;
            break;
        }
}

bool circuit_as_found(const struct block *circuit) {
    const struct entry *e = tree_setting(circuit, "as found");
    return e != NULL && e->choice_count > 0 &&
           text_is(text_trim(e->choices[0].text), "yes");
}

const struct circuit_element *circuit_find(const struct circuit *c,
                                           struct text id) {
    for (size_t i = 0; i < c->element_count; i++)
        if (text_equal(c->element[i].id, id))
            return &c->element[i];
    return NULL;
}

static int find_element(const struct circuit *k, struct text name) {
    int found = CIRCUIT_NONE;
    for (size_t i = 0; i < k->element_count; i++) {
        bool match = text_equal(k->element[i].name, name);
        /* What a state says of a relay it says of its contacts. */
        if (match &&
            (found == CIRCUIT_NONE || k->element[found].part == CIRCUIT_COIL))
            found = (int)i;
    }
    return found;
}

static int find_supply(const struct circuit *k, struct text name) {
    for (size_t i = 0; i < k->supply_count; i++)
        if (text_equal(k->supply[i].name, name))
            return (int)i;
    return CIRCUIT_NONE;
}

static void state_fails(struct compile *c, struct circuit *k, struct span at,
                        const char *why) {
    diag_add(c->diags, DIAG_CIRCUIT_STATE, at, "%s", why);
    k->bad = true;
}

static void read_set(struct compile *c, const struct scope *scope,
                     struct circuit *k, struct circuit_state *s,
                     struct text part, size_t *room) {
    struct span at = place_of(scope->src, part);
    struct text word = part, name = next_word(&word);
    struct circuit_set set = {.element = find_element(k, name),
                              .supply = find_supply(k, name),
                              .word = word,
                              .at = at};
    const char *all = "off, or one of the voltages of its block";
    if (set.element == CIRCUIT_NONE && set.supply == CIRCUIT_NONE) {
        struct nearest n = nearest_to(name);
        for (size_t i = 0; i < k->element_count; i++)
            nearest_offer(&n, k->element[i].name);
        state_fails(c, k, at,
                    arena_printf(c->arena, "no element or supply '%.*s'%s",
                                 (int)name.len, name.start,
                                 suggest(c->arena, name,
                                         (struct text){n.best, n.best_len})));
        return;
    }
    bool good = word.len > 0;
    if (set.element != CIRCUIT_NONE)
        good = circuit_word_position(k->element[set.element].part, word, &all);
    if (!good) {
        state_fails(c, k, at,
                    arena_printf(c->arena, "'%.*s' can be: %s", (int)name.len,
                                 name.start, all));
        return;
    }
    s->set = list_grown(c->arena, s->set, s->set_count, room, sizeof *s->set);
    s->set[s->set_count++] = set;
}

static struct text dotted(struct arena *a, struct text name) {
    struct text t = text_squeezed(a, name);
    char *copy = arena_copy(a, t.start, t.len);
    for (size_t i = 0; i < t.len; i++)
        if (copy[i] == ' ')
            copy[i] = '.';
    return (struct text){copy, t.len};
}

/* "lights off S1 open": no comma behind the name. */
static bool lacks_comma(const struct circuit *k, struct text name,
                        struct text *element) {
    const char *all;
    for (size_t at = 1; at < name.len; at++) {
        struct text rest = text_part(name, at, name.len);
        if (name.start[at - 1] != ' ')
            continue;
        *element = next_word(&rest);
        int e = find_element(k, *element);
        if (e != CIRCUIT_NONE &&
            circuit_word_position(k->element[e].part, rest, &all))
            return true;
    }
    return false;
}

static void read_state(struct compile *c, const struct scope *scope,
                       struct circuit *k, struct text line, size_t *room) {
    struct text rest = behind(line, "state:"), part;
    k->state =
        list_grown(c->arena, k->state, k->state_count, room, sizeof *k->state);
    struct circuit_state *s = &k->state[k->state_count++];
    *s = (struct circuit_state){.at = place_of(scope->src, line)};
    if (!text_next_part(&rest, ',', &s->name) || s->name.len == 0) {
        state_fails(c, k, s->at, "it has no name");
        return;
    }
    struct text element;
    if (lacks_comma(k, s->name, &element))
        state_fails(c, k, place_of(scope->src, element),
                    "a comma stands before each element: state: off, S1 open");
    s->id = dotted(c->arena, s->name);
    for (size_t i = 0; i + 1 < k->state_count; i++)
        if (text_equal(k->state[i].id, s->id))
            state_fails(c, k, s->at, "two states have this name");
    for (size_t i = 0; i < k->element_count; i++)
        if (text_equal(k->element[i].id, s->id)) {
            state_fails(
                c, k, place_of(scope->src, s->name),
                arena_printf(c->arena,
                             "'%.*s' is the name of an element; give the "
                             "state another, such as 'set to %.*s'",
                             (int)s->name.len, s->name.start, (int)s->name.len,
                             s->name.start));
            diag_note(c->diags, k->element[i].at, "the element is here");
            break;
        }
    for (size_t i = 0; i < k->point_count; i++)
        if (text_equal(k->point[i].id, s->id))
            state_fails(
                c, k, place_of(scope->src, s->name),
                arena_printf(c->arena,
                             "'%.*s' is the name of a point; give the state "
                             "another",
                             (int)s->name.len, s->name.start));
    size_t set_room = 0;
    while (text_next_part(&rest, ',', &part))
        read_set(c, scope, k, s, part, &set_room);
}

/* Does a coil of this name stand in the circuit, or does a state say where the
 * contact stands? */
static bool has_relay(const struct circuit *k, struct text name) {
    for (size_t i = 0; i < k->element_count; i++)
        if (k->element[i].part == CIRCUIT_COIL &&
            text_equal(k->element[i].name, name))
            return true;
    for (size_t i = 0; i < k->state_count; i++)
        for (size_t j = 0; j < k->state[i].set_count; j++) {
            int e = k->state[i].set[j].element;
            if (e != CIRCUIT_NONE && text_equal(k->element[e].name, name))
                return true;
        }
    return false;
}

static void check_relays(struct compile *c, struct circuit *k) {
    for (size_t i = 0; i < k->element_count; i++) {
        const struct circuit_element *e = &k->element[i];
        if (e->part != CIRCUIT_CONTACT || has_relay(k, e->name))
            continue;
        diag_add(c->diags, DIAG_CIRCUIT_RELAY_ABSENT, e->at,
                 "no coil %.*s is in this circuit, and no state says where the "
                 "contact stands; write 'coil %.*s 86-85' in its path, or "
                 "'state: off, %.*s open'",
                 (int)e->name.len, e->name.start, (int)e->name.len,
                 e->name.start, (int)e->name.len, e->name.start);
        k->bad = true;
    }
}

void circuit_state_states(struct compile *c, const struct scope *scope,
                          struct block *b, const struct text *line,
                          size_t count) {
    struct circuit *k = b->circuit;
    size_t room = 0;
    for (size_t i = 0; i < count; i++)
        if (text_starts(line[i], "state:"))
            read_state(c, scope, k, line[i], &room);
    check_relays(c, k);
    if (k->state_count > 0)
        return;
    k->state = arena_alloc(c->arena, 1, sizeof *k->state);
    k->state[0].at = b->at;
    k->state_count = 1;
}
