#!/usr/bin/env python3
"""Breaks the program on purpose, one way at a time, and shows that the test of that harm fails:
tests/harm/mutations.py [BUILD-FOLDER]. Works on a copy; takes some seconds a fault."""
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
# (what is broken, file, text, text instead, the test that must fail)
FAULTS = [
    ("the longest cold spell of a logger dropped", "src/records/log_series.c", "lasted_s > series->longest[bin] ?", "lasted_s < series->longest[bin] ?",
     "test_a_night_without_heat_is_told"),
    ("the coldest probe of a logger passed over", "src/care/log_judge.c", "probe->longest_below_h > most->longest_below_h", "probe->longest_below_h < most->longest_below_h",
     "test_a_night_without_heat_is_told"),
    ("a logger's median taken for its coldest night", "src/care/log.c", "put(b, visit, MEASURE_NIGHT, night->night.low)", "put(b, visit, MEASURE_NIGHT, night->night.median)",
     "test_a_night_without_heat_is_told"),
    ("the cool side's band at the warm side", "src/care/measured.c",
     "struct measured_plan *plan = &b->plan->measured[measure];\n    const struct sourced_value *usual = &b->in->species->measured[measure];",
     "struct measured_plan *plan = &b->plan->measured[measure];\n    const struct sourced_value *usual = &b->in->species->measured[measure == MEASURE_WARM_SIDE ? MEASURE_COOL_SIDE : measure];",
     "test_each_band_stands_at_its_own_zone"),
    ("two rows of the printed table change places", "templates/wording/en/sheet.yaml",
     "measure.warm-side.name: Warm side\nmeasure.cool-side.name: Cool side", "measure.warm-side.name: Cool side\nmeasure.cool-side.name: Warm side",
     "test_warm_is_printed_as_warm"),
    ("sand left under a blocked animal", "templates/rules.yaml", "loose-floor-swallowed: {when: {finding: [impaction-of-sand, belly-stool], substrate: [sand,",
     "loose-floor-swallowed: {when: {finding: [impaction-of-sand, belly-stool], substrate: [paper,", "test_sand_in_the_gut_takes_the_sand_out"),
    ("a vitamin for who lives in the sun", "src/care/supplements.c", "(plan_holds(b->plan, \"supplement\", \"stop-d3\") || b->plan->uvb.sun))",
     "plan_holds(b->plan, \"supplement\", \"stop-d3\"))", "test_no_lamp_and_no_vitamin_for_who_lives_in_the_sun"),
    ("no lamp for who was brought in from the sun", "src/care/uvb.c", "!plan_holds(b->plan, \"outdoors\", \"in-until\")", "true",
     "test_no_lamp_and_no_vitamin_for_who_lives_in_the_sun"),
    ("a hatchling out on a cold day", "templates/reference-values.yaml", "brumation: [never], morning: {range: 21 C,", "brumation: [never], morning: {range: 12 C,",
     "test_the_young_and_the_tropical_go_out_on_warmer_days"),
    ("two snakes in one box", "templates/reference-values.yaml", "{groups: [snake, turtle], together: no,", "{groups: [snake, turtle], together: yes,",
     "test_kinds_that_do_not_belong_together_are_parted"),
    ("another kind in the box overlooked", "src/care/company.c", "b->in->species->code.text) != 0", "b->in->species->code.text) == 0",
     "test_kinds_that_do_not_belong_together_are_parted"),
    ("two on the floor of one", "src/care/enclosure.c", "e->floor_cm2 = length_cm * width_cm * company->floor_times;", "e->floor_cm2 = length_cm * width_cm;",
     "test_so_many_need_so_much_floor"),
    ("the lamp of the old perch left for who lies low", "src/care/lying.c", "lying->lower_by_cm = platform->value - at_cm;", "lying->lower_by_cm = 0;",
     "test_a_soft_boned_climber_is_not_lit_from_its_old_perch"),
    ("a lamp hung above the lid", "src/care/uvb_place.c", "if (nearest > room_cm(b, p)) {", "if (nearest < 0) {", "test_no_lamp_is_sent_above_the_lid"),
    ("a mesh that nobody measured taken for none", "src/care/uvb_place.c", "b->plan->uvb.mesh_unknown = true;", "b->plan->uvb.mesh_unknown = false;",
     "test_what_an_unknown_mesh_holds_back_is_not_nothing"),
    ("UVB above the zone's maximum let be", "src/care/uvb.c", "[UV_LIMIT_MOST] = low->most_uvi.range.high", "[UV_LIMIT_MOST] = 2 * low->most_uvi.range.high",
     "test_a_lamp_in_its_zone_is_left_and_a_stronger_one_is_not"),
    ("a perch under the lamp overlooked", "src/care/uvb_place.c", "below_cm < plan->nearest_cm ? PERCH_TOO_NEAR", "below_cm < 0 ? PERCH_TOO_NEAR",
     "test_no_perch_reaches_into_the_lamp"),
    ("a chameleon sent into a hide", "templates/reference-values.yaml", "habits: [arboreal], traits: [drops-tail], least", "habits: [arboreal], least",
     "test_who_hides_in_leaves_or_digs_is_told_of_no_second_hide"),
    ("pounds read as kilograms", "src/base/units.c", "DIM_MASS, UNITS_G_PER_LB, 0", "DIM_MASS, 1000, 0",
     "test_one_reading_in_two_units_is_one_reading"),
    ("a difference of temperature printed like a temperature", "src/words/format.c",
     "degrees(f, format_number(f, step, 2))", "degrees(f, format_number(f, step + 32, 2))", "test_a_difference_has_no_32_in_it"),
    ("the lamp's nearest distance halved", "src/care/uvb_place.c", "    plan->nearest_cm = nearest;",
     "    plan->nearest_cm = nearest / 2;", "test_no_lamp_is_hung_nearer_than_safe"),
    ("glass in the lamp's way overlooked", "src/care/uvb.c", "lamp->behind.value != BARRIER_NONE", "lamp->behind.value == BARRIER_NONE",
     "test_behind_glass_there_is_no_height"),
    ("humidity raised against a blistered belly", "src/care/humidity.c", "        use_low_end(b, from);",
     "        use_shed_band(b);", "test_a_blistered_belly_is_never_wetted"),
    ("ammonia taken for the harmless ion", "src/care/ammonia.c", "pow(10, pka - ph)", "pow(10, ph - pka)", "test_the_gas_in_the_water_is_never_made_little"),
    ("fireflies named to no lizard", "templates/foods.yaml", "fireflies: {groups: [lizard, frog, tortoise],", "fireflies: {groups: [snake],",
     "test_what_kills_is_named_wherever_food_is_offered"),
    ("what must never be given left out where there is little room", "src/sheet/wall_more.c", "text = append_sentence(c, text, section_food_rules(c));",
     "text = append_sentence(c, text, section_in_brief(c) ? NULL : section_food_rules(c));", "test_what_kills_is_named_wherever_food_is_offered"),
    ("avocado allowed", "templates/foods.yaml", "  avocado: {eats: [plant],", "  avocado: {diets: [whole-prey], eats: [plant],",
     "test_what_harms_is_taken_out_of_the_dish"),
    ("thawed goldfish allowed", "templates/rules.yaml", "{when: {food-given: [thiaminase]", "{when: {food-given: [fine]",
     "test_what_harms_is_taken_out_of_the_dish"),
    ("poison in the dish left for later", "templates/rules.yaml", "{when: {food-given: [poison]}, do: stop-food, harm: 94,",
     "{when: {food-given: [poison]}, do: stop-food, harm: 94, first: no,", "test_what_harms_is_taken_out_of_the_dish"),
    ("an unknown food counted as nothing", "src/care/diet.c", "!d->has_least || d->unknown_count > 0", "!d->has_least",
     "test_what_is_not_known_of_food_is_never_called_good"),
    ("calcium that oxalate binds counted whole", "src/care/diet.c", "is_low && one->binds_calcium ? 0 : one->calcium_mg_day", "one->calcium_mg_day",
     "test_what_is_not_known_of_food_is_never_called_good"),
    ("spinach taken for a staple", "src/care/food_classes.c", "if (by_minerals == FOOD_STAPLE && list_has_choice", "if (by_minerals == FOOD_TREAT && list_has_choice",
     "test_poor_plants_are_changed"),
    ("vitamin B1 at every meal", "src/care/supplements.c", "if (s->what.value == SUPPLEMENT_THIAMINE)", "if (s->what.value == SUPPLEMENT_CALCIUM && every)",
     "test_vitamin_b1_goes_with_fish_alone"),
    ("the whole water changed at once", "templates/reference-values.yaml", "water-part-share-percent: {value: {range: 20-30,",
     "water-part-share-percent: {value: {range: 20-100,", "test_whatever_shows_of_a_poison_is_changed_today"),
    ("nitrite that shows overlooked", "templates/rules.yaml", "nitrite-shows: {when: {nitrite: [too-high]", "nitrite-shows: {when: {nitrite: [too-low]", "test_whatever_shows_of_a_poison_is_changed_today"),
    ("cooled before the fouled water is changed", "templates/rules.yaml", "do: cool-water, harm: 95", "do: cool-water, harm: 99",
     "test_fouled_water_is_changed_before_it_is_cooled"),
    ("a warm axolotl cooled at once", "templates/reference-values.yaml", "water-cooling-c-per-hour: {value: {range: 1-2,",
     "water-cooling-c-per-hour: {value: {range: 5-6,", "test_too_warm_water_is_cooled_in_steps"),
    ("a thermometer's error excuses what is past the limit", "src/care/measured.c", "if (plan->judged > plan->most)", "if (plan->judged > 2 * plan->most)",
     "test_nothing_above_its_limit_waits_for_a_second_reading"),
    ("a place without a target overlooked", "src/care/measured.c", "plan->limit_only = !plan->applies && plan->has_reading;", "plan->limit_only = false;",
     "test_nothing_above_its_limit_waits_for_a_second_reading"),
    ("a reading at the edge changed at once", "src/care/measured.c", "if (is_borderline(plan))", "if (false && is_borderline(plan))",
     "test_a_reading_at_the_edge_never_comes_first"),
    ("the night of an ill snake left to drop", "src/care/warmth.c", "double low = usual->known ? fmax(usual->low, zone->low) : zone->low;",
     "double low = usual->known ? fmin(usual->low, zone->low) : zone->low;", "test_no_ill_reptile_is_cooled_and_no_amphibian_warmed"),
    ("the warm place hotter than the healthy basking spot", "src/care/warmth.c", "fmax(fmin(fmax(zone->high, usual_high), most), low)",
     "fmax(fmax(zone->high, usual_high) + 5, low)", "test_no_ill_reptile_is_cooled_and_no_amphibian_warmed"),
    ("a meal for a vomiting snake", "src/care/feeding_change.c", '{"rest-until", FEEDING_PAUSE, rest}', '{"rest-until", FEEDING_PAUSE, restart}',
     "test_a_vomiting_snake_gets_no_meal"),
    ("a fat frog put on a diet by nobody", "src/care/feeding.c", "    f->has_meal = f->has_insects = false;\n    f->every_low_days", "    f->every_low_days",
     "test_no_frog_is_dieted_without_a_number"),
    ("a gravid snake's meal from the mass of her young", "src/care/feeding_change.c", '{"offer-only", FEEDING_NO_DIETING, offer_as_now}',
     '{"offer-only", FEEDING_NO_DIETING, usual_of_thin}', "test_no_ill_or_gravid_animal_is_fed_more_than_it_eats"),
    ("food settled before the water was read", "src/care/plan.c", "    stances_after_readings_plan, /* readings too say how much may be fed */\n    feeding_rest_over_check,\n    tube_food_plan,\n    tube_here_plan,\n    feeding_plan,",
     "    feeding_rest_over_check,\n    tube_food_plan,\n    tube_here_plan,\n    feeding_plan,\n    stances_after_readings_plan,", "test_no_ill_or_gravid_animal_is_fed_more_than_it_eats"),
    ("a fat snake's meal from its fat mass", "src/care/feeding_change.c", "f->meal_high_g = fmin(most_for_goal_g(b, stage), most_g);",
     "f->meal_high_g = most_for_goal_g(b, stage);", "test_a_diet_never_feeds_more_than_now"),
    ("a fat gecko's insects as usual", "src/care/feeding_change.c", "most = fmin(f->insects_high, f->now.count_day * days);", "most = f->insects_high;",
     "test_a_diet_never_feeds_more_than_now"),
    ("a thin animal cut down to a quarter", "src/care/feeding_steps.c", "step.low_g = fmax(f->meal_low_g * share, f->least_meal_g);",
     "step.low_g = f->meal_low_g * share;", "test_a_thin_animal_never_gets_less_than_now"),
    ("a thin gecko's worms cut down to a quarter", "src/care/feeding_steps.c", "fmax(fmax(f->insects_low * share, f->least_insects), 1)",
     "fmax(f->insects_low * share, 1)", "test_a_thin_animal_never_gets_less_than_now"),
    ("a winter rest for a tropical species", "species-sheets/ball-python.yaml", "  brumation: never\n",
     "  brumation: after-check\n  brumation-least-age: {range: 1 years, source: practice, trust: memory}\n", "test_no_tropical_and_no_ill_animal_rests_in_winter"),
    ("a winter rest for an ill animal", "src/care/winter_gate.c", "return found(b, NULL) && !is_gravid(b);", "return false;",
     "test_no_tropical_and_no_ill_animal_rests_in_winter"),
    ("an animal at rest heated", "src/care/warmth.c", "b->plan->measured[zone].applies = false;", "b->plan->measured[zone].applies = zone == ZONE_WARM_SIDE;",
     "test_an_animal_at_rest_is_not_heated_and_not_fed"),
    ("an open wound bathed", "templates/settlements.yaml", "abscess], group: [tortoise]}, then: [\"bath:as-written\"", "abscess], group: [tortoise]}, then: [\"bath:drink-soak\"",
     "test_an_open_wound_gets_no_bath"),
    ("stitches out early in the cold", "src/care/check_days.c", "is_warm(b) ? usual->low : usual->high", "is_warm(b) ? usual->high : usual->low",
     "test_stitches_stay_in_and_dry_for_long_enough"),
    ("an operation bathed before its stitches are out", "src/care/check_days.c", "*day = build_open_day(b, planned, latest).on;", "*day = date_add_days(b->plan->on, 7);",
     "test_stitches_stay_in_and_dry_for_long_enough"),
    ("watery food while the stool is loose", "src/care/food_classes.c", "return leaves_out(b, food) || (like && leaves_out(b, like));", "return leaves_out(b, food) && !like;",
     "test_no_watery_food_while_the_stool_is_loose"),
    ("fruit on the menu while the stool is loose", "src/care/foods.c", "if (feeding_leaves_out(b, food))", "if (!food)", "test_no_watery_food_while_the_stool_is_loose"),
    ("a course in words with one box to tick", "src/sheet/medicine_words.c", "if (m->listed > 0 || m->is_given_here)", "if (!m->is_given_here || m->listed > 0)",
     "test_a_course_in_words_is_not_over_with_its_first_dose"),
    ("stitches bathed", "templates/findings.yaml", '{never-done: [prolapse-replaced], groups: [snake, lizard, tortoise, turtle], call: ["dryness:dry-until", "bath:none",',
     '{never-done: [prolapse-replaced], groups: [snake, lizard, tortoise, turtle], call: ["dryness:dry-until",',
     "test_stitches_stay_in_and_dry_for_long_enough"),
    ("what is severe seen late", "src/care/finding_list.c", "SEVERITY_SEVERE ? f.recheck_low_days", "SEVERITY_MILD ? f.recheck_low_days",
     "test_what_is_severe_is_seen_again_soon"),
    ("bleach for what it does not kill", "templates/reference-values.yaml", "turtle], product: steam,", "turtle], product: bleach,",
     "test_a_germ_is_killed_by_what_was_published_and_never_by_bleach"),
    ("chlorhexidine ten times too thin", "templates/reference-values.yaml", "percent: {range: 0.75 %, source: bryan", "percent: {range: 0.075 %, source: bryan",
     "test_a_germ_is_killed_by_what_was_published_and_never_by_bleach"),
    ("a sign of today told as news", "src/care/warnings.c", "listed->already = true;", "listed->already = false;",
     "test_what_is_there_already_does_not_send_the_keeper_back"),
    ("a bowl for a python that licks drops", "templates/topics.yaml", "{groups: [snake, lizard], traits: [drinks-drops], stance: drops-and-mist}",
     "{groups: [lizard], traits: [drinks-drops], stance: drops-and-mist}", "test_who_licks_drops_is_not_sent_to_a_bowl"),
    ("a nest for a live-bearer", "species-sheets/boa-constrictor.yaml", "reproduction: live-bearer", "reproduction: egg-layer",
     "test_a_live_bearer_gets_no_nest"),
    ("a tenfold dose overlooked", "src/care/medicine_review.c", "if (times >= tenfold)", "if (times >= 10 * tenfold)",
     "test_a_tenfold_dose_is_noticed_and_no_other_is_printed"),
    ("a dose too many", "src/care/medicines.c", "/ v->every_h.value - SLACK)", "/ v->every_h.value + 1)", "test_no_dose_is_added_or_lost"),
    ("a loss printed as a gain", "src/words/slots_change.c", "give(out, is_falling(&PLAN->growth) ?", "give(out, !is_falling(&PLAN->growth) ?", "test_a_loss_is_told_with_its_sign"),
    ("the last warning sign dropped for lack of space", "src/sheet/section_safety.c",
     "if (warning->tier != tier)\n            continue;\n        const char *sign", "if (warning->tier != tier || i + 1 == c->plan->warning_count)\n            continue;\n        const char *sign",
     "test_no_warning_sign_is_dropped_however_much_there_is_to_say"),
    ("the last sign of the lists to call for dropped", "src/sheet/wall_danger.c",
     "if (warning->tier != tier || weight != last)", "if (warning->tier != tier || weight != last || i + 1 == c->plan->warning_count)",
     "test_no_warning_sign_is_dropped_however_much_there_is_to_say"),
    ("a stale signature taken for a valid one", "src/signing/signature.c",
     "out->is_signed = strcmp(signature->digest.text, code) == 0;", "out->is_signed = true;",
     "test_what_changes_after_the_signature_makes_a_draft_again"),
]


