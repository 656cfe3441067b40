/* Inside care/: the parts of the feeding plan. */
#ifndef BASKLEAF_CARE_FEEDING_H
#define BASKLEAF_CARE_FEEDING_H

#include "care/build.h"

/* The planner's eight weeks. */
enum { FEEDING_PLANNER_DAYS = 56 };

/* The species' stage for this animal, with what told it: the first stage whose end is not
 * reached, by age, else length, else mass; the last one when nothing is known. NULL when
 * the species has no stages. Tells nobody. */
const struct species_feeding_stage *feeding_find_stage(const struct care_build *b,
                                                       enum stage_reason *reason);

/* A hatchling or juvenile by a known age, length or mass. */
bool feeding_is_young(const struct care_build *b);

/* Is no meal offered under this stance of the topic food? */
bool feeding_is_pause(const char *stance);

/* What today's stance of the topic food makes of the usual meals. `stage` NULL: a species without
 * any, of which only a pause can be said. */
void feeding_apply_stance(struct care_build *b, const struct species_feeding_stage *stage);

/* The insects beside a mix: a share of them, fewer than now, no fewer than now at most `most_days`
 * apart, or what it eats now. Nothing where it gets none beside. */
void feeding_share_of_beside(struct care_build *b, double share);
void feeding_less_beside(struct care_build *b, double times);
void feeding_more_beside(struct care_build *b, double most_days);
void feeding_beside_as_now(struct care_build *b);

/* Of food without a published amount: from what it eats now over `times` up to that, false where
 * nobody wrote it; or that at least, as often at least. */
bool feeding_less_than_present(struct care_build *b, double times);
void feeding_present_or_more(struct care_build *b);

/* The steps of a build-up on the days of the meals, and each kind of food with its own rhythm. */
void feeding_plan_steps(struct care_build *b);
void feeding_plan_lines(struct care_build *b);

/* The foods of the stage, each with the size and number that fit the meal band. */
void feeding_choose_foods(struct care_build *b, const struct species_feeding_stage *stage);

/* What it must never be given, and how large a piece may be. */
void feeding_plan_rules(struct care_build *b);

/* Judges all that the keeper gives: calcium to phosphorus, the share of staples, and what must not
 * be given. Which plants of the species are staples. `stage` NULL: a species without any. */
void feeding_judge_diet(struct care_build *b, const struct species_feeding_stage *stage);
void feeding_plan_classes(struct care_build *b, const struct species_feeding_stage *stage);

/* How often a plant may lie there, by its minerals, its oxalate and what it goes with. False: that
 * is not known. */
bool feeding_food_class(const struct care_build *b, const struct food *food, enum food_class *out);

/* Is it left out while something that was found lasts? */
bool feeding_leaves_out(const struct care_build *b, const struct food *food);

/* How long it may go without food; 0 where nobody has said. */
double feeding_fast_limit_days(const struct care_build *b);

/* How many days from today before food is offered at all: one; in a new home some more, yet
 * never past the species' own limit without food. */
long feeding_first_day(const struct care_build *b);

/* Every meal of the next eight weeks, and at least MEAL_DATES of them; none when food is paused
 * without an end or the interval is unknown. From the last meal (or the visit), never in the past,
 * never before a pause ends, never on the day before and of a recheck that needs an empty stomach.
 * The arena's. */
const struct date *feeding_meal_days(struct care_build *b, size_t *count);

/* The days of the insects beside a mix, likewise, into the plan. */
void feeding_plan_beside_days(struct care_build *b);

/* The days on which powder can lie on food: of the insects where they stand beside a mix that is
 * complete by itself, else of the meals. */
const struct date *feeding_powder_days(struct care_build *b, size_t *count);

/* The next meals into the plan. */
void feeding_plan_dates(struct care_build *b);

/* Supplements of the stage with their days over the next eight weeks. */
void feeding_plan_supplements(struct care_build *b);

/* Energy of the plan against metabolic need, and calcium to phosphorus: for the veterinarian's
 * eye, in the review alone. */
/* What it needs is worked out whatever it eats: who feeds a tortoise by tube wants to know. */
void feeding_plan_need(struct care_build *b);
void feeding_plan_energy(struct care_build *b);

#endif
