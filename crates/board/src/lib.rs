//! The document: the maker's decisions, and every hole placed from them.
//!
//! Frame and units are those of crate `geometry`: millimeters, origin at the center pin, y up, bearings
//! clockwise from 12 o'clock. Inches exist only where a length is typed or shown ([`Units`]).
//!
//! # What is inside
//!
//! * [`Board`] and its parts: the document.
//! * [`layout`]: document → [`Layout`], every hole with its name, position and bore.
//! * [`read_board`], [`open_board`], [`write_board`]: the document as a file; [`article_now`].
//! * [`HoleId`], [`HoleName`], [`Role`]: the names of holes, and their order.
//! * [`Edit`]: a hand edit, tied to a hole's name.
//! * [`Colors`], [`Rgb`]: the players' colors, and those of the board.
//! * [`Quantity`]: the quantity of a number, read from typed text and shown in the maker's system of units.
//! * [`Measure`]: a number together with its quantity.
//! * [`Range`]: the allowed values of each number.
//! * [`Schedule`]: the order, with [`Day`], [`Clock`] and [`DaysOff`] as they are typed and shown.
//!
//! The crate knows nothing of windows, file paths or paper sizes.

mod base;
mod bench;
mod bore;
mod colors;
mod document;
mod edit;
pub mod field;
mod file;
mod filling;
mod finish;
mod groove;
mod jig;
mod layout;
mod limits;
mod machine;
mod name;
mod piece;
mod price;
mod quantity;
mod range;
mod repair;
mod rgb;
mod schedule;
mod serial;
mod shop;
mod stock;
mod template;
mod tools;
mod units;
mod when;
mod wood;
mod words;

pub use base::{Base, BaseHold, Footing, Passage};
pub use bench::{LidFit, LidGrain, LidHold, Recess, RecessShape, Toward};
pub use bore::{Bore, Bottom};
pub use colors::{
    BoreColor, BorePart, Colored, Colors, HoleColor, Hue, Mark, MarkShape, MarksMade, Medium,
    PlayerColor,
};
pub use document::{Blank, Board, Bores, Center, Marking, Paper, Pocket, Template};
pub use edit::{Change, Edit};
pub use field::{Choice, Field, Kind, TypedError, Value, Written, out_of_range, read_numbers};
pub use file::{
    FORMAT, FileError, LARGEST_FILE, Opened, article_now, open_board, read_board, write_board,
};
pub use filling::{Filling, Mix, MixedBy};
pub use finish::{Coat, CoatKind, CoatPlace};
pub use groove::{Grooves, Rings};
pub use jig::{CircleJig, DrillingMethod, DrillingOrder, Router, SectorJig, TemplateCenter};
pub use layout::{BuildError, Hole, Layout, PocketSpot, layout};
pub use limits::{Errors, Limits};
pub use machine::{BitRun, CutterRun, DrillWords, EdgeRun, Machine, ProgramFiles};
pub use name::{HoleId, HoleName, NameError, Role};
pub use piece::{Insert, Magnet, Piece, PieceKind};
pub use price::{ArticlePrice, Currency, Price};
pub use quantity::{
    DensityUnit, FLUID_OUNCE, INCH, MassUnit, Measure, Quantity, QuantityError, TimeUnit, at_mark,
    say_geometry, show_least, show_length, show_most, show_number, show_setting,
};
pub use range::{OutOfRange, Range};
pub use repair::{Distance, Fault, Measured, MeasuredOn, WrongHole};
pub use rgb::{NAMED, Rgb, RgbError, SET};
pub use schedule::{Done, Schedule, Timed, WorkHours};
pub use shop::Shop;
pub use stock::{
    Build, FlawKind, FlawShape, Panel, ScrewCircle, Stock, StockFlaw, StockOutline, Tenons,
};
pub use template::{DxfRelease, SheetLayout};
pub use tools::Tools;
pub use units::{Fraction, Units};
pub use when::{Clock, Day, DaysOff, WhenError, time_zone, weekday_word};
pub use wood::{Air, Cut, Wood};
pub use words::{as_sentence, capital, counted, in_a_row, several, with_article};
