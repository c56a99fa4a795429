/* diagram.h - a circuit in a guide of its own, and what is drawn of it. */
#ifndef DIAGRAM_H
#define DIAGRAM_H

#include "workshop.h"

static const char diagram_frame[] =
    "```supply battery\nchemistry: flooded\ngrounded post: negative\n"
    "resting: 12.6 V\ncharging: 13.8 V\nresistance: 8 mohm\n```\n\n"
    "```supply alternator\nchemistry: none\ncharging: 14 V\n"
    "resistance: 20 mohm\n```\n\n"
    "```wire\nconductor: AWG stranded\ninsulation: 105 degC\n```\n\n"
    "```circuit loom\nas found: yes\n%s```\n\n"
    "## Procedure\n\n1. Look at the lamps.\n";

/* The pages of a guide with these settings and this circuit. */
static inline struct pages *
diagram_pages(struct workshop *w, const char *settings, const char *circuit) {
    return workshop_sound(
        w,
        workshop_guide(w, settings,
                       arena_printf(w->compile.arena, diagram_frame, circuit)));
}

/* Whether an op belongs to a diagram on its page, or to its key. */
static inline bool diagram_has(const struct pages *p, const struct op *op) {
    return op->tag > 0 && p->tag[op->tag - 1].kind == TAG_FIGURE &&
           (text_starts(p->tag[op->tag - 1].words, "Diagram of the circuit") ||
            text_is(p->tag[op->tag - 1].words, "Key to the symbols"));
}

/* A letter stands in its symbol, nothing else over anything. */
static inline bool diagram_is_letter(const struct op *op) {
    return op->text.len == 1;
}

static inline void diagram_check_words(const struct pages *p,
                                       const struct page *page,
                                       const char *source) {
    for (size_t i = 0; i < page->op_count; i++) {
        const struct op *op = &page->ops[i];
        if (op->kind != OP_TEXT || !diagram_has(p, op) || diagram_is_letter(op))
            continue;
        struct geometry_box box = geometry_of(op);
        for (size_t k = 0; k < page->op_count; k++) {
            const struct op *other = &page->ops[k];
            struct geometry_box b = geometry_of(other);
            if (k == i || other->kind == OP_TEXT || !diagram_has(p, other))
                continue;
            b.left -= other->line_width / 2;
            b.right += other->line_width / 2;
            if (geometry_overlap(box, b))
                fail_msg("'%.*s' over a line or symbol at %.1f %.1f:\n%s",
                         (int)op->text.len, op->text.start, op->x, op->y,
                         source);
        }
    }
}

#endif
