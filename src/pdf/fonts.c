/* Opens the fonts of a folder once a run and measures text with them. */
#include "pdf/fonts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <zlib.h>

#include "base/utf8.h"
#include "base/hash.h"

/* Letters below are the body's or nobody's. */
enum { FIRST_COMBINING = 0xAD };

static const char *const style_names[TEXT_STYLE_COUNT] = {"plain", "strong"};
static const char *const page_names[CODEPAGE_COUNT] = {"win-ansi", "letters", "signs"};

void fonts_tag(uint64_t hash, char tag[FONTS_TAG_LENGTH])
{
    for (int i = 0; i < FONTS_TAG_LENGTH; i++) {
        tag[i] = (char)('A' + hash % 26);
        hash /= 26;
    }
}

HPDF_FontDef fonts_load_definition(HPDF_MMgr memory, const void *data, size_t length)
{
    HPDF_Stream stream = HPDF_MemStream_New(memory, (HPDF_UINT)length);
    if (stream == NULL)
        return NULL;
    if (HPDF_Stream_Write(stream, data, (HPDF_UINT)length) != HPDF_OK) {
        HPDF_Stream_Free(stream);
        return NULL;
    }
    /* takes the stream, also when it fails */
    return HPDF_TTFontDef_Load(memory, stream, HPDF_TRUE);
}

void fonts_name_definition(HPDF_FontDef definition, uint64_t hash)
{
    char tag[FONTS_TAG_LENGTH];
    fonts_tag(hash, tag);
    haru_definition_set_tag(definition, tag, sizeof tag);
}

/* Reports a file of the fonts that cannot be used, and returns false. */
static bool fail(struct diag *diag, const char *path, const char *what)
{
    diag_report(diag, DIAG_FAULT, "font-unusable", (struct mark){.file = path},
                "%s; install the program's data again", what);
    return false;
}

/* Reads folder/name as a fault of the environment, not of the user's input. */
static bool read_part(const char *folder, const char *name, struct fonts *fonts, struct diag *diag,
                      const char **path, struct bytes *out)
{
    struct diag inner;
    diag_init(&inner);
    *path = file_join(&fonts->arena, folder, name);
    bool ok = file_read(*path, FILE_LIMIT_BYTES, &fonts->arena, &inner, out) && out->length > 0;
    diag_finish(&inner);
    return ok || fail(diag, *path, "cannot read this file");
}

/* Whether a zlib stream holds these bytes, by the checksum at its end (RFC 1950, 8.2). It is
 * embedded unread, so that a file cut short or of another build would go unseen. */
static bool holds(const struct bytes *deflated, const struct bytes *plain)
{
    uLong adler = adler32_z(adler32_z(0, NULL, 0), (const Bytef *)plain->data, plain->length);
    const uint8_t sum[4] = {(uint8_t)(adler >> 24), (uint8_t)(adler >> 16), (uint8_t)(adler >> 8),
                            (uint8_t)adler};
    return deflated->length > 6 &&
           memcmp(deflated->data + deflated->length - 4, sum, sizeof sum) == 0;
}

/* Reads the cut of a face for one code page. */
static bool load_cut(struct fonts *fonts, const char *folder, enum text_style style,
                     enum codepage page, struct diag *diag)
{
    struct font_cut *cut = &fonts->faces[style].cuts[page];
    const char *path, *packed_path;
    const char *name =
        arena_format(&fonts->arena, "%s-%s.ttf", style_names[style], page_names[page]);
    if (!read_part(folder, arena_format(&fonts->arena, "%s.z", name), fonts, diag, &packed_path,
                   &cut->deflated) ||
        !read_part(folder, name, fonts, diag, &path, &cut->program))
        return false;
    struct truetype tables;
    if (!truetype_open(cut->program.data, cut->program.length, &tables))
        return fail(diag, path, "this font is damaged");
    if (!holds(&cut->deflated, &cut->program))
        return fail(diag, packed_path, "this font is damaged");
    return true;
}

HPDF_FontDef fonts_definition(const struct fonts *fonts, enum text_style style, enum codepage page)
{
    struct font_cut *cut = &fonts->self->faces[style].cuts[page];
    if (cut->definition != NULL)
        return cut->definition;
    cut->definition = fonts_load_definition(fonts->memory, cut->program.data, cut->program.length);
    if (cut->definition == NULL)
        return NULL;
    fonts_name_definition(cut->definition,
                          hash_bytes(HASH_START, cut->deflated.data, cut->deflated.length));
    haru_definition_use_all(cut->definition);
    return cut->definition;
}

