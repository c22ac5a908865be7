// Every sentence is our own wording, short enough for a hand in gloves. A sentence says what to do; its source says
// where the danger, or the way round it, is written down. Figures that a manual or a law gives are left to these.
#include "service/cautions.h"

#include <algorithm>

namespace service {
namespace {

constexpr std::string_view practice = "common practice, no source";

constexpr Caution catalogue[] = {
    // Fluids.
    {"fluid-under-pressure",
     "Fluid under pressure goes through skin and gloves. Let the pressure off before you loosen a line, and never "
     "loosen one that still has it; search for leaks with card or wood, never with a hand. Fluid in the skin is an "
     "emergency for a surgeon, even if it hardly hurts: to a hospital at once",
     "Colorado State University Extension, farm management series 5.017, in a restatement"},
    {"pressure-cap", "Open the cap of a cooling system only when it is completely cold, slowly; steam scalds",
     "United States model commercial driver manual, section 2, from memory"},
    {"coolant",
     "Coolant poisons people and animals, who like its taste: wear gloves, catch all of it, keep it closed and marked, "
     "none of it into soil or drain",
     practice},
    {"hot-fluid", "Hot oil, coolant and fuel burn: let them cool, wear gloves and goggles, keep your face away",
     "TM 10-3930-671-24, appendix E (1)"},
    {"hot-surface", "Engine, turbocharger and exhaust burn long after they stop: let them cool before you reach in",
     practice},
    {"used-oil",
     "Used oil harms skin and water: wear gloves, catch all of it, keep it closed in a sound container marked "
     "\"Used Oil\"",
     "40 CFR 279.22"},
    {"fuel-vapour",
     "Fuel vapour catches fire: no flame, spark or smoking, engine cold, air the place, have an extinguisher at hand",
     practice},
    {"solvent", "Solvents burn and poison: no petrol for cleaning, no flame, plenty of air, gloves and goggles",
     "TM 9-2320-279-10-3; 29 CFR 1910.178(q)(10)"},
    {"spray-residue",
     "Spray on and in the machine harms through the skin: rinse it first, wear what the label asks for, catch the "
     "rinsings, wash before you eat",
     practice},
    {"compressed-air",
     "Compressed air tears eyes and skin: goggles, never towards anybody; let the pressure off before you open a line "
     "or a vessel",
     practice},

    // Parts that move, fall or spring.
    {"shafts-and-belts",
     "Shafts, belts and chains catch clothing, hair and hands: stop the drive, wait until all is still, and put the "
     "guards back on before it turns",
     "29 CFR 1928.57(a)(6)"},
    {"moving-parts",
     "Parts turn on after the engine stops: wait until all is still before you open a guard, adjust, clean or unclog",
     "29 CFR 1928.57(a)(6)"},
    {"engine-running",
     "Let it run only for the step that needs it: agree each step first, one of you at the controls, guards on, "
     "everybody clear",
     "29 CFR 1928.57(a)(6)"},
    {"automatic-start",
     "It can start by itself: lock automatic start off and tag it, until all work is done and all are clear; on a "
     "machine that must not run it stays so",
     "29 CFR 1910.147(d), from memory"},
    {"raised-parts",
     "Block what is raised, on stands or by its own locks, before you reach under it; hydraulics or a jack alone are "
     "not to be trusted",
     "29 CFR 1926.600(a)(3)(i), from memory"},
    {"not-on-the-jack",
     "Never work on or under a machine that only a jack holds: set it on stands, on firm level ground, and try that it "
     "stands",
     practice},
    {"under-the-machine",
     "Nobody starts or moves it while somebody is under it: key in your pocket, wheels chocked, a tag at the controls",
     "TM 5-3895-383-24, 1-12"},
    {"stored-energy",
     "Springs, accumulators and weights keep their force after all is switched off: let it out or block it, and prove "
     "it gone, before you loosen anything",
     "29 CFR 1910.147(d), from memory"},
    {"sharp-edges",
     "Knives and worn edges cut, and a rotor turns by its own weight: block it, wear gloves that withstand blades",
     practice},
    {"heavy-parts",
     "A heavy part crushes hands, feet and backs: a hoist, a trolley or a second pair of hands, and nobody beneath it",
     practice},
    {"tyre-and-rim",
     "A tyre or rim under pressure can kill: stand to the side of it at every check. Before a wheel or a rim is taken "
     "apart, let the air out fully; fill it in a cage or behind a restraint; rims of several pieces are for trained "
     "people only",
     "29 CFR 1910.177, from memory; where to stand at a check is common practice, no source"},

    // Electricity.
    {"battery",
     "Batteries give off hydrogen, which explodes, and hold acid, which burns: no flame, spark or smoking, goggles and "
     "gloves on. Take the earth lead (mostly the negative) off first, and put it on last",
     "a care text for farm tractors for the order of the leads; hydrogen and acid from memory"},
    {"charger-off", "Switch the charger off at the mains before you put its leads on or take them off", practice},
    {"electricity",
     "Switch off, lock off, keep the key, and prove it dead before you touch it; fixed wiring is for a licensed "
     "electrician",
     "29 CFR 1928.57(a)(6) for the lock; the rest 29 CFR 1910.147(d), from memory"},
    {"back-feed",
     "A generator, an inverter or a second supply can make a line live that is switched off: open and lock every way "
     "in, prove it dead",
     "TM 5-3610-295-13&P, table 2-1, for the shock; the second supply is common practice, no source"},
    {"overhead-lines",
     "Look up: keep booms, augers, ladders and pipes well clear of power lines. If it touches one, stay in, keep all "
     "others off, call for the line to be switched off",
     practice},

    // Air and places.
    {"exhaust-gas", "Exhaust kills unseen: run it in the open, or lead the exhaust out and air the room",
     "TM 5-3610-295-13&P, table 2-1"},
    {"confined-space",
     "Gas and lack of air in slurry stores, silos, pits and tanks kill in a breath. Air it, measure with a gas meter, "
     "never go in alone: an attendant stays outside, calls for help and does not follow",
     practice},
    {"deep-water",
     "Water at a sluice, a sump or a screen drowns, and an intake pulls under: stop the pump, wear a life jacket, "
     "keep a throw line at hand, never go alone",
     practice},
    {"dust-explosion",
     "Dust in the air explodes: no flame, spark, grinding or welding until it is empty and clean; do not blow dust up",
     practice},
    {"dust-lungs", "Dust and mould harm lungs for good: wear a mask that fits, damp it or suck it up, do not blow it",
     practice},
    {"asbestos",
     "Old brake and clutch linings, gaskets and lagging may hold asbestos: do not blow, brush or sand them; leave them "
     "to those who are licensed",
     practice},
    {"work-at-height",
     "Use a platform, or a ladder that is tied or held; never stand in a bucket or on a fork; keep the ground below "
     "clear",
     practice},
    {"working-alone",
     "Not alone where you can help it; else tell somebody where you are and until when, and carry a telephone that "
     "works there",
     practice},
};

constexpr BaseCautions base{
    .steps =
        {
            "park level, brake on, attachments lowered",
            "stop the engine and take the key, or lock the power off, automatic start too, and tag it",
            "wait until all has stopped",
            "chock the wheels, block what stays raised",
            "only then let pressure off",
            "let hot parts cool",
            "try that it cannot start",
            "follow the operator's manual, local rules and licensed practice",
        },
    .afterwards =
        "tools out, guards on, everybody clear before it starts. Where automatic start was locked off, the look for "
        "leaks comes before it goes back on, and it always goes back on, last; but on a machine out of use or laid up "
        "it stays locked off and tagged until that is back",
    .in_a_line =
        "Before you touch it: level, brake, lowered; engine off, key out or locked off; wait; chock, block; then "
        "pressure off; let cool; manual.",
};

}  // namespace

std::span<const Caution> caution_catalogue() { return catalogue; }

const Caution* caution(std::string_view name) {
  const auto* const found = std::ranges::find(catalogue, name, &Caution::name);
  return found == std::end(catalogue) ? nullptr : found;
}

bool is_caution_name(std::string_view written) {
  return std::ranges::all_of(written, [](char letter) { return letter > ' ' && letter <= '~'; });
}

std::string_view caution_sentence(std::string_view written) {
  const Caution* const named = caution(written);
  return named == nullptr ? written : named->sentence;
}

const BaseCautions& base_cautions() { return base; }

}  // namespace service
