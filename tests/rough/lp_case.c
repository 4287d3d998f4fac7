#include "lp_case.h"

#include <math.h>
#include <stdbool.h>

static void add(lp_case *c, double h, double x, double y, double z, double b)
{
    int i = c->rows.count++;
    c->h[i] = h;
    c->x[i] = x;
    c->y[i] = y;
    c->z[i] = z;
    c->b[i] = b;
}

static void random_normal(test_random *random, double n[3])
{
    double length;
    do {
        for (int i = 0; i < 3; i++) {
            n[i] = test_between(random, -1, 1);
        }
        length = sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]);
    } while (length < 0.1 || length > 1.0);
    for (int i = 0; i < 3; i++) {
        n[i] /= length;
    }
}

static void add_box(lp_case *c, double h, const double half[3])
{
    for (int i = 0; i < 3; i++) {
        for (int sign = -1; sign <= 1; sign += 2) {
            add(c, h, sign * (i == 0), sign * (i == 1), sign * (i == 2), half[i]);
        }
    }
}

static void add_random(lp_case *c, int count, bool pairs, double least_h, double least_b,
                       test_random *random)
{
    while (count-- > 0) {
        double n[3];
        random_normal(random, n);
        double h = fmax(0.0, test_between(random, least_h, 1));
        double b = test_between(random, least_b, 10);
        add(c, h, n[0], n[1], n[2], b);
        if (pairs) {
            add(c, fmax(0.0, test_between(random, least_h, 1)), -n[0], -n[1], -n[2], b);
        }
    }
}

static void add_again(lp_case *c, double jitter, test_random *random)
{
    int count = c->rows.count;
    for (int i = 0; i < count; i++) {
        double j = test_between(random, 1.0 - jitter, 1.0 + jitter);
        add(c, c->h[i] * j, c->x[i], c->y[i], c->z[i], c->b[i] * (2.0 - j));
    }
}

static void add_lattice(lp_case *c, test_random *random)
{
    for (int i = 0; i < 27; i++) {
        int x = i % 3 - 1, y = i / 3 % 3 - 1, z = i / 9 - 1;
        double length = sqrt((double)(x * x + y * y + z * z));
        if (length > 0.0) {
            int times = 1 + test_whole(random, 3);
            double h = 1 + test_whole(random, 2), b = 4 + test_whole(random, 3);
            while (times-- > 0) {
                add(c, h, x / length, y / length, z / length, b);
            }
        }
    }
}

void lp_case_make(lp_case *out, int kind, test_random *random)
{
    out->rows = (lw_lp4){0, out->h, out->x, out->y, out->z, out->b};
    double half[3] = {test_between(random, 3, 9), test_between(random, 3, 9),
                      test_between(random, 3, 9)};
    int count = 4 + test_whole(random, 90);
    switch (kind) {
    case 0:
        add_box(out, 0.2, (double[3]){40, 40, 40});
        add_random(out, count, false, 0.05, 1, random);
        break;
    case 1:
        add_box(out, 0.2, (double[3]){40, 40, 40});
        add_random(out, count, true, 0.05, 1, random);
        break;
    case 2:
        add_box(out, 0.5, half);
        add_again(out, 0.0, random);
        add_again(out, 0.0, random);
        break;
    case 3:
        add_lattice(out, random);
        break;
    case 4:
        add_box(out, 0.5, half);
        add_random(out, count, false, 0.3, 3, random);
        add_again(out, 1e-11, random);
        break;
    default:
        add_box(out, 0.4, half);
        add_random(out, count, true, -0.2, -4, random);
        break;
    }
}
