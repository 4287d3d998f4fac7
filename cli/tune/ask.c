/* From the words of the command line to what is to be tuned. */
#include "tune/tune.h"

#include "text.h"

#include "geom/angle.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- what counts ---- */

static const char *aim_name_at(const void *context, int i)
{
    (void)context;
    return i < LW_AIM_COUNT ? lw_aim_names[i] : NULL;
}

/* "fire" or "fire=2". */
static bool ask_aim(const char *text, double shares[LW_AIM_COUNT])
{
    const char *equals = strchr(text, '=');
    size_t length = equals == NULL ? strlen(text) : (size_t)(equals - text);
    double share = 1.0;
    char name[40];
    snprintf(name, sizeof name, "%.*s", (int)(length < 39 ? length : 39), text);
    if (equals != NULL &&
        (!cli_read_number(equals + 1, NULL, &share) || !(share > 0.0 && share <= 1000.0))) {
        cli_fail("tune: --for: found '%.60s'; expected a share above 0, up to 1000, behind the "
                 "equals sign",
                 text);
        return false;
    }
    for (int i = 0; i < LW_AIM_COUNT; i++) {
        if (strcmp(name, lw_aim_names[i]) == 0) {
            shares[i] += share;
            return true;
        }
    }
    const char *near = cli_nearest(name, aim_name_at, NULL);
    cli_fail("tune: --for: found '%.60s'; expected brightness, fire, contrast or weight%s%s%s",
             text, near != NULL ? " (did you mean " : "", near != NULL ? near : "",
             near != NULL ? "?)" : "");
    return false;
}

static bool ask_aims(const cli_args *args, double shares[LW_AIM_COUNT])
{
    const cli_given *given = NULL;
    for (int i = 0; (given = cli_repeated(args, "for", i)) != NULL; i++) {
        if (!ask_aim(given->text, shares)) {
            return false;
        }
    }
    if (!cli_has(args, "for")) {
        shares[LW_AIM_BRIGHTNESS] = 1.0;
    }
    return true;
}

/* ---- what is varied ---- */

static bool narrow(const cli_args *args, const char *option, lw_handle *handle)
{
    int given = 0;
    const double *ends = cli_numbers(args, option, &given);
    if (given == 0) {
        return true;
    }
    if (!(ends[0] < ends[1]) || handle->start < ends[0] || handle->start > ends[1]) {
        cli_fail("tune: --%s: found %s,%s; expected the lower angle first, and the cut's own %s "
                 "between them",
                 option, CLI_SHORT(ends[0]), CLI_SHORT(ends[1]), CLI_FIXED(handle->start, 2));
        return false;
    }
    handle->lowest = ends[0];
    handle->highest = ends[1];
    return true;
}

static bool ask_side(const cli_args *args, lw_side side, tune_request *r)
{
    bool crown = side == LW_SIDE_CROWN;
    const char *held = cli_text(args, "hold", "");
    lw_handle handle;
    if (strcmp(held, cli_tune_holds[crown]) == 0 ||
        lw_vary_side(&r->vary, side, &handle) != LW_OK) {
        return true;
    }
    if (!narrow(args, crown ? "crown-deg" : "pavilion-deg", &handle)) {
        return false;
    }
    r->handles[r->handle_count++] = handle;
    return true;
}

/* "lower", or "6" for a step. */
static bool is_called(const lw_handle *handle, const char *name)
{
    char number[16];
    snprintf(number, sizeof number, "%d", handle->which + 1);
    return handle->kind == LW_HANDLE_STEP ? strcmp(number, name) == 0
                                          : strcmp(handle->name, name) == 0;
}

static bool is_there(const tune_request *r, const lw_handle *handle)
{
    for (int i = 0; i < r->handle_count; i++) {
        if (r->handles[i].kind == handle->kind && r->handles[i].which == handle->which) {
            return true;
        }
    }
    return false;
}

static bool not_free(const tune_request *r, const char *name)
{
    char list[800] = "";
    size_t used = 0;
    for (int i = 0; i < r->free_count && used < sizeof list; i++) {
        used += (size_t)snprintf(list + used, sizeof list - used, "%s%s", i == 0 ? "" : ", ",
                                 r->free[i].name);
    }
    cli_fail("tune: --free: found '%.60s'; expected %s%s", name,
             r->free_count > 0 ? "all, or one that is free in this cut: "
                               : "nothing, for in this cut all else follows from the sides",
             list);
    return false;
}

