/* Signs and outlines: their paths read and drawn at a size. */
#include <string.h>

#include "document/panel.h"
#include "layout/board.h"

/* From a sign's units to the page. */
struct mapping {
    double x, y, scale;
    double mirror; /* 0, or the sign's width when its right is the page's left */
};

static struct point map(const struct mapping *m, double x, double y)
{
    return (struct point){m->x + (m->mirror > 0 ? m->mirror - x : x) * m->scale,
                          m->y + y * m->scale};
}

/* ---- paths ---- */

struct reader {
    const char *at;
    double x, y; /* where the pen stands */
    const struct mapping *mapping;
    struct point *points;
    size_t count;
    char *verbs;
    size_t verb_count;
};

/* Few digits, a point or none: exact as strtod is, at a tenth of its cost. */
static double read_number(struct reader *reader)
{
    double digits = 0, scale = 1;
    while (*reader->at == ' ' || *reader->at == ',')
        reader->at++;
    bool is_negative = *reader->at == '-';
    reader->at += is_negative;
    for (bool is_fraction = false;; reader->at++) {
        if (*reader->at == '.' && !is_fraction) {
            is_fraction = true;
        } else if (*reader->at >= '0' && *reader->at <= '9') {
            digits = digits * 10 + (*reader->at - '0');
            scale *= is_fraction ? 10 : 1;
        } else {
            break;
        }
    }
    return (is_negative ? -digits : digits) / scale;
}

static void add_point(struct reader *reader, double x, double y)
{
    reader->points[reader->count++] = map(reader->mapping, x, y);
    reader->x = x;
    reader->y = y;
}

static void add_verb(struct reader *reader, char verb)
{
    reader->verbs[reader->verb_count++] = verb;
}

/* One command; its letter has been read. */
static void read_command(struct reader *reader, char command)
{
    double x = reader->x, y = reader->y;
    switch (command) {
    case 'M':
    case 'L':
        add_verb(reader, command);
        x = read_number(reader);
        add_point(reader, x, read_number(reader));
        break;
    case 'C':
        add_verb(reader, 'C');
        for (int i = 0; i < 3; i++) {
            x = read_number(reader);
            add_point(reader, x, read_number(reader));
        }
        break;
    case 'H':
    case 'h':
        add_verb(reader, 'L');
        add_point(reader, read_number(reader) + (command == 'h' ? x : 0), y);
        break;
    case 'V':
    case 'v':
        add_verb(reader, 'L');
        add_point(reader, x, read_number(reader) + (command == 'v' ? y : 0));
        break;
    case 'l':
        add_verb(reader, 'L');
        x += read_number(reader);
        add_point(reader, x, y + read_number(reader));
        break;
    default:
        add_verb(reader, 'Z');
        break;
    }
}

static bool begins_number(char c)
{
    return strchr("0123456789.-", c) != NULL && c != '\0';
}

static struct op *add_path(const struct board *board, int element, const struct mapping *mapping,
                           const char *path)
{
    struct arena *arena = board->composer->arena;
    size_t room = strlen(path) + 3;
    struct reader reader = {.at = path,
                            .mapping = mapping,
                            .points = arena_take_unset(arena, room * sizeof(struct point)),
                            .verbs = arena_take_unset(arena, room)};
    char command = 'M';
    while (*reader.at != '\0') {
        if (*reader.at == ' ') {
            reader.at++;
            continue;
        }
        if (!begins_number(*reader.at))
            command = *reader.at++;
        read_command(&reader, command);
    }
    reader.verbs[reader.verb_count] = '\0';
    struct op *op = fragment_add_op(board->fragment, arena, OP_PATH, element);
    op->points = reader.points;
    op->count = reader.count;
    op->verbs = reader.verbs;
    return op;
}

/* ---- parts ---- */

