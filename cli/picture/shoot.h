/* Traces the frames of a picture that was asked for. */
#ifndef LW_CLI_PICTURE_SHOOT_H
#define LW_CLI_PICTURE_SHOOT_H

#include "picture/ask.h"
#include "picture/png.h"

/* What came out of it. */
typedef struct picture_shots {
    int count;
    int width, height;     /* of one of frames */
    picture_bytes *frames; /* PNG: one each; or, as a sheet, one of them all */
    picture_bytes raw;     /* where asked for */
    double cover;          /* of the first frame: share of the picture that is stone, … */
    double radiance;       /* … and the stone's mean luminance */
    double card;           /* what a white card's is */
} picture_shots;

/* LW_CANCELLED when it was interrupted; LW_NO_MEMORY; LW_TOO_LARGE for a sheet of too many
 * pixels. */
lw_status picture_shoot(const picture_request *request, picture_shots *out);
void picture_shots_drop(picture_shots *shots);

#endif
