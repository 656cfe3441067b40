/* Chooses the font and code page of each character and remembers what was drawn. */
#include "pdf/typefaces.h"

#include <string.h>

#include "pdf/font_embed.h"
#include "pdf/tounicode.h"
#include "base/utf8.h"
#include "base/hash.h"

enum { WIDE = CODEPAGE_COUNT, BASIC_PLANE_BITS = 0x10000 };

void typefaces_init(struct typefaces *faces, struct haru *haru, const struct fonts *fonts)
{
    *faces =
        (struct typefaces){.haru = haru, .fonts = fonts, .letters = {.haru = haru, .fonts = fonts}};
}

/* HPDF_Encoder's write_fn for a page of our own: names only what was drawn. */
static HPDF_STATUS write_encoding(HPDF_Encoder encoder, HPDF_Stream out, enum codepage page)
{
    const HPDF_BYTE *named = haru_encoder_named(encoder);
    HPDF_STATUS status =
        HPDF_Stream_WriteStr(out, "/Encoding <</Type /Encoding /BaseEncoding /WinAnsiEncoding\n"
                                  "/Differences [");
    for (int code = 0; status == HPDF_OK && code < 256; code++) {
        if (named[code]) {
            status += HPDF_Stream_WriteInt(out, code);
            status += HPDF_Stream_WriteEscapeName(out, codepages_name(page, code));
            status += HPDF_Stream_WriteChar(out, ' ');
        }
    }
    return status != HPDF_OK ? status : HPDF_Stream_WriteStr(out, "]>>\n");
}

/* write_fn of the letters. */
static HPDF_STATUS write_letters(HPDF_Encoder encoder, HPDF_Stream out)
{
    return write_encoding(encoder, out, CODEPAGE_LETTERS);
}

/* write_fn of the signs. */
static HPDF_STATUS write_signs(HPDF_Encoder encoder, HPDF_Stream out)
{
    return write_encoding(encoder, out, CODEPAGE_SIGNS);
}

/* What makes a page of our own out of libharu's WinAnsi encoder. */
static const struct {
    const char *name;
    HPDF_STATUS (*write)(HPDF_Encoder encoder, HPDF_Stream out);
} own_encoders[CODEPAGE_COUNT] = {
    [CODEPAGE_LETTERS] = {"letters", write_letters},
    [CODEPAGE_SIGNS] = {"signs", write_signs},
};

/* Turns a fresh WinAnsi encoder into one for a page of our own. */
static void set_own_page(HPDF_Encoder encoder, enum codepage page)
{
    uint16_t characters[256];
    for (int code = 0; code < 256; code++)
        characters[code] = (uint16_t)codepages_unicode(page, code);
    haru_encoder_become(encoder, own_encoders[page].name, characters, own_encoders[page].write);
}

/* The document's encoder for a page; the document owns it. NULL on failure. */
static HPDF_Encoder find_encoder(struct typefaces *faces, enum codepage page)
{
    HPDF_Doc doc = faces->haru->doc;
    if (faces->encoders[page] == NULL) {
        HPDF_Encoder encoder = HPDF_BasicEncoder_New(haru_doc_memory(doc), HPDF_ENCODING_WIN_ANSI);
        if (encoder == NULL)
            return NULL;
        if (page != CODEPAGE_WIN_ANSI)
            set_own_page(encoder, page);
        if (HPDF_Doc_RegisterEncoder(doc, encoder) != HPDF_OK)
            return NULL;
        faces->encoders[page] = encoder;
    }
    return faces->encoders[page];
}

/* The font object for a style and page, made at its first use. NULL on failure. */
static HPDF_Font find_small(struct typefaces *faces, enum text_style style, enum codepage page)
{
    struct typeface *face = &faces->small[style][page];
    if (face->font == NULL) {
        HPDF_Doc doc = faces->haru->doc;
        HPDF_Encoder encoder = find_encoder(faces, page);
        HPDF_FontDef whole = fonts_definition(faces->fonts, style, page);
        if (whole == NULL) {
            haru_refuse(faces->haru, "font-unusable", "libharu cannot use a font of the body");
            return NULL;
        }
        face->definition = haru_definition_copy(whole, doc, faces->haru->arena);
        if (encoder != NULL)
            face->font = HPDF_TTFont_New(haru_doc_memory(doc), face->definition, encoder,
                                         haru_doc_xref(doc));
    }
    return face->font;
}

/* The font object of the whole font, made at its first use. NULL on failure. */
static HPDF_Font find_wide(struct typefaces *faces, enum text_style style)
{
    struct wide_typeface *face = &faces->wide[style];
    if (face->font == NULL) {
        HPDF_Doc doc = faces->haru->doc;
        const struct bytes *full = &faces->fonts->faces[style].full;
        if (HPDF_Doc_FindEncoder(doc, "UTF-8") == NULL)
            HPDF_UseUTFEncodings(doc);
        HPDF_Encoder encoder = HPDF_GetEncoder(doc, "UTF-8");
        face->definition = fonts_load_definition(haru_doc_memory(doc), full->data, full->length);
        if (encoder == NULL || face->definition == NULL ||
            HPDF_Doc_RegisterFontDef(doc, face->definition) != HPDF_OK)
            return NULL;
        face->used = arena_take(faces->haru->arena, BASIC_PLANE_BITS / 8);
        face->font =
            HPDF_Type0Font_New(haru_doc_memory(doc), face->definition, encoder, haru_doc_xref(doc));
        if (face->font != NULL)
            haru_dict_set_deflates(face->font, true);
    }
    return face->font;
}

