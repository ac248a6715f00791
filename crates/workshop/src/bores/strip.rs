//! A fit strip: test bores around the planned diameter, drilled in scrap of the same wood to find the one that fits the piece.
//!
//! The width of a hole depends on bit, wood and press, and only a hand can judge the fit. So the planned bore is the middle of
//! five, each a step wider than the one before: 0.1 mm, or 1/128 in on an inch board.

use board::{Board, Bore, Bottom, Center, Field, INCH, Piece, PieceKind, Role, Units, field};

use crate::bores::drills::{NearDrill, nearest_drills};
use crate::bores::holds::{insert_gap, marble_stand};

/// A twist drill farther off than this is not listed for a width, mm: none is as wide as the widest bores.
const NEAR: f64 = 1.0;
/// The letters of the bores of a strip, from the narrowest.
const LETTERS: [char; 5] = ['A', 'B', 'C', 'D', 'E'];

/// The strip for bores of the same size.
#[derive(Debug, Clone, PartialEq)]
pub struct FitStrip {
    /// The roles that have the bore, in the order of hole tables.
    pub roles: Vec<Role>,
    /// The planned bore.
    pub bore: Bore,
    /// The bores to try, from the narrowest.
    pub tries: Vec<FitTry>,
}

/// One bore of a strip.
#[derive(Debug, Clone, PartialEq)]
pub struct FitTry {
    /// Its letter on the strip.
    pub letter: char,
    /// The bore, with the depth and the bottom of the planned one.
    pub bore: Bore,
    /// The drills or cutters nearest to it that leave its bottom.
    pub near: Vec<NearDrill>,
    /// The twist drills near its width, where they differ from `near`; empty if none is made that wide.
    pub twist: Vec<NearDrill>,
    /// The fit of the piece by its typed size; none for a piece that is made to fit.
    pub fit: Option<Fit>,
}

/// The fit of a piece in a bore, judged by sizes alone; lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fit {
    /// The marble sinks this far below the top face.
    Sinks(f64),
    /// The marble is no wider than the bore.
    FallsIn,
    /// The peg is narrower than the bore by this much.
    Play(f64),
    /// The ball or disc has this much room for glue on every side.
    Glue(f64),
    /// The peg, ball or disc is wider than the bore by this much.
    TooWide(f64),
}

/// The diameters on a strip around a planned one, mm, from the narrowest; those outside the range of a bore are left out.
///
/// ```
/// use board::Units;
/// assert_eq!(workshop::fit_diameters(12.0, Units::Mm), [11.8, 11.9, 12.0, 12.1, 12.2]);
/// // Half an inch is 64 of 128.
/// let inches = workshop::fit_diameters(12.7, Units::INCH);
/// assert_eq!(inches[3], 65.0 * 25.4 / 128.0);
/// ```
pub fn fit_diameters(wanted: f64, units: Units) -> Vec<f64> {
    // Dividing once gives exactly the number that a typed tenth or 128th would give.
    let (parts, unit) = match units {
        Units::Mm => (10.0, 1.0),
        Units::Inch(_) => (128.0, INCH),
    };
    let middle = wanted * parts / unit;
    let steps = (-2..=2).map(f64::from);
    let range = field::BORE_DIAMETER;
    steps
        .map(|step| {
            if step == 0.0 {
                wanted
            } else {
                (middle + step) * unit / parts
            }
        })
        .filter(|diameter| range.check(*diameter).is_ok())
        .collect()
}

