/* A diagram on paper: walls, things, lines to the labels, points, labels. */
#include <math.h>

#include "layout/diagram_place.h"
#include "layout/measured_text.h"
#include "layout/panels.h"

static const double WALL_PT = 2, FLOOR_PT = 4, THIN_PT = 1, LEAST_PT = 104, CLOSEST_PT = 90;

struct sketch {
    const struct diagram *diagram;
    struct placed placed;
    struct board board;
    int figure;
};

/* ---- lines ---- */

static struct op *add_path(const struct sketch *s, const struct point *points, size_t count,
                           double stroke_pt)
{
    struct arena *arena = s->board.composer->arena;
    struct point *own = ARENA_ARRAY(arena, struct point, count);
    for (size_t i = 0; i < count; i++)
        own[i] = points[i];
    struct op *op =
        fragment_add_op(s->board.fragment, arena, count == 2 ? OP_LINE : OP_PATH, s->figure);
    op->points = own;
    op->count = count;
    op->stroked = stroke_pt > 0;
    op->stroke_pt = stroke_pt;
    op->ink = s->board.composer->look->inks[INK_TEXT];
    op->fill = s->board.composer->look->inks[INK_PAPER];
    return op;
}

static struct op *add_rect(const struct sketch *s, double left, double bottom, double length,
                           double height, double stroke_pt)
{
    struct point a = diagram_point(&s->placed, left, bottom + height);
    struct point b = diagram_point(&s->placed, left + length, bottom);
    const struct point corners[] = {a, {b.x, a.y}, b, {a.x, b.y}};
    struct op *op = add_path(s, corners, 4, stroke_pt);
    op->closed = true;
    return op;
}

/* ---- the box ---- */

static void draw_box(const struct sketch *s)
{
    const struct diagram *d = s->diagram;
    if (d->needed_length > 0)
        add_rect(s, 0, 0, d->needed_length, d->needed_height, 1.25)->dash = DASH_DASHED;
    struct point a = diagram_point(&s->placed, 0, d->height);
    struct point b = diagram_point(&s->placed, d->length, 0);
    double half = WALL_PT / 2;
    const struct point walls[] = {
        {a.x + half, b.y}, {a.x + half, a.y + half}, {b.x - half, a.y + half}, {b.x - half, b.y}};
    if (d->has_lid) {
        add_path(s, walls, 4, WALL_PT);
    } else {
        const struct point left[] = {walls[0], {walls[0].x, a.y}};
        const struct point right[] = {walls[3], {walls[3].x, a.y}};
        add_path(s, left, 2, WALL_PT);
        add_path(s, right, 2, WALL_PT);
    }
    const struct point floor[] = {{a.x, b.y - FLOOR_PT / 2}, {b.x, b.y - FLOOR_PT / 2}};
    add_path(s, floor, 2, FLOOR_PT);
}

/* ---- things ---- */

static void draw_block(const struct sketch *s, const struct diagram_thing *thing)
{
    struct op *op = add_rect(s, thing->x, thing->y, thing->width, thing->height, THIN_PT);
    op->filled = true;
    op->dash = thing->is_open ? DASH_DASHED : DASH_SOLID;
}

static void cross_out(const struct sketch *s, struct point middle)
{
    static const double HALF = 7, UNDER = 4.5, STROKE = 2;
    for (int way = -1; way <= 1; way += 2) {
        const struct point line[] = {{middle.x - HALF, middle.y - way * HALF},
                                     {middle.x + HALF, middle.y + way * HALF}};
        add_path(s, line, 2, UNDER)->ink = s->board.composer->look->inks[INK_PAPER];
        add_path(s, line, 2, STROKE);
    }
}

static void draw_bar(const struct sketch *s, const struct diagram_thing *thing)
{
    static const double HIGH = DIAGRAM_BAR_PT;
    struct point a = diagram_point(&s->placed, thing->x, thing->y);
    double right = a.x + thing->width * s->placed.scale;
    const struct point corners[] = {
        {a.x, a.y - HIGH}, {right, a.y - HIGH}, {right, a.y}, {a.x, a.y}};
    struct op *op = add_path(s, corners, 4, THIN_PT);
    op->closed = op->filled = true;
    op->dash = thing->is_open ? DASH_DASHED : DASH_SOLID;
    if (!thing->is_open && !thing->is_off)
        op->fill = op->ink;
    if (thing->is_off)
        cross_out(s, (struct point){(a.x + right) / 2, a.y - HIGH / 2});
}

