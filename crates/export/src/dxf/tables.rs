//! Layers and line types, and the other tables that R2000 requires.

use std::collections::BTreeSet;

use board::DxfRelease;
use drawing::{Item, Layer, Line, Shape, Sheet};

use super::tags::Tags;
use super::{extent, parts};

/// The handle of the block that the whole drawing belongs to.
pub const MODEL_SPACE: &str = "1F";
/// The handle of the empty block for paper.
const PAPER_SPACE: &str = "1B";
/// The only text style.
pub const STYLE: &str = "STANDARD";

/// A layer of the file: parts that are drilled or cut are on other layers than guides.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct FileLayer {
    layer: Layer,
    part: Part,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
/// The three parts of a layer: the work, the crosses to punch, and lines for orientation.
enum Part {
    Main,
    Cross,
    Guide,
}

impl FileLayer {
    /// Its name in upper case letters and hyphens, which is all that R12 allows.
    pub fn name(self) -> String {
        let end = match self.part {
            Part::Main => "",
            Part::Cross => "-CROSS",
            Part::Guide => "-GUIDE",
        };
        self.layer.id().to_ascii_uppercase() + end
    }

    /// One of the numbered colors that every reader knows: red for the center pin, green, cyan and magenta for holes off the
    /// track, blue for grooves, gray for guides, and otherwise the color that shows on any background.
    const fn color(self) -> &'static str {
        match (self.part, self.layer) {
            (Part::Guide, _) | (_, Layer::Guides | Layer::Seams | Layer::Names | Layer::Marks) => {
                "8"
            }
            (_, Layer::Center) => "1",
            (_, Layer::Home) => "3",
            (_, Layer::Start) => "4",
            (_, Layer::Grooves) => "5",
            (_, Layer::Extra) => "6",
            (_, Layer::Edge | Layer::Track | Layer::Title) => "7",
        }
    }
}

/// The layer that an item goes to.
pub fn layer_of(item: &Item) -> FileLayer {
    let layer = item.layer;
    let part = match (&item.shape, item.line) {
        _ if matches!(layer, Layer::Marks | Layer::Guides) => Part::Main,
        (Shape::Cross { .. }, _) => Part::Cross,
        (_, Line::Guide) => Part::Guide,
        _ => Part::Main,
    };
    FileLayer { layer, part }
}

/// The name of a line's type; none for a solid line.
pub const fn line_type(line: Line) -> Option<&'static str> {
    match line {
        Line::Hidden => Some("HIDDEN"),
        Line::Guide => Some("GUIDE"),
        Line::Cut | Line::Groove | Line::Drill | Line::Dimension => None,
    }
}

/// The section TABLES.
pub fn tables(tags: &mut Tags, sheet: &Sheet) {
    if tags.options().release == DxfRelease::R2000 {
        table(tags, "VPORT", "8", 1);
        viewport(tags, sheet);
        tags.text(0, "ENDTAB");
    }
    line_types(tags);
    layers(tags, sheet);
    table(tags, "STYLE", "3", 1);
    style(tags);
    tags.text(0, "ENDTAB");
    if tags.options().release == DxfRelease::R2000 {
        other_tables(tags);
    }
}

/// The head of a table with this many entries.
fn table(tags: &mut Tags, name: &str, handle: &str, count: usize) {
    tags.text(0, "TABLE");
    tags.text(2, name);
    tags.since_2000(5, handle);
    tags.since_2000(330, "0");
    tags.since_2000(100, "AcDbSymbolTable");
    tags.text(70, &count.to_string());
}

/// Writes the tags that every entry of a table begins with; `owner` is the table's handle.
fn entry(tags: &mut Tags, kind: &str, handle: &str, owner: &str, class: &str) {
    tags.text(0, kind);
    // From memory: only a dimension style has its handle under another code.
    tags.since_2000(if kind == "DIMSTYLE" { 105 } else { 5 }, handle);
    tags.since_2000(330, owner);
    tags.since_2000(100, "AcDbSymbolTableRecord");
    tags.since_2000(100, class);
}

/// A view from above that shows the whole drawing.
fn viewport(tags: &mut Tags, sheet: &Sheet) {
    let extent = extent(sheet);
    entry(tags, "VPORT", "29", "8", "AcDbViewportTableRecord");
    tags.text(2, "*ACTIVE");
    tags.text(70, "0");
    let pair = |tags: &mut Tags, code, x, y| {
        tags.plain(code, x);
        tags.plain(code + 10, y);
    };
    pair(tags, 10, 0.0, 0.0);
    pair(tags, 11, 1.0, 1.0);
    tags.length(12, extent.center().x);
    tags.length(22, extent.center().y);
    for (code, value) in [(13, 0.0), (14, 1.0), (15, 1.0)] {
        pair(tags, code, value, value);
    }
    pair(tags, 16, 0.0, 0.0);
    tags.plain(36, 1.0);
    pair(tags, 17, 0.0, 0.0);
    tags.plain(37, 0.0);
    tags.length(40, extent.height().max(1.0) * 1.05);
    tags.plain(41, 1.5);
    tags.plain(42, 50.0);
}