/* Loads the whole font of a style and fills the table of advances. */
static bool load_full(struct fonts *fonts, const char *folder, enum text_style style,
                      struct diag *diag)
{
    struct face *face = &fonts->faces[style];
    const char *path;
    const char *name = arena_format(&fonts->arena, "%s-full.ttf", style_names[style]);
    if (!read_part(folder, name, fonts, diag, &path, &face->full))
        return false;
    if (!truetype_open(face->full.data, face->full.length, &face->metrics))
        return fail(diag, path, "this font is damaged");
    for (unsigned i = 0; i < FONTS_TABLE_COUNT; i++) {
        unsigned glyph = truetype_glyph(&face->metrics, i);
        face->advances[i] = glyph == 0 ? -1 : (int32_t)truetype_advance(&face->metrics, glyph);
    }
    return true;
}

int fonts_advance(const struct fonts *fonts, enum text_style style, unsigned code_point)
{
    const struct face *face = &fonts->faces[style];
    if (code_point < FONTS_TABLE_COUNT)
        return face->advances[code_point];
    unsigned glyph = truetype_glyph(&face->metrics, code_point);
    return glyph == 0 ? -1 : (int)truetype_advance(&face->metrics, glyph);
}

/* letters_body: what this font draws by itself. */
static int body_advance(const void *body, enum text_style style, unsigned code_point)
{
    return fonts_advance(body, style, code_point);
}

bool fonts_load_letters(const struct fonts *fonts)
{
    /* the measure is borrowed as const, and what it has learnt stays with it */
    struct fonts *own = fonts->self;
    if (!own->letters_tried) {
        own->letters_tried = true;
        own->calls = letters_load();
        own->letters = own->calls ? own->calls->open(body_advance, own) : NULL;
    }
    return own->letters != NULL;
}

bool fonts_needs_letters(const struct fonts *fonts, enum text_style style, struct bytes text)
{
    for (size_t at = 0; at < text.length;) {
        if ((unsigned char)text.data[at] < 0x80) {
            at++;
            continue;
        }
        int code_point = utf8_next(text.data, text.length, &at);
        if (code_point >= FIRST_COMBINING &&
            (letters_are_needed((unsigned)code_point) ||
             fonts_advance(fonts, style, (unsigned)code_point) < 0))
            return true;
    }
    return false;
}

/* A text with letters that the body's font lacks, or in another order. */
static double letters_width(const struct fonts *fonts, enum text_style style, struct bytes text)
{
    struct arena arena;
    struct letter_line line;
    arena_init(&arena);
    double width = fonts->calls->lay(fonts->letters, style, text, &arena, &line) ? line.width : 0;
    arena_finish(&arena);
    return width;
}

void fonts_name_further(const struct fonts *fonts, const char *text, struct strbuf *out)
{
    const struct bytes whole = {text, strlen(text)};
    for (int style = 0; style < TEXT_STYLE_COUNT; style++) {
        struct letter_line line;
        if (!fonts_needs_letters(fonts, (enum text_style)style, whole) ||
            !fonts_load_letters(fonts) ||
            !fonts->calls->lay(fonts->letters, (enum text_style)style, whole, out->arena, &line))
            continue;
        for (size_t i = 0; i < line.count; i++) {
            if (line.runs[i].face == LETTERS_BODY)
                continue;
            const char *seal = fonts->calls->seal(fonts->letters, line.runs[i].face);
            if (!strstr(out->text, seal))
                strbuf_addf(out, "%s\n", seal);
        }
    }
}

/* measure.h: width_pt. A character without a glyph has no width; the layout refuses it. */
static double measure_width(const struct measure *self, enum text_style style, double size_pt,
                            const char *text, size_t length)
{
    const struct fonts *fonts = (const struct fonts *)self;
    long sum = 0;
    const int32_t *advances = fonts->faces[style].advances;
    for (size_t at = 0; at < length;) {
        unsigned char first = (unsigned char)text[at];
        int advance;
        if (first < 0x80) {
            advance = advances[first];
            at++;
        } else {
            int code_point = utf8_next(text, length, &at);
            advance = code_point < 0 ? 0 : fonts_advance(fonts, style, (unsigned)code_point);
            if (code_point >= FIRST_COMBINING &&
                (advance < 0 || letters_are_needed((unsigned)code_point)) &&
                fonts_load_letters(fonts))
                return letters_width(fonts, style, (struct bytes){text, length}) * size_pt / 1000;
        }
        sum += advance > 0 ? advance : 0;
    }
    return (double)sum * size_pt / 1000.0;
}

