//! Rule: tenons, their mortises and screws fit in the wood around them.

use board::{Board, Measure, counted, show_length};
use geometry::Circle;

use crate::Workpiece;
use crate::blank::panel::{EdgePlace, ScrewPlace, piece_width};
use crate::check::{Finding, HAIR, Rule, Severity};

pub const STATEMENT: &str = "A mortise has wood above and below it, overlaps no other, and is not opened when the \
     circle is cut. A screw from below leaves the set amount of wood to the top face, to the edge and to the next \
     screw, and stays off glue lines. Common practice, no source.";

/// Every finding about the tenons of the panel and the screws in the underside.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let board = workpiece.board();
    let mut findings = mortises(workpiece);
    findings.extend(screws_through(board));
    findings.extend(screws_in_seams(workpiece));
    findings.extend(screws_beside(board));
    findings.extend(screws_together(workpiece));
    findings.extend(screws_at_edge(board));
    findings
}

/// Screws that break through the top face or leave too little wood below it.
fn screws_through(board: &Board) -> Option<Finding> {
    let deepest = board
        .screws
        .iter()
        .map(|ring| ring.depth)
        .max_by(f64::total_cmp)?;
    let thickness = board.blank.thickness;
    let (left, wanted) = (thickness - deepest, board.limits.floor);
    if left >= wanted - HAIR {
        return None;
    }
    let length = |mm| Measure::mm(mm).shown(board.units);
    let (severity, message) = if left <= 0.0 {
        let message = format!(
            "Screws {} deep come out through the top of a board {} thick. Use shorter screws.",
            length(deepest),
            length(thickness)
        );
        (Severity::Stop, message)
    } else {
        let message = format!(
            "The screw tips end {} below the top face; the limit is {}. Use shorter screws.",
            length(left),
            length(wanted)
        );
        (Severity::Caution, message)
    };
    let finding = Finding::new(severity, Rule::Joinery, message);
    Some(finding.measuring(Measure::mm(left), Measure::mm(wanted)))
}

/// Screws in a glue line, which they would split open.
fn screws_in_seams(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    let away = |screw: &ScrewPlace| {
        let seams = workpiece.seams().iter();
        let away = seams.map(|seam| (screw.circle.center.y - seam).abs() - screw.circle.radius);
        away.min_by(f64::total_cmp)
    };
    let near: Vec<f64> = workpiece
        .screws()
        .iter()
        .filter_map(away)
        .filter(|away| *away < board.limits.seam - HAIR)
        .collect();
    let least = near.iter().copied().min_by(f64::total_cmp)?;
    let message = format!(
        "{} in a glue line or beside one, where the wood splits. Turn the circle of screws.",
        counted(near.len(), "screw is", "screws are")
    );
    let finding = Finding::new(Severity::Caution, Rule::Joinery, message);
    Some(finding.measuring(Measure::mm(least), Measure::mm(board.limits.seam)))
}

/// Screws on a circle so wide that they miss the board.
fn screws_beside(board: &Board) -> Option<Finding> {
    let out = |ring: &&board::ScrewCircle| ring.circle + ring.diameter > board.blank.diameter;
    let widest = board
        .screws
        .iter()
        .filter(out)
        .map(|ring| ring.circle)
        .max_by(f64::total_cmp)?;
    let length = |mm| Measure::mm(mm).shown(board.units);
    let message = format!(
        "Screws on a circle of {} miss the board, which is {} across. Use a smaller circle.",
        length(widest),
        length(board.blank.diameter)
    );
    Some(
        Finding::new(Severity::Stop, Rule::Joinery, message)
            .measuring(Measure::mm(widest), Measure::mm(board.blank.diameter)),
    )
}

/// Two screws that meet, or leave less wood between them than the least inside the board.
fn screws_together(workpiece: &Workpiece) -> Option<Finding> {
    let board = workpiece.board();
    let circles: Vec<Circle> = workpiece
        .screws()
        .iter()
        .map(|screw| screw.circle)
        .collect();
    let wood = geometry::smallest_web(&circles)?.mm;
    let wanted = board.limits.inside;
    if wood >= wanted - HAIR {
        return None;
    }
    let (severity, message) = if wood <= HAIR {
        let words = "Two screws in the underside overlap. Use fewer of them, or a larger circle.";
        (Severity::Stop, words.into())
    } else {
        let [wood, limit] = [wood, wanted].map(|mm| Measure::mm(mm).shown(board.units));
        (
            Severity::Caution,
            format!(
                "Two screws in the underside leave {wood} of wood between them; the limit is {limit}. Use fewer of them, or \
                 a larger circle."
            ),
        )
    };
    let finding = Finding::new(severity, Rule::Joinery, message);
    Some(finding.measuring(Measure::mm(wood), Measure::mm(wanted)))
}

/// Screws with too little wood between them and the board's edge.
fn screws_at_edge(board: &Board) -> Option<Finding> {
    let left =
        |ring: &board::ScrewCircle| (board.blank.diameter - ring.circle - ring.diameter) / 2.0;
    let least = board
        .screws
        .iter()
        .map(left)
        .filter(|wood| *wood >= 0.0)
        .min_by(f64::total_cmp)?;
    let wanted = board.limits.inside;
    (least < wanted - HAIR).then(|| {
        let [wood, limit] = [least, wanted].map(|mm| Measure::mm(mm).shown(board.units));
        let message = format!(
            "Screws in the underside leave {wood} of wood to the edge of the board; the limit is {limit}. Use a smaller circle."
        );
        Finding::new(Severity::Caution, Rule::Joinery, message)
            .measuring(Measure::mm(least), Measure::mm(wanted))
    })
}

