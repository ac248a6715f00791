//! Choosing, joining and planing the wood.

use board::{Build, Tenons};

use crate::Caution;
use crate::Workpiece;
use crate::blank::panel::{panel_width, sawn_width};
use crate::job::{Step, counted};
use crate::wood::species_of;

/// From the rough wood to a blank that is flat and thick enough.
pub fn blank(workpiece: &Workpiece) -> Step {
    let mut work: Vec<String> = vec![species(workpiece), joined(workpiece)];
    work.extend(
        workpiece
            .board()
            .panel
            .tenons
            .and_then(|size| mortises(workpiece, size)),
    );
    work.push(format!(
        "Plane or sand it flat, to {} thick.",
        workpiece.length(workpiece.board().blank.thickness)
    ));
    Step {
        title: "Blank",
        cautions: vec![Caution::TableSaw, Caution::Dust, Caution::Noise],
        work,
        sums: &["wood"],
    }
}

/// The wood, as it is asked for in a yard.
fn species(workpiece: &Workpiece) -> String {
    let wood = workpiece.board().wood.as_ref();
    let Some(wood) = wood else {
        return "Let the wood come to the moisture of the shop before it is cut.".into();
    };
    let name = species_of(wood).map_or("wood", |species| species.name);
    format!(
        "Choose {name}, {}, and let it come to the moisture of the shop.",
        wood.cut.label()
    )
}

/// How the panel is glued up, with the widths that its pieces are sawn to.
fn joined(workpiece: &Workpiece) -> String {
    let board = workpiece.board();
    let wide = workpiece.length(panel_width(board));
    let sawn = sawn_width(board).map_or_else(String::new, |width| workpiece.length(width));
    match &board.panel.build {
        Build::Whole => format!("One slab, sound over a circle of {wide}."),
        Build::Halves => format!(
            "Saw two halves {sawn} wide, joint the edges that meet, and glue them along the grain."
        ),
        Build::Strips { count } => format!(
            "Saw {count} strips {sawn} wide, joint their edges, and glue them along the grain."
        ),
        Build::Seams { .. } => {
            let at: Vec<String> = workpiece
                .seams()
                .iter()
                .map(|seam| workpiece.length(*seam))
                .collect();
            format!(
                "Glue the panel at least {wide} wide, with its seams at {} above the center pin (negative: below).",
                at.join(", ")
            )
        }
    }
}

/// The mortises to cut, and where along the seams; none without tenons.
fn mortises(workpiece: &Workpiece, size: Tenons) -> Option<String> {
    let seams = workpiece.seams().len();
    (seams > 0).then(|| {
        format!(
            "Before gluing, cut {} along each seam, {} from middle to middle: {} long, {} deep, {} thick, {} \
             below the top.",
            counted(size.count, "mortise", "mortises"),
            workpiece.length(size.spacing),
            workpiece.length(size.length),
            workpiece.length(size.reach),
            workpiece.length(size.thickness),
            workpiece.length(size.below_top),
        )
    })
}
