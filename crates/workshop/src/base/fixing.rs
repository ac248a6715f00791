//! Attaching the base: a bearing, a wooden base that is glued on, feet, or a turntable that the board only lies on.

use board::{Base, BaseHold, Footing};

use super::check::GLUED;
use crate::Workpiece;
use crate::job::{Operation, Task, counted};

/// Movement across the base over a year from which screws get slots, mm: the play of a screw in its clearance hole; common
/// practice, no source.
const NEEDS_SLOTS: f64 = 0.5;

/// The way a base is attached.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fixing {
    /// The plate of a bearing, or a base in its place, is screwed on.
    ScrewedRound,
    /// The board lies on a turntable and comes off.
    LiesOn,
    /// A base of wood or plywood is glued on.
    GluedRound,
    /// Each foot has its screw.
    ScrewedFeet,
    /// Each foot is glued.
    GluedFeet,
}

impl Fixing {
    /// The way that the document implies. Feet without screws must be glued, whatever it says of glue.
    pub fn of(workpiece: &Workpiece, base: &Base) -> Self {
        let has_screws = !workpiece.board().screws.is_empty();
        match (base.footing, base.hold, has_screws) {
            (Footing::Round { .. }, BaseHold::Loose, true) => Self::ScrewedRound,
            (Footing::Round { .. }, BaseHold::Loose, false) => Self::LiesOn,
            (Footing::Round { .. }, _, _) => Self::GluedRound,
            (Footing::Feet { .. }, BaseHold::Loose, true) => Self::ScrewedFeet,
            (Footing::Feet { .. }, _, _) => Self::GluedFeet,
        }
    }

    /// Whether glue holds it.
    pub const fn is_glued(self) -> bool {
        matches!(self, Self::GluedRound | Self::GluedFeet)
    }

    /// The tools.
    const fn tools(self) -> &'static str {
        match self {
            Self::ScrewedRound | Self::ScrewedFeet => "screwdriver, awl, soft pad",
            Self::LiesOn => "rule, pencil, soft pad, slips of felt or rubber",
            Self::GluedRound => "wood glue, clamps and cauls, rule, soft pad",
            Self::GluedFeet => "wood glue, clamps, compass, soft pad",
        }
    }
}

/// Attaching the base.
///
/// Wood glue sets within the hour and is left a day before it is loaded; common practice, no source.
pub fn fixed(workpiece: &Workpiece, base: &Base) -> Operation {
    let fixing = Fixing::of(workpiece, base);
    let operation = Operation {
        sums: &["base"],
        ..Operation::of(Task::Base)
    }
    .with(fixing.tools(), 20.0)
    .says(["Lay the board on its top face, on a soft pad.".to_owned()])
    .says(screws(workpiece, base))
    .says(match base.footing {
        Footing::Round { diameter } => round(workpiece, base, diameter),
        Footing::Feet { count, circle } => feet(workpiece, base, [f64::from(count), circle]),
    });
    if fixing.is_glued() {
        operation.waiting(24.0, "the glue sets")
    } else {
        operation
    }
}

/// The sentence on the center of an underside that has its finish, where nothing may be scratched or drawn.
fn center_again(workpiece: &Workpiece) -> String {
    format!(
        "Find the center of the underside: stick two strips of tape across it and draw on each a diameter, where a rule reads the full {}. \
         The two cross in the center.",
        workpiece.length(workpiece.board().blank.diameter)
    )
}

/// Attaching a round base: a bearing, a turntable, or a disc of wood.
fn round(workpiece: &Workpiece, base: &Base, diameter: f64) -> Vec<String> {
    let across = workpiece.length(diameter);
    match Fixing::of(workpiece, base) {
        Fixing::ScrewedRound => bearing(workpiece, base, diameter),
        Fixing::LiesOn => vec![
            center_again(workpiece),
            format!(
                "The board only lies on its turntable, and comes off: draw the turntable's circle of {across} about the center on tape, and \
                 center the board by it."
            ),
            "Stick slips of felt or rubber on the turntable where it carries the board, so that the board neither slides nor gets scratched. \
             To fasten it instead, plan circles of screws."
                .into(),
        ],
        _ => {
            let glue = glue_on(workpiece, base.hold, diameter);
            vec![
                center_again(workpiece),
                format!(
                    "Draw the circle of the base, {across}, about the center on tape, try the base dry in it, and take off the tape that lies \
                     under it."
                ),
                glue,
                "Clamp it with cauls across the base, pads on the top face, and wipe off the glue that comes out.".into(),
            ]
        }
    }
}

