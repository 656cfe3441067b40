/* Which declared texts agree with what was settled: each is printed as it stands, as a variant, or
 * not at all, and the veterinarian is told of what was left out. */
#include <stdint.h>
#include <string.h>

#include "care/feeding.h"
#include "care/stances.h"

static bool stance_agrees(const struct list *wanted, const struct stance_phase *phase)
{
    if (!wanted->count || list_has_text(wanted, phase->stance))
        return true;
    for (size_t i = 0; i < phase->with_count; i++)
        if (list_has_text(wanted, phase->with[i]))
            return true;
    return false;
}

/* On which day it is asked, and whether some day of the planner's weeks will do: dated lines. */
struct when_asked {
    struct date on;
    bool any_phase;
};

static struct when_asked when_asked(const struct care_build *b, const struct instruction *one)
{
    return (struct when_asked){one->at_meals.value ? plan_food_day(b->plan) : b->plan->on,
                               one->any_phase.value};
}

static bool topic_agrees(const struct care_build *b, const char *name, const struct list *wanted,
                         struct when_asked when)
{
    const struct stance_phase *now = plan_phase_on(b->plan, name, when.on);
    if (!now)
        return false;
    if (stance_agrees(wanted, now))
        return true;
    const struct date last = date_add_days(b->plan->on, FEEDING_PLANNER_DAYS);
    for (size_t i = 0; when.any_phase && i < b->plan->topic_count; i++) {
        const struct topic_plan *topic = &b->plan->topics[i];
        if (strcmp(topic->topic, name) != 0)
            continue;
        for (size_t k = 0; k < topic->phase_count; k++)
            if (date_compare(topic->phases[k].from, last) <= 0 &&
                stance_agrees(wanted, &topic->phases[k]))
                return true;
    }
    return false;
}

/* Of a topic that this animal does not have nothing can disagree. */
static bool topics_agree(const struct care_build *b, const struct list *topics,
                         struct when_asked when)
{
    for (size_t i = 0; i < topics->count; i++) {
        const struct instruction_topic *further = LIST_AT(*topics, struct instruction_topic, i);
        if (plan_phase_on(b->plan, further->name.text, when.on) &&
            !topic_agrees(b, further->name.text, &further->stances, when))
            return false;
    }
    return true;
}

/* For whom it is asked: worked out once for all texts. */
struct asked_for {
    const struct care_build *b;
    struct whom_animal animal;
};

static bool agrees(const struct asked_for *asked, const struct instruction *one,
                   struct when_asked when)
{
    const struct care_build *b = asked->b;
    if (!whom_fits(&one->whom, &asked->animal))
        return false;
    if (one->topic.text && !topic_agrees(b, one->topic.text, &one->stances, when))
        return false;
    return topics_agree(b, &one->topics, when);
}

/* The variant for this animal and its stances; NULL for none. */
static const char *variant_of(const struct asked_for *asked, const struct instruction *one,
                              struct when_asked when)
{
    const struct care_build *b = asked->b;
    for (size_t i = 0; i < one->variants.count; i++) {
        const struct instruction_variant *variant =
            LIST_AT(one->variants, struct instruction_variant, i);
        if (!whom_fits(&variant->whom, &asked->animal) || !topics_agree(b, &variant->topics, when))
            continue;
        if (!one->topic.text || !variant->stances.count ||
            topic_agrees(b, one->topic.text, &variant->stances, when))
            return variant->key.text;
    }
    return NULL;
}

/* What of it is printed; NULL for nothing. */
static const char *printed_when(const struct asked_for *asked, const struct instruction *one,
                                struct when_asked when)
{
    const char *variant = variant_of(asked, one, when);
    return variant ? variant : agrees(asked, one, when) ? one->code.text : NULL;
}

/* The soonest last day of what the veterinarian decided today of one of its topics. */
static bool decided_until(const struct care_build *b, const struct instruction *one,
                          struct date *until)
{
    bool found = false;
    for (size_t i = 0; i <= one->topics.count; i++) {
        const char *topic =
            i ? LIST_AT(one->topics, struct instruction_topic, i - 1)->name.text : one->topic.text;
        const struct stance_phase *now = topic ? plan_phase_on(b->plan, topic, b->plan->on) : NULL;
        if (!now || !now->decision || !now->has_until ||
            (found && date_compare(now->until, *until) >= 0))
            continue;
        found = true;
        *until = now->until;
    }
    return found;
}

/* What a decision of some days puts aside comes back when it ends: a step and what a stance says
 * are told for that day. */
