/* Tables: caption, head, rows and the rules between them, boxes to tick. */
#include "layout/table_columns.h"

#include <math.h>

/* Tables have no vertical lines: a heavier rule below the head, a thin one below each row. */
static const double PAD_ABOVE = 0.32, PAD_BELOW = 0.36; /* in a row; shares of the size */
static const double HEAD_RULE_PT = 1.0, ROW_RULE_PT = 0.5;
static const double CAPTION_GAP = 0.3; /* share of the size */

struct table_column {
    double left_pt, width_pt; /* of the text */
};

struct cell_text {
    const struct table_cell *cell;
    struct text_lines lines;
    bool ends_by_hand; /* every line */
    const int *spans;  /* elements */
    int element;
    struct type_setting type;
    double text_left_pt, text_width_pt; /* beside a tick box */
    int first_tick_box;                 /* of as many elements as it has boxes */
};

struct table {
    struct composer *composer;
    struct place *place;
    struct type_setting type;
    struct table_column *columns;
    size_t count;
    const struct stack *head; /* NULL for none */
    double row_limit_pt;      /* the highest row that fits on a page below the head */
};

static size_t widest_row(const struct table_row *rows, size_t at_least)
{
    for (const struct table_row *row = rows; row != NULL; row = row->next) {
        size_t cells = 0;
        for (const struct table_cell *cell = row->cells; cell != NULL; cell = cell->next)
            cells++;
        at_least = cells > at_least ? cells : at_least;
    }
    return at_least;
}

/* The shares are the block's; should a row hold more cells than there are shares, all columns
 * are given the same width, so that nothing is dropped. */
static void plan_columns(struct table *table, const struct block *block)
{
    size_t count = widest_row(block->as.table.rows, block->as.table.columns);
    count = widest_row(block->as.table.head, count);
    bool as_told = count == block->as.table.columns && block->as.table.shares != NULL;
    double gutter = TABLE_GUTTER * table->type.size_pt;
    double left = table->place->left_pt;
    double *widths = ARENA_ARRAY(table->composer->arena, double, count);
    table->columns = ARENA_ARRAY(table->composer->arena, struct table_column, count);
    table->count = count;
    bool fitted =
        as_told && table_fit(table->composer, &table->type, block, table->place->width_pt, widths);
    for (size_t i = 0; i < count && !fitted; i++) {
        double share = as_told ? block->as.table.shares[i] : 1.0 / (double)count;
        widths[i] = share * table->place->width_pt - (i + 1 < count ? gutter : 0);
    }
    double lacks = table_keep_words(table->composer, &table->type, block, count, widths);
    if (lacks > 0 && count > 1) { /* rather than words the gutters give way */
        double gaps = (double)(count - 1);
        double least =
            fmax(fmin(gutter, TABLE_LEAST_GUTTER * table->type.size_pt), gutter - lacks / gaps);
        widths[0] += (gutter - least) * gaps;
        gutter = least;
        table_keep_words(table->composer, &table->type, block, count, widths);
    }
    for (size_t i = 0; i < count; i++) {
        table->columns[i] = (struct table_column){left, widths[i]};
        left += widths[i] + gutter;
    }
}

static size_t lines_by_hand(const struct span *spans)
{
    size_t count = 1;
    for (; spans != NULL; spans = spans->next)
        for (const char *c = spans->text; *c != '\0'; c++)
            count += *c == '\n';
    return count;
}

static void plan_cell(struct table *table, const struct table_cell *cell, bool in_head, int row,
                      const struct table_column *column, struct cell_text *out)
{
    static const struct table_cell empty = {0};
    struct composer *composer = table->composer;
    /* an empty cell is head of nothing */
    bool is_head = cell != NULL && cell->text != NULL && (in_head || cell->is_row_head);
    out->cell = cell != NULL ? cell : &empty;
    out->type = table->type;
    out->type.strong = is_head;
    out->type.align = out->cell->align;
    out->element = elements_add(&composer->elements, is_head ? ELEMENT_TH : ELEMENT_TD, row);
    elements_find(&composer->elements, out->element)->scope = in_head   ? SCOPE_COLUMN
                                                              : is_head ? SCOPE_ROW
                                                                        : SCOPE_NONE;
    out->text_left_pt = column->left_pt;
    out->text_width_pt = column->width_pt;
    if (out->cell->tick_box && out->cell->text != NULL) {
        double box = (1 + TABLE_TICK_GAP) * table->type.size_pt;
        out->text_left_pt += box;
        out->text_width_pt -= box;
        out->type.align = ANCHOR_LEFT;
    }
    out->spans = typeset_elements(composer, out->element, out->cell->text);
    out->lines = typeset_break(composer, &out->type, out->cell->text, out->text_width_pt);
    out->ends_by_hand = out->lines.count == lines_by_hand(out->cell->text);
    size_t boxes = out->ends_by_hand && out->lines.count > 0 ? out->lines.count : 1;
    for (size_t i = 0; out->cell->tick_box && i < boxes; i++) {
        int box = elements_add_tick_box(&composer->elements, out->element);
        out->first_tick_box = i == 0 ? box : out->first_tick_box;
    }
}

