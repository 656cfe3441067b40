/* The words of each language as they came with the program, parsed and proven when it was built.
 *
 * A language whose files are those very files, to the byte and no other beside them, is laid out
 * from here (yaml/shipped.h); one of which a single file differs is read, parsed and proven whole.
 */
#ifndef BASKLEAF_WORDS_SHIPPED_WORDS_H
#define BASKLEAF_WORDS_SHIPPED_WORDS_H

#include "words/catalogue.h"
#include "yaml/shipped.h"

enum { SHIPPED_WORDS_FILES_MOST = 32 };

struct shipped_words_file {
    const char *name;
    size_t length; /* its bytes follow those of the one before it */
};

struct shipped_words {
    const char *lang;
    const struct shipped_words_file *files; /* all but those of the desk, sorted by name */
    size_t file_count;
    const struct shipped_records *records; /* one: the struct wording */
};

extern const struct shipped_words shipped_words[];
extern const size_t shipped_words_count;

/* Names of a language's files, sorted. */
struct shipped_names {
    const char *const *names;
    size_t count;
};

/* The words of the source, whose files have these names; *out is NULL where one is not as it came.
 * False after a file that cannot be read. */
bool shipped_words_find(const struct wording_source *source, const struct shipped_names *names,
                        struct arena *arena, struct diag *diag, struct wording **out);

#endif
