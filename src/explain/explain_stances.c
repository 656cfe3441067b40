/* Settled topics and printed instructions, as JSON. */
#include "explain/explain_parts.h"

#include <string.h>

void explain_json_decision(struct json *j, const struct care_plan *plan,
                           const struct decision_plan *decision)
{
    if (!decision)
        return;
    json_key_text(j, "decided_by", plan->veterinarian);
    json_key_text(j, "reason", decision->reason);
    json_key_flag(j, "confirmed", decision->confirmed);
}

static void write_phase(struct json *j, const struct care_plan *plan,
                        const struct stance_phase *phase)
{
    json_open_object(j);
    json_key_text(j, "stance", phase->stance);
    if (phase->with_count)
        json_key_texts(j, "with", phase->with, phase->with_count);
    explain_key_date(j, "from", true, phase->from);
    explain_key_date(j, "until", phase->has_until, phase->until);
    json_key_text(j, "end_by", bind_choice_word(phase_end_choices, (int)phase->end_by));
    json_key_text(j, "then", phase->then);
    json_key_text(j, "because", phase->because);
    explain_json_decision(j, plan, phase->decision);
    json_key_texts(j, "limits", phase->limits, phase->limit_count);
    json_key(j, "lost");
    json_open_list(j);
    for (size_t i = 0; i < phase->lost_count; i++) {
        json_open_object(j);
        json_key_text(j, "stance", phase->lost[i].stance);
        json_key_text(j, "because", phase->lost[i].because);
        json_close_object(j);
    }
    json_close_list(j);
    json_close_object(j);
}

/* People are told only what differs. */
static bool is_usual(const struct topic_plan *topic)
{
    return topic->phase_count == 1 && topic->phases[0].with_count == 0 &&
           strcmp(topic->phases[0].because, "default") == 0;
}

void explain_json_stances(struct json *j, const struct care_plan *plan)
{
    json_key(j, "stances");
    json_open_object(j);
    for (size_t i = 0; i < plan->topic_count; i++) {
        const struct topic_plan *topic = &plan->topics[i];
        if (j->outline && is_usual(topic))
            continue;
        json_key(j, topic->topic);
        json_open_list(j);
        for (size_t k = 0; k < topic->phase_count; k++)
            write_phase(j, plan, &topic->phases[k]);
        json_close_list(j);
    }
    json_close_object(j);
}

/* For whoever checks the sheet against the plan: not for people, who read the sheet. */
void explain_json_instructions(struct json *j, const struct explain_printed *printed)
{
    if (j->outline)
        return;
    json_key(j, "instructions");
    if (!printed) {
        json_null(j);
        return;
    }
    json_open_list(j);
    for (size_t i = 0; i < printed->count; i++) {
        const struct instruction_plan *one = &printed->items[i];
        json_open_object(j);
        json_key_text(j, "code", one->code);
        json_key_text(j, "printed", one->key);
        json_key_text(j, "section", one->section);
        json_key_text(j, "topic", one->topic);
        json_key_text(j, "stance", one->stance);
        json_key_text(j, "for", one->whom);
        json_close_object(j);
    }
    json_close_list(j);
}
