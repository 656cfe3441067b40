/* Visit records: what is read, what is refused, with its place. */
#include <string.h>

#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "records/visit.h"

static const struct date today = {2026, 6, 1};

static const struct visit *read_text(const char *text)
{
    const struct node *tree =
        tree_read_bytes("v.yaml", (struct bytes){text, strlen(text)}, &arena, &diag);
    return tree ? visit_read_tree(tree, "v.yaml", today, &arena, &diag) : NULL;
}

#define LEAST                                                                                      \
    "visit: {date: 2026-03-14, kind: checkout}\npatient: {name: Biscuit, species: ball-python}\n"

START_TEST(needs_little)
{
    const struct visit *visit = read_text(LEAST);
    ck_assert_ptr_nonnull(visit);
    ck_assert_str_eq(visit->patient.name.text, "Biscuit");
    ck_assert_int_eq(visit->patient.name.at.line, 2);
    ck_assert(!visit->patient.mass_g.known);
    ck_assert_uint_eq(visit->findings.count, 0);
}
END_TEST

START_TEST(reads_the_shipped_examples)
{
    static const char *const names[] = {"biscuit-ball-python", "ember-bearded-dragon",
                                        "pebble-leopard-gecko", "juniper-adoption"};
    const char *path = arena_format(&arena, PROJECT_FOLDER "/templates/visits/%s.yaml", names[_i]);
    ck_assert_ptr_nonnull(visit_read(path, today, &arena, &diag));
    ck_assert_ptr_null(diag.first);
}
END_TEST

