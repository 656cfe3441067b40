/* Who it is, the state of the sheet, and the one message. */
#include <string.h>

#include "base/utf8.h"
#include "sheet/medicine_words.h"
#include "sheet/wall.h"
#include "words/format_opening.h"

/* ---- who ---- */

const char *wall_kind_text(struct composition *c)
{
    const struct patient_plan *patient = &c->plan->patient;
    const char *kind =
        text_capital(c->arena, plan_species_name(c->plan, c->ctx.format.words->lang));
    if (!patient->sex.known || patient->sex.value == SEX_UNKNOWN)
        return kind;
    return arena_format(
        c->arena, "%s, %s", kind,
        phrase_code(&c->ctx, "wall.sex", bind_choice_word(sex_choices, patient->sex.value)));
}

static const char *who_text(struct composition *c)
{
    const struct patient_plan *patient = &c->plan->patient;
    const struct format *f = &c->ctx.format;
    const char *text = wall_kind_text(c);
    if (patient->age_known && date_is_set(patient->hatched))
        text = arena_format(c->arena, "%s, %s", text, format_age(f, patient->hatched, c->plan->on));
    if (patient->has_mass)
        text = arena_format(c->arena, "%s, %s", text, format_mass(f, patient->mass_g));
    return text;
}

void section_wall_head(struct composition *c, struct block_builder *out)
{
    struct panel *panel = wall_panel(c, out, PANEL_HEAD);
    panel->title = c->plan->patient.name.text;
    panel->photo = section_photo_of(c, &panel->photo_alternative);
    panel->text = wall_phrase(c, "wall.who", "what", who_text(c), NULL, NULL);
    panel->after = format_date_short(&c->ctx.format, c->plan->on);
    panel->telephones = wall_telephones(c);
}

/* Each alone on its line, to be pressed. */
void section_wall_call_us(struct composition *c, struct block_builder *out)
{
    for (const struct panel_entry *e = wall_telephones(c); e; e = e->next) {
        struct span *span = span_strong(
            c->arena,
            e->title ? arena_format(c->arena, "%s\xc2\xa0%s", e->title, e->value) : e->value);
        span->uri = e->uri;
        builder_spans(out, span, PARAGRAPH_BUTTON);
    }
}

void section_wall_page_head(struct composition *c, struct block_builder *out)
{
    struct panel *panel = wall_panel(c, out, PANEL_HEAD);
    panel->is_small = true;
    panel->title = c->plan->patient.name.text;
    panel->text = format_date_short(&c->ctx.format, c->plan->on);
    panel->telephones = wall_telephones(c);
}

/* The mark was written for this trial alone; what is kept for the next has its own copy. A
 * signature has its year. */
const char *wall_state_text(struct composition *c)
{
    struct format whole = c->ctx.format;
    whole.year = 0;
    return c->is_signed ? wall_phrase(c, "wall.signed", "by", c->signed_by, "date",
                                      format_date_long(&whole, c->signed_on))
                        : arena_copy_text(c->arena, c->draft_mark);
}

void section_wall_state(struct composition *c, struct block_builder *out)
{
    struct panel *panel = wall_panel(c, out, PANEL_STRIP);
    panel->is_solid = !c->is_signed;
    panel->text = wall_state_text(c);
}

/* ---- days ---- */

/* As everywhere on the sheet; with its year where that is another. */
const char *wall_day(struct composition *c, struct date day)
{
    return day.year == c->plan->on.year ? format_date_day(&c->ctx.format, day)
                                        : format_date_long(&c->ctx.format, day);
}

/* With its hour, where that is known. */
const char *wall_day_at(struct composition *c, struct date day, int minute)
{
    const char *text = wall_day(c, day);
    return minute < 0 ? text
                      : wall_phrase(c, "wall.main.day-at", "date", text, "what",
                                    format_clock(&c->ctx.format, minute));
}

/* ---- the message: its medicine ---- */

