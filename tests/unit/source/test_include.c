/* test_include.c - facts that a guide uses, shared steps that it includes. */
#include "desk.h"

#include "source/file.h"
#include "source/job.h"

static struct guide *read_guide(struct desk *d, const char *body) {
    desk_clear(d);
    desk_write(d, "procedures/lamp.md",
               arena_printf(d->c.arena, HEAD "%s", body));
    struct guide *g = source_read(&d->c, desk_path(d, "procedures/lamp.md"));
    assert_non_null(g);
    return g;
}

static const char shared[] =
    "# Isolate a battery\n\n"
    "```needs\nbattery: text\nwait: min\n```\n\n"
    "1. {does disconnect} Take the cable off the {battery}.\n"
    "2. Wait {wait}.\n";

static const struct node *child(const struct node *n, size_t index) {
    n = n->first;
    while (index-- > 0)
        n = n->next;
    assert_non_null(n);
    return n;
}

/* At the left margin between two steps: its steps are steps of the list. */
static void between_steps(void **state) {
    struct desk *d = *state;
    desk_library(d);
    desk_write(d, "procedures/shared/isolate.md", shared);
    struct guide *g = read_guide(
        d, "1. First.\n\n"
           "```include isolate\nbattery = \"house\"\nwait = 5 min\n```\n\n"
           "2. Last.\n");
    assert_string_equal(desk_local(d), "");
    const struct node *steps = g->root->last;
    assert_int_equal(steps->kind, NODE_STEPS);
    static const char *const numbers[] = {"1", "2", "3", "4"};
    const struct node *step = steps->first;
    for (size_t i = 0; i < 4; i++, step = step->next) {
        assert_string_equal(step->number, numbers[i]);
        assert_ptr_equal(step->parent, steps);
        assert_int_equal(step->scope->index, i == 1 || i == 2 ? 2 : 1);
    }
    assert_null(step);
    step = child(steps, 1);
    assert_int_equal(step->mark_count, 1);
    const struct scope *s = step->scope;
    assert_text(s->include->name, "isolate");
    assert_ptr_equal(s->parent, g->scopes[0]);
    assert_int_equal(s->include->scope->index, 1);
    assert_place(s->src->included_at, 11, 12);
    /* blocks between belong to the step that follows */
    assert_int_equal(step->first->block->kind->id, KIND_INCLUDE);
    assert_int_equal(step->first->next->block->kind->id, KIND_NEEDS);
    assert_ptr_equal(step->first->next->parent, step);
    assert_int_equal(g->file_count, 2);
}

/* Indented in a step: its steps are substeps. */
static void in_a_step(void **state) {
    struct desk *d = *state;
    desk_library(d);
    desk_write(d, "procedures/shared/isolate.md", shared);
    struct guide *g =
        read_guide(d, "1. First.\n\n"
                      "   1. Before.\n\n"
                      "   ```include isolate\n   battery = \"house\"\n"
                      "   wait = 5 min\n   ```\n"
                      "2. {for mark 3} Second.\n\n"
                      "   ```include isolate\n   battery = \"starter\"\n"
                      "   wait = 1 min\n   ```\n");
    assert_string_equal(desk_local(d), "");
    const struct node *steps = g->root->last;
    const struct node *sub = steps->first->last;
    assert_int_equal(sub->kind, NODE_STEPS);
    assert_string_equal(child(sub, 0)->number, "1.1");
    assert_string_equal(child(sub, 2)->number, "1.3");
    sub = child(steps, 1)->last;
    assert_string_equal(child(sub, 1)->number, "2.2");
    /* each use has its own scope and its own places */
    assert_int_equal(g->scope_count, 4);
    assert_int_equal(child(sub, 1)->scope->index, 3);
    assert_place(g->scopes[3]->src->included_at, 19, 15);
    assert_ptr_equal(g->scopes[2]->src->text.start,
                     g->scopes[3]->src->text.start);
    assert_int_equal(g->file_count, 2); /* read once */
    assert_ptr_equal(tree_step(sub), child(steps, 1));
}

