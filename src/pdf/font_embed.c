/* Writes descriptor and font file, cut down to the glyphs that were used. */
#include "pdf/font_embed.h"

#include <string.h>

enum { DIRECTORY_AT = 12, ROW_BYTES = 16 };

static const uint32_t POST_WITHOUT_NAMES = 0x00030000;

/* Writes the descriptor and hangs it where libharu looks for one. */
static void describe(struct haru *haru, HPDF_FontDef definition, HPDF_Dict program)
{
    struct haru_face face;
    HPDF_Dict descriptor = haru_raw_dict(haru);
    if (descriptor == NULL || program == NULL)
        return;
    haru_definition_face(definition, &face);
    HPDF_Dict_AddName(descriptor, "Type", "FontDescriptor");
    HPDF_Dict_AddName(descriptor, "FontName", face.name);
    HPDF_Dict_Add(descriptor, "FontFile2", program);
    const char *body = arena_format(
        haru->arena,
        "/Flags 32 /FontBBox [%d %d %d %d] /ItalicAngle 0 /Ascent %d /Descent %d\n"
        "/CapHeight %d /XHeight %d /StemV %d\n",
        (int)face.box.left, (int)face.box.bottom, (int)face.box.right, (int)face.box.top,
        face.ascent, face.descent, face.cap_height, face.x_height, face.stem_v);
    haru_set_body(haru, descriptor, body, strlen(body));
    haru_definition_set_descriptor(definition, descriptor);
}

void embed_cut(struct haru *haru, const struct font_cut *cut, HPDF_FontDef definition)
{
    HPDF_Dict program = haru_stream(haru, cut->deflated.data, cut->deflated.length, true);
    if (program != NULL)
        HPDF_Dict_AddNumber(program, "Length1", (HPDF_INT32)cut->program.length);
    describe(haru, definition, program);
}

/* A big-endian number of a font program; 0 on failure. */
static uint32_t read_u32(HPDF_Stream stream, uint32_t at)
{
    HPDF_BYTE bytes[4] = {0};
    HPDF_UINT size = sizeof bytes;
    if (HPDF_Stream_Seek(stream, (HPDF_INT)at, HPDF_SEEK_SET) != HPDF_OK)
        return 0;
    HPDF_Stream_Read(stream, bytes, &size);
    return (uint32_t)bytes[0] << 24 | (uint32_t)bytes[1] << 16 | (uint32_t)bytes[2] << 8 | bytes[3];
}

/* Overwrites four bytes of a font program. */
static void write_u32(HPDF_Stream stream, uint32_t at, uint32_t value)
{
    HPDF_BYTE bytes[4] = {(HPDF_BYTE)(value >> 24), (HPDF_BYTE)(value >> 16),
                          (HPDF_BYTE)(value >> 8), (HPDF_BYTE)value};
    if (HPDF_Stream_Seek(stream, (HPDF_INT)at, HPDF_SEEK_SET) == HPDF_OK)
        HPDF_MemStream_Rewrite(stream, bytes, sizeof bytes);
}

/* libharu 2.4 writes the version of the table "post" with its bytes the wrong way round. */
static void mend_post(HPDF_Stream program)
{
    uint32_t tables = read_u32(program, 4) >> 16;
    for (uint32_t row = DIRECTORY_AT; row < DIRECTORY_AT + ROW_BYTES * tables; row += ROW_BYTES) {
        if (read_u32(program, row) != 0x706F7374) /* "post" */
            continue;
        uint32_t at = read_u32(program, row + 8), version = read_u32(program, at);
        if (read_u32(program, row + 12) >= 4 && version != POST_WITHOUT_NAMES) {
            uint32_t sum = read_u32(program, row + 4);
            write_u32(program, at, POST_WITHOUT_NAMES);
            write_u32(program, row + 4, sum - version + POST_WITHOUT_NAMES);
        }
    }
}

void embed_used_glyphs(struct haru *haru, HPDF_FontDef definition)
{
    struct haru_face face;
    HPDF_Dict program = HPDF_DictStream_New(haru_doc_memory(haru->doc), haru_doc_xref(haru->doc));
    if (program == NULL ||
        HPDF_TTFontDef_SaveFontData(definition, haru_dict_stream(program)) != HPDF_OK)
        return;
    mend_post(haru_dict_stream(program));
    haru_definition_face(definition, &face);
    HPDF_Dict_AddNumber(program, "Length1", (HPDF_INT32)face.length1);
    haru_dict_set_deflates(program, true);
    describe(haru, definition, program);
}
