/* What a veterinarian is asked to confirm of a species sheet: in which order, with which rules and
 * sentences, and how each value is told, as text and as JSON. The sheet and its rules are
 * invented. */
#include <string.h>

#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "review/review_list.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

enum { RULES = 5, USES_MOST = 6 };

static struct species species;
static struct rule rules[RULES];
static struct rule_book book;
static struct value_use use_rows[USES_MOST];
static struct value_uses uses;
static struct resources resources;
static struct review_list list;
static struct text_value warm_side = {.text = "warm-side"}, cool_side = {.text = "cool-side"};
static struct choice_value too_high = {.known = true, .value = VERDICT_TOO_HIGH};
static const struct date confirmed_on = {2026, 2, 1};

static struct sourced_value value_of(double low, double high, enum trust trust)
{
    return (struct sourced_value){.range = {.known = true, .low = low, .high = high},
                                  .source = {.text = "handbook"},
                                  .trust = {.known = true, .value = (int)trust}};
}

static struct rule rule_of(const char *name, const char *action, double harm, enum measure_id place)
{
    struct rule rule;
    memset(&rule, 0, sizeof rule);
    rule.name.text = name;
    rule.action.text = action;
    rule.harm = (struct quantity){.known = true, .value = harm};
    rule.when.measured[place] = (struct list){.items = &too_high, .count = 1};
    return rule;
}

/* Three rules of the warm side, two of the cool one. */
static void set_up_list(void)
{
    set_up();
    memset(&species, 0, sizeof species);
    species.code.text = "ours";
    species.group = (struct choice_value){.known = true, .value = GROUP_SNAKE};
    species.habit = (struct choice_value){.known = true, .value = HABIT_ARBOREAL};
    species.diet = (struct choice_value){.known = true, .value = DIET_WHOLE_PREY};
    species.reproduction = (struct choice_value){.known = true, .value = REPRODUCTION_EGG_LAYER};
    rules[0] = rule_of("warm-a", "cool-it", 50, MEASURE_WARM_SIDE);
    rules[1] = rule_of("warm-b", "move-it", 80, MEASURE_WARM_SIDE);
    rules[2] = rule_of("warm-c", "cool-it", 40, MEASURE_WARM_SIDE);
    rules[3] = rule_of("cool-a", "cool-it", 20, MEASURE_COOL_SIDE);
    rules[4] = rule_of("cool-b", "warm-it", 30, MEASURE_COOL_SIDE);
    book = (struct rule_book){.rules = {.items = rules, .count = RULES}};
    memset(use_rows, 0, sizeof use_rows);
    use_rows[0] = (struct value_use){.key = {.text = "temperature.warm-side"},
                                     .conditions = {.items = &warm_side, .count = 1}};
    use_rows[1] = (struct value_use){.key = {.text = "temperature.cool-side"},
                                     .conditions = {.items = &cool_side, .count = 1}};
    use_rows[2].key.text = "*";
    uses = (struct value_uses){.uses = {.items = use_rows, .count = 3}};
    resources =
        (struct resources){.templates = PROJECT_FOLDER "/templates", .rules = &book, .uses = &uses};
}

static void make(void)
{
    ck_assert(review_list_make(&resources, &species, &arena, &diag, &list));
}

static const struct review_item *item_of(const char *key)
{
    for (size_t i = 0; i < list.count; i++)
        if (strcmp(list.items[i].value->key, key) == 0)
            return &list.items[i];
    ck_abort_msg("no item %s", key);
    return NULL;
}

/* ---- what a value drives
 * ------------------------------------------------------------------------- */

