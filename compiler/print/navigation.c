/* navigation.c - links, outline, page labels, title: ISO 32000-1 clause 12. */
#include "print/navigation.h"

#include "base/arena.h"
#include "base/version.h"
#include "print/real.h"

static const char no_such_page[] = "a link leads to a page that is not there";
static const char bad_number[] = "a link's place is not finite or beyond "
                                 "32767 pt";

/* "/Dest[12 0 R/XYZ null 700 null]": the zoom stays as the reader has it. */
static const char *put_destination(struct buf *out, const struct pages *p,
                                   int page, double y, const HPDF_Page *made) {
    if (page < 0 || (size_t)page >= p->count)
        return no_such_page;
    buf_puts(out, "/Dest[");
    object_refer(out, made[page]);
    buf_puts(out, "/XYZ null");
    if (!real_put(out, p->page[page].height - y, 3))
        return bad_number;
    buf_puts(out, " null]");
    return NULL;
}

/* A URI is ASCII (RFC 3986); other bytes are written in per cent. */
static void put_uri(struct buf *out, struct text uri) {
    struct buf ascii = buf_in(out->arena);
    for (size_t i = 0; i < uri.len; i++) {
        unsigned char c = (unsigned char)uri.start[i];
        if (c <= ' ' || c > '~')
            buf_printf(&ascii, "%%%02X", (unsigned)c);
        else
            buf_add(&ascii, uri.start + i, 1);
    }
    buf_puts(out, "/A<</S/URI/URI");
    object_put_bytes(out, buf_as_text(&ascii));
    buf_puts(out, ">>/Contents");
    object_put_bytes(out, buf_as_text(&ascii));
}

/* Where it leads is told to those who do not see it, too: /Contents, as ISO
 * 14289-1, 7.18.5 asks of links, from memory. */
static const char *put_link(struct buf *out, const struct pages *p,
                            const struct page *page, const struct op *op,
                            const HPDF_Page *made) {
    double bottom = page->height - op->y - op->height;
    buf_puts(out, "/Type/Annot/Subtype/Link/Border[0 0 0]/F 4/Rect[");
    if (!real_put(out, op->x, 3) || !real_put(out, bottom, 3) ||
        !real_put(out, op->x + op->width, 3) ||
        !real_put(out, page->height - op->y, 3))
        return bad_number;
    buf_puts(out, "]");
    if (op->page < 0 && op->uri.len > 0) {
        put_uri(out, op->uri);
        return NULL;
    }
    buf_printf(out, "/Contents(page %d)", op->page + 1);
    return put_destination(out, p, op->page, op->target_y, made);
}

const char *navigation_links(struct pdf *pdf, const struct pages *p,
                             size_t index, const HPDF_Page *made,
                             struct structure *structure) {
    const struct page *page = &p->page[index];
    HPDF_Array links = NULL;
    for (size_t i = 0; i < page->op_count && pdf->failed == 0; i++) {
        if (page->ops[i].kind != OP_LINK)
            continue;
        struct buf out = buf_in(pdf->arena);
        const char *fault = put_link(&out, p, page, &page->ops[i], made);
        if (fault != NULL)
            return fault;
        if (links == NULL) {
            links = HPDF_Array_New(pdf->doc->mmgr);
            object_add(pdf, made[index], "Annots", links);
        }
        HPDF_Dict link = object_dict(pdf);
        if (structure != NULL && page->ops[i].tag != 0)
            buf_printf(
                &out, "/StructParent %zu",
                structure_link(structure, index, page->ops[i].tag, link));
        object_entries(link, out.bytes);
        if (pdf->failed == 0)
            HPDF_Array_Add(links, link);
        object_fine(pdf);
    }
    return NULL;
}

enum { DEEPEST = 8 };

const char *navigation_outline(struct pdf *pdf, const struct pages *p,
                               const HPDF_Page *made) {
    struct {
        int level;
        HPDF_Outline entry;
    } above[DEEPEST + 1] = {{0, NULL}}; /* [0]: the root */
    size_t depth = 0;
    for (size_t i = 0; i < p->outline_count && pdf->failed == 0; i++) {
        const struct outline *o = &p->outline[i];
        struct buf out = buf_in(pdf->arena);
        const char *fault = put_destination(&out, p, o->page, o->y, made);
        if (fault != NULL)
            return fault;
        buf_puts(&out, "/Title");
        object_put_text(&out, o->title);
        while (depth > 0 &&
               (above[depth].level >= o->level || depth == DEEPEST))
            depth--;
        HPDF_Outline entry =
            HPDF_CreateOutline(pdf->doc, above[depth].entry, "", NULL);
        if (!object_fine(pdf))
            return NULL;
        /* libharu's own title and kind are in the way: its encoders know no
         * character beyond U+FFFF, and an entry has no /Type. */
        HPDF_Dict_RemoveElement(entry, "Title");
        HPDF_Dict_RemoveElement(entry, "Type");
        object_entries(entry, out.bytes);
        depth++;
        above[depth].level = o->level;
        above[depth].entry = entry;
    }
    if (p->outline_count > 0 && pdf->failed == 0)
        HPDF_SetPageMode(pdf->doc, HPDF_PAGE_MODE_USE_OUTLINE);
    return NULL;
}

static void put_about(struct buf *out, const char *key, struct text value) {
    if (value.len == 0)
        return;
    buf_puts(out, key);
    object_put_text(out, value);
}

void navigation_document(struct pdf *pdf, const struct pages *p) {
    if (pdf->failed != 0)
        return;
    struct buf about = buf_in(pdf->arena);
    put_about(&about, "/Title", p->title);
    put_about(&about, "/Author", p->author);
    put_about(&about, "/Subject", p->subject);
    put_about(&about, "/Producer", text_of("Bayleaf " BAYLEAF_VERSION));
    HPDF_Dict_RemoveElement(pdf->doc->info, "Producer");
    object_entries(pdf->doc->info, about.bytes);
    object_entries(pdf->doc->catalog,
                   p->title.len > 0
                       ? "/Lang(en)/PageLabels<</Nums[0<</S/D>>]>>"
                         "/ViewerPreferences<</DisplayDocTitle true>>"
                       : "/Lang(en)/PageLabels<</Nums[0<</S/D>>]>>");
}
