/* The table of a visit record's keys. */
#include "records/table.h"
#include "records/sourced_value.h"
#include "records/visit.h"

const struct choice wall_choices[] = {
    {"glass", WALL_GLASS, NULL},
    {"pvc", WALL_PVC, NULL},
    {"wood", WALL_WOOD, NULL},
    {"acrylic", WALL_ACRYLIC, NULL},
    {"polycarbonate", WALL_POLYCARBONATE, NULL},
    {"mesh", WALL_MESH, NULL},
    {0},
};

const struct choice lid_choices[] = {
    {"mesh", LID_MESH, NULL},
    {"glass", LID_GLASS, NULL},
    {"pvc", LID_PVC, NULL},
    {"wood", LID_WOOD, NULL},
    {"acrylic", LID_ACRYLIC, NULL},
    {"open", LID_OPEN, "no lid"},
    {0},
};

static const struct choice barrier_choices[] = {
    {"nothing", BARRIER_NONE, NULL},
    {"glass", BARRIER_GLASS, NULL},
    {"plastic", BARRIER_PLASTIC, NULL},
    {0},
};

static const struct field part_fields[] = {
    ROW(TEXT, named_text, text, "digest", .required = true, .help = "the part's digest"),
};
static const struct schema part_schema =
    SCHEMA(named_text, part_fields, "signed part", "A part's digest.", .short_key = "digest");

static const struct field earlier_fields[] = {
    ROW(TEXT, visit_signature, by, "by", .required = true, .help = "who signed then"),
    ROW(TEXT, visit_signature, digest, "digest", .help = "of what the sheet then depended on"),
    ROW(DATE, visit_signature, on, "on", .help = "when"),
};
static const struct schema earlier_schema =
    SCHEMA(visit_signature, earlier_fields, "earlier signature", "A signature of before.",
           MARKED(visit_signature, at));

static const struct field signature_fields[] = {
    ROW(TEXT, visit_signature, by, "by", .required = true, .help = "who signed",
        .example = "Dr Ines Calder"),
    ROW(DATE, visit_signature, on, "on", .required = true, .help = "when", .example = "2026-03-14"),
    ROW(TEXT, visit_signature, digest, "digest",
        .help = "of everything the sheet depends on; written by 'approve'"),
    ROW(NAMED, visit_signature, parts, "parts", .schema = &part_schema, .most = 40,
        .help = "the parts' own digests, so that a change can be named; written by 'approve'"),
    ROW(RECORDS, visit_signature, earlier, "earlier", .schema = &earlier_schema, .most = 20,
        .help = "who signed before; written by 'approve'"),
};
const struct schema visit_signature_schema =
    SCHEMA(visit_signature, signature_fields, "signature", "who signed the sheet.",
           MARKED(visit_signature, at));

static const struct field visit_fields[] = {
    ROW(DATE, visit, date, "date", .required = true, .help = "the day of the visit",
        .example = "2026-03-14"),
    ROW(TEXT, visit, kind, "kind", .required = true,
        .help = "the kind of sheet: a file of templates/sheets", .example = "checkout"),
    ROW(TEXT, visit, veterinarian, "veterinarian", .help = "who examined",
        .example = "Dr Ines Calder"),
    ROW(TEXT, visit, previous, "previous",
        .help = "file of the visit before, a path from this record",
        .example = "biscuit-2025-12-01.yaml"),
    ROW(TEXT, visit, notes_in, "notes-in",
        .help = "the language that notes, directions and other free texts are written in, as a "
                "language tag (BCP 47); voices that read the sheet aloud then say them rightly",
        .example = "en"),
    ROW(RECORD, visit, signature, "signed-off", .schema = &visit_signature_schema, .is_made = true,
        .help = "written by 'approve'"),
};
static const struct schema visit_part_schema =
    SCHEMA(visit, visit_fields, "visit", "The visit itself.");

static const struct field weighing_fields[] = {
    ROW(DATE, visit_weighing, on, "on", .required = true, .help = "the day",
        .example = "2025-12-01"),
    ROW(QUANTITY, visit_weighing, mass_g, "mass", IN(MASS, 0.01, 1000000),
        .help = "mass on that day", .example = "1380 g"),
    ROW(QUANTITY, visit_weighing, length_cm, "length", IN(LENGTH, 0.1, 2000),
        .help = "length on that day", .example = "112 cm"),
    ROW(FLAG, visit_weighing, healthy, "healthy", .help = "it was well fed and well on that day",
        .example = "yes"),
};
static const struct schema weighing_schema =
    SCHEMA(visit_weighing, weighing_fields, "weighing", "An earlier weighing.",
           MARKED(visit_weighing, at));

static const struct field unlisted_fields[] = {
    ROW(TEXT, visit_unlisted, kind, "kind", .required = true,
        .help = "what kind of animal it is, in the keeper's language", .example = "plated lizard"),
    ROW(TEXT, visit_unlisted, scientific, "scientific", .help = "the scientific name",
        .example = "Gerrhosaurus major"),
    ROW(CHOICE, visit_unlisted, group, "group", .choices = group_choices, .required = true,
        .help = "the group whose cautions hold", .example = "lizard"),
    ROW(CHOICE, visit_unlisted, habit, "habit", .choices = habit_choices, .help = "where it lives",
        .example = "terrestrial"),
    ROW(CHOICE, visit_unlisted, diet, "diet", .choices = diet_choices, .help = "what it eats",
        .example = "insects"),
    ROW(CHOICE, visit_unlisted, reproduction, "reproduction", .choices = reproduction_choices,
        .help = "lays eggs or bears young", .example = "egg-layer"),
    ROW(CHOICES, visit_unlisted, traits, "traits", .choices = trait_choices,
        .help = "what it has beside what its whole group has", .example = "[eyelids, claws]"),
};
static const struct schema unlisted_schema =
    SCHEMA(visit_unlisted, unlisted_fields, "unlisted animal",
           "An animal without a species sheet: the veterinarian's own targets alone are printed.");

