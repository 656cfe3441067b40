/* A table from text and style to its measured pieces, kept from one layout to the next. */
#include "layout/measured_text.h"

#include <ctype.h>
#include <string.h>
#include <linebreak.h>

#include "base/utf8.h"
#include "base/hash.h"
#include "base/strbuf.h"
#include "layout/block_setters.h"

enum { SLOTS = sizeof((struct text_store *)0)->slots / sizeof(struct measured *) };

/* Ordinary words in an ordinary mixture of letters, to know a font's average width. */
static const char SAMPLE[] =
    "A line of ordinary words that one can read on paper, with 2 numbers. ";

/* The average width of a letter as a share of the size. */
static double letter_share(const struct measure *measure, enum text_style style)
{
    enum { LARGE_PT = 100, LETTERS = sizeof SAMPLE - 1 };
    return measure->width_pt(measure, style, LARGE_PT, SAMPLE, LETTERS) / LETTERS / LARGE_PT;
}

void text_store_init(struct text_store *store, const struct measure *measure, struct arena *arena)
{
    *store = (struct text_store){.measure = measure, .arena = arena};
    for (int style = 0; style < TEXT_STYLE_COUNT; style++)
        store->letter_share[style] = letter_share(measure, style);
    init_linebreak(); /* may be called again */
}

enum text_style measured_style(const struct measured *text, const struct stretch *stretch)
{
    return text->strong ? TEXT_STRONG : stretch->style;
}

static double part_pt(const struct measured *text, const struct stretch *stretch, size_t from,
                      size_t to)
{
    const int32_t *sums = stretch->sums;
    if (sums != NULL)
        return (double)(sums[to - stretch->begin] - sums[from - stretch->begin]) * text->size_pt /
               1000.0;
    return text->measure->width_pt(text->measure, measured_style(text, stretch), text->size_pt,
                                   text->text + from, to - from);
}

double measured_width_pt(const struct measured *text, size_t from, size_t to)
{
    double width = 0;
    if (text->stretch_count == 1 && from < to) /* most texts */
        return part_pt(text, text->stretches, from, to);
    for (size_t i = 0; i < text->stretch_count && text->stretches[i].begin < to; i++) {
        const struct stretch *stretch = &text->stretches[i];
        size_t a = from > stretch->begin ? from : stretch->begin;
        size_t b = to < stretch->end ? to : stretch->end;
        if (a < b)
            width += part_pt(text, stretch, a, b);
    }
    return width;
}

size_t measured_characters(const struct measured *text, size_t from, size_t to)
{
    const size_t length = to > from ? to - from : 0;
    return text->is_ascii ? length : utf8_count(text->text + from, length);
}

size_t measured_trim(const struct measured *text, size_t from, size_t to)
{
    while (to > from && (text->text[to - 1] == ' ' || text->text[to - 1] == '\n'))
        to--;
    return to;
}

/* ---- the store ------------------------------------------------------------------------- */

static bool are_same(const char *one, const char *other)
{
    return one == other || (one != NULL && other != NULL && strcmp(one, other) == 0);
}

static bool is_for(const struct measured *text, const struct lines_job *job)
{
    size_t i = 0;
    if (text->size_pt != job->size_pt || text->strong != job->strong ||
        !are_same(text->lang, job->lang))
        return false;
    for (const struct span *span = job->spans; span != NULL; span = span->next, i++) {
        const struct stretch *own = i < text->stretch_count ? &text->stretches[i] : NULL;
        size_t length = own != NULL ? own->end - own->begin : 0;
        if (own == NULL || span->style != own->style || !are_same(span->uri, own->uri) ||
            !are_same(span->lang, own->lang) ||
            strncmp(span->text, text->text + own->begin, length) != 0 || span->text[length] != '\0')
            return false;
    }
    return i == text->stretch_count;
}

/* Of both ends of the words alone; the rest is compared. */
static uint64_t hash_of(const struct span *spans)
{
    uint64_t hash = HASH_START;
    for (; spans != NULL; spans = spans->next) {
        uint64_t first = 0, last = 0;
        const size_t length = strlen(spans->text);
        if (length >= sizeof first) {
            memcpy(&first, spans->text, sizeof first);
            memcpy(&last, spans->text + length - sizeof last, sizeof last);
        } else {
            for (size_t i = 0; i < length; i++)
                first = first << 8 | (unsigned char)spans->text[i];
        }
        hash = (hash ^ first) * HASH_PRIME;
        hash = (hash ^ last ^ length) * HASH_PRIME;
    }
    return hash ^ hash >> 32; /* high bits hold what the low ones of a product do not */
}

