/* Metabolic need, as a sanity band for a feeding plan: told to the veterinarian, never a
 * prescription to the keeper. */
#ifndef BASKLEAF_CARE_ENERGY_H
#define BASKLEAF_CARE_ENERGY_H

/* The body temperatures of the equation's data. */
enum { ENERGY_COLDEST_C = 1, ENERGY_HOTTEST_C = 50 };

/* Oxygen uptake of squamates, ml/h: Andrews & Pough 1985, Physiol. Zool. 58:214-231, eq. 2:
 * 0.013 m^0.80 10^(0.038 T) 10^(0.14 s); mass in g (> 0), body temperature 1-50 C, s 0 standard, 1
 * resting. */
double energy_oxygen_ml_h(double mass_g, double temp_c, int resting);

/* The same as energy a day: 20.1 J per ml of oxygen (4.80 kcal/l). */
double energy_oxygen_kcal_day(double mass_g, double temp_c, int resting);

/* Least energy of reptiles, 10 kg^0.75 kcal a day (handbook K). */
double energy_least_kcal_day(double mass_g);

#endif
