/* Which finding leads: the cause before what it brings about, the urgent before the grave. Each row
 * is asked both ways round, and in each place of the list. */
#include "common/suite.h"

#include <string.h>

#include "care/fixture.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

static struct finding_plan of(const char *code, enum tier tier, enum severity severity,
                              enum headline headline)
{
    return (struct finding_plan){
        .code = code, .is_urgent = true, .tier = tier, .severity = severity, .headline = headline};
}

#define NOW TIER_NOW
#define TODAY TIER_TODAY
#define SOON TIER_SOON

static const struct {
    enum tier first_tier;
    enum severity first_severity;
    enum headline first_headline;
    enum tier second_tier;
    enum severity second_severity;
    enum headline second_headline;
} rows[] = {
    /* the urgent before the grave */
    {NOW, SEVERITY_MODERATE, HEADLINE_USUAL, TODAY, SEVERITY_SEVERE, HEADLINE_USUAL},
    {TODAY, SEVERITY_MODERATE, HEADLINE_USUAL, SOON, SEVERITY_SEVERE, HEADLINE_USUAL},
    /* of two alike the graver */
    {TODAY, SEVERITY_SEVERE, HEADLINE_USUAL, TODAY, SEVERITY_MODERATE, HEADLINE_USUAL},
    {TODAY, SEVERITY_MODERATE, HEADLINE_USUAL, TODAY, SEVERITY_MILD, HEADLINE_USUAL},
    /* a mild one stands a step behind, and leads where it is a step sooner and as grave */
    {TODAY, SEVERITY_MODERATE, HEADLINE_USUAL, NOW, SEVERITY_MILD, HEADLINE_USUAL},
    {NOW, SEVERITY_MILD, HEADLINE_USUAL, SOON, SEVERITY_MODERATE, HEADLINE_USUAL},
    {NOW, SEVERITY_MODERATE, HEADLINE_USUAL, TODAY, SEVERITY_MILD, HEADLINE_USUAL},
    /* the cause before what it brings about, unless that is the more urgent */
    {TODAY, SEVERITY_MODERATE, HEADLINE_USUAL, TODAY, SEVERITY_SEVERE, HEADLINE_BEHIND},
    {NOW, SEVERITY_SEVERE, HEADLINE_BEHIND, TODAY, SEVERITY_MODERATE, HEADLINE_USUAL},
    {TODAY, SEVERITY_MILD, HEADLINE_LOCAL, TODAY, SEVERITY_SEVERE, HEADLINE_BEHIND},
    /* what leads by its nature does so in each degree, before what it brings about in any case */
    {SOON, SEVERITY_MILD, HEADLINE_BEFORE, NOW, SEVERITY_SEVERE, HEADLINE_BEHIND},
    {TODAY, SEVERITY_MILD, HEADLINE_BEFORE, TODAY, SEVERITY_SEVERE, HEADLINE_USUAL},
    {NOW, SEVERITY_SEVERE, HEADLINE_USUAL, TODAY, SEVERITY_SEVERE, HEADLINE_BEFORE},
    /* of two that follow the more urgent */
    {NOW, SEVERITY_MODERATE, HEADLINE_BEHIND, TODAY, SEVERITY_SEVERE, HEADLINE_BEHIND},
    /* what is in one place behind what is in the whole animal */
    {TODAY, SEVERITY_MODERATE, HEADLINE_USUAL, TODAY, SEVERITY_MODERATE, HEADLINE_LOCAL},
    {TODAY, SEVERITY_SEVERE, HEADLINE_LOCAL, TODAY, SEVERITY_MODERATE, HEADLINE_USUAL},
};

START_TEST(the_first_of_a_row_leads)
{
    for (int turned = 0; turned < 2; turned++) {
        struct finding_plan two[2];
        two[turned] =
            of("first", rows[_i].first_tier, rows[_i].first_severity, rows[_i].first_headline);
        two[!turned] =
            of("second", rows[_i].second_tier, rows[_i].second_severity, rows[_i].second_headline);
        const struct care_plan plan = {.findings = two, .finding_count = 2};
        ck_assert_str_eq(plan_worst_finding(&plan)->code, "first");
        const struct finding_plan *second = plan_second_finding(&plan);
        ck_assert_msg((second != NULL) == (rows[_i].second_severity > SEVERITY_MILD),
                      "a mild one is no second");
        ck_assert(!second || strcmp(second->code, "second") == 0);
    }
}
END_TEST

/* Of two that are alike in all the one that is examined first. */
START_TEST(of_two_alike_the_first_leads)
{
    static const enum headline headlines[] = {HEADLINE_USUAL, HEADLINE_BEFORE, HEADLINE_BEHIND,
                                              HEADLINE_LOCAL};
    for (int i = 0; i < COUNT(headlines); i++) {
        const struct finding_plan two[] = {of("a", TODAY, SEVERITY_MODERATE, headlines[i]),
                                           of("b", TODAY, SEVERITY_MODERATE, headlines[i])};
        const struct care_plan plan = {.findings = two, .finding_count = 2};
        ck_assert_str_eq(plan_worst_finding(&plan)->code, "a");
        ck_assert_str_eq(plan_second_finding(&plan)->code, "b");
    }
}
END_TEST

/* What is normal, and what has no urgency, leads nothing. */
START_TEST(what_has_no_urgency_does_not_lead)
{
    struct finding_plan two[] = {of("a", NOW, SEVERITY_NORMAL, HEADLINE_BEFORE),
                                 of("b", NOW, SEVERITY_SEVERE, HEADLINE_BEFORE)};
    two[1].is_urgent = false;
    struct care_plan plan = {.findings = two, .finding_count = 2};
    ck_assert_ptr_null(plan_worst_finding(&plan));
    ck_assert_ptr_null(plan_second_finding(&plan));
    two[0].severity = SEVERITY_MILD;
    ck_assert_str_eq(plan_worst_finding(&plan)->code, "a");
    ck_assert_ptr_null(plan_second_finding(&plan));
    plan.finding_count = 0;
    ck_assert_ptr_null(plan_worst_finding(&plan));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("headline");
    TCase *tcase = tcase_create("headline");
    tcase_add_loop_test(tcase, the_first_of_a_row_leads, 0, COUNT(rows));
    tcase_add_test(tcase, of_two_alike_the_first_leads);
    tcase_add_test(tcase, what_has_no_urgency_does_not_lead);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
