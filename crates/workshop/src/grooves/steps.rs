//! Routing V-grooves by hand: the rings about the pin, and all others.

use board::{Grooves, Measure, Role};

use crate::finish::list;
use crate::jig::steps::{grooves_by_machine, ring_on_pin};
use crate::job::{Method, Operation, Task, counted};
use crate::{Caution, Workpiece, groove_depth, passes};

/// The grooves that a hand-held router cuts.
pub fn operations(workpiece: &Workpiece) -> Vec<Operation> {
    let board = workpiece.board();
    let Some(wanted) = board.grooves.filter(|_| !grooves_by_machine(board)) else {
        return Vec::new();
    };
    let mut all = Vec::new();
    if ring_on_pin(board) {
        all.push(ring(workpiece));
    }
    if besides_the_ring(&wanted) {
        all.push(grooves(workpiece));
    }
    all
}

/// Whether there are grooves other than rings about the pin.
pub fn besides_the_ring(wanted: &Grooves) -> bool {
    wanted.track
        || wanted.home
        || wanted.around_home.is_some()
        || wanted.around_start.is_some()
        || wanted.rings.is_some()
        || wanted.sectors_from.is_some()
}

/// The settings of the V bit.
pub fn set(workpiece: &Workpiece) -> Option<String> {
    let wanted = workpiece.board().grooves?;
    let depth = groove_depth(&wanted);
    if depth <= 0.0 {
        // The findings report it too, but a depth of 0 or less would read like a setting.
        return Some(
            "This V bit's tip is as wide as the groove, and cuts no V: use a sharper bit.".into(),
        );
    }
    Some(format!(
        "V bit of {}, wider than the grooves: they are {} wide and {} deep, in {}; try it on scrap.",
        Measure::degrees(wanted.angle).shown(workpiece.units()),
        workpiece.length(wanted.width),
        Measure::mm(depth).shown(workpiece.units()),
        counted(passes(depth, wanted.pass), "pass", "passes"),
    ))
}

/// Routing the rings about the pin, on a trammel.
///
/// They are the only grooves that turn on the pin, and so the only ones to be cut before the pin's hole is drilled out.
fn ring(workpiece: &Workpiece) -> Operation {
    let wanted = workpiece.board().grooves.unwrap_or_default();
    let border = wanted.rim.map(|inside| {
        format!(
            "Set the trammel so that {} of wood stays between the ring and the roundover, and go around pass by pass.",
            workpiece.length(inside)
        )
    });
    let middle = wanted.middle.map(|off| {
        format!(
            "Set the trammel so that the ring around the middle begins {} from the center of the pin, and go around pass \
             by pass.",
            workpiece.length(off)
        )
    });
    Operation {
        sums: &["grooves"],
        ..Operation::of(Task::PinRings)
    }
    .with("router on a trammel, V bit, the pin in its hole", 20.0)
    .minding(&[Caution::Router])
    .says(set(workpiece))
    .says(border)
    .says(middle)
}

/// Routing all other grooves.
fn grooves(workpiece: &Workpiece) -> Operation {
    Operation {
        sums: &["grooves"],
        ..Operation::of(Task::Grooves)
    }
    .with("router, V bit, straightedge and guides", 90.0)
    .minding(&[Caution::Router])
    .says(set(workpiece))
    .says(drawn(workpiece))
    .says(stopped(workpiece))
}

/// Whether the paper template lies on the wood before these grooves are cut, so that they can be marked through it.
fn has_template(workpiece: &Workpiece) -> bool {
    Method::of(workpiece.board()) == Method::Template
}

/// The sentence on marking grooves through the paper while it still lies on the wood; none where no groove is cut by those marks.
///
/// Only the punch marks of the holes stay on the wood once the sheets are off. Common practice, no source.
pub fn through_template(workpiece: &Workpiece) -> Option<String> {
    let by_hand = workpiece.board().grooves.filter(besides_the_ring)?;
    has_template(workpiece).then(|| {
        let curves = by_hand.around_home.is_some() || by_hand.around_start.is_some() || by_hand.rings.is_some();
        let traced = if curves {
            ", and trace outlines and rings with a stylus over carbon paper"
        } else {
            ""
        };
        format!(
            "Before the sheets come off, mark the grooves: cut through the paper with a knife at both ends of every line{traced}."
        )
    })
}

