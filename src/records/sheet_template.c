/* Tables and checks of kinds of sheet and of the look, contrast by WCAG 2. */
#include "records/sheet_template.h"

#include <math.h>
#include <string.h>

#include "base/file.h"
#include "base/nearest.h"
#include "records/clinic.h"
#include "records/shipped_files.h"
#include "records/table.h"
#include "base/hex.h"

/* ---- kinds of sheet --------------------------------------------------------------- */

const struct choice sheet_section_choices[] = {
#define SECTION_CHOICE(code_, name_, word_, help_) {word_, SECTION_##code_, help_},
#define SHORT_CHOICE(code_, name_, word_, help_, brief_) {word_, SECTION_##code_, help_},
    SHEET_SECTIONS(SECTION_CHOICE, SHORT_CHOICE)
#undef SECTION_CHOICE
#undef SHORT_CHOICE
        {0}};

static const struct field section_fields[] = {
    ROW(CHOICE, sheet_section, show, "show", .choices = sheet_section_choices,
        .help = "the section", .example = "feeding"),
    ROW(CHOICES, sheet_section, left, "left", .choices = sheet_section_choices, .most = 8,
        .help = "sections of the left column", .example = "[humidity, light]"),
    ROW(CHOICES, sheet_section, right, "right", .choices = sheet_section_choices, .most = 8,
        .help = "sections of the right column", .example = "[feeding]"),
    ROW(CHOICES, sheet_section, columns, "columns", .choices = sheet_section_choices, .most = 24,
        .help = "sections down the left column, then on in the right one",
        .example = "[light, feeding]"),
    ROW(CHOICES, sheet_section, page, "page", .choices = sheet_section_choices, .most = 24,
        .help = "sections that fill a page from its top", .example = "[head, state, steps]"),
    ROW(CHOICES, sheet_section, foot, "foot", .choices = sheet_section_choices, .most = 8,
        .help = "page: sections at its foot", .example = "[emergencies]"),
    ROW(QUANTITY, sheet_section, share_percent, "share", IN(PERCENT, 20, 80),
        .help = "width of the left column", .example = "50 %"),
    ROW(NAMED, sheet_section, title, "title", .schema = &named_text_schema,
        .help = "own: heading by language"),
    ROW(NAMED, sheet_section, text, "text", .schema = &named_text_schema,
        .help = "own: paragraph by language", .example = "{en: Ask us anything.}"),
};

static const struct schema section_schema =
    SCHEMA(sheet_section, section_fields, "section", "One section of a sheet.", .short_key = "show",
           MARKED(sheet_section, at));

/* The sections that have a short form. */
static const struct choice brief_choices[] = {
#define NO_SHORT_FORM(...)
#define SHORT_FORM(code_, name_, word_, help_, brief_) {word_, SECTION_##code_, brief_},
    SHEET_SECTIONS(NO_SHORT_FORM, SHORT_FORM)
#undef NO_SHORT_FORM
#undef SHORT_FORM
        {0}};
enum { BRIEF_MOST = sizeof brief_choices / sizeof *brief_choices - 1 };

static const struct choice sheet_paper_choices[] = {
    {"phone", SHEET_PAPER_PHONE, "pages of the size of a small screen"}, {0}};

