#include "colour.h"

#include "text.h"

/* The option that lacks the other, or NULL. */
static const char *alone(bool colour, bool thickness)
{
    if (colour == thickness) {
        return NULL;
    }
    return colour ? "colour" : "colour-mm";
}

bool cli_colour(const cli_args *args, lw_absorption *out)
{
    const char *text = cli_text(args, "colour", NULL);
    bool has_thickness = cli_has(args, "colour-mm");
    const char *single = alone(text != NULL, has_thickness);
    if (single != NULL) {
        cli_fail("%s: found --%s alone; expected --%s with it", args->verb->name, single,
                 has_thickness ? "colour" : "colour-mm");
        return false;
    }
    if (text == NULL) {
        *out = (lw_absorption){.coloured = false};
        return true;
    }
    lw_rgb colour;
    if (lw_colour_read(text, &colour) != LW_OK) {
        cli_fail("%s: --colour: found '%.80s'; expected six hexadecimal digits, two each for red, "
                 "green and blue",
                 args->verb->name, text);
        return false;
    }
    if (lw_absorption_from_colour(colour, cli_number(args, "colour-mm", 0.0), out) != LW_OK) {
        cli_fail("%s: --colour: found '%.80s'; expected a colour that lets some light through",
                 args->verb->name, text);
        return false;
    }
    return true;
}
