/* The steps of a stretched cut. Private to core/cut. */
#ifndef LW_CUT_ADAPT_STRETCH_H
#define LW_CUT_ADAPT_STRETCH_H

#include "cut/adapt_parts.h"
#include "cut/teeth.h"

typedef struct lw_stretch_job {
    lw_edit *edit;
    const lw_cut *cut; /* as it was */
    const lw_stone *stone;
    const lw_stone *image; /* the stretched stone; its facets in the old order */
    double x_ratio, y_ratio;
    const unsigned char *given_up; /* [lw_stretch_most_steps] by new step: 1 its free angle, 2 its
                                      rule too; NULL: all of them everything */
    bool whole_teeth;              /* teeth are rounded */
    lw_tooth_image *images;        /* scratch: a step's teeth, as they were */
    lw_tooth_image *probed;        /* scratch: a new step's */
    int *order;                    /* scratch */
    lw_step *steps;
    int *of; /* the old step of each new one */
    int step_count;
    lw_facet *facets; /* the image's, in the order of the new steps */
    int facet_count;
} lw_stretch_job;

/* No cut comes to more steps than this. */
size_t lw_stretch_most_steps(const lw_stretch_job *job);

/* Fills in steps and facets; memory that runs out is the edit's to tell. */
void lw_stretch_steps(lw_stretch_job *job);

/* A tooth as the text counts, after the stretch. */
double lw_stretched_tooth(const lw_stretch_job *job, double tooth);

#endif
