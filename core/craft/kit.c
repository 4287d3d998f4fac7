#include "craft/kit.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

static const struct {
    unsigned bit;
    const char *key, *text;
} polishes[] = {
    {LW_POLISH_CERIUM, "cerium", "cerium oxide"},
    {LW_POLISH_ALUMINA, "alumina", "aluminium oxide"},
    {LW_POLISH_DIAMOND, "diamond", "diamond powder"},
};

enum { POLISHES = sizeof polishes / sizeof *polishes };

unsigned lw_polish_find(const char *text)
{
    for (int i = 0; i < POLISHES; i++) {
        if (strcmp(polishes[i].key, text) == 0) {
            return polishes[i].bit;
        }
    }
    return 0;
}

const char *lw_polish_text(unsigned polish)
{
    int at = 0;
    while (at < POLISHES && polishes[at].bit != polish) {
        at++;
    }
    assert(at < POLISHES);
    return at < POLISHES ? polishes[at].text : "";
}

lw_status lw_kit_check(const lw_kit *kit, lw_problem *problem)
{
    char found[64];
    for (int i = 0; i < kit->wheel_count; i++) {
        if (kit->wheels[i] < LW_KIT_LEAST_TEETH || kit->wheels[i] > LW_KIT_MOST_TEETH) {
            snprintf(found, sizeof found, "a wheel of %d teeth", kit->wheels[i]);
            return lw_problem_set(problem, LW_BAD_INPUT, 0, 0, found, "8 to 360 teeth", "");
        }
    }
    for (int i = 0; i < kit->dop_count; i++) {
        if (!(kit->dops_mm[i] > 0.0 && kit->dops_mm[i] <= 100.0)) {
            return lw_problem_set(problem, LW_BAD_INPUT, 0, 0, "a dop of no use",
                                  "a diameter above 0 and up to 100 mm", "");
        }
    }
    for (int i = 0; i < kit->lap_count; i++) {
        if (kit->laps[i] < 10 || kit->laps[i] > LW_KIT_MOST_MESH) {
            snprintf(found, sizeof found, "a lap of mesh %d", kit->laps[i]);
            return lw_problem_set(problem, LW_BAD_INPUT, 0, 0, found, "10 to 200000", "");
        }
    }
    return LW_OK;
}