static const struct field template_fields[] = {
    ROW(TEXT, sheet_template, kind, "kind", .required = true,
        .help = "the kind of sheet, which is the file's name", .example = "checkout"),
    ROW(FLAG, sheet_template, new_home, "new-home",
        .help = "the animal goes to a new keeper: quarantine, a first meal, early weighings"),
    ROW(FLAG, sheet_template, live_links, "live-links",
        .help = "links can be clicked and look like links"),
    ROW(CHOICE, sheet_template, paper, "paper", .choices = sheet_paper_choices,
        .help = "pages of their own size, whatever paper the clinic has", .example = "phone"),
    ROW(FLAG, sheet_template, plain, "plain",
        .help = "one column of headings, paragraphs and lists instead of panels"),
    ROW(QUANTITY, sheet_template, text_pt, "text", IN(COUNT, 12, 24),
        .help = "size of the text in points, headings larger by as much", .example = "18"),
    ROW(FLAG, sheet_template, compact, "compact",
        .help = "tighter tables and shorter notes, to save pages"),
    ROW(QUANTITY, sheet_template, pages, "pages", WHOLE(1, 20),
        .help = "as many pages as it may take", .example = "2"),
    ROW(CHOICES, sheet_template, in_brief, "in-brief", .choices = brief_choices, .most = BRIEF_MOST,
        .help = "sections that are said in brief when it would take more, the first one first",
        .example = "[normal]"),
    ROW(CHOICES, sheet_template, running, "running", .choices = sheet_section_choices, .most = 4,
        .help = "sections above what a filled page flows on to", .example = "[page-head, state]"),
    ROW(RECORDS, sheet_template, sections, "sections", .schema = &section_schema, .required = true,
        .most = 60, .help = "in order"),
};

const struct schema sheet_template_schema =
    SCHEMA(sheet_template, template_fields, "kind of sheet",
           "Which sections a sheet has, in order.", .shipped = &shipped_sheet_template);

static bool has_page_break(const struct list *column)
{
    for (size_t i = 0; i < column->count; i++) {
        int code = LIST_AT(*column, struct choice_value, i)->value;
        if (code == SECTION_PAGE_BREAK || code == SECTION_OWN)
            return true;
    }
    return false;
}

static bool check_section(const struct sheet_section *section, struct diag *diag)
{
    bool own = section->show.known && section->show.value == SECTION_OWN;
    bool beside = section->left.count > 0 && section->right.count > 0;
    bool any_side = section->left.count > 0 || section->right.count > 0;
    int forms =
        section->show.known + any_side + (section->columns.count > 0) + (section->page.count > 0);
    if (forms != 1 || any_side != beside)
        diag_report(diag, DIAG_ERROR, "bad-section", section->at,
                    "write either 'show' with one section, or both 'left' and 'right' with lists, "
                    "or 'columns' with one list, or 'page' with one list");
    else if (section->foot.count > 0 && section->page.count == 0)
        diag_report(diag, DIAG_ERROR, "foot-alone",
                    LIST_AT(section->foot, struct choice_value, 0)->at,
                    "'foot' needs 'page': there is no page whose foot it is");
    else if (own && section->text.count == 0)
        diag_report(diag, DIAG_ERROR, "no-text", section->at,
                    "a section 'own' needs its 'text' by language: {en: ..., es: ...}");
    else if (!own && (section->text.count > 0 || section->title.count > 0))
        diag_report(diag, DIAG_ERROR, "text-not-shown", section->at,
                    "'title' and 'text' belong to a section 'own'; this one writes its own words");
    else if (section->share_percent.known && !any_side)
        diag_report(diag, DIAG_ERROR, "share-alone", section->share_percent.at,
                    "'share' needs 'left' and 'right': there is no second column");
    else if (has_page_break(&section->left) || has_page_break(&section->right) ||
             has_page_break(&section->columns))
        diag_report(diag, DIAG_ERROR, "not-in-a-column", section->at,
                    "'page-break' and 'own' stand over the whole width, under 'show'");
    else
        return true;
    return false;
}

static bool check_brief(const struct sheet_template *sheet, struct diag *diag)
{
    if (sheet->pages.known == (sheet->in_brief.count > 0))
        return true;
    diag_report(diag, DIAG_ERROR, "pages-alone",
                sheet->pages.known ? sheet->pages.at
                                   : LIST_AT(sheet->in_brief, struct choice_value, 0)->at,
                "'pages' and 'in-brief' stand together: how many pages, and what makes room");
    return false;
}

