/* Parts a text by direction and font, shapes each part, and finds the parts' places on paper.
 *
 * Directions are those of Unicode Standard Annex 9 in a line that runs from left to right, found by
 * FriBidi. A word is set in one font where one has all of it. */
#include "pdf/letters/letters_faces.h"

#include <fribidi.h>
#include <stdlib.h>
#include <string.h>

#include "base/strbuf.h"
#include "base/utf8.h"

/* One letter of the text on its way. */
struct letter {
    unsigned code_point;
    size_t begin, end; /* bytes */
    int face;
    FriBidiLevel level;
    bool is_silent; /* steers the direction, or chooses a form that no font of ours knows */
};

struct laying {
    struct letters *letters;
    enum text_style style;
    const char *text;
    struct letter *list;
    size_t count;
    struct arena *arena;
    struct letter_line *out;
};

/* From a letter to behind another, in one font and direction. */
struct stretch_of {
    size_t from, to;
};

static bool is_joiner(unsigned code_point)
{
    return code_point == 0x200C || code_point == 0x200D;
}

/* Of Default_Ignorable_Code_Point what can stand in a text and has no shape of its own. */
static bool is_silent(unsigned code_point)
{
    return code_point == 0x00AD || code_point == 0x061C || code_point == 0xFEFF ||
           (code_point >= 0x200B && code_point <= 0x200F) ||
           (code_point >= 0x202A && code_point <= 0x202E) ||
           (code_point >= 0x2060 && code_point <= 0x2069) ||
           (code_point >= 0xFE00 && code_point <= 0xFE0F) || code_point == 0x034F;
}

static bool is_mark(unsigned code_point)
{
    hb_unicode_general_category_t category =
        hb_unicode_general_category(hb_unicode_funcs_get_default(), code_point);
    return category == HB_UNICODE_GENERAL_CATEGORY_NON_SPACING_MARK ||
           category == HB_UNICODE_GENERAL_CATEGORY_SPACING_MARK ||
           category == HB_UNICODE_GENERAL_CATEGORY_ENCLOSING_MARK || is_joiner(code_point);
}

/* Private use, and what stands for no character: no PDF may lead to it. */
static bool is_private(unsigned code_point)
{
    return (code_point >= 0xE000 && code_point <= 0xF8FF) || code_point >= 0xF0000 ||
           (code_point >= 0xFFFD && code_point <= 0xFFFF);
}

static bool is_of_body(const struct laying *l, const struct letter *letter)
{
    return !letters_are_needed(letter->code_point) &&
           l->letters->body_advance(l->letters->body, l->style, letter->code_point) >= 0;
}

static bool has(struct letters *letters, enum text_style style, unsigned code_point)
{
    if (code_point < 0x20 || is_private(code_point))
        return false;
    return is_silent(code_point) ||
           (!letters_are_needed(code_point) &&
            letters->body_advance(letters->body, style, code_point) >= 0) ||
           faces_next(letters, style, code_point, -1) != FACES_NONE;
}

/* ---- directions ------------------------------------------------------------------------------ */

static void read_letters(struct laying *l, struct bytes text)
{
    l->list = ARENA_ARRAY(l->arena, struct letter, text.length + 1);
    for (size_t at = 0; at < text.length;) {
        struct letter *letter = &l->list[l->count++];
        letter->begin = at;
        int code_point = utf8_next(text.data, text.length, &at);
        letter->code_point = code_point < 0 ? 0xFFFD : (unsigned)code_point;
        letter->end = at;
        letter->is_silent = is_silent(letter->code_point);
        letter->face = LETTERS_BODY;
    }
}

