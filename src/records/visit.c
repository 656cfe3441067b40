/* Reads a visit record and checks what one field alone cannot show: dates, readings, addresses. */
#include "records/visit.h"

#include "records/lettering.h"
#include "records/mail_address.h"
#include "records/opening.h"

#include <math.h>
#include <string.h>

#include "base/nearest.h"

static bool refuse(struct diag *diag, const char *code, struct mark at, const char *path,
                   const char *text)
{
    diag_report_path(diag, DIAG_ERROR, code, at, path, "%s", text);
    return false;
}

/* The water's warmth may stand in either place, once. */
static bool take_water_warmth(struct visit *visit, struct diag *diag)
{
    const struct quantity *here = &visit->water.temperature_c;
    struct quantity *there = &visit->measured[MEASURE_WATER];
    if (!here->known)
        return true;
    if (there->known)
        return refuse(diag, "water-warmth-twice", here->at, "water.temperature",
                      "give either water.temperature or enclosure.readings.water, not both");
    *there = *here;
    return true;
}

static bool check_entries(const struct visit *visit, struct diag *diag);

struct visit *visit_read_tree(const struct node *tree, const char *path, struct date today,
                              struct arena *arena, struct diag *diag)
{
    tree = lettering_settle(tree, arena, diag);
    if (!tree)
        return NULL;
    struct visit *visit = ARENA_NEW(arena, struct visit);
    visit->file = arena_copy_text(arena, path);
    visit->tree = tree;
    bool bound = bind_record(tree, &visit_schema, "", arena, diag, visit);
    bool good = take_water_warmth(visit, diag) && bound;
    /* checked even when the binding failed, so that all faults come in one run */
    good = visit_check(visit, today, diag) && good;
    /* but not what says that a part is missing, which may be there and refused */
    if (bound)
        good = check_entries(visit, diag) && good;
    return good ? visit : NULL;
}

struct visit *visit_read(const char *path, struct date today, struct arena *arena,
                         struct diag *diag)
{
    const struct node *tree = tree_read_file(path, arena, diag);
    return tree ? visit_read_tree(tree, path, today, arena, diag) : NULL;
}

enum finding_state visit_finding_state(const struct visit *visit,
                                       const struct visit_finding *finding)
{
    if (finding->state.known)
        return (enum finding_state)finding->state.value;
    return visit->veterinarian.text ? STATE_SEEN : STATE_UNSEEN;
}

static bool check_past(const struct date_value *value, struct date today, const char *path,
                       struct diag *diag)
{
    if (!value->known || date_compare(value->date, today) <= 0)
        return true;
    /* a month or a year alone is in the future only when all of it is */
    if (value->date.day == 0 && value->date.year == today.year &&
        (value->date.month == 0 || value->date.month <= today.month))
        return true;
    char day[16];
    date_write_iso(today, day);
    diag_report_path(diag, DIAG_ERROR, "date-in-future", value->at, path,
                     "lies in the future; today is %s", day);
    return false;
}

bool visit_last_meal(const struct visit *visit, struct date_value *last)
{
    *last = (struct date_value){0};
    for (size_t i = 0; i < visit->diet.count; i++) {
        const struct date_value *one = &LIST_AT(visit->diet, struct visit_diet, i)->last;
        if (one->known && (!last->known || date_compare(one->date, last->date) > 0))
            *last = *one;
    }
    return last->known;
}

static bool check_dates(const struct visit *visit, struct date today, struct diag *diag)
{
    bool good = check_past(&visit->date, today, "visit.date", diag);
    good = check_past(&visit->signature.on, today, "visit.signature.on", diag) && good;
    struct date day =
        visit->date.known && date_compare(visit->date.date, today) < 0 ? visit->date.date : today;
    good = check_past(&visit->patient.hatched, day, "patient.hatched", diag) && good;
    good =
        check_past(&visit->enclosure.lamp.installed, day, "enclosure.lamp.installed", diag) && good;
    for (size_t i = 0; i < visit->patient.earlier.count; i++) {
        const struct visit_weighing *one =
            LIST_AT(visit->patient.earlier, struct visit_weighing, i);
        good = check_past(&one->on, day, "patient.earlier.on", diag) && good;
        bool before = one->on.known && visit->patient.hatched.known &&
                      visit->patient.hatched.date.day &&
                      date_compare(one->on.date, visit->patient.hatched.date) < 0;
        if (before)
            good = refuse(diag, "date-before-hatching", one->on.at, "patient.earlier.on",
                          "lies before the day of hatching");
    }
    for (size_t i = 0; i < visit->diet.count; i++) {
        const struct date_value *last = &LIST_AT(visit->diet, struct visit_diet, i)->last;
        good = check_past(last, day, "diet.last", diag) && good;
        if (last->known && visit->patient.hatched.known && visit->patient.hatched.date.day &&
            date_compare(last->date, visit->patient.hatched.date) < 0)
            good = refuse(diag, "date-before-hatching", last->at, "diet.last",
                          "lies before the day of hatching");
    }
    return good;
}

