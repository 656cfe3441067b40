/* `baskleaf clinic`: asks for the clinic's details, one line each, and keeps them where neither an
 * installation nor an update touches them. */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/json.h"
#include "base/utf8.h"
#include "cli/command.h"

struct question {
    const char *key;
    const char *text;
    const char *usual; /* taken for an empty answer; NULL: none */
    bool is_list;      /* parts separated by semicolons */
    bool is_required;
};

static const struct question questions[] = {
    {"name", "The clinic's name", NULL, false, true},
    {"address", "Address, its lines separated by ;", NULL, true, false},
    {"telephone", "Telephone in opening hours", NULL, false, true},
    {"out-of-hours", "Telephone at night and on holidays, where somebody answers", NULL, false,
     true},
    {"hours", "Opening hours, such as mon-fri 8:00-18:00; sat 9:00-13:00", NULL, true, false},
    {"email", "Mail address", NULL, false, false},
    {"web", "Web address", NULL, false, false},
    {"language", "Language of the sheets", "en", false, true},
    {"units", "Units (metric, us)", "metric", false, true},
    {"paper", "Paper (a4, letter)", "a4", false, true},
};

/* One line without its end; NULL at the end of the input. */
static const char *read_line(struct arena *arena)
{
    char *line = NULL;
    size_t room = 0;
    ssize_t length = getline(&line, &room, stdin);
    const char *out = length < 0 ? NULL : arena_copy_bytes(arena, line, strcspn(line, "\r\n"));
    free(line);
    return out;
}

static void add_quoted(struct strbuf *out, const char *text, size_t length, struct arena *arena)
{
    struct json json;
    json_init(&json, out);
    json_text(&json, arena_copy_bytes(arena, text, length));
}

/* The next part of an answer whose parts are separated by semicolons; NULL past the last. */
static const char *next_part(const char **at, struct arena *arena)
{
    *at += strspn(*at, " ;");
    size_t length = strcspn(*at, ";");
    const char *part = length ? arena_copy_bytes(arena, *at, length) : NULL;
    *at += length;
    return part;
}

static void add_list(struct strbuf *out, const char *answer, struct arena *arena)
{
    const char *between = "[";
    for (const char *part; (part = next_part(&answer, arena)) != NULL; between = ", ") {
        strbuf_add(out, between);
        add_quoted(out, part, strlen(part), arena);
    }
    strbuf_add(out, *between == '[' ? "[]\n" : "]\n");
}

/* Hours by the day of the week. False, and nothing added, where the answer is something else. */
static bool add_hours(struct strbuf *out, const char *answer, struct arena *arena)
{
    struct strbuf map;
    strbuf_init(&map, arena);
    const char *days, *times;
    for (const char *part; (part = next_part(&answer, arena)) != NULL;) {
        if (!opening_part_line(part, arena, &days, &times))
            return false;
        strbuf_addf(&map, "%s%s: ", map.length ? ", " : "{", days);
        add_quoted(&map, times, strlen(times), arena);
    }
    if (map.length)
        strbuf_addf(out, "%s}\n", map.text);
    return map.length > 0;
}

static void add_answer(struct strbuf *out, const struct question *question, const char *answer,
                       struct arena *arena)
{
    strbuf_addf(out, "%s: ", question->key);
    if (strcmp(question->key, "hours") == 0 && add_hours(out, answer, arena))
        return;
    if (question->is_list) {
        add_list(out, answer, arena);
        return;
    }
    add_quoted(out, answer, strlen(answer), arena);
    strbuf_add(out, "\n");
}

/* " (en, es, fr)": those that there are words for. */
static const char *languages(struct run *run)
{
    const char *data = run->options.data ? run->options.data : resources_find_data(&run->arena);
    const char *folder = data ? file_join(&run->arena, data, "templates/wording") : NULL;
    const char **names;
    struct strbuf out;
    strbuf_init(&out, &run->arena);
    size_t count = folder ? file_list(folder, "", &run->arena, &run->diag, &names) : 0;
    for (size_t i = 0; i < count; i++)
        strbuf_addf(&out, "%s%s", i ? ", " : " (", names[i]);
    strbuf_add(&out, count ? ")" : "");
    return out.text;
}

/* Asks until there is an answer where one is needed. False at the end of the input. */
static bool ask(const struct question *question, const char *choices, struct strbuf *out,
                struct arena *arena)
{
    for (;;) {
        fprintf(stderr, "%s%s%s%s%s: ", question->text, choices, question->usual ? " [" : "",
                question->usual ? question->usual : "", question->usual ? "]" : "");
        const char *answer = read_line(arena);
        if (!answer)
            return false;
        if (utf8_is_blank(answer) && question->usual)
            answer = question->usual;
        if (!utf8_is_blank(answer))
            add_answer(out, question, answer, arena);
        if (!utf8_is_blank(answer) || !question->is_required)
            return true;
        fputs("This stands on every sheet and cannot be left out.\n", stderr);
    }
}

/* Where it goes; NULL after a fault. */
static const char *place(struct run *run)
{
    const char *output =
        run->options.output ? run->options.output : resources_own_clinic(&run->arena);
    if (!output)
        diag_report(&run->diag, DIAG_FAULT, "no-home", (struct mark){0},
                    "HOME names no folder; -o says where the file goes");
    else if (file_exists(output) && !run->options.replace)
        diag_report(&run->diag, DIAG_ERROR, "would-overwrite", (struct mark){.file = output},
                    "stands there already; edit it, or --replace writes it anew");
    else
        return output;
    return NULL;
}

void command_clinic(struct run *run)
{
    const char *output = place(run);
    struct strbuf text;
    if (!output)
        return;
    strbuf_init(&text, &run->arena);
    strbuf_add(&text, "# The clinic's own details: they stand on every sheet. 'baskleaf check' "
                      "tells what is wrong here.\n");
    for (size_t i = 0; i < sizeof questions / sizeof *questions; i++) {
        bool of_words = strcmp(questions[i].key, "language") == 0;
        if (!ask(&questions[i], of_words ? languages(run) : "", &text, &run->arena)) {
            diag_report(&run->diag, DIAG_ERROR, "no-answer", (struct mark){0},
                        "the answers ended before '%s'; nothing was written", questions[i].text);
            return;
        }
    }
    struct bytes bytes = {text.text, text.length};
    if (!clinic_read_bytes(output, bytes, &run->arena, &run->diag) ||
        !file_make_folders(output, &run->arena, &run->diag) ||
        !file_write_atomic(output, bytes.data, bytes.length, 0644, &run->diag))
        return;
    const char *line = arena_format(&run->arena, "%s\n", output);
    command_print(run, line, strlen(line));
}
