/* What the programs that write a store as C have in common. */
#ifndef BASKLEAF_YAML_STORE_SOURCE_H
#define BASKLEAF_YAML_STORE_SOURCE_H

#include <stdbool.h>
#include <stdio.h>

#include "base/strbuf.h"

/* What stands before string literals of any length. */
#define SOURCE_LONG_LITERALS "#pragma GCC diagnostic ignored \"-Woverlength-strings\"\n\n"

/* The contents of a C string literal; a new one begins where a line ends. */
static inline void source_add_literal(struct strbuf *out, const char *bytes, size_t length)
{
    strbuf_add(out, "\"");
    for (size_t i = 0; i < length; i++) {
        unsigned char c = (unsigned char)bytes[i];
        if (c == '\n')
            strbuf_add(out, "\\n\"\n\"");
        else if (c < 0x20 || c > 0x7e || c == '"' || c == '\\' || c == '?')
            strbuf_addf(out, "\\%03o", c);
        else
            strbuf_add_char(out, (char)c);
    }
    strbuf_add(out, "\"\n");
}

static inline bool source_write(const char *path, const char *source)
{
    FILE *out = fopen(path, "w");
    if (!out)
        return false;
    const bool good = fputs(source, out) >= 0;
    return fclose(out) == 0 && good;
}

/* For make: the target is renewed when one of the files, a blank before each, is. */
static inline bool source_write_dependencies(const char *path, const char *target,
                                             const char *files)
{
    FILE *out = fopen(path, "w");
    if (!out)
        return false;
    fprintf(out, "%s:%s\n", target, files);
    return fclose(out) == 0;
}

#endif
