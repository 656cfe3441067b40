/* plural_grid CATEGORY=RULE...: the category of each number of a grid, one a line. */
#include <stdio.h>
#include <string.h>

#include "words/plural.h"

static int set_rule(struct plural_rules *rules, const char *word, struct arena *arena)
{
    const char *equals = strchr(word, '='), *wrong = NULL;
    for (int i = 0; equals && i < PLURAL_OTHER; i++) {
        const char *name = plural_word((enum plural)i);
        if (strlen(name) == (size_t)(equals - word) && strncmp(name, word, strlen(name)) == 0)
            rules->conditions[i] = plural_parse(equals + 1, arena, &wrong);
    }
    return wrong == NULL;
}

int main(int count, char **words)
{
    struct arena arena;
    struct plural_rules rules = {0};
    int good = 1;
    arena_init(&arena);
    for (int i = 1; i < count; i++)
        good = set_rule(&rules, words[i], &arena) && good;
    for (int n = 0; n <= 300; n++)
        printf("%d %s\n", n, plural_word(plural_choose(&rules, n)));
    for (int n = 0; n <= 120; n++)
        printf("%g %s\n", n + 0.5, plural_word(plural_choose(&rules, n + 0.5)));
    arena_finish(&arena);
    return good ? 0 : 1;
}
