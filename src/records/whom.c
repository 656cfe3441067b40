/* Which animals a row of data is for. */
#include "records/whom.h"

#include "base/same_text.h"
#include "records/table.h"
#include "records/visit.h"

#include <ctype.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

bool list_has_choice(const struct list *list, int value)
{
    for (size_t i = 0; i < list->count; i++)
        if (LIST_AT(*list, struct choice_value, i)->value == value)
            return true;
    return false;
}

bool list_has_text(const struct list *list, const char *text)
{
    for (size_t i = 0; i < list->count; i++)
        if (same_text(LIST_AT(*list, struct text_value, i)->text, text))
            return true;
    return false;
}

/* A word of the species sheet; -1, which no row names, where it says none. */
static int word_of(const struct choice_value *value)
{
    return value->known ? value->value : -1;
}

static size_t count_traits(const struct list *traits, const struct species *species)
{
    size_t count = 0;
    for (size_t i = 0; i < traits->count; i++)
        count +=
            species_has_trait(species, (enum trait)LIST_AT(*traits, struct choice_value, i)->value);
    return count;
}

/* ---- what the record of the visit says ---- */

static bool names_one(const struct list *codes, const struct list *wanted)
{
    for (size_t i = 0; wanted->count && i < codes->count; i++)
        if (list_has_text(wanted, LIST_AT(*codes, struct text_value, i)->text))
            return true;
    return false;
}

static bool finds_one(const struct list *findings, const struct list *wanted)
{
    for (size_t i = 0; wanted->count && i < findings->count; i++) {
        const struct visit_finding *one = LIST_AT(*findings, struct visit_finding, i);
        bool normal = one->severity.known && one->severity.value == SEVERITY_NORMAL;
        if (!normal && list_has_text(wanted, one->code.text))
            return true;
    }
    return false;
}

static bool heats_with(const struct visit_enclosure *box, const struct list *kinds)
{
    for (size_t i = 0; i < box->heat.count; i++)
        if (list_has_choice(kinds, LIST_AT(box->heat, struct visit_heat, i)->kind.value))
            return true;
    return visit_has_mercury_lamp(box) && list_has_choice(kinds, HEAT_MERCURY_VAPOUR);
}

/* The box's own yes is of all its heat together, so only the heater's own row tells them apart. */
static bool heats_safely_with(const struct visit_enclosure *box, const struct list *kinds)
{
    for (size_t i = 0; i < box->heat.count; i++) {
        const struct visit_heat *one = LIST_AT(box->heat, struct visit_heat, i);
        if (one->thermostat.known && one->thermostat.value && one->guard.known &&
            one->guard.value && list_has_choice(kinds, one->kind.value))
            return true;
    }
    return false;
}

static bool heats_only_with(const struct visit_enclosure *box, const struct list *kinds)
{
    bool is_mercury = visit_has_mercury_lamp(box);
    if (is_mercury && !list_has_choice(kinds, HEAT_MERCURY_VAPOUR))
        return false;
    for (size_t i = 0; i < box->heat.count; i++)
        if (!list_has_choice(kinds, LIST_AT(box->heat, struct visit_heat, i)->kind.value))
            return false;
    return is_mercury || box->heat.count > 0;
}

static bool has_uvb_lamp(const struct visit *visit)
{
    const struct choice_value *kind = &visit->enclosure.lamp.kind;
    return kind->known && kind->value != LAMP_NONE && kind->value != LAMP_LED;
}

static bool has_thermostats(const struct visit *visit)
{
    const struct flag_value all = visit_thermostat(visit);
    return all.known && all.value;
}

/* A part of a word is enough: "bath" of "baths", in any of the languages of a record. */
static bool speaks(const struct text_value *text, const struct list *parts)
{
    for (size_t i = 0; text->text && i < parts->count; i++)
        if (strcasestr(text->text, LIST_AT(*parts, struct text_value, i)->text))
            return true;
    return false;
}

/* Does a phrase that is of something else lie around this place of the text? "Feeding tube" is no
 * food, whatever "feed" is. */
static bool lies_within(const char *text, const char *at, const struct list *phrases)
{
    for (size_t i = 0; i < phrases->count; i++) {
        const char *phrase = LIST_AT(*phrases, struct text_value, i)->text;
        for (const char *from = text; (from = strcasestr(from, phrase)) && from <= at; from++)
            if (at < from + strlen(phrase))
                return true;
    }
    return false;
}

/* Is a name of the row's thing: by a part that stands in none of the phrases of something else? */
static bool names_thing(const struct text_value *text, const struct written_words *row)
{
    for (size_t i = 0; text->text && i < row->parts.count; i++) {
        const char *part = LIST_AT(row->parts, struct text_value, i)->text;
        for (const char *at = text->text; (at = strcasestr(at, part)); at++)
            if (!lies_within(text->text, at, &row->never))
                return true;
    }
    return false;
}