static bool lists(const struct list *codes, int code)
{
    for (size_t i = 0; i < codes->count; i++)
        if (LIST_AT(*codes, struct choice_value, i)->value == code)
            return true;
    return false;
}

static bool has_section(const struct sheet_template *sheet, int code)
{
    for (size_t i = 0; i < sheet->sections.count; i++) {
        const struct sheet_section *section = LIST_AT(sheet->sections, struct sheet_section, i);
        if ((section->show.known && section->show.value == code) || lists(&section->left, code) ||
            lists(&section->right, code) || lists(&section->columns, code) ||
            lists(&section->page, code) || lists(&section->foot, code))
            return true;
    }
    return false;
}

/* Each says nothing when there is nothing to say, but is there when there is. On pages that are
 * filled, and where panels become plain blocks, others say the same. */
static const struct {
    int code, filled[3]; /* -1: no more */
} sheet_sections_required[] = {
    {SECTION_ANIMAL, {SECTION_HEAD, SECTION_STATE, -1}},
    {SECTION_GO_NOW, {SECTION_MAIN_MESSAGE, SECTION_STEPS, -1}},
    {SECTION_MESSAGE, {SECTION_MAIN_MESSAGE, -1, -1}},
    {SECTION_MEDICINES, {SECTION_MEDICINE_BOXES, -1, -1}},
    {SECTION_WARNINGS, {SECTION_EMERGENCIES, SECTION_CALLS, -1}},
    {SECTION_CAUTIONS, {SECTION_CAUTION_SIGNS, -1, -1}},
    {SECTION_SIGNATURE, {SECTION_SIGNATURE_LINE, -1, -1}},
};

static bool need_section(const struct sheet_template *sheet, int code, struct diag *diag)
{
    if (has_section(sheet, code))
        return true;
    const struct mark at = sheet->sections.count
                               ? LIST_AT(sheet->sections, struct sheet_section, 0)->at
                               : (struct mark){.file = sheet->file};
    diag_report_path(diag, DIAG_ERROR, "section-missing", at, "sections",
                     "lacks '%s', which no kind of sheet may leave out; add it where it fits",
                     bind_choice_word(sheet_section_choices, code));
    return false;
}

bool sheet_template_is_card(const struct sheet_template *sheet)
{
    static const int beside[] = {SECTION_WALLET_CARD, SECTION_HEAD, SECTION_OWN,
                                 SECTION_PAGE_BREAK};
    for (size_t i = 0; i < sheet->sections.count; i++) {
        const struct sheet_section *section = LIST_AT(sheet->sections, struct sheet_section, i);
        bool any = false;
        for (size_t k = 0; k < sizeof beside / sizeof *beside; k++)
            any = any || (section->show.known && section->show.value == beside[k]);
        if (!any)
            return false;
    }
    return has_section(sheet, SECTION_WALLET_CARD);
}

static bool check_required(const struct sheet_template *sheet, struct diag *diag)
{
    bool good = true;
    if (sheet_template_is_card(sheet))
        return good;
    bool filled =
        sheet->plain.value || (sheet->sections.count > 0 &&
                               LIST_AT(sheet->sections, struct sheet_section, 0)->page.count > 0);
    for (size_t i = 0; i < sizeof sheet_sections_required / sizeof *sheet_sections_required; i++) {
        const int *codes = sheet_sections_required[i].filled;
        bool either = sheet->plain.value && has_section(sheet, sheet_sections_required[i].code);
        if (either)
            continue;
        if (!filled)
            good = need_section(sheet, sheet_sections_required[i].code, diag) && good;
        for (size_t k = 0; filled && k < 3 && codes[k] >= 0; k++)
            good = need_section(sheet, codes[k], diag) && good;
    }
    return good;
}

/* What may stand on more than one page. */
static bool may_repeat(int code)
{
    return code == SECTION_PAGE_HEAD || code == SECTION_STATE || code == SECTION_PAGE_BREAK ||
           code == SECTION_OWN;
}

