/* Tables and reading of steps.yaml. */
#include "records/steps.h"

#include <string.h>

#include "records/shipped_files.h"
#include "records/table.h"

#define PLACE(name_, id_, ...) {id_, MEASURE_##name_, NULL},
static const struct choice place_choices[] = {
    ALL_MEASURES(PLACE){"lamp-distance", PLACE_LAMP_DISTANCE, "from the UVB lamp to the back"},
    {0}};
#undef PLACE

static const struct choice pictogram_name_choices[] = {
    {"bath", PICTOGRAM_BATH, NULL},
    {"clock", PICTOGRAM_CLOCK, "for so long"},
    {"drop", PICTOGRAM_DROP, "water"},
    {"dry", PICTOGRAM_DRY, "out of the tub into a dry box"},
    {"guard", PICTOGRAM_GUARD, "a guard on a lamp"},
    {"heat", PICTOGRAM_HEAT, "heat lamp"},
    {"heat-off", PICTOGRAM_HEAT_OFF, "no heat lamp"},
    {"hide", PICTOGRAM_HIDE, "a cave to hide in"},
    {"home", PICTOGRAM_HOME, "the box"},
    {"log", PICTOGRAM_LOG, "thermometer"},
    {"low", PICTOGRAM_LOW, "down to the floor"},
    {"low-tub", PICTOGRAM_LOW_TUB, "a tub with low water, and one with gills on its floor"},
    {"meal", PICTOGRAM_MEAL, NULL},
    {"moss", PICTOGRAM_MOSS, "damp moss, leaves"},
    {"nest", PICTOGRAM_NEST, "a bin of soil with eggs"},
    {"paper", PICTOGRAM_PAPER, "paper on the floor"},
    {"pill", PICTOGRAM_PILL, "medicine"},
    {"stones", PICTOGRAM_STONES, "loose stones, taken out"},
    {"stop", PICTOGRAM_STOP, "do not"},
    {"tube", PICTOGRAM_TUBE, "UVB lamp"},
    {"tube-off", PICTOGRAM_TUBE_OFF, "no UVB lamp"},
    {"unplug", PICTOGRAM_UNPLUG, "pull the plug"},
    {"vet", PICTOGRAM_VET, "the clinic"},
    {"wake", PICTOGRAM_WAKE, "on the floor, without water"},
    {"weigh", PICTOGRAM_WEIGH, NULL},
    {"written", PICTOGRAM_WRITTEN, "as the veterinarian wrote"},
    {0}};

static const struct field step_fields[] = {
    ROW(CHOICE, step, place, "place", .choices = place_choices,
        .help = "the quantity whose target and reading the row shows", .example = "warm-side"),
    ROW(CHOICE, step, pictogram, "pictogram", .choices = pictogram_name_choices, .required = true,
        .help = "the pictogram of the row where it shows no number", .example = "guard"),
    ROW(TEXT, step, write, "write", .required = true,
        .help = "what is written down; worded under wall.write.<code>", .example = "hour"),
    ROW(FLAG, step, bought, "bought",
        .help = "it needs a thing that not every home has: the row says what to do without",
        .example = "yes"),
    ROW(TEXTS, step, bought_as, "bought-as", .most = 10,
        .help = "variants of its words of which the same is true", .example = "[give-nest-moss]"),
    ROW(FLAG, step, feeds, "feeds", .help = "yes: it offers food"),
    ROW(FLAG, step, food_waits, "food-waits",
        .help = "yes: it warms a place for which food waits: it stands before what offers food"),
    ROW(FLAG, step, heats, "heats", .help = "yes: it turns heat up: the row says where to stop"),
    ROW(FLAG, step, makes_heat_safe, "makes-heat-safe",
        .help = "yes: heat must have it before it is turned up"),
    ROW(TEXTS, step, safe_heat_first, "safe-heat-first", .most = 10,
        .help = "variants of its `how` that say to put in first what makes heat safe: those steps "
                "stand before this one, or right behind it where it turns no heat up",
        .example = "[warm-basking.how-unsafe]"),
    ROW(CHOICE, step, or_warm_place, "or-warm-place", .choices = place_choices,
        .help = "the quantity that the row shows instead where that is too low and no other step "
                "warms it",
        .example = "night-warm-side"),
    ROW(FLAG, step, behind_day_heat, "behind-day-heat",
        .help = "yes: of what is due tonight, the places that food waits for are warmed before it"),
    ROW(TEXTS, step, warms_night, "warms-night", .most = 10,
        .help = "variants of its `how` that turn up the warm place by night too: its reading there "
                "has an arrow",
        .example = "[warm-ill-side.how]"),
    ROW(TEXTS, step, own_step, "own-step", .most = 10,
        .help = "a step in the veterinarian's own words that is of one of these, by the rows of "
                "`written` of topics.yaml, stands in this one",
        .example = "[nest]"),
    ROW(TEXTS, step, in_tub, "in-tub", .most = 10,
        .help = "variants of its `how` that fill a tub of its own: the tank keeps its water",
        .example = "[own-box.how-tub]"),
};
static const struct schema step_schema =
    SCHEMA(step, step_fields, "step", "How an action stands in the rows of a sheet.");

static const struct field book_fields[] = {
    ROW(NAMED, step_book, steps, "steps", .schema = &step_schema, .required = true,
        .help = "by the code of the action"),
    ROW(RECORD, step_book, way_out_days, "way-out", .schema = &sourced_duration_schema,
        .required = true, .help = "whoever has not reached the numbers by then calls"),
    ROW(RECORD, step_book, way_out_fasting_days, "way-out-fasting",
        .schema = &sourced_duration_schema, .required = true,
        .help = "the same where an ill animal's food waits for them"),
    ROW(NAMED, step_book, sources, "sources", .schema = &named_text_schema, .required = true,
        .help = "what the ids stand for"),
};
const struct schema step_book_schema =
    SCHEMA(step_book, book_fields, "steps file", "Actions as rows of a sheet.",
           .shipped = &shipped_step_book);

struct step_book *step_book_read(const char *path, struct arena *arena, struct diag *diag)
{
    struct step_book *book = ARENA_NEW(arena, struct step_book);
    return bind_file(path, &step_book_schema, arena, diag, book) ? book : NULL;
}

const struct step *step_find(const struct step_book *book, const char *action)
{
    for (size_t i = 0; i < book->steps.count; i++) {
        const struct step *step = LIST_AT(book->steps, struct step, i);
        if (strcmp(step->name.text, action) == 0)
            return step;
    }
    return NULL;
}
