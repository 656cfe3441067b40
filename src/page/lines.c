#include "page/lines.h"

#include <string.h>
#include <linebreak.h>

#include "page/utf8.h"
#include "support/strbuf.h"

/* Sums of rounded widths may miss an exact fit by so much. */
static const double SLACK_PT = 0.005;

enum { FIRST_CAPACITY = 8 };

/* Where a span's bytes stand in the whole text. */
struct stretch {
    const struct span *span;
    size_t begin, end;
};

struct breaker {
    const struct lines_job *job;
    const struct measure *measure;
    struct arena *arena;
    const char *text; /* all spans, one behind the other */
    size_t length;
    char *breaks; /* libunibreak's answer for each byte */
    struct stretch *stretches;
    size_t stretch_count;
    struct text_lines lines;
    size_t capacity;
};

void lines_prepare(void)
{
    init_linebreak();
}

/* Marks that join what stands before them (general categories Mn, Me and the format characters
 * that shape glyphs), in the ranges that European text uses. */
static bool is_joined(int code_point)
{
    static const struct {
        int first, last;
    } ranges[] = {{0x0300, 0x036F}, {0x0483, 0x0489}, {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF},
                  {0x200D, 0x200D}, {0x20D0, 0x20FF}, {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}};
    for (size_t i = 0; i < sizeof ranges / sizeof ranges[0]; i++) {
        if (code_point >= ranges[i].first && code_point <= ranges[i].last) {
            return true;
        }
    }
    return false;
}

/* May an over-long word be broken between these two? */
static bool may_part(int before, int after)
{
    static const int glue[] = {0x00A0, 0x202F, 0x2060, 0xFEFF, 0x200D};
    if (is_joined(after)) {
        return false;
    }
    for (size_t i = 0; i < sizeof glue / sizeof glue[0]; i++) {
        if (before == glue[i] || after == glue[i]) {
            return false;
        }
    }
    return true;
}

static enum text_style style_of(const struct breaker *breaker, const struct span *span)
{
    return breaker->job->strong ? TEXT_STRONG : span->style;
}

/* The width of the bytes from..to, each span's share in its own style. */
static double width_between(const struct breaker *breaker, size_t from, size_t to)
{
    double width = 0;
    for (size_t i = 0; i < breaker->stretch_count && breaker->stretches[i].begin < to; i++) {
        const struct stretch *stretch = &breaker->stretches[i];
        size_t a = from > stretch->begin ? from : stretch->begin;
        size_t b = to < stretch->end ? to : stretch->end;
        if (a < b) {
            width += breaker->measure->width_pt(breaker->measure, style_of(breaker, stretch->span),
                                                breaker->job->size_pt, breaker->text + a, b - a);
        }
    }
    return width;
}

static size_t characters_between(const struct breaker *breaker, size_t from, size_t to)
{
    size_t count = 0;
    while (from < to) {
        utf8_next(breaker->text, to, &from);
        count++;
    }
    return count;
}

static bool fits(const struct breaker *breaker, double width_pt, size_t characters)
{
    size_t limit = breaker->job->character_limit;
    return width_pt <= breaker->job->width_pt + SLACK_PT && (limit == 0 || characters <= limit);
}

static size_t trim_end(const struct breaker *breaker, size_t from, size_t to)
{
    while (to > from && (breaker->text[to - 1] == ' ' || breaker->text[to - 1] == '\n')) {
        to--;
    }
    return to;
}

/* How far an over-long word goes on a line of its own: at least one character with its marks. */
static size_t fill_with_characters(const struct breaker *breaker, size_t from, size_t to)
{
    size_t taken = from, characters = 0;
    double width = 0;
    size_t at = from;
    int before = utf8_next(breaker->text, to, &at);
    size_t begin = from;
    while (begin < to) {
        width += width_between(breaker, begin, at);
        characters++;
        if (taken > from && !fits(breaker, width, characters)) {
            break;
        }
        size_t next = at;
        int after = next < to ? utf8_next(breaker->text, to, &next) : 0;
        if (at == to || may_part(before, after)) {
            taken = at;
        }
        before = after;
        begin = at;
        at = next;
    }
    return taken;
}

/* The end of the stretch from `from` to its next break opportunity. */
static size_t segment_end(const struct breaker *breaker, size_t from, bool *must)
{
    size_t i = from;
    while (i + 1 < breaker->length && breaker->breaks[i] != LINEBREAK_MUSTBREAK &&
           breaker->breaks[i] != LINEBREAK_ALLOWBREAK) {
        i++;
    }
    *must = breaker->breaks[i] == LINEBREAK_MUSTBREAK;
    return i + 1;
}

static size_t line_end(const struct breaker *breaker, size_t start)
{
    size_t end = start, characters = 0;
    double width = 0;
    bool must = false;
    while (end < breaker->length && !must) {
        size_t segment = segment_end(breaker, end, &must);
        size_t content = trim_end(breaker, end, segment);
        double content_width = width + width_between(breaker, end, content);
        if (!fits(breaker, content_width, characters + characters_between(breaker, end, content))) {
            return end > start ? end : fill_with_characters(breaker, start, content);
        }
        size_t drawn = segment;
        while (drawn > content && breaker->text[drawn - 1] == '\n') {
            drawn--;
        }
        width = content_width + width_between(breaker, content, drawn);
        characters += characters_between(breaker, end, drawn);
        end = segment;
    }
    return end;
}

