//! The coats of finish.

use crate::Quantity::{Count, Time};
use crate::field::Kind::{Choice, Entries, Number};
use crate::{Coat, CoatKind, TimeUnit};

fields! {
    /// The finish.
    FINISH_FIELDS:
    COATS "finish", [.finish] "Coats of finish", Entries(Count.range("coats of finish", 0.0, 60.0)),
        "The first is on the wood";
}

fields! {
    /// A coat of finish.
    COAT_FIELDS:
    COAT "finish[].kind", [.finish[] .kind] "Coat #", Choice, "";
    COAT_DRIES "finish[].dries_h", [.finish[] .dries] "Coat # dries", Number(Time(TimeUnit::Hour).of(0.0, 100_000.0)),
        "Until the next coat";
}

plain!(CoatKind);
usual!(Coat);
