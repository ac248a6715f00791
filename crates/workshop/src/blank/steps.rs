//! From the lumberyard to a blank that is flat and thick enough: resting, sawing, jointing, gluing, planing.

use board::{Build, INCH, Tenons, Units, in_a_row, with_article};

use crate::blank::panel::{panel_width, sawn_width, strip_lengths};
use crate::jig::steps::reach;
use crate::job::{Operation, Task, counted};
use crate::wood::species_of;
use crate::{Caution, Species, Thicknesses, Workpiece, passes};

/// The work on the wood before anything is laid out on it.
pub fn operations(workpiece: &Workpiece) -> Vec<Operation> {
    let build = &workpiece.board().panel.build;
    let mut all = vec![rest(workpiece)];
    if *build == Build::Halves {
        all.push(resaw(workpiece));
    }
    if !matches!(build, Build::Seams { .. }) {
        all.push(rough(workpiece));
    }
    let glued = matches!(build, Build::Halves | Build::Strips { .. });
    if glued && !workpiece.seams().is_empty() {
        all.push(joint(workpiece));
        let tenons = workpiece.board().panel.tenons;
        all.extend(tenons.map(|size| mortises(workpiece, size)));
        all.push(glue(workpiece));
    }
    all.push(flatten(workpiece));
    all.push(thickness(workpiece));
    all
}

/// The wood, by its trade name, resting in the shop.
///
/// A week on stickers is common practice, no source; a moisture meter is better, since thick wood takes longer than thin.
fn rest(workpiece: &Workpiece) -> Operation {
    let board = workpiece.board();
    let species = board.wood.as_ref().map(|wood| {
        let name = species_of(wood).map_or_else(|_| "wood".into(), Species::spoken);
        format!("Choose {name}, {}.", wood.cut.label())
    });
    let rest = "Stack the wood on stickers in the shop until a moisture meter reads the same for several days.";
    Operation {
        sums: &["wood"],
        ..Operation::of(Task::Rest)
    }
    .with("stickers, a moisture meter", 20.0)
    .says(species)
    .says([rest.to_owned()])
    .waiting(7.0 * 24.0, "the wood comes to the moisture of the shop")
}

/// Resawing one slab into two leaves.
///
/// The seam is marked before the saw separates them, so that the leaves are opened about the right edge. Letting the leaves
/// rest for some days afterward is common practice, no source.
fn resaw(workpiece: &Workpiece) -> Operation {
    let at = Thicknesses::of(workpiece.board());
    Operation::of(Task::Resaw)
        .with("band saw with its widest blade, tall fence", 45.0)
        .minding(&[Caution::BandSaw, Caution::Jointer])
        .says([
            "Joint one face and one edge, and mark the edge that will be the seam.".to_owned(),
            format!(
                "Resaw the slab, {} thick, into two leaves of {}: slow feed, a push block behind, no hand beside the blade.",
                workpiece.length(at.bought),
                workpiece.length(at.sawn)
            ),
            "Open the leaves like a book: the faces that the saw has parted are the top, the marked edges meet.".into(),
            "Stack them on stickers, weighted.".into(),
        ])
        .waiting(3.0 * 24.0, "the leaves move as sawing frees their tension")
}

