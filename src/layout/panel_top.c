/* Who it is, the state of the sheet, and the one thing to know. */
#include <math.h>

#include "layout/panels.h"

/* ---- head ---- */

/* The largest size at which the name stands on one line; 0 when none does. */
static double name_size(const struct composer *composer, const char *name, const double *sizes,
                        size_t count, double width_pt)
{
    for (size_t i = 0; i < count; i++) {
        struct lettering pen = {.size_pt = sizes[i], .strong = true};
        if (board_width_pt(composer, &pen, name) <= width_pt)
            return sizes[i];
    }
    return 0;
}

/* Numbers in the right corner, a line each: their size, the first base and the lines' distance. In
 * a narrow one the widest stands below its word. */
struct corner {
    double size_pt, base_pt, line_pt;
    bool is_narrow;
};

static const struct corner head_corner = {16, 13, 17, false}, narrow_corner = {16, 13, 14, true},
                           small_corner = {14, 16, 17, false};

/* One of its telephones alone, as a panel of its own. */
static struct panel one_telephone(const struct panel *panel, struct panel_entry *alone,
                                  const struct panel_entry *entry)
{
    struct panel one = *panel;
    *alone = *entry;
    alone->next = NULL;
    one.telephones = alone;
    return one;
}

/* In one that is narrow; NULL where no word stands above its number. */
static const struct panel_entry *widest_entry(const struct composer *composer,
                                              const struct panel *panel,
                                              const struct corner *corner)
{
    const struct panel_entry *widest = NULL;
    double width = 0;
    for (const struct panel_entry *e = panel->telephones; corner->is_narrow && e != NULL;
         e = e->next) {
        struct panel_entry alone;
        struct panel one = one_telephone(panel, &alone, e);
        double own = panel_telephones_pt(composer, corner->size_pt, &one);
        if (e->title != NULL && own > width) {
            widest = e;
            width = own;
        }
    }
    return widest;
}

static double corner_width(const struct composer *composer, const struct panel *panel,
                           const struct corner *corner)
{
    const struct panel_entry *high = widest_entry(composer, panel, corner);
    double widest = 0;
    for (const struct panel_entry *e = panel->telephones; e != NULL; e = e->next) {
        struct panel_entry alone;
        struct panel one = one_telephone(panel, &alone, e);
        widest = fmax(widest, e == high ? panel_telephones_high_pt(composer, corner->size_pt, &one)
                                        : panel_telephones_pt(composer, corner->size_pt, &one));
    }
    return widest > 0 ? widest + 4 : 0;
}

/* Returns where the line below the last begins. */
static double draw_corner(const struct board *board, int parent, const struct panel *panel,
                          const struct corner *corner)
{
    const struct panel_entry *high = widest_entry(board->composer, panel, corner);
    const struct lettering pen = {.element = parent, .size_pt = corner->size_pt};
    double right = board->left_pt + board->width_pt, y = corner->base_pt, last = y;
    for (const struct panel_entry *e = panel->telephones; e != NULL; e = e->next) {
        struct panel_entry alone;
        struct panel one = one_telephone(panel, &alone, e);
        last = y;
        if (e == high) {
            panel_telephones_high(board, &pen, &one, right, y);
            last += PANEL_NUMBER_BELOW_PT;
        } else {
            panel_telephones(board, &pen, &one, right, y);
        }
        y = last + corner->line_pt;
    }
    return last + 6;
}

/* The telephones beside the name on one line; a line each where that leaves the name no room. */
static void head_small(struct composer *composer, struct place *place, const struct panel *panel)
{
    static const double sizes[] = {18, 16, 14, 12};
    static const double HEIGHT = 22, BASE = 16, GAP = 12, SIZE = 14, LEAST_NAME = 100;
    struct board board = board_add(composer, place, HEIGHT);
    int name = board_element(&board, ELEMENT_P, place->element);
    struct lettering probe = {.size_pt = PANEL_TEXT_PT, .element = name};
    double right = board.left_pt + board.width_pt;
    double telephones = panel_telephones_pt(composer, SIZE, panel);
    bool stacked = board.width_pt - telephones - GAP < LEAST_NAME;
    if (stacked)
        telephones = corner_width(composer, panel, &small_corner);
    double room = board.width_pt - telephones - GAP;
    double size = name_size(composer, panel->title, sizes, 4, room);
    struct lettering pen = {.element = name, .size_pt = size > 0 ? size : 12, .strong = true};
    struct text_lines lines = board_break(composer, &pen, panel->title, room);
    board_lines(&board, &pen, &lines, (struct text_place){board.left_pt, BASE, room, 14});
    board.fragment->height_pt += 14 * (double)(lines.count - 1);
    double x = board.left_pt + lines_width_pt(&lines) + GAP;
    if (lines.count == 1 &&
        x + board_width_pt(composer, &probe, panel->text) < right - telephones - GAP)
        board_text(&board, &probe, x, BASE, panel->text);
    if (stacked) {
        double bottom = draw_corner(&board, place->element, panel, &small_corner);
        board.fragment->height_pt = fmax(board.fragment->height_pt, bottom);
        return;
    }
    panel_telephones(&board, &(struct lettering){.element = place->element, .size_pt = SIZE}, panel,
                     right, BASE);
}

