/* A plan under construction for tests of the care layer, made of plain structs: no YAML. */
#ifndef BASKLEAF_TESTS_CARE_FIXTURE_H
#define BASKLEAF_TESTS_CARE_FIXTURE_H

#include "care/build.h"

/* Everything that a care_build borrows, in one place. fixture_init makes a healthy visit on
 * 2026-03-14 of an invented basking lizard of Ferguson zone 3 without any reading, and reference
 * values with every limit, zone, lamp and material, and no foods; a test then writes what it is
 * about. */
struct care_fixture {
    struct arena arena;
    struct diag diag;
    struct visit visit;
    struct species species;
    struct clinic clinic;
    struct finding_catalogue catalogue;
    struct sign_catalogue signs;
    struct rule_book rules;
    struct step_book steps;
    struct topic_catalogue topics;
    struct reference_values reference;
    struct sheet_template kind;
    struct care_inputs in;
    struct care_plan plan;
    struct care_build b;
};

void fixture_init(struct care_fixture *f);
/* Settles a topic for good, as findings would: because "finding:burn". */
void fixture_settle(struct care_fixture *f, const char *topic, const char *stance,
                    const char *because);
void fixture_finish(struct care_fixture *f);

struct quantity fixture_quantity(double value);
struct band fixture_band(double low, double high);
/* Source "practice", trust memory. */
struct sourced_value fixture_cited(double low, double high);
struct text_value fixture_text(const char *text);
struct choice_value fixture_choice(int value);
struct flag_value fixture_flag(bool value);
struct date_value fixture_date(int year, int month, int day);
/* Copies `count` items of `size` bytes into the arena as a list. */
struct list fixture_list(struct care_fixture *f, const void *items, size_t count, size_t size);
/* Up to four names, as far as the first NULL. */
struct list fixture_texts(struct care_fixture *f, const char *a, const char *b, const char *c,
                          const char *d);

/* A list of one choice. */
struct list fixture_one_of(struct care_fixture *f, int value);

/* By code; NULL when the plan has none. */
const struct review *fixture_review(const struct care_fixture *f, const char *code);
const struct plan_fact *fixture_fact(const struct review *review, const char *name);
const struct derivation *fixture_derivation(const struct derivations *how, const char *what);
/* Has the sink a message with this code? */
/* How the clinic uses the zones: an enum uv_limit and an enum uv_start. Without a call: the zone's
 * maximum, and hung between its mean and where the maximum begins. */
void fixture_uv_use(struct care_fixture *f, int limit, int start);
bool fixture_said(const struct care_fixture *f, const char *code);

/* "rule-1" ..., of common practice. */
struct rule fixture_rule(struct care_fixture *f, size_t number, const char *action, double harm);

#endif
