//! Strips side by side: the length that a circle needs of each, and where they can be sawn from a blank.
//!
//! The layout is a heuristic: bands are taken from the lower edge up, each as low as the next strip fits, the longest strips
//! first. It may miss a layout that a person would find, but never returns one that does not work.

use super::{Wood, between, extent};
use crate::{Flaw, Outline, Point};

/// The size of one strip for a round board, as sawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strip {
    /// Along the grain, mm.
    pub length: f64,
    /// Width across the grain as sawn, mm.
    pub width: f64,
}

/// The position of a strip on the blank: its lower left corner, and its size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StripPlace {
    /// Its index in the list of strips.
    pub strip: usize,
    /// Its lower left corner.
    pub corner: Point,
    /// Its size.
    pub size: Strip,
}

/// The strips of a circle of this diameter, from the lowest up: each as long as the circle is where the strip is
/// widest, and wider than its share by `joint` on both edges; of two strips, which have one glued edge each, on one.
///
/// ```
/// use geometry::circle_strips;
/// let strips = circle_strips(300.0, 3, 1.0);
/// assert_eq!(strips[1].length, 300.0);
/// assert_eq!(strips[1].width, 102.0);
/// // The outer strips begin 50 from the middle: 2 √(150² - 50²).
/// assert!((strips[0].length - 282.842_712).abs() < 1e-6);
/// ```
pub fn circle_strips(diameter: f64, count: u32, joint: f64) -> Vec<Strip> {
    let radius = diameter / 2.0;
    let width = diameter / f64::from(count.max(1));
    let edges = match count {
        0 | 1 => 0.0,
        2 => 1.0,
        _ => 2.0,
    };
    let strip = |at: u32| {
        let low = f64::from(at) * width - radius;
        let nearest = low.max(-(low + width)).max(0.0);
        Strip {
            length: 2.0 * libm::sqrt((radius * radius - nearest * nearest).max(0.0)),
            width: width + edges * joint,
        }
    };
    (0..count).map(strip).collect()
}

/// Positions of all strips, which have the same width, on a blank, with a saw kerf (mm) between them; `None` if this heuristic
/// does not find room for all of them.
///
/// The grain runs along x.
///
/// ```
/// use geometry::{Circle, Flaw, Outline, Point, circle_strips, lay_strips};
/// let corners = [(0.0, 0.0), (600.0, 0.0), (600.0, 220.0), (0.0, 220.0)];
/// let slab = Outline::new(corners.map(Point::from).to_vec())?;
/// let strips = circle_strips(300.0, 3, 1.0);
/// // The middle one, 300 mm long, and one of 283 mm side by side, the other above them.
/// let places = lay_strips(&slab, &[], &strips, 3.0).unwrap();
/// assert_eq!(places[1].corner, Point::new(303.0, 0.0));
/// assert_eq!(places[2].corner, Point::new(0.0, 105.0));
/// let knot = Flaw::Round(Circle::new((300.0, 110.0), 30.0));
/// assert!(lay_strips(&slab, &[knot], &strips, 3.0).is_none());
/// # Ok::<(), geometry::OutlineError>(())
/// ```
pub fn lay_strips(
    outline: &Outline,
    flaws: &[Flaw],
    strips: &[Strip],
    kerf: f64,
) -> Option<Vec<StripPlace>> {
    lay(&Wood::of(outline, flaws), extent(outline), strips, kerf)
}

fn lay(
    wood: &Wood,
    (least, most): (Point, Point),
    strips: &[Strip],
    kerf: f64,
) -> Option<Vec<StripPlace>> {
    let mut left: Vec<(usize, Strip)> = strips.iter().copied().enumerate().collect();
    left.sort_by(|a, b| b.1.length.total_cmp(&a.1.length));
    let mut places = Vec::new();
    let mut low = least.y;
    while let Some(&(_, longest)) = left.first() {
        let high = low + longest.width;
        if high > most.y + 1e-9 {
            return None;
        }
        let room = free(wood, low, high);
        let before = places.len();
        for (from, to) in room {
            fill(&mut left, &mut places, Point::new(from, low), to, kerf);
        }
        low = if places.len() > before {
            high + kerf
        } else {
            low + (longest.width / 50.0).clamp(0.5, 5.0)
        };
    }
    Some(places)
}

/// Places the longest strips that fit, one after the other, from a corner to an end.
fn fill(
    left: &mut Vec<(usize, Strip)>,
    places: &mut Vec<StripPlace>,
    mut corner: Point,
    end: f64,
    kerf: f64,
) {
    while let Some(at) = left
        .iter()
        .position(|(_, strip)| corner.x + strip.length <= end + 1e-9)
    {
        let (strip, size) = left.remove(at);
        places.push(StripPlace {
            strip,
            corner,
            size,
        });
        corner.x += size.length + kerf;
    }
}