/* Each says its part once; `seen` has a place for each section. */
static bool check_once(const struct list *codes, bool *seen, struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < codes->count; i++) {
        const struct choice_value *one = LIST_AT(*codes, struct choice_value, i);
        if (seen[one->value] && !may_repeat(one->value)) {
            diag_report(diag, DIAG_ERROR, "section-twice", one->at,
                        "'%s' stands twice; leave one of them out",
                        bind_choice_word(sheet_section_choices, one->value));
            good = false;
        }
        seen[one->value] = true;
    }
    return good;
}

static bool check_no_section_twice(const struct sheet_template *sheet, struct diag *diag)
{
    bool good = true, seen[SECTION_COUNT] = {false};
    for (size_t i = 0; i < sheet->sections.count; i++) {
        const struct sheet_section *one = LIST_AT(sheet->sections, struct sheet_section, i);
        struct choice_value show = one->show;
        const struct list alone = {.items = &show, .count = show.known};
        const struct list *const lists[] = {&alone,        &one->left, &one->right,
                                            &one->columns, &one->page, &one->foot};
        for (size_t k = 0; k < sizeof lists / sizeof *lists; k++)
            good = check_once(lists[k], seen, diag) && good;
    }
    for (size_t i = 0; i < sheet->in_brief.count; i++) {
        const struct choice_value *one = LIST_AT(sheet->in_brief, struct choice_value, i);
        if (seen[one->value])
            continue;
        diag_report_path(diag, DIAG_ERROR, "brief-of-none", one->at, "in-brief",
                         "'%s' is no section of this sheet; leave it out here, or add it there",
                         bind_choice_word(sheet_section_choices, one->value));
        good = false;
    }
    return good && check_once(&sheet->in_brief, (bool[SECTION_COUNT]){false}, diag);
}

/* "templates/sheets/checkout.yaml" holds the kind 'checkout'. */
static bool check_name(const struct sheet_template *sheet, struct diag *diag)
{
    const char *slash = strrchr(sheet->file, '/'), *name = slash ? slash + 1 : sheet->file;
    size_t length = strlen(sheet->kind.text);
    if (strncmp(name, sheet->kind.text, length) == 0 && strcmp(name + length, ".yaml") == 0)
        return true;
    diag_report(diag, DIAG_ERROR, "wrong-sheet", sheet->kind.at,
                "the kind '%s' stands in the file %s; name both alike", sheet->kind.text, name);
    return false;
}

struct sheet_template *sheet_template_read(const char *path, struct arena *arena, struct diag *diag)
{
    struct sheet_template *sheet = ARENA_NEW(arena, struct sheet_template);
    sheet->file = arena_copy_text(arena, path);
    if (!bind_file(path, &sheet_template_schema, arena, diag, sheet))
        return NULL;
    bool good = check_name(sheet, diag);
    good = check_brief(sheet, diag) && good;
    good = check_required(sheet, diag) && good;
    good = check_no_section_twice(sheet, diag) && good;
    for (size_t i = 0; i < sheet->sections.count; i++)
        good = check_section(LIST_AT(sheet->sections, struct sheet_section, i), diag) && good;
    return good ? sheet : NULL;
}

bool sheet_kinds_read(const char *folder, struct arena *arena, struct diag *diag,
                      struct sheet_kinds *out)
{
    const char **names = NULL;
    size_t count = file_list(folder, ".yaml", arena, diag, &names);
    bool good = count > 0;
    *out =
        (struct sheet_kinds){.items = ARENA_ARRAY(arena, const struct sheet_template *, count + 1)};
    for (size_t i = 0; i < count; i++) {
        const struct sheet_template *sheet =
            sheet_template_read(file_join(arena, folder, names[i]), arena, diag);
        good = good && sheet;
        if (sheet)
            out->items[out->count++] = sheet;
    }
    return good;
}

