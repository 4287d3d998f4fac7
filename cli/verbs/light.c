/* lapwing light: how a cut looks, in numbers, in words and as maps. */
#include "light.h"

#include "colour.h"
#include "look.h"
#include "place.h"

static const cli_option options[] = {
    CLI_CUT_OPTIONS,
    CLI_LOOK_INDEX_OPTION,
    CLI_PLACE_OPTION,
    CLI_COLOUR_OPTIONS,
    CLI_LOOK_EYE_OPTIONS,
    {.name = "head-deg",
     .kind = CLI_NUMBER,
     .value = "H",
     .unit = "deg",
     .lowest = 0.0,
     .highest = 90.0,
     .help = "half-angle of the viewer's head, which is dark (10, or the place's)"},
    {.name = "unpolarised",
     .kind = CLI_FLAG,
     .help = "average polarisation away at each surface, as general renderers do"},
    {.name = "steps",
     .kind = CLI_FLAG,
     .help = "what each step of the cut does: its share of the face, what is seen through it, the "
             "light that it turns, lets in and loses"},
    {.name = "beam-map",
     .kind = CLI_FILE,
     .value = "FILE",
     .help = "the face in patches that each send one beam: how bright, where their light comes "
             "from; .svg, .png, .pdf or .json"},
    {.name = "tilt-map",
     .kind = CLI_FILE,
     .value = "FILE",
     .help = "brightness and window over all tilts to 40 degrees, as a round map; .svg, .png, .pdf "
             "or .json"},
    {.name = "error",
     .kind = CLI_NUMBER,
     .value = "E",
     .lowest = 1e-7,
     .highest = 0.1,
     .help = "how far brightness, 0 to 1, may be off (0.00005)"},
    {.name = "rays",
     .kind = CLI_NUMBER,
     .value = "R",
     .lowest = 1000,
     .highest = 100000000,
     .whole = true,
     .help = "in place of beams R rays, one by one: slow, a check on the beams"},
    CLI_OPTIONS_END,
};

static cli_exit run(const cli_args *args)
{
    return cli_light_run(args, NULL);
}

static const char *const examples[] = {
    "lapwing light round-brilliant --material diamond",
    "lapwing light round-brilliant --set pavilion=41.5 --refractive-index 1.77 --tilt-deg 12",
    "lapwing light classic-quartz-round --steps --beam-map face.svg --tilt-map tilt.svg",
    "lapwing light oval-brilliant --place north-window --width-mm 9 --colour 8040C0 --colour-mm 5",
    NULL,
};

const cli_verb cli_verb_light = {
    .name = "light",
    .summary = "How bright a cut looks, and where its light goes",
    .operands = "CUT",
    .operands_least = 1,
    .operands_most = 1,
    .details =
        "The stone lies under an even sky that reaches down to the girdle plane; below it is dark, "
        "and so is the viewer's head. The eye is far away. Shares are of what is seen in the "
        "stone's outline. With --place it lies there instead, and brightness is a share of what "
        "that place calls bright.\n\n"
        "A window is said to be open where it comes to one hundredth of the face. What tilting "
        "does is told for all directions to 40 degrees, whatever --tilt-deg says.\n\n"
        "Without --material or --refractive-index the first material that the cut suits is taken. "
        "A doubly refracting material is traced with its mean index.",
    .options = options,
    .examples = examples,
    .run = run,
    .program = "lapwing-light",
    .hands_over = cli_light_draws,
};
