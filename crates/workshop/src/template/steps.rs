//! The steps of the printed template.

use crate::Workpiece;
use crate::job::Step;

/// Printing, measuring and laying the template on.
pub fn template(workpiece: &Workpiece) -> Step {
    let sheets = workpiece
        .tiling()
        .map(|tiling| tiling.words(workpiece.board().template.paper));
    let print = sheets.map_or_else(
        |_| "Have the template printed on one page at 100 %.".to_owned(),
        |sheets| format!("Print {sheets} at 100 %, not fitted to the page."),
    );
    let work = vec![
        print,
        "Measure the bars of a sheet both ways; if they are not true, the template is not.".into(),
        "Tape the sheets together, cross on cross, and lay them on the blank, center cross on the pin."
            .into(),
        "Punch every center, the center pin too.".into(),
    ];
    Step {
        title: "Template",
        cautions: Vec::new(),
        work,
        sums: &[],
    }
}
