/* Writes the outline: one bookmark a heading, nested by level. */
#include "pdf/bookmarks.h"

#include "pdf/content.h"

#include "pdf/pdf_draw.h"

enum { LEVELS = 3 };

/* 1 to 3 for a heading, 0 for everything else. */
static int heading_level(enum element_type type)
{
    switch (type) {
    case ELEMENT_H1:
        return 1;
    case ELEMENT_H2:
        return 2;
    case ELEMENT_H3:
        return 3;
    default:
        return 0;
    }
}

/* Where a bookmark leads: the heading's line at the top of the window, the zoom as it is. */
static HPDF_Array make_destination(const struct structure *structure,
                                   const struct structure_node *node)
{
    HPDF_Array array = haru_array(structure->haru);
    if (array == NULL)
        return NULL;
    HPDF_Array_Add(array, structure->pages[node->page]);
    HPDF_Array_AddName(array, "XYZ");
    HPDF_Array_AddNumber(array, 0);
    HPDF_Array_AddReal(array, content_grid(structure->paged->page_height_pt - node->top));
    HPDF_Array_Add(array, HPDF_Null_New(haru_doc_memory(structure->haru->doc)));
    return array;
}

void outline_write(struct structure *structure)
{
    struct haru *haru = structure->haru;
    HPDF_Outline open[LEVELS + 1] = {NULL}; /* the last bookmark of each level; 0 is the root */
    for (size_t i = 0; haru_ok(haru) && i < structure->paged->element_count; i++) {
        const struct element *element = &structure->paged->elements[i];
        const struct structure_node *node = &structure->nodes[i];
        int level = heading_level(element->type);
        if (level == 0 || element->title == NULL || node->page < 0)
            continue;
        HPDF_Outline parent = NULL;
        for (int above = level - 1; above > 0 && parent == NULL; above--)
            parent = open[above];
        HPDF_Outline item = HPDF_CreateOutline(haru->doc, parent, "", NULL);
        if (item == NULL)
            return;
        haru_add_text(haru, item, "Title", element->title);
        HPDF_Dict_Add(item, "Dest", make_destination(structure, node));
        open[level] = item;
        for (int below = level + 1; below <= LEVELS; below++)
            open[below] = NULL;
    }
}