/// The strips of a board in the order of hole tables, one for all roles with the same bore. Roles without holes have none, and
/// neither does a pivot hole, which holds no piece.
///
/// ```
/// use board::{Board, Role};
/// let mut board = Board::default();
/// board.bores.start.diameter = 14.0;
/// let strips = workshop::fit_strips(&board);
/// let roles: Vec<&[Role]> = strips.iter().map(|strip| strip.roles.as_slice()).collect();
/// assert_eq!(roles, [&[Role::Track, Role::Home, Role::Center] as &[Role], &[Role::Start]]);
/// assert!(strips.iter().all(|strip| strip.tries.len() == 5));
/// ```
pub fn fit_strips(board: &Board) -> Vec<FitStrip> {
    let mut strips: Vec<FitStrip> = Vec::new();
    for role in Role::ALL {
        let Some(bore) = wanted(board, role) else {
            continue;
        };
        match strips.iter_mut().find(|strip| strip.bore == bore) {
            Some(strip) => strip.roles.push(role),
            None => strips.push(FitStrip {
                roles: vec![role],
                bore,
                tries: tries(board, bore),
            }),
        }
    }
    strips
}

/// The document field for the diameter of a role's bores; none for holes that are added by hand.
///
/// ```
/// use board::Role;
/// let field = workshop::diameter_field(Role::Home).unwrap();
/// assert_eq!(field.path, "bores.home.diameter_mm");
/// ```
pub const fn diameter_field(role: Role) -> Option<&'static Field> {
    match role {
        Role::Track => Some(&field::TRACK_DIAMETER),
        Role::Home => Some(&field::HOME_DIAMETER),
        Role::Start => Some(&field::START_DIAMETER),
        Role::Center => Some(&field::CENTER_DIAMETER),
        Role::Extra => None,
    }
}

/// The bore of a role if a piece stands in it; `None` if the board has no such holes.
const fn wanted(board: &Board, role: Role) -> Option<Bore> {
    match role {
        Role::Track => Some(board.bores.track),
        Role::Home if board.home > 0 => Some(board.bores.home),
        Role::Start if board.start > 0 => Some(board.bores.start),
        Role::Center => match board.center {
            Center::Hole { bore, .. } => Some(bore),
            Center::Nothing | Center::Pivot { .. } => None,
        },
        Role::Home | Role::Start | Role::Extra => None,
    }
}

/// The bores of a strip around a planned one.
fn tries(board: &Board, wanted: Bore) -> Vec<FitTry> {
    let diameters = fit_diameters(wanted.diameter, board.units);
    let tried = |(letter, diameter)| {
        let bore = Bore { diameter, ..wanted };
        let pointed = matches!(bore.bottom, Bottom::Point118 | Bottom::Point135);
        let twist = nearest_drills(diameter, Bottom::Point118).into_iter();
        let twist = twist.filter(|_| !pointed);
        FitTry {
            letter,
            bore,
            near: nearest_drills(bore.cutter(), bore.bottom),
            twist: twist.filter(|near| near.larger.abs() <= NEAR).collect(),
            fit: fit(&board.piece, bore),
        }
    };
    LETTERS.into_iter().zip(diameters).map(tried).collect()
}

