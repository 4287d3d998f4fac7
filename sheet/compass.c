#include "sheet/compass.h"

#include "geom/angle.h"
#include "sheet/phrase.h"

#include <math.h>
#include <string.h>

lw_spot lw_compass_spot(lw_spot middle, double radius, double azimuth_deg)
{
    lw_sincos at = lw_sincos_deg(azimuth_deg);
    return (lw_spot){middle.x - radius * at.sin, middle.y - radius * at.cos};
}

lw_spot lw_compass_sky(lw_spot middle, double radius, lw_vec3 direction)
{
    /* sqrt 2 sin(z / 2) of the zenith angle z, and 1 on the horizon */
    double out = sqrt(fmax(1.0 - direction.z, 0.0));
    double level = sqrt(direction.x * direction.x + direction.y * direction.y);
    double per = level > 0.0 ? radius * out / level : 0.0;
    return (lw_spot){middle.x - per * direction.y, middle.y - per * direction.x};
}

lw_vec3 lw_compass_level(double azimuth_deg)
{
    lw_sincos at = lw_sincos_deg(azimuth_deg);
    return (lw_vec3){at.cos, at.sin, 0.0};
}

lw_extent lw_compass_label(lw_display_list *list, const lw_metrics *metrics, lw_spot at,
                           const lw_type *type, const char *text, bool halo)
{
    size_t length = strlen(text);
    lw_text_size size = metrics->measure(metrics->context, type, text, length);
    lw_spot base = {at.x, at.y + 0.5 * (size.ascent - size.descent)};
    lw_extent box = {at.x - 0.5 * size.width, base.y - size.ascent, at.x + 0.5 * size.width,
                     base.y + size.descent};
    if (halo) {
        lw_style ground = {.filled = true, .fill = lw_grey(1.0)};
        lw_list_rectangle(list, (lw_spot){box.left - 1.5, box.top}, size.width + 3.0,
                          box.bottom - box.top, &ground);
    }
    lw_list_text(list, base, LW_ALIGN_MIDDLE, type, text, length);
    return box;
}

int lw_compass_tooth(int wheel, int eighth, double *azimuth_deg)
{
    int tooth = (int)floor(eighth * wheel / 8.0 + 0.5) % wheel;
    *azimuth_deg = 360.0 * tooth / wheel;
    return tooth == 0 ? wheel : tooth;
}

void lw_compass_teeth(lw_display_list *list, const lw_metrics *metrics, lw_spot middle,
                      double radius, double apart, int wheel)
{
    lw_type type = {LW_FACE_PLAIN, 8.0, lw_grey(0.0)};
    lw_style tick = {.line_width = 0.6, .line = lw_grey(0.2)};
    for (int eighth = 0; eighth < 8; eighth++) {
        double azimuth_deg = 0.0;
        lw_phrase number;
        lw_phrase_clear(&number);
        lw_phrase_whole(&number, lw_compass_tooth(wheel, eighth, &azimuth_deg));
        lw_list_line(list, lw_compass_spot(middle, radius, azimuth_deg),
                     lw_compass_spot(middle, radius + 4.0, azimuth_deg), &tick);
        lw_compass_label(list, metrics, lw_compass_spot(middle, radius + apart, azimuth_deg), &type,
                         number.text, false);
    }
}
