/* Numbers with their units, dates and bands, by language and by the keeper's units.
 *
 * Values come in the plan's units (deg C, cm, g, %, days) and leave as text with a no-break space
 * between number and unit, the language's decimal mark and an en dash in ranges. The patterns
 * are keys of the catalogue (unit.*, number.*, sheet.date-*, month.*, weekday.*); a missing one is
 * reported as DIAG_ERROR once and its name stands in the text.
 *
 * Rounding. A reading goes to the nearest step that people read off an instrument. A TARGET BAND
 * IS NEVER WIDENED: its lower end rounds up and its upper end down (32-34 C -> 90-93 F), so
 * that whoever keeps inside the printed band keeps inside the true one. Where a band is so
 * narrow that nothing would be left, a step ten times finer is used, and at last its middle. A
 * limit never to be passed rounds down. A least size of a box rounds up. A step of temperature has
 * no 32 degrees in it (9/5 a degree, exact by definition of the Fahrenheit scale).
 *
 * Steps: temperature 0.5 C (a reading 0.1 C) or 1 F; percent 1; UV index 0.1; length 1 cm from 10
 * cm on and 0.5 cm below, 1/2 inch from 10 inches on and 1/4 inch below, as people read a tape
 * (common practice, no source); mass 1 g from 10 g on, 0.1 g below, pounds with whole ounces from
 * one pound on, tenths of an ounce with the grams beside them below.
 */
#ifndef BASKLEAF_WORDS_FORMAT_H
#define BASKLEAF_WORDS_FORMAT_H

#include "records/terms.h"
#include "base/date.h"
#include "base/units.h"
#include "words/catalogue.h"

/* Borrowed parts; one a sheet. */
struct format {
    const struct wording *words;
    enum unit_system units;
    struct arena *arena;
    struct diag *diag;
    int year;      /* a day of it is written short, "Fri 27 Mar"; 0: none is */
    bool is_brief; /* and its weekday shorter still, where there is no room at all */
};

/* The value as it is printed, for sentences that must agree with each other. */
struct shown_band {
    double low, high; /* in the unit that is printed */
};

/* ---- plain numbers ---- */

/* At most `decimals` (0-3) digits after the language's mark, without trailing zeros; a true minus
 * sign. Half goes away from zero. */
const char *format_number(const struct format *f, double value, int decimals);
/* "10–14", or "10" when both are printed alike. */
const char *format_range(const struct format *f, const char *low, const char *high);

/* ---- temperature ---- */

double format_shown_temp(const struct format *f, double temp_c); /* to the nearest */
const char *format_temp(const struct format *f, double temp_c);  /* 29 C -> "84 °F" */
const char *format_temp_band(const struct format *f, double low_c, double high_c);
const char *format_temp_limit(const struct format *f, double temp_c); /* never above: down */
const char *format_temp_step(const struct format *f, double step_c);  /* 5 C -> "9 °F" */
/* The step between what is printed for a reading and for the nearest end of its band, so that the
 * reader's own sum comes out right. Positive; NULL inside the band. */
const char *format_temp_step_to_band(const struct format *f, double temp_c, double low_c,
                                     double high_c);

/* ---- percent and UV index ---- */

const char *format_percent(const struct format *f, double percent);
/* With the decimals that a strength has. */
const char *format_strength(const struct format *f, double percent);
const char *format_percent_band(const struct format *f, double low, double high);
/* "a quarter to half", of a narrow band its middle; per cent where no plain word is near. */
const char *format_share(const struct format *f, double low_percent, double high_percent);
/* "5-7 of every 10 parts", rounded inward where it can be. */
const char *format_of_ten(const struct format *f, double low_percent, double high_percent);
const char *format_points(const struct format *f, double points); /* a difference of percents */
const char *format_uvi(const struct format *f, double uvi);
const char *format_uvi_band(const struct format *f, double low, double high);
const char *format_uvi_limit(const struct format *f, double uvi);

/* ---- water ---- */