/// The patch of glue in the middle of a glued base, mm: a third of its width, and no wider than a joint that moves may be.
///
/// Common practice, no source. Wood with its grain along the board's moves with it, but not quite as much.
pub fn glue_patch(hold: BaseHold, diameter: f64) -> f64 {
    match hold {
        BaseHold::Loose => 0.0,
        BaseHold::GluedWithGrain => diameter / 3.0,
        BaseHold::GluedAcrossGrain | BaseHold::GluedPlywood => GLUED.min(diameter / 3.0),
    }
}

/// The sentence on gluing a base.
fn glue_on(workpiece: &Workpiece, hold: BaseHold, diameter: f64) -> String {
    let patch = workpiece.at_most(glue_patch(hold, diameter));
    let only = format!(
        "spread wood glue only on a patch {patch} across in the middle, never over the whole face"
    );
    match hold {
        BaseHold::GluedAcrossGrain => format!(
            "Lay the grain of the base across the board's, and {only}: around the patch the board must be free to move."
        ),
        BaseHold::GluedPlywood => format!(
            "Plywood does not move, and the board on it does: {only}, so that the board is free to move around it."
        ),
        BaseHold::GluedWithGrain | BaseHold::Loose => format!(
            "Lay the grain of the base along the board's, so that both move together, and {only}: two pieces of wood never move quite alike."
        ),
    }
}

/// Mounting the bearing of a turntable.
///
/// A flat bearing hides the screws of its upper plate behind the lower one; the size of the hole through the base below it is
/// that of a screw's head with a driver; common practice, no source.
fn bearing(workpiece: &Workpiece, base: &Base, diameter: f64) -> Vec<String> {
    let access = match workpiece.units() {
        board::Units::Mm => 20.0,
        board::Units::Inch(_) => 0.75 * board::INCH,
    };
    let mut work = vec![
        format!(
            "Center the bearing's upper plate on the underside by the pilot holes; the turntable is {} across.",
            workpiece.length(diameter)
        ),
        format!(
            "A bearing covers the screws of its upper plate. Screw the lower plate to its own base first, with an access hole of {} through \
             that base, over the circle of the upper screws. Then drive the upper screws through the hole one by one, turning the bearing.",
            workpiece.length(access)
        ),
    ];
    let slots = slots(workpiece, diameter);
    let of_wood = slots.is_some() && base.rating.is_none();
    work.extend(slots);
    if of_wood {
        work.push(
            "A base of wood or plywood screwed on in place of a bearing gets the same slots: only the screws in the middle are driven tight."
                .into(),
        );
    }
    work
}

/// The sentence that lets the wood move under a plate that does not; its distance is known only for a chosen wood, and none is
/// said where the play of the screws is enough.
fn slots(workpiece: &Workpiece, diameter: f64) -> Option<String> {
    let rings = workpiece.board().screws.iter();
    let across = rings
        .map(|ring| ring.circle)
        .fold(0.0, f64::max)
        .min(diameter);
    let by = workpiece
        .moves()
        .map(|moves| moves.over_the_year(across).abs());
    let moves = match by {
        Ok(mm) if mm < NEEDS_SLOTS => return None,
        Ok(mm) => format!(
            "Over the year the wood moves by {} across the circle of the screws",
            workpiece.length((mm * 10.0).ceil() / 10.0)
        ),
        Err(_) => "Wood moves across its grain".into(),
    };
    Some(format!(
        "{moves}, and the plate does not: file the holes that lie off the middle into slots across the grain, and drive their screws snug, \
         not tight."
    ))
}

/// Attaching feet: a number of them, and the circle that they stand on, mm.
///
/// Each foot is small and moves with the wood under it, so that none needs slots.
fn feet(workpiece: &Workpiece, base: &Base, [count, circle]: [f64; 2]) -> Vec<String> {
    let feet = counted(count as u64, "foot", "feet");
    let circle = workpiece.length(circle);
    match Fixing::of(workpiece, base) {
        Fixing::ScrewedFeet => vec![
            format!(
                "Screw on {feet}, at equal steps on a circle of {circle}: one screw for each, in its pilot hole."
            ),
            "Each foot moves with the wood under it, and needs no slot.".into(),
        ],
        _ => vec![
            center_again(workpiece),
            format!(
                "Mark {feet} at equal steps on a circle of {circle} about the center, on tape, and take off the tape that lies under them."
            ),
            "Glue each foot to bare wood, and clamp it. Each moves with the wood under it.".into(),
        ],
    }
}

