/* The findings of a record against the catalogue that is shipped: each name is found, each that is
 * nearly one is offered, and what cannot be said of the animal is refused at its place. */
#include <string.h>

#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "records/findings.h"
#include "records/species.h"
#include "records/topics.h"
#include "records/visit.h"

static const struct finding_catalogue *catalogue;
static const struct species *python, *dragon;

static void set_up_catalogue(void)
{
    set_up();
    catalogue = finding_catalogue_read(PROJECT_FOLDER "/templates/findings.yaml", &arena, &diag);
    python = species_read(PROJECT_FOLDER "/species-sheets/ball-python.yaml", &arena, &diag);
    dragon = species_read(PROJECT_FOLDER "/species-sheets/bearded-dragon.yaml", &arena, &diag);
    ck_assert(catalogue && python && dragon && !diag.first);
}

static bool is_good(const struct species *species, const char *text)
{
    static const char head[] = "visit: {date: 2026-03-14, kind: checkout, veterinarian: V}\n";
    const char *whole = arena_format(&arena, "%s%s\n", head, text);
    diag_finish(&diag);
    diag_init(&diag);
    const struct node *tree =
        tree_read_bytes("v.yaml", (struct bytes){whole, strlen(whole)}, &arena, &diag);
    const struct visit *visit =
        visit_read_tree(tree, "v.yaml", (struct date){2026, 3, 20}, &arena, &diag);
    ck_assert_msg(visit, "%s: %s", text, diag.first ? diag.first->text : "");
    bool good = findings_check_visit(visit, species, catalogue, &diag);
    ck_assert_int_eq(good, diag.counts[DIAG_ERROR] == 0);
    return good;
}

static void check_told(const char *code, const char *says)
{
    for (const struct diag_message *m = diag.first; m; m = m->next)
        if (strcmp(m->code, code) == 0 && strstr(m->text, says) && m->at.line > 1)
            return;
    ck_abort_msg("not told: %s, %s; but: %s", code, says,
                 diag.first ? diag.first->text : "nothing");
}

#define ANIMAL "patient: {name: Fern, species: ball-python, sex: female}\n"

/* ---- each by its name, and what is nearly one ------------------------------------------------ */

START_TEST(each_finding_is_found_and_offered)
{
    size_t count = 0;
    for (size_t i = 0; i < catalogue->findings.count; i++) {
        const struct finding *one = LIST_AT(catalogue->findings, struct finding, i);
        const char *name = one->name.text;
        ck_assert_ptr_eq(finding_find(catalogue, name), one);
        ck_assert(!is_good(python, arena_format(&arena, ANIMAL "findings: [{code: %sq}]", name)));
        if (!finding_fits(one, python)) {
            ck_assert(
                !is_good(python, arena_format(&arena, ANIMAL "findings: [{code: %s}]", name)));
            check_told("finding-does-not-fit",
                       arena_format(&arena, "'%s' makes no sense for a ball python", name));
            continue;
        }
        check_told(
            "unknown-finding",
            arena_format(&arena, "there is no finding '%sq'; did you mean '%s'?", name, name));
        count++;
    }
    ck_assert_uint_gt(count, 50);
    ck_assert(!is_good(python, ANIMAL "findings: [{code: qqqqqqqqqqqqqqqqqqqqqqqqqq}]"));
    check_told("unknown-finding", "'baskleaf start ball-python' lists them");
}
END_TEST

/* Instead of one that makes no sense for it, those of the same part of the body that do. */
START_TEST(what_does_not_fit_is_told_with_what_does)
{
    static const char before[] = "; for it there are: ";
    size_t count = 0;
    for (size_t i = 0; i < catalogue->findings.count; i++) {
        const struct finding *one = LIST_AT(catalogue->findings, struct finding, i);
        if (finding_fits(one, python))
            continue;
        is_good(python, arena_format(&arena, ANIMAL "findings: [{code: %s}]", one->name.text));
        const char *told = strstr(diag.first->text, before);
        const char *list = told ? arena_format(&arena, ", %s, ", told + strlen(before)) : ", ";
        for (size_t k = 0; k < catalogue->findings.count; k++) {
            const struct finding *other = LIST_AT(catalogue->findings, struct finding, k);
            const bool is_listed =
                strstr(list, arena_format(&arena, ", %s, ", other->name.text)) != NULL;
            const bool is_choice =
                other->system.value == one->system.value && finding_fits(other, python);
            ck_assert_msg(is_listed == is_choice, "%s for %s", other->name.text, one->name.text);
            count += is_listed;
        }
    }
    ck_assert_uint_gt(count, 10);
}
END_TEST

