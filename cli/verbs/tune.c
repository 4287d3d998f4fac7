/* lapwing tune: the best angles. The work is done by lapwing-tune (cli/tune/), which links NLopt.
 */
#include "tune/tune.h"
#include "file.h"

#include "tune_judge.h"

const char *const cli_tune_holds[] = {"pavilion", "crown", NULL};

static const cli_option options[] = {
    CLI_CUT_OPTIONS,
    CLI_LOOK_MANY_OPTIONS,
    {.name = "for",
     .kind = CLI_TEXT,
     .value = "AIM[=SHARE]",
     .repeats = true,
     .help = "what is wanted: brightness, fire, contrast or weight, and how much it counts beside "
             "the others (brightness)"},
    {.name = "free",
     .kind = CLI_TEXT,
     .value = "NAME",
     .repeats = true,
     .help = "vary this as well: a setting by name, a step by number, or all that the cut leaves "
             "free"},
    {.name = "hold",
     .kind = CLI_CHOICE,
     .value = "SIDE",
     .choices = cli_tune_holds,
     .help = "leave this side's angles as they are"},
    CLI_ANGLE_RANGE_OPTION(
        "pavilion-deg",
        "range of the pavilion's main angle; 6 either way, within the cut's limits"),
    CLI_ANGLE_RANGE_OPTION(
        "crown-deg", "range of the crown's main angle; 15 either way, within the cut's limits"),
    {.name = "no-window-to-deg",
     .kind = CLI_NUMBER,
     .value = "T",
     .unit = "deg",
     .lowest = 0.0,
     .highest = 60.0,
     .help = "no window straight from above nor tilted by this much"},
    {.name = "margin-deg",
     .kind = CLI_NUMBER,
     .value = "DEG",
     .unit = "deg",
     .lowest = 0.0,
     .highest = 20.0,
     .help = "keep the pavilion's flattest facets so far above the critical angle (1)"},
    {.name = "crown-percent",
     .kind = CLI_NUMBERS,
     .value = "FROM,TO",
     .unit = "%",
     .lowest = 0.0,
     .highest = 100.0,
     .separator = ',',
     .least = 2,
     .most = 2,
     .help = "keep the crown's height within these shares of the width"},
    {.name = "depth-percent",
     .kind = CLI_NUMBER,
     .value = "D",
     .unit = "%",
     .lowest = 1.0,
     .highest = 500.0,
     .help = "keep the depth below this share of the width"},
    {.name = "rock-deg",
     .kind = CLI_NUMBER,
     .value = "R",
     .unit = "deg",
     .lowest = 0.0,
     .highest = 45.0,
     .help = "judge the stone rocked by so much as well as straight from above (10)"},
    {.name = "off-deg",
     .kind = CLI_NUMBER,
     .value = "DEG",
     .unit = "deg",
     .lowest = 0.0,
     .highest = 2.0,
     .help = "how far off angles may come out at the lap (0.1)"},
    {.name = "whole-deg",
     .kind = CLI_NUMBER,
     .value = "DEG",
     .unit = "deg",
     .lowest = 0.0,
     .highest = 1.0,
     .help = "give angles in whole steps of this; 0 for as they are found (0.05)"},
    {.name = "seed",
     .kind = CLI_NUMBER,
     .value = "N",
     .lowest = 1.0,
     .highest = 1000000.0,
     .whole = true,
     .help = "another seed looks elsewhere first (1)"},
    {.name = "tries",
     .kind = CLI_NUMBER,
     .value = "N",
     .lowest = 10.0,
     .highest = 1000000.0,
     .whole = true,
     .help = "places to try all over the ranges; 100 for each that is varied and 100 more"},
    CLI_OUTPUT_OPTION("write the tuned cut there"),
    CLI_OPTIONS_END,
};

static const char *const examples[] = {
    "lapwing tune classic-quartz-round --no-window-to-deg 6 -o mine.cut",
    "lapwing tune round-brilliant --material corundum --for brightness=2 --for fire",
    "lapwing tune step-octagon --free all --for brightness --for weight=2 --depth-percent 70",
    NULL,
};

const cli_verb cli_verb_tune = {
    .name = "tune",
    .summary = "The angles at which a cut is at its best, and how exactly they must be cut",
    .operands = "CUT",
    .operands_least = 1,
    .operands_most = 1,
    .details =
        "Varies the angles of pavilion and crown, each side by the tangent ratio so that every "
        "meet "
        "stays, and with --free what else the cut's own rules leave open. Outline and girdle stay. "
        "A stone is judged straight from above and rocked in the hand, and as it comes out when "
        "each angle is a little off: an angle that must be met to a hundredth of a degree is no "
        "use "
        "to anybody.\n\n"
        "Says what was gained, and for each angle within what range the stone is as good to one "
        "per "
        "cent. The same words give the same answer. Without --material or --refractive-index the "
        "first material that the cut suits is taken. Ends with status 1 when no stone keeps what "
        "was asked.",
    .options = options,
    .examples = examples,
    .program = "lapwing-tune",
};