static const char *printed_after(const struct asked_for *asked, const struct instruction *one,
                                 struct when_asked *when)
{
    const char *code = one->code.text;
    if (!code || (strncmp(code, "action.", 7) != 0 && strncmp(code, "stance.", 7) != 0) ||
        !decided_until(asked->b, one, &when->on))
        return NULL;
    return printed_when(asked, one, *when);
}

size_t plan_instruction_places(const struct care_plan *plan)
{
    return plan->text_index.count;
}

size_t plan_instruction_place(const struct care_plan *plan, const char *key)
{
    return code_index_find(&plan->text_index, key);
}

const char *plan_printed_key(const struct care_plan *plan, const char *key, struct arena *arena)
{
    size_t place = plan_instruction_place(plan, key);
    if (place == SIZE_MAX)
        return key;
    const struct declared_text *text = &plan->texts[place];
    if (!text->printed || strcmp(text->printed, text->code) == 0)
        return text->printed ? key : NULL;
    const char *other = arena_format(arena, "%s%s", text->printed, key + strlen(text->code));
    /* the part of the other text may have variants of its own */
    place = plan_instruction_place(plan, other);
    const struct declared_text *part = place == SIZE_MAX ? NULL : &plan->texts[place];
    return part && part->printed && strcmp(part->code, other) == 0 ? part->printed : other;
}

bool plan_prints_same_topic(const struct care_plan *plan, const char *key)
{
    size_t place = plan_instruction_place(plan, key);
    if (place == SIZE_MAX)
        return true;
    const struct declared_text *own = &plan->texts[place];
    if (!own->printed || strcmp(own->printed, own->code) == 0)
        return own->printed != NULL;
    size_t other = plan_instruction_place(plan, own->printed);
    const char *topic = other == SIZE_MAX ? NULL : plan->texts[other].topic;
    return topic && own->topic && strcmp(topic, own->topic) == 0;
}

/* The groups it is for, in words. */
static const char *whom_words(struct arena *arena, const struct whom *whom)
{
    const char *words = NULL;
    for (size_t i = 0; i < whom->groups.count; i++) {
        const char *word =
            bind_choice_word(group_choices, LIST_AT(whom->groups, struct choice_value, i)->value);
        words = words ? arena_format(arena, "%s, %s", words, word) : word;
    }
    return words;
}

bool instructions_agree_plan(struct care_build *b)
{
    const struct list *book = &b->in->instructions->instructions;
    const struct asked_for asked = {b, build_animal(b)};
    struct declared_text *texts = ARENA_ARRAY_UNSET(b->arena, struct declared_text, book->count);
    for (size_t i = 0; i < book->count; i++) {
        const struct instruction *one = LIST_AT(*book, struct instruction, i);
        struct when_asked when = when_asked(b, one);
        const char *printed = printed_when(&asked, one, when);
        if (!printed)
            printed = printed_after(&asked, one, &when);
        const char *further =
            one->topics.count ? LIST_AT(one->topics, struct instruction_topic, 0)->name.text : NULL;
        texts[i] = (struct declared_text){
            .code = one->code.text,
            .section = one->section.text,
            .topic = one->topic.text,
            .speaks = one->topic.text ? one->topic.text : further,
            .whom = whom_words(b->arena, &one->whom),
            .from = printed ? when.on : when_asked(b, one).on,
            .printed = printed,
        };
    }
    b->plan->texts = texts;
    b->plan->text_index = b->in->instructions->index;
    return true;
}

/* ---- what stands for itself ---- */

struct instruction_list {
    struct care_build *b;
    struct instruction_plan *items;
    size_t count;
};

struct instruction_plan plan_instruction(const struct care_plan *plan, size_t place)
{
    const struct declared_text *text = &plan->texts[place];
    const struct stance_phase *phase =
        text->speaks ? plan_phase_on(plan, text->speaks, text->from) : NULL;
    return (struct instruction_plan){
        .code = text->code,
        .key = text->printed,
        .section = text->section,
        .topic = text->speaks,
        .stance = phase ? phase->stance : NULL,
        .whom = text->whom,
        .from = text->from,
    };
}

/* Adds what is declared under the key, once. */
static void add(struct instruction_list *list, const char *key)
{
    const struct care_plan *plan = list->b->plan;
    size_t place = plan_instruction_place(plan, key);
    if (place == SIZE_MAX || !plan->texts[place].printed)
        return;
    struct instruction_plan one = plan_instruction(plan, place);
    one.is_not_now = instruction_is_not_now(list->b->in->instructions, one.key);
    for (size_t i = 0; i < list->count; i++)
        if (strcmp(list->items[i].code, one.code) == 0)
            return;
    list->items[list->count++] = one;
}

