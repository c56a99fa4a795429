/* lookup.c - `bayleaf size` for what is no block. */
#include "command/lookup.h"

#include <stdio.h>
#include <string.h>

static const struct lookup lookups[] = {
    {"convert",
     {"value", "to"},
     {"", NULL},
     "value, to",
     "a quantity in another unit",
     lookup_convert},
    {"thread",
     {"thread"},
     {NULL},
     "thread",
     "diameters and stress area of a screw thread",
     lookup_thread},
    {"crimp",
     {"size", "conductor"},
     {NULL, NULL},
     "size",
     "colour, pull-out force and tabs for a wire",
     lookup_crimp},
    {"extension",
     {"torque", "wrench length", "extension", "extension angle"},
     {"N.m", "m", "m", "deg"},
     "torque, wrench-length, extension",
     "what a wrench is set to with an extension",
     lookup_extension},
    {"ground-pair",
     {"metal", "other", "exposure"},
     {NULL, NULL, NULL},
     "metal, other",
     "two metals in one joint: which wastes away",
     lookup_ground_pair},
    {"tap",
     {"thread"},
     {NULL},
     "thread",
     "tap drill and clearance holes of a thread",
     lookup_tap},
    {"pilot",
     {"screw", "sheet"},
     {NULL, "m"},
     "screw",
     "pilot holes and torque of a tapping screw; sheet: its thickness",
     lookup_pilot},
    {"pattern",
     {"pattern", "count"},
     {NULL, "1"},
     "pattern, count",
     "order of tightening: star or spiral, 3 to 16 fasteners",
     lookup_pattern},
    {"tab",
     {"tab", "size", "conductor"},
     {NULL, NULL, NULL},
     "tab, size",
     "current through a quick-connect tab, by its wire",
     lookup_tab},
    {"stud",
     {"stud"},
     {NULL},
     "stud",
     "current through a stud, and the hole of its ring",
     lookup_stud},
    {"fuse-style",
     {"style"},
     {NULL},
     "style",
     "ratings, colours and limits of a style of fuse",
     lookup_fuse_style},
};

enum { LOOKUPS = sizeof lookups / sizeof lookups[0] };

const struct lookup *lookup_find(const char *name) {
    for (size_t i = 0; i < LOOKUPS; i++)
        if (strcmp(lookups[i].name, name) == 0)
            return &lookups[i];
    return NULL;
}

const struct lookup *lookup_at(size_t index) {
    return index < LOOKUPS ? &lookups[index] : NULL;
}

static bool same_key(const char *name, const char *word, size_t len) {
    if (strlen(name) != len)
        return false;
    for (size_t i = 0; i < len; i++)
        if (name[i] != word[i] && !(name[i] == ' ' && word[i] == '-'))
            return false;
    return true;
}

static int take_word(const struct lookup *l, const char *word,
                     const char **value) {
    const char *equals = strchr(word, '=');
    if (equals == NULL || equals == word)
        return command_usage("'%s' is not SETTING=VALUE", word);
    for (const char *s = word; *s != '\0'; s++)
        if ((unsigned char)*s < 0x20)
            return command_usage("a value stands on one line");
    size_t len = (size_t)(equals - word);
    for (size_t i = 0; l->inputs[i] != NULL; i++)
        if (same_key(l->inputs[i], word, len)) {
            value[i] = equals + 1;
            return STATUS_GOOD;
        }
    return command_usage("%s has no setting '%.*s'; it wants %s", l->name,
                         (int)len, word, l->wanted);
}

static size_t count_wanted(const struct lookup *l) {
    size_t commas = 1;
    for (const char *s = l->wanted; *s != '\0'; s++)
        commas += *s == ',';
    return commas;
}

int lookup_run(const struct lookup *l, const struct request *r) {
    const char *value[8] = {NULL};
    for (size_t i = 1; i < r->word_count; i++) {
        int status = take_word(l, r->word[i], value);
        if (status != STATUS_GOOD)
            return status;
    }
    for (size_t i = 0; i < count_wanted(l); i++)
        if (value[i] == NULL)
            return command_usage("%s wants %s", l->name, l->wanted);
    return l->run(l, r, value);
}
