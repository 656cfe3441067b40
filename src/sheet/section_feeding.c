/* Food: what, how much, how often, when next, and what is dusted on it. */
#include <math.h>

#include "sheet/sections.h"
#include "sheet/wall.h"
#include "words/slots.h"

/* Of a compact sheet; the calendar and the planner hold them all. */
enum { MEALS_SHOWN = 3 };

static const char *stage_text(struct composition *c)
{
    const char *word = bind_choice_word(stage_choices, (int)c->plan->feeding.stage);
    return phrase_code(&c->ctx, "stage", word);
}

static const char *dates_text(struct composition *c, const struct date *dates, size_t count)
{
    const char **texts = ARENA_ARRAY(c->arena, const char *, count + 1);
    for (size_t i = 0; i < count; i++)
        texts[i] = format_date_day(&c->ctx.format, dates[i]);
    return phrase_all_of(&c->ctx, texts, count);
}

static const char *amount_text(struct composition *c)
{
    const struct feeding_plan *m = &c->plan->feeding;
    if (m->asks_amount)
        return phrase(&c->ctx, "sheet.feeding.vet-amount");
    if (m->has_meal)
        return phrase(&c->ctx, m->is_beside_hay ? "sheet.feeding.meal-mass-beside-hay"
                                                : "sheet.feeding.meal-mass");
    if (m->has_insects)
        return phrase(&c->ctx,
                      m->is_in_pieces ? "sheet.feeding.meal-pieces" : "sheet.feeding.meal-insects");
    return NULL;
}

static const char *supplement_text(struct composition *c, const struct supplement_plan *supplement)
{
    const char *key = "sheet.supplement.by-week";
    double low = supplement->per_week_low, high = supplement->per_week_high;
    if (supplement->with_fish) {
        key = "sheet.supplement.with-fish";
    } else if (supplement->every_meals == 0 && high > 0 && high < 1) {
        /* "half a time a week" is no instruction: say every how many weeks, the rarer one */
        key = "sheet.supplement.every-weeks";
        low = high = ceil(1 / high - 0.01);
    } else if (supplement->every_meals == 1) {
        key = c->plan->feeding.supplement_count > 1 ? "sheet.supplement.other-meals"
                                                    : "sheet.supplement.each-meal";
    } else if (supplement->every_meals > 1) {
        key = "sheet.supplement.by-meals";
        low = high = supplement->every_meals;
    }
    struct plan_fact times = {.name = "times", .kind = FACT_COUNT, .low = low, .high = high};
    struct plan_fact what = {
        .name = "supplement",
        .kind = FACT_TEXT,
        .text = phrase_code(&c->ctx, "supplement",
                            bind_choice_word(supplement_choices, (int)supplement->what)),
        .next = &times,
    };
    struct phrase_context ctx = c->ctx;
    ctx.facts = &what;
    return text_capital(c->arena, phrase(&ctx, key));
}

const char *section_supplements(struct composition *c)
{
    const struct feeding_plan *m = &c->plan->feeding;
    const char *text = NULL;
    /* what goes on all other meals stands behind those */
    for (int other = 0; other <= 1; other++) {
        for (size_t i = 0; i < m->supplement_count; i++) {
            if ((m->supplements[i].every_meals == 1) != other)
                continue;
            const char *one = supplement_text(c, &m->supplements[i]);
            if (!*one)
                continue;
            text = text ? arena_format(c->arena, "%s\n%s", text, one) : one;
        }
    }
    const char *alone =
        text && m->supplement_count > 1 ? phrase(&c->ctx, "sheet.supplement.one-a-meal") : "";
    if (*alone)
        text = arena_format(c->arena, "%s\n%s", text, alone);
    const char *where = text ? phrase(&c->ctx, "sheet.supplement.on-insects") : "";
    return *where ? arena_format(c->arena, "%s\n%s", text, where) : text;
}

