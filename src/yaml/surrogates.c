/* Joins JSON's pairs of escapes into one of YAML's. */
#include "yaml/surrogates.h"

#include <stdio.h>
#include <string.h>

#include "base/hex.h"
#include "base/utf8.h"

enum {
    ESCAPE = 6,       /* bytes of \u and four digits */
    LONG_ESCAPE = 10, /* bytes of \U and eight digits */
    SHORTER = 2 * ESCAPE - LONG_ESCAPE,
    READ_MOST = 256 * 1024 * 1024, /* bytes, over all the readings of one text: some seconds */
};

/* The number of an escape of four digits; -1 for anything else. */
static long escape_at(struct bytes text, size_t at)
{
    if (at + ESCAPE > text.length || text.data[at] != '\\' || text.data[at + 1] != 'u')
        return -1;
    long number = 0;
    for (size_t i = at + 2; i < at + ESCAPE; i++) {
        int digit = hex_value(text.data[i]);
        if (digit < 0)
            return -1;
        number = number * 16 + digit;
    }
    return number;
}

/* The character of the two escapes that begin here; -1 where there are no two that belong together.
 */
static long pair_at(struct bytes text, size_t at)
{
    long high = escape_at(text, at), low = escape_at(text, at + ESCAPE);
    bool belong = high >= 0xD800 && high <= 0xDBFF && low >= 0xDC00 && low <= 0xDFFF;
    return belong ? 0x10000 + ((high - 0xD800) << 10) + (low - 0xDC00) : -1;
}

bool surrogates_are_possible(struct bytes text)
{
    for (const char *at = text.data, *end = text.data + text.length;
         at && (at = memchr(at, '\\', (size_t)(end - at))) != NULL; at++)
        if (end - at > 3 && at[1] == 'u' && (at[2] | 0x20) == 'd')
            return true;
    return false;
}

/* The first place that the parser refuses as an escape; false where it refuses none. */
static bool refused_escape(struct bytes text, yaml_mark_t *at)
{
    yaml_parser_t parser;
    if (!yaml_parser_initialize(&parser))
        support_out_of_memory();
    yaml_parser_set_encoding(&parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&parser, (const unsigned char *)text.data, text.length);
    bool good = true, done = false;
    while (good && !done) {
        yaml_token_t token;
        good = yaml_parser_scan(&parser, &token);
        done = good && token.type == YAML_STREAM_END_TOKEN;
        if (good)
            yaml_token_delete(&token);
    }
    bool escape = !good && parser.error == YAML_SCANNER_ERROR && parser.problem &&
                  strstr(parser.problem, "character escape code");
    *at = parser.problem_mark;
    yaml_parser_delete(&parser);
    return escape;
}

/* The byte of the character at this place; the parser counts characters. */
static size_t byte_of(struct bytes text, size_t index)
{
    size_t at = 0;
    for (size_t i = 0; i < index && at < text.length; i++)
        do
            at++;
        while (at < text.length && utf8_goes_on(text.data[at]));
    return at;
}

static void note(struct joined_pairs *pairs, size_t line, size_t behind, struct arena *arena)
{
    /* grown by doubling: the arena keeps what was outgrown, no more than as much again */
    if ((pairs->count & (pairs->count - 1)) == 0) {
        size_t room = pairs->count ? 2 * pairs->count : 1;
        struct joined_pair *items = ARENA_ARRAY(arena, struct joined_pair, room);
        if (pairs->count)
            memcpy(items, pairs->items, pairs->count * sizeof *items);
        pairs->items = items;
    }
    pairs->items[pairs->count++] = (struct joined_pair){line, behind};
}

/* Joins the pairs from the escape at `from` to the end of its double quotes, in place. False when
 * the escape begins no pair. */
static bool join_quoted(struct bytes *text, char *data, size_t from, yaml_mark_t at,
                        struct joined_pairs *pairs, struct arena *arena)
{
    if (pair_at(*text, from) < 0)
        return false;
    size_t line = at.line, column = at.column, to = from;
    while (from < text->length && data[from] != '"') {
        long character = pair_at(*text, from);
        if (character >= 0) {
            char joined[LONG_ESCAPE + 1];
            snprintf(joined, sizeof joined, "\\U%08X", (unsigned)character);
            memcpy(data + to, joined, LONG_ESCAPE);
            to += LONG_ESCAPE;
            from += 2 * (size_t)ESCAPE;
            column += LONG_ESCAPE;
            note(pairs, line, column, arena);
            continue;
        }
        size_t length = data[from] == '\\' && from + 1 < text->length ? 2 : 1;
        for (size_t i = 0; i < length; i++, from++) {
            column = data[from] == '\n' ? 0 : column + !utf8_goes_on(data[from]);
            line += data[from] == '\n';
            data[to++] = data[from];
        }
    }
    memmove(data + to, data + from, text->length - from);
    text->length -= from - to;
    return true;
}

struct bytes surrogates_join(struct bytes text, struct arena *arena, struct joined_pairs *pairs)
{
    *pairs = (struct joined_pairs){0};
    if (!surrogates_are_possible(text))
        return text;
    char *data = arena_copy_bytes(arena, text.data, text.length);
    struct bytes joined = {data, text.length};
    yaml_mark_t at;
    /* one reading a quoted text that has pairs; what is left beyond the bound is refused */
    for (size_t left = READ_MOST; left >= joined.length && refused_escape(joined, &at);
         left -= joined.length) {
        /* the parser stands on the first digit */
        size_t escape = byte_of(joined, at.index);
        at.column -= at.column < 2 ? at.column : 2;
        if (escape < 2 || !join_quoted(&joined, data, escape - 2, at, pairs, arena))
            break;
    }
    return joined;
}

yaml_mark_t surrogates_place(const struct joined_pairs *pairs, yaml_mark_t at)
{
    size_t earlier = 0;
    for (size_t i = 0; i < pairs->count && pairs->items[i].line <= at.line; i++)
        earlier += pairs->items[i].line == at.line && pairs->items[i].behind <= at.column;
    at.column += earlier * SHORTER;
    return at;
}
