#include "seen.h"

int lw_look_sides(int fold, double turn_deg[LW_LOOK_MOST_SIDES])
{
    int count = fold > 1 ? 2 : 4;
    for (int i = 0; i < count; i++) {
        turn_deg[i] = 360.0 / (fold > 1 ? fold : 1) * i / count;
    }
    return count;
}

static lw_status pose(const lw_memory *memory, const lw_polyhedron *solid, const lw_look *look,
                      double tilt_deg, double turn_deg, lw_light_measures *out)
{
    lw_light_options options = look->light;
    options.tilt_deg = tilt_deg;
    options.turn_deg = turn_deg;
    return lw_light_measure(memory, solid, &options, out);
}

static void add(lw_seen *sum, const lw_light_measures *m, double weight)
{
    sum->brightness += weight * m->brightness;
    sum->glare += weight * m->glare;
    sum->window += weight * m->window;
    sum->leak += weight * m->leak;
    sum->extinction += weight * m->extinction;
    sum->contrast += weight * m->contrast;
    sum->fire_deg += weight * m->fire_deg;
    sum->error_est += weight * m->error_est;
}

lw_status lw_look_at(const lw_memory *memory, const lw_polyhedron *solid, int fold,
                     const lw_look *look, lw_seen *out)
{
    double turns[LW_LOOK_MOST_SIDES];
    lw_light_measures m;
    lw_seen sum = {0};
    bool rocked = look->rock_deg > 0.0 && look->tilt_deg == 0.0;
    int count = lw_look_sides(fold, turns);
    lw_status status = pose(memory, solid, look, look->tilt_deg, look->turn_deg, &m);
    if (status == LW_OK) {
        add(&sum, &m, rocked ? 0.5 : 1.0);
    }
    for (int i = 0; i < count && rocked && status == LW_OK; i++) {
        status = pose(memory, solid, look, look->rock_deg, turns[i], &m);
        if (status == LW_OK) {
            add(&sum, &m, 0.5 / count);
        }
    }
    if (status == LW_OK) {
        *out = sum;
    }
    return status;
}

lw_status lw_look_for_window(const lw_memory *memory, const lw_polyhedron *solid, int fold,
                             const lw_look *look, double tilt_deg, double *out)
{
    double turns[LW_LOOK_MOST_SIDES] = {0};
    int count = tilt_deg > 0.0 ? lw_look_sides(fold, turns) : 1;
    double largest = 0.0;
    for (int i = 0; i < count; i++) {
        lw_light_measures m;
        lw_status status = pose(memory, solid, look, tilt_deg, turns[i], &m);
        if (status != LW_OK) {
            return status;
        }
        largest = m.window > largest ? m.window : largest;
    }
    *out = largest;
    return LW_OK;
}
