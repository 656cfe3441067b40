/* Collects marked content by element, then writes the structure tree and the parent tree. */
#include "pdf/structure.h"

#include <stdint.h>
#include <string.h>

#include "base/strbuf.h"

/* ISO 32000-1, table 347. It has no name for a box to tick; the nearest is a square. */
static const char *const numbering_names[] = {
    [NUMBERING_NONE] = "None",
    [NUMBERING_DISC] = "Disc",
    [NUMBERING_DECIMAL] = "Decimal",
    [NUMBERING_UNORDERED] = "Square",
};

static const char *const scope_names[] = {
    [SCOPE_COLUMN] = "Column",
    [SCOPE_ROW] = "Row",
};

/* Hangs every element under its parent, in index order. */
static bool grow_tree(struct structure *structure)
{
    const struct paged *paged = structure->paged;
    for (size_t i = 0; i < paged->element_count; i++) {
        struct structure_node *node = &structure->nodes[i];
        *node = (struct structure_node){
            .first_child = -1, .last_child = -1, .next_sibling = -1, .when = SIZE_MAX, .page = -1};
        int parent = paged->elements[i].parent;
        if (i == 0 ? parent != -1 : parent < 0 || (size_t)parent >= i) {
            return haru_refuse(structure->haru, "structure-broken",
                               "element %zu of the page's structure has no parent before it", i);
        }
        if (i == 0)
            continue;
        struct structure_node *above = &structure->nodes[parent];
        if (above->last_child < 0)
            above->first_child = (int)i;
        else
            structure->nodes[above->last_child].next_sibling = (int)i;
        above->last_child = (int)i;
    }
    return true;
}

bool structure_init(struct structure *structure, struct haru *haru, const struct paged *paged,
                    HPDF_Page *pages)
{
    *structure = (struct structure){.haru = haru, .paged = paged, .pages = pages};
    if (paged->element_count == 0 || paged->page_count == 0)
        return haru_refuse(haru, "structure-broken", "the sheet has no page or no structure");
    structure->nodes = ARENA_ARRAY(haru->arena, struct structure_node, paged->element_count);
    structure->owners = ARENA_ARRAY(haru->arena, int *, paged->page_count);
    structure->mcid_count = ARENA_ARRAY(haru->arena, size_t, paged->page_count);
    structure->mcid_room = ARENA_ARRAY(haru->arena, size_t, paged->page_count);
    if (!grow_tree(structure))
        return false;
    for (size_t i = 0; i < paged->element_count; i++) {
        structure->nodes[i].dict = haru_raw_dict(haru);
        if (structure->nodes[i].dict == NULL)
            return false;
    }
    return true;
}

/* Appends to what an element owns. */
static struct structure_kid *add_kid(struct structure *structure, int element, int page)
{
    struct structure_node *node = &structure->nodes[element];
    struct structure_kid *kid = ARENA_NEW(structure->haru->arena, struct structure_kid);
    kid->element = element;
    kid->page = page;
    kid->when = structure->now++;
    if (node->last_kid == NULL) {
        node->first_kid = kid;
        node->when = kid->when;
    } else {
        node->last_kid->next = kid;
    }
    node->last_kid = kid;
    return kid;
}

/* Room for one more item in an array of the arena. */
static void *grow(struct arena *arena, void *items, size_t count, size_t *room, size_t size)
{
    if (count < *room)
        return items;
    size_t wanted = *room == 0 ? 64 : 2 * *room;
    void *moved = arena_take_array(arena, wanted, size);
    if (count > 0)
        memcpy(moved, items, count * size);
    *room = wanted;
    return moved;
}

int structure_mark(struct structure *structure, int element, int page, double top)
{
    struct structure_kid *kid = add_kid(structure, element, page);
    size_t count = structure->mcid_count[page];
    structure->owners[page] = grow(structure->haru->arena, structure->owners[page], count,
                                   &structure->mcid_room[page], sizeof(int));
    structure->owners[page][count] = element;
    structure->mcid_count[page] = count + 1;
    kid->mcid = (int)count;
    for (int i = element; i >= 0 && structure->nodes[i].page < 0;
         i = structure->paged->elements[i].parent) {
        structure->nodes[i].page = page;
        structure->nodes[i].top = top;
    }
    return kid->mcid;
}

void structure_link(struct structure *structure, int element, int page, HPDF_Annotation link)
{
    struct structure_kid *kid = add_kid(structure, element, page);
    kid->link = link;
    structure->links = grow(structure->haru->arena, structure->links, structure->link_count,
                            &structure->link_room, sizeof(struct structure_kid *));
    structure->links[structure->link_count] = kid;
    size_t key = structure->paged->page_count + structure->link_count;
    structure->link_count++;
    HPDF_Dict_AddNumber(link, "StructParent", (HPDF_INT32)key);
}

/* The moment of the first mark in each element or below it. */
static void find_moments(struct structure *structure)
{
    for (size_t i = structure->paged->element_count - 1; i > 0; i--) {
        struct structure_node *above = &structure->nodes[structure->paged->elements[i].parent];
        if (structure->nodes[i].when < above->when)
            above->when = structure->nodes[i].when;
    }
}

/* "12 0 R": a reference to an object. */
static void write_reference(struct strbuf *out, unsigned number)
{
    strbuf_add_number(out, number);
    strbuf_add_bytes(out, " 0 R", 4);
}

/* One own kid in a K array. */
static void write_kid(struct structure *structure, const struct structure_kid *kid, int home,
                      struct strbuf *out)
{
    unsigned page = haru_number(structure->pages[kid->page]);
    if (kid->link != NULL) {
        strbuf_addf(out, " <</Type /OBJR /Pg %u 0 R /Obj %u 0 R>>", page, haru_number(kid->link));
    } else if (kid->page == home) {
        strbuf_add_char(out, ' ');
        strbuf_add_number(out, (size_t)kid->mcid);
    } else {
        strbuf_addf(out, " <</Type /MCR /Pg %u 0 R /MCID %d>>", page, kid->mcid);
    }
}

