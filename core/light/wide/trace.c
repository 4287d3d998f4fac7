#include "light/wide/trace.h"

#include "geom/tolerance.h"
#include "light/wide/parts.h"

#include <assert.h>

/* ---- which instructions ------------------------------------------------- */

static const lw_wide_kernels *kernels_of(lw_lanes lanes)
{
    switch (lanes) {
#ifdef LW_WIDE_X86
    case LW_LANES_SSE2:
        return &lw_wide_sse2;
    case LW_LANES_AVX2:
        return &lw_wide_avx2;
    case LW_LANES_AVX512:
        return &lw_wide_avx512;
#endif
#ifdef LW_WIDE_WASM
    case LW_LANES_SIMD128:
        return &lw_wide_simd128;
#endif
    case LW_LANES_SCALAR:
        return &lw_wide_scalar;
    default:
        return NULL;
    }
}

bool lw_lanes_usable(lw_lanes lanes)
{
    if (kernels_of(lanes) == NULL)
        return false;
#ifdef LW_WIDE_X86
    switch (lanes) {
    case LW_LANES_SSE2:
        return __builtin_cpu_supports("sse2");
    case LW_LANES_AVX2:
        return __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma");
    case LW_LANES_AVX512:
        return __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
               __builtin_cpu_supports("avx512vl");
    default:
        return true;
    }
#else
    return true;
#endif
}

lw_lanes lw_lanes_best(void)
{
    static const lw_lanes widest_first[] = {LW_LANES_AVX512, LW_LANES_AVX2, LW_LANES_SSE2,
                                            LW_LANES_SIMD128};
    for (size_t i = 0; i < sizeof widest_first / sizeof widest_first[0]; i++) {
        if (lw_lanes_usable(widest_first[i]))
            return widest_first[i];
    }
    return LW_LANES_SCALAR;
}

const char *lw_lanes_text(lw_lanes lanes)
{
    switch (lanes) {
    case LW_LANES_SCALAR:
        return "scalar";
    case LW_LANES_SSE2:
        return "sse2";
    case LW_LANES_AVX2:
        return "avx2";
    case LW_LANES_AVX512:
        return "avx512";
    case LW_LANES_SIMD128:
        return "simd128";
    case LW_LANES_COUNT:
        break;
    }
    assert(!"a kind of lanes");
    return "";
}

/* ---- a job in single precision ------------------------------------------ */

/* Below this angle a cone is told by distance: at its cosine of a half both ways serve alike. */
static lw_wide_cone cone_of(lw_vec3 axis, double least_cos)
{
    bool narrow = least_cos > 0.5;
    return (lw_wide_cone){(float)axis.x, (float)axis.y, (float)axis.z, narrow,
                          (float)(narrow ? 2.0 - 2.0 * least_cos : least_cos)};
}

static void take_vector(lw_vec3 from, float to[3])
{
    to[0] = (float)from.x;
    to[1] = (float)from.y;
    to[2] = (float)from.z;
}

static lw_wide_patch patch_of(const lw_patch *patch, double scale)
{
    lw_wide_patch made = {.pane = patch->shape == LW_PATCH_PANE,
                          .cone = cone_of(patch->toward, patch->least_cos),
                          .tan_width = (float)patch->tan_width,
                          .tan_tall = (float)patch->tan_tall,
                          .even = (float)(patch->even * scale),
                          .slope = (float)(patch->slope * scale)};
    take_vector(patch->right, made.right);
    take_vector(patch->above, made.above);
    return made;
}

static lw_wide_sky sky_of(const lw_surroundings *surroundings, const double *scale)
{
    int count = surroundings->patch_count;
    lw_wide_sky sky = {.head = cone_of(surroundings->eye, surroundings->cos_head),
                       .head_radiance = (float)(surroundings->head_radiance *
                                                (scale == NULL ? 1.0 : scale[count])),
                       .patch_count = count};
    take_vector(surroundings->zenith, sky.zenith);
    for (int i = 0; i < count; i++)
        sky.patches[i] = patch_of(&surroundings->patches[i], scale == NULL ? 1.0 : scale[i]);
    return sky;
}

static lw_wide_medium medium_of(double eta)
{
    lw_wide_medium made = {.eta = (float)eta,
                           .square = (float)(eta * eta),
                           .square_less_1 = (float)((eta - 1.0) * (eta + 1.0))};
    made.square_rest = (float)(eta * eta - (double)made.square);
    return made;
}

static lw_wide_setup setup_of(const lw_wide_job *job)
{
    assert(job->index >= 1.0 && job->absorption >= 0.0 && job->least_energy > 0.0);
    return (lw_wide_setup){.solid = job->solid,
                           .inside = medium_of(job->index),
                           .outside = medium_of(1.0 / job->index),
                           .absorption = (float)job->absorption,
                           .least_energy = (float)job->least_energy,
                           .most_surfaces = (float)job->most_surfaces,
                           .unpolarised = job->unpolarised,
                           .sky = sky_of(job->surroundings, job->patch_scale)};
}

/* ---- what callers call -------------------------------------------------- */

void lw_wide_exit(lw_lanes lanes, const lw_wide_solid *solid, const lw_wide_rays *rays, int facet[],
                  float length[])
{
    assert(lw_lanes_usable(lanes));
    kernels_of(lanes)->exit(solid, rays, facet, length);
}

void lw_wide_look(lw_lanes lanes, const lw_wide_job *job, lw_vec3 direction, int count,
                  const lw_vec3 from[], lw_wide_light out[], bool hit[])
{
    assert(lw_lanes_usable(lanes));
    lw_wide_setup setup = setup_of(job);
    kernels_of(lanes)->look(&setup, direction, count, from, out, hit);
}

void lw_wide_finish(lw_lanes lanes, const lw_wide_job *job, int count, const lw_wide_inside rays[],
                    lw_wide_light out[])
{
    assert(lw_lanes_usable(lanes));
    lw_wide_setup setup = setup_of(job);
    kernels_of(lanes)->finish(&setup, count, rays, out);
}
