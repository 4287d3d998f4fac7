/* What ISO/CIE 11664-1 and 11664-2 tabulate, every 5 nm. Part of spectrum.c. */
#ifndef LW_LIGHT_SPECTRUM_TABLE_H
#define LW_LIGHT_SPECTRUM_TABLE_H

enum { LW_SPECTRUM_ROWS = 81, LW_SPECTRUM_STEP_NM = 5 };

/* From 380 nm. */
typedef struct lw_spectrum_row {
    double x, y, z;  /* colour-matching functions, 1931 standard observer (2 degrees) */
    double daylight; /* relative power of illuminant D65, 100 at 560 nm */
} lw_spectrum_row;

extern const lw_spectrum_row lw_spectrum_table[LW_SPECTRUM_ROWS];

#endif