/* measure.h: sum. Further letters are as wide as what stands beside them lets them be. */
static bool measure_sum(const struct measure *self, enum text_style style, const char *text,
                        size_t length, int32_t *sums)
{
    enum { SUMMED_MOST = INT32_MAX / 0x10000 }; /* an advance is less than two bytes */
    const struct fonts *fonts = (const struct fonts *)self;
    const int32_t *advances = fonts->faces[style].advances;
    int32_t sum = 0;
    if (length > SUMMED_MOST)
        return false;
    for (size_t at = 0; at < length;) {
        const unsigned char first = (unsigned char)text[at];
        int advance = advances[first];
        sums[at++] = sum;
        if (first >= 0x80) {
            size_t end = at - 1;
            const int code_point = utf8_next(text, length, &end);
            advance = code_point < 0 ? 0 : fonts_advance(fonts, style, (unsigned)code_point);
            if (code_point >= FIRST_COMBINING &&
                (advance < 0 || letters_are_needed((unsigned)code_point)))
                return false;
            while (at < end)
                sums[at++] = sum;
        }
        sum += advance > 0 ? advance : 0;
    }
    sums[length] = sum;
    return true;
}

/* measure.h: has_glyph. */
static bool measure_has_glyph(const struct measure *self, enum text_style style,
                              unsigned code_point)
{
    const struct fonts *fonts = (const struct fonts *)self;
    if (fonts_advance(fonts, style, code_point) >= 0 && !letters_are_needed(code_point))
        return true;
    return code_point >= FIRST_COMBINING && fonts_load_letters(fonts) &&
           fonts->calls->has(fonts->letters, style, code_point);
}

/* Makes the fonts a measure: ascent and descent are the largest over the styles. */
static void set_measure(struct fonts *fonts)
{
    fonts->measure.width_pt = measure_width;
    fonts->measure.sum = measure_sum;
    fonts->measure.has_glyph = measure_has_glyph;
    for (int style = 0; style < TEXT_STYLE_COUNT; style++) {
        const struct truetype *metrics = &fonts->faces[style].metrics;
        double em = metrics->units_per_em;
        if (metrics->ascent / em > fonts->measure.ascent)
            fonts->measure.ascent = metrics->ascent / em;
        if (-metrics->descent / em > fonts->measure.descent)
            fonts->measure.descent = -metrics->descent / em;
    }
}

struct fonts *fonts_new(const char *folder, struct diag *diag)
{
    struct fonts *fonts = calloc(1, sizeof *fonts);
    if (fonts == NULL)
        support_out_of_memory();
    arena_init(&fonts->arena);
    fonts->self = fonts;
    fonts->memory = haru_shared_memory(&fonts->arena);
    bool ok = fonts->memory != NULL || fail(diag, folder, "libharu has no memory");
    for (int style = 0; ok && style < TEXT_STYLE_COUNT; style++) {
        ok = load_full(fonts, folder, (enum text_style)style, diag);
        for (int page = 0; ok && page < CODEPAGE_COUNT; page++)
            ok = load_cut(fonts, folder, (enum text_style)style, (enum codepage)page, diag);
    }
    const char *path;
    ok = ok && read_part(folder, "srgb.icc.z", fonts, diag, &path, &fonts->profile);
    if (!ok) {
        fonts_free(fonts);
        return NULL;
    }
    set_measure(fonts);
    return fonts;
}

void fonts_free(struct fonts *fonts)
{
    if (fonts == NULL)
        return;
    for (int style = 0; style < TEXT_STYLE_COUNT; style++) {
        for (int page = 0; page < CODEPAGE_COUNT; page++) {
            HPDF_FontDef definition = fonts->faces[style].cuts[page].definition;
            if (definition != NULL)
                HPDF_FontDef_Free(definition);
        }
    }
    if (fonts->letters)
        fonts->calls->close(fonts->letters);
    HPDF_MMgr_Free(fonts->memory);
    arena_finish(&fonts->arena);
    free(fonts);
}

const struct measure *fonts_measure(const struct fonts *fonts)
{
    return &fonts->measure;
}