/// The sentences on where the grooves run: by the marks of the template, or drawn from the holes where there is none.
fn drawn(workpiece: &Workpiece) -> Vec<String> {
    if has_template(workpiece) {
        return vec!["Draw each line between the marks made through the template, and rout along a straightedge.".into()];
    }
    let Some(wanted) = workpiece.board().grooves else {
        return Vec::new();
    };
    let length = |mm| workpiece.length(mm);
    let outline = |around: Option<f64>, whose: &str| {
        around.map(|wood| {
            format!(
                "an outline around the holes of each {whose}, {} of wood between",
                length(wood)
            )
        })
    };
    let ring = wanted.rings.map(|rings| {
        let on: Vec<&str> = Role::ALL.into_iter().filter(|role| rings.of(*role)).map(Role::id).collect();
        format!(
            "with a compass on a plug in the hole, a ring around the holes of {}, {} of wood between",
            list(&on),
            length(rings.gap)
        )
    });
    let sectors = wanted.sectors_from.map(|from| {
        format!(
            "a line midway between the axes of each two players, from {} off the center outward",
            length(from)
        )
    });
    let lines = [
        wanted.track.then(|| {
            "from each track space to the next, along a straightedge over the middles of both"
                .to_owned()
        }),
        wanted
            .home
            .then(|| "from each home lane's track space along the lane, hole by hole".to_owned()),
        outline(wanted.around_home, "home lane"),
        outline(wanted.around_start, "start pocket"),
        ring,
        sectors,
    ];
    let lines: Vec<String> = lines.into_iter().flatten().collect();
    vec![format!(
        "Draw the grooves on the wood first: {}.",
        lines.join("; ")
    )]
}

/// The sentence on how far lines stop from holes; none without lines.
fn stopped(workpiece: &Workpiece) -> Option<String> {
    let wanted = workpiece.board().grooves?;
    let has_lines = wanted.track || wanted.home || wanted.sectors_from.is_some();
    has_lines.then(|| {
        if wanted.stop <= 0.0 {
            return "Stop each line at the rim of its hole: a stop block at each end.".to_owned();
        }
        format!(
            "Stop each line so that {} of wood stays between its end and the rim of the hole: a stop block at each end.",
            workpiece.length(wanted.stop)
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, DrillingMethod, Rings};

    fn told(board: &Board) -> String {
        let workpiece = Workpiece::of(board).unwrap();
        let all = operations(&workpiece);
        all.iter()
            .flat_map(|one| one.work.clone())
            .collect::<Vec<_>>()
            .join(" ")
    }

    /// With the sheets off, nothing on the wood shows a groove, and other methods print no sheets at all.
    #[test]
    fn grooves_are_marked_through_the_template_or_drawn_from_the_holes() {
        let mut board = Board {
            grooves: Some(Grooves {
                sectors_from: Some(40.0),
                rings: Some(Rings::default()),
                around_start: Some(3.0),
                ..Grooves::default()
            }),
            ..Board::default()
        };
        let through = |board: &Board| through_template(&Workpiece::of(board).unwrap());
        assert!(through(&board).unwrap().contains("carbon paper"));
        assert!(told(&board).contains("marks made through the template"));
        assert!(told(&board).contains("1.5 mm of wood stays"));
        board.method = DrillingMethod::Pivot;
        assert_eq!(through(&board), None);
        let drawn = told(&board);
        for part in [
            "from each track space to the next",
            "around the holes of each start pocket, 3 mm of wood",
            "a ring around the holes of center, 1.5 mm",
            "from 40 mm off the center",
        ] {
            assert!(drawn.contains(part), "{part} in {drawn}");
        }
        assert!(!drawn.contains("template"), "{drawn}");
        board.grooves = Some(Grooves::default());
        board.method = DrillingMethod::Template;
        assert!(!through(&board).unwrap().contains("carbon"));
        board.grooves = None;
        assert_eq!(through(&board), None);
    }
}
