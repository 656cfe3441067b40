/* Kinds of sheet and looks as their files say them: what a section may be, what no kind may leave
 * out, and colours that can be read. Contrast and relative luminance: WCAG 2.2, worked out here by
 * its definition; that a tint is no darker than a grey of 15 % and text has 7:1: ours. */
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "common/own_folder.h"
#include "common/suite.h"
#include "records/sheet_template.h"

static const char *put(const char *name, const char *text)
{
    const char *path = file_join(&arena, folder, name);
    diag_finish(&diag);
    diag_init(&diag);
    ck_assert(file_write_atomic(path, text, strlen(text), 0600, &diag));
    return path;
}

static size_t times_told(const char *code)
{
    size_t count = 0;
    for (const struct diag_message *m = diag.first; m; m = m->next)
        count += strcmp(m->code, code) == 0;
    return count;
}

/* The code of the first fault; "" for none. */
static const char *fault_of_kind(const char *text)
{
    const void *read = sheet_template_read(
        put("own.yaml", arena_format(&arena, "kind: own\n%s", text)), &arena, &diag);
    ck_assert_int_eq(read != NULL, diag.counts[DIAG_ERROR] == 0);
    return read ? "" : diag.first->code;
}

#define NEEDED "animal, go-now, message, medicines, warnings, cautions, signature"

/* ---- sections ------------------------------------------------------------------------------- */

static const struct {
    const char *section, *code;
} sections[] = {
    {"feeding", ""},
    {"{show: feeding}", ""},
    {"{left: [feeding], right: [water]}", ""},
    {"{left: [feeding, water], right: [light], share: 40 %}", ""},
    {"{columns: [feeding, water]}", ""},
    {"{page: [feeding, water]}", ""},
    {"{page: [feeding], foot: [water]}", ""},
    {"{page: [feeding, light], foot: [water, law]}", ""},
    {"{show: own, text: {en: {text: a}}}", ""},
    {"page-break", ""},
    {"{}", "bad-section"},
    {"{left: [feeding]}", "bad-section"},
    {"{right: [feeding]}", "bad-section"},
    {"{show: law, left: [feeding], right: [water]}", "bad-section"},
    {"{show: feeding, columns: [water]}", "bad-section"},
    {"{show: feeding, page: [water]}", "bad-section"},
    {"{columns: [feeding], page: [water]}", "bad-section"},
    {"{left: [feeding], right: [water], page: [light]}", "bad-section"},
    {"{left: [feeding], columns: [water]}", "bad-section"},
    {"{show: feeding, foot: [water]}", "foot-alone"},
    {"{columns: [feeding], foot: [water]}", "foot-alone"},
    {"{show: feeding, share: 40 %}", "share-alone"},
    {"{columns: [feeding], share: 40 %}", "share-alone"},
    {"{show: own}", "no-text"},
    {"{show: feeding, text: {en: {text: a}}}", "text-not-shown"},
    {"{show: feeding, title: {en: {text: a}}}", "text-not-shown"},
    {"{left: [page-break], right: [water]}", "not-in-a-column"},
    {"{left: [feeding, page-break], right: [water]}", "not-in-a-column"},
    {"{left: [feeding], right: [own]}", "not-in-a-column"},
    {"{columns: [page-break]}", "not-in-a-column"},
    {"{columns: [feeding, own, water]}", "not-in-a-column"},
};

START_TEST(a_section_is_one_thing)
{
    const char *first = arena_format(&arena, "sections: [%s, " NEEDED "]\n", sections[_i].section);
    const char *last = arena_format(&arena, "sections: [" NEEDED ", %s]\n", sections[_i].section);
    /* what begins with a page is a sheet of filled pages, which needs others */
    ck_assert_msg(strstr(sections[_i].section, "page:") ||
                      strcmp(fault_of_kind(first), sections[_i].code) == 0,
                  "%s: %s", first, diag.first ? diag.first->text : "good");
    ck_assert_msg(strcmp(fault_of_kind(last), sections[_i].code) == 0, "%s: %s", last,
                  diag.first ? diag.first->text : "good");
}
END_TEST

/* A column holds eight sections at the most. */
START_TEST(a_column_ends_at_eight)
{
    static const char *const eight = "feeding, water, light, humidity, temperature, law, now, week";
    static const char *const shapes[] = {"{left: [%s], right: [planner]}",
                                         "{left: [planner], right: [%s]}"};
    for (size_t i = 0; i < sizeof shapes / sizeof *shapes; i++) {
        const char *at = strstr(shapes[i], "%s");
        for (int more = 0; more < 2; more++) {
            const char *kind =
                arena_format(&arena, "sections: [" NEEDED ", %.*s%s%s%s]\n", (int)(at - shapes[i]),
                             shapes[i], eight, more ? ", enclosure" : "", at + 2);
            ck_assert_msg((*fault_of_kind(kind) != '\0') == (more == 1), "%s: %s", kind,
                          diag.first ? diag.first->text : "good");
        }
    }
}
END_TEST

