/* Every use of libharu's private structs. */
#include "pdf/haru_inside.h"

#include <string.h>

/* ---- a document --------------------------------------------------------------------------- */

HPDF_STATUS haru_doc_error(HPDF_Doc doc, HPDF_STATUS *detail)
{
    *detail = doc->error.detail_no;
    return doc->error.error_no;
}

HPDF_MMgr haru_doc_memory(HPDF_Doc doc)
{
    return doc->mmgr;
}

HPDF_Xref haru_doc_xref(HPDF_Doc doc)
{
    return doc->xref;
}

HPDF_Dict haru_doc_catalog(HPDF_Doc doc)
{
    return doc->catalog;
}

HPDF_Dict haru_doc_info(HPDF_Doc doc)
{
    return doc->info;
}

size_t haru_object_count(HPDF_Doc doc)
{
    return doc->xref->entries->count;
}

void *haru_object(HPDF_Doc doc, size_t number)
{
    return ((HPDF_XrefEntry)HPDF_List_ItemAt(doc->xref->entries, (HPDF_UINT)number))->obj;
}

/* ---- an object ---------------------------------------------------------------------------- */

unsigned haru_number(const void *object)
{
    return ((const HPDF_Obj_Header *)object)->obj_id & 0x00FFFFFFu;
}

static unsigned class_of(const void *object)
{
    return ((const HPDF_Obj_Header *)object)->obj_class;
}

bool haru_is_dict(const void *object)
{
    return (class_of(object) & HPDF_OCLASS_ANY) == HPDF_OCLASS_DICT;
}

bool haru_is_page(const void *object)
{
    unsigned part = class_of(object) & ~(unsigned)HPDF_OCLASS_ANY;
    return part == HPDF_OSUBCLASS_PAGE || part == HPDF_OSUBCLASS_PAGES;
}

/* ---- a dictionary -------------------------------------------------------------------------- */

HPDF_Stream haru_dict_stream(const void *dict)
{
    return ((const HPDF_Dict_Rec *)dict)->stream;
}

void haru_dict_set_stream(HPDF_Dict dict, HPDF_Stream stream)
{
    HPDF_Stream_Free(dict->stream);
    dict->stream = stream;
}

bool haru_dict_deflates(const void *dict)
{
    return ((const HPDF_Dict_Rec *)dict)->filter == HPDF_STREAM_FILTER_FLATE_DECODE;
}

void haru_dict_set_deflates(HPDF_Dict dict, bool deflates)
{
    dict->filter = deflates ? HPDF_STREAM_FILTER_FLATE_DECODE : HPDF_STREAM_FILTER_NONE;
}

void haru_dict_set_writer(HPDF_Dict dict, HPDF_Dict_OnWriteFunc write)
{
    dict->write_fn = write;
}

void haru_dict_set_attr(HPDF_Dict dict, void *attr)
{
    dict->attr = attr;
}

void *haru_dict_attr(HPDF_Dict dict)
{
    return dict->attr;
}

/* ---- a stream and a page --------------------------------------------------------------------- */

void *haru_stream_attr(HPDF_Stream stream)
{
    return stream->attr;
}

HPDF_Stream haru_page_content(HPDF_Page page)
{
    return ((HPDF_PageAttr)page->attr)->stream;
}

const char *haru_page_font_name(HPDF_Page page, HPDF_Dict font)
{
    return HPDF_Page_GetLocalFontName(page, font);
}

/* ---- fonts ------------------------------------------------------------------------------------
 */

HPDF_MMgr haru_shared_memory(struct arena *arena)
{
    HPDF_Error_Rec *error = ARENA_NEW(arena, HPDF_Error_Rec);
    HPDF_Error_Init(error, NULL);
    return HPDF_MMgr_New(error, 0, NULL, NULL);
}

void haru_definition_face(HPDF_FontDef definition, struct haru_face *out)
{
    HPDF_TTFontDefAttr attr = definition->attr;
    *out = (struct haru_face){
        .name = attr->base_font,
        .length1 = attr->length1,
        .box = definition->font_bbox,
        .ascent = definition->ascent,
        .descent = definition->descent,
        .cap_height = definition->cap_height,
        .x_height = definition->x_height,
        .stem_v = definition->stemv,
    };
}

void haru_definition_set_tag(HPDF_FontDef definition, const char *tag, size_t length)
{
    HPDF_TTFontDefAttr attr = definition->attr;
    char name[HPDF_LIMIT_MAX_NAME_LEN + 1] = {0};
    /* libharu appends ",Bold" to a name that says so already */
    size_t kept = strcspn(definition->base_font, ",");
    if (kept > HPDF_LIMIT_MAX_NAME_LEN - length - 1)
        kept = HPDF_LIMIT_MAX_NAME_LEN - length - 1;
    memcpy(name, tag, length);
    name[length] = '+';
    memcpy(name + length + 1, definition->base_font, kept);
    memcpy(attr->base_font, name, sizeof name);
    memcpy(definition->base_font, name, sizeof name);
}

void haru_definition_set_descriptor(HPDF_FontDef definition, HPDF_Dict descriptor)
{
    definition->descriptor = descriptor;
}

void haru_definition_use_all(HPDF_FontDef definition)
{
    HPDF_TTFontDefAttr attr = definition->attr;
    memset(attr->glyph_tbl.flgs, 1, attr->num_glyphs);
}

HPDF_FontDef haru_definition_copy(HPDF_FontDef definition, HPDF_Doc doc, struct arena *arena)
{
    HPDF_FontDef_Rec *copy = ARENA_NEW(arena, HPDF_FontDef_Rec);
    *copy = *definition;
    copy->mmgr = doc->mmgr;
    copy->error = &doc->error;
    copy->descriptor = NULL;
    return copy;
}

const HPDF_BYTE *haru_font_used(HPDF_Font font)
{
    return ((HPDF_FontAttr)font->attr)->used;
}

HPDF_Stream haru_font_cmap(HPDF_Font font)
{
    return ((HPDF_FontAttr)font->attr)->cmap_stream->stream;
}

void haru_encoder_become(HPDF_Encoder encoder, const char *name, const uint16_t characters[256],
                         HPDF_Encoder_Write_Func write)
{
    HPDF_BasicEncoderAttr attr = encoder->attr;
    strcpy(encoder->name, name);
    attr->first_char = 0;
    for (int code = 0; code < 256; code++) {
        attr->unicode_map[code] = characters[code];
        if (characters[code] != 0) {
            attr->first_char = attr->first_char == 0 ? (HPDF_BYTE)code : attr->first_char;
            attr->last_char = (HPDF_BYTE)code;
        }
    }
    encoder->write_fn = write;
}

HPDF_BYTE *haru_encoder_named(HPDF_Encoder encoder)
{
    return ((HPDF_BasicEncoderAttr)encoder->attr)->differences;
}
