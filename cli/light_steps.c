/* What each step of a cut does for the stone. */
#include "light.h"

#include "text.h"

#include <stdio.h>

/* Of the facets that are left of a step; false when none is. */
static bool sum_of(const cli_light *light, int step, lw_facet_light *out)
{
    const lw_tier *tier = &light->stone.stone.tiers[step];
    bool there = false;
    *out = (lw_facet_light){0};
    for (int i = tier->first; i < tier->first + tier->count; i++) {
        if (cli_facet_is_there(&light->stone.stone, i)) {
            lw_facet_light_add(out, &light->facets[i]);
            there = true;
        }
    }
    return there;
}

static const char *side_of(const cli_light *light, int step)
{
    const lw_stone *stone = &light->stone.stone;
    return cli_side_text(stone->facets[stone->tiers[step].first].side);
}

json_t *cli_light_steps_json(const cli_light *light)
{
    json_t *steps = json_array();
    for (int step = 0; step < light->stone.stone.tier_count; step++) {
        lw_facet_light sum;
        if (!sum_of(light, step, &sum)) {
            continue;
        }
        json_array_append_new(
            steps, json_pack("{s:i, s:s, s:s, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f}", "step",
                             step + 1, "name", light->stone.cut.steps[step].name, "side",
                             side_of(light, step), "face", sum.face, "bright", sum.bright, "window",
                             sum.window, "extinction", sum.extinction, "met", sum.met, "turned",
                             sum.turned, "lights", sum.lights, "leaks", sum.leaks));
    }
    return steps;
}

/* ---- in words ----------------------------------------------------------- */

static void say_share(double share, int width)
{
    printf("%*s", width, CLI_FIXED(100.0 * share, 1));
}

/* A dash where nothing falls on it. */
static void say_turned(const lw_facet_light *sum, int width)
{
    if (sum->met < 5e-4) {
        printf("%*s", width, "-");
    } else {
        say_share(sum->turned / sum->met, width);
    }
}

static void say_step(const cli_light *light, int step, const lw_facet_light *sum)
{
    printf("  %2d  %-8s  %-12s", step + 1, side_of(light, step), light->stone.cut.steps[step].name);
    say_share(sum->face, 7);
    say_share(sum->bright, 8);
    say_share(sum->window, 8);
    say_share(sum->extinction, 6);
    say_share(sum->met, 10);
    say_turned(sum, 6);
    say_share(sum->lights, 10);
    say_share(sum->leaks, 7);
    putchar('\n');
}

static void say_most(const cli_light *light, const char *does, int step)
{
    if (step >= 0) {
        char facet[CLI_LIGHT_FACET];
        cli_light_facet_words(light, light->stone.stone.tiers[step].first, facet);
        printf("Most light %s by %s.\n", does, facet);
    }
}

static void say_head(void)
{
    printf("\nWhat each step does, in %% of the light on the whole face:\n\n");
    printf("%35s  %-22s%-17s%s\n", "of the", "seen through it:", "light inside:", "light by it:");
    printf("%-28s%7s%8s%8s%6s%10s%6s%10s%7s\n", "  step", "face", "bright", "window", "head",
           "falls on", "kept", "comes in", "leaks");
}

void cli_light_steps_say(const cli_light *light)
{
    int lights = -1, leaks = -1;
    double most_lights = 0.0, most_leaks = 5e-4;
    say_head();
    for (int step = 0; step < light->stone.stone.tier_count; step++) {
        lw_facet_light sum;
        if (!sum_of(light, step, &sum)) {
            continue;
        }
        say_step(light, step, &sum);
        if (sum.lights > most_lights) {
            most_lights = sum.lights;
            lights = step;
        }
        if (sum.leaks > most_leaks) {
            most_leaks = sum.leaks;
            leaks = step;
        }
    }
    putchar('\n');
    cli_fill(stdout,
             "Falls on: light inside the stone that meets the step, counted each time; kept: the "
             "share of it that is turned back inside; comes in: brightness whose light enters the "
             "stone there; leaks: what leaves there downward.",
             0);
    say_most(light, "comes in", lights);
    say_most(light, "leaks", leaks);
}
