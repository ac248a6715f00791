//! Rule: the router's bit is long enough for bore and hardboard, and its shank keeps out of both.
//!
//! The template raises the router off the wood by its own thickness, so a bit that is long enough without a template may be too
//! short with one. Three sizes decide it, each measured with a rule: how far the bit extends when the router is fully plunged,
//! how long its cutting edges are, and how thick its shank is.

use board::{Hole, INCH, Measure, Router, counted, with_article};

use crate::Workpiece;
use crate::check::{Finding, HAIR, Rule, Severity};
use crate::hardboard::router::{plunge, routed};

pub const STATEMENT: &str = "The bit stands out below the router's base by the depth of the deepest hole plus the \
     thickness of the hardboard. Its cutting edges are as long as the hole is deep; where the shank does not fit the \
     guide bushing, they reach through the bushing too. A shank wider than the bit stays out of the hole. Sizes that \
     were not entered are not checked. The walls of a bushing are assumed to be {0.8 mm|1/32\"} (from memory: \
     measure its bore).";

/// The thinnest wall of usual bushings, mm.
const WALL: f64 = INCH / 32.0;

/// A finding about how far the bit extends, and one about its edges and its shank.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let Some(router) = workpiece.board().router else {
        return Vec::new();
    };
    let found = [
        short(workpiece, router),
        shank(workpiece, router).or_else(|| edges(workpiece, router)),
    ];
    found.into_iter().flatten().collect()
}

/// A bit that does not reach the floor of the deepest bores.
///
/// The shank stays in its collet as deep as the router's manual says: a bit is never pulled out to reach farther.
fn short(workpiece: &Workpiece, router: Router) -> Option<Finding> {
    let out = router.stands_out?;
    let deep = |hole: &&Hole| plunge(hole.bore, router) > out + HAIR;
    let holes: Vec<&Hole> = routed(workpiece.layout()).filter(deep).collect();
    let most = deepest_plunge(&holes, router)?;
    let length = |mm| Measure::mm(mm).shown(workpiece.units());
    let message = format!(
        "The bit stands out {}; {} {} through the hardboard. Use a longer bit, thinner hardboard, or a router that plunges \
         deeper.",
        length(out),
        counted(holes.len(), "hole needs", "holes need"),
        length(most)
    );
    Some(stop(message, out, most, &holes))
}

/// The largest plunge for these holes, mm; `None` without holes.
fn deepest_plunge(holes: &[&Hole], router: Router) -> Option<f64> {
    let plunges = holes.iter().map(|hole| plunge(hole.bore, router));
    plunges.max_by(f64::total_cmp)
}

/// A shank that does not fit the bushing, so that only the narrow part of the bit reaches below the router's base.
///
/// Bits with a bearing and small bits on a thick shank are like that. Only the part narrower than the inside of the bushing can
/// pass through it, and that part is as long as the cutting edges.
fn shank(workpiece: &Workpiece, router: Router) -> Option<Finding> {
    let (shank, edges) = (router.shank?, router.edges?);
    let inside = router.bushing - 2.0 * WALL;
    if shank <= inside + HAIR {
        return None;
    }
    let deep = |hole: &&Hole| plunge(hole.bore, router) > edges + HAIR;
    let holes: Vec<&Hole> = routed(workpiece.layout()).filter(deep).collect();
    let most = deepest_plunge(&holes, router)?;
    let length = |mm| Measure::mm(mm).shown(workpiece.units());
    let message = format!(
        "The {} shank does not go into {}, and the bit below it is {} long, where {} {}. Use a bit with a \
         smaller shank or longer edges, or a larger bushing.",
        length(shank),
        with_article(&format!("{} bushing", length(router.bushing))),
        length(edges),
        counted(holes.len(), "hole needs", "holes need"),
        length(most)
    );
    Some(stop(message, edges, most, &holes))
}

