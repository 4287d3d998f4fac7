/* What picture is asked for. */
#ifndef LW_CLI_PICTURE_ASK_H
#define LW_CLI_PICTURE_ASK_H

#include "stone.h"

#include "light/picture/picture.h"
#include "light/picture/pose.h"

#include <stdatomic.h>

typedef enum picture_motion {
    PICTURE_STILL,
    PICTURE_TURNTABLE, /* once round its own axis */
    PICTURE_ROCKED     /* to one side, to the other, and back */
} picture_motion;

typedef enum picture_form {
    PICTURE_MOVING, /* one file that plays */
    PICTURE_SHEET,  /* all frames side by side in one picture */
    PICTURE_FILES   /* a file each */
} picture_form;

typedef struct picture_request {
    cli_stone stone;
    lw_optic_solid solid;
    const lw_material *material; /* as chosen; NULL for an index alone */
    lw_material own;             /* with the stone's own index, where material is not NULL */
    double index;                /* at 589.3 nm */
    lw_absorption absorption;
    lw_light_place place;
    lw_picture_pose pose;
    double head_deg; /* below 0: the place's own */
    picture_motion motion;
    picture_form form;
    int frames;
    double rock_deg;
    lw_picture picture; /* all but how it is framed */
    int bands;          /* 1 where nothing has a colour */
    double fill;
    int threads;
    const atomic_bool *stopped; /* set when it was interrupted; not of picture_ask's */
    const char *output, *raw;   /* NULL: not asked for */
} picture_request;

/* Fails with one line on standard error. */
bool picture_ask(const cli_args *args, picture_request *out);
void picture_request_destroy(picture_request *request);

/* What it is made of; borrowed from request. */
lw_picture_stone picture_stone_of(const picture_request *request);

/* How the stone is held in frame i. */
lw_picture_pose picture_pose_at(const picture_request *request, int i);

#endif