static void draw_line(const struct sketch *s, const struct diagram_thing *thing)
{
    struct point *points = ARENA_ARRAY(s->board.composer->arena, struct point, thing->count);
    for (size_t i = 0; i < thing->count; i++)
        points[i] = diagram_point(&s->placed, thing->points[2 * i], thing->points[2 * i + 1]);
    double stroke =
        thing->kind == THING_AREA ? THIN_PT : fmax(THIN_PT, thing->stroke * s->placed.scale);
    struct op *op = add_path(s, points, thing->count, stroke);
    op->round = true;
    op->closed = op->filled = thing->kind == THING_AREA;
    op->dash = thing->is_open ? DASH_DASHED : DASH_SOLID;
}

static void draw_water(const struct sketch *s, const struct diagram_thing *thing)
{
    static const double WAVE = 8, HIGH = 2, DASHES = 11, DASH = 14;
    struct point a = diagram_point(&s->placed, thing->x, thing->y);
    double right = a.x + thing->width * s->placed.scale;
    size_t count = (size_t)fmax(2, floor((right - a.x) / WAVE) + 1);
    struct point *points = ARENA_ARRAY(s->board.composer->arena, struct point, count);
    for (size_t i = 0; i < count; i++)
        points[i] = (struct point){a.x + WAVE * (double)i, a.y + (i % 2 ? HIGH : 0)};
    add_path(s, points, count, 1.5)->round = true;
    size_t row = 0;
    for (double y = a.y + DASHES; y < s->placed.floor_y - FLOOR_PT - 2; y += DASHES, row++)
        for (double x = a.x + (row % 2 ? DASH : 2 * DASH); x + DASH < right; x += 4 * DASH) {
            const struct point dash[] = {{x, y}, {x + DASH, y}};
            add_path(s, dash, 2, 0.5);
        }
}

static void draw_level(const struct sketch *s, const struct diagram_thing *thing)
{
    static const double STROKE = 1.5;
    struct point a = diagram_point(&s->placed, thing->x, thing->y);
    const struct point line[] = {a, {a.x + thing->width * s->placed.scale, a.y}};
    add_path(s, line, 2, STROKE)->dash = DASH_DASHED;
}

static void draw_thing(const struct sketch *s, const struct diagram_thing *thing)
{
    const double sign = diagram_sign_size(s->diagram, &s->placed);
    struct point at = thing->kind == THING_PICTOGRAM
                          ? diagram_sign_point(s->diagram, &s->placed, thing)
                          : diagram_point(&s->placed, thing->x, thing->y);
    switch (thing->kind) {
    case THING_BLOCK:
        draw_block(s, thing);
        break;
    case THING_BAR:
        draw_bar(s, thing);
        break;
    case THING_LINE:
    case THING_AREA:
        draw_line(s, thing);
        break;
    case THING_WATER:
        draw_water(s, thing);
        break;
    case THING_PICTOGRAM:
        board_pictogram(&s->board, thing->pictogram,
                        (struct pictogram_place){s->figure, at.x - sign / 2, at.y - sign / 2, sign,
                                                 false, false});
        break;
    case THING_OUTLINE:
        board_outline(&s->board, thing->pictogram,
                      (struct pictogram_place){s->figure, at.x, at.y,
                                               diagram_outline_width(s->diagram, &s->placed, thing),
                                               false, thing->is_mirrored});
        break;
    case THING_LEVEL:
        draw_level(s, thing);
        break;
    case THING_EYE:
        board_disc(&s->board, s->figure, at.x, at.y, fmax(0.8, thing->width / 2 * s->placed.scale),
                   true);
        break;
    }
}

/* ---- the distance ---- */

static void draw_head(const struct sketch *s, struct point tip, double way)
{
    static const double HEAD = 8;
    const struct point head[] = {
        tip, {tip.x - HEAD / 2, tip.y + way * HEAD}, {tip.x + HEAD / 2, tip.y + way * HEAD}};
    struct op *op = add_path(s, head, 3, 0);
    op->closed = op->filled = true;
    op->fill = op->ink;
}

static void draw_distance(const struct sketch *s)
{
    static const double STROKE = 1.75, HEAD = 7, TICK = 7;
    const struct diagram_distance *distance = s->diagram->distance;
    if (distance == NULL)
        return;
    struct point a = diagram_point(&s->placed, distance->x, distance->from);
    struct point b = diagram_point(&s->placed, distance->x, distance->to);
    bool room = b.y - a.y > 2 * HEAD + 2;
    const struct point line[] = {{a.x, a.y + (room ? HEAD : 0)}, {b.x, b.y - (room ? HEAD : 0)}};
    add_path(s, line, 2, STROKE);
    const struct point tick[] = {{b.x - TICK, b.y}, {b.x + TICK, b.y}};
    add_path(s, tick, 2, 1);
    if (!room)
        return;
    draw_head(s, a, 1);
    draw_head(s, b, -1);
}

/* ---- labels ---- */