/* What has no rhythm has no doses in the list: its first day is all that is known. */
static bool is_due_today(const struct composition *c, const struct medicine_plan *m)
{
    for (size_t i = 0; i < plan_home_doses(m); i++)
        if (date_compare(m->doses[i].on, c->plan->on) == 0)
            return true;
    return m->listed == 0 && m->has_first && date_compare(m->first, c->plan->on) == 0;
}

/* Directions may say another thing than the day and the word "give": they are pointed to. */
static const char *name_text(struct composition *c, const struct medicine_plan *m)
{
    const char *name = medicine_name(c, m);
    if (m->directions)
        return wall_phrase(c, "wall.main.medicine-written", "what", name, NULL, NULL);
    if (m->has_first && date_compare(m->first, c->plan->on) > 0)
        return wall_phrase(c, "wall.main.medicine-from", "what", name, "date",
                           format_date_day(&c->ctx.format, m->first));
    const char *awake = medicine_waits(c->plan, m)
                            ? wall_phrase(c, "wall.main.medicine-awake", "what", name, NULL, NULL)
                            : "";
    const char *steady =
        medicine_needs_steady(m)
            ? wall_phrase(c, "wall.main.medicine-steady", "what", *awake ? awake : name, NULL, NULL)
            : "";
    return *steady ? steady : *awake ? awake : name;
}

/* What is given at home: today, today as its directions say, or later. */
enum giving { GIVEN_TODAY, GIVEN_TODAY_AS_WRITTEN, GIVEN_ELSE };

static enum giving giving_of(const struct composition *c, const struct medicine_plan *m)
{
    if (!is_due_today(c, m))
        return GIVEN_ELSE;
    return m->directions ? GIVEN_TODAY_AS_WRITTEN : GIVEN_TODAY;
}

/* Its names, with the day where that is known; NULL for none, "" for so many that they have no
 * room. */
static const char *medicine_names(struct composition *c, enum giving giving)
{
    enum { NAMED_MOST = 2 };
    const char *names[NAMED_MOST];
    size_t count = 0;
    for (size_t i = 0; i < c->plan->medicine_count; i++) {
        const struct medicine_plan *m = &c->plan->medicines[i];
        if (m->is_given_here || giving_of(c, m) != giving)
            continue;
        if (count == NAMED_MOST)
            return "";
        names[count++] = name_text(c, m);
    }
    return count ? phrase_all_of(&c->ctx, names, count) : NULL;
}

/* Too many to name and none of them due today: the day on which they begin. */
static const char *point_to_later(struct composition *c)
{
    const struct medicine_plan *soonest = NULL;
    for (size_t i = 0; i < c->plan->medicine_count; i++) {
        const struct medicine_plan *m = &c->plan->medicines[i];
        if (m->is_given_here || is_due_today(c, m))
            continue;
        if (!m->has_first)
            return phrase(&c->ctx, "wall.main.medicines");
        if (!soonest || date_compare(m->first, soonest->first) < 0)
            soonest = m;
    }
    return !soonest || date_compare(soonest->first, c->plan->on) <= 0
               ? phrase(&c->ctx, "wall.main.medicines")
               : wall_phrase(c, "wall.main.medicines-from", "date",
                             format_date_day(&c->ctx.format, soonest->first), NULL, NULL);
}

/* A dose that we give later today brings it back tonight: its hours, with its name. */
static const char *here_today(struct composition *c)
{
    const char *text = NULL;
    for (size_t i = 0; i < c->plan->medicine_count; i++) {
        const struct medicine_plan *m = &c->plan->medicines[i];
        const char **times = ARENA_ARRAY(c->arena, const char *, m->listed + 1);
        size_t count = 0;
        for (size_t k = 0; k < m->listed && m->is_given_here && m->says_clock; k++)
            if (date_compare(m->doses[k].on, c->plan->on) == 0)
                times[count++] = medicine_time(c, m, &m->doses[k]);
        if (count > 0)
            text = wall_join(c, text,
                             wall_phrase(c, "wall.main.dose-here", "what", medicine_name(c, m),
                                         "date", phrase_all_of(&c->ctx, times, count)));
    }
    return text;
}

