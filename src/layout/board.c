/* Drawing by hand into one fragment. */
#include "layout/board.h"

#include "base/strbuf.h"
#include "layout/foreign.h"

#include <string.h>

struct board board_add(struct composer *composer, struct place *place, double height_pt)
{
    return (struct board){.composer = composer,
                          .fragment =
                              stack_add(place->stack, composer->arena, height_pt, place->frame),
                          .left_pt = place->left_pt,
                          .width_pt = place->width_pt};
}

/* ---- text ---- */

static enum text_style style_of(const struct lettering *pen)
{
    return pen->strong ? TEXT_STRONG : TEXT_PLAIN;
}

static struct rgb ink_of(const struct board *board, bool is_paper)
{
    return board->composer->look->inks[is_paper ? INK_PAPER : INK_TEXT];
}

double board_width_pt(const struct composer *composer, const struct lettering *pen,
                      const char *text)
{
    if (text == NULL)
        return 0;
    return composer->measure->width_pt(composer->measure, style_of(pen), pen->size_pt, text,
                                       strlen(text));
}

static struct op *add_text(const struct board *board, const struct lettering *pen, struct point at,
                           const char *text, double width)
{
    struct op *op = fragment_add_op(board->fragment, board->composer->arena, OP_TEXT, pen->element);
    op->x = at.x - (pen->align == ANCHOR_LEFT     ? 0
                    : pen->align == ANCHOR_MIDDLE ? width / 2
                                                  : width);
    op->y = at.y;
    op->width = width;
    op->text = text;
    op->style = style_of(pen);
    op->size_pt = pen->size_pt;
    op->ink = ink_of(board, pen->is_paper);
    return op;
}

/* What stands by itself may be followed by more of its element. */
double board_text(const struct board *board, const struct lettering *pen, double x, double y,
                  const char *text)
{
    if (text == NULL || text[0] == '\0')
        return 0;
    const double width = board_width_pt(board->composer, pen, text);
    add_text(board, pen, (struct point){x, y}, text, width)->space_after = true;
    return width;
}

struct text_lines board_break(const struct composer *composer, const struct lettering *pen,
                              const char *text, double width_pt)
{
    const struct span span = {.text = text}; /* lines keep nothing of it */
    const bool is_empty = text == NULL || text[0] == '\0';
    return board_break_spans(composer, pen, is_empty ? NULL : &span, width_pt);
}

struct text_lines board_break_spans(const struct composer *composer, const struct lettering *pen,
                                    const struct span *spans, double width_pt)
{
    spans = foreign_part(composer->document, spans, composer->arena);
    struct lines_job job = {.spans = spans,
                            .lang = composer->document->lang,
                            .size_pt = pen->size_pt,
                            .width_pt = width_pt,
                            .indent_pt = pen->indent_pt,
                            .strong = pen->strong};
    return lines_break(&job, composer->texts);
}

double board_lines(const struct board *board, const struct lettering *pen,
                   const struct text_lines *lines, struct text_place at)
{
    double y = at.y;
    for (size_t i = 0; i < lines->count; i++, y += at.leading_pt) {
        double slack = at.width_pt - lines->items[i].width_pt;
        double left = at.x + (i == 0 ? pen->indent_pt : 0) +
                      (pen->align == ANCHOR_LEFT     ? 0
                       : pen->align == ANCHOR_MIDDLE ? slack / 2
                                                     : slack);
        for (const struct line_piece *piece = lines->items[i].first; piece != NULL;
             piece = piece->next) {
            struct lettering plain = *pen;
            plain.align = ANCHOR_LEFT;
            plain.strong = piece->style == TEXT_STRONG;
            if (piece->text[0] == '\0')
                continue;
            const double width = lines->size_pt == pen->size_pt
                                     ? piece->width_pt
                                     : board_width_pt(board->composer, &plain, piece->text);
            struct op *op =
                add_text(board, &plain, (struct point){left + piece->x, y}, piece->text, width);
            op->space_after = piece->next == NULL;
            op->lang = piece->lang;
        }
    }
    return y;
}

double board_link(const struct board *board, const struct lettering *pen, double x, double y,
                  const char *text, const char *uri)
{
    if (uri == NULL || !board->composer->look->live_links) /* on paper nothing can be followed */
        return board_text(board, pen, x, y, text);
    struct composer *composer = board->composer;
    struct lettering own = *pen;
    own.element = elements_add(&composer->elements, ELEMENT_LINK, pen->element);
    elements_find(&composer->elements, own.element)->alternative = text;
    double width = board_text(board, &own, x, y, text);
    const struct op *op = board->fragment->last_op;
    double left = op->x;
    struct op *link = fragment_add_op(board->fragment, composer->arena, OP_LINK, own.element);
    link->x = left;
    link->y = y - composer->measure->ascent * pen->size_pt;
    link->width = width;
    link->height = (composer->measure->ascent + composer->measure->descent) * pen->size_pt;
    link->uri = uri;
    return width;
}

/* ---- shapes ---- */

void board_rule(const struct board *board, double x1, double y1, double x2, double y2,
                double stroke_pt)
{
    struct op *op = fragment_add_line(board->fragment, board->composer->arena, OPS_ARTIFACT,
                                      (struct point){x1, y1}, (struct point){x2, y2});
    op->ink = ink_of(board, false);
    op->stroke_pt = stroke_pt;
}