START_TEST(the_gravest_rule_says_how_much_a_value_weighs)
{
    static const struct {
        double own, weighs;
    } rows[] = {{0, 80}, {79, 80}, {80, 80}, {81, 81}};
    species.measured[MEASURE_WARM_SIDE] = value_of(30, 35, TRUST_MEMORY);
    for (int i = 0; i < COUNT(rows); i++) {
        use_rows[0].harm = (struct quantity){.known = true, .value = rows[i].own};
        make();
        const struct review_item *item = item_of("temperature.warm-side");
        ck_assert_double_eq(item->harm, rows[i].weighs);
        ck_assert_uint_eq(item->rule_count, 3);
        ck_assert_str_eq(item->rules[0], "warm-a");
        ck_assert_str_eq(item->rules[2], "warm-c");
        ck_assert_uint_eq(item->action_count, 2); /* two of them ask for the same */
        ck_assert_str_eq(item->actions[0], "cool-it");
        ck_assert_str_eq(item->actions[1], "move-it");
    }
}
END_TEST

/* A rule for other animals says nothing of this one; one that names it among others does. */
START_TEST(a_rule_for_other_animals_does_not_count)
{
    struct list *const asked[] = {&rules[1].when.group, &rules[1].when.habit, &rules[1].when.diet,
                                  &rules[1].when.reproduction};
    const int own[] = {GROUP_SNAKE, HABIT_ARBOREAL, DIET_WHOLE_PREY, REPRODUCTION_EGG_LAYER};
    species.measured[MEASURE_WARM_SIDE] = value_of(30, 35, TRUST_MEMORY);
    for (int i = 0; i < COUNT(asked); i++) {
        struct choice_value choices[] = {{.known = true, .value = own[i] + 1},
                                         {.known = true, .value = own[i]}};
        *asked[i] = (struct list){.items = choices, .count = 1};
        make();
        ck_assert_uint_eq(item_of("temperature.warm-side")->rule_count, 2);
        ck_assert_double_eq(item_of("temperature.warm-side")->harm, 50);
        asked[i]->count = 2;
        for (int turned = 0; turned < 2; turned++) {
            choices[turned].value = own[i];
            choices[!turned].value = own[i] + 1;
            make();
            ck_assert_uint_eq(item_of("temperature.warm-side")->rule_count, 3);
        }
        *asked[i] = (struct list){0};
    }
}
END_TEST

START_TEST(where_there_are_no_rules_none_follows)
{
    book.rules.count = 0;
    species.measured[MEASURE_WARM_SIDE] = value_of(30, 35, TRUST_MEMORY);
    make();
    ck_assert_uint_eq(item_of("temperature.warm-side")->rule_count, 0);
    ck_assert_double_eq(item_of("temperature.warm-side")->harm, 0);
}
END_TEST

/* Has one of its alternatives the slot? */
static bool has_slot(const struct wording_entry *entry, const char *slot)
{
    for (size_t k = 0; k < entry->count; k++) {
        const struct wording_phrase *phrase = &entry->alternatives[k].forms[0];
        for (size_t i = 0; i < phrase->count; i++)
            if (phrase->pieces[i].is_slot && strcmp(phrase->pieces[i].text, slot) == 0)
                return true;
    }
    return false;
}

/* The sentences with one of its slots, each once: as many as the files of the language have. */
START_TEST(a_value_is_used_by_the_sentences_that_it_fills)
{
    struct text_value slots[] = {{.text = "humidity.shed-target"}, {.text = "nest.depth"}};
    use_rows[2].slots = (struct list){.items = slots, .count = 2};
    species.measured[MEASURE_NIGHT] = value_of(20, 22, TRUST_MEMORY);
    make();
    const struct review_item *item = item_of("temperature.night");
    ck_assert_uint_eq(item->rule_count, 0);
    ck_assert_double_eq(item->harm, 0);
    ck_assert_uint_ge(item->sentence_count, 2);
    for (size_t i = 0; i < item->sentence_count; i++) {
        const struct wording_entry *entry = catalogue_find(list.words, item->sentences[i]);
        ck_assert(has_slot(entry, slots[0].text) || has_slot(entry, slots[1].text));
        ck_assert(i == 0 || strcmp(item->sentences[i - 1], item->sentences[i]) != 0);
    }
    const size_t both = item->sentence_count;
    use_rows[2].slots.count = 1;
    make();
    const size_t one = item_of("temperature.night")->sentence_count;
    use_rows[2].slots.items = &slots[1];
    make();
    const size_t other = item_of("temperature.night")->sentence_count;
    ck_assert(one > 0 && other > 0 && one + other >= both && both > one && both > other);
    use_rows[2].slots = (struct list){0};
    make();
    ck_assert_uint_eq(item_of("temperature.night")->sentence_count, 0);
}
END_TEST

