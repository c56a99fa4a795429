/* structure.c - the tags of the pages as the structure of the document. */
#include "print/structure.h"

#include "base/arena.h"
#include "base/list.h"

/* A piece of page content, or a tag, inside a tag. */
struct kid {
    size_t tag;          /* 0: content */
    size_t page, number; /* of content: its mark */
    HPDF_Dict link;      /* or a link annotation, its number among them */
    struct kid *next;
};

struct element {
    struct kid *first, *last; /* none: nothing of it is on a page */
};

struct structure {
    struct arena *arena;
    const struct pages *pages;
    struct element *element; /* [tag] from 1 */
    size_t **owner;          /* [page][number]: its tag */
    size_t *count, *room;    /* [page]: marks */
    size_t *link;            /* its tag */
    size_t link_count, link_room;
};

struct structure *structure_new(struct arena *a, const struct pages *p) {
    if (p->tag_count == 0)
        return NULL;
    struct structure *s = arena_alloc(a, 1, sizeof *s);
    s->arena = a;
    s->pages = p;
    s->element = arena_alloc(a, p->tag_count + 1, sizeof *s->element);
    s->owner = arena_alloc(a, p->count, sizeof *s->owner);
    s->count = arena_alloc(a, p->count, sizeof *s->count);
    s->room = arena_alloc(a, p->count, sizeof *s->room);
    return s;
}

static void add_kid(struct structure *s, size_t tag, struct kid kid) {
    struct element *e = &s->element[tag];
    bool first = e->first == NULL;
    struct kid *k = arena_alloc(s->arena, 1, sizeof *k);
    *k = kid;
    if (first)
        e->first = k;
    else
        e->last->next = k;
    e->last = k;
    size_t parent = s->pages->tag[tag - 1].parent;
    if (first && parent != 0)
        add_kid(s, parent, (struct kid){.tag = tag});
}

size_t structure_mark(struct structure *s, size_t page, size_t tag) {
    size_t number = s->count[page];
    if (number == s->room[page]) {
        s->room[page] = number == 0 ? 64 : number * 2;
        s->owner[page] = arena_grow(s->arena, s->owner[page], number,
                                    s->room[page], sizeof *s->owner[page]);
    }
    s->owner[page][s->count[page]++] = tag;
    add_kid(s, tag, (struct kid){.page = page, .number = number});
    return number;
}

size_t structure_link(struct structure *s, size_t page, size_t tag,
                      HPDF_Dict link) {
    s->link = list_grown(s->arena, s->link, s->link_count, &s->link_room,
                         sizeof *s->link);
    s->link[s->link_count] = tag;
    add_kid(s, tag, (struct kid){.page = page, .link = link});
    return s->pages->count + s->link_count++;
}

/* What a link stands in; else the tag itself. */
static size_t text_around(const struct structure *s, size_t tag) {
    const struct tag *t = &s->pages->tag[tag - 1];
    return t->kind == TAG_LINK ? t->parent : tag;
}

bool structure_joins(const struct structure *s, size_t tag, size_t next) {
    return tag != 0 && next != 0 && text_around(s, tag) == text_around(s, next);
}

static const char *name_of(enum tag_kind kind) {
    static const char *const names[TAG_KINDS] = {
        [TAG_DOCUMENT] = "Document",
        [TAG_TITLE] = "H1",
        [TAG_SECTION] = "H2",
        [TAG_SUBSECTION] = "H3",
        [TAG_PARAGRAPH] = "P",
        [TAG_QUOTE] = "BlockQuote",
        [TAG_PANEL] = "Sect",
        [TAG_LIST] = "L",
        [TAG_ITEM] = "LI",
        [TAG_LABEL] = "Lbl",
        [TAG_BODY] = "LBody",
        [TAG_TABLE] = "Table",
        [TAG_ROW] = "TR",
        [TAG_HEAD] = "TH",
        [TAG_CELL] = "TD",
        [TAG_FIGURE] = "Figure",
        [TAG_CAPTION] = "Caption",
        [TAG_LINK] = "Link",
    };
    return names[kind];
}

const char *structure_name(const struct structure *s, size_t tag) {
    return name_of(s->pages->tag[tag - 1].kind);
}

static void put_words(struct buf *out, const struct tag *tag) {
    if (tag->kind == TAG_HEAD)
        buf_puts(out, "/A<</O/Table/Scope/Column>>");
    if (tag->kind == TAG_LIST)
        buf_puts(out, "/A<</O/List/ListNumbering/Decimal>>");
    if (tag->words.len == 0)
        return;
    buf_puts(out, tag->kind == TAG_FIGURE ? "/Alt" : "/T");
    object_put_text(out, tag->words);
}

