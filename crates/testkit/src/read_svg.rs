//! An SVG as pixels, drawn by a reader independent of the writer.

use kurbo::{Affine, Point, Size, Vec2};
use resvg::tiny_skia::{Color, PathSegment, Pixmap, PremultipliedColorU8, Transform};
use resvg::usvg::{Group, Node, Options, Path, Tree};

use crate::Gray;

/// An SVG as pixels at this many pixels per inch, with its words in the given typefaces (bytes of TrueType files).
///
/// # Errors
///
/// A sentence if the text is not an SVG or has no size.
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

/// The pixels of a square SVG at a size, each as red, green, blue and alpha, from the upper left.
///
/// # Errors
///
/// A sentence if the text is not an SVG or has no size.
pub fn svg_pixels(svg: &str, size: u32) -> Result<Vec<u8>, String> {
    let tree = read(svg, 96, &[])?;
    let mut pixmap = Pixmap::new(size, size).ok_or("no pixels are no picture")?;
    let scale = size as f32 / tree.size().width();
    resvg::render(
        &tree,
        Transform::from_scale(scale, scale),
        &mut pixmap.as_mut(),
    );
    let colors = pixmap.pixels().iter().map(PremultipliedColorU8::demultiply);
    let bytes = colors.flat_map(|color| [color.red(), color.green(), color.blue(), color.alpha()]);
    Ok(bytes.collect())
}

/// Width and height of an SVG in pixels, with this many per inch.
///
/// # Errors
///
/// A sentence if the text is not an SVG or has no size.
pub fn svg_size(svg: &str, dpi: u32) -> Result<Size, String> {
    let size = read(svg, dpi, &[])?.size();
    Ok(Size::new(size.width().into(), size.height().into()))
}

/// Center and radius of every round path of an SVG as a simulated printer prints it, which moves points of the page; all in mm
/// from the lower left corner.
///
/// # Errors
///
/// A sentence if the text is not an SVG or has no size.
pub fn svg_circles(svg: &str, printer: Affine) -> Result<Vec<(Point, f64)>, String> {
    // At this resolution a pixel is a millimeter, and positions keep their digits.
    let per_mm = Affine::scale(25.4);
    let tree = read(svg, 1, &[])?;
    let height = f64::from(tree.size().height());
    let page_from_svg = per_mm * Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, height]);
    let mut circles = Vec::new();
    collect_circles(tree.root(), printer * page_from_svg, &mut circles);
    Ok(circles)
}

fn collect_circles(group: &Group, page_from_svg: Affine, circles: &mut Vec<(Point, f64)>) {
    for node in group.children() {
        match node {
            Node::Group(group) => collect_circles(group, page_from_svg, circles),
            Node::Path(path) => circles.extend(circle_of(path, page_from_svg)),
            _ => {}
        }
    }
}

/// Center and radius of a closed path of curves whose joints are on a circle, to within 0.001 mm.
fn circle_of(path: &Path, page_from_svg: Affine) -> Option<(Point, f64)> {
    let turn = path.abs_transform();
    let [a, b, c, d, e, f] = [turn.sx, turn.ky, turn.kx, turn.sy, turn.tx, turn.ty].map(f64::from);
    let map = page_from_svg * Affine::new([a, b, c, d, e, f]);
    let (mut ends, mut closed) = (Vec::new(), false);
    for segment in path.data().segments() {
        match segment {
            PathSegment::QuadTo(_, end) | PathSegment::CubicTo(_, _, end) => {
                ends.push(map * Point::new(end.x.into(), end.y.into()));
            }
            PathSegment::Close => closed = true,
            PathSegment::MoveTo(_) => {}
            PathSegment::LineTo(_) => return None,
        }
    }
    let third = |share: usize| ends.get(share * ends.len() / 3).copied();
    let center = center_of(third(0)?, third(1)?, third(2)?);
    let radius = ends.first()?.distance(center);
    let is_round = ends
        .iter()
        .all(|end| (end.distance(center) - radius).abs() <= 0.001);
    (closed && is_round && ends.len() >= 4).then_some((center, radius))
}

/// The point equally far from three points; NaN where they are on a line.
fn center_of(a: Point, b: Point, c: Point) -> Point {
    let (to_b, to_c) = (b - a, c - a);
    let (bb, cc) = (to_b.hypot2(), to_c.hypot2());
    let way = Vec2::new(to_c.y * bb - to_b.y * cc, to_b.x * cc - to_c.x * bb);
    a + way / (2.0 * to_b.cross(to_c))
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
    fn a_circle_is_where_the_file_has_it() {
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
    fn a_printed_circle_is_where_the_printer_puts_it() {
        let file = svg("<g transform='scale(2 1)'><circle cx='5' cy='5' r='3' stroke='#000'/></g>");
        assert_eq!(svg_circles(&file, Affine::IDENTITY), Ok(Vec::new()));
        let printer = Affine::scale_non_uniform(0.5, 1.0);
        let [(center, radius)] = svg_circles(&file, printer).unwrap()[..] else {
            panic!("no circle")
        };
        assert_near!(center, Point::new(5.0, 15.0), 1e-4);
        assert_near!(radius, 3.0, 1e-4);
    }

    #[test]
    fn words_need_their_typeface() {
        let file = svg("<text x='2' y='10' font-family='Inter' font-size='5'>88</text>");
        let with = svg_raster(&file, 300, &[FONT]).unwrap().area();
        assert!(with > 2.0, "{with} mm² of ink");
        assert_near!(svg_raster(&file, 300, &[]).unwrap().area(), 0.0, 0.0);
    }

    #[test]
    fn text_that_is_not_an_svg_is_an_error() {
        assert!(svg_raster("no svg", 300, &[]).is_err());
    }
}