static const char *change_key(struct composition *c)
{
    const enum feeding_change change = c->plan->feeding.change;
    const struct feeding_plan *m = &c->plan->feeding;
    if (change == FEEDING_AS_USUAL)
        return NULL;
    /* plants stand there every day in any case, and within the usual days nothing is closer */
    if (change == FEEDING_SHORTER_INTERVAL && m->every_high_days >= m->usual_low_days)
        return NULL;
    /* where no number is halved, the words say by how much */
    if (change == FEEDING_NO_LARGE_MEAL && !m->has_meal && !m->has_insects && m->has_diet)
        return "sheet.feeding-change.half-meal";
    /* where one is, it is the small meal: nobody halves it once more; half of one piece is one */
    if (change == FEEDING_NO_LARGE_MEAL && (m->has_meal || m->has_insects) && !m->step_count) {
        const bool is_half =
            m->meal_from.origin != ORIGIN_VETERINARIAN && (m->has_meal || m->insects_low > 1);
        return is_half ? "sheet.feeding-change.small-halved" : "sheet.feeding-change.small-written";
    }
    /* a compact sheet leaves it to the change that says so */
    const char *action = change == FEEDING_LONGER_INTERVAL    ? "feed-less-often"
                         : change == FEEDING_SHORTER_INTERVAL ? "feed-small-often"
                                                              : NULL;
    if (c->sheet->compact.value && action && section_has_action(c, action))
        return NULL;
    return arena_format(c->arena, "sheet.feeding-change.%s",
                        bind_choice_word(feeding_change_choices, (int)change));
}

const char *section_feeding_change(struct composition *c)
{
    const char *key = change_key(c);
    return key ? phrase(&c->ctx, key) : NULL;
}

static bool lies_between(struct date day, const struct date meals[2])
{
    return date_compare(meals[0], day) < 0 && date_compare(day, meals[1]) <= 0;
}

/* The last dose that we give between two meals. */
static bool dose_between(const struct care_plan *plan, const struct date meals[2], struct date *out)
{
    bool found = false;
    for (size_t i = 0; i < plan->medicine_count; i++) {
        const struct medicine_plan *m = &plan->medicines[i];
        for (size_t k = 0; m->is_given_here && k < m->listed; k++) {
            const struct date day = m->doses[k].on;
            if (!lies_between(day, meals) || (found && date_compare(day, *out) <= 0))
                continue;
            *out = day;
            found = true;
        }
    }
    return found;
}

/* Do two meals lie further apart or nearer than it is fed, with the check or a dose of ours between
 * them? That is said; NULL for nothing to say. */
const char *section_why_off_rhythm(struct composition *c)
{
    const struct feeding_plan *m = &c->plan->feeding;
    const struct care_plan *plan = c->plan;
    for (size_t i = 0; i + 1 < m->next_count && i + 1 < MEALS_SHOWN; i++) {
        const struct date *meals = &m->next[i];
        const double apart = (double)date_days_between(meals[0], meals[1]);
        if (apart >= round(m->every_low_days) && apart <= round(m->every_high_days))
            continue;
        const bool is_check = plan->has_recheck && lies_between(plan->recheck, meals);
        struct date day = plan->recheck;
        if (is_check || dose_between(plan, meals, &day))
            return wall_phrase(c, is_check ? "wall.food.before-check" : "wall.food.before-dose",
                               "date", format_date_day(&c->ctx.format, day), NULL, NULL);
    }
    return NULL;
}

/* That of the day on which it is seen elsewhere she wrote for that day; NULL for nothing to say. */
const char *section_referral_food(struct composition *c)
{
    const struct referral_plan *other = &c->plan->referral;
    static const char *const rests[] = {"none-until-vet", "rest-until", "vet-plan"};
    bool rests_then = false;
    for (size_t i = 0; i < sizeof rests / sizeof *rests; i++)
        rests_then |= other->has_day && plan_holds_on(c->plan, "food", rests[i], other->on);
    if (!other->food_is_written || rests_then)
        return NULL;
    return wall_phrase(c, "wall.food.referral", "date", format_date_day(&c->ctx.format, other->on),
                       NULL, NULL);
}

