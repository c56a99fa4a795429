/* store.h - finished files: whole or not at all. */
#ifndef STORE_H
#define STORE_H

#include <stdbool.h>
#include <stddef.h>

struct arena;
struct compile;

/* Writes a temporary file beside `path`, syncs it and renames it, so that path
 * holds the old bytes or the new ones, never half of them. Makes the folder
 * when it is missing, and removes what store_withdraw() put away under that
 * name. false after a message. */
bool store_write(struct compile *c, const char *path,
                 const unsigned char *bytes, size_t len);
/* The same for what is made again when it is lost, and tells by itself whether
 * it is whole: nothing waits for the disk, and a power cut may leave less. */
bool store_keep(struct compile *c, const char *path, const unsigned char *bytes,
                size_t len);
/* Whether a file holds these bytes already. */
bool store_has(const char *path, const unsigned char *bytes, size_t len);
/* The same for many files of one folder: what is added stands under its name
 * once store_wait() says that all of them are synced. */
struct store_batch;
struct store_batch *store_open(struct arena *a);
bool store_add(struct store_batch *s, struct compile *c, const char *path,
               const unsigned char *bytes, size_t len);
/* Begins to sync them and goes on, so that the next ones are computed
 * meanwhile. Until store_wait() the batch, its arena and c are not touched. */
void store_close(struct store_batch *s, struct compile *c);
/* Once for each store_close(). false: one is not there; the message is in c. */
bool store_wait(struct store_batch *s);
/* After store_wait(): whether this one of them stands under its name. */
bool store_named(const struct store_batch *s, const char *path);
/* Removes the temporary files in the folder of `path` that a killed run left. A
 * run at work holds a lock on its own, which stays; call it before this process
 * writes one, since closing a file gives up the locks of a process on it. */
void store_sweep(struct arena *a, const char *path);
/* Writes a file that must not be there yet; nothing is left of one that could
 * not be written whole. false with *exists when something of that name is
 * there, else after a message. */
bool store_create(struct compile *c, const char *path,
                  const unsigned char *bytes, size_t len, bool *exists);
/* Moves a refused guide's last PDF to withdrawn/ beside it. true also when
 * there was none; *moved tells where it went, or NULL. */
bool store_withdraw(struct compile *c, const char *path, const char **moved);

#endif