static struct text_line *new_line(struct breaker *breaker)
{
    if (breaker->lines.count == breaker->capacity) {
        size_t capacity = breaker->capacity == 0 ? FIRST_CAPACITY : 2 * breaker->capacity;
        struct text_line *moved = ARENA_ARRAY(breaker->arena, struct text_line, capacity);
        if (breaker->lines.count > 0) {
            memcpy(moved, breaker->lines.items, breaker->lines.count * sizeof *moved);
        }
        breaker->lines.items = moved;
        breaker->capacity = capacity;
    }
    return &breaker->lines.items[breaker->lines.count++];
}

static void add_line(struct breaker *breaker, size_t from, size_t to)
{
    struct text_line *line = new_line(breaker);
    struct line_piece **link = &line->first;
    for (size_t i = 0; i < breaker->stretch_count && breaker->stretches[i].begin < to; i++) {
        const struct stretch *stretch = &breaker->stretches[i];
        size_t a = from > stretch->begin ? from : stretch->begin;
        size_t b = to < stretch->end ? to : stretch->end;
        if (a >= b) {
            continue;
        }
        struct line_piece *piece = ARENA_NEW(breaker->arena, struct line_piece);
        *piece =
            (struct line_piece){.span = i,
                                .text = arena_copy_bytes(breaker->arena, breaker->text + a, b - a),
                                .style = style_of(breaker, stretch->span),
                                .uri = stretch->span->uri,
                                .x = line->width_pt,
                                .width_pt = width_between(breaker, a, b)};
        line->width_pt += piece->width_pt;
        *link = piece;
        link = &piece->next;
    }
}

/* Joins the spans and notes where each stands. False when there is nothing to break. */
static bool gather(struct breaker *breaker)
{
    struct strbuf text;
    size_t count = 0;
    for (const struct span *span = breaker->job->spans; span != NULL; span = span->next) {
        count++;
    }
    if (count == 0) {
        return false;
    }
    breaker->stretches = ARENA_ARRAY(breaker->arena, struct stretch, count);
    strbuf_init(&text, breaker->arena);
    for (const struct span *span = breaker->job->spans; span != NULL; span = span->next) {
        size_t begin = text.length;
        strbuf_add(&text, span->text);
        breaker->stretches[breaker->stretch_count++] =
            (struct stretch){.span = span, .begin = begin, .end = text.length};
    }
    breaker->text = text.text;
    breaker->length = text.length;
    return text.length > 0;
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* UAX #14 lets a line end behind the dash of "30-32" (U+2013); a reader would take the first number
 * for the whole. */
static void keep_bands_whole(struct breaker *breaker)
{
    static const char dash[] = "\xe2\x80\x93";
    const size_t width = sizeof dash - 1;
    for (size_t i = 1; i + width < breaker->length; i++) {
        if (memcmp(breaker->text + i, dash, width) == 0 && is_digit(breaker->text[i - 1]) &&
            is_digit(breaker->text[i + width])) {
            breaker->breaks[i + width - 1] = LINEBREAK_NOBREAK;
        }
    }
}

/* Mandatory breaks of UAX #14: LF, VT, FF, CR, U+0085, U+2028, U+2029. */
static bool has_line_ends(const char *text)
{
    return strpbrk(text, "\n\v\f\r") || strstr(text, "\xc2\x85") || strstr(text, "\xe2\x80\xa8") ||
           strstr(text, "\xe2\x80\xa9");
}

/* Most texts of a table or a drawing fit as they are, and need no look at where they might break.
 */
static bool is_one_line(const struct breaker *breaker)
{
    size_t end = trim_end(breaker, 0, breaker->length);
    return !has_line_ends(breaker->text) &&
           fits(breaker, width_between(breaker, 0, end), characters_between(breaker, 0, end));
}

struct text_lines lines_break(const struct lines_job *job, const struct measure *measure,
                              struct arena *arena)
{
    struct breaker breaker = {.job = job, .measure = measure, .arena = arena};
    if (!gather(&breaker)) {
        return breaker.lines;
    }
    if (is_one_line(&breaker)) {
        add_line(&breaker, 0, trim_end(&breaker, 0, breaker.length));
        return breaker.lines;
    }
    breaker.breaks = arena_take(arena, breaker.length);
    set_linebreaks_utf8((const utf8_t *)breaker.text, breaker.length, job->lang, breaker.breaks);
    keep_bands_whole(&breaker);
    for (size_t start = 0; start < breaker.length;) {
        size_t end = line_end(&breaker, start);
        add_line(&breaker, start, trim_end(&breaker, start, end));
        start = end;
    }
    return breaker.lines;
}

double lines_width_pt(const struct text_lines *lines)
{
    double widest = 0;
    for (size_t i = 0; i < lines->count; i++) {
        if (lines->items[i].width_pt > widest) {
            widest = lines->items[i].width_pt;
        }
    }
    return widest;
}
