/* print.c - a display list as a PDF file in memory.
 *
 * Equal pages give equal bytes: there is no date, names and numbers of objects
 * follow the order of the pages, and the file's ID is a hash of its content. */
#include "print/print.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/digest.h"
#include "base/hand.h"
#include "base/pack.h"
#include "print/content.h"
#include "print/navigation.h"
#include "print/real.h"

#include <string.h>

struct content { /* of a page */
    struct buf plain;
    struct arena *packing; /* of what is packed; NULL: it was not begun */
    const unsigned char *packed;
    size_t packed_len;
};

struct printer {
    struct compile *compile;
    const struct pages *pages;
    struct pdf pdf;
    struct content_into into;
    HPDF_Page *made;
    struct content *content; /* by page */
    size_t packing;          /* the last page that is being packed; or 0 */
};

static void pack_page(void *content) {
    struct content *c = content;
    c->packed =
        pack_deflate(c->packing, c->plain.bytes, c->plain.len, &c->packed_len);
}

/* By the hand where there is one, while the next page is written; else at once.
 */
static void begin_packing(struct printer *p, struct content *c) {
    c->packing = arena_new();
    if (p->compile->hand != NULL)
        p->packing = hand_give(p->compile->hand, pack_page, c);
    else
        pack_page(c);
}

static void end_packing(const struct printer *p) {
    if (p->compile->hand != NULL)
        hand_wait(p->compile->hand, p->packing);
}

static void refuse(struct printer *p, const char *place, const char *words) {
    diag_add(p->compile->diags, DIAG_PDF_FAILED, (struct span){0}, "%s%s",
             place, words);
}

static void refuse_op(struct printer *p, size_t page,
                      struct content_fault fault) {
    static const char *const names[] = {
        [OP_TEXT] = "text", [OP_RECT] = "rectangle", [OP_LINE] = "line",
        [OP_PATH] = "path", [OP_LINK] = "link",      [OP_IMAGE] = "image",
    };
    struct arena *a = p->compile->arena;
    const char *what = names[fault.op->kind];
    if (fault.op->kind == OP_TEXT)
        what = arena_printf(a, "text '%s'", text_cstr(a, fault.op->text));
    refuse(p, arena_printf(a, "page %zu, %s: ", page + 1, what), fault.words);
}

static bool add_page(struct printer *p, size_t index) {
    const struct page *page = &p->pages->page[index];
    if (!real_fits(page->width) || !real_fits(page->height)) {
        refuse(p, arena_printf(p->compile->arena, "page %zu: ", index + 1),
               "its size is not finite or beyond 32767 pt");
        return false;
    }
    HPDF_Page made = HPDF_AddPage(p->pdf.doc);
    if (object_fine(&p->pdf))
        HPDF_Page_SetWidth(made, (HPDF_REAL)page->width);
    if (object_fine(&p->pdf))
        HPDF_Page_SetHeight(made, (HPDF_REAL)page->height);
    p->made[index] = made;
    return object_fine(&p->pdf);
}

static bool write_pages(struct printer *p) {
    for (size_t i = 0; i < p->pages->count; i++) {
        struct buf *out = &p->content[i].plain;
        *out = buf_in(p->compile->arena);
        struct content_fault fault =
            content_write(out, &p->pages->page[i], i, &p->into);
        if (fault.words != NULL) {
            refuse_op(p, i, fault);
            return false;
        }
        begin_packing(p, &p->content[i]);
    }
    return true;
}

/* One /Resources for all pages, instead of libharu's own in each. */
static HPDF_Dict add_resources(struct printer *p) {
    HPDF_Dict resources = object_dict(&p->pdf);
    const char *fonts = font_finish(p->into.fonts, &p->pdf);
    const char *images = xobject_finish(p->into.images, &p->pdf);
    object_entries(
        resources,
        images == NULL
            ? arena_printf(p->compile->arena, "/ProcSet[/PDF/Text]/Font<<%s>>",
                           fonts)
            : arena_printf(p->compile->arena,
                           "/ProcSet[/PDF/Text/ImageB/ImageC]/Font<<%s>>"
                           "/XObject<<%s>>",
                           fonts, images));
    return resources;
}

