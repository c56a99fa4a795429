/* completion.c - the completion of command lines, for bash.
 *
 * What may stand at each place follows from the synopsis of a command: a word
 * of it in capitals names what is completed, `a|b` lists it, `...` repeats. */
#include "base/version.h"
#include "command/command.h"
#include "command/forms.h"
#include "command/lookup.h"
#include "command/option.h"
#include "command/wording.h"
#include "source/kind.h"

#include <string.h>

static void add_spaced(struct buf *b, const char *list) {
    for (const char *s = list; *s != '\0'; s++)
        buf_add(b, *s == '|' ? " " : s, 1);
}

static void add_commands(struct buf *b) {
    const struct command *c;
    for (size_t i = 0; (c = command_at(i)) != NULL; i++)
        buf_printf(b, "%s%s", i == 0 ? "" : " ", c->name);
}

static void add_kinds(struct buf *b, bool computed) {
    const struct lookup *l;
    bool first = true;
    for (int i = 0; i < KIND_COUNT; i++) {
        const struct kind *k = kind_by_id((enum kind_id)i);
        if (computed && k->fields == NULL)
            continue;
        buf_printf(b, "%s%s", first ? "" : " ", k->name);
        first = false;
    }
    if (!computed) {
        buf_puts(b, " ");
        add_commands(b);
        return;
    }
    for (size_t i = 0; (l = lookup_at(i)) != NULL; i++)
        buf_printf(b, " %s", l->name);
}

/* KEY= for each setting: `bayleaf size wire load="30 A"`. */
static void add_settings(struct buf *b, const struct kind *k) {
    for (const struct setting *s = k->settings; s != NULL && s->name != NULL;
         s++) {
        buf_puts(b, " ");
        wording_dashed(b, s->name);
        buf_puts(b, "=");
    }
}

static void add_calculation(struct buf *b, const struct kind *k) {
    buf_printf(b, "            size:%s) words='", k->name);
    add_settings(b, k);
    if (k->id == KIND_FUSE) /* and those of the wire behind it */
        add_settings(b, kind_by_id(KIND_WIRE));
    buf_puts(b, "' ;;\n");
}

static void add_lookup(struct buf *b, const struct lookup *l) {
    buf_printf(b, "            size:%s) words='", l->name);
    for (size_t i = 0; l->inputs[i] != NULL; i++) {
        buf_puts(b, " ");
        wording_dashed(b, l->inputs[i]);
        buf_puts(b, "=");
    }
    buf_puts(b, "' ;;\n");
}

/* "guide" or words, for one word of a synopsis without its brackets. */
static void add_place(struct buf *b, const struct command *c,
                      struct text word) {
    if (text_is(word, "GUIDE")) {
        buf_puts(b, "words=$(_bayleaf_guides)");
    } else if (text_is(word, "KIND")) {
        buf_puts(b, "words='");
        add_kinds(b, c->run == command_size);
        buf_puts(b, "'");
    } else if (memchr(word.start, '|', word.len) != NULL) {
        buf_puts(b, "words='");
        add_spaced(b, text_cstr(b->arena, word));
        buf_puts(b, "'");
    } else {
        buf_puts(b, ":");
    }
}

static void add_command(struct buf *b, const struct command *c) {
    struct text rest = text_of(c->synopsis);
    for (size_t place = 0; rest.len > 0; place++) {
        size_t end = 0;
        while (end < rest.len && rest.start[end] != ' ')
            end++;
        struct text word = text_part(rest, 0, end);
        rest = text_trim(text_part(rest, end, rest.len));
        if (text_starts(word, "["))
            word = text_part(word, 1, word.len - 1);
        bool repeats = word.len > 3 &&
                       text_is(text_part(word, word.len - 3, word.len), "...");
        if (repeats)
            word = text_part(word, 0, word.len - 3);
        if (text_is(word, "SETTING=VALUE"))
            continue; /* by calculation, below */
        if (repeats)
            buf_printf(b, "            %s:*) ", c->name);
        else
            buf_printf(b, "            %s:%zu) ", c->name, place);
        add_place(b, c, word);
        buf_puts(b, " ;;\n");
    }
}

static void add_options(struct buf *b) {
    const struct command *c;
    const struct option *o;
    for (size_t i = 0; (c = command_at(i)) != NULL; i++) {
        buf_printf(b, "            %s) words='--help", c->name);
        for (size_t k = 0; (o = option_at(k)) != NULL; k++)
            if (o->fits(c))
                buf_printf(b, " %s%s", o->name, o->value == NULL ? "" : "=");
        buf_puts(b, "' ;;\n");
    }
}

