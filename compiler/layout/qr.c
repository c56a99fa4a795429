/* qr.c - a QR code drawn as rectangles: the only caller of libqrencode.
 *
 * Runs of dark modules are merged along the row, then with the same run of the
 * rows below, so that readers see no hairlines and the file stays small. */
#include "layout/qr.h"

#include "base/arena.h"

#include <qrencode.h>

enum { QUIET = 4 }; /* light modules on each side, ISO/IEC 18004 */

static bool is_dark(const QRcode *q, int row, int column) {
    return (q->data[row * q->width + column] & 1) != 0;
}

/* Exactly this run of dark modules stands in the row. */
static bool has_run(const QRcode *q, int row, int from, int to) {
    if (from > 0 && is_dark(q, row, from - 1))
        return false;
    if (to < q->width && is_dark(q, row, to))
        return false;
    for (int k = from; k < to; k++)
        if (!is_dark(q, row, k))
            return false;
    return true;
}

static void draw_run(const struct composer *c, struct slab *s, const QRcode *q,
                     int row, int from, int to, double x, double y,
                     double module) {
    if (row > 0 && has_run(q, row - 1, from, to))
        return; /* drawn with the row above */
    int last = row + 1;
    while (last < q->width && has_run(q, last, from, to))
        last++;
    slab_fill(c, s, x + (from + QUIET) * module, y + (row + QUIET) * module,
              (to - from) * module, (last - row) * module, style_black());
}

bool qr_draw(const struct composer *c, struct slab *s, double x, double y,
             double side, const char *payload) {
    QRcode *q = QRcode_encodeString(payload, 0, QR_ECLEVEL_M, QR_MODE_8, 1);
    if (q == NULL)
        return false;
    double module = side / (q->width + 2 * QUIET);
    for (int row = 0; row < q->width; row++)
        for (int from = 0; from < q->width; from++) {
            if (!is_dark(q, row, from))
                continue;
            int to = from;
            while (to < q->width && is_dark(q, row, to))
                to++;
            draw_run(c, s, q, row, from, to, x, y, module);
            from = to;
        }
    QRcode_free(q);
    return true;
}
