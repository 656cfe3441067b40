/* Greedy line breaking over measured pieces; breaks a word only when it is wider than the line. */
#include "layout/lines.h"

#include <string.h>
#include <linebreak.h>

#include "layout/measured_text.h"
#include "base/utf8.h"

/* Sums of rounded widths may miss an exact fit by so much. */
static const double SLACK_PT = 0.005;

enum { FIRST_CAPACITY = 8 };

/* One text on its way to lines. */
struct breaker {
    const struct lines_job *job;
    const struct measured *text;
    struct arena *arena;
    struct text_lines lines;
    size_t capacity;
};

/* Marks that join what stands before them (general categories Mn, Me and the format characters
 * that shape glyphs), in the ranges that European text uses. */
static bool is_joined(int code_point)
{
    static const struct {
        int first, last;
    } ranges[] = {{0x0300, 0x036F}, {0x0483, 0x0489}, {0x0591, 0x05C7}, {0x0610, 0x061A},
                  {0x064B, 0x065F}, {0x0900, 0x0903}, {0x093A, 0x094F}, {0x0981, 0x0983},
                  {0x09BC, 0x09CD}, {0x0B82, 0x0B82}, {0x0BBE, 0x0BCD}, {0x0E31, 0x0E31},
                  {0x0E34, 0x0E3A}, {0x0E47, 0x0E4E}, {0x200C, 0x200C}, {0x1AB0, 0x1AFF},
                  {0x1DC0, 0x1DFF}, {0x200D, 0x200D}, {0x20D0, 0x20FF}, {0xFE00, 0xFE0F},
                  {0xFE20, 0xFE2F}};
    for (size_t i = 0; i < sizeof ranges / sizeof ranges[0]; i++)
        if (code_point >= ranges[i].first && code_point <= ranges[i].last)
            return true;
    return false;
}

/* May an over-long word be broken between these two? */
static bool may_part(int before, int after)
{
    static const int glue[] = {0x00A0, 0x202F, 0x2060, 0xFEFF, 0x200D};
    if (is_joined(after))
        return false;
    for (size_t i = 0; i < sizeof glue / sizeof glue[0]; i++)
        if (before == glue[i] || after == glue[i])
            return false;
    return true;
}

static bool fits(const struct breaker *breaker, double width_pt, size_t characters)
{
    size_t limit = breaker->job->character_limit;
    return width_pt <= breaker->job->width_pt + SLACK_PT && (limit == 0 || characters <= limit);
}

/* How far an over-long word goes on a line of its own: at least one character with its marks. */
static size_t fill_with_characters(const struct breaker *breaker, size_t from, size_t to)
{
    size_t taken = from, characters = 0;
    double width = 0;
    size_t at = from;
    int before = utf8_next(breaker->text->text, to, &at);
    size_t begin = from;
    while (begin < to) {
        width += measured_width_pt(breaker->text, begin, at);
        characters++;
        if (taken > from && !fits(breaker, width, characters))
            break;
        size_t next = at;
        int after = next < to ? utf8_next(breaker->text->text, to, &next) : 0;
        if (at == to || may_part(before, after))
            taken = at;
        before = after;
        begin = at;
        at = next;
    }
    return taken;
}

/* What is left of a segment whose beginning stands on another line already. */
static struct segment rest_of(const struct measured *text, const struct segment *segment,
                              size_t from)
{
    struct segment rest = *segment;
    rest.content_pt = measured_width_pt(text, from, rest.content_end);
    rest.content_characters = measured_characters(text, from, rest.content_end);
    rest.whole_pt = rest.content_pt + segment->whole_pt - segment->content_pt;
    rest.whole_characters =
        rest.content_characters + segment->whole_characters - segment->content_characters;
    return rest;
}

