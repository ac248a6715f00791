//! The live picture of a window: the board with something beside it that shows its size.
//!
//! From above, a hand reaches in from the right where the window is wide enough for both; elsewhere, and in perspective, a
//! ruler is below the board. A window has text of its own, so their lengths are returned separately from the picture.

use workshop::Workpiece;

use crate::hand;
use crate::page::{Hand, flat_ruler, standing_ruler};
use crate::ruler::Ruler;
use crate::view::{Area, View};

/// The positions of everything in a live picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Live {
    /// The area of the board.
    pub board: Area,
    /// The hand, if there is room for it.
    pub hand: Option<Hand>,
    /// The ruler, if there is no hand.
    pub ruler: Option<Ruler>,
}

/// Margin, as a share of the shorter side.
const MARGIN: f64 = 0.055;
/// Share of the height reserved for a ruler below the board.
const BELOW: f64 = 0.11;
/// Least size of the board beside a hand, as a share of its size alone.
const BESIDE: f64 = 0.8;

impl Live {
    /// The positions in a picture of this size, pixels.
    pub fn of(workpiece: &Workpiece, view: View, (width, height): (u32, u32)) -> Self {
        let size = (f64::from(width), f64::from(height));
        let by_hand = match view {
            View::Above => Self::with_hand(workpiece, size),
            View::Perspective { .. } => None,
        };
        by_hand.unwrap_or_else(|| Self::with_ruler(workpiece, view, size))
    }

    /// The board from above with a hand at its right; `None` if the board would become too small for it.
    fn with_hand(workpiece: &Workpiece, (width, height): (f64, f64)) -> Option<Self> {
        let diameter = workpiece.board().blank.diameter;
        let margin = MARGIN * width.min(height);
        let across = |scale: f64| (diameter + hand::LENGTH + WRIST) * scale + 2.0 * margin;
        let scale = (height - 2.0 * margin) / diameter;
        let scale = scale.min(scale * (width - 2.0 * margin) / (across(scale) - 2.0 * margin));
        let alone = (width.min(height) - 2.0 * margin) / diameter;
        let fits = scale >= BESIDE * alone && hand::WIDTH < 0.8 * diameter;
        fits.then(|| {
            let (side, x) = (diameter * scale, width - WRIST * scale);
            let free = x - hand::LENGTH * scale;
            Self {
                board: Area {
                    x: (free - side) / 2.0,
                    y: (height - side) / 2.0,
                    width: side,
                    height: side,
                },
                hand: Some(Hand {
                    x,
                    y: height - margin - 0.55 * hand::WIDTH * scale,
                    scale,
                }),
                ruler: None,
            }
        })
    }

    /// The board with a ruler below it.
    fn with_ruler(workpiece: &Workpiece, view: View, (width, height): (f64, f64)) -> Self {
        let (margin, below) = (MARGIN * width.min(height), BELOW * height);
        let board = Area {
            x: margin,
            y: margin,
            width: width - 2.0 * margin,
            height: height - 2.0 * margin - below,
        };
        let low = height - margin - below / 2.0;
        let side = board.width.min(board.height);
        let ruler = match view {
            View::Above => {
                let scale = side / workpiece.board().blank.diameter;
                let right = f64::midpoint(width, side);
                let end = (right, low + 0.2 * below);
                let most = 0.5 * side / scale;
                Some(flat_ruler(workpiece.units(), end, scale, most))
            }
            View::Perspective { .. } => {
                let left = (width / 2.0 - 0.75 * side).max(margin);
                standing_ruler(workpiece, (view, board), (left, low))
            }
        };
        Self {
            board,
            hand: None,
            ruler,
        }
    }
}

/// Length of the wrist in the picture, mm.
const WRIST: f64 = 12.0;

/// The length of the hand or the ruler in a live picture of this size (pixels), as a sentence.
///
/// ```
/// use picture::{View, size_shown};
/// use workshop::Workpiece;
/// let workpiece = Workpiece::of(&board::Board::default())?;
/// assert_eq!(size_shown(&workpiece, View::Above, (900, 500)), "The hand is 184 mm long.");
/// assert_eq!(size_shown(&workpiece, View::Above, (400, 500)), "The ruler is 300 mm long.");
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn size_shown(workpiece: &Workpiece, view: View, size: (u32, u32)) -> String {
    let live = Live::of(workpiece, view, size);
    let long = |mm: f64| workpiece.length(mm);
    match (live.hand, live.ruler) {
        (Some(_), _) => format!("The hand is {} long.", long(hand::LENGTH)),
        (None, Some(ruler)) => format!("The ruler is {} long.", long(ruler.long)),
        (None, None) => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;

    #[test]
    fn board_hand_and_ruler_stay_in_the_picture_without_overlap() {
        for diameter in [120.0, 300.0, 640.0, 1500.0] {
            let mut board = Board::default();
            board.blank.diameter = diameter;
            let workpiece = Workpiece::of(&board).unwrap();
            for size in [(300, 700), (560, 480), (1200, 600), (64, 64)] {
                for view in [View::Above, View::PERSPECTIVE] {
                    let live = Live::of(&workpiece, view, size);
                    let Area {
                        x,
                        y,
                        width,
                        height,
                    } = live.board;
                    assert!(x > 0.0 && y > 0.0, "{live:?}");
                    assert!(x + width < f64::from(size.0) && y + height < f64::from(size.1));
                    assert!(live.hand.is_some() != live.ruler.is_some());
                    if let Some(hand) = live.hand {
                        assert!(hand.bounds()[0] > x + width - 5.0 * hand.scale);
                        assert!(
                            hand.bounds()[3] < f64::from(size.1) + 0.2 * hand::WIDTH * hand.scale
                        );
                    }
                    if let Some(ruler) = live.ruler {
                        let [left, top, right, bottom] = ruler.bounds();
                        assert!(
                            left > 0.0 && right < f64::from(size.0),
                            "{diameter} {size:?}"
                        );
                        assert!(top > y + 0.9 * height && bottom < f64::from(size.1));
                    }
                }
            }
        }
    }

    #[test]
    fn a_wide_window_shows_a_hand_and_a_narrow_one_a_ruler() {
        let workpiece = Workpiece::of(&Board::default()).unwrap();
        assert!(Live::of(&workpiece, View::Above, (800, 500)).hand.is_some());
        assert!(
            Live::of(&workpiece, View::Above, (500, 500))
                .ruler
                .is_some()
        );
        assert!(
            Live::of(&workpiece, View::PERSPECTIVE, (800, 500))
                .ruler
                .is_some()
        );
    }
}
