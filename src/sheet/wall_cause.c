/* What the message says is wrong in its home. */
#include <string.h>

#include "sheet/wall.h"

/* What its being too low or too high is called of the box, or with "water-" of the water; what has
 * no word is not named in one: a step says it. */
static const struct cause_row {
    const char *low, *high;
} causes[MEASURE_COUNT] = {
    [MEASURE_BASKING_SURFACE] = {"cold", "hot"},
    [MEASURE_WARM_SIDE] = {"cold", "hot"},
    [MEASURE_COOL_SIDE] = {"cold", "hot"},
    [MEASURE_NIGHT] = {"cold-night", "hot-night"},
    [MEASURE_NIGHT_WARM_SIDE] = {"cold-night", "hot-night"},
    [MEASURE_WATER] = {"water-cold", "water-hot"},
    [MEASURE_HUMIDITY] = {"dry", "damp"},
    [MEASURE_DEPTH] = {"water-shallow", "water-deep"},
};

static const char *word_of(const struct composition *c, int place)
{
    if (place >= MEASURE_COUNT || c->plan->measured[place].fits_usual)
        return NULL;
    switch (c->plan->measured[place].verdict) {
    case VERDICT_TOO_LOW:
        return causes[place].low;
    case VERDICT_TOO_HIGH:
        return causes[place].high;
    default:
        return NULL;
    }
}

/* What its own waste has made of the water, where a part of it is changed for that. */
static bool takes_out_waste(const struct composition *c, size_t action)
{
    static const enum measure_id wastes[] = {MEASURE_NH3, MEASURE_AMMONIA, MEASURE_NITRITE};
    bool shows = false;
    for (size_t i = 0; i < sizeof wastes / sizeof *wastes; i++)
        shows = shows || c->plan->measured[wastes[i]].verdict == VERDICT_TOO_HIGH;
    return shows && strcmp(c->plan->actions[action].code, "change-part-water") == 0;
}

/* A step without a place of its own ("unplug the hot rock") stands for the places that asked. */
static const char *cause_word(const struct composition *c, size_t action)
{
    const char *word = NULL;
    if (takes_out_waste(c, action))
        return "water-dirty";
    if (wall_has_place(c, action))
        return word_of(c, c->plan->steps[action].place);
    for (int place = 0; !word && place < MEASURE_COUNT; place++)
        word = wall_change_at(c, place) == (int)action ? word_of(c, place) : NULL;
    return word;
}

/* Is there room for what is wrong beside what tonight's rows change? */
bool wall_says_causes(const struct composition *c)
{
    return section_says(c, MESSAGE_CAUSES) || section_says(c, MESSAGE_NAMES) ||
           section_says(c, MESSAGE_FULL);
}

/* What the warmth of two places is called in one: a place that is too hot is no warm box where
 * another is too cold. Whatever has no row here is called what comes first. */
static const struct cause_pair {
    const char *one, *other, *both;
} cause_pairs[] = {{"cold", "cold-night", "cold"},
                   {"hot", "hot-night", "hot"},
                   {"hot", "cold", "hot-and-cold"},
                   {"hot", "cold-night", "hot-cold-night"},
                   {"hot-cold-night", "cold", "hot-and-cold"},
                   {"cold", "hot-night", "cold-hot-night"}};

static const char *word_of_both(const char *word, const char *other)
{
    for (size_t i = 0; i < sizeof cause_pairs / sizeof *cause_pairs; i++)
        if ((strcmp(cause_pairs[i].one, word) == 0 && strcmp(cause_pairs[i].other, other) == 0) ||
            (strcmp(cause_pairs[i].one, other) == 0 && strcmp(cause_pairs[i].other, word) == 0))
            return cause_pairs[i].both;
    return NULL;
}

/* What is damp at one end and dry at the other is called what comes first. */
static bool is_of_one_kind(const char *word, const char *other)
{
    bool is_of_one = strcmp(word, other) == 0;
    for (size_t i = 0; i < MEASURE_COUNT && !is_of_one; i++)
        is_of_one = causes[i].low &&
                    ((strcmp(causes[i].low, word) == 0 && strcmp(causes[i].high, other) == 0) ||
                     (strcmp(causes[i].high, word) == 0 && strcmp(causes[i].low, other) == 0));
    return is_of_one;
}

static bool is_of_warmth(const char *word)
{
    return strncmp(word, "hot", 3) == 0 || strncmp(word, "cold", 4) == 0;
}

/* Is the word said by one that stands already, or the two by one word in its place? */
static bool joined_word(const char **word, const char *other)
{
    const char *both = word_of_both(*word, other);
    const bool holds = is_of_one_kind(*word, other) || (is_of_warmth(*word) && is_of_warmth(other));
    *word = both ? both : *word;
    return holds;
}

/* Of the first step alone, also where a second finding had room and there is none. */
static bool is_of_first(const struct composition *c)
{
    return section_says(c, MESSAGE_FIRST) || section_says(c, MESSAGE_TWO);
}

