/* Steps to facets: their teeth, and what is known of their angles. */
#include "cut/solver.h"

#include "geom/angle.h"
#include "geom/tolerance.h"

#include <math.h>
#include <stdio.h>

/* Where a free angle starts from, when the text does not say. */
static const double start_angle = 45.0;

/* An angle as it is meant: level and vertical are exact. */
static double settled(double degrees)
{
    if (fabs(degrees) < LW_SAME_ANGLE_DEG) {
        return 0.0;
    }
    return fabs(degrees - 90.0) < LW_SAME_ANGLE_DEG ? 90.0 : degrees;
}

static lw_outcome given_angle(lw_solver *solver, const lw_step *step, double *degrees)
{
    const lw_expr *expr = step->angle != NULL ? step->angle : step->angle_near;
    double given = start_angle;
    if (expr != NULL && lw_solver_angle(solver, expr, &given) != LW_GOT) {
        return LW_FAILED;
    }
    *degrees = settled(given);
    if (!(*degrees >= 0.0 && *degrees <= 90.0)) {
        char found[64];
        char number[LW_SOLVER_FIGURE];
        snprintf(found, sizeof found, "an angle of %s degrees",
                 lw_solver_figure(*degrees, 6, number));
        return lw_solver_fail(solver, LW_BAD_INPUT, expr->place, found, "0 to 90 degrees",
                              "0 is the table, 90 the girdle");
    }
    return LW_GOT;
}

static lw_side side_at(const lw_step *step, double degrees)
{
    return degrees == 90.0 ? LW_SIDE_GIRDLE : step->side;
}

static void expand_facet(lw_solver *solver, int at, int facet, const lw_tooth_image *image)
{
    const lw_step *step = &solver->cut->steps[at];
    double degrees = solver->tiers[at].angle_deg;
    lw_sincos angle = lw_sincos_deg(degrees);
    double tooth =
        solver->cut->left_handed ? lw_tooth_wrap(-image->tooth, solver->cut->wheel) : image->tooth;
    solver->facets[facet] = (lw_facet){
        .step = at,
        .side = step->angle != NULL ? side_at(step, degrees) : step->side,
        .tooth = tooth,
        .angle_deg = degrees,
        .temporary = step->temporary,
        .plane.normal = lw_solver_normal(solver, at, angle.sin, angle.cos, image->tooth)};
    solver->text_teeth[facet] = image->tooth;
    solver->mirrored[facet] = image->mirrored;
}

static lw_outcome expand_step(lw_solver *solver, int at)
{
    const lw_step *step = &solver->cut->steps[at];
    lw_tier *tier = &solver->tiers[at];
    *tier = (lw_tier){.first = solver->facet_count};
    solver->known[at] = step->kind != LW_STEP_FACETS;
    if (solver->known[at]) {
        return LW_GOT;
    }
    if (step->angle == NULL && lw_step_has_own_depths(step)) {
        return lw_solver_fail(solver, LW_BAD_INPUT, step->rules[0].place,
                              "a free angle for a tier with a depth for each tooth",
                              "a stated angle, or one depth for all",
                              "the angle comes out once, at the first tooth");
    }
    if (given_angle(solver, step, &tier->angle_deg) != LW_GOT) {
        return LW_FAILED;
    }
    tier->count = lw_step_teeth(solver->cut, step, NULL, 0);
    if (solver->facet_count + tier->count > LW_CUT_MOST_FACETS) {
        return lw_solver_fail(solver, LW_TOO_LARGE, step->place, "more than 2,000 facets",
                              "2,000 at most", "");
    }
    (void)lw_step_teeth(solver->cut, step, solver->images, tier->count);
    for (int i = 0; i < tier->count; i++) {
        expand_facet(solver, at, tier->first + i, &solver->images[i]);
    }
    solver->facet_count += tier->count;
    return LW_GOT;
}

lw_outcome lw_solver_expand(lw_solver *solver)
{
    solver->facet_count = 0;
    solver->first_waiting = 0;
    solver->tentative = false;
    for (int i = 0; i < solver->cut->step_count; i++) {
        if (expand_step(solver, i) != LW_GOT) {
            return LW_FAILED;
        }
    }
    while (solver->first_waiting < solver->cut->step_count &&
           solver->known[solver->first_waiting]) {
        solver->first_waiting++;
    }
    lw_names_sort(solver);
    solver->standing.built = -1;
    return LW_GOT;
}

void lw_solver_set_angle(lw_solver *solver, int step, double sin_angle, double cos_angle)
{
    lw_tier *tier = &solver->tiers[step];
    tier->angle_deg = settled(lw_atan2_deg(sin_angle, cos_angle));
    if (tier->angle_deg == 0.0 || tier->angle_deg == 90.0) {
        sin_angle = tier->angle_deg == 0.0 ? 0.0 : 1.0;
        cos_angle = 1.0 - sin_angle;
    }
    for (int i = tier->first; i < tier->first + tier->count; i++) {
        lw_facet *facet = &solver->facets[i];
        facet->angle_deg = tier->angle_deg;
        facet->side = side_at(&solver->cut->steps[step], tier->angle_deg);
        facet->plane.normal =
            lw_solver_normal(solver, step, sin_angle, cos_angle, solver->text_teeth[i]);
    }
    lw_solver_changed(solver, step);
}

void lw_solver_set_tooth(lw_solver *solver, int step, double text_tooth)
{
    int first = solver->tiers[step].first;
    int wheel = solver->cut->wheel;
    lw_facet *facet = &solver->facets[first];
    solver->text_teeth[first] = lw_tooth_wrap(text_tooth, wheel);
    facet->tooth = lw_tooth_wrap(solver->cut->left_handed ? -text_tooth : text_tooth, wheel);
    lw_sincos angle = lw_sincos_deg(facet->angle_deg);
    facet->plane.normal =
        lw_solver_normal(solver, step, angle.sin, angle.cos, solver->text_teeth[first]);
    lw_names_sort(solver);
    lw_solver_spend(solver, solver->facet_count / 8.0);
    lw_solver_changed(solver, step);
}
