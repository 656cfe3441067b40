/* How much of the ammonia in fresh water is the poisonous gas NH3 and not the ion NH4+. */
#ifndef BASKLEAF_CARE_AMMONIA_H
#define BASKLEAF_CARE_AMMONIA_H

/* Emerson et al. 1975, J. Fish. Res. Board Can. 32:2379-2383:
 * pKa = 0.09018 + 2729.92 / (273.2 + T), share = 1 / (1 + 10^(pKa - pH)). */
double ammonia_share(double ph, double temp_c);

/* A kit that reads nitrogen: 17.031 g of NH3 hold 14.007 g of N (IUPAC standard atomic weights). */
double ammonia_from_nitrogen(double mg_l_n);

#endif
