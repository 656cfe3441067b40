/* Blocks to fragments: headings, paragraphs, columns; the other kinds have files of their own. */
#include "layout/block_setters.h"
#include "base/strbuf.h"

/* Line distance of headings; body text takes the look's. */
static const double HEADING_LEADING = 1.25;

/* Space above a block as a share of the body's line distance. */
static const double HEADING_GAP[] = {1.2, 1.25, 0.9};
static const double BELOW_HEADING_GAP[] = {0.45, 0.3, 0.15};
static const double BLOCK_GAP[] = {
    [BLOCK_PARAGRAPH] = 0.5, [BLOCK_LIST] = 0.45,   [BLOCK_TABLE] = 0.75, [BLOCK_CALLOUT] = 0.9,
    [BLOCK_PICTURE] = 0.9,   [BLOCK_COLUMNS] = 0.9, [BLOCK_PANEL] = 0.5,  [BLOCK_PAGE] = 0,
};
static const double CALLOUTS_GAP = 0.6; /* between two callouts: they belong together */
static const double LEAD_SIZE = 1.15;   /* of body text */
static const double FIGURE_SIZE = 2.2;  /* likewise */

static int heading_level(const struct block *block)
{
    int level = block->as.heading.level;
    return level < 1 ? 1 : level > 3 ? 3 : level;
}

static double gap_pt(const struct composer *composer, const struct block *above,
                     const struct block *below)
{
    double line = composer->look->body_pt * composer->look->leading * gaps_share(composer);
    if (below->kind == BLOCK_HEADING) {
        double share = HEADING_GAP[heading_level(below) - 1];
        return line * (above->kind == BLOCK_HEADING ? share / 2 : share);
    }
    if (above->kind == BLOCK_HEADING)
        return line * BELOW_HEADING_GAP[heading_level(above) - 1];
    if (above->kind == BLOCK_CALLOUT && below->kind == BLOCK_CALLOUT)
        return line * CALLOUTS_GAP;
    double share = BLOCK_GAP[below->kind];
    return line * (BLOCK_GAP[above->kind] > share && above->kind != BLOCK_TABLE
                       ? BLOCK_GAP[above->kind]
                       : share);
}

static const char *plain_text(struct arena *arena, const struct span *spans)
{
    struct strbuf text;
    strbuf_init(&text, arena);
    for (const struct span *span = spans; span != NULL; span = span->next)
        for (const char *c = span->text; *c != '\0'; c++)
            strbuf_add_char(&text, *c == '\n' ? ' ' : *c);
    return text.text;
}

static void heading_text(struct composer *composer, struct place *place, const struct block *block)
{
    static const enum element_type types[] = {ELEMENT_H1, ELEMENT_H2, ELEMENT_H3};
    int level = heading_level(block);
    int element = elements_add(&composer->elements, types[level - 1], place->element);
    elements_find(&composer->elements, element)->title =
        plain_text(composer->arena, block->as.heading.text);
    struct type_setting type = typeset_plain(composer, composer->look->heading_pt[level - 1]);
    type.leading = HEADING_LEADING;
    type.strong = true;
    type.ink = INK_ACCENT;
    const struct fragment *mark = place->stack->last;
    typeset_text(composer, place, &type, block->as.heading.text, element);
    struct fragment *fragment = stack_after(place->stack, mark);
    for (fragment = fragment != NULL ? fragment->next : NULL; fragment != NULL;
         fragment = fragment->next)
        fragment->before = BREAK_GLUED;
}

/* The sheet's title with the clinic's logo to its right. False, with nothing done, when the
 * title is too long for that. */
static bool title_set(struct composer *composer, struct place *place, const struct block *block)
{
    struct stack *sides = ARENA_ARRAY(composer->arena, struct stack, 2);
    size_t elements = composer->elements.count;
    struct place left = *place, right = *place;
    left.stack = &sides[0];
    left.width_pt -= logo_width_pt(composer);
    heading_text(composer, &left, block);
    right.stack = &sides[1];
    logo_set(composer, &right);
    bool fits = stack_height_pt(sides[0].first, NULL) <= composer->height_pt;
    if (fits && sides_join(composer, place, sides, 2))
        return true;
    composer->elements.count = elements;
    return false;
}

static void heading_set(struct composer *composer, struct place *place, const struct block *block)
{
    if (heading_level(block) == 2)
        place->element = elements_add(&composer->elements, ELEMENT_SECT, place->base);
    if (composer->logo_pending && heading_level(block) == 1) {
        if (title_set(composer, place, block))
            return;
        composer->logo_pending = true;
        logo_set(composer, place);
    }
    heading_text(composer, place, block);
}

static void paragraph_set(struct composer *composer, struct place *place, const struct block *block)
{
    const struct look *look = composer->look;
    const double sizes[] = {[PARAGRAPH_BODY] = look->body_pt,
                            [PARAGRAPH_LEAD] = look->body_pt * LEAD_SIZE,
                            [PARAGRAPH_SMALL] = look->small_pt,
                            [PARAGRAPH_FIGURE] = look->body_pt * FIGURE_SIZE,
                            [PARAGRAPH_BUTTON] = look->body_pt * LEAD_SIZE};
    struct type_setting type = typeset_plain(composer, sizes[block->as.paragraph.size]);
    if (block->as.paragraph.size == PARAGRAPH_SMALL)
        type.ink = INK_MUTED;
    int element = elements_add(&composer->elements, ELEMENT_P, place->element);
    typeset_text(composer, place, &type, block->as.paragraph.text, element);
}

/* What fits on one page as a whole is broken only in need. */
static void keep_together(const struct composer *composer, const struct place *place,
                          const struct fragment *mark)
{
    struct fragment *first = stack_after(place->stack, mark);
    if (first == NULL || stack_height_pt(first, NULL) > composer->height_pt - place->reserve_pt)
        return;
    for (struct fragment *fragment = first->next; fragment != NULL; fragment = fragment->next)
        if (fragment->before < BREAK_KEPT)
            fragment->before = BREAK_KEPT;
}

static void block_set(struct composer *composer, struct place *place, const struct block *block)
{
    static void (*const setters[])(struct composer *, struct place *, const struct block *) = {
        [BLOCK_HEADING] = heading_set, [BLOCK_PARAGRAPH] = paragraph_set,
        [BLOCK_LIST] = list_set,       [BLOCK_TABLE] = table_set,
        [BLOCK_CALLOUT] = callout_set, [BLOCK_PICTURE] = picture_set,
        [BLOCK_COLUMNS] = columns_set, [BLOCK_PANEL] = panel_set,
        [BLOCK_PAGE] = page_set,
    };
    const struct look *of_page = composer->look;
    composer->look = block->look != NULL ? block->look : of_page;
    setters[block->kind](composer, place, block);
    composer->look = of_page;
}

void blocks_set(struct composer *composer, struct place *place, const struct block *blocks)
{
    const struct block *above = NULL;
    for (const struct block *block = blocks; block != NULL; block = block->next) {
        struct stack *stack = place->stack;
        if (block->kind == BLOCK_PAGE_BREAK) {
            stack->new_page = stack->first != NULL;
            continue;
        }
        if (above != NULL) {
            stack->gap_pt = gap_pt(composer, above, block);
            stack->glued = above->kind == BLOCK_HEADING || above->keep_with_next;
        }
        const struct fragment *mark = stack->last;
        block_set(composer, place, block);
        if (block->keep_together ||
            (block->keep_if_room && !block_asks(composer, BLOCK_ASKS_TIGHT)))
            keep_together(composer, place, mark);
        above = stack->last != mark ? block : above;
    }
}