/// Faulty mortises: thicker than the wood, running into each other, or cut by the board's edge.
fn mortises(workpiece: &Workpiece) -> Vec<Finding> {
    let board = workpiece.board();
    let Some(size) = board.panel.tenons else {
        return Vec::new();
    };
    let places = workpiece.tenons();
    if places.is_empty() {
        return Vec::new();
    }
    let length = |mm| show_length(mm, board.units);
    let mut findings = Vec::new();
    let mut add = |severity, message, is, wanted| {
        let finding = Finding::new(severity, Rule::Joinery, message);
        findings.push(finding.measuring(Measure::mm(is), Measure::mm(wanted)));
    };
    let below = board.blank.thickness - size.below_top - size.thickness;
    if below <= 0.0 || size.below_top <= 0.0 {
        let message = format!(
            "Mortises {} thick that begin {} below the top face do not fit into a board {} thick. Use thinner tenons, or center them.",
            length(size.thickness),
            length(size.below_top),
            length(board.blank.thickness)
        );
        add(Severity::Stop, message, below, 0.0);
    }
    if size.count > 1 && size.spacing <= size.length {
        let message = format!(
            "Mortises {} long overlap at a spacing of {}. Increase the spacing, or use narrower tenons.",
            length(size.length),
            length(size.spacing)
        );
        add(Severity::Stop, message, size.spacing, size.length);
    }
    if let Some(width) = piece_width(board)
        && 2.0 * size.reach >= width
        && workpiece.seams().len() > 1
    {
        let message = format!(
            "Mortises {} deep meet inside strips {} wide. Use shorter tenons or wider strips.",
            length(size.reach),
            length(width)
        );
        add(Severity::Stop, message, width, 2.0 * size.reach);
    }
    findings.extend(opened(workpiece));
    findings
}

/// Mortises that cutting the circle opens.
fn opened(workpiece: &Workpiece) -> Option<Finding> {
    let _board = workpiece.board();
    let places = workpiece.tenons();
    let cut = places
        .iter()
        .filter(|tenon| tenon.place == EdgePlace::Cut)
        .count();
    (cut > 0).then(|| {
        let message = format!(
            "{} opened by the edge of the board. Space the tenons closer together.",
            counted(cut, "mortise is", "mortises are")
        );
        Finding::new(Severity::Caution, Rule::Joinery, message)
            .measuring(Measure::count(cut as u32), Measure::count(0))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Build, Tenons};

    fn with(tenons: Tenons, strips: u32) -> Vec<Severity> {
        let mut board = Board::default();
        board.panel.build = Build::Strips { count: strips };
        board.panel.tenons = Some(tenons);
        check(&Workpiece::of(&board).unwrap())
            .iter()
            .map(|found| found.severity)
            .collect()
    }

    #[test]
    fn screws_stay_in_the_board() {
        let with = |circle, depth| {
            let screws = vec![board::ScrewCircle {
                circle,
                depth,
                ..board::ScrewCircle::default()
            }];
            let board = Board {
                screws,
                ..Board::default()
            };
            check(&Workpiece::of(&board).unwrap()).len()
        };
        assert_eq!(with(100.0, 10.0), 0);
        assert_eq!(with(100.0, 20.0), 1);
        assert_eq!(with(638.0, 10.0), 1);
        assert_eq!(with(632.0, 10.0), 1);
        // Four screws of 4 mm on so small a circle leave 2.95 mm, or meet.
        assert_eq!(with(9.83, 10.0), 1);
        assert_eq!(with(5.0, 10.0), 1);
        assert_eq!(with(680.0, 25.0), 2);
    }

    #[test]
    fn screws_keep_off_the_top_face_and_off_glue_lines() {
        let found = |depth, bearing| {
            let mut board = Board {
                screws: vec![board::ScrewCircle {
                    depth,
                    bearing,
                    ..board::ScrewCircle::default()
                }],
                ..Board::default()
            };
            board.panel.build = Build::Halves;
            let found = check(&Workpiece::of(&board).unwrap());
            found
                .into_iter()
                .map(|found| found.message)
                .collect::<Vec<_>>()
        };
        assert_eq!(found(10.0, 45.0), Vec::<String>::new());
        let floor = Board::default().limits.floor;
        assert!(found(20.0 - floor + 0.1, 45.0)[0].contains("below the top face"));
        // Two of four lie on the seam.
        assert!(found(10.0, 90.0)[0].starts_with("2 screws are in a glue line"));
    }

    #[test]
    fn common_tenons_fit_and_bad_ones_are_reported() {
        let common = Tenons::default();
        assert_eq!(with(common, 3), []);
        let deep = Tenons {
            below_top: 15.0,
            ..common
        };
        assert_eq!(with(deep, 3), [Severity::Stop]);
        let close = Tenons {
            spacing: 30.0,
            ..common
        };
        assert_eq!(with(close, 3), [Severity::Stop]);
        let wide = Tenons {
            // At 325 / 3 from the middle the edge of the board is 301 to the side.
            spacing: 298.0,
            ..common
        };
        assert_eq!(with(wide, 3), [Severity::Caution]);
        assert_eq!(with(common, 20)[0], Severity::Stop);
    }
}
