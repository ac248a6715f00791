//! Quantities: the document's unit for each, and the units in which makers type and read it.
//!
//! The document stores every number in one unit. [`Quantity::read`] reads typed text in any unit of the kind,
//! [`Quantity::shown`] returns the number in the maker's system, and a [`Measure`] is a number together with its quantity.

mod error;
mod expression;
mod held;
mod inches;
mod length;
mod measure;
mod read;
mod say;
mod shown;
mod term;
mod unit;

pub use error::QuantityError;
pub use held::{DensityUnit, MassUnit, Quantity, TimeUnit};
pub use length::{FLUID_OUNCE, INCH, at_mark, show_least, show_length, show_most, show_setting};
pub use measure::Measure;
pub use say::say_geometry;
pub use shown::show_number;