static void find_levels(struct laying *l)
{
    FriBidiChar *text = ARENA_ARRAY(l->arena, FriBidiChar, l->count);
    FriBidiCharType *types = ARENA_ARRAY(l->arena, FriBidiCharType, l->count);
    FriBidiBracketType *brackets = ARENA_ARRAY(l->arena, FriBidiBracketType, l->count);
    FriBidiLevel *levels = ARENA_ARRAY(l->arena, FriBidiLevel, l->count);
    FriBidiParType base = FRIBIDI_PAR_LTR;
    const FriBidiStrIndex count = (FriBidiStrIndex)l->count;
    for (size_t i = 0; i < l->count; i++)
        text[i] = l->list[i].code_point;
    fribidi_get_bidi_types(text, count, types);
    fribidi_get_bracket_types(text, count, types, brackets);
    if (fribidi_get_par_embedding_levels_ex(types, brackets, count, &base, levels) == 0)
        support_out_of_memory();
    for (size_t i = 0; i < l->count; i++)
        l->list[i].level = levels[i];
}

/* ---- fonts ----------------------------------------------------------------------------------- */

static bool has_all(const struct laying *l, int face, struct stretch_of part)
{
    for (size_t i = part.from; i < part.to; i++)
        if (!l->list[i].is_silent && !faces_has(l->letters, face, l->list[i].code_point))
            return false;
    return true;
}

/* The best face for one letter that has all of a part, FACES_NONE where none has. */
static int face_for(const struct laying *l, unsigned code_point, struct stretch_of part)
{
    int face = -1;
    while ((face = faces_next(l->letters, l->style, code_point, face)) != FACES_NONE)
        if (has_all(l, face, part))
            return face;
    return FACES_NONE;
}

static void give(struct laying *l, struct stretch_of part, int face)
{
    for (size_t i = part.from; i < part.to; i++)
        l->list[i].face = face;
}

/* A letter with its marks; where no font has them together, each for itself. */
static bool choose_for_cluster(struct laying *l, struct stretch_of part)
{
    const struct letter *first = &l->list[part.from];
    if (part.to == part.from + 1 && (first->is_silent || is_of_body(l, first)))
        return true;
    int face = face_for(l, first->code_point, part);
    if (face != FACES_NONE) {
        give(l, part, face);
        return true;
    }
    for (size_t i = part.from; i < part.to; i++) {
        struct letter *letter = &l->list[i];
        if (letter->is_silent || is_of_body(l, letter))
            continue;
        letter->face = faces_next(l->letters, l->style, letter->code_point, -1);
        if (letter->face == FACES_NONE)
            return false;
    }
    return true;
}

static bool choose_for_word(struct laying *l, struct stretch_of word)
{
    size_t foreign = word.from;
    while (foreign < word.to && (l->list[foreign].is_silent || is_of_body(l, &l->list[foreign])))
        foreign++;
    if (foreign == word.to)
        return true;
    int face = face_for(l, l->list[foreign].code_point, word);
    if (face != FACES_NONE) {
        give(l, word, face);
        return true;
    }
    for (size_t from = word.from, to; from < word.to; from = to) {
        for (to = from + 1; to < word.to && is_mark(l->list[to].code_point); to++)
            continue;
        if (!choose_for_cluster(l, (struct stretch_of){from, to}))
            return false;
    }
    return true;
}

static bool is_space(unsigned code_point)
{
    return code_point == ' ' || code_point == 0x00A0 || code_point == '\n';
}

static bool choose_faces(struct laying *l)
{
    for (size_t from = 0, to; from < l->count; from = to) {
        for (to = from; to < l->count && !is_space(l->list[to].code_point); to++)
            continue;
        if (!choose_for_word(l, (struct stretch_of){from, to}))
            return false;
        while (to < l->count && is_space(l->list[to].code_point))
            to++;
    }
    return true;
}

/* ---- runs ------------------------------------------------------------------------------------ */

/* The letters from..to as text, without those that are silent. */
static const char *text_of(const struct laying *l, size_t from, size_t to)
{
    struct strbuf text;
    strbuf_init(&text, l->arena);
    for (size_t i = from; i < to; i++) {
        const struct letter *letter = &l->list[i];
        if (!letter->is_silent || is_joiner(letter->code_point))
            strbuf_add_bytes(&text, l->text + letter->begin, letter->end - letter->begin);
    }
    return text.text ? text.text : "";
}

