/* tag.c - what the pieces of a page are. */
#include "layout/tag.h"

#include "base/arena.h"

static void add(struct tagger *t, struct tag tag) {
    if (t->count == t->room) {
        size_t room = t->room == 0 ? 256 : t->room * 2;
        t->list =
            arena_grow(t->arena, t->list, t->count, room, sizeof *t->list);
        t->room = room;
    }
    t->list[t->count++] = tag;
    t->now = t->count;
}

void tag_begin(struct tagger *t, struct arena *a) {
    *t = (struct tagger){.arena = a};
    add(t, (struct tag){.kind = TAG_DOCUMENT});
}

size_t tag_open(struct tagger *t, enum tag_kind kind, struct text words) {
    size_t outer = t->now;
    if (outer != 0)
        add(t, (struct tag){kind, outer, words});
    return outer;
}

static bool holds_text(enum tag_kind kind) {
    switch (kind) {
    case TAG_DOCUMENT:
    case TAG_PANEL:
    case TAG_QUOTE:
    case TAG_LIST:
    case TAG_ITEM:
    case TAG_BODY:
    case TAG_TABLE:
    case TAG_ROW:
        return false;
    case TAG_TITLE:
    case TAG_SECTION:
    case TAG_SUBSECTION:
    case TAG_PARAGRAPH:
    case TAG_LABEL:
    case TAG_HEAD:
    case TAG_CELL:
    case TAG_FIGURE:
    case TAG_CAPTION:
    case TAG_LINK:
        return true;
    }
    return true;
}

size_t tag_open_text(struct tagger *t) {
    if (t->now == 0 || holds_text(t->list[t->now - 1].kind))
        return t->now;
    return tag_open(t, TAG_PARAGRAPH, (struct text){NULL, 0});
}

size_t tag_open_link(struct tagger *t, const void *target) {
    size_t outer = t->now;
    bool same = t->link != 0 && t->target == target &&
                t->list[t->link - 1].parent == outer;
    if (outer == 0)
        return 0;
    if (same)
        t->now = t->link;
    else
        tag_open(t, TAG_LINK, (struct text){NULL, 0});
    t->link = t->now;
    t->target = target;
    return outer;
}

void tag_leave_link(struct tagger *t) {
    t->link = 0;
}

void tag_close(struct tagger *t, size_t to) {
    t->now = to;
}

size_t tag_pause(struct tagger *t) {
    size_t outer = t->now;
    t->now = 0;
    return outer;
}

size_t tag_of_op(const struct tagger *t, enum op_kind kind) {
    if (t->now == 0)
        return 0;
    bool drawn = kind != OP_TEXT && kind != OP_IMAGE;
    return drawn && t->list[t->now - 1].kind != TAG_FIGURE ? 0 : t->now;
}

size_t tag_open_label(struct tagger *t) {
    size_t outer = t->now, item = outer;
    while (item != 0 && t->list[item - 1].kind != TAG_ITEM)
        item = t->list[item - 1].parent;
    t->now = item;
    tag_open(t, TAG_LABEL, (struct text){NULL, 0});
    return outer;
}