static bool check_readings(const struct visit *visit, struct diag *diag)
{
    const struct visit_readings *r = &visit->enclosure.readings;
    const struct quantity *humidity = &visit->measured[MEASURE_HUMIDITY];
    bool good = true;
    const struct quantity *cool = &visit->measured[MEASURE_COOL_SIDE];
    const struct quantity *basking = &visit->measured[MEASURE_BASKING_SURFACE];
    if (cool->known && basking->known && cool->value > basking->value)
        good = refuse(diag, "cool-above-basking", cool->at, "enclosure.readings.cool-side",
                      "is warmer than the basking surface; were the two readings swapped?");
    if (humidity->known && (humidity->value <= 0 || humidity->value > 100))
        good = refuse(diag, "humidity-impossible", humidity->at, "enclosure.readings.humidity",
                      "a relative humidity lies above 0 and not above 100 %");
    if (r->humidity_at.known &&
        (r->humidity_at.value == ZONE_NIGHT || r->humidity_at.value == ZONE_WATER))
        good = refuse(diag, "humidity-place", r->humidity_at.at, "enclosure.readings.humidity-at",
                      "humidity is read at basking-surface, warm-side or cool-side");
    return good;
}

/* So much more than the box may a keeper's tape and bucket say. */
static const double VOLUME_SLACK = 1.05;

static bool check_water(const struct visit *visit, struct diag *diag)
{
    const struct box *box = &visit->enclosure.size;
    const struct quantity *volume = &visit->water.volume_l,
                          *depth = &visit->measured[MEASURE_DEPTH];
    bool good = true;
    if (!box->known)
        return good;
    if (depth->known && depth->value > box->height_cm * VOLUME_SLACK) {
        diag_report_path(diag, DIAG_ERROR, "deeper-than-the-box", depth->at, "water.depth",
                         "%.4g cm is more than the height of the box, %.4g cm", depth->value,
                         box->height_cm);
        good = false;
    }
    double height_cm = depth->known ? depth->value : box->height_cm;
    double most_l = box->length_cm * box->width_cm * height_cm / 1000;
    if (volume->known && volume->value > most_l * VOLUME_SLACK) {
        diag_report_path(diag, DIAG_ERROR, "volume-not-the-box", volume->at, "water.volume",
                         "%.4g l do not fit; length x width x %s of the box hold %.4g l",
                         volume->value, depth->known ? "depth" : "height", most_l);
        good = false;
    }
    return good;
}

static bool check_lamp(const struct visit *visit, struct diag *diag)
{
    const struct visit_lamp *lamp = &visit->enclosure.lamp;
    bool good = true;
    if (lamp->measured.at_cm.known && lamp->measured.at_cm.value <= 0)
        good = refuse(diag, "distance-zero", lamp->measured.at_cm.at, "enclosure.lamp.measured.at",
                      "a distance must be above 0");
    if (lamp->height_cm.known && lamp->height_cm.value <= 0)
        good = refuse(diag, "distance-zero", lamp->height_cm.at, "enclosure.lamp.height",
                      "a distance must be above 0");
    if (lamp->mesh_loss_percent.known && lamp->mesh.wire_cm.known)
        good = refuse(diag, "mesh-twice", lamp->mesh_loss_percent.at, "enclosure.lamp.mesh-loss",
                      "give either mesh-loss or mesh, not both");
    if (lamp->tube_length_cm.known && lamp->kind.known && lamp->kind.value != LAMP_TUBE)
        good = refuse(diag, "length-of-no-tube", lamp->tube_length_cm.at,
                      "enclosure.lamp.tube-length", "only a lamp of kind tube has a tube-length");
    return good;
}

