/* The clinic's own sheet over ours: its seal, what a value's digest counts, values that are put in
 * place of ours with their sources, and what is confirmed until ours changes under it. */
#include <string.h>

#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "records/own_sheet.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

static struct bytes bytes_of(const char *text)
{
    return (struct bytes){text, strlen(text)};
}

static struct node *tree_of(const char *text)
{
    struct node *tree = tree_read_bytes("own.yaml", bytes_of(text), &arena, &diag);
    ck_assert_ptr_nonnull(tree);
    return tree;
}

/* ---- the seal
 * ------------------------------------------------------------------------------------- */

START_TEST(a_seal_holds_to_the_byte)
{
    static const char *const texts[] = {"", "a", "species: {code: ours}\n", "\n\n"};
    for (int i = 0; i < COUNT(texts); i++) {
        const struct bytes sealed = own_sheet_seal(bytes_of(texts[i]), &arena);
        ck_assert(own_sheet_is_sealed(sealed));
        ck_assert_int_eq(strncmp(sealed.data, texts[i], strlen(texts[i])), 0);
        ck_assert_int_eq(sealed.data[sealed.length - 1], '\n');
        for (size_t at = 0; at < sealed.length; at++) {
            char *other = arena_copy_bytes(&arena, sealed.data, sealed.length);
            other[at] ^= 1;
            ck_assert_msg(!own_sheet_is_sealed((struct bytes){other, sealed.length}), "byte %zu",
                          at);
            ck_assert(!own_sheet_is_sealed((struct bytes){sealed.data, at}));
        }
    }
}
END_TEST

/* ---- digests
 * -------------------------------------------------------------------------------------- */

static struct named_text sources[] = {
    {.name = {.text = "a"}, .text = {.text = "A handbook"}},
    {.name = {.text = "b"}, .text = {.text = "Another book"}},
    {.name = {.text = "c"}, .text = {.text = "A handbook"}},
};
static struct species sourced;

static const char *digest_of(const struct species_value *value)
{
    char *out = arena_take(&arena, OWN_SHEET_DIGEST_BYTES);
    own_sheet_digest(&sourced, value, out);
    ck_assert_uint_eq(strlen(out), OWN_SHEET_DIGEST_BYTES - 1);
    return out;
}

static void set_up_sources(void)
{
    set_up();
    memset(&sourced, 0, sizeof sourced);
    sourced.sources = (struct list){.items = sources, .count = COUNT(sources)};
}

/* Whatever a value says counts, and how its sources are named does not. */
START_TEST(a_digest_is_of_what_a_value_says)
{
    struct band band = {.known = true, .low = 30, .high = 35};
    struct sourced_value others[] = {
        {.range = {.known = true, .low = 20, .high = 25}, .source = {.text = "b"}},
        {.range = {.known = true, .low = 10, .high = 15}, .source = {.text = "b"}}};
    struct list disagrees = {.items = others, .count = 2};
    struct species_value value = {
        .band = &band, .source = "a", .disagrees = &disagrees, .trust = TRUST_MEMORY};
    const char *first = digest_of(&value);
    ck_assert_str_eq(digest_of(&value), first);
    value.source = "c";
    value.trust = TRUST_ORIGINAL;
    ck_assert_str_eq(digest_of(&value), first); /* the same text under another name */
    value.source = "b";
    ck_assert_str_ne(digest_of(&value), first);
    value.source = NULL;
    ck_assert_str_ne(digest_of(&value), first);
    value.source = "a";
    double *const numbers[] = {&band.low,
                               &band.high,
                               &others[0].range.low,
                               &others[0].range.high,
                               &others[1].range.low,
                               &others[1].range.high};
    for (int i = 0; i < COUNT(numbers); i++) {
        *numbers[i] += 0.5;
        ck_assert_msg(strcmp(digest_of(&value), first) != 0, "number %d", i);
        *numbers[i] -= 0.5;
    }
    for (int i = 0; i < 2; i++) {
        others[i].source.text = "a";
        ck_assert_str_ne(digest_of(&value), first);
        others[i].source.text = "b";
    }
    disagrees.count = 1;
    ck_assert_str_ne(digest_of(&value), first);
    value.disagrees = NULL;
    ck_assert_str_ne(digest_of(&value), first);
}
END_TEST

START_TEST(a_digest_of_a_box_is_of_its_sides)
{
    struct box box = {.known = true, .length_cm = 120, .width_cm = 60, .height_cm = 50};
    const struct species_value value = {.box = &box, .source = "a"};
    double *const sides[] = {&box.length_cm, &box.width_cm, &box.height_cm};
    const char *first = digest_of(&value);
    for (int i = 0; i < COUNT(sides); i++) {
        *sides[i] += 1;
        ck_assert_str_ne(digest_of(&value), first);
        *sides[i] -= 1;
    }
    ck_assert_str_eq(digest_of(&value), first);
}
END_TEST

