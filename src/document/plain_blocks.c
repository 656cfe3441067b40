/* Panels and filled pages as headings, paragraphs and lists in one column. */
#include "document/plain_blocks.h"

#include <string.h>

#include "base/strbuf.h"
#include "document/block_builder.h"
#include "document/diagram.h"

static void write_blocks(struct block_builder *out, const struct block *blocks);

/* ---- pieces ---- */

static void write_text(struct block_builder *out, const char *text, enum paragraph_size size)
{
    if (text)
        builder_spans(out, span_plain(out->arena, text), size);
}

static void write_strong(struct block_builder *out, const char *text, enum paragraph_size size)
{
    if (text)
        builder_spans(out, span_strong(out->arena, text), size);
}

static void write_heading(struct block_builder *out, const char *title)
{
    if (title)
        builder_heading(out, 2, title);
}

/* "Day 555-0142", the whole of it a link. */
static void write_telephones(struct block_builder *out, const struct panel_entry *e)
{
    for (; e; e = e->next) {
        struct span *span = span_strong(
            out->arena,
            e->title ? arena_format(out->arena, "%s\xc2\xa0%s", e->title, e->value) : e->value);
        span->uri = e->uri;
        builder_spans(out, span, PARAGRAPH_BUTTON);
    }
}

/* "now 84, warmer"; NULL where nothing is said of it. */
static const char *now_text(struct arena *arena, const char *now, bool is_open, const char *turn)
{
    static const char to_write[] = "________";
    if (now && is_open)
        return arena_format(arena, "%s\xc2\xa0%s", now, to_write);
    return now && turn ? arena_format(arena, "%s, %s", now, turn) : now ? now : turn;
}

/* ---- entries ---- */

static const char *title_text(struct arena *arena, const struct panel_entry *e)
{
    if (e->title && !*e->title)
        return NULL;
    return e->title && e->mark ? arena_format(arena, "%s. %s", e->mark, e->title) : e->title;
}

/* "Mon 14, Tue 15": the boxes of a calendar's row. */
static const char *days_text(struct arena *arena, const struct panel *panel,
                             const struct panel_entry *e)
{
    struct strbuf text;
    strbuf_init(&text, arena);
    for (size_t i = 0; e->cells && i < panel->column_count; i++)
        for (size_t k = 0; k < e->cells[i].day_count; k++)
            strbuf_addf(&text, "%s%s\xc2\xa0%s", text.length ? ", " : "", panel->columns[i],
                        e->cells[i].days[k]);
    return text.length ? text.text : NULL;
}

/* What it is in bold, then the rest of it. */
static struct span *entry_spans(struct arena *arena, const struct panel *panel,
                                const struct panel_entry *e)
{
    const char *title = title_text(arena, e);
    if (title && !strchr(".?!:", title[strlen(title) - 1]) && (e->value || e->text || e->cells))
        title = arena_format(arena, "%s%s", title, e->text && !e->value ? "." : ":");
    const char *now = now_text(arena, e->now, e->is_now_open, e->turn_said);
    const char *value = e->value && now ? arena_format(arena, "%s;", e->value) : e->value;
    const char *const rest[] = {value, now, days_text(arena, panel, e), e->limit, e->text, e->note};
    struct span *spans = title ? span_strong(arena, title) : NULL;
    for (size_t i = 0; i < sizeof rest / sizeof *rest; i++) {
        if (!rest[i])
            continue;
        bool strong = e->is_strong || (i == 0 && !title);
        spans = span_join(arena, spans,
                          strong ? span_strong(arena, rest[i]) : span_plain(arena, rest[i]));
    }
    return spans;
}

static void write_entries(struct block_builder *out, const struct panel *panel,
                          const struct panel_entry *e)
{
    struct block *list = NULL;
    for (; e; e = e->next) {
        enum list_marks marks = e->has_tick_box ? LIST_TICK_BOXES : LIST_BULLETS;
        if (!list || list->as.list.marks != marks)
            list = builder_list(out, marks);
        list_add(out->arena, list, entry_spans(out->arena, panel, e));
    }
}

/* ---- panels of their own ---- */

static void write_head(struct block_builder *out, const struct panel *panel)
{
    if (panel->is_small)
        return;
    builder_heading(out, 1, panel->title);
    write_text(out,
               panel->text && panel->after
                   ? arena_format(out->arena, "%s %s", panel->text, panel->after)
                   : panel->text,
               PARAGRAPH_BODY);
}

static void write_message(struct block_builder *out, const struct panel *panel)
{
    struct block_builder inside = builder_start(out->arena, out->section);
    write_strong(&inside, panel->text, PARAGRAPH_LEAD);
    write_text(&inside, panel->small, PARAGRAPH_BODY);
    builder_callout(out, panel->is_solid ? CALLOUT_GRAVE : CALLOUT_KEY, NULL, &inside)
        ->keep_together = true;
}

static void keep_with_next(struct block_builder *out, const struct block *before)
{
    if (out->last != before && out->last)
        out->last->keep_with_next = true;
}