/* What stands behind the end of a list is not in it. */
START_TEST(what_is_not_listed_is_not_offered)
{
    struct finding_catalogue fewer = *catalogue;
    const struct finding_catalogue *whole = catalogue;
    const struct procedure *last =
        LIST_AT(fewer.procedures, struct procedure, --fewer.procedures.count);
    const struct finding *behind = LIST_AT(fewer.findings, struct finding, --fewer.findings.count);
    catalogue = &fewer;
    ck_assert_ptr_null(procedure_find(&fewer, last->name.text));
    ck_assert_ptr_null(finding_find(&fewer, behind->name.text));
    is_good(python, arena_format(&arena, ANIMAL "done-today: [%s]", last->name.text));
    ck_assert_str_eq(diag.first->code, "unknown-procedure");
    ck_assert_ptr_null(
        strstr(diag.first->text, arena_format(&arena, "mean '%s'", last->name.text)));
    is_good(dragon, arena_format(&arena, ANIMAL "findings: [{code: %s}]", behind->name.text));
    ck_assert_str_eq(diag.first->code, "unknown-finding");
    ck_assert_ptr_null(
        strstr(diag.first->text, arena_format(&arena, "mean '%s'", behind->name.text)));
    catalogue = whole;
}
END_TEST

START_TEST(each_step_of_a_finding_is_offered)
{
    size_t count = 0;
    for (size_t i = 0; i < catalogue->findings.count; i++) {
        const struct finding *one = LIST_AT(catalogue->findings, struct finding, i);
        for (size_t k = 0; k < one->steps.count && finding_fits(one, python); k++, count++) {
            const char *step = LIST_AT(one->steps, struct text_value, k)->text;
            is_good(python, arena_format(&arena, ANIMAL "findings: [{code: %s, step: %sq}]",
                                         one->name.text, step));
            check_told("unknown-step",
                       arena_format(&arena, "'%sq' is no step of '%s'; did you mean '%s'?", step,
                                    one->name.text, step));
        }
    }
    ck_assert_uint_ge(count, 4);
    is_good(python, ANIMAL "findings: [{code: retained-shed, step: laying}]");
    check_told("unknown-step", "'laying' is no step of 'retained-shed', which has none");
}
END_TEST

START_TEST(each_procedure_is_found_and_offered)
{
    for (size_t i = 0; i < catalogue->procedures.count; i++) {
        const struct procedure *one = LIST_AT(catalogue->procedures, struct procedure, i);
        const char *name = one->name.text;
        ck_assert_ptr_eq(procedure_find(catalogue, name), one);
        ck_assert(!is_good(python, arena_format(&arena, ANIMAL "done-today: [%sq]", name)));
        check_told("unknown-procedure",
                   arena_format(&arena, "'%sq'; did you mean '%s'?", name, name));
        bool fits = !one->groups.count || list_has_choice(&one->groups, GROUP_SNAKE);
        ck_assert_msg(is_good(python, arena_format(&arena, ANIMAL "done-today: [%s]", name)) ==
                          fits,
                      "%s", name);
        if (!fits)
            check_told("procedure-does-not-fit",
                       arena_format(&arena, "'%s' is not done on a snake", name));
    }
    is_good(python, ANIMAL "done-today: [qqqqqqqqqqqqqqqqqqqqqqqqqq]");
    check_told("unknown-procedure", "there is no procedure 'qqqqqqqqqqqqqqqqqqqqqqqqqq'");
}
END_TEST

/* ---- what can be said of it ------------------------------------------------------------------ */

static const struct {
    const char *text;
    const char *code, *says; /* NULL: nothing is wrong */
} rows[] = {
    {ANIMAL "findings: [{code: gravid, severity: mild, step: early}]", NULL, NULL},
    {ANIMAL "findings: [{code: gravid, severity: mild, step: laying}, {code: retained-shed, "
            "severity: mild}]",
     NULL, NULL},
    {"patient: {name: Fern, species: ball-python, sex: male}\nfindings: [{code: gravid, severity: "
     "mild}]",
     "finding-does-not-fit", "makes no sense for a male"},
    {"patient: {name: Fern, species: ball-python}\nfindings: [{code: gravid, severity: mild}]",
     NULL, NULL},
    {ANIMAL "findings: [{code: gravid}, {code: after-laying}]", "findings-exclude", "after-laying"},
    {ANIMAL "findings: [{code: after-laying}, {code: retained-shed}, {code: gravid}]",
     "findings-exclude", "gravid"},
    {ANIMAL "findings: [{code: burn, severity: mild}, {code: burn, severity: mild}]",
     "finding-twice", "'burn' stands twice"},
    {ANIMAL "findings: [{code: burn, where: tail}, {code: burn, where: tail}]", "finding-twice",
     "'burn' stands twice"},
    {ANIMAL "findings: [{code: burn, where: tail}, {code: burn, where: chest}]", NULL, NULL},
    {ANIMAL "findings: [{code: burn, where: tail}, {code: burn}]", NULL, NULL},
    {ANIMAL "findings: [{code: burn}, {code: burn, where: tail}]", NULL, NULL},
    {ANIMAL "findings: [{code: burn, where: tail}, {code: retained-shed, where: tail}]", NULL,
     NULL},
    {ANIMAL
     "findings: [{code: burn, where: tail}, {code: retained-shed}, {code: burn, where: tail}]",
     "finding-twice", "'burn' stands twice"},
};

