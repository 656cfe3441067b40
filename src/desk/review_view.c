/* Reviewing a species sheet at the desk: the list that `baskleaf review` makes, with the sentences
 * that each value drives, and the clinic's own sheet written by the same code. */
#include <string.h>

#include "desk/handlers.h"
#include "review/review_list.h"
#include "review/review_write.h"

/* ---- all species --------------------------------------------------------------------------------
 */

static void write_species(struct answer *answer, const struct species *species)
{
    struct json *j = &answer->json;
    json_open_object(j);
    json_key_text(j, "code", species->code.text);
    review_write_trust(j, &species->review);
    json_close_object(j);
}

void review_view_all(struct answer *answer)
{
    const struct library *library = &answer->desk->shared->library;
    struct json *j = &answer->json;
    json_open_object(j);
    json_key(j, "species");
    json_open_list(j);
    for (size_t i = 0; i < library->count; i++)
        write_species(answer, library->items[i]);
    json_close_list(j);
    json_close_object(j);
}

/* ---- one species --------------------------------------------------------------------------------
 */

/* A value in its own sentences; what else they hold is left open. */
struct value_slots {
    struct slot_source source; /* first, so that the one is found through the other */
    const struct value_use *use;
    const char *text;
};

static bool is_the_value(const struct value_slots *slots, const char *name)
{
    static const char *const endings[] = {"target", "limit"}; /* not what is worked out of it */
    size_t length = strlen(name);
    for (size_t i = 0; i < slots->use->slots.count; i++) {
        if (strcmp(LIST_AT(slots->use->slots, struct text_value, i)->text, name) != 0)
            continue;
        for (size_t k = 0; k < sizeof endings / sizeof *endings; k++)
            if (length >= strlen(endings[k]) &&
                strcmp(name + length - strlen(endings[k]), endings[k]) == 0)
                return true;
    }
    return false;
}

static bool find_slot(const struct slot_source *self, const char *name, struct slot_value *out)
{
    const struct value_slots *slots = (const struct value_slots *)(const void *)self;
    *out = (struct slot_value){.text = is_the_value(slots, name) ? slots->text : "\u2026"};
    return true;
}

static void write_sentence(struct answer *answer, const struct value_slots *slots, const char *key)
{
    const struct wording_entry *entry = catalogue_find(answer->words, key);
    const char *text =
        entry ? catalogue_fill(answer->words, entry, &slots->source, answer->arena, NULL) : NULL;
    if (text)
        json_text(&answer->json, text);
}

/* The sentences that hold it, then what the rules that follow from it tell to do. */
static void write_says(struct answer *answer, const struct review_list *list,
                       const struct review_item *item)
{
    const struct resources *resources = &answer->desk->shared->resources;
    enum unit_system units = (enum unit_system)resources->clinic->units.value;
    const struct value_slots slots = {.source = {find_slot},
                                      .use = value_uses_find(resources->uses, item->value->key),
                                      .text = review_value_text(list, item->value, units)};
    json_key(&answer->json, "says");
    json_open_list(&answer->json);
    for (size_t i = 0; i < item->sentence_count; i++)
        write_sentence(answer, &slots, item->sentences[i]);
    for (size_t i = 0; i < item->action_count; i++) {
        const char *key = arena_format(answer->arena, "action.%s.do", item->actions[i]);
        bool is_listed = false;
        for (size_t k = 0; k < item->sentence_count; k++)
            is_listed = is_listed || strcmp(item->sentences[k], key) == 0;
        if (!is_listed)
            write_sentence(answer, &slots, key);
    }
    json_close_list(&answer->json);
}

static void write_values(struct answer *answer, const struct review_list *list)
{
    struct json *j = &answer->json;
    json_key(j, "values");
    json_open_list(j);
    for (size_t i = 0; i < list->count; i++) {
        json_open_object(j);
        review_write_keys(j, list, &list->items[i]);
        json_key_text(j, "written", review_written_text(list->items[i].value, answer->arena));
        write_says(answer, list, &list->items[i]);
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_review(struct answer *answer, const char *code)
{
    struct desk *desk = answer->desk;
    const struct resources *resources = &desk->shared->resources;
    struct review_list list;
    struct species *species =
        library_find(resources->species_sheets, desk->settings.places.species_dir, code,
                     (struct mark){0}, answer->arena, &answer->diag);
    if (!species || !review_list_make(resources, species, answer->arena, &answer->diag, &list)) {
        answer_refuse_faults(answer, 404, "no-species", NULL);
        return;
    }
    list.words = answer->words; /* the numbers in the page's language */
    json_open_object(&answer->json);
    json_key_text(&answer->json, "code", species->code.text);
    json_key_text(&answer->json, "scientific", species->scientific.text);
    review_write_trust(&answer->json, &species->review);
    write_values(answer, &list);
    json_close_object(&answer->json);
}

void review_view_one(struct answer *answer)
{
    const char *code = request_find(answer->request, "species");
    write_review(answer, code ? code : "");
}

/* ---- confirming ---------------------------------------------------------------------------------
 */

enum { LINE_MOST = 200 };

/* One line or nothing; what parts one value from the next in an order is no part of one. */
static bool is_line(const char *text, const char *without)
{
    return strlen(text) <= LINE_MOST && !text[strcspn(text, "\n\r\t\x1b")] &&
           !text[strcspn(text, without)];
}

static const char *or_null(const char *text)
{
    return text[strspn(text, " ")] ? text : NULL;
}

static bool is_known(const struct library *library, const char *code)
{
    for (size_t i = 0; i < library->count; i++)
        if (strcmp(library->items[i]->code.text, code) == 0)
            return true;
    return false;
}

/* {species, key, value, edition, reason, by}: without a value the one that stands is confirmed. */
void review_view_settle(struct answer *answer)
{
    struct desk *desk = answer->desk;
    const struct node *body = answer_body(answer);
    const char *by = body ? answer_signer(answer, body) : NULL;
    const char *path;
    if (!by)
        return;
    const char *key = answer_text(body, "key"), *value = answer_text(body, "value");
    struct review_order order = {.species = answer_text(body, "species"),
                                 .by = by,
                                 .on = desk_today(desk),
                                 .edition = or_null(answer_text(body, "edition")),
                                 .reason = or_null(answer_text(body, "reason"))};
    const struct node *written = tree_find(body, "value");
    /* a value that is no text would be taken for none, and ours be confirmed */
    if (written && written->kind != NODE_SCALAR) {
        answer_refuse(answer, 400, "not-understood");
        return;
    }
    if (!is_known(&desk->shared->library, order.species)) {
        answer_refuse(answer, 404, "no-species");
        return;
    }
    bool is_sound = is_line(key, ",;=") && is_line(value, ";") && *key &&
                    is_line(order.edition ? order.edition : "", "") &&
                    is_line(order.reason ? order.reason : "", "");
    if (!is_sound || !desk->settings.own_sheets) {
        answer_refuse(answer, 422, is_sound ? "no-own-sheets" : "not-one-line");
        return;
    }
    if (or_null(value))
        order.set = arena_format(answer->arena, "%s=%s", key, value);
    else
        order.confirm = key;
    if (!review_write(&desk->shared->resources, desk->settings.own_sheets, &order, answer->arena,
                      &answer->diag, &path)) {
        answer_refuse_faults(answer, 422, "value-refused", NULL);
        return;
    }
    desk->settings.places.species_dir = desk->settings.own_sheets; /* made just now, perhaps */
    write_review(answer, order.species);
}
