/* A random document from a seed. */
#include "page/random_sample.h"

#include <stdint.h>

enum { PAGE_LIMIT = 4, ELEMENT_LIMIT = 40, OP_LIMIT = 200, POINT_LIMIT = 6 };

static const char *const texts[] = {
    "Plain",
    "two words ",
    "\u00E9t\u00E9 \u2014 \u20AC",
    "\u0141\u00F3d\u017A",
    "\u2265 5 \u2192",
    "\u0416\u0443\u043A",
    "\u03B1",
    "(a\\b)",
    "",
    " ",
    "A\u0141\u2192\u0416A",
};

/* Marsaglia's xorshift, 32 bits; the sequence is what matters, not its quality. */
static unsigned draw(uint32_t *state, unsigned limit)
{
    *state ^= *state << 13;
    *state ^= *state >> 17;
    *state ^= *state << 5;
    return *state % limit;
}

/* A place on the page, in quarters of a point. */
static double place(uint32_t *state)
{
    return 36 + draw(state, 2000) / 4.0;
}

static void fill_element(struct element *element, int index, uint32_t *state)
{
    *element = (struct element){.type = ELEMENT_DOCUMENT, .parent = -1, .page = -1};
    if (index == 0)
        return;
    element->type = (enum element_type)(1 + draw(state, ELEMENT_TYPE_COUNT - 1));
    element->parent = (int)draw(state, (unsigned)index);
    element->lang = draw(state, 5) == 0 ? "pl" : NULL;
    element->alternative = "An alternative (\u0141)";
    element->title = draw(state, 2) == 0 ? "A title" : NULL;
    element->scope = (enum th_scope)draw(state, 3);
    element->numbering = (enum list_numbering)draw(state, 4);
    element->page = 0;
    element->right = element->bottom = 100;
}

static void fill_op(struct op *op, const struct paged *paged, uint32_t *state, struct arena *arena)
{
    struct point *points = ARENA_ARRAY(arena, struct point, POINT_LIMIT);
    for (int i = 0; i < POINT_LIMIT; i++)
        points[i] = (struct point){place(state), place(state)};
    op->kind = (enum op_kind)draw(state, OP_LINK + 1);
    op->element = (int)draw(state, (unsigned)paged->element_count + 1) - 1;
    op->x = place(state);
    op->y = place(state);
    op->width = 1 + draw(state, 40);
    op->height = 1 + draw(state, 40);
    op->points = points;
    op->count = op->kind == OP_LINE ? 2 : draw(state, POINT_LIMIT + 1);
    op->closed = draw(state, 2);
    op->clipped = draw(state, 2);
    op->text = texts[draw(state, sizeof texts / sizeof texts[0])];
    op->style = (enum text_style)draw(state, TEXT_STYLE_COUNT);
    op->size_pt = 9 + draw(state, 8) / 2.0;
    op->ink = (struct rgb){(uint8_t)draw(state, 256), 0, (uint8_t)draw(state, 2)};
    op->stroked = draw(state, 2);
    op->stroke_pt = 0.5 + draw(state, 4) / 4.0;
    op->dash = (enum line_dash)draw(state, 3);
    op->filled = draw(state, 2);
    op->uri = "https://example.org/";
    /* a link belongs to a Link, and there is no logo */
    bool is_link = op->element >= 0 && paged->elements[op->element].type == ELEMENT_LINK;
    if (op->kind == OP_IMAGE || (op->kind == OP_LINK && !is_link))
        op->kind = OP_TEXT;
}

struct sample *random_sample_make(unsigned seed, struct arena *arena)
{
    uint32_t state = 2463534242u + 7919u * seed;
    struct sample *sample = ARENA_NEW(arena, struct sample);
    sample->document = (struct document){
        .lang = "en", .title = "Random", .author = "Nobody", .created = "2026-03-14"};
    struct paged *paged = &sample->paged;
    paged->document = &sample->document;
    paged->page_width_pt = 612;
    paged->page_height_pt = 792;
    paged->page_count = 1 + draw(&state, PAGE_LIMIT);
    paged->pages = ARENA_ARRAY(arena, struct page, paged->page_count);
    paged->element_count = 1 + draw(&state, ELEMENT_LIMIT);
    paged->elements = ARENA_ARRAY(arena, struct element, paged->element_count);
    for (size_t i = 0; i < paged->element_count; i++)
        fill_element(&paged->elements[i], (int)i, &state);
    for (unsigned left = draw(&state, OP_LIMIT); left > 0; left--) {
        struct page *page = &paged->pages[draw(&state, (unsigned)paged->page_count)];
        struct op *op = ARENA_NEW(arena, struct op);
        fill_op(op, paged, &state, arena);
        *(page->last == NULL ? &page->first : &page->last->next) = op;
        page->last = op;
        page->count++;
    }
    return sample;
}
