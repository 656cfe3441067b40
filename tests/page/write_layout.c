/* Lays the sheet with every kind of block out and writes it as a PDF, to be looked at and to be
 * read by other programs.
 *
 *     write_layout FONTS-FOLDER a4|letter OUT.pdf
 */
#include <stdio.h>
#include <string.h>

#include "page/every_block.h"
#include "layout/layout.h"
#include "pdf/pdf.h"
#include "page/make.h"

static bool write_pdf(const char *folder, enum paper paper, const char *path, struct arena *arena,
                      struct diag *diag)
{
    struct fonts *fonts = fonts_new(folder, diag);
    if (fonts == NULL)
        return false;
    struct paged paged;
    struct bytes file;
    const struct document *document = every_block_make(arena, paper);
    bool ok = make_pages(document, fonts_measure(fonts), arena, diag, &paged) &&
              pdf_write(&paged, fonts, arena, diag, &file) &&
              file_write_atomic(path, file.data, file.length, 0644, diag);
    fonts_free(fonts);
    return ok;
}

int main(int argc, char **argv)
{
    if (argc < 4) {
        fputs("usage: write_layout FONTS-FOLDER a4|letter OUT.pdf\n", stderr);
        return 2;
    }
    struct arena arena;
    struct diag diag;
    arena_init(&arena);
    diag_init(&diag);
    enum paper paper = strcmp(argv[2], "letter") == 0 ? PAPER_LETTER : PAPER_A4;
    bool ok = write_pdf(argv[1], paper, argv[3], &arena, &diag);
    diag_print(&diag, stderr);
    diag_finish(&diag);
    arena_finish(&arena);
    return ok ? 0 : 1;
}
