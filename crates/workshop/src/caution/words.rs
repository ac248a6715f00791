//! The words of the cautions, each with its source.

use super::Caution;

/// A caution with its words.
pub struct CautionText {
    /// Its subject.
    pub label: &'static str,
    /// Sentences on what to do and what to avoid.
    pub words: &'static str,
    /// Their source.
    pub source: &'static str,
}

/// A row of the table.
const fn row(label: &'static str, words: &'static str, source: &'static str) -> CautionText {
    CautionText {
        label,
        words,
        source,
    }
}

/// Words and source of a caution.
pub const fn text_of(caution: Caution) -> CautionText {
    match caution {
        Caution::DrillPress
        | Caution::Router
        | Caution::TableSaw
        | Caution::BandSaw
        | Caution::HandSaw
        | Caution::Jointer
        | Caution::Mortise
        | Caution::Cnc => machine(caution),
        Caution::Eyes => row(
            "Eyes",
            "Wear safety glasses with side shields at everything that cuts, drills, sands or splashes.",
            "29 CFR 1910.133, from memory",
        ),
        Caution::Dust => row(
            "Wood dust",
            "Collect dust at the tool and wear a respirator that fits: NIOSH and ACGIH set 1 mg per cubic meter over 8 \
             hours, 0.5 for western red cedar. Oak and beech dust are known to cause cancer; birch, mahogany, teak and \
             walnut dust are suspected to.",
            "NIOSH recommended limit; ACGIH limits and cancer notes as quoted on a trade page, not read",
        ),
        Caution::Noise => row(
            "Noise",
            "Wear hearing protection: NIOSH allows 8 hours at 85 dBA and half as long for every 3 dB more, so \
             15 minutes at 100 dBA.",
            "NIOSH criteria for noise, 85 dBA and 3 dB exchange",
        ),
        Caution::Resin
        | Caution::OilyRags
        | Caution::Solvents
        | Caution::SmallParts
        | Caution::Magnets => stuff(caution),
    }
}

/// Words and source of a caution on a tool.
const fn machine(caution: Caution) -> CautionText {
    match caution {
        Caution::Router => row(
            "Router",
            "Clamp the work and the template. Feed against the bit's rotation, chip shield on, shank as deep in the collet as \
             the manual says, under the bit's rated speed. Unplug the router before changing bits.",
            "OSHA 3157 (1999), routers; depth in the collet: common practice, no source",
        ),
        Caution::TableSaw => row(
            "Table saw",
            "Keep the guard on and the blade no higher above the work than needed. Use a push stick near the blade, stand out of its \
             line, and adjust nothing while it turns. Where a circle jig leaves no room for a guard, do not use the saw: \
             a router trammel or a band saw is safer.",
            "OSHA 3157 (1999), table saws; the circle jig: common practice, no source",
        ),
        Caution::BandSaw => row(
            "Band saw",
            "Set the upper guide just above the work. Keep hands out of the blade's line, and push the last of the cut \
             with a block.",
            "OSHA 3157 (1999), band saws, from memory",
        ),
        Caution::HandSaw => row(
            "Circular saw and jig saw",
            "Clamp the work so that the kerf cannot close; check that the guard snaps shut, and keep the cord clear. Unplug the saw before changing the \
             blade.",
            "29 CFR 1910.243, from memory",
        ),
        Caution::Jointer => row(
            "Jointer and planer",
            "Jointer: guard over the cutterhead, push blocks, light cuts, nothing shorter than 12\" (300 mm). Planer: \
             stand to one side, feed nothing shorter than the distance between its rollers. Unplug either before clearing \
             chips or changing knives.",
            "OSHA 3157 (1999), from memory; the lengths: common practice, no source",
        ),
        Caution::Mortise => row(
            "Mortising",
            "Clamp the board so that it cannot tip, keep both hands on the tool and none behind the board's edge, and let the \
             bit stop before you lift the tool off.",
            "common practice, no source",
        ),
        Caution::Cnc => row(
            "CNC machine",
            "Prove every program in the air first, above the work. Keep clamps and screws out of the bit's way and lower than the \
             safe height, the emergency stop within reach, and hands out while it moves. Stay with it while it runs.",
            "common practice, no source",
        ),
        _ => row(
            "Drill press",
            "Clamp the work. No gloves; tie back sleeves and hair. Take the chuck key out before you switch on, and let the bit stop \
             before you clear chips.",
            "common practice, no source",
        ),
    }
}

/// Words and source of a caution on harmful materials.
const fn stuff(caution: Caution) -> CautionText {
    match caution {
        Caution::Resin => row(
            "Resin",
            "Wear nitrile gloves and change them often; latex does not protect. Wear eye protection and open the windows. Uncured resin, \
             hardener and their dust can make you allergic for good. A large cup gets hot enough to smoke: set it outdoors. \
             Sand resin only when it is fully cured, with a respirator. Read the safety data sheet.",
            "UK HSE, RR79 and dermatitis guidance; latex: trade page, not a standard; dust of uncured resin: from memory",
        ),
        Caution::OilyRags => row(
            "Oily rags",
            "Rags with drying oil heat up by themselves and can catch fire within hours. Spread them flat outdoors to dry, or \
             keep them under water in a metal can with a tight lid, and follow local rules for throwing them away.",
            "trade pages that quote NFPA figures, not a standard",
        ),
        Caution::Solvents => row(
            "Solvents",
            "Vapor from mineral spirits, alcohol and lacquer thinner burns and harms. Open windows on two sides; no flame, spark or \
             pilot light near, and no ordinary fan in the vapor, since its motor can light it. Wear gloves and a respirator with the \
             cartridges named on the label.",
            "common practice, no source; see the maker's safety data sheet",
        ),
        Caution::SmallParts => row(
            "Small parts and balls",
            "Small children choke on marbles, pegs and small balls. Keep them out of reach, and mark the age on the board.",
            "16 CFR 1501, 16 CFR 1500.19, EN 71-1",
        ),
        _ => row(
            "Magnets",
            "Two swallowed magnets can kill. Fix each so that it cannot come out, in pieces and in a lid alike, or do without.",
            "16 CFR 1262, EN 71-1",
        ),
    }
}
