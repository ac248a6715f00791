//! Random boards, files and typed words, and the rules that each of them must satisfy.
//!
//! Each case is determined by one number, its seed, so that a failing case can be reproduced from that number alone. `cargo
//! test -p fuzz` runs a fixed number of each kind; `cargo run --release -p fuzz -- documents --minutes 600` runs for hours.
//! Failures found earlier are kept in `corpus`, and are tried each time.
//!
//! * [`bytes_case`]: any bytes → a board file, read or refused.
//! * [`typed_case`]: anything typed → every quantity, list and notation.
//! * [`document_case`]: a document in its ranges → everything derived from it → every export, read back by readers independent
//!   of our writers.
//! * [`extremes`]: documents at the limits of their ranges; [`measure`] reports the time and memory of each part of them.

mod bytes;
mod documents;
mod draw;
mod extremes;
mod follow;
mod measure;
mod read_back;
mod seeds;
mod typed;

pub use bytes::bytes_case;
pub use documents::document;
pub use draw::Draw;
pub use extremes::extremes;
pub use follow::{Cost, document_case, follow, mends_offered};
pub use measure::{Taken, measure};
pub use read_back::{is_plain, read_back};
pub use seeds::{corpus_bytes, corpus_typed, seeds};
pub use typed::typed_case;

/// The violated rule, in a sentence.
pub type Fault = String;
