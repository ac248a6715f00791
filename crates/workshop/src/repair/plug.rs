//! A misdrilled hole: the wood it leaves, and the plug or disc that repairs it.
//!
//! A plug of the same wood is glued into a clean bore that covers all of the misdrilled hole, with its grain along the board's,
//! and the hole is drilled again in the plug. The bore for the plug is as close to the right place as possible, so that the new
//! hole has the plug's wood all around it.

use board::{Bore, Bottom, Fault, HoleId, HoleName, WrongHole};
use geometry::{Circle, Point, Vec2};

use crate::Workpiece;
use crate::bores::drills::{Cutter, drills};
use crate::bores::owned::has_size;
use crate::bores::profile::deepest;
use crate::figures::rim_margin;

/// A misdrilled hole: the wood left around it, and its remedy.
#[derive(Debug, Clone, PartialEq)]
pub struct Repair {
    /// The hole.
    pub hole: HoleName,
    /// Its fault, as typed.
    pub fault: Fault,
    /// The wood left around it.
    pub leaves: Around,
    /// Its remedy.
    pub remedy: Remedy,
}

/// The wood around a bore, mm; negative if it overlaps something.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Around {
    /// The nearest other bore, and the wood between the two; none on a board of one hole.
    pub web: Option<(HoleName, f64)>,
    /// Wood between the bore and the roundover.
    pub rim: f64,
    /// Wood below its deepest point.
    pub floor: f64,
}

/// The remedy for a misdrilled hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Remedy {
    /// Nothing: nobody sees the fault, and the wood around it is enough.
    Leave,
    /// A disc of the bore's diameter on its floor.
    Disc {
        /// Its thickness, mm.
        thickness: f64,
        /// Whether the bore goes through the underside, from which the disc is then set.
        through: bool,
        /// Whether only its spur goes through and leaves a small hole there.
        spur_out: bool,
    },
    /// A plug, in which the hole is drilled again.
    Plug(Plug),
    /// A plug that would cut into another bore, or into the roundover.
    NoRoom(Plug),
}

/// A plug for a misdrilled hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plug {
    /// The Forstner bit for its bore: the smallest that covers the fault, preferably one of the maker's that has room.
    pub bit: PlugBit,
    /// The center of its bore, in the board frame.
    pub center: Point,
    /// Offset from the right place of the hole to the center of the plug, in the player's frame: clockwise and outward, mm.
    pub beside: Vec2,
    /// Depth of its bore, mm; the board's thickness where no floor would be left.
    pub depth: f64,
    /// Whether its bore goes through the board.
    pub through: bool,
    /// The wood around its bore.
    pub around: Around,
}

/// A Forstner bit for the bore of a plug.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlugBit {
    /// Its diameter, mm.
    pub diameter: f64,
    /// Whether the maker owns it; `None` if no bits are listed.
    pub owned: Option<bool>,
}

/// Offset below which nobody sees that a hole is out of line, mm; common practice, no source.
const SEEN: f64 = 0.5;
/// Wood of a plug around the new hole, mm; less would break out when it is drilled; common practice, no source.
const WALL: f64 = 2.0;
/// Wood between the plug's bore and another bore, mm; common practice, no source.
const LEAST_WEB: f64 = 1.0;
/// Lengths that differ by no more count as equal, mm.
const HAIR: f64 = 1e-9;

/// The repairs of a workpiece's misdrilled holes, in the order of the document. Holes that the board does not have and faults
/// of size 0 are left out.
///
/// ```
/// use board::{Board, Fault, WrongHole};
/// use workshop::{Remedy, Workpiece, repairs};
/// let fault = Fault::Off { u: 2.0, v: 0.0 };
/// let board = Board { wrong: vec![WrongHole { hole: "T1-03".parse().unwrap(), fault }], ..Board::default() };
/// let repairs = repairs(&Workpiece::of(&board)?);
/// let Remedy::Plug(plug) = repairs[0].remedy else { panic!("no plug") };
/// // The wrong bore of 12 and the new one with 2 of wood around it, 2 apart, fit in a circle of 16.
/// assert_eq!(plug.bit.diameter, 16.0);
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn repairs(workpiece: &Workpiece) -> Vec<Repair> {
    let wrong = workpiece.board().wrong.iter();
    wrong.filter_map(|wrong| repair(workpiece, wrong)).collect()
}

