/* Which animals, and which visits of theirs, a row of data is for. Every condition that is written
 * must hold; a list holds when one of its words does. */
#ifndef BASKLEAF_RECORDS_WHOM_H
#define BASKLEAF_RECORDS_WHOM_H

#include "records/species.h"

struct visit;
struct visit_medicine;

struct whom {
    struct list groups, habits, diets, stages;  /* of struct choice_value */
    struct list sexes, brumation, reproduction; /* of struct choice_value */
    struct list traits;                         /* of struct choice_value: all of these */
    struct list never_with;                     /* of struct choice_value: none of these */
    struct list species;                        /* of struct text_value: codes */
    struct list done, never_done; /* of struct text_value: one of these, none of these today */
    struct list never_own_step; /* likewise: no step in the veterinarian's own words is of these */
    struct list never_written;  /* of struct text_value: no free text of the record is of these */
    struct list found;          /* of struct text_value: one of these findings, as not normal */
    struct list never_found;    /* likewise: none of these */
    struct list heat;           /* of struct choice_value: all heat on the record is of these */
    struct list heat_with;      /* of struct choice_value: one of the heat sources is */
    struct list heat_safe;      /* of struct choice_value: one that has all it needs is */
    struct flag_value lamp;     /* is a UVB lamp on the record? */
    struct flag_value thermostat; /* has all heat on the record its thermostat? */
    struct flag_value outdoor;    /* does its box stand in the open? */
    struct flag_value few_dry;    /* is it out of the water for the lesser part of its day? */
};

extern const struct choice heat_kind_choices[];

/* The rows of a schema whose struct holds `struct whom whom`. */
#define WHOM_ROWS(struct_) WHOM_ROWS_OF(struct_, )
#define WHOM_ROWS_OF(struct_, in_)                                                                 \
    ROW(CHOICES, struct_, in_ whom.groups, "groups", .choices = group_choices,                     \
        .help = "all when left out"),                                                              \
        ROW(CHOICES, struct_, in_ whom.habits, "habits", .choices = habit_choices,                 \
            .help = "all when left out"),                                                          \
        ROW(CHOICES, struct_, in_ whom.diets, "diets", .choices = diet_choices,                    \
            .help = "all when left out"),                                                          \
        ROW(CHOICES, struct_, in_ whom.stages, "stages", .choices = stage_choices,                 \
            .help = "all when left out"),                                                          \
        ROW(CHOICES, struct_, in_ whom.traits, "traits", .choices = trait_choices,                 \
            .help = "only species that have all of these"),                                        \
        ROW(CHOICES, struct_, in_ whom.sexes, "sexes", .choices = sex_choices,                     \
            .help = "all when left out"),                                                          \
        ROW(CHOICES, struct_, in_ whom.brumation, "brumation", .choices = brumation_choices,       \
            .help = "by its winter rest; all when left out"),                                      \
        ROW(CHOICES, struct_, in_ whom.reproduction, "reproduction",                               \
            .choices = reproduction_choices, .help = "all when left out"),                         \
        ROW(CHOICES, struct_, in_ whom.never_with, "never-with", .choices = trait_choices,         \
            .help = "not for species that have one of these"),                                     \
        ROW(TEXTS, struct_, in_ whom.species, "species", .most = 60,                               \
            .help = "only these species"),                                                         \
        ROW(TEXTS, struct_, in_ whom.done, "done", .most = 20,                                     \
            .help = "only where one of these was done today"),                                     \
        ROW(TEXTS, struct_, in_ whom.never_done, "never-done", .most = 20,                         \
            .help = "only where none of these was done today"),                                    \
        ROW(TEXTS, struct_, in_ whom.never_written, "never-written", .most = 20,                   \
            .help = "only where no text of the veterinarian's own and no decision's topic is of "  \
                    "one of these, by the rows of `written` of topics.yaml"),                      \
        ROW(TEXTS, struct_, in_ whom.never_own_step, "never-own-step", .most = 20,                 \
            .help = "only where no step in the veterinarian's own words is of one of these"),      \
        ROW(TEXTS, struct_, in_ whom.found, "found", .most = 20,                                   \
            .help = "only where one of these was found"),                                          \
        ROW(TEXTS, struct_, in_ whom.never_found, "never-found", .most = 20,                       \
            .help = "only where none of these was found"),                                         \
        ROW(CHOICES, struct_, in_ whom.heat, "heat", .choices = heat_kind_choices,                 \
            .help = "only where all heat on the record is of these kinds"),                        \
        ROW(CHOICES, struct_, in_ whom.heat_with, "heat-with", .choices = heat_kind_choices,       \
            .help = "only where one heat source on the record is of these kinds"),                 \
        ROW(CHOICES, struct_, in_ whom.heat_safe, "heat-safe", .choices = heat_kind_choices,       \
            .help = "only where one of these kinds has its own guard and thermostat"),             \
        ROW(FLAG, struct_, in_ whom.lamp, "lamp",                                                  \
            .help = "yes: only where a UVB lamp is on the record; no: where none is"),             \
        ROW(FLAG, struct_, in_ whom.thermostat, "thermostat",                                      \
            .help = "yes: only where all heat on the record has one; no: where that is not said"), \
        ROW(FLAG, struct_, in_ whom.outdoor, "outdoor",                                            \
            .help = "yes: only where the box stands outdoors; no: where that is not said"),        \
        ROW(FLAG, struct_, in_ whom.few_dry, "few-dry-hours",                                      \
            .help = "yes: only where few hours a day out of the water are written; no: elsewhere")