/* Of so many steps: all where there is room, else the rows, and at the least the first; where the
 * message names no second finding also what stands on the next pages and is due tonight too. */
static size_t causing_steps(const struct composition *c)
{
    size_t count = wall_says_causes(c) ? c->plan->action_count : wall_step_count(c);
    if (is_of_first(c))
        return count > 0;
    while (section_says(c, MESSAGE_HOME) && count < c->plan->action_count &&
           c->plan->actions[count].is_tonight)
        count++;
    return count;
}

/* "The box is too cold and too dry." Of what is due tonight, or where there is room of what
 * any step does, each cause once: of the box, or of the water. */
static const char *cause_of(struct composition *c, const char *key, bool of_water)
{
    enum { CAUSES_MOST = 3 };
    const char *words[CAUSES_MOST], *texts[CAUSES_MOST];
    size_t count = 0, steps = causing_steps(c);
    for (size_t i = 0; i < steps && count < CAUSES_MOST; i++) {
        const char *word = cause_word(c, i);
        if (!word || (strncmp(word, "water-", 6) == 0) != of_water)
            continue;
        for (size_t k = 0; word && k < count; k++)
            word = joined_word(&words[k], word) ? NULL : word;
        if (word)
            words[count++] = word;
    }
    for (size_t i = 0; i < count; i++)
        texts[i] = phrase_code(&c->ctx, "wall.cause", words[i]);
    return count ? wall_phrase(c, key, "what", phrase_all_of(&c->ctx, texts, count), NULL, NULL)
                 : NULL;
}

const char *wall_join(struct composition *c, const char *text, const char *more)
{
    return !text ? more : more ? arena_format(c->arena, "%s %s", text, more) : text;
}

/* Where the tank is too cold its water is named beside it only for what is in it. */
static const char *waste_text(struct composition *c)
{
    bool takes_out = false;
    const size_t most = is_of_first(c) ? 1 : c->plan->action_count;
    for (size_t i = 0; i < most && i < c->plan->action_count && c->plan->actions[i].is_tonight; i++)
        takes_out = takes_out || takes_out_waste(c, i);
    return takes_out ? wall_phrase(c, "wall.main.cause-water", "what",
                                   phrase_code(&c->ctx, "wall.cause", "water-dirty"), NULL, NULL)
                     : NULL;
}

/* What the very first step takes out of the water. Beside it stands no other cause: a message is of
 * one thing, and the others have their rows. */
static const char *poison_text(struct composition *c)
{
    const bool leads = wall_step_count(c) > 0 && !c->plan->actions[0].own &&
                       strcmp(c->plan->actions[0].code, "treat-water") == 0;
    const bool burns =
        c->plan->taxon.group == GROUP_FROG || c->plan->taxon.group == GROUP_SALAMANDER;
    return leads ? phrase_code(&c->ctx, "wall.cause", burns ? "chlorine-burns" : "chlorine") : NULL;
}

/* What a row of tonight that changes the lamp says of it. Where the same row hangs it elsewhere,
 * its light is too strong or too weak. */
static const struct lamp_cause {
    const char *action, *word;
} lamp_causes[] = {{"change-lamp", "lamp-old"},
                   {"add-uvb-lamp", "lamp-missing"},
                   {"weaker-lamp", "lamp-strong"},
                   {"stronger-lamp", "lamp-weak"},
                   {"clear-lamp-path", "lamp-behind"}};

static const char *lamp_word(const struct composition *c, size_t action)
{
    const char *code = c->plan->actions[action].code;
    if (strcmp(code, "hang-lamp-at") == 0) {
        enum verdict verdict = c->plan->measured[MEASURE_UVB].verdict;
        return verdict == VERDICT_TOO_HIGH  ? "lamp-strong"
               : verdict == VERDICT_TOO_LOW ? "lamp-weak"
                                            : NULL;
    }
    for (size_t i = 0; i < sizeof lamp_causes / sizeof *lamp_causes; i++)
        if (strcmp(code, lamp_causes[i].action) == 0)
            return lamp_causes[i].word;
    return NULL;
}

static const char *lamp_text(struct composition *c)
{
    const char *word = NULL;
    for (size_t i = 0; !word && i < wall_step_count(c); i++)
        word = lamp_word(c, i);
    return word ? phrase_code(&c->ctx, "wall.cause", word) : NULL;
}

/* Of the box, where that is right of the water; and where there is room of the lamp. */
const char *wall_cause_text(struct composition *c)
{
    const char *poison = poison_text(c);
    if (poison)
        return poison;
    const char *box = cause_of(c, "wall.main.cause", false);
    box = box ? wall_join(c, box, waste_text(c)) : cause_of(c, "wall.main.cause-water", true);
    return wall_says_causes(c) || section_says(c, MESSAGE_LAMP) ? wall_join(c, box, lamp_text(c))
                                                                : box;
}