static void facts_first(void **state) {
    struct desk *d = *state;
    desk_library(d);
    desk_write(d, "procedures/facts/fen.md",
               "# Fen\n\n```facts\nrun = 2 m\n```\n\n- a list\n\n"
               "  ```facts\n  wide = 1 m\n  ```\n");
    desk_write(d, "procedures/facts/shop.md",
               "```parts\nitem | description\nring | {run} long\n```\n");
    desk_clear(d);
    desk_write(d, "procedures/lamp.md",
               "# Fit\n\n```guide\nid: T-1\nrevision: 1\nstatus: draft\n"
               "uses: shop, fen\n```\n\nOf {run}.\n");
    struct guide *g = source_read(&d->c, desk_path(d, "procedures/lamp.md"));
    assert_string_equal(desk_local(d), "");
    assert_int_equal(g->block_count, 4);
    static const enum kind_id kinds[] = {KIND_PARTS, KIND_FACTS, KIND_FACTS,
                                         KIND_GUIDE};
    for (size_t i = 0; i < 4; i++) {
        assert_int_equal(g->blocks[i]->kind->id, kinds[i]);
        assert_int_equal(g->blocks[i]->index, i);
        assert_int_equal(g->blocks[i]->scope->index, i < 3 ? 0 : 1);
        assert_int_equal(g->blocks[i]->node == NULL, i < 3);
    }
    assert_int_equal(g->mark_count, 2);
    assert_null(g->marks[0]->node);
    assert_int_equal(g->file_count, 3);
}

static void passed(void **state) {
    struct desk *d = *state;
    desk_library(d);
    desk_write(d, "procedures/shared/isolate.md", shared);
    read_guide(d, "```include isolate\nbatery = \"house\"\n```\n");
    assert_string_equal(
        desk_local(d),
        "procedures/lamp.md:9:4: error: value not passed to an include: wait = "
        "... (min)\n"
        "procedures/shared/isolate.md:5:1: note: it is needed here\n"
        "procedures/lamp.md:10:1: error: value that the include does not need: "
        "'batery' (did you mean 'battery'?)\n");
    desk_write(d, "procedures/shared/plain.md", "1. Go.\n");
    read_guide(d, "```include plain\na = 1 m\n```\n");
    assert_string_equal(desk_local(d),
                        "procedures/lamp.md:10:1: error: value that the "
                        "include does not need: 'a'\n");
    desk_write(d, "procedures/shared/twice.md",
               "```needs\na: m\na: V\n```\n\n```needs\nb: m\n```\n");
    read_guide(d, "```include twice\na = 1 m\n```\n");
    assert_string_equal(
        desk_local(d),
        "procedures/shared/twice.md:3:1: error: setting written twice: 'a'\n"
        "procedures/lamp.md:9:12: note: named here\n"
        "procedures/shared/twice.md:6:4: error: block written twice: a shared "
        "file has one 'needs'\n"
        "procedures/lamp.md:9:12: note: named here\n");
}

static void many_needs(void **state) {
    struct desk *d = *state;
    desk_library(d);
    struct buf b = buf_in(d->c.arena);
    buf_puts(&b, "```needs\n");
    for (int i = 0; i < 101; i++)
        buf_printf(&b, "a%d: m\n", i);
    buf_puts(&b, "```\n");
    desk_write(d, "procedures/shared/many.md", buf_cstr(&b));
    read_guide(d, "```include many\n```\n");
    assert_non_null(strstr(desk_local(d), "many.md:1:4: error: too many needs: "
                                          "more than 100\n"));
}

static void missing_and_cyclic(void **state) {
    struct desk *d = *state;
    desk_library(d);
    desk_write(d, "procedures/shared/one.md", "```include two\n```\n");
    desk_write(d, "procedures/shared/two.md",
               "1. a\n\n   ```include one\n   ```\n");
    desk_write(d, "procedures/shared/self.md", "```include self\n```\n");
    read_guide(d, "```include onee\n```\n");
    assert_string_equal(desk_local(d),
                        "procedures/lamp.md:9:12: error: no such file: "
                        "procedures/shared/onee.md (did you mean 'one'?)\n");
    read_guide(d, "```include ../../lamp\n```\n");
    assert_string_equal(desk_local(d),
                        "procedures/lamp.md:9:12: error: file outside the "
                        "library: '../../lamp'; name a file of "
                        "procedures/shared/ without folder and ending\n");
    read_guide(d, "```include one\n```\n");
    assert_string_equal(
        desk_local(d),
        "procedures/shared/two.md:3:7: error: file includes itself: "
        "procedures/shared/one.md\n"
        "procedures/shared/one.md:1:12: note: named here\n"
        "procedures/lamp.md:9:12: note: named here\n");
    read_guide(d, "```include self\n```\n");
    assert_string_equal(
        desk_local(d),
        "procedures/shared/self.md:1:4: error: file includes itself: "
        "procedures/shared/self.md\n"
        "procedures/lamp.md:9:12: note: named here\n");
}

/* Each file includes the next one twice: 2 to the 16th uses. */
static void doubling(void **state) {
    struct desk *d = *state;
    desk_library(d);
    for (int i = 0; i < 18; i++)
        desk_write(d, arena_printf(d->c.arena, "procedures/shared/f%d.md", i),
                   arena_printf(d->c.arena,
                                "```include f%d\n```\n```include f%d\n```\n",
                                i + 1, i + 1));
    read_guide(d, "```include f0\n```\n");
    const char *messages = desk_local(d);
    assert_non_null(strstr(messages, "includes nested too deeply"));
    assert_non_null(strstr(messages, "too many includes"));
}