const struct sheet_template *sheet_kinds_find(const struct sheet_kinds *kinds, const char *name)
{
    for (size_t i = 0; i < kinds->count; i++)
        if (strcmp(kinds->items[i]->kind.text, name) == 0)
            return kinds->items[i];
    return NULL;
}

const struct sheet_template *sheet_kinds_need(const struct sheet_kinds *kinds,
                                              const struct text_value *name, const char *path,
                                              struct diag *diag)
{
    const struct sheet_template *found = sheet_kinds_find(kinds, name->text);
    struct nearest nearest;
    if (found)
        return found;
    nearest_init(&nearest, name->text);
    for (size_t i = 0; i < kinds->count; i++)
        nearest_offer(&nearest, kinds->items[i]->kind.text);
    diag_report_path(diag, DIAG_ERROR, "unknown-kind", name->at, path,
                     nearest.best ? "there is no kind of sheet '%s'; did you mean '%s'?"
                                  : "there is no kind of sheet '%s'; each is a file of "
                                    "templates/sheets%s",
                     name->text, nearest.best ? nearest.best : "");
    return NULL;
}

/* ---- the look ---------------------------------------------------------------------- */

#define SIZE(member_, key_, low_, high_, help_)                                                    \
    ROW(QUANTITY, look_sizes, member_, key_, IN(COUNT, low_, high_), .required = true,             \
        .help = help_)

static const struct field size_fields[] = {
    SIZE(margin, "margin", 36, 120, "points from every edge of the paper"),
    SIZE(body, "body", 12, 24, "running text"),
    SIZE(table, "table", 10, 24, "cells of tables"),
    SIZE(small, "small", 9, 24, "the smallest text: foot of the page, sources"),
    SIZE(title, "title", 14, 48, "the sheet's title"),
    SIZE(section, "section", 14, 36, "titles of sections"),
    SIZE(part, "part", 14, 36, "titles inside sections"),
    SIZE(leading, "leading", 1.25, 2, "distance of lines as a multiple of the size"),
};

static const struct schema size_schema =
    SCHEMA(look_sizes, size_fields, "sizes", "In points.", .short_key = NULL);

#define COLOUR(member_, help_)                                                                     \
    ROW(TEXT, look_colours, member_, #member_, .required = true, .help = help_,                    \
        .example = "\"#1A1A1A\"")

static const struct field colour_fields[] = {
    COLOUR(text, "running text and lines"),
    COLOUR(muted, "small text and thin lines"),
    COLOUR(accent, "headings"),
    COLOUR(warm, "the warm end in pictures"),
    COLOUR(cool, "the cool end and water in pictures"),
    COLOUR(alert, "go now"),
    COLOUR(leaf, "what fits the target"),
    COLOUR(paper, "the paper itself"),
    COLOUR(tint, "a pale ground under text"),
};

static const struct schema colour_schema =
    SCHEMA(look_colours, colour_fields, "colours", "Written \"#RRGGBB\".", .short_key = NULL);

static const struct field look_fields[] = {
    ROW(CHOICE, look_file, paper, "paper", .choices = paper_choices,
        .help = "paper; the clinic's when left out", .example = "a4"),
    ROW(RECORD, look_file, sizes, "sizes", .schema = &size_schema, .required = true,
        .help = "sizes in points"),
    ROW(RECORD, look_file, colours, "colours", .schema = &colour_schema, .required = true,
        .help = "colours by what they are for"),
};

const struct schema look_schema =
    SCHEMA(look_file, look_fields, "look", "Paper, sizes and colours of every sheet.",
           .shipped = &shipped_look);

bool look_read_colour(const char *text, unsigned char out[3])
{
    if (!text || text[0] != '#' || strlen(text) != 7)
        return false;
    unsigned char read[3];
    for (size_t i = 0; i < 3; i++) {
        int high = hex_value(text[1 + 2 * i]), low = hex_value(text[2 + 2 * i]);
        if (high < 0 || low < 0)
            return false;
        read[i] = (unsigned char)(high * 16 + low);
    }
    memcpy(out, read, sizeof read);
    return true;
}