/* Its name and meaning are declared where they turn with what was done. */
static void add_finding(struct instruction_list *list, const char *code)
{
    static const char *const parts[] = {"home", "name", "meaning"};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        add(list, arena_format(list->b->arena, "finding.%s.%s", code, parts[i]));
}

static void add_found(struct instruction_list *list)
{
    const struct care_plan *plan = list->b->plan;
    struct arena *arena = list->b->arena;
    for (size_t i = 0; i < plan->action_count; i++)
        add(list, arena_format(arena, "action.%s", plan->actions[i].code));
    for (size_t i = 0; i < plan->finding_count; i++)
        if (plan->findings[i].severity != SEVERITY_NORMAL)
            add_finding(list, plan->findings[i].code);
    for (size_t i = 0; i < plan->procedure_count; i++)
        add(list, arena_format(arena, "procedure.%s.care", plan->procedures[i].code));
}

/* Or whose stance of today it says with its own; not "feed as this sheet says", which goes with
 * any. */
static bool speaks_of(const struct care_build *b, const struct instruction *one, const char *topic)
{
    if (list_has_text(&one->refers, topic))
        return false; /* "give water as this sheet says" */
    bool goes_with_any = strncmp(one->code.text, "finding.", 8) == 0 && !one->stances.count;
    if (one->topic.text && strcmp(one->topic.text, topic) == 0 && !goes_with_any)
        return true;
    for (size_t i = 0; i < one->topics.count && !goes_with_any; i++)
        if (strcmp(LIST_AT(one->topics, struct instruction_topic, i)->name.text, topic) == 0)
            return true;
    for (size_t i = 0; i < one->says.count; i++) {
        const struct instruction_topic *said = LIST_AT(one->says, struct instruction_topic, i);
        if (strcmp(said->name.text, topic) == 0)
            return topic_agrees(b, topic, &said->stances, (struct when_asked){b->plan->on, false});
    }
    return false;
}

/* An action, a finding's or a procedure's own words that are printed say more of the topic than
 * its stance does; not "let it rest today" after an X-ray, which goes with any. */
static bool is_said(const struct instruction_list *list, const char *topic, bool by_finding)
{
    const struct instruction_catalogue *book = list->b->in->instructions;
    for (size_t i = 0; i < list->count; i++) {
        const char *code = list->items[i].code;
        const bool is_procedure = strncmp(code, "procedure.", 10) == 0;
        if (by_finding ? strncmp(code, "finding.", 8) != 0
                       : !is_procedure && strncmp(code, "action.", 7) != 0)
            continue;
        const struct instruction *one =
            LIST_AT(book->instructions, struct instruction, code_index_find(&book->index, code));
        const bool own = !is_procedure || one->stances.count > 0;
        /* what it says holds from another day on: today's stance has to be told */
        bool later =
            one->any_phase.value && !topic_agrees(list->b, topic, &one->stances,
                                                  (struct when_asked){list->b->plan->on, false});
        if (own && !later && speaks_of(list->b, one, topic))
            return true;
    }
    return false;
}

/* "No damp hide" of one that has none by nature. */
static bool is_usual_unsaid(const struct care_build *b, const char *name, const char *stance)
{
    size_t place = topic_find(b->in->topics, name, strlen(name));
    const struct topic *topic =
        place == SIZE_MAX ? NULL : LIST_AT(b->in->topics->topics, struct topic, place);
    const char *usual = topic && topic->usual_unsaid.value ? stances_usual(b, topic) : NULL;
    return usual && strcmp(usual, stance) == 0;
}

/* Dry or bare hands harm a bare skin, so how it is touched is told even where nothing called. */
static bool is_touch_of_bare_skin(const struct care_build *b, const char *topic)
{
    const int group = (int)b->in->species->group.value;
    return strcmp(topic, "handling") == 0 && (group == GROUP_FROG || group == GROUP_SALAMANDER);
}

/* How to carry an ill animal to us, whether to handle it and whether to bathe it is what every
 * keeper asks, whatever settled it. */
static bool is_asked_of_all(const struct care_build *b, const char *topic)
{
    static const char *const asked[] = {"transport", "handling", "bath"};
    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++)
        if (strcmp(topic, asked[i]) == 0)
            return build_has_illness(b) || is_touch_of_bare_skin(b, topic);
    return false;
}