/* That brings it back tonight, and is said already. */
static bool is_here_today(const struct composition *c, const struct medicine_plan *m)
{
    return m->is_given_here && m->says_clock && m->listed > 0 &&
           date_compare(m->doses[0].on, c->plan->on) == 0;
}

/* The dose for which it comes back before the check, or where there is room on its day, which
 * brings it anyway; NULL: none. */
static const struct dose_plan *here_then(const struct composition *c, size_t place)
{
    const struct medicine_plan *m = &c->plan->medicines[place];
    const struct dose_plan *dose = is_here_today(c, m) ? NULL : plan_next_dose_here(c->plan, m);
    const int before_check =
        dose && c->plan->has_recheck ? date_compare(dose->on, c->plan->recheck) : -1;
    return before_check < 0 || (before_check == 0 && wall_says_causes(c)) ? dose : NULL;
}

/* Is the day of the next visit said with the dose that it brings? */
static bool says_day_of_dose(const struct composition *c)
{
    for (size_t i = 0; i < c->plan->medicine_count; i++) {
        const struct dose_plan *dose = here_then(c, i);
        if (dose && !c->plan->referral.has_day && c->plan->has_recheck &&
            date_compare(dose->on, c->plan->recheck) == 0 &&
            date_compare(c->plan->recheck, c->plan->next_visit) == 0)
            return true;
    }
    return false;
}

static bool is_one_visit(const struct dose_plan *one, const struct dose_plan *other)
{
    const int minute = one && one->says_hour ? one->minute : -1;
    return one && other && date_compare(one->on, other->on) == 0 &&
           minute == (other->says_hour ? other->minute : -1);
}

/* "Back to us Mon 30 Nov at 11:20: Thiamine." Of what is given at one hour once. */
static const char *here_at(struct composition *c, size_t place)
{
    const struct dose_plan *dose = here_then(c, place);
    const char **names = ARENA_ARRAY(c->arena, const char *, c->plan->medicine_count + 1);
    size_t count = 0;
    for (size_t i = 0; i < c->plan->medicine_count; i++) {
        if (!is_one_visit(here_then(c, i), dose))
            continue;
        if (i < place)
            return NULL;
        names[count++] = medicine_name(c, &c->plan->medicines[i]);
    }
    return wall_phrase(c, "wall.main.dose-then", "what", phrase_all_of(&c->ctx, names, count),
                       "date", wall_day_at(c, dose->on, dose->says_hour ? dose->minute : -1));
}

/* We are closed on the day of its very next dose: who gives it is asked before they leave. */
static const char *here_closed(struct composition *c, const struct medicine_plan *m)
{
    const struct dose_plan *open = plan_next_dose_here(c->plan, m);
    if (m->closed_count == 0 || is_here_today(c, m) ||
        (open && date_compare(open->on, m->closed[0]) < 0) ||
        (c->plan->has_recheck && date_compare(c->plan->recheck, m->closed[0]) <= 0))
        return NULL;
    return wall_phrase(c, "wall.main.dose-closed", "what", medicine_name(c, m), "date",
                       wall_day(c, m->closed[0]));
}

/* The next day on which we give a dose before the check: until then nobody looks at page two. */
static const char *here_later(struct composition *c)
{
    const struct dose_plan *first = NULL;
    const char *text = NULL;
    for (size_t i = 0; i < c->plan->medicine_count; i++) {
        const struct dose_plan *dose = here_then(c, i);
        if (dose && (!first || date_compare(dose->on, first->on) < 0))
            first = dose;
        text = wall_join(c, text, here_closed(c, &c->plan->medicines[i]));
    }
    for (size_t i = 0; first && i < c->plan->medicine_count; i++) {
        const struct dose_plan *dose = here_then(c, i);
        if (dose && date_compare(dose->on, first->on) == 0)
            text = wall_join(c, text, here_at(c, i));
    }
    return text;
}

/* What is given, without what was said of today already. Nobody turns the page late at night for a
 * dose that this page is silent about. Where room is short beside a day with us, what is given at
 * home from another day on stands with the medicines alone. */
