/* Which declared instructions stand on the pages of a sheet: what was said on the way to them, held
 * against the letters that are drawn there. */
#include "render/printed_instructions.h"

#include <string.h>

#include "base/strbuf.h"
#include "words/phrase.h"

/* Letters and figures alone: lines, marks and panels part a sentence in other places. */
static bool is_letter(char byte)
{
    return (unsigned char)byte >= 0x80 || (byte >= '0' && byte <= '9') ||
           (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z');
}

static void add_letters(struct strbuf *out, const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        bool is_space = i + 1 < length && memcmp(text + i, "\xc2\xa0", 2) == 0;
        i += is_space;
        if (!is_space && is_letter(text[i]))
            strbuf_add_char(out,
                            (char)(text[i] >= 'A' && text[i] <= 'Z' ? text[i] | 0x20 : text[i]));
    }
}

/* What the pages say, without what runs along at their heads and feet. */
static const char *letters_of(const struct paged *paged, struct arena *arena)
{
    struct strbuf letters;
    strbuf_init(&letters, arena);
    for (size_t i = 0; i < paged->page_count; i++)
        for (const struct op *op = paged->pages[i].first; op; op = op->next)
            if (op->kind == OP_TEXT && op->element != OPS_ARTIFACT)
                add_letters(&letters, op->text, strlen(op->text));
    return letters.text;
}

/* A term may have got its meaning between two sentences, a first letter may have become large. */
static bool stands_in(const char *letters, const char *text, struct arena *arena)
{
    static const char ends[] = ".!?:";
    bool any = false;
    while (*text) {
        size_t length = strcspn(text, ends);
        struct strbuf own;
        strbuf_init(&own, arena);
        add_letters(&own, text, length);
        const char *rest = own.text;
        if (own.length)
            do
                rest++;
            while (((unsigned char)*rest & 0xC0) == 0x80);
        if (own.length && !strstr(letters, rest))
            return false;
        any |= own.length > 0;
        text += length + strspn(text + length, ends);
    }
    return any;
}

bool printed_instructions(const struct sheet_inputs *in, struct arena *arena, struct diag *diag,
                          const struct instruction_plan **out, size_t *count)
{
    struct said_log said = {0};
    struct paged paged = {0};
    struct sheet_options options = *in->options;
    struct sheet_inputs own = *in;
    options.said = &said;
    own.options = &options;
    if (!sheet_lay(&own, arena, diag, &paged))
        return false;
    const char *letters = letters_of(&paged, arena);
    const size_t places = plan_instruction_places(in->plan);
    bool *stands = ARENA_ARRAY(arena, bool, places + 1);
    for (const struct said_text *one = said.last; one; one = one->next)
        stands[one->place] = stands[one->place] || stands_in(letters, one->text, arena);
    struct instruction_plan *items = ARENA_ARRAY(arena, struct instruction_plan, places + 1);
    *count = 0;
    for (size_t place = 0; place < places; place++)
        if (stands[place])
            items[(*count)++] = plan_instruction(in->plan, place);
    *out = items;
    return true;
}
