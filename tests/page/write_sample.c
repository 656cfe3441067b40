/* Writes one of the hand-made sheets as a PDF, for the tests that read it with other programs.
 *
 *     write_sample FONTS-FOLDER plain|rich|long OUT.pdf [PASSWORD]
 */
#include <stdio.h>

#include "page/pdf.h"
#include "page/sample.h"

int main(int argc, char **argv)
{
    if (argc < 4 || sample_named(argv[2]) == SAMPLE_COUNT) {
        fputs("usage: write_sample FONTS-FOLDER plain|rich|long OUT.pdf [PASSWORD]\n", stderr);
        return 2;
    }
    struct arena arena;
    struct diag diag;
    struct bytes file;
    arena_init(&arena);
    diag_init(&diag);
    struct sample *sample = sample_make(sample_named(argv[2]), &arena);
    sample->document.password = argc > 4 ? argv[4] : NULL;
    struct fonts *fonts = fonts_new(argv[1], &diag);
    bool ok = fonts != NULL && pdf_write(&sample->paged, fonts, &arena, &diag, &file) &&
              file_write_atomic(argv[3], file.data, file.length, 0644, &diag);
    diag_print(&diag, stderr);
    fonts_free(fonts);
    diag_finish(&diag);
    arena_finish(&arena);
    return ok ? 0 : 1;
}