static bool fill_pages(struct printer *p, HPDF_Dict resources) {
    end_packing(p);
    for (size_t i = 0; i < p->pages->count && p->pdf.failed == 0; i++) {
        const struct content *c = &p->content[i];
        object_fill(&p->pdf, p->made[i], c->packed, c->packed_len);
        object_add(&p->pdf, p->made[i], "Resources", resources);
    }
    return p->pdf.failed == 0;
}

static bool add_navigation(struct printer *p) {
    const char *fault = NULL;
    for (size_t i = 0; i < p->pages->count && fault == NULL; i++) {
        fault =
            navigation_links(&p->pdf, p->pages, i, p->made, p->into.structure);
        if (fault != NULL)
            refuse(p, arena_printf(p->compile->arena, "page %zu: ", i + 1),
                   fault);
    }
    if (fault == NULL) {
        fault = navigation_outline(&p->pdf, p->pages, p->made);
        if (fault != NULL)
            refuse(p, "outline: ", fault);
    }
    structure_finish(p->into.structure, &p->pdf, p->made);
    navigation_document(&p->pdf, p->pages);
    return fault == NULL && p->pdf.failed == 0;
}

enum { ID_DIGITS = 32 };
static const char no_id[] = "/ID[<00000000000000000000000000000000>"
                            "<00000000000000000000000000000000>]";

/* The digest of the file as it is with an ID of noughts becomes its ID: half of
 * a SHA-256. ISO 32000-1, 14.4 leaves open how it is made. */
static void stamp(unsigned char *bytes, size_t len) {
    char digits[DIGEST_HEX];
    size_t at = len - (sizeof no_id - 1);
    while (memcmp(bytes + at, no_id, sizeof no_id - 1) != 0)
        at--; /* the trailer is there: object_save() wrote it */
    digest_hex(bytes, len, digits);
    memcpy(bytes + at + 5, digits, ID_DIGITS);
    memcpy(bytes + at + 5 + ID_DIGITS + 2, digits, ID_DIGITS);
}

static unsigned char *make(struct printer *p, size_t *len) {
    if (p->pages->count == 0) {
        refuse(p, "", "there are no pages");
        return NULL;
    }
    for (size_t i = 0; i < p->pages->count; i++) {
        if (p->pdf.failed != 0 || !add_page(p, i))
            return NULL;
    }
    if (!write_pages(p))
        return NULL;
    HPDF_Dict resources = add_resources(p);
    if (!add_navigation(p) || !fill_pages(p, resources))
        return NULL;
    object_entries(p->pdf.doc->trailer, no_id);
    p->pdf.doc->pdf_version = HPDF_VER_17;
    return object_save(&p->pdf, len);
}

const unsigned char *print_pdf_in(struct compile *c, const struct pages *pages,
                                  size_t *len,
                                  const struct object_memory *memory) {
    struct printer p = {.compile = c, .pages = pages};
    p.content = arena_alloc(c->arena, pages->count, sizeof *p.content);
    p.into.fonts = font_new(c->arena, c->subsets);
    p.into.images = xobject_new(c->arena);
    p.into.structure = structure_new(c->arena, pages);
    p.made = arena_alloc(c->arena, pages->count, sizeof(HPDF_Page));
    object_open(&p.pdf, c->arena, memory);
    unsigned char *bytes = p.pdf.failed == 0 ? make(&p, len) : NULL;
    const char *failure = object_failure(&p.pdf, c->arena);
    if (failure != NULL)
        refuse(&p, "", failure);
    object_close(&p.pdf);
    font_free(p.into.fonts);
    end_packing(&p);
    for (size_t i = 0; i < pages->count; i++)
        arena_free(p.content[i].packing);
    if (bytes != NULL)
        stamp(bytes, *len);
    return bytes;
}

const unsigned char *print_pdf(struct compile *c, const struct pages *p,
                               size_t *len) {
    return print_pdf_in(c, p, len, NULL);
}
