/* object.h - objects of a PDF file, through libharu's object layer.
 *
 * libharu writes the file: header, objects, streams, cross references, trailer.
 * The entries of our own dictionaries we write as text, and pack the streams.
 *
 * libharu's errors stick and are replaced by vaguer ones, so the first is kept
 * here; from then on each call does nothing, and the caller asks at the end. */
#ifndef OBJECT_H
#define OBJECT_H

#include "base/text.h"

#include <hpdf.h>
#include <hpdf_doc.h>
#include <hpdf_pages.h>
#include <stdbool.h>

struct arena;

/* malloc() and free() when absent; a test hands in memory that runs out. */
struct object_memory {
    void *(*take)(unsigned size);
    void (*give)(void *piece);
};

struct pdf {
    struct arena *arena;
    HPDF_Doc doc;
    unsigned long failed; /* the first error of libharu; 0: none */
};

void object_open(struct pdf *pdf, struct arena *a,
                 const struct object_memory *memory);
void object_close(struct pdf *pdf);
/* The finished file; NULL when anything failed. */
unsigned char *object_save(struct pdf *pdf, size_t *len);
/* What went wrong, in words; NULL when nothing did. */
const char *object_failure(const struct pdf *pdf, struct arena *a);

/* Notes libharu's own error, if there is one. False when anything failed. */
bool object_fine(struct pdf *pdf);

/* Dictionaries that other objects can refer to. NULL after a failure, which the
 * functions below take without harm. */
HPDF_Dict object_dict(struct pdf *pdf);
/* A stream: the bytes as they are, with entries that say how they are coded; or
 * packed here, which the entries are not to say. */
HPDF_Dict object_stream(struct pdf *pdf, const void *bytes, size_t len,
                        const char *entries);
HPDF_Dict object_packed(struct pdf *pdf, const void *bytes, size_t len,
                        const char *entries);
/* The contents of a page that has none yet; they are packed. */
void object_fill(struct pdf *pdf, HPDF_Page page, const void *bytes,
                 size_t len);
/* Entries besides those that libharu writes: "/Type/Font ...". The text must
 * live as long as the document; the dictionary must have no use for its `attr`.
 */
void object_entries(HPDF_Dict dict, const char *text);
void object_refer(struct buf *out, HPDF_Dict to); /* " 12 0 R" */
void object_add(struct pdf *pdf, HPDF_Dict dict, const char *key, void *value);

/* Four hexadecimal digits. */
void object_put_hex(struct buf *out, unsigned long word);
/* UTF-16, high byte first, as hexadecimal digits. */
void object_put_utf16(struct buf *out, struct text t);
/* A text string: as it is when ASCII, else in UTF-16. */
void object_put_text(struct buf *out, struct text t);
/* "(...)" with the bytes as they are. */
void object_put_bytes(struct buf *out, struct text t);

#endif