/* Without what saves the animal there is no sheet. */
static const char *const needed[] = {"animal",   "go-now",   "message",  "medicines",
                                     "warnings", "cautions", "signature"};
enum { NEEDED_COUNT = sizeof needed / sizeof *needed };

static const char *all_but(size_t left_out)
{
    const char *out = "feeding";
    for (size_t i = 0; i < NEEDED_COUNT; i++)
        out = i == left_out ? out : arena_format(&arena, "%s, %s", out, needed[i]);
    return out;
}

START_TEST(what_saves_the_animal_is_never_left_out)
{
    const char *rest = all_but((size_t)_i), *code = needed[_i];
    ck_assert_str_eq(fault_of_kind(arena_format(&arena, "sections: [%s]\n", rest)),
                     "section-missing");
    ck_assert_ptr_nonnull(strstr(diag.first->text, arena_format(&arena, "lacks '%s'", code)));
    ck_assert_uint_eq(diag.counts[DIAG_ERROR], 1);
    static const char *const places[] = {"%s",
                                         "{left: [water, %s], right: [light]}",
                                         "{left: [light], right: [%s]}",
                                         "{columns: [law, %s]}",
                                         "{page: [%s]}",
                                         "{page: [law], foot: [%s]}"};
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        const char *at = strstr(places[i], "%s");
        const char *section =
            arena_format(&arena, "%.*s%s%s", (int)(at - places[i]), places[i], code, at + 2);
        ck_assert_str_eq(fault_of_kind(arena_format(&arena, "sections: [%s, %s]\n", rest, section)),
                         "");
    }
}
END_TEST

/* A sheet of filled pages has what stands for them there, each of its own. */
START_TEST(filled_pages_have_others_for_them)
{
    static const char *const codes[] = {"head",  "state",          "main-message",
                                        "steps", "medicine-boxes", "emergencies",
                                        "calls", "caution-signs",  "signature-line"};
    enum { COUNT = sizeof codes / sizeof *codes };
    for (size_t left_out = 0; left_out <= COUNT; left_out++) {
        const char *page = "feeding";
        for (size_t i = 0; i < COUNT; i++)
            page = i == left_out ? page : arena_format(&arena, "%s, %s", page, codes[i]);
        fault_of_kind(arena_format(&arena, "sections: [{page: [%s]}]\n", page));
        /* the main message stands for two of them */
        size_t wanted = left_out == COUNT                              ? 0
                        : strcmp(codes[left_out], "main-message") == 0 ? 2
                                                                       : 1;
        ck_assert_uint_eq(diag.counts[DIAG_ERROR], wanted);
        ck_assert_uint_eq(times_told("section-missing"), wanted);
        /* in plain blocks either will do */
        if (left_out == COUNT)
            ck_assert_str_eq(fault_of_kind("plain: yes\nsections: [" NEEDED "]\n"), "");
    }
    ck_assert_str_eq(
        fault_of_kind(
            "plain: yes\nsections: [go-now, message, medicines, warnings, cautions, signature]\n"),
        "section-missing");
    ck_assert_str_eq(fault_of_kind("plain: yes\nsections: [head, state, go-now, message, "
                                   "medicines, warnings, cautions, signature]\n"),
                     "");
}
END_TEST

START_TEST(each_says_its_part_once)
{
    ck_assert_str_eq(fault_of_kind("sections: [" NEEDED ", animal]\n"), "section-twice");
    ck_assert_str_eq(
        fault_of_kind("sections: [" NEEDED ", {left: [water], right: [law, water]}]\n"),
        "section-twice");
    ck_assert_str_eq(fault_of_kind("sections: [" NEEDED ", {page: [water], foot: [water]}]\n"),
                     "section-twice");
    ck_assert_str_eq(fault_of_kind("sections: [" NEEDED ", {columns: [water, law, water]}]\n"),
                     "section-twice");
    ck_assert_str_eq(fault_of_kind("sections: [" NEEDED ", page-break, water, page-break, law]\n"),
                     "");
    ck_assert_str_eq(fault_of_kind("pages: 1\nin-brief: [normal]\nsections: [" NEEDED "]\n"),
                     "brief-of-none");
    ck_assert_str_eq(
        fault_of_kind("pages: 1\nin-brief: [normal, normal]\nsections: [" NEEDED ", normal]\n"),
        "section-twice");
}
END_TEST

