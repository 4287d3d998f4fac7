/* lapwing-picture: traces pictures, on as many threads as there are processors. */
#include "picture/picture_options.h"
#include "picture/run.h"
#include "program.h"

int main(int argc, char **argv)
{
    static const cli_work works[] = {{&cli_verb_picture, cli_picture_run}, {NULL, NULL}};
    return cli_program_main(argc, argv, works);
}
