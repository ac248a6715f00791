//! The paper template.

use crate::Quantity::Length;
use crate::field::Kind::{Choice, Number, Tick, Ticked};
use crate::{DxfRelease, Marking, Paper, Range, SheetLayout};

/// Sides of paper, from a card to a roll.
const SIDE: Range = Length.of(30.0, 5000.0);

fields! {
    /// The paper template, as drawn and printed.
    TEMPLATE_FIELDS:
    PAPER "template.paper", [.template.paper] "Paper", Choice, "", us: "letter", of shop;
    PAPER_WIDTH "template.paper.custom.width_mm", [.template.paper {Paper::Custom => width}] "Paper width", Number(SIDE), "", us: "8 1/2", of shop;
    PAPER_HEIGHT "template.paper.custom.height_mm", [.template.paper {Paper::Custom => height}] "Paper height",
        Number(SIDE), "", us: "11", of shop;
    MARGIN "template.margin_mm", [.template.margin] "Printer margin", Number(Length.of(0.0, 100.0)),
        "The border that your printer leaves white", us: "3/8", of shop;
    OVERLAP "template.overlap_mm", [.template.overlap] "Overlap", Number(Length.of(0.0, 100.0)),
        "What neighboring sheets share; {10 mm|3/8\"} is usual, and crosses need {5 mm} (common practice, no source)", us: "3/8", of shop;
    SHEET_LAYOUT "template.layout", [.template.layout] "Sheet layout", Choice,
        "Fewest sheets may leave slivers of the edge off; widest clearance keeps joints as far from hole centers as possible";
    MARKING "template.marking", [.template.marking] "Marks", Choice, "";
    HOLE_NAMES "template.names", [.template.names] "Print hole names", Tick, "";
    ROLL "template.roll_mm", [.template.roll] "Width of the roll", Ticked(Length.of(100.0, 5000.0), 700.0),
        "The print shop's roll, for the whole board on one sheet; without it, the sheet is cut to size", us: "36";
    DXF_RELEASE "template.dxf", [.template.dxf] "DXF release", Choice,
        "A program that reads R2000 finds the unit in the file; R12 is for machines that read nothing newer";
}

kinds! {
    Paper:
    "A4" => A4,
    "A3" => A3,
    "Letter" => Letter,
    "Legal" => Legal,
    "Tabloid" => Tabloid,
    "custom paper" => Custom { width: 210.0, height: 297.0 },
}
plain!(DxfRelease, Marking, SheetLayout);