/* How the head stands without a photo: the room of its words, and how many lines they may take. */
struct plain_head {
    double room_pt;
    size_t lines_most;
};

/* How wide the head's photo is, as high as the logo would be; 0 where the name would then take
 * smaller type or its line would break. */
static double photo_width(struct composer *composer, const struct panel *panel,
                          const struct plain_head *plain, double room, double height)
{
    static const double sizes[] = {22, 20, 18, 16};
    static const double GAP = 10;
    const struct lettering pen = {.size_pt = PANEL_TEXT_PT};
    if (panel->photo == NULL)
        return 0;
    double width = height * panel->photo->width_px / panel->photo->height_px;
    double less = room - width - GAP;
    bool fits = less > 0 &&
                name_size(composer, panel->title, sizes, 4, less) ==
                    name_size(composer, panel->title, sizes, 4, plain->room_pt) &&
                board_break(composer, &pen, panel->text, less).count <= plain->lines_most;
    return fits && name_size(composer, panel->title, sizes, 4, less) > 0 ? width : 0;
}

static void draw_photo(struct composer *composer, struct fragment *fragment, int parent,
                       const struct panel *panel, struct op box)
{
    int element = elements_add(&composer->elements, ELEMENT_FIGURE, parent);
    elements_find(&composer->elements, element)->alternative = panel->photo_alternative;
    struct op *op = fragment_add_op(fragment, composer->arena, OP_IMAGE, element);
    op->photo = panel->photo;
    op->x = box.x;
    op->y = box.y;
    op->width = box.width;
    op->height = box.height;
    fragment->figure = element;
    fragment->figure_left = box.x;
    fragment->figure_right = box.x + box.width;
    fragment->figure_top = box.y;
    fragment->figure_bottom = box.y + box.height;
}

/* What is left of the name's line. */
struct beside_name {
    double from, to;
};

/* The line below the name, and how it ends: behind it, or beside the name where that saves a line.
 * Returns the next base. */
static double draw_line_below(const struct board *board, int parent, const struct panel *panel,
                              struct text_place place, struct beside_name name)
{
    static const double GAP = 12, NAME_BASE = 17;
    const struct composer *composer = board->composer;
    struct lettering pen = {.element = board_element(board, ELEMENT_P, parent),
                            .size_pt = PANEL_TEXT_PT};
    const char *text = panel->text, *end = panel->after;
    const char *both =
        text != NULL && end != NULL ? arena_format(composer->arena, "%s %s", text, end) : text;
    bool beside = end != NULL && board_width_pt(composer, &pen, both) > place.width_pt &&
                  name.from + GAP + board_width_pt(composer, &pen, end) <= name.to;
    struct text_lines lines = board_break(composer, &pen, beside ? text : both, place.width_pt);
    double y = board_lines(board, &pen, &lines, place);
    if (beside) {
        pen.element = board_element(board, ELEMENT_P, parent);
        board_text(board, &pen, name.from + GAP, NAME_BASE, end);
    }
    return y;
}

/* The shorter of two numbers below the longer one, where so the line below the name stands on one
 * line. Returns the room of that line. */
static double order_corner(struct composer *composer, struct panel *panel, double full, double room)
{
    static const double GAP = 10;
    const struct lettering pen = {.size_pt = PANEL_TEXT_PT};
    struct panel_entry *first = panel->telephones, *second = first != NULL ? first->next : NULL;
    if (second == NULL || second->next != NULL ||
        board_width_pt(composer, &pen, panel->text) <= room)
        return room;
    struct panel_entry alone;
    struct panel one = one_telephone(panel, &alone, first);
    double wider = full - corner_width(composer, &one, &head_corner) - GAP;
    if (board_width_pt(composer, &pen, panel->text) > wider)
        return room;
    struct panel_entry *turned = ARENA_ARRAY(composer->arena, struct panel_entry, 2);
    turned[0] = *second;
    turned[0].next = &turned[1];
    turned[1] = *first;
    turned[1].next = NULL;
    panel->telephones = turned;
    return wider;
}

