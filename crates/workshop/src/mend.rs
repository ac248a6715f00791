//! Fixes: changes that the program finds for the maker and makes in one step.

mod bores;

use core::fmt::{self, Formatter};

use board::{
    Board, BuildError, Center, OutOfRange, Router, Units, layout, out_of_range, show_least,
};
use serde::Serialize;

use crate::Workpiece;
use crate::blank::turn::best_rotation;
use crate::bores::holds::flush_bore;
use crate::check::HAIR;
use crate::check::reach::least_rim;
use crate::colors::mends;
use crate::filling::{batch_in_time, insert_with_room, level_below_pieces};
use crate::fit::{
    FitError, Open, largest_bore_bound, most_spaces, neat_board_for_piece, neat_pitch_for_piece,
    solve,
};
use crate::grooves::check::bores::LEAST_AROUND;
use crate::hardboard::owned::owned_pair;
use crate::recess::fitted::{fitted, thickness_for_pieces};
use crate::template::check::joint::rotation_off_joints;
use bores::{deeper_bores, each_seat, owned_bits, shallower_bores};

/// A change that the program finds and makes in one step: it fixes a finding, or solves for a number left open. Everything else
/// stays as it was typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Mend {
    /// The smallest board that keeps the rim margin.
    FitBoard,
    /// The largest pitch that keeps the rim margin.
    FitPitch,
    /// The smallest pitch at which webs and pieces keep their limits.
    WiderPitch,
    /// The rim margin of the pattern, accepted as the limit.
    RimAsItIs,
    /// The largest bores that keep webs and rim margin, and in which the piece sits properly.
    LargestBore,
    /// The largest piece that keeps the gap to its neighbors.
    LargestPiece,
    /// The smallest pitch, and then the smallest board, for the piece.
    BoardForPiece,
    /// The most spaces per player that fit on the board at this pitch.
    MostSpaces,
    /// Bores as deep as possible that still leave the least floor.
    ShallowerBores,
    /// Bores deep enough for a marble to rest on the rim.
    DeeperBores,
    /// Bores in which a ball or disc ends level with the top face.
    FlushInserts,
    /// A ball or disc that leaves room for resin around it.
    RoomForResin,
    /// Outlines and rings that leave wood to the bores they surround.
    WiderOutlines,
    /// A turntable, so that no player has to reach across.
    PlanTurntable,
    /// A board with a rim for the hands that turn it.
    RimForHands,
    /// A base that is screwed on instead of glued.
    ScrewBase,
    /// Sheets shifted so that their joints keep clear of the holes.
    ShiftSheets,
    /// The pattern rotated so that it keeps clear of the joints of its sheets.
    TurnOffJoints,
    /// Bores in the sizes of bits that the maker owns.
    OwnedBits,
    /// A router bit and a guide bushing that the maker owns.
    OwnedRouter,
    /// A pilot hole as wide as the jig's pin.
    PilotForPin,
    /// The pattern rotated so that it keeps clear of the seams.
    TurnOffSeams,
    /// The pattern rotated so that the seams cut its holes least, where no rotation keeps clear of them.
    LeastCutBySeams,
    /// The center pin at the place of the blank with the most wood.
    BestPlace,
    /// As many strips as the planer needs.
    StripsForPlaner,
    /// A recess as deep and wide as the pieces need.
    RecessForPieces,
    /// Batches of resin that are poured before they set.
    SmallerBatches,
    /// Resin low enough for pieces to sit above it.
    LowerResin,
    /// Coats that dry as long as the next one needs.
    LongerDrying,
    /// The fewest changes to the finish with which every coat holds.
    FixFinish,
    /// Another color for one of each two players whose colors look alike.
    DistinctColors,
    /// The marks of the set for all players.
    MarksOfSet,
    /// A line around the players' marks.
    OutlineMarks,
    /// Paint instead of colors that do not show, and another color for paint like the wood.
    ColorsOffWood,
    /// Paint where another medium cannot be used.
    PaintInstead,
    /// Colored rings that do not meet.
    NarrowerColorRings,
    /// Removal of hand edits that have no hole.
    DropWaitingEdits,
}