static const struct field body_score_fields[] = {
    ROW(QUANTITY, visit_body_score, score, "score", IN(COUNT, 1, 9), .required = true,
        .help = "what was scored", .example = "4"),
    ROW(QUANTITY, visit_body_score, of, "of", IN(COUNT, 3, 9), .required = true,
        .help = "the scale's highest", .example = "5"),
};
static const struct schema body_score_schema =
    SCHEMA(visit_body_score, body_score_fields, "body score", "Body condition on a scale.");

static const struct field patient_fields[] = {
    ROW(TEXT, visit_patient, name, "name", .required = true, .help = "the animal's name",
        .example = "Biscuit"),
    ROW(TEXT, visit_patient, species, "species", .required = true,
        .help = "code of a species sheet, or unlisted", .example = "ball-python"),
    ROW(CHOICE, visit_patient, sex, "sex", .choices = sex_choices, .help = "the sex",
        .example = "female"),
    ROW(PARTIAL_DATE, visit_patient, hatched, "hatched",
        .help = "day, month or year of hatching or birth", .example = "2022-08"),
    ROW(QUANTITY, visit_patient, mass_g, "mass", IN(MASS, 0.01, 1000000), .help = "today's mass",
        .example = "1450 g"),
    ROW(QUANTITY, visit_patient, length_cm, "length", IN(LENGTH, 0.1, 2000),
        .help = "snake, salamander: total; lizard, frog: snout to vent; tortoise, turtle: straight "
                "shell",
        .example = "118 cm"),
    ROW(TEXT, visit_patient, photo, "photo",
        .help = "a photo of the animal: a PNG or JPEG file, a path from this record",
        .example = "biscuit.jpg"),
    ROW(RECORDS, visit_patient, earlier, "earlier", .schema = &weighing_schema, .most = 60,
        .help = "earlier weighings"),
    ROW(QUANTITY, visit_patient, goal_mass_g, "goal-mass", IN(MASS, 0.01, 1000000),
        .help = "the mass to reach, set by the veterinarian", .example = "1.4 kg"),
    ROW(RECORD, visit_patient, body_score, "body-score", .schema = &body_score_schema,
        .help = "body condition on a scale"),
    ROW(RECORD, visit_patient, unlisted, "unlisted", .schema = &unlisted_schema,
        .help = "what it is, where species says unlisted"),
};
static const struct schema patient_schema =
    SCHEMA(visit_patient, patient_fields, "patient", "The animal.");

static const struct field keeper_fields[] = {
    ROW(TEXT, visit_keeper, name, "name", .help = "the keeper's name", .example = "Rosa Lind"),
    ROW(TEXT, visit_keeper, telephone, "telephone", .help = "for the clinic; not printed",
        .example = "+1 555-0142"),
    ROW(TEXT, visit_keeper, email, "email", .help = "for mail", .example = "rosa.lind@example.org"),
    ROW(TEXT, visit_keeper, language, "language", .help = "language of the sheet", .example = "en"),
    ROW(CHOICE, visit_keeper, units, "units", .choices = unit_system_choices,
        .help = "units of the sheet", .example = "us"),
};
static const struct schema keeper_schema =
    SCHEMA(visit_keeper, keeper_fields, "keeper", "Who keeps the animal.");

static const struct field log_probe_fields[] = {
    ROW(CHOICE, visit_log_probe, zone, "zone", .choices = zone_choices, .required = true,
        .help = "where the probe lies", .example = "warm-side"),
};
static const struct schema log_probe_schema =
    SCHEMA(visit_log_probe, log_probe_fields, "probe", "Where a probe lies.", .short_key = "zone");

static const struct field log_fields[] = {
    ROW(TEXT, visit_log, file, "file", .required = true,
        .help = "the logger's CSV file, a path from this record", .example = "week.csv"),
    ROW(NAMED, visit_log, probes, "probes", .schema = &log_probe_schema, .most = 16,
        .help = "where each probe lies; left out where the titles name the places"),
};
static const struct schema log_schema =
    SCHEMA(visit_log, log_fields, "logger", "Readings of a data logger.", .short_key = "file");