/* ---- grafts
 * --------------------------------------------------------------------------------------- */

static const char *text_at(const struct node *map, const char *key)
{
    const struct node *found = tree_find(map, key);
    return found ? found->text : NULL;
}

/* Its sources come along: under ours where the text is ours, else under a name of their own. */
START_TEST(a_value_brings_its_sources)
{
    struct node *ours = tree_of("temperature: {warm-side: {range: 30 C, source: x}}\n"
                                "sources: {x: \"Our book\", k: \"A handbook\"}\n");
    struct node *value =
        tree_of("range: 31-33 C\nsource: own-review\ntrust: memory\n"
                "disagrees: [{range: 30 C, source: a}, {range: 29 C, source: b}]\n");
    struct named_text theirs[] = {
        sources[0], sources[1], {.name = {.text = "own-review"}, .text = {.text = "Dr Vale"}}};
    const struct list all = {.items = theirs, .count = 3};
    const struct species_value place = {
        .node = tree_find(tree_find(ours, "temperature"), "warm-side"), .band = &(struct band){0}};
    own_sheet_graft(&(struct own_graft){value, &place, &all}, ours, &arena);
    const struct node *put = tree_find(tree_find(ours, "temperature"), "warm-side"),
                      *others = tree_find(put, "disagrees"), *list = tree_find(ours, "sources");
    ck_assert_str_eq(text_at(put, "range"), "31-33 C");
    ck_assert_str_eq(text_at(put, "source"), "own-review"); /* a name of its own already */
    ck_assert_str_eq(text_at(others->items[0], "source"), "k");
    ck_assert_str_eq(text_at(others->items[1], "source"), "own-b");
    ck_assert_str_eq(text_at(list, "own-review"), "Dr Vale");
    ck_assert_str_eq(text_at(list, "own-b"), "Another book");
    ck_assert_str_eq(text_at(list, "x"), "Our book");
    ck_assert_str_eq(text_at(list, "k"), "A handbook");
    ck_assert_uint_eq(list->count, 4);
    ck_assert_str_eq(text_at(value, "source"), "own-review"); /* theirs stays as it was */
    ck_assert_str_eq(text_at(tree_find(value, "disagrees")->items[1], "source"), "b");
}
END_TEST

/* A name that stands for another text already gets a number. */
START_TEST(a_source_never_takes_anothers_name)
{
    struct node *ours = tree_of("place: {range: 1}\nsources: {own-b: One, own-b-2: Two}\n");
    struct node *value = tree_of("range: 2\nsource: b\n");
    const struct list all = {.items = sources, .count = COUNT(sources)};
    const struct species_value place = {.node = tree_find(ours, "place"),
                                        .band = &(struct band){0}};
    own_sheet_graft(&(struct own_graft){value, &place, &all}, ours, &arena);
    ck_assert_str_eq(text_at(place.node, "source"), "own-b-3");
    ck_assert_str_eq(text_at(tree_find(ours, "sources"), "own-b-3"), "Another book");
    ck_assert_str_eq(text_at(tree_find(ours, "sources"), "own-b"), "One");
}
END_TEST

/* A box shares its mapping with other values, which stay. */
START_TEST(a_box_leaves_what_stands_beside_it)
{
    struct node *ours =
        tree_of("enclosure: {least: 1 x 1 x 1 cm, least-source: x, length-times: 3}\n"
                "sources: {x: \"Our book\"}\n");
    struct node *value = tree_of("least: 2 x 2 x 2 cm\nleast-source: b\nleast-trust: memory\n"
                                 "length-times: 9\n");
    const struct list all = {.items = sources, .count = COUNT(sources)};
    const struct species_value place = {.node = tree_find(ours, "enclosure"),
                                        .box = &(struct box){0}};
    own_sheet_graft(&(struct own_graft){value, &place, &all}, ours, &arena);
    ck_assert_str_eq(text_at(place.node, "least"), "2 x 2 x 2 cm");
    ck_assert_str_eq(text_at(place.node, "least-source"), "own-b");
    ck_assert_str_eq(text_at(place.node, "least-trust"), "memory");
    ck_assert_str_eq(text_at(place.node, "length-times"), "3");
    ck_assert_uint_eq(place.node->count, 4);
}
END_TEST