/* As it is drawn from left to right; from the right, brackets show their other side. */
static void lay_body(struct laying *l, struct stretch_of part, struct letter_run *run)
{
    struct strbuf text;
    strbuf_init(&text, l->arena);
    run->face = LETTERS_BODY;
    for (size_t n = 0; n < part.to - part.from; n++) {
        const struct letter *letter = &l->list[run->is_backward ? part.to - 1 - n : part.from + n];
        FriBidiChar mirrored = 0;
        if (letter->is_silent)
            continue;
        int advance = l->letters->body_advance(l->letters->body, l->style, letter->code_point);
        run->width += advance > 0 ? advance : 0;
        /* of those that have a mirror, the body's font has brackets of ASCII alone */
        if (run->is_backward && letter->code_point < 0x80 &&
            fribidi_get_mirror_char(letter->code_point, &mirrored))
            strbuf_add_char(&text, (char)mirrored);
        else
            strbuf_add_bytes(&text, l->text + letter->begin, letter->end - letter->begin);
    }
    const char *reads = text_of(l, part.from, part.to);
    run->text = text.text ? text.text : "";
    run->reads = strcmp(reads, run->text) != 0 ? reads : NULL;
}

/* A lam with its alef is one glyph that no font parts. Readers that turn a line from the right
 * round would turn its two letters too, so it leads to Unicode's one character for both. */
static const char *joined_alef(const struct laying *l, size_t from, size_t to)
{
    static const struct {
        unsigned alef;
        const char *both;
    } pairs[] = {{0x0622, "\uFEF5"}, {0x0623, "\uFEF7"}, {0x0625, "\uFEF9"}, {0x0627, "\uFEFB"}};
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++)
        if (to - from == 2 && l->list[from].code_point == 0x0644 &&
            l->list[from + 1].code_point == pairs[i].alef)
            return pairs[i].both;
    return NULL;
}

/* Says for each glyph what it stands for: the widest of those that stand for some letters together
 * stands for all of them. */
static void name_glyphs(const struct laying *l, struct stretch_of part,
                        const hb_glyph_info_t *infos, struct letter_run *run,
                        struct letter_glyph *glyphs)
{
    for (size_t from = 0, to; from < run->count; from = to) {
        size_t widest = from;
        for (to = from; to < run->count && infos[to].cluster == infos[from].cluster; to++)
            if (glyphs[to].advance > glyphs[widest].advance)
                widest = to;
        size_t next = to < run->count ? infos[to].cluster : part.to;
        for (size_t i = from; i < to; i++)
            glyphs[i].text = i == widest ? text_of(l, infos[from].cluster, next) : "";
        const char *both = joined_alef(l, infos[from].cluster, next);
        if (both)
            glyphs[widest].text = both;
        if (to - from > 1 && !run->is_backward)
            run->reads = text_of(l, part.from, part.to);
    }
}

static hb_buffer_t *new_buffer(const struct laying *l, struct stretch_of part, bool is_backward)
{
    hb_buffer_t *buffer = hb_buffer_create();
    for (size_t i = part.from; i < part.to; i++)
        if (!l->list[i].is_silent || is_joiner(l->list[i].code_point))
            hb_buffer_add(buffer, l->list[i].code_point, (unsigned)i);
    hb_buffer_set_content_type(buffer, HB_BUFFER_CONTENT_TYPE_UNICODE);
    hb_buffer_set_cluster_level(buffer, HB_BUFFER_CLUSTER_LEVEL_MONOTONE_CHARACTERS);
    hb_buffer_set_direction(buffer, is_backward ? HB_DIRECTION_RTL : HB_DIRECTION_LTR);
    hb_buffer_set_language(buffer, hb_language_from_string("und", -1));
    hb_buffer_guess_segment_properties(buffer);
    return buffer;
}

