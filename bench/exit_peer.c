#include "exit_peer.h"

#include <embree3/rtcore.h>
#include <math.h>
#include <stdlib.h>
#include <xmmintrin.h>

enum { MOST_TRIANGLES = 4 * EXIT_MOST_FACETS };

/* Past where it starts, on a facet: what Embree's guide asks for. */
static const float start = 1e-5f;

struct exit_peer {
    struct RTCRayHit one[EXIT_RAYS];
    struct RTCRayHit8 eight[EXIT_RAYS / 8];
    struct RTCRayHit16 sixteen[EXIT_RAYS / 16];
    _Alignas(64) int valid[16];
    struct RTCIntersectContext context;
    RTCDevice device;
    RTCScene scene;
    int facet[MOST_TRIANGLES];
};

static void add_triangles(exit_peer *p, const exit_stone *stone, RTCGeometry mesh)
{
    const lw_optic_solid *solid = &stone->optic;
    size_t count = 0;
    for (int i = 0; i < solid->facet_count; i++)
        count += (size_t)(solid->ring_start[i + 1] - solid->ring_start[i] - 2);
    float *corner = rtcSetNewGeometryBuffer(mesh, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3,
                                            3 * sizeof(float), (size_t)solid->corner_count);
    unsigned *index = rtcSetNewGeometryBuffer(mesh, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3,
                                              3 * sizeof(unsigned), count);
    for (int i = 0; i < solid->corner_count; i++) {
        lw_vec3 at = lw_vec3_sub(solid->corners[i], stone->wide.middle);
        *corner++ = (float)at.x;
        *corner++ = (float)at.y;
        *corner++ = (float)at.z;
    }
    int triangle = 0;
    for (int i = 0; i < solid->facet_count; i++) {
        int first = solid->ring_start[i];
        for (int k = first + 1; k + 1 < solid->ring_start[i + 1]; k++) {
            *index++ = (unsigned)solid->corner[first];
            *index++ = (unsigned)solid->corner[k];
            *index++ = (unsigned)solid->corner[k + 1];
            p->facet[triangle++] = i;
        }
    }
}

/* Everything that a run leaves as it is. */
static void load_rays(exit_peer *p, const exit_rays *rays)
{
    for (int i = 0; i < EXIT_RAYS; i++) {
        float a[6];
        for (int k = 0; k < 6; k++)
            a[k] = rays->part[k][i];
        p->one[i].ray = (struct RTCRay){.org_x = a[0],
                                        .org_y = a[1],
                                        .org_z = a[2],
                                        .tnear = start,
                                        .dir_x = a[3],
                                        .dir_y = a[4],
                                        .dir_z = a[5],
                                        .mask = ~0u};
        struct RTCRay8 *r8 = &p->eight[i / 8].ray;
        struct RTCRay16 *r16 = &p->sixteen[i / 16].ray;
        int k = i % 8, m = i % 16;
        r8->org_x[k] = r16->org_x[m] = a[0];
        r8->org_y[k] = r16->org_y[m] = a[1];
        r8->org_z[k] = r16->org_z[m] = a[2];
        r8->dir_x[k] = r16->dir_x[m] = a[3];
        r8->dir_y[k] = r16->dir_y[m] = a[4];
        r8->dir_z[k] = r16->dir_z[m] = a[5];
        r8->tnear[k] = r16->tnear[m] = start;
        r8->mask[k] = r16->mask[m] = ~0u;
    }
}

exit_peer *exit_peer_new(const exit_stone *stone, const exit_rays *rays)
{
    exit_peer *p = aligned_alloc(64, (sizeof *p + 63) / 64 * 64);
    if (p == NULL)
        return NULL;
    _mm_setcsr(_mm_getcsr() | 0x8040); /* as Embree's guide asks: tiny numbers are 0 */
    p->device = rtcNewDevice("threads=1");
    p->scene = rtcNewScene(p->device);
    RTCGeometry mesh = rtcNewGeometry(p->device, RTC_GEOMETRY_TYPE_TRIANGLE);
    add_triangles(p, stone, mesh);
    rtcSetGeometryBuildQuality(mesh, RTC_BUILD_QUALITY_HIGH);
    rtcCommitGeometry(mesh);
    rtcAttachGeometry(p->scene, mesh);
    rtcReleaseGeometry(mesh);
    rtcSetSceneBuildQuality(p->scene, RTC_BUILD_QUALITY_HIGH);
    rtcCommitScene(p->scene);
    rtcInitIntersectContext(&p->context);
    p->context.flags = RTC_INTERSECT_CONTEXT_FLAG_INCOHERENT;
    for (int i = 0; i < 16; i++)
        p->valid[i] = -1;
    load_rays(p, rays);
    return p;
}

void exit_peer_free(exit_peer *p)
{
    rtcReleaseScene(p->scene);
    rtcReleaseDevice(p->device);
    free(p);
}

static void run_1(exit_peer *p, int count)
{
    for (int i = 0; i < count; i++) {
        p->one[i].ray.tfar = INFINITY;
        p->one[i].hit.geomID = RTC_INVALID_GEOMETRY_ID;
        p->one[i].hit.instID[0] = RTC_INVALID_GEOMETRY_ID;
        rtcIntersect1(p->scene, &p->context, &p->one[i]);
    }
}

static void run_8(exit_peer *p, int count)
{
    for (int i = 0; i < count / 8; i++) {
        for (int k = 0; k < 8; k++) {
            p->eight[i].ray.tfar[k] = INFINITY;
            p->eight[i].hit.geomID[k] = RTC_INVALID_GEOMETRY_ID;
        }
        rtcIntersect8(p->valid, p->scene, &p->context, &p->eight[i]);
    }
}

static void run_16(exit_peer *p, int count)
{
    for (int i = 0; i < count / 16; i++) {
        for (int k = 0; k < 16; k++) {
            p->sixteen[i].ray.tfar[k] = INFINITY;
            p->sixteen[i].hit.geomID[k] = RTC_INVALID_GEOMETRY_ID;
        }
        rtcIntersect16(p->valid, p->scene, &p->context, &p->sixteen[i]);
    }
}

void exit_peer_run(exit_peer *p, int wide, int count)
{
    if (wide == 1)
        run_1(p, count);
    else if (wide == 8)
        run_8(p, count);
    else
        run_16(p, count);
}

int exit_peer_facet(const exit_peer *p, int wide, int i, float *length)
{
    unsigned geometry, triangle;
    if (wide == 1) {
        geometry = p->one[i].hit.geomID, triangle = p->one[i].hit.primID;
        *length = p->one[i].ray.tfar;
    } else if (wide == 8) {
        geometry = p->eight[i / 8].hit.geomID[i % 8], triangle = p->eight[i / 8].hit.primID[i % 8];
        *length = p->eight[i / 8].ray.tfar[i % 8];
    } else {
        geometry = p->sixteen[i / 16].hit.geomID[i % 16];
        triangle = p->sixteen[i / 16].hit.primID[i % 16];
        *length = p->sixteen[i / 16].ray.tfar[i % 16];
    }
    return geometry == RTC_INVALID_GEOMETRY_ID ? -1 : p->facet[triangle];
}