static void draw_tick_box(const struct table *table, const struct cell_text *cell, size_t number,
                          const struct table_column *column, struct fragment *fragment, double y)
{
    int element = cell->first_tick_box + (int)number;
    const struct composer *composer = table->composer;
    struct fragment box = {0};
    double side = list_draw_tick_box(composer, &table->type, &box, element, 0, y);
    double slack = column->width_pt - side;
    bool alone = cell->lines.count == 0;
    double shift = !alone || cell->cell->align == ANCHOR_LEFT ? 0
                   : cell->cell->align == ANCHOR_MIDDLE       ? slack / 2
                                                              : slack;
    box.first_op->x += column->left_pt + shift;
    struct op *op = fragment_add_op(fragment, composer->arena, OP_RECT, element);
    *op = *box.first_op;
}

/* The lines from..to of every cell as one fragment. */
static struct fragment *add_chunk(struct table *table, struct stack *stack,
                                  const struct cell_text *cells, size_t from, size_t to,
                                  bool is_last)
{
    const struct composer *composer = table->composer;
    double above = from == 0 ? PAD_ABOVE * gaps_share(composer) * table->type.size_pt : 0;
    double below = is_last ? PAD_BELOW * gaps_share(composer) * table->type.size_pt : 0;
    double line = typeset_line_pt(&table->type);
    struct fragment *fragment = stack_add(
        stack, composer->arena, above + line * (double)(to - from) + below, table->place->frame);
    for (size_t i = 0; i < table->count; i++) {
        double y = above + typeset_baseline_pt(composer, &table->type);
        if (cells[i].cell->tick_box && cells[i].lines.count == 0 && from == 0)
            draw_tick_box(table, &cells[i], 0, &table->columns[i], fragment, y);
        for (size_t k = from; k < to && k < cells[i].lines.count; k++, y += line) {
            if (cells[i].cell->tick_box && (k == 0 || cells[i].ends_by_hand))
                draw_tick_box(table, &cells[i], k, &table->columns[i], fragment, y);
            typeset_draw(composer, &cells[i].type, &cells[i].lines.items[k], cells[i].spans,
                         fragment,
                         (struct line_place){cells[i].text_left_pt, cells[i].text_width_pt, y});
        }
    }
    return fragment;
}

static void draw_rule(const struct table *table, struct fragment *fragment, double y,
                      double stroke_pt, enum ink ink)
{
    double left = table->place->left_pt, right = left + table->place->width_pt;
    struct op *op = fragment_add_line(fragment, table->composer->arena, OPS_ARTIFACT,
                                      (struct point){left, y}, (struct point){right, y});
    op->stroke_pt = stroke_pt;
    op->ink = table->composer->look->inks[ink];
}

/* A row without cells is a line to write on: paper alone has it, and nobody is read an empty row.
 */
static struct fragment *set_blank_row(struct table *table, struct stack *stack)
{
    double pads = (PAD_ABOVE + PAD_BELOW) * gaps_share(table->composer) * table->type.size_pt;
    struct fragment *fragment = stack_add(
        stack, table->composer->arena, typeset_line_pt(&table->type) + pads, table->place->frame);
    fragment->head = table->head;
    draw_rule(table, fragment, fragment->height_pt - ROW_RULE_PT / 2, ROW_RULE_PT, INK_TEXT);
    return fragment;
}

/* A row is one fragment. One that is higher than a page is cut into fragments so high that no two
 * stand on one page, because a page is read cell by cell. */
