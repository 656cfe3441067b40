/* The medicines as they were written, with the days of their doses. */
#include <math.h>
#include <string.h>

#include "care/feeding.h"
#include "care/medicines.h"
#include "records/opening.h"

static const double DAY_H = 24, SLACK = 1e-6;

/* A day of doses in words begins at four: what falls after midnight belongs to the night before.
 * One that is counted from the hour of another has the date of the clock. The hours that stand for
 * the words keep doses apart as written; common practice, no source. */
static const double DAY_BEGINS_H = 4, MIDNIGHT_H = 0;
static const struct {
    double from_h, starts_h; /* the word holds from here; a first dose is taken to be given here */
} day_parts[DAY_PART_COUNT] = {
    [DAY_PART_MORNING] = {4, 8},   [DAY_PART_NOON] = {11, 12},  [DAY_PART_AFTERNOON] = {14, 16},
    [DAY_PART_EVENING] = {18, 20}, [DAY_PART_NIGHT] = {22, 23},
};

static struct dose_plan dose_at(struct date first, double begins_h, double hours)
{
    double days = floor((hours - begins_h) / DAY_H + SLACK), hour = hours - days * DAY_H;
    const double day_minutes = DAY_H * 60;
    struct dose_plan dose = {date_add_days(first, (long)days), DAY_PART_MORNING,
                             (int)fmod(round(hour * 60), day_minutes), false};
    for (int part = 0; part < DAY_PART_COUNT; part++)
        if (hour + SLACK >= day_parts[part].from_h)
            dose.at = (enum day_part)part;
    return dose;
}

/* Doses within the days written: the last one begins before they are over. */
static long count_of(const struct visit_medicine *v)
{
    if (v->doses.known)
        return (long)v->doses.value;
    return v->for_days.known ? (long)ceil(v->for_days.value * DAY_H / v->every_h.value - SLACK) : 0;
}

/* A dose that the clinic gives on a day on which it is closed waits for the next open day, and
 * those behind it as long: none comes sooner after another than is written. Where one is due each
 * day that cannot be: the plan's dates tell it. */
static bool keep_open_days(struct care_build *b, const struct visit_medicine *v,
                           struct dose_plan *doses, size_t count)
{
    bool moved = false;
    const struct opening *opening = &b->plan->letterhead.opening;
    for (size_t i = 0; i < count && v->every_h.value > DAY_H; i++) {
        const struct date on = doses[i].on;
        long later = 0;
        while (later < OPENING_DAYS && opening_is_closed(opening, date_add_days(on, later)))
            later++;
        if (later == 0 || later == OPENING_DAYS)
            continue;
        for (size_t k = i; k < count; k++)
            doses[k].on = date_add_days(doses[k].on, later);
        build_review(
            b, REVIEW_CONFLICT, "dose-moved", v->first.at,
            build_fact_date(b, "planned", on, build_fact_date(b, "open", doses[i].on, NULL)));
        moved = true;
    }
    return moved;
}

/* As written; else in the morning, and what is given at home from the visit's own day on in the
 * evening, when they are home: its morning is over. Common practice, no source. */
static enum day_part first_part(const struct care_build *b, const struct visit_medicine *v,
                                const struct medicine_plan *m)
{
    if (v->at.known)
        return (enum day_part)v->at.value;
    const bool from_today = !m->is_given_here && date_compare(m->first, b->plan->on) == 0;
    return from_today ? DAY_PART_EVENING : DAY_PART_MORNING;
}

/* The hours of the clock for what is given so often; NULL: the parts of the day will do. */
static const struct dose_clock *clock_of(const struct care_build *b, double every_h)
{
    const struct list *clocks = &b->in->reference->dose_clocks;
    for (size_t i = 0; i < clocks->count; i++) {
        const struct dose_clock *clock = LIST_AT(*clocks, struct dose_clock, i);
        if (fabs(clock->every_h.value - every_h) <= SLACK)
            return clock;
    }
    return NULL;
}

/* The first hour of the clock that is not before the part of the day. */
static double clock_hour(const struct dose_clock *clock, enum day_part part)
{
    double hour = opening_minute(clock->from.text) / 60.0;
    while (hour + SLACK < day_parts[part].from_h)
        hour += clock->every_h.value;
    return hour;
}

/* Hours from the start of the day `first` to the first dose that is listed. After a dose of today
 * the next is as much later as is written, from its time, unless a part of the day is written for
 * those of one a day or less; where its time is not known, in the next morning, which is never too
 * soon. What is given so often that words do not part it, and from no hour of hers, is counted by
 * our clock: at home the hours are left open, as ours would wake an animal by night. */