static void draw_leaders(const struct sketch *s)
{
    static const double UNDER = 3, STROKE = 0.9;
    for (size_t i = 0; i < s->placed.label_count; i++) {
        const struct leader *leader = &s->placed.labels[i].leader;
        if (leader->count < 2)
            continue;
        add_path(s, leader->points, leader->count, UNDER)->ink =
            s->board.composer->look->inks[INK_PAPER];
        add_path(s, leader->points, leader->count, STROKE);
    }
}

/* Where it is measured: a ring with a dot, or the step's own number. */
static void draw_mark(const struct sketch *s, const char *mark, bool is_solid, struct point at)
{
    static const double AROUND = 9.5;
    board_disc(&s->board, s->figure, at.x, at.y, AROUND, true);
    board_mark(&s->board, s->figure, mark, is_solid, at.x, at.y);
}

static void draw_point(const struct sketch *s, const struct diagram_label *label, struct point at)
{
    static const double RADIUS = 4.5, DOT = 1.8;
    if (!label->has_point || (label->is_mark_beside && !s->diagram->is_bare))
        return;
    if (label->mark != NULL) {
        draw_mark(s, label->mark, label->is_mark_solid, at);
        return;
    }
    board_ring(&s->board, s->figure, at.x, at.y, RADIUS, 1.5);
    board_disc(&s->board, s->figure, at.x, at.y, DOT, false);
}

static int add_cell(const struct sketch *s, int row, enum element_type type)
{
    int element = board_element(&s->board, type, row);
    if (type == ELEMENT_TH)
        elements_find(&s->board.composer->elements, element)->scope = SCOPE_ROW;
    return element;
}

static void draw_label(const struct sketch *s, int table, const struct diagram_label *label,
                       struct extent_pt box)
{
    static const double SIGN = 13, TITLE_BASE = 11, MARK = 20, OPEN = 36;
    const struct board *board = &s->board;
    bool large = label->is_large;
    int row = board_element(board, ELEMENT_TR, table);
    double x = box.left, y = box.top;
    struct lettering pen = {.element = add_cell(s, row, ELEMENT_TH), .size_pt = 12};
    if (label->pictogram != NULL) {
        board_pictogram(board, label->pictogram,
                        (struct pictogram_place){OPS_ARTIFACT, x, y, SIGN, false, false});
        x += SIGN + 2;
    }
    board_text(board, &pen, x, y + TITLE_BASE, label->title);
    pen = (struct lettering){
        .element = add_cell(s, row, ELEMENT_TD), .size_pt = large ? 22 : 14, .strong = true};
    double base = y + diagram_value_base(label), at = box.left;
    if (diagram_has_mark_beside(label)) {
        board_mark(board, pen.element, label->mark, label->is_mark_solid, at + 8,
                   base - (large ? 8 : 4.5));
        at += MARK;
    }
    board_text(board, &pen, at, base, label->value);
    pen = (struct lettering){.element = add_cell(s, row, ELEMENT_TD), .size_pt = large ? 14 : 12};
    base += large ? 16 : 14.5;
    double turn = large ? 14 : 12;
    board_turn(
        board, label->turn, label->turn_said,
        (struct pictogram_place){pen.element, box.left, base - turn + 1.5, turn, false, false});
    at = box.left + (label->turn != TURN_NONE ? turn + 4 : 0);
    at += board_text(board, &pen, at, base, label->now);
    if (label->is_now_open)
        board_rule(board, at + 4, base + 1, at + 4 + OPEN, base + 1, 0.75);
}

static void draw_words(const struct sketch *s)
{
    static const double BASE = 13;
    struct lettering pen = {.element = s->figure, .size_pt = 12, .align = ANCHOR_MIDDLE};
    for (size_t i = 0; i < s->placed.word_count; i++)
        board_text(&s->board, &pen, s->placed.words[i].x, s->placed.floor_y + BASE,
                   s->placed.words[i].text);
}

static void draw(struct sketch *s)
{
    const struct diagram *d = s->diagram;
    if (d->length > 0) {
        draw_box(s);
        for (size_t i = 0; i < d->thing_count; i++)
            draw_thing(s, &d->things[i]);
        draw_distance(s);
        draw_leaders(s);
        for (size_t i = 0; i < d->label_count; i++)
            draw_point(s, &d->labels[i], s->placed.labels[i].point);
        for (size_t i = 0; i < d->thing_count; i++)
            if (d->things[i].mark != NULL)
                draw_mark(s, d->things[i].mark, d->things[i].is_mark_solid,
                          diagram_mark_point(d, &s->placed, &d->things[i]));
        draw_words(s);
    }
}

