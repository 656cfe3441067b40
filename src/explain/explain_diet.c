/* All that the keeper gives, judged as a whole, and which plants of the species are staples. */
#include "explain/explain.h"
#include "explain/explain_parts.h"

static void write_given(struct json *j, const struct diet_food *one)
{
    json_open_object(j);
    json_key_text(j, "food", one->food);
    json_key_flag(j, "listed", one->is_listed);
    explain_key_known(j, "g_day", one->has_g, one->g_day);
    explain_key_known(j, "calcium_mg_day", one->has_minerals, one->calcium_mg_day);
    explain_key_known(j, "phosphorus_mg_day", one->has_minerals, one->phosphorus_mg_day);
    explain_key_known(j, "calcium_to_phosphorus", one->has_ratio, one->ratio);
    json_key_text(j, "class",
                  one->has_class ? bind_choice_word(food_class_choices, (int)one->food_class)
                                 : NULL);
    json_key_text(j, "never",
                  one->is_never ? bind_choice_word(never_reason_choices, (int)one->because) : NULL);
    explain_json_source(j, one->from.source != NULL, &one->from);
    json_close_object(j);
}

static void write_faults(struct json *j, int faults)
{
    json_key(j, "faults");
    json_open_list(j);
    for (size_t i = 0; diet_fault_choices[i].word; i++)
        if (faults & diet_fault_choices[i].value)
            json_text(j, diet_fault_choices[i].word);
    json_close_list(j);
}

static void write_food_classes(struct json *j, const struct diet_plan *d)
{
    json_key(j, "shelf");
    json_open_list(j);
    for (int c = 0; c < FOOD_CLASSES; c++) {
        if (d->by_class[c].count == 0)
            continue;
        json_open_object(j);
        json_key_text(j, "class", bind_choice_word(food_class_choices, c));
        json_key_texts(j, "foods", d->by_class[c].foods, d->by_class[c].count);
        json_close_object(j);
    }
    json_close_list(j);
}

void explain_json_diet(struct json *j, const struct diet_plan *d)
{
    json_key(j, "diet");
    json_open_object(j);
    json_key(j, "given");
    json_open_list(j);
    for (size_t i = 0; i < d->given_count; i++)
        write_given(j, &d->given[i]);
    json_close_list(j);
    explain_key_pair(j, "calcium_to_phosphorus", d->has_ratio, d->ratio_low, d->ratio_high);
    explain_key_known(j, "least", d->has_least, d->least_ratio);
    json_key_text(j, "verdict", explain_verdict_word(d->ratio_verdict));
    explain_key_known(j, "unknown_percent", d->has_unknown_share, d->unknown_percent);
    explain_key_known(j, "unknown_foods", d->is_judged, (double)d->unknown_count);
    explain_key_pair(j, "staple_percent", d->has_staples, d->staple_low_percent,
                     d->staple_high_percent);
    json_key_text(j, "staple_verdict", explain_verdict_word(d->staple_verdict));
    write_faults(j, d->faults);
    json_key_texts(j, "fish", d->fish.foods, d->fish.count);
    write_food_classes(j, d);
    explain_json_source(j, d->has_least, &d->least_from);
    explain_json_how(j, &d->how);
    json_close_object(j);
}
