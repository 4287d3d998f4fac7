/* lapwing VERB … */
#include "program.h"

int main(int argc, char **argv)
{
    return cli_lapwing_main(argc, argv);
}
