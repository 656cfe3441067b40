/* Draws glyphs of further fonts, and writes these fonts cut down to what was drawn. */
#include "pdf/letter_fonts.h"

#include <string.h>

#include "base/hash.h"
#include "base/utf8.h"

enum { BLOCK_LIMIT = 100 }; /* rows between beginbfchar and endbfchar */

/* A letter without a text of its own leads to one that says nothing: U+034F. */
static const char NOTHING[] = "\xCD\x8F";

static struct letter_font *find_font(struct letter_fonts *fonts, int face)
{
    if (fonts->list == NULL)
        fonts->list = ARENA_ARRAY(fonts->haru->arena, struct letter_font, LETTERS_FACES_MOST);
    struct letter_font *used = &fonts->list[face];
    if (used->font == NULL)
        used->font = haru_raw_dict(fonts->haru);
    return used;
}

/* The code, from 1, for a glyph that stands for a text. */
static unsigned code_for(struct letter_font *used, const struct letter_glyph *glyph,
                         struct arena *arena)
{
    for (size_t i = 0; i < used->count; i++)
        if (used->codes[i].glyph == glyph->glyph && strcmp(used->codes[i].text, glyph->text) == 0)
            return (unsigned)i + 1;
    if (used->count == used->room) {
        size_t room = used->room == 0 ? 32 : 2 * used->room;
        struct letter_code *moved = ARENA_ARRAY(arena, struct letter_code, room);
        if (used->count > 0)
            memcpy(moved, used->codes, used->count * sizeof *moved);
        used->codes = moved;
        used->room = room;
    }
    used->codes[used->count++] =
        (struct letter_code){glyph->glyph, arena_copy_text(arena, glyph->text)};
    return (unsigned)used->count;
}

/* Numbers in TJ move to the left, in thousandths (ISO 32000-1, 9.4.3). */
static void add_move(struct strbuf *out, int left)
{
    if (left != 0)
        strbuf_addf(out, " %d", left);
}

static void start(struct strbuf *out, const char *name, const struct letter_run *run,
                  double size_pt)
{
    strbuf_addf(out, "/%s %.2f Tf\n[", name, size_pt);
    if (run->is_backward)
        add_move(out, -run->width);
}

void letter_fonts_show(struct letter_fonts *fonts, HPDF_Page page, const struct letter_run *run,
                       double size_pt)
{
    struct letter_font *used = find_font(fonts, run->face);
    const char *name = used->font ? haru_page_font_name(page, used->font) : NULL;
    struct strbuf out;
    int raised = 0;
    if (name == NULL)
        return;
    strbuf_init(&out, fonts->haru->arena);
    start(&out, name, run, size_pt);
    for (size_t i = 0; i < run->count; i++) {
        const struct letter_glyph *glyph = &run->glyphs[i];
        int width = fonts->fonts->calls->width(fonts->fonts->letters, run->face, glyph->glyph);
        int before = run->is_backward ? glyph->advance : 0;
        if (glyph->y_offset != raised) {
            strbuf_addf(&out, "] TJ\n%.3f Ts\n[", glyph->y_offset * size_pt / 1000);
            raised = glyph->y_offset;
        }
        add_move(&out, before - glyph->x_offset);
        strbuf_addf(&out, "<%04X>", code_for(used, glyph, fonts->haru->arena));
        add_move(&out, width + glyph->x_offset - glyph->advance + before);
    }
    strbuf_add(&out, "] TJ\n");
    if (raised != 0)
        strbuf_add(&out, "0 Ts\n");
    haru_write(page, out.text, out.length);
}

/* ---- what is written in the end ---------------------------------------------------------------
 */

static HPDF_Dict write_program(struct haru *haru, struct bytes program)
{
    HPDF_Dict stream = haru_stream(haru, program.data, program.length, false);
    if (stream != NULL) {
        haru_dict_set_deflates(stream, true);
        HPDF_Dict_AddNumber(stream, "Length1", (HPDF_INT32)program.length);
    }
    return stream;
}

static HPDF_Dict write_descriptor(struct haru *haru, const struct letter_face *face,
                                  const char *name, HPDF_Dict program)
{
    HPDF_Dict descriptor = haru_raw_dict(haru);
    if (descriptor == NULL || program == NULL)
        return NULL;
    HPDF_Dict_Add(descriptor, "FontFile2", program);
    const char *body = arena_format(
        haru->arena,
        "/Type /FontDescriptor /FontName /%s /Flags 4 /FontBBox [%d %d %d %d] /ItalicAngle 0\n"
        "/Ascent %d /Descent %d /CapHeight %d /StemV %d\n",
        name, face->box[0], face->box[1], face->box[2], face->box[3], face->ascent, face->descent,
        face->cap_height, face->is_strong ? 140 : 80);
    haru_set_body(haru, descriptor, body, strlen(body));
    return descriptor;
}

