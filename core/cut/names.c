/* Steps and facets in the order of their names. */
#include "cut/solver.h"

#include <string.h>

bool lw_names_make(lw_names *names, lw_arena *arena, const lw_cut *cut, int facets)
{
    size_t n = (size_t)facets;
    size_t m = (size_t)cut->step_count;
    names->count = 0;
    names->facets = lw_arena_new(arena, n, sizeof(int));
    names->steps = lw_arena_new(arena, m, sizeof(int));
    names->first_step = lw_arena_new(arena, m + 1, sizeof(int));
    names->first_facet = lw_arena_new(arena, m + 1, sizeof(int));
    return names->facets && names->steps && names->first_step && names->first_facet;
}

typedef bool comes_before(const lw_solver *solver, int a, int b);

/* Shell's method with gaps of 3 n + 1 (D. L. Shell, Comm. ACM 2(7), 1959). The orders below leave
 * no two alike, so that it need not be stable. */
static void sort(const lw_solver *solver, int *items, int count, comes_before *before)
{
    int gap = 1;
    while (gap < count / 3) {
        gap = 3 * gap + 1;
    }
    for (; gap > 0; gap /= 3) {
        for (int i = gap; i < count; i++) {
            int item = items[i];
            int place = i;
            while (place >= gap && before(solver, item, items[place - gap])) {
                items[place] = items[place - gap];
                place -= gap;
            }
            items[place] = item;
        }
    }
}

static bool step_before(const lw_solver *solver, int a, int b)
{
    int order = strcmp(solver->cut->steps[a].name, solver->cut->steps[b].name);
    return order != 0 ? order < 0 : a < b;
}

static bool facet_before(const lw_solver *solver, int a, int b)
{
    double difference = solver->text_teeth[a] - solver->text_teeth[b];
    return difference != 0.0 ? difference < 0.0 : a < b;
}

static int sort_steps(lw_solver *solver)
{
    int count = 0;
    for (int i = 0; i < solver->cut->step_count; i++) {
        if (solver->cut->steps[i].kind == LW_STEP_FACETS) {
            solver->names.steps[count++] = i;
        }
    }
    sort(solver, solver->names.steps, count, step_before);
    return count;
}

void lw_names_sort(lw_solver *solver)
{
    lw_names *names = &solver->names;
    const lw_step *steps = solver->cut->steps;
    int step_count = sort_steps(solver);
    int facet_count = 0;
    names->count = 0;
    for (int i = 0; i < step_count; i++) {
        int step = names->steps[i];
        if (i == 0 || strcmp(steps[names->steps[i - 1]].name, steps[step].name) != 0) {
            names->first_step[names->count] = i;
            names->first_facet[names->count] = facet_count;
            names->count++;
        }
        const lw_tier *tier = &solver->tiers[step];
        for (int k = 0; k < tier->count; k++) {
            names->facets[facet_count++] = tier->first + k;
        }
    }
    names->first_step[names->count] = step_count;
    names->first_facet[names->count] = facet_count;
    for (int i = 0; i < names->count; i++) {
        int first = names->first_facet[i];
        sort(solver, names->facets + first, names->first_facet[i + 1] - first, facet_before);
    }
}

int lw_names_find(const lw_solver *solver, const char *name)
{
    const lw_names *names = &solver->names;
    int low = 0;
    int high = names->count;
    while (low < high) {
        int middle = (low + high) / 2;
        int step = names->steps[names->first_step[middle]];
        int order = strcmp(name, solver->cut->steps[step].name);
        if (order == 0) {
            return middle;
        }
        if (order < 0) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    return -1;
}