static double start_hour(struct care_build *b, const struct visit_medicine *v,
                         struct medicine_plan *m)
{
    const bool within_day = m->every_h + SLACK < DAY_H;
    const struct dose_clock *clock = clock_of(b, m->every_h);
    m->says_clock = clock != NULL;
    const bool by_hour = within_day || !v->at.known;
    if (!m->is_given_today || !by_hour || m->given_minute < 0) {
        enum day_part part =
            m->is_given_today && !v->at.known ? DAY_PART_MORNING : first_part(b, v, m);
        double hour = clock ? clock_hour(clock, part) : day_parts[part].starts_h;
        m->asks_hours = clock != NULL && !m->is_given_here;
        if (m->is_given_today && within_day)
            build_review(b, REVIEW_MISSING, "dose-today-without-time", v->given_today.at,
                         build_fact_text(b, "medicine", FACT_TEXT, m->name, NULL));
        return hour + (!m->is_given_today ? 0 : within_day ? DAY_H : m->every_h);
    }
    m->says_clock = m->says_at = true;
    return m->given_minute / 60.0 + m->every_h;
}

/* Days of doses from tomorrow on, on which it cannot be brought. */
static void list_closed(struct care_build *b, struct medicine_plan *m)
{
    struct date *closed = ARENA_ARRAY(b->arena, struct date, m->listed + 1), day;
    for (size_t at = 0; m->is_given_here && plan_dose_day(m, &at, &day);)
        if (date_compare(day, b->plan->on) > 0 &&
            opening_is_closed(&b->plan->letterhead.opening, day))
            closed[m->closed_count++] = day;
    m->closed = closed;
}

/* A dose while its keeper sleeps is asked about: the hour of the first was ours. */
static void review_small_hours(struct care_build *b, const struct visit_medicine *v,
                               const struct medicine_plan *m)
{
    for (size_t i = 0; i < m->listed; i++)
        if (m->doses[i].minute < DAY_BEGINS_H * 60) {
            build_review(b, REVIEW_REMARK, "medicine-in-the-small-hours", v->given_today.at,
                         build_fact_text(b, "medicine", FACT_TEXT, m->name, NULL));
            return;
        }
}

/* A dose on the day of a visit with an hour is given at that visit. */
static bool is_at_visit(const struct care_build *b, const struct medicine_plan *m,
                        const struct dose_plan *dose)
{
    return m->every_h + SLACK >= DAY_H && b->plan->has_recheck && b->plan->booked_minute >= 0 &&
           date_compare(dose->on, b->plan->recheck) == 0;
}

/* The hour that was booked for it, or that of a day's dose by the clock; -1 for none. */
static int hour_here(const struct visit_medicine *v, const struct medicine_plan *m,
                     const struct dose_plan *dose)
{
    if (v->here_at.text)
        return opening_minute(v->here_at.text);
    return m->says_clock && m->every_h <= DAY_H + SLACK ? dose->minute : -1;
}

/* Nobody is sent to a closed door: the hour of such a dose is left open and asked for, once of a
 * course. Of several a day it is asked already whether it stays in. An hour after more than a day
 * is no appointment: nobody booked it, and a day's dose bears the hour of the next visit. */
static void say_hours(struct care_build *b, const struct visit_medicine *v,
                      const struct medicine_plan *m, struct dose_plan *doses)
{
    const struct opening *opening = &b->plan->letterhead.opening;
    bool is_told = plan_stays_by_clock(m);
    bool is_asked = m->every_h <= DAY_H + SLACK;
    for (size_t i = 0; i < m->listed && m->is_given_here; i++) {
        const struct date on = doses[i].on;
        if (is_at_visit(b, m, &doses[i])) {
            doses[i].minute = b->plan->booked_minute;
            doses[i].says_hour = true;
            continue;
        }
        const int hour = hour_here(v, m, &doses[i]);
        if (hour < 0 && !is_asked)
            build_review(b, REVIEW_MISSING, "dose-here-without-hour", v->mark,
                         build_fact_text(b, "medicine", FACT_TEXT, m->name, NULL));
        is_asked = is_asked || hour < 0;
        if (hour < 0)
            continue;
        doses[i].minute = hour;
        doses[i].says_hour = opening_is_open_at(opening, on, doses[i].minute);
        if (doses[i].says_hour || is_told || opening_is_closed(opening, on) ||
            date_compare(on, b->plan->on) <= 0)
            continue;
        struct plan_fact *name = build_fact_text(b, "medicine", FACT_TEXT, m->name, NULL);
        const double minute = doses[i].minute;
        name = build_fact(b, "clock", FACT_CLOCK, minute, minute, name);
        build_review(b, REVIEW_MISSING, "dose-when-closed", v->given_today.at,
                     build_fact_date(b, "on", on, name));
        is_told = true;
    }
}

