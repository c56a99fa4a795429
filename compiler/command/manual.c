/* manual.c - the manual page, in the mdoc language that man reads.
 *
 * Commands, options and kinds come from their tables; what no table holds, such
 * as files and examples, stands here. */
#include "base/version.h"
#include "command/command.h"
#include "command/forms.h"
#include "command/option.h"
#include "command/wording.h"
#include "source/kind.h"

#include <string.h>

static void add_word(struct buf *b, struct text word) {
    if (word.start[0] == '.' || word.start[0] == '\'')
        buf_puts(b, "\\&");
    for (size_t at = 0; at < word.len;) {
        size_t from = at;
        uint32_t code = text_next(word, &at);
        if (code == '\\')
            buf_puts(b, "\\e");
        else if (code == '-')
            buf_puts(b, "\\-");
        else if (code >= 0x80)
            buf_printf(b, "\\[u%04X]", (unsigned)code);
        else
            buf_add(b, word.start + from, at - from);
    }
}

enum { LINE_MAX_LEN = 78 };

/* Running text, a line for each sentence; nothing in it is a request or an
 * escape. */
static void add_text(struct buf *b, const char *s) {
    struct text rest = text_trim(text_of(s));
    size_t line = b->len;
    while (rest.len > 0) {
        size_t end = 0;
        while (end < rest.len && rest.start[end] != ' ')
            end++;
        struct buf word = buf_in(b->arena);
        add_word(&word, text_part(rest, 0, end));
        bool sentence = rest.start[end - 1] == '.';
        rest = text_trim(text_part(rest, end, rest.len));
        if (b->len > line) {
            bool full = b->len + 1 + word.len - line > LINE_MAX_LEN;
            buf_puts(b, full ? "\n" : " ");
            line = full ? b->len : line;
        }
        buf_text(b, buf_as_text(&word));
        if (sentence || rest.len == 0) {
            buf_puts(b, "\n");
            line = b->len;
        }
    }
}

/* An argument of a macro: quoted, so that words of two letters stay words. */
static void add_argument(struct buf *b, const char *argument) {
    const char *s = argument;
    buf_puts(b, "\"");
    for (; *s != '\0'; s++)
        buf_puts(b, *s == '"'    ? "\\(dq"
                    : *s == '\\' ? "\\e"
                    : *s == '-'  ? "\\-"
                                 : (char[]){*s, '\0'});
    /* A bracket at its end would count as punctuation. */
    buf_puts(b, s > argument && s[-1] == ']' ? "\\&\"" : "\"");
}

static void add_macro(struct buf *b, const char *macro, const char *argument) {
    buf_printf(b, ".%s ", macro);
    add_argument(b, argument);
    buf_puts(b, "\n");
}

/* "[GUIDE...]" to `.Op Ar guide ...`, "a|b" to `.Cm a | b`, NAME to an
 * argument. */
static void add_synopsis(struct buf *b, const char *synopsis) {
    struct text rest = text_of(synopsis);
    while (rest.len > 0) {
        size_t end = 0;
        while (end < rest.len && rest.start[end] != ' ')
            end++;
        struct text word = text_part(rest, 0, end);
        rest = text_trim(text_part(rest, end, rest.len));
        bool optional = text_starts(word, "[");
        if (optional)
            word = text_part(word, 1, word.len - 1);
        bool literal = memchr(word.start, '|', word.len) != NULL;
        bool repeats = word.len > 3 &&
                       text_is(text_part(word, word.len - 3, word.len), "...");
        if (repeats)
            word = text_part(word, 0, word.len - 3);
        buf_printf(b, ".%s%s ", optional ? "Op " : "", literal ? "Cm" : "Ar");
        for (size_t i = 0; i < word.len; i++) {
            if (word.start[i] == '|')
                buf_puts(b, " | ");
            else
                buf_add(b, word.start + i, 1);
        }
        buf_printf(b, "%s\n", repeats ? " ..." : "");
    }
}

static void add_all_synopses(struct buf *b) {
    const struct command *c;
    for (size_t i = 0; (c = command_at(i)) != NULL; i++) {
        bool any = false;
        const struct option *o;
        buf_printf(b, ".Nm bayleaf\n.Cm %s\n", c->name);
        for (size_t k = 0; (o = option_at(k)) != NULL; k++)
            any = any || o->fits(c);
        if (any)
            buf_puts(b, ".Op Ar option ...\n");
        add_synopsis(b, c->synopsis);
    }
    buf_puts(b, ".Nm bayleaf\n.Fl \\-help\n.Nm bayleaf\n.Fl \\-version\n");
}