static void shape_of_a_shared_file(void **state) {
    struct desk *d = *state;
    desk_library(d);
    desk_write(d, "procedures/shared/a.md",
               "# Title\n\nText.\n\n## Section\n\n1. Go.\n\n# Again\n");
    struct guide *g = read_guide(d, "```include a\n```\n");
    assert_string_equal(
        desk_local(d),
        "procedures/shared/a.md:5:1: error: heading in the wrong place: a "
        "shared file has a title and no other heading\n"
        "procedures/lamp.md:9:12: note: named here\n"
        "procedures/shared/a.md:9:1: error: heading in the wrong place: a "
        "shared file has a title and no other heading\n"
        "procedures/lamp.md:9:12: note: named here\n");
    assert_text(g->title, "Fit a lamp");
    assert_int_equal(g->root->last->kind, NODE_STEPS);
    desk_write(d, "procedures/shared/b.md", "```guide\nid: a\n```\n");
    read_guide(d, "```include b\n```\n");
    assert_non_null(
        strstr(desk_local(d), "'guide' cannot stand in a shared file"));
    desk_write(d, "procedures/shared/c.md", "A \x01.\n");
    read_guide(d, "```include c\n```\n");
    assert_string_equal(desk_local(d),
                        "procedures/shared/c.md:1:3: error: character refused: "
                        "U+0001: control character\n"
                        "procedures/lamp.md:9:12: note: named here\n");
}

static void other_files(void **state) {
    struct desk *d = *state;
    desk_library(d);
    desk_write(d, "f.md", "# F\n\n```facts\na = 1 m\n```\n\n```wire\n```\n");
    desk_write(d, "h.md", "```hazard H01\ntitle: Live\naction: insert\n```\n");
    struct guide *g = source_read_facts(&d->c, desk_path(d, "f.md"));
    assert_int_equal(g->block_count, 2);
    assert_text(g->blocks[0]->entries[0].key, "a");
    g = source_read_catalogue(&d->c,
                              file_read_given(&d->c, desk_path(d, "h.md")));
    assert_int_equal(g->block_count, 1);
    assert_text(g->blocks[0]->name, "H01");
    assert_string_equal(desk_messages(d), "");
    source_read_facts(&d->c, desk_path(d, "h.md"));
    assert_string_equal(desk_local(d),
                        "h.md:1:4: error: block in the wrong place: 'hazard' "
                        "cannot stand in a file of facts\n");
    assert_null(source_read_facts(&d->c, desk_path(d, "no.md")));
    g = source_read_catalogue_text(&d->c, "h.md", text_of("text\n"));
    assert_int_equal(g->block_count, 0);
}

/* Two jobs on a guide that was read once: what it has is there for both, and
 * neither shows in it or in the other. */
static void a_guide_for_two_jobs(void **state) {
    struct desk *d = *state;
    const struct guide *g =
        desk_read_body(d, "```values\na = 1 m\n```\n\n1. Go {a}.\n");
    size_t blocks = g->block_count, scopes = g->scope_count;
    const struct guide *of[2];
    for (int i = 0; i < 2; i++) {
        const char *text =
            arena_printf(d->c.arena,
                         "```job\nnumber: %d\nguide: lamp\nvehicle: boat\n"
                         "owner: A.\ndate: 1 May 2026\n```\n",
                         i + 1);
        d->c.job = place_source(d->c.arena, i == 0 ? "one.md" : "two.md",
                                text_of(text));
        of[i] = source_read_job(&d->c, g);
    }
    d->c.job = NULL;
    assert_string_equal(desk_messages(d), "");
    for (int i = 0; i < 2; i++) {
        assert_int_equal(of[i]->block_count, blocks + 1);
        assert_ptr_equal(of[i]->blocks[0], g->blocks[0]);
        assert_ptr_equal(of[i]->blocks[blocks], of[i]->job);
        assert_int_equal(of[i]->job->index, blocks);
        assert_int_equal(of[i]->scope_count, scopes + 1);
        assert_text(job_setting(d->c.arena, of[i]->job, "number"),
                    i == 0 ? "1" : "2");
        assert_int_equal(of[i]->mark_count, g->mark_count);
    }
    assert_int_equal(g->block_count, blocks);
    assert_int_equal(g->scope_count, scopes);
    assert_null(g->job);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        desk_test(between_steps), desk_test(in_a_step),
        desk_test(facts_first),   desk_test(passed),
        desk_test(many_needs),    desk_test(missing_and_cyclic),
        desk_test(doubling),      desk_test(shape_of_a_shared_file),
        desk_test(other_files),   desk_test(a_guide_for_two_jobs)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