enum { NOTES = 6 };

static const char *notes_text(struct composition *c, const char *const notes[NOTES])
{
    const char *text = NULL;
    for (size_t i = 0; i < NOTES; i++)
        if (notes[i] && *notes[i])
            text = text ? arena_format(c->arena, "%s %s", text, notes[i]) : notes[i];
    return text;
}

/* Dates then say nothing that the interval does not. */
static bool is_daily(double high_days)
{
    return round(high_days) == 1;
}

static const char *every_key(double low_days, double high_days)
{
    if (!is_daily(high_days))
        return "sheet.feeding.every";
    return low_days >= 0.75    ? "sheet.feeding.daily"
           : high_days >= 0.75 ? "sheet.feeding.twice-daily"
                               : "sheet.feeding.two-a-day";
}

/* A rising schedule: from which day how much. */
static const char *step_text(struct composition *c, const struct feeding_step *step)
{
    const struct feeding_plan *m = &c->plan->feeding;
    const struct format *f = &c->ctx.format;
    struct plan_fact amount = {
        .name = "amount",
        .kind = m->has_meal ? FACT_TEXT : FACT_COUNT,
        .text = m->has_meal ? format_mass_band(f, step->low_g, step->high_g) : NULL,
        .low = step->low,
        .high = step->high,
    };
    struct plan_fact from = {
        .name = "from", .kind = FACT_TEXT, .text = format_date_day(f, step->from), .next = &amount};
    struct phrase_context ctx = c->ctx;
    ctx.facts = &from;
    return phrase(&ctx, m->has_meal       ? "sheet.feeding.step-mass"
                        : m->is_in_pieces ? "sheet.feeding.step-pieces"
                                          : "sheet.feeding.step-insects");
}

const char *section_meal_steps(struct composition *c)
{
    const struct feeding_plan *m = &c->plan->feeding;
    const char *text = NULL;
    for (size_t i = 0; i < m->step_count; i++) {
        const char *one = step_text(c, &m->steps[i]);
        text = text ? arena_format(c->arena, "%s\n%s", text, one) : one;
    }
    return text;
}

/* "6-10 insects. Every 2-4 days": how much or what of one kind of food, and how often. Of a share
 * that rises what it begins with: the rest stands behind it, day by day. */
const char *section_food_line(struct composition *c, const struct feeding_line *line)
{
    const struct feeding_plan *m = &c->plan->feeding;
    const bool rises = m->step_count > 0 && m->steps[0].low > 0;
    const char *food = slots_line_text(&c->ctx, line), *amount = NULL;
    struct plan_fact every = {.name = "meal.interval",
                              .kind = FACT_DAYS,
                              .low = line->every_low_days,
                              .high = line->every_high_days};
    struct plan_fact count = {.name = "insects.count",
                              .kind = FACT_COUNT,
                              .low = rises ? m->steps[0].low : line->low_count,
                              .high = rises ? m->steps[0].high : line->high_count,
                              .next = &every};
    struct phrase_context ctx = c->ctx;
    ctx.facts = &count;
    if (line->has_count)
        amount = phrase(&ctx, m->is_in_pieces ? "sheet.feeding.meal-pieces"
                                              : "sheet.feeding.meal-insects");
    /* one kind alone is named with its number */
    if (amount && food && line->food_count == 1)
        amount = arena_format(
            c->arena, "%s %s",
            section_with_text(c, "sheet.run-in", "name", text_capital(c->arena, food)), amount);
    const char *what = amount ? amount : food ? text_capital(c->arena, food) : NULL;
    const char *often = line->every_high_days > 0
                            ? phrase(&ctx, every_key(line->every_low_days, line->every_high_days))
                            : NULL;
    /* how often is not said while it is given nothing */
    return what && often && *often ? arena_format(c->arena, "%s. %s", what, often)
           : what                  ? what
                                   : often;
}

/* Plants stand every day beside animal food in a rhythm of its own, and so do insects beside a mix;
 * else all foods in one row. */