START_TEST(nothing_is_put_where_there_is_no_place)
{
    struct node *value = tree_of("range: 2\nsource: b\n");
    const struct list all = {.items = sources, .count = COUNT(sources)};
    struct node *unsourced = tree_of("place: {range: 1}\n");
    const struct species_value place = {.node = tree_find(unsourced, "place")}, nowhere = {0};
    own_sheet_graft(&(struct own_graft){value, &place, &all}, unsourced, &arena);
    ck_assert_str_eq(text_at(place.node, "range"), "1");
    struct node *ours = tree_of("place: {range: 1}\nsources: {}\n");
    own_sheet_graft(&(struct own_graft){value, &nowhere, &all}, ours, &arena);
    const struct species_value there = {.node = tree_find(ours, "place")};
    own_sheet_graft(&(struct own_graft){NULL, &there, &all}, ours, &arena);
    ck_assert_str_eq(text_at(tree_find(ours, "place"), "range"), "1");
}
END_TEST

/* ---- what is confirmed
 * ---------------------------------------------------------------------------- */

static struct species sheet, shipped;
static struct reviewed_value reviewed[2];

static struct sourced_value value_of(double low, double high)
{
    return (struct sourced_value){.range = {.known = true, .low = low, .high = high},
                                  .source = {.text = "a"},
                                  .trust = {.known = true, .value = TRUST_MEMORY}};
}

static const struct confirmation *confirmed(const char *key, const char *value,
                                            struct species *ours, const char *then)
{
    memset(reviewed, 0, sizeof reviewed);
    reviewed[1].key.text = key;
    reviewed[1].value.text = value;
    reviewed[1].by.text = "Dr Vale";
    reviewed[1].on = (struct date_value){.known = true, .date = {2026, 2, 1}};
    reviewed[1].edition.text = "the 3rd edition";
    reviewed[1].reason.text = "as we keep them";
    reviewed[1].ours.text = then;
    reviewed[0].key.text = "no.such-value"; /* which falls away */
    reviewed[0].value.text = "1";
    sheet.reviewed = (struct list){.items = reviewed, .count = 2};
    sheet.measured[MEASURE_WARM_SIDE].confirmed = NULL;
    sheet.enclosure_least_confirmed = NULL;
    own_sheet_confirm(&sheet, &sheet, ours, &arena);
    return strcmp(key, "enclosure.least") == 0 ? sheet.enclosure_least_confirmed
                                               : sheet.measured[MEASURE_WARM_SIDE].confirmed;
}

static void fill_sheet(struct species *one)
{
    memset(one, 0, sizeof *one);
    one->sources = (struct list){.items = sources, .count = COUNT(sources)};
    one->measured[MEASURE_WARM_SIDE] = value_of(30, 35);
    one->enclosure_least =
        (struct box){.known = true, .length_cm = 120, .width_cm = 60, .height_cm = 50};
    one->enclosure_least_source.text = "a";
}

START_TEST(a_value_is_confirmed_while_it_says_the_same)
{
    static const struct {
        const char *key, *value;
        bool confirmed;
    } rows[] = {
        {"temperature.warm-side", "30-35 C", true},
        {"temperature.warm-side", "86-95 F", true}, /* the same in other units */
        {"temperature.warm-side", "30-34 C", false},
        {"temperature.warm-side", "31-35 C", false},
        {"temperature.warm-side", "warm", false},
        {"temperature.cool-side", "30-35 C", false},
        {"enclosure.least", "120 x 60 x 50 cm", true},
        {"enclosure.least", "1.2 x 0.6 x 0.5 m", true},
        {"enclosure.least", "121 x 60 x 50 cm", false},
        {"enclosure.least", "120 x 61 x 50 cm", false},
        {"enclosure.least", "120 x 60 x 51 cm", false},
    };
    fill_sheet(&sheet);
    for (int i = 0; i < COUNT(rows); i++) {
        const struct confirmation *is = confirmed(rows[i].key, rows[i].value, NULL, NULL);
        ck_assert_msg((is != NULL) == rows[i].confirmed, "row %d", i);
        ck_assert_uint_eq(sheet.review.confirmed, rows[i].confirmed);
        if (!is)
            continue;
        ck_assert_str_eq(is->key, rows[i].key);
        ck_assert_str_eq(is->value, rows[i].value);
        ck_assert_str_eq(is->by, "Dr Vale");
        ck_assert_int_eq(date_compare(is->on, (struct date){2026, 2, 1}), 0);
        ck_assert_str_eq(is->edition, "the 3rd edition");
        ck_assert_str_eq(is->reason, "as we keep them");
        ck_assert(!is->is_reopened);
    }
}
END_TEST