/// The reason why a fix does not work.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum MendError {
    /// The board cannot be laid out.
    #[error(transparent)]
    Build(#[from] BuildError),
    /// No size fits.
    #[error(transparent)]
    Fit(#[from] FitError),
    /// The new value would be out of its range.
    #[error(transparent)]
    Range(#[from] OutOfRange),
    /// There is nothing that would help.
    #[error("{0}")]
    Nothing(&'static str),
    /// No recess holds the pieces in a board so thin; given is the least thickness in which one does, mm.
    #[error(fmt = too_thin)]
    TooThin(f64),
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the error's derive passes its fields by reference"
)]
/// Writes the message about a board too thin for its pieces.
fn too_thin(thickness: &f64, f: &mut Formatter<'_>) -> fmt::Result {
    let thickness = show_least(*thickness, Units::of(f));
    write!(
        f,
        "no recess in a board so thin holds the pieces and leaves the wood wanted: use wood {thickness} thick or thicker, or keep \
         the pieces elsewhere"
    )
}

impl Mend {
    /// Every fix.
    pub const ALL: [Self; 37] = [
        Self::FitBoard,
        Self::FitPitch,
        Self::WiderPitch,
        Self::RimAsItIs,
        Self::LargestBore,
        Self::LargestPiece,
        Self::BoardForPiece,
        Self::MostSpaces,
        Self::ShallowerBores,
        Self::DeeperBores,
        Self::FlushInserts,
        Self::RoomForResin,
        Self::WiderOutlines,
        Self::PlanTurntable,
        Self::RimForHands,
        Self::ScrewBase,
        Self::ShiftSheets,
        Self::TurnOffJoints,
        Self::OwnedBits,
        Self::OwnedRouter,
        Self::PilotForPin,
        Self::TurnOffSeams,
        Self::LeastCutBySeams,
        Self::BestPlace,
        Self::StripsForPlaner,
        Self::RecessForPieces,
        Self::SmallerBatches,
        Self::LowerResin,
        Self::LongerDrying,
        Self::FixFinish,
        Self::DistinctColors,
        Self::MarksOfSet,
        Self::OutlineMarks,
        Self::ColorsOffWood,
        Self::PaintInstead,
        Self::NarrowerColorRings,
        Self::DropWaitingEdits,
    ];

    /// Whether findings offer it; the other changes solve for an open value.
    pub const fn is_offered(self) -> bool {
        !matches!(
            self,
            Self::RimAsItIs
                | Self::LargestBore
                | Self::LargestPiece
                | Self::BoardForPiece
                | Self::MostSpaces
        )
    }

    /// The label of its button.
    pub const fn label(self) -> &'static str {
        match self {
            Self::FitBoard => "Fit board to pattern",
            Self::FitPitch => "Fit spacing to board",
            Self::WiderPitch => "Widen the hole spacing",
            Self::RimAsItIs => "Accept this rim margin",
            Self::LargestBore => "Largest bore",
            Self::LargestPiece => "Largest piece",
            Self::BoardForPiece => "Smallest board for the piece",
            Self::MostSpaces => "Most spaces on this board",
            Self::ShallowerBores => "Drill less deep",
            Self::DeeperBores => "Drill deeper",
            Self::FlushInserts => "Drill for a flush fit",
            Self::RoomForResin => "Leave room for resin",
            Self::WiderOutlines => "Widen outlines and rings",
            Self::PlanTurntable => "Plan a turntable",
            Self::RimForHands => "Enlarge board for hands",
            Self::ScrewBase => "Screw the base on",
            Self::ShiftSheets => "Shift sheets off the holes",
            Self::TurnOffJoints => "Turn the pattern off the joints",
            Self::OwnedBits => "Use bits you own",
            Self::OwnedRouter => "Use your bit and bushing",
            Self::PilotForPin => "Pilot as wide as the pin",
            Self::TurnOffSeams => "Turn the pattern off the seams",
            Self::LeastCutBySeams => "Turn to the least cut",
            Self::BestPlace => "Move to the best place",
            Self::StripsForPlaner => "Strips for the planer",
            Self::RecessForPieces => "Fit recess to the pieces",
            Self::SmallerBatches => "Mix smaller batches",
            Self::LowerResin => "Lower the resin",
            Self::LongerDrying => "Let coats dry longer",
            Self::FixFinish => "Fix the finish",
            Self::DistinctColors => "Use distinct colors",
            Self::MarksOfSet => "Use the standard marks",
            Self::OutlineMarks => "Outline the marks",
            Self::ColorsOffWood => "Use colors that show on the wood",
            Self::PaintInstead => "Paint instead",
            Self::NarrowerColorRings => "Narrower colored rings",
            Self::DropWaitingEdits => "Drop these edits",
        }
    }

    /// Its tooltip, which describes the effect.
    pub const fn tooltip(self) -> &'static str {
        match self {
            Self::FitBoard => "The smallest board on which every hole keeps the rim margin",
            Self::FitPitch => "The widest hole spacing at which every hole keeps the rim margin",
            Self::WiderPitch => {
                "The narrowest hole spacing at which wood between holes, pieces and the router template keep their limits"
            }
            Self::RimAsItIs => "Make the rim margin that the pattern has the new minimum",
            Self::LargestBore => {
                "The largest bores that keep the limits on wood between holes and rim margin, with the piece seated as it should be"
            }
            Self::LargestPiece => "The widest piece that keeps the gap to its neighbors",
            Self::BoardForPiece => {
                "The narrowest hole spacing for the piece, and the smallest board for that spacing"
            }
            Self::MostSpaces => {
                "The most track spaces per player that fit on the board at this hole spacing"
            }
            Self::ShallowerBores => {
                "Make deep holes shallower, so that enough wood is left under them"
            }
            Self::DeeperBores => "Make holes deep enough for a marble to rest on the rim",
            Self::FlushInserts => {
                "Drill to the depth that puts the ball or disc in each hole level with the top face"
            }
            Self::RoomForResin => {
                "Use a ball or disc small enough to leave room around it in the narrowest hole"
            }
            Self::WiderOutlines => "Leave enough wood between a hole and the groove around it",
            Self::PlanTurntable => "A turntable below the board, to turn it to each player",
            Self::RimForHands => "The smallest board with room for fingers outside the pieces",
            Self::ScrewBase => "Hold the base with screws in slots, so that the board can move",
            Self::ShiftSheets => {
                "Move the joints as far from the holes as possible, using one more sheet if that helps"
            }
            Self::TurnOffJoints => "The smallest turn that keeps every joint off a row of holes",
            Self::OwnedBits => {
                "Make each bore as wide as the nearest bit in your shop that suits the piece"
            }
            Self::OwnedRouter => {
                "The bit and bushing in your shop that make the holes and leave the most hardboard between them"
            }
            Self::PilotForPin => "Make the pilot as wide as the jig's pin",
            Self::TurnOffSeams => "Turn the nearest hole as far from any seam as it goes",
            Self::LeastCutBySeams => {
                "No angle clears every seam; this one cuts the worst hole least"
            }
            Self::BestPlace => "Put the center pin where the blank has the most wood",
            Self::StripsForPlaner => "The fewest strips that go through the planer",
            Self::RecessForPieces => {
                "The shallowest and smallest recess that holds the pieces and leaves the wood wanted"
            }
            Self::DropWaitingEdits => "Drop the edits of holes that this board does not have",
            _ => self.tooltip_of_coating(),
        }
    }

    /// The tooltip of a fix of resin, finish or colors.
    const fn tooltip_of_coating(self) -> &'static str {
        match self {
            Self::SmallerBatches => "The largest batch you can pour before it sets",
            Self::LowerResin => "The highest level at which every piece has its seat",
            Self::LongerDrying => "Let each coat dry as long as the next one needs",
            Self::FixFinish => {
                "The fewest changes that make every coat hold: a tie coat, another order, another kind, a longer wait"
            }
            _ => mends::tooltip(self),
        }
    }

    /// The board with the fix applied.
    ///
    /// ```
    /// use board::Board;
    /// use workshop::{Mend, Workpiece, stops};
    /// let mut small = Board::default();
    /// small.blank.diameter -= 60.0;
    /// assert!(stops(Workpiece::of(&small)?.findings()));
    /// let fitted = Mend::FitBoard.applied(&small).unwrap();
    /// assert!(!stops(Workpiece::of(&fitted)?.findings()));
    /// # Ok::<(), board::BuildError>(())
    /// ```
    ///
    /// # Errors
    /// [`MendError`] with the obstacle, such as a number that would leave its range.
    pub fn applied(self, board: &Board) -> Result<Board, MendError> {
        let mended = self.changed(board)?;
        let before = out_of_range(board);
        let mut beyond = out_of_range(&mended).into_iter();
        match beyond.find(|number| !before.contains(number)) {
            Some(beyond) => Err(beyond.into()),
            None => Ok(mended),
        }
    }

    /// The reason why it goes no further on a board, where it searches for the most of something and knows the reason.
    ///
    /// ```
    /// use board::Board;
    /// use workshop::Mend;
    /// let why = Mend::LargestBore.bound(&Board::default()).unwrap();
    /// assert!(why.starts_with("wider, "));
    /// ```
    pub fn bound(self, board: &Board) -> Option<String> {
        match self {
            Self::LargestBore => {
                let (_, bound) = largest_bore_bound(board).ok()?;
                Some(format!("wider, {}", board.units.say(&bound)))
            }
            Self::TurnOffSeams | Self::LeastCutBySeams => {
                let workpiece = Workpiece::of(board).ok()?;
                let turns = workpiece.turns()?;
                (!turns.clears(board.limits.seam)).then(|| turns.bound(board.units))
            }
            _ => None,
        }
    }

    /// The board with the change applied.
    fn changed(self, board: &Board) -> Result<Board, MendError> {
        let mut mended = board.clone();
        match self {
            Self::FitBoard => solve(board, Open::Board)?.neat(board).apply(&mut mended),
            Self::FitPitch => solve(board, Open::Pitch)?.neat(board).apply(&mut mended),
            Self::RimAsItIs => solve(board, Open::Rim)?.neat(board).apply(&mut mended),
            Self::LargestBore => solve(board, Open::Bore)?.neat(board).apply(&mut mended),
            Self::LargestPiece => solve(board, Open::Piece)?.neat(board).apply(&mut mended),
            Self::BoardForPiece => {
                let found = neat_board_for_piece(board)?;
                (mended.pitch, mended.blank.diameter) = (found.pitch, found.diameter);
            }
            Self::MostSpaces => mended.spaces = most_spaces(board)?,
            Self::WiderPitch => mended.pitch = wider_pitch(board)?,
            Self::ShallowerBores => shallower_bores(&mut mended)?,
            Self::DeeperBores => deeper_bores(&mut mended)?,
            Self::FlushInserts => {
                let piece = board.piece;
                each_seat(&mut mended, |bore, _| *bore = flush_bore(&piece, *bore))?;
            }
            Self::RoomForResin => mended.piece.shank = Some(shank_with_room(board)?),
            Self::WiderOutlines => wider_outlines(&mut mended),
            Self::PlanTurntable => plan_turntable(&mut mended),
            Self::RimForHands => mended.blank.diameter = board_for_hands(board)?,
            Self::ScrewBase => {
                if let Some(base) = &mut mended.base {
                    base.hold = board::BaseHold::Loose;
                }
            }
            Self::ShiftSheets => mended.template.layout = board::SheetLayout::Widest,
            Self::TurnOffJoints => mended.rotation = off_joints(board)?,
            Self::OwnedBits => owned_bits(&mut mended)?,
            Self::OwnedRouter => mended.router = owned_router(board)?,
            Self::PilotForPin => pilot_for_pin(&mut mended),
            Self::TurnOffSeams | Self::LeastCutBySeams => {
                let nothing = MendError::Nothing("no seam runs through the pattern");
                mended.rotation = best_rotation(&Workpiece::of(board)?).ok_or(nothing)?;
            }
            Self::BestPlace => mended.stock.place = None,
            Self::StripsForPlaner => {
                let nothing = MendError::Nothing("no number of strips goes through the planer");
                let count = crate::blank::check::planer::strips_wanted(board).ok_or(nothing)?;
                mended.panel.build = board::Build::Strips { count };
            }
            Self::RecessForPieces => mended.recess = Some(recess_for_pieces(board)?),
            Self::SmallerBatches => smaller_batches(&mut mended)?,
            Self::LowerResin => lower_resin(&mut mended)?,
            Self::LongerDrying => mended = crate::finish::dried(board),
            Self::FixFinish => {
                let nothing = MendError::Nothing("every coat of the finish holds");
                mended = crate::finish::fixed(board).ok_or(nothing)?;
            }
            Self::DropWaitingEdits => {
                let idle = layout(board)?.idle_edits;
                mended.edits.retain(|edit| !idle.contains(&edit.hole));
            }
            _ => mends::mend_colors(self, &mut mended)?,
        }
        Ok(mended)
    }
}