/* Two bytes a code: the glyph's number in the cut font. */
static HPDF_Dict write_glyph_map(struct haru *haru, const unsigned *places, size_t count)
{
    char *map = arena_take(haru->arena, 2 * (count + 1));
    map[0] = map[1] = 0;
    for (size_t i = 0; i < count; i++) {
        map[2 * i + 2] = (char)(places[i] >> 8);
        map[2 * i + 3] = (char)places[i];
    }
    HPDF_Dict stream = haru_stream(haru, map, 2 * (count + 1), false);
    if (stream != NULL)
        haru_dict_set_deflates(stream, true);
    return stream;
}

static HPDF_Dict write_unicode_map(struct haru *haru, const struct letter_font *used)
{
    struct strbuf out;
    strbuf_init(&out, haru->arena);
    strbuf_add(&out, "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
                     "/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n"
                     "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
                     "1 begincodespacerange\n<0000><FFFF>\nendcodespacerange\n");
    for (size_t i = 0; i < used->count; i++) {
        size_t left = used->count - i;
        const char *text = *used->codes[i].text ? used->codes[i].text : NOTHING;
        if (i % BLOCK_LIMIT == 0)
            strbuf_addf(&out, "%zu beginbfchar\n", left < BLOCK_LIMIT ? left : BLOCK_LIMIT);
        strbuf_addf(&out, "<%04zX><", i + 1);
        haru_add_utf16(&out, text);
        strbuf_add(&out, ">\n");
        if (i % BLOCK_LIMIT == BLOCK_LIMIT - 1 || left == 1)
            strbuf_add(&out, "endbfchar\n");
    }
    strbuf_add(&out, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n");
    HPDF_Dict stream = haru_stream(haru, out.text, out.length, false);
    if (stream != NULL)
        haru_dict_set_deflates(stream, true);
    return stream;
}

/* The descendant font with its widths. */
static HPDF_Dict write_below(struct letter_fonts *fonts, int face, const char *name,
                             HPDF_Dict descriptor, const unsigned *places)
{
    struct haru *haru = fonts->haru;
    const struct letter_font *used = &fonts->list[face];
    HPDF_Dict below = haru_raw_dict(haru), system = haru_dict(haru);
    HPDF_Dict map = write_glyph_map(haru, places, used->count);
    struct strbuf body;
    if (below == NULL || system == NULL || map == NULL || descriptor == NULL)
        return NULL;
    haru_add_text(haru, system, "Registry", "Adobe");
    haru_add_text(haru, system, "Ordering", "Identity");
    HPDF_Dict_AddNumber(system, "Supplement", 0);
    HPDF_Dict_Add(below, "CIDSystemInfo", system);
    HPDF_Dict_Add(below, "FontDescriptor", descriptor);
    HPDF_Dict_Add(below, "CIDToGIDMap", map);
    strbuf_init(&body, haru->arena);
    strbuf_addf(&body, "/Type /Font /Subtype /CIDFontType2 /BaseFont /%s /DW 1000\n/W [1 [", name);
    for (size_t i = 0; i < used->count; i++)
        strbuf_addf(&body, "%d ",
                    fonts->fonts->calls->width(fonts->fonts->letters, face, used->codes[i].glyph));
    strbuf_add(&body, "]]\n");
    haru_set_body(haru, below, body.text, body.length);
    return below;
}

static void finish(struct letter_fonts *fonts, int face)
{
    struct haru *haru = fonts->haru;
    const struct letter_font *used = &fonts->list[face];
    const struct letters_calls *calls = fonts->fonts->calls;
    unsigned *glyphs = ARENA_ARRAY(haru->arena, unsigned, used->count + 1);
    unsigned *places = ARENA_ARRAY(haru->arena, unsigned, used->count + 1);
    struct letter_face about;
    struct bytes program;
    char tag[FONTS_TAG_LENGTH];
    for (size_t i = 0; i < used->count; i++)
        glyphs[i] = used->codes[i].glyph;
    calls->face(fonts->fonts->letters, face, &about);
    const struct letter_cut cut = {glyphs, places, used->count};
    if (!calls->cut(fonts->fonts->letters, face, &cut, haru->arena, &program)) {
        haru_refuse(haru, "font-unusable", "the font %s cannot be cut", about.name);
        return;
    }
    fonts_tag(hash_bytes(HASH_START, program.data, program.length), tag);
    const char *name = arena_format(haru->arena, "%.*s+%s", FONTS_TAG_LENGTH, tag, about.name);
    HPDF_Dict descriptor = write_descriptor(haru, &about, name, write_program(haru, program));
    HPDF_Dict below = write_below(fonts, face, name, descriptor, places);
    HPDF_Dict unicode = write_unicode_map(haru, used);
    if (below == NULL || unicode == NULL)
        return;
    HPDF_Dict_Add(used->font, "ToUnicode", unicode);
    const char *body = arena_format(haru->arena,
                                    "/Type /Font /Subtype /Type0 /BaseFont /%s\n"
                                    "/Encoding /Identity-H /DescendantFonts [%u 0 R]\n",
                                    name, haru_number(below));
    haru_set_body(haru, used->font, body, strlen(body));
}

void letter_fonts_finish(struct letter_fonts *fonts)
{
    for (int face = 0; fonts->list != NULL && face < LETTERS_FACES_MOST; face++)
        if (fonts->list[face].font != NULL && haru_ok(fonts->haru))
            finish(fonts, face);
}
