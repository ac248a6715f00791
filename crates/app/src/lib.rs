//! The window and the commands of Ringwright.
//!
//! A frame goes: finished jobs and shortcuts become commands; panels change the document in place
//! and ask for commands; commands are carried out at the end of the same frame; once pointer and keyboard
//! rest, the document is one undo step further. What follows from the document ([`workshop::Workpiece`]) is
//! worked out once for each of its revisions. Only `host` and `files` touch disk, dialogs and clock.

pub mod canvas;
pub mod cli;
pub mod exports;
mod figures_view;
pub mod files;
mod film_view;
pub mod printers;
pub mod window;

mod blank_view;
mod calendar_view;
mod camera;
mod color;
mod command;
mod current;
mod dialogs;
mod guides;
mod help;
mod history;
mod host;
mod jobs;
mod looks;
mod painter;
mod palette;
mod panels;
mod places;
mod proof_view;
mod rescue;
mod samples;
mod section;
mod section_view;
mod session;
mod settings;
mod sheet_view;
mod shop;
mod spoken;
mod stage;
mod study;
mod terms;
mod theme;
mod view;
mod watch;
mod widgets;
mod wood_face;

#[cfg(test)]
mod fake;
#[cfg(test)]
mod hand;
#[cfg(test)]
mod stories;