static const char *medicine_sentences(struct composition *c, bool says_today)
{
    static const char *const keys[] = {"wall.main.dose", "wall.main.dose-written",
                                       "wall.main.medicine"};
    const char *later = here_later(c), *text = wall_join(c, here_today(c), later);
    const bool is_short =
        section_says(c, MESSAGE_ALONE) ||
        (later && !section_says(c, MESSAGE_FULL) && !section_says(c, MESSAGE_NAMES));
    bool points = false, points_today = false;
    const int last = is_short ? GIVEN_TODAY_AS_WRITTEN : GIVEN_ELSE;
    for (int giving = says_today ? GIVEN_TODAY_AS_WRITTEN : GIVEN_TODAY; giving <= last; giving++) {
        const char *names = medicine_names(c, (enum giving)giving);
        points |= names && !*names;
        points_today |= names && !*names && giving != GIVEN_ELSE;
        if (names && *names)
            text = wall_join(c, text, wall_phrase(c, keys[giving], "what", names, NULL, NULL));
    }
    if (!points)
        return text;
    return wall_join(
        c, text, points_today ? phrase(&c->ctx, "wall.main.medicines-today") : point_to_later(c));
}

/* What is longer stands in its row alone. */
enum { OWN_LETTERS_MOST = 70 };

/* A step of the veterinarian's own words is a sentence with a capital and a stop: it stands behind
 * a colon and no word of ours goes on in it. Nothing is said twice on one page: a long one, and
 * what comes behind its first sentence, stands in its row. */
static const char *own_text(struct composition *c, const char *key, const char *below)
{
    const char *text = wall_own_sentence(c, c->plan->actions[0].own);
    return utf8_count(text, strlen(text)) > OWN_LETTERS_MOST
               ? phrase(&c->ctx, below)
               : wall_phrase(c, key, "first", text_ended(c->arena, text), NULL, NULL);
}

static bool begins_with_own(const struct composition *c)
{
    return c->plan->action_count > 0 && c->plan->actions[0].own;
}

/* ---- of one that is ill ---- */

/* What is put on a place of the body treats what was found there. */
static const struct local_route {
    enum medicine_route route;
    enum body_system system;
    bool of_ear; /* what is looked at with the eyes, and is none */
} local_routes[] = {
    {ROUTE_IN_THE_EYE, SYSTEM_EYES, false},        {ROUTE_IN_THE_EAR, SYSTEM_EYES, true},
    {ROUTE_IN_THE_NOSE, SYSTEM_NOSE, false},       {ROUTE_BREATHED_IN, SYSTEM_NOSE, false},
    {ROUTE_IN_THE_MOUTH, SYSTEM_MOUTH, false},     {ROUTE_ON_THE_SKIN, SYSTEM_SKIN, false},
    {ROUTE_ON_THE_SKIN, SYSTEM_SHELL, false},      {ROUTE_ON_THE_SKIN, SYSTEM_LIMBS, false},
    {ROUTE_ON_THE_SKIN, SYSTEM_BELLY_SIDE, false}, {ROUTE_IN_A_BATH, SYSTEM_SKIN, false},
};

static bool treats(const struct medicine_plan *m, const struct finding_plan *finding)
{
    bool of_ear = strcmp(finding->code, "swollen-ear") == 0;
    if (!m->has_route || m->is_given_here)
        return false;
    for (size_t i = 0; i < sizeof local_routes / sizeof *local_routes; i++)
        if (m->route == local_routes[i].route && finding->system == local_routes[i].system &&
            of_ear == local_routes[i].of_ear)
            return true;
    return false;
}

static bool is_treated_at_home(const struct care_plan *plan, const struct finding_plan *finding)
{
    for (size_t i = 0; i < plan->medicine_count; i++)
        if (treats(&plan->medicines[i], finding))
            return true;
    return false;
}

/* Beside what leads, the gravest of what the keeper treats with his own hands; NULL for none. */
static const struct finding_plan *treated_beside(const struct care_plan *plan,
                                                 const struct finding_plan *worst)
{
    const struct finding_plan *second = NULL;
    for (size_t i = 0; i < plan->finding_count; i++) {
        const struct finding_plan *one = &plan->findings[i];
        if (one != worst && one->severity != SEVERITY_NORMAL && is_treated_at_home(plan, one) &&
            (!second || one->severity > second->severity))
            second = one;
    }
    return second;
}

