/* Ranks the values of a species sheet by what they drive. */
#include "review/review_list.h"

#include <stdlib.h>
#include <string.h>

#include "words/format_measured.h"
#include "words/wording.h"

/* ---- what a value drives ------------------------------------------------------------------------
 */

static bool has_choice(const struct list *wanted, const struct choice_value *has)
{
    for (size_t i = 0; i < wanted->count; i++)
        if (LIST_AT(*wanted, struct choice_value, i)->value == has->value)
            return true;
    return wanted->count == 0;
}

/* A rule for other animals says nothing of this one. */
static bool is_for(const struct rule *rule, const struct species *species)
{
    return has_choice(&rule->when.group, &species->group) &&
           has_choice(&rule->when.habit, &species->habit) &&
           has_choice(&rule->when.diet, &species->diet) &&
           has_choice(&rule->when.reproduction, &species->reproduction);
}

static void add_once(const char **texts, size_t *count, const char *text)
{
    for (size_t i = 0; i < *count; i++)
        if (strcmp(texts[i], text) == 0)
            return;
    texts[(*count)++] = text;
}

static void add_rules(struct review_item *item, const struct value_use *use,
                      const struct rule_book *book, const struct species *species,
                      struct arena *arena)
{
    item->rules = ARENA_ARRAY(arena, const char *, book->rules.count + 1);
    item->actions = ARENA_ARRAY(arena, const char *, book->rules.count + 1);
    for (size_t i = 0; i < book->rules.count; i++) {
        const struct rule *rule = LIST_AT(book->rules, struct rule, i);
        if (!value_use_drives(use, rule) || !is_for(rule, species))
            continue;
        item->rules[item->rule_count++] = rule->name.text;
        add_once(item->actions, &item->action_count, rule->action.text);
        if (rule->harm.value > item->harm)
            item->harm = rule->harm.value;
    }
}

struct slot_search {
    const struct list *slots;
    bool found;
};

static void look_at_slot(void *context, const char *slot)
{
    struct slot_search *search = context;
    for (size_t i = 0; i < search->slots->count; i++)
        if (strcmp(LIST_AT(*search->slots, struct text_value, i)->text, slot) == 0)
            search->found = true;
}

static void add_sentences(struct review_item *item, const struct value_use *use,
                          const struct wording *words, struct arena *arena)
{
    if (use->slots.count == 0)
        return;
    item->sentences = ARENA_ARRAY(arena, const char *, words->count + 1);
    for (size_t i = 0; i < words->count; i++) {
        struct slot_search search = {.slots = &use->slots};
        catalogue_each_slot(&words->entries[i], look_at_slot, &search);
        if (search.found)
            item->sentences[item->sentence_count++] = words->entries[i].key;
    }
}

/* ---- the list -----------------------------------------------------------------------------------
 */

static size_t uses_of(const struct review_item *item)
{
    return item->rule_count + item->sentence_count;
}

static int by_weight(const void *a, const void *b)
{
    const struct review_item *one = a, *other = b;
    if (one->is_open != other->is_open)
        return one->is_open ? -1 : 1;
    if (one->harm != other->harm)
        return one->harm > other->harm ? -1 : 1;
    if (uses_of(one) != uses_of(other))
        return uses_of(one) > uses_of(other) ? -1 : 1;
    return one->value < other->value ? -1 : 1; /* the order of the sheet */
}

static bool read_ours(struct review_list *list)
{
    if (!list->species->below)
        return true;
    list->ours = species_read(list->species->below, list->arena, list->diag);
    return list->ours != NULL;
}

static const struct species_value *ours_of(const struct species_value *values, size_t count,
                                           const struct species_value *value)
{
    const struct confirmation *confirmed = *value->confirmed;
    return confirmed && confirmed->is_reopened ? species_value_find(values, count, value->key)
                                               : NULL;
}