/// The names of misdrilled holes that the board does not have.
pub fn unknown_holes(workpiece: &Workpiece) -> Vec<HoleId> {
    let wrong = workpiece.board().wrong.iter().map(|wrong| wrong.hole);
    wrong
        .filter(|hole| workpiece.layout().hole(*hole).is_none())
        .collect()
}

/// The repair of one hole; `None` if the board does not have the hole, or the fault has size 0.
fn repair(workpiece: &Workpiece, wrong: &WrongHole) -> Option<Repair> {
    let hole = workpiece.layout().hole(wrong.hole)?;
    let case = Case {
        workpiece,
        hole: hole.name,
        right: hole.center,
        bore: hole.bore,
    };
    let size = match wrong.fault {
        Fault::Off { u, v } => Vec2::new(u, v).length(),
        Fault::Deep { by } => by,
        Fault::Chipped { reach } => reach,
    };
    if size <= HAIR {
        return None;
    }
    let mistake = match wrong.fault {
        Fault::Off { u, v } => case.hole_at(
            Circle::new(case.placed(Vec2::new(u, v)), hole.bore.radius()),
            hole.bore,
        ),
        Fault::Deep { by } => {
            let deeper = Bore {
                depth: hole.bore.depth + by,
                ..hole.bore
            };
            case.hole_at(hole.mouth(), deeper)
        }
        Fault::Chipped { reach } => case.hole_at(
            Circle::new(hole.center, hole.bore.radius() + reach),
            hole.bore,
        ),
    };
    let leaves = case.around(mistake.mouth, mistake.lowest);
    let limits = workpiece.board().limits;
    let sound = leaves.web.is_none_or(|(_, web)| web >= limits.web - HAIR)
        && leaves.rim >= limits.rim - HAIR
        && leaves.floor >= limits.floor - HAIR;
    let remedy = match wrong.fault {
        _ if size <= SEEN + HAIR && sound => Remedy::Leave,
        Fault::Deep { by } if matches!(hole.bore.bottom, Bottom::Flat | Bottom::Forstner) => {
            case.disc(by, leaves.floor)
        }
        _ => case.plug(mistake)?,
    };
    Some(Repair {
        hole: hole.name,
        fault: wrong.fault,
        leaves,
        remedy,
    })
}

/// A misdrilled hole, at the place where it should be.
struct Case<'a> {
    workpiece: &'a Workpiece,
    hole: HoleName,
    right: Point,
    bore: Bore,
}

/// The wood that the fault removed.
#[derive(Clone, Copy)]
struct Mistake {
    mouth: Circle,
    /// Depth of its deepest point, mm.
    lowest: f64,
}

impl Plug {
    /// Whether it overlaps no other bore and stays on the flat top.
    fn has_room(&self) -> bool {
        let web = self.around.web;
        web.is_none_or(|(_, web)| web >= LEAST_WEB - HAIR) && self.around.rim >= -HAIR
    }
}

