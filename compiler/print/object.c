/* object.c - objects of a PDF file, through libharu's object layer. */
#include "print/object.h"

#include "base/arena.h"
#include "base/pack.h"

#include <string.h>

static void keep_first(HPDF_STATUS code, HPDF_STATUS detail, void *user) {
    struct pdf *pdf = user;
    (void)detail;
    if (pdf->failed == 0)
        pdf->failed = code;
}

void object_open(struct pdf *pdf, struct arena *a,
                 const struct object_memory *memory) {
    *pdf = (struct pdf){.arena = a};
    pdf->doc = HPDF_NewEx(keep_first, memory == NULL ? NULL : memory->take,
                          memory == NULL ? NULL : memory->give, 0, pdf);
    if (pdf->doc == NULL) {
        pdf->failed = HPDF_FAILD_TO_ALLOC_MEM; /* no other reason */
        return;
    }
    object_fine(pdf);
}

void object_close(struct pdf *pdf) {
    HPDF_Free(pdf->doc);
    pdf->doc = NULL;
}

bool object_fine(struct pdf *pdf) {
    if (pdf->failed == 0)
        pdf->failed = pdf->doc->error.error_no;
    return pdf->failed == 0;
}

unsigned char *object_save(struct pdf *pdf, size_t *len) {
    if (pdf->failed != 0)
        return NULL;
    HPDF_SaveToStream(pdf->doc);
    if (!object_fine(pdf))
        return NULL;
    HPDF_UINT32 size = HPDF_GetStreamSize(pdf->doc);
    unsigned char *bytes = arena_alloc(pdf->arena, size, 1);
    HPDF_ReadFromStream(pdf->doc, bytes, &size);
    if (!object_fine(pdf))
        return NULL;
    *len = size;
    return bytes;
}

const char *object_failure(const struct pdf *pdf, struct arena *a) {
    static const struct {
        unsigned long code;
        const char *words;
    } failures[] = {
        {HPDF_FAILD_TO_ALLOC_MEM, "no memory left"},
        {HPDF_PAGE_INVALID_SIZE, "a page must measure 3 to 14400 pt each way"},
        {HPDF_INVALID_STREAM, "no room to write the file to"},
        {HPDF_XREF_COUNT_ERR, "too many objects"},
        {HPDF_ARRAY_COUNT_ERR, "too many entries in a list"},
        {HPDF_DICT_COUNT_ERR, "too many entries in a dictionary"},
        {HPDF_STRING_OUT_OF_RANGE, "a text is too long"},
        {HPDF_NAME_OUT_OF_RANGE, "a name is too long"},
        {HPDF_REAL_OUT_OF_RANGE, "a number is out of range"},
    };
    if (pdf->failed == 0)
        return NULL;
    for (size_t i = 0; i < sizeof failures / sizeof *failures; i++) {
        if (failures[i].code == pdf->failed)
            return failures[i].words;
    }
    return arena_printf(a, "the PDF library refused (its code 0x%04lX)",
                        pdf->failed);
}

HPDF_Dict object_dict(struct pdf *pdf) {
    if (pdf->failed != 0)
        return NULL;
    HPDF_Dict dict = HPDF_Dict_New(pdf->doc->mmgr);
    if (dict != NULL)
        HPDF_Xref_Add(pdf->doc->xref, dict); /* frees it when it fails */
    return object_fine(pdf) ? dict : NULL;
}

static HPDF_STATUS write_entries(HPDF_Dict dict, HPDF_Stream stream) {
    return HPDF_Stream_WriteStr(stream, dict->attr);
}

void object_entries(HPDF_Dict dict, const char *text) {
    if (dict == NULL)
        return;
    union { /* `attr` is not const, but only write_entries() looks at it */
        const char *text;
        void *attr;
    } both = {.text = text};
    dict->attr = both.attr;
    dict->write_fn = write_entries;
}

/* libharu's own filters stay off: what a stream holds is coded already. */
HPDF_Dict object_stream(struct pdf *pdf, const void *bytes, size_t len,
                        const char *entries) {
    if (pdf->failed != 0)
        return NULL;
    HPDF_Dict dict = HPDF_DictStream_New(pdf->doc->mmgr, pdf->doc->xref);
    if (!object_fine(pdf))
        return NULL;
    HPDF_Stream_Write(dict->stream, bytes, (HPDF_UINT)len);
    object_entries(dict, entries);
    return object_fine(pdf) ? dict : NULL;
}

HPDF_Dict object_packed(struct pdf *pdf, const void *bytes, size_t len,
                        const char *entries) {
    size_t packed_len;
    const void *packed = pack_deflate(pdf->arena, bytes, len, &packed_len);
    return object_stream(
        pdf, packed, packed_len,
        arena_printf(pdf->arena, "%s/Filter/FlateDecode", entries));
}

void object_fill(struct pdf *pdf, HPDF_Page page, const void *bytes,
                 size_t len) {
    HPDF_PageAttr attr = page->attr;
    HPDF_Stream_Write(attr->stream, bytes, (HPDF_UINT)len);
    object_entries(attr->contents, "/Filter/FlateDecode");
    object_fine(pdf);
}

void object_refer(struct buf *out, HPDF_Dict to) {
    unsigned long id = to == NULL ? 0 : to->header.obj_id & 0x00FFFFFF;
    char text[24];
    size_t at = sizeof text - 4;
    memcpy(text + at, " 0 R", 4);
    for (; id > 0 || at == sizeof text - 4; id /= 10)
        text[--at] = (char)('0' + id % 10);
    text[--at] = ' ';
    buf_add(out, text + at, sizeof text - at);
}

void object_add(struct pdf *pdf, HPDF_Dict dict, const char *key, void *value) {
    if (pdf->failed != 0)
        return;
    HPDF_Dict_Add(dict, key, value);
    object_fine(pdf);
}

void object_put_bytes(struct buf *out, struct text t) {
    buf_puts(out, "(");
    for (size_t i = 0; i < t.len; i++) {
        unsigned char c = (unsigned char)t.start[i];
        if (c == '(' || c == ')' || c == '\\')
            buf_printf(out, "\\%c", c);
        else if (c < ' ' || c > '~')
            buf_printf(out, "\\%03o", (unsigned)c);
        else
            buf_add(out, t.start + i, 1);
    }
    buf_puts(out, ")");
}

void object_put_hex(struct buf *out, unsigned long word) {
    static const char digits[] = "0123456789ABCDEF";
    const char hex[4] = {digits[word >> 12 & 15], digits[word >> 8 & 15],
                         digits[word >> 4 & 15], digits[word & 15]};
    buf_add(out, hex, sizeof hex);
}

void object_put_utf16(struct buf *out, struct text t) {
    for (size_t at = 0; at < t.len;) {
        unsigned long code = text_next(t, &at);
        if (code < 0x10000) {
            object_put_hex(out, code);
        } else {
            object_put_hex(out, 0xD800 + ((code - 0x10000) >> 10));
            object_put_hex(out, 0xDC00 + ((code - 0x10000) & 0x3FF));
        }
    }
}

void object_put_text(struct buf *out, struct text t) {
    bool ascii = true;
    for (size_t i = 0; i < t.len; i++)
        ascii = ascii && t.start[i] >= ' ' && t.start[i] <= '~';
    if (ascii) {
        object_put_bytes(out, t);
        return;
    }
    buf_puts(out, "<FEFF");
    object_put_utf16(out, t);
    buf_puts(out, ">");
}
