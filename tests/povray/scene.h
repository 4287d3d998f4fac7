/* A stone as a scene for POV-Ray, a general renderer: for tests and benches only.
 *
 * What POV-Ray 3.7 must be told to be physically right, each found by test_povray.c on slabs and
 * wedges whose figures are worked out by hand:
 *
 *   pigment rgbt 1                     a clear body: what is not reflected passes, unattenuated
 *   reflection { 0, 1 fresnel on }     the mean of R_s and R_p by the interior's ior, from either
 *   interior { ior n }                 side; s and p are averaged afresh at each surface, which is
 *                                      what lw_optics.unpolarised does
 *   conserve_energy                    what passes is 1 - R; without it 1, and each surface makes
 *                                      light out of nothing
 *   ambient 0 emission 0 diffuse 0     the surface itself gives none (ambient is 0.1 by default)
 *   total reflection                   by itself, beyond the critical angle, with all the energy
 *   max_trace_level 256                the most it takes; level 1 is the ray from the eye, and what
 *                                      leaves needs one of its own, so that a path ends after
 *                                      two surfaces less inside: povray_surfaces
 *   adc_bailout                        a ray that weighs less than this is dropped: 1/255 by
 *                                      default, which costs 0.2 % of a picture's light
 *   assumed_gamma 1.0, File_Gamma=1.0  radiance comes out as it is, in 16 bits: steps of 1.5e-5
 *   sky_sphere                         seen by every ray that leaves, from inside too; its pigment
 *                                      is a function of direction. Functions wrap at 1 and a
 *                                      picture clips there: radiance is scaled so that the
 *                                      brightest is POVRAY_BRIGHTEST
 *   a size of 10,000, a mesh 500       hits nearer than 1e-4 are passed over, so that a stone leaks
 *                                      at its edges: at a size of 1 a diamond's mean moves by 1e-5
 *                                      and a pixel by 1e-2, at 100 by nothing and 1e-4. A mesh
 *                                      keeps its corners in single precision: at 10,000 rays start
 *                                      beside its facets by more than those 1e-4 and leak again
 *
 * The frame's handedness does not matter: the camera is given by three vectors, and a mirror
 * image of all that there is looks the same in a mirror.
 *
 * Source: the documentation of POV-Ray 3.7, 3.4 (scene settings, textures, interiors).
 */
#ifndef LW_TESTS_POVRAY_SCENE_H
#define LW_TESTS_POVRAY_SCENE_H

#include "light/beam.h"
#include "light/optic_solid.h"
#include "light/surroundings.h"

#include <stdio.h>

enum { POVRAY_LEVELS = 256 };
#define POVRAY_BRIGHTEST 0.8
#define POVRAY_PLANES_SIZE 10000.0
#define POVRAY_MESH_SIZE 500.0

/* A square picture seen by a far eye; lengths are the stone's. */
typedef struct povray_view {
    lw_screen screen;
    double middle_a, middle_b; /* of the picture, on the screen */
    double half;               /* half its side */
    double before;             /* how far before the stone's origin rays begin */
    int pixels;                /* a side */
} povray_view;

/* The stone fills the picture but for a margin of 1 %. */
povray_view povray_view_of(const lw_optic_solid *solid, lw_screen screen, int pixels);

/* Where the ray of a place in the picture begins, in pixels from its upper left corner: the middle
 * of the first pixel is 0.5, 0.5. It runs against screen.eye. */
lw_vec3 povray_ray(const povray_view *view, double column, double row);

typedef enum povray_form {
    POVRAY_PLANES, /* an intersection of half spaces */
    POVRAY_MESH,   /* each facet a fan of triangles about its first corner */
    POVRAY_FACETS  /* half spaces, opaque: facet i (of the optic solid) shines with
                      povray_facet_level(i) and what is around is black */
} povray_form;

typedef struct povray_scene {
    const lw_optic_solid *solid;
    povray_form form;
    povray_view view;
    double index;
    double absorption; /* a length: exp(-absorption x length) of the energy passes */
    const lw_surroundings *surroundings;
    int levels;     /* max_trace_level, 2..256 */
    double bailout; /* adc_bailout */
} povray_scene;

/* Radiance that stands for 1 in the picture. */
double povray_full_scale(const povray_scene *scene);

/* Surfaces inside that a path meets at most, as in lw_light_options: levels >= 2. */
int povray_surfaces(int levels);

double povray_facet_level(int facet);

void povray_write(FILE *file, const povray_scene *scene);

#endif
