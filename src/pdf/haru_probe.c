/* Tries at build time that libharu's inside is what haru_inside.c takes it for: each function there
 * against what libharu's own interface says of the same thing. Takes the folder of fonts. */
#include "pdf/haru_inside.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/file.h"

/* One that no sheet was tried with may keep other things under the same names. */
_Static_assert(HPDF_MAJOR_VERSION == 2 && (HPDF_MINOR_VERSION == 3 || HPDF_MINOR_VERSION == 4),
               "only libharu 2.3 and 2.4 were tried; let the tests of the suite page pass with "
               "another one before its number is added here");

static int failures;

static void try(bool good, const char *what)
{
    if (good)
        return;
    fprintf(stderr, "libharu %s is not as src/pdf/haru_inside.c takes it for: %s\n",
            HPDF_GetVersion(), what);
    failures++;
}

/* ---- documents and objects ------------------------------------------------------------------ */

static void try_document(HPDF_Doc doc)
{
    HPDF_STATUS detail = 0;
    size_t count = haru_object_count(doc);
    HPDF_Dict dict = HPDF_Dict_New(haru_doc_memory(doc));
    try(haru_doc_error(doc, &detail) == HPDF_OK, "a new document has no error");
    try(HPDF_Xref_Add(haru_doc_xref(doc), dict) == HPDF_OK && haru_object_count(doc) == count + 1 &&
            haru_object(doc, count) == dict && haru_number(dict) == count,
        "an object that is added comes last and has the number of its place");
    try(haru_is_dict(dict) && !haru_is_page(dict) && haru_dict_stream(dict) == NULL,
        "a dictionary is one and has no stream");
    try(HPDF_Dict_GetItem(haru_doc_catalog(doc), "Pages", HPDF_OCLASS_DICT) != NULL &&
            haru_is_page(HPDF_Dict_GetItem(haru_doc_catalog(doc), "Pages", HPDF_OCLASS_DICT)),
        "the catalogue knows the pages");
    HPDF_SetInfoAttr(doc, HPDF_INFO_TITLE, "probe");
    try(HPDF_Dict_GetItem(haru_doc_info(doc), "Title", HPDF_OCLASS_STRING) != NULL,
        "the information dictionary has the title");
}

static HPDF_STATUS write_attr(HPDF_Dict dict, HPDF_Stream stream)
{
    return HPDF_Stream_WriteStr(stream, haru_dict_attr(dict));
}

struct written {
    char text[8192];
    size_t length;
};

static HPDF_STATUS keep(HPDF_Stream stream, const HPDF_BYTE *bytes, HPDF_UINT size)
{
    struct written *written = haru_stream_attr(stream);
    for (HPDF_UINT i = 0; i < size && written->length + 1 < sizeof written->text; i++)
        written->text[written->length++] = (char)bytes[i];
    return HPDF_OK;
}

static void try_other_stream(HPDF_Doc doc)
{
    struct written written = {0};
    HPDF_Stream out = HPDF_CallbackWriter_New(haru_doc_memory(doc), keep, &written),
                other = HPDF_MemStream_New(haru_doc_memory(doc), 0);
    HPDF_Dict dict = HPDF_DictStream_New(haru_doc_memory(doc), haru_doc_xref(doc));
    HPDF_Stream_WriteStr(haru_dict_stream(dict), "before");
    HPDF_Stream_WriteStr(other, "in its place");
    haru_dict_set_stream(dict, other);
    HPDF_Obj_WriteValue(dict, out, NULL);
    HPDF_Stream_Free(out);
    try(strstr(written.text, "in its place") != NULL && strstr(written.text, "before") == NULL,
        "a stream can take another's place");
}

static void try_dictionaries(HPDF_Doc doc)
{
    static char entry[] = "/Probe 7";
    struct written written = {0};
    HPDF_Stream out = HPDF_CallbackWriter_New(haru_doc_memory(doc), keep, &written);
    HPDF_Dict dict = HPDF_Dict_New(haru_doc_memory(doc));
    haru_dict_set_writer(dict, write_attr);
    haru_dict_set_attr(dict, entry);
    HPDF_Obj_WriteValue(dict, out, NULL);
    try(strstr(written.text, entry) != NULL, "a dictionary writes what its writer adds");
    HPDF_Dict_Free(dict);
    HPDF_Stream_Free(out);
    dict = HPDF_DictStream_New(haru_doc_memory(doc), haru_doc_xref(doc));
    try(haru_dict_stream(dict) != NULL && !haru_dict_deflates(dict), "a stream begins undeflated");
    haru_dict_set_deflates(dict, true);
    try(haru_dict_deflates(dict), "a stream can be deflated");
    try_other_stream(doc);
}