static void add_foods(struct composition *c, struct block *table)
{
    const struct feeding_plan *m = &c->plan->feeding;
    if (m->line_count < 2) {
        const char *foods = slots_foods_text(&c->ctx);
        if (!foods && m->has_meal) /* a meal lighter than every prey of the table */
            foods = phrase(&c->ctx, "sheet.feeding.ask-prey");
        section_row(c, table, "sheet.feeding.food", foods ? text_capital(c->arena, foods) : NULL);
        section_row(c, table, "sheet.feeding.plants",
                    phrase_if_known(&c->ctx, "sheet.feeding.plant-share"));
        return;
    }
    if (m->beside.is_known) {
        const char *mix = slots_line_text(&c->ctx, &m->lines[0]);
        section_row(c, table, "sheet.feeding.food", mix ? text_capital(c->arena, mix) : NULL);
        section_row(c, table, "sheet.feeding.animals", section_food_line(c, &m->lines[1]));
        return;
    }
    struct plan_fact plants = {
        .name = "plants", .kind = FACT_TEXT, .text = slots_line_text(&c->ctx, &m->lines[0])};
    struct phrase_context ctx = c->ctx;
    ctx.facts = &plants;
    if (plants.text)
        section_row(c, table, "sheet.feeding.plants",
                    text_capital(c->arena, phrase(&ctx, "sheet.feeding.plants-daily")));
    const char *animals = slots_line_text(&c->ctx, &m->lines[1]);
    section_row(c, table, "sheet.feeding.animals",
                animals ? text_capital(c->arena, animals) : NULL);
}

/* What is left out while what was found lasts. */
static const char *with_left_out(struct composition *c, const char *text)
{
    const char *out = phrase(&c->ctx, "sheet.feeding.loose-stool");
    return *text && *out ? arena_format(c->arena, "%s %s", text, out) : *out ? out : text;
}

/* A size of prey is named already where its number is. */
bool section_says_size(const struct composition *c)
{
    const struct feeding_plan *m = &c->plan->feeding;
    return m->size_rule && !(section_in_brief(c) && m->has_meal && m->food_count > 0);
}

/* How large a piece may be, and what it must never be given. */
const char *section_food_rules(struct composition *c)
{
    const struct feeding_plan *m = &c->plan->feeding;
    const char **names = ARENA_ARRAY(c->arena, const char *, m->never_count + 1);
    const char *size =
        section_says_size(c) ? phrase_code(&c->ctx, "sheet.feeding.size", m->size_rule) : "";
    if (m->never_count == 0)
        return with_left_out(c, size);
    for (size_t i = 0; i < m->never_count; i++)
        names[i] = phrase_code(&c->ctx, "never-food", m->never[i].code);
    struct plan_fact what = {
        .name = "never", .kind = FACT_TEXT, .text = phrase_any_of(&c->ctx, names, m->never_count)};
    struct phrase_context ctx = c->ctx;
    ctx.facts = &what;
    const char *never = phrase(&ctx, "sheet.feeding.never");
    return with_left_out(c, *size && *never ? arena_format(c->arena, "%s %s", size, never)
                            : *size         ? size
                                            : never);
}

/* All its insects are of one kind, and it is offered more than the one that it is used to. */
const char *section_insect_kinds(struct composition *c)
{
    const struct feeding_plan *m = &c->plan->feeding;
    bool is_one = m->diet_now.faults & DIET_ONE_INSECT;
    return is_one && m->food_count != 1 ? phrase(&c->ctx, "sheet.feeding.one-insect") : NULL;
}

/* Which plants, and how often each; which fish. */
static void add_food_classes(struct composition *c, struct block *table)
{
    static const char *const heads[] = {"sheet.feeding.staples", "sheet.feeding.now-and-then",
                                        "sheet.feeding.treats", "sheet.feeding.fish"};
    const struct diet_plan *diet = &c->plan->feeding.diet_now;
    for (size_t i = 0; i < sizeof heads / sizeof *heads; i++) {
        const struct food_list *foods = (int)i < FOOD_CLASSES ? &diet->by_class[i] : &diet->fish;
        const char *text = slots_food_list_text(&c->ctx, foods);
        section_row(c, table, heads[i], text ? text_capital(c->arena, text) : NULL);
    }
}

