/* A text that tells the keeper to do or to watch something is declared in instructions.yaml: every
 * key of a sheet's words, save those that only name, count or describe. */
#include <string.h>

#include "check/data_check.h"

/* What tells nobody to do anything; a * stands for any letters. What is not here is declared. */
static const char *const describing[] = {
    /* names and units, put into other sentences */
    "calendar.*",
    "cut.*",
    "cut-word.*",
    "caution-about.*",
    "day-part.*",
    "disinfectant.*",
    "food.*",
    "group.*",
    "hours.*",
    "measure.*",
    "medicine-route.*",
    "month.*",
    "never-food.*",
    "number.*",
    "severity.*",
    "short.*",
    "signature.*",
    "since.what.*",
    "species.*",
    "stage.*",
    "supplement.*",
    "term.*",
    "tier.*",
    "lamp-kind.*",
    "topic-words.*",
    "unit.*",
    "weekday.*",
    "weighing-rhythm.*",
    "zone.*",
    /* the desk speaks to the clinic, the covering mail repeats the sheet */
    "desk.*",
    "mail.*",
    "review.*",
    /* what was found, what it means and what is usual */
    "finding.*.name",
    "finding.*.normal",
    "finding.*.meaning*",
    "normal.*",
    "procedure.*.name",
    "why.*",
    /* headings, and the parts a line is made of */
    "*.title",
    "*.title-*",
    "sheet.title.*",
    "picture.*",
    "sheet.*-head",
    "sheet.action-end",
    "sheet.action-start",
    "sheet.borderline",
    "sheet.middle",
    "sheet.middle-by-day",
    "sheet.contact",
    "sheet.date-*",
    "sheet.draft-*",
    "sheet.finding-*",
    "sheet.foot-left",
    "sheet.found.*",
    "sheet.head*",
    "sheet.keywords",
    "sheet.list-*",
    "sheet.logger.*",
    "sheet.none",
    "sheet.open",
    "sheet.page-of",
    "sheet.result.*",
    "sheet.run-in",
    "sheet.sex.*",
    "sheet.signature.*",
    "sheet.since.*",
    "sheet.sources.*",
    "sheet.still",
    "sheet.subject",
    "sheet.trust.*",
    "sheet.from.*",
    "sheet.until.*",
    "sheet.warnings.own",
    "sheet.why",
    "sheet.winter-rest.head.*",
    "sheet.winter-rest.why.*",
    "sheet.winter-rest.step",
    "sheet.winter-rest.warming",
    "sheet.winter-rest.warming-step",
    "sheet.winter-rest.week",
    /* of sections that instruct, the lines that only say what is there */
    "plate.*",
    "sheet.feeding.animals",
    "sheet.feeding.food",
    "sheet.feeding.meal-*",
    "sheet.feeding.notes",
    "sheet.feeding.plant-share",
    "sheet.feeding.plants",
    "sheet.feeding.stage",
    "sheet.humidity.borderline",
    "sheet.humidity.hide",
    "sheet.humidity.in-range",
    "sheet.humidity.in-shed",
    "sheet.humidity.measure",
    "sheet.humidity.too-*",
    "sheet.humidity.walls",
    "sheet.humidity.warm",
    "sheet.humidity.warm-side",
    "sheet.light.change",
    "sheet.light.day",
    "sheet.light.index",
    "sheet.light.lamp",
    "sheet.medicines.beside",
    "sheet.medicines.dated",
    "sheet.medicines.days",
    "sheet.medicines.doses",
    "sheet.medicines.from*",
    "sheet.medicines.here",
    "sheet.medicines.here-today",
    "sheet.medicines.more-doses",
    "sheet.medicines.then",
    "sheet.medicines.today*",
    "sheet.medicines.tube-food",
    "sheet.planner.checked",
    "sheet.planner.times",
    "sheet.planner.week",
    "sheet.water.today",
    "sheet.weighing-log.today",
    "sheet.weight.aim",
    "sheet.heat-missing.*",
    "sheet.cool-there.*",
    "sheet.wake-warm",
    "sheet.wake-warm.dry",
    "sheet.weight.less",
    "sheet.weight.fell",
    "sheet.weight.means.*",
    "sheet.weight.rose",
    "sheet.weight.since",
    /* the sheet for the wall: its headings, fields to write in and short names */
    "wall.box*",
    "wall.card.alarm.*",
    "wall.card.keeper",
    "wall.card.left",
    "wall.card.name.*",
    "wall.cause.*",
    "wall.severe.*",
    "wall.closed",
    "wall.day",
    "wall.by",
    "wall.food",
    "wall.food.mass*",
    "wall.food.plants*",
    "wall.found*",
    "wall.go-now",
    "wall.go-now.where",
    "wall.item",
    "wall.aftercare",
    "wall.safety",
    "wall.key.*",
    "wall.later.*",
    "wall.limit.*",
    "wall.medicines.head",
    "wall.next-visit*",
    "wall.notes",
    "wall.now*",
    "wall.own-clinic",
    "wall.page-foot",
    "wall.sex.*",
    "wall.signature",
    "wall.signed",
    "wall.end",
    "wall.start",
    "wall.step",
    "wall.still",
    "wall.symbol.*",
    "wall.then*",
    "wall.three-days.*",
    "wall.tonight",
    "wall.tonight-later",
    "wall.tonight-dose",
    "wall.tonight-or-by",
    "wall.tonight-too",
    "wall.turn.*",
    "wall.water.*",
    "wall.way",
    "wall.weeks.*",
    "wall.who",
    "wall.write.*",
};

