/* Is a whole data folder of one piece: everything worded in every language, nothing dead, every
 * rule reached by an example, every section easy to read? */
#ifndef BASKLEAF_CHECK_DATA_CHECK_H
#define BASKLEAF_CHECK_DATA_CHECK_H

#include "render/sheet_context.h"
#include "records/species.h"
#include "base/strbuf.h"

/* Under way; everything is borrowed. */
struct data_check {
    const struct resources *resources;
    struct library library;
    struct sheet_context *context;
    const struct wording **words; /* of every language, English first */
    size_t language_count;
    struct date today;
    struct arena *arena;
    struct diag *diag;
    struct strbuf *out; /* tables for the reader */
};

/* Reads all of the folder and runs every proof below. Faults are DIAG_ERRORs with their
 * place, what is merely unused or untried a DIAG_REMARK. The table of rules and the table of
 * reading ease are appended to `out`. */
void data_check_run(const struct resources *resources, struct date today, struct arena *arena,
                    struct diag *diag, struct strbuf *out);

/* The same with a file, or a language, that stands outside; its faults, without remarks. */
void data_check_run_with(const struct resources *resources, const struct wording_stand_in *stand_in,
                         struct date today, struct arena *arena, struct diag *diag);

/* Every code of the data has its words in every language, the languages have the same keys and
 * slots, and no words stand for a code that is gone. */
void data_check_words(const struct data_check *check);

/* No language is a copy of another; every species has a name in each, and every field of a visit
 * words for the desk. */
void data_check_languages(const struct data_check *check);

/* Every sign that is named is known, and every sign that is known is named by something. */
void data_check_signs(const struct data_check *check);
/* Each code of the list (struct text_value) is a warning sign. */
void data_check_need_signs(const struct data_check *check, const struct list *codes);

/* Findings, procedures, species, actions and changes that a rule or settlement names are known. */
void data_check_rules(const struct data_check *check);
void data_check_sources(const struct data_check *check);
/* Of one file. */
void data_check_sources_of(const struct node *tree, struct diag *diag);

/* No text tells a keeper to do something of a topic without declaring the topic. */
void data_check_topics(const struct data_check *check);

/* Every text that tells a keeper to do or to watch something is declared at all. */
void data_check_declared(const struct data_check *check);

/* Words that tell nobody to do anything: names, headings, parts of a line. */
bool data_check_describes(const char *key);

/* The longer texts of each file of words are not cut into short sentences, where the language's
 * formula has a floor. */
void data_check_links(const struct data_check *check);

/* The example visits (templates/visits): each makes a sheet in every language; which of them
 * fires which rule; how easy each section reads. */
void data_check_examples(const struct data_check *check);

#endif