/* By what a free text is known to be of something, in one language: a row of topics.yaml. */
struct written_words {
    struct text_value of, language;
    struct list parts;  /* of struct text_value: parts of words */
    struct list beside; /* likewise: the sentence holds one of these too; none: any sentence */
    struct list never;  /* of struct text_value: what holds a part and is of something else */
    struct list routes; /* of struct choice_value: of a medicine for home */
    struct mark at;
};

/* The animal that is asked about. */
struct whom_animal {
    const struct species *species;
    const struct visit *visit;
    const struct list *written; /* of struct written_words, of all languages */
    enum stage stage;
    enum sex sex;
    bool few_dry; /* few hours a day out of the water are written */
};

/* The first medicine whose name is of that, by the rows of `written`; NULL: none is. */
const char *written_medicine(const struct list *written, const struct visit *visit, const char *of);

/* What `of` begins with where it is a medicine's class. */
#define WRITTEN_USE "medicine-use."

/* The sentence on what it is for, "medicine-use.CLASS": of its name's class, else of its way in by
 * the rows of `written`; NULL where neither says one. */
const char *written_use(const struct list *written, const struct visit_medicine *one);

/* What `of` is of words that say how a medicine gets in. */
#define WRITTEN_WAY "medicine-way"

/* The way in: the route as written, else that of its name by the rows of `written`; NULL where
 * neither says one. */
const struct choice_value *written_way(const struct list *written,
                                       const struct visit_medicine *one);

/* What `of` is of a place on the lower side of a shell. */
#define WRITTEN_UNDER_SHELL "lower-shell"
/* ... and of a medicine that is food. */
#define WRITTEN_FOOD "given-as-food"
/* ... and of directions that say how warm and how deep a bath is, or when it is given. */
#define WRITTEN_BATH_WARMTH "bath-warmth"
#define WRITTEN_BATH_DEPTH "bath-depth"
#define WRITTEN_BATH "bath"
/* ... and of powders on the food. */
#define WRITTEN_POWDER "powder"
/* ... and of directions that say which eye. */
#define WRITTEN_EYE "which-eye"
/* ... and of directions that leave the amount to a label. */
#define WRITTEN_LABEL "on-the-label"
/* ... that go on to the next check, or that say how long by themselves. */
#define WRITTEN_CHECK "at-the-check"
#define WRITTEN_LENGTH "how-long"

/* ... of a step that begins on the day of the visit, or later. */
#define WRITTEN_TODAY "begins-today"
#define WRITTEN_LATER "begins-later"
/* ... and of a day without food. */
#define WRITTEN_FAST "fasting"

/* A step in her own words that is of that and names the day by its number. */
bool written_step_on(const struct list *written, const struct visit *visit, const char *of,
                     struct date day);
/* Likewise of a medicine, by the first word of its name. */
bool written_medicine_on(const struct visit *visit, const char *name, struct date day);

/* Is a text of that, by the rows of `written`? */
bool written_says(const struct list *written, const struct text_value *text, const char *of);

/* The first sentence of a text that is of one of these (of struct text_value), counted from 0;
 * SIZE_MAX: none is. */
size_t written_sentence(const struct list *written, const struct text_value *text,
                        const struct list *wanted);

/* Is a step in the veterinarian's own words of that? */
bool written_step_says(const struct list *written, const struct visit *visit, const char *of);
/* Or of one of these (of struct text_value)? */
bool written_step(const struct list *written, const struct visit *visit, const struct list *wanted);

/* Does any free text of the record, or a medicine's way in, speak of that? */
bool visit_writes_of(const struct whom_animal *animal, const char *of);

bool whom_fits(const struct whom *whom, const struct whom_animal *animal);

/* Does a list of struct choice_value hold the value, a list of struct text_value the text? */
bool list_has_choice(const struct list *list, int value);
bool list_has_text(const struct list *list, const char *text);

#endif
