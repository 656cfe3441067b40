/* Bytes -> the words of a language, each sentence filled with slots and without. */
#include <string.h>

#include "fuzz/fuzz.h"
#include "words/catalogue.h"
#include "yaml/tree.h"

static bool find_any(const struct slot_source *self, const char *name, struct slot_value *out)
{
    (void)self;
    fuzz_must(*name && !strpbrk(name, "{} \n"), "a slot has a plain name");
    if (name[0] == 'n')
        return false;
    *out = (struct slot_value){.text = "7", .has_number = true, .number = name[0] == 'o' ? 1 : 7};
    return true;
}

void fuzz_one(struct bytes bytes, struct arena *arena, struct diag *diag)
{
    struct node *tree = tree_read_bytes("words.yaml", bytes, arena, diag);
    const char *wrong = NULL;
    const struct language language = {.plurals.conditions[PLURAL_ONE] =
                                          plural_parse("i = 1 and v = 0", arena, &wrong)};
    const struct wording_source source = {"words", "en", &language};
    const struct wording *words = catalogue_read_trees(&source, &tree, 1, arena, diag);
    fuzz_must((words != NULL) == !diag_failed(diag), "words are whole or refused with a reason");
    const struct slot_source slots = {.find = find_any};
    for (size_t i = 0; words && i < words->count; i++) {
        const char *missing = NULL;
        const char *text = catalogue_fill(words, &words->entries[i], &slots, arena, &missing);
        fuzz_must(text ? *text != '\0' : missing != NULL,
                  "a sentence is said, or what it lacks is named");
        fuzz_must(catalogue_find(words, words->entries[i].key) != NULL, "every key is found again");
    }
}