static bool ask_free(const cli_args *args, tune_request *r)
{
    const cli_given *given = NULL;
    for (int i = 0; (given = cli_repeated(args, "free", i)) != NULL; i++) {
        bool all = strcmp(given->text, "all") == 0, found = all && r->free_count > 0;
        for (int k = 0; k < r->free_count; k++) {
            bool called = is_called(&r->free[k], given->text);
            found = found || called;
            if ((all || called) && !is_there(r, &r->free[k])) {
                if (r->handle_count == LW_VARY_MOST) {
                    cli_fail("tune: --free: found more than %d to vary; expected fewer",
                             (int)LW_VARY_MOST);
                    return false;
                }
                r->handles[r->handle_count++] = r->free[k];
            }
        }
        if (!found) {
            return not_free(r, given->text);
        }
    }
    return true;
}

static bool ask_handles(const cli_args *args, tune_request *r)
{
    if (lw_vary_free(&r->vary, r->free, &r->free_count) != LW_OK) {
        cli_fail("%s: %s", r->stone.name, lw_status_text(LW_NO_MEMORY));
        return false;
    }
    if (!ask_side(args, LW_SIDE_PAVILION, r) || !ask_side(args, LW_SIDE_CROWN, r) ||
        !ask_free(args, r)) {
        return false;
    }
    if (r->handle_count == 0) {
        cli_fail("%s: found nothing to tune: no side with slanting facets that is not held; "
                 "expected one, or --free",
                 r->stone.name);
    }
    return r->handle_count > 0;
}

/* ---- limits ---- */

static bool ask_limits(const cli_args *args, tune_request *r)
{
    lw_tune_limits *l = &r->judge.limits;
    int given = 0;
    const double *crown = cli_numbers(args, "crown-percent", &given);
    l->window_tilt_deg = cli_number(args, "no-window-to-deg", -1.0);
    l->depth_most = cli_number(args, "depth-percent", 0.0) / 100.0;
    if (given == 2) {
        l->crown_least = crown[0] / 100.0;
        l->crown_most = crown[1] / 100.0;
        if (!(crown[0] < crown[1])) {
            cli_fail("tune: --crown-percent: found %s,%s; expected the lower height first",
                     CLI_SHORT(crown[0]), CLI_SHORT(crown[1]));
            return false;
        }
    }
    r->critical_deg = lw_asin_deg(1.0 / r->judge.look.light.index.yellow);
    r->margin_deg = cli_number(args, "margin-deg", LW_MAIN_MARGIN_DEG);
    l->pavilion_least_deg = r->critical_deg + r->margin_deg;
    return true;
}

/* ---- the whole ---- */

static bool ask_stone(const cli_args *args, tune_request *r)
{
    lw_override overrides[CLI_MOST_GIVEN];
    lw_solve_options options;
    lw_problem problem = {0};
    if (!cli_stone_make(args, &r->stone) || !cli_solve_options(args, overrides, &options)) {
        return false;
    }
    if (lw_vary_make(&r->stone.memory, &r->stone.cut, &options, &r->vary, &problem) != LW_OK) {
        cli_fail_problem(r->stone.name, &problem);
        return false;
    }
    return true;
}

bool tune_ask(const cli_args *args, tune_request *out)
{
    out->args = args;
    if (!ask_stone(args, out) || !ask_aims(args, out->judge.shares) ||
        !cli_look_many(args, &out->stone, &out->material, &out->place, &out->judge.look) ||
        !ask_handles(args, out) || !ask_limits(args, out)) {
        return false;
    }
    out->judge.look.rock_deg = cli_number(args, "rock-deg", 10.0);
    out->judge.vary = &out->vary;
    out->judge.handles = out->handles;
    out->judge.handle_count = out->handle_count;
    out->judge.hold_deg = cli_number(args, "off-deg", 0.1);
    out->judge.threads = cli_threads(args);
    out->whole_deg = cli_number(args, "whole-deg", 0.05);
    out->seed = (unsigned)cli_number(args, "seed", 1.0);
    out->tries = (int)cli_number(args, "tries", 0.0);
    return true;
}

void tune_forget(tune_request *request)
{
    lw_vary_destroy(&request->vary);
    cli_stone_destroy(&request->stone);
}
