#include "cut/check.h"

#include "cut/check_parts.h"
#include "cut/teeth.h"
#include "geom/tolerance.h"

#include <math.h>
#include <string.h>

const char *lw_sight_text(lw_sight sight)
{
    static const char *const words[] = {[LW_SIGHT_SEEN] = "seen",
                                        [LW_SIGHT_ITSELF] = "makes itself",
                                        [LW_SIGHT_MEASURED] = "measured",
                                        [LW_SIGHT_MATCHED] = "matched",
                                        [LW_SIGHT_BLIND] = "blind"};
    return words[sight];
}

lw_status lw_check_add(lw_check_work *work, lw_finding finding)
{
    lw_check *check = &work->check;
    void *items = check->findings;
    lw_status status = lw_memory_reserve(&check->memory, &items, &work->capacity,
                                         (size_t)check->finding_count + 1, sizeof finding);
    if (status == LW_OK) {
        check->findings = items;
        check->findings[check->finding_count++] = finding;
    }
    return status;
}

/* ---- closed? ------------------------------------------------------------ */

/* Whether facets border on facets all round: no side of a face on the rough, and Euler's formula.
 */
static bool is_closed(const lw_polyhedron *solid)
{
    int faces = 0;
    int sides = solid->face_start[solid->plane_count];
    for (int k = 0; k < sides; k++) {
        if (solid->face_across[k] >= solid->plane_count) {
            return false;
        }
    }
    for (int p = 0; p < solid->plane_count; p++) {
        faces += solid->face_start[p + 1] > solid->face_start[p];
    }
    return faces > 0 && solid->vertex_count - sides / 2 + faces == 2;
}

static lw_status closed(lw_check_work *work, const lw_stone *stone)
{
    lw_finding finding = {
        .kind = LW_FINDING_NOT_CLOSED, .fault = true, .step = -1, .facet = -1, .other = -1};
    work->check.closed = is_closed(&stone->solid);
    return work->check.closed ? LW_OK : lw_check_add(work, finding);
}

/* ---- does every facet exist? -------------------------------------------- */

static lw_status facets_there(lw_check_work *work, const lw_stone *stone)
{
    lw_status status = LW_OK;
    double least = LW_NO_AREA * stone->measures.width * stone->measures.width;
    for (int i = 0; i < stone->facet_count && status == LW_OK; i++) {
        const lw_facet *facet = &stone->facets[i];
        double area = lw_polyhedron_face_area(&stone->solid, i);
        lw_finding finding = {.fault = true, .step = facet->step, .facet = i, .other = -1};
        if (facet->temporary && area >= least) {
            finding.kind = LW_FINDING_TEMPORARY_STAYS;
            work->check.cuttable = false;
            status = lw_check_add(work, finding);
        } else if (!facet->temporary && area < least) {
            finding.kind = LW_FINDING_NO_AREA;
            work->check.every_facet = false;
            status = lw_check_add(work, finding);
        }
    }
    return status;
}

/* ---- near misses -------------------------------------------------------- */

/* Keeps the shortest edges, shortest first. */
static int keep_shortest(lw_finding *shortest, int count, lw_finding edge)
{
    int place = count < LW_CHECK_MOST_NEAR ? count : LW_CHECK_MOST_NEAR;
    while (place > 0 && shortest[place - 1].amount > edge.amount) {
        if (place < LW_CHECK_MOST_NEAR) {
            shortest[place] = shortest[place - 1];
        }
        place--;
    }
    if (place < LW_CHECK_MOST_NEAR) {
        shortest[place] = edge;
    }
    return count < LW_CHECK_MOST_NEAR ? count + 1 : count;
}

static lw_status near_misses(lw_check_work *work, const lw_stone *stone, double share)
{
    const lw_polyhedron *solid = &stone->solid;
    lw_finding shortest[LW_CHECK_MOST_NEAR];
    int kept = 0;
    work->check.shortest_edge = (double)INFINITY;
    for (int p = 0; p < solid->plane_count; p++) {
        for (int k = solid->face_start[p]; k < solid->face_start[p + 1]; k++) {
            int other = solid->face_across[k];
            if (other <= p) {
                continue;
            }
            double length = lw_shape_edge(solid, p, other);
            work->check.shortest_edge = fmin(work->check.shortest_edge, length);
            if (length < share * stone->measures.width) {
                lw_finding edge = {.kind = LW_FINDING_NEAR_MISS,
                                   .step = stone->facets[p].step,
                                   .facet = p,
                                   .other = other,
                                   .amount = length};
                kept = keep_shortest(shortest, kept, edge);
                work->check.near_miss_count++;
            }
        }
    }
    lw_status status = LW_OK;
    for (int i = 0; i < kept && status == LW_OK; i++) {
        status = lw_check_add(work, shortest[i]);
    }
    return status;
}