static struct fragment *set_row(struct table *table, struct stack *stack,
                                const struct table_row *row, int section, bool in_head)
{
    struct composer *composer = table->composer;
    int element = elements_add(&composer->elements, ELEMENT_TR, section);
    struct cell_text *cells = ARENA_ARRAY(composer->arena, struct cell_text, table->count);
    const struct table_cell *cell = row->cells;
    size_t lines = 1;
    for (size_t i = 0; i < table->count; i++) {
        plan_cell(table, cell, in_head, element, &table->columns[i], &cells[i]);
        lines = cells[i].lines.count > lines ? cells[i].lines.count : lines;
        cell = cell != NULL ? cell->next : NULL;
    }
    double line = typeset_line_pt(&table->type);
    double pads = (PAD_ABOVE + PAD_BELOW) * gaps_share(composer) * table->type.size_pt;
    size_t room =
        table->row_limit_pt > pads + line ? (size_t)((table->row_limit_pt - pads) / line) : 1;
    struct fragment *first = NULL;
    for (size_t from = 0; from < lines; from += room) {
        size_t to = lines - from > room ? from + room : lines;
        struct fragment *fragment = add_chunk(table, stack, cells, from, to, to == lines);
        fragment->head = table->head;
        first = first == NULL ? fragment : first;
    }
    double stroke = in_head ? HEAD_RULE_PT : ROW_RULE_PT;
    draw_rule(table, stack->last, stack->last->height_pt - stroke / 2, stroke,
              in_head ? INK_ACCENT : INK_TEXT);
    return first;
}

/* The head's fragments stand in the flow, and once more by themselves to be drawn again on the
 * pages that follow. */
static void set_head(struct table *table, const struct block *block, int element)
{
    struct stack *head = ARENA_NEW(table->composer->arena, struct stack);
    int section = elements_add(&table->composer->elements, ELEMENT_THEAD, element);
    const struct fragment *mark = table->place->stack->last;
    for (const struct table_row *row = block->as.table.head; row != NULL; row = row->next) {
        set_row(table, table->place->stack, row, section, true);
        table->place->stack->glued = true;
    }
    for (const struct fragment *fragment = stack_after(table->place->stack, mark); fragment != NULL;
         fragment = fragment->next) {
        struct fragment *again =
            stack_add(head, table->composer->arena, fragment->height_pt, fragment->frame);
        again->first_op = fragment->first_op;
        again->last_op = fragment->last_op;
    }
    double height = stack_height_pt(head->first, NULL);
    if (height < table->row_limit_pt / 2) {
        table->head = head;
        table->row_limit_pt -= height;
    }
}

static void set_caption(struct table *table, const struct block *block, int element)
{
    struct composer *composer = table->composer;
    struct type_setting type = table->type;
    type.strong = true;
    int caption = elements_add(&composer->elements, ELEMENT_CAPTION, element);
    typeset_text(composer, table->place, &type, block->as.table.caption, caption);
    table->place->stack->gap_pt = CAPTION_GAP * type.size_pt;
    table->place->stack->glued = true;
}

void table_set(struct composer *composer, struct place *place, const struct block *block)
{
    struct table table = {.composer = composer,
                          .place = place,
                          .type = typeset_plain(composer, composer->look->table_pt),
                          .row_limit_pt = composer->height_pt - place->reserve_pt};
    plan_columns(&table, block);
    if (table.count == 0)
        return;
    int element = elements_add(&composer->elements, ELEMENT_TABLE, place->element);
    if (block->as.table.caption != NULL)
        set_caption(&table, block, element);
    if (block->as.table.head != NULL)
        set_head(&table, block, element);
    if (block->as.table.rows == NULL)
        return;
    int section = elements_add(&composer->elements, ELEMENT_TBODY, element);
    bool first = block->as.table.head == NULL;
    for (const struct table_row *row = block->as.table.rows; row != NULL; row = row->next) {
        /* a head with one row below it, or one row below its head again, would look lost */
        place->stack->lonely =
            block->as.table.head != NULL && (row == block->as.table.rows->next ||
                                             (row->next == NULL && row != block->as.table.rows));
        struct fragment *fragment = row->cells == NULL
                                        ? set_blank_row(&table, place->stack)
                                        : set_row(&table, place->stack, row, section, false);
        if (first) {
            draw_rule(&table, fragment, ROW_RULE_PT / 2, ROW_RULE_PT, INK_TEXT);
            first = false;
        }
    }
}
