/* What this layer reads and sets inside libharu's own structs, which its interface does not name.
 * Nothing else in the program touches them, and haru_probe.c tries at build time that they are
 * what this file takes them for. Inside the pdf layer only. */
#ifndef BASKLEAF_PDF_HARU_INSIDE_H
#define BASKLEAF_PDF_HARU_INSIDE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <hpdf.h>
#include <hpdf_doc.h>
#include <hpdf_font.h>
#include <hpdf_objects.h>
#include <hpdf_pages.h>

#include "base/arena.h"

/* ---- a document ---- */

HPDF_STATUS haru_doc_error(HPDF_Doc doc, HPDF_STATUS *detail);
HPDF_MMgr haru_doc_memory(HPDF_Doc doc);
HPDF_Xref haru_doc_xref(HPDF_Doc doc);
HPDF_Dict haru_doc_catalog(HPDF_Doc doc);
HPDF_Dict haru_doc_info(HPDF_Doc doc);

/* Its objects by number; 0 is the head of the list of free ones. */
size_t haru_object_count(HPDF_Doc doc);
void *haru_object(HPDF_Doc doc, size_t number);

/* ---- an object ---- */

/* The number of an indirect object. */
unsigned haru_number(const void *object);
bool haru_is_dict(const void *object);
/* A page, or a node of the page tree. */
bool haru_is_page(const void *object);

/* ---- a dictionary ---- */

/* NULL for one without a stream. */
HPDF_Stream haru_dict_stream(const void *dict);
/* Takes the place of the one it has, which is freed. */
void haru_dict_set_stream(HPDF_Dict dict, HPDF_Stream stream);
bool haru_dict_deflates(const void *dict); /* libharu will deflate its stream */
void haru_dict_set_deflates(HPDF_Dict dict, bool deflates);

/* What writes entries before the closing ">>", and what that one finds with haru_dict_attr. */
void haru_dict_set_writer(HPDF_Dict dict, HPDF_Dict_OnWriteFunc write);
void haru_dict_set_attr(HPDF_Dict dict, void *attr);
void *haru_dict_attr(HPDF_Dict dict);

/* ---- a stream and a page ---- */

/* What was given to HPDF_CallbackWriter_New. */
void *haru_stream_attr(HPDF_Stream stream);
HPDF_Stream haru_page_content(HPDF_Page page);
/* The name that a font has on a page, a new one at its first use there; NULL on failure. */
const char *haru_page_font_name(HPDF_Page page, HPDF_Dict font);

/* ---- fonts ---- */

/* Memory for definitions that several documents use; NULL on failure. */
HPDF_MMgr haru_shared_memory(struct arena *arena);

struct haru_face {
    const char *name;
    size_t length1; /* of the program that libharu has cut */
    HPDF_Box box;
    int ascent, descent, cap_height, x_height, stem_v;
};

void haru_definition_face(HPDF_FontDef definition, struct haru_face *out);
/* Puts "TAG+" before the font's name, which is cut to fit. */
void haru_definition_set_tag(HPDF_FontDef definition, const char *tag, size_t length);
void haru_definition_set_descriptor(HPDF_FontDef definition, HPDF_Dict descriptor);
/* Marks every glyph as used. */
void haru_definition_use_all(HPDF_FontDef definition);
/* A copy that a document may change, without descriptor; it shares the font program. */
HPDF_FontDef haru_definition_copy(HPDF_FontDef definition, HPDF_Doc doc, struct arena *arena);

/* Which codes a font has drawn: 256 flags. */
const HPDF_BYTE *haru_font_used(HPDF_Font font);
/* The stream of a two-byte font's way back to Unicode. */
HPDF_Stream haru_font_cmap(HPDF_Font font);

/* Makes a fresh WinAnsi encoder one of 256 other characters, 0 where there is none. */
void haru_encoder_become(HPDF_Encoder encoder, const char *name, const uint16_t characters[256],
                         HPDF_Encoder_Write_Func write);
/* The codes that it names: 256 flags. */
HPDF_BYTE *haru_encoder_named(HPDF_Encoder encoder);

#endif