/* ---- the order
 * ----------------------------------------------------------------------------------- */

static void is_in_order(const char *const *keys, size_t count)
{
    make();
    ck_assert_uint_eq(list.count, count);
    for (size_t i = 0; i < count; i++)
        ck_assert_msg(strcmp(list.items[i].value->key, keys[i]) == 0, "%zu: %s", i,
                      list.items[i].value->key);
}

/* What is left, then harm, then use, then the sheet. */
START_TEST(the_most_harmful_that_is_left_comes_first)
{
    static const char *const keys[] = {
        "temperature.cool-side",       /* left, 30 */
        "temperature.night",           /* left, 0, one sentence or more */
        "temperature.water",           /* left, 0 */
        "humidity.in-shed",            /* left, 0, behind the water on the sheet */
        "temperature.warm-side",       /* settled, 80 */
        "temperature.night-drop",      /* settled, 5 */
        "temperature.basking-surface", /* settled, 0 */
    };
    struct text_value slot = {.text = "nest.depth"};
    use_rows[3] = use_rows[2];
    use_rows[2] = (struct value_use){.key = {.text = "temperature.night"},
                                     .slots = {.items = &slot, .count = 1}};
    use_rows[4] = use_rows[3];
    use_rows[3] = (struct value_use){.key = {.text = "temperature.night-drop"},
                                     .harm = {.known = true, .value = 5}};
    uses.uses.count = 5;
    species.measured[MEASURE_WARM_SIDE] = value_of(30, 35, TRUST_ORIGINAL);
    species.measured[MEASURE_BASKING_SURFACE] = value_of(35, 40, TRUST_ORIGINAL);
    species.measured[MEASURE_COOL_SIDE] = value_of(24, 26, TRUST_MEMORY);
    species.measured[MEASURE_NIGHT] = value_of(20, 22, TRUST_MEMORY);
    species.measured[MEASURE_WATER] = value_of(20, 22, TRUST_MEMORY);
    species.humidity_shed_percent = value_of(70, 80, TRUST_MEMORY);
    species.night_drop = value_of(5, 8, TRUST_ORIGINAL);
    is_in_order(keys, COUNT(keys));
}
END_TEST

/* A sentence counts as much as a rule: of two that are used alike the sheet has the order. */
START_TEST(sentences_and_rules_count_alike)
{
    enum { MANY = 40 };
    static const char *const keys[] = {"temperature.night", "temperature.water"};
    static struct rule many[MANY];
    struct text_value slot = {.text = "nest.depth"};
    struct text_value night = {.text = "night"}, water = {.text = "water"};
    use_rows[0] = (struct value_use){.key = {.text = keys[0]},
                                     .slots = {.items = &slot, .count = 1},
                                     .conditions = {.items = &night, .count = 1}};
    use_rows[1] =
        (struct value_use){.key = {.text = keys[1]}, .conditions = {.items = &water, .count = 1}};
    species.measured[MEASURE_NIGHT] = value_of(20, 22, TRUST_MEMORY);
    species.measured[MEASURE_WATER] = value_of(20, 22, TRUST_MEMORY);
    many[0] = rule_of("cold", "warm-it", 0, MEASURE_NIGHT);
    book = (struct rule_book){.rules = {.items = many, .count = 1}};
    make();
    const size_t uses_now = item_of(keys[0])->sentence_count + 1;
    ck_assert_uint_lt(uses_now, MANY - 2);
    for (size_t i = 1; i <= uses_now + 1; i++)
        many[i] = rule_of(arena_format(&arena, "wet-%zu", i), "dry-it", 0, MEASURE_WATER);
    book.rules.count = 1 + uses_now; /* as many */
    is_in_order(keys, 2);
    book.rules.count = 2 + uses_now; /* one more */
    const char *const turned[] = {keys[1], keys[0]};
    is_in_order(turned, 2);
}
END_TEST

