/* A solved stone: what a cut comes to.
 *
 * Frame: z up through the table, z = 0 at mid-girdle, unit length the cut's width (what "size"
 * calls 100 %), azimuth counter-clockwise seen from the table, tooth 0 at +x. Sizes in mm come from
 * unit_mm alone.
 */
#ifndef LW_CUT_STONE_H
#define LW_CUT_STONE_H

#include "cut/value.h"
#include "geom/mass.h"
#include "geom/solid.h"

/* One facet of one tooth, as cut. */
typedef struct lw_facet {
    int step;         /* index into cut->steps */
    lw_side side;     /* PAVILION, CROWN, or GIRDLE at 90 degrees */
    double tooth;     /* 0 <= tooth < wheel: the stone's, not the dial's */
    double angle_deg; /* 0 the table or culet, 90 the girdle */
    bool temporary;   /* to be cut away again */
    lw_plane plane;
} lw_facet;

/* The facets that a step cut: facets[first .. first + count - 1], in the order of its teeth. An
 * action (dop, transfer …) has count 0. */
typedef struct lw_tier {
    int first, count;
    double angle_deg; /* as given, or as it came out */
} lw_tier;

/* Lengths in the unit; multiply by unit_mm for mm. */
typedef struct lw_measures {
    double width;         /* least distance between parallel jaws in plan: what a caliper reads */
    double length;        /* greatest distance between parallel jaws in plan: corner to corner */
    double length_across; /* between jaws at right angles to those of width: the long side of an
                             oblong, the length of a pear; the greatest where width is read in
                             several directions */
    double diameter;      /* twice the greatest distance of an outline corner from the axis */
    double depth;         /* table to culet */
    double crown;         /* table to the girdle's upper line where the girdle is thickest */
    double pavilion;      /* the girdle's lower line there to the culet */
    double girdle_thick;  /* along the axis, at the thickest corner of the outline */
    double girdle_thin;   /* at the thinnest */
    double table;         /* least distance between parallel jaws on the table; 0 without one */
    double table_corner;  /* the table's greatest width between corners, through the middle */
    double culet;         /* greatest distance between jaws on the culet facet; 0 without one */
    lw_mass mass;
    int facet_count;        /* with an area, girdle not counted */
    int girdle_facet_count; /* with an area */
} lw_measures;

typedef struct lw_stone {
    lw_memory memory;
    int facet_count;
    lw_facet *facets; /* all, temporary ones too, in the order cut; facets[i] is plane i of the
                         solid: one that is gone at the end has an empty face there */
    int tier_count;
    lw_tier *tiers; /* one for each step of the cut */
    lw_polyhedron solid;
    lw_measures measures;
    double unit_mm; /* millimetres a unit; 0 when the stone has no size */
    double raised; /* by how much the frame was moved along z, from where the first steps put it, to
                      have z = 0 at mid-girdle */
    lw_values values; /* of the settings that the stone was solved with */
} lw_stone;

/* Takes a zeroed one, and twice. */
void lw_stone_destroy(lw_stone *stone);

/* Measures of any closed solid whose facets are these. Pure; used by the solver and for adapted
 * stones. */
void lw_stone_measure(const lw_facet *facets, const lw_polyhedron *solid, lw_measures *out);

/* The level of the edge where crown and pavilion meet, of a closed solid without a girdle: half way
 * between its highest and its lowest point; 0 when they do not meet. */
double lw_stone_edge_level(const lw_polyhedron *solid);

/* Carats of a stone with a size, in a material of this specific gravity. 1 ct = 0.2 g. */
double lw_stone_weight_ct(const lw_stone *stone, double specific_gravity);

#endif