/* Left of this corner. */
static double room_beside(const struct composer *composer, const struct panel *panel,
                          const struct corner *corner, double width)
{
    static const double GAP = 10;
    return width - corner_width(composer, panel, corner) - GAP;
}

/* A photo that has no room beside the usual corner stands beside a narrow one, which is as high as
 * a name with two lines. That takes a line more, so it gives way where the page is close. Returns
 * the photo's width. */
static double find_photo(struct composer *composer, const struct panel *panel, double width,
                         double height, const struct corner **corner)
{
    enum { BESIDE_NARROW = 2 };
    const struct lettering pen = {.size_pt = PANEL_TEXT_PT};
    double room = room_beside(composer, panel, &head_corner, width);
    struct plain_head plain = {room, board_break(composer, &pen, panel->text, room).count};
    double photo = photo_width(composer, panel, &plain, room, height);
    if (photo > 0 || panel_is_close(composer))
        return photo;
    plain.lines_most = BESIDE_NARROW;
    photo = photo_width(composer, panel, &plain,
                        room_beside(composer, panel, &narrow_corner, width), height);
    *corner = photo > 0 ? &narrow_corner : *corner;
    return photo;
}

/* The logo, or where there is none the photo; returns where the words begin. */
static double draw_picture(const struct board *board, int parent, const struct panel *panel,
                           const struct corner **corner)
{
    static const double HEIGHT = 33, GAP = 10;
    struct composer *composer = board->composer;
    double left = board->left_pt;
    if (composer->logo_pending)
        left += logo_draw(composer, board->fragment, parent, left, 0, HEIGHT) + GAP;
    if (left > board->left_pt)
        return left;
    double photo = find_photo(composer, panel, board->width_pt, HEIGHT, corner);
    if (photo <= 0)
        return left;
    draw_photo(composer, board->fragment, parent, panel,
               (struct op){.x = left, .width = photo, .height = HEIGHT});
    return left + photo + GAP;
}

void panel_head(struct composer *composer, struct place *place, const struct panel *panel)
{
    static const double sizes[] = {22, 20, 18, 16};
    static const double BASE = 17, LINE = 14.2, TWO_LINES = 18, HEIGHT = 36;
    if (panel->is_small) {
        head_small(composer, place, panel);
        return;
    }
    struct board board = board_add(composer, place, HEIGHT);
    const struct corner *corner = &head_corner;
    double left = draw_picture(&board, place->element, panel, &corner);
    int heading = board_element(&board, ELEMENT_H1, place->element);
    elements_find(&composer->elements, heading)->title = panel->title;
    double whole = board.left_pt + board.width_pt - left;
    double room = room_beside(composer, panel, corner, whole);
    double size = name_size(composer, panel->title, sizes, 4, room);
    struct lettering name = {.element = heading, .size_pt = size > 0 ? size : 16, .strong = true};
    struct text_lines lines = board_break(composer, &name, panel->title, room);
    double y = board_lines(&board, &name, &lines, (struct text_place){left, BASE, room, TWO_LINES});
    y -= TWO_LINES - LINE - 1;
    struct beside_name beside = {left + (lines.count == 1 ? lines_width_pt(&lines) : room),
                                 left + room};
    struct panel ordered = *panel;
    double below = lines.count == 1 && !corner->is_narrow
                       ? order_corner(composer, &ordered, whole, room)
                       : room;
    y = draw_line_below(&board, place->element, panel, (struct text_place){left, y, below, LINE},
                        beside);
    double bottom = draw_corner(&board, place->element, &ordered, corner);
    board.fragment->height_pt = fmax(fmax(HEIGHT, y - LINE + 4), corner->is_narrow ? bottom : 0);
}

/* ---- the state of the sheet ---- */