START_TEST(what_is_confirmed_is_settled_until_it_is_open_again)
{
    struct confirmation confirmed = {.by = "Dr Vale", .on = confirmed_on};
    species.measured[MEASURE_COOL_SIDE] = value_of(24, 26, TRUST_MEMORY);
    species.measured[MEASURE_COOL_SIDE].confirmed = &confirmed;
    make();
    ck_assert(!list.items[0].is_open);
    confirmed.is_reopened = true;
    make();
    ck_assert(list.items[0].is_open);
    ck_assert_ptr_null(list.items[0].ours); /* the sheet follows none of ours */
}
END_TEST

/* What we ship now stands beside what is open again, and beside nothing else. */
START_TEST(what_is_open_again_has_ours_beside_it)
{
    struct confirmation confirmed = {.by = "Dr Vale", .on = confirmed_on, .is_reopened = true};
    species.below = PROJECT_FOLDER "/species-sheets/ball-python.yaml";
    species.measured[MEASURE_WARM_SIDE] = value_of(30, 35, TRUST_MEMORY);
    species.measured[MEASURE_WARM_SIDE].confirmed = &confirmed;
    species.measured[MEASURE_COOL_SIDE] = value_of(24, 26, TRUST_MEMORY);
    make();
    ck_assert_ptr_nonnull(list.ours);
    const struct review_item *item = item_of("temperature.warm-side");
    ck_assert_ptr_nonnull(item->ours);
    ck_assert_str_eq(item->ours->key, "temperature.warm-side");
    ck_assert_ptr_ne(item->ours->band, item->value->band);
    ck_assert_ptr_null(item_of("temperature.cool-side")->ours);
    confirmed.is_reopened = false;
    make();
    ck_assert_ptr_null(item_of("temperature.warm-side")->ours);
    species.below = PROJECT_FOLDER "/species-sheets/no-such-sheet.yaml";
    ck_assert(!review_list_make(&resources, &species, &arena, &diag, &list));
}
END_TEST

START_TEST(without_words_there_is_no_list)
{
    resources.templates = PROJECT_FOLDER "/no-such-folder";
    ck_assert(!review_list_make(&resources, &species, &arena, &diag, &list));
}
END_TEST

/* With plain spaces where lines may not break. */
static const char *plain(const char *text)
{
    static const char narrow[] = "\u202f", wide[] = "\u00a0";
    struct strbuf out;
    strbuf_init(&out, &arena);
    while (*text) {
        const size_t bytes = strncmp(text, narrow, strlen(narrow)) == 0 ? strlen(narrow)
                             : strncmp(text, wide, strlen(wide)) == 0   ? strlen(wide)
                                                                        : 0;
        strbuf_add_char(&out, bytes ? ' ' : *text);
        text += bytes ? bytes : 1;
    }
    return out.text;
}

/* ---- values as text
 * ------------------------------------------------------------------------------ */

static const struct told {
    enum dimension dimension;
    double low, high;
    enum unit unit;
    const char *metric, *us, *written;
} told_rows[] = {
    {DIM_TEMPERATURE, 30, 35, UNIT_CELSIUS, "30–35 °C", "86–95 °F", "30-35 C"},
    {DIM_TEMPERATURE, 30, 30, UNIT_CELSIUS, "30 °C", "86 °F", "30 C"},
    {DIM_PERCENT, 40, 60, UNIT_PERCENT, "40–60 %", "40–60 %", "40-60 %"},
    {DIM_MASS, 1500, 2000, UNIT_KILOGRAM, "1500–2000 g", NULL, "1.5-2 kg"},
    /* two and three pounds of 453.59237 g */
    {DIM_MASS, 907.18474, 1360.77711, UNIT_POUND, NULL, "2 lb–3 lb", "2-3 lb"},
    {DIM_COUNT, 1.25, 2, UNIT_NONE, "1.25–2", "1.25–2", "1.25-2"},
    {DIM_COUNT, 0.125, 0.125, UNIT_NONE, "0.125", "0.125", "0.125"},
    {DIM_COUNT, 0.1231, 0.4567, UNIT_NONE, "0.123–0.457", "0.123–0.457", "0.1231-0.4567"},
    {DIM_DURATION, 14, 21, UNIT_WEEK, "2–3 weeks", "2–3 weeks", "2-3 weeks"},
    {DIM_HOURS, 12, 14, UNIT_HOUR, "12–14 h", "12–14 h", "12-14 h"},
};

