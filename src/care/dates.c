/* Everything that falls on a day, in order. */
#include "care/build.h"

enum { DATES_MOST = 400, WEIGH_STEADY_DAYS = 28, WEIGH_WATCHED_DAYS = 14, PLANNER_DAYS = 56 };

struct date_list {
    struct plan_date *items;
    size_t count;
};

static void add(struct date_list *list, struct date on, const char *what, struct plan_fact *facts)
{
    if (list->count < DATES_MOST)
        list->items[list->count++] = (struct plan_date){.on = on, .what = what, .facts = facts};
}

static void add_feeding(struct care_build *b, struct date_list *list)
{
    const struct feeding_plan *f = &b->plan->feeding;
    for (size_t i = 0; i < f->next_count; i++)
        add(list, f->next[i], "meal", NULL);
    for (size_t i = 0; i < f->supplement_count; i++) {
        const char *word = bind_choice_word(supplement_choices, (int)f->supplements[i].what);
        const char *key = arena_format(b->arena, "supplement.%s", word);
        for (size_t k = 0; k < f->supplements[i].day_count; k++)
            add(list, f->supplements[i].days[k], "supplement", build_fact_text(b, "supplement", FACT_CODE, key, NULL));
    }
}

static bool is_watched(const struct care_build *b)
{
    const struct growth_plan *g = &b->plan->growth;
    return b->feeding_change != FEEDING_AS_USUAL || g->weight == WEIGHT_FALLING || g->weight == WEIGHT_FALLING_FAST;
}

static void add_weighing(struct care_build *b, struct date_list *list)
{
    int step = is_watched(b) ? WEIGH_WATCHED_DAYS : WEIGH_STEADY_DAYS;
    if (b->in->visit->kind.value == SHEET_ADOPTION)
        add(list, date_add_days(b->plan->on, 7), "weigh", NULL);
    for (int day = step; day <= PLANNER_DAYS; day += step)
        add(list, date_add_days(b->plan->on, day), "weigh", NULL);
}

static void add_adoption(struct care_build *b, struct date_list *list)
{
    if (b->in->visit->kind.value != SHEET_ADOPTION)
        return;
    add(list, b->plan->on, "move-in", NULL);
    add(list, date_add_days(b->plan->on, (long)build_limit(b, "quarantine-low-days")), "quarantine-end", NULL);
}

static void order(struct date_list *list)
{
    for (size_t i = 1; i < list->count; i++) {
        struct plan_date moving = list->items[i];
        size_t k = i;
        for (; k > 0 && date_compare(list->items[k - 1].on, moving.on) > 0; k--)
            list->items[k] = list->items[k - 1];
        list->items[k] = moving;
    }
}

bool dates_plan(struct care_build *b)
{
    struct date_list list = {.items = ARENA_ARRAY(b->arena, struct plan_date, DATES_MOST)};
    add_adoption(b, &list);
    if (b->plan->has_recheck)
        add(&list, b->plan->recheck, "recheck", NULL);
    const struct uvb_plan *u = &b->plan->uvb;
    if (u->has_lamp_due)
        add(&list, u->lamp_overdue ? b->plan->on : u->lamp_due, "lamp-change", NULL);
    add_feeding(b, &list);
    add_weighing(b, &list);
    order(&list);
    b->plan->dates = list.items;
    b->plan->date_count = list.count;
    return true;
}
