//! The content of a DXF, read by a reader independent of the writer.

use dxf::Drawing;
use dxf::entities::EntityType;
use dxf::enums::{AcadVersion, DrawingUnits, Units};
use kurbo::Point;

/// A DXF, its lengths in its own unit.
#[derive(Debug, Clone)]
pub struct DxfFile {
    /// The text of `$ACADVER`: "AC1009", or another release's name for itself.
    pub release: String,
    /// The number of `$INSUNITS`: 0 none, 1 inch, 4 millimeter.
    pub units: u8,
    /// Whether `$MEASUREMENT` says metric.
    pub metric: bool,
    /// Names of the layers that the file declares.
    pub layers: Vec<String>,
    /// The shapes, in the order of the file.
    pub shapes: Vec<DxfShape>,
}

/// Something drawn, and its layer.
#[derive(Debug, Clone, PartialEq)]
pub struct DxfShape {
    /// The layer's name.
    pub layer: String,
    /// The name of its line type, "BYLAYER" if it has none of its own.
    pub line_type: String,
    /// The kind of shape.
    pub kind: DxfKind,
}

/// The kind of a shape, with its measures.
#[derive(Debug, Clone, PartialEq)]
pub enum DxfKind {
    /// A full circle.
    Circle {
        /// Its center.
        center: Point,
        /// Its radius.
        radius: f64,
    },
    /// Part of a circle, counterclockwise.
    Arc {
        /// Center of the circle.
        center: Point,
        /// Radius of the circle.
        radius: f64,
        /// Its start, degrees counterclockwise from 3 o'clock.
        from: f64,
        /// Its end, in the same way.
        to: f64,
    },
    /// A straight line between two points.
    Line(Point, Point),
    /// Words.
    Words {
        /// The start of the first letter.
        start: Point,
        /// Height of capitals.
        height: f64,
        /// The words as the file has them.
        words: String,
    },
}

impl DxfFile {
    /// Reads a DXF.
    ///
    /// # Errors
    ///
    /// A sentence if the reader finds a fault, or a kind of entity that our drawings do not contain.
    pub fn read(bytes: &[u8]) -> Result<Self, String> {
        let drawing = Drawing::load(&mut &*bytes).map_err(|error| error.to_string())?;
        let shapes = drawing.entities().map(|entity| {
            Ok(DxfShape {
                layer: entity.common.layer.clone(),
                line_type: entity.common.line_type_name.clone(),
                kind: kind(&entity.specific)?,
            })
        });
        Ok(Self {
            release: release(drawing.header.version).to_owned(),
            units: units(drawing.header.default_drawing_units),
            metric: drawing.header.drawing_units == DrawingUnits::Metric,
            layers: drawing.layers().map(|layer| layer.name.clone()).collect(),
            shapes: shapes.collect::<Result<_, String>>()?,
        })
    }

    /// Centers and radii of the circles on a layer.
    pub fn circles(&self, layer: &str) -> Vec<(Point, f64)> {
        let on_layer = self.shapes.iter().filter(|shape| shape.layer == layer);
        let circles = on_layer.filter_map(|shape| match shape.kind {
            DxfKind::Circle { center, radius } => Some((center, radius)),
            _ => None,
        });
        circles.collect()
    }
}

fn kind(entity: &EntityType) -> Result<DxfKind, String> {
    match entity {
        EntityType::Circle(circle) => Ok(DxfKind::Circle {
            center: flat(&circle.center),
            radius: circle.radius,
        }),
        EntityType::Arc(arc) => Ok(DxfKind::Arc {
            center: flat(&arc.center),
            radius: arc.radius,
            from: arc.start_angle,
            to: arc.end_angle,
        }),
        EntityType::Line(line) => Ok(DxfKind::Line(flat(&line.p1), flat(&line.p2))),
        EntityType::Text(text) => Ok(DxfKind::Words {
            start: flat(&text.location),
            height: text.text_height,
            words: text.value.clone(),
        }),
        other => Err(format!("{other:?} is of no kind that is drawn here")),
    }
}

fn flat(point: &dxf::Point) -> Point {
    Point::new(point.x, point.y)
}

const fn release(version: AcadVersion) -> &'static str {
    match version {
        AcadVersion::R12 => "AC1009",
        AcadVersion::R2000 => "AC1015",
        _ => "another release",
    }
}

const fn units(units: Units) -> u8 {
    match units {
        Units::Unitless => 0,
        Units::Inches => 1,
        Units::Millimeters => 4,
        _ => u8::MAX,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const CIRCLE: &str = "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n8\nTRACK\n10\n100.0\n20\n-2.5\n30\n0.0\n40\n6.35\n0\nENDSEC\n0\nEOF\n";

    #[test]
    fn a_circle_is_where_the_file_has_it() {
        let file = DxfFile::read(CIRCLE.as_bytes()).unwrap();
        assert_eq!(file.circles("TRACK"), [(Point::new(100.0, -2.5), 6.35)]);
        assert_eq!(file.circles("HOME"), []);
        assert_eq!(file.units, 0);
    }

    #[test]
    fn an_entity_that_our_drawings_lack_is_reported() {
        let file = CIRCLE.replace("CIRCLE", "ELLIPSE");
        assert!(DxfFile::read(file.as_bytes()).is_err());
    }

    #[test]
    fn text_that_is_not_a_dxf_is_an_error() {
        assert!(DxfFile::read(b"no drawing").is_err());
    }
}