START_TEST(each_value_is_told_as_it_is_read)
{
    make();
    for (int i = 0; i < COUNT(told_rows); i++) {
        const struct told *row = &told_rows[i];
        const struct field field = {.dimension = row->dimension};
        const struct band band = {
            .known = true, .low = row->low, .high = row->high, .unit = row->unit};
        const struct species_value value = {.field = &field, .band = &band};
        if (row->metric)
            ck_assert_str_eq(plain(review_value_text(&list, &value, UNITS_METRIC)), row->metric);
        /* of a mass the grams stand behind it */
        if (row->us)
            ck_assert_int_eq(strncmp(plain(review_value_text(&list, &value, UNITS_US)), row->us,
                                     strlen(row->us)),
                             0);
        ck_assert_str_eq(review_written_text(&value, &arena), row->written);
    }
}
END_TEST

START_TEST(a_box_is_told_by_its_sides)
{
    const struct box box = {.known = true, .length_cm = 120, .width_cm = 60, .height_cm = 45.2};
    const struct species_value value = {.box = &box};
    make();
    ck_assert_str_eq(review_written_text(&value, &arena), "120 x 60 x 45.2 cm");
    ck_assert_ptr_nonnull(strstr(review_value_text(&list, &value, UNITS_METRIC), "120"));
    ck_assert_ptr_nonnull(strstr(review_value_text(&list, &value, UNITS_METRIC), "60"));
    /* the least that it may be: never rounded down */
    ck_assert_ptr_nonnull(strstr(review_value_text(&list, &value, UNITS_METRIC), "46"));
}
END_TEST

/* ---- the list as text and as JSON
 * ----------------------------------------------------------------- */

static struct named_text sources[] = {
    {.name = {.text = "handbook"}, .text = {.text = "A handbook, p. 7"}}};
static struct named_text names[] = {{.name = {.text = "en"}, .text = {.text = "Invented snake"}}};
static struct sourced_value other;
static struct confirmation settled = {.value = "24-26 C",
                                      .by = "Dr Vale",
                                      .on = {2026, 2, 1},
                                      .edition = "the 3rd edition",
                                      .reason = "as we keep them"};

static void fill_sheet(void)
{
    species.names = (struct list){.items = names, .count = 1};
    species.scientific.text = "Serpens ficta";
    species.sources = (struct list){.items = sources, .count = 1};
    other = value_of(25, 30, TRUST_ORIGINAL);
    other.range.unit = UNIT_CELSIUS;
    other.source.text = "elsewhere";
    species.measured[MEASURE_WARM_SIDE] = value_of(30, 35, TRUST_MEMORY);
    species.measured[MEASURE_WARM_SIDE].choice.text = "the newer one";
    species.measured[MEASURE_WARM_SIDE].disagrees = (struct list){.items = &other, .count = 1};
    species.measured[MEASURE_COOL_SIDE] = value_of(25, 30, TRUST_MEMORY);
    species.measured[MEASURE_COOL_SIDE].confirmed = &settled;
    species.measured[MEASURE_COOL_SIDE].source.text = NULL;
    species.review = (struct species_review){
        .count = 2, .founded = 1, .left = 1, .confirmed = 1, .by = "Dr Vale", .on = {2026, 2, 1}};
}

