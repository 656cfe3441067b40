/* Where the plan's numbers come from: each citation once, with its first use. */
#include "care/build.h"

#include <string.h>

struct source_list {
    struct care_build *b;
    struct plan_source *items;
    size_t count, room;
};

static void add(struct source_list *list, const char *text, enum trust trust, const char *used_for)
{
    if (!text)
        return;
    for (size_t i = 0; i < list->count; i++)
        if (strcmp(list->items[i].text, text) == 0)
            return;
    if (list->count == list->room) {
        list->room = list->room ? list->room * 2 : 32;
        struct plan_source *more = ARENA_ARRAY(list->b->arena, struct plan_source, list->room);
        for (size_t i = 0; i < list->count; i++)
            more[i] = list->items[i];
        list->items = more;
    }
    list->items[list->count++] =
        (struct plan_source){.text = text, .trust = trust, .used_for = used_for};
}

/* A veterinarian's or a keeper's own number is no publication. */
static void add_from(struct source_list *list, const struct provenance *from, const char *used_for)
{
    if (from->origin != ORIGIN_VETERINARIAN && from->origin != ORIGIN_KEEPER)
        add(list, from->source, from->trust, used_for);
}

/* A catalogue's source by its id. */
static void add_named(struct source_list *list, const struct list *sources,
                      const struct text_value *id, const struct choice_value *trust,
                      const char *used_for)
{
    if (id->text)
        add(list, named_text_find(sources, id->text), (enum trust)trust->value, used_for);
}

static void add_cited(struct source_list *list, const struct sourced_value *sourced,
                      const char *used_for)
{
    if (!sourced->range.known)
        return;
    const struct provenance from =
        build_from_sourced(sourced, &list->b->in->species->sources, ORIGIN_SPECIES_SHEET);
    add_from(list, &from, used_for);
}

static bool is_a_publication(const char *source)
{
    static const char *const not_published[] = {"arithmetic", "as given in the record"};
    for (size_t i = 0; i < sizeof not_published / sizeof *not_published; i++)
        if (strcmp(source, not_published[i]) == 0)
            return false;
    return true;
}

/* A formula's publication stands as the code cites it, which is from memory. Readings of
 * temperature and growth are worked out by arithmetic alone. */
static void add_how(struct source_list *list, const struct derivations *how, const char *used_for)
{
    for (const struct derivation *d = how->first; d; d = d->next)
        if (d->source && is_a_publication(d->source))
            add(list, d->source, TRUST_MEMORY, used_for);
}

static void add_measured(struct source_list *list, int from, int to)
{
    const struct measured_plan *plans = list->b->plan->measured;
    for (int m = from; m < to; m++)
        if (plans[m].applies)
            add_from(list, &plans[m].target_from, measure_part_word(measures[m].part));
}

static void add_climate(struct source_list *list)
{
    const struct care_plan *p = list->b->plan;
    add_measured(list, 0, ZONE_COUNT);
    if (p->temperature.has_upper_limit)
        add_cited(list, &list->b->in->species->upper_limit, "temperature");
    add_measured(list, ZONE_COUNT, MEASURE_COUNT);
}

static void add_feeding(struct source_list *list)
{
    const struct care_plan *p = list->b->plan;
    add_from(list, &p->feeding.meal_from, "feeding");
    add_from(list, &p->feeding.every_from, "feeding");
    add_from(list, &p->feeding.beside.every_from, "feeding");
    for (size_t i = 0; i < p->feeding.supplement_count; i++)
        add_from(list, &p->feeding.supplements[i].from, "feeding");
    for (size_t i = 0; i < p->feeding.never_count; i++)
        add_from(list, &p->feeding.never[i].from, "feeding");
    const struct diet_plan *diet = &p->feeding.diet_now;
    for (size_t i = 0; i < diet->given_count; i++)
        if (diet->given[i].is_never)
            add_from(list, &diet->given[i].from, "feeding");
    if (diet->faults & DIET_CALCIUM_SHORT)
        add_from(list, &diet->least_from, "feeding");
    if (p->feeding.size_rule)
        add_from(list, &p->feeding.size_from, "feeding");
    add_cited(list, &list->b->in->species->no_food_days, "feeding");
    add_cited(list, &list->b->in->species->no_stool_days, "feeding");
}

static void add_examination(struct source_list *list)
{
    const struct care_build *b = list->b;
    const struct list *sources = &b->in->catalogue->sources;
    for (size_t i = 0; i < b->plan->finding_count; i++)
        add_named(list, sources, &b->findings[i]->source, &b->findings[i]->trust, "findings");
    for (size_t i = 0; i < b->plan->procedure_count; i++)
        add_named(list, sources, &b->procedures[i]->source, &b->procedures[i]->trust, "findings");
}

static void add_advice(struct source_list *list)
{
    const struct care_plan *p = list->b->plan;
    const struct sign_catalogue *signs = list->b->in->signs;
    for (size_t i = 0; i < p->action_count; i++)
        for (const struct action_reason *r = p->actions[i].reasons; r; r = r->next)
            add(list, r->source, r->trust, "advice");
    for (size_t i = 0; i < p->warning_count; i++) {
        const struct warning_sign *sign = sign_find(signs, p->warnings[i].code);
        add_named(list, &signs->sources, &sign->source, &sign->trust, "warnings");
    }
}

bool sources_plan(struct care_build *b)
{
    struct care_plan *p = b->plan;
    struct source_list list = {.b = b};
    add_climate(&list);
    add_feeding(&list);
    add_from(&list, &p->enclosure.from, "enclosure");
    add_from(&list, &p->enclosure.nest_from, "enclosure");
    add_examination(&list);
    add_advice(&list);
    if (p->winter_rest.has_c)
        add_from(&list, &p->winter_rest.c_from, "winter-rest");
    add_how(&list, &p->winter_rest.how, "winter-rest");
    add_how(&list, &p->temperature.heating.how, "heating");
    add_how(&list, &p->humidity.how, "humidity");
    add_how(&list, &p->uvb.how, "uvb");
    add_how(&list, &p->water.how, "water");
    add_how(&list, &p->feeding.how, "feeding");
    add_how(&list, &p->enclosure.how, "enclosure");
    p->sources = list.items;
    p->source_count = list.count;
    return true;
}
