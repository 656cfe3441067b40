/* Build step: embed OUTPUT FILE... writes the table of pages.h as C. "index.html" is "/". */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *type_of(const char *name)
{
    const char *end = strrchr(name, '.');
    if (end && strcmp(end, ".css") == 0)
        return "text/css; charset=utf-8";
    if (end && strcmp(end, ".js") == 0)
        return "text/javascript; charset=utf-8";
    if (end && strcmp(end, ".svg") == 0)
        return "image/svg+xml";
    return "text/html; charset=utf-8";
}

static const char *name_of(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

static size_t write_bytes(FILE *in, FILE *out, int index)
{
    size_t length = 0;
    fprintf(out, "static const unsigned char file_%d[] = {", index);
    for (int c; (c = getc(in)) != EOF; length++)
        fprintf(out, "%s%d,", length % 24 ? "" : "\n", c);
    fprintf(out, "\n0};\n");
    return length;
}

int main(int argc, char **argv)
{
    size_t lengths[64];
    FILE *out = argc > 2 && argc - 2 <= 64 ? fopen(argv[1], "wb") : NULL;
    if (!out)
        return 1;
    fprintf(out, "#include \"desk/pages.h\"\n#include <string.h>\n");
    for (int i = 2; i < argc; i++) {
        FILE *in = fopen(argv[i], "rb");
        if (!in) {
            fclose(out);
            return 1;
        }
        lengths[i - 2] = write_bytes(in, out, i);
        fclose(in);
    }
    fprintf(out, "static const struct page_file files[] = {\n");
    for (int i = 2; i < argc; i++) {
        const char *name = name_of(argv[i]);
        fprintf(out, "{\"/%s\", \"%s\", (const char *)file_%d, %zu},\n",
                strcmp(name, "index.html") == 0 ? "" : name, type_of(name), i, lengths[i - 2]);
    }
    fprintf(out, "};\nconst struct page_file *pages_find(const char *path)\n{\n"
                 "    for (size_t i = 0; i < sizeof files / sizeof *files; i++)\n"
                 "        if (strcmp(files[i].path, path) == 0)\n            return &files[i];\n"
                 "    return NULL;\n}\n");
    return fclose(out) == 0 ? 0 : 1;
}
