/* A record as text: from what the page holds (JSON, which is YAML) to the YAML that lies in the
 * folder.
 *
 * A top-level section of a hand-written file that did not change stays byte by byte, with its
 * remarks; one that changed is written anew in the order of the schema. The result is read again
 * and compared before it is given back.
 */
#ifndef BASKLEAF_YAML_RECORD_TEXT_H
#define BASKLEAF_YAML_RECORD_TEXT_H

#include "base/json.h"
#include "yaml/bind.h"

/* Takes away what says nothing: empty texts, lists and mappings, as a form leaves them. The tree is
 * the caller's own. */
void record_prune(struct node *node);

/* Same keys, values and order of lists; the order of keys does not count. */
bool record_same(const struct node *a, const struct node *b);

/* The tree as JSON: mappings, lists, and every scalar as a text. */
void record_write_json(struct json *json, const struct node *node);

/* The text of `record`. `before` is the text it replaces, empty for a new one. *loses_remarks: a
 * section with remarks in it was written anew. */
struct bytes record_text(const struct node *record, const struct schema *schema,
                         struct bytes before, struct arena *arena, bool *loses_remarks);

#endif