static bool is_in_doubt(const struct finding_plan *one)
{
    return one->is_suspected || one->is_name_doubt;
}

/* What a mild cause brought about and anyone sees is what the keeper came for: a graver one stands
 * before that cause in every message. */
static bool is_what_it_came_for(const struct finding_plan *second, const struct finding_plan *worst)
{
    return second && second->headline == HEADLINE_BEHIND && second->system == SYSTEM_WATCHING &&
           second->severity > worst->severity && !is_in_doubt(second) && !is_in_doubt(worst);
}

/* That, else where there is room what leads of the rest. Behind what is in doubt it stands in any
 * case, as it is sure ("Overweight and perhaps a fatty liver"), but not what would come of that. */
static const struct finding_plan *second_finding(const struct composition *c,
                                                 const struct finding_plan *worst)
{
    const struct finding_plan *second =
        is_treated_at_home(c->plan, worst) ? NULL : treated_beside(c->plan, worst);
    const bool is_tight = section_says(c, MESSAGE_BRIEF) || section_says(c, MESSAGE_ALONE) ||
                          section_says(c, MESSAGE_HOME) || section_says(c, MESSAGE_FIRST);
    if (second)
        return second;
    second = plan_second_finding(c->plan);
    if (is_tight && !is_in_doubt(worst))
        return is_what_it_came_for(second, worst) ? second : NULL;
    const bool follows = second && (is_in_doubt(second) || second->headline == HEADLINE_BEHIND);
    return is_in_doubt(worst) && follows ? NULL : second;
}

/* A word that weighs what is severe, where there is one. */
static const char *message_name(struct composition *c, const struct finding_plan *finding)
{
    const char *severe = arena_format(c->arena, "wall.severe.%s", finding->code);
    const char *name =
        finding->severity == SEVERITY_SEVERE ? phrase_if_worded(&c->ctx, severe) : NULL;
    return name && *name ? name : section_finding_name(c, finding);
}

/* What it is. "Sore mouth and perhaps a virus": what is in doubt stands last, so that the doubt is
 * not of both. */
static const char *found_text(struct composition *c)
{
    const struct finding_plan *worst = plan_worst_finding(c->plan);
    const struct finding_plan *second = second_finding(c, worst), *harm = NULL;
    const struct finding_plan *named[3] = {worst};
    const char *names[3];
    size_t count = 1;
    if (second)
        named[count++] = second;
    for (size_t i = 0; i < count; i++)
        harm = harm ? harm : named[i]->harmed_by;
    if (harm && count < 3 && second != harm && worst != harm && wall_says_causes(c))
        named[count++] = harm; /* beside what it harms, where there is room */
    if (is_what_it_came_for(second, worst)) {
        named[0] = second;
        named[1] = worst;
    }
    for (size_t i = 0; i + 1 < count; i++) /* at most one of them is in doubt */
        if (is_in_doubt(named[i])) {
            const struct finding_plan *doubt = named[i];
            named[i] = named[i + 1];
            named[i + 1] = doubt;
        }
    for (size_t i = 0; i < count; i++)
        names[i] = i ? text_small(c->arena, message_name(c, named[i])) : message_name(c, named[0]);
    return phrase_all_of(&c->ctx, names, count);
}

static const char *first_text(struct composition *c)
{
    return begins_with_own(c)
               ? own_text(c, "wall.main.first-own", "wall.main.first-below")
               : wall_phrase(c, "wall.main.first", "first", wall_short(c, 0), NULL, NULL);
}

/* It goes into the water tonight, before anybody turns the page. */
static const char *water_question(struct composition *c)
{
    for (size_t i = 0; i < c->plan->procedure_count; i++)
        if (c->plan->procedures[i].asks_water)
            return phrase(&c->ctx, "wall.main.ask-water");
    return NULL;
}

/* What the sheet is for, and until when: until the check, where a dose or a dressing brings it here
 * before. */