/* A perch above the box, or above the lamp that hangs over it. */
static bool check_perch(const struct visit *visit, struct diag *diag)
{
    const struct visit_enclosure *box = &visit->enclosure;
    const struct quantity *perch = &box->perch_cm;
    if (!perch->known)
        return true;
    bool over_box = box->size.known && perch->value > box->size.height_cm;
    bool over_lamp = box->lamp.height_cm.known && box->platform_height_cm.known &&
                     perch->value > box->platform_height_cm.value + box->back_height_cm.value +
                                        box->lamp.height_cm.value;
    if (!over_box && !over_lamp)
        return true;
    diag_report_path(diag, DIAG_ERROR, "perch-too-high", perch->at, "enclosure.perch-height",
                     over_box ? "%.4g cm is above the box, which is %.4g cm high"
                              : "%.4g cm is above the lamp, which hangs %.4g cm above the floor",
                     perch->value,
                     over_box ? box->size.height_cm
                              : box->platform_height_cm.value + box->back_height_cm.value +
                                    box->lamp.height_cm.value);
    return false;
}

/* The basking surface lies in the box; every distance of the lamp is reckoned from it. */
static bool check_platform(const struct visit *visit, struct diag *diag)
{
    const struct visit_enclosure *box = &visit->enclosure;
    const struct quantity *platform = &box->platform_height_cm;
    if (!platform->known || !box->size.known || platform->value < box->size.height_cm)
        return true;
    diag_report_path(diag, DIAG_ERROR, "perch-too-high", platform->at, "enclosure.platform-height",
                     "%.4g cm is not in the box, which is %.4g cm high", platform->value,
                     box->size.height_cm);
    return false;
}

/* A box without heat has no heater beside that. */
static bool check_heat(const struct visit *visit, struct diag *diag)
{
    const struct list *heat = &visit->enclosure.heat;
    for (size_t i = 0; heat->count > 1 && i < heat->count; i++) {
        const struct visit_heat *one = LIST_AT(*heat, struct visit_heat, i);
        if (one->kind.value == HEAT_NONE)
            return refuse(diag, "no-heat-beside-heat", one->kind.at, "enclosure.heat",
                          "'none' stands beside other heat; keep one of them");
    }
    return true;
}

/* No more mates and males than animals. */
static bool check_company(const struct visit *visit, struct diag *diag)
{
    const struct visit_enclosure *box = &visit->enclosure;
    bool good = true;
    if (!box->animals.known)
        return true;
    if (box->males.known && box->males.value > box->animals.value) {
        diag_report_path(diag, DIAG_ERROR, "more-males-than-animals", box->males.at,
                         "enclosure.males", "%.4g of %.4g animals cannot be males",
                         box->males.value, box->animals.value);
        good = false;
    }
    if ((double)box->mates.count > box->animals.value - 1) {
        diag_report_path(diag, DIAG_ERROR, "more-mates-than-animals",
                         LIST_AT(box->mates, struct text_value, 0)->at, "enclosure.mates",
                         "%zu kinds share the box, so at least %zu animals do; animals says %.4g",
                         box->mates.count, box->mates.count + 1, box->animals.value);
        good = false;
    }
    return good;
}

static bool check_one_line(const struct text_value *value, const char *path, struct diag *diag)
{
    if (!value->text || !strpbrk(value->text, "\n\t"))
        return true;
    return refuse(diag, "not-one-line", value->at, path, "must be one line");
}

static bool check_history(const struct visit *visit, struct date today, struct diag *diag)
{
    bool good = true;
    for (int i = 0; i < EVENT_COUNT; i++)
        good = check_past(&visit->history.events[i], today, "history", diag) && good;
    return good;
}

/* Times a week or every n-th meal, one powder once. */
static bool check_powders(const struct list *powders, struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < powders->count; i++) {
        const struct visit_powder *one = LIST_AT(*powders, struct visit_powder, i);
        if (one->per_week.known == one->every_meals.known)
            good = refuse(diag, "powder-unclear", one->at, "targets.powders",
                          "say one of per-week and every-meals");
        for (size_t k = 0; k < i; k++)
            if (LIST_AT(*powders, struct visit_powder, k)->what.value == one->what.value)
                good = refuse(diag, "powder-twice", one->at, "targets.powders",
                              "is listed twice; give each powder one line");
    }
    return good;
}

