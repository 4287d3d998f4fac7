/* The work of lapwing picture. */
#ifndef LW_CLI_PICTURE_RUN_H
#define LW_CLI_PICTURE_RUN_H

#include "verb.h"

cli_exit cli_picture_run(const cli_args *args);

#endif
