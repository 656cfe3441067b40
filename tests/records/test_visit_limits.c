/* What cannot be beside each other in a visit record, each just inside and just past its limit:
 * days against the day of the visit, numbers against each other, one thing said twice. */
#include <string.h>

#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "records/visit.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

static const struct date today = {2026, 6, 1};

static const struct visit *read_text(const char *text)
{
    const struct node *tree =
        tree_read_bytes("v.yaml", (struct bytes){text, strlen(text)}, &arena, &diag);
    return tree ? visit_read_tree(tree, "v.yaml", today, &arena, &diag) : NULL;
}

/* The codes of all that was told, in order. */
static const char *codes(void)
{
    struct strbuf out;
    strbuf_init(&out, &arena);
    for (const struct diag_message *m = diag.first; m; m = m->next)
        strbuf_addf(&out, "%s%s", out.length ? " " : "", m->code);
    return out.text;
}

/* Of 14 March 2026, by a veterinarian. */
#define VISIT "visit: {date: 2026-03-14, kind: checkout, veterinarian: Dr Vale%s}\n"
#define PATIENT "patient: {name: Biscuit, species: ball-python%s}\n"

static const struct limit_row {
    const char *visit, *patient, *text, *codes; /* further keys; "": it is read */
} rows[] = {
    /* ---- days */
    {"", ", hatched: 2026-03-14", "", ""},
    {"", ", hatched: 2026-03-15", "", "date-in-future"},
    {"", ", hatched: 2026-03", "", ""},
    {"", ", hatched: 2026-04", "", "date-in-future"},
    {"", ", hatched: 2026", "", ""},
    {"", ", hatched: 2027", "", "date-in-future"},
    {"", ", hatched: 2027-01", "", "date-in-future"},
    {"", ", earlier: [{on: 2026-03-14, mass: 50 g}]", "", ""},
    {"", ", earlier: [{on: 2026-03-15, mass: 50 g}]", "", "date-in-future"},
    {"", ", hatched: 2026-01-10, earlier: [{on: 2026-01-10, mass: 50 g}]", "", ""},
    {"", ", hatched: 2026-01-10, earlier: [{on: 2026-01-09, mass: 50 g}]", "",
     "date-before-hatching"},
    {"",
     ", hatched: 2026-01-10, earlier: [{on: 2026-02-01, mass: 9 g}, {on: 2026-01-09, mass: 5 g}]",
     "", "date-before-hatching"},
    {"", ", hatched: 2026-02, earlier: [{on: 2026-01-09, mass: 50 g}]", "", ""}, /* no day */
    {"", "", "diet: [{last: 2026-03-14}]\n", ""},
    {"", "", "diet: [{last: 2026-03-15}]\n", "date-in-future"},
    {"", ", hatched: 2026-01-10", "diet: [{last: 2026-01-10}]\n", ""},
    {"", ", hatched: 2026-01-10", "diet: [{last: 2026-01-09}]\n", "date-before-hatching"},
    {"", ", hatched: 2026-02", "diet: [{last: 2026-01-09}]\n", ""},
    {"", "", "enclosure: {lamp: {kind: tube, installed: 2026-03-14}}\n", ""},
    {"", "", "enclosure: {lamp: {kind: tube, installed: 2026-03-15}}\n", "date-in-future"},
    /* ---- readings and box */
    {"", "", "enclosure: {readings: {cool-side: 30 C, basking-surface: 30 C}}\n", ""},
    {"", "", "enclosure: {readings: {cool-side: 30.1 C, basking-surface: 30 C}}\n",
     "cool-above-basking"},
    {"", "", "enclosure: {readings: {humidity: 50 %, humidity-at: warm-side}}\n", ""},
    {"", "", "enclosure: {readings: {humidity: 50 %, humidity-at: basking-surface}}\n", ""},
    {"", "", "enclosure: {readings: {humidity: 50 %, humidity-at: night}}\n", "humidity-place"},
    {"", "", "enclosure: {readings: {humidity: 50 %, humidity-at: water}}\n", "humidity-place"},
    {"", "", "enclosure: {lamp: {kind: tube, measured: {uvi: 3, at: 0.1 cm}}}\n", ""},
    {"", "", "enclosure: {lamp: {kind: tube, measured: {uvi: 3, at: 0 cm}}}\n", "distance-zero"},
    {"", "", "enclosure: {lamp: {kind: tube, height: 0.1 cm}}\n", ""},
    {"", "", "enclosure: {lamp: {kind: tube, height: 0 cm}}\n", "distance-zero"},
    {"", "", "enclosure: {lamp: {kind: tube, mesh-loss: 40 %}}\n", ""},
    {"", "",
     "enclosure: {lamp: {kind: tube, mesh-loss: 40 %, mesh: {wire: 0.5 mm, opening: 5 mm}}}\n",
     "mesh-twice"},
    {"", "", "enclosure: {lamp: {kind: tube, tube-length: 55 cm}}\n", ""},
    {"", "", "enclosure: {lamp: {kind: compact, tube-length: 55 cm}}\n", "length-of-no-tube"},
    {"", "", "enclosure: {size: 100 x 45 x 45 cm, perch-height: 45 cm}\n", ""},
    {"", "", "enclosure: {size: 100 x 45 x 45 cm, perch-height: 45.1 cm}\n", "perch-too-high"},
    /* 10 cm of platform, 3 cm of back and 40 cm of lamp above it are 53 cm */
    {"", "",
     "enclosure: {platform-height: 10 cm, back-height: 3 cm, perch-height: 53 cm, lamp: {kind: "
     "compact, height: 40 cm}}\n",
     ""},
    {"", "",
     "enclosure: {platform-height: 10 cm, back-height: 3 cm, perch-height: 53.1 cm, lamp: {kind: "
     "compact, height: 40 cm}}\n",
     "perch-too-high"},
    {"", "", "enclosure: {perch-height: 90 cm, lamp: {kind: compact, height: 40 cm}}\n", ""},
    {"", "", "enclosure: {platform-height: 10 cm, perch-height: 90 cm}\n", ""},
    {"", "", "enclosure: {size: 100 x 45 x 45 cm, platform-height: 44.9 cm}\n", ""},
    {"", "", "enclosure: {size: 100 x 45 x 45 cm, platform-height: 45 cm}\n", "perch-too-high"},
    {"", "", "enclosure: {heat: [{kind: none}]}\n", ""},
    {"", "", "enclosure: {heat: [{kind: none}, {kind: mat}]}\n", "no-heat-beside-heat"},
    {"", "", "enclosure: {heat: [{kind: mat}, {kind: lamp}]}\n", ""},
    {"", "", "enclosure: {animals: 2, males: 2}\n", ""},
    {"", "", "enclosure: {animals: 2, males: 3}\n", "more-males-than-animals"},
    {"", "", "enclosure: {males: 3}\n", ""},
    {"", "", "enclosure: {animals: 2, mates: [corn-snake]}\n", ""},
    {"", "", "enclosure: {animals: 1, mates: [corn-snake]}\n", "more-mates-than-animals"},
    /* ---- texts */
    {"", "", "keeper: {name: \"Rosa\\tLind\"}\n", "not-one-line"},
    {", previous: \"a\\nb\"", "", "", "not-one-line"},
    {", notes-in: es", "", "", ""},
    {", notes-in: e", "", "", "not-a-language"},
    {"", "", "targets: {humidity: 55-65 %, because: dry skin}\n", ""},
    {"", ", body-score: {score: 5, of: 5}", "", ""},
    {"", ", body-score: {score: 6, of: 5}", "", "score-above-scale"},
    /* ---- powders */
    {"", "", "targets: {because: x, powders: [{powder: calcium, per-week: 2}]}\n", ""},
    {"", "", "targets: {because: x, powders: [{powder: calcium, every-meals: 2}]}\n", ""},
    {"", "", "targets: {because: x, powders: [{powder: calcium, per-week: 2, every-meals: 2}]}\n",
     "powder-unclear"},
    {"", "", "targets: {because: x, powders: [{powder: calcium}]}\n", "powder-unclear"},
    {"", "",
     "targets: {because: x, powders: [{powder: calcium, per-week: 2}, {powder: multivitamin, "
     "per-week: "
     "1}]}\n",
     ""},
    {"", "",
     "targets: {because: x, powders: [{powder: calcium, per-week: 2}, {powder: multivitamin, "
     "per-week: 1}, "
     "{powder: calcium, per-week: 1}]}\n",
     "powder-twice"},
    /* ---- decisions */
    {"", "", "decisions: [{topic: food, stance: none, because: x, until: 2026-03-15}]\n", ""},
    {"", "", "decisions: [{topic: food, stance: none, because: x, until: 2026-03-14}]\n",
     "decision-over"},
    {"", "", "decisions: [{topic: food, because: x}]\n", "decision-unclear"},
    {"", "", "decisions: [{topic: food, stance: none}]\n", "decision-without-reason"},
    {"", "", "decisions: [{topic: food, stance: none, action: weigh, because: x}]\n",
     "decision-unclear"},
    {"", "", "decisions: [{action: weigh, place: 1}]\n", ""},
    {"", "", "decisions: [{action: weigh, strike: yes, because: x}]\n", ""},
    {"", "", "decisions: [{action: weigh, strike: no, because: x}]\n", "decision-unclear"},
    {"", "", "decisions: [{do: Call us.}]\n", ""},
    /* ---- medicines */
    {"", "", "medicines: [{name: M, directions: as told}]\n", ""},
    {"", "", "medicines: [{name: M, amount: 2 ml}]\n", ""},
    {"", "", "medicines: [{name: M, every: 12 h}]\n", "medicine-unclear"},
    {"", "", "medicines: [{name: M, amount: 2 ml, every: 12 h, for: 5 days}]\n", ""},
    {"", "", "medicines: [{name: M, amount: 2 ml, every: 12 h, for: 5 days, doses: 3}]\n",
     "medicine-end-twice"},
    {"", "", "medicines: [{name: M, amount: 2 ml, for: 5 days}]\n", "medicine-without-every"},
    {"", "", "medicines: [{name: M, amount: 2 ml, doses: 5}]\n", "medicine-without-every"},
    {"", "", "medicines: [{name: M, amount: 2 ml, first: 2026-03-15, at: noon}]\n",
     "medicine-without-every"},
    {"", "", "medicines: [{name: M, amount: 2 ml, every: 12 h, first: 2026-03-15, at: noon}]\n",
     ""},
    {"", "", "medicines: [{name: M, amount: 2 ml, every: 12 h, at: noon}]\n",
     "medicine-without-first"},
    {"", "", "medicines: [{name: M, amount: 2 ml, every: 24 h, at: noon, given-today: yes}]\n", ""},
    {"", "", "medicines: [{name: M, amount: 2 ml, every: 23 h, at: noon, given-today: yes}]\n",
     "medicine-first-twice"},
    {"", "",
     "medicines: [{name: M, amount: 2 ml, every: 12 h, first: 2026-03-14, given-today: yes}]\n",
     ""},
    {"", "",
     "medicines: [{name: M, amount: 2 ml, every: 12 h, first: 2026-03-15, given-today: yes}]\n",
     "medicine-first-twice"},
    {"", "",
     "medicines: [{name: M, amount: 2 ml, every: 12 h, given-today: yes, given-today-at: "
     "\"16:00\"}]\n",
     ""},
    {"", "",
     "medicines: [{name: M, amount: 2 ml, every: 12 h, given-today: yes, given-today-at: "
     "\"26:00\"}]\n",
     "not-a-time"},
    {"", "", "medicines: [{name: M, amount: 2 ml, every: 12 h, given-today-at: \"16:00\"}]\n",
     "medicine-first-twice"},
    /* ---- follow-up */
    {"", "", "follow-up: {booked: 2026-03-15}\n", ""},
    {"", "", "follow-up: {booked: 2026-03-14}\n", "booked-before-visit"},
    {"", "", "follow-up: {booked: 2026-03-15, booked-at: \"10:30\"}\n", ""},
    {"", "", "follow-up: {booked: 2026-03-15, booked-at: \"25:30\"}\n", "not-a-time"},
    {"", "", "follow-up: {booked-at: \"10:30\"}\n", "time-of-no-day"},
    {"", "", "done-today: [x-ray]\nfollow-up: {results: [{of: x-ray, by: 2026-03-14}]}\n", ""},
    {"", "", "done-today: [x-ray]\nfollow-up: {results: [{of: x-ray, by: 2026-03-13}]}\n",
     "result-before-visit"},
    {"", "", "done-today: [x-ray]\nfollow-up: {results: [{of: swab, by: 2026-03-20}]}\n",
     "result-of-nothing"},
    {"", "",
     "done-today: [x-ray, swab]\nfollow-up: {results: [{of: swab, by: 2026-03-20}, {of: x-ray, by: "
     "2026-03-13}]}\n",
     "result-before-visit"},
    /* ---- the days after */
    {"", "", "done-today: [swab]\nfollow-up: {aftercare: [{of: swab, check: 2026-03-15}]}\n", ""},
    {"", "", "done-today: [swab]\nfollow-up: {aftercare: [{of: swab, check: 2026-03-14}]}\n",
     "aftercare-before-visit"},
    {"", "", "done-today: [swab]\nfollow-up: {aftercare: [{of: swab, first: 2026-03-14}]}\n", ""},
    {"", "", "done-today: [swab]\nfollow-up: {aftercare: [{of: swab, first: 2026-03-13}]}\n",
     "aftercare-before-visit"},
    {"", "", "done-today: [swab]\nfollow-up: {aftercare: [{of: x-ray, hours: 2 h}]}\n",
     "aftercare-of-nothing"},
    {"", "", "done-today: [swab]\nfollow-up: {aftercare: [{of: swab, hours: 12 h, times: 2}]}\n",
     ""},
    {"", "", "done-today: [swab]\nfollow-up: {aftercare: [{of: swab, hours: 12.5 h, times: 2}]}\n",
     "longer-than-a-day"},
    {"", "", "done-today: [swab]\nfollow-up: {aftercare: [{of: swab, hours: 13 h}]}\n", ""},
    {"", "", "done-today: [swab]\nfollow-up: {aftercare: [{of: swab, times: 2}]}\n",
     "hours-unsaid"},
    {"", "", "done-today: [swab]\nfollow-up: {aftercare: [{of: swab, from: \"18:00\"}]}\n",
     "hours-unsaid"},
    {"", "",
     "done-today: [swab]\nfollow-up: {aftercare: [{of: swab, hours: 2 h, from: \"18:00\"}]}\n", ""},
    {"", "",
     "done-today: [swab]\nfollow-up: {aftercare: [{of: swab, hours: 2 h, times: 2, from: "
     "\"18:00\"}]}\n",
     "from-of-several-times"},
    {"", "",
     "done-today: [swab, x-ray]\nfollow-up: {aftercare: [{of: swab, hours: 2 h}, {of: x-ray, "
     "hours: 2 h}]}\n",
     ""},
    {"", "",
     "done-today: [swab, x-ray]\nfollow-up: {aftercare: [{of: swab, hours: 2 h}, {of: x-ray, "
     "hours: 2 h}, {of: swab, hours: 2 h}]}\n",
     "aftercare-twice"},
    {"", "",
     "done-today: [swab, x-ray]\nfollow-up: {aftercare: [{of: swab, hours: 2 h}, {of: x-ray, "
     "hours: 2 h}, {of: x-ray, hours: 2 h}]}\n",
     "aftercare-twice"},
    {"", "", "done-today: [swab]\nfollow-up: {aftercare: [{of: swab, awake-by: \"17:30\"}]}\n", ""},
    {"", "", "done-today: [swab]\nfollow-up: {aftercare: [{of: swab, awake-by: \"24:30\"}]}\n",
     "not-a-time"},
    {"", "", "done-today: [swab]\nfollow-up: {aftercare: [{of: swab, amount: 5 ml}]}\n", ""},
    {"", "", "done-today: [swab]\nfollow-up: {aftercare: [{of: swab, amount: 5 mg}]}\n",
     "not-in-ml"},
    /* each fault is told, whichever stands first */
    {"", "",
     "done-today: [swab]\nfollow-up: {booked: 2026-03-14, results: [{of: swab, by: 2026-03-13}], "
     "aftercare: [{of: swab, times: 2, check: 2026-03-14, amount: 5 mg}]}\n",
     "result-before-visit booked-before-visit hours-unsaid aftercare-before-visit not-in-ml"},
};

