/* What a flat surface between two clear media does to light.
 *
 * eta = n of the side the light comes from / n of the other side; cos_i = cosine of the angle of
 * incidence, > 0. s is the part that swings at right angles to the plane of incidence, p the part
 * in it.
 *
 * Source: M. Born and E. Wolf, Principles of Optics, 7th ed., 1.5.2 (eq. 20 and 21: amplitudes;
 * 1.5.3: energies) and 1.5.4 (total reflection, eq. 57-60), with their signs: the s, p and
 * direction of a beam are a right-handed triple, and at normal incidence r_p = -r_s.
 */
#ifndef LW_LIGHT_FRESNEL_H
#define LW_LIGHT_FRESNEL_H

#include <stdbool.h>

typedef struct lw_fresnel {
    bool total;                    /* nothing passes */
    double cos_t;                  /* of the passing beam; 0 when total */
    double reflect_s, reflect_p;   /* shares of the energy that return … */
    double transmit_s, transmit_p; /* … and that pass; each pair adds to 1 within rounding, though
                                      each is worked out by itself */
    double reflect_re, reflect_im; /* r_s conj(r_p): what becomes of the phase between s and p */
    double transmit_re;            /* the same of the passing beam; real and positive */
} lw_fresnel;

/* eta > 0 and 0 < cos_i <= 1 + rounding, asserted. */
lw_fresnel lw_fresnel_at(double eta, double cos_i);

#endif
