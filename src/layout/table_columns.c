/* Widths of columns by what stands in them, within what the table has. */
#include "layout/table_columns.h"

#include <math.h>
#include <string.h>

/* The most of the table that its fitted columns take, beside others; the first is the usual one. */
static const double MOST[] = {0.4, 0.3, 0.5};

/* A table whose columns are sought. */
struct fit {
    struct composer *composer;
    const struct type_setting *type;
    const struct block *block;
    size_t count;
    double room_pt; /* without gutters */
    double shares;  /* of the columns that are not fitted */
    double natural_pt;
    double *natural; /* of the fitted ones, a column */
};

static struct text_lines cell_lines(const struct fit *fit, const struct table_cell *cell,
                                    bool in_head, double width_pt)
{
    struct type_setting type = *fit->type;
    type.strong = in_head || cell->is_row_head;
    return typeset_break(fit->composer, &type, cell->text, width_pt);
}

static double box_pt(const struct fit *fit, const struct table_cell *cell)
{
    return cell->tick_box ? (1 + TABLE_TICK_GAP) * fit->type->size_pt : 0;
}

static double widest_line_pt(const struct fit *fit, const struct table_row *row, bool in_head,
                             size_t column)
{
    double widest = 0;
    for (; row != NULL; row = row->next) {
        const struct table_cell *cell = row->cells;
        for (size_t i = 0; i < column && cell != NULL; i++)
            cell = cell->next;
        if (cell != NULL) {
            struct text_lines lines = cell_lines(fit, cell, in_head, fit->room_pt);
            widest = fmax(widest, lines_width_pt(&lines) + box_pt(fit, cell));
        }
    }
    return widest;
}

static void part_width(const struct fit *fit, double most, double *widths)
{
    double limit = fit->shares > 0 ? most * fit->room_pt : fit->room_pt;
    double shrink = fit->natural_pt > limit ? limit / fit->natural_pt : 1;
    double left = fit->room_pt - fit->natural_pt * shrink;
    for (size_t i = 0; i < fit->count; i++) {
        double share = fit->block->as.table.shares[i];
        double spread = fit->shares > 0 ? 0 : left / (double)fit->count;
        widths[i] = share > 0 ? left * share / fit->shares : fit->natural[i] * shrink + spread;
    }
}

static size_t count_lines(const struct fit *fit, const double *widths)
{
    size_t total = 0;
    for (const struct table_row *row = fit->block->as.table.rows; row != NULL; row = row->next) {
        size_t highest = 0, column = 0;
        for (const struct table_cell *cell = row->cells; cell != NULL; cell = cell->next) {
            double width = widths[column++] - box_pt(fit, cell);
            size_t lines = cell_lines(fit, cell, false, width).count;
            highest = lines > highest ? lines : highest;
        }
        total += highest;
    }
    return total;
}

/* Only where lines are broken is there anything to choose. */
static double best_most(const struct fit *fit, double *widths)
{
    double best = MOST[0];
    size_t least = SIZE_MAX;
    for (size_t i = 0; i < sizeof MOST / sizeof *MOST && fit->natural_pt > 0.3 * fit->room_pt;
         i++) {
        part_width(fit, MOST[i], widths);
        size_t lines = count_lines(fit, widths);
        if (lines < least) {
            least = lines;
            best = MOST[i];
        }
    }
    return best;
}

bool table_fit(struct composer *composer, const struct type_setting *type,
               const struct block *block, double width_pt, double *widths)
{
    size_t count = block->as.table.columns;
    double gutters = TABLE_GUTTER * type->size_pt * (double)(count - 1);
    struct fit fit = {composer, type, block, count, width_pt - gutters, 0, 0, NULL};
    bool any = false;
    for (size_t i = 0; i < count; i++) {
        fit.shares += block->as.table.shares[i];
        any = any || block->as.table.shares[i] == 0;
    }
    if (!any)
        return false;
    fit.natural = ARENA_ARRAY(composer->arena, double, count);
    for (size_t i = 0; i < count; i++) {
        if (block->as.table.shares[i] == 0) {
            fit.natural[i] = fmax(widest_line_pt(&fit, block->as.table.head, true, i),
                                  widest_line_pt(&fit, block->as.table.rows, false, i));
            fit.natural_pt += fit.natural[i];
        }
    }
    part_width(&fit, fit.shares > 0 ? best_most(&fit, widths) : 1, widths);
    return true;
}

/* ---- no word is broken --------------------------------------------------------------------- */

/* The cell's text with each word on a line of its own. */
static struct span *one_word_a_line(struct arena *arena, const struct span *spans)
{
    struct span *first = NULL, **next = &first;
    for (; spans != NULL; spans = spans->next) {
        char *text = arena_copy_bytes(arena, spans->text, strlen(spans->text));
        for (char *at = text; (at = strchr(at, ' ')) != NULL;)
            *at = '\n';
        *next = ARENA_NEW(arena, struct span);
        **next = *spans;
        (*next)->text = text;
        (*next)->next = NULL;
        next = &(*next)->next;
    }
    return first;
}

static double longest_word_pt(const struct fit *fit, const struct table_row *row, bool in_head,
                              size_t column)
{
    double longest = 0;
    for (; row != NULL; row = row->next) {
        const struct table_cell *cell = row->cells;
        for (size_t i = 0; i < column && cell != NULL; i++)
            cell = cell->next;
        if (cell == NULL || cell->text == NULL)
            continue;
        struct table_cell words = *cell;
        words.text = one_word_a_line(fit->composer->arena, cell->text);
        struct text_lines lines = cell_lines(fit, &words, in_head, fit->room_pt);
        longest = fmax(longest, lines_width_pt(&lines) + box_pt(fit, cell));
    }
    return longest;
}

double table_keep_words(struct composer *composer, const struct type_setting *type,
                        const struct block *block, size_t count, double *widths)
{
    struct fit fit = {.composer = composer, .type = type, .block = block, .count = count};
    double *longest = ARENA_ARRAY(composer->arena, double, count);
    double missing = 0, spare = 0;
    for (size_t i = 0; i < count; i++)
        fit.room_pt += widths[i];
    for (size_t i = 0; i < count; i++) {
        longest[i] = fmax(longest_word_pt(&fit, block->as.table.head, true, i),
                          longest_word_pt(&fit, block->as.table.rows, false, i));
        missing += fmax(0, longest[i] - widths[i]);
        spare += fmax(0, widths[i] - longest[i]);
    }
    double share = spare > 0 ? fmin(1, missing / spare) : 0, given = share * spare;
    for (size_t i = 0; missing > 0 && i < count; i++) {
        double lacks = longest[i] - widths[i];
        widths[i] += lacks > 0 ? lacks / missing * given : lacks * share;
    }
    return fmax(0, missing - spare);
}
