/* `baskleaf start`: a new record for a species, ready to be filled in. */
#include <string.h>

#include "cli/command.h"

/* The findings that make sense for this animal, in the order of an examination, as
 * comments to uncomment: a record says only what was looked at. */
static void add_findings(struct strbuf *out, const struct resources *resources,
                         const struct species *species)
{
    strbuf_add(out, "findings:\n");
    for (int system = 0; system < SYSTEM_COUNT; system++) {
        bool titled = false;
        for (size_t i = 0; i < resources->catalogue->findings.count; i++) {
            const struct finding *f = LIST_AT(resources->catalogue->findings, struct finding, i);
            if (f->system.value != system || !finding_fits(f, species))
                continue;
            if (!titled)
                strbuf_addf(out, "  # %s\n", bind_choice_word(body_system_choices, system));
            titled = true;
            strbuf_addf(out, "  # - {code: %s, severity: ", f->name.text);
            for (size_t k = 0; k < f->severities.count; k++)
                strbuf_addf(
                    out, "%s%s", k ? " | " : "",
                    bind_choice_word(severity_choices,
                                     LIST_AT(f->severities, struct choice_value, k)->value));
            strbuf_add(out, "}\n");
        }
    }
}

static void add_readings(struct strbuf *out, const struct species *species)
{
    strbuf_add(out, "enclosure:\n  # size: 120 x 60 x 60 cm\n  # walls: glass\n  # lid: mesh\n"
                    "  # thermostat: yes\n  # heat-guard: yes\n  readings:\n");
    for (int m = 0; m < MEASURE_COUNT; m++)
        if (measures[m].part == PART_TEMPERATURE && species->measured[m].range.known)
            strbuf_addf(out, "    # %s: %.4g C\n", measures[m].id, species->measured[m].range.low);
    if (species->measured[MEASURE_HUMIDITY].range.known)
        strbuf_add(out, "    # humidity: 50 %\n    # humidity-at: cool-side\n");
    if (species->needs_uvb.value)
        strbuf_add(out,
                   "  # lamp: {kind: tube, tube-length: 55 cm, measured: {uvi: 2.0, at: 30 cm}, "
                   "mesh-loss: 35 %, installed: 2026-01-01, height: 30 cm, hours: 12}\n");
}

static void add_water(struct strbuf *out, const struct species *species)
{
    if (!species->water_change_percent.range.known)
        return;
    strbuf_add(out, "# water:\n");
    for (int m = 0; m < MEASURE_COUNT; m++)
        if (measures[m].part == PART_WATER && measures[m].visit_path)
            strbuf_addf(out, "#   %s: %s\n", measures[m].id, measures[m].example);
    strbuf_add(out, "#   ammonia-as: total-n\n#   volume: 90 l\n#   filter: yes\n"
                    "#   change: {share: 25 %, every: 7 days}\n");
}

void command_start(struct run *run)
{
    struct resources resources;
    if (!command_resources(run, &resources))
        return;
    if (strcmp(run->words[0], UNLISTED_CODE) == 0) {
        diag_report(&run->diag, DIAG_ERROR, "unlisted-start", (struct mark){0},
                    "start with a like animal, then write 'species: " UNLISTED_CODE
                    "' and 'unlisted: {kind: ..., group: ...}' under patient");
        return;
    }
    const struct species *species =
        library_find(resources.species_sheets, resources.places.species_dir, run->words[0],
                     (struct mark){0}, &run->arena, &run->diag);
    if (!species)
        return;
    struct strbuf out;
    char today[16];
    date_write_iso(run->today, today);
    strbuf_init(&out, &run->arena);
    strbuf_addf(&out,
                "# A visit record: %s. Take the # away from what you know; leave the rest.\n"
                "# Every quantity needs its unit. 'baskleaf check FILE' tells what is wrong.\n"
                "visit: {date: %s, kind: checkout}\n"
                "patient:\n  name: Unnamed\n  species: %s\n  # sex: female\n  # hatched: 2024-05\n"
                "  # mass: 100 g\n  # length: 20 cm\n"
                "keeper:\n  # name: Rosa Lind\n  # email: rosa.lind@example.org\n"
                "  language: %s\n  units: %s\n",
                species_name(species, "en"), today, species->code.text,
                resources.clinic->language.text,
                bind_choice_word(unit_system_choices, resources.clinic->units.value));
    add_readings(&out, species);
    add_water(&out, species);
    strbuf_add(&out, "# diet: {food: mouse, meal: 25 g, every: 7 days, last: 2026-03-10}\n");
    add_findings(&out, &resources, species);
    strbuf_add(&out, "# done-today: [blood-sample]\n"
                     "# medicines: [{name: NAME, amount: 0.2 ml, route: by-mouth, every: 24 h, "
                     "for: 10 days, first: 2026-03-15, directions: as written}]\n"
                     "# follow-up: {recheck: 4 weeks}\n");
    command_deliver_or_print(run, &resources, (struct bytes){out.text, out.length});
}