/* A decision is about one thing, and says enough of it. */
static bool check_decisions(const struct visit *visit, struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < visit->decisions.count; i++) {
        const struct visit_decision *one = LIST_AT(visit->decisions, struct visit_decision, i);
        int about =
            (one->topic.text != NULL) + (one->action.text != NULL) + (one->own.text != NULL);
        if (about != 1)
            good = refuse(diag, "decision-unclear", one->at, "decisions",
                          "say exactly one of topic, action and do");
        else if (one->topic.text && !one->stance.text)
            good = refuse(diag, "decision-unclear", one->at, "decisions",
                          "say which stance of the topic shall hold, as stance: as-usual");
        else if (one->action.text && !one->strike.value && !one->place.known)
            good = refuse(diag, "decision-unclear", one->at, "decisions",
                          "say what becomes of the action: strike: yes, or place: 1");
        if ((one->topic.text || one->strike.value) && !one->because.text)
            good = refuse(diag, "decision-without-reason", one->at, "decisions.because",
                          "is missing: say the reason, as because: ...");
        if (one->until.known && date_compare(one->until.date, visit->date.date) <= 0)
            good = refuse(diag, "decision-over", one->until.at, "decisions.until",
                          "must lie after the day of the visit");
    }
    if (visit->decisions.count && !visit->veterinarian.text)
        good = refuse(diag, "decision-without-veterinarian",
                      LIST_AT(visit->decisions, struct visit_decision, 0)->at, "decisions",
                      "only a veterinarian decides: name one under visit.veterinarian");
    return good;
}

/* A dose of today begins the course: no other day does, and within a day the clock counts on. */
static bool check_given_today(const struct visit *visit, const struct visit_medicine *one,
                              struct diag *diag)
{
    enum { HOURS_A_DAY = 24 };
    bool good = true;
    if (one->given_today_at.text && opening_minute(one->given_today_at.text) < 0) {
        diag_report_path(diag, DIAG_ERROR, "not-a-time", one->given_today_at.at,
                         "medicines.given-today-at", "'%s' is no time of the day, such as 16:00",
                         one->given_today_at.text);
        good = false;
    }
    if (one->given_today_at.text && !one->given_today.value)
        good = refuse(diag, "medicine-first-twice", one->given_today_at.at,
                      "medicines.given-today-at", "write 'given-today: yes' too");
    if (one->here_at.text && opening_minute(one->here_at.text) < 0) {
        diag_report_path(diag, DIAG_ERROR, "not-a-time", one->here_at.at, "medicines.here-at",
                         "'%s' is no time of the day, such as 16:00", one->here_at.text);
        good = false;
    }
    if (!one->given_today.value)
        return good;
    if (one->first.known && date_compare(one->first.date, visit->date.date) != 0)
        good = refuse(diag, "medicine-first-twice", one->first.at, "medicines.first",
                      "the first dose was given on the day of the visit; leave 'first' out");
    if (one->at.known && one->every_h.known && one->every_h.value < HOURS_A_DAY)
        good = refuse(diag, "medicine-first-twice", one->at.at, "medicines.at",
                      "the next dose is counted from the one of today; write its time under "
                      "'given-today-at'");
    return good;
}

/* Directions alone will do, a schedule alone too; a name alone says nothing to the keeper. */
static bool check_medicines(const struct visit *visit, struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < visit->medicines.count; i++) {
        const struct visit_medicine *one = LIST_AT(visit->medicines, struct visit_medicine, i);
        bool ends = one->for_days.known || one->doses.known;
        if (one->name.text && !one->directions.text && !one->amount.known)
            good = refuse(diag, "medicine-unclear", one->mark, "medicines",
                          "directions is empty; write them, or amount and every");
        if (one->for_days.known && one->doses.known)
            good = refuse(diag, "medicine-end-twice", one->doses.at, "medicines.doses",
                          "give either for or doses, not both");
        if (!one->every_h.known && (ends || one->at.known))
            good = refuse(diag, "medicine-without-every", one->mark, "medicines",
                          "say under 'every' how often it is given");
        good = check_given_today(visit, one, diag) && good;
        if (one->at.known && !one->first.known && !one->given_today.value)
            good = refuse(diag, "medicine-without-first", one->at.at, "medicines.at",
                          "say under 'first' on which day");
    }
    return good;
}

/* As RFC 5646 builds them: a language of two or three letters, then parts of one to eight letters
 * or digits behind hyphens. */