static const char *keep(struct arena *arena, const char *text)
{
    return text != NULL ? arena_copy_text(arena, text) : NULL;
}

/* Joins the spans and notes where each stands. */
static void gather(struct arena *arena, struct measured *text, const struct span *spans)
{
    struct strbuf all;
    size_t count = 0;
    for (const struct span *span = spans; span != NULL; span = span->next)
        count++;
    text->stretches = ARENA_ARRAY(arena, struct stretch, count);
    strbuf_init(&all, arena);
    for (const struct span *span = spans; span != NULL; span = span->next) {
        size_t begin = all.length;
        strbuf_add(&all, span->text);
        text->stretches[text->stretch_count++] = (struct stretch){.style = span->style,
                                                                  .uri = keep(arena, span->uri),
                                                                  .lang = keep(arena, span->lang),
                                                                  .begin = begin,
                                                                  .end = all.length};
    }
    text->text = all.text;
    text->length = all.length;
}

/* Widths of parts by the sums of the whole, each byte looked at once. */
static void sum_up(struct arena *arena, const struct measured *text, struct stretch *stretch)
{
    const struct measure *measure = text->measure;
    const size_t length = stretch->end - stretch->begin;
    int32_t *sums = measure->sum != NULL && length > 0
                        ? arena_take_unset(arena, (length + 1) * sizeof *sums)
                        : NULL;
    if (sums != NULL && measure->sum(measure, measured_style(text, stretch),
                                     text->text + stretch->begin, length, sums))
        stretch->sums = sums;
}

static bool is_ascii(const char *text, size_t length)
{
    unsigned char all = 0;
    for (size_t i = 0; i < length; i++)
        all |= (unsigned char)text[i];
    return all < 0x80;
}

/* Mandatory breaks of UAX #14: LF, VT, FF, CR, U+0085, U+2028, U+2029. */
static bool has_line_ends(const struct measured *text)
{
    return strpbrk(text->text, "\n\v\f\r") ||
           (!text->is_ascii &&
            (strstr(text->text, "\xc2\x85") || strstr(text->text, "\xe2\x80\xa8") ||
             strstr(text->text, "\xe2\x80\xa9")));
}

struct measured *text_store_find(struct text_store *store, const struct lines_job *job)
{
    uint32_t hash = hash_of(job->spans);
    struct measured **slot = &store->slots[hash % SLOTS];
    for (struct measured *text = *slot; text != NULL; text = text->next)
        if (text->hash == hash && is_for(text, job))
            return text;
    struct measured *text = ARENA_NEW(store->arena, struct measured);
    text->measure = store->measure;
    text->size_pt = job->size_pt;
    text->strong = job->strong;
    text->lang = job->lang;
    text->hash = hash;
    gather(store->arena, text, job->spans);
    for (size_t i = 0; i < text->stretch_count; i++)
        sum_up(store->arena, text, &text->stretches[i]);
    text->is_ascii = is_ascii(text->text, text->length);
    text->has_line_ends = has_line_ends(text);
    size_t end = measured_trim(text, 0, text->length);
    text->whole.end = text->length;
    text->whole.content_end = end;
    text->whole.content_pt = measured_width_pt(text, 0, end);
    text->whole.content_characters = measured_characters(text, 0, end);
    text->next = *slot;
    *slot = text;
    return text;
}

/* ---- segments ---------------------------------------------------------------------------- */

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* UAX #14 lets a line end behind the dash of "30-32" (U+2013); a reader would take the first number
 * for the whole. */
static void keep_bands_whole(const struct measured *text, char *breaks)
{
    static const char dash[] = "\xe2\x80\x93";
    const size_t width = sizeof dash - 1;
    for (const char *at = text->text; (at = strstr(at, dash)) != NULL; at += width) {
        const size_t end = (size_t)(at - text->text) + width;
        if (end > width && is_digit(at[-1]) && is_digit(text->text[end]))
            breaks[end - 1] = LINEBREAK_NOBREAK;
    }
}

enum { UNIT_MOST = 3 }; /* bytes of a unit's name */

static size_t letters_from(const char *text, size_t from, size_t length)
{
    size_t i = from;
    while (i < length && isalpha((unsigned char)text[i]))
        i++;
    return i - from;
}

static size_t letters_before(const char *text, size_t to)
{
    size_t i = to;
    while (i > 0 && isalpha((unsigned char)text[i - 1]))
        i--;
    return to - i;
}

/* How many bytes of blank stand between a number and what begins at `at`: 0 where none is, or what
 * is before it is no number. */