/* What looks like one of these and is none: its sense hangs on what was settled. */
static const char *const telling[] = {
    "sheet.go-now.title",        "normal.fasts-for-months", "normal.eats-less-before-eggs",
    "normal.may-drop-tail",      "normal.drops-tail",       "normal.gulps-air",
    "normal.gaping-when-hot",    "normal.plays-dead",       "normal.red-belly-shown",
    "normal.sunken-eyes-asleep",
};

/* Said on its own account too, not only in another's place or under another's row. */
static const char *const own_row[] = {
    "action.*.do",
    "action.pause-food.how",
    "action.restart-food.how",
    "sheet.first-weeks.day-4",
    "sign.refuses-food-past-limit.worse",
    "sign.sore-eyes-new-lamp.worse",
};

/* As a whole; each * takes as few letters as it can. */
static bool matches(const char *key, const char *pattern)
{
    const char *star = NULL, *retry = NULL;
    while (*key) {
        if (*pattern == '*') {
            star = pattern++;
            retry = key;
        } else if (*pattern == *key) {
            pattern++;
            key++;
        } else if (star) {
            pattern = star + 1;
            key = ++retry;
        } else {
            return false;
        }
    }
    while (*pattern == '*')
        pattern++;
    return !*pattern;
}

static bool matches_any(const char *key, const char *const *patterns, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (matches(key, patterns[i]))
            return true;
    return false;
}

#define IS_ONE_OF(key_, patterns_)                                                                 \
    matches_any(key_, patterns_, sizeof(patterns_) / sizeof *(patterns_))

bool data_check_describes(const char *key)
{
    return IS_ONE_OF(key, describing) && !IS_ONE_OF(key, telling);
}

/* The code itself, or what lies under it. */
static bool lies_under(const char *key, const char *code)
{
    size_t length = strlen(code);
    return strncmp(key, code, length) == 0 && (!key[length] || key[length] == '.');
}

/* action.X.do belongs to the row action.X, all others to the row of their own name. */
static bool has_own_row(const struct instruction_catalogue *book, const char *key)
{
    size_t place = code_index_find(&book->index, key);
    if (place == SIZE_MAX)
        return false;
    const char *code = LIST_AT(book->instructions, struct instruction, place)->code.text;
    return strcmp(key, code) == 0 || matches(key + strlen(code), ".do");
}

/* As far as the part of an action goes of which the key is a further text: action.X.stop of
 * action.X.stop-again; 0 for any other key. */
static size_t part_length(const char *key)
{
    static const char *const parts[] = {"do", "how", "stop", "short"};
    const char *last = strncmp(key, "action.", 7) == 0 ? strrchr(key, '.') : NULL;
    for (size_t i = 0; last && i < sizeof parts / sizeof *parts; i++) {
        size_t length = strlen(parts[i]);
        if (strncmp(last + 1, parts[i], length) == 0 && last[1 + length] == '-')
            return (size_t)(last + 1 + length - key);
    }
    return 0;
}

/* By the row of its own part: that another action's row has it too says nothing of this one. */
static bool is_named_by_part(const struct instruction_catalogue *book, const char *key,
                             size_t length)
{
    for (size_t i = 0; i < book->instructions.count; i++) {
        const struct instruction *one = LIST_AT(book->instructions, struct instruction, i);
        bool is_part = strncmp(one->code.text, key, length) == 0 && !one->code.text[length];
        for (size_t k = 0; is_part && k < one->variants.count; k++)
            if (strcmp(key, LIST_AT(one->variants, struct instruction_variant, k)->key.text) == 0)
                return true;
    }
    return false;
}