static void set_figure(struct sketch *s, const struct place *place)
{
    const struct diagram *d = s->diagram;
    const bool is_enlarged = d->enlarged != NULL && diagram_is_enlarged(d, &s->placed);
    elements_find(&s->board.composer->elements, s->figure)->alternative =
        is_enlarged ? arena_format(s->board.composer->arena, "%s %s", d->alternative, d->enlarged)
                    : d->alternative;
    s->board.fragment->figure = s->figure;
    s->board.fragment->figure_left = place->left_pt;
    s->board.fragment->figure_right = place->left_pt + place->width_pt;
    s->board.fragment->figure_bottom = s->placed.height_pt;
}

void panel_drawing(struct composer *composer, struct place *place, const struct panel *panel)
{
    struct sketch s = {.diagram = panel->diagram};
    diagram_place_bare(composer, panel->diagram, place->left_pt, place->width_pt, &s.placed);
    s.figure = elements_add(&composer->elements, ELEMENT_FIGURE, place->element);
    s.board = board_add(composer, place, s.placed.height_pt);
    set_figure(&s, place);
    draw(&s);
}

/* Below it what its signs mean: `text` unless the page has to leave out all that can be missed, and
 * `after` always. */
static void set_key(struct composer *composer, struct place *place, const struct panel *panel,
                    const char *enlarged)
{
    static const double BASE = 11, LINE = 13.5;
    bool is_full = block_asks_fit(composer)->give_way < PANEL_GIVES_ALL;
    const char *text = is_full ? panel->text : NULL;
    if (text != NULL && panel->after != NULL)
        text = arena_format(composer->arena, "%s %s", text, panel->after);
    else if (text == NULL)
        text = panel->after;
    if (enlarged != NULL)
        text = text != NULL ? arena_format(composer->arena, "%s %s", text, enlarged) : enlarged;
    if (text == NULL)
        return;
    place->stack->glued = true;
    place->stack->gap_pt = 0;
    struct board board = board_add(composer, place, 0);
    struct lettering pen = {.element = board_element(&board, ELEMENT_P, place->element),
                            .size_pt = PANEL_TEXT_PT};
    struct text_lines lines = board_break(composer, &pen, text, board.width_pt);
    double y = board_lines(&board, &pen, &lines,
                           (struct text_place){board.left_pt, BASE, board.width_pt, LINE});
    board.fragment->height_pt = y - BASE + 1;
}

/* A drawing in a room: a page is tried and set again and again, mostly with its drawing as it was.
 */
struct kept_diagram {
    const struct diagram *diagram;
    double left_pt, width_pt, height_pt;
    bool is_close, has_only_height;
    struct placed placed;
    struct kept_diagram *next;
};

static void place_diagram(struct composer *composer, const struct diagram *diagram,
                          const struct place *place, double height_pt, struct placed *out)
{
    const bool is_close = panel_is_close(composer);
    struct text_store *store = composer->texts;
    for (const struct kept_diagram *kept = store->diagrams; kept != NULL; kept = kept->next) {
        if (kept->diagram != diagram || kept->left_pt != place->left_pt ||
            kept->width_pt != place->width_pt || kept->height_pt != height_pt ||
            kept->is_close != is_close || (kept->has_only_height && !composer->only_measures))
            continue;
        *out = kept->placed;
        return;
    }
    diagram_place(composer, diagram, place->left_pt, place->width_pt, height_pt, out);
    struct kept_diagram *kept = ARENA_NEW(store->arena, struct kept_diagram);
    *kept = (struct kept_diagram){diagram,   place->left_pt, place->width_pt,
                                  height_pt, is_close,       composer->only_measures,
                                  *out,      store->diagrams};
    store->diagrams = kept;
}

void panel_diagram(struct composer *composer, struct place *place, const struct panel *panel)
{
    struct sketch s = {.diagram = panel->diagram};
    const struct diagram *d = panel->diagram;
    panel_heading(composer, place, panel);
    composer->elastic.has_diagram = true;
    place_diagram(composer, d, place,
                  (panel_is_close(composer) ? CLOSEST_PT : LEAST_PT) + composer->elastic.diagram_pt,
                  &s.placed);
    if (d->length > 0)
        s.figure = elements_add(&composer->elements, ELEMENT_FIGURE, place->element);
    place->stack->gap_pt = panel_is_close(composer) ? 2 : 4;
    s.board = board_add(composer, place, s.placed.height_pt);
    if (d->length > 0) {
        set_figure(&s, place);
        if (!composer->only_measures)
            draw(&s);
    }
    int table = board_element(&s.board, ELEMENT_TABLE, place->element);
    for (size_t i = 0; i < d->label_count && i < DIAGRAM_LABELS_MOST && !composer->only_measures;
         i++)
        draw_label(&s, table, &d->labels[i], s.placed.labels[i].box);
    set_key(composer, place, panel, diagram_is_enlarged(d, &s.placed) ? d->enlarged : NULL);
}