START_TEST(the_list_as_text)
{
    struct strbuf out;
    fill_sheet();
    make();
    strbuf_init(&out, &arena);
    review_write_text(&list, &out);
    ck_assert_str_eq(plain(out.text),
                     "Invented snake (Serpens ficta), ours\n"
                     "  trust 50 %: 1 of 2 values are published or confirmed, 1 are left\n"
                     "  reviewed by Dr Vale, last on 2026-02-01: 1 confirmed, 0 open again\n"
                     "\nto confirm, the most harmful and most used first\n"
                     "  1. temperature.warm-side: 30–35 °C (86–95 °F)\n"
                     "      harm 80, 3 rules, 0 sentences\n"
                     "      from A handbook, p. 7 [memory]\n"
                     "      why this one: the newer one\n"
                     "      but 25–30 °C (77–86 °F): elsewhere [original]\n"
                     "      does: cool-it, move-it\n"
                     "\npublished or confirmed\n"
                     "  2. temperature.cool-side: 25–30 °C (77–86 °F)\n"
                     "      harm 30, 2 rules, 0 sentences\n"
                     "      from no source [memory]\n"
                     "      confirmed by Dr Vale on 2026-02-01, after the 3rd edition; as we keep "
                     "them\n"
                     "      does: cool-it, warm-it\n");
}
END_TEST

START_TEST(the_list_as_text_of_what_nobody_reviewed)
{
    struct strbuf out;
    fill_sheet();
    struct confirmation open = {.by = "Dr Vale", .on = {2026, 2, 1}, .is_reopened = true};
    species.review.by = NULL;
    book.rules.count = 1;
    species.measured[MEASURE_COOL_SIDE] = (struct sourced_value){0};
    species.measured[MEASURE_WARM_SIDE] = value_of(30, 35, TRUST_MEMORY);
    species.measured[MEASURE_WARM_SIDE].confirmed = &open;
    make();
    struct species theirs = species;
    const struct field field = {.dimension = DIM_TEMPERATURE};
    const struct band band = {.known = true, .low = 20, .high = 25};
    const struct species_value shipped = {
        .field = &field, .band = &band, .source = "handbook", .trust = TRUST_ORIGINAL};
    list.ours = &theirs;
    list.items[0].ours = &shipped;
    strbuf_init(&out, &arena);
    review_write_text(&list, &out);
    ck_assert_str_eq(plain(out.text),
                     "Invented snake (Serpens ficta), ours\n"
                     "  trust 50 %: 1 of 2 values are published or confirmed, 1 are left\n"
                     "\nto confirm, the most harmful and most used first\n"
                     "  1. temperature.warm-side: 30–35 °C (86–95 °F)\n"
                     "      harm 50, 1 rule, 0 sentences\n"
                     "      from A handbook, p. 7 [memory]\n"
                     "      confirmed by Dr Vale on 2026-02-01; open again: the shipped value has "
                     "changed since\n"
                     "      shipped now: 20–25 °C (68–77 °F): A handbook, p. 7 [original]\n"
                     "      does: cool-it\n");
}
END_TEST

/* Every space and line end left out, so that the JSON's shape alone counts. */
static const char *tight(const char *text)
{
    char *out = arena_take(&arena, strlen(text) + 1);
    size_t length = 0;
    bool quoted = false;
    for (; *text; text++) {
        quoted ^= *text == '"';
        if (quoted || (*text != ' ' && *text != '\n'))
            out[length++] = *text;
    }
    return out;
}

