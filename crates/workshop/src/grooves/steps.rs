//! The steps of the grooves.

use board::show_number;

use crate::Workpiece;
use crate::job::{Step, counted};
use crate::{Caution, groove_depth, passes};

/// V-grooves in the top face.
pub fn grooves(workpiece: &Workpiece) -> Option<Step> {
    let wanted = workpiece.board().grooves?;
    let depth = groove_depth(&wanted);
    let passes = counted(passes(depth, wanted.pass), "pass", "passes");
    let work = vec![
        format!(
            "V bit of {}°: grooves {} wide are {} deep, in {passes}; try it on scrap.",
            show_number(wanted.angle, 2),
            workpiece.length(wanted.width),
            workpiece.length((depth * 1000.0).round() / 1000.0),
        ),
        "Stop each line short of its bores, as the template shows.".into(),
    ];
    Some(Step {
        title: "Grooves",
        cautions: vec![Caution::Router],
        work,
        sums: &["grooves"],
    })
}
