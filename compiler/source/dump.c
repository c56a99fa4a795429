/* dump.c - a guide tree as text, for people and golden files. */
#include "source/dump.h"

#include "source/circuit_tree.h"
#include "source/kind.h"
#include "source/mark.h"
#include "source/tree.h"

/* Quoted, each run of white space as one blank: slices run over line ends. */
static void put_text(FILE *out, struct text t) {
    bool blank = false;
    fputc('"', out);
    for (size_t i = 0; i < t.len; i++) {
        char c = t.start[i];
        bool white = c == ' ' || c == '\t' || c == '\n' || c == '\r';
        if (white && blank)
            continue;
        fputc(white ? ' ' : c, out);
        blank = white;
    }
    fputc('"', out);
}

static void put_word(FILE *out, const char *word, struct text t) {
    if (t.start == NULL)
        return;
    fprintf(out, " %s ", word);
    put_text(out, t);
}

static void put_indent(FILE *out, int depth) {
    fprintf(out, "%*s", depth * 2, "");
}

static void put_place(FILE *out, struct span at) {
    struct position p = place_position(at.src, at.start);
    fprintf(out, " @%zu:%zu", p.line, p.column);
}

static void put_tags(FILE *out, const struct tags *t) {
    for (size_t i = 0; i < t->count; i++) {
        fputs(i == 0 ? " [" : ", ", out);
        fwrite(t->tag[i].start, 1, t->tag[i].len, out);
    }
    if (t->count > 0)
        fputc(']', out);
}

static void put_mark(FILE *out, const struct mark *m) {
    const char *word = mark_word(m->kind);
    fprintf(out, "{%s", word == NULL ? "value" : word);
    if (m->list.count > 0)
        put_tags(out, &m->list);
    else
        put_word(out, "is", m->text);
    put_word(out, "reason", m->reason);
    put_word(out, "in", m->unit);
    put_word(out, "at", m->supply);
    fprintf(out, "%s}", m->range ? " range" : "");
    put_place(out, m->at);
}

static const char *inline_name(enum inline_kind kind) {
    static const char *const names[] = {
        [INLINE_TEXT] = "text",         [INLINE_SPACE] = "space",
        [INLINE_BREAK] = "break",       [INLINE_CODE] = "code",
        [INLINE_EMPHASIS] = "emphasis", [INLINE_STRONG] = "strong",
        [INLINE_LINK] = "link",         [INLINE_IMAGE] = "image",
        [INLINE_MARK] = "mark"};
    return names[kind];
}

static void put_inlines(FILE *out, const struct inlines *list, int depth) {
    for (const struct inlines *i = list; i != NULL; i = i->next) {
        put_indent(out, depth);
        fputs(inline_name(i->kind), out);
        if (i->mark != NULL) {
            fputc(' ', out);
            put_mark(out, i->mark);
        } else {
            if (i->text.start != NULL) {
                fputc(' ', out);
                put_text(out, i->text);
            }
            put_word(out, "to", i->url);
            put_place(out, i->at);
        }
        fputc('\n', out);
        put_inlines(out, i->first, depth + 1);
    }
}

/* Prose is shown when it holds more than its own text. */
static void put_prose(FILE *out, const struct inlines *list, int depth) {
    bool marks = false;
    for (const struct inlines *i = list; i != NULL; i = i->next)
        marks = marks || i->kind == INLINE_MARK;
    if (marks)
        put_inlines(out, list, depth);
}

static void put_choices(FILE *out, const struct choice *list, size_t count,
                        int depth) {
    for (size_t i = 0; i < count; i++) {
        put_indent(out, depth);
        put_text(out, list[i].text);
        put_tags(out, &list[i].tags);
        fputc('\n', out);
        put_prose(out, list[i].prose, depth + 1);
        for (size_t k = 0; k < list[i].item_count; k++) {
            put_indent(out, depth + 1);
            fputs("item ", out);
            put_text(out, list[i].items[k].text);
            fputc('\n', out);
            put_prose(out, list[i].items[k].prose, depth + 2);
        }
    }
}

static void put_cells(FILE *out, const struct block *b, const struct entry *e,
                      int depth) {
    for (size_t i = 0; i < e->cell_count; i++)
        for (const struct cell *c = &e->cells[i]; c != NULL; c = c->next) {
            if (c->text.start == NULL)
                continue;
            put_indent(out, depth);
            put_text(out, b->columns[i]);
            fputs(": ", out);
            put_text(out, c->text);
            fputc('\n', out);
            if (c->choice_count > 1)
                put_choices(out, c->choices, c->choice_count, depth + 1);
            put_prose(out, c->prose, depth + 1);
        }
}

static void put_entry(FILE *out, const struct block *b, const struct entry *e,
                      int depth) {
    static const char *const names[] = {[ENTRY_SETTING] = "setting",
                                        [ENTRY_DEFINITION] = "definition",
                                        [ENTRY_REQUIREMENT] = "requirement",
                                        [ENTRY_ROW] = "row"};
    put_indent(out, depth);
    fputs(names[e->kind], out);
    if (e->key.start != NULL) {
        fputc(' ', out);
        put_text(out, e->key);
    }
    put_tags(out, &e->tags);
    put_word(out, "note", e->note);
    put_place(out, e->at);
    fputs(e->bad ? " bad\n" : "\n", out);
    put_choices(out, e->choices, e->choice_count, depth + 1);
    put_cells(out, b, e, depth + 1);
}