/// Sawing the pieces oversize and flattening one face.
///
/// Both faces are planed equally: wood that loses more on one side than on the other cups, as its core is damper than its
/// surface; common practice, no source.
fn rough(workpiece: &Workpiece) -> Operation {
    let board = workpiece.board();
    let at = Thicknesses::of(board);
    let wide = workpiece.at_least(panel_width(board));
    let sawn = sawn_width(board).map_or_else(String::new, |width| workpiece.at_least(width));
    let (pieces, words) = match &board.panel.build {
        Build::Halves => (
            2,
            format!("Saw both leaves {sawn} wide and {wide} long or longer."),
        ),
        Build::Strips { count } => (
            *count,
            format!(
                "Saw {} {sawn} wide{}.",
                counted(count, "strip", "strips"),
                long(workpiece)
            ),
        ),
        Build::Whole | Build::Seams { .. } => {
            let words = format!("Saw one slab, sound over a circle of {wide}, square around it.");
            return Operation::of(Task::Rough)
                .with("track saw or circular saw", 20.0)
                .minding(&[Caution::HandSaw])
                .says([words]);
        }
    };
    let planed = format!(
        "Joint one face of each flat and plane the other, all to {}, taking as much off one face as off the other. Mark \
         the top faces.",
        workpiece.length(at.glued)
    );
    Operation::of(Task::Rough)
        .with("saw, jointer, planer", 20.0 + 10.0 * f64::from(pieces))
        .minding(&[Caution::TableSaw, Caution::Jointer])
        .says([words, planed])
}

/// The least lengths of the strips, as on the picture of the blank and in the cut list: " and 22" long or longer".
fn long(workpiece: &Workpiece) -> String {
    let lengths = strip_lengths(workpiece.board());
    if let [all] = lengths.as_slice() {
        return format!(" and {} long or longer", workpiece.at_least(all.length));
    }
    let each = lengths.iter().map(|of| {
        let numbers: Vec<String> = of.numbers.iter().map(ToString::to_string).collect();
        let numbers: Vec<&str> = numbers.iter().map(String::as_str).collect();
        let strips = if of.numbers.len() == 1 {
            "strip"
        } else {
            "strips"
        };
        format!(
            "{strips} {} at least {} long",
            in_a_row(&numbers),
            workpiece.at_least(of.length)
        )
    });
    format!(", {}", each.collect::<Vec<_>>().join(", "))
}

/// Jointing the edges straight and square.
///
/// No light may show between them: clamps that have to close a gap leave a joint that opens at its ends; common practice, no
/// source.
fn joint(workpiece: &Workpiece) -> Operation {
    let panel = &workpiece.board().panel;
    let edges = 2 * workpiece.seams().len();
    let words = format!(
        "Joint the edges that meet, {} off each, the grain running with the cut; held to the light no gap shows between \
         them.",
        workpiece.length(panel.joint)
    );
    Operation::of(Task::Joint)
        .with(
            "jointer, or hand plane and straightedge",
            10.0 + 6.0 * edges as f64,
        )
        .minding(&[Caution::Jointer])
        .says([words])
}

/// Mortises in the jointed edges, measured from the face that exists at that step.
///
/// The document measures them from the finished top face, which does not exist yet, so the wood that flattening will remove is
/// added. The bit cuts its full width, as it does around the circle and in a recess, so that here too a pass is no deeper than
/// half its diameter; common practice, no source.
fn mortises(workpiece: &Workpiece, size: Tenons) -> Operation {
    let seams = workpiece.seams().len();
    let length = |mm| workpiece.length(mm);
    let at = Thicknesses::of(workpiece.board());
    let cut = format!(
        "Cut {} in both edges of each seam, {} from middle to middle: {} long, {} deep, {} thick.",
        counted(size.count, "mortise", "mortises"),
        length(size.spacing),
        length(size.length),
        length(size.reach),
        length(size.thickness),
    );
    let below = format!(
        "Guide the tool on the marked top face: {} from it to the near side of the mortise, {} in the finished board and \
         {} that flattening takes off the top.",
        length(at.off_the_top() + size.below_top),
        length(size.below_top),
        length(at.off_the_top()),
    );
    let passes = format!(
        "With {}, which must reach {}, {}, none deeper than half its diameter.",
        with_article(&format!("{} router bit", length(size.thickness))),
        workpiece.at_least(reach(workpiece.units(), size.reach)),
        counted(passes(size.reach, size.thickness / 2.0), "pass", "passes")
    );
    let all = 2.0 * f64::from(size.count) * seams as f64;
    Operation::of(Task::Mortise)
        .with(
            "floating-tenon joiner, or router with a fence",
            15.0 + 3.0 * all,
        )
        .minding(&[Caution::Router, Caution::Mortise])
        .says([cut, below, passes])
}

