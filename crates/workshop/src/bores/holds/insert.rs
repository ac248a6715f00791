//! The steel set into a hole to hold a magnet piece.

use board::{Bore, Insert, Piece};
use geometry::Profile;

use crate::bores::profile::lowest;

/// Density of steel, g/cm³, by which lists of bearing balls give 60.8 balls of 5/8 in per kilogram.
const STEEL: f64 = 7.85;

/// Diameter of the ball or disc set into a bore, mm: as typed, or made to fit.
pub fn insert_diameter(piece: &Piece, bore: Bore) -> f64 {
    piece.shank.unwrap_or(bore.diameter)
}

/// Depth below the top face of the upper end of a ball or disc set into a bore, mm; negative if it stands above. A ball lies on
/// the floor or in the point of the drill, a disc where the full diameter ends.
///
/// ```
/// use board::{Bore, Bottom, Insert, Piece, PieceKind};
/// let bore = Bore { diameter: 12.0, depth: 6.0, bottom: Bottom::Flat };
/// let disc = Insert::Disc { thickness: 2.0 };
/// let piece = Piece { kind: PieceKind::Magnet, insert: disc, ..Piece::default() };
/// assert_eq!(workshop::insert_below(&piece, bore), 4.0);
/// ```
pub fn insert_below(piece: &Piece, bore: Bore) -> f64 {
    match piece.insert {
        Insert::Ball => {
            let ball = insert_diameter(piece, bore);
            lowest(bore, ball) - ball
        }
        Insert::Disc { thickness } => bore.depth - thickness,
    }
}

/// A bore deep enough for its ball or disc to end level with the top face.
///
/// ```
/// use board::{Bore, Bottom, Insert, Piece, PieceKind};
/// let bore = Bore { diameter: 12.0, depth: 6.0, bottom: Bottom::Flat };
/// let piece = Piece { kind: PieceKind::Magnet, ..Piece::default() };
/// assert_eq!(workshop::flush_bore(&piece, bore).depth, 12.0);
/// ```
pub fn flush_bore(piece: &Piece, bore: Bore) -> Bore {
    // The resting place of a ball or disc moves down with the bottom, though by slightly less in a shallow round bottom.
    const TRIES: usize = 4;
    (0..TRIES).fold(bore, |bore, _| Bore {
        depth: (bore.depth - insert_below(piece, bore)).max(0.0),
        ..bore
    })
}

/// Clearance for glue all around a ball or disc in a bore, mm: half of the difference of their diameters; negative if it does
/// not fit.
///
/// ```
/// use board::{Bore, Bottom, Piece};
/// let bore = Bore { diameter: 12.0, depth: 6.0, bottom: Bottom::Flat };
/// let piece = Piece { shank: Some(11.7), ..Piece::default() };
/// assert!((workshop::insert_gap(&piece, bore) - 0.15).abs() < 1e-12);
/// ```
pub fn insert_gap(piece: &Piece, bore: Bore) -> f64 {
    (bore.diameter - insert_diameter(piece, bore)) / 2.0
}

/// The ball or disc in its place in a bore. The pit of a Forstner bit's spur does not lower it.
pub fn insert_profile(piece: &Piece, bore: Bore) -> Profile {
    let radius = insert_diameter(piece, bore) / 2.0;
    let top = insert_below(piece, bore);
    match piece.insert {
        Insert::Ball => Profile::ball(top + radius, radius),
        Insert::Disc { thickness } => {
            geometry::Piece::cylinder(radius, top, top + thickness).into()
        }
    }
}

/// The weight of a ball or disc of steel, g.
pub fn insert_mass(piece: &Piece, bore: Bore) -> f64 {
    STEEL * insert_profile(piece, bore).volume() / 1000.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Bottom, PieceKind};
    use core::f64::consts::PI;
    use testkit::assert_near;

    fn piece(shank: f64, insert: Insert) -> Piece {
        Piece {
            kind: PieceKind::Magnet,
            shank: Some(shank),
            insert,
            ..Piece::default()
        }
    }

    fn bore(depth: f64, bottom: Bottom) -> Bore {
        Bore {
            diameter: 10.0,
            depth,
            bottom,
        }
    }

    /// Lists of bearing balls after ISO 3290 give 60.84 balls of 5/8 in per kilogram.
    #[test]
    fn balls_weigh_as_their_lists_say() {
        let ball = piece(15.875, Insert::Ball);
        let mass = insert_mass(&ball, bore(9.0, Bottom::Flat));
        assert_near!(mass, 16.444, 1e-3);
        assert_near!(1000.0 / mass, 60.84, 0.1);
    }

    #[test]
    fn balls_and_discs_lie_below_at_or_above_the_top_face() {
        let ball = piece(9.5, Insert::Ball);
        assert_near!(insert_below(&ball, bore(9.5, Bottom::Flat)), 0.0, 1e-12);
        assert_near!(
            insert_below(&ball, bore(9.0, Bottom::Forstner)),
            -0.5,
            1e-12
        );
        assert_near!(insert_below(&ball, bore(11.0, Bottom::Flat)), 1.5, 1e-12);
        // The center of a ball of radius r in a cone of 118° is r / sin 59° above the apex.
        let apex = 9.0 + 10.0 * 0.300_430_309_5;
        let below = apex - 4.75 / 0.857_167_300_7 - 4.75;
        assert_near!(
            insert_below(&ball, bore(9.0, Bottom::Point118)),
            below,
            1e-6
        );
        assert_near!(insert_gap(&ball, bore(9.0, Bottom::Flat)), 0.25, 1e-12);
        let disc = piece(10.0, Insert::Disc { thickness: 2.0 });
        assert_near!(insert_below(&disc, bore(3.0, Bottom::Point118)), 1.0, 1e-12);
        assert_near!(insert_gap(&disc, bore(3.0, Bottom::Flat)), 0.0, 0.0);
        let mass = insert_mass(&disc, bore(3.0, Bottom::Flat));
        assert_near!(mass, 7.85 * PI * 50.0 / 1000.0, 1e-9);
    }
}