/// The intervals of a band that are sound wood over its whole height, from left to right.
fn free(wood: &Wood, low: f64, high: f64) -> Vec<(f64, f64)> {
    // Edges that only touch the band from outside do not affect it.
    let (inner_low, inner_high) = (low + 1e-9, high - 1e-9);
    let beside = wood.rows.between(low, high);
    let edges = beside.iter().filter_map(|at| {
        let segment = wood.bounds.segments.get(*at)?;
        let (a, b) = between(*segment, inner_low, inner_high)?;
        Some((a.x.min(b.x), a.x.max(b.x)))
    });
    let rounds = wood.bounds.rounds.iter().filter_map(|round| {
        let off = (low - round.center.y).max(round.center.y - high).max(0.0);
        let square = round.radius * round.radius - off * off;
        (square > 0.0).then(|| {
            let half = libm::sqrt(square);
            (round.center.x - half, round.center.x + half)
        })
    });
    let mut taken: Vec<(f64, f64)> = edges.chain(rounds).collect();
    taken.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut gaps = Vec::new();
    let mut reached: Option<f64> = None;
    for (from, to) in taken {
        if let Some(end) = reached
            && from > end
        {
            gaps.push((end, from));
        }
        reached = Some(reached.map_or(to, |end| end.max(to)));
    }
    let middle =
        |(from, to): &(f64, f64)| Point::new(f64::midpoint(*from, *to), f64::midpoint(low, high));
    gaps.retain(|gap| wood.has(middle(gap)));
    gaps
}

/// The diameter in mm of the largest circle that can be made from this many strips of a blank, laid out by [`lay_strips`],
/// found by bisection to 0.01 mm; 0 if there is none.
///
/// ```
/// use geometry::{Outline, Point, most_from_strips};
/// let corners = [(0.0, 0.0), (2000.0, 0.0), (2000.0, 102.0), (0.0, 102.0)];
/// let plank = Outline::new(corners.map(Point::from).to_vec())?;
/// let most = most_from_strips(&plank, &[], 3, 1.0, 3.0, &|| false).unwrap();
/// assert!((most - 300.0).abs() < 0.02);
/// # Ok::<(), geometry::OutlineError>(())
/// ```
///
/// # Errors
/// [`crate::Stopped`] if `cancel` returned true.
pub fn most_from_strips(
    outline: &Outline,
    flaws: &[Flaw],
    count: u32,
    joint: f64,
    kerf: f64,
    cancel: &dyn Fn() -> bool,
) -> Result<f64, crate::Stopped> {
    let (wood, (least, most)) = (Wood::of(outline, flaws), extent(outline));
    let fits = |diameter: f64| {
        let strips = circle_strips(diameter, count, joint);
        lay(&wood, (least, most), &strips, kerf).is_some()
    };
    let (mut good, mut bad) = (0.0, (most.x - least.x).max(0.0));
    if fits(bad) {
        return Ok(bad);
    }
    while bad - good > 0.01 {
        if cancel() {
            return Err(crate::Stopped);
        }
        let middle = f64::midpoint(good, bad);
        if fits(middle) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    Ok(good)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Circle;
    use testkit::assert_near;

    fn slab(length: f64, width: f64) -> Outline {
        let corners = [(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)];
        Outline::new(corners.map(Point::from).to_vec()).unwrap()
    }

    fn overlaps(a: &StripPlace, b: &StripPlace, kerf: f64) -> bool {
        let apart = |low_a: f64, size_a: f64, low_b: f64, size_b: f64| {
            low_a + size_a + kerf <= low_b + 1e-6 || low_b + size_b + kerf <= low_a + 1e-6
        };
        let x = apart(a.corner.x, a.size.length, b.corner.x, b.size.length);
        let y = apart(a.corner.y, a.size.width, b.corner.y, b.size.width);
        !(x || y)
    }

    #[test]
    fn a_long_board_gives_its_strips_end_to_end() {
        // 3 strips of 102 by up to 300, a board 110 wide: 283 + 300 + 283 and two kerfs.
        let strips = circle_strips(300.0, 3, 1.0);
        let total: f64 = strips.iter().map(|strip| strip.length).sum::<f64>() + 2.0 * 3.0;
        let places = lay_strips(&slab(total + 1e-6, 110.0), &[], &strips, 3.0).unwrap();
        assert_eq!(places.len(), 3);
        assert_eq!(
            lay_strips(&slab(total - 0.1, 110.0), &[], &strips, 3.0),
            None
        );
    }

    #[test]
    fn strips_stay_clear_of_knots_and_of_each_other() {
        let board = slab(900.0, 300.0);
        let knot = Circle::new((450.0, 150.0), 60.0);
        let strips = circle_strips(390.0, 4, 1.5);
        let places = lay_strips(&board, &[Flaw::Round(knot)], &strips, 3.0).unwrap();
        assert_eq!(places.len(), 4);
        for (at, a) in places.iter().enumerate() {
            assert!(places[at + 1..].iter().all(|b| !overlaps(a, b, 3.0)));
            let near = Point::new(
                knot.center.x.clamp(a.corner.x, a.corner.x + a.size.length),
                knot.center.y.clamp(a.corner.y, a.corner.y + a.size.width),
            );
            assert!((near - knot.center).length() >= knot.radius - 1e-6);
            assert!(a.corner.x >= 0.0 && a.corner.x + a.size.length <= 900.0 + 1e-6);
        }
    }

    #[test]
    fn more_strips_make_a_larger_circle_from_a_long_board() {
        let board = slab(2000.0, 160.0);
        let most = |count| most_from_strips(&board, &[], count, 0.0, 0.0, &|| false).unwrap();
        // Two strips of half the circle are at most 160 wide, three of a third.
        assert_near!(most(2), 320.0, 0.02);
        assert_near!(most(3), 480.0, 0.02);
    }
}