static bool is_written_out(const struct visit_medicine *v, struct date day)
{
    for (size_t i = 0; i < v->not_on.count; i++)
        if (date_compare(LIST_AT(v->not_on, struct visit_day, i)->on.date, day) == 0)
            return true;
    return false;
}

/* A step of hers that names it and the day of the referral says what of it on that day: a box to
 * tick beside "no painkiller that morning" would be a second order. */
static bool is_left_to_step(const struct care_build *b, const struct medicine_plan *m,
                            struct date day)
{
    const struct referral_plan *other = &b->plan->referral;
    return !m->is_given_here && other->has_day && date_compare(other->on, day) == 0 &&
           written_medicine_on(b->in->visit, m->name, day);
}

/* A course in doses goes on for as many as were left out. */
static size_t more_slots(const struct visit_medicine *v)
{
    return v->doses.known ? v->not_on.count * (size_t)ceil(fmax(1, DAY_H / v->every_h.value)) : 0;
}

static bool any_stays(const struct visit_medicine *v, const struct dose_plan *doses, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (!is_written_out(v, doses[i].on))
            return true;
    return false;
}

/* Takes out the doses of days without one; where none would be left the course stands as written.
 * The place of the last dose of the course. */
static size_t leave_days_out(struct care_build *b, const struct visit_medicine *v,
                             struct medicine_plan *m, struct dose_plan *doses, size_t count)
{
    struct date *out = ARENA_ARRAY(b->arena, struct date, v->not_on.count + 1);
    const bool is_possible = any_stays(v, doses, count);
    const size_t slots = count + more_slots(v);
    size_t kept = 0, left = 0, at = 0;
    for (; at < slots && kept + left < count; at++) {
        const struct date day = doses[at].on;
        const bool is_out = is_possible && is_written_out(v, day),
                   is_left = !is_out && count > 1 && is_left_to_step(b, m, day);
        const bool is_told = m->not_on_count && date_compare(out[m->not_on_count - 1], day) == 0;
        if (is_out && !is_told)
            out[m->not_on_count++] = day;
        m->leaves_day |= is_left;
        left += is_left || (is_out && !v->doses.known);
        if (!is_out && !is_left)
            doses[kept++] = doses[at];
    }
    if (m->not_on_count < v->not_on.count)
        build_review(b, REVIEW_IMPLAUSIBLE, "medicine-day-out-unused", v->mark,
                     build_fact_text(b, "medicine", FACT_TEXT, m->name, NULL));
    m->not_on = out;
    m->listed = kept;
    m->dose_count = m->dose_count > 0 ? m->dose_count - (long)(count - kept) : 0;
    return at ? at - 1 : 0;
}

static void list_doses(struct care_build *b, const struct visit_medicine *v,
                       struct medicine_plan *m)
{
    const double start_h = start_hour(b, v, m);
    const bool from_hour = m->is_given_today && m->given_minute >= 0 && m->says_clock;
    const double begins_h = from_hour ? MIDNIGHT_H : DAY_BEGINS_H;
    const long written = m->dose_count;
    m->begins_at_midnight = from_hour;
    long wanted = written ? written : (long)ceil(FEEDING_PLANNER_DAYS * DAY_H / m->every_h - SLACK);
    size_t count = wanted < DOSES_MOST ? (size_t)wanted : DOSES_MOST;
    const struct date course = m->first;
    const size_t slots = count + more_slots(v);
    struct dose_plan *doses = ARENA_ARRAY(b->arena, struct dose_plan, slots + 1);
    for (size_t i = 0; i < slots; i++)
        doses[i] = dose_at(course, begins_h, start_h + m->every_h * (double)i);
    if (m->is_given_here)
        m->moved = keep_open_days(b, v, doses, slots);
    const size_t last = leave_days_out(b, v, m, doses, count);
    m->doses = doses;
    m->goes_on = written == 0 || count < (size_t)wanted;
    m->goes_on_from = dose_at(course, begins_h, start_h + m->every_h * (double)(last + 1)).on;
    list_closed(b, m);
    say_hours(b, v, m, doses);
    if (from_hour)
        review_small_hours(b, v, m);
    if (m->asks_hours)
        build_review(b, REVIEW_MISSING, "dose-hours-not-written", v->every_h.at,
                     build_fact_text(b, "medicine", FACT_TEXT, m->name, NULL));
    if ((m->is_given_today || v->not_on.count) && m->listed > 0)
        m->first = m->doses[0].on;
    m->has_last = written > 0;
    const bool are_all = (m->is_given_here || !m->goes_on) && m->listed > 0;
    if (m->has_last)
        m->last = are_all
                      ? m->doses[m->listed - 1].on
                      : dose_at(course, begins_h, start_h + m->every_h * (double)(written - 1)).on;
}