/* Where the line ends that begins at `start`, in the segment *at; *at becomes the next line's. */
static size_t line_end(const struct breaker *breaker, size_t start, size_t *at)
{
    const struct measured *text = breaker->text;
    size_t end = start, characters = 0;
    double width = start == 0 ? breaker->job->indent_pt : 0;
    for (bool must = false; *at < text->segment_count && !must; (*at)++) {
        struct segment segment = text->segments[*at];
        size_t begin = *at > 0 ? text->segments[*at - 1].end : 0;
        if (end == start && start > begin)
            segment = rest_of(text, &segment, start);
        if (!fits(breaker, width + segment.content_pt, characters + segment.content_characters)) {
            if (end > start)
                return end;
            end = fill_with_characters(breaker, start, segment.content_end);
            *at += end == segment.end;
            return end;
        }
        width += segment.whole_pt;
        characters += segment.whole_characters;
        end = segment.end;
        must = segment.must;
    }
    return end;
}

static struct text_line *new_line(struct breaker *breaker)
{
    if (breaker->lines.count == breaker->capacity) {
        size_t capacity = breaker->capacity == 0 ? FIRST_CAPACITY : 2 * breaker->capacity;
        struct text_line *moved = ARENA_ARRAY(breaker->arena, struct text_line, capacity);
        if (breaker->lines.count > 0)
            memcpy(moved, breaker->lines.items, breaker->lines.count * sizeof *moved);
        breaker->lines.items = moved;
        breaker->capacity = capacity;
    }
    return &breaker->lines.items[breaker->lines.count++];
}

static void add_line(struct breaker *breaker, size_t from, size_t to)
{
    const struct measured *text = breaker->text;
    struct text_line *line = new_line(breaker);
    struct line_piece **link = &line->first;
    for (size_t i = 0; i < text->stretch_count && text->stretches[i].begin < to; i++) {
        const struct stretch *stretch = &text->stretches[i];
        size_t a = from > stretch->begin ? from : stretch->begin;
        size_t b = to < stretch->end ? to : stretch->end;
        if (a >= b)
            continue;
        struct line_piece *piece = ARENA_NEW(breaker->arena, struct line_piece);
        *piece =
            (struct line_piece){.span = i,
                                .text = arena_copy_bytes(breaker->arena, text->text + a, b - a),
                                .style = measured_style(text, stretch),
                                .uri = stretch->uri,
                                .lang = stretch->lang,
                                .x = line->width_pt,
                                .width_pt = measured_width_pt(text, a, b)};
        line->width_pt += piece->width_pt;
        *link = piece;
        link = &piece->next;
    }
}

/* Most texts of a table or a drawing fit as they are, and need no look at where they might break.
 */
static struct text_lines break_measured(const struct lines_job *job, struct text_store *store,
                                        struct measured *text)
{
    struct breaker breaker = {
        .job = job, .text = text, .arena = store->arena, .lines = {.size_pt = job->size_pt}};
    if (!text->has_line_ends &&
        fits(&breaker, job->indent_pt + text->whole.content_pt, text->whole.content_characters)) {
        add_line(&breaker, 0, text->whole.content_end);
        return breaker.lines;
    }
    measured_segments(store, text);
    for (size_t start = 0, at = 0; start < text->length;) {
        size_t end = line_end(&breaker, start, &at);
        size_t content_end = measured_trim(text, start, end);
        add_line(&breaker, start, content_end);
        breaker.lines.items[breaker.lines.count - 1].ends_in_space =
            content_end < end && end < text->length;
        start = end;
    }
    return breaker.lines;
}

struct text_lines lines_break(const struct lines_job *job, struct text_store *store)
{
    if (job->spans == NULL)
        return (struct text_lines){0};
    struct measured *text = text_store_find(store, job);
    if (text->length == 0)
        return (struct text_lines){0};
    for (const struct broken_text *b = text->broken; b != NULL; b = b->next)
        if (b->width_pt == job->width_pt && b->indent_pt == job->indent_pt &&
            b->limit == job->character_limit)
            return b->lines;
    struct broken_text *broken = ARENA_NEW(store->arena, struct broken_text);
    *broken = (struct broken_text){job->width_pt, text->broken, job->indent_pt,
                                   job->character_limit, break_measured(job, store, text)};
    text->broken = broken;
    return broken->lines;
}

double lines_width_pt(const struct text_lines *lines)
{
    double widest = 0;
    for (size_t i = 0; i < lines->count; i++)
        if (lines->items[i].width_pt > widest)
            widest = lines->items[i].width_pt;
    return widest;
}
