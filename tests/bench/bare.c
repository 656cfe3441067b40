/* The floor that speed is measured against: libharu and nothing else. */
#include "bench/bare.h"

#include <stdio.h>
#include <string.h>

#include <hpdf.h>

#include "pdf/codepages.h"
#include "base/utf8.h"
#include "base/file.h"

/* A text as WinAnsi, which is what libharu's single-byte fonts take. The bare program finds it in
 * the operation's uri, a field that texts have no use for. */
static const char *to_win_ansi(const char *text, struct arena *arena)
{
    size_t length = strlen(text), filled = 0;
    char *out = arena_take(arena, length + 1);
    for (size_t at = 0; at < length;) {
        enum codepage page;
        int code;
        if (codepages_find((unsigned)utf8_next(text, length, &at), &page, &code))
            out[filled++] = (char)code;
    }
    return out;
}

static void bare_curves(HPDF_Page page, const struct op *op, float height)
{
    const struct point *p = op->points;
    for (const char *verb = op->verbs ? op->verbs : ""; *verb; verb++) {
        if (*verb == 'M')
            HPDF_Page_MoveTo(page, (float)p->x, height - (float)p->y);
        else if (*verb == 'L')
            HPDF_Page_LineTo(page, (float)p->x, height - (float)p->y);
        else if (*verb == 'C')
            HPDF_Page_CurveTo(page, (float)p[0].x, height - (float)p[0].y, (float)p[1].x,
                              height - (float)p[1].y, (float)p[2].x, height - (float)p[2].y);
        else
            HPDF_Page_ClosePath(page);
        p += *verb == 'C' ? 3 : *verb == 'Z' ? 0 : 1;
    }
}

/* A shape as anybody would draw it. */
static void bare_shape(HPDF_Page page, const struct op *op, float height)
{
    HPDF_Page_SetRGBStroke(page, op->ink.r / 255.0f, op->ink.g / 255.0f, op->ink.b / 255.0f);
    HPDF_Page_SetRGBFill(page, op->fill.r / 255.0f, op->fill.g / 255.0f, op->fill.b / 255.0f);
    HPDF_Page_SetLineWidth(page, (float)op->stroke_pt);
    if (op->kind == OP_RECT) {
        HPDF_Page_Rectangle(page, (float)op->x, height - (float)(op->y + op->height),
                            (float)op->width, (float)op->height);
    } else if (op->kind == OP_CIRCLE) {
        HPDF_Page_Circle(page, (float)op->x, height - (float)op->y, (float)op->width);
    }
    bare_curves(page, op, height);
    for (size_t i = 0; i < op->count && !op->verbs; i++) {
        float x = (float)op->points[i].x, y = height - (float)op->points[i].y;
        if (i == 0)
            HPDF_Page_MoveTo(page, x, y);
        else
            HPDF_Page_LineTo(page, x, y);
    }
    if (op->filled)
        HPDF_Page_FillStroke(page);
    else
        HPDF_Page_Stroke(page);
}

/* One document the plain way; returns its size in bytes, 0 on failure. */
size_t bare_write(const struct bare *bare, unsigned char *out, size_t room)
{
    HPDF_Doc doc = HPDF_New(NULL, NULL);
    HPDF_SetCompressionMode(doc, HPDF_COMP_ALL);
    HPDF_Font fonts[TEXT_STYLE_COUNT];
    for (int style = 0; style < TEXT_STYLE_COUNT; style++) {
        const char *name = HPDF_LoadTTFontFromFile(doc, bare->font_paths[style], HPDF_TRUE);
        fonts[style] = HPDF_GetFont(doc, name, "WinAnsiEncoding");
    }
    for (size_t i = 0; i < bare->paged->page_count; i++) {
        HPDF_Page page = HPDF_AddPage(doc);
        float height = (float)bare->paged->page_height_pt;
        HPDF_Page_SetWidth(page, (float)bare->paged->page_width_pt);
        HPDF_Page_SetHeight(page, height);
        for (const struct op *op = bare->paged->pages[i].first; op != NULL; op = op->next) {
            if (op->kind == OP_TEXT) {
                HPDF_Page_SetRGBFill(page, op->ink.r / 255.0f, op->ink.g / 255.0f,
                                     op->ink.b / 255.0f);
                HPDF_Page_BeginText(page);
                HPDF_Page_SetFontAndSize(page, fonts[op->style], (float)op->size_pt);
                HPDF_Page_TextOut(page, (float)op->x, height - (float)op->y, op->uri);
                HPDF_Page_EndText(page);
            } else if (op->kind != OP_IMAGE && op->kind != OP_LINK) {
                bare_shape(page, op, height);
            }
        }
    }
    HPDF_SaveToStream(doc);
    HPDF_UINT32 size = (HPDF_UINT32)room;
    HPDF_ReadFromStream(doc, out, &size);
    bool failed = HPDF_GetError(doc) != HPDF_OK && HPDF_GetError(doc) != HPDF_STREAM_EOF;
    HPDF_Free(doc);
    return failed ? 0 : size;
}