static void try_page(HPDF_Doc doc)
{
    HPDF_SetCompressionMode(doc, HPDF_COMP_ALL);
    HPDF_Page page = HPDF_AddPage(doc);
    HPDF_Stream content = haru_page_content(page);
    HPDF_UINT before = HPDF_Stream_Size(content);
    HPDF_Page_BeginText(page);
    HPDF_Page_MoveTextPos(page, 10, 20);
    try(haru_is_page(page), "a page is one");
    HPDF_Page_EndText(page);
    try(HPDF_Stream_Size(content) > before, "what is drawn goes into the page's content");
    HPDF_Dict contents = HPDF_Dict_GetItem(page, "Contents", HPDF_OCLASS_DICT);
    try(contents != NULL && haru_dict_stream(contents) == content && haru_dict_deflates(contents),
        "a page's content is a stream that is deflated");
}

/* ---- fonts ---------------------------------------------------------------------------------- */

static HPDF_FontDef load(HPDF_MMgr memory, struct bytes font)
{
    HPDF_Stream stream = HPDF_MemStream_New(memory, (HPDF_UINT)font.length);
    HPDF_Stream_Write(stream, (const HPDF_BYTE *)font.data, (HPDF_UINT)font.length);
    return HPDF_TTFontDef_Load(memory, stream, HPDF_TRUE);
}

static HPDF_STATUS write_mark(HPDF_Encoder encoder, HPDF_Stream out)
{
    (void)encoder;
    return HPDF_Stream_WriteStr(out, "/Marked true ");
}

static void try_encoder(HPDF_Doc doc, HPDF_FontDef definition)
{
    uint16_t characters[256] = {0};
    characters['A'] = 0x2640;
    HPDF_Encoder encoder = HPDF_BasicEncoder_New(haru_doc_memory(doc), HPDF_ENCODING_WIN_ANSI);
    haru_encoder_become(encoder, "probe", characters, write_mark);
    HPDF_Doc_RegisterEncoder(doc, encoder);
    try(HPDF_Encoder_ToUnicode(encoder, 'A') == 0x2640 && HPDF_Encoder_ToUnicode(encoder, 'B') == 0,
        "an encoder becomes one of other characters");
    struct written written = {0};
    HPDF_Stream out = HPDF_CallbackWriter_New(haru_doc_memory(doc), keep, &written);
    HPDF_Font font = HPDF_TTFont_New(haru_doc_memory(doc), definition, encoder, haru_doc_xref(doc));
    HPDF_Obj_WriteValue(font, out, NULL);
    HPDF_Stream_Free(out);
    try(strstr(written.text, "/Marked true") != NULL, "a font is written with its encoder's words");
    HPDF_Encoder plain = HPDF_BasicEncoder_New(haru_doc_memory(doc), HPDF_ENCODING_WIN_ANSI);
    try(memchr(haru_encoder_named(plain), 1, 256) == NULL, "WinAnsi names no code of its own");
    HPDF_Encoder other = HPDF_BasicEncoder_New(haru_doc_memory(doc), HPDF_ENCODING_ISO8859_5);
    try(memchr(haru_encoder_named(other), 1, 256) != NULL, "another page names codes of its own");
    HPDF_Encoder_Free(plain);
    HPDF_Encoder_Free(other);
}

static void try_definition(HPDF_FontDef definition, HPDF_Font font)
{
    struct haru_face face;
    haru_definition_face(definition, &face);
    try(strncmp(face.name, "TAGTAG+Liberation", 17) == 0, "a definition has the tagged name");
    try(strncmp(HPDF_Font_GetFontName(font), "TAGTAG+Liberation", 17) == 0,
        "libharu names the font so too");
    HPDF_Box box = HPDF_Font_GetBBox(font);
    try(box.left == face.box.left && box.bottom == face.box.bottom && box.right == face.box.right &&
            box.top == face.box.top && HPDF_Font_GetAscent(font) == face.ascent &&
            HPDF_Font_GetDescent(font) == face.descent &&
            (int)HPDF_Font_GetCapHeight(font) == face.cap_height &&
            (int)HPDF_Font_GetXHeight(font) == face.x_height && face.stem_v >= 0,
        "a definition's measures are the font's");
}

