//! Boards, files and typed words by chance, and what must hold for each of them.
//!
//! Each case follows from one number, its seed, so that a case that fails is seen again by that number alone. `cargo test -p fuzz`
//! runs a few of each kind, counted and not timed; `cargo run --release -p fuzz -- documents --minutes 600` runs for hours. What
//! was found before stands in `corpus`, and is tried each time.
//!
//! * [`bytes_case`]: any bytes → a board file, read or refused.
//! * [`typed_case`]: anything typed → every quantity, list and form of words.
//! * [`document_case`]: a document in its ranges → all that follows → every export, read back by readers independent of our
//!   writers.
//! * [`extremes`]: documents at the ends of their ranges, of which [`measure`] reports the time and memory of each part.

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

/// The broken rule, in a sentence.
pub type Fault = String;