/* A fault, its code, its line. Every text begins with two good lines. */
static const struct {
    const char *text;
    const char *code;
    int line;
    const char *says;
} bad_rows[] = {
    {"enclosure: {readings: {humidty: 40 %}}\n", "unknown-key", 3, "did you mean 'humidity'?"},
    {"enclosure: {readings: {night: 21}}\n", "not-a-quantity", 3, "write it with C or F"},
    {"enclosure: {readings: {night: 21 g}}\n", "not-a-quantity", 3, "is not a temperature"},
    /* F = C x 9/5 + 32: 28 F is -2.2 C, 84 C is 183.2 F; no animal is kept there */
    {"enclosure: {readings: {warm-side: 28 F}}\n", "unit-unlikely", 3, "did you mean '28 C'?"},
    {"enclosure: {readings: {warm-side: 84 C}}\n", "unit-unlikely", 3, "did you mean '84 F'?"},
    {"enclosure: {readings: {night: 28 F}}\n", "unit-unlikely", 3, "write it as -2.222 C"},
    {"targets: {night: 24-26 F, because: x}\n", "unit-unlikely", 3, "did you mean '26 C'?"},
    {"enclosure: {readings: {cool-side: 35 C, basking-surface: 30 C}}\n", "cool-above-basking", 3,
     "swapped"},
    {"enclosure: {readings: {humidity: 0 %}}\n", "humidity-impossible", 3, "above 0"},
    {"enclosure: {readings: {humidity: 101 %}}\n", "humidity-impossible", 3, "not above 100"},
    {"water: {nitrate: -5 mg/l}\n", "out-of-range", 3, "0 to 2000 mg/l"},
    {"water: {ph: 74}\n", "out-of-range", 3, "0 to 14"},
    {"water: {nitrite: 0.5}\n", "not-a-quantity", 3, "write it with mg/l or ppm"},
    {"water: {ammonia: 0.5 mg/l, ammonia-as: total-nn}\n", "unknown-word", 3,
     "did you mean 'total-n'?"},
    {"water: {change: {share: 25 %}}\n", "missing-key", 3, "every"},
    {"water: {temperature: 18 C}\nenclosure: {readings: {water: 18 C}}\n", "water-warmth-twice", 3,
     "not both"},
    /* 100 x 45 x 45 cm hold 202.5 l, and 90 l when they stand 20 cm deep */
    {"enclosure: {size: 100 x 45 x 45 cm}\nwater: {volume: 900 l}\n", "volume-not-the-box", 4,
     "hold 202.5 l"},
    {"enclosure: {size: 100 x 45 x 45 cm}\nwater: {volume: 120 l, depth: 20 cm}\n",
     "volume-not-the-box", 4, "hold 90 l"},
    {"enclosure: {size: 100 x 45 x 45 cm}\nwater: {depth: 60 cm}\n", "deeper-than-the-box", 4,
     "the height of the box"},
    {"enclosure: {lamp: {kind: tube, height: 0 cm}}\n", "distance-zero", 3, "above 0"},
    {"enclosure: {heat: [{kind: mat}, {kind: none}]}\n", "no-heat-beside-heat", 3, "other heat"},
    {"enclosure: {outdoor: yes, latitude: 95}\n", "out-of-range", 3, "-90 to 90"},
    {"enclosure: {animals: 0}\n", "out-of-range", 3, "1 to 200"},
    {"enclosure: {animals: 2, males: 3}\n", "more-males-than-animals", 3, "3 of 2 animals"},
    {"enclosure: {animals: 2, mates: [corn-snake, boa-constrictor]}\n", "more-mates-than-animals",
     3, "at least 3 animals"},
    {"enclosure: {substrate: sant}\n", "unknown-word", 3, "did you mean 'sand'?"},
    {"enclosure: {hides: -1}\n", "out-of-range", 3, "0 to 20"},
    {"enclosure: {hides: 1.5}\n", "not-whole", 3, "write one such as 1"},
    {"enclosure: {animals: 2.5}\n", "not-whole", 3, "'2.5' is not a whole number"},
    {"follow-up: {aftercare: [{of: dry-hours, times: 2.5}]}\n", "not-whole", 3,
     "aftercare[1].times"},
    {"decisions: [{action: larger-box, place: 1.5}]\n", "not-whole", 3, "decisions[1].place"},
    {"decisions: [{action: larger-box, strike: yes}]\n", "decision-without-reason", 3,
     "because: is missing: say the reason"},
    {"decisions: [{do: \" \"}]\n", "decision-unclear", 3, "exactly one of topic, action and do"},
    {"decisions: [{action: larger-box}]\n", "decision-unclear", 3, "strike: yes, or place: 1"},
    {"diet: mouse\n", "wrong-kind", 3, "a mapping or a list of them, not a text"},
    {"water: {nitrate: \"\"}\n", "not-a-quantity", 3, "is empty; write a number with mg/l or ppm"},
    {"enclosure: {thermostat: maybe}\n", "not-yes-or-no", 3, "write one of them"},
    {"enclosure: {hides: two}\n", "not-a-quantity", 3, "hides"},
    {"enclosure: {size: 100 x 45 x 45 cm, perch-height: 50 cm}\n", "perch-too-high", 3,
     "above the box, which is 45 cm high"},
    {"enclosure: {platform-height: 10 cm, perch-height: 60 cm,\n"
     "  lamp: {kind: compact, height: 40 cm}}\n",
     "perch-too-high", 3, "hangs 50 cm above the floor"},
    {"enclosure: {lamp: {kind: tub}}\n", "unknown-word", 3, "did you mean 'tube'?"},
    {"enclosure: {lamp: {kind: compact, tube-length: 55 cm}}\n", "length-of-no-tube", 3,
     "kind tube"},
    {"enclosure: {lamp: {kind: tube, installed: 2027-01-01}}\n", "date-in-future", 3,
     "today is 2026-03-14"},
    {"diet: {last: 2026-02-30}\n", "not-a-date", 3, "write year-month-day, such as 2026-03-14"},
    {"keeper: {email: \"a@example.org\\nBcc: b@example.org\"}\n", "not-an-address", 3,
     "one plain mail address"},
    {"keeper: {name: \"A\\nB\"}\n", "not-one-line", 3, "one line"},
    {"findings: {code: x}\n", "wrong-kind", 3, "must be a list"},
    {"findings: [{severity: mild}]\n", "missing-key", 3, "'code' is missing"},
    {"targets: {humidity: 55-65 %}\n", "missing-key", 3, "'because' is missing"},
    {"targets: {humidity: 55-65 %, because: dry skin}\n", "targets-unsigned", 3, "who set them"},
};

START_TEST(refuses_with_place_and_remedy)
{
    ck_assert_ptr_null(read_text(arena_format(&arena, "%s%s", LEAST, bad_rows[_i].text)));
    ck_assert_ptr_nonnull(diag.first);
    ck_assert_str_eq(diag.first->code, bad_rows[_i].code);
    ck_assert_int_eq(diag.first->at.line, bad_rows[_i].line);
    const char *line = diag_message_line(diag.first, &arena);
    ck_assert_msg(strstr(line, bad_rows[_i].says), "%s", line);
}
END_TEST

/* A tape and a bucket may say a twentieth more than the box: of 45 cm 47.25 cm, of 100 x 45 x 45
 * cm, 202.5 l, 212.625 l, and of 90 l at 20 cm of depth 94.5 l. */