/* Whatever a veterinarian writes on a sheet in words of their own. */
static bool writes(const struct visit *visit, const struct list *parts)
{
    bool found = speaks(&visit->message, parts);
    for (size_t i = 0; i < visit->findings.count; i++)
        found |= speaks(&LIST_AT(visit->findings, struct visit_finding, i)->note, parts);
    for (size_t i = 0; i < visit->medicines.count; i++) {
        const struct visit_medicine *one = LIST_AT(visit->medicines, struct visit_medicine, i);
        found |= speaks(&one->name, parts) || speaks(&one->directions, parts);
    }
    for (size_t i = 0; i < visit->decisions.count; i++) {
        const struct visit_decision *one = LIST_AT(visit->decisions, struct visit_decision, i);
        found |=
            speaks(&one->topic, parts) || speaks(&one->because, parts) || speaks(&one->own, parts);
    }
    return found;
}

/* What a keeper puts there day by day is told to the keeper: its words may be of anything. */
static bool gives_by(const struct visit *visit, const struct list *routes)
{
    for (size_t i = 0; i < visit->medicines.count; i++) {
        const struct visit_medicine *one = LIST_AT(visit->medicines, struct visit_medicine, i);
        bool is_here = one->given.known && one->given.value == GIVEN_HERE;
        if (!is_here && one->route.known && list_has_choice(routes, one->route.value))
            return true;
    }
    return false;
}

const char *written_medicine(const struct list *written, const struct visit *visit, const char *of)
{
    for (size_t i = 0; i < visit->medicines.count; i++) {
        const struct visit_medicine *one = LIST_AT(visit->medicines, struct visit_medicine, i);
        const bool is_here = one->given.known && one->given.value == GIVEN_HERE;
        for (size_t k = 0; k < written->count && !is_here; k++) {
            const struct written_words *row = LIST_AT(*written, struct written_words, k);
            if (strcmp(row->of.text, of) == 0 && names_thing(&one->name, row))
                return one->name.text;
        }
    }
    return NULL;
}

const char *written_use(const struct list *written, const struct visit_medicine *one)
{
    const char *by_route = NULL;
    for (size_t i = 0; i < written->count; i++) {
        const struct written_words *row = LIST_AT(*written, struct written_words, i);
        if (strncmp(row->of.text, WRITTEN_USE, strlen(WRITTEN_USE)) != 0)
            continue;
        if (speaks(&one->name, &row->parts))
            return row->of.text;
        if (!by_route && one->route.known && list_has_choice(&row->routes, one->route.value))
            by_route = row->of.text;
    }
    return by_route;
}

const struct choice_value *written_way(const struct list *written, const struct visit_medicine *one)
{
    if (one->route.known)
        return &one->route;
    for (size_t i = 0; i < written->count; i++) {
        const struct written_words *row = LIST_AT(*written, struct written_words, i);
        if (strcmp(row->of.text, WRITTEN_WAY) == 0 && speaks(&one->name, &row->parts) &&
            row->routes.count > 0)
            return LIST_AT(row->routes, struct choice_value, 0);
    }
    return NULL;
}

/* Behind the sentence that begins there: "At 9.30 am" is no end of one. */
static const char *sentence_end(const char *text)
{
    while (*text && !(strchr(".!?;", *text) && (!text[1] || text[1] == ' ')) && *text != '\n')
        text++;
    return *text ? text + 1 : text;
}

/* Does one of these parts begin between the two? */
static bool holds(const char *from, const char *end, const struct list *parts)
{
    for (size_t i = 0; i < parts->count; i++) {
        const char *at = strcasestr(from, LIST_AT(*parts, struct text_value, i)->text);
        if (at && at < end)
            return true;
    }
    return false;
}

size_t written_sentence(const struct list *written, const struct text_value *text,
                        const struct list *wanted)
{
    const char *from = text->text;
    for (size_t sentence = 0; from && *from; sentence++) {
        const char *end = sentence_end(from);
        for (size_t i = 0; i < written->count; i++) {
            const struct written_words *row = LIST_AT(*written, struct written_words, i);
            if (list_has_text(wanted, row->of.text) && holds(from, end, &row->parts) &&
                (!row->beside.count || holds(from, end, &row->beside)))
                return sentence;
        }
        from = end;
    }
    return SIZE_MAX;
}

bool written_says(const struct list *written, const struct text_value *text, const char *of)
{
    for (size_t i = 0; i < written->count; i++) {
        const struct written_words *row = LIST_AT(*written, struct written_words, i);
        if (strcmp(row->of.text, of) == 0 && speaks(text, &row->parts))
            return true;
    }
    return false;
}

bool written_step_says(const struct list *written, const struct visit *visit, const char *of)
{
    for (size_t i = 0; i < visit->decisions.count; i++)
        if (written_says(written, &LIST_AT(visit->decisions, struct visit_decision, i)->own, of))
            return true;
    return false;
}