bool review_list_make(const struct resources *resources, struct species *species,
                      struct arena *arena, struct diag *diag, struct review_list *out)
{
    struct species_value *values, *shipped = NULL;
    size_t shipped_count = 0;
    const char *folder = file_join(arena, resources->templates, "wording");
    *out = (struct review_list){.species = species, .arena = arena, .diag = diag};
    out->words = wording_read(folder, "en", WORDING_OF_DESK, arena, diag);
    if (!out->words || !read_ours(out))
        return false;
    out->count = species_values(species, NULL, arena, &values);
    if (out->ours)
        shipped_count = species_values(out->ours, NULL, arena, &shipped);
    out->items = ARENA_ARRAY(arena, struct review_item, out->count + 1);
    for (size_t i = 0; i < out->count; i++) {
        const struct value_use *use = value_uses_find(resources->uses, values[i].key);
        struct review_item *item = &out->items[i];
        *item = (struct review_item){.value = &values[i],
                                     .is_open = !species_value_is_founded(&values[i]),
                                     .harm = use->harm.value,
                                     .ours = ours_of(shipped, shipped_count, &values[i])};
        add_rules(item, use, resources->rules, species, arena);
        add_sentences(item, use, out->words, arena);
    }
    qsort(out->items, out->count, sizeof *out->items, by_weight);
    return true;
}

/* ---- values as text -----------------------------------------------------------------------------
 */

/* As the sheet has it: 62 years say more than 22646 days. */
static const char *as_written(const struct format *f, const struct band *band)
{
    bool has_unit = band->unit != UNIT_NONE;
    double low = has_unit ? units_to_written(band->low, band->unit) : band->low;
    double high = has_unit ? units_to_written(band->high, band->unit) : band->high;
    const char *text = format_range(f, format_number(f, low, 3), format_number(f, high, 3));
    const char *unit = has_unit ? units_symbol(band->unit) : NULL;
    return unit ? arena_format(f->arena, "%s %s", text, unit) : text;
}

static struct format format_for(const struct review_list *list, enum unit_system units)
{
    return (struct format){
        .words = list->words, .units = units, .arena = list->arena, .diag = list->diag};
}

const char *review_band_text(const struct review_list *list, const struct field *field,
                             const struct band *band, enum unit_system units)
{
    const struct format f = format_for(list, units);
    switch (field->dimension) {
    case DIM_MASS:
        return format_mass_band(&f, band->low, band->high);
    case DIM_DURATION:
    case DIM_HOURS:
    case DIM_COUNT:
        return as_written(&f, band);
    default:
        return format_measured_band(&f, field->dimension, band->low, band->high);
    }
}

const char *review_value_text(const struct review_list *list, const struct species_value *value,
                              enum unit_system units)
{
    const struct format f = format_for(list, units);
    if (value->box)
        return format_box(&f, value->box->length_cm, value->box->width_cm, value->box->height_cm,
                          true);
    return review_band_text(list, value->field, value->band, units);
}

/* Digits enough for every number of a sheet, so that it is read back as it is. */
static const char *number_text(double value, enum unit unit, struct arena *arena)
{
    double written = unit != UNIT_NONE ? units_to_written(value, unit) : value;
    return arena_format(arena, "%.10g", written);
}

const char *review_written_text(const struct species_value *value, struct arena *arena)
{
    if (value->box)
        return arena_format(arena, "%.10g x %.10g x %.10g cm", value->box->length_cm,
                            value->box->width_cm, value->box->height_cm);
    const struct band *band = value->band;
    const char *low = number_text(band->low, band->unit, arena);
    const char *high = number_text(band->high, band->unit, arena);
    const char *range = strcmp(low, high) ? arena_format(arena, "%s-%s", low, high) : low;
    const char *unit = band->unit != UNIT_NONE ? units_symbol(band->unit) : NULL;
    return unit ? arena_format(arena, "%s %s", range, unit) : range;
}
