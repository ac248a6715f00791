//! The typeface inside a PDF: only the glyphs in use, with the letter of each.

use std::collections::BTreeMap;

use drawing::Text;
use drawing::font::{self, Weight};
use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Filter, Finish as _, Name, Pdf, Rect, Ref, Str};
use subsetter::GlyphRemapper;
use ttf_parser::Face;

use super::deflate;
use crate::Error;
use crate::number::Written;

/// Strings have two bytes per glyph, which are its number inside the file.
const SYSTEM: SystemInfo<'static> = SystemInfo {
    registry: Str(b"Adobe"),
    ordering: Str(b"Identity"),
    supplement: 0,
};

/// Number of objects for each embedded font.
const OBJECTS: usize = 5;

/// Each weight, with the glyphs used so far.
pub struct Fonts {
    regular: Font,
    semi_bold: Font,
}

impl Fonts {
    /// No glyphs used yet.
    pub fn new() -> Result<Self, Error> {
        Ok(Self {
            regular: Font::new(Weight::Regular)?,
            semi_bold: Font::new(Weight::SemiBold)?,
        })
    }

    /// The name of a weight on pages.
    pub const fn resource(weight: Weight) -> &'static str {
        match weight {
            Weight::Regular => "R",
            Weight::SemiBold => "S",
        }
    }

    /// Appends the words as a string of glyph numbers.
    pub fn push_glyphs(&mut self, out: &mut Written, text: &Text) {
        let font = match text.weight {
            Weight::Regular => &mut self.regular,
            Weight::SemiBold => &mut self.semi_bold,
        };
        out.push('<');
        for letter in text.words.chars() {
            let glyph = u32::from(font.glyph(letter));
            let digits = [12, 8, 4, 0].map(|by| char::from_digit((glyph >> by) & 15, 16));
            for digit in digits.into_iter().flatten() {
                out.push(digit.to_ascii_uppercase());
            }
        }
        out.push('>');
    }

    /// Embeds the weights in use; returns the names and objects for the pages' resources.
    pub fn embed(
        self,
        pdf: &mut Pdf,
        mut next: impl FnMut() -> Ref,
    ) -> Result<Vec<(&'static str, Ref)>, Error> {
        let mut embedded = Vec::new();
        for font in [self.regular, self.semi_bold] {
            if !font.letters.is_empty() {
                let ids = [(); OBJECTS].map(|()| next());
                font.embed(pdf, ids)?;
                embedded.push((Self::resource(font.weight), ids[0]));
            }
        }
        Ok(embedded)
    }
}

/// One weight of the typeface.
struct Font {
    weight: Weight,
    face: Face<'static>,
    glyphs: GlyphRemapper,
    /// The glyph of each letter in use.
    letters: BTreeMap<char, u16>,
}

impl Font {
    /// A weight without glyphs in use.
    fn new(weight: Weight) -> Result<Self, Error> {
        let face = Face::parse(weight.bytes(), 0).map_err(|error| Error::Typeface {
            reason: error.to_string(),
        })?;
        Ok(Self {
            weight,
            face,
            glyphs: GlyphRemapper::new(),
            letters: BTreeMap::new(),
        })
    }

    /// The number of a letter's glyph inside the file; letters that the typeface lacks share the empty one.
    fn glyph(&mut self, letter: char) -> u16 {
        *self.letters.entry(letter).or_insert_with(|| {
            let glyph = self.face.glyph_index(letter).unwrap_or_default();
            self.glyphs.remap(glyph.0)
        })
    }

    /// Writes the five objects of a font: a composite font, its one descendant, the descriptor, the program with the glyphs in
    /// use, and their letters (ISO 32000-1:2008, 9.7 and 9.9).
    fn embed(&self, pdf: &mut Pdf, ids: [Ref; OBJECTS]) -> Result<(), Error> {
        let [font, descendant, descriptor, file, unicode] = ids;
        let name = self.name();
        let name = Name(name.as_bytes());
        pdf.type0_font(font)
            .base_font(name)
            .encoding_predefined(Name(b"Identity-H"))
            .descendant_font(descendant)
            .to_unicode(unicode);
        self.write_descendant(pdf, descendant, name, descriptor);
        self.write_descriptor(pdf, descriptor, name, file);
        self.write_file(pdf, file)?;
        self.write_unicode(pdf, unicode);
        Ok(())
    }