START_TEST(what_makes_no_sense_is_refused)
{
    bool good = is_good(python, rows[_i].text);
    if (rows[_i].code)
        check_told(rows[_i].code, rows[_i].says);
    ck_assert_msg(good == !rows[_i].code, "%s: %s", rows[_i].text,
                  diag.first ? diag.first->text : "");
}
END_TEST

/* Of each finding the levels that it can have, and no other; one without a level is mild. */
START_TEST(each_finding_has_its_levels)
{
    for (size_t i = 0; i < catalogue->findings.count; i++) {
        const struct finding *one = LIST_AT(catalogue->findings, struct finding, i);
        const struct species *species = finding_fits(one, python) ? python : dragon;
        if (!finding_fits(one, species))
            continue;
        const char *sex =
            one->sexes.count && list_has_choice(&one->sexes, SEX_MALE) ? "male" : "female";
        for (int level = SEVERITY_MILD; level <= SEVERITY_SEVERE; level++) {
            const char *word = bind_choice_word(severity_choices, level);
            bool can = list_has_choice(&one->severities, level);
            is_good(species, arena_format(&arena,
                                          "patient: {name: Fern, species: x, sex: %s}\nfindings: "
                                          "[{code: %s, severity: %s}]",
                                          sex, one->name.text, word));
            bool told = diag.first && strcmp(diag.first->code, "level-does-not-fit") == 0;
            ck_assert_msg(told == !can, "%s %s", one->name.text, word);
            if (told)
                check_told(
                    "level-does-not-fit",
                    bind_choice_word(severity_choices,
                                     LIST_AT(one->severities, struct choice_value, 0)->value));
        }
    }
}
END_TEST

/* What is normal is not suspected; whatever else it is may be. */
START_TEST(what_is_normal_is_not_suspected)
{
    static const struct {
        const char *severity;
        bool is_good;
    } levels[] = {{"normal", false}, {"mild", true}, {"moderate", true}, {"severe", true}};
    for (int i = 0; i < (int)(sizeof levels / sizeof *levels); i++) {
        const char *text = arena_format(
            &arena, ANIMAL "findings: [{code: %s, severity: %s, certainty: suspected}]",
            levels[i].is_good ? "retained-shed" : "breathing", levels[i].severity);
        ck_assert_msg(is_good(python, text) == levels[i].is_good, "%s", levels[i].severity);
        if (!levels[i].is_good)
            check_told("level-does-not-fit", "normal is not suspected");
    }
}
END_TEST

/* Each of the codes in turn is no finding. Returns how many there are. */
static size_t see_looked_up(const struct finding_catalogue *asked,
                            const struct topic_catalogue *topics, const struct list *named,
                            const char *told)
{
    struct text_value *codes = (struct text_value *)named->items;
    for (size_t k = 0; k < named->count; k++) {
        const char *before = codes[k].text;
        codes[k].text = "nobody";
        ck_assert(!finding_calls_check(asked, topics, &diag));
        ck_assert_ptr_nonnull(strstr(diag.last->text, told));
        codes[k].text = before;
    }
    return named->count;
}

/* What a finding excludes or is harmed by is a finding, whichever of its list it is. */
START_TEST(what_is_named_beside_is_looked_up)
{
    const struct topic_catalogue *topics =
        topic_catalogue_read(PROJECT_FOLDER "/templates/topics.yaml", &arena, &diag);
    size_t excluded = 0, harming = 0;
    struct finding_catalogue asked = *catalogue;
    asked.is_shipped = false; /* it is changed here, so it is asked again */
    ck_assert(topics && finding_calls_check(&asked, topics, &diag));
    for (size_t i = 0; i < catalogue->findings.count; i++) {
        const struct finding *one = LIST_AT(catalogue->findings, struct finding, i);
        excluded += see_looked_up(&asked, topics, &one->excludes, "excludes 'nobody'");
        harming += see_looked_up(&asked, topics, &one->harmed_by, "is harmed by 'nobody'");
    }
    ck_assert_uint_gt(excluded, 20);
    ck_assert_uint_gt(harming, 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("findings");
    TCase *own = tcase_create("findings");
    tcase_add_checked_fixture(own, set_up_catalogue, tear_down);
    tcase_set_timeout(own, 20);
    tcase_add_test(own, each_finding_is_found_and_offered);
    tcase_add_test(own, what_does_not_fit_is_told_with_what_does);
    tcase_add_test(own, what_is_not_listed_is_not_offered);
    tcase_add_test(own, each_step_of_a_finding_is_offered);
    tcase_add_test(own, each_procedure_is_found_and_offered);
    tcase_add_loop_test(own, what_makes_no_sense_is_refused, 0, sizeof rows / sizeof *rows);
    tcase_add_test(own, each_finding_has_its_levels);
    tcase_add_test(own, what_is_normal_is_not_suspected);
    tcase_add_test(own, what_is_named_beside_is_looked_up);
    suite_add_tcase(suite, own);
    return suite_run(suite);
}