static void put_element(FILE *out, const struct circuit_element *e, int depth) {
    put_indent(out, depth);
    fprintf(out, "%s ", circuit_part_word(e->part));
    fwrite(e->name.start, 1, e->name.len, out);
    if (!text_equal(e->id, e->name))
        put_word(out, "id", e->id);
    if (e->terminal[0].len > 0) {
        put_word(out, "terminal", e->terminal[0]);
        put_word(out, "to", e->terminal[1]);
    }
    for (size_t i = 0; i < e->word_count; i++)
        put_word(out, "word", e->word[i]);
    put_word(out, "colour", e->colour[0]);
    put_word(out, "tracer", e->colour[1]);
    put_word(out, "note", e->note);
    put_tags(out, &e->tags);
    put_place(out, e->at);
    fputc('\n', out);
}

static void put_state(FILE *out, const struct circuit *c,
                      const struct circuit_state *s, int depth) {
    put_indent(out, depth);
    fputs("state", out);
    put_word(out, "name", s->name);
    for (size_t i = 0; i < s->set_count; i++) {
        const struct circuit_set *set = &s->set[i];
        put_word(out, "set",
                 set->element == CIRCUIT_NONE ? c->supply[set->supply].name
                                              : c->element[set->element].name);
        put_word(out, "is", set->word);
    }
    fputc('\n', out);
}

static void put_circuit(FILE *out, const struct circuit *c, int depth) {
    for (size_t i = 0; i < c->supply_count; i++) {
        put_indent(out, depth);
        fputs("supply", out);
        put_word(out, "block", c->supply[i].name);
        put_word(out, "at", c->supply[i].state);
        fputc('\n', out);
    }
    for (size_t i = 0; i < c->state_count; i++)
        put_state(out, c, &c->state[i], depth);
    for (size_t i = 0; i < c->branch_count; i++) {
        const struct circuit_branch *b = &c->branch[i];
        put_indent(out, depth);
        fputs(b->begins ? "path" : "on", out);
        put_word(out, "from", c->point[b->from].name);
        put_word(out, "to", c->point[b->to].name);
        fputc('\n', out);
        for (size_t k = 0; k < b->count; k++)
            put_element(out, &c->element[b->first + k], depth + 1);
    }
}

static void put_block(FILE *out, const struct block *b, int depth) {
    fprintf(out, "block %zu %s", b->index, b->kind->name);
    if (b->name.len > 0) {
        fputc(' ', out);
        fwrite(b->name.start, 1, b->name.len, out);
    }
    put_place(out, b->at);
    fprintf(out, " scope %zu\n", b->scope->index);
    for (size_t i = 0; i < b->entry_count; i++)
        put_entry(out, b, &b->entries[i], depth + 1);
    if (b->circuit != NULL && !b->circuit->bad)
        put_circuit(out, b->circuit, depth + 1);
}

static const char *node_name(enum node_kind kind) {
    static const char *const names[] = {
        [NODE_GUIDE] = "guide",     [NODE_SECTION] = "section",
        [NODE_HEADING] = "heading", [NODE_PARAGRAPH] = "paragraph",
        [NODE_STEPS] = "steps",     [NODE_STEP] = "step",
        [NODE_BULLETS] = "bullets", [NODE_BULLET] = "bullet",
        [NODE_QUOTE] = "quote",     [NODE_VERBATIM] = "verbatim",
        [NODE_BLOCK] = "block",     [NODE_RULE] = "rule"};
    return names[kind];
}

static void put_node(FILE *out, const struct node *n, int depth) {
    put_indent(out, depth);
    if (n->block != NULL) {
        put_block(out, n->block, depth);
        return;
    }
    fputs(node_name(n->kind), out);
    if (n->level > 0)
        fprintf(out, " %d", n->level);
    if (n->number != NULL)
        fprintf(out, " %s", n->number);
    if (n->verbatim.start != NULL) {
        fputc(' ', out);
        put_text(out, n->verbatim);
    }
    put_place(out, n->at);
    if (n->scope->index > 1)
        fprintf(out, " scope %zu", n->scope->index);
    for (size_t i = 0; i < n->mark_count; i++) {
        fputs("\n", out);
        put_indent(out, depth + 1);
        put_mark(out, n->marks[i]);
    }
    fputc('\n', out);
    put_inlines(out, n->text, depth + 1);
    for (const struct node *k = n->first; k != NULL; k = k->next)
        put_node(out, k, depth + 1);
}

void tree_dump(const struct guide *g, FILE *out) {
    fprintf(out, "title ");
    put_text(out, g->title);
    fputc('\n', out);
    for (size_t i = 0; i < g->file_count; i++)
        fprintf(out, "file %s\n", g->files[i]->path);
    for (size_t i = 0; i < g->scope_count; i++) {
        const struct scope *s = g->scopes[i];
        fprintf(out, "scope %zu %s\n", s->index,
                s->include == NULL ? (s->parent == NULL ? "facts" : "guide")
                                   : s->src->path);
    }
    for (size_t i = 0; i < g->block_count; i++)
        if (g->blocks[i]->node == NULL)
            put_block(out, g->blocks[i], 0);
    if (g->root != NULL)
        put_node(out, g->root, 0);
}
