/* index.h - what was built from which bytes: build/index.txt.
 *
 * A guide whose sources, images, template, issued revisions and program are
 * what they were needs no new build. A file is what it was while its number,
 * size and time are; where they are not, or where the time is not older than
 * the index itself, its bytes are hashed again. The index may be deleted at any
 * time, and two builds at once write one or the other of theirs. */
#ifndef INDEX_H
#define INDEX_H

#include <stdbool.h>
#include <stddef.h>

struct arena;
struct compile;
struct file_reads;
struct index;

/* Of the library; NULL where it cannot be told which program this is. */
struct index *index_open(struct arena *a, const char *root);
/* Whether the PDF stands as it was built and would be built again, and its
 * pages and number. `how`: template, paper, vehicle, as one word. */
bool index_holds(struct index *x, const char *guide, const char *how,
                 const char *pdf, size_t *pages, const char **id);
/* A guide was built without a message. */
void index_record(struct index *x, const char *guide, const char *how,
                  const char *pdf, size_t pages, const char *id,
                  const struct file_reads *of);
/* Another guide of this number that stands as it was when it was last read:
 * its path; NULL: there is none. */
const char *index_twin(struct index *x, const char *guide, const char *id);
/* It was refused, or has messages: it is built again each time, and its number
 * is known (NULL: it has none). */
void index_tell(struct index *x, const char *guide, const char *how,
                const char *id, const struct file_reads *of);
/* Guides that it knows and whose files are gone, each once; it forgets them. Of
 * one of these names in another folder nothing is listed: its PDF has the same
 * name. */
size_t index_gone(struct index *x, const char *const **guide);
/* Writes it where it changed. A failure is no more than a slow next build. */
void index_close(struct index *x, struct compile *c);

#endif
