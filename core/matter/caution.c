#include "matter/caution.h"

#include <assert.h>
#include <string.h>

static const lw_caution cautions[LW_CAUTION_COUNT] = {
    {LW_CAUTION_MERCURY, "mercury", "holds mercury",
     "Warmth frees a vapour that poisons the nerves. Not for a workshop at home."},
    {LW_CAUTION_ARSENIC, "arsenic", "holds arsenic",
     "Poisonous as dust, as sludge and in the fumes when it is heated. Leave it to those who are "
     "set up for it."},
    {LW_CAUTION_ASBESTOS, "asbestos", "may hold asbestos",
     "Its fibres are deadly years later. Keep the piece under water while it is worked, let "
     "nothing dry, bag the sludge wet; if in doubt, do not cut it."},
    {LW_CAUTION_RADIOACTIVE, "radioactive", "may be radioactive",
     "Measure it before you begin. Breathe and swallow none of it: flood the lap, collect the "
     "sludge, wash hands, and do not keep it where you sit or sleep."},
    {LW_CAUTION_BERYLLIUM, "beryllium", "holds beryllium",
     "Its dust can make the lungs ill for life. Saw, grind and polish wet only, and wipe up the "
     "splash before it dries."},
    {LW_CAUTION_LEAD, "lead", "holds lead",
     "Poisonous as dust and sludge, to children above all. No food near the machine, separate "
     "towels, hands washed, sludge collected and handed in as poison."},
    {LW_CAUTION_COPPER, "copper", "holds copper",
     "Its dust and slurry poison and irritate. Keep the slurry off the skin and away from the "
     "mouth, let none of it dry, collect the sludge."},
    {LW_CAUTION_METALS, "metals", "holds harmful elements",
     "Harmful as dust or when swallowed. Cut wet, wash hands, collect the sludge."},
    {LW_CAUTION_SILICA, "silica", "silica dust",
     "Fine silica scars the lungs (limit in the air of a workplace: 50 ug/m3 over 8 hours). Cut "
     "wet, and wash aprons and towels before the splash on them turns to dust."},
    {LW_CAUTION_FLUORIDE, "fluoride", "acid frees hydrogen fluoride",
     "No acid near it: what comes off burns deep and is felt late."},
    {LW_CAUTION_CLEAVES, "cleaves", "cleaves",
     "Find the cleavage first, keep every facet some degrees off it, start fine, grind toward "
     "the stone's body rather than off its edges, and spare it knocks."},
    {LW_CAUTION_HEAT, "heat", "sensitive to heat",
     "Sudden warmth or cold cracks it. Dop with an adhesive that sets cold, keep the lap wet, "
     "polish with a light hand, and let it cool by itself."},
    {LW_CAUTION_MELTS, "melts", "melts under friction",
     "Run the lap slowly and wet; a hot lap smears the surface."},
    {LW_CAUTION_DRIES, "dries", "dries out and crazes",
     "It holds water of its own: no dry running, no warm wax, no long rest under a lamp."},
    {LW_CAUTION_WATER, "water", "water attacks it",
     "Water takes the polish or the stone itself: use oil, and keep the finished stone dry."},
    {LW_CAUTION_ACID, "acid", "acid attacks it", "No acid for cleaning, and none in the polish."},
    {LW_CAUTION_SOLVENT, "solvent", "solvents attack it",
     "Choose a dop adhesive that comes off without solvent."},
    {LW_CAUTION_FILLED, "filled", "often filled",
     "Cracks are often filled with oil or resin that heat and solvents draw out: expect the "
     "stone to look worse afterwards, and cut with the cracks in mind."},
    {LW_CAUTION_ULTRASONIC, "ultrasonic", "no ultrasonic bath",
     "Clean it by hand: no ultrasonic bath, no steam."},
    {LW_CAUTION_FADES, "fades", "colour changes",
     "Light or heat can change its colour: keep it cool and out of the sun."},
    {LW_CAUTION_BRITTLE, "brittle", "brittle",
     "Its edges chip: fine laps, little pressure, and edges broken last."},
    {LW_CAUTION_SOFT, "soft", "soft",
     "It loses height quickly and scratches easily: start fine, look often, wipe gently."},
};

const lw_caution *lw_caution_at(size_t i)
{
    assert(i < LW_CAUTION_COUNT);
    return &cautions[i];
}

const lw_caution *lw_caution_find(const char *word)
{
    for (size_t i = 0; i < LW_CAUTION_COUNT; i++) {
        if (strcmp(cautions[i].word, word) == 0) {
            return &cautions[i];
        }
    }
    return NULL;
}
