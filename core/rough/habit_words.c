#include "rough/habit.h"

#include <assert.h>
#include <string.h>

static const lw_habit_words words[LW_HABIT_COUNT] = {
    [LW_HABIT_PEBBLE] =
        {"pebble",
         {"the longest way through", "across it, at right angles to the first",
          "the thickness, at right angles to both"},
         "Worn round by water: taken as the ellipsoid on the three readings. A worn "
         "piece with flats is a little fuller than that, one with hollows less."},
    [LW_HABIT_HALF_PEBBLE] = {"half-pebble",
                              {"the longest way along the flat side", "across the flat side",
                               "from the flat side to the top of the round"},
                              "A worn pebble broken or sawn through: half an ellipsoid on its flat "
                              "side."},
    [LW_HABIT_COBBED] = {"cobbed",
                         {"the longest way through", "across it, at right angles to the first",
                          "the thickness, at right angles to both"},
                         "Broken and trimmed with no form of its own: taken to hold half of the "
                         "box around it, of which the box with its eight corners off, 42 % of it, "
                         "can be counted on. Look for hollows yourself."},
    [LW_HABIT_BLOCK] = {"block",
                        {"between two opposite faces", "between the next two",
                         "between the last two"},
                        "Sawn, or split along cleavages at right angles: the whole box."},
    [LW_HABIT_CUBE] = {"cube",
                       {"between two opposite faces", "between the next two",
                        "between the last two"},
                       "A crystal in cubes. The three readings need not agree: few cubes are."},
    [LW_HABIT_PLATE] = {"plate",
                        {"the longest way along the plate", "across the plate",
                         "the thickness, between the two level faces"},
                        "A flat crystal or a slice: level above and below, its outline taken as "
                        "the ellipse on the first two readings."},
    [LW_HABIT_HEXAGONAL_PRISM] = {"hexagonal-prism",
                                  {"along the prism (the c axis), from end to end",
                                   "across it, over two opposite corners",
                                   "across it, between two opposite prism faces"},
                                  "A six-sided prism broken or flat at both ends: quartz, beryl, "
                                  "apatite."},
    [LW_HABIT_POINTED_PRISM] = {"pointed-prism",
                                {"along the prism (the c axis), from the broken end to the point",
                                 "across it, over two opposite corners",
                                 "across it, between two opposite prism faces"},
                                "A six-sided prism with one point, its faces as steep as those of "
                                "quartz."},
    [LW_HABIT_DOUBLE_POINTED] = {"double-pointed",
                                 {"along the prism (the c axis), from point to point",
                                  "across it, over two opposite corners",
                                  "across it, between two opposite prism faces"},
                                 "A six-sided prism with a point at either end, as steep as those "
                                 "of quartz."},
    [LW_HABIT_BARREL] = {"barrel",
                         {"along the barrel (the c axis), from end to end",
                          "across the middle, over two opposite corners",
                          "across the middle, between two opposite edges' faces"},
                         "Six-sided, thickest in the middle, its level ends taken as half as wide: "
                         "corundum."},
    [LW_HABIT_OCTAHEDRON] = {"octahedron",
                             {"from one point to the opposite one", "between the next two points",
                              "between the last two points"},
                             "Eight triangles; measured from point to point, not from face to "
                             "face: diamond, spinel, fluorite."},
    [LW_HABIT_DODECAHEDRON] = {"dodecahedron",
                               {"between two opposite corners in which four faces meet",
                                "between the next two such corners",
                                "between the last two such corners"},
                               "Twelve lozenges: garnet. The corners with four faces, not those "
                               "with three."},
    [LW_HABIT_TRAPEZOHEDRON] = {"trapezohedron",
                                {"between two opposite corners in which four long edges meet",
                                 "between the next two such corners",
                                 "between the last two such corners"},
                                "Twenty-four kites, almost a ball: garnet, leucite."},
    [LW_HABIT_RHOMBOHEDRON] = {"rhombohedron",
                               {"between two opposite faces, the jaws flat on them",
                                "between the next two faces", "between the last two faces"},
                               "A slanting box as calcite cleaves; the readings are square to the "
                               "faces, so they are not at right angles to one another."},
};

const lw_habit_words *lw_habit_describe(lw_habit habit)
{
    assert((unsigned)habit < LW_HABIT_COUNT);
    return &words[habit];
}

bool lw_habit_find(const char *key, lw_habit *out)
{
    for (int i = 0; i < LW_HABIT_COUNT; i++) {
        if (strcmp(words[i].key, key) == 0) {
            *out = (lw_habit)i;
            return true;
        }
    }
    return false;
}
