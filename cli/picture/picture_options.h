/* What the table of the verb and the program that does its work both know. */
#ifndef LW_CLI_PICTURE_OPTIONS_H
#define LW_CLI_PICTURE_OPTIONS_H

#include "verb.h"

/* What becomes of several frames: in the order of picture_form; ended by NULL. */
extern const char *const cli_picture_forms[];

extern const cli_verb cli_verb_picture;

enum { PICTURE_MOST_TILT_DEG = 89, PICTURE_BANDS = 16 };

#endif
