/* lapwing-tune: does the work of lapwing tune. A program of its own, for it links NLopt. */
#include "program.h"
#include "tune/tune.h"

int main(int argc, char **argv)
{
    static const cli_work works[] = {{&cli_verb_tune, tune_run}, {NULL, NULL}};
    return cli_program_main(argc, argv, works);
}
