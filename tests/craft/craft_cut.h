/* A cut and its stone, for the tests of craft. */
#ifndef LW_TEST_CRAFT_CUT_H
#define LW_TEST_CRAFT_CUT_H

#include "cut/read.h"
#include "cut/solve.h"

typedef struct craft_cut {
    lw_cut cut;
    lw_stone stone;
} craft_cut;

/* Reads and solves a text; fails the test when it cannot. */
void craft_cut_of_text(const char *text, craft_cut *out);
/* The same for a built-in cut. */
void craft_cut_of_name(const char *name, craft_cut *out);
void craft_cut_drop(craft_cut *cut);

#endif
