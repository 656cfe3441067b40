/* The table of a language's keys, and reading its file. */
#include "words/language.h"

#include <string.h>

#include "base/file.h"
#include "records/table.h"
#include "words/agreement.h"
#include "words/sound.h"

#define PLURAL(plural_, key_)                                                                      \
    ROW(TEXT, language, plural_texts[plural_], key_, .help = "a plural rule of the Unicode CLDR",  \
        .example = "i = 1 and v = 0")

static const struct field plural_fields[] = {
    PLURAL(PLURAL_ZERO, "zero"), PLURAL(PLURAL_ONE, "one"),   PLURAL(PLURAL_TWO, "two"),
    PLURAL(PLURAL_FEW, "few"),   PLURAL(PLURAL_MANY, "many"),
};
static const struct schema plural_schema =
    SCHEMA(language, plural_fields, "plurals",
           "When a number takes which form; what fits no rule takes 'other'.");

static const struct field language_fields[] = {
    {.key = "plurals",
     .kind = FIELD_RECORD,
     .schema = &plural_schema,
     .help = "plural rules of the Unicode CLDR"},
    ROW(CHOICE, language, reading_ease, "reading-ease", .choices = reading_ease_choices,
        .required = true, .help = "the formula that scores how easily a sheet reads",
        .example = "flesch-kincaid"),
    ROW(NAMED, language, agreement, "agreement", .schema = &agreement_schema,
        .help = "words that agree with the patient's sex, by the name of their slot"),
    ROW(NAMED, language, sounds, "sounds", .schema = &sound_schema,
        .help = "words that change before a sound, by the word"),
};
const struct schema language_schema =
    SCHEMA(language, language_fields, "language", "What a language is beyond its sentences.");

static bool parse_plurals(struct language *language, struct arena *arena, struct diag *diag)
{
    bool good = true;
    for (int i = 0; i < PLURAL_OTHER; i++) {
        const struct text_value *text = &language->plural_texts[i];
        const char *wrong = NULL;
        if (!text->text)
            continue;
        language->plurals.conditions[i] = plural_parse(text->text, arena, &wrong);
        if (language->plurals.conditions[i])
            continue;
        diag_report(diag, DIAG_ERROR, "bad-plural-rule", text->at,
                    "is no plural rule at '%.20s'; write it as the CLDR does, such as "
                    "'i = 1 and v = 0'",
                    wrong);
        good = false;
    }
    return good;
}

/* "es-MX" is Spanish. */
static bool is_language(const char *lang, const char *base)
{
    size_t length = strlen(base);
    return strncmp(lang, base, length) == 0 && (lang[length] == '\0' || lang[length] == '-');
}

static bool check_formula(const struct language *language, const char *lang, struct diag *diag)
{
    const struct reading_formula *formula = readability_formula(language->reading_ease.value);
    if (!formula || is_language(lang, formula->lang))
        return true;
    diag_report(diag, DIAG_ERROR, "formula-of-another-language", language->reading_ease.at,
                "'%s' was made for the language '%s' and says nothing about '%s'; write none",
                bind_choice_word(reading_ease_choices, language->reading_ease.value), formula->lang,
                lang);
    return false;
}

const struct language *language_read_tree(const struct node *tree, const char *lang,
                                          struct arena *arena, struct diag *diag)
{
    struct language *language = ARENA_NEW(arena, struct language);
    if (!bind_record(tree, &language_schema, "", arena, diag, language))
        return NULL;
    bool good = parse_plurals(language, arena, diag);
    return check_formula(language, lang, diag) && good ? language : NULL;
}

const struct language *language_read(const char *folder, const char *lang, struct arena *arena,
                                     struct diag *diag)
{
    const struct node *tree = tree_read_file(file_join(arena, folder, LANGUAGE_FILE), arena, diag);
    return tree ? language_read_tree(tree, lang, arena, diag) : NULL;
}