static size_t blank_behind_number(const char *text, size_t at)
{
    static const char *const blanks[] = {" ", "\xc2\xa0", "\xe2\x80\xaf"}; /* U+00A0, U+202F */
    for (size_t i = 0; i < sizeof blanks / sizeof *blanks; i++) {
        size_t length = strlen(blanks[i]);
        if (at > length && memcmp(text + at - length, blanks[i], length) == 0 &&
            is_digit(text[at - length - 1]))
            return length;
    }
    return 0;
}

/* Nor does one stand in "100 mg/ml", which UAX #14 would part behind the slash and the number. */
static void keep_rates_whole(const struct measured *text, char *breaks)
{
    const char *end = text->text + text->length, *slash = text->text;
    for (; (slash = memchr(slash, '/', (size_t)(end - slash))) != NULL; slash++) {
        const size_t i = (size_t)(slash - text->text);
        if (i == 0 || i + 1 == text->length)
            continue;
        size_t before = letters_before(text->text, i),
               behind = letters_from(text->text, i + 1, text->length);
        if (before == 0 || before > UNIT_MOST || behind == 0 || behind > UNIT_MOST ||
            !blank_behind_number(text->text, i - before))
            continue; /* "and/or" is no rate */
        breaks[i] = breaks[i - before - 1] = LINEBREAK_NOBREAK;
    }
}

static struct segment measure_segment(const struct measured *text, const char *breaks, size_t from)
{
    size_t i = from;
    while (i + 1 < text->length && breaks[i] != LINEBREAK_MUSTBREAK &&
           breaks[i] != LINEBREAK_ALLOWBREAK)
        i++;
    struct segment segment = {.end = i + 1, .must = breaks[i] == LINEBREAK_MUSTBREAK};
    segment.content_end = measured_trim(text, from, segment.end);
    segment.content_pt = measured_width_pt(text, from, segment.content_end);
    segment.content_characters = measured_characters(text, from, segment.content_end);
    size_t drawn = segment.end;
    while (drawn > segment.content_end && text->text[drawn - 1] == '\n')
        drawn--;
    segment.whole_pt = segment.content_pt + measured_width_pt(text, segment.content_end, drawn);
    segment.whole_characters =
        segment.content_characters + measured_characters(text, segment.content_end, drawn);
    return segment;
}

static bool is_letter(char c)
{
    const unsigned char letter = (unsigned char)c | 0x20;
    return letter >= 'a' && letter <= 'z';
}

/* The text with one number sign for each run of ASCII's letters: all are of class AL (UAX #14),
 * which is all that breaking looks at, none of its rules parts two of them or asks how many they
 * are, and libunibreak, which looks its table through from the start, comes to that sign first.
 * Returns its length. */
static size_t join_letters(const struct measured *text, utf8_t *joined)
{
    size_t count = 0;
    for (size_t i = 0; i < text->length; i++) {
        const bool is_one = is_letter(text->text[i]);
        if (!is_one || i == 0 || !is_letter(text->text[i - 1]))
            joined[count++] = is_one ? '#' : (utf8_t)text->text[i];
    }
    return count;
}

/* What stands behind each byte of the text. */
static char *find_breaks(struct arena *arena, const struct measured *text)
{
    utf8_t *joined = arena_take_unset(arena, text->length);
    char *breaks = arena_take_unset(arena, text->length);
    char *of_joined = arena_take_unset(arena, text->length);
    size_t at = join_letters(text, joined);
    set_linebreaks_utf8(joined, at, text->lang, of_joined);
    for (size_t i = text->length; i-- > 0;) {
        const bool goes_on =
            i + 1 < text->length && is_letter(text->text[i]) && is_letter(text->text[i + 1]);
        breaks[i] = goes_on ? LINEBREAK_NOBREAK : of_joined[--at];
    }
    return breaks;
}

void measured_segments(struct text_store *store, struct measured *text)
{
    if (text->segment_count > 0)
        return;
    char *breaks = find_breaks(store->arena, text);
    if (!text->is_ascii)
        keep_bands_whole(text, breaks);
    keep_rates_whole(text, breaks);
    size_t count = 1;
    for (size_t i = 0; i + 1 < text->length; i++)
        count += breaks[i] == LINEBREAK_MUSTBREAK || breaks[i] == LINEBREAK_ALLOWBREAK;
    struct segment *segments = ARENA_ARRAY_UNSET(store->arena, struct segment, count);
    for (size_t from = 0; from < text->length; from = segments[text->segment_count++].end)
        segments[text->segment_count] = measure_segment(text, breaks, from);
    text->segments = segments;
}