/* Content on the element's own page is its number alone. */
static void put_kids(struct buf *out, const struct element *e,
                     const HPDF_Dict *object, const HPDF_Page *made) {
    const struct kid *first = e->first;
    while (first != NULL && (first->tag != 0 || first->link != NULL))
        first = first->next;
    if (first != NULL) {
        buf_puts(out, "/Pg");
        object_refer(out, made[first->page]);
    }
    buf_puts(out, "/K[");
    for (const struct kid *k = e->first; k != NULL; k = k->next) {
        if (k->tag != 0) {
            object_refer(out, object[k->tag]);
        } else if (k->link != NULL) {
            buf_puts(out, "<</Type/OBJR/Pg");
            object_refer(out, made[k->page]);
            buf_puts(out, "/Obj");
            object_refer(out, k->link);
            buf_puts(out, ">>");
        } else if (k->page == first->page) {
            buf_printf(out, " %zu", k->number);
        } else {
            buf_puts(out, "<</Type/MCR/Pg");
            object_refer(out, made[k->page]);
            buf_printf(out, "/MCID %zu>>", k->number);
        }
    }
    buf_puts(out, "]");
}

/* What leads to a page that is not printed has no link: it is text like other
 * text. */
static const char *element_name(const struct structure *s, size_t tag) {
    enum tag_kind kind = s->pages->tag[tag - 1].kind;
    const struct element *e = &s->element[tag];
    return kind == TAG_LINK && e->last->link == NULL ? "Span" : name_of(kind);
}

static void finish_element(const struct structure *s, size_t tag,
                           const HPDF_Dict *object, HPDF_Dict root,
                           const HPDF_Page *made) {
    const struct tag *t = &s->pages->tag[tag - 1];
    struct buf out = buf_in(s->arena);
    buf_printf(&out, "/S/%s/P", element_name(s, tag));
    object_refer(&out, t->parent == 0 ? root : object[t->parent]);
    put_words(&out, t);
    put_kids(&out, &s->element[tag], object, made);
    object_entries(object[tag], buf_cstr(&out));
}

/* From the marks of a page, and from each link, to their elements. */
static HPDF_Dict parents(const struct structure *s, struct pdf *pdf,
                         const HPDF_Dict *object) {
    struct buf out = buf_in(s->arena);
    buf_puts(&out, "/Nums[");
    for (size_t i = 0; i < s->pages->count; i++) {
        buf_printf(&out, " %zu[", i);
        for (size_t k = 0; k < s->count[i]; k++)
            object_refer(&out, object[s->owner[i][k]]);
        buf_puts(&out, "]");
    }
    for (size_t i = 0; i < s->link_count; i++) {
        buf_printf(&out, " %zu", s->pages->count + i);
        object_refer(&out, object[s->link[i]]);
    }
    buf_puts(&out, "]");
    HPDF_Dict dict = object_dict(pdf);
    object_entries(dict, buf_cstr(&out));
    return dict;
}

void structure_finish(const struct structure *s, struct pdf *pdf,
                      const HPDF_Page *made) {
    if (s == NULL || pdf->failed != 0)
        return;
    size_t count = s->pages->tag_count;
    HPDF_Dict root = object_dict(pdf);
    HPDF_Dict *object = arena_alloc(s->arena, count + 1, sizeof(HPDF_Dict));
    for (size_t tag = 1; tag <= count; tag++)
        if (s->element[tag].first != NULL)
            object[tag] = object_dict(pdf);
    if (pdf->failed != 0)
        return;
    struct buf out = buf_in(s->arena);
    buf_puts(&out, "/Type/StructTreeRoot/K[");
    for (size_t tag = 1; tag <= count; tag++) {
        if (object[tag] == NULL)
            continue;
        finish_element(s, tag, object, root, made);
        if (s->pages->tag[tag - 1].parent == 0)
            object_refer(&out, object[tag]);
    }
    buf_puts(&out, "]/ParentTree");
    object_refer(&out, parents(s, pdf, object));
    object_entries(root, buf_cstr(&out));
    for (size_t i = 0; i < s->pages->count && pdf->failed == 0; i++) {
        HPDF_Dict_AddNumber(made[i], "StructParents", (HPDF_INT32)i);
        HPDF_Dict_AddName(made[i], "Tabs", "S");
        object_fine(pdf);
    }
    object_add(pdf, pdf->doc->catalog, "StructTreeRoot", root);
    HPDF_Dict mark = pdf->failed != 0 ? NULL : HPDF_Dict_New(pdf->doc->mmgr);
    if (mark == NULL)
        return;
    object_add(pdf, pdf->doc->catalog, "MarkInfo", mark);
    if (pdf->failed == 0)
        HPDF_Dict_AddBoolean(mark, "Marked", HPDF_TRUE);
    object_fine(pdf);
}
