//! A repair in the maker's words and unit, for findings and the repair page.

use board::{Fault, HoleName, Units, capital, show_length, with_article};

use super::plug::{Around, Plug, Remedy, Repair};
use crate::bit_name;

/// A repair in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RepairWords {
    /// The fault: `2 mm out of place`.
    pub mistake: String,
    /// The wood that it leaves.
    pub leaves: String,
    /// The remedy, as a clause.
    pub remedy: String,
    /// The steps of the repair, in their order.
    pub steps: Vec<String>,
}

impl Repair {
    /// The repair in words, with lengths in a unit.
    ///
    /// ```
    /// use board::{Board, Fault, Units, WrongHole};
    /// use workshop::{Workpiece, repairs};
    /// let fault = Fault::Deep { by: 3.0 };
    /// let board = Board { wrong: vec![WrongHole { hole: "T1-03".parse().unwrap(), fault }], ..Board::default() };
    /// let words = repairs(&Workpiece::of(&board)?)[0].words(Units::Mm);
    /// assert_eq!(words.mistake, "3 mm too deep");
    /// assert_eq!(words.remedy, "glue a disc 3 mm thick on its floor");
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn words(&self, units: Units) -> RepairWords {
        RepairWords {
            mistake: mistake(self.fault, units),
            leaves: around(&self.leaves, units),
            remedy: remedy(&self.remedy, self.hole, units),
            steps: steps(&self.remedy, self.hole, units),
        }
    }

    /// The fault, the wood that is left and the remedy, as sentences.
    ///
    /// ```
    /// use board::{Board, Fault, Units, WrongHole};
    /// use workshop::{Workpiece, repairs};
    /// let fault = Fault::Deep { by: 3.0 };
    /// let board = Board { wrong: vec![WrongHole { hole: "T1-03".parse().unwrap(), fault }], ..Board::default() };
    /// let told = repairs(&Workpiece::of(&board)?)[0].sentences(Units::Mm);
    /// assert!(told.starts_with("T1-03 is 3 mm too deep. Wood left: "), "{told}");
    /// assert!(told.ends_with("Glue a disc 3 mm thick on its floor."), "{told}");
    /// # Ok::<(), board::BuildError>(())
    /// ```
    pub fn sentences(&self, units: Units) -> String {
        let words = self.words(units);
        format!(
            "{} is {}. Wood left: {}. {}.",
            self.hole,
            words.mistake,
            words.leaves,
            capital(&words.remedy)
        )
    }
}

/// The steps of a repair; empty if none is needed or possible.
fn steps(remedy: &Remedy, hole: HoleName, units: Units) -> Vec<String> {
    let length = |mm| show_length(mm, units);
    match remedy {
        Remedy::Leave | Remedy::NoRoom(_) => Vec::new(),
        Remedy::Disc {
            thickness,
            through,
            spur_out,
        } => {
            let (face, place) = if *through {
                ("underside", "from the underside")
            } else {
                ("top", "on the floor of the hole")
            };
            let mut steps = vec![
                format!(
                    "Cut a disc of the same wood to fit the hole, {} thick, its grain along its face: from a clamped piece, never \
                     from one held by hand.",
                    length(*thickness)
                ),
                format!(
                    "Board clamped, {face} up: glue the disc in {place}, grain along the board's. Let the glue dry."
                ),
            ];
            if *spur_out {
                steps.push("Fill the spur's hole in the underside.".into());
            }
            steps.push(format!("Try a piece in {hole}."));
            steps
        }
        Remedy::Plug(plug) => {
            let size = bit_name(plug.bit.diameter, units);
            vec![
                format!(
                    "Try bit and plug cutter in scrap. Cut a face-grain plug of {size} from a clamped piece of the same wood, longer than \
                     the hole."
                ),
                format!(
                    "Fill the old hole with a dowel first, so that the bit's spur has wood, or clamp a guide with a hole of {size} \
                     over it. Clamp the board{}, and {}.",
                    if plug.through { " on scrap, so that its underside does not splinter" } else { "" },
                    bored(plug, units)
                ),
                "Glue the plug in, its grain along the board's. Let the glue dry, as the label says.".into(),
                "Trim the plug flush, shaving toward its middle, and sand.".into(),
                format!("Mark {hole} again from the center pin and its neighbors, clamp the board, and drill it."),
            ]
        }
    }
}

