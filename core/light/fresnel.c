#include "light/fresnel.h"

#include <assert.h>
#include <math.h>

/* Beyond the critical angle the cosine on the far side is i q, and with
 * z = (eta cos_i - i q)(cos_i + i eta q) the amplitudes are r_s conj(r_p) = z / conj(z). */
static lw_fresnel total_reflection(double eta, double cos_i, double q)
{
    double re = eta * cos_i * cos_i + eta * q * q;
    double im = eta * eta * cos_i * q - cos_i * q;
    double size = re * re + im * im;
    return (lw_fresnel){.total = true,
                        .reflect_s = 1.0,
                        .reflect_p = 1.0,
                        .reflect_re = (re * re - im * im) / size,
                        .reflect_im = 2.0 * re * im / size};
}

lw_fresnel lw_fresnel_at(double eta, double cos_i)
{
    assert(eta > 0.0 && cos_i > 0.0);
    cos_i = fmin(cos_i, 1.0);
    double sin2_t = eta * eta * (1.0 - cos_i) * (1.0 + cos_i);
    if (sin2_t > 1.0)
        return total_reflection(eta, cos_i, sqrt(sin2_t - 1.0));
    double cos_t = sqrt(1.0 - sin2_t);
    double sum_s = eta * cos_i + cos_t;
    double sum_p = cos_i + eta * cos_t;
    double r_s = (eta * cos_i - cos_t) / sum_s;
    double r_p = (cos_i - eta * cos_t) / sum_p;
    double passing = 4.0 * eta * cos_i * cos_t;
    return (lw_fresnel){.cos_t = cos_t,
                        .reflect_s = r_s * r_s,
                        .reflect_p = r_p * r_p,
                        .transmit_s = passing / (sum_s * sum_s),
                        .transmit_p = passing / (sum_p * sum_p),
                        .reflect_re = r_s * r_p,
                        .transmit_re = passing / (sum_s * sum_p)};
}