void panel_strip(struct composer *composer, struct place *place, const struct panel *panel)
{
    static const double HEIGHT = 17, BASE = 12.5, LINE = 14, RULE = 1.5, PAD = 8;
    struct board board = board_add(composer, place, HEIGHT);
    struct lettering pen = {.element = board_element(&board, ELEMENT_P, place->element),
                            .size_pt = PANEL_TEXT_PT,
                            .strong = panel->is_solid,
                            .is_paper = panel->is_solid,
                            .align = panel->is_solid ? ANCHOR_MIDDLE : ANCHOR_LEFT};
    double pad = panel->is_solid ? PAD : 0, width = board.width_pt - 2 * pad;
    struct text_lines lines = board_break(composer, &pen, panel->text, width);
    double height = HEIGHT + LINE * (double)(lines.count > 0 ? lines.count - 1 : 0);
    board.fragment->height_pt = height;
    if (panel->is_solid)
        board_solid(&board, board.left_pt, 0, board.width_pt, height);
    else
        board_rule(&board, board.left_pt, RULE / 2, board.left_pt + board.width_pt, RULE / 2, RULE);
    board_lines(&board, &pen, &lines, (struct text_place){board.left_pt + pad, BASE, width, LINE});
}

/* ---- the message ---- */

/* A message's size, and in how many lines it may stand so. */
struct message_size {
    double size, leading;
    size_t lines;
};

static const struct message_size message_sizes[] = {
    {18, 21, 2}, {17, 20, 2}, {16, 18.5, 3}, {16, 18.5, 99}};
static const struct message_size closest_message = {16, 17.5, 99};

/* The last of a page's steps that leaves no gap. */
static bool is_closest(const struct composer *composer)
{
    const struct fit_step *fit = block_asks_fit(composer);
    return fit != NULL && fit->gap_pt <= 0;
}

/* The largest in which it stands in its lines; where room is short the largest of those in which it
 * takes the fewest, and where a page is as close as it can be the smallest: what it says comes
 * before how large it is. */
static const struct message_size *message_size(struct composer *composer, const char *text,
                                               bool hugs, double width)
{
    const struct message_size *last =
        message_sizes + sizeof message_sizes / sizeof *message_sizes - 1;
    const struct lettering smallest = {.size_pt = last->size, .strong = true};
    const size_t fewest = board_break(composer, &smallest, text, width).count;
    if (is_closest(composer))
        return hugs ? &closest_message : last;
    for (const struct message_size *size = message_sizes; size < last; size++) {
        const struct lettering pen = {.size_pt = size->size, .strong = true};
        const size_t most = panel_is_close(composer) ? fewest : size->lines;
        const size_t count = board_break(composer, &pen, text, width).count;
        if (count <= most && count <= size->lines)
            return size;
    }
    return last;
}

void panel_message(struct composer *composer, struct place *place, const struct panel *panel)
{
    static const double PAD = 12, ROOMY = 7, CLOSE = 4, CLOSEST = 1, FRAME = 2.5, TAIL = 0.4;
    const double small_pt = is_closest(composer) ? 12 : 14;
    const double small_line = is_closest(composer) ? 14 : panel_is_close(composer) ? 15.5 : 17;
    /* letters leave some of their own height free: what it says is worth more than a wider edge */
    const bool hugs = panel->is_small && is_closest(composer);
    const double above = hugs ? CLOSEST : panel_is_close(composer) ? CLOSE : ROOMY;
    double width = place->width_pt - 2 * PAD;
    const struct message_size *size = message_size(composer, panel->text, hugs, width);
    struct lettering pen = {.element = elements_add(&composer->elements, ELEMENT_P, place->element),
                            .size_pt = size->size,
                            .strong = true,
                            .is_paper = panel->is_solid};
    struct text_lines lines = board_break(composer, &pen, panel->text, width);
    double leading = size->leading, height = leading * (double)lines.count + 2 * above;
    struct lettering small = {
        .element = OPS_ARTIFACT, .size_pt = small_pt, .is_paper = panel->is_solid};
    struct text_lines more = board_break(composer, &small, panel->small, width);
    height += small_line * (double)more.count;
    struct board board = board_add(composer, place, height);
    if (panel->is_solid)
        board_solid(&board, board.left_pt, 0, board.width_pt, height);
    else
        board_frame(&board, board.left_pt, 0, board.width_pt, height, FRAME);
    double y = board_lines(
        &board, &pen, &lines,
        (struct text_place){board.left_pt + PAD, above + pen.size_pt * 0.93, width, leading});
    if (more.count == 0)
        return;
    small.element = board_element(&board, ELEMENT_P, place->element);
    /* the tails of its last line stand in the bar too */
    const double lowest = height - composer->measure->descent * small_pt - TAIL,
                 last = small_line * (double)(more.count - 1);
    board_lines(
        &board, &small, &more,
        (struct text_place){board.left_pt + PAD, fmin(y - 1, lowest - last), width, small_line});
}
