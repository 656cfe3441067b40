/* What the page is made of: the form's fields, its words, the species and the findings. */
#include "desk/form.h"

#include <string.h>

#include "desk/handlers.h"

/* ---- the fields
 * -------------------------------------------------------------------------------------------- */

static const char *kind_word(enum field_kind kind)
{
    static const char *const words[] = {
        [FIELD_TEXT] = "text",
        [FIELD_DATE] = "date",
        [FIELD_PARTIAL_DATE] = "partial-date",
        [FIELD_QUANTITY] = "quantity",
        [FIELD_BAND] = "band",
        [FIELD_BOX] = "box",
        [FIELD_CHOICE] = "choice",
        [FIELD_FLAG] = "flag",
        [FIELD_TEXTS] = "texts",
        [FIELD_CHOICES] = "choices",
        [FIELD_RECORD] = "record",
        [FIELD_RECORDS] = "records",
        [FIELD_SOME_RECORDS] = "some-records",
        [FIELD_NAMED] = "named",
    };
    return words[kind];
}

/* "g, kg, oz or lb" -> a list of the four. */
static void write_units(struct json *json, enum dimension dimension, struct arena *arena)
{
    const char *allowed = units_allowed(dimension);
    json_key(json, "units");
    json_open_list(json);
    for (const char *at = allowed; at && *at;) {
        size_t length = strcspn(at, ", ");
        if (length && !(length == 2 && strncmp(at, "or", 2) == 0))
            json_text(json, arena_copy_bytes(arena, at, length));
        at += length;
        at += strspn(at, ", ");
    }
    json_close_list(json);
    if (!allowed)
        return;
    json_key(json, "usual");
    json_open_object(json);
    json_key_text(json, "metric", units_usual(dimension, false));
    json_key_text(json, "us", units_usual(dimension, true));
    json_close_object(json);
}

static void write_choices(struct json *json, const struct choice *choices)
{
    json_key(json, "choices");
    json_open_list(json);
    for (const struct choice *c = choices; c->word; c++)
        json_text(json, c->word);
    json_close_list(json);
}

static void write_field(struct json *json, const struct field *field, struct arena *arena)
{
    bool has_unit =
        field->kind == FIELD_QUANTITY || field->kind == FIELD_BAND || field->kind == FIELD_BOX;
    json_open_object(json);
    json_key_text(json, "key", field->key);
    json_key_text(json, "kind", kind_word(field->kind));
    json_key_flag(json, "required", field->required);
    json_key_flag(json, "long", field->is_long);
    json_key_text(json, "example", field->example);
    if (has_unit)
        write_units(json, field->dimension, arena);
    if (field->choices)
        write_choices(json, field->choices);
    if (field->schema) {
        json_key(json, "fields");
        form_write_schema(json, field->schema, arena);
    }
    json_close_object(json);
}

void form_write_schema(struct json *json, const struct schema *schema, struct arena *arena)
{
    json_open_list(json);
    for (size_t i = 0; i < schema->field_count; i++)
        if (!schema->fields[i].is_made)
            write_field(json, &schema->fields[i], arena);
    json_close_list(json);
}

/* The order of a visit: who comes, what is found, what hangs at home, what happens next. What is
 * not named here stands with what happens next. */
static const char *const part_order[] = {"visit",     "patient", "keeper", "findings",
                                         "enclosure", "diet",    "after",  "targets"};

enum { PART_COUNT = sizeof part_order / sizeof *part_order };

static bool has_part(const char *key)
{
    for (size_t i = 0; i < PART_COUNT; i++)
        if (strcmp(part_order[i], key) == 0)
            return true;
    return false;
}

static void write_parts(struct json *json)
{
    json_key(json, "parts");
    json_open_list(json);
    for (size_t i = 0; i < PART_COUNT; i++) {
        bool takes_rest = strcmp(part_order[i], "after") == 0;
        json_open_object(json);
        json_key_text(json, "key", part_order[i]);
        json_key(json, "fields");
        json_open_list(json);
        for (size_t k = 0; k < visit_schema.field_count; k++) {
            const char *key = visit_schema.fields[k].key;
            if (takes_rest ? !has_part(key) : strcmp(key, part_order[i]) == 0)
                json_text(json, key);
        }
        json_close_list(json);
        json_close_object(json);
    }
    json_close_list(json);
}

/* ---- the vocabulary
 * ---------------------------------------------------------------------------------------- */

static const char *worded(struct answer *answer, const char *format, const char *code)
{
    char key[200];
    snprintf(key, sizeof key, format, code);
    const char *word = desk_word(answer->words, key, answer->arena);
    return word ? word : code;
}

