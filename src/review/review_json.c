/* The list of what to confirm as JSON. */
#include "review/review_list.h"

static void key_date(struct json *j, const char *key, struct date date)
{
    char text[16];
    date_write_iso(date, text);
    json_key_text(j, key, text);
}

static void key_source(struct json *j, const struct species *species, const char *id,
                       enum trust trust)
{
    const char *text = id ? named_text_find(&species->sources, id) : NULL;
    json_key_text(j, "source", text ? text : id);
    json_key_text(j, "trust", bind_choice_word(trust_choices, (int)trust));
}

static void key_value(struct json *j, const struct review_list *list,
                      const struct species_value *value)
{
    json_key_text(j, "metric", review_value_text(list, value, UNITS_METRIC));
    json_key_text(j, "us", review_value_text(list, value, UNITS_US));
}

static void key_others(struct json *j, const struct review_list *list,
                       const struct species_value *value)
{
    json_key(j, "disagrees");
    json_open_list(j);
    for (size_t i = 0; value->disagrees && i < value->disagrees->count; i++) {
        const struct sourced_value *other = LIST_AT(*value->disagrees, struct sourced_value, i);
        json_open_object(j);
        json_key_text(j, "metric",
                      review_band_text(list, value->field, &other->range, UNITS_METRIC));
        json_key_text(j, "us", review_band_text(list, value->field, &other->range, UNITS_US));
        key_source(j, list->species, other->source.text, (enum trust)other->trust.value);
        json_close_object(j);
    }
    json_close_list(j);
}

static void key_confirmed(struct json *j, const struct confirmation *confirmed)
{
    json_key(j, "confirmed");
    if (!confirmed) {
        json_null(j);
        return;
    }
    json_open_object(j);
    json_key_text(j, "value", confirmed->value);
    json_key_text(j, "by", confirmed->by);
    key_date(j, "on", confirmed->on);
    json_key_text(j, "edition", confirmed->edition);
    json_key_text(j, "reason", confirmed->reason);
    json_key_flag(j, "reopened", confirmed->is_reopened);
    json_close_object(j);
}

static void key_shipped(struct json *j, const struct review_list *list,
                        const struct species_value *ours)
{
    json_key(j, "shipped_now");
    if (!ours) {
        json_null(j);
        return;
    }
    json_open_object(j);
    key_value(j, list, ours);
    key_source(j, list->ours, ours->source, ours->trust);
    json_close_object(j);
}

void review_write_keys(struct json *j, const struct review_list *list,
                       const struct review_item *item)
{
    json_key_text(j, "key", item->value->key);
    json_key_flag(j, "open", item->is_open);
    key_value(j, list, item->value);
    key_source(j, list->species, item->value->source, item->value->trust);
    json_key_text(j, "choice", item->value->choice);
    key_others(j, list, item->value);
    key_confirmed(j, *item->value->confirmed);
    key_shipped(j, list, item->ours);
    json_key_number(j, "harm", item->harm);
    json_key_texts(j, "rules", item->rules, item->rule_count);
    json_key_texts(j, "actions", item->actions, item->action_count);
    json_key_texts(j, "sentences", item->sentences, item->sentence_count);
}

void review_write_trust(struct json *j, const struct species_review *review)
{
    json_key(j, "trust");
    json_open_object(j);
    json_key_integer(j, "percent", species_trust_percent(review));
    json_key_integer(j, "values", (long)review->count);
    json_key_integer(j, "founded", (long)review->founded);
    json_key_integer(j, "left", (long)review->left);
    json_key_integer(j, "confirmed", (long)review->confirmed);
    json_key_integer(j, "reopened", (long)review->reopened);
    json_key_text(j, "by", review->by);
    if (review->by)
        key_date(j, "on", review->on);
    json_close_object(j);
}

void review_write_json(const struct review_list *list, struct strbuf *out)
{
    struct json j;
    json_init(&j, out);
    json_open_object(&j);
    json_key_text(&j, "species", list->species->code.text);
    json_key_text(&j, "name", species_name(list->species, "en"));
    json_key_text(&j, "scientific", list->species->scientific.text);
    json_key_flag(&j, "from_clinic", list->species->from_clinic);
    review_write_trust(&j, &list->species->review);
    json_key(&j, "values");
    json_open_list(&j);
    for (size_t i = 0; i < list->count; i++) {
        json_open_object(&j);
        review_write_keys(&j, list, &list->items[i]);
        json_close_object(&j);
    }
    json_close_list(&j);
    json_close_object(&j);
    strbuf_add_char(out, '\n');
}
