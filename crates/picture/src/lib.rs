//! A board as its customer will see it: from a workpiece to pixels.
//!
//! A board is a body on a table: view rays hit its wood, enter its bores and grooves, and hit the pieces that stand on it,
//! under one lamp at the upper left. Lengths are in mm in the frame of crate `geometry`, with z out of the top face; positions
//! in a picture are in pixels from its upper left corner. The same workpiece gives the same pixels on every machine.
//!
//! # From a board to its picture
//!
//! 1. The scene (`scene`): every bore, groove and piece with its position, in a grid over the board, so that a ray is tested
//!    only against what is near. The wood (`grain`), the finish (`coat`) and the colors (`paint`) belong to it.
//! 2. The view (`view`): one ray for each pixel, from above all straight down, in perspective from one eye point.
//! 3. The tone (`shade`): the first surface that a ray hits, lit by lamp and sky. Shadows are calculated from shapes, not by
//!    more rays: a bore has a soft edge of light on its floor, a piece a soft spot beside it.
//! 4. The pixels (`render`): eight rays where an edge passes through a pixel, one elsewhere, on all cores.
//! 5. The page (`page`, `letters`, `hand`, `ruler`): margins, title, facts, and a hand or a ruler that shows the size.
//!
//! # A picture of a board
//!
//! ```
//! use board::{Board, Wood};
//! use picture::{View, Words, proof};
//! use workshop::Workpiece;
//! let board = Board { wood: Some(Wood::default()), ..Board::default() };
//! let workpiece = Workpiece::of(&board)?;
//! let picture = proof(&workpiece, View::PERSPECTIVE, 300, Words::Drawn, &|| false).unwrap();
//! assert_eq!((picture.width, picture.height), (300, 240));
//! // The center of the board is dark walnut, the corner is pale background.
//! let light = |x: usize, y: usize| u32::from(picture.rgba[(y * 300 + x) * 4]);
//! assert!(light(120, 90) < 160 && light(3, 3) > 200);
//! # Ok::<(), board::BuildError>(())
//! ```
//!
//! # What is inside
//!
//! * [`proof`]: the page for the customer, with title and facts; [`Picture`], [`PictureError`], [`SIZES`], [`Words`].
//! * [`glimpse`]: the board with a hand or a ruler, to fill a window; [`size_shown`], [`GroundColors`], [`PAPER`].
//! * [`thumbnail`]: only the board, in grays, for a page printed in black.
//! * [`wood_face`]: only the wood, as a background for drawings.
//! * [`BlankWood`]: the wood of the blank, from which the board is sawn.
//! * [`View`]: from above, or in perspective.
//! * [`Page`], [`Line`], [`Hand`], [`Ruler`]: the page as data, for formats that have text of their own; [`facts`].
//!
//! The crate knows nothing about windows, files and clocks.

mod blank;
mod coat;
mod face;
mod grain;
mod hand;
mod letters;
mod live;
mod noise;
mod page;
mod paint;
mod proof;
mod render;
mod ruler;
mod scene;
mod shade;
mod space;
mod tone;
mod view;

pub use blank::BlankWood;
pub use face::wood_face;
pub use live::size_shown;
pub use page::{Hand, Line, Page, facts};
pub use proof::{
    Effort, GroundColors, PAPER, Picture, PictureError, SIZES, Words, effort, glimpse, proof,
    thumbnail,
};
pub use ruler::Ruler;
pub use view::{Area, View};
