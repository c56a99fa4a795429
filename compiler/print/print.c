/* print.c - a display list as a PDF file in memory.
 *
 * Equal pages give equal bytes: there is no date, names and numbers of objects
 * follow the order of the pages, and the file's ID is a hash of its content. */
#include "print/print.h"

#include "base/arena.h"
#include "base/diag.h"
#include "base/digest.h"
#include "base/hand.h"
#include "print/content.h"
#include "print/navigation.h"
#include "print/real.h"
#include "print/subset.h"

#include <string.h>

struct printer {
    struct compile *compile;
    struct subset_kept *kept; /* or NULL */
    size_t cutting; /* the subsets, into kept: piece of the hand; or 0 */
    const struct pages *pages;
    struct pdf pdf;
    struct content_into into;
    HPDF_Page *made;
};

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

/* One /Resources for all pages, instead of libharu's own in each. */
static bool fill_page(struct printer *p, size_t index, HPDF_Dict resources,
                      struct buf *out) {
    const struct page *page = &p->pages->page[index];
    out->len = 0;
    struct content_fault fault = content_write(out, page, index, &p->into);
    if (fault.words != NULL) {
        refuse_op(p, index, fault);
        return false;
    }
    object_fill(&p->pdf, p->made[index], buf_cstr(out), out->len);
    object_add(&p->pdf, p->made[index], "Resources", resources);
    return object_fine(&p->pdf);
}

static bool fill_pages(struct printer *p) {
    HPDF_Dict resources = object_dict(&p->pdf);
    struct buf out = buf_in(p->compile->arena);
    for (size_t i = 0; i < p->pages->count; i++) {
        if (p->pdf.failed != 0 || !fill_page(p, i, resources, &out))
            return false;
    }
    if (p->cutting != 0)
        hand_wait(p->compile->hand, p->cutting);
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
    if (!fill_pages(p) || !add_navigation(p))
        return NULL;
    object_entries(p->pdf.doc->trailer, no_id);
    p->pdf.doc->pdf_version = HPDF_VER_17;
    return object_save(&p->pdf, len);
}

static void cut_subsets(void *printer) {
    struct printer *p = printer;
    subset_make_all(p->kept, p->pages);
}

const unsigned char *print_pdf_in(struct compile *c, const struct pages *pages,
                                  size_t *len,
                                  const struct object_memory *memory) {
    struct printer p = {.compile = c, .pages = pages, .kept = c->subsets};
    bool own = c->hand != NULL && p.kept == NULL;
    if (own)
        p.kept = subset_kept_new();
    if (c->hand != NULL && p.kept != NULL)
        p.cutting = hand_give(c->hand, cut_subsets, &p);
    p.into.fonts = font_new(c->arena, p.kept);
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
    if (p.cutting != 0)
        hand_wait(c->hand, p.cutting);
    if (own)
        subset_kept_free(p.kept);
    if (bytes != NULL)
        stamp(bytes, *len);
    return bytes;
}

const unsigned char *print_pdf(struct compile *c, const struct pages *p,
                               size_t *len) {
    return print_pdf_in(c, p, len, NULL);
}
