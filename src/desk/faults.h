/* Faults as the page needs them: with the path of the field they stand beside. */
#ifndef BASKLEAF_DESK_FAULTS_H
#define BASKLEAF_DESK_FAULTS_H

#include "base/json.h"
#include "words/catalogue.h"
#include "yaml/tree.h"

/* A list of {path, code, text, said} of all that is graver than a remark; `said` is the sentence
 * desk.fault.CODE of the desk's language, where there is one, with what the message quotes in its
 * slots: {value} the first words in quotes, {near} what may have been meant, {low} and {high} the
 * bounds, {today}. A text never tells to type a command. `tree` and `words` may be NULL. */
void faults_write_json(const struct diag *diag, const struct node *tree,
                       const struct wording *words, struct arena *arena, struct json *json);

/* Likewise of what is no fault and stands beside a field: each remark that has such a sentence. */
void faults_write_notes_json(const struct diag *diag, const struct node *tree,
                             const struct wording *words, struct arena *arena, struct json *json);

/* The text without the clause that names a command of the program or an option of one: nobody at
 * the desk types those. */
const char *faults_without_command(const char *text, struct arena *arena);

#endif
