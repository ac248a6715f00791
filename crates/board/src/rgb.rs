//! A color for screens and printers: red, green and blue of sRGB.

use core::fmt;
use core::str::FromStr;

use serde::{Deserialize, Serialize};

/// A color in the sRGB color space (IEC 61966-2-1), `#rrggbb` in files.
///
/// ```
/// use board::Rgb;
/// let orange: Rgb = "#e69f00".parse().unwrap();
/// assert_eq!(orange, Rgb::new(230, 159, 0));
/// assert_eq!(orange.to_string(), "#e69f00");
/// // A maker says it by its name.
/// assert_eq!("Sky blue".parse(), Ok(Rgb::new(86, 180, 233)));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(into = "String", try_from = "String")]
pub struct Rgb {
    /// Red, 0 to 255.
    pub red: u8,
    /// Green, 0 to 255.
    pub green: u8,
    /// Blue, 0 to 255.
    pub blue: u8,
}

impl Rgb {
    /// Black.
    pub const BLACK: Self = Self::new(0, 0, 0);
    /// White.
    pub const WHITE: Self = Self::new(255, 255, 255);

    /// The color with these components.
    pub const fn new(red: u8, green: u8, blue: u8) -> Self {
        Self { red, green, blue }
    }

    /// Red, green and blue.
    pub const fn parts(self) -> [u8; 3] {
        [self.red, self.green, self.blue]
    }

    /// Red, green and blue as fractions of 255.
    ///
    /// ```
    /// assert_eq!(board::Rgb::new(0, 51, 255).shares(), [0.0, 0.2, 1.0]);
    /// ```
    pub fn shares(self) -> [f64; 3] {
        self.parts().map(|part| f64::from(part) / 255.0)
    }

    /// The color with this name in [`NAMED`], ignoring case.
    ///
    /// ```
    /// use board::Rgb;
    /// assert_eq!(Rgb::named("brick red"), Some(Rgb::new(0x9e, 0x2b, 0x25)));
    /// assert_eq!(Rgb::named("colorless"), None);
    /// ```
    pub fn named(name: &str) -> Option<Self> {
        let is_it = |(known, _): &&(&str, Self)| known.eq_ignore_ascii_case(name.trim());
        NAMED.iter().find(is_it).map(|(_, color)| *color)
    }
}

/// The published set of eight colors that people with any color vision can distinguish (Okabe and Ito, "Color Universal
/// Design", 2008), in its order, except that black comes last: it makes a poor mark on many woods.
pub const SET: [Rgb; 8] = [
    Rgb::new(230, 159, 0),
    Rgb::new(86, 180, 233),
    Rgb::new(0, 158, 115),
    Rgb::new(240, 228, 66),
    Rgb::new(0, 114, 178),
    Rgb::new(213, 94, 0),
    Rgb::new(204, 121, 167),
    Rgb::BLACK,
];

