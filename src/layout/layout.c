/* Lays out a whole document: checks its texts, turns blocks to fragments, fills pages. */
#include "layout/layout.h"

#include <string.h>

#include "layout/check_text.h"
#include "layout/block_setters.h"
#include "layout/measured_text.h"
#include "layout/paginate.h"
#include "layout/header_footer.h"
#include "layout/page_fit.h"

/* ISO 216 A4 (210 x 297 mm) and ANSI A (8.5 x 11 in), in points. On a screen of 70 mm a page of 240
 * is shown a little smaller than it is: 12 pt as 10. */
static const struct {
    double width_pt, height_pt;
} papers[] = {
    [PAPER_A4] = {595.28, 841.89}, [PAPER_LETTER] = {612, 792}, [PAPER_PHONE] = {240, 520}};

static bool begins_with_title(const struct document *document)
{
    const struct block *block = document->blocks;
    return block != NULL && block->kind == BLOCK_HEADING && block->as.heading.level <= 1;
}

static bool is_filled(const struct document *document)
{
    return document->blocks != NULL && document->blocks->kind == BLOCK_PAGE;
}

/* All blocks, the logo beside the title or, where the sheet begins without one, above all. */
static void compose(struct composer *composer, struct stack *stack)
{
    struct place place = {
        .stack = stack, .left_pt = composer->left_pt, .width_pt = composer->width_pt};
    if (composer->logo_pending && !is_filled(composer->document) &&
        !begins_with_title(composer->document))
        logo_set(composer, &place);
    blocks_set(composer, &place, composer->document->blocks);
}

static struct composer make_composer(const struct document *document, struct text_store *texts,
                                     struct arena *arena, struct diag *diag)
{
    const double sides = document->look.margin_pt + document->look.inset_pt;
    struct composer composer = {
        .document = document,
        .look = &document->look,
        .measure = texts->measure,
        .texts = texts,
        .asked = &texts->asked,
        .arena = arena,
        .diag = diag,
        .page_width_pt = papers[document->look.paper].width_pt,
        .page_height_pt = papers[document->look.paper].height_pt,
        .left_pt = sides,
        .width_pt = papers[document->look.paper].width_pt - 2 * sides,
        .logo_pending = document->logo != NULL,
    };
    memcpy(composer.letter_share, texts->letter_share, sizeof composer.letter_share);
    return composer;
}

size_t layout_pages_taken(const struct document *document, struct pages_asked asked,
                          struct text_store *texts, struct arena *arena, struct diag *diag,
                          bool *fits)
{
    struct composer composer = make_composer(document, texts, arena, diag);
    struct stack stack = {0};
    struct place place = {
        .stack = &stack, .left_pt = composer.left_pt, .width_pt = composer.width_pt};
    size_t taken = 0;
    *fits = is_filled(document);
    if (!*fits)
        return 0;
    if (texts->trial_elements.items == NULL)
        elements_init(&texts->trial_elements, texts->arena);
    composer.elements = texts->trial_elements;
    page_foot_plan(&composer);
    for (const struct block *block = document->blocks; block != NULL; block = block->next) {
        if (composer.page_count < asked.from) {
            composer.page_count++;
            continue;
        }
        const size_t further = block->next == NULL ? asked.further : 0;
        *fits = block->kind == BLOCK_PAGE && page_fits(&composer, &place, block, further);
        if (!*fits)
            break;
        taken++;
    }
    texts->trial_elements = composer.elements; /* it may have moved */
    texts->trial_elements.count = 1;           /* the Document */
    return taken;
}

bool layout_pages_fit(const struct document *document, struct text_store *texts,
                      struct arena *arena, struct diag *diag)
{
    bool fits;
    layout_pages_taken(document, (struct pages_asked){0, 0}, texts, arena, diag, &fits);
    return fits;
}

bool layout_document(const struct document *document, struct text_store *texts, struct diag *diag,
                     struct paged *out)
{
    if (!check_text_document(document, texts->measure, diag))
        return false;
    struct composer composer = make_composer(document, texts, texts->arena, diag);
    elements_init(&composer.elements, texts->arena);
    struct header_footer running;
    struct stack stack = {0};
    struct paged paged = {.page_width_pt = composer.page_width_pt,
                          .page_height_pt = composer.page_height_pt,
                          .document = document};
    if (is_filled(document))
        page_foot_plan(&composer);
    else
        header_footer_plan(&composer, &running);
    compose(&composer, &stack);
    if (!paginate_stack(&composer, &stack, &paged))
        return false;
    if (is_filled(document))
        page_foot_add(&composer, &paged);
    else
        header_footer_add(&composer, &running, &paged);
    paged.overfull = composer.overfull;
    paged.elements = composer.elements.items;
    paged.element_count = composer.elements.count;
    *out = paged;
    return true;
}
