//! Work with the printed template: printing it, and punching the blank through it.

use crate::Workpiece;
use crate::grooves::steps::through_template;
use crate::job::{Method, Operation, Task};

/// Printing and, for a drill press, punching; empty for a method that needs no paper.
pub fn operations(workpiece: &Workpiece) -> Vec<Operation> {
    match Method::of(workpiece.board()) {
        Method::Template => vec![print(workpiece), punch(workpiece)],
        Method::Router | Method::SectorJig => vec![print(workpiece)],
        Method::Pivot | Method::Machine => Vec::new(),
    }
}

/// Printing and measuring the template.
///
/// The count is of the sheets of the paper template, as the maker sees them; the sheets for hardboard templates are separate.
fn print(workpiece: &Workpiece) -> Operation {
    let what = match Method::of(workpiece.board()) {
        Method::Router => "the sheets of the router template",
        Method::SectorJig => "the sheets of the one-player jig",
        _ => "the sheets of the template",
    };
    let sheets = workpiece
        .tiling()
        .map(|tiling| tiling.words(workpiece.board().template.paper));
    let print = match (sheets, Method::of(workpiece.board())) {
        (Ok(sheets), Method::Template) => {
            format!("Print {sheets} at 100 %, not fitted to the page.")
        }
        (Err(_), Method::Template) => "Have the template printed on one page at 100 %.".to_owned(),
        _ => format!("Print {what} at 100 %, not fitted to the page."),
    };
    Operation::of(Task::Print)
        .with("printer, steel rule", 20.0)
        .says([
            print,
            "Measure the bars of a sheet both ways; if they are not true, the template is not."
                .into(),
            "Tape the sheets together, cross on cross.".into(),
        ])
}

/// The sentence on turning a template to the wood, by what it shows of it.
pub fn turned_to_wood(workpiece: &Workpiece) -> &'static str {
    if workpiece.seams().is_empty() {
        "Turn the template until its grain arrow runs with the grain."
    } else {
        "Turn the template until its dashed seam lines lie on the seams, or run alongside them, and its grain arrow runs with the grain."
    }
}

/// Punching every center through the paper into the wood.
///
/// A prick mark comes first and a punch mark second, since a prick can still be corrected; common practice, no source. The time
/// is a quarter of a minute for each hole.
fn punch(workpiece: &Workpiece) -> Operation {
    let holes = workpiece.layout().holes.len();
    let center = if workpiece.board().drilled_center().pilot().is_some() {
        "Lay the sheets on the blank, center cross on the pin."
    } else {
        "Lay the sheets on the blank, center cross on its marked center."
    };
    Operation::of(Task::Punch)
        .with("scratch awl or center punch", 10.0 + 0.25 * holes as f64)
        .says([
            center.to_owned(),
            turned_to_wood(workpiece).to_owned(),
            "Tape or glue the sheets down.".into(),
            "Prick every center with the awl, look at it with a lens, then punch it.".into(),
        ])
        .says(through_template(workpiece))
}