impl Case<'_> {
    /// The wood removed by a bore with this mouth.
    fn hole_at(&self, mouth: Circle, bore: Bore) -> Mistake {
        let spur = self.workpiece.board().bores.spur;
        Mistake {
            mouth,
            lowest: deepest(bore, spur),
        }
    }

    /// The clockwise and outward directions at the hole; right and up at the center pin.
    fn axes(&self) -> [Vec2; 2] {
        let sectors = &self.workpiece.layout().sectors;
        let sector = (self.hole.id().player() as usize)
            .checked_sub(1)
            .and_then(|at| sectors.get(at));
        [Point::new(1.0, 0.0), Point::new(0.0, 1.0)]
            .map(|axis| sector.map_or(axis, |sector| sector.place(axis)).to_vec2())
    }

    /// A place at an offset from the right one, clockwise and outward.
    fn placed(&self, beside: Vec2) -> Point {
        let [clockwise, outward] = self.axes();
        self.right + clockwise * beside.x + outward * beside.y
    }

    /// The wood around a bore in place of this hole.
    fn around(&self, mouth: Circle, lowest: f64) -> Around {
        let board = self.workpiece.board();
        let others = self
            .workpiece
            .layout()
            .holes
            .iter()
            .filter(|hole| hole.name != self.hole);
        let webs = others.map(|hole| {
            (
                hole.name,
                mouth.center.distance(hole.center) - mouth.radius - hole.bore.radius(),
            )
        });
        Around {
            web: webs.min_by(|one, other| one.1.total_cmp(&other.1)),
            rim: rim_margin(board.blank.flat_radius(), mouth),
            floor: board.blank.thickness - lowest,
        }
    }

    /// A disc on the floor, or one set in from below if there is no floor.
    fn disc(&self, by: f64, floor: f64) -> Remedy {
        let under = self.workpiece.board().blank.thickness - self.bore.depth;
        if under <= HAIR {
            // A bore planned to go through cannot be too deep.
            return Remedy::Leave;
        }
        let through = by >= under - HAIR;
        Remedy::Disc {
            thickness: if through { under } else { by },
            through,
            spur_out: !through && floor <= HAIR,
        }
    }

    /// The plug; `None` if no bit is wide enough.
    fn plug(&self, mistake: Mistake) -> Option<Remedy> {
        let apart = (mistake.mouth.center - self.right).hypot();
        let (wrong, new) = (mistake.mouth.radius, self.bore.radius() + WALL);
        let least = 2.0 * f64::midpoint(apart + wrong, new).max(wrong).max(new);
        let owned = self.owned_bit(least).map(|bit| self.plug_by(mistake, bit));
        let made = self.made_bit(least).map(|bit| self.plug_by(mistake, bit));
        let plugs: Vec<Plug> = owned.into_iter().chain(made).collect();
        let with_room = plugs.iter().find(|plug| plug.has_room());
        Some(match with_room {
            Some(plug) => Remedy::Plug(*plug),
            None => Remedy::NoRoom(*plugs.last()?),
        })
    }

    /// The plug for a bit: its bore, and the wood left around it.
    ///
    /// Its center is as close to the right place as possible while it covers all of the misdrilled hole.
    fn plug_by(&self, mistake: Mistake, bit: PlugBit) -> Plug {
        let off = mistake.mouth.center - self.right;
        let (apart, radius) = (off.hypot(), bit.diameter / 2.0);
        let share = (apart + mistake.mouth.radius - radius).max(0.0) / apart.max(HAIR);
        let center = self.right + off * share;
        let thickness = self.workpiece.board().blank.thickness;
        let through = mistake.lowest >= thickness - self.workpiece.board().limits.floor;
        let depth = if through { thickness } else { mistake.lowest };
        let [clockwise, outward] = self.axes();
        let beside = center - self.right;
        Plug {
            bit,
            center,
            beside: Vec2::new(beside.dot(clockwise), beside.dot(outward)),
            depth,
            through,
            around: self.around(Circle::new(center, radius), depth),
        }
    }

    /// The smallest of the maker's Forstner bits that is at least this wide.
    fn owned_bit(&self, least: f64) -> Option<PlugBit> {
        let owned = self.workpiece.board().tools.forstner.iter().copied();
        let diameter = owned
            .filter(|bit| *bit >= least - HAIR)
            .min_by(f64::total_cmp)?;
        Some(PlugBit {
            diameter,
            owned: Some(true),
        })
    }

    /// The smallest standard Forstner bit in the maker's units that is at least this wide.
    fn made_bit(&self, least: f64) -> Option<PlugBit> {
        let board = self.workpiece.board();
        let made = drills().iter().filter(|drill| {
            drill.series.cutter == Cutter::Forstner
                && drill.series.units.is_inch() == board.units.is_inch()
                && drill.diameter >= least - HAIR
        });
        let diameter = made.map(|drill| drill.diameter).min_by(f64::total_cmp)?;
        let owned = &board.tools.forstner;
        Some(PlugBit {
            diameter,
            owned: (!owned.is_empty()).then(|| has_size(owned, diameter)),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;
    use proptest::prelude::*;
    use testkit::assert_near;

    fn wrong(hole: &str, fault: Fault) -> Board {
        let hole = hole.parse().unwrap();
        Board {
            wrong: vec![WrongHole { hole, fault }],
            ..Board::default()
        }
    }

    fn only(board: &Board) -> Repair {
        repairs(&Workpiece::of(board).unwrap()).remove(0)
    }

    #[test]
    fn a_slightly_misplaced_hole_is_left_where_the_wood_is_enough() {
        let repair = only(&wrong("T1-03", Fault::Off { u: 0.3, v: 0.4 }));
        assert_eq!(repair.remedy, Remedy::Leave);
        let mut narrow = wrong("T1-03", Fault::Off { u: 0.3, v: 0.4 });
        narrow.limits.web = 7.0;
        assert!(matches!(only(&narrow).remedy, Remedy::Plug(_)));
    }

    #[test]
    fn a_hole_too_deep_gets_a_disc_from_above_or_from_below() {
        let disc = |by| only(&wrong("T1-03", Fault::Deep { by })).remedy;
        let told = |thickness, through, spur_out| Remedy::Disc {
            thickness,
            through,
            spur_out,
        };
        assert_eq!(disc(3.0), told(3.0, false, false));
        // 5 mm deep in 20 mm, with a spur of 2.5 mm: 13 mm more and the spur comes through; 15 mm more, and the bore does.
        assert_eq!(disc(13.0), told(13.0, false, true));
        assert_eq!(disc(16.0), told(15.0, true, false));
    }

    #[test]
    fn the_center_hole_is_repaired_in_the_frame_of_the_board() {
        let repair = only(&wrong("C", Fault::Off { u: 3.0, v: 0.0 }));
        let Remedy::Plug(plug) = repair.remedy else {
            panic!()
        };
        assert!(plug.center.x >= 0.0 && plug.center.y.abs() < 1e-12);
    }

    #[test]
    fn a_plug_that_would_cut_into_the_next_hole_has_no_room() {
        let repair = only(&wrong("T1-03", Fault::Chipped { reach: 8.0 }));
        let Remedy::NoRoom(plug) = repair.remedy else {
            panic!()
        };
        assert!(plug.around.web.unwrap().1 < LEAST_WEB);
    }

    #[test]
    fn missing_holes_and_faults_of_size_0_are_left_out() {
        assert_eq!(
            repairs(&Workpiece::of(&wrong("T1-99", Fault::Deep { by: 1.0 })).unwrap()),
            []
        );
        let none = Workpiece::of(&wrong("T1-03", Fault::Off { u: 0.0, v: 0.0 })).unwrap();
        assert_eq!(repairs(&none), []);
        let missing = Workpiece::of(&wrong("T1-99", Fault::Deep { by: 1.0 })).unwrap();
        assert_eq!(unknown_holes(&missing), ["T1-99".parse().unwrap()]);
    }

    /// A hole 1.5 mm out of place needs 16 mm; the maker has 19, and 30, which would cut into the next hole.
    #[test]
    fn an_owned_bit_is_preferred_where_it_has_room() {
        let plugged = |forstner: &[f64]| {
            let mut board = wrong("T1-03", Fault::Off { u: 1.5, v: 0.0 });
            board.tools.forstner = forstner.to_vec();
            let Remedy::Plug(plug) = only(&board).remedy else {
                panic!("no plug")
            };
            (plug.bit.diameter, plug.bit.owned)
        };
        assert_eq!(plugged(&[]), (16.0, None));
        assert_eq!(plugged(&[12.0, 19.0, 25.0]), (19.0, Some(true)));
        assert_eq!(plugged(&[12.0, 30.0]), (16.0, Some(false)));
    }

    #[test]
    fn an_inch_board_gets_an_inch_bit() {
        let mut board = wrong("T1-03", Fault::Off { u: 1.5, v: 0.0 });
        board.units = board::Units::INCH;
        let Remedy::Plug(plug) = only(&board).remedy else {
            panic!()
        };
        // (12 + 4 + 1.5) / 2 is a radius of 8.75, or 17.5 mm across; the next inch size is 11/16.
        assert_near!(plug.bit.diameter, 11.0 / 16.0 * 25.4, 1e-9);
    }

    proptest! {
        /// The plug covers all of the misdrilled hole, and leaves its wood all around the new one.
        #[test]
        fn a_plug_holds_both_holes(u in -8.0..8.0_f64, v in -8.0..8.0_f64) {
            prop_assume!(Vec2::new(u, v).length() > 0.6);
            let repair = only(&wrong("T4-07", Fault::Off { u, v }));
            let (Remedy::Plug(plug) | Remedy::NoRoom(plug)) = repair.remedy else { panic!() };
            let right = board::layout(&Board::default()).unwrap().hole("T4-07".parse().unwrap()).unwrap().center;
            let workpiece = Workpiece::of(&wrong("T4-07", Fault::Off { u, v })).unwrap();
            let case = Case { workpiece: &workpiece, hole: repair.hole, right, bore: Board::default().bores.track };
            let bad = case.placed(Vec2::new(u, v));
            prop_assert!((plug.center.distance(case.placed(plug.beside))).abs() < 1e-9);
            let radius = plug.bit.diameter / 2.0;
            prop_assert!(bad.distance(plug.center) + 6.0 <= radius + 1e-9);
            prop_assert!(right.distance(plug.center) + 6.0 + WALL <= radius + 1e-9);
        }
    }
}