/// The lengths of the screws: the thickness of the part they go through plus at most the depth of the hole.
///
/// The document has only the total height of the base; for a bearing, the maker measures the thickness of its plate.
fn screws(workpiece: &Workpiece, base: &Base) -> Vec<String> {
    let thick = workpiece.board().blank.thickness;
    let rings = workpiece.board().screws.iter().map(|ring| {
        let left = workpiece.length(thick - ring.depth);
        let through = match Fixing::of(workpiece, base) {
            Fixing::ScrewedRound if base.rating.is_some() => {
                "longer than the bearing's plate is thick".to_owned()
            }
            Fixing::ScrewedRound => format!(
                "longer than what they go through: the thickness of a bearing's plate, or up to {} through a base {} high",
                workpiece.at_most(ring.depth + base.height),
                workpiece.length(base.height)
            ),
            _ => format!(
                "longer than what they go through, so up to {} through {} of wood",
                workpiece.at_most(ring.depth + base.height),
                workpiece.length(base.height)
            ),
        };
        format!(
            "Screws on the circle of {}: at most {} {through}. Their points then stay {left} below the top face; try one in its hole before \
             you drive the rest.",
            workpiece.length(ring.circle),
            workpiece.at_most(ring.depth)
        )
    });
    rings.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, ScrewCircle};

    /// The operation on a base, with or without a circle of screws.
    fn on(footing: Footing, hold: BaseHold, has_screws: bool) -> Operation {
        let base = Base {
            footing,
            hold,
            rating: Some(50.0),
            ..Base::default()
        };
        let board = Board {
            base: Some(base),
            screws: vec![ScrewCircle::default(); usize::from(has_screws)],
            ..Board::default()
        };
        fixed(&Workpiece::of(&board).unwrap(), &base)
    }

    const ROUND: Footing = Footing::Round { diameter: 240.0 };
    const FEET: Footing = Footing::Feet {
        count: 4,
        circle: 300.0,
    };

    #[test]
    fn each_way_of_fixing_has_its_own_words() {
        let said = |footing, hold, screws| on(footing, hold, screws).work.join(" ");
        let bearing = said(ROUND, BaseHold::Loose, true);
        for part in [
            "upper plate on the underside by the pilot holes",
            "access hole of 20 mm",
            "slots across the grain",
            "10 mm longer than the bearing's plate is thick",
            "stay 10 mm below the top face",
        ] {
            assert!(bearing.contains(part), "{part} in {bearing}");
        }
        let lies = said(ROUND, BaseHold::Loose, false);
        assert!(
            lies.contains("comes off") && !lies.contains("crew the"),
            "{lies}"
        );
        let feet = said(FEET, BaseHold::Loose, true);
        assert!(
            feet.contains("one screw for each") && !feet.contains("plate"),
            "{feet}"
        );
        let glued = said(FEET, BaseHold::Loose, false);
        assert!(glued.contains("Glue each foot to bare wood"), "{glued}");
        for all in [&bearing, &lies, &feet, &glued] {
            assert!(!all.contains("pin"), "{all}");
        }
    }

    /// A third of 240 mm is 80 mm; a third of 480 mm is 160 mm, too wide for plywood.
    #[test]
    fn a_base_is_glued_only_in_the_middle() {
        let holds = [
            (BaseHold::GluedWithGrain, "along the board's"),
            (BaseHold::GluedAcrossGrain, "across the board's"),
            (BaseHold::GluedPlywood, "Plywood does not move"),
        ];
        for (hold, part) in holds {
            let glued = on(ROUND, hold, false);
            let said = glued.work.join(" ");
            assert!(
                said.contains(part) && said.contains("patch 80 mm across"),
                "{said}"
            );
            assert!(
                !said.contains("screw") && glued.tool.contains("glue"),
                "{said}"
            );
            assert!(glued.wait.is_some());
        }
        assert_eq!(glue_patch(BaseHold::GluedPlywood, 480.0), 100.0);
        assert_eq!(glue_patch(BaseHold::GluedWithGrain, 480.0), 160.0);
    }

    #[test]
    fn only_what_is_glued_waits_and_takes_glue() {
        for footing in [ROUND, FEET] {
            for hold in BaseHold::ALL {
                for has_screws in [false, true] {
                    let one = on(footing, hold, has_screws);
                    let said = one.work.join(" ").to_lowercase();
                    assert_eq!(one.wait.is_some(), said.contains("glue"), "{said}");
                    assert_eq!(one.tool.contains("glue"), said.contains("glue"), "{said}");
                }
            }
        }
    }
}