static const char *until_text(struct composition *c)
{
    const struct care_plan *plan = c->plan;
    if (plan->has_recheck && date_compare(plan->next_visit, plan->recheck) < 0)
        return wall_phrase(c, "wall.main.back-check", "date", wall_day(c, plan->recheck), NULL,
                           NULL);
    if (says_day_of_dose(c))
        return phrase(&c->ctx, "wall.main.back-dose");
    return wall_phrase(c, section_says(c, MESSAGE_FULL) ? "wall.main.back" : "wall.main.back-brief",
                       "date", wall_day(c, plan->next_visit), NULL, NULL);
}

/* That, or what comes behind the day elsewhere. */
static const char *back_text(struct composition *c)
{
    const struct referral_plan *referral = &c->plan->referral;
    if (!c->plan->has_next_visit)
        return phrase(&c->ctx, "wall.main.ask");
    bool goes_first = referral->has_day && date_compare(referral->on, c->plan->next_visit) < 0;
    return goes_first ? wall_phrase(c, "wall.main.back-then", "date",
                                    wall_day(c, c->plan->next_visit), NULL, NULL)
                      : until_text(c);
}

static bool is_of_ills(const struct composition *c)
{
    return section_says(c, MESSAGE_HOME) || section_says(c, MESSAGE_FIRST) ||
           section_says(c, MESSAGE_ILLS_ALONE) || section_says(c, MESSAGE_ILLS) ||
           section_says(c, MESSAGE_LAMP);
}

/* The day stands among the dates too; where even a row went so that page one takes what stands on
 * the later ones it stands there alone. */
static bool leaves_day_out(const struct composition *c)
{
    return c->plan->has_next_visit && section_says(c, MESSAGE_ALONE) && section_has_moved(c) &&
           !section_may_show(c, 2);
}

/* The day on which it goes elsewhere. */
static const char *referral_text(struct composition *c)
{
    const struct referral_plan *referral = &c->plan->referral;
    return referral->has_day
               ? wall_phrase(c, referral->to ? "wall.main.referral" : "wall.main.referral.day",
                             "what", referral->to, "date",
                             format_date_day(&c->ctx.format, referral->on))
               : NULL;
}

/* What is found, with what is wrong at home where there is room, and what comes first: a step, else
 * the dose of today. */
static void set_ill(struct composition *c, struct panel *panel)
{
    const bool has_steps = wall_step_count(c) > 0;
    const char *today = has_steps ? NULL : medicine_names(c, GIVEN_TODAY);
    const bool gives = today && *today;
    const char *first = has_steps ? first_text(c)
                        : gives   ? wall_phrase(c, "wall.main.dose", "what", today, NULL, NULL)
                                  : NULL;
    const char *found = wall_phrase(c, "wall.main.is", "what", found_text(c), NULL, NULL);
    const bool has_room =
        section_says(c, MESSAGE_TWO) && !second_finding(c, plan_worst_finding(c->plan));
    const char *cause =
        wall_says_causes(c) || is_of_ills(c) || has_room ? wall_cause_text(c) : NULL;
    panel->text = wall_join(c, wall_join(c, found, cause), first);
    panel->small = wall_join(c, water_question(c), medicine_sentences(c, gives));
    panel->small = wall_join(c, panel->small, referral_text(c)); /* nobody finds that day later */
    if (!leaves_day_out(c))
        panel->small = wall_join(c, panel->small, back_text(c));
}

/* ---- of one that is well ---- */

/* Whose it is, what was found, what is wrong at home, and tonight's first steps. Where something
 * was found the first step alone: all stand in the rows. */
static const char *changes_text(struct composition *c)
{
    const struct finding_plan *worst = plan_worst_finding(c->plan);
    const bool two = wall_step_count(c) > 1 && !worst;
    const char *tonight =
        begins_with_own(c) ? own_text(c, "wall.main.one-own", "wall.main.one-below")
        : two && !c->plan->actions[1].own
            ? wall_phrase(c, "wall.main.two", "first", wall_short(c, 0), "second", wall_short(c, 1))
            : wall_phrase(c, "wall.main.one", "first", wall_short(c, 0), NULL, NULL);
    tonight = wall_join(c, wall_cause_text(c), tonight);
    return worst ? wall_join(c, wall_phrase(c, "wall.main.is", "what", found_text(c), NULL, NULL),
                             tonight)
                 : wall_phrase(c, "wall.main.of", "what", tonight, NULL, NULL);
}

