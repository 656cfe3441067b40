/* Writes JSON: commas, indentation and escapes, so that callers only name keys and values. */
#include "base/json.h"

#include "base/outline.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

void json_init(struct json *json, struct strbuf *out)
{
    *json = (struct json){.out = out};
}

void json_init_outline(struct json *json, struct strbuf *out)
{
    *json = (struct json){.out = out, .outline = outline_new(out)};
}

static void indent(struct json *json)
{
    strbuf_add_char(json->out, '\n');
    for (int i = 0; i < json->depth; i++)
        strbuf_add(json->out, "  ");
}

/* Called before any value: a key has done the comma already. */
static void before_value(struct json *json)
{
    if (json->after_key) {
        json->after_key = false;
        return;
    }
    if (json->depth == 0)
        return;
    if (json->has_item[json->depth - 1])
        strbuf_add_char(json->out, ',');
    json->has_item[json->depth - 1] = true;
    indent(json);
}

static void open_with(struct json *json, char bracket)
{
    if (json->outline) {
        outline_open(json->outline, bracket == '[');
        return;
    }
    before_value(json);
    strbuf_add_char(json->out, bracket);
    if (json->depth >= JSON_DEPTH_LIMIT)
        abort(); /* depth is fixed by our own writers, never by input */
    json->has_item[json->depth++] = false;
}

static void close_with(struct json *json, char bracket)
{
    if (json->outline) {
        outline_close(json->outline);
        return;
    }
    json->depth--;
    if (json->has_item[json->depth])
        indent(json);
    strbuf_add_char(json->out, bracket);
}

void json_open_object(struct json *json)
{
    open_with(json, '{');
}

void json_close_object(struct json *json)
{
    close_with(json, '}');
}

void json_open_list(struct json *json)
{
    open_with(json, '[');
}

void json_close_list(struct json *json)
{
    close_with(json, ']');
}

static void add_quoted(struct strbuf *out, const char *text)
{
    strbuf_add_char(out, '"');
    for (const char *c = text; *c; c++) {
        unsigned char byte = (unsigned char)*c;
        if (byte == '"' || byte == '\\')
            strbuf_addf(out, "\\%c", byte);
        else if (byte == '\n')
            strbuf_add(out, "\\n");
        else if (byte == '\t')
            strbuf_add(out, "\\t");
        else if (byte < 0x20 || byte == 0x7f)
            strbuf_addf(out, "\\u%04x", byte);
        else
            strbuf_add_char(out, *c);
    }
    strbuf_add_char(out, '"');
}

void json_key(struct json *json, const char *key)
{
    if (json->outline) {
        outline_key(json->outline, key);
        return;
    }
    before_value(json);
    add_quoted(json->out, key);
    strbuf_add(json->out, ": ");
    json->after_key = true;
}

void json_text(struct json *json, const char *text)
{
    if (!text) {
        json_null(json);
        return;
    }
    if (json->outline) {
        outline_text(json->outline, text);
        return;
    }
    before_value(json);
    add_quoted(json->out, text);
}

void json_number(struct json *json, double value)
{
    if (!isfinite(value)) {
        json_null(json);
        return;
    }
    if (json->outline) {
        outline_number(json->outline, value);
        return;
    }
    before_value(json);
    char text[40];
    snprintf(text, sizeof text, "%.10g", value == 0 ? 0.0 : value);
    strbuf_add(json->out, text);
}

void json_integer(struct json *json, long value)
{
    if (json->outline) {
        outline_number(json->outline, (double)value);
        return;
    }
    before_value(json);
    strbuf_addf(json->out, "%ld", value);
}

void json_flag(struct json *json, bool value)
{
    if (json->outline) {
        if (value)
            outline_text(json->outline, "yes");
        return;
    }
    before_value(json);
    strbuf_add(json->out, value ? "true" : "false");
}

void json_null(struct json *json)
{
    if (json->outline)
        return;
    before_value(json);
    strbuf_add(json->out, "null");
}

void json_key_text(struct json *json, const char *key, const char *text)
{
    json_key(json, key);
    json_text(json, text);
}

void json_key_texts(struct json *json, const char *key, const char *const *texts, size_t count)
{
    json_key(json, key);
    json_open_list(json);
    for (size_t i = 0; i < count; i++)
        json_text(json, texts[i]);
    json_close_list(json);
}

void json_key_number(struct json *json, const char *key, double value)
{
    json_key(json, key);
    json_number(json, value);
}

void json_key_integer(struct json *json, const char *key, long value)
{
    json_key(json, key);
    json_integer(json, value);
}

void json_key_flag(struct json *json, const char *key, bool value)
{
    json_key(json, key);
    json_flag(json, value);
}
