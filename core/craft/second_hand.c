#include "craft/second_hand.h"

#include <assert.h>

static const lw_second_hand rows[] = {
    {"master lap, and the spindle's nut",
     "Every lap lies on it: if it is not true, no facet is flat.",
     "Turn it by hand under a dial gauge or a fixed pin: it should rise and fall less than a sheet "
     "of paper is thick. Where a lap turns one way only the nut often has a left-hand thread, so "
     "that turning does not loosen it: find out before you run a lap the other way.",
     true},
    {"index wheels, one of 96 teeth before all",
     "Most instructions are written for 96; without the wheel you convert every one.",
     "Put each wheel on and feel it lock without play at every tooth. Look for worn or chipped "
     "teeth.",
     true},
    {"dops in several sizes, flat, cone and vee",
     "The stone must be held by half to seven tenths of its width, whatever its shape.",
     "They slide into the quill without rattling, and their keys or flats are not rounded off.",
     true},
    {"45 degree adapter", "The table cannot be cut without it on most masts.",
     "With it in place and the protractor at 45, a dop's face lies flat on the lap.", true},
    {"transfer jig", "It turns the stone end for end on the same axis.",
     "Two dops put face to face in it meet without a step, seen from two sides.", true},
    {"quill and chuck", "Play here is play in every facet.",
     "Hold the dop and try to move it: nothing should give. It turns freely, and the index locks.",
     true},
    {"protractor or angle read-out",
     "Angles must repeat; that they are right to a tenth of a degree matters less.",
     "At 90 degrees a dop lies parallel to the lap, at 0 it stands square on it.", true},
    {"height setting of the mast",
     "It decides how deep a facet goes. On some machines clockwise lowers the head, on others it "
     "raises it.",
     "Raise and lower it through its whole travel: no slack when it changes direction, no sinking "
     "by itself.",
     true},
    {"cheater", "It turns the stone by less than a tooth to put right a transfer or a wheel.",
     "It moves both ways from its middle, and stays where it is put.", true},
    {"splash guard and pan", "Water and grit go everywhere else.", "No cracks; the drain is in it.",
     true},
    {"drain tube, wide", "A tube of 6 or 7 mm clogs with sludge.",
     "As wide as the pan's outlet allows, and without a dip.", true},
    {"water supply with a tap", "Laps are run wet: dry dust harms lungs.",
     "It gives one drop at a time as well as a trickle.", true},
    {"motor with speed control, both ways if it has them", "Slow for polish, fast for shaping.",
     "It starts slowly under a hand on the lap and does not hum. Water and mains: it should be on "
     "a residual-current device, and an electrician should see anything that looks repaired.",
     true},
    {"laps", "They wear out; count them as extras, not as a reason to buy.",
     "Flat against a straight edge, coating whole up to the middle third.", false},
    {"the machine's instructions, and who serviced it",
     "Buy what can be serviced where you live, and what you can afford.",
     "Ask for spare parts by name: belt, bearings, wheel spring.", false},
};

int lw_second_hand_count(void)
{
    return sizeof rows / sizeof *rows;
}

const lw_second_hand *lw_second_hand_at(int i)
{
    assert(i >= 0 && i < lw_second_hand_count());
    return &rows[i];
}