/// The fault: `2 mm out of place`.
fn mistake(fault: Fault, units: Units) -> String {
    let length = |mm| show_length(mm, units);
    match fault {
        Fault::Off { u, v } => format!(
            "{} out of place",
            length(geometry::Vec2::new(u, v).length())
        ),
        Fault::Deep { by } => format!("{} too deep", length(by)),
        Fault::Chipped { reach } => format!("chipped {} beyond its edge", length(reach)),
    }
}

/// The wood around a bore: `5 mm to T1-04, 20 mm to the roundover, 12 mm below`.
fn around(around: &Around, units: Units) -> String {
    let length = |mm: f64| show_length(mm.max(0.0), units);
    let web = around
        .web
        .map(|(hole, web)| format!("{} to {hole}", length(web)));
    let rim = format!("{} to the roundover", length(around.rim));
    let floor = format!("{} below", length(around.floor));
    let all: Vec<String> = web.into_iter().chain([rim, floor]).collect();
    all.join(", ")
}

/// The remedy as a clause: `leave it`, or the bore for a plug with its place relative to where the hole should be.
fn remedy(remedy: &Remedy, hole: HoleName, units: Units) -> String {
    let length = |mm| show_length(mm, units);
    match remedy {
        Remedy::Leave => "leave it; nobody will see".into(),
        Remedy::Disc {
            thickness,
            through: false,
            spur_out,
        } => {
            let spur = if *spur_out {
                ", and fill the spur's hole below"
            } else {
                ""
            };
            format!(
                "glue a disc {} thick on its floor{spur}",
                length(*thickness)
            )
        }
        Remedy::Disc { thickness, .. } => {
            format!(
                "it comes out below: glue a disc {} thick in from the underside",
                length(*thickness)
            )
        }
        Remedy::Plug(plug) => format!("{}, plug it, and drill {hole} again", bored(plug, units)),
        Remedy::NoRoom(plug) => {
            let into = plug.around.web.filter(|(_, web)| *web < plug.around.rim);
            let plug = with_article(&format!("{} plug", bit_name(plug.bit.diameter, units)));
            match into {
                Some((other, _)) => format!(
                    "{plug} would cut into {other}: plug {other} first, then {hole}, and drill both again"
                ),
                None => format!(
                    "{plug} would run over the edge: let in a piece of the same wood by hand"
                ),
            }
        }
    }
}

/// The bore for a plug: its bit, depth and place.
fn bored(plug: &Plug, units: Units) -> String {
    let length = |mm| show_length(mm, units);
    let depth = if plug.through {
        "through".into()
    } else {
        format!("{} deep", length(plug.depth))
    };
    let aside = plug.beside.hypot();
    let place = if aside < 0.05 {
        "at the hole's own place".into()
    } else {
        let sideways = if plug.beside.x < 0.0 {
            "counter-clockwise"
        } else {
            "clockwise"
        };
        let outward = if plug.beside.y < 0.0 {
            "inward"
        } else {
            "outward"
        };
        format!(
            "{} {sideways} and {} {outward} of the hole's place",
            length(plug.beside.x.abs()),
            length(plug.beside.y.abs())
        )
    };
    let whose = match plug.bit.owned {
        Some(true) => " (you own the bit)",
        Some(false) => " (you do not own that bit)",
        None => "",
    };
    let bit = bit_name(plug.bit.diameter, units);
    let hole = with_article(&format!("{bit} hole"));
    format!("bore {hole}{whose} {depth} {place}")
}
