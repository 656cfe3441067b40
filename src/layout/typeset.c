/* Spans of text to lines of drawing operations, with links and marks. */
#include <string.h>

#include "layout/block_setters.h"
#include "layout/foreign.h"

/* 40 to 70 characters a line read best, and most lines end before their limit; 75 are never
 * passed, which lines_break sees to. */
static const double COMFORTABLE_CHARACTERS = 72;

/* A last line below the first share of the width is a word alone; lines are then made narrower,
 * step by step and not below the last share, until it has the second share. */
static const double LONELY = 0.15, ENOUGH = 0.25, NARROWING = 0.04, NARROWEST = 0.75;

static const double UNDERLINE_DROP = 0.12, UNDERLINE_PT = 0.6; /* share of the size; points */

struct type_setting typeset_plain(const struct composer *composer, double size_pt)
{
    return (struct type_setting){
        .size_pt = size_pt, .leading = composer->look->leading, .ink = INK_TEXT};
}

double typeset_line_pt(const struct type_setting *type)
{
    return type->size_pt * type->leading;
}

double typeset_baseline_pt(const struct composer *composer, const struct type_setting *type)
{
    double letters = composer->measure->ascent + composer->measure->descent;
    return type->size_pt * ((type->leading - letters) / 2 + composer->measure->ascent);
}

static double last_width_pt(const struct text_lines *lines)
{
    return lines->items[lines->count - 1].width_pt;
}

/* Breaks a text that ends in a word alone once more, into as many lines of a more even length;
 * gives back the lines as they were where that does not help. */
static struct text_lines even_out(const struct composer *composer, struct lines_job job,
                                  const struct text_lines *lines)
{
    double width = job.width_pt;
    for (double share = 1 - NARROWING; share >= NARROWEST; share -= NARROWING) {
        job.width_pt = width * share;
        struct text_lines even = lines_break(&job, composer->texts);
        if (even.count > lines->count)
            break;
        if (last_width_pt(&even) >= ENOUGH * width)
            return even;
    }
    return *lines;
}

/* A line feed says where lines end; nothing is to be evened out then. */
static bool is_broken_by_hand(const struct span *spans)
{
    for (; spans != NULL; spans = spans->next)
        if (strchr(spans->text, '\n') != NULL)
            return true;
    return false;
}

struct text_lines typeset_break(const struct composer *composer, const struct type_setting *type,
                                const struct span *spans, double width_pt)
{
    spans = foreign_part(composer->document, spans, composer->arena);
    enum text_style style = type->strong ? TEXT_STRONG : TEXT_PLAIN;
    double comfortable = composer->letter_share[style] * type->size_pt * COMFORTABLE_CHARACTERS;
    struct lines_job job = {.spans = spans,
                            .lang = composer->document->lang,
                            .size_pt = type->size_pt,
                            .width_pt = width_pt < comfortable ? width_pt : comfortable,
                            .character_limit = LINES_CHARACTER_LIMIT,
                            .strong = type->strong};
    struct text_lines lines = lines_break(&job, composer->texts);
    if (lines.count > 1 && last_width_pt(&lines) < LONELY * job.width_pt &&
        !is_broken_by_hand(spans))
        return even_out(composer, job, &lines);
    return lines;
}

static int span_element(struct composer *composer, int parent, const struct span *span)
{
    bool links = span->uri != NULL && composer->look->live_links;
    if (!links && span->lang == NULL)
        return parent;
    int index = elements_add(&composer->elements, links ? ELEMENT_LINK : ELEMENT_SPAN, parent);
    struct element *element = elements_find(&composer->elements, index);
    element->lang = span->lang;
    if (links)
        element->alternative = span->text;
    return index;
}

const int *typeset_elements(struct composer *composer, int parent, const struct span *spans)
{
    spans = foreign_part(composer->document, spans, composer->arena);
    size_t count = 0;
    for (const struct span *span = spans; span != NULL; span = span->next)
        count++;
    if (count == 0)
        return NULL;
    int *elements = ARENA_ARRAY(composer->arena, int, count);
    count = 0;
    for (const struct span *span = spans; span != NULL; span = span->next)
        elements[count++] = span->text[0] == '\0' ? parent : span_element(composer, parent, span);
    return elements;
}

/* A link's text is underlined, and a rectangle over the line's height takes the click. */
static void draw_link(const struct composer *composer, const struct op *text,
                      struct fragment *fragment, const char *uri)
{
    double y = text->y + UNDERLINE_DROP * text->size_pt;
    struct op *line =
        fragment_add_line(fragment, composer->arena, text->element, (struct point){text->x, y},
                          (struct point){text->x + text->width, y});
    line->ink = text->ink;
    line->stroke_pt = UNDERLINE_PT;
    struct op *link = fragment_add_op(fragment, composer->arena, OP_LINK, text->element);
    link->x = text->x;
    link->y = text->y - composer->measure->ascent * text->size_pt;
    link->width = text->width;
    link->height = (composer->measure->ascent + composer->measure->descent) * text->size_pt;
    link->uri = uri;
}

void typeset_draw(const struct composer *composer, const struct type_setting *type,
                  const struct text_line *line, const int *elements, struct fragment *fragment,
                  struct line_place at)
{
    double slack = at.width_pt - line->width_pt;
    double x = at.left_pt + (type->align == ANCHOR_LEFT     ? 0
                             : type->align == ANCHOR_MIDDLE ? slack / 2
                                                            : slack);
    for (const struct line_piece *piece = line->first; piece != NULL; piece = piece->next) {
        int element = elements != NULL ? elements[piece->span] : OPS_ARTIFACT;
        bool is_link = piece->uri != NULL && composer->look->live_links && element >= 0;
        struct op *op = fragment_add_op(fragment, composer->arena, OP_TEXT, element);
        op->x = x + piece->x;
        op->y = at.y;
        op->width = piece->width_pt;
        op->text = piece->text;
        op->space_after = line->ends_in_space && piece->next == NULL;
        op->style = piece->style;
        op->size_pt = type->size_pt;
        op->ink = composer->look->inks[is_link ? INK_ACCENT : type->ink];
        if (is_link)
            draw_link(composer, op, fragment, piece->uri);
    }
}

size_t typeset_text(struct composer *composer, struct place *place, const struct type_setting *type,
                    const struct span *spans, int element)
{
    struct text_lines lines = typeset_break(composer, type, spans, place->width_pt);
    const int *elements = typeset_elements(composer, element, spans);
    for (size_t i = 0; i < lines.count; i++) {
        struct fragment *fragment =
            stack_add(place->stack, composer->arena, typeset_line_pt(type), place->frame);
        if (i == 1 || (i > 0 && i == lines.count - 1))
            fragment->before = BREAK_GLUED;
        typeset_draw(composer, type, &lines.items[i], elements, fragment,
                     (struct line_place){place->left_pt, place->width_pt,
                                         typeset_baseline_pt(composer, type)});
    }
    return lines.count;
}
