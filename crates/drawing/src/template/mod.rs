//! The drilling template on paper: whole or in sheets, with crosses on the joints, bars, key map and title; and the sheet for
//! measuring a printer.

pub mod bars;
pub mod furniture;
pub mod joint;
pub mod key_map;
pub mod placing;
pub mod printer_test;
pub mod roll;
pub mod subject;
pub mod summary;
#[cfg(test)]
mod tests;
pub mod tiled;
pub mod whole;
