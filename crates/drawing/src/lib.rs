//! A board as a drawing: circles, arcs, lines, crosses and names in millimeters.
//!
//! A drawing states the purpose of each line ([`Line`]) and the part it belongs to ([`Layer`]), never a color: the window, the
//! PDF and the SVG each choose their own strokes, and draw the same thing. The colors of the board itself are below them, as
//! [`Tinted`] parts.
//!
//! # Frames
//!
//! Board items use the frame of crate `geometry` (origin at the center pin, y up). A [`Sheet`] has a page frame of its own:
//! millimeters, origin at the lower left corner of the paper, y up.
//!
//! # Requirements for a writer of sheets
//!
//! * Draw [`View::tints`] in their colors, insides or lines with round ends, where the format has colors.
//! * Draw [`View::items`], moved by [`View::page_from_board`] and clipped to [`View::window`].
//! * Draw [`Sheet::marks`] over that, unmoved.
//! * Keep the order: later items are on top.
//! * Give each [`Layer`] in use a group, a layer or a name of its own, if the format has them.
//! * Stroke by [`Line::width`] and [`Line::dashes`], in mm, black; fill areas with one light gray, without an outline.
//! * Write words in the typeface of [`font`] from [`Text::start`], or anchor them by their [`Anchor`]: both give the same
//!   result.
//! * In files that are printed, put [`Sheet::correction_transform`] around all of it.
//! * Keep circles as circles where the format has them: machines and drawing programs look for centers.
//!
//! # From a board to a sheet
//!
//! ```
//! use board::Board;
//! use drawing::{Layer, Shape, Stamp, plan, whole_sheet};
//! use workshop::Workpiece;
//!
//! let workpiece = Workpiece::of(&Board::default())?;
//! let holes = plan(&workpiece).into_iter().filter(|item| item.layer == Layer::Track);
//! let first = holes.into_iter().find(|item| matches!(item.shape, Shape::Circle(_)));
//! // The same circle is on the sheet: the view only gives the position of the board's origin on the paper.
//! let sheet = whole_sheet(&workpiece, &Stamp::default());
//! assert!(sheet.view.items.contains(&first.unwrap()));
//! # Ok::<(), board::BuildError>(())
//! ```
//!
//! # What is inside
//!
//! * [`Item`], [`Shape`], [`Layer`], [`Line`], [`Text`]: the parts of a drawing.
//! * [`plan`], [`plan_without_names`]: what screen and template share.
//! * [`tints`], [`player_marks`]: the colored parts of the board, which are drawn below the plan.
//! * [`tiled_sheets`], [`whole_sheet`]: the sheets, with crosses, bars, key map and title; the workpiece determines how the
//!   plan is cut into sheets ([`workshop::Tiling`]).
//! * [`printer_test_sheet`], [`test_lengths`]: the sheet for measuring a printer; [`workshop::Correction`] compensates the
//!   printer's errors.
//! * [`Sheet`], [`View`]: one printed page, with the part of the board that it shows.
//! * [`Sheet::on_roll`], [`ROLLS`]: a sheet as wide as a plotter's roll.
//! * [`pages()`], [`Block`], [`Table`], [`Figure`]: words, tables and drawings on as many sheets as needed.
//! * [`fit_strip_pages`]: bores to try a piece in, at true size.
//! * [`jig_pages`]: radii, plates, dividers and the drilling order as pages.
//! * [`filling_pages`]: batches of resin, and the bores each goes into.
//! * [`calendar_pages`]: the work as bars over the days, with its times.
//! * [`lists_pages`]: what to buy, and what to cut; [`quote_pages`], [`costing_pages`]: the price for the customer, and for the shop.
//! * [`finish_pages`], [`film_sheet`]: the finish plan, and the section through its film.
//! * [`job_pages`]: the work step by step, with room for a picture ([`job_picture`]); [`card_sheet`]: the card for the customer.
//! * [`router_sheets`], [`router_whole`], [`sector_sheets`]: hardboard templates.
//! * [`section_sheet`]: the board cut open, with its sizes.
//! * [`End`], [`end_at`], [`span`]: things on the board, and the distance between two of them.
//! * [`holes_in`], [`holes_of_role`], [`holes_of_player`], [`twins`]: holes that are selected together.
//! * [`Thing`], [`thing_at`], [`pulled`]: things that can be dragged, and the document that results; they snap to a [`Guide`].
//! * [`font`]: the one typeface, its bytes and its measures.
//!
//! The crate knows nothing about windows and file formats.

mod blank;
mod bores;
mod calendar;
mod card;
mod cautions;
mod colors;
mod filling;
mod finish;
pub mod font;
mod grooves;
mod hardboard;
mod item;
mod jig;
mod job;
mod looks;
mod marks;
mod names;
mod pages;
mod plan;
mod quiet;
mod quote;
mod recess;
mod repair;
mod section;
mod sheet;
mod shopping;
mod stopped;
mod taken;
mod template;
mod touch;
mod wood_notes;

pub use bores::fit_strip_pages;
pub use calendar::calendar_pages;
pub use card::card_sheet;
pub use colors::{PlayerMark, Tinted, mark, player_marks, tints};
pub use filling::filling_pages;
pub use finish::{film_figure, film_sheet, finish_pages};
pub use hardboard::router::{router_sheets, router_whole};
pub use hardboard::sector::sector_sheets;
use item::corners_of;
pub use item::{Anchor, Item, Layer, Line, Shape, Text};
pub use jig::jig_pages;
pub use job::{PictureRoom, job_pages, job_picture};
pub(crate) use pages::template_pages;
pub use pages::{Align, Block, Cell, Column, Figure, Head, Table, numbered, pages};
pub use plan::{plan, plan_without_names};
pub use quote::{costing_pages, quote_pages};
pub use repair::repair_pages;
pub use section::{section_page, section_sheet};
pub use sheet::{Sheet, Stamp, View};
pub use shopping::lists_pages;
pub use template::printer_test::{TestLengths, printer_test_sheet, test_lengths};
pub use template::roll::{ROLLS, RollError};
pub use template::tiled::tiled_sheets;
pub use template::whole::whole_sheet;
pub use touch::{
    Along, End, Guide, Nudge, Pull, Pulled, Snap, Span, Thing, Way, end_at, end_place, half_chord,
    hole_toward, holes_box, holes_in, holes_of_player, holes_of_role, nudge_step, nudged, on_blank,
    one_each, pulled, snapped, span, thing_after, thing_at, twins,
};