static const char *unchanged_text(struct composition *c)
{
    const char *key = section_no_changes_key(c->plan);
    if (strcmp(key, "sheet.no-changes.text") == 0)
        key = wall_all_fine(c->plan) ? "wall.main.well" : "wall.main.right";
    if (strcmp(key, "sheet.no-changes.later") == 0)
        return wall_phrase(c, wall_all_fine(c->plan) ? "wall.main.well-later" : "wall.main.later",
                           "first", wall_short(c, 0), NULL, NULL);
    if (strcmp(key, "sheet.no-changes.unmeasured") == 0)
        key = c->sheet->new_home.value ? "wall.main.new-home" : "wall.main.unmeasured";
    return phrase(&c->ctx, key);
}

/* Below it: that no number but the veterinarian's own stands here, and the clinic's own words. */
static const char *small_text(struct composition *c)
{
    const char *own = c->plan->message;
    if (!c->plan->taxon.is_unlisted)
        return own;
    const char *text = phrase(&c->ctx, c->plan->own_targets.any ? "sheet.unlisted.own-targets"
                                                                : "sheet.unlisted.no-targets");
    return own ? arena_format(c->arena, "%s %s", text, own) : text;
}

/* Why what can wait is named in the message: no row of tonight says it. */
static const char *later_why(struct composition *c)
{
    const bool is_later = c->plan->action_count > 0 && c->plan->actions[0].reasons &&
                          wall_step_count(c) == 0 &&
                          strcmp(section_no_changes_key(c->plan), "sheet.no-changes.later") == 0;
    return is_later && section_says_why(c, 0)
               ? arena_format(c->arena, "%s %s", phrase(&c->ctx, "sheet.why"),
                              section_why(c, c->plan->actions[0].reasons))
               : NULL;
}

/* What the sheet is for, and until when. In a new home that is the message itself. */
static const char *purpose_text(struct composition *c)
{
    if (c->sheet->new_home.value)
        return NULL;
    return c->plan->has_next_visit ? until_text(c) : phrase(&c->ctx, "wall.main.home");
}

void section_wall_message(struct composition *c, struct block_builder *out)
{
    struct panel *panel = wall_panel(c, out, PANEL_MESSAGE);
    panel->is_solid = c->plan->go_now || wall_is_ill(c->plan);
    panel->is_small = section_message_is_small(c);
    if (c->plan->go_now) {
        panel->text = phrase(&c->ctx, "wall.main.go-now");
    } else if (wall_is_ill(c->plan) || wall_comes_back(c->plan)) {
        set_ill(c, panel);
    } else {
        panel->text = wall_step_count(c) > 0 ? changes_text(c) : unchanged_text(c);
        panel->small = wall_join(c, later_why(c), medicine_sentences(c, false));
        panel->small = wall_join(c, panel->small, purpose_text(c));
    }
    panel->small = wall_join(c, panel->small, small_text(c));
}

/* ---- in one line ---- */

const char *wall_summary(struct composition *c)
{
    if (c->plan->go_now)
        return phrase(&c->ctx, "wall.summary.go-now");
    if (wall_step_count(c) > 0 && begins_with_own(c))
        return wall_phrase(c, "wall.summary.first-own", "first", c->plan->actions[0].own, NULL,
                           NULL);
    if (wall_step_count(c) > 0)
        return wall_phrase(c, "wall.summary.first", "first", wall_short(c, 0), NULL, NULL);
    if (wall_is_ill(c->plan))
        return phrase(&c->ctx, c->plan->has_next_visit ? "wall.summary.back" : "wall.summary.call");
    return phrase(&c->ctx, strcmp(section_no_changes_key(c->plan), "sheet.no-changes.unmeasured")
                               ? "wall.summary.keep"
                               : "wall.summary.measure");
}