/* K: children in index order, the element's own marks before the child that follows them. */
static void write_kids(struct structure *structure, const struct structure_node *node,
                       struct strbuf *out)
{
    const struct structure_kid *kid = node->first_kid;
    int child = node->first_child;
    if (kid == NULL && child < 0)
        return;
    int home = kid != NULL ? kid->page : -1;
    if (home >= 0) {
        strbuf_add(out, "/Pg ");
        write_reference(out, haru_number(structure->pages[home]));
    }
    strbuf_add(out, " /K [");
    for (; child >= 0; child = structure->nodes[child].next_sibling) {
        const struct structure_node *below = &structure->nodes[child];
        for (; kid != NULL && below->when != SIZE_MAX && kid->when < below->when; kid = kid->next)
            write_kid(structure, kid, home, out);
        strbuf_add_char(out, ' ');
        write_reference(out, haru_number(below->dict));
    }
    for (; kid != NULL; kid = kid->next)
        write_kid(structure, kid, home, out);
    strbuf_add(out, "]\n");
}

/* A: what the type's owner asks for (ISO 32000-1, 14.8.5; ISO 14289-1, 7.3, 7.5, 7.6). */
static void write_attributes(const struct structure *structure, const struct element *element,
                             struct strbuf *out)
{
    double height = structure->paged->page_height_pt;
    switch (element->type) {
    case ELEMENT_FIGURE:
        if (element->page >= 0) {
            strbuf_addf(out, " /A <</O /Layout /Placement /Block /BBox [%.2f %.2f %.2f %.2f]>>\n",
                        element->left, height - element->bottom, element->right,
                        height - element->top);
        }
        break;
    case ELEMENT_L:
        strbuf_addf(out, " /A <</O /List /ListNumbering /%s>>\n",
                    numbering_names[element->numbering]);
        break;
    case ELEMENT_TH:
        if (element->scope != SCOPE_NONE)
            strbuf_addf(out, " /A <</O /Table /Scope /%s>>\n", scope_names[element->scope]);
        break;
    default:
        break;
    }
}

/* One element: type, parent, attributes, kids, and its texts as string objects. */
static void write_element(struct structure *structure, size_t index, unsigned root)
{
    struct haru *haru = structure->haru;
    const struct element *element = &structure->paged->elements[index];
    struct structure_node *node = &structure->nodes[index];
    unsigned above = index == 0 ? root : haru_number(structure->nodes[element->parent].dict);
    struct strbuf body;
    strbuf_init(&body, haru->arena);
    strbuf_add(&body, "/S /");
    strbuf_add(&body, draw_ops_element_name(element->type));
    strbuf_add(&body, " /P ");
    write_reference(&body, above);
    write_attributes(structure, element, &body);
    write_kids(structure, node, &body);
    haru_set_body(haru, node->dict, body.text, body.length);
    haru_add_text(haru, node->dict, "Lang", element->lang);
    if (element->type == ELEMENT_FIGURE)
        haru_add_text(haru, node->dict, "Alt", element->alternative);
    haru_add_text(haru, node->dict, "ActualText", element->actual);
}

/* The root with the parent tree: pages first, then links (ISO 32000-1, 14.7.4.4). */
static void write_root(struct structure *structure, HPDF_Dict root)
{
    struct strbuf body;
    strbuf_init(&body, structure->haru->arena);
    strbuf_addf(&body, "/Type /StructTreeRoot /K [%u 0 R]\n/ParentTree <</Nums [",
                haru_number(structure->nodes[0].dict));
    size_t pages = structure->paged->page_count;
    for (size_t page = 0; page < pages; page++) {
        strbuf_addf(&body, "%zu [", page);
        for (size_t i = 0; i < structure->mcid_count[page]; i++) {
            write_reference(&body, haru_number(structure->nodes[structure->owners[page][i]].dict));
            strbuf_add_char(&body, ' ');
        }
        strbuf_add(&body, "]\n");
    }
    for (size_t i = 0; i < structure->link_count; i++) {
        int element = structure->links[i]->element;
        strbuf_addf(&body, "%zu %u 0 R\n", pages + i, haru_number(structure->nodes[element].dict));
    }
    strbuf_addf(&body, "]>> /ParentTreeNextKey %zu\n", pages + structure->link_count);
    haru_set_body(structure->haru, root, body.text, body.length);
}

void structure_finish(struct structure *structure)
{
    struct haru *haru = structure->haru;
    HPDF_Dict root = haru_raw_dict(haru);
    HPDF_Dict mark_info = haru_dict(haru);
    if (root == NULL || mark_info == NULL ||
        HPDF_Dict_Add(haru_doc_catalog(haru->doc), "StructTreeRoot", root) != HPDF_OK ||
        HPDF_Dict_Add(haru_doc_catalog(haru->doc), "MarkInfo", mark_info) != HPDF_OK)
        return;
    HPDF_Dict_AddBoolean(mark_info, "Marked", HPDF_TRUE);
    find_moments(structure);
    for (size_t i = 0; haru_ok(haru) && i < structure->paged->element_count; i++)
        write_element(structure, i, haru_number(root));
    write_root(structure, root);
    for (size_t page = 0; haru_ok(haru) && page < structure->paged->page_count; page++) {
        HPDF_Dict_AddNumber(structure->pages[page], "StructParents", (HPDF_INT32)page);
        HPDF_Dict_AddName(structure->pages[page], "Tabs", "S");
    }
}