/// The line types in use. R2000 requires the two named "as the block" and "as the layer" (from memory).
fn line_types(tags: &mut Tags) {
    let dashed = [Line::Hidden, Line::Guide];
    let plain: &[(&str, &str)] = match tags.options().release {
        DxfRelease::R12 => &[("CONTINUOUS", "16")],
        DxfRelease::R2000 => &[("BYBLOCK", "14"), ("BYLAYER", "15"), ("CONTINUOUS", "16")],
    };
    table(tags, "LTYPE", "5", plain.len() + dashed.len());
    for (name, handle) in plain {
        line_type_entry(tags, name, handle, &[]);
    }
    for (line, handle) in dashed.into_iter().zip(["17", "18"]) {
        if let Some(name) = line_type(line) {
            line_type_entry(tags, name, handle, line.dashes());
        }
    }
    tags.text(0, "ENDTAB");
}

/// Dashes are positive, gaps negative.
fn line_type_entry(tags: &mut Tags, name: &str, handle: &str, dashes: &[f64]) {
    entry(tags, "LTYPE", handle, "5", "AcDbLinetypeTableRecord");
    tags.text(2, name);
    tags.text(70, "0");
    tags.text(3, "");
    // The letter A: the pattern is fitted to the line.
    tags.text(72, "65");
    tags.text(73, &dashes.len().to_string());
    tags.length(40, dashes.iter().sum());
    for (at, &dash) in dashes.iter().enumerate() {
        tags.length(49, if at % 2 == 0 { dash } else { -dash });
        tags.since_2000(74, "0");
    }
}

/// Layer 0, which is required, and the layers in use.
fn layers(tags: &mut Tags, sheet: &Sheet) {
    let used: BTreeSet<_> = parts(sheet).map(|(item, _)| layer_of(item)).collect();
    table(tags, "LAYER", "2", used.len() + 1);
    layer(tags, "0", "10", "7");
    for (at, used) in used.into_iter().enumerate() {
        let handle = format!("{:X}", 0x30 + at);
        layer(tags, &used.name(), &handle, used.color());
    }
    tags.text(0, "ENDTAB");
}

/// A layer that is visible and editable, with solid lines unless an entity specifies another type.
fn layer(tags: &mut Tags, name: &str, handle: &str, color: &str) {
    entry(tags, "LAYER", handle, "2", "AcDbLayerTableRecord");
    tags.text(2, name);
    tags.text(70, "0");
    tags.text(62, color);
    tags.text(6, "CONTINUOUS");
}

/// Letters in the reader's own font; heights come with each text.
fn style(tags: &mut Tags) {
    entry(tags, "STYLE", "11", "3", "AcDbTextStyleTableRecord");
    tags.text(2, STYLE);
    tags.text(70, "0");
    tags.plain(40, 0.0);
    tags.plain(41, 1.0);
    tags.plain(50, 0.0);
    tags.text(71, "0");
    tags.plain(42, 1.0);
    tags.text(3, "txt");
    tags.text(4, "");
}

/// The tables that R2000 requires and that are empty here.
fn other_tables(tags: &mut Tags) {
    for (name, handle) in [("VIEW", "6"), ("UCS", "7")] {
        table(tags, name, handle, 0);
        tags.text(0, "ENDTAB");
    }
    table(tags, "APPID", "9", 1);
    entry(tags, "APPID", "12", "9", "AcDbRegAppTableRecord");
    tags.text(2, "ACAD");
    tags.text(70, "0");
    tags.text(0, "ENDTAB");

    table(tags, "DIMSTYLE", "A", 1);
    tags.text(100, "AcDbDimStyleTable");
    tags.text(71, "0");
    entry(tags, "DIMSTYLE", "27", "A", "AcDbDimStyleTableRecord");
    tags.text(2, "STANDARD");
    tags.text(70, "0");
    tags.text(0, "ENDTAB");

    table(tags, "BLOCK_RECORD", "1", SPACES.len());
    for (name, record, _, _) in SPACES {
        entry(tags, "BLOCK_RECORD", record, "1", "AcDbBlockTableRecord");
        tags.text(2, name);
    }
    tags.text(0, "ENDTAB");
}

/// The two blocks of every drawing: name, record, begin and end.
const SPACES: [(&str, &str, &str, &str); 2] = [
    ("*MODEL_SPACE", MODEL_SPACE, "20", "21"),
    ("*PAPER_SPACE", PAPER_SPACE, "1C", "1D"),
];

/// The section BLOCKS of R2000.
pub fn blocks(tags: &mut Tags) {
    for (name, record, begin, end) in SPACES {
        let begin_entity = |tags: &mut Tags, kind, handle| {
            tags.text(0, kind);
            tags.text(5, handle);
            tags.text(330, record);
            tags.text(100, "AcDbEntity");
            if record == PAPER_SPACE {
                tags.text(67, "1");
            }
            tags.text(8, "0");
        };
        begin_entity(tags, "BLOCK", begin);
        tags.text(100, "AcDbBlockBegin");
        tags.text(2, name);
        tags.text(70, "0");
        for code in [10, 20, 30] {
            tags.plain(code, 0.0);
        }
        tags.text(3, name);
        tags.text(1, "");
        begin_entity(tags, "ENDBLK", end);
        tags.text(100, "AcDbBlockEnd");
    }
}

/// The section OBJECTS of R2000: the root dictionary with its one required entry.
pub fn objects(tags: &mut Tags) {
    let dictionary = |tags: &mut Tags, handle, owner| {
        tags.text(0, "DICTIONARY");
        tags.text(5, handle);
        tags.text(330, owner);
        tags.text(100, "AcDbDictionary");
        tags.text(281, "1");
    };
    dictionary(tags, "C", "0");
    tags.text(3, "ACAD_GROUP");
    tags.text(350, "D");
    dictionary(tags, "D", "C");
}
