/* Where the plan's numbers come from: each citation once, with its first use. */
#include "care/build.h"

#include <string.h>

enum { SOURCES_MOST = 60 };

struct source_list {
    struct plan_source *items;
    size_t count;
};

static void add(struct source_list *list, const char *text, enum trust trust, const char *used_for)
{
    if (!text || list->count == SOURCES_MOST)
        return;
    for (size_t i = 0; i < list->count; i++)
        if (strcmp(list->items[i].text, text) == 0)
            return;
    list->items[list->count++] = (struct plan_source){.text = text, .trust = trust, .used_for = used_for};
}

static void add_from(struct source_list *list, const struct provenance *from, const char *used_for)
{
    if (from->origin == ORIGIN_SPECIES_SHEET || from->origin == ORIGIN_REFERENCE)
        add(list, from->source, from->trust, used_for);
}

static bool is_a_publication(const char *source)
{
    static const char *const not_published[] = {"arithmetic", "as given in the record"};
    for (size_t i = 0; i < sizeof not_published / sizeof *not_published; i++)
        if (strcmp(source, not_published[i]) == 0)
            return false;
    return true;
}

/* A formula's publication stands as the code cites it, which is from memory. */
static void add_how(struct source_list *list, const struct derivations *how, const char *used_for)
{
    for (const struct derivation *d = how->first; d; d = d->next)
        if (d->source && is_a_publication(d->source))
            add(list, d->source, TRUST_MEMORY, used_for);
}

bool sources_plan(struct care_build *b)
{
    struct care_plan *p = b->plan;
    struct source_list list = {.items = ARENA_ARRAY(b->arena, struct plan_source, SOURCES_MOST)};
    for (int zone = 0; zone < ZONE_COUNT; zone++)
        if (p->temperature.zones[zone].applies)
            add_from(&list, &p->temperature.zones[zone].target_from, "temperature");
    if (p->humidity.applies)
        add_from(&list, &p->humidity.target_from, "humidity");
    if (p->uvb.applies)
        add_from(&list, &p->uvb.target_from, "uvb");
    add_from(&list, &p->feeding.meal_from, "feeding");
    for (size_t i = 0; i < p->feeding.supplement_count; i++)
        add_from(&list, &p->feeding.supplements[i].from, "feeding");
    add_from(&list, &p->enclosure.from, "enclosure");
    for (size_t i = 0; i < p->action_count; i++)
        for (const struct action_reason *r = p->actions[i].reasons; r; r = r->next)
            add(&list, r->source, r->trust, "advice");
    add_how(&list, &p->humidity.how, "humidity");
    add_how(&list, &p->uvb.how, "uvb");
    add_how(&list, &p->growth.how, "growth");
    add_how(&list, &p->feeding.how, "feeding");
    p->sources = list.items;
    p->source_count = list.count;
    return true;
}