static void try_small_font(HPDF_Doc doc, HPDF_FontDef shared, struct arena *arena)
{
    HPDF_Page page = HPDF_AddPage(doc);
    HPDF_Encoder encoder = HPDF_GetEncoder(doc, HPDF_ENCODING_WIN_ANSI);
    HPDF_FontDef own = haru_definition_copy(shared, doc, arena);
    HPDF_Font font = HPDF_TTFont_New(haru_doc_memory(doc), own, encoder, haru_doc_xref(doc));
    try_definition(own, font);
    HPDF_Page_BeginText(page);
    HPDF_Page_SetFontAndSize(page, font, 10);
    HPDF_Page_ShowText(page, "A");
    HPDF_Page_EndText(page);
    try(haru_font_used(font)['A'] && !haru_font_used(font)['B'], "a font knows what it has drawn");
    HPDF_Dict descriptor = HPDF_Dict_New(haru_doc_memory(doc));
    HPDF_Xref_Add(haru_doc_xref(doc), descriptor);
    haru_definition_set_descriptor(own, descriptor);
    HPDF_SaveToStream(doc);
    try(HPDF_Dict_GetItem(font, "FontDescriptor", HPDF_OCLASS_DICT) == descriptor,
        "a font takes the descriptor of its definition");
}

/* Of the font program with the glyphs that are used; 0 where two ways to ask differ. */
static size_t cut_length(HPDF_Doc doc, HPDF_FontDef definition)
{
    HPDF_Stream cut = HPDF_MemStream_New(haru_doc_memory(doc), 0);
    struct haru_face face;
    HPDF_TTFontDef_SaveFontData(definition, cut);
    haru_definition_face(definition, &face);
    size_t length = HPDF_Stream_Size(cut);
    HPDF_Stream_Free(cut);
    return face.length1 == length ? length : 0;
}

static void try_wide_font(HPDF_Doc doc, struct bytes full)
{
    HPDF_UseUTFEncodings(doc);
    HPDF_FontDef definition = load(haru_doc_memory(doc), full);
    HPDF_Encoder encoder = HPDF_GetEncoder(doc, "UTF-8");
    try(definition != NULL && HPDF_Doc_RegisterFontDef(doc, definition) == HPDF_OK, "a font loads");
    HPDF_Font font =
        HPDF_Type0Font_New(haru_doc_memory(doc), definition, encoder, haru_doc_xref(doc));
    HPDF_Dict to_unicode = HPDF_Dict_GetItem(font, "ToUnicode", HPDF_OCLASS_DICT);
    try(to_unicode != NULL && haru_font_cmap(font) == haru_dict_stream(to_unicode),
        "a two-byte font has a way back to Unicode");
    size_t none = cut_length(doc, definition);
    haru_definition_use_all(definition);
    try(none > 0 && cut_length(doc, definition) > 2 * none, "a font is cut to what is used");
}

static void try_fonts(const char *folder, struct arena *arena, struct diag *diag)
{
    struct bytes small, full;
    if (!file_read(file_join(arena, folder, "plain-win-ansi.ttf"), FILE_LIMIT_BYTES, arena, diag,
                   &small) ||
        !file_read(file_join(arena, folder, "plain-full.ttf"), FILE_LIMIT_BYTES, arena, diag,
                   &full)) {
        try(false, "its fonts cannot be read");
        return;
    }
    HPDF_MMgr memory = haru_shared_memory(arena);
    HPDF_FontDef shared = load(memory, small);
    HPDF_Doc doc = HPDF_New(NULL, NULL);
    haru_definition_use_all(shared);
    haru_definition_set_tag(shared, "TAGTAG", 6);
    try_encoder(doc, haru_definition_copy(shared, doc, arena));
    try_small_font(doc, shared, arena);
    HPDF_Free(doc);
    doc = HPDF_New(NULL, NULL);
    try_wide_font(doc, full);
    HPDF_Free(doc);
    HPDF_FontDef_Free(shared);
    HPDF_MMgr_Free(memory);
}

int main(int argc, char **argv)
{
    struct arena arena;
    struct diag diag;
    HPDF_STATUS detail;
    arena_init(&arena);
    diag_init(&diag);
    try(strcmp(HPDF_GetVersion(), HPDF_VERSION_TEXT) == 0,
        "library and headers are of one version");
    HPDF_Doc doc = HPDF_New(NULL, NULL);
    try_document(doc);
    try_dictionaries(doc);
    try_page(doc);
    HPDF_Page_SetWidth(HPDF_GetCurrentPage(doc), -1);
    try(haru_doc_error(doc, &detail) == HPDF_PAGE_INVALID_SIZE, "an error stands in the document");
    HPDF_Free(doc);
    try(argc == 2, "the folder of fonts must be named");
    if (argc == 2)
        try_fonts(argv[1], &arena, &diag);
    diag_finish(&diag);
    arena_finish(&arena);
    if (!failures)
        printf("/* tried with libharu %s */\n", HPDF_GetVersion());
    return failures ? EXIT_FAILURE : EXIT_SUCCESS;
}
