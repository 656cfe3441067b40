/* The words of one language, read whole: its sentences with every slot proven to exist.
 *
 * A slot that nobody can fill would make a sentence's better alternative fail without a word, and
 * the number would be missing on every sheet. So a name that is neither a slot of the plan
 * (words/slots.h) nor one of its own sentence is a fault when the words are read.
 */
#ifndef BASKLEAF_WORDS_WORDING_H
#define BASKLEAF_WORDS_WORDING_H

#include "words/catalogue.h"

/* As catalogue_read. NULL after errors. */
struct wording *wording_read(const char *folder, const char *lang, const char *left_out,
                             struct arena *arena, struct diag *diag);
struct wording *wording_read_with(const char *folder, const char *lang, const char *left_out,
                                  const struct wording_stand_in *stand_in, struct arena *arena,
                                  struct diag *diag);

/* The proof alone; each unknown slot is a DIAG_ERROR at its sentence. */
bool wording_check_slots(const struct wording *wording, struct arena *arena, struct diag *diag);

/* templates/wording/es/sheet.yaml -> "templates/wording", "es", "sheet.yaml". */
struct wording_place {
    const char *folder, *lang, *file;
};
struct wording_place wording_place_of(const char *path, struct arena *arena);

#endif