START_TEST(the_list_as_json)
{
    struct strbuf out;
    fill_sheet();
    make();
    strbuf_init(&out, &arena);
    review_write_json(&list, &out);
    ck_assert_int_eq(out.text[strlen(out.text) - 1], '\n');
    ck_assert_str_eq(
        tight(plain(out.text)),
        "{\"species\":\"ours\",\"name\":\"Invented snake\",\"scientific\":\"Serpens ficta\","
        "\"from_clinic\":false,\"trust\":{\"percent\":50,\"values\":2,\"founded\":1,\"left\":1,"
        "\"confirmed\":1,\"reopened\":0,\"by\":\"Dr Vale\",\"on\":\"2026-02-01\"},\"values\":["
        "{\"key\":\"temperature.warm-side\",\"open\":true,\"metric\":\"30–35 °C\","
        "\"us\":\"86–95 °F\",\"source\":\"A handbook, p. 7\",\"trust\":\"memory\","
        "\"choice\":\"the newer one\",\"disagrees\":[{\"metric\":\"25–30 °C\","
        "\"us\":\"77–86 °F\",\"source\":\"elsewhere\",\"trust\":\"original\"}],\"confirmed\":null,"
        "\"shipped_now\":null,\"harm\":80,\"rules\":[\"warm-a\",\"warm-b\",\"warm-c\"],"
        "\"actions\":[\"cool-it\",\"move-it\"],\"sentences\":[]},"
        "{\"key\":\"temperature.cool-side\",\"open\":false,\"metric\":\"25–30 °C\","
        "\"us\":\"77–86 °F\",\"source\":null,\"trust\":\"memory\",\"choice\":null,"
        "\"disagrees\":[],\"confirmed\":{\"value\":\"24-26 C\",\"by\":\"Dr Vale\","
        "\"on\":\"2026-02-01\",\"edition\":\"the 3rd edition\",\"reason\":\"as we keep them\","
        "\"reopened\":false},\"shipped_now\":null,\"harm\":30,\"rules\":[\"cool-a\",\"cool-b\"],"
        "\"actions\":[\"cool-it\",\"warm-it\"],\"sentences\":[]}]}");
}
END_TEST

START_TEST(the_list_as_json_of_what_nobody_reviewed)
{
    struct strbuf out;
    fill_sheet();
    species.review.by = NULL;
    species.from_clinic = true;
    make();
    const struct field field = {.dimension = DIM_TEMPERATURE};
    const struct band band = {.known = true, .low = 20, .high = 25};
    const struct species_value shipped = {
        .field = &field, .band = &band, .source = "handbook", .trust = TRUST_ORIGINAL};
    list.ours = &species;
    list.items[0].ours = &shipped;
    strbuf_init(&out, &arena);
    review_write_json(&list, &out);
    const char *text = tight(plain(out.text));
    ck_assert_ptr_nonnull(strstr(text, "\"reopened\":0,\"by\":null},\"values\":"));
    ck_assert_ptr_nonnull(strstr(text, "\"from_clinic\":true"));
    ck_assert_ptr_nonnull(
        strstr(text, "\"shipped_now\":{\"metric\":\"20–25 °C\",\"us\":\"68–77 °F\","
                     "\"source\":\"A handbook, p. 7\",\"trust\":\"original\"},\"harm\""));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("review_list");
    TCase *tcase = tcase_create("review_list");
    tcase_add_checked_fixture(tcase, set_up_list, tear_down);
    tcase_add_test(tcase, the_gravest_rule_says_how_much_a_value_weighs);
    tcase_add_test(tcase, a_rule_for_other_animals_does_not_count);
    tcase_add_test(tcase, where_there_are_no_rules_none_follows);
    tcase_add_test(tcase, a_value_is_used_by_the_sentences_that_it_fills);
    tcase_add_test(tcase, the_most_harmful_that_is_left_comes_first);
    tcase_add_test(tcase, sentences_and_rules_count_alike);
    tcase_add_test(tcase, what_is_confirmed_is_settled_until_it_is_open_again);
    tcase_add_test(tcase, what_is_open_again_has_ours_beside_it);
    tcase_add_test(tcase, without_words_there_is_no_list);
    tcase_add_test(tcase, each_value_is_told_as_it_is_read);
    tcase_add_test(tcase, a_box_is_told_by_its_sides);
    tcase_add_test(tcase, the_list_as_text);
    tcase_add_test(tcase, the_list_as_text_of_what_nobody_reviewed);
    tcase_add_test(tcase, the_list_as_json);
    tcase_add_test(tcase, the_list_as_json_of_what_nobody_reviewed);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
