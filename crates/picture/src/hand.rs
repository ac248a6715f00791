//! A hand that shows the size of a board: an outline of our own, made of a few round-ended strokes.
//!
//! Each stroke is given by its two ends and their radii. The distance to the hand is the least distance to any stroke, so that
//! its edge is smooth at every size.

/// Length of an adult hand from the wrist to the tip of the middle finger, mm; from memory, between the means of women and men.
pub const LENGTH: f64 = 184.0;
/// Width of the drawn hand with its thumb, mm.
pub const WIDTH: f64 = 128.0;

/// A stroke from one point and radius to another, mm; x from the wrist to the fingertips, y toward the thumb.
type Finger = [(f64, f64, f64); 2];

/// Fingers, thumb and palm of a hand lying flat.
const STROKES: [Finger; 14] = [
    // Forefinger to little finger.
    [(92.0, 24.0, 10.5), (163.0, 35.0, 8.0)],
    [(96.0, 3.0, 10.5), (175.5, 5.0, 8.5)],
    [(92.0, -18.0, 10.2), (165.5, -25.0, 8.0)],
    [(84.0, -37.0, 9.2), (137.0, -53.0, 7.0)],
    // Thumb.
    [(34.0, 26.0, 17.0), (72.0, 57.0, 11.5)],
    [(72.0, 57.0, 11.5), (104.0, 70.0, 9.0)],
    // Ball of the thumb, and the palm.
    [(28.0, 16.0, 21.0), (60.0, 26.0, 18.0)],
    [(26.0, -14.0, 20.0), (82.0, -34.0, 11.5)],
    [(30.0, 2.0, 26.0), (86.0, -2.0, 20.0)],
    [(60.0, 22.0, 16.0), (90.0, 24.0, 11.5)],
    [(86.0, -18.0, 14.0), (88.0, 12.0, 14.0)],
    [(80.0, -30.0, 12.0), (80.0, -30.0, 12.0)],
    // The wrist, which continues out of the picture.
    [(-40.0, 0.0, 24.0), (10.0, 0.0, 25.0)],
    [(10.0, 0.0, 25.0), (40.0, 0.0, 31.0)],
];

/// Distance of a point from the hand, mm; negative inside.
pub fn off(x: f64, y: f64) -> f64 {
    let each = STROKES.iter().map(|stroke| beside(stroke, x, y));
    each.fold(f64::INFINITY, f64::min)
}

/// Distance of a point from one stroke.
fn beside([from, to]: &Finger, x: f64, y: f64) -> f64 {
    let way = (to.0 - from.0, to.1 - from.1);
    let (x, y) = (x - from.0, y - from.1);
    let square = (way.0 * way.0 + way.1 * way.1).max(1e-9);
    let share = ((x * way.0 + y * way.1) / square).clamp(0.0, 1.0);
    let (x, y) = (x - way.0 * share, y - way.1 * share);
    (x * x + y * y).sqrt() - (from.2 + (to.2 - from.2) * share)
}

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::assert_near;

    #[test]
    fn the_middle_finger_ends_at_the_length_of_a_hand() {
        let mut tip = 150.0;
        while off(tip, 5.0) < 0.0 {
            tip += 0.1;
        }
        assert_near!(tip, LENGTH, 0.5);
    }

    #[test]
    fn fingers_are_apart_and_the_palm_is_whole() {
        assert!(off(60.0, 0.0) < 0.0);
        for (x, y) in [(150.0, 19.0), (150.0, -11.0), (125.0, -38.0)] {
            assert!(off(x, y) > 0.0, "{x}, {y}");
        }
    }
}