static struct op *add_rect(const struct board *board, double x, double y, double width,
                           double height)
{
    struct op *op = fragment_add_op(board->fragment, board->composer->arena, OP_RECT, OPS_ARTIFACT);
    op->x = x;
    op->y = y;
    op->width = width;
    op->height = height;
    return op;
}

void board_frame(const struct board *board, double x, double y, double width, double height,
                 double stroke_pt)
{
    struct op *op = add_rect(board, x + stroke_pt / 2, y + stroke_pt / 2, width - stroke_pt,
                             height - stroke_pt);
    op->stroked = true;
    op->stroke_pt = stroke_pt;
    op->ink = ink_of(board, false);
}

int board_tick_boxes(const struct board *board, int parent, size_t count)
{
    struct strbuf said;
    strbuf_init(&said, board->composer->arena);
    for (size_t i = 0; i < count; i++)
        strbuf_add(&said, ELEMENTS_TICK_BOX " ");
    int span = board_element(board, ELEMENT_SPAN, parent);
    elements_find(&board->composer->elements, span)->actual = said.text;
    return span;
}

void board_tick_box(const struct board *board, int element, struct tick_place at)
{
    board_frame(board, at.x, at.y, at.width_pt, at.height_pt, at.stroke_pt);
    board->fragment->last_op->element = element;
}

void board_tick_label(const struct board *board, int label, struct tick_place at, const char *said)
{
    struct composer *composer = board->composer;
    elements_find(&composer->elements, label)->actual =
        said != NULL ? arena_format(composer->arena, ELEMENTS_TICK_BOX " %s ", said)
                     : ELEMENTS_TICK_BOX " ";
    board_tick_box(board, label, at);
}

static const double CUT_PT = 0.75;

void board_cut(const struct board *board, double x, double y, double width, double height)
{
    struct op *op = add_rect(board, x, y, width, height);
    op->stroked = true;
    op->stroke_pt = CUT_PT;
    op->dash = DASH_DASHED;
    op->ink = ink_of(board, false);
}

void board_fold(const struct board *board, double x1, double y1, double x2, double y2)
{
    struct op *op = fragment_add_line(board->fragment, board->composer->arena, OPS_ARTIFACT,
                                      (struct point){x1, y1}, (struct point){x2, y2});
    op->ink = ink_of(board, false);
    op->stroke_pt = CUT_PT;
    op->dash = DASH_DOTTED;
}

void board_solid(const struct board *board, double x, double y, double width, double height)
{
    struct op *op = add_rect(board, x, y, width, height);
    op->filled = true;
    op->fill = ink_of(board, false);
}

static struct op *add_disc(const struct board *board, int element, double x, double y,
                           double radius, bool is_paper)
{
    struct op *op = fragment_add_op(board->fragment, board->composer->arena, OP_CIRCLE, element);
    op->x = x;
    op->y = y;
    op->width = radius;
    op->filled = true;
    op->fill = ink_of(board, is_paper);
    return op;
}

void board_disc(const struct board *board, int element, double x, double y, double radius,
                bool is_paper)
{
    add_disc(board, element, x, y, radius, is_paper);
}

void board_ring(const struct board *board, int element, double x, double y, double radius,
                double stroke_pt)
{
    struct op *op = add_disc(board, element, x, y, radius, true);
    op->stroked = true;
    op->stroke_pt = stroke_pt;
    op->ink = ink_of(board, false);
}

/* How large a mark is. */
struct mark_size {
    double radius_pt, letter_pt, drop_pt;
};

static void draw_mark(const struct board *board, const struct lettering *pen, const char *mark,
                      const struct mark_size *size, struct point at)
{
    static const double STROKE = 1.25;
    if (mark == NULL)
        return;
    if (pen->is_paper)
        board_disc(board, pen->element, at.x, at.y, size->radius_pt, false);
    else
        board_ring(board, pen->element, at.x, at.y, size->radius_pt - STROKE / 2, STROKE);
    struct lettering letter = *pen;
    letter.size_pt = size->letter_pt;
    letter.strong = true;
    letter.align = ANCHOR_MIDDLE;
    board_text(board, &letter, at.x, at.y + size->drop_pt, mark);
}

void board_mark(const struct board *board, int element, const char *mark, bool is_solid, double x,
                double y)
{
    static const struct mark_size usual = {8, 12, 4.3};
    struct lettering pen = {.element = element, .is_paper = is_solid};
    draw_mark(board, &pen, mark, &usual, (struct point){x, y});
}

void board_small_mark(const struct board *board, int element, const char *mark, bool is_solid,
                      double x, double y)
{
    static const struct mark_size small = {6, 10, 3.6};
    struct lettering pen = {.element = element, .is_paper = is_solid};
    draw_mark(board, &pen, mark, &small, (struct point){x, y});
}

/* ---- structure ---- */

int board_element(const struct board *board, enum element_type type, int parent)
{
    return elements_add(&board->composer->elements, type, parent);
}

int board_section(struct composer *composer, struct place *place, const char *title)
{
    place->element = elements_add(&composer->elements, ELEMENT_SECT, place->base);
    int heading = elements_add(&composer->elements, ELEMENT_H2, place->element);
    elements_find(&composer->elements, heading)->title = title;
    return heading;
}