static bool is_language_tag(const char *tag)
{
    enum { PART_MOST = 8, LANGUAGE_LEAST = 2, LANGUAGE_MOST = 3, TAG_MOST = 35 };
    static const char letters[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
    static const char both[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";
    size_t length = strspn(tag, letters);
    if (length < LANGUAGE_LEAST || length > LANGUAGE_MOST || strlen(tag) > TAG_MOST)
        return false;
    for (tag += length; *tag == '-'; tag += length) {
        length = strspn(++tag, both);
        if (length < 1 || length > PART_MOST)
            return false;
    }
    return *tag == '\0';
}

static bool check_texts(const struct visit *visit, struct diag *diag)
{
    bool good = check_one_line(&visit->patient.name, "patient.name", diag);
    good = check_one_line(&visit->keeper.name, "keeper.name", diag) && good;
    good = check_one_line(&visit->previous, "visit.previous", diag) && good;
    good = check_one_line(&visit->veterinarian, "visit.veterinarian", diag) && good;
    if (visit->notes_in.text && !is_language_tag(visit->notes_in.text))
        good = refuse(diag, "not-a-language", visit->notes_in.at, "visit.notes-in",
                      "is not a language tag; write one such as en, es or pt-BR");
    if (visit->patient.name.text &&
        strspn(visit->patient.name.text, " \n\t") == strlen(visit->patient.name.text))
        good = refuse(diag, "empty-name", visit->patient.name.at, "patient.name", "is empty");
    if (visit->keeper.email.text && !mail_address_is_one(visit->keeper.email.text))
        good = refuse(diag, "not-an-address", visit->keeper.email.at, "keeper.email",
                      "is not one plain mail address such as rosa.lind@example.org");
    if (visit->targets.because.text && !visit->targets.by.text && !visit->veterinarian.text)
        good = refuse(diag, "targets-unsigned", visit->targets.at, "targets",
                      "say under 'by' who set them, or name the veterinarian of the visit");
    return good;
}

static bool check_done(const struct visit *visit, const struct text_value *of, const char *code,
                       const char *path, struct diag *diag)
{
    struct nearest nearest;
    if (list_has_text(&visit->done_today, of->text))
        return true;
    nearest_init(&nearest, of->text);
    for (size_t i = 0; i < visit->done_today.count; i++)
        nearest_offer(&nearest, LIST_AT(visit->done_today, struct text_value, i)->text);
    diag_report_path(diag, DIAG_ERROR, code, of->at, path,
                     nearest.best ? "'%s' was not done today; did you mean '%s'?"
                                  : "'%s' was not done today; it must stand under done-today%s",
                     of->text, nearest.best ? nearest.best : "");
    return false;
}

/* A result is awaited of what was done today, and comes after it. */
static bool check_results(const struct visit *visit, struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < visit->follow_up.results.count; i++) {
        const struct visit_result *one = LIST_AT(visit->follow_up.results, struct visit_result, i);
        if (!check_done(visit, &one->of, "result-of-nothing", "follow-up.results.of", diag))
            good = false;
        else if (date_compare(one->by.date, visit->date.date) < 0)
            good = refuse(diag, "result-before-visit", one->by.at, "follow-up.results.by",
                          "lies before the visit");
    }
    return good;
}

static bool check_dry(const struct visit_aftercare *one, struct diag *diag)
{
    static const double day_h = 24;
    if (one->times.known && !one->hours.known)
        return refuse(diag, "hours-unsaid", one->times.at, "follow-up.aftercare.times",
                      "needs hours beside it: how long it is dry each time");
    if (one->from.text && !one->hours.known)
        return refuse(diag, "hours-unsaid", one->from.at, "follow-up.aftercare.from",
                      "needs hours beside it: how long it is dry each time");
    if (one->from.text && one->times.known && one->times.value > 1)
        return refuse(diag, "from-of-several-times", one->from.at, "follow-up.aftercare.from",
                      "says when it begins once a day; leave it out, or write times: 1");
    if (one->hours.known && one->hours.value * (one->times.known ? one->times.value : 1) > day_h)
        return refuse(diag, "longer-than-a-day", one->hours.at, "follow-up.aftercare.hours",
                      "are more than a day with all times together; write fewer");
    return true;
}

static bool check_once(const struct list *list, size_t at, struct diag *diag)
{
    const struct visit_aftercare *one = LIST_AT(*list, struct visit_aftercare, at);
    for (size_t i = 0; i < at; i++)
        if (strcmp(LIST_AT(*list, struct visit_aftercare, i)->of.text, one->of.text) == 0)
            return refuse(diag, "aftercare-twice", one->of.at, "follow-up.aftercare.of",
                          "has an entry above; write both as one");
    return true;
}

/* A day of the days after that cannot be. */
static bool check_from(const struct date_value *day, struct date from, const char *path,
                       const char *what, struct diag *diag)
{
    char text[16];
    if (!day->known || date_compare(day->date, from) >= 0)
        return true;
    date_write_iso(from, text);
    diag_report_path(diag, DIAG_ERROR, "aftercare-before-visit", day->at, path,
                     "lies before %s; write %s or later", what, text);
    return false;
}

static bool check_time(const struct text_value *time, const char *path, struct diag *diag)
{
    if (!time->text || opening_minute(time->text) >= 0)
        return true;
    diag_report_path(diag, DIAG_ERROR, "not-a-time", time->at, path,
                     "'%s' is no time of the day, such as 17:30", time->text);
    return false;
}

/* What was written of the days after. */
static bool check_aftercare(const struct visit *visit, struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < visit->follow_up.aftercare.count; i++) {
        const struct visit_aftercare *one =
            LIST_AT(visit->follow_up.aftercare, struct visit_aftercare, i);
        good =
            check_done(visit, &one->of, "aftercare-of-nothing", "follow-up.aftercare.of", diag) &&
            good;
        good = check_dry(one, diag) && good;
        good = check_once(&visit->follow_up.aftercare, i, diag) && good;
        good = check_from(&one->check, date_add_days(visit->date.date, 1),
                          "follow-up.aftercare.check", "the next day", diag) &&
               check_from(&one->first, visit->date.date, "follow-up.aftercare.first", "the visit",
                          diag) &&
               good;
        good = check_time(&one->awake_by, "follow-up.aftercare.awake-by", diag) && good;
        good = check_time(&one->from, "follow-up.aftercare.from", diag) && good;
        if (one->amount.known && one->amount.unit != UNIT_MILLILITRE)
            good = refuse(diag, "not-in-ml", one->amount.at, "follow-up.aftercare.amount",
                          "what goes into the stomach is written in ml, such as 5 ml");
    }
    return good;
}

