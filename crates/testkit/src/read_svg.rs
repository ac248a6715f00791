//! An SVG as pixels, drawn by a reader that knows nothing of our writer.

use kurbo::Size;
use resvg::tiny_skia::{Color, Pixmap, Transform};
use resvg::usvg::{Options, Tree};

use crate::Gray;

/// What an SVG looks like at so many pixels an inch, its words in the typefaces given (bytes of TrueType files).
///
/// # Errors
///
/// A sentence if the text is no SVG or has no size.
pub fn svg_raster(svg: &str, dpi: u32, fonts: &[&[u8]]) -> Result<Gray, String> {
    let tree = read(svg, dpi, fonts)?;
    let size = tree.size();
    let (width, height) = (size.width() as u32, size.height() as u32);
    let pixmap = Pixmap::new(width, height);
    let mut pixmap = pixmap.ok_or_else(|| format!("{width} x {height} pixels are no picture"))?;
    pixmap.fill(Color::WHITE);
    resvg::render(&tree, Transform::identity(), &mut pixmap.as_mut());
    let top = f64::from(size.height()) * 25.4 / f64::from(dpi);
    Ok(Gray::from_rgba(width as usize, dpi, top, pixmap.data()))
}

/// Width and height of an SVG in pixels, so many an inch.
///
/// # Errors
///
/// A sentence if the text is no SVG or has no size.
pub fn svg_size(svg: &str, dpi: u32) -> Result<Size, String> {
    let size = read(svg, dpi, &[])?.size();
    Ok(Size::new(size.width().into(), size.height().into()))
}

fn read(svg: &str, dpi: u32, fonts: &[&[u8]]) -> Result<Tree, String> {
    let mut options = Options {
        dpi: dpi as f32,
        ..Options::default()
    };
    for font in fonts {
        options.fontdb_mut().load_font_data(font.to_vec());
    }
    Tree::from_str(svg, &options).map_err(|error| error.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assert_near;
    use kurbo::Point;

    const FONT: &[u8] = include_bytes!("../../../assets/fonts/Inter-Regular.ttf");

    fn svg(body: &str) -> String {
        format!(
            "<svg xmlns='http://www.w3.org/2000/svg' width='30mm' height='20mm' viewBox='0 0 30 20'>{body}</svg>"
        )
    }

    #[test]
    fn a_circle_is_where_the_file_says() {
        let file =
            svg("<circle cx='10' cy='5' r='3' fill='none' stroke='#000' stroke-width='.2'/>");
        let found = svg_raster(&file, 600, &[]).unwrap().round_blobs();
        let [(center, diameter)] = found[..] else {
            panic!("{found:?}")
        };
        assert_near!(center, Point::new(10.0, 15.0), 0.02);
        assert_near!(diameter, 6.0, 0.02);
    }

    #[test]
    fn words_need_their_typeface() {
        let file = svg("<text x='2' y='10' font-family='Inter' font-size='5'>88</text>");
        let with = svg_raster(&file, 300, &[FONT]).unwrap().area();
        assert!(with > 2.0, "{with} mm² of ink");
        assert_near!(svg_raster(&file, 300, &[]).unwrap().area(), 0.0, 0.0);
    }

    #[test]
    fn what_is_no_svg_is_refused() {
        assert!(svg_raster("no svg", 300, &[]).is_err());
    }
}