/// Colors with the names that makers use, those of [`SET`] first. The values of the others are our own.
pub const NAMED: [(&str, Rgb); 34] = [
    ("orange", SET[0]),
    ("sky blue", SET[1]),
    ("bluish green", SET[2]),
    ("yellow", SET[3]),
    ("blue", SET[4]),
    ("vermilion", SET[5]),
    ("reddish purple", SET[6]),
    ("black", SET[7]),
    ("white", Rgb::WHITE),
    ("ivory", Rgb::new(0xf4, 0xec, 0xd8)),
    ("light gray", Rgb::new(0xc8, 0xc8, 0xc8)),
    ("gray", Rgb::new(0x88, 0x88, 0x88)),
    ("dark gray", Rgb::new(0x44, 0x44, 0x44)),
    ("pink", Rgb::new(0xf2, 0x9c, 0xb7)),
    ("red", Rgb::new(0xd0, 0x1c, 0x1f)),
    ("brick red", Rgb::new(0x9e, 0x2b, 0x25)),
    ("dark red", Rgb::new(0x63, 0x13, 0x16)),
    ("amber", Rgb::new(0xff, 0xbf, 0x1f)),
    ("tan", Rgb::new(0xc9, 0xa0, 0x72)),
    ("brown", Rgb::new(0x7a, 0x4a, 0x24)),
    ("dark brown", Rgb::new(0x45, 0x29, 0x14)),
    ("cream", Rgb::new(0xf7, 0xe7, 0xa6)),
    ("olive", Rgb::new(0x77, 0x77, 0x22)),
    ("light green", Rgb::new(0x9c, 0xd6, 0x7a)),
    ("green", Rgb::new(0x2f, 0x8f, 0x2f)),
    ("dark green", Rgb::new(0x14, 0x4d, 0x22)),
    ("turquoise", Rgb::new(0x2b, 0xb8, 0xb0)),
    ("dark teal", Rgb::new(0x0c, 0x52, 0x56)),
    ("light blue", Rgb::new(0xa9, 0xd3, 0xf0)),
    ("royal blue", Rgb::new(0x2a, 0x4f, 0xd0)),
    ("dark blue", Rgb::new(0x14, 0x24, 0x66)),
    ("lilac", Rgb::new(0xb9, 0x9a, 0xdd)),
    ("purple", Rgb::new(0x6c, 0x2f, 0x9c)),
    ("dark purple", Rgb::new(0x3a, 0x14, 0x52)),
];

impl fmt::Display for Rgb {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [red, green, blue] = self.parts();
        write!(f, "#{red:02x}{green:02x}{blue:02x}")
    }
}

impl From<Rgb> for String {
    fn from(color: Rgb) -> Self {
        color.to_string()
    }
}

/// A text that is not a color.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "not a color: \"{text}\"; type #rrggbb, as in #e69f00, or a name such as sky blue or dark red"
)]
pub struct RgbError {
    /// The text.
    pub text: String,
}

impl FromStr for Rgb {
    type Err = RgbError;

    /// Reads `#rrggbb`, with or without the `#`, or a name in [`NAMED`].
    fn from_str(text: &str) -> Result<Self, RgbError> {
        let error = || RgbError {
            text: text.chars().take(40).collect(),
        };
        hex(text.trim())
            .or_else(|| Self::named(text))
            .ok_or_else(error)
    }
}

/// Six hexadecimal digits, with an optional `#`.
fn hex(text: &str) -> Option<Rgb> {
    let digits = text.strip_prefix('#').unwrap_or(text);
    let plain = digits.len() == 6 && digits.bytes().all(|digit| digit.is_ascii_hexdigit());
    let number = plain.then(|| u32::from_str_radix(digits, 16).ok())??;
    let [_, red, green, blue] = number.to_be_bytes();
    Some(Rgb::new(red, green, blue))
}

/// Files only have colors as `#rrggbb`.
impl TryFrom<String> for Rgb {
    type Error = RgbError;

    fn try_from(text: String) -> Result<Self, RgbError> {
        match hex(&text) {
            Some(color) if text.starts_with('#') => Ok(color),
            _ => Err(RgbError { text }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_color_is_read_as_it_is_written() {
        for part in 0..=255 {
            for color in [Rgb::new(part, 0, 9), Rgb::new(0, part, 255 - part)] {
                assert_eq!(color.to_string().parse(), Ok(color));
                assert_eq!(Rgb::try_from(String::from(color)), Ok(color));
            }
        }
    }

    #[test]
    fn texts_that_are_not_colors_are_refused() {
        for text in [
            "", "#", "#12345", "#1234567", "#12345g", "+12345", "reddish", "#orange", "Ünïcø",
        ] {
            assert!(text.parse::<Rgb>().is_err(), "{text} was read");
        }
        assert!(Rgb::try_from("orange".to_owned()).is_err());
        assert!(Rgb::try_from("e69f00".to_owned()).is_err());
    }

    #[test]
    fn names_and_colors_are_unique() {
        for (at, (name, color)) in NAMED.iter().enumerate() {
            let rest = NAMED.iter().skip(at + 1);
            for (other, its) in rest {
                assert!(name != other && color != its, "{name} and {other}");
            }
            assert_eq!(name.parse(), Ok(*color));
        }
    }
}
