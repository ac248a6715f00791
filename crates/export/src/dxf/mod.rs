//! A sheet as DXF: circles as CIRCLE, one layer for each kind of thing in the drawing, the unit stated.
//!
//! Coordinates are those of the board, not of the paper: the center pin is the origin, y up, so that a machine set up on the
//! pin needs no shift. The bars and title of the sheet are on separate layers: measuring a bar after import shows whether the
//! unit was understood. The writer is our own, because both releases need only a few tags in a fixed order, and libraries for
//! DXF write handles that change from run to run.

mod entities;
mod tables;
mod tags;
mod words;

use board::{DxfRelease, Units};
use drawing::{Item, Sheet};
use kurbo::{Rect, Vec2};

use crate::{Error, check};
use entities::Entities;
use tags::Tags;

/// Options of a DXF.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct DxfOptions {
    /// The unit of every coordinate.
    pub units: Units,
    /// The DXF release, which determines which programs can read the file.
    pub release: DxfRelease,
}

/// A DXF of one sheet, in ASCII: the board's parts and the sheet's marks in the frame of the board, so that the center pin
/// is at 0, 0. Lengths are in [`DxfOptions::units`], with nine decimals.
///
/// Drilling, cuts, grooves and lines that are only shown have separate layers, named after [`drawing::Layer`] in capitals.
///
/// Bores are circles only if the plan on the sheet outlines them: for a machine, use a sheet of a board whose
/// `template.marking` is not `Crosses`.
///
/// ```
/// use drawing::{Item, Layer, Line, Shape, Sheet, View};
/// use export::{DxfOptions, dxf};
/// use geometry::{Circle, Point, Vec2};
/// use kurbo::Size;
///
/// let size = Size::new(100.0, 60.0);
/// let bore = Item {
///     layer: Layer::Home,
///     line: Line::Drill,
///     shape: Shape::Circle(Circle::new(Point::new(0.0, 25.4), 6.35)),
/// };
/// let sheet = Sheet {
///     size,
///     label: String::new(),
///     view: View {
///         window: size.to_rect(),
///         page_from_board: Vec2::new(50.0, 30.0),
///         tints: Vec::new(),
///         items: vec![bore],
///     },
///     marks: Vec::new(),
///     correction: None,
/// };
/// let options = DxfOptions {
///     units: board::Units::INCH,
///     ..DxfOptions::default()
/// };
/// let file = dxf(&sheet, options)?;
/// // Center and radius of the bore, in inches.
/// assert!(file.contains(" 10\n0.000000000\n 20\n1.000000000\n 30\n"));
/// assert!(file.contains(" 40\n0.250000000\n"));
/// # Ok::<(), export::Error>(())
/// ```
///
/// # Errors
///
/// An [`Error`] for a sheet whose size is not possible for a page, or with a part that is not a number.
pub fn dxf(sheet: &Sheet, options: DxfOptions) -> Result<String, Error> {
    check::sheet(sheet)?;
    let mut entities = Entities::new(options);
    for (item, shift) in parts(sheet) {
        entities.item(item, shift);
    }
    let mut body = Tags::new(options);
    body.section("TABLES", |tags| tables::tables(tags, sheet));
    if options.release == DxfRelease::R2000 {
        body.section("BLOCKS", tables::blocks);
    }
    body.section("ENTITIES", |tags| tags.append(&entities.tags));
    if options.release == DxfRelease::R2000 {
        body.section("OBJECTS", tables::objects);
    }
    body.text(0, "EOF");

    // The header names the first free handle, which is known only at the end.
    let mut file = Tags::new(options);
    header(&mut file, sheet, &entities.tags);
    file.append(&body);
    file.into_text()
}

/// Everything on the sheet, with the shift into the frame of the board.
fn parts(sheet: &Sheet) -> impl Iterator<Item = (&Item, Vec2)> {
    let board = sheet.view.items.iter().map(|item| (item, Vec2::ZERO));
    let from_page = -sheet.view.page_from_board;
    board.chain(sheet.marks.iter().map(move |item| (item, from_page)))
}

/// The box around everything on the sheet.
fn extent(sheet: &Sheet) -> Rect {
    parts(sheet)
        .map(|(item, shift)| item.shape.bounds() + shift)
        .reduce(|all, part| all.union(part))
        .unwrap_or_default()
}

/// The comment with unit and origin, and the variables of the header. R12 has no variable for the unit (`$INSUNITS` came
/// later); there the comment and the bars on the sheet state it.
fn header(tags: &mut Tags, sheet: &Sheet, entities: &Tags) {
    let UnitWords { unit, metric, code } = UnitWords::of(tags.options().units);
    tags.text(
        999,
        &format!("Full size. Unit: {unit}. Origin: center pin."),
    );
    let release = tags.options().release;
    tags.section("HEADER", |tags| {
        match release {
            DxfRelease::R12 => tags.variable("$ACADVER", 1, "AC1009"),
            DxfRelease::R2000 => {
                tags.variable("$ACADVER", 1, "AC1015");
                tags.variable("$DWGCODEPAGE", 3, "ANSI_1252");
                tags.variable("$HANDSEED", 5, &entities.free_handle());
                tags.variable("$INSUNITS", 70, code);
            }
        }
        tags.variable("$MEASUREMENT", 70, metric);
        let extent = extent(sheet);
        tags.text(9, "$EXTMIN");
        tags.point(10, extent.origin());
        tags.text(9, "$EXTMAX");
        tags.point(10, (extent.x1, extent.y1).into());
    });
    if release == DxfRelease::R2000 {
        tags.section("CLASSES", |_| ());
    }
}

/// The header's words for a unit: its name, `$MEASUREMENT`, `$INSUNITS`.
struct UnitWords {
    unit: &'static str,
    metric: &'static str,
    code: &'static str,
}

impl UnitWords {
    /// The words for a unit of the file; the numbers are those of the reference (`docs/formats/dxf.md`).
    const fn of(units: Units) -> Self {
        match units {
            Units::Mm => Self {
                unit: "millimeter",
                metric: "1",
                code: "4",
            },
            Units::Inch(_) => Self {
                unit: "inch",
                metric: "0",
                code: "1",
            },
        }
    }
}
