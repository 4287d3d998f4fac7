#include "kit.h"

#include "text.h"

#include <string.h>

const char *const cli_polishes[] = {"cerium", "alumina", "diamond", NULL};
const char *const cli_bench_parts[] = {"adapter", "transfer-jig", "cheater", NULL};
const char *const cli_counts[] = {"counter-clockwise", "clockwise", NULL};

lw_counts cli_counts_given(const cli_args *args)
{
    const char *way = cli_text(args, "counts", cli_counts[0]);
    return strcmp(way, cli_counts[1]) == 0 ? LW_COUNTS_CLOCKWISE : LW_COUNTS_COUNTER_CLOCKWISE;
}

static int whole_numbers(const cli_args *args, const char *name, int *out)
{
    int count = 0;
    const double *numbers = cli_numbers(args, name, &count);
    for (int i = 0; i < count; i++) {
        out[i] = (int)numbers[i];
    }
    return count;
}

static lw_have *part_of(lw_kit *kit, const char *word)
{
    if (strcmp(word, cli_bench_parts[0]) == 0) {
        return &kit->adapter;
    }
    return strcmp(word, cli_bench_parts[1]) == 0 ? &kit->transfer_jig : &kit->cheater;
}

static bool set_parts(const cli_args *args, const char *option, lw_have have, lw_kit *kit)
{
    const cli_given *given = NULL;
    for (int i = 0; (given = cli_repeated(args, option, i)) != NULL; i++) {
        lw_have *part = part_of(kit, given->text);
        if (*part != LW_HAVE_UNSAID && *part != have) {
            cli_fail("%s: found %s under --have and --lack; expected it under one",
                     args->verb->name, given->text);
            return false;
        }
        *part = have;
    }
    return true;
}

bool cli_kit(const cli_args *args, lw_kit *kit)
{
    lw_kit result = {.counts = cli_counts_given(args)};
    const cli_given *given = NULL;
    result.wheel_count = whole_numbers(args, "wheels", result.wheels);
    result.lap_count = whole_numbers(args, "laps", result.laps);
    const double *dops = cli_numbers(args, "dops-mm", &result.dop_count);
    for (int i = 0; i < result.dop_count; i++) {
        result.dops_mm[i] = dops[i];
    }
    for (int i = 0; (given = cli_repeated(args, "polish", i)) != NULL; i++) {
        result.polishes_said = true;
        result.polishes |= lw_polish_find(given->text);
    }
    if (!set_parts(args, "have", LW_HAVE_YES, &result) ||
        !set_parts(args, "lack", LW_HAVE_NO, &result)) {
        return false;
    }
    *kit = result;
    return true;
}
