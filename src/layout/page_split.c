/* Parts one list to two, each below the heading of the whole. */
#include "layout/page_split.h"

size_t page_split_count(const struct block *block)
{
    if (block->kind != BLOCK_PANEL)
        return 0;
    const struct panel *panel = block->as.panel;
    if ((panel->kind != PANEL_GRADES && panel->kind != PANEL_CHECKS) || panel->text != NULL ||
        panel->second != NULL || panel->trend != NULL || panel->cuts != NULL)
        return 0;
    size_t count = 0;
    for (const struct panel_entry *e = panel->entries; e != NULL; e = e->next) {
        if (!e->has_tick_box)
            return 0; /* it says something of all of them */
        count++;
    }
    return count;
}

struct block *page_split_copy(struct arena *arena, const struct block *from,
                              const struct block *end, struct block **last)
{
    struct block *first = NULL, **next = &first;
    *last = NULL;
    for (; from != NULL && from != end; from = from->next) {
        *next = *last = ARENA_NEW(arena, struct block);
        **last = *from;
        (*last)->next = NULL;
        next = &(*last)->next;
    }
    return first;
}

/* So many of the entries, or with 0 all. */
static struct block *list_of(struct arena *arena, const struct block *block,
                             const struct panel_entry *entries, size_t count)
{
    struct block *part = ARENA_NEW(arena, struct block);
    struct panel *panel = ARENA_NEW(arena, struct panel);
    *part = *block;
    *panel = *block->as.panel;
    part->as.panel = panel;
    part->memory = NULL;
    part->next = NULL;
    struct panel_entry **next = &panel->entries;
    for (size_t i = 0; entries != NULL && (count == 0 || i < count); i++) {
        *next = ARENA_NEW(arena, struct panel_entry);
        **next = *entries;
        (*next)->next = NULL;
        next = &(*next)->next;
        entries = entries->next;
    }
    return part;
}

const struct block *page_split(struct arena *arena, const struct block *from,
                               const struct block *at, size_t head, const struct block **second)
{
    struct block *last, *first = page_split_copy(arena, from, at, &last);
    const struct panel_entry *rest = at->as.panel->entries;
    for (size_t i = 0; i < head; i++)
        rest = rest->next;
    struct block *above = list_of(arena, at, at->as.panel->entries, head),
                 *below = list_of(arena, at, rest, 0);
    above->next = below;
    below->next = at->next;
    *second = below;
    if (last == NULL)
        return above;
    last->next = above;
    return first;
}