/// The router with the maker's own bit and bushing.
fn owned_router(board: &Board) -> Result<Option<Router>, MendError> {
    let nothing = MendError::Nothing(
        "no bit and bushing in your shop make these holes and leave the hardboard wanted",
    );
    let pair = owned_pair(&Workpiece::of(board)?).ok_or(nothing)?;
    Ok(board.router.map(|router| pair.fitted(router)))
}

/// Makes batches as large as can be poured in time.
fn smaller_batches(board: &mut Board) -> Result<(), MendError> {
    let nothing = MendError::Nothing("no batch that fills a hole is poured before it sets");
    let batch = batch_in_time(&Workpiece::of(board)?).ok_or(nothing)?;
    if let Some(filling) = &mut board.filling {
        filling.batch = batch;
    }
    Ok(())
}

/// Resin as high as may be with every piece in its seat.
fn lower_resin(board: &mut Board) -> Result<(), MendError> {
    let nothing = MendError::Nothing("no hole is deep enough for a piece and resin below it");
    let level = level_below_pieces(&Workpiece::of(board)?).ok_or(nothing)?;
    if let Some(filling) = &mut board.filling {
        filling.below_top = level;
    }
    Ok(())
}

/// The recess, as deep and wide as the pieces need.
fn recess_for_pieces(board: &Board) -> Result<board::Recess, MendError> {
    let nothing = MendError::Nothing(
        "no recess in this board holds the pieces and leaves the wood wanted, however thick it is: keep the pieces elsewhere",
    );
    fitted(board).ok_or_else(|| thickness_for_pieces(board).map_or(nothing, MendError::TooThin))
}