/// The fit of a piece in a bore; `None` if the piece's size was not typed.
fn fit(piece: &Piece, bore: Bore) -> Option<Fit> {
    if piece.kind == PieceKind::Marble {
        let sinks = marble_stand(piece.diameter, bore).sinks;
        return Some(sinks.map_or(Fit::FallsIn, Fit::Sinks));
    }
    let play = bore.diameter - piece.shank?;
    Some(match piece.kind {
        _ if play < 0.0 => Fit::TooWide(-play),
        PieceKind::Magnet => Fit::Glue(insert_gap(piece, bore)),
        PieceKind::Marble | PieceKind::Peg => Fit::Play(play),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use testkit::assert_near;

    fn inches() -> Board {
        let mut board = Board {
            units: Units::INCH,
            ..Board::default()
        };
        board.bores = board::Bores::all(Bore {
            diameter: INCH / 2.0,
            depth: INCH / 4.0,
            bottom: Bottom::Point118,
        });
        board.center = Center::Nothing;
        board
    }

    fn names(near: &[NearDrill]) -> Vec<&str> {
        near.iter().map(|near| near.drill.name.as_str()).collect()
    }

    #[test]
    fn each_of_five_bores_has_a_letter_and_its_nearest_drills() {
        let strips = fit_strips(&Board::default());
        assert_eq!(strips.len(), 1);
        let tries = &strips[0].tries;
        let letters: String = tries.iter().map(|tried| tried.letter).collect();
        assert_eq!(letters, "ABCDE");
        // Forstner bits come in whole millimeters, twist drills in tenths.
        assert_eq!(names(&tries[2].near), ["12 mm"]);
        assert_eq!(names(&tries[3].near), ["1/2\"", "12 mm"]);
        assert_eq!(names(&tries[3].twist), ["12.1 mm"]);
        let mut wide = Board::default();
        wide.bores.track.diameter = 44.0;
        assert_eq!(fit_strips(&wide)[0].tries[0].twist, []);
        assert!(
            tries
                .iter()
                .all(|tried| tried.bore.depth == strips[0].bore.depth)
        );
    }

    /// Fractional drills come in 64ths of an inch, so that every second 128th is one.
    #[test]
    fn an_inch_strip_steps_by_128ths() {
        let strips = fit_strips(&inches());
        assert_eq!(strips[0].roles, [Role::Track, Role::Home, Role::Start]);
        let tries = &strips[0].tries;
        // Tenths of a millimeter come within a hundredth of these sizes.
        assert_eq!(names(&tries[0].near), ["31/64\"", "12.3 mm"]);
        assert_eq!(names(&tries[4].near), ["33/64\"", "13.1 mm"]);
        assert!(tries.iter().all(|tried| tried.twist.is_empty()));
        let widths: Vec<f64> = tries.iter().map(|tried| tried.bore.diameter).collect();
        for (width, parts) in widths.iter().zip(62..) {
            assert_near!(*width, f64::from(parts) / 128.0 * INCH, 1e-12);
        }
    }

    #[test]
    fn roles_without_holes_and_pivots_have_no_strip() {
        let mut board = Board {
            home: 0,
            start: 0,
            center: Center::Pivot {
                diameter: 6.0,
                depth: 10.0,
            },
            ..Board::default()
        };
        board.bores.home.diameter = 8.0;
        let strips = fit_strips(&board);
        assert_eq!(strips.len(), 1);
        assert_eq!(strips[0].roles, [Role::Track]);
    }

    /// A marble of 16 mm sinks 8 - √(64 - 36) mm into a bore of 12 mm.
    #[test]
    fn the_fit_of_a_piece_follows_from_its_size() {
        let mut board = Board::default();
        let fits = |board: &Board| -> Vec<Option<Fit>> {
            let tries = fit_strips(board).remove(0).tries;
            tries.iter().map(|tried| tried.fit).collect()
        };
        let Some(Fit::Sinks(sinks)) = fits(&board)[2] else {
            panic!("it does not sink")
        };
        assert_near!(sinks, 8.0 - 28.0_f64.sqrt(), 1e-12);
        board.piece.diameter = 12.1;
        assert_eq!(fits(&board)[3], Some(Fit::FallsIn));
        board.piece.kind = PieceKind::Peg;
        assert_eq!(fits(&board), [None; 5]);
        board.piece.shank = Some(12.0);
        let Some(Fit::TooWide(wide)) = fits(&board)[0] else {
            panic!("it goes in")
        };
        assert_near!(wide, 0.2, 1e-12);
        assert_eq!(fits(&board)[2], Some(Fit::Play(0.0)));
        board.piece.kind = PieceKind::Magnet;
        let Some(Fit::Glue(room)) = fits(&board)[4] else {
            panic!("it does not go in")
        };
        assert_near!(room, 0.1, 1e-12);
    }

    proptest! {
        #[test]
        fn diameters_are_a_step_apart_around_the_wanted_one(wanted in 1.0..300.0_f64, inch: bool) {
            let (units, step) = if inch { (Units::INCH, INCH / 128.0) } else { (Units::Mm, 0.1) };
            let found = fit_diameters(wanted, units);
            prop_assert_eq!(found.len(), 5);
            prop_assert_eq!(found[2], wanted);
            for pair in found.windows(2) {
                prop_assert!((pair[1] - pair[0] - step).abs() < 1e-9);
            }
        }
    }
}
