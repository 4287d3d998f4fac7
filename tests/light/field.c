#include "light/field.h"

#include <complex.h>

typedef struct field {
    double complex x, y, z;
} field;

static double complex along(field e, lw_vec3 axis)
{
    return e.x * axis.x + e.y * axis.y + e.z * axis.z;
}

static field combine(double complex a, lw_vec3 u, double complex b, lw_vec3 v)
{
    return (field){a * u.x + b * v.x, a * u.y + b * v.y, a * u.z + b * v.z};
}

static double energy(field e)
{
    return creal(e.x * conj(e.x) + e.y * conj(e.y) + e.z * conj(e.z));
}

static lw_vec3 unit(lw_vec3 v)
{
    return lw_vec3_scale(v, 1.0 / lw_vec3_length(v));
}

/* Both parts of a field at a surface between n1 (here) and n2, normal pointing to the far side;
 * the passing part scaled so that its squared size is energy. */
static void meet(double n1, double n2, lw_vec3 d, lw_vec3 normal, field in, lw_vec3 *back_d,
                 field *back, lw_vec3 *on_d, field *on)
{
    double cos_i = lw_vec3_dot(d, normal);
    double sin_i = lw_vec3_length(lw_vec3_cross(d, normal));
    double complex cos_t = csqrt(1.0 - (n1 * sin_i / n2) * (n1 * sin_i / n2));
    lw_vec3 other = fabs(normal.x) > 0.5 ? (lw_vec3){0, 1, 0} : (lw_vec3){1, 0, 0};
    lw_vec3 s = unit(lw_vec3_cross(sin_i > 1e-9 ? d : other, normal));
    double complex rs = (n1 * cos_i - n2 * cos_t) / (n1 * cos_i + n2 * cos_t);
    double complex rp = (n2 * cos_i - n1 * cos_t) / (n2 * cos_i + n1 * cos_t);
    double complex ts = 2.0 * n1 * cos_i / (n1 * cos_i + n2 * cos_t);
    double complex tp = 2.0 * n1 * cos_i / (n2 * cos_i + n1 * cos_t);
    *back_d = lw_vec3_sub(d, lw_vec3_scale(normal, 2.0 * cos_i));
    double complex es = along(in, s), ep = along(in, lw_vec3_cross(d, s));
    *back = combine(rs * es, s, rp * ep, lw_vec3_cross(*back_d, s));
    *on = (field){0};
    if (cimag(cos_t) != 0.0)
        return;
    double root = sqrt(n2 * creal(cos_t) / (n1 * cos_i));
    lw_vec3 tangent = lw_vec3_sub(d, lw_vec3_scale(normal, cos_i));
    *on_d = lw_vec3_add(lw_vec3_scale(tangent, n1 / n2), lw_vec3_scale(normal, creal(cos_t)));
    *on = combine(root * ts * es, s, root * tp * ep, lw_vec3_cross(*on_d, s));
}

static void run(const lw_optic_solid *solid, double index, lw_vec3 from, lw_vec3 direction,
                field in, int count, double weights[], double *glare)
{
    int facet;
    double length;
    if (!lw_optic_solid_entry(solid, from, direction, &facet, &length))
        return;
    lw_vec3 at = lw_vec3_add(from, lw_vec3_scale(direction, length));
    lw_vec3 normal = lw_vec3_scale(lw_optic_solid_normal(solid, facet), -1.0);
    lw_vec3 d = direction, away, inside = direction;
    field e = in, back, on;
    meet(1.0, index, d, normal, e, &away, &back, &inside, &on);
    *glare += 0.5 * energy(back);
    d = inside;
    e = on;
    for (int i = 0; i < count; i++) {
        facet = lw_optic_solid_exit(solid, at, d, &length);
        at = lw_vec3_add(at, lw_vec3_scale(d, length));
        meet(index, 1.0, d, lw_optic_solid_normal(solid, facet), e, &away, &back, &inside, &on);
        weights[i] += 0.5 * energy(on);
        d = away;
        e = back;
    }
}

void field_trace(const lw_optic_solid *solid, double index, lw_vec3 from, lw_vec3 direction,
                 int count, double weights[], double *glare)
{
    lw_vec3 other = fabs(direction.x) > 0.5 ? (lw_vec3){0, 1, 0} : (lw_vec3){1, 0, 0};
    lw_vec3 u = unit(lw_vec3_cross(direction, other));
    lw_vec3 v = lw_vec3_cross(direction, u);
    double unused = 0.0;
    double *kept = glare != NULL ? glare : &unused;
    *kept = 0.0;
    for (int i = 0; i < count; i++)
        weights[i] = 0.0;
    run(solid, index, from, direction, combine(1.0, u, 0.0, v), count, weights, kept);
    run(solid, index, from, direction, combine(0.0, u, 1.0, v), count, weights, kept);
}