    /// The typeface's name after six letters that are unique to this selection of glyphs (ISO 32000-1:2008, 9.6.4).
    fn name(&self) -> String {
        let letters = self.letters.keys().map(|&letter| u64::from(letter));
        let mut sum = letters.fold(u64::from(self.weight.css()), |sum, letter| {
            (sum ^ letter).wrapping_mul(0x0100_0000_01b3)
        });
        let mut name = String::new();
        for _ in 0..6 {
            name.push(char::from(b'A' + (sum % 26) as u8));
            sum /= 26;
        }
        let style = match self.weight {
            Weight::Regular => "Regular",
            Weight::SemiBold => "SemiBold",
        };
        name + "+" + font::FAMILY + "-" + style
    }

    /// The font of glyph numbers with the width of each, which viewers use to space words.
    fn write_descendant(&self, pdf: &mut Pdf, id: Ref, name: Name<'_>, descriptor: Ref) {
        let mut descendant = pdf.cid_font(id);
        descendant
            .subtype(CidFontType::Type2)
            .base_font(name)
            .system_info(SYSTEM)
            .font_descriptor(descriptor)
            .default_width(0.0)
            .cid_to_gid_map_predefined(Name(b"Identity"));
        let widths = self.glyphs.remapped_gids().map(|glyph| {
            let width = self.face.glyph_hor_advance(ttf_parser::GlyphId(glyph));
            self.per_mille(f64::from(width.unwrap_or_default()))
        });
        descendant.widths().consecutive(0, widths);
    }

    /// Heights and slants of the letters, in thousandths of the size.
    fn write_descriptor(&self, pdf: &mut Pdf, id: Ref, name: Name<'_>, file: Ref) {
        // Stroke width of vertical stems; used only by viewers without the font.
        const STEM: f32 = 90.0;
        let (face, units) = (&self.face, |value: i16| self.per_mille(f64::from(value)));
        let bounds = face.global_bounding_box();
        let capitals = face.capital_height().unwrap_or_else(|| face.ascender());
        pdf.font_descriptor(id)
            .name(name)
            .flags(FontFlags::SYMBOLIC)
            .bbox(Rect::new(
                units(bounds.x_min),
                units(bounds.y_min),
                units(bounds.x_max),
                units(bounds.y_max),
            ))
            .italic_angle(0.0)
            .ascent(units(face.ascender()))
            .descent(units(face.descender()))
            .cap_height(units(capitals))
            .stem_v(STEM)
            .font_file2(file);
    }

    /// The font program, cut down to the glyphs in use.
    fn write_file(&self, pdf: &mut Pdf, id: Ref) -> Result<(), Error> {
        let subset = subsetter::subset(self.weight.bytes(), 0, &self.glyphs);
        let subset = subset.map_err(|error| Error::Typeface {
            reason: error.to_string(),
        })?;
        let packed = deflate(&subset);
        let mut stream = pdf.stream(id, &packed);
        stream.filter(Filter::FlateDecode);
        stream.pair(
            Name(b"Length1"),
            i32::try_from(subset.len()).unwrap_or(i32::MAX),
        );
        stream.finish();
        Ok(())
    }

    /// Writes the character of each glyph, so that words can be searched and copied.
    fn write_unicode(&self, pdf: &mut Pdf, id: Ref) {
        let mut map = UnicodeCmap::new(Name(b"Unicode"), SYSTEM);
        for (&letter, &glyph) in &self.letters {
            map.pair(glyph, letter);
        }
        let packed = deflate(&map.finish());
        pdf.cmap(id, &packed).filter(Filter::FlateDecode);
    }

    /// Font units as thousandths of the size, the unit of a PDF (ISO 32000-1:2008, 9.2.4).
    fn per_mille(&self, units: f64) -> f32 {
        let exact = units * 1000.0 / f64::from(self.face.units_per_em());
        ((exact * 1000.0).round() / 1000.0) as f32
    }
}