/* Options that take a value, as a pattern. */
static void add_valued(struct buf *b) {
    const struct option *o;
    bool first = true;
    buf_puts(b, "_bayleaf_valued='");
    for (size_t k = 0; (o = option_at(k)) != NULL; k++) {
        if (o->value == NULL)
            continue;
        buf_printf(b, "%s%s", first ? "" : "|", o->name);
        first = false;
    }
    buf_puts(b, "'\n\n");
}

static void add_option_values(struct buf *b) {
    const struct option *o;
    for (size_t k = 0; (o = option_at(k)) != NULL; k++) {
        if (o->value == NULL)
            continue;
        buf_printf(b, "    %s) words='", o->name);
        add_spaced(b, o->value);
        buf_puts(b, "' ;;\n");
    }
}

static const char head[] =
    "# Guides of the nearest library, by name.\n"
    "_bayleaf_guides() {\n"
    "    local up=. guide\n"
    "    until [ -d \"$up/procedures\" ] || [ \"$up\" -ef / ]; do\n"
    "        up=$up/..\n"
    "    done\n"
    "    for guide in \"$up\"/procedures/*.md; do\n"
    "        [ -f \"$guide\" ] || continue\n"
    "        guide=${guide##*/}\n"
    "        echo \"${guide%.md}\"\n"
    "    done\n"
    "}\n\n"
    "_bayleaf() {\n"
    "    local cur=${COMP_WORDS[COMP_CWORD]} words= option= command= first= i\n"
    "    local place=0 word\n"
    "    COMPREPLY=()\n"
    "    # An equals sign is a word of its own here.\n"
    "    if [ \"$cur\" = = ]; then\n"
    "        option=${COMP_WORDS[COMP_CWORD - 1]} cur=\n"
    "    elif [ \"${COMP_WORDS[COMP_CWORD - 1]}\" = = ]; then\n"
    "        option=${COMP_WORDS[COMP_CWORD - 2]}\n"
    "    elif [[ ${COMP_WORDS[COMP_CWORD - 1]} == @($_bayleaf_valued) ]]; "
    "then\n"
    "        option=${COMP_WORDS[COMP_CWORD - 1]}\n"
    "    fi\n"
    "    for ((i = 1; i < COMP_CWORD; i++)); do\n"
    "        word=${COMP_WORDS[i]}\n"
    "        if [ \"$word\" = = ]; then\n"
    "            ((i++))\n"
    "        elif [[ $word == @($_bayleaf_valued) ]]; then\n"
    "            [ \"${COMP_WORDS[i + 1]}\" = = ] || ((i++))\n"
    "        elif [[ $word == -* ]]; then\n"
    "            :\n"
    "        elif [ -z \"$command\" ]; then\n"
    "            command=$word\n"
    "        else\n"
    "            [ -n \"$first\" ] || first=$word\n"
    "            ((place++))\n"
    "        fi\n"
    "    done\n"
    "    case $option in\n";

static const char middle[] = "    ?*) return ;;\n"
                             "    '')\n"
                             "        if [ -z \"$command\" ]; then\n"
                             "            words='";

static const char tail[] =
    "            esac\n"
    "        fi ;;\n"
    "    esac\n"
    "    COMPREPLY=($(compgen -W \"$words\" -- \"$cur\"))\n"
    "    if [[ ${#COMPREPLY[@]} -eq 1 && ${COMPREPLY[0]} == *= ]]; then\n"
    "        compopt -o nospace 2>/dev/null\n"
    "    fi\n"
    "}\n"
    "complete -o bashdefault -o default -F _bayleaf bayleaf\n";

void completion_write(struct buf *b) {
    const struct command *c;
    const struct lookup *l;
    buf_puts(b, "# completion of bayleaf " BAYLEAF_VERSION
                " for bash, made from its tables\n\n");
    add_valued(b);
    buf_puts(b, head);
    add_option_values(b);
    buf_puts(b, middle);
    add_commands(b);
    buf_puts(b, " --help --version'\n"
                "        elif [[ $cur == -* ]]; then\n"
                "            case $command in\n");
    add_options(b);
    buf_puts(b, "            esac\n"
                "        elif [ \"$command\" = size ] && [ \"$place\" -gt 0 ]; "
                "then\n"
                "            case $command:$first in\n");
    for (int i = 0; i < KIND_COUNT; i++)
        if (kind_by_id((enum kind_id)i)->fields != NULL)
            add_calculation(b, kind_by_id((enum kind_id)i));
    for (size_t i = 0; (l = lookup_at(i)) != NULL; i++)
        add_lookup(b, l);
    buf_puts(b, "            esac\n"
                "        else\n"
                "            case $command:$place in\n");
    for (size_t i = 0; (c = command_at(i)) != NULL; i++)
        add_command(b, c);
    buf_puts(b, tail);
}