/// The diameter of a ball or disc that leaves room for resin in the narrowest hole, mm.
fn shank_with_room(board: &Board) -> Result<f64, MendError> {
    let nothing = MendError::Nothing("no hole takes a ball or disc with room around it");
    insert_with_room(&Workpiece::of(board)?).ok_or(nothing)
}

/// Moves outlines and rings as far out as the checks require.
fn wider_outlines(board: &mut Board) {
    let Some(grooves) = &mut board.grooves else {
        return;
    };
    let rings = grooves.rings.iter_mut().map(|rings| &mut rings.gap);
    let outlines = grooves.around_home.iter_mut();
    for gap in rings.chain(outlines).chain(&mut grooves.around_start) {
        *gap = gap.max(LEAST_AROUND);
    }
}

/// Plans a turntable instead of no base, or instead of feet as wide.
fn plan_turntable(board: &mut Board) {
    let base = board.base.get_or_insert_default();
    if let board::Footing::Feet { circle, .. } = base.footing {
        base.footing = board::Footing::Round { diameter: circle };
    }
}

/// The diameter of a board with the rim that hands need, mm. Pockets may move out with the edge, so several rounds may be
/// needed.
fn board_for_hands(board: &Board) -> Result<f64, MendError> {
    const TRIES: usize = 20;
    let mut wider = board.clone();
    for _ in 0..TRIES {
        let rim = least_rim(&Workpiece::of(&wider)?);
        let short = rim.map_or(0.0, |(rim, _)| board.limits.hands - rim);
        if short <= HAIR {
            return Ok(wider.blank.diameter);
        }
        wider.blank.diameter += 2.0 * short;
    }
    Err(MendError::Nothing(
        "no larger board was found that leaves a rim",
    ))
}

/// The rotation that keeps paper joints clear of rows of holes, degrees.
fn off_joints(board: &Board) -> Result<f64, MendError> {
    let nothing = MendError::Nothing("no turn of the pattern takes the joints off its rows");
    rotation_off_joints(&Workpiece::of(board)?).ok_or(nothing)
}

/// Makes the pilot hole, or the pivot's own hole, as wide as the pin of the circle jig.
fn pilot_for_pin(board: &mut Board) {
    let pin = board.jig.pin;
    match &mut board.center {
        Center::Hole { pilot, .. } => *pilot = pin,
        Center::Pivot { diameter, .. } => *diameter = pin,
        Center::Nothing => {}
    }
}

/// The smallest pitch at which webs, pieces and, if there is one, a router template keep their limits.
fn wider_pitch(board: &Board) -> Result<f64, FitError> {
    let mut wanting = board.clone();
    if let Some(router) = board.router {
        // The template's holes share the centers of the bores, so that its webs are thinner by a fixed amount.
        let template = board.limits.template_web + router.wider();
        wanting.limits.web = wanting.limits.web.max(template);
    }
    neat_pitch_for_piece(&wanting)
}

#[cfg(test)]
mod tests;