START_TEST(water_may_stand_a_twentieth_too_high)
{
    static const struct {
        const char *water;
        bool fits;
    } rows[] = {{"depth: 45 cm", true},
                {"depth: 47.2 cm", true},
                {"depth: 47.3 cm", false},
                {"volume: 202.5 l", true},
                {"volume: 212.6 l", true},
                {"volume: 212.7 l", false},
                {"volume: 94.4 l, depth: 20 cm", true},
                {"volume: 94.6 l, depth: 20 cm", false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const char *text = arena_format(
            &arena, "%senclosure: {size: 100 x 45 x 45 cm}\nwater: {%s}\n", LEAST, rows[i].water);
        ck_assert_msg((read_text(text) != NULL) == rows[i].fits, "%s", rows[i].water);
    }
    /* without a box nobody knows what it holds */
    ck_assert_ptr_nonnull(read_text(arena_format(&arena, "%swater: {volume: 900 l}\n", LEAST)));
}
END_TEST

START_TEST(reports_all_faults_in_one_run)
{
    ck_assert_ptr_null(read_text(
        "visit: {date: 2027-03-14, kind: checkout}\n"
        "patient: {name: Biscuit, species: ball-python, mass: -5 g, length: 118, sex: girl}\n"
        "keper: {name: Rosa}\n"));
    ck_assert_uint_eq(diag.counts[DIAG_ERROR], 5);
}
END_TEST

START_TEST(all_of_the_air_may_be_dry_or_wet)
{
    static const struct {
        const char *humidity;
        bool is_read;
    } rows[] = {
        {"0 %", false}, {"0.5 %", true}, {"1 %", true}, {"100 %", true}, {"100.5 %", false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const void *read = read_text(arena_format(
            &arena,
            "visit: {date: 2026-03-14, kind: checkout}\npatient: {name: B, species: ball-python}\n"
            "enclosure: {readings: {humidity: %s, humidity-at: cool-side}}\n",
            rows[i].humidity));
        ck_assert_msg((read != NULL) == rows[i].is_read, "%s", rows[i].humidity);
    }
}
END_TEST

START_TEST(a_hatching_month_of_this_month_is_not_the_future)
{
    ck_assert_ptr_nonnull(
        read_text("visit: {date: 2026-03-02, kind: checkout}\n"
                  "patient: {name: B, species: ball-python, hatched: 2026-03}\n"));
    ck_assert_ptr_null(read_text("visit: {date: 2026-03-02, kind: checkout}\n"
                                 "patient: {name: B, species: ball-python, hatched: 2026-04}\n"));
}
END_TEST

/* Every table: keys once, offsets inside the struct, help for every key. */
static void walk(const struct schema *schema)
{
    for (size_t i = 0; i < schema->field_count; i++) {
        const struct field *field = &schema->fields[i];
        ck_assert_msg(field->help && *field->help, "%s.%s has no help", schema->name, field->key);
        ck_assert_uint_lt(field->offset, schema->size);
        for (size_t k = 0; k < i; k++)
            ck_assert_str_ne(schema->fields[k].key, field->key);
        if (field->has_range)
            ck_assert_double_le(field->low, field->high);
        bool is_choice = field->kind == FIELD_CHOICE || field->kind == FIELD_CHOICES;
        ck_assert(is_choice == (field->choices != NULL));
        bool is_record = field->kind == FIELD_RECORD || field->kind == FIELD_RECORDS ||
                         field->kind == FIELD_SOME_RECORDS || field->kind == FIELD_NAMED;
        ck_assert(is_record == (field->schema != NULL));
        if (field->schema)
            walk(field->schema);
    }
}

/* RFC 5646, 2.1: a language of two or three letters, then parts of one to eight letters or digits;
 * its longest tag of parts that are registered has 35 (4.4.1). */
static const struct {
    const char *tag;
    bool good;
} tag_rows[] = {
    {"de", true},
    {"gsw", true},
    {"zh-Hant-TW", true},
    {"sl-rozaj-biske-1994", true},
    {"en-12345678", true},
    {"en-x-a", true},
    {"en-12345678-12345678-12345678-123456", false}, /* 36 */
    {"en-12345678-12345678-12345678-12345", true},   /* 35 */
    {"d", false},
    {"abcd", false},
    {"en-", false},
    {"en--US", false},
    {"en-123456789", false},
    {"12", false},
    {"en_US", false},
    {"in English", false},
};

START_TEST(a_language_is_named_by_its_tag)
{
    const char *text = arena_format(&arena,
                                    "visit: {date: 2026-03-14, kind: checkout, notes-in: '%s'}\n"
                                    "patient: {name: Fern, species: ball-python}\n",
                                    tag_rows[_i].tag);
    const struct visit *visit = read_text(text);
    ck_assert_msg((visit != NULL) == tag_rows[_i].good, "%s", tag_rows[_i].tag);
}
END_TEST

/* What a visit says of its heat, asked of a thermostat (T) and of a cage around it (G): nothing has
 * neither; what lies under the floor, which a thermostat holds, or what the animal lies on has no
 * cage. One that lacks it speaks for all; one of which it is not said leaves it open. */
enum said { OPEN, YES, NO };
static const struct {
    const char *heat;
    enum said thermostat, guard;
} heat_rows[] = {
    {"thermostat: no, heat-guard: yes", NO, YES},
    {"thermostat: yes", YES, OPEN},
    {"heat: [{kind: lamp}], thermostat: yes, heat-guard: no", YES, NO},
    {"heat: [{kind: lamp}]", OPEN, OPEN},
    {"heat: [{kind: mat}], thermostat: no, heat-guard: no", NO, YES},
    {"heat: [{kind: cable}], heat-guard: no", OPEN, YES},
    {"heat: [{kind: hot-rock}], heat-guard: no", OPEN, YES},
    {"heat: [{kind: none}], thermostat: no, heat-guard: no", YES, YES},
    {"heat: [{kind: none}], lamp: {kind: mercury-vapour}, thermostat: no, heat-guard: no", NO, NO},
    {"heat: [{kind: mat}, {kind: lamp}], thermostat: no, heat-guard: no", NO, NO},
    {"heat: [{kind: lamp, thermostat: yes, guard: yes}, {kind: mat, thermostat: yes}]", YES, YES},
    {"heat: [{kind: lamp, thermostat: no, guard: yes}, {kind: mat, thermostat: yes}]", NO, YES},
    {"heat: [{kind: lamp, thermostat: yes, guard: no}, {kind: lamp, thermostat: yes}]", YES, NO},
    {"heat: [{kind: lamp, thermostat: yes, guard: yes}, {kind: lamp}]", OPEN, OPEN},
};

static enum said said(struct flag_value flag)
{
    return !flag.known ? OPEN : flag.value ? YES : NO;
}

START_TEST(of_all_heat_the_one_that_lacks_it_speaks)
{
    const struct visit *visit =
        read_text(arena_format(&arena, LEAST "enclosure: {%s}\n", heat_rows[_i].heat));
    ck_assert_msg(visit, "%s: %s", heat_rows[_i].heat, diag.first ? diag.first->text : "");
    ck_assert_msg(said(visit_thermostat(visit)) == heat_rows[_i].thermostat, "%s",
                  heat_rows[_i].heat);
    ck_assert_msg(said(visit_heat_guard(visit)) == heat_rows[_i].guard, "%s", heat_rows[_i].heat);
}
END_TEST

START_TEST(the_table_is_sound)
{
    walk(&visit_schema);
    struct strbuf text;
    strbuf_init(&text, &arena);
    bind_write_reference(&visit_schema, &text);
    ck_assert_ptr_nonnull(strstr(text.text, "  patient: mapping, required. The animal.\n"));
    ck_assert_ptr_nonnull(strstr(text.text, "mass: quantity with g, kg, oz or lb"));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("visit");
    TCase *tcase = tcase_create("visit");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, needs_little);
    tcase_add_loop_test(tcase, reads_the_shipped_examples, 0, 4);
    tcase_add_loop_test(tcase, refuses_with_place_and_remedy, 0,
                        sizeof bad_rows / sizeof *bad_rows);
    tcase_add_test(tcase, water_may_stand_a_twentieth_too_high);
    tcase_add_test(tcase, reports_all_faults_in_one_run);
    tcase_add_test(tcase, all_of_the_air_may_be_dry_or_wet);
    tcase_add_test(tcase, a_hatching_month_of_this_month_is_not_the_future);
    tcase_add_loop_test(tcase, a_language_is_named_by_its_tag, 0,
                        sizeof tag_rows / sizeof *tag_rows);
    tcase_add_loop_test(tcase, of_all_heat_the_one_that_lacks_it_speaks, 0,
                        sizeof heat_rows / sizeof *heat_rows);
    tcase_add_test(tcase, the_table_is_sound);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