/// Cutting edges shorter than the bores are deep: a wider shank would hit the wood, and one no wider would burn it.
///
/// Where the bit is guided around a bore wider than itself, the shank touches the rim too: it is as far off center as the bit.
fn edges(workpiece: &Workpiece, router: Router) -> Option<Finding> {
    let edges = router.edges?;
    let deep = |hole: &&Hole| hole.bore.depth > edges + HAIR;
    let holes: Vec<&Hole> = routed(workpiece.layout()).filter(deep).collect();
    let depths = holes.iter().map(|hole| hole.bore.depth);
    let most = depths.max_by(f64::total_cmp)?;
    let length = |mm| Measure::mm(mm).shown(workpiece.units());
    let cutting = length(edges);
    let count = |one, many| counted(holes.len(), one, many);
    let wide = router.shank.filter(|shank| *shank > router.bit + HAIR);
    if let Some(shank) = wide {
        let message = format!(
            "The cutting edges are {cutting} long, and the {} shank hits the rim of {} up to {} deep. Use a bit with longer \
             edges.",
            length(shank),
            count("hole", "holes"),
            length(most)
        );
        return Some(stop(message, edges, most, &holes));
    }
    let message = format!(
        "The cutting edges are {cutting} long, and {} up to {} deep: the shank rubs and burns there. Use a bit with longer \
         edges, or raise it often to clear chips.",
        count("hole is", "holes are"),
        length(most)
    );
    let names = holes.iter().map(|hole| hole.name).collect();
    Some(
        Finding::new(Severity::Caution, Rule::RouterBit, message)
            .measuring(Measure::mm(edges), Measure::mm(most))
            .about(names),
    )
}

/// A stop about some holes, with a length's actual and required value, mm.
fn stop(message: String, is: f64, wanted: f64, holes: &[&Hole]) -> Finding {
    Finding::new(Severity::Stop, Rule::RouterBit, message)
        .measuring(Measure::mm(is), Measure::mm(wanted))
        .about(holes.iter().map(|hole| hole.name).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;

    /// The findings for bores 5 mm deep under hardboard of 6 mm: a plunge of 11 mm.
    fn severities(router: Router) -> Vec<Severity> {
        let board = Board {
            router: Some(router),
            ..Board::default()
        };
        let found = check(&Workpiece::of(&board).unwrap());
        found.iter().map(|found| found.severity).collect()
    }

    #[test]
    fn a_bit_reaches_through_the_hardboard_to_the_floor() {
        let out = |stands_out| {
            severities(Router {
                stands_out,
                ..Router::default()
            })
        };
        assert_eq!(out(None), []);
        assert_eq!(out(Some(11.0)), []);
        assert_eq!(out(Some(7.0 / 16.0 * INCH)), []);
        assert_eq!(out(Some(10.9)), [Severity::Stop]);
        assert_eq!(severities(Router::default()), []);
        assert_eq!(check(&Workpiece::of(&Board::default()).unwrap()), []);
    }

    #[test]
    fn edges_are_as_long_as_the_bore_is_deep() {
        let edged = |edges, shank| {
            severities(Router {
                edges: Some(edges),
                shank,
                ..Router::default()
            })
        };
        assert_eq!(edged(5.0, None), []);
        assert_eq!(edged(4.9, None), [Severity::Caution]);
        assert_eq!(edged(4.9, Some(12.0)), [Severity::Caution]);
        assert_eq!(edged(4.9, Some(INCH / 2.0)), [Severity::Stop]);
        assert_eq!(edged(5.0, Some(INCH / 2.0)), []);
    }

    /// A bushing of 16 mm has an inside diameter of 16 mm − 1/16 in = 14.41 mm.
    #[test]
    fn a_shank_wider_than_the_bushing_needs_edges_as_long_as_the_plunge() {
        let held = |edges, shank| {
            severities(Router {
                edges: Some(edges),
                shank: Some(shank),
                ..Router::default()
            })
        };
        assert_eq!(held(5.0, 14.4), []);
        assert_eq!(held(11.0, 14.5), []);
        assert_eq!(held(10.9, 14.5), [Severity::Stop]);
    }
}