static void draw_round(const struct board *board, int element, const struct mapping *mapping,
                       const struct pictogram_part *part, struct rgb ink)
{
    struct reader reader = {.at = part->path};
    double x = read_number(&reader), y = read_number(&reader), radius = read_number(&reader);
    struct point centre = map(mapping, x, y);
    struct op *op = fragment_add_op(board->fragment, board->composer->arena, OP_CIRCLE, element);
    op->x = centre.x;
    op->y = centre.y;
    op->width = radius * mapping->scale;
    op->filled = part->kind == PICTOGRAM_DISC;
    op->fill = ink;
    op->stroked = part->kind == PICTOGRAM_RING;
    op->stroke_pt = part->stroke * mapping->scale;
    op->ink = ink;
}

static void draw_part(const struct board *board, int element, const struct mapping *mapping,
                      const struct pictogram_part *part, bool on_solid)
{
    const struct rgb *inks = board->composer->look->inks;
    struct rgb ink = inks[part->is_paper != on_solid ? INK_PAPER : INK_TEXT];
    if (part->kind == PICTOGRAM_DISC || part->kind == PICTOGRAM_RING) {
        draw_round(board, element, mapping, part, ink);
        return;
    }
    struct op *op = add_path(board, element, mapping, part->path);
    op->filled = part->kind == PICTOGRAM_FILL;
    op->fill = ink;
    op->stroked = part->kind == PICTOGRAM_STROKE;
    op->stroke_pt = part->stroke * mapping->scale;
    op->round = true;
    op->ink = ink;
}

static void draw_parts(const struct board *board, const struct pictogram *pictogram,
                       const struct mapping *mapping, struct pictogram_place at)
{
    if (board->composer->only_measures)
        return; /* nothing is higher for a sign in it */
    for (size_t i = 0; i < pictogram->count; i++)
        draw_part(board, at.element, mapping, &pictogram->parts[i], at.on_solid);
}

void board_pictogram(const struct board *board, const struct pictogram *pictogram,
                     struct pictogram_place at)
{
    if (pictogram == NULL)
        return;
    struct mapping mapping = {.x = at.x, .y = at.y, .scale = at.size_pt / pictogram->field};
    if (pictogram->height > 0)
        mapping.y += (at.size_pt + pictogram->height * mapping.scale) / 2;
    draw_parts(board, pictogram, &mapping, at);
}

void board_outline(const struct board *board, const struct pictogram *pictogram,
                   struct pictogram_place at)
{
    struct mapping mapping = {.x = at.x,
                              .y = at.y,
                              .scale = at.size_pt / pictogram->field,
                              .mirror = at.is_mirrored ? pictogram->field : 0};
    draw_parts(board, pictogram, &mapping, at);
}

/* ---- which way ---- */

static const struct pictogram_part up_parts[] = {
    {PICTOGRAM_FILL, false, 0, "M24 3 L45 26 H32 V45 H16 V26 H3 Z"}};
static const struct pictogram_part down_parts[] = {
    {PICTOGRAM_FILL, false, 0, "M24 45 L3 22 H16 V3 H32 V22 H45 Z"}};
static const struct pictogram_part right_parts[] = {
    {PICTOGRAM_STROKE, false, 7, "M6 26 L18 39 L42 8"}};
static const struct pictogram turns[] = {
    [TURN_UP] = {up_parts, 1, 48, 0},
    [TURN_DOWN] = {down_parts, 1, 48, 0},
    [TURN_RIGHT] = {right_parts, 1, 48, 0},
};

void board_turn(const struct board *board, int turn, const char *said, struct pictogram_place at)
{
    if (turn == TURN_NONE)
        return;
    if (at.element != OPS_ARTIFACT) {
        at.element = elements_add(&board->composer->elements, ELEMENT_SPAN, at.element);
        /* what follows is another word */
        if (said != NULL)
            elements_find(&board->composer->elements, at.element)->actual =
                arena_format(board->composer->arena, "%s ", said);
    }
    board_pictogram(board, &turns[turn], at);
}
