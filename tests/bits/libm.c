/* What libm's own sine gives, as a hash: on a processor with fused multiply-add it must change when
 * that is hidden, or hiding it does not work and the test beside this one tests nothing. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

int main(void)
{
    uint64_t hash = UINT64_C(14695981039346656037);
    for (int i = 1; i < 200000; i++) {
        double value = sin(i * 0.01);
        uint64_t bits = 0;
        memcpy(&bits, &value, sizeof bits);
        hash = (hash ^ bits) * UINT64_C(1099511628211);
    }
    printf("%016llx\n", (unsigned long long)hash);
    return 0;
}
