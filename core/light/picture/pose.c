#include "light/picture/pose.h"

#include "geom/angle.h"
#include "light/picture/picture.h"

#include <assert.h>

static lw_vec3 spun(lw_vec3 v, lw_sincos by)
{
    return (lw_vec3){by.cos * v.x - by.sin * v.y, by.sin * v.x + by.cos * v.y, v.z};
}

/* The stone turns one way; in its own frame all else turns the other. */
static void spin(lw_surroundings *surroundings, double deg)
{
    lw_sincos by = lw_sincos_deg(-deg);
    surroundings->eye = spun(surroundings->eye, by);
    surroundings->zenith = spun(surroundings->zenith, by);
    for (int i = 0; i < surroundings->patch_count; i++) {
        lw_patch *patch = &surroundings->patches[i];
        patch->toward = spun(patch->toward, by);
        patch->right = spun(patch->right, by);
        patch->above = spun(patch->above, by);
    }
}

lw_surroundings lw_picture_posed(const lw_light_place *place, const lw_picture_pose *pose,
                                 double head_deg, lw_vec3 *right)
{
    double tilt = pose->tilt_deg < 0.0 ? -pose->tilt_deg : pose->tilt_deg;
    double turn = pose->tilt_deg < 0.0 ? pose->turn_deg + 180.0 : pose->turn_deg;
    lw_surroundings made = lw_surroundings_pose(place, tilt, turn, head_deg);
    lw_vec3 across = lw_picture_right(tilt, turn);
    if (pose->spin_deg != 0.0) {
        spin(&made, pose->spin_deg);
        across = spun(across, lw_sincos_deg(-pose->spin_deg));
    }
    *right = across;
    return made;
}

lw_picture_pose lw_picture_turntable(const lw_picture_pose *pose, int i, int count)
{
    assert(i >= 0 && i < count);
    lw_picture_pose made = *pose;
    made.spin_deg += 360.0 * i / count;
    return made;
}

lw_picture_pose lw_picture_rocked(const lw_picture_pose *pose, double reach_deg, bool one_way,
                                  int i, int count)
{
    assert(i >= 0 && i < count);
    lw_picture_pose made = *pose;
    if (one_way)
        made.tilt_deg += count > 1 ? reach_deg * (2.0 * i / (count - 1) - 1.0) : 0.0;
    else
        made.tilt_deg += reach_deg * lw_sincos_share(i, count).sin;
    return made;
}
