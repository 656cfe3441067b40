/* Draws pages, writes structure and metadata, and gives the bytes of the PDF. */
#include "pdf/pdf_parts.h"

#include "pdf/metadata.h"
#include "pdf/bookmarks.h"
#include "pdf/pdf_draw.h"
#include "pdf/pdf_save.h"

/* Makes the document's empty pages. NULL on failure. */
static HPDF_Page *add_pages(struct haru *haru, const struct paged *paged)
{
    HPDF_Page *pages = ARENA_ARRAY(haru->arena, HPDF_Page, paged->page_count);
    for (size_t i = 0; i < paged->page_count; i++) {
        pages[i] = HPDF_AddPage(haru->doc);
        if (pages[i] == NULL)
            return NULL;
        HPDF_Page_SetWidth(pages[i], (float)paged->page_width_pt);
        HPDF_Page_SetHeight(pages[i], (float)paged->page_height_pt);
    }
    return haru_ok(haru) ? pages : NULL;
}

/* Everything but saving. */
static bool compose(struct haru *haru, const struct paged *paged, const struct fonts *fonts)
{
    /* the document points into its typefaces until it is saved */
    struct typefaces *faces = ARENA_NEW(haru->arena, struct typefaces);
    struct structure structure;
    HPDF_SetCompressionMode(haru->doc, HPDF_COMP_ALL);
    HPDF_Page *pages = add_pages(haru, paged);
    if (pages == NULL || !structure_init(&structure, haru, paged, pages))
        return false;
    typefaces_init(faces, haru, fonts);
    struct pdf_drawing drawing = {
        .haru = haru,
        .paged = paged,
        .faces = faces,
        .structure = &structure,
        .short_forms = short_forms_of(paged->document),
    };
    for (size_t i = 0; i < paged->page_count && haru_ok(haru); i++)
        pdf_draw_page(&drawing, (int)i);
    if (haru_ok(haru)) {
        typefaces_finish(faces);
        structure_finish(&structure);
        outline_write(&structure);
        metadata_write(haru, paged->document, fonts);
    }
    return haru_ok(haru);
}

bool pdf_write_with(const struct haru_memory *memory, const struct paged *paged,
                    const struct fonts *fonts, struct arena *arena, struct diag *diag,
                    struct bytes *out)
{
    struct haru haru;
    struct bytes file;
    bool ok = haru_open(&haru, memory, arena, diag) && compose(&haru, paged, fonts) &&
              save_document(&haru, paged->document->record_id, &file);
    haru_close(&haru);
    if (ok)
        *out = file;
    return ok;
}

bool pdf_write(const struct paged *paged, const struct fonts *fonts, struct arena *arena,
               struct diag *diag, struct bytes *out)
{
    return pdf_write_with(NULL, paged, fonts, arena, diag, out);
}