/* Whatever else it is called, in any language: for finding. */
static void write_also(struct answer *answer, const struct species *species)
{
    struct json *j = &answer->json;
    json_key(j, "also");
    json_open_list(j);
    for (size_t i = 0; i < species->names.count; i++)
        json_text(j, LIST_AT(species->names, struct named_text, i)->text.text);
    for (size_t i = 0; i < species->also.count; i++)
        json_text(j, LIST_AT(species->also, struct text_value, i)->text);
    json_close_list(j);
}

static void write_species(struct answer *answer)
{
    struct json *j = &answer->json;
    const struct desk_shared *shared = answer->desk->shared;
    const struct finding_catalogue *catalogue = shared->resources.catalogue;
    json_key(j, "species");
    json_open_list(j);
    for (size_t i = 0; i < shared->library.count; i++) {
        const struct species *species = shared->library.items[i];
        json_open_object(j);
        json_key_text(j, "code", species->code.text);
        json_key_text(j, "name", species_name(species, answer->words->lang));
        json_key_text(j, "scientific", species->scientific.text);
        json_key_text(j, "group", bind_choice_word(group_choices, species->group.value));
        write_also(answer, species);
        json_key(j, "findings");
        json_open_list(j);
        for (size_t k = 0; k < catalogue->findings.count; k++) {
            const struct finding *finding = LIST_AT(catalogue->findings, struct finding, k);
            if (finding_fits(finding, species))
                json_text(j, finding->name.text);
        }
        json_close_list(j);
        json_close_object(j);
    }
    json_open_object(j);
    json_key_text(j, "code", UNLISTED_CODE);
    json_key_text(j, "name", worded(answer, "desk.species.%s", UNLISTED_CODE));
    json_key_text(j, "scientific", "");
    json_key_text(j, "group", "");
    json_key(j, "also");
    json_open_list(j);
    json_close_list(j);
    json_key(j, "findings");
    json_open_list(j);
    json_close_list(j);
    json_close_object(j);
    json_close_list(j);
}