/* "Every 3 days"; NULL where it is not known. */
const char *section_meal_interval(struct composition *c)
{
    return phrase_if_known(
        &c->ctx, every_key(c->plan->feeding.every_low_days, c->plan->feeding.every_high_days));
}

/* The next days of the meals, and of insects that have their own. */
static void add_next(struct composition *c, struct block *table, bool compact, bool daily)
{
    const struct feeding_plan *m = &c->plan->feeding;
    size_t most = compact ? MEALS_SHOWN : MEAL_DATES;
    if (!daily || !compact)
        section_row(c, table, "sheet.feeding.next",
                    dates_text(c, m->next, m->next_count < most ? m->next_count : most));
    if (m->line_count < 2 || m->beside.day_count == 0)
        return;
    const struct feeding_line *insects = &m->lines[1];
    section_row(
        c, table, "sheet.feeding.next-insects",
        dates_text(c, insects->next, insects->next_count < most ? insects->next_count : most));
}

void section_feeding(struct composition *c, struct block_builder *out)
{
    static const char *const heads[] = {"sheet.head.what", "sheet.head.for"};
    const struct feeding_plan *m = &c->plan->feeding;
    section_title(c, out, "sheet.feeding.title");
    if (m->paused)
        builder_spans(out, span_strong(c->arena, phrase(&c->ctx, "sheet.feeding.paused")),
                      PARAGRAPH_BODY);
    if (c->plan->taxon.is_unlisted)
        builder_paragraph(out, phrase(&c->ctx, "sheet.feeding.unlisted"));
    if (c->plan->taxon.is_unlisted && !m->has_diet && m->every_high_days <= 0 && !m->has_meal)
        return;
    /* a menu beside "no food until we tell you" would be read as leave to feed */
    if (m->paused && !m->has_resume) {
        if (change_key(c))
            builder_paragraph(out, phrase(&c->ctx, change_key(c)));
        return;
    }
    struct block *table = section_pairs(c, out, 0.3);
    bool compact = c->sheet->compact.value;
    if (!compact)
        section_head(c, table, heads, 2);
    if (!compact && !c->plan->taxon.is_unlisted) /* the age stands at the top of the sheet */
        section_row(c, table, "sheet.feeding.stage", stage_text(c));
    add_foods(c, table);
    if (!compact || c->sheet->new_home.value) /* a new keeper goes shopping by it */
        add_food_classes(c, table);
    section_row(c, table, m->step_count ? "sheet.feeding.steps" : "sheet.feeding.amount",
                m->step_count ? section_meal_steps(c) : amount_text(c));
    bool daily = is_daily(m->every_high_days);
    section_row(c, table, "sheet.feeding.interval", section_meal_interval(c));
    add_next(c, table, compact, daily);
    section_row(c, table, "sheet.feeding.supplements", section_supplements(c));
    const char *const notes[] = {
        section_food_rules(c),
        section_insect_kinds(c),
        phrase_if_known(&c->ctx, "sheet.feeding.drops"),
        section_feeding_change(c),
        /* a compact sheet leaves it to the warning signs */
        compact && section_is_shown(c, SECTION_WARNINGS)
            ? NULL
            : phrase_if_known(&c->ctx, m->fast_limit_passed ? "sheet.feeding.limit-passed"
                                                            : "sheet.feeding.limit"),
        m->has_diet ? phrase_code(&c->ctx, "sheet.feeding-how",
                                  bind_choice_word(diet_choices, (int)m->diet))
                    : NULL,
    };
    if (compact)
        section_row(c, table, "sheet.feeding.notes", notes_text(c, notes));
    for (size_t i = 0; i < NOTES && !compact; i++)
        if (notes[i] && *notes[i])
            builder_paragraph(out, notes[i]);
}