static bool check_booked(const struct visit *visit, struct diag *diag)
{
    const struct visit_follow_up *next = &visit->follow_up;
    bool good = true;
    if (next->booked.known && date_compare(next->booked.date, visit->date.date) <= 0)
        good = refuse(diag, "booked-before-visit", next->booked.at, "follow-up.booked",
                      "lies before the day after the visit; write a later day");
    if (next->eggs_by.known && date_compare(next->eggs_by.date, visit->date.date) < 0)
        good = refuse(diag, "result-before-visit", next->eggs_by.at, "follow-up.eggs-by",
                      "lies before the visit");
    if (next->urine_by.known && date_compare(next->urine_by.date, visit->date.date) < 0)
        good = refuse(diag, "result-before-visit", next->urine_by.at, "follow-up.urine-by",
                      "lies before the visit");
    if (next->booked_at.text && !next->booked.known)
        good = refuse(diag, "time-of-no-day", next->booked_at.at, "follow-up.booked-at",
                      "needs its day; write 'booked' too");
    if (next->booked_at.text && opening_minute(next->booked_at.text) < 0) {
        diag_report_path(diag, DIAG_ERROR, "not-a-time", next->booked_at.at, "follow-up.booked-at",
                         "'%s' is no time of the day, such as 17:30", next->booked_at.text);
        good = false;
    }
    return good;
}

static bool check_score(const struct visit_body_score *score, struct diag *diag)
{
    if (!score->score.known || !score->of.known || score->score.value <= score->of.value)
        return true;
    return refuse(diag, "score-above-scale", score->score.at, "patient.body-score",
                  "is more than the scale's highest; write score and of as on the scale");
}

/* What a list's entries lack beside each other. */
static bool check_entries(const struct visit *visit, struct diag *diag)
{
    bool good = check_powders(&visit->targets.powders, diag);
    good = check_medicines(visit, diag) && good;
    good = check_results(visit, diag) && good;
    good = check_booked(visit, diag) && good;
    return check_aftercare(visit, diag) && good;
}

bool visit_check(const struct visit *visit, struct date today, struct diag *diag)
{
    bool good = check_dates(visit, today, diag);
    good = check_readings(visit, diag) && good;
    good = check_water(visit, diag) && good;
    good = check_lamp(visit, diag) && good;
    good = check_perch(visit, diag) && good;
    good = check_platform(visit, diag) && good;
    good = check_heat(visit, diag) && good;
    good = check_company(visit, diag) && good;
    good = check_texts(visit, diag) && good;
    good = check_score(&visit->patient.body_score, diag) && good;
    good = check_history(visit, today, diag) && good;
    good = check_decisions(visit, diag) && good;
    return good;
}