/* Which of the fonts draws a character, CODEPAGE_... or WIDE, and with which byte (-1). */
static int choose(unsigned code_point, int *code)
{
    enum codepage page;
    if (codepages_find(code_point, &page, code))
        return (int)page;
    *code = -1;
    return WIDE;
}

/* Appends one character to the run; false when it belongs to another run. */
static bool extend(struct run *run, size_t *filled, int code, const char *utf8, size_t bytes)
{
    size_t needed = code >= 0 ? 1 : bytes;
    if (*filled + needed > TYPEFACES_RUN_LIMIT)
        return false;
    if (code >= 0)
        run->codes[*filled] = (char)code;
    else
        memcpy(run->codes + *filled, utf8, bytes);
    *filled += needed;
    return true;
}

bool typefaces_next_run(struct typefaces *faces, enum text_style style, const char *text,
                        size_t length, size_t *at, struct run *run)
{
    int font = -1;
    size_t filled = 0;
    while (*at < length) {
        size_t next = *at;
        const unsigned char first = (unsigned char)text[next];
        int code_point = first < 0x80 ? first : -1, code;
        if (first < 0x80)
            next++;
        else
            code_point = utf8_next(text, length, &next);
        if (code_point < 0) {
            return haru_refuse(faces->haru, "text-not-utf8",
                               "a text of the sheet is no valid UTF-8");
        }
        if (fonts_advance(faces->fonts, style, (unsigned)code_point) < 0) {
            return haru_refuse(faces->haru, "no-glyph", "the fonts have no character U+%04X",
                               (unsigned)code_point);
        }
        int wanted = choose((unsigned)code_point, &code);
        if (font >= 0 && wanted != font)
            break;
        font = wanted;
        if (!extend(run, &filled, code, text + *at, next - *at))
            break;
        if (font == WIDE && find_wide(faces, style) != NULL)
            faces->wide[style].used[code_point / 8] |= (uint8_t)(1u << code_point % 8);
        *at = next;
    }
    run->codes[filled] = '\0';
    run->font =
        font == WIDE ? find_wide(faces, style) : find_small(faces, style, (enum codepage)font);
    return run->font != NULL && haru_ok(faces->haru);
}

/* What the fonts of a page have drawn, over all styles, becomes its encoding's names. */
static void note_differences(struct typefaces *faces, enum codepage page)
{
    HPDF_Encoder encoder = faces->encoders[page];
    if (encoder == NULL)
        return;
    HPDF_BYTE *named = haru_encoder_named(encoder);
    for (int style = 0; style < TEXT_STYLE_COUNT; style++) {
        HPDF_Font font = faces->small[style][page].font;
        for (int code = 0; font != NULL && code < 256; code++)
            named[code] |= haru_font_used(font)[code];
    }
}

/* The way back to Unicode, for a font that has none. */
static void add_unicode_map(struct haru *haru, HPDF_Font font, const struct strbuf *cmap)
{
    HPDF_Dict stream = haru_stream(haru, cmap->text, cmap->length, false);
    if (stream != NULL)
        HPDF_Dict_Add(font, "ToUnicode", stream);
}

/* Completes the font of a style and page. */
static void finish_small(struct typefaces *faces, enum text_style style, enum codepage page)
{
    struct typeface *face = &faces->small[style][page];
    struct strbuf cmap;
    embed_cut(faces->haru, &faces->fonts->faces[style].cuts[page], face->definition);
    strbuf_init(&cmap, faces->haru->arena);
    tounicode_single_byte(page, haru_font_used(face->font), &cmap);
    add_unicode_map(faces->haru, face->font, &cmap);
}

/* Completes the whole font of a style, cut to what was drawn. */
static void finish_wide(struct typefaces *faces, enum text_style style)
{
    struct wide_typeface *face = &faces->wide[style];
    const struct bytes *full = &faces->fonts->faces[style].full;
    uint64_t hash = hash_bytes(HASH_START, full->data, full->length);
    fonts_name_definition(face->definition, hash_bytes(hash, face->used, BASIC_PLANE_BITS / 8));
    embed_used_glyphs(faces->haru, face->definition);

    /* libharu's own CMap is invalid; its stream gets another content */
    struct strbuf cmap;
    strbuf_init(&cmap, faces->haru->arena);
    tounicode_two_byte(face->used, &cmap);
    HPDF_Stream stream = haru_font_cmap(face->font);
    HPDF_MemStream_FreeData(stream);
    HPDF_Stream_Write(stream, (const HPDF_BYTE *)cmap.text, (HPDF_UINT)cmap.length);
}

void typefaces_finish(struct typefaces *faces)
{
    letter_fonts_finish(&faces->letters);
    for (int page = CODEPAGE_LETTERS; page < CODEPAGE_COUNT; page++)
        note_differences(faces, (enum codepage)page);
    for (int style = 0; style < TEXT_STYLE_COUNT; style++) {
        for (int page = 0; page < CODEPAGE_COUNT; page++)
            if (haru_ok(faces->haru) && faces->small[style][page].font != NULL)
                finish_small(faces, (enum text_style)style, (enum codepage)page);
        if (haru_ok(faces->haru) && faces->wide[style].font != NULL)
            finish_wide(faces, (enum text_style)style);
    }
}
