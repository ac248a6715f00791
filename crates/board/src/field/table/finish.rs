//! The layers of finish.

use crate::Quantity::{Count, Time};
use crate::field::Kind::{Choice, Entries, Number};
use crate::{Coat, CoatKind, CoatPlace, TimeUnit};

fields! {
    /// The finish.
    FINISH_FIELDS:
    COATS "finish", [.finish] "Layers of finish", Entries(Count.range("layers of finish", 0.0, 60.0)),
        "The first is on the wood";
}

fields! {
    /// A layer of finish.
    COAT_FIELDS:
    COAT "finish[].kind", [.finish[] .kind] "Layer #", Choice, "";
    COAT_PLACE "finish[].place", [.finish[] .place] "Layer #, where", Choice, "The part of the board that it goes on";
    COAT_COUNT "finish[].coats", [.finish[] .coats] "Layer #, coats", Number(Count.of(1.0, 50.0)),
        "Coats of this kind in a row";
    COAT_DRIES "finish[].dries_h", [.finish[] .dries] "Layer # drying time", Number(Time(TimeUnit::Hour).of(0.0, 100_000.0)),
        "Wait after each coat; the label comes first";
}

plain!(CoatKind, CoatPlace);
usual!(Coat);
