/* Writes a CMap from codes to UTF-16. */
#include "pdf/tounicode.h"

#include <stdbool.h>

enum {
    BLOCK_LIMIT = 100, /* ranges between beginbfrange and endbfrange */
    RANGE_LIMIT = 256
};

struct range {
    unsigned from, to, unicode;
};

/* Ranges on their way into a CMap. */
struct ranges {
    struct strbuf *out;
    int digits; /* of a code: 2 or 4 */
    struct range list[BLOCK_LIMIT];
    size_t count;
};

/* Writes the block of ranges that has gathered. */
static void flush(struct ranges *ranges)
{
    if (ranges->count == 0)
        return;
    strbuf_addf(ranges->out, "%zu beginbfrange\n", ranges->count);
    for (size_t i = 0; i < ranges->count; i++) {
        const struct range *range = &ranges->list[i];
        strbuf_addf(ranges->out, "<%0*X><%0*X><%04X>\n", ranges->digits, range->from,
                    ranges->digits, range->to, range->unicode);
    }
    strbuf_add(ranges->out, "endbfrange\n");
    ranges->count = 0;
}

/* A range may not leave the codes that share their upper byte, neither the source's nor the
 * target's (ISO 32000-1, 9.10.3). */
static void add(struct ranges *ranges, unsigned code, unsigned unicode)
{
    if (ranges->count > 0) {
        struct range *last = &ranges->list[ranges->count - 1];
        bool follows = code == last->to + 1 && unicode == last->unicode + (code - last->from);
        if (follows && code % RANGE_LIMIT != 0 && unicode % RANGE_LIMIT != 0) {
            last->to = code;
            return;
        }
    }
    if (ranges->count == BLOCK_LIMIT)
        flush(ranges);
    ranges->list[ranges->count++] = (struct range){code, code, unicode};
}

/* What every CMap begins with. */
static void begin(struct strbuf *out, const char *codespace)
{
    strbuf_add(out, "/CIDInit /ProcSet findresource begin\n"
                    "12 dict begin\n"
                    "begincmap\n"
                    "/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n"
                    "/CMapName /Adobe-Identity-UCS def\n"
                    "/CMapType 2 def\n"
                    "1 begincodespacerange\n");
    strbuf_add(out, codespace);
    strbuf_add(out, "\nendcodespacerange\n");
}

/* What every CMap ends with. */
static void end(struct strbuf *out)
{
    strbuf_add(out, "endcmap\n"
                    "CMapName currentdict /CMap defineresource pop\n"
                    "end\n"
                    "end\n");
}

void tounicode_single_byte(enum codepage page, const uint8_t used[256], struct strbuf *out)
{
    struct ranges ranges = {.out = out, .digits = 2};
    begin(out, "<00><FF>");
    for (int code = 0; code < 256; code++) {
        unsigned unicode = used[code] ? codepages_unicode(page, code) : 0;
        if (unicode != 0)
            add(&ranges, (unsigned)code, unicode);
    }
    flush(&ranges);
    end(out);
}

void tounicode_two_byte(const uint8_t *used, struct strbuf *out)
{
    struct ranges ranges = {.out = out, .digits = 4};
    begin(out, "<0000><FFFF>");
    for (unsigned code = 0; code < 0x10000; code++)
        if (used[code / 8] & 1u << code % 8)
            add(&ranges, code, code);
    flush(&ranges);
    end(out);
}