/* It is open again once ours says something else than it did then. */
START_TEST(what_ours_has_changed_is_open_again)
{
    char then[OWN_SHEET_DIGEST_BYTES];
    static const char key[] = "temperature.warm-side";
    fill_sheet(&sheet);
    fill_sheet(&shipped);
    shipped.measured[MEASURE_WARM_SIDE] = value_of(28, 32);
    const struct band band = {.known = true, .low = 28, .high = 32};
    const struct species_value value = {.band = &band, .source = "a"};
    own_sheet_digest(&shipped, &value, then);
    ck_assert(!confirmed(key, "30-35 C", &shipped, then)->is_reopened);
    ck_assert(!confirmed(key, "30-35 C", &shipped, NULL)->is_reopened); /* nobody noted it */
    ck_assert(!confirmed(key, "30-35 C", NULL, then)->is_reopened);
    shipped.measured[MEASURE_WARM_SIDE] = value_of(28, 33);
    ck_assert(confirmed(key, "30-35 C", &shipped, then)->is_reopened);
    ck_assert_uint_eq(sheet.review.reopened, 1);
    shipped.measured[MEASURE_WARM_SIDE] = (struct sourced_value){0};
    ck_assert(confirmed(key, "30-35 C", &shipped, then)->is_reopened); /* it is there no more */
}
END_TEST

/* ---- the two sheets
 * ------------------------------------------------------------------------------- */

/* Our sheet of a snake; with another range of the night, and more behind it, where `range` says. */
static struct own_sheet read_sheet(const char *range, const char *more)
{
    static const char night[] = "\n  night:\n    range: ";
    const char *path = PROJECT_FOLDER "/species-sheets/ball-python.yaml";
    struct bytes text;
    ck_assert(file_read(path, FILE_LIMIT_BYTES, &arena, &diag, &text));
    const char *at = strstr(text.data, night), *whole = text.data;
    ck_assert_ptr_nonnull(at);
    at += strlen(night);
    if (range)
        whole = arena_format(&arena, "%.*s%s%s%s", (int)(at - text.data), text.data, range,
                             strchr(at, '\n'), more);
    struct own_sheet made = {.tree = tree_of(whole)};
    made.species = species_read_tree(made.tree, path, &arena, &diag);
    ck_assert_msg(made.species, "%s", diag.first ? diag.first->text : "");
    return made;
}

static size_t remarks(void)
{
    size_t count = 0;
    for (const struct diag_message *m = diag.first; m; m = m->next)
        count += strcmp(m->code, "confirmed-value-gone") == 0;
    return count;
}

/* What was confirmed and differs; the same value stays ours, and what is not confirmed too. */
START_TEST(what_was_confirmed_goes_into_ours)
{
    static const struct {
        const char *key;
        bool goes;
    } rows[] = {{"temperature.night", true}, {"temperature.warm-side", false}};
    for (int i = 0; i < COUNT(rows); i++) {
        const struct own_sheet ours = read_sheet(NULL, NULL);
        const struct own_sheet own = read_sheet(
            "24-24.5 C",
            arena_format(&arena,
                         "\nreviewed:\n"
                         "  temperature.no-such: {value: 1 C, by: Dr Vale, on: 2026-02-01}\n"
                         "  %s: {value: 24-24.5 C, by: Dr Vale, on: 2026-02-01}\n",
                         rows[i].key));
        const struct node *temperature = tree_find(ours.tree, "temperature");
        const char *was = text_at(tree_find(temperature, "night"), "range");
        diag_finish(&diag);
        diag_init(&diag);
        own_sheet_merge(own, ours, &arena, &diag);
        ck_assert_uint_eq(remarks(), 1); /* of the one that there is no more */
        ck_assert_str_eq(text_at(tree_find(temperature, "night"), "range"),
                         rows[i].goes ? "24-24.5 C" : was);
        ck_assert_str_ne(was, "24-24.5 C");
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("own_sheet");
    TCase *tcase = tcase_create("own_sheet");
    tcase_add_checked_fixture(tcase, set_up_sources, tear_down);
    tcase_add_test(tcase, a_seal_holds_to_the_byte);
    tcase_add_test(tcase, a_digest_is_of_what_a_value_says);
    tcase_add_test(tcase, a_digest_of_a_box_is_of_its_sides);
    tcase_add_test(tcase, a_value_brings_its_sources);
    tcase_add_test(tcase, a_source_never_takes_anothers_name);
    tcase_add_test(tcase, a_box_leaves_what_stands_beside_it);
    tcase_add_test(tcase, nothing_is_put_where_there_is_no_place);
    tcase_add_test(tcase, a_value_is_confirmed_while_it_says_the_same);
    tcase_add_test(tcase, what_ours_has_changed_is_open_again);
    tcase_add_test(tcase, what_was_confirmed_goes_into_ours);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