static void add_commands(struct buf *b) {
    const struct command *c;
    buf_puts(b, ".Bl -tag -width Ds\n");
    for (size_t i = 0; (c = command_at(i)) != NULL; i++) {
        buf_printf(b, ".It Cm %s\n", c->name);
        add_text(b, c->meaning);
    }
    buf_puts(b, ".El\n");
}

static void add_options(struct buf *b) {
    const struct option *o;
    buf_puts(b, ".Bl -tag -width Ds\n");
    for (size_t i = 0; (o = option_at(i)) != NULL; i++) {
        buf_printf(b, ".It Fl \\-%s", o->name + 2);
        if (o->value != NULL) {
            buf_puts(b, " Ns = Ns Cm ");
            for (const char *s = o->value; *s != '\0'; s++)
                buf_puts(b, *s == '|' ? " | " : (char[]){*s, '\0'});
        }
        buf_puts(b, "\n");
        add_text(b, o->meaning);
    }
    buf_puts(b, ".It Fl \\-help\nthe commands and options\n"
                ".It Fl \\-version\nname and version\n.El\n");
}

static void add_row(struct buf *b, const char *name, const char *value,
                    const char *meaning, const char *remark) {
    add_macro(b, "It Ic", name);
    struct buf line = buf_in(b->arena);
    buf_printf(&line, "%s%s%s%s", meaning, remark, value[0] == '\0' ? "" : "; ",
               value);
    add_text(b, buf_cstr(&line));
}

static const char *remark_of(bool required, bool repeats) {
    return required ? " (required)" : repeats ? " (may be repeated)" : "";
}

static void add_settings(struct buf *b, const struct kind *k) {
    if (k->settings == NULL)
        return;
    buf_puts(b, ".Pp\nSettings:\n.Bl -tag -width 16n -compact\n");
    for (const struct setting *s = k->settings; s->name != NULL; s++) {
        struct buf value = buf_in(b->arena);
        wording_value(&value, s->type, s->unit, s->choices);
        add_row(b, s->name, buf_cstr(&value), s->meaning,
                remark_of(s->required, s->repeats));
    }
    buf_puts(b, ".El\n");
}

static void add_columns(struct buf *b, const struct kind *k) {
    if (k->columns == NULL)
        return;
    buf_puts(b, ".Pp\nColumns, which the first row names:\n"
                ".Bl -tag -width 16n -compact\n");
    for (const struct column *c = k->columns; c->name != NULL; c++) {
        struct buf value = buf_in(b->arena);
        wording_value(&value, c->type, c->unit, NULL);
        add_row(b, c->name, buf_cstr(&value), c->meaning,
                remark_of(c->required, c->repeats));
    }
    buf_puts(b, ".El\n");
}

static void add_fields(struct buf *b, const struct kind *k) {
    if (k->fields == NULL)
        return;
    buf_puts(b, ".Pp\nValues that it gives, as NAME.value:\n"
                ".Bl -tag -width 16n -compact\n");
    for (const struct field *f = k->fields; f->name != NULL; f++)
        add_row(b, f->name, wording_unit(f->unit), f->meaning, "");
    buf_puts(b, ".El\n");
}

static void add_kinds(struct buf *b) {
    for (int i = 0; i < KIND_COUNT; i++) {
        const struct kind *k = kind_by_id((enum kind_id)i);
        struct buf heading = buf_in(b->arena), places = buf_in(b->arena);
        wording_heading(&heading, k);
        wording_places(&places, k);
        add_macro(b, "Ss", buf_cstr(&heading));
        struct buf line = buf_in(b->arena);
        wording_sentence(&line, k->meaning);
        buf_printf(&line, " Stands in %s.", buf_cstr(&places));
        add_text(b, buf_cstr(&line));
        if (k->flags & KIND_HOLDS_DEFINITIONS)
            buf_puts(b, ".Pp\nIts lines are definitions: name = value.\n");
        if (k->flags & KIND_HOLDS_REQUIREMENTS)
            buf_puts(b, ".Pp\nIts lines are requirements: left <= right.\n");
        if (k->flags & KIND_FREE_COLUMNS)
            buf_puts(b, ".Pp\nIt holds rows; the columns are your own.\n");
        add_settings(b, k);
        add_columns(b, k);
        add_fields(b, k);
    }
}

