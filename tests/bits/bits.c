/* The bits of every built-in cut, solved: one line a cut and one for all. Run in the release build,
 * with the processor's fused multiply-add hidden from libm, and as WebAssembly, it must print the
 * same. */
#include "builtin.h"
#include "cut/read.h"
#include "cut/solve.h"

#include <inttypes.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

/* FNV-1a over the eight bytes of a double, lowest first. */
static uint64_t mix_double(uint64_t hash, double value)
{
    uint64_t bits = 0;
    memcpy(&bits, &value, sizeof bits);
    for (int i = 0; i < 8; i++) {
        hash = (hash ^ (bits & 0xFFu)) * UINT64_C(1099511628211);
        bits >>= 8;
    }
    return hash;
}

static uint64_t mix_vec3(uint64_t hash, lw_vec3 v)
{
    return mix_double(mix_double(mix_double(hash, v.x), v.y), v.z);
}

static uint64_t hash_stone(const lw_stone *stone)
{
    uint64_t hash = UINT64_C(14695981039346656037);
    for (int i = 0; i < stone->facet_count; i++) {
        hash = mix_vec3(hash, stone->facets[i].plane.normal);
        hash = mix_double(hash, stone->facets[i].plane.distance);
        hash = mix_double(hash, stone->facets[i].angle_deg);
        hash = mix_double(hash, stone->facets[i].tooth);
    }
    for (int i = 0; i < stone->solid.vertex_count; i++) {
        hash = mix_vec3(hash, stone->solid.vertices[i]);
    }
    const lw_measures *m = &stone->measures;
    const double sizes[] = {m->width,    m->length,       m->diameter,    m->depth, m->crown,
                            m->pavilion, m->girdle_thick, m->girdle_thin, m->table, m->table_corner,
                            m->culet,    m->mass.volume,  m->mass.area};
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        hash = mix_double(hash, sizes[i]);
    }
    return mix_vec3(hash, m->mass.centroid);
}

static int hash_cut(const lw_builtin *builtin, uint64_t *all)
{
    const lw_solve_options options = {.size_kind = LW_SIZE_WIDTH_MM, .size = 8.3};
    lw_memory memory = lw_memory_standard();
    lw_problem problem = {0};
    char message[1000];
    lw_cut cut = {0};
    lw_stone stone = {0};
    int failed = 1;
    if (lw_cut_read(&memory, builtin->text, builtin->length, &cut, &problem) == LW_OK &&
        lw_cut_solve(&memory, &cut, &options, &stone, &problem) == LW_OK) {
        uint64_t hash = hash_stone(&stone);
        printf("%016" PRIx64 " %s\n", hash, builtin->name);
        *all = (*all ^ hash) * UINT64_C(1099511628211);
        failed = 0;
    } else {
        lw_problem_write(&problem, message, sizeof message);
        printf("%s: %s\n", builtin->name, message);
    }
    lw_stone_destroy(&stone);
    lw_cut_destroy(&cut);
    return failed;
}

int main(void)
{
    uint64_t all = UINT64_C(14695981039346656037);
    int failed = 0;
    for (int i = 0; i < lw_builtin_count(); i++) {
        failed += hash_cut(lw_builtin_at(i), &all);
    }
    printf("%016" PRIx64 " all %d cuts\n", all, lw_builtin_count());
    return failed > 0 || lw_builtin_count() == 0;
}
