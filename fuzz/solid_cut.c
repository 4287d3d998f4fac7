/* Planes out of bytes, cut one by one and at once: every solid must be sound, whatever meets,
 * touches or coincides. Each plane is five bytes: a small direction, a distance, and how far both
 * are shaken, down to the last bits of a double. */
#include "fuzz.h"

#include "geom/mass.h"
#include "geom/solid.h"

#include <math.h>

enum { MOST = 200, BYTES = 5 };

static lw_plane plane_of(const uint8_t *byte)
{
    double shake = ldexp((double)(byte[4] & 15) - 7.0, -20 - 2 * (byte[4] >> 4));
    lw_vec3 v = {(double)(byte[0] & 7) - 3.0, (double)(byte[1] & 7) - 3.0,
                 (double)(byte[2] & 7) - 3.0};
    if (lw_vec3_dot(v, v) == 0.0) {
        v.z = 1.0;
    }
    v.x += (byte[0] & 8) != 0 ? shake : 0.0;
    v.y += (byte[1] & 8) != 0 ? shake : 0.0;
    double length = lw_vec3_length(v);
    double distance = (double)(byte[3] >> 3) / 16.0 + ((byte[2] & 8) != 0 ? shake : 0.0);
    return (lw_plane){lw_vec3_scale(v, 1.0 / length), distance / length};
}

static void check(lw_solid *solid)
{
    lw_polyhedron out;
    lw_solid_extract(solid, &out);
    const char *fault = lw_polyhedron_fault(&out);
    LW_FUZZ_HOLDS(fault == NULL);
    if (lw_solid_is_closed(solid)) {
        lw_mass mass;
        lw_polyhedron_mass(&out, &mass);
        LW_FUZZ_HOLDS(isfinite(mass.volume) && mass.volume >= -out.same_point * mass.area &&
                      isfinite(mass.area));
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static lw_solid *solid;
    lw_plane planes[MOST];
    int count = 0;
    lw_memory memory = lw_memory_standard();
    if (solid == NULL && lw_solid_new(&memory, MOST, &solid) != LW_OK) {
        return 0;
    }
    lw_solid_start(solid, 4.0);
    for (size_t at = 0; at + BYTES <= size && count < MOST; at += BYTES) {
        lw_cut_effect effect = LW_CUT_MISSED;
        planes[count] = plane_of(data + at);
        LW_FUZZ_HOLDS(lw_solid_cut(solid, planes[count], &effect) == LW_OK);
        if (effect == LW_CUT_EMPTIED) {
            return 0;
        }
        count++;
    }
    check(solid);
    if (lw_solid_build(solid, 4.0, planes, count) == LW_OK) {
        check(solid);
    }
    return 0;
}