/* All of it was given here: nothing is left to give. */
static struct medicine_plan only_today(struct medicine_plan m)
{
    m.is_given_here = m.has_last = true;
    m.last = m.first;
    m.is_given_today = m.has_every = m.has_for = m.has_count = false;
    m.dose_count = 0;
    return m;
}

/* "Fluids (against drying out)": brackets that hold no strength, and a word of what it is for where
 * that is written. */
static bool tells_use(const char *name, const char *for_what)
{
    enum { LETTERS_LEAST = 4 };
    const char *open = name ? strchr(name, '(') : NULL;
    if (!open || strpbrk(open, "0123456789%"))
        return false;
    size_t length = 0;
    for (const char *word = open + 1; *word && for_what; word += length + (word[length] != '\0')) {
        length = strcspn(word, " ,()");
        if (length >= LETTERS_LEAST && memmem(for_what, strlen(for_what), word, length))
            return true;
    }
    return !for_what;
}

/* Another clinic may want an empty stomach, or no painkiller before it looks. */
static void ask_of_referral(struct care_build *b, const struct visit_medicine *v,
                            const struct medicine_plan *m)
{
    const struct referral_plan *other = &b->plan->referral;
    for (size_t i = 0; i < m->listed && !m->is_given_here && other->has_day; i++) {
        if (date_compare(m->doses[i].on, other->on) != 0)
            continue;
        struct plan_fact *name = build_fact_text(b, "medicine", FACT_TEXT, m->name, NULL);
        build_review(b, REVIEW_CONFLICT, "dose-on-referral-day", v->mark,
                     build_fact_date(b, "on", other->on, name));
        return;
    }
}

static struct medicine_plan medicine_of(struct care_build *b, const struct visit_medicine *v)
{
    const struct list *written = &b->in->topics->written;
    const struct choice_value *way = written_way(written, v);
    struct medicine_plan m = {
        .name = v->name.text,
        .directions = v->directions.text,
        .says_warmth = written_says(written, &v->directions, WRITTEN_BATH_WARMTH),
        .says_depth = written_says(written, &v->directions, WRITTEN_BATH_DEPTH),
        .says_bath = written_says(written, &v->directions, WRITTEN_BATH),
        .asks_label = !v->amount.known && written_says(written, &v->directions, WRITTEN_LABEL),
        .says_eye = written_says(written, &v->directions, WRITTEN_EYE),
        .says_length = written_says(written, &v->directions, WRITTEN_LENGTH),
        .says_check = written_says(written, &v->directions, WRITTEN_CHECK),
        .use = written_use(written, v),
        .for_what = v->for_what.text,
        .name_tells_use = tells_use(v->name.text, v->for_what.text),
        .watch = v->watch.text,
        .has_amount = v->amount.known,
        .amount = v->amount.written,
        .amount_unit = v->amount.unit,
        .has_route = v->route.known,
        .route = (enum medicine_route)v->route.value,
        .has_every = v->every_h.known,
        .has_way = way != NULL,
        .way = way ? (enum medicine_route)way->value : ROUTE_BY_MOUTH,
        .every_h = v->every_h.value,
        .has_for = v->for_days.known,
        .has_count = v->doses.known,
        .for_days = v->for_days.value,
        .has_first = v->first.known,
        .is_given_here = v->given.value == GIVEN_HERE,
        .first = v->first.date,
        .is_given_today = v->given_today.value,
        .given_minute = v->given_today_at.text ? opening_minute(v->given_today_at.text) : -1,
    };
    if (m.is_given_today) {
        m.has_first = true;
        m.first = b->plan->on;
    }
    m.dose_count = m.has_every ? count_of(v) : 0;
    if (m.is_given_today && (!m.has_every || m.dose_count == 1))
        return only_today(m);
    if (!m.has_every)
        return m;
    m.dose_count -= m.is_given_today && m.dose_count > 0;
    m.says_at = v->at.known || fmod(m.every_h + SLACK, DAY_H) > 2 * SLACK;
    if (m.has_first)
        list_doses(b, v, &m);
    ask_of_referral(b, v, &m);
    m.asks_days = m.is_given_here && m.has_every && !m.has_first;
    return m;
}

