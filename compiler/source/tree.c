/* tree.c - small questions to a guide tree. */
#include "source/tree.h"

#include "source/kind.h"

#include <string.h>

const struct entry *tree_setting(const struct block *b, const char *name) {
    for (size_t i = 0; i < b->entry_count; i++) {
        const struct entry *e = &b->entries[i];
        if (e->kind == ENTRY_SETTING && e->setting != NULL &&
            strcmp(e->setting->name, name) == 0)
            return e;
    }
    return NULL;
}

const struct cell *tree_cell(const struct block *b, const struct entry *row,
                             const char *column) {
    for (size_t i = 0; i < b->column_count && i < row->cell_count; i++) {
        bool same = b->column[i] != NULL
                        ? strcmp(b->column[i]->name, column) == 0
                        : text_is(b->columns[i], column);
        if (same)
            return row->cells[i].text.start == NULL ? NULL : &row->cells[i];
    }
    return NULL;
}

const struct node *tree_step(const struct node *n) {
    while (n != NULL && n->kind != NODE_STEP)
        n = n->parent;
    return n;
}

static void add_plain(struct buf *b, const struct inlines *t) {
    for (; t != NULL; t = t->next) {
        if (t->kind == INLINE_SPACE || t->kind == INLINE_BREAK)
            buf_puts(b, " ");
        else if (t->kind == INLINE_TEXT || t->kind == INLINE_CODE)
            buf_text(b, t->text);
        add_plain(b, t->first);
    }
}

struct text tree_plain(struct arena *a, const struct inlines *text) {
    struct buf b = buf_in(a);
    add_plain(&b, text);
    return text_squeezed(a, text_trim(buf_as_text(&b)));
}

const struct inlines *tree_image(const struct node *n) {
    const struct inlines *image = NULL;
    if (n->kind != NODE_PARAGRAPH)
        return NULL;
    for (const struct inlines *t = n->text; t != NULL; t = t->next) {
        bool blank = t->kind == INLINE_SPACE || t->kind == INLINE_BREAK ||
                     (t->kind == INLINE_TEXT && text_trim(t->text).len == 0);
        if (blank)
            continue;
        if (t->kind != INLINE_IMAGE || image != NULL)
            return NULL;
        image = t;
    }
    return image;
}

const struct node *tree_section(const struct node *n) {
    while (n != NULL && n->kind != NODE_SECTION)
        n = n->parent;
    return n;
}
