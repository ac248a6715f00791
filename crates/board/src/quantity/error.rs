//! The reasons why a text is not a number of the expected kind, worded for the message beside the field.

use core::fmt::{self, Display, Formatter};

use super::Quantity;

/// A text that cannot be read: the message quotes what was typed and says what would work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct QuantityError {
    pub(super) quantity: Quantity,
    pub(super) text: String,
    pub(super) fault: Fault,
}

/// What is wrong with a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Fault {
    /// The text is empty.
    Empty,
    /// From here on, something that is not part of a number.
    Unreadable(String),
    /// A division by zero.
    ZeroDivisor,
    /// A comma and a point in one number, or a comma that may separate thousands.
    Comma,
    /// Two slashes without parentheses to disambiguate them.
    Slashes,
    /// A dash that may join feet and inches, or mean subtraction.
    Dash,
    /// A sum of numbers with and without units.
    OpenUnits,
    /// Numbers without a unit that may or may not be inches.
    InchOrNot,
    /// A product of two numbers with units, or a division by one.
    TwoUnits,
    /// A temperature with its unit inside a longer expression.
    Temperature,
}

/// The longest part of a text that a message quotes.
const QUOTED: usize = 40;

/// The beginning of a text, for a message.
pub(super) fn quoted(text: &str) -> String {
    let mut short: String = text.trim().chars().take(QUOTED).collect();
    if short.len() < text.trim().len() {
        short.push('…');
    }
    short
}

impl Display for QuantityError {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        let text = &self.text;
        let (name, examples) = words(self.quantity);
        match &self.fault {
            Fault::Empty => write!(f, "Not {name}: nothing is typed. Try {examples}."),
            Fault::Unreadable(from) if from.is_empty() || from == text => {
                write!(f, "Not {name}: \"{text}\". Try {examples}.")
            }
            Fault::Unreadable(from) => {
                write!(
                    f,
                    "Not {name}: \"{text}\", from \"{from}\" on. Try {examples}."
                )
            }
            Fault::ZeroDivisor => write!(f, "\"{text}\" divides by zero. Try {examples}."),
            Fault::Comma => write!(
                f,
                "The comma in \"{text}\" can be read two ways. Write 1234 or 1.234, without a comma for thousands."
            ),
            Fault::Slashes => write!(
                f,
                "\"{text}\" can be read two ways. Put the part that comes first in parentheses: (5/8)/2."
            ),
            Fault::Dash => write!(
                f,
                "The dash in \"{text}\" can join or subtract. Join without spaces: 2'-3\", 1-3/8; subtract from parentheses: (2') - 3\"."
            ),
            Fault::OpenUnits => write!(
                f,
                "\"{text}\" leaves the unit of some numbers open. Write a unit after each number."
            ),
            Fault::InchOrNot => write!(
                f,
                "\"{text}\" can be in inches or in mm. Write in or mm at the end."
            ),
            Fault::TwoUnits => write!(
                f,
                "Only one number of a product can have a unit, and a divisor has none: \"{text}\"."
            ),
            Fault::Temperature => write!(
                f,
                "Write the unit of a temperature once, as in (60 + 8) °F, not \"{text}\"."
            ),
        }
    }
}

impl core::error::Error for QuantityError {}

/// What a number of the kind is called, with its article, and examples that can be read.
const fn words(quantity: Quantity) -> (&'static str, &'static str) {
    match quantity {
        Quantity::Length => ("a length", "5/8, 12.5 mm or 2' 1/4\""),
        Quantity::Angle => ("an angle", "30, 22.5° or 360/7"),
        Quantity::Count => ("a whole number", "12 or 84/4"),
        Quantity::Share | Quantity::Percent => ("a percentage", "8, 12.5 % or 100/3"),
        Quantity::Number => ("a number", "12, 0.35 or 1/3"),
        Quantity::Mass(_) => ("a weight", "5 g, 1/2 oz or 2 lb 3 oz"),
        Quantity::Volume => ("a volume", "60 ml, 2 fl oz or 1 qt"),
        Quantity::Solid => ("a volume", "3500 ml, 3.5 l or 200 in³"),
        Quantity::Force => ("a force", "5 N, 1.5 lbf or 500 gf"),
        Quantity::Temperature => ("a temperature", "68 °F or 20 °C"),
        Quantity::Speed => ("a speed", "20 m/s or 4000 ft/min"),
        Quantity::Feed => ("a feed", "300 mm/min or 12 in/min"),
        Quantity::Rotation => ("a speed of turning", "60 or 12000 rpm"),
        Quantity::Density(_) => ("a density", "38 lb/ft³, 610 kg/m³ or 1.1 g/ml"),
        Quantity::Time(_) => ("a time", "45 min, 90 s or 1 h 30 min"),
        Quantity::Money => ("a price", "12 or 12.50"),
    }
}
