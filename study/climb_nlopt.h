/* Climbing by NLopt, for programs that link it.
 *
 * NLopt calls and is not called, so a step lets it run again from its beginning, answering from a
 * log until it asks for something new: its algorithms always ask for the same, given the same
 * answers and the same seed. What that costs is nothing beside a score.
 */
#ifndef LW_STUDY_CLIMB_NLOPT_H
#define LW_STUDY_CLIMB_NLOPT_H

#include "climb.h"

/* Everywhere: DIRECT-L with some chance in which box is divided, seeded (D. R. Jones, C. D.
 * Perttunen and B. E. Stuckman, Lipschitzian optimization without the Lipschitz constant, Journal
 * of Optimization Theory and Applications 79, 1993; J. M. Gablonsky and C. T. Kelley, A
 * locally-biased form of the DIRECT algorithm, Journal of Global Optimization 21, 2001). From a
 * start: Sbplx, S. G. Johnson's version of Subplex (T. H. Rowan, Functional stability analysis of
 * numerical algorithms, PhD thesis, University of Texas at Austin, 1990). NLopt: S. G. Johnson, The
 * NLopt nonlinear-optimization package. What lost to them: docs/tune.md.
 *
 * NLopt's chance is one for the thread, so two climbs of a thread that are stepped by turns still
 * each go their own way: every step seeds it anew. */
extern const lw_climber lw_climber_nlopt;

#endif