/* The number to reach, where it stands now, then the box to tick with what to do and how. */
static void write_step(struct block_builder *out, const struct panel_entry *e)
{
    struct arena *arena = out->arena;
    const struct block *before = out->last;
    write_strong(out, e->value, PARAGRAPH_FIGURE);
    keep_with_next(out, before);
    before = out->last;
    write_text(out, now_text(arena, e->now, e->is_now_open, e->turn_said), PARAGRAPH_BODY);
    keep_with_next(out, before);
    struct block *list = builder_list(out, e->has_tick_box ? LIST_TICK_BOXES : LIST_BULLETS);
    list->keep_together = true;
    struct block_builder more = builder_start(arena, out->section);
    write_text(&more,
               e->limit && e->text ? arena_format(arena, "%s %s", e->limit, e->text) : e->text,
               PARAGRAPH_BODY);
    if (e->note)
        write_text(&more,
                   arena_format(arena, "%s:\xc2\xa0________%s%s", e->note,
                                e->unit ? "\xc2\xa0" : "", e->unit ? e->unit : ""),
                   PARAGRAPH_BODY);
    const char *title = title_text(arena, e);
    list_add(arena, list, title ? span_strong(arena, title) : span_plain(arena, e->text))->more =
        title ? more.first : NULL;
}

static void write_steps(struct block_builder *out, const struct panel *panel)
{
    write_heading(out, panel->title);
    for (const struct panel_entry *e = panel->entries; e; e = e->next)
        write_step(out, e);
    write_strong(out, panel->aside, PARAGRAPH_BODY);
}

/* The bar with where to call and to go, below it the signs. */
static void write_alert(struct block_builder *out, const struct panel *panel)
{
    struct block_builder inside = builder_start(out->arena, out->section);
    write_heading(out, panel->title);
    write_telephones(&inside, panel->telephones);
    write_text(&inside, panel->aside, PARAGRAPH_BODY);
    if (inside.first)
        builder_callout(out, CALLOUT_GRAVE, NULL, &inside)->keep_together = true;
    write_strong(out, panel->text, PARAGRAPH_BODY);
    write_entries(out, panel, panel->entries);
}

static void write_labels(struct block_builder *out, const struct diagram *diagram)
{
    struct block *list = diagram->label_count ? builder_list(out, LIST_BULLETS) : NULL;
    for (size_t i = 0; i < diagram->label_count; i++) {
        const struct diagram_label *l = &diagram->labels[i];
        const struct panel_entry entry = {.mark = l->mark,
                                          .title = l->title,
                                          .value = l->value,
                                          .now = l->now,
                                          .is_now_open = l->is_now_open,
                                          .turn_said = l->turn_said};
        list_add(out->arena, list, entry_spans(out->arena, &(struct panel){0}, &entry));
    }
}

/* The drawing alone; what nobody knows the size of is not drawn. */
static void write_drawing(struct block_builder *out, const struct panel *panel)
{
    if (!panel->diagram->is_bare || panel->diagram->length <= 0)
        return;
    if (out->last)
        out->last->keep_with_next = true; /* its title and its size */
    struct panel *drawing = ARENA_NEW(out->arena, struct panel);
    *drawing = (struct panel){.kind = PANEL_DRAWING, .diagram = panel->diagram};
    builder_add(out, BLOCK_PANEL)->as.panel = drawing;
}

static void write_any(struct block_builder *out, const struct panel *panel)
{
    write_heading(out, panel->title);
    write_strong(out, panel->aside, PARAGRAPH_BODY);
    write_telephones(out, panel->telephones);
    write_text(out, panel->text, PARAGRAPH_BODY);
    write_text(out, panel->small, PARAGRAPH_SMALL);
    write_entries(out, panel, panel->entries);
    if (panel->diagram) {
        write_drawing(out, panel);
        write_labels(out, panel->diagram);
    }
    write_text(out, panel->after, PARAGRAPH_BODY);
    write_text(out, panel->trend ? panel->trend->alternative : NULL, PARAGRAPH_BODY);
    write_heading(out, panel->second_title);
    write_entries(out, panel, panel->second);
}

static void write_panel(struct block_builder *out, const struct panel *panel)
{
    switch (panel->kind) {
    case PANEL_HEAD:
        write_head(out, panel);
        break;
    case PANEL_STRIP:
        write_strong(out, panel->is_solid ? NULL : panel->text, PARAGRAPH_BODY);
        break;
    case PANEL_MESSAGE:
        write_message(out, panel);
        break;
    case PANEL_STEPS:
        write_steps(out, panel);
        break;
    case PANEL_ALERT:
        write_alert(out, panel);
        break;
    case PANEL_DRAWING:
        builder_add(out, BLOCK_PANEL)->as.panel = panel;
        break;
    case PANEL_SMALL:
        write_text(out, panel->text, PARAGRAPH_SMALL);
        break;
    case PANEL_NOTES:
        break;
    default:
        write_any(out, panel);
        break;
    }
}

/* ---- the whole ---- */

static void write_copy(struct block_builder *out, const struct block *block)
{
    struct block *copy = builder_add(out, block->kind);
    *copy = *block;
    copy->next = NULL;
}

static void write_block(struct block_builder *out, const struct block *block)
{
    out->section = block->section;
    switch (block->kind) {
    case BLOCK_PANEL:
        write_panel(out, block->as.panel);
        break;
    case BLOCK_PAGE:
        write_blocks(out, block->as.page.blocks);
        write_blocks(out, block->as.page.foot);
        break;
    case BLOCK_COLUMNS:
        for (const struct column *c = block->as.columns.columns; c; c = c->next)
            write_blocks(out, c->blocks);
        break;
    default:
        write_copy(out, block);
        break;
    }
}

static void write_blocks(struct block_builder *out, const struct block *blocks)
{
    for (; blocks; blocks = blocks->next)
        write_block(out, blocks);
}

struct block_builder plain_blocks(const struct block *blocks, struct arena *arena)
{
    struct block_builder out = builder_start(arena, NULL);
    write_blocks(&out, blocks);
    return out;
}