START_TEST(a_limit_is_where_it_is)
{
    const struct limit_row *row = &rows[_i];
    const char *text =
        arena_format(&arena, VISIT PATIENT "%s", row->visit, row->patient, row->text);
    const bool is_read = read_text(text) != NULL;
    ck_assert_msg(strcmp(codes(), row->codes) == 0, "%s is told: %s", text, codes());
    ck_assert_msg(is_read == !*row->codes, "%s", text);
}
END_TEST

/* What a keeper may not decide, and what needs somebody who set it. */
START_TEST(without_a_veterinarian)
{
    static const struct {
        const char *text, *codes;
    } unsigned_rows[] = {
        {"targets: {humidity: 55-65 %, because: dry skin}\n", "targets-unsigned"},
        {"targets: {humidity: 55-65 %, because: dry skin, by: Dr Vale}\n", ""},
        {"decisions: [{do: Call us.}]\n", "decision-without-veterinarian"},
    };
    for (int i = 0; i < COUNT(unsigned_rows); i++) {
        tear_down();
        set_up();
        read_text(arena_format(&arena, "visit: {date: 2026-03-14, kind: checkout}\n" PATIENT "%s",
                               "", unsigned_rows[i].text));
        ck_assert_str_eq(codes(), unsigned_rows[i].codes);
    }
}
END_TEST