const char *format_concentration(const struct format *f, double mg_l);
const char *format_concentration_band(const struct format *f, double low_mg_l, double high_mg_l);
const char *format_ph(const struct format *f, double ph);
const char *format_ph_band(const struct format *f, double low, double high);
const char *format_hardness(const struct format *f, double dgh);
const char *format_hardness_band(const struct format *f, double low_dgh, double high_dgh);
/* One amount out of a band, as a bucket has marks: its middle, rounded down. */
const char *format_volume_part(const struct format *f, double low_l, double high_l);

/* ---- length ---- */

const char *format_length(const struct format *f, double length_cm); /* to the nearest */
const char *format_length_band(const struct format *f, double low_cm, double high_cm);
/* A length beside its band: what lies in it is shown in the band as that is shown. */
const char *format_length_in_band(const struct format *f, double length_cm, double low_cm,
                                  double high_cm);
const char *format_length_least(const struct format *f, double length_cm); /* up */
const char *format_length_most(const struct format *f, double length_cm);  /* down */
/* One side of a box, as format_box has it with `least`. */
const char *format_side_least(const struct format *f, double length_cm);
/* length x width x height; `least` rounds up to whole cm or inches, else to the nearest. A height
 * of 0 leaves it out. */
const char *format_box(const struct format *f, double length_cm, double width_cm, double height_cm,
                       bool least);
/* The same beside a box of that length, which is in the same unit. */
const char *format_box_beside(const struct format *f, const double sides_cm[3], bool least,
                              double beside_length_cm);

/* ---- mass, power, energy ---- */

const char *format_grams(const struct format *f, double mass_g); /* 0.1 g */
const char *format_mass(const struct format *f, double mass_g);

/* By how much a mass has changed: what is shown in pounds by the ounces between what is shown. */
const char *format_mass_change(const struct format *f, double before_g, double now_g);
/* With its grams where it would read as the other mass. */
const char *format_mass_apart(const struct format *f, double mass_g, double other_g);
/* A mass to call at, worked out from today's: a number that is kept in mind. What she wrote stands
 * as it is. In whole ounces both are no later than that. */
const char *format_mass_call(const struct format *f, double call_g, double now_g, bool is_written);
/* In ounces the grams that are weighed lead: "28-35 g (about 1 oz)". */
const char *format_mass_band(const struct format *f, double low_g, double high_g);
const char *format_power(const struct format *f, double w); /* as a label says it */
const char *format_power_band(const struct format *f, double low_w, double high_w); /* to 5 W */
const char *format_energy_band(const struct format *f, double low_kcal, double high_kcal);

/* What is given at a time, in the unit in which it was written and not rounded: "0.2 ml", "2
 * drops". */
const char *format_amount(const struct format *f, double written, enum unit unit);

/* ---- time ---- */

/* "7 days", "10–14 days", "2–4 weeks" where both ends are whole weeks from two on. Nearest days. */
const char *format_days(const struct format *f, double low_days, double high_days);
const char *format_hours(const struct format *f, double hours);
/* "12 hours", "2 days": in days where they are whole and more than one. */
const char *format_interval(const struct format *f, double hours);
const char *format_date_long(const struct format *f, struct date date); /* Saturday 14 March 2026 */
const char *format_date_short(const struct format *f, struct date date);   /* 14 Mar 2026 */
const char *format_date_day(const struct format *f, struct date date);     /* Sat 14 Mar */
const char *format_date_weekday(const struct format *f, struct date date); /* Sat 14 */
/* Age in the largest one or two units: "3 years 7 months", "12 days". */
const char *format_age(const struct format *f, struct date hatched, struct date on);

/* ---- patterns with given slots, for this module's neighbours ---- */

struct named_value {
    const char *name;
    struct slot_value value;
};

/* The key with these slots. A missing key or slot is DIAG_ERROR and gives the key itself. */
const char *format_pattern(const struct format *f, const char *key,
                           const struct named_value *values, size_t count);
/* The same with slots from elsewhere. */
const char *format_pattern_from(const struct format *f, const char *key,
                                const struct slot_source *slots);

#endif
