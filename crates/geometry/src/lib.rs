//! The position of every hole of a round board.
//!
//! # Frame
//!
//! Millimeters, `f64`. The origin is the center pin; x points right and y up, as seen from the board's top face. A bearing is
//! an [`Angle`] measured clockwise from 12 o'clock, so that a point at radius `r` and bearing `b` is `(r sin b, r cos b)`. A
//! [`Sector`] is one player's share of the circle; its local frame has u to the clockwise side and v outward along the axis.
//! Every public item of this crate uses that frame unless it says otherwise.
//!
//! # What is inside
//!
//! * [`Angle`], [`point_at`], [`bearing_of`], [`Sector`]: angles, polar points, a player's frame.
//! * [`Arc`]: part of a circle, as a path.
//! * [`Pattern`], [`track`], [`turn_in`], [`home_lane`]: the track and the home lane of one sector.
//! * [`reach`]: the size of a pattern, to solve the pitch for a given size.
//! * [`PocketShape`], [`pocket`]: the holes of a start pocket; [`best_pocket`]: the position with the most wood around it.
//! * [`Web`], [`web_between`], [`smallest_web`], [`close_webs`], [`nearest_webs`]: the wood left between bores.
//! * [`chord`], [`ring_radius`], [`ring_capacity`]: chords of a divided circle.
//! * [`sheets_along`], [`best_joints`], [`SheetRow`]: sheets of a tiled template, and joints that stay clear of the holes.
//! * [`Outline`], [`Flaw`], [`largest_disc`], [`clearance`]: a sawn blank, and the best position of a round board in it.
//! * [`Seam`], [`best_turn`], [`seam_gap`], [`turn_curve`]: the pattern rotated so that the bores stay clear of seams.
//! * [`best_half`], [`circle_strips`], [`lay_strips`], [`most_from_strips`]: what can be joined from a narrow blank.
//! * [`Profile`], [`Piece`], [`Upright`], [`Rest`]: solids of revolution around a vertical axis: volume, distance, how a ball
//!   rests in it, how a plane cuts it.
//! * [`RoundRect`], [`Prism`]: rectangles with rounded corners, and vertical prisms with such an outline.
//! * [`shortest_tour`], [`shortest_path`]: the order in which holes are drilled with the least travel.
//! * [`Error`], [`Nearest`]: requests that cannot be built, and the nearest ones that can; [`PLAYERS`], [`SPACES`],
//!   [`MOST_HOLES`], [`PITCH`], [`LOBE_DEPTH`], [`ARM_WIDTH`], [`MOST_SHEETS`]: the limits of requests.
//!
//! The crate knows nothing about windows, files, clocks, paper or money.

mod angle;
mod arc;
mod blank;
mod chord;
mod error;
mod fit;
mod joined;
mod joints;
mod limits;
mod pattern;
mod pocket;
mod pocket_place;
mod profile;
mod round_rect;
mod seam_turn;
mod sector;
mod tour;
mod web;

pub use angle::Angle;
pub use arc::Arc;
pub use blank::{
    Disc, FARTHEST_CORNER, Feature, Flaw, MOST_CORNERS, Outline, OutlineError, Stopped, clearance,
    largest_disc,
};
pub use chord::{chord, ring_capacity, ring_radius};
pub use error::{Error, Nearest};
pub use fit::reach;
pub use joined::{
    HalfDisc, Side, Strip, StripPlace, best_half, circle_strips, lay_strips, most_from_strips,
};
pub use joints::{JointPlace, JointPlan, MOST_SHEETS, SheetRow, best_joints, sheets_along};
pub use kurbo::{Circle, Point, Vec2};
pub use limits::{ARM_WIDTH, LOBE_DEPTH, MOST_HOLES, PITCH, PLAYERS, SPACES};
pub use pattern::{Pattern, home_lane, track, turn_in};
pub use pocket::{PocketShape, pocket};
pub use pocket_place::{PocketPlace, PocketSearch, best_pocket};
pub use profile::{Piece, Profile, Rest, RestsOn, Upright, flatten};
pub use round_rect::{Prism, RoundRect};
pub use seam_turn::{Measure, NearSeam, Seam, SeamTurn, best_turn, seam_gap, turn_curve};
pub use sector::{Sector, bearing_of, point_at};
pub use tour::{Tour, TourBudget, shortest_path, shortest_tour};
pub use web::{Web, close_webs, nearest_webs, smallest_web, web_between};