/* An animal without a sheet: by group, as what it has is not known before the record says it. */
static void write_unlisted(struct answer *answer)
{
    struct json *j = &answer->json;
    const struct finding_catalogue *catalogue = answer->desk->shared->resources.catalogue;
    json_key(j, "unlisted");
    json_open_list(j);
    for (int group = 0; group < GROUP_COUNT; group++) {
        json_open_object(j);
        json_key_text(j, "group", bind_choice_word(group_choices, group));
        json_key(j, "findings");
        json_open_list(j);
        for (size_t k = 0; k < catalogue->findings.count; k++) {
            const struct finding *finding = LIST_AT(catalogue->findings, struct finding, k);
            for (size_t i = 0; i < finding->groups.count; i++)
                if (LIST_AT(finding->groups, struct choice_value, i)->value == group)
                    json_text(j, finding->name.text);
        }
        json_close_list(j);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_texts(struct json *json, const char *key, const struct list *list)
{
    json_key(json, key);
    json_open_list(json);
    for (size_t i = 0; i < list->count; i++)
        json_text(json, LIST_AT(*list, struct text_value, i)->text);
    json_close_list(json);
}

static void write_finding(struct answer *answer, const struct finding *finding)
{
    struct json *j = &answer->json;
    json_open_object(j);
    json_key_text(j, "code", finding->name.text);
    json_key_text(j, "system", bind_choice_word(body_system_choices, finding->system.value));
    json_key_text(j, "name", worded(answer, "finding.%s.name", finding->name.text));
    json_key(j, "severities");
    json_open_list(j);
    for (size_t i = 0; i < finding->severities.count; i++)
        json_text(j, bind_choice_word(severity_choices,
                                      LIST_AT(finding->severities, struct choice_value, i)->value));
    json_close_list(j);
    write_texts(j, "excludes", &finding->excludes);
    write_texts(j, "steps", &finding->steps);
    json_key_flag(j, "value", finding->value.value != VALUE_NONE);
    json_close_object(j);
}

/* In the order of an examination: by system, then as the file has them. */
static void write_findings(struct answer *answer)
{
    struct json *j = &answer->json;
    const struct finding_catalogue *catalogue = answer->desk->shared->resources.catalogue;
    json_key(j, "findings");
    json_open_list(j);
    for (int system = 0; system < SYSTEM_COUNT; system++)
        for (size_t i = 0; i < catalogue->findings.count; i++)
            if (LIST_AT(catalogue->findings, struct finding, i)->system.value == system)
                write_finding(answer, LIST_AT(catalogue->findings, struct finding, i));
    json_close_list(j);
}

static void write_procedures(struct answer *answer)
{
    struct json *j = &answer->json;
    const struct finding_catalogue *catalogue = answer->desk->shared->resources.catalogue;
    json_key(j, "procedures");
    json_open_list(j);
    for (size_t i = 0; i < catalogue->procedures.count; i++) {
        const struct procedure *one = LIST_AT(catalogue->procedures, struct procedure, i);
        json_open_object(j);
        json_key_text(j, "code", one->name.text);
        json_key_text(j, "name", worded(answer, "procedure.%s.name", one->name.text));
        json_key_flag(j, "sets_sex", one->sets_sex.value);
        json_key(j, "groups");
        json_open_list(j);
        for (size_t k = 0; k < one->groups.count; k++)
            json_text(j, bind_choice_word(group_choices,
                                          LIST_AT(one->groups, struct choice_value, k)->value));
        json_close_list(j);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_food(struct answer *answer, const char *key, const char *code)
{
    json_open_object(&answer->json);
    json_key_text(&answer->json, "code", code);
    json_key_text(&answer->json, "name", worded(answer, key, code));
    json_close_object(&answer->json);
}

static void write_foods(struct answer *answer)
{
    struct json *j = &answer->json;
    const struct reference_values *reference = answer->desk->shared->resources.reference;
    json_key(j, "foods");
    json_open_list(j);
    for (size_t i = 0; i < reference->foods.count; i++)
        write_food(answer, "food.%s", LIST_AT(reference->foods, struct food, i)->name.text);
    /* what must never be given is given all the same */
    for (size_t i = 0; i < reference->never_foods.count; i++)
        write_food(answer, "never-food.%s",
                   LIST_AT(reference->never_foods, struct food_rule, i)->name.text);
    json_close_list(j);
}

/* What can be the sheet of a visit. */
static void write_kinds(struct answer *answer)
{
    struct json *j = &answer->json;
    const struct sheet_kinds *kinds = &answer->desk->shared->resources.kinds;
    json_key(j, "kinds");
    json_open_list(j);
    for (size_t i = 0; i < kinds->count; i++)
        if (!sheet_template_is_card(kinds->items[i]))
            json_text(j, kinds->items[i]->kind.text);
    json_close_list(j);
}

/* Every folder of words is a language. */
static void write_languages(struct answer *answer)
{
    struct json *j = &answer->json;
    const struct resources *resources = &answer->desk->shared->resources;
    const char **names = NULL;
    size_t count = file_list(file_join(answer->arena, resources->templates, "wording"), "",
                             answer->arena, &answer->diag, &names);
    json_key(j, "languages");
    json_open_list(j);
    for (size_t i = 0; i < count; i++)
        json_text(j, names[i]);
    json_close_list(j);
}

/* A fault's sentence comes filled with its fault, the words of a topic with the plan. */
static bool comes_with_answers(const char *key)
{
    static const char *const families[] = {"desk.fault.",   "desk.topic.", "desk.stance.",
                                           "desk.because.", "desk.end.",   "desk.settlement."};
    bool found = false;
    for (size_t i = 0; i < sizeof families / sizeof *families; i++)
        found = found || strncmp(key, families[i], strlen(families[i])) == 0;
    return found;
}

/* All other words of the desk's files, without the "desk." before them. */
static void write_words(struct answer *answer)
{
    struct json *j = &answer->json;
    json_key(j, "words");
    json_open_object(j);
    for (size_t i = 0; i < answer->words->count; i++) {
        const char *key = answer->words->entries[i].key;
        if (strncmp(key, "desk.", 5) == 0 && !comes_with_answers(key))
            json_key_text(j, key + 5, desk_word(answer->words, key, answer->arena));
    }
    json_close_object(j);
}

void form_start(struct answer *answer)
{
    struct json *j = &answer->json;
    const struct clinic *clinic = answer->desk->shared->resources.clinic;
    char today[16];
    date_write_iso(desk_today(answer->desk), today);
    json_open_object(j);
    json_key_text(j, "token", answer->desk->token);
    people_view_write(answer);
    json_key_text(j, "today", today);
    json_key_text(j, "lang", answer->words->lang);
    json_key_text(j, "clinic", clinic->name.text);
    json_key_text(j, "units", bind_choice_word(unit_system_choices, clinic->units.value));
    json_key_text(j, "language", clinic->language.text);
    write_kinds(answer);
    write_languages(answer);
    write_words(answer);
    write_species(answer);
    write_unlisted(answer);
    write_findings(answer);
    write_procedures(answer);
    write_foods(answer);
    json_key(j, "fields");
    form_write_schema(j, &visit_schema, answer->arena);
    write_parts(j);
    json_close_object(j);
}
