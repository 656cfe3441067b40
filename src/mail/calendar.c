/* Events to iCalendar, one entry each, with identifiers that a later file updates. */
#include "mail/calendar.h"
#include "base/hex.h"

#include "render/file_name.h"

#include <libical/ical.h>
#include <nettle/sha2.h>
#include <string.h>

enum { KEY_BYTES = 8, FIRST_YEAR = 2000 };

/* Sixteen letters that stand for the animal and its keeper and tell nothing about them. */
static const char *animal_key(const struct care_plan *plan, struct arena *arena)
{
    const struct keeper_plan *keeper = &plan->keeper;
    const char *parts[] = {plan->patient.name.text, plan->taxon.code,
                           keeper->email.text ? keeper->email.text : keeper->name.text,
                           plan->letterhead.name.text};
    struct sha256_ctx sha;
    uint8_t digest[KEY_BYTES];
    sha256_init(&sha);
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        sha256_update(&sha, parts[i] ? strlen(parts[i]) + 1 : 1,
                      (const uint8_t *)(parts[i] ? parts[i] : ""));
    sha256_digest(&sha, sizeof digest, digest);
    char *text = arena_take(arena, 2 * KEY_BYTES + 1);
    hex_write(text, digest, sizeof digest, HEX_SMALL);
    return text;
}

static icaltimetype day_of(struct date date)
{
    icaltimetype day = icaltime_null_date();
    day.year = date.year;
    day.month = date.month;
    day.day = date.day;
    return day;
}

/* An alarm so many seconds from the day's beginning. */
static icalcomponent *alarm_at(int seconds, const char *text)
{
    struct icaltriggertype trigger = {.time = icaltime_null_time(),
                                      .duration = icaldurationtype_from_int(seconds)};
    return icalcomponent_vanew(ICAL_VALARM_COMPONENT, icalproperty_new_action(ICAL_ACTION_DISPLAY),
                               icalproperty_new_description(text),
                               icalproperty_new_trigger(trigger), (void *)0);
}

static void add_alarms(icalcomponent *event, const struct calendar_event *item)
{
    enum { NINE = 9 * 3600, DAY = 24 * 3600 };
    icalcomponent_add_component(event, alarm_at(NINE, item->summary));
    if (item->a_day_before)
        icalcomponent_add_component(event, alarm_at(NINE - DAY, item->summary));
}

/* Days that lie evenly are a rule, others a list. */
static void add_further_days(icalcomponent *event, const struct calendar_event *item)
{
    if (item->more_count == 0)
        return;
    long step = date_days_between(item->on, item->more[0]);
    bool even = true;
    for (size_t i = 1; i < item->more_count; i++)
        even = even && date_days_between(item->more[i - 1], item->more[i]) == step;
    if (even) {
        struct icalrecurrencetype rule;
        icalrecurrencetype_clear(&rule);
        rule.freq = ICAL_DAILY_RECURRENCE;
        rule.interval = (short)step;
        rule.count = (int)item->more_count + 1;
        icalcomponent_add_property(event, icalproperty_new_rrule(rule));
        return;
    }
    for (size_t i = 0; i < item->more_count; i++) {
        struct icaldatetimeperiodtype day = {.time = day_of(item->more[i])};
        day.period = icalperiodtype_null_period();
        icalcomponent_add_property(event, icalproperty_new_rdate(day)); /* it says VALUE=DATE */
    }
}

static icalcomponent *event_of(const struct care_plan *plan, const struct calendar_event *item,
                               const char *key, struct arena *arena)
{
    /* the visit's day stands for the moment of writing: the same input gives the same bytes */
    icaltimetype stamp = day_of(plan->on);
    stamp.is_date = 0;
    stamp.hour = stamp.minute = stamp.second = 0;
    stamp.zone = icaltimezone_get_utc_timezone();
    int sequence = (int)date_days_between((struct date){FIRST_YEAR, 1, 1}, plan->on);
    const char *uid = arena_format(arena, "%s-%d-%s@baskleaf", item->what, item->place, key);
    icalcomponent *event = icalcomponent_vanew(
        ICAL_VEVENT_COMPONENT, icalproperty_new_uid(uid), icalproperty_new_dtstamp(stamp),
        icalproperty_new_dtstart(day_of(item->on)),
        icalproperty_new_dtend(day_of(date_add_days(item->on, 1))),
        icalproperty_new_summary(item->summary), icalproperty_new_description(item->about),
        icalproperty_new_sequence(sequence),
        icalproperty_new_status(item->is_free ? ICAL_STATUS_CANCELLED : ICAL_STATUS_CONFIRMED),
        icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT), (void *)0);
    add_further_days(event, item);
    if (!item->is_free)
        add_alarms(event, item);
    return event;
}

static icalproperty *named_property(const char *name, const char *value)
{
    icalproperty *property = icalproperty_new_x(value);
    icalproperty_set_x_name(property, name);
    return property;
}

bool calendar_write(const struct care_plan *plan, const struct calendar_events *events,
                    const char *language, struct arena *arena, struct diag *diag, struct bytes *out)
{
    (void)diag;
    icalcomponent *calendar = icalcomponent_vanew(
        ICAL_VCALENDAR_COMPONENT, icalproperty_new_version("2.0"),
        icalproperty_new_prodid(arena_format(arena, "-//baskleaf//care dates//%s", language)),
        icalproperty_new_calscale("GREGORIAN"), icalproperty_new_method(ICAL_METHOD_PUBLISH),
        named_property("X-WR-CALNAME", events->name),
        named_property("X-BASKLEAF-RECORD", sheet_record_id(plan, arena)), (void *)0);
    const char *key = animal_key(plan, arena);
    for (size_t i = 0; i < events->count; i++)
        icalcomponent_add_component(calendar, event_of(plan, &events->items[i], key, arena));
    char *text = icalcomponent_as_ical_string_r(calendar);
    icalcomponent_free(calendar);
    if (!text)
        support_out_of_memory();
    size_t length = strlen(text);
    *out = (struct bytes){arena_copy_bytes(arena, text, length), length};
    icalmemory_free_buffer(text);
    return true;
}
