//! File forms of types of crate `geometry`, and of lengths that may be left to the program.

use geometry::{Pattern, PocketShape};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// [`Pattern`] in the file: `{"kind": "lobes", "depth": 0.2}`.
#[derive(Serialize, Deserialize)]
#[serde(
    remote = "Pattern",
    tag = "kind",
    rename_all = "lowercase",
    deny_unknown_fields
)]
pub enum PatternText {
    Ring,
    Lobes { depth: f64 },
    Polygon,
    Arms { across: u32 },
}

/// [`PocketShape`] in the file: `"row"`.
#[derive(Serialize, Deserialize)]
#[serde(remote = "PocketShape", rename_all = "lowercase")]
pub enum PocketShapeText {
    Row,
    Arc,
    Block,
    Ring,
}

/// A number, or the word `"auto"` if the program chooses the best.
pub mod auto_or_number {
    use super::{Deserialize, Deserializer, Serialize, Serializer, Word};

    #[derive(Serialize, Deserialize)]
    #[serde(untagged, expecting = "a number or \"auto\"")]
    enum Text {
        Given(f64),
        Word(Word),
    }

    #[allow(
        clippy::ref_option,
        clippy::trivially_copy_pass_by_ref,
        reason = "the signature is serde's"
    )]
    pub fn serialize<S: Serializer>(value: &Option<f64>, serializer: S) -> Result<S::Ok, S::Error> {
        value
            .map_or(Text::Word(Word::Auto), Text::Given)
            .serialize(serializer)
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Option<f64>, D::Error> {
        Ok(match Text::deserialize(deserializer)? {
            Text::Given(number) => Some(number),
            Text::Word(Word::Auto) => None,
        })
    }
}

/// x and y, or the word `"auto"` if the program chooses the best.
pub mod auto_or_point {
    use super::{Deserialize, Deserializer, Serialize, Serializer, Word};

    #[derive(Serialize, Deserialize)]
    #[serde(untagged, expecting = "[x, y] or \"auto\"")]
    enum Text {
        Given([f64; 2]),
        Word(Word),
    }

    #[allow(
        clippy::ref_option,
        clippy::trivially_copy_pass_by_ref,
        reason = "the signature is serde's"
    )]
    pub fn serialize<S: Serializer>(
        value: &Option<[f64; 2]>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        value
            .map_or(Text::Word(Word::Auto), Text::Given)
            .serialize(serializer)
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Option<[f64; 2]>, D::Error> {
        Ok(match Text::deserialize(deserializer)? {
            Text::Given(point) => Some(point),
            Text::Word(Word::Auto) => None,
        })
    }
}

/// A color, or the word `"auto"` for the default set's.
pub mod auto_or_color {
    use super::{Deserialize, Deserializer, Serialize, Serializer, Word};
    use crate::Rgb;

    #[derive(Serialize, Deserialize)]
    #[serde(untagged, expecting = "a color, as in \"#e69f00\", or \"auto\"")]
    enum Text {
        Given(Rgb),
        Word(Word),
    }

    #[allow(
        clippy::ref_option,
        clippy::trivially_copy_pass_by_ref,
        reason = "the signature is serde's"
    )]
    pub fn serialize<S: Serializer>(value: &Option<Rgb>, serializer: S) -> Result<S::Ok, S::Error> {
        value
            .map_or(Text::Word(Word::Auto), Text::Given)
            .serialize(serializer)
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Option<Rgb>, D::Error> {
        Ok(match Text::deserialize(deserializer)? {
            Text::Given(color) => Some(color),
            Text::Word(Word::Auto) => None,
        })
    }
}

/// A value or `null`, but never missing: a part left out by mistake would be silently dropped.
pub fn or_null<'de, D: Deserializer<'de>, T: Deserialize<'de>>(
    deserializer: D,
) -> Result<Option<T>, D::Error> {
    Option::deserialize(deserializer)
}

#[derive(Serialize, Deserialize)]
enum Word {
    #[serde(rename = "auto")]
    Auto,
}
