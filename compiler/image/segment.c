/* segment.c - the segments in front of a JPEG's samples (ITU-T T.81, annex B;
 * Exif in APP1: CIPA DC-008, 4.5 and 4.6, a TIFF header and directory). */
#include "image/segment.h"

#include "base/arena.h"

#include <string.h>

enum marker {
    MARKER_APP0 = 0xE0,
    MARKER_APP1 = 0xE1,
    MARKER_APP14 = 0xEE,
    MARKER_APP15 = 0xEF,
    MARKER_COM = 0xFE,
    MARKER_SOS = 0xDA,
};

struct segment {
    unsigned marker;
    const unsigned char *data; /* behind the length */
    size_t len;
    size_t start, end; /* in the file, the marker included */
};

/* The segment at *at, and past it. False at the samples, and at anything that
 * is no segment. */
static bool next_segment(const unsigned char *bytes, size_t len, size_t *at,
                         struct segment *s) {
    s->start = *at;
    size_t i = *at;
    if (i >= len || bytes[i] != 0xFF)
        return false;
    while (i < len && bytes[i] == 0xFF) /* may be filled up */
        i++;
    if (len - i < 3)
        return false;
    s->marker = bytes[i];
    size_t size = (size_t)bytes[i + 1] << 8 | bytes[i + 2];
    if (s->marker == MARKER_SOS || size < 2 || size > len - i - 1)
        return false;
    s->data = bytes + i + 3;
    s->len = size - 2;
    s->end = *at = i + 1 + size;
    return true;
}

static bool starts(const struct segment *s, const char *name, size_t len) {
    return s->len >= len && memcmp(s->data, name, len) == 0;
}

struct tiff {
    const unsigned char *bytes;
    size_t len;
    bool little; /* the low byte first */
};

/* Nought beyond the end, which no field that is looked for holds. */
static size_t tiff_number(const struct tiff *t, size_t at, size_t size) {
    size_t n = 0;
    if (at > t->len || size > t->len - at)
        return 0;
    for (size_t i = 0; i < size; i++)
        n = n << 8 | t->bytes[at + (t->little ? size - 1 - i : i)];
    return n;
}

static unsigned turn_of(const struct tiff *t) {
    enum { ENTRY_LEN = 12, TAG_ORIENTATION = 0x0112, TYPE_SHORT = 3 };
    size_t directory = tiff_number(t, 4, 4);
    size_t count = tiff_number(t, directory, 2);
    for (size_t i = 0; i < count; i++) {
        size_t entry = directory + 2 + i * ENTRY_LEN;
        if (tiff_number(t, entry, 2) != TAG_ORIENTATION)
            continue;
        size_t turn = tiff_number(t, entry + 8, 2);
        bool fits = tiff_number(t, entry + 2, 2) == TYPE_SHORT && turn >= 1 &&
                    turn <= 8;
        return fits ? (unsigned)turn : 1;
    }
    return 1;
}

unsigned segment_turn(const unsigned char *bytes, size_t len) {
    size_t at = 2;
    struct segment s;
    while (next_segment(bytes, len, &at, &s)) {
        if (s.marker != MARKER_APP1 || !starts(&s, "Exif\0\0", 6))
            continue;
        struct tiff t = {s.data + 6, s.len - 6, false};
        t.little = t.len > 0 && t.bytes[0] == 'I';
        return turn_of(&t);
    }
    return 1;
}

static bool is_needed(const struct segment *s) {
    if (s->marker == MARKER_APP0)
        return starts(s, "JFIF\0", 5);
    if (s->marker == MARKER_APP14)
        return starts(s, "Adobe", 5);
    return (s->marker < MARKER_APP0 || s->marker > MARKER_APP15) &&
           s->marker != MARKER_COM;
}

unsigned char *segment_strip(struct arena *a, const unsigned char *bytes,
                             size_t len, size_t *out_len) {
    unsigned char *out = arena_alloc(a, len, 1);
    size_t at = 2, count = 2;
    struct segment s;
    memcpy(out, bytes, 2);
    while (next_segment(bytes, len, &at, &s)) {
        if (!is_needed(&s))
            continue;
        memcpy(out + count, bytes + s.start, s.end - s.start);
        count += s.end - s.start;
    }
    memcpy(out + count, bytes + at, len - at);
    *out_len = count + (len - at);
    return out;
}
