#include "rough/search.h"

#include "geom/angle.h"
#include "geom/tolerance.h"

#include <assert.h>

enum { STARTS = LW_TURN_AXIS_COUNT + LW_SEARCH_SPREAD, PROBES = 6, FRAMES = 61 };

lw_search_effort lw_search_effort_usual(void)
{
    return (lw_search_effort){.leads = 8, .first_step_deg = 12.0, .last_step_deg = 0.02};
}

void lw_search_start(lw_search *search, lw_fitter *fitter, const lw_search_effort *effort)
{
    assert(effort->leads >= 1 && effort->leads <= LW_SEARCH_MOST_LEADS);
    assert(effort->last_step_deg > 0.0 && effort->first_step_deg >= effort->last_step_deg);
    *search = (lw_search){.fitter = fitter, .effort = *effort, .step_deg = effort->first_step_deg};
    search->best.rotation[0] = search->best.rotation[4] = search->best.rotation[8] = 1.0;
}

/* The scale at a turn; keeps the placement if it is the best so far. */
static lw_status try_turn(lw_search *search, lw_turn turn, double *scale)
{
    double rotation[9];
    lw_turn_matrix(turn, rotation);
    lw_placement placement;
    lw_status status = lw_fitter_place(search->fitter, rotation, &placement);
    if (status != LW_OK) {
        return status;
    }
    search->tried++;
    if (placement.scale_mm > search->best.scale_mm) {
        search->best = placement;
    }
    *scale = placement.scale_mm;
    return LW_OK;
}

/* Keeps the best starts in order; an equal one, the stone's own symmetry mostly, is no new lead. */
static void keep_lead(lw_search *search, lw_turn turn, double scale)
{
    int place = search->lead_count;
    while (place > 0 && scale > search->leads[place - 1].scale_mm) {
        place--;
    }
    double near_scale = LW_SEARCH_SAME * fabs(scale);
    bool same_above = place > 0 && search->leads[place - 1].scale_mm - scale <= near_scale;
    bool same_below =
        place < search->lead_count && scale - search->leads[place].scale_mm <= near_scale;
    if (place >= search->effort.leads || same_above || same_below) {
        return;
    }
    if (search->lead_count < search->effort.leads) {
        search->lead_count++;
    }
    for (int i = search->lead_count - 1; i > place; i--) {
        search->leads[i] = search->leads[i - 1];
    }
    search->leads[place] = (lw_lead){turn, scale};
}

static lw_status try_start(lw_search *search)
{
    int i = search->next_start++;
    lw_turn turn = i < LW_TURN_AXIS_COUNT
                       ? lw_turn_axis(i)
                       : lw_turn_spread(i - LW_TURN_AXIS_COUNT, LW_SEARCH_SPREAD);
    double scale = 0.0;
    lw_status status = try_turn(search, turn, &scale);
    if (status == LW_OK) {
        keep_lead(search, turn, scale);
    }
    return status;
}

/* The lead that is being improved: after all of them the best one, again. */
static lw_lead *current_lead(lw_search *search)
{
    if (search->lead < search->lead_count) {
        return &search->leads[search->lead];
    }
    int best = 0;
    for (int i = 1; i < search->lead_count; i++) {
        if (search->leads[i].scale_mm > search->leads[best].scale_mm) {
            best = i;
        }
    }
    return &search->leads[best];
}

/* The rotation vector of a probe: along one of three axes, turned afresh each round but the first.
 */
static lw_vec3 probe_vector(const lw_search *search)
{
    double frame[9] = {1, 0, 0, 0, 1, 0, 0, 0, 1};
    int number = search->round + 7 * search->lead;
    if (search->round > 0) {
        lw_turn_matrix(lw_turn_spread((number * 23) % FRAMES, FRAMES), frame);
    }
    const double *axis = frame + 3 * (search->probe / 2);
    double length = lw_rad_from_deg(search->step_deg) * (search->probe % 2 == 0 ? 1.0 : -1.0);
    return lw_vec3_scale((lw_vec3){axis[0], axis[1], axis[2]}, length);
}

static void end_lead(lw_search *search)
{
    search->lead++;
    search->round = 0;
    search->probe = 0;
    search->moved = false;
    search->step_deg = search->effort.first_step_deg;
    if (search->lead >= search->lead_count) {
        search->step_deg = fmax(search->effort.last_step_deg, 0.25 * search->step_deg);
    }
}

/* After its six probes a round ends: the step is halved unless something was gained. */
static void end_round(lw_search *search)
{
    if (!search->moved) {
        search->step_deg *= 0.5;
    }
    search->moved = false;
    search->probe = 0;
    search->round++;
    if (search->step_deg < search->effort.last_step_deg || search->round >= LW_SEARCH_MOST_ROUNDS) {
        end_lead(search);
    }
}

static lw_status try_probe(lw_search *search)
{
    lw_lead *lead = current_lead(search);
    lw_turn turn = lw_turn_after(lw_turn_by(probe_vector(search)), lead->turn);
    double scale = 0.0;
    lw_status status = try_turn(search, turn, &scale);
    if (status != LW_OK) {
        return status;
    }
    search->probe++;
    if (scale - lead->scale_mm > LW_SEARCH_SAME * fabs(scale)) {
        *lead = (lw_lead){turn, scale};
        search->moved = true;
    }
    if (search->probe == PROBES) {
        end_round(search);
    }
    return LW_OK;
}

lw_status lw_search_step(lw_search *search, int budget)
{
    lw_status status = LW_OK;
    while (budget-- > 0 && !search->done && status == LW_OK) {
        if (search->next_start < STARTS) {
            status = try_start(search);
        } else if (search->lead_count > 0 &&
                   search->lead < search->lead_count + LW_SEARCH_ENCORES) {
            status = try_probe(search);
        } else {
            lw_fitter_center(search->fitter, &search->best);
            search->done = true;
        }
    }
    return status;
}

double lw_search_progress(const lw_search *search)
{
    if (search->done) {
        return 1.0;
    }
    double starts = (double)search->next_start / STARTS;
    if (search->lead_count == 0 || search->next_start < STARTS) {
        return 0.1 * starts;
    }
    double rounds = (double)search->round / LW_SEARCH_MOST_ROUNDS;
    return 0.1 + 0.9 * (search->lead + rounds) / (search->lead_count + LW_SEARCH_ENCORES);
}