/* "Friday 4 December": the number alone, and no part of 14, 4.5 or 4:30. */
static bool names_day(const char *text, struct date day)
{
    for (const char *at = text; *at; at++) {
        char *end;
        const bool begins =
            isdigit((unsigned char)*at) &&
            (at == text || (!isdigit((unsigned char)at[-1]) && !strchr(".,:", at[-1])));
        if (!begins || strtol(at, &end, 10) != day.day)
            continue;
        if (!strchr(".,:", *end) || !isdigit((unsigned char)end[*end != '\0']))
            return true;
    }
    return false;
}

bool written_step_on(const struct list *written, const struct visit *visit, const char *of,
                     struct date day)
{
    for (size_t i = 0; i < visit->decisions.count; i++) {
        const struct text_value *own = &LIST_AT(visit->decisions, struct visit_decision, i)->own;
        if (own->text && written_says(written, own, of) && names_day(own->text, day))
            return true;
    }
    return false;
}

bool written_medicine_on(const struct visit *visit, const char *name, struct date day)
{
    enum { LETTERS_LEAST = 5 }; /* a shorter word may be of anything */
    const size_t length = strcspn(name, " ,(");
    for (size_t i = 0; length >= LETTERS_LEAST && i < visit->decisions.count; i++) {
        const char *own = LIST_AT(visit->decisions, struct visit_decision, i)->own.text;
        bool is_named = false;
        for (const char *at = own; at && *at && !is_named; at++)
            is_named = strncasecmp(at, name, length) == 0;
        if (is_named && names_day(own, day))
            return true;
    }
    return false;
}

bool written_step(const struct list *written, const struct visit *visit, const struct list *wanted)
{
    for (size_t i = 0; i < wanted->count; i++)
        if (written_step_says(written, visit, LIST_AT(*wanted, struct text_value, i)->text))
            return true;
    return false;
}

/* Her own powders among the targets are written as well as those among the medicines. */
static bool targets_write(const struct visit *visit, const char *of)
{
    return strcmp(of, WRITTEN_POWDER) == 0 && visit->targets.powders.count > 0;
}

static bool writes_of_one(const struct whom_animal *animal, const struct list *wanted)
{
    for (size_t i = 0; wanted->count && i < animal->written->count; i++) {
        const struct written_words *row = LIST_AT(*animal->written, struct written_words, i);
        if (list_has_text(wanted, row->of.text) &&
            (targets_write(animal->visit, row->of.text) || writes(animal->visit, &row->parts) ||
             gives_by(animal->visit, &row->routes)))
            return true;
    }
    return false;
}

bool visit_writes_of(const struct whom_animal *animal, const char *of)
{
    for (size_t i = 0; i < animal->written->count; i++) {
        const struct written_words *row = LIST_AT(*animal->written, struct written_words, i);
        if (strcmp(row->of.text, of) == 0 &&
            (writes(animal->visit, &row->parts) || gives_by(animal->visit, &row->routes)))
            return true;
    }
    return false;
}

static bool visit_fits(const struct whom *whom, const struct visit *visit)
{
    return (!whom->done.count || names_one(&visit->done_today, &whom->done)) &&
           !names_one(&visit->done_today, &whom->never_done) &&
           (!whom->found.count || finds_one(&visit->findings, &whom->found)) &&
           !finds_one(&visit->findings, &whom->never_found) &&
           (!whom->heat.count || heats_only_with(&visit->enclosure, &whom->heat)) &&
           (!whom->heat_with.count || heats_with(&visit->enclosure, &whom->heat_with)) &&
           (!whom->heat_safe.count || heats_safely_with(&visit->enclosure, &whom->heat_safe)) &&
           (!whom->lamp.known || whom->lamp.value == has_uvb_lamp(visit)) &&
           (!whom->thermostat.known || whom->thermostat.value == has_thermostats(visit)) &&
           (!whom->outdoor.known || whom->outdoor.value == visit->enclosure.outdoor.value);
}

static bool is_wanted(const struct list *wanted, int value)
{
    return !wanted->count || list_has_choice(wanted, value);
}

bool whom_fits(const struct whom *whom, const struct whom_animal *animal)
{
    const struct species *species = animal->species;
    if (!is_wanted(&whom->groups, word_of(&species->group)) ||
        !is_wanted(&whom->habits, word_of(&species->habit)) ||
        !is_wanted(&whom->diets, word_of(&species->diet)) ||
        !is_wanted(&whom->stages, (int)animal->stage) ||
        !is_wanted(&whom->sexes, (int)animal->sex) ||
        !is_wanted(&whom->brumation, word_of(&species->brumation)) ||
        !is_wanted(&whom->reproduction, word_of(&species->reproduction)))
        return false;
    if (count_traits(&whom->traits, species) < whom->traits.count ||
        count_traits(&whom->never_with, species) > 0)
        return false;
    if (whom->species.count && !list_has_text(&whom->species, species->code.text))
        return false;
    if (whom->few_dry.known && whom->few_dry.value != animal->few_dry)
        return false;
    if (written_step(animal->written, animal->visit, &whom->never_own_step))
        return false;
    return !writes_of_one(animal, &whom->never_written) && visit_fits(whom, animal->visit);
}
