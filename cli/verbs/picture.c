/* lapwing picture: how a cut looks. The work is done by lapwing-picture. */
#include "colour.h"
#include "file.h"
#include "look.h"
#include "picture/picture_options.h"
#include "place.h"

static const char *const lanes[] = {"scalar", "sse2", "avx2", "avx512", NULL};

const char *const cli_picture_forms[] = {"moving", "sheet", "files", NULL};

#define PICTURE_NUMBER(option_name, letters, option_unit, least, highest_value, text)              \
    {                                                                                              \
        .name = option_name, .kind = CLI_NUMBER, .value = letters, .unit = option_unit,            \
        .lowest = least, .highest = highest_value, .help = text                                    \
    }
#define PICTURE_COUNT(option_name, letters, least, highest_value, text)                            \
    {                                                                                              \
        .name = option_name, .kind = CLI_NUMBER, .value = letters, .lowest = least,                \
        .highest = highest_value, .whole = true, .help = text                                      \
    }

static const cli_option options[] = {
    CLI_OUTPUT_OPTION("where to write it, as PNG"),
    CLI_CUT_OPTIONS,
    CLI_LOOK_INDEX_OPTION,
    CLI_PLACE_OPTION,
    CLI_COLOUR_OPTIONS,
    PICTURE_NUMBER("tilt-deg", "T", "deg", 0.0, PICTURE_MOST_TILT_DEG,
                   "how far the stone is tilted away from the eye (0; 20 on a turn-table)"),
    PICTURE_NUMBER(
        "turn-deg", "U", "deg", -360.0, 360.0,
        "which side of it comes nearer, counter-clockwise from tooth 0, which lies to the "
        "right (0; on a turn-table 270, the near side)"),
    PICTURE_NUMBER("head-deg", "H", "deg", 0.0, 90.0,
                   "half-angle of the viewer's head (the place's own)"),
    PICTURE_COUNT("turntable", "FRAMES", 2, 720, "turn the stone once round in so many frames"),
    PICTURE_COUNT("rock", "FRAMES", 2, 720, "rock it to both sides in so many frames"),
    PICTURE_NUMBER("rock-deg", "DEG", "deg", 0.1, PICTURE_MOST_TILT_DEG,
                   "how far it is rocked to each side (20)"),
    {.name = "as",
     .kind = CLI_CHOICE,
     .value = "FORM",
     .choices = cli_picture_forms,
     .help = "what frames become: one PNG that moves (unless given), all side by side in one, or "
             "a file each"},
    {.name = "size",
     .kind = CLI_NUMBERS,
     .value = "PX",
     .lowest = 8,
     .highest = 8192,
     .whole = true,
     .separator = 'x',
     .least = 1,
     .most = 2,
     .help = "pixels across, or across and down: 800x600 (600)"},
    PICTURE_NUMBER("fill", "SHARE", "%", 1.0, 100.0,
                   "how much of the width or height the stone takes (86)"),
    PICTURE_NUMBER("ground", "SHARE", "%", 0.0, 100.0,
                   "what a grey ground under the stone sends back of the light on it (18 where the "
                   "place has none)"),
    PICTURE_NUMBER("stops", "S", NULL, -16.0, 16.0,
                   "expose by so many doublings more than for a white card (0)"),
    PICTURE_COUNT("samples", "N", 1, 4096, "rays a pixel everywhere (4)"),
    PICTURE_COUNT("samples-most", "N", 1, 65536, "and where they differ (16 times as many)"),
    PICTURE_COUNT("bands", "N", 1, 81, "wavelengths followed, where there is any colour (16)"),
    {.name = "unpolarised",
     .kind = CLI_FLAG,
     .help = "average polarisation away at each surface, as general renderers do"},
    PICTURE_COUNT("threads", "N", 1, 256, "threads (as many as there are processors)"),
    {.name = "lanes",
     .kind = CLI_CHOICE,
     .value = "L",
     .choices = lanes,
     .help = "instructions that rays are followed with (the best there are)"},
    {.name = "raw",
     .kind = CLI_FILE,
     .value = "FILE",
     .help = "write the radiance as traced, too: a portable float map"},
    CLI_OPTIONS_END,
};

static const char *const examples[] = {
    "lapwing picture round-brilliant --material diamond -o diamond.png",
    "lapwing picture oval-brilliant --material corundum --colour 1f3c8c --colour-mm 5 --width-mm 7 "
    "--rock 24 -o sapphire.png",
    "lapwing picture classic-quartz-round --rock 5 --as sheet --size 300 -o sheet.png",
    NULL,
};

const cli_verb cli_verb_picture = {
    .name = "picture",
    .summary = "A traced picture of a cut, still, turning or rocked",
    .operands = "CUT",
    .operands_least = 1,
    .operands_most = 1,
    .details =
        "The eye is far away; what it sees past the stone is what the place has behind it, or a "
        "grey ground. Exposed so that a white card beside the stone is almost white; and for eyes "
        "that are used to the colour of the light. Doubling, flaws and scratches are not drawn.\n\n"
        "Under the even sky, with --ground 0, the stone's light is that which lapwing light "
        "measures. Interrupted, it writes nothing.",
    .options = options,
    .examples = examples,
    .program = "lapwing-picture",
};
