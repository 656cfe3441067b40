/* The list of what to confirm as text, for the veterinarian's eye. */
#include <string.h>

#include "review/review_list.h"

static void add_both(struct strbuf *out, const char *metric, const char *us)
{
    strbuf_add(out, metric);
    if (strcmp(metric, us) != 0)
        strbuf_addf(out, " (%s)", us);
}

static const char *source_text(const struct species *species, const char *id)
{
    const char *text = id ? named_text_find(&species->sources, id) : NULL;
    return text ? text : id ? id : "no source";
}

static void add_value(struct strbuf *out, const struct review_list *list,
                      const struct species_value *value)
{
    add_both(out, review_value_text(list, value, UNITS_METRIC),
             review_value_text(list, value, UNITS_US));
}

static void add_others(struct strbuf *out, const struct review_list *list,
                       const struct species_value *value)
{
    for (size_t i = 0; value->disagrees && i < value->disagrees->count; i++) {
        const struct sourced_value *other = LIST_AT(*value->disagrees, struct sourced_value, i);
        strbuf_add(out, "      but ");
        add_both(out, review_band_text(list, value->field, &other->range, UNITS_METRIC),
                 review_band_text(list, value->field, &other->range, UNITS_US));
        strbuf_addf(out, ": %s [%s]\n", source_text(list->species, other->source.text),
                    bind_choice_word(trust_choices, other->trust.value));
    }
}

static void add_confirmation(struct strbuf *out, const struct review_list *list,
                             const struct review_item *item)
{
    const struct confirmation *confirmed = *item->value->confirmed;
    char on[16];
    if (!confirmed)
        return;
    date_write_iso(confirmed->on, on);
    strbuf_addf(out, "      confirmed by %s on %s", confirmed->by, on);
    if (confirmed->edition)
        strbuf_addf(out, ", after %s", confirmed->edition);
    if (confirmed->reason)
        strbuf_addf(out, "; %s", confirmed->reason);
    if (confirmed->is_reopened)
        strbuf_add(out, "; open again: the shipped value has changed since");
    strbuf_add_char(out, '\n');
    if (!item->ours)
        return;
    strbuf_add(out, "      shipped now: ");
    add_value(out, list, item->ours);
    strbuf_addf(out, ": %s [%s]\n", source_text(list->ours, item->ours->source),
                bind_choice_word(trust_choices, (int)item->ours->trust));
}

static void add_names(struct strbuf *out, const char *what, const char *const *names, size_t count)
{
    if (count == 0)
        return;
    strbuf_addf(out, "      %s: ", what);
    for (size_t i = 0; i < count; i++)
        strbuf_addf(out, "%s%s", i ? ", " : "", names[i]);
    strbuf_add_char(out, '\n');
}

static void add_item(struct strbuf *out, const struct review_list *list, size_t number,
                     const struct review_item *item)
{
    const struct species_value *value = item->value;
    strbuf_addf(out, "%3zu. %s: ", number, value->key);
    add_value(out, list, value);
    strbuf_addf(out, "\n      harm %.4g, %zu rule%s, %zu sentence%s\n", item->harm,
                item->rule_count, item->rule_count == 1 ? "" : "s", item->sentence_count,
                item->sentence_count == 1 ? "" : "s");
    strbuf_addf(out, "      from %s [%s]\n", source_text(list->species, value->source),
                bind_choice_word(trust_choices, (int)value->trust));
    if (value->choice)
        strbuf_addf(out, "      why this one: %s\n", value->choice);
    add_others(out, list, value);
    add_confirmation(out, list, item);
    add_names(out, "does", item->actions, item->action_count);
    add_names(out, "says", item->sentences, item->sentence_count);
}

static void add_head(struct strbuf *out, const struct species *species)
{
    const struct species_review *review = &species->review;
    char on[16];
    strbuf_addf(out, "%s (%s), %s\n", species_name(species, "en"), species->scientific.text,
                species->code.text);
    strbuf_addf(out, "  trust %d %%: %zu of %zu values are published or confirmed, %zu are left\n",
                species_trust_percent(review), review->founded, review->count, review->left);
    if (!review->by)
        return;
    date_write_iso(review->on, on);
    strbuf_addf(out, "  reviewed by %s, last on %s: %zu confirmed, %zu open again\n", review->by,
                on, review->confirmed, review->reopened);
}

void review_write_text(const struct review_list *list, struct strbuf *out)
{
    add_head(out, list->species);
    for (size_t i = 0; i < list->count; i++) {
        bool is_first = i == 0 || list->items[i].is_open != list->items[i - 1].is_open;
        if (is_first)
            strbuf_add(out, list->items[i].is_open
                                ? "\nto confirm, the most harmful and most used first\n"
                                : "\npublished or confirmed\n");
        add_item(out, list, i + 1, &list->items[i]);
    }
}
