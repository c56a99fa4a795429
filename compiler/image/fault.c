/* fault.c - what is wrong with an image, noted and told. */
#include "image/fault.h"

#include "base/diag.h"

#include <stdarg.h>
#include <stdint.h>

bool fault_note(struct image_report *r, enum image_fault fault,
                const char *words, ...) {
    va_list args;
    r->fault = fault;
    va_start(args, words);
    vsnprintf(r->words, sizeof r->words, words, args);
    va_end(args);
    return false;
}

bool fault_size(struct image_report *r, unsigned long width,
                unsigned long height) {
    if (width == 0 || height == 0)
        return fault_note(r, IMAGE_DAMAGED, "it has no pixels");
    if (width > IMAGE_SIDE_MAX || height > IMAGE_SIDE_MAX)
        return fault_note(r, IMAGE_LARGE,
                          "%lu by %lu pixels; at most %d a side", width, height,
                          IMAGE_SIDE_MAX);
    if ((uint64_t)width * height > IMAGE_PIXELS_MAX)
        return fault_note(r, IMAGE_LARGE,
                          "%lu by %lu pixels; at most %d million", width,
                          height, IMAGE_PIXELS_MAX / 1000000);
    return true;
}

void image_tell(struct diags *d, struct span at, const char *path,
                const struct image_report *report) {
    static const enum diag_id ids[] = {
        [IMAGE_UNKNOWN] = DIAG_IMAGE_UNKNOWN,
        [IMAGE_DAMAGED] = DIAG_IMAGE_DAMAGED,
        [IMAGE_LARGE] = DIAG_IMAGE_LARGE,
        [IMAGE_INKS] = DIAG_IMAGE_INKS,
        [IMAGE_UNCOMMON] = DIAG_IMAGE_UNCOMMON,
    };
    if (report->fault != IMAGE_GOOD)
        diag_add(d, ids[report->fault], at, "%s: %s", path, report->words);
}
