#include "light/mueller.h"

#include <math.h>
#include <stdbool.h>

/* ---- matrices ----------------------------------------------------------- */

mueller mueller_diattenuator(long double amplitude_s, long double amplitude_p)
{
    long double s = amplitude_s * amplitude_s, p = amplitude_p * amplitude_p;
    long double sum = (s + p) / 2, half = (s - p) / 2, both = amplitude_s * amplitude_p;
    return (mueller){{{sum, half, 0, 0}, {half, sum, 0, 0}, {0, 0, both, 0}, {0, 0, 0, both}}};
}

mueller mueller_retarder(long double radians)
{
    long double c = cosl(radians), s = sinl(radians);
    return (mueller){{{1, 0, 0, 0}, {0, 1, 0, 0}, {0, 0, c, -s}, {0, 0, s, c}}};
}

mueller mueller_rotation(long double radians)
{
    long double c = cosl(2 * radians), s = sinl(2 * radians);
    return (mueller){{{1, 0, 0, 0}, {0, c, s, 0}, {0, -s, c, 0}, {0, 0, 0, 1}}};
}

mueller_state mueller_apply(const mueller *matrix, const mueller_state *state)
{
    mueller_state out = {{0}};
    for (int i = 0; i < 4; i++)
        for (int k = 0; k < 4; k++)
            out.s[i] += matrix->m[i][k] * state->s[k];
    return out;
}

long double mueller_total_phase(long double index, long double angle)
{
    long double n = 1 / index, sine = sinl(angle);
    return 2 * atanl(cosl(angle) * sqrtl(sine * sine - n * n) / (sine * sine));
}

/* ---- geometry ----------------------------------------------------------- */

typedef struct triple {
    long double x, y, z;
} triple;

static long double dot(triple a, triple b)
{
    return a.x * b.x + a.y * b.y + a.z * b.z;
}

static triple cross(triple a, triple b)
{
    return (triple){a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

static triple sum(long double p, triple a, long double q, triple b)
{
    return (triple){p * a.x + q * b.x, p * a.y + q * b.y, p * a.z + q * b.z};
}

static triple unit(triple a)
{
    return sum(1 / sqrtl(dot(a, a)), a, 0, a);
}

static triple wide(lw_vec3 a)
{
    return (triple){a.x, a.y, a.z};
}

/* Going in, the last plane passed of those run against; going out, the first of those run
 * towards, but for the one it is on. */
static int next_plane(const lw_plane *planes, int count, bool in, int on, triple at, triple way,
                      long double *length)
{
    int found = -1;
    for (int i = 0; i < count; i++) {
        triple normal = unit(wide(planes[i].normal));
        long double along = dot(normal, way);
        if (i == on || (in ? along >= 0 : along <= 0))
            continue;
        long double here = (planes[i].distance - dot(normal, at)) / along;
        if (found < 0 || (in ? here > *length : here < *length)) {
            found = i;
            *length = here;
        }
    }
    return found;
}

/* ---- a beam ------------------------------------------------------------- */

typedef struct beam {
    triple at, way, s;
    mueller_state state;
} beam;

/* A surface as the beam comes to it: the normal along its way, s across the plane of incidence. */
typedef struct meeting {
    triple normal, s, along; /* along: in the surface and the plane of incidence */
    long double angle;
} meeting;

static meeting meet(const beam *b, triple normal)
{
    long double cosine = dot(b->way, normal);
    triple forward = cosine < 0 ? sum(-1, normal, 0, normal) : normal;
    triple across = cross(b->way, forward);
    long double sine = sqrtl(dot(across, across));
    /* square on, any s will do: the one it has */
    triple s = sine > 1e-15L ? unit(across) : b->s;
    return (meeting){forward, s, cross(forward, s), atan2l(sine, fabsl(cosine))};
}

static void tell_in(beam *b, triple s, long double *turned)
{
    triple p = cross(b->way, b->s);
    *turned = atan2l(dot(s, p), dot(s, b->s));
    mueller rotation = mueller_rotation(*turned);
    b->state = mueller_apply(&rotation, &b->state);
    b->s = s;
}

/* Goldstein ch. 8: amplitudes by sines and tangents of i and r; what passes is scaled to energy.
 * Square on they are 0 / 0: nearer than 1e-9 they have come to their limits within 1e-18. */
static void amplitudes(long double angle, long double eta, mueller *back, mueller *on)
{
    long double i = fmaxl(angle, 1e-9L), r = asinl(eta * sinl(i));
    long double low = i - r, high = i + r;
    long double scale = sqrtl(sinl(2 * i) * sinl(2 * r));
    *back = mueller_diattenuator(-sinl(low) / sinl(high), tanl(low) / tanl(high));
    *on = mueller_diattenuator(scale / sinl(high), scale / (sinl(high) * cosl(low)));
}

static triple mirrored(const meeting *m)
{
    return unit(sum(-cosl(m->angle), m->normal, sinl(m->angle), m->along));
}

static triple refracted(const meeting *m, long double r)
{
    return unit(sum(cosl(r), m->normal, sinl(r), m->along));
}

static void step(beam *b, triple normal, long double index, mueller_step *out)
{
    meeting m = meet(b, normal);
    tell_in(b, m.s, &out->turned);
    out->angle = m.angle;
    out->weight = 0;
    if (index * sinl(m.angle) >= 1) {
        mueller phase = mueller_retarder(mueller_total_phase(index, m.angle));
        b->state = mueller_apply(&phase, &b->state);
    } else {
        mueller back, on;
        amplitudes(m.angle, index, &back, &on);
        out->weight = mueller_apply(&on, &b->state).s[0];
        b->state = mueller_apply(&back, &b->state);
    }
    out->inside = b->state.s[0];
    b->way = mirrored(&m);
}

int mueller_trace(const lw_plane *planes, int plane_count, double index, lw_vec3 from,
                  lw_vec3 direction, int count, mueller_step steps[], long double *glare)
{
    beam b = {.at = wide(from), .way = unit(wide(direction)), .state = {{1, 0, 0, 0}}};
    long double length = 0;
    int first = next_plane(planes, plane_count, true, -1, b.at, b.way, &length), on = first;
    b.at = sum(1, b.at, length, b.way);
    triple other = fabsl(b.way.x) > 0.5L ? (triple){0, 1, 0} : (triple){1, 0, 0};
    b.s = unit(cross(b.way, other));
    meeting m = meet(&b, wide(planes[first].normal));
    b.s = m.s;
    mueller back, passing;
    amplitudes(m.angle, 1 / (long double)index, &back, &passing);
    *glare = mueller_apply(&back, &b.state).s[0];
    b.state = mueller_apply(&passing, &b.state);
    b.way = refracted(&m, asinl(sinl(m.angle) / index));
    for (int i = 0; i < count; i++) {
        on = next_plane(planes, plane_count, false, on, b.at, b.way, &length);
        b.at = sum(1, b.at, length, b.way);
        steps[i].plane = on;
        step(&b, unit(wide(planes[on].normal)), index, &steps[i]);
    }
    return first;
}
