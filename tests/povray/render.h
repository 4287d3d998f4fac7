/* POV-Ray run as a child, in a scratch folder of its own that is gone afterwards. */
#ifndef LW_TESTS_POVRAY_RENDER_H
#define LW_TESTS_POVRAY_RENDER_H

#include "povray/scene.h"

/* What POV-Ray says of itself. */
typedef struct povray_time {
    double wall_s;    /* its "Trace Time": the pixels alone, neither start nor parsing */
    double cpu_s;     /* the same in processor time */
    double all_s;     /* by our clock, from before it is started until it has ended … */
    double all_cpu_s; /* … and all its processor time, by the system */
} povray_time;

/* Renders on one thread without antialiasing and gives radiance for pixels x pixels, row by row
 * from the top. False, with a word on standard error, when POV-Ray cannot be run or does not do
 * what it is told; picture is then undefined. time may be NULL. */
bool povray_render(const povray_scene *scene, double picture[], povray_time *time);

#endif
