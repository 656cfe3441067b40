/* What became of the visit before's advice, as JSON and as text. */

#include "explain/explain.h"
#include "explain/explain_parts.h"

static const char *outcome_word(enum since_outcome outcome)
{
    static const char *const words[] = {
        [SINCE_DONE] = "done",     [SINCE_NEAR] = "near",       [SINCE_STILL] = "still",
        [SINCE_TURNED] = "turned", [SINCE_UNKNOWN] = "unknown", [SINCE_GOES_ON] = "goes-on",
        [SINCE_OVER] = "over",
    };
    return words[outcome];
}

static const char *place_word(const struct since_item *item)
{
    return item->place == PLACE_LAMP_DISTANCE ? "lamp-distance" : measures[item->place].id;
}

static void write_items(struct json *j, const struct since_plan *since)
{
    json_key(j, "actions");
    json_open_list(j);
    for (size_t i = 0; i < since->item_count; i++) {
        const struct since_item *item = &since->items[i];
        json_open_object(j);
        json_key_text(j, "code", item->code);
        if (item->own)
            json_key_text(j, "words", item->own);
        json_key_text(j, "outcome", outcome_word(item->outcome));
        json_key_text(j, "place", item->has_place ? place_word(item) : NULL);
        explain_key_known(j, "then", item->has_then, item->then);
        explain_key_known(j, "now", item->has_now, item->now);
        explain_key_pair(j, "target", item->has_target, item->low, item->high);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_weight(struct json *j, const struct care_plan *plan)
{
    const struct since_weight *w = &plan->since.weight;
    json_key(j, "weight");
    if (!w->known) {
        json_null(j);
        return;
    }
    json_open_object(j);
    json_key_number(j, "then_g", w->then_g);
    json_key_number(j, "now_g", w->now_g);
    explain_key_pair(j, "expected_g", w->has_expected, w->expected_low_g, w->expected_high_g);
    json_key_text(j, "verdict", explain_verdict_word(w->verdict));
    explain_json_how(j, &w->how);
    json_close_object(j);
}

void explain_json_since(struct json *j, const struct care_plan *plan)
{
    const struct since_plan *since = &plan->since;
    char on[16];
    json_key(j, "since_last");
    if (!since->known) {
        json_null(j);
        return;
    }
    date_write_iso(since->on, on);
    json_open_object(j);
    json_key_text(j, "on", on);
    json_key_number(j, "days", (double)since->days);
    write_items(j, since);
    write_weight(j, plan);
    json_key(j, "taken_over");
    json_open_list(j);
    for (size_t i = 0; i < since->taken_count; i++)
        json_text(j, since->taken[i]);
    json_close_list(j);
    json_close_object(j);
}
