/* A streaming JSON writer (RFC 8259): the same calls give the same bytes. The same calls also write
 * an outline for people, when begun so: outline.h says how it looks.
 *
 * Commas and indentation are the writer's affair. Text must be UTF-8; control
 * characters are escaped. Numbers carry at most
 * ten significant digits, without trailing zeros; NaN and infinities become
 * null, because JSON has no word for them.
 */
#ifndef BASKLEAF_BASE_JSON_H
#define BASKLEAF_BASE_JSON_H

#include <stdbool.h>

#include "base/strbuf.h"

enum { JSON_DEPTH_LIMIT = 64 };

struct json {
    struct strbuf *out; /* borrowed */
    int depth;
    bool has_item[JSON_DEPTH_LIMIT];
    bool after_key;
    struct outline *outline; /* NULL: JSON */
};

void json_init(struct json *json, struct strbuf *out);
void json_init_outline(struct json *json, struct strbuf *out);
void json_open_object(struct json *json);
void json_close_object(struct json *json);
void json_open_list(struct json *json);
void json_close_list(struct json *json);
void json_key(struct json *json, const char *key);
void json_text(struct json *json, const char *text_or_null);
void json_number(struct json *json, double value);
void json_integer(struct json *json, long value);
void json_flag(struct json *json, bool value);
void json_null(struct json *json);

/* key and value in one call */
void json_key_text(struct json *json, const char *key, const char *text_or_null);
void json_key_texts(struct json *json, const char *key, const char *const *texts, size_t count);
void json_key_number(struct json *json, const char *key, double value);
void json_key_integer(struct json *json, const char *key, long value);
void json_key_flag(struct json *json, const char *key, bool value);

#endif