static void find_fonts(struct bare *bare, const char *folder, struct arena *arena)
{
    bare->font_paths[TEXT_PLAIN] = file_join(arena, folder, "plain-win-ansi.ttf");
    bare->font_paths[TEXT_STRONG] = file_join(arena, folder, "strong-win-ansi.ttf");
}

struct bare bare_prepare(struct paged *paged, const char *folder, struct arena *arena)
{
    struct bare bare = {.paged = paged};
    find_fonts(&bare, folder, arena);
    for (size_t i = 0; i < paged->page_count; i++)
        for (struct op *op = paged->pages[i].first; op; op = op->next)
            op->uri = op->kind == OP_TEXT ? to_win_ansi(op->text, arena) : NULL;
    return bare;
}

/* ---- operations in a file ----------------------------------------------------------------------
 */

static void keep_text(const char *text, FILE *out)
{
    size_t length = text ? strlen(text) + 1 : 0;
    fwrite(&length, sizeof length, 1, out);
    fwrite(text, 1, length, out);
}

bool bare_keep(const struct bare *bare, FILE *out)
{
    const struct paged *paged = bare->paged;
    fwrite(paged, sizeof *paged, 1, out);
    for (size_t i = 0; i < paged->page_count; i++) {
        fwrite(&paged->pages[i].count, sizeof(size_t), 1, out);
        for (const struct op *op = paged->pages[i].first; op; op = op->next) {
            fwrite(op, sizeof *op, 1, out);
            fwrite(op->points, sizeof *op->points, op->points ? op->count : 0, out);
            keep_text(op->verbs, out);
            keep_text(op->uri, out);
        }
    }
    return fflush(out) == 0 && !ferror(out);
}

/* What keep_text wrote; NULL stays NULL. */
static bool read_text(FILE *in, struct arena *arena, const char **out)
{
    size_t length;
    if (fread(&length, sizeof length, 1, in) != 1)
        return false;
    char *text = length > 0 ? arena_take(arena, length) : NULL;
    *out = text;
    return fread(text, 1, length, in) == length;
}

static bool read_op(FILE *in, struct page *page, struct arena *arena)
{
    struct op *op = ARENA_NEW(arena, struct op);
    if (fread(op, sizeof *op, 1, in) != 1)
        return false;
    if (op->points) {
        struct point *points = ARENA_ARRAY(arena, struct point, op->count);
        if (fread(points, sizeof *points, op->count, in) != op->count)
            return false;
        op->points = points;
    }
    if (!read_text(in, arena, &op->verbs) || !read_text(in, arena, &op->uri))
        return false;
    op->next = NULL;
    if (page->last)
        page->last->next = op;
    else
        page->first = op;
    page->last = op;
    return true;
}

bool bare_load(FILE *in, const char *folder, struct arena *arena, struct bare *out)
{
    struct paged *paged = ARENA_NEW(arena, struct paged);
    find_fonts(out, folder, arena);
    out->paged = paged;
    if (fread(paged, sizeof *paged, 1, in) != 1)
        return false;
    paged->pages = ARENA_ARRAY(arena, struct page, paged->page_count);
    for (size_t i = 0; i < paged->page_count; i++) {
        size_t count;
        if (fread(&count, sizeof count, 1, in) != 1)
            return false;
        while (count--)
            if (!read_op(in, &paged->pages[i], arena))
                return false;
    }
    return true;
}
