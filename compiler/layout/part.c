/* part.c - the parts that a guide's pages are made of. */
#include "layout/part.h"

#include "source/tree.h"

#include <ctype.h>
#include <stdbool.h>
#include <stddef.h>

static const struct {
    const char *word, *title; /* NULL: no section belongs to it */
} parts[PART_COUNT] = {
    [PART_TITLE] = {"title", NULL},
    [PART_PARTICULARS] = {"particulars", NULL},
    [PART_APPLICABILITY] = {"applicability", NULL},
    [PART_CHANGES] = {"changes", NULL},
    [PART_OPENING] = {"opening", NULL},
    [PART_PURPOSE] = {"purpose", "Purpose"},
    [PART_SAFETY] = {"safety", "Safety summary"},
    [PART_PRELIMINARY] = {"preliminary", "Before you start"},
    [PART_PARTS] = {"parts", "Parts"},
    [PART_ELECTRICAL] = {"electrical", "Electrical data"},
    [PART_TORQUE] = {"torque", "Torque"},
    [PART_AS_FOUND] = {"as-found", "As found"},
    [PART_PROCEDURE] = {"procedure", "Procedure"},
    [PART_LIMITS] = {"limits", "Limits"},
    [PART_TEST] = {"test", "Test"},
    [PART_CLOSE_UP] = {"close-up", "Close-up"},
    [PART_FAULTS] = {"faults", "Faults"},
    [PART_OWNER] = {"owner", "For the owner"},
    [PART_RECORDS] = {"records", "Records and sign-off"},
    [PART_CALCULATIONS] = {"calculations", "Calculations"},
    [PART_JOB] = {"job", NULL},
    [PART_COMPLAINT] = {"complaint", NULL},
    [PART_WORK] = {"work", NULL},
    [PART_READINGS] = {"readings", NULL},
    [PART_MEASURED] = {"measured", NULL},
    [PART_FITTED] = {"fitted", NULL},
    [PART_RATINGS] = {"ratings", NULL},
    [PART_WATCH] = {"watch", NULL},
    [PART_NEXT_CHECK] = {"next-check", NULL},
    [PART_SIGNED] = {"signed", NULL},
};

static bool same_letters(struct text a, const char *b) {
    struct text t = text_of(b);
    if (a.len != t.len)
        return false;
    for (size_t i = 0; i < t.len; i++)
        if (tolower((unsigned char)a.start[i]) !=
            tolower((unsigned char)t.start[i]))
            return false;
    return true;
}

const char *part_word(enum part_id part) {
    return parts[part].word;
}

enum part_id part_by_word(struct text word) {
    for (int i = 0; i < PART_COUNT; i++)
        if (text_is(word, parts[i].word))
            return (enum part_id)i;
    return PART_COUNT;
}

const char *part_near(struct text title) {
    struct nearest near = nearest_to(title);
    for (int i = 0; i < PART_COUNT; i++)
        if (parts[i].title != NULL)
            nearest_offer(&near, text_of(parts[i].title));
    return near.best;
}

enum part_id part_by_title(struct text title) {
    for (int i = 0; i < PART_COUNT; i++)
        if (parts[i].title != NULL && same_letters(title, parts[i].title))
            return (enum part_id)i;
    return PART_COUNT;
}

enum part_id part_of_section(struct arena *a, const struct node *section) {
    return part_by_title(tree_plain(a, section->text));
}
