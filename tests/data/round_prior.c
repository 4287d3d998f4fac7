#include "round_prior.h"

#include "geom/angle.h"

const round_prior round_prior_stated = {.crown_deg = 34.5,
                                        .crown_spread = 1.5,
                                        .pavilion_deg = 40.8,
                                        .pavilion_spread = 0.6,
                                        .girdle = 0.035,
                                        .girdle_spread = 0.010,
                                        .star = 0.50,
                                        .lower = 0.77,
                                        .girdle_facets = 96};

static double square(double x)
{
    return x * x;
}

/* Lagrange's condition for the nearest point of the surface "depth is right", in units of the
 * spreads, by Gauss-Newton steps. */
round_shape round_likeliest(const round_prior *prior, double depth, double table)
{
    double crown = 0.0, pavilion = 0.0, girdle = 0.0; /* off the mean, in spreads */
    double half = 0.5 * (1.0 - table);
    for (int i = 0; i < 12; i++) {
        double c = prior->crown_deg + crown * prior->crown_spread;
        double p = prior->pavilion_deg + pavilion * prior->pavilion_spread;
        double g = prior->girdle + girdle * prior->girdle_spread;
        double missing = depth - (half * lw_tan_deg(c) + g + 0.5 * lw_tan_deg(p));
        double by_crown =
            half * lw_rad_from_deg(prior->crown_spread) / square(lw_sincos_deg(c).cos);
        double by_pavilion =
            0.5 * lw_rad_from_deg(prior->pavilion_spread) / square(lw_sincos_deg(p).cos);
        double by_girdle = prior->girdle_spread;
        double aim = missing + by_crown * crown + by_pavilion * pavilion + by_girdle * girdle;
        double share = aim / (square(by_crown) + square(by_pavilion) + square(by_girdle));
        crown = share * by_crown;
        pavilion = share * by_pavilion;
        girdle = share * by_girdle;
    }
    return (round_shape){.crown_deg = prior->crown_deg + crown * prior->crown_spread,
                         .pavilion_deg = prior->pavilion_deg + pavilion * prior->pavilion_spread,
                         .girdle = prior->girdle + girdle * prior->girdle_spread,
                         .table = table,
                         .star = prior->star,
                         .lower = prior->lower,
                         .girdle_facets = prior->girdle_facets};
}

/* The plane of that angle and azimuth through a point. */
static lw_plane through(double angle_deg, double azimuth_deg, double side, lw_vec3 point)
{
    lw_sincos e = lw_sincos_deg(angle_deg), a = lw_sincos_deg(azimuth_deg);
    lw_plane plane = {{e.sin * a.cos, e.sin * a.sin, side * e.cos}, 0.0};
    plane.distance = lw_vec3_dot(plane.normal, point);
    return plane;
}

static int add_girdle(int facets, lw_plane *planes)
{
    double half_turn = LW_PI / facets;
    double step = 360.0 / facets;
    double reach = 0.5 * lw_sincos_rad(half_turn).cos; /* corners on the circle */
    if (facets != 16)
        reach = 0.5 * sqrt(half_turn / lw_tan_deg(0.5 * step));
    for (int i = 0; i < facets; i++) {
        lw_sincos a = lw_sincos_deg(step * (i + 0.5));
        planes[i] = (lw_plane){{a.cos, a.sin, 0.0}, reach};
    }
    return facets;
}

/* Where a star meets two breaks, as a share of the girdle's radius. */
static double star_reach(const round_shape *shape)
{
    double inside = shape->table * lw_sincos_deg(22.5).cos;
    return inside + shape->star * (1.0 - inside);
}

bool round_can_be(const round_shape *shape)
{
    return star_reach(shape) * lw_sincos_deg(22.5).cos > shape->table;
}

/* Angles of breaks and stars from their lengths (worked in docs/checks/diamonds.md). */
int round_planes(const round_shape *shape, lw_plane planes[ROUND_MOST_PLANES])
{
    double c = lw_sincos_deg(22.5).cos, k = lw_sincos_deg(11.25).cos;
    double tan_p = lw_tan_deg(shape->pavilion_deg), tan_c = lw_tan_deg(shape->crown_deg);
    double table = shape->table, star = shape->star, lower = shape->lower;
    double r = star_reach(shape);
    double lower_deg = lw_atan2_deg(tan_p * (1.0 - (1.0 - lower) * c), lower * k);
    double star_deg = lw_atan2_deg(tan_c * (r * c - table), star * (1.0 - table * c));
    double upper_deg = lw_atan2_deg(tan_c * (1.0 - r * c), (1.0 - r) * k);
    double half = 0.5 * shape->girdle;
    int n = 0;
    for (int i = 0; i < 8; i++) {
        double main = 45.0 * i;
        lw_sincos a = lw_sincos_deg(main), b = lw_sincos_deg(main + 22.5);
        lw_vec3 low = {0.5 * a.cos, 0.5 * a.sin, -half};
        lw_vec3 high = {low.x, low.y, half};
        lw_vec3 tip = {0.5 * r * b.cos, 0.5 * r * b.sin, half + 0.5 * (1.0 - r * c) * tan_c};
        planes[n++] = through(shape->pavilion_deg, main, -1.0, low);
        planes[n++] = through(shape->crown_deg, main, 1.0, high);
        planes[n++] = through(star_deg, main + 22.5, 1.0, tip);
        for (int side = -1; side <= 1; side += 2) {
            planes[n++] = through(lower_deg, main + side * 11.25, -1.0, low);
            planes[n++] = through(upper_deg, main + side * 11.25, 1.0, high);
        }
    }
    planes[n++] = (lw_plane){{0.0, 0.0, 1.0}, half + 0.5 * (1.0 - table) * tan_c};
    return n + add_girdle(shape->girdle_facets, planes + n);
}

double round_volume(lw_solid *workshop, const round_shape *shape)
{
    lw_plane planes[ROUND_MOST_PLANES];
    int count = round_planes(shape, planes);
    if (lw_solid_build(workshop, 1.0, planes, count) != LW_OK)
        return -1.0;
    lw_polyhedron solid;
    lw_mass mass;
    lw_solid_extract(workshop, &solid);
    lw_polyhedron_mass(&solid, &mass);
    return mass.volume;
}
