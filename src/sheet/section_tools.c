/* What several sections need. */
#include <string.h>

#include "sheet/sections.h"

void section_title(struct composition *c, struct block_builder *out, const char *key)
{
    builder_heading(out, 2, phrase(&c->ctx, key));
}

void section_sentence(struct composition *c, struct block_builder *out, const char *key)
{
    const char *text = phrase_if_known(&c->ctx, key);
    if (text)
        builder_paragraph(out, text);
}

void section_bullet(struct composition *c, struct block *list, const char *key)
{
    const char *text = phrase_if_known(&c->ctx, key);
    if (text)
        list_add(c->arena, list, span_plain(c->arena, text));
}

void section_head(struct composition *c, struct block *table, const char *const *keys, size_t count)
{
    struct table_row *head = table_add_head(c->arena, table);
    for (size_t i = 0; i < count; i++)
        row_add(c->arena, head, span_strong(c->arena, phrase(&c->ctx, keys[i])));
}

struct block *section_pairs(struct composition *c, struct block_builder *out, double share)
{
    if (c->sheet->compact.value) {
        struct block *pairs = builder_table(out, (const double[]){0, 1}, 2);
        pairs->keep_if_room = true;
        return pairs;
    }
    return builder_table(out, (const double[]){share, 1 - share}, 2);
}

void section_pair(struct composition *c, struct block *pairs, const char *head, const char *text)
{
    if (!text || !*text)
        return;
    struct table_row *row = table_add_row(c->arena, pairs);
    row_add_head(c->arena, row, head);
    row_add(c->arena, row, span_plain(c->arena, text));
}

void section_row(struct composition *c, struct block *pairs, const char *head_key, const char *text)
{
    section_pair(c, pairs, phrase(&c->ctx, head_key), text);
}

const char *section_with_date(struct composition *c, const char *key, struct date date)
{
    struct plan_fact fact = {.name = "date", .kind = FACT_DATE, .date = date};
    struct phrase_context ctx = c->ctx;
    ctx.facts = &fact;
    return phrase(&ctx, key);
}

const char *section_with_text(struct composition *c, const char *key, const char *name,
                              const char *text)
{
    struct plan_fact fact = {.name = name, .kind = FACT_TEXT, .text = text};
    struct phrase_context ctx = c->ctx;
    ctx.facts = &fact;
    return phrase(&ctx, key);
}

static bool lists(const struct list *codes, enum sheet_section_code code)
{
    for (size_t i = 0; i < codes->count; i++)
        if (LIST_AT(*codes, struct choice_value, i)->value == (int)code)
            return true;
    return false;
}

bool section_is_shown(const struct composition *c, enum sheet_section_code code)
{
    for (size_t i = 0; i < c->sheet->sections.count; i++) {
        const struct sheet_section *entry = LIST_AT(c->sheet->sections, struct sheet_section, i);
        bool alone = entry->show.known && entry->show.value == (int)code;
        if (alone || lists(&entry->columns, code) || lists(&entry->left, code) ||
            lists(&entry->right, code) || lists(&entry->page, code) || lists(&entry->foot, code))
            return true;
    }
    return false;
}

bool section_has_action(const struct composition *c, const char *code)
{
    for (size_t i = 0; i < c->plan->action_count; i++) {
        const struct action *action = &c->plan->actions[i];
        if (strcmp(action->code, code) == 0)
            return section_is_shown(c, action->is_first ? SECTION_FIRST_CHANGES
                                                        : SECTION_MORE_CHANGES);
    }
    return false;
}

bool section_has_date(const struct composition *c, const char *what)
{
    return plan_has_date(c->plan, what) && section_is_shown(c, SECTION_FOLLOW_UP);
}