/* ---- the material ------------------------------------------------------- */

static lw_status critical_angles(lw_check_work *work, const lw_cut *cut, const lw_stone *stone,
                                 const lw_check_options *options)
{
    lw_status status = LW_OK;
    double least = options->critical_angle_deg + options->margin_deg;
    for (int i = 0; i < cut->step_count && status == LW_OK; i++) {
        const lw_step *step = &cut->steps[i];
        double angle = stone->tiers[i].angle_deg;
        bool slants = step->kind == LW_STEP_FACETS && angle > 0.0 && !step->temporary;
        if (slants && step->side == LW_SIDE_PAVILION && angle < least) {
            lw_finding finding = {.kind = LW_FINDING_BELOW_CRITICAL,
                                  .step = i,
                                  .facet = stone->tiers[i].first,
                                  .other = -1,
                                  .amount = angle - options->critical_angle_deg};
            status = lw_check_add(work, finding);
        }
    }
    return status;
}

/* ---- all of it ---------------------------------------------------------- */

static lw_status make_room(lw_check *check, const lw_memory *memory, int steps)
{
    void *sights = NULL;
    *check = (lw_check){.memory = *memory,
                        .closed = true,
                        .every_facet = true,
                        .every_meet = true,
                        .cuttable = true};
    lw_status status = lw_memory_new(memory, (size_t)steps, sizeof *check->sights, &sights);
    if (status == LW_OK) {
        check->sights = sights;
        check->step_count = steps;
    }
    return status;
}

/* Hands over a block of just the size that destroy will free. */
static lw_status fit(lw_check_work *work)
{
    lw_check *check = &work->check;
    size_t count = (size_t)check->finding_count;
    if (count == work->capacity) {
        return LW_OK;
    }
    void *block =
        check->memory.resize(check->memory.context, check->findings,
                             work->capacity * sizeof(lw_finding), count * sizeof(lw_finding));
    if (block == NULL && count > 0) {
        return LW_NO_MEMORY;
    }
    check->findings = block;
    work->capacity = count;
    return LW_OK;
}

lw_status lw_cut_check(const lw_memory *memory, const lw_cut *cut, const lw_stone *stone,
                       const lw_check_options *options, lw_check *out)
{
    static const lw_check_options none = {0};
    const lw_check_options *wish = options != NULL ? options : &none;
    lw_check_work work = {0};
    lw_status status = make_room(&work.check, memory, cut->step_count);
    if (status == LW_OK) {
        status = closed(&work, stone);
    }
    if (status == LW_OK) {
        status = facets_there(&work, stone);
    }
    if (status == LW_OK) {
        status = lw_check_replay(&work, memory, cut, stone);
    }
    if (status == LW_OK && wish->critical_angle_deg > 0.0) {
        status = critical_angles(&work, cut, stone, wish);
    }
    if (status == LW_OK) {
        double share = wish->near_miss > 0.0 ? wish->near_miss : LW_NEAR_MISS;
        status = near_misses(&work, stone, share);
    }
    if (status == LW_OK) {
        status = fit(&work);
    }
    if (status != LW_OK) {
        lw_memory_free(memory, work.check.findings, work.capacity, sizeof(lw_finding));
        work.check.findings = NULL;
        work.check.finding_count = 0;
        lw_check_destroy(&work.check);
        return status;
    }
    *out = work.check;
    return LW_OK;
}

void lw_check_destroy(lw_check *check)
{
    lw_memory_free(&check->memory, check->sights, (size_t)check->step_count, sizeof *check->sights);
    lw_memory_free(&check->memory, check->findings, (size_t)check->finding_count,
                   sizeof *check->findings);
    *check = (lw_check){0};
}