static bool is_declared(const struct instruction_catalogue *book, const char *key)
{
    size_t part = part_length(key);
    if (part > 0)
        return is_named_by_part(book, key, part);
    if (IS_ONE_OF(key, own_row))
        return has_own_row(book, key);
    if (code_index_find(&book->index, key) != SIZE_MAX)
        return true;
    for (size_t i = 0; i < book->instructions.count; i++) {
        const struct instruction *one = LIST_AT(book->instructions, struct instruction, i);
        for (size_t k = 0; k < one->variants.count; k++)
            if (lies_under(key, LIST_AT(one->variants, struct instruction_variant, k)->key.text))
                return true;
    }
    return false;
}

/* ---- one urgency of a sign in all texts ---- */

static bool has_variant(const struct instruction *row, const char *key)
{
    for (size_t i = 0; i < row->variants.count; i++)
        if (strcmp(key, LIST_AT(row->variants, struct instruction_variant, i)->key.text) == 0)
            return true;
    return false;
}

/* Does the row speak with this text? Each in whose place it stands, and where it stands in no
 * other's, the row that it lies under. */
static bool speaks_with(const struct instruction_catalogue *book, const struct instruction *row,
                        const char *key)
{
    bool is_variant = false;
    for (size_t i = 0; i < book->instructions.count && !is_variant; i++)
        is_variant = has_variant(LIST_AT(book->instructions, struct instruction, i), key);
    size_t place = code_index_find(&book->index, key);
    bool is_own =
        place != SIZE_MAX && LIST_AT(book->instructions, struct instruction, place) == row;
    return has_variant(row, key) || (is_own && (!is_variant || strcmp(row->code.text, key) == 0));
}

/* The row that speaks with the text and names no signs; NULL for none, or where no row speaks. */
static const struct instruction *without_signs(const struct instruction_catalogue *book,
                                               const char *key)
{
    for (size_t i = 0; i < book->instructions.count; i++) {
        const struct instruction *row = LIST_AT(book->instructions, struct instruction, i);
        if (row->signs.count == 0 && speaks_with(book, row, key))
            return row;
    }
    return NULL;
}

static void look_for_urgency(void *context, const char *slot)
{
    bool *says = context;
    *says = *says || strcmp(slot, "go-now") == 0;
}

/* {go-now} has a value where a sign of the text's row has become one to go for; a finding's own
 * sentence has its finding's signs. */
static void check_urgency(const struct data_check *check, const struct wording_entry *entry)
{
    bool says = false;
    catalogue_each_slot(entry, look_for_urgency, &says);
    if (!says || matches(entry->key, "finding.*.home*"))
        return;
    const struct instruction *row = without_signs(check->resources->instructions, entry->key);
    if (row)
        diag_report(check->diag, DIAG_ERROR, "urgency-of-nothing", entry->at,
                    "'%s' says {go-now}: name under 'signs' of '%s' in instructions.yaml which "
                    "warning signs it speaks of",
                    entry->key, row->code.text);
}

static bool says_urgency(const struct wording *words, const struct instruction *row,
                         const struct instruction_catalogue *book)
{
    bool says = false;
    for (size_t i = 0; i < words->count && !says; i++)
        if (speaks_with(book, row, words->entries[i].key))
            catalogue_each_slot(&words->entries[i], look_for_urgency, &says);
    return says;
}

static void check_signs(const struct data_check *check)
{
    const struct instruction_catalogue *book = check->resources->instructions;
    for (size_t i = 0; i < book->instructions.count; i++) {
        const struct instruction *row = LIST_AT(book->instructions, struct instruction, i);
        data_check_need_signs(check, &row->signs);
        if (row->signs.count > 0 && !says_urgency(check->words[0], row, book))
            diag_report(check->diag, DIAG_ERROR, "urgency-of-nothing", row->at,
                        "'%s' names signs, but none of its texts says {go-now}", row->code.text);
    }
}

/* Every language has the same keys. */
void data_check_declared(const struct data_check *check)
{
    const struct wording *words = check->words[0];
    for (size_t i = 0; i < words->count; i++) {
        const struct wording_entry *entry = &words->entries[i];
        if (!data_check_describes(entry->key) &&
            !is_declared(check->resources->instructions, entry->key))
            diag_report(check->diag, DIAG_ERROR, "undeclared-instruction", entry->at,
                        "'%s' tells the keeper what to do or to watch: declare it in "
                        "instructions.yaml with its topic and the stances it agrees with",
                        entry->key);
        check_urgency(check, entry);
    }
    check_signs(check);
}