def failing(program, *only):
    done = subprocess.run([sys.executable, "tests/harm/test_harm.py", program, *only], capture_output=True, text=True, cwd=program.parents[3],
                          env={**os.environ, "XDG_CONFIG_HOME": str(ROOT / "tests/common/config")})
    return {line.split()[1] for line in done.stderr.splitlines() if line.startswith(("FAIL:", "ERROR:"))}


def main():
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "copy"
        shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".build*", ".git", "out"), symlinks=True)
        (copy / "out").mkdir()
        program = copy / ".build/src/cli/baskleaf"
        subprocess.run(["meson", "setup", ".build"], cwd=copy, check=True, capture_output=True)
        build = lambda: subprocess.run(["ninja", "-C", ".build", "src/cli/baskleaf", "page-fonts"], cwd=copy, check=True, capture_output=True)
        build()
        whole = failing(program)
        if whole:
            sys.exit(f"fails before anything is broken: {sorted(whole)}")
        missed = 0
        for what, name, text, instead, test in FAULTS:
            path = copy / name
            before = path.read_text()
            if before.count(text) != 1:
                sys.exit(f"{name} no longer has once: {text}")
            path.write_text(before.replace(text, instead))
            build()
            caught = test in failing(program, "-k", test)
            missed += not caught
            print(f"{'caught' if caught else 'MISSED'}: {what} ({test})", flush=True)
            path.write_text(before)
        print(f"{len(FAULTS) - missed} of {len(FAULTS)} caught")
        sys.exit(1 if missed else 0)


if __name__ == "__main__":
    if "--stands" in sys.argv:
        # of the suite: what the faults change is there, once each
        sys.exit("\n".join(f"{name} no longer has once: {text}" for _, name, text, _, _ in FAULTS if (ROOT / name).read_text().count(text) != 1) or 0)
    main()