/* WCAG 2.2, definition of relative luminance. */
static double luminance(const unsigned char colour[3])
{
    static const double weights[3] = {0.2126, 0.7152, 0.0722};
    double sum = 0;
    for (size_t i = 0; i < 3; i++) {
        double share = colour[i] / 255.0;
        sum += weights[i] * (share <= 0.04045 ? share / 12.92 : pow((share + 0.055) / 1.055, 2.4));
    }
    return sum;
}

/* WCAG 2 contrast ratio of two sRGB colours, 1 to 21. */
static double look_contrast(const unsigned char one[3], const unsigned char other[3])
{
    double a = luminance(one), b = luminance(other);
    return (fmax(a, b) + 0.05) / (fmin(a, b) + 0.05);
}

static const double LEAST_CONTRAST = 7;
static const unsigned DARKEST_TINT = 217; /* 15 % grey: 0.85 x 255 */

static bool check_colours(const struct look_colours *colours, struct diag *diag)
{
    unsigned char paper[3], tint[3], ink[3];
    bool good = true;
    const struct text_value *const texts[] = {&colours->text, &colours->muted, &colours->accent,
                                              &colours->warm, &colours->cool,  &colours->alert,
                                              &colours->leaf, &colours->paper, &colours->tint};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        if (look_read_colour(texts[i]->text, ink))
            continue;
        diag_report(diag, DIAG_ERROR, "not-a-colour", texts[i]->at,
                    "'%s' is not a colour; write \"#RRGGBB\"", texts[i]->text);
        good = false;
    }
    if (!good)
        return false;
    look_read_colour(colours->paper.text, paper);
    look_read_colour(colours->tint.text, tint);
    for (size_t i = 0; i < 3; i++) {
        if (tint[i] >= DARKEST_TINT)
            continue;
        diag_report(diag, DIAG_ERROR, "tint-too-dark", colours->tint.at,
                    "'%s' is darker than a 15 %% grey (#D9D9D9)", colours->tint.text);
        good = false;
        break;
    }
    for (size_t i = 0; i < 7; i++) {
        look_read_colour(texts[i]->text, ink);
        double ratio = fmin(look_contrast(ink, paper), look_contrast(ink, tint));
        if (ratio >= LEAST_CONTRAST)
            continue;
        diag_report(
            diag, DIAG_ERROR, "low-contrast", texts[i]->at,
            "'%s' has a contrast of %.2f:1 on the paper or the tint; at least %g:1 is needed",
            texts[i]->text, floor(ratio * 100) / 100, LEAST_CONTRAST);
        good = false;
    }
    return good;
}

static bool check_sizes(const struct look_sizes *sizes, struct diag *diag)
{
    static const double step = 2;
    const struct quantity *const headings[] = {&sizes->title, &sizes->section, &sizes->part};
    bool good = true;
    for (size_t i = 0; i < sizeof headings / sizeof *headings; i++) {
        if (headings[i]->value >= sizes->body.value + step)
            continue;
        diag_report(diag, DIAG_ERROR, "heading-too-small", headings[i]->at,
                    "%g points are less than the body text's %g and %g more", headings[i]->value,
                    sizes->body.value, step);
        good = false;
    }
    return good;
}

struct look_file *look_read(const char *path, struct arena *arena, struct diag *diag)
{
    struct look_file *look = ARENA_NEW(arena, struct look_file);
    look->file = arena_copy_text(arena, path);
    if (!bind_file(path, &look_schema, arena, diag, look))
        return NULL;
    bool colours = check_colours(&look->colours, diag);
    return check_sizes(&look->sizes, diag) && colours ? look : NULL;
}