START_TEST(a_kind_is_named_as_its_file)
{
    static const struct {
        const char *file, *kind;
        bool good;
    } rows[] = {{"own.yaml", "own", true},
                {"owns.yaml", "own", false},
                {"own.yml", "own", false},
                {"ow.yaml", "own", false},
                {"xwn.yaml", "own", false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const char *path = put(
            rows[i].file, arena_format(&arena, "kind: %s\nsections: [" NEEDED "]\n", rows[i].kind));
        ck_assert_msg((sheet_template_read(path, &arena, &diag) != NULL) == rows[i].good, "%s",
                      rows[i].file);
        ck_assert_uint_eq(times_told("wrong-sheet"), !rows[i].good);
    }
}
END_TEST

/* What stands on a card alone needs none of it: the sheet does. */
START_TEST(a_card_is_no_sheet)
{
    ck_assert_str_eq(fault_of_kind("sections: [wallet-card]\n"), "");
    ck_assert_str_eq(
        fault_of_kind(
            "sections: [head, wallet-card, page-break, {show: own, text: {en: {text: a}}}]\n"),
        "");
    ck_assert_str_eq(fault_of_kind("sections: [head]\n"), "section-missing");
    ck_assert_str_eq(fault_of_kind("sections: [wallet-card, feeding]\n"), "section-missing");
    ck_assert_str_eq(fault_of_kind("sections: [wallet-card, {columns: [feeding]}]\n"),
                     "section-missing");
}
END_TEST

START_TEST(pages_and_what_makes_room_stand_together)
{
    static const struct {
        const char *text, *code;
    } rows[] = {{"pages: 2\nin-brief: [normal]\n", ""},
                {"pages: 2\n", "pages-alone"},
                {"in-brief: [normal]\n", "pages-alone"},
                {"", ""}};
    for (size_t i = 0; i < 4; i++)
        ck_assert_str_eq(
            fault_of_kind(arena_format(&arena, "%ssections: [" NEEDED ", normal]\n", rows[i].text)),
            rows[i].code);
}
END_TEST

/* ---- looks ---------------------------------------------------------------------------------- */

static const char *every_ink; /* instead of each ink's own; NULL: not */

static const char *fault_of_look(const char *colour, const char *hex, const char *size,
                                 double points)
{
    static const char *const colours[][2] = {
        {"text", "#000000"}, {"muted", "#262626"}, {"accent", "#0B3B2C"},
        {"warm", "#7A3B00"}, {"cool", "#0B4A6F"},  {"alert", "#8F001A"},
        {"leaf", "#1F5C2E"}, {"paper", "#FFFFFF"}, {"tint", "#F1F3EE"}};
    static const struct {
        const char *key;
        double value;
    } sizes[] = {{"margin", 36}, {"body", 12},    {"table", 10}, {"small", 9},
                 {"title", 22},  {"section", 14}, {"part", 14},  {"leading", 1.25}};
    const char *text = "colours:\n";
    for (size_t i = 0; i < 9; i++)
        text = arena_format(&arena, "%s  %s: \"%s\"\n", text, colours[i][0],
                            strcmp(colours[i][0], colour) == 0 ? hex
                            : every_ink && i < 7               ? every_ink
                                                               : colours[i][1]);
    text = arena_format(&arena, "%ssizes:\n", text);
    for (size_t i = 0; i < 8; i++)
        text = arena_format(&arena, "%s  %s: %g\n", text, sizes[i].key,
                            strcmp(sizes[i].key, size) == 0 ? points : sizes[i].value);
    const void *read = look_read(put("look.yaml", text), &arena, &diag);
    ck_assert_int_eq(read != NULL, diag.counts[DIAG_ERROR] == 0);
    return read ? "" : diag.first->code;
}

static double luminance(unsigned rgb)
{
    double out = 0;
    for (int shift = 16, i = 0; i < 3; i++, shift -= 8) {
        double c = (rgb >> shift & 255) / 255.0;
        c = c <= 0.04045 ? c / 12.92 : pow((c + 0.055) / 1.055, 2.4);
        out += c * (i == 0 ? 0.2126 : i == 1 ? 0.7152 : 0.0722);
    }
    return out;
}

static double contrast(unsigned ink, unsigned ground)
{
    double a = luminance(ink) + 0.05, b = luminance(ground) + 0.05;
    return a > b ? a / b : b / a;
}

/* Known pairs on white, as they are often given: #767676 4.54, #595959 7.00. */
START_TEST(contrast_is_as_defined)
{
    ck_assert(fabs(contrast(0x767676, 0xffffff) - 4.54) < 0.005);
    ck_assert(fabs(contrast(0x595959, 0xffffff) - 7.00) < 0.005);
    static const char *const inks[] = {"text", "muted", "accent", "warm", "cool", "alert", "leaf"};
    static const unsigned greys[] = {0x0b3b2c, 0x4a4a4a, 0x505050, 0x555555, 0x595959,
                                     0x767676, 0xc00000, 0x0000ff, 0x005f00, 0x010203};
    for (size_t i = 0; i < 7; i++)
        for (size_t k = 0; k < sizeof greys / sizeof *greys; k++) {
            double ratio = fmin(contrast(greys[k], 0xffffff), contrast(greys[k], 0xf1f3ee));
            const char *code =
                fault_of_look(inks[i], arena_format(&arena, "#%06x", greys[k]), "", 0);
            ck_assert_msg(strcmp(code, ratio >= 7 ? "" : "low-contrast") == 0, "%s %06x %g: %s",
                          inks[i], greys[k], ratio, code);
            if (ratio < 7)
                ck_assert_msg(strstr(diag.first->text,
                                     arena_format(&arena, "of %.2f:1", floor(ratio * 100) / 100)),
                              "%s", diag.first->text);
        }
    /* the darker of paper and tint counts */
    ck_assert_str_eq(fault_of_look("paper", "#F0F0F0", "", 0), "");
    ck_assert_str_eq(fault_of_look("paper", "#A0A0A0", "", 0), "low-contrast");
}
END_TEST

START_TEST(a_colour_is_six_digits_of_sixteen)
{
    static const char *const good[] = {"#000000", "#00000f", "#00000F", "#0a0B0c"};
    static const char *const bad[] = {"000000",  "#00000",  "#0000000", "#00000g",
                                      "#g00000", "#0000 0", "black",    "#00000/",
                                      "#00000:", "#00000@", "#00000`"};
    for (size_t i = 0; i < sizeof good / sizeof *good; i++)
        ck_assert_str_eq(fault_of_look("text", good[i], "", 0), "");
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        ck_assert_msg(strcmp(fault_of_look("text", bad[i], "", 0), "not-a-colour") == 0, "%s",
                      bad[i]);
    unsigned char rgb[3] = {9, 9, 9};
    ck_assert(look_read_colour("#1f5C2e", rgb));
    ck_assert(rgb[0] == 0x1f && rgb[1] == 0x5c && rgb[2] == 0x2e);
    ck_assert(!look_read_colour("#1f5C2g", rgb) && rgb[2] == 0x2e);
    ck_assert(!look_read_colour(NULL, rgb));
}
END_TEST

START_TEST(a_tint_is_pale)
{
    static const char *const dark[] = {"#D8D9D9", "#D9D8D9", "#D9D9D8"};
    every_ink = "#000000"; /* 15:1 on any of these: the tint alone is at fault */
    ck_assert_str_eq(fault_of_look("tint", "#D9D9D9", "", 0), "");
    for (size_t i = 0; i < 3; i++)
        ck_assert_str_eq(fault_of_look("tint", dark[i], "", 0), "tint-too-dark");
}
END_TEST

/* A heading is two points larger than the text, or more. */
START_TEST(a_heading_is_larger_than_its_text)
{
    static const char *const headings[] = {"title", "section", "part"};
    ck_assert_str_eq(fault_of_look("", "", "body", 12.1), "heading-too-small");
    ck_assert_uint_eq(diag.counts[DIAG_ERROR], 2); /* section and part */
    for (size_t i = 0; i < 3; i++) {
        ck_assert_str_eq(fault_of_look("", "", headings[i], 14), "");
        ck_assert_str_eq(fault_of_look("", "", headings[i], 22), "");
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("sheet_template");
    TCase *own = tcase_create("sheet_template");
    tcase_add_checked_fixture(own, set_up_folder, tear_down_folder);
    tcase_set_timeout(own, 30);
    tcase_add_loop_test(own, a_section_is_one_thing, 0, sizeof sections / sizeof *sections);
    tcase_add_loop_test(own, what_saves_the_animal_is_never_left_out, 0, NEEDED_COUNT);
    tcase_add_test(own, a_column_ends_at_eight);
    tcase_add_test(own, pages_and_what_makes_room_stand_together);
    tcase_add_test(own, filled_pages_have_others_for_them);
    tcase_add_test(own, each_says_its_part_once);
    tcase_add_test(own, a_kind_is_named_as_its_file);
    tcase_add_test(own, a_card_is_no_sheet);
    tcase_add_test(own, contrast_is_as_defined);
    tcase_add_test(own, a_colour_is_six_digits_of_sixteen);
    tcase_add_test(own, a_tint_is_pale);
    tcase_add_test(own, a_heading_is_larger_than_its_text);
    suite_add_tcase(suite, own);
    return suite_run(suite);
}
