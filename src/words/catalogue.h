/* The words of one language: keys with sentences, their slots parsed once.
 *
 * templates/wording/<lang>/ holds YAML files, each one flat mapping of dotted keys; all files
 * of a folder are merged and a key stands once. A value is a text, a list of alternatives (the
 * first whose slots are all known is used) or a mapping with the plural forms of a counted
 * slot; an item of a list may be such a mapping too. Slots are {name}; {{ and }} write braces.
 *
 * Plural forms are `other` and those categories that the language's own file names
 * (words/language.h).
 */
#ifndef BASKLEAF_WORDS_CATALOGUE_H
#define BASKLEAF_WORDS_CATALOGUE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/diag.h"
#include "words/language.h"

/* A stretch of text or the name of a slot. */
struct wording_piece {
    bool is_slot;
    const char *text;
};

struct wording_phrase {
    const struct wording_piece *pieces;
    size_t count;
};

/* One way to say it: a single form, or forms that a number chooses. */
struct wording_form {
    const char *count_by;               /* slot whose number chooses; NULL: one form alone */
    const struct wording_phrase *forms; /* PLURAL_COUNT of them, or the one */
};

struct wording_entry {
    const char *key;
    struct mark at;
    const struct wording_form *alternatives; /* one or more, in order of preference */
    size_t count;
};

/* How the files of a language begin that a sheet never speaks from. */
#define WORDING_OF_DESK "desk"
/* The entries of one family, such as term.<code>.word. */
#define WORDING_TERM "term."
#define WORDING_TERM_LAST ".word"
#define WORDING_SHORT "short."
#define WORDING_SHORT_LAST ".form"
struct wording_family {
    const struct wording_entry **entries;
    size_t count;
};

struct wording {
    const char *lang; /* BCP 47, the folder's name */
    const char *folder;
    const struct language *language;
    struct wording_entry *entries; /* in the order of the files, sorted by name */
    size_t count;
    uint32_t *table; /* numbers of entries from 1, at the place of their key's hash or behind it */
    size_t room;     /* of the table, a power of two */
    struct wording_family terms, short_forms; /* what every sheet asks for over all keys */
    bool is_proven; /* its slots were, when the program was built (words/shipped_words.h) */
};

/* What stands in a slot. `number` chooses a plural form where has_number. */
struct slot_value {
    const char *text;
    bool has_number;
    double number;
};

/* Where a sentence's slots come from. */
struct slot_source {
    /* False when the name is unknown or has no value here; *out is then untouched. */
    bool (*find)(const struct slot_source *self, const char *name, struct slot_value *out);
};

/* Reads <folder>/<lang>/ with every file in it but the one named `left_out` (NULL: none). All
 * faults are reported with their place; NULL when there was one. Everything belongs to the arena.
 */
struct wording *catalogue_read(const char *folder, const char *lang, const char *left_out,
                               struct arena *arena, struct diag *diag);

/* A file that is read in the place of one of a language's own, or a whole language from elsewhere:
 * what a clinic is about to put into its folder. */
struct wording_stand_in {
    const char *lang;
    const char *folder; /* the language stands here, in a folder of its name; NULL: where it does */
    const char *name;   /* the file in whose place ... */
    const char *path;   /* ... this one is read */
};

/* Where the words of a file of this language are read; the stand-in may be NULL. */
const char *wording_file_path(const struct wording_stand_in *stand_in, const char *lang,
                              const char *own_folder, const char *name, struct arena *arena);

/* catalogue_read with what stands in. */
struct wording *catalogue_read_with(const char *folder, const char *lang, const char *left_out,
                                    const struct wording_stand_in *stand_in, struct arena *arena,
                                    struct diag *diag);

/* Whose words they are. */
struct wording_source {
    const char *folder, *lang;
    const struct language *language;
};

/* The same from trees that have been read; a NULL among them is a fault reported before. */
struct node;
struct wording *catalogue_read_trees(const struct wording_source *source, struct node *const *trees,
                                     size_t count, struct arena *arena, struct diag *diag);

/* The entry of a key, or NULL. */
const struct wording_entry *catalogue_find(const struct wording *wording, const char *key);

/* How long the code is in a key such as short.<code>.form, of the family "short." and the last part
 * ".form"; 0 for any other key. */
size_t catalogue_code_length(const char *key, const char *family, const char *last);

/* The entry as text: the first alternative whose slots are all known. NULL when none is; then
 * *missing (may be NULL) names the slot that the last alternative lacks. */
const char *catalogue_fill(const struct wording *wording, const struct wording_entry *entry,
                           const struct slot_source *slots, struct arena *arena,
                           const char **missing);

/* Two languages say the same: every key stands in both, with the same slots over all its
 * alternatives and the same counted slots, but for words that agree with the patient's sex. Each
 * fault is a DIAG_ERROR with the place of the entry that has no twin. True when none was found. */
bool catalogue_check_pair(const struct wording *a, const struct wording *b, struct diag *diag);
/* The same for the entries of `a` alone. */
bool catalogue_check_twins(const struct wording *a, const struct wording *b, struct diag *diag);

/* Calls visit for every slot name of the entry, repeated ones too, the counted ones included. */
void catalogue_each_slot(const struct wording_entry *entry,
                         void (*visit)(void *context, const char *slot), void *context);

#endif