#define READING_ROW(name_, id_, dimension_, low_, high_, example_, aim_low_, aim_high_, aim_,      \
                    error_, help_)                                                                 \
    ROW(QUANTITY, visit, measured[MEASURE_##name_], id_, IN(dimension_, low_, high_),              \
        LIKELY(dimension_, 5, 65), .help = help_, .example = example_),

static const struct field reading_fields[] = {
    PLACE_MEASURES(READING_ROW)
        ROW(QUANTITY, visit, enclosure.readings.room_c, "room", IN(TEMPERATURE, -20, 60),
            LIKELY(TEMPERATURE, 5, 65), .help = "the room the box stands in", .example = "20 C"),
    AIR_MEASURES(READING_ROW)
        ROW(CHOICE, visit, enclosure.readings.humidity_at, "humidity-at", .choices = zone_choices,
            .help = "where the humidity was read", .example = "cool-side"),
    ROW(RECORD, visit, enclosure.readings.log, "log", .schema = &log_schema,
        .help = "a data logger's file, read in place of single readings"),
};
static const struct schema readings_schema =
    SCHEMA(visit, reading_fields, "readings", "The keeper's own readings.");

static const struct field measured_fields[] = {
    ROW(QUANTITY, visit_lamp_measured, uvi, "uvi", IN(UV_INDEX, 0, 100), .required = true,
        .help = "UV index", .example = "3.2"),
    ROW(QUANTITY, visit_lamp_measured, at_cm, "at", IN(LENGTH, 0, 500), .required = true,
        .help = "distance from the lamp", .example = "30 cm"),
    ROW(FLAG, visit_lamp_measured, through_mesh, "through-mesh",
        .help = "the meter was below the mesh", .example = "no"),
};
static const struct schema measured_schema = SCHEMA(
    visit_lamp_measured, measured_fields, "lamp reading", "A meter's reading under the lamp.");

static const struct field mesh_fields[] = {
    ROW(QUANTITY, visit_mesh, wire_cm, "wire", IN(LENGTH, 0.001, 1), .required = true,
        .help = "thickness of a wire", .example = "0.3 mm"),
    ROW(QUANTITY, visit_mesh, opening_cm, "opening", IN(LENGTH, 0.001, 10), .required = true,
        .help = "clear opening between wires", .example = "1.2 mm"),
};
static const struct schema mesh_schema =
    SCHEMA(visit_mesh, mesh_fields, "mesh", "The mesh of the lid.");

static const struct field lamp_fields[] = {
    ROW(CHOICE, visit_lamp, kind, "kind", .choices = lamp_choices, .required = true,
        .help = "the kind of UVB lamp", .example = "tube"),
    ROW(QUANTITY, visit_lamp, tube_length_cm, "tube-length", IN(LENGTH, 5, 250),
        .help = "lit length of a tube", .example = "55 cm"),
    ROW(RECORD, visit_lamp, measured, "measured", .schema = &measured_schema,
        .help = "a meter's reading"),
    ROW(QUANTITY, visit_lamp, mesh_loss_percent, "mesh-loss", IN(PERCENT, 0, 100),
        .help = "what the mesh takes away", .example = "35 %"),
    ROW(RECORD, visit_lamp, mesh, "mesh", .schema = &mesh_schema,
        .help = "wire and opening, when the loss is not known"),
    ROW(CHOICE, visit_lamp, behind, "behind", .choices = barrier_choices,
        .help = "what stands between lamp and animal besides mesh", .example = "nothing"),
    ROW(DATE, visit_lamp, installed, "installed", .help = "the day it was put in",
        .example = "2025-06-01"),
    ROW(QUANTITY, visit_lamp, height_cm, "height", IN(LENGTH, 0, 500),
        .help = "from the lamp to the animal's back at the basking spot", .example = "35 cm"),
    ROW(QUANTITY, visit_lamp, offset_cm, "offset", IN(LENGTH, 0, 200),
        .help = "from the lamp's middle to the middle of the basking spot", .example = "10 cm"),
    ROW(QUANTITY, visit_lamp, hours, "hours", IN(COUNT, 0, 24), .help = "hours of light a day",
        .example = "12"),
};
static const struct schema lamp_schema = SCHEMA(
    visit_lamp, lamp_fields, "lamp", "The UVB lamp that hangs there.", MARKED(visit_lamp, at));

const struct choice heat_kind_choices[] = {
    {"lamp", HEAT_LAMP, "a lamp for warmth"},
    {"ceramic", HEAT_CERAMIC, "a ceramic heater without light"},
    {"panel", HEAT_PANEL, "a radiant panel"},
    {"mat", HEAT_MAT, NULL},
    {"cable", HEAT_CABLE, NULL},
    {"mercury-vapour", HEAT_MERCURY_VAPOUR, "warmth and UVB in one lamp"},
    {"water-heater", HEAT_WATER_HEATER, NULL},
    {"hot-rock", HEAT_HOT_ROCK, "heated from within"},
    {"red-light", HEAT_RED_LIGHT, "a red or blue lamp at night"},
    {"none", HEAT_NONE, NULL},
    {0},
};

static const struct field heat_fields[] = {
    ROW(CHOICE, visit_heat, kind, "kind", .choices = heat_kind_choices, .required = true,
        .help = "the kind of heat source", .example = "mat"),
    ROW(QUANTITY, visit_heat, power_w, "power", IN(POWER, 1, 2000), .help = "its power",
        .example = "30 W"),
    ROW(FLAG, visit_heat, thermostat, "thermostat", .help = "it has a thermostat",
        .example = "yes"),
    ROW(FLAG, visit_heat, guard, "guard", .help = "a guard keeps the animal off it",
        .example = "no"),
};
static const struct schema heat_schema = SCHEMA(
    visit_heat, heat_fields, "heat source", "One heat source of the box.", MARKED(visit_heat, at));

const struct choice substrate_choices[] = {
    {"paper", SUBSTRATE_PAPER, NULL},
    {"carpet", SUBSTRATE_CARPET, "a mat for the floor"},
    {"tile", SUBSTRATE_TILE, NULL},
    {"bare", SUBSTRATE_BARE, "nothing on the floor"},
    {"sand", SUBSTRATE_SAND, NULL},
    {"soil", SUBSTRATE_SOIL, NULL},
    {"bark", SUBSTRATE_BARK, NULL},
    {"coconut-fibre", SUBSTRATE_COCONUT_FIBRE, NULL},
    {"moss", SUBSTRATE_MOSS, NULL},
    {"aspen", SUBSTRATE_ASPEN, "wood shavings without resin"},
    {"cedar-or-pine", SUBSTRATE_CEDAR_OR_PINE, "wood shavings with resin"},
    {"gravel", SUBSTRATE_GRAVEL, NULL},
    {"crushed-shell", SUBSTRATE_CRUSHED_SHELL, "of nuts or snails"},
    {0},
};

static const struct field enclosure_fields[] = {
    ROW(BOX, visit, enclosure.size, "size", IN(LENGTH, 1, 3000), .help = "length x width x height",
        .example = "120 x 60 x 60 cm"),
    ROW(CHOICE, visit, enclosure.walls, "walls", .choices = wall_choices,
        .help = "what the walls are made of", .example = "pvc"),
    ROW(QUANTITY, visit, enclosure.wall_thickness_cm, "wall-thickness", IN(LENGTH, 0.05, 20),
        .help = "thickness of a wall", .example = "10 mm"),
    ROW(CHOICE, visit, enclosure.lid, "lid", .choices = lid_choices, .help = "the lid",
        .example = "mesh"),
    ROW(QUANTITY, visit, enclosure.platform_height_cm, "platform-height", IN(LENGTH, 0, 500),
        .help = "basking surface above the floor", .example = "20 cm"),
    ROW(QUANTITY, visit, enclosure.back_height_cm, "back-height", IN(LENGTH, 0, 100),
        .help = "the animal's back above what it lies on", .example = "5 cm"),
    ROW(FLAG, visit, enclosure.thermostat, "thermostat",
        .help = "every heat source has a thermostat", .example = "yes"),
    ROW(FLAG, visit, enclosure.heat_guard, "heat-guard",
        .help = "a guard keeps the animal off each lamp and heater", .example = "yes"),
    ROW(RECORDS, visit, enclosure.heat, "heat", .schema = &heat_schema, .most = 12,
        .help = "the heat sources, one by one"),
    ROW(CHOICE, visit, enclosure.substrate, "substrate", .choices = substrate_choices,
        .help = "what lies on the floor", .example = "sand"),
    ROW(QUANTITY, visit, enclosure.hides, "hides", WHOLE(0, 20), .help = "how many places to hide",
        .example = "1"),
    ROW(FLAG, visit, enclosure.shade, "shade", .help = "a part of the box is out of all light",
        .example = "yes"),
    ROW(QUANTITY, visit, enclosure.perch_cm, "perch-height", IN(LENGTH, 0, 500),
        .help = "the highest perch below the lamp, above the floor", .example = "45 cm"),
    ROW(FLAG, visit, enclosure.water_dish, "water-dish", .help = "a dish of water stands in it",
        .example = "yes"),
    ROW(QUANTITY, visit, enclosure.animals, "animals", WHOLE(1, 200),
        .help = "how many animals share it, this one among them", .example = "2"),
    ROW(QUANTITY, visit, enclosure.males, "males", WHOLE(0, 200),
        .help = "how many of them are males, of its own kind", .example = "1"),
    ROW(TEXTS, visit, enclosure.mates, "mates", .most = 20,
        .help = "the species that share it with this animal, as codes; unlisted where there is no "
                "sheet",
        .example = "[corn-snake]"),
    ROW(FLAG, visit, enclosure.outdoor, "outdoor", .help = "it stands outdoors", .example = "no"),
    ROW(QUANTITY, visit, enclosure.latitude_deg, "latitude", IN(COUNT, -90, 90),
        .help = "degrees north of the equator, south below 0; for the season and the day's length",
        .example = "48.2"),
    {.key = "readings",
     .kind = FIELD_RECORD,
     .schema = &readings_schema,
     .help = "the keeper's own readings"},
    ROW(RECORD, visit, enclosure.lamp, "lamp", .schema = &lamp_schema, .help = "the UVB lamp"),
};
static const struct schema enclosure_schema =
    SCHEMA(visit, enclosure_fields, "enclosure", "The box as it is.");

static const struct choice ammonia_as_choices[] = {
    {"total", AMMONIA_TOTAL, "ammonia and ammonium together, as mg of NH3"},
    {"total-n", AMMONIA_TOTAL_N, "both together, as mg of nitrogen"},
    {"nh3", AMMONIA_NH3, "un-ionised ammonia alone"},
    {0},
};

static const struct field change_fields[] = {
    ROW(QUANTITY, visit, water.change_share_percent, "share", IN(PERCENT, 1, 100), .required = true,
        .help = "of the water, each time", .example = "25 %"),
    ROW(QUANTITY, visit, water.change_every_days, "every", IN(DURATION, 0.2, 400), .required = true,
        .help = "time between changes", .example = "7 days"),
};
static const struct schema change_schema =
    SCHEMA(visit, change_fields, "water change", "How the keeper changes the water.");

static const struct field water_fields[] = {
    ROW(QUANTITY, visit, water.temperature_c, "temperature", IN(TEMPERATURE, -5, 60),
        .help = "the same as enclosure.readings.water", .example = "18 C"),
    KIT_MEASURES(READING_ROW) DEPTH_MEASURES(READING_ROW)
        ROW(CHOICE, visit, water.ammonia_as, "ammonia-as", .choices = ammonia_as_choices,
            .help = "what the kit's number means", .example = "total-n"),
    ROW(QUANTITY, visit, water.volume_l, "volume", IN(VOLUME, 0.1, 100000),
        .help = "water in the tank", .example = "90 l"),
    ROW(FLAG, visit, water.filter, "filter", .help = "a filter runs all day", .example = "yes"),
    {.key = "change",
     .kind = FIELD_RECORD,
     .schema = &change_schema,
     .help = "how the keeper changes the water now"},
};
static const struct schema water_schema =
    SCHEMA(visit, water_fields, "water", "The water it lives in.", MARKED(visit, water.at));

static const struct field diet_fields[] = {
    ROW(TEXT, visit_diet, food, "food", .help = "code of a food", .example = "mouse"),
    ROW(TEXT, visit_diet, size, "size", .help = "of the prey or insects: a size of that food",
        .example = "adult"),
    ROW(QUANTITY, visit_diet, meal_g, "meal", IN(MASS, 0.01, 50000), .help = "mass of one meal",
        .example = "25 g"),
    ROW(QUANTITY, visit_diet, count, "count", IN(COUNT, 0, 1000), .help = "pieces a meal",
        .example = "1"),
    ROW(QUANTITY, visit_diet, every_days, "every", IN(DURATION, 0.2, 400),
        .help = "time between meals", .example = "7 days"),
    ROW(DATE, visit_diet, last, "last", .help = "the last meal", .example = "2026-03-10"),
};
static const struct schema diet_schema =
    SCHEMA(visit_diet, diet_fields, "diet", "What it is fed now.", MARKED(visit_diet, at));

static const struct choice certainty_choices[] = {
    {"certain", CERTAINTY_CERTAIN, NULL},
    {"suspected", CERTAINTY_SUSPECTED, "cared for as if it were so, and never told as certain"},
    {0},
};

static const struct field finding_fields[] = {
    ROW(TEXT, visit_finding, code, "code", .required = true, .help = "code of the findings file",
        .example = "retained-shed"),
    ROW(TEXT, visit_finding, where, "where", .help = "where on the body, in the keeper's language",
        .example = "tail"),
    ROW(CHOICE, visit_finding, severity, "severity", .choices = severity_choices,
        .help = "mild when left out", .example = "mild"),
    ROW(TEXT, visit_finding, note, "note", .is_long = true,
        .help = "the veterinarian's own words, printed as written"),
    ROW(TEXT, visit_finding, step, "step", .help = "of the finding's own scale", .example = "late"),
    ROW(QUANTITY, visit_finding, value, "value", IN(COUNT, 0, 1000),
        .help = "counted or scored today", .example = "38"),
    ROW(CHOICE, visit_finding, state, "state", .choices = finding_state_choices,
        .help = "seen when left out and the record names a veterinarian, else unseen",
        .example = "seen"),
    ROW(CHOICE, visit_finding, certainty, "certainty", .choices = certainty_choices,
        .help = "certain when left out", .example = "suspected"),
};
static const struct schema finding_schema =
    SCHEMA(visit_finding, finding_fields, "finding", "What was found.", .short_key = "code",
           MARKED(visit_finding, at));

const struct choice route_choices[] = {
    {"by-mouth", ROUTE_BY_MOUTH, NULL},
    {"injection", ROUTE_INJECTION, "where it goes stands in the directions"},
    {"under-the-skin", ROUTE_UNDER_THE_SKIN, "an injection"},
    {"into-the-muscle", ROUTE_INTO_THE_MUSCLE, "an injection"},
    {"on-the-skin", ROUTE_ON_THE_SKIN, NULL},
    {"in-the-eye", ROUTE_IN_THE_EYE, NULL},
    {"in-the-ear", ROUTE_IN_THE_EAR, NULL},
    {"in-the-nose", ROUTE_IN_THE_NOSE, NULL},
    {"breathed-in", ROUTE_BREATHED_IN, NULL},
    {"in-the-mouth", ROUTE_IN_THE_MOUTH, "a rinse or a gel on the gums, not swallowed"},
    {"feeding-tube", ROUTE_FEEDING_TUBE, "through a tube that was placed"},
    {"in-a-bath", ROUTE_IN_A_BATH, "the animal sits in it"},
    {0},
};

const struct choice day_part_choices[] = {
    {"morning", DAY_PART_MORNING, NULL},     {"noon", DAY_PART_NOON, NULL},
    {"afternoon", DAY_PART_AFTERNOON, NULL}, {"evening", DAY_PART_EVENING, NULL},
    {"night", DAY_PART_NIGHT, NULL},         {0},
};

static const struct choice giver_choices[] = {
    {"at-home", GIVEN_AT_HOME, "by the keeper"},
    {"here", GIVEN_HERE, "by the clinic: each dose is a visit"},
    {0},
};

static const struct field day_fields[] = {
    ROW(DATE, visit_day, on, "on", .required = true, .help = "the day", .example = "2026-03-17"),
};
static const struct schema day_schema =
    SCHEMA(visit_day, day_fields, "day", "A day without a dose.", .short_key = "on",
           MARKED(visit_day, at));

static const struct field medicine_fields[] = {
    ROW(TEXT, visit_medicine, name, "name", .required = true, .help = "the medicine"),
    ROW(QUANTITY, visit_medicine, amount, "amount", IN(AMOUNT, 0.001, 10000),
        .help = "what is given at a time", .example = "0.2 ml"),
    ROW(CHOICE, visit_medicine, route, "route", .choices = route_choices, .help = "how it is given",
        .example = "by-mouth"),
    ROW(QUANTITY, visit_medicine, every_h, "every", IN(INTERVAL, 2, 2400),
        .help = "time from one dose to the next", .example = "24 h"),
    ROW(QUANTITY, visit_medicine, for_days, "for", IN(DURATION, 1, 400), .help = "how long",
        .example = "10 days"),
    ROW(QUANTITY, visit_medicine, doses, "doses", WHOLE(1, 500),
        .help = "how many doses, instead of how long", .example = "10"),
    ROW(DATE, visit_medicine, first, "first", .help = "the day of the first dose",
        .example = "2026-03-15"),
    ROW(RECORDS, visit_medicine, not_on, "not-on", .schema = &day_schema, .most = 20,
        .help = "days of the course without a dose, such as that of an operation; a course in days "
                "ends as written, one in doses as much later",
        .example = "[2026-03-17]"),
    ROW(CHOICE, visit_medicine, at, "at", .choices = day_part_choices,
        .help = "the time of day of the first dose; morning when left out", .example = "evening"),
    ROW(CHOICE, visit_medicine, given, "given", .choices = giver_choices,
        .help = "who gives it; the keeper when left out", .example = "here"),
    ROW(FLAG, visit_medicine, given_today, "given-today",
        .help = "the first dose of the course was given here on the day of the visit; the next is "
                "counted from it",
        .example = "yes"),
    ROW(TEXT, visit_medicine, given_today_at, "given-today-at", .help = "at what time",
        .example = "16:00"),
    ROW(TEXT, visit_medicine, here_at, "here-at",
        .help = "the hour that is booked for each further dose given here", .example = "10:30"),
    ROW(QUANTITY, visit_medicine, dose_mg_kg, "dose", IN(DOSE, 0.0001, 10000),
        .help = "by mass, to work the amount out for the veterinarian", .example = "5 mg/kg"),
    ROW(QUANTITY, visit_medicine, strength_mg_ml, "concentration", IN(STRENGTH, 0.0001, 10000),
        .help = "of the bottle, likewise", .example = "25 mg/ml"),
    ROW(FLAG, visit_medicine, confirmed, "confirmed",
        .help = "the second yes for an amount that is several times what dose and mass make, or a "
                "small part of it",
        .example = "yes"),
    ROW(TEXT, visit_medicine, directions, "directions", .is_long = true,
        .help = "as the veterinarian wrote them; printed unchanged"),
    ROW(TEXT, visit_medicine, for_what, "for-what",
        .help = "what it is for, for the keeper; printed unchanged, in place of what its name says",
        .example = "against the germs in the lungs"),
    ROW(TEXT, visit_medicine, watch, "watch",
        .help = "the one thing to watch for and call about; printed unchanged, in place of what is "
                "usual for the way it is given",
        .example = "red droppings"),
};
static const struct schema medicine_schema =
    SCHEMA(visit_medicine, medicine_fields, "medicine", "A medicine as the veterinarian wrote it.",
           MARKED(visit_medicine, mark));

const struct choice result_by_choices[] = {
    {"telephone", RESULT_BY_TELEPHONE, "the clinic calls"},
    {"mail", RESULT_BY_MAIL, "the clinic writes"},
    {"visit", RESULT_AT_VISIT, "at the next visit"},
    {0},
};

static const struct field result_fields[] = {
    ROW(TEXT, visit_result, of, "of", .required = true, .help = "a procedure of today",
        .example = "stool-sample"),
    ROW(DATE, visit_result, by, "by", .required = true, .help = "the day it is there at the latest",
        .example = "2026-03-20"),
    ROW(CHOICE, visit_result, how, "how", .choices = result_by_choices,
        .help = "how the keeper hears of it; telephone when left out", .example = "telephone"),
};
static const struct schema result_schema =
    SCHEMA(visit_result, result_fields, "result", "A result that is not there yet.",
           .short_key = "of", MARKED(visit_result, at));

const struct choice dressing_choices[] = {
    {"leave-on", DRESSING_LEFT_ON, "it may get wet"},
    {"take-off", DRESSING_TAKEN_OFF, "it is put on again after the swim"},
    {0},
};

static const struct field aftercare_fields[] = {
    ROW(TEXT, visit_aftercare, of, "of", .required = true, .help = "a procedure of today",
        .example = "bandage"),
    ROW(DATE, visit_aftercare, check, "check",
        .help = "the day it is looked at, taken off or given again", .example = "2026-03-21"),
    ROW(QUANTITY, visit_aftercare, hours, "hours", IN(HOURS, 0, 24),
        .help = "out of the water at a time", .example = "8 h"),
    ROW(QUANTITY, visit_aftercare, times, "times", WHOLE(1, 6), .help = "so often a day",
        .example = "2"),
    ROW(TEXT, visit_aftercare, from, "from", .help = "the time at which that begins, once a day",
        .example = "18:00"),
    ROW(TEXT, visit_aftercare, awake_by, "awake-by", .help = "the time by which it is fully awake",
        .example = "17:30"),
    ROW(QUANTITY, visit_aftercare, amount, "amount", IN(AMOUNT, 0.05, 2000),
        .help = "by tube at a time", .example = "5 ml"),
    ROW(QUANTITY, visit_aftercare, every_h, "every", IN(INTERVAL, 2, 2400),
        .help = "from one tube feeding to the next", .example = "48 h"),
    ROW(DATE, visit_aftercare, first, "first", .help = "the day of the first tube feeding at home",
        .example = "2026-03-15"),
    ROW(CHOICE, visit_aftercare, in_water, "in-water", .choices = dressing_choices,
        .help = "what becomes of a shell dressing while a turtle swims", .example = "take-off"),
};
static const struct schema aftercare_schema =
    SCHEMA(visit_aftercare, aftercare_fields, "aftercare", "The days after a procedure.",
           MARKED(visit_aftercare, at));

static const struct field referral_fields[] = {
    ROW(TEXT, visit_referral, to, "to", .help = "who sees it there, and at what time",
        .example = "Hillbrook Reptile Hospital, 10:30"),
    ROW(DATE, visit_referral, on, "on", .help = "the day of the appointment",
        .example = "2026-03-20"),
};
static const struct schema referral_schema =
    SCHEMA(visit_referral, referral_fields, "referral", "Where it was referred to.",
           MARKED(visit_referral, at));

static const struct field follow_up_fields[] = {
    ROW(QUANTITY, visit_follow_up, recheck, "recheck", IN(DURATION, 1, 1500),
        .help = "time to the next visit", .example = "21 days"),
    ROW(DATE, visit_follow_up, booked, "booked", .help = "the day that is booked for it",
        .example = "2026-04-04"),
    ROW(TEXT, visit_follow_up, booked_at, "booked-at", .help = "the time that is booked",
        .example = "10:30"),
    ROW(RECORDS, visit_follow_up, results, "results", .schema = &result_schema, .most = 20,
        .help = "results that are not there yet"),
    ROW(RECORDS, visit_follow_up, aftercare, "aftercare", .schema = &aftercare_schema, .most = 20,
        .help = "the days after what was done today"),
    ROW(RECORD, visit_follow_up, referral, "referral", .schema = &referral_schema,
        .help = "where a finding that was referred is seen next"),
    ROW(FLAG, visit_follow_up, empty_stomach, "empty-stomach",
        .help = "no meal on the day before and the day of the recheck", .example = "yes"),
    ROW(DATE, visit_follow_up, eggs_by, "eggs-by",
        .help = "where she is to lay now: the day by which the first egg must be there",
        .example = "2026-03-18"),
    ROW(DATE, visit_follow_up, urine_by, "urine-by",
        .help = "with a bladder stone: the day by which it must have passed urine",
        .example = "2026-03-18"),
};
static const struct schema follow_up_schema =
    SCHEMA(visit_follow_up, follow_up_fields, "follow-up", "When to come back.");

#define TARGET_ROW(name_, id_, dimension_, low_, high_, example_, aim_low_, aim_high_, aim_,       \
                   error_, help_)                                                                  \
    ROW(BAND, visit_targets, measured[MEASURE_##name_], id_, IN(dimension_, aim_low_, aim_high_),  \
        LIKELY(dimension_, 5, 65), .help = help_, .example = aim_),

static const struct field powder_fields[] = {
    ROW(CHOICE, visit_powder, what, "powder", .choices = supplement_choices, .required = true,
        .help = "the powder", .example = "calcium"),
    ROW(QUANTITY, visit_powder, per_week, "per-week", WHOLE(1, 7), .help = "times a week",
        .example = "2"),
    ROW(QUANTITY, visit_powder, every_meals, "every-meals", WHOLE(1, 20), .help = "every n-th meal",
        .example = "1"),
};
static const struct schema powder_schema =
    SCHEMA(visit_powder, powder_fields, "powder",
           "A powder on the food as the veterinarian sets it; the list replaces the species'.",
           MARKED(visit_powder, at));

static const struct field target_fields[] = {
    PLACE_MEASURES(TARGET_ROW) AIR_MEASURES(TARGET_ROW) KIT_MEASURES(TARGET_ROW)
        GAS_MEASURES(TARGET_ROW) DEPTH_MEASURES(TARGET_ROW)
            ROW(BAND, visit_targets, measured[MEASURE_UVB], "uvi", IN(UV_INDEX, 0, 12),
                .help = "UV index at the basking spot", .example = "2-3"),
    ROW(BAND, visit_targets, meal_g, "meal", IN(MASS, 0.01, 50000), .help = "mass of one meal",
        .example = "60-80 g"),
    ROW(BAND, visit_targets, insects, "insects", IN(COUNT, 1, 200),
        .help = "insects or pieces a meal", .example = "3-5"),
    ROW(BAND, visit_targets, every_days, "every", IN(DURATION, 0.2, 400),
        .help = "time between meals", .example = "14-21 days"),
    ROW(QUANTITY, visit_targets, start_percent, "start-share", IN(PERCENT, 5, 100),
        .help = "of a full meal: what a thin animal's food begins with", .example = "40 %"),
    ROW(QUANTITY, visit_targets, start_days, "start-time", IN(DURATION, 1, 90),
        .help = "from the first share to full meals", .example = "5 days"),
    ROW(BAND, visit_targets, light_hours, "light-hours", IN(HOURS, 0, 24), .help = "light a day",
        .example = "10-12 h"),
    ROW(QUANTITY, visit_targets, call_mass_g, "call-weight", IN(MASS, 0.1, 300000),
        .help = "the weight at which the keeper calls", .example = "50 g"),
    ROW(RECORDS, visit_targets, powders, "powders", .schema = &powder_schema, .most = 6,
        .help = "powders on the food, instead of the species'"),
    ROW(TEXTS, visit_targets, confirmed, "confirmed", .most = 20,
        .help = "targets that are meant as written although they lie outside the usual limits",
        .example = "[meal]"),
    ROW(TEXT, visit_targets, because, "because", .required = true, .is_long = true,
        .help = "the reason, printed as written"),
    ROW(TEXT, visit_targets, by, "by", .help = "who set them; visit.veterinarian when left out"),
};
static const struct schema targets_schema =
    SCHEMA(visit_targets, target_fields, "targets", "A veterinarian's own targets; they win.",
           MARKED(visit_targets, at));

#define EVENT(event_, key_, help_)                                                                 \
    ROW(DATE, visit_history, events[event_], key_, .help = help_, .example = "2026-03-01")
static const struct field history_fields[] = {
    EVENT(EVENT_REGURGITATED, "regurgitated", "the last time it brought food up"),
    EVENT(EVENT_ATE, "ate", "the last time it ate"),
    EVENT(EVENT_STOOL, "stool", "the last stool"),
    EVENT(EVENT_SHED, "shed", "the last shed"),
    EVENT(EVENT_OPERATED, "operated", "the day of the operation"),
    EVENT(EVENT_WOKE_FROM_REST, "woke-from-rest", "the day it woke from winter rest"),
    EVENT(EVENT_OWNED_SINCE, "owned-since", "the day the keeper got it"),
    EVENT(EVENT_STOOL_CLEAN, "stool-clean", "the last stool test that found no parasites"),
};
static const struct schema history_schema =
    SCHEMA(visit_history, history_fields, "history", "What happened when.");

static const struct field winter_rest_fields[] = {
    ROW(FLAG, visit_winter_rest, planned, "planned", .help = "the keeper wants it to rest",
        .example = "yes"),
    ROW(FLAG, visit_winter_rest, in_progress, "in-progress", .help = "it is resting now",
        .example = "no"),
    ROW(DATE, visit_winter_rest, starts, "starts", .help = "the first day at rest",
        .example = "2026-11-15"),
    ROW(QUANTITY, visit_winter_rest, longest_days, "longest", IN(DURATION, 1, 250),
        .help = "the veterinarian's: no longer than this", .example = "12 weeks"),
    ROW(BAND, visit_winter_rest, rest_c, "temperature", IN(TEMPERATURE, 1, 20),
        .help = "the veterinarian's: where it rests", .example = "4-6 C"),
};
static const struct schema winter_rest_schema =
    SCHEMA(visit_winter_rest, winter_rest_fields, "winter rest", "The winter's rest.");

static const struct field decision_fields[] = {
    ROW(TEXT, visit_decision, topic, "topic", .help = "a topic of the topics file",
        .example = "food"),
    ROW(TEXT, visit_decision, stance, "stance", .help = "the stance that shall hold",
        .example = "as-usual"),
    ROW(DATE, visit_decision, until, "until", .help = "the day it ends", .example = "2026-12-05"),
    ROW(TEXT, visit_decision, because, "because", .help = "the reason, printed as written"),
    ROW(FLAG, visit_decision, confirmed, "confirmed",
        .help = "the second yes for what the program holds dangerous", .example = "yes"),
    ROW(TEXT, visit_decision, action, "action", .help = "an action of the plan",
        .example = "larger-box"),
    ROW(FLAG, visit_decision, strike, "strike", .help = "leave the action out", .example = "yes"),
    ROW(QUANTITY, visit_decision, place, "place", WHOLE(1, 60),
        .help = "where it stands among the actions", .example = "1"),
    ROW(TEXT, visit_decision, own, "do", .help = "words of the veterinarian, as an action"),
};
static const struct schema decision_schema =
    SCHEMA(visit_decision, decision_fields, "decision", "The veterinarian's hand; it wins.",
           MARKED(visit_decision, at));

static const struct field in_latin_fields[] = {
    ROW(TEXT, visit_in_latin, of, "of", .required = true, .help = "a text of this record"),
    ROW(TEXT, visit_in_latin, write, "write", .required = true,
        .help = "how it stands on the sheet", .example = "Wang Fang"),
};
static const struct schema in_latin_schema =
    SCHEMA(visit_in_latin, in_latin_fields, "text in Latin letters",
           "What is printed in place of a text whose letters are not on this machine.");

static const struct field record_fields[] = {
    {.key = "visit",
     .kind = FIELD_RECORD,
     .schema = &visit_part_schema,
     .required = true,
     .help = "The visit itself."},
    ROW(RECORD, visit, patient, "patient", .schema = &patient_schema, .required = true,
        .help = "The animal."),
    ROW(RECORD, visit, keeper, "keeper", .schema = &keeper_schema, .help = "Who keeps it."),
    {.key = "enclosure",
     .kind = FIELD_RECORD,
     .schema = &enclosure_schema,
     .help = "The box as it is."},
    {.key = "water",
     .kind = FIELD_RECORD,
     .schema = &water_schema,
     .help = "The water it lives in."},
    ROW(SOME_RECORDS, visit, diet, "diet", .schema = &diet_schema, .most = 20,
        .help = "what it is fed now; several foods as a list"),
    ROW(RECORDS, visit, findings, "findings", .schema = &finding_schema, .most = 60,
        .help = "What was found, normal findings included."),
    ROW(TEXTS, visit, done_today, "done-today", .most = 20, .help = "Procedures of today.",
        .example = "[blood-sample, sexed-by-probe]"),
    ROW(RECORDS, visit, medicines, "medicines", .schema = &medicine_schema, .most = 20,
        .help = "Medicines as written."),
    ROW(RECORD, visit, follow_up, "follow-up", .schema = &follow_up_schema,
        .help = "When to come back."),
    ROW(RECORD, visit, targets, "targets", .schema = &targets_schema,
        .help = "A veterinarian's own targets."),
    ROW(RECORD, visit, history, "history", .schema = &history_schema,
        .help = "What happened when."),
    ROW(RECORD, visit, winter_rest, "winter-rest", .schema = &winter_rest_schema,
        .help = "The winter's rest."),
    ROW(RECORDS, visit, decisions, "decisions", .schema = &decision_schema, .most = 40,
        .help = "The veterinarian's hand; it wins."),
    ROW(RECORDS, visit, in_latin, "in-latin", .schema = &in_latin_schema, .most = 40,
        .help = "Other words for texts of this record, printed instead."),
    ROW(TEXT, visit, message, "message", .is_long = true,
        .help = "A paragraph of the clinic's own for this keeper, printed as written."),
};

const struct schema visit_schema =
    SCHEMA(visit, record_fields, "visit record", "What was found and measured at one visit.");
