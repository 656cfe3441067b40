/* Adds elements to the tree of structure while pages are laid out. */
#include "layout/elements.h"

#include <string.h>

enum { FIRST_CAPACITY = 128 };

void elements_init(struct elements *elements, struct arena *arena)
{
    *elements = (struct elements){.arena = arena, .capacity = FIRST_CAPACITY};
    elements->items = ARENA_ARRAY_UNSET(arena, struct element, FIRST_CAPACITY);
    elements_add(elements, ELEMENT_DOCUMENT, -1);
}

int elements_add(struct elements *elements, enum element_type type, int parent)
{
    if (elements->count == elements->capacity) {
        struct element *moved =
            ARENA_ARRAY_UNSET(elements->arena, struct element, 2 * elements->capacity);
        memcpy(moved, elements->items, elements->count * sizeof *moved);
        elements->items = moved;
        elements->capacity *= 2;
    }
    elements->items[elements->count] = (struct element){.type = type, .parent = parent, .page = -1};
    return (int)elements->count++;
}

int elements_add_tick_box(struct elements *elements, int parent)
{
    int span = elements_add(elements, ELEMENT_SPAN, parent);
    elements->items[span].actual = ELEMENTS_TICK_BOX " ";
    return span;
}

struct element *elements_find(struct elements *elements, int index)
{
    return &elements->items[index];
}

void elements_mark(struct elements *elements, int index, int page)
{
    for (int i = index; i >= 0 && elements->items[i].page < 0; i = elements->items[i].parent)
        elements->items[i].page = page;
}