/// Gluing up the panel in clamps.
///
/// It rests for a warm day before planing: wood glue sets within the hour, but the water it leaves in the wood beside the joint
/// takes longer to dry; common practice, no source.
fn glue(workpiece: &Workpiece) -> Operation {
    let board = workpiece.board();
    let dry =
        "Lay it out dry first, with cauls and clamps, top faces up and the grain all one way.";
    let tenons = board
        .panel
        .tenons
        .map(|_| "Glue the tenons into one edge, then into the other.".to_owned());
    let pressed = "Brush glue on both edges, close the clamps from the middle out, above and below in turn, until a thin \
         bead shows all along. Scrape it off once it is rubbery.";
    let out = format!(
        "Out of the clamps the panel is {} wide and {} thick.",
        workpiece.length(panel_width(board)),
        workpiece.length(Thicknesses::of(board).glued)
    );
    Operation::of(Task::Glue)
        .with(
            "clamps, cauls, wood glue",
            30.0 + 10.0 * workpiece.seams().len() as f64,
        )
        .says([dry.to_owned()])
        .says(tenons)
        .says([pressed.to_owned(), out])
        .waiting(24.0, "the glue sets, and the wood beside it dries again")
}

/// Flattening the top face.
///
/// It comes before the underside, so that the datum mark is on the face that everything is measured from.
fn flatten(workpiece: &Workpiece) -> Operation {
    let board = workpiece.board();
    let at = Thicknesses::of(board);
    let mut work = Vec::new();
    if let Build::Seams { .. } = board.panel.build {
        work.push(glued_already(workpiece));
    }
    work.push(format!(
        "Flatten the top face: {} thick when it is flat, {} taken off.",
        workpiece.length(at.flattened),
        workpiece.length(at.off_the_top())
    ));
    Operation::of(Task::Flatten)
        .with(planing_tool(workpiece), 40.0)
        .minding(&[planing_caution(workpiece)])
        .says(work)
}

/// Buying the panel already glued, with its seams where the pattern assumes them.
fn glued_already(workpiece: &Workpiece) -> String {
    let wide = workpiece.at_least(panel_width(workpiece.board()));
    let seams: Vec<String> = workpiece
        .seams()
        .iter()
        .map(|seam| workpiece.length(*seam))
        .collect();
    if seams.is_empty() {
        return format!("Take a panel at least {wide} wide.");
    }
    format!(
        "Take a panel at least {wide} wide, with its seams at {} above the center pin (negative: below).",
        seams.join(", ")
    )
}

/// Planing the underside down to the thickness of the board.
///
/// The loss to sanding is stated but not included: it is less than a planer can be set to.
fn thickness(workpiece: &Workpiece) -> Operation {
    let sanded = match workpiece.units() {
        Units::Mm => 0.4,
        Units::Inch(_) => INCH / 64.0,
    };
    let words = format!(
        "Turn it over and plane the underside until the board is {} thick; sanding takes up to {} more.",
        workpiece.length(workpiece.board().blank.thickness),
        workpiece.length(sanded)
    );
    Operation::of(Task::Thickness)
        .with(planing_tool(workpiece), 30.0)
        .minding(&[planing_caution(workpiece)])
        .says([words])
}

/// Whether the panel fits the maker's planer.
fn is_planed(workpiece: &Workpiece) -> bool {
    let board = workpiece.board();
    panel_width(board) <= board.panel.planer
}

/// The caution for the tool that planes the panel.
fn planing_caution(workpiece: &Workpiece) -> Caution {
    if is_planed(workpiece) {
        Caution::Jointer
    } else {
        Caution::Router
    }
}

/// The tool that planes a panel of this width.
fn planing_tool(workpiece: &Workpiece) -> &'static str {
    if is_planed(workpiece) {
        "planer"
    } else {
        "flattening sled for the router, or hand planes: it is wider than your planer"
    }
}