static void shape(struct laying *l, struct stretch_of part, struct letter_run *run)
{
    int face = run->face;
    hb_buffer_t *buffer = new_buffer(l, part, run->is_backward);
    hb_shape(l->letters->files[face].font, buffer, NULL, 0);
    if (run->is_backward)
        hb_buffer_reverse(buffer); /* it gives what is drawn first */
    unsigned count = 0;
    const hb_glyph_info_t *infos = hb_buffer_get_glyph_infos(buffer, &count);
    const hb_glyph_position_t *places = hb_buffer_get_glyph_positions(buffer, &count);
    struct letter_glyph *glyphs = ARENA_ARRAY(l->arena, struct letter_glyph, count + 1);
    for (unsigned i = 0; i < count; i++) {
        glyphs[i] = (struct letter_glyph){
            .glyph = infos[i].codepoint,
            .advance = faces_thousandths(l->letters, face, places[i].x_advance),
            .x_offset = faces_thousandths(l->letters, face, places[i].x_offset),
            .y_offset = faces_thousandths(l->letters, face, places[i].y_offset)};
        run->width += glyphs[i].advance;
    }
    run->glyphs = glyphs;
    run->count = count;
    name_glyphs(l, part, infos, run, glyphs);
    hb_buffer_destroy(buffer);
}

/* ---- places ---------------------------------------------------------------------------------- */

/* Gives each run its place. UAX 9, L2: from the highest level down, whatever stands on it or above
 * is turned round. */
static void place(const struct laying *l, const FriBidiLevel *levels)
{
    size_t count = l->out->count;
    size_t *order = ARENA_ARRAY(l->arena, size_t, count + 1);
    FriBidiLevel highest = 0;
    for (size_t i = 0; i < count; i++) {
        order[i] = i;
        highest = levels[i] > highest ? levels[i] : highest;
    }
    for (FriBidiLevel level = highest; level > 0; level--) {
        for (size_t from = 0, to; from < count; from = to + 1) {
            for (to = from; to < count && levels[order[to]] >= level; to++)
                continue;
            for (size_t a = from, b = to; a + 1 < b; a++, b--) {
                size_t kept = order[a];
                order[a] = order[b - 1];
                order[b - 1] = kept;
            }
        }
    }
    for (size_t i = 0; i < count; i++) {
        l->out->runs[order[i]].left = l->out->width;
        l->out->width += l->out->runs[order[i]].width;
    }
    l->out->is_reordered = highest > 0;
}

static void lay_runs(struct laying *l)
{
    FriBidiLevel *levels = ARENA_ARRAY(l->arena, FriBidiLevel, l->count + 1);
    l->out->runs = ARENA_ARRAY(l->arena, struct letter_run, l->count + 1);
    for (size_t from = 0, to; from < l->count; from = to) {
        const struct letter *first = &l->list[from];
        for (to = from + 1;
             to < l->count && l->list[to].face == first->face && l->list[to].level == first->level;
             to++)
            continue;
        const struct stretch_of part = {from, to};
        struct letter_run *run = &l->out->runs[l->out->count];
        levels[l->out->count++] = first->level;
        *run = (struct letter_run){.face = first->face, .is_backward = first->level % 2 != 0};
        if (run->face == LETTERS_BODY)
            lay_body(l, part, run);
        else
            shape(l, part, run);
    }
    place(l, levels);
}

static bool lay(struct letters *letters, enum text_style style, struct bytes text,
                struct arena *arena, struct letter_line *out)
{
    struct laying l = {
        .letters = letters, .style = style, .text = text.data, .arena = arena, .out = out};
    *out = (struct letter_line){0};
    if (text.length == 0)
        return true;
    read_letters(&l, text);
    find_levels(&l);
    if (!choose_faces(&l))
        return false;
    lay_runs(&l);
    return true;
}

/* ---- the module ------------------------------------------------------------------------------ */

static struct letters *open_letters(letters_body *body_advance, const void *body)
{
    struct letters *letters = calloc(1, sizeof *letters);
    if (letters == NULL)
        support_out_of_memory();
    arena_init(&letters->arena);
    letters->body_advance = body_advance;
    letters->body = body;
    letters->files = ARENA_ARRAY(&letters->arena, struct face_file, (size_t)faces_count());
    return letters;
}

static void close_letters(struct letters *letters)
{
    faces_close(letters);
    arena_finish(&letters->arena);
    free(letters);
}

const struct letters_calls baskleaf_letters = {
    .open = open_letters,
    .close = close_letters,
    .has = has,
    .lay = lay,
    .face = faces_describe,
    .seal = faces_seal,
    .width = faces_width,
    .cut = faces_cut,
};