/* A stance speaks by itself where it differs from the usual and nothing else says it. */
static bool stance_speaks(const struct instruction_list *list, const struct instruction *one)
{
    const struct date day =
        list->b->plan->texts[plan_instruction_place(list->b->plan, one->code.text)].from;
    const struct stance_phase *now =
        one->topic.text ? plan_phase_on(list->b->plan, one->topic.text, day) : NULL;
    /* what to watch for stands among the warning signs that the same cause raises; a decision
     * raises none */
    bool is_watch =
        one->topic.text && strncmp(one->topic.text, "watch.", 6) == 0 && !(now && now->decision);
    /* a section of its own says it */
    if (one->topic.text && strcmp(one->topic.text, "winter-rest") == 0 &&
        list->b->plan->winter_rest.is_asked)
        return false;
    /* and so do the hours of light, where they are known */
    if (strcmp(one->code.text, "stance.light-hours.long") == 0 && list->b->plan->uvb.hours_now > 0)
        return false;
    if (now && is_usual_unsaid(list->b, one->topic.text, now->stance))
        return false;
    return now && !is_watch &&
           (is_asked_of_all(list->b, one->topic.text) || strcmp(now->because, "default") != 0) &&
           !is_said(list, one->topic.text, false);
}

/* Words for it behind which her reason stands? */
static bool has_decided_words(const struct care_build *b, const char *topic,
                              const struct stance_phase *phase)
{
    static const char *const families[] = {"decided", "stance"};
    for (size_t i = 0; i < sizeof families / sizeof *families; i++) {
        const char *key = arena_format(b->arena, "%s.%s.%s", families[i], topic, phase->stance);
        const size_t place = code_index_find(&b->in->instructions->index, key);
        if (place != SIZE_MAX && b->plan->texts[place].printed)
            return true;
    }
    return false;
}

static bool speaks_or_acts(const struct care_plan *plan, const char *topic,
                           const struct stance_phase *phase)
{
    const char *why = phase->decision->reason;
    for (size_t i = 0; i < plan->action_count && why; i++)
        if (plan->actions[i].decided_why == why)
            return true;
    for (size_t i = 0; i < plan->speaking_count; i++)
        if (strcmp(plan->speaking[i].topic, topic) == 0 &&
            plan_phase_on(plan, topic, plan->speaking[i].from) == phase)
            return true;
    return false;
}

/* What was decided, is not what is usual and has no words: her reason alone would stand there, and
 * no keeper reads out of it what to do. */
static void ask_for_words(struct care_build *b, const struct topic_plan *topic,
                          const struct stance_phase *phase)
{
    /* when to be seen stands in the head and among the dates, hours of light in a row of their own
     */
    if (strcmp(topic->topic, "seen") == 0 || strcmp(topic->topic, "light-hours") == 0 ||
        speaks_or_acts(b->plan, topic->topic, phase) || has_decided_words(b, topic->topic, phase))
        return;
    const char *stands = arena_format(b->arena, "%s.%s", topic->topic, phase->stance);
    struct plan_fact *facts = build_fact_text(b, "kept", FACT_STANCE, stands, NULL);
    build_review(b, REVIEW_OVERRIDE, "stance-unsaid", (struct mark){0},
                 build_fact_text(b, "topic", FACT_CODE,
                                 arena_format(b->arena, "desk.topic.%s", topic->topic), facts));
}

/* No finding's own words know what was decided, nor why. */
static bool is_decided(const struct care_plan *plan, const struct instruction_plan *one)
{
    const struct stance_phase *phase = plan_phase_on(plan, one->topic, one->from);
    return phase && phase->decision;
}

bool stances_speak_plan(struct care_build *b)
{
    const struct list *book = &b->in->instructions->instructions;
    struct instruction_list list = {
        .b = b, .items = ARENA_ARRAY_UNSET(b->arena, struct instruction_plan, book->count + 1)};
    add_found(&list);
    const size_t others = list.count;
    for (size_t i = 0; i < book->count; i++) {
        const struct instruction *one = LIST_AT(*book, struct instruction, i);
        const size_t before = list.count;
        if (strncmp(one->code.text, "stance.", 7) == 0 && stance_speaks(&list, one))
            add(&list, one->code.text);
        if (list.count > before) /* a sheet in brief leaves the finding's own words out */
            list.items[before].said_at_home =
                !is_decided(b->plan, &list.items[before]) && is_said(&list, one->topic.text, true);
    }
    b->plan->speaking = list.items + others;
    b->plan->speaking_count = list.count - others;
    for (size_t i = 0; i < b->plan->topic_count; i++)
        for (size_t k = 0; k < b->plan->topics[i].phase_count; k++)
            if (b->plan->topics[i].phases[k].decision)
                ask_for_words(b, &b->plan->topics[i], &b->plan->topics[i].phases[k]);
    return true;
}
