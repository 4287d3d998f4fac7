/* What a stone in a material asks of the bench, and what of it a kit lacks. */
#ifndef LW_CRAFT_NEED_H
#define LW_CRAFT_NEED_H

#include "craft/kit.h"
#include "cut/wheel.h"
#include "matter/material.h"

/* How a stone stands on the best of a kit's wheels. */
typedef struct lw_wheel_choice {
    lw_wheel_fit fit; /* on fit.wheel */
    bool own;         /* the cut's own wheel, because the kit names none */
} lw_wheel_choice;

/* The wheel of the kit that suits the stone best: one with every tooth whole, the cut's own wheel
 * first, then the first named; else the one on which the most teeth are whole, then the one with
 * the smallest greatest cheater. Without wheels in the kit the cut's own. */
void lw_kit_choose_wheel(const lw_kit *kit, const lw_cut *cut, const lw_stone *stone,
                         lw_wheel_choice *out);

typedef enum lw_need_kind {
    LW_NEED_WHEEL,     /* every tooth, or a cheater */
    LW_NEED_ADAPTER,   /* 45 degrees */
    LW_NEED_TRANSFER,  /* a jig */
    LW_NEED_DOP,       /* half to seven tenths of the width */
    LW_NEED_COARSE,    /* a lap to shape with, up to mesh 260 */
    LW_NEED_FINE,      /* 500 to 1500 */
    LW_NEED_PREPOLISH, /* 3000 and finer */
    LW_NEED_POLISH,
    LW_NEED_COUNT
} lw_need_kind;

enum { LW_NEED_TEXT = 160 };

typedef struct lw_need {
    lw_need_kind kind;
    lw_have have;            /* YES, NO: it is missing; UNSAID: the kit does not say */
    char text[LW_NEED_TEXT]; /* "a wheel of 96, 64 or 80 teeth": what to get, or to have at hand */
} lw_need;

/* Every need of the stone, in the order in which it comes up at the bench; at most LW_NEED_COUNT.
 * width_mm may be 0 (not known: no dop is asked for). Gives how many. */
int lw_kit_needs(const lw_kit *kit, const lw_cut *cut, const lw_stone *stone,
                 const lw_material *material, double width_mm, const lw_wheel_choice *choice,
                 lw_need needs[LW_NEED_COUNT]);

#endif
