/* stale.h - PDFs in build/ that say what no guide says any more. */
#ifndef STALE_H
#define STALE_H

#include <stddef.h>

struct arena;
struct file_reads;

/* The PDFs of a guide, but for the one that was just written, that are older
 * than a file that this one was made of: by other templates, for one vehicle.
 * What templates say is no reason. */
size_t stale_prints(struct arena *a, const char *root, const char *stem,
                    const char *written, const struct file_reads *of,
                    const char *const **list);

#endif