bool medicines_plan(struct care_build *b)
{
    const struct list *written = &b->in->visit->medicines;
    struct medicine_plan *plans = ARENA_ARRAY(b->arena, struct medicine_plan, written->count + 1);
    bool good = true;
    for (size_t i = 0; i < written->count; i++) {
        const struct visit_medicine *v = LIST_AT(*written, struct visit_medicine, i);
        plans[i] = medicine_of(b, v);
        good = medicine_review(b, v, &plans[i]) && good;
    }
    medicine_review_names(b);
    b->plan->medicines = plans;
    b->plan->medicine_count = written->count;
    medicine_review_uses(b);
    medicine_review_order(b);
    b->plan->baths_apart = medicine_baths_apart(b);
    return good;
}

/* The day on which the tube is looked at, or the recheck. */
static bool tube_check_day(const struct care_build *b, struct date *day)
{
    *day = b->plan->recheck;
    for (size_t i = 0; i < b->plan->procedure_count; i++)
        if (strcmp(b->plan->procedures[i].code, "feeding-tube-placed") == 0 &&
            b->plan->procedures[i].has_check) {
            *day = b->plan->procedures[i].check;
            return true;
        }
    return b->plan->has_recheck;
}

/* The days of the tube: from the first one that was written, else from the day on which the gut no
 * longer rests, and tomorrow at the soonest, as the tube was placed today (common practice, no
 * source); until it is looked at. She is told where she wrote no first day. */
bool tube_food_plan(struct care_build *b)
{
    const struct aftercare_plan *written = &b->plan->aftercare;
    const struct visit_medicine v = {.every_h = {.known = true, .value = written->tube_every_h}};
    struct date first = plan_food_day(b->plan), last;
    if (written->tube_ml <= 0 || written->tube_every_h <= 0 ||
        !plan_holds_on(b->plan, "food", "vet-plan", first))
        return true;
    if (date_compare(first, b->plan->on) <= 0)
        first = date_add_days(b->plan->on, 1);
    if (written->has_tube_first)
        first = written->tube_first;
    else
        build_review(b, REVIEW_MISSING, "tube-first-not-told", (struct mark){0},
                     build_fact_date(b, "on", first, NULL));
    struct medicine_plan m = {.has_amount = true,
                              .amount = written->tube_ml,
                              .amount_unit = UNIT_MILLILITRE,
                              .has_every = true,
                              .every_h = written->tube_every_h,
                              .has_first = true,
                              .first = first,
                              .given_minute = -1};
    m.says_at = fmod(m.every_h + SLACK, DAY_H) > 2 * SLACK;
    if (tube_check_day(b, &last) && date_compare(last, first) >= 0)
        m.dose_count =
            1 + (long)floor((double)date_days_between(first, last) * DAY_H / m.every_h + SLACK);
    list_doses(b, &v, &m);
    b->plan->tube_food = m;
    return true;
}

const struct medicine_plan *plan_ticked(const struct care_plan *plan, size_t place)
{
    if (place < plan->medicine_count)
        return &plan->medicines[place];
    return place == plan->medicine_count && plan->tube_food.listed ? &plan->tube_food : NULL;
}

size_t plan_home_doses(const struct medicine_plan *medicine)
{
    return medicine->is_given_here ? 0 : medicine->listed;
}

const struct dose_plan *plan_next_dose_here(const struct care_plan *plan,
                                            const struct medicine_plan *m)
{
    for (size_t i = 0; i < m->listed && m->is_given_here; i++) {
        const struct dose_plan *dose = &m->doses[i];
        if (date_compare(dose->on, plan->on) > 0 &&
            !opening_is_closed(&plan->letterhead.opening, dose->on))
            return dose;
    }
    return NULL;
}

bool plan_dose_day(const struct medicine_plan *medicine, size_t *at, struct date *day)
{
    if (*at >= medicine->listed)
        return false;
    *day = medicine->doses[*at].on;
    while (*at < medicine->listed && date_compare(medicine->doses[*at].on, *day) == 0)
        ++*at;
    return true;
}