/* A result that nobody asked for is likely one of those that were. */
START_TEST(a_near_name_of_what_was_done_is_offered)
{
    ck_assert_ptr_null(read_text("visit: {date: 2026-03-14, kind: checkout}\n"
                                 "patient: {name: Biscuit, species: ball-python}\n"
                                 "done-today: [x-ray, blood-sample]\n"
                                 "follow-up: {results: [{of: blood-sampel, by: 2026-03-20}]}\n"));
    ck_assert_ptr_nonnull(strstr(diag.first->text, "did you mean 'blood-sample'?"));
}
END_TEST

/* The last of all meals, whichever line it stands in; one without a day is none. */
START_TEST(the_last_meal_of_all_lines_counts)
{
    static const struct {
        const char *diet;
        struct date last;
        bool known;
    } meals[] = {
        {"[{last: 2026-03-01}, {last: 2026-03-08}, {last: 2026-03-04}]", {2026, 3, 8}, true},
        {"[{last: 2026-03-08}, {last: 2026-03-01}]", {2026, 3, 8}, true},
        {"[{every: 7 days}, {last: 2026-03-01}]", {2026, 3, 1}, true},
        {"[{every: 7 days}]", {0}, false},
    };
    for (int i = 0; i < COUNT(meals); i++) {
        struct date_value last;
        const struct visit *visit =
            read_text(arena_format(&arena, VISIT PATIENT "diet: %s\n", "", "", meals[i].diet));
        ck_assert_ptr_nonnull(visit);
        ck_assert_int_eq(visit_last_meal(visit, &last), meals[i].known);
        ck_assert(!last.known || date_compare(last.date, meals[i].last) == 0);
        ck_assert_int_eq(last.known, meals[i].known);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("visit_limits");
    TCase *tcase = tcase_create("visit_limits");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_loop_test(tcase, a_limit_is_where_it_is, 0, COUNT(rows));
    tcase_add_test(tcase, without_a_veterinarian);
    tcase_add_test(tcase, a_near_name_of_what_was_done_is_offered);
    tcase_add_test(tcase, the_last_meal_of_all_lines_counts);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