static const char about[] =
    "compiles shop procedures, written in Markdown, into checked, printable\n"
    "guides.\n"
    "A guide of which one number does not hold, in any variant of the vehicle\n"
    "and at the worst end of any tolerance, is not printed; the message says\n"
    "which, by how much, and what would pass.\n"
    ".Pp\n"
    "A library is a folder with\n"
    ".Pa procedures/\n"
    "in it; the nearest one, from the current folder upward, is worked in.\n"
    "A\n"
    ".Ar GUIDE\n"
    "is a file, or the name of one in\n"
    ".Pa procedures/ ;\n"
    "none means all of them.\n"
    ".Pp\n"
    "The commands are:\n";

static const char files[] =
    ".Sh ENVIRONMENT\n"
    ".Bl -tag -width NO_COLOR\n"
    ".It Ev NO_COLOR\n"
    "set and not empty: no colour in messages, on a terminal either\n"
    ".El\n"
    ".Sh FILES\n"
    "In a library:\n"
    ".Bl -tag -width Ds\n"
    ".It Pa procedures/\\&*.md\n"
    "guides\n"
    ".It Pa procedures/facts/\n"
    "facts of the vehicles and the shop, which guides name by\n"
    ".Ic uses\n"
    ".It Pa procedures/shared/\n"
    "steps that many guides include\n"
    ".It Pa templates/hazards.md\n"
    "the library's own hazard catalogue; without it the one in the program\n"
    ".It Pa templates/NAME.md\n"
    "what pages look like; without it the one of that name in the program\n"
    ".It Pa build/\n"
    "finished PDFs; those of refused guides move to\n"
    ".Pa build/withdrawn/\n"
    "until they build again\n"
    ".El\n"
    ".Pp\n"
    "Beside the program, under the prefix that it was installed to:\n"
    ".Bl -tag -width Ds\n"
    ".It Pa share/bayleaf/templates/\n"
    "the hazard catalogue, the templates and the examples of\n"
    ".Cm start ,\n"
    "to read and to copy\n"
    ".It Pa share/doc/bayleaf/\n"
    "the source language, what each message means, a first guide step by step\n"
    ".El\n"
    ".Sh EXIT STATUS\n"
    ".Bl -tag -width Ds\n"
    ".It 0\n"
    "all was built, or only warned of\n"
    ".It 1\n"
    "a guide was refused: it is sound but its numbers do not hold\n"
    ".It 2\n"
    "a mistake in a source or on the command line\n"
    ".It 3\n"
    "the system failed: cannot read, cannot write, no memory\n"
    ".El\n"
    ".Sh EXAMPLES\n"
    "A library with one guide in it, printed:\n"
    ".Bd -literal -offset indent\n"
    "bayleaf start library shop\n"
    "cd shop\n"
    "bayleaf build\n"
    ".Ed\n"
    ".Pp\n"
    "How the size of a wire came about:\n"
    ".Pp\n"
    ".Dl bayleaf why water\\-pump feed.size\n"
    ".Pp\n"
    "One calculation at the bench:\n"
    ".Bd -literal -offset indent\n"
    "bayleaf size wire load=\\(dq30 A\\(dq loop=\\(dq16 ft\\(dq "
    "supply=\\(dq13.5 V\\(dq \\e\n"
    "    insulation=\\(dq105 degC\\(dq ambient=\\(dq50 degC\\(dq "
    "conductor=\\(dqAWG stranded\\(dq\n"
    ".Ed\n"
    ".Sh CAVEATS\n"
    "Numbers are checked against published tables and against what the author\n"
    "states, not against the vehicle.\n"
    "Local codes, the figures of the vehicle's maker and licensed practice "
    "come\n"
    "first.\n";

void manual_write(struct buf *b) {
    buf_puts(b, ".Dd " BAYLEAF_DATE
                "\n.Dt BAYLEAF 1\n.Os \"bayleaf " BAYLEAF_VERSION
                "\"\n.Sh NAME\n.Nm bayleaf\n"
                ".Nd compile shop procedures into checked, printable guides\n"
                ".Sh SYNOPSIS\n");
    add_all_synopses(b);
    buf_puts(b, ".Sh DESCRIPTION\n.Nm\n");
    buf_puts(b, about);
    add_commands(b);
    buf_puts(b, ".Pp\nThe options are:\n");
    add_options(b);
    buf_puts(b, ".Sh KINDS OF BLOCK\n"
                "A block of a source is a fenced code block of Markdown whose "
                "first line is its\nkind, and for some a name.\n");
    add_kinds(b);
    buf_puts(b, files);
}
